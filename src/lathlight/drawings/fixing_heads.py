"""How the sheets and mouldings of one wall are held, drawn on its face: timber behind, beads, heads, brads, call-outs.

Every head and brad of the plan is drawn once, at its own place. What holds flats together is left to ``fixing_joints``.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING

from lathlight.drawings.fixing_marks import (
    RING,
    SWATCH,
    Entry,
    cross,
    crossed_ring,
    kept_clear,
    line_sample,
    ring,
    tick,
)
from lathlight.drawings.labels import words_in
from lathlight.drawings.outlines import bounds_of, openings_of, rectangle
from lathlight.drawings.sheets import Line, Path, Pen
from lathlight.drawings.text import LEADING, NOTE_SIZE
from lathlight.units import run_length

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from lathlight.carpentry import BuiltWall, SheetPiece
    from lathlight.drawings.labels import Taken
    from lathlight.drawings.outlines import Ring
    from lathlight.drawings.sheets import Item, Point, Text
    from lathlight.fixing import Head, SheetFixing, StripFixing
    from lathlight.mouldings import Strip
    from lathlight.plan import Plan
    from lathlight.units import LengthStyle

THICK = 0.6  # half the box round a bead that words keep off [mm of paper]
SPOT_HEIGHTS = (0.62, 0.55, 0.7, 0.48, 0.78, 0.4, 0.32, 0.85, 0.25, 0.18, 0.92, 0.12)  # where call-outs are tried
FASTENERS = {"glue": "screw", "screws": "screw", "pins": "pin"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Held:
    """What holds one wall's sheets and mouldings."""

    wall: BuiltWall
    marks: dict[str, str]  # of sheet pieces, by id
    pieces: tuple[SheetPiece, ...]
    sheets: tuple[SheetFixing, ...]
    strips: tuple[Strip, ...]
    mouldings: tuple[StripFixing, ...]

    @property
    def heads(self) -> tuple[Head, ...]:
        """Screws and pins of the sheets."""
        return tuple(head for sheet in self.sheets for head in sheet.heads)

    @property
    def screws(self) -> tuple[Head, ...]:
        """Screws through mouldings."""
        return tuple(head for each in self.mouldings for head in each.screws)


def held_of(plan: Plan, wall: BuiltWall) -> Held:
    """Return what holds a wall's sheets and mouldings."""
    return Held(
        wall=wall,
        marks={piece.id: f"{flat.mark}-{piece.mark}" for flat in wall.flats for piece in flat.pieces},
        pieces=tuple(piece for flat in wall.flats for piece in flat.pieces),
        sheets=tuple(sheet for sheet in plan.fixing.sheets if sheet.wall == wall.name),
        strips=tuple(strip for strip in plan.strips if strip.wall == wall.name),
        mouldings=tuple(each for each in plan.fixing.strips if each.wall == wall.name),
    )


def face_marks(held: Held, scale: float) -> list[Item]:
    """Return the wall's timber, sheets, mouldings, beads, heads and brads."""
    members = (member for flat in held.wall.flats for member in flat.members if member.role != "wedge")
    items: list[Item] = [
        Path(points=rectangle(m.x, m.z, m.x + m.wide, m.z + m.high), closed=True, pen=Pen.BEHIND) for m in members
    ]
    items += [Path(points=rectangle(s.x0, s.z0, s.x1, s.z1), closed=True, pen=Pen.LIGHT) for s in held.strips]
    items += [Line(a=bead.start, b=bead.end, pen=Pen.GLUE) for sheet in held.sheets for bead in sheet.beads]
    items += [Path(points=r, closed=True, pen=Pen.OUTLINE) for p in held.pieces for r in (p.outline, *p.holes)]
    for head in held.heads:
        items += ring(head.at, scale) if head.hidden_by is None else cross(head.at, scale)
    items += _brads(held, scale)
    for head in held.screws:
        items += crossed_ring(head.at, scale)
    return items


def _brads(held: Held, scale: float) -> Iterator[Item]:
    upright = {strip.id: strip.upright for strip in held.strips}
    for each in held.mouldings:
        for brad in each.shot:
            yield from tick(brad.at, scale, upright=upright[each.strip])


def marked_places(held: Held) -> Iterator[Point]:
    """Yield where heads, brads and screws stand."""
    yield from (head.at for head in (*held.heads, *held.screws))
    yield from (brad.at for each in held.mouldings for brad in each.shot)


def face_entries(held: Held, scale: float) -> Iterator[Entry]:
    """Yield the legend of what is drawn on the face."""
    what = " or ".join(dict.fromkeys(FASTENERS[sheet.mode] for sheet in held.sheets))
    origin = (0.0, 0.0)
    if any(head.hidden_by is not None for head in held.heads):
        yield Entry(sample=cross(origin, scale), half=RING, words=f"{what}, covered by a moulding")
    if any(sheet.seen for sheet in held.sheets):
        yield Entry(sample=ring(origin, scale), half=RING, words=f"{what}, its head filled")
    if held.screws:
        yield Entry(sample=crossed_ring(origin, scale), half=RING, words="screw through a moulding that comes off")
    if any(each.shot for each in held.mouldings):
        yield Entry(sample=tick(origin, scale, upright=False), half=RING, words="brad")
    if any(sheet.beads for sheet in held.sheets):
        yield Entry(sample=line_sample(Pen.GLUE, scale), half=SWATCH / 2, words="bead of glue")
    yield Entry(sample=line_sample(Pen.BEHIND, scale), half=SWATCH / 2, words="timber behind")
    if held.strips:
        yield Entry(sample=line_sample(Pen.LIGHT, scale), half=SWATCH / 2, words="moulding")


def obstacles(held: Held, scale: float) -> tuple[list[Ring], list[Ring]]:
    """Return what words never cover (marks, beads), and what they cover only where they must (timber, mouldings)."""
    hard = [*kept_clear(marked_places(held), scale)]
    hard += [rectangle(*_grown(bead.start, bead.end, THICK * scale)) for s in held.sheets for bead in s.beads]
    hard += [rectangle(x, z, x + w, z + h) for x, z, w, h in (o.rough for o in openings_of(held.wall))]
    soft = [rectangle(s.x0, s.z0, s.x1, s.z1) for s in held.strips]
    soft += [rectangle(m.x, m.z, m.x + m.wide, m.z + m.high) for flat in held.wall.flats for m in flat.members]
    return hard, soft


def _grown(a: Point, b: Point, by: float) -> tuple[float, float, float, float]:
    return min(a[0], b[0]) - by, min(a[1], b[1]) - by, max(a[0], b[0]) + by, max(a[1], b[1]) + by


def call_outs(held: Held, taken: Taken, uncovered: Taken, style: LengthStyle, scale: float) -> list[Text]:
    """Return how every sheet piece is held in words on it, where they have room; the table names all of them.

    Parameters
    ----------
    held
        What is drawn.
    taken
        What no words cover.
    uncovered
        What they cover only where nothing else is free: timber, mouldings.
    style, scale
        As everywhere.
    """
    pieces = {piece.id: piece for piece in held.pieces}
    found: list[Text] = []
    for sheet in held.sheets:
        lines = sheet_lines(sheet, held.marks[sheet.piece], style)
        for words in (lines, lines[:1]):
            spots = list(_boxes(held.wall, pieces[sheet.piece], len(words), scale))
            own = _call_out(words, spots, taken, uncovered, scale)
            if own:
                found += own
                break
    return found


def _call_out(
    lines: Sequence[str], spots: Sequence[tuple[Point, Point]], taken: Taken, uncovered: Taken, scale: float
) -> tuple[Text, ...]:
    """Return words in the first spot where they cover nothing, unbroken if they can be, else timber and mouldings."""
    others: list[tuple[bool, tuple[Text, ...]]] = []  # broken, or on what they would rather not cover
    for low, high in spots:
        stack = words_in(lines, low=low, high=high, scale=scale, bold_first=True)
        clear = all(map(uncovered.is_free, stack))
        if clear and len(stack) == len(lines) and taken.all_free(stack):
            return stack
        others.append((not clear, stack))
    others.sort(key=lambda pair: pair[0])
    return next((stack for _, stack in others if taken.all_free(stack)), ())


def _boxes(wall: BuiltWall, piece: SheetPiece, lines: int, scale: float) -> Iterator[tuple[Point, Point]]:
    """Yield boxes for a call-out: in the bays between uprights behind a piece, the widest first, then over them."""
    x0, z0, x1, z1 = bounds_of(piece.outline)
    half = (lines / 2 + 0.6) * LEADING * NOTE_SIZE * scale
    uprights = sorted(
        (m.x, m.x + m.wide)
        for flat in wall.flats
        for m in flat.members
        if m.upright and m.x + m.wide > x0 and m.x < x1 and m.z < z1 and m.z + m.high > z0
    )
    edges = [(x0, x0), *uprights, (x1, x1)]
    bays = [(a, b) for (_, a), (b, _) in pairwise(edges) if b > a]
    bays.sort(key=lambda bay: (-round(bay[1] - bay[0], 3), bay[0]))
    for left, right in (*bays, (x0, x1)):
        for share in SPOT_HEIGHTS:
            z = z0 + share * (z1 - z0)
            yield (left, max(z - half, z0)), (right, min(z + half, z1))


def sheet_lines(sheet: SheetFixing, mark: str, style: LengthStyle) -> list[str]:
    """Return a sheet's mark and how it is held, a line each: heads, bead, what holds it meanwhile, hours."""
    lines = [mark]
    if sheet.heads:
        lines.append(counted(len(sheet.heads), FASTENERS[sheet.mode]))
    if sheet.seen:
        lines.append(f"{len(sheet.seen)} filled")
    if sheet.beads:
        lines.append(f"{run_length(sheet.bead_length, style=style)} bead")
    if sheet.clamping is not None:
        number = sheet.clamping.number
        lines += [counted(number, sheet.clamping.held.removesuffix("s")), f"{sheet.clamping.hours:g} h"]
    return lines


def counted(number: int, what: str) -> str:
    """Return a number of things in words.

    Examples
    --------
    >>> counted(1, "screw"), counted(12, "screw")
    ('1 screw', '12 screws')
    """
    return f"{number} {what}" if number == 1 else f"{number} {what}s"


def sheet_rows(held: Held, style: LengthStyle) -> Sequence[tuple[str, ...]]:
    """Return a row a sheet piece: mark, heads covered and filled, bead, what holds it meanwhile, hours."""
    rows: list[tuple[str, ...]] = []
    for sheet in held.sheets:
        seen = len(sheet.seen)
        what = FASTENERS[sheet.mode]
        covered = len(sheet.heads) - seen
        clamping = sheet.clamping
        rows.append(
            (
                held.marks[sheet.piece],
                counted(covered, what) if covered else "",
                counted(seen, what) if seen else "",
                run_length(sheet.bead_length, style=style) if sheet.beads else "",
                "" if clamping is None else counted(clamping.number, clamping.held.removesuffix("s")),
                "" if clamping is None else f"{clamping.hours:g} h",
            )
        )
    return rows
