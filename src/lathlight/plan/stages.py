"""From a Brief to a Plan: each stage with exactly the values it needs, remembered by their content.

A comment, or an edit of a light, re-runs no carpentry: the stages below never see it.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from lathlight.camera import Aim, MiddleLine, middle_lines
from lathlight.carpentry import (
    BuiltWall,
    Corner,
    Lap,
    LapChoice,
    OnSale,
    WallEnd,
    WallJob,
    board_parts,
    build_light_wall,
    build_wall,
    choose_laps,
    choose_together,
    chosen_style,
    free_end,
    groups_of,
    join_corner,
    panel_lines,
    problems_of_all,
    saw_cuts,
    sheet_job_of,
    sheet_parts,
    thickness,
    timber_lines,
    wall_end,
)
from lathlight.errors import InputError, Problem
from lathlight.layout import colliding, footprint, lay_out_walls, place_set
from lathlight.passage import flat_passage, widest_that_passes
from lathlight.plan.cache import Memo
from lathlight.plan.dressing import derive_dressing
from lathlight.plan.dressing_figures import dressing_quantities
from lathlight.plan.figures import quantities_of
from lathlight.plan.marks import wall_marks
from lathlight.plan.model import Plan
from lathlight.plan.moulding_cuts import moulding_cuts
from lathlight.plan.sawing import boards_to_buy, derive_sawing, moulding_stocks, sheets_to_buy
from lathlight.plan.takeoff import derive_takeoff
from lathlight.progress import Quiet
from lathlight.units import snap_up

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from lathlight.layout import Layout
    from lathlight.passage import FlatPassage
    from lathlight.progress import Progress
    from lathlight.project import Brief, CornerBrief, PictureBrief, RoomBrief, SitterBrief, WallBrief


MOST_STOREYS = 3  # a wall is split in height into so many at most
LEAST_WIDE = 400.0  # a flat narrower than this is not worth framing [mm], common practice


def derive(brief: Brief, *, memo: Memo | None = None, progress: Progress | None = None) -> Plan:
    """Return the Plan that follows from a Brief.

    Parameters
    ----------
    memo
        Remembers stages between calls; a fresh one where not given.
    progress
        Told how far the work is.

    Raises
    ------
    InputError
        An opening that no frame can be made for.
    """
    memo = memo if memo is not None else Memo()
    progress = progress if progress is not None else Quiet()
    layout = _layout(brief, memo)
    middles = memo.run("middle lines", middle_lines, layout.walls, _aims(brief.pictures, brief.sitters))
    walls, choices = _walls(brief, middles, memo, progress)
    corners = tuple(
        _corner(brief, layout, choice, pair, left, right)
        for choice, pair, left, right in zip(choices, brief.corners, walls, walls[1:], strict=False)
    )
    flats = tuple(flat for wall in walls for flat in wall.flats)
    passages = tuple(_passage(flat.id, flat.width, flat.height, flat.depth, brief.room, memo) for flat in flats)
    on_sale = OnSale(
        lumber=tuple(brief.catalog.lumber.values()), sheets=tuple(brief.catalog.sheets.values()), style=brief.style
    )
    timber, panels = timber_lines(flats, corners, on_sale), panel_lines(flats, on_sale)
    dressing = derive_dressing(brief, walls, corners, layout, middles, memo)
    mouldings = moulding_cuts(dressing.trim, dressing.casings, dressing.frames)
    parts = board_parts(flats, corners, on_sale), sheet_parts(flats, on_sale)
    sawing = derive_sawing(brief, *parts, mouldings, memo)
    boards, sheets = boards_to_buy(sawing, brief), sheets_to_buy(sawing, brief.saw.kerf)
    takeoff = derive_takeoff(
        brief,
        cut=(*timber, *panels),
        boards=boards,
        sheets=sheets,
        mouldings=moulding_stocks(sawing, mouldings),
        trim=dressing.trim,
        frames=dressing.frames,
        ends=dressing.ends,
        fixing=dressing.fixing.takeoff,
        boxes={count.name: count.box for count in dressing.fixing.hardware},
        floor=dressing.floor,
        finish=dressing.finish,
    )
    progress.report(done=1.0, text="plan done")
    return Plan(
        brief=brief,
        layout=layout,
        corners=corners,
        walls=walls,
        passages=passages,
        timber=timber,
        panels=panels,
        boards=boards,
        sheets=sheets,
        sawing=sawing,
        cut_sheets=sawing.cut_sheets,
        trim=dressing.trim,
        casings=dressing.casings,
        ends=dressing.ends,
        frames=dressing.frames,
        strips=dressing.strips,
        marking=dressing.marking,
        floor=dressing.floor,
        fixing=dressing.fixing,
        finish=dressing.finish,
        takeoff=takeoff,
        quantities=(
            *quantities_of(walls=walls, boards=boards, sheets=sheets, layout=layout),
            *dressing_quantities(dressing, takeoff),
        ),
    )


def _layout(brief: Brief, memo: Memo) -> Layout:
    walls = memo.run(
        "layout",
        lay_out_walls,
        names=tuple(w.name for w in brief.walls),
        lengths=tuple(w.length for w in brief.walls),
        heights=tuple(w.height for w in brief.walls),
        angles=tuple(c.angle for c in brief.corners),
    )
    _refuse_collisions(brief, memo.run("collisions", colliding, footprint(walls, _depths(brief))))
    return place_set(
        walls,
        depths=tuple(depth + brief.hardware.corner_plate.thickness for depth in _depths(brief)),
        room=brief.room.outline,
        at=brief.place.at,
        turn=brief.place.turn,
        clear_behind=brief.place.clear_behind,
    )


def _depths(brief: Brief) -> tuple[float, ...]:
    return tuple(thickness(w).total for w in brief.walls)


def _refuse_collisions(brief: Brief, pairs: Sequence[tuple[int, int]]) -> None:
    """Raise where walls run into each other behind or across their faces."""
    names = [w.name for w in brief.walls]
    problems = [
        Problem(
            place=f'walls "{names[b]}"',
            found=f'its sheet or frame runs into wall "{names[a]}"',
            expected="walls that meet at their common corners only",
            remedy="Open the corner angles between them, or shorten one of the two.",
        )
        for a, b in pairs
    ]
    if problems:
        raise InputError(problems)


def _aims(pictures: Sequence[PictureBrief], sitters: Sequence[SitterBrief]) -> tuple[Aim, ...]:
    """Return the pictures' aims and the set's axis past every sitter."""
    aims = [
        Aim(
            picture=p.name,
            sitter=(p.sitter.right, -p.sitter.forward),
            angles=tuple(sorted({p.angles[0], sum(p.angles) / 2, p.angles[1]})),
        )
        for p in pictures
    ]
    aims += [Aim(picture=f"axis of {s.name}", sitter=(s.right, -s.forward), angles=(0.0,)) for s in sitters]
    return tuple(aims)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Bench:
    """What all walls of a set share while they are built."""

    brief: Brief
    memo: Memo
    marks: tuple[str, ...]
    keep_off: dict[str, tuple[float, ...]]

    def job(self, index: int, choices: Sequence[LapChoice]) -> WallJob:
        """Return one wall's job under the choices of all corners."""
        brief, wall = self.brief, self.brief.walls[index]
        depth = thickness(wall).total + brief.hardware.corner_plate.thickness
        highest, passing = self._way_in(wall.height, depth)
        return WallJob(
            wall=wall,
            mark=self.marks[index],
            left=self._end(index, choices, at_right=False),
            right=self._end(index, choices, at_right=True),
            keep_off=self.keep_off.get(wall.name, ()),
            max_width=min(brief.limits.max_width, passing) if passing > 0 else brief.limits.max_width,
            max_height=highest,
            max_weight=brief.limits.max_weight,
            weight_stated="max_weight" not in brief.limits.assumed,
            passes=passing > 0,
            corner_plate=brief.hardware.corner_plate,
            sill_strap=brief.hardware.sill_strap,
            kerf=brief.saw.kerf,
            trim_cut=brief.saw.trim_cut,
            grid=brief.style,
            pictures_first=brief.seams == "save pictures",
        )

    def _way_in(self, height: float, depth: float) -> tuple[float, float]:
        """Return the highest flat and the widest of that height that get in; a width of 0 where nothing does.

        A wall that comes in at no width is split in height, into two storeys or three.
        """
        brief = self.brief
        for storeys in range(1, MOST_STOREYS + 1):
            high = snap_up(min(height, brief.limits.max_height) / storeys, brief.style)
            wide = self.memo.run("way in", widest_that_passes, height=high, depth=depth, room=brief.room)
            if wide >= LEAST_WIDE:
                return (brief.limits.max_height if storeys == 1 else high), wide
        return brief.limits.max_height, 0.0

    def _end(self, index: int, choices: Sequence[LapChoice], *, at_right: bool) -> WallEnd:
        corner = index if at_right else index - 1
        if not 0 <= corner < len(choices):
            return free_end()
        other = index + 1 if at_right else index - 1
        choice, mine = choices[corner], "this" if at_right else "next"
        return wall_end(
            angle=self.brief.corners[corner].angle,
            style=choice.style,
            own=thickness(self.brief.walls[index]),
            other=thickness(self.brief.walls[other]),
            neighbour=self.brief.walls[other].name,
            frame_laps=choice.frame == mine,
            sheet_laps=choice.sheet == mine,
            grid=self.brief.style,
        )

    def build(self, index: int, choices: Sequence[LapChoice]) -> BuiltWall:
        """Return one wall built under the choices of all corners."""
        return self.memo.run("trial wall", build_wall, self.job(index, choices))

    def cuts(self, index: int, choices: Sequence[LapChoice]) -> int:
        """Return the saw cuts of one wall under the choices of all corners."""
        saw = self.brief.saw
        return saw_cuts(self.build(index, choices), kerf=saw.kerf, trim_cut=saw.trim_cut)


def _walls(
    brief: Brief, middles: Sequence[MiddleLine], memo: Memo, progress: Progress
) -> tuple[tuple[BuiltWall, ...], tuple[LapChoice, ...]]:
    names = tuple(w.name for w in brief.walls)
    bench = _Bench(brief=brief, memo=memo, marks=wall_marks(names), keep_off=_by_wall(middles))
    first = [_first_choice(c) for c in brief.corners]
    try:
        return _built(bench, first, progress)
    except InputError as error:  # the first wall that cannot be built: the others may have their own
        jobs = (bench.job(index, first) for index in range(len(names)))
        problems = problems_of_all(jobs, lambda job: memo.run("trial wall", build_wall, job))
        raise InputError(problems or error.problems) from error


def _built(
    bench: _Bench, first: Sequence[LapChoice], progress: Progress
) -> tuple[tuple[BuiltWall, ...], tuple[LapChoice, ...]]:
    brief, memo, choices = bench.brief, bench.memo, list(first)
    for index, corner in enumerate(brief.corners):
        choices[index] = _chosen(bench, choices, index, corner)
        progress.report(done=0.5 * (index + 1) / len(brief.walls), text=f"corner {corner.left} to {corner.right}")
    walls: list[BuiltWall] = []
    jobs = [bench.job(index, choices) for index in range(len(brief.walls))]
    for index, job in enumerate(_sheeted(jobs, memo)):
        walls.append(memo.run("wall", build_light_wall, job))
        progress.report(done=0.5 + 0.5 * (index + 1) / len(jobs), text=f"wall {job.wall.name}")
    return tuple(walls), tuple(choices)


def _sheeted(jobs: Sequence[WallJob], memo: Memo) -> Iterator[WallJob]:
    """Yield the walls' jobs with their sheets chosen together, group by group."""
    for group in groups_of(len(jobs)):
        own = [jobs[index] for index in group]
        chosen = memo.run("sheets together", choose_together, tuple(sheet_job_of(job) for job in own))
        yield from (replace(job, sheeting=sheeting) for job, sheeting in zip(own, chosen, strict=True))


def _by_wall(lines: Sequence[MiddleLine]) -> dict[str, tuple[float, ...]]:
    found: dict[str, tuple[float, ...]] = {}
    for line in lines:
        found[line.wall] = (*found.get(line.wall, ()), line.along)
    return found


def _first_choice(corner: CornerBrief) -> LapChoice:
    style = chosen_style(corner.angle, corner.style)
    frame: Lap = "this" if corner.frame_laps == "this" else "next"
    sheet: Lap = "this" if corner.sheet_laps == "this" else "next"
    return choose_laps(style=style, frame=frame, sheet=sheet, cuts=lambda _frame, _sheet: 0)


def _chosen(bench: _Bench, choices: Sequence[LapChoice], index: int, corner: CornerBrief) -> LapChoice:
    """Return the choice at one corner, those to its left settled, those to its right at the file's order."""

    def cuts(frame: Lap, sheet: Lap) -> int:
        tried = list(choices)
        tried[index] = replace(choices[index], frame=frame, sheet=sheet)
        return bench.cuts(index, tried) + bench.cuts(index + 1, tried)

    return choose_laps(style=choices[index].style, frame=corner.frame_laps, sheet=corner.sheet_laps, cuts=cuts)


def _corner(
    brief: Brief, layout: Layout, choice: LapChoice, pair: CornerBrief, left: BuiltWall, right: BuiltWall
) -> Corner:
    by_name: dict[str, WallBrief] = {w.name: w for w in brief.walls if w.name in (pair.left, pair.right)}
    return join_corner(
        angle=pair.angle,
        style=choice.style,
        frame_laps="left" if choice.frame == "this" else "right",
        sheet_laps="left" if choice.sheet == "this" else "right",
        left=left,
        right=right,
        left_thickness=thickness(by_name[pair.left]),
        right_thickness=thickness(by_name[pair.right]),
        left_line=layout.wall(pair.left),
        right_line=layout.wall(pair.right),
        screws=brief.hardware.corner_screws or (brief.hardware.corner_screw,),
        grid=brief.style,
        why=choice.why,
    )


def _passage(identity: str, width: float, height: float, depth: float, room: RoomBrief, memo: Memo) -> FlatPassage:
    found = memo.run("passage", flat_passage, "", width=width, height=height, depth=depth, room=room)
    return replace(found, flat=identity)
