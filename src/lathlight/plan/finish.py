"""The paint of a set from its brief, its built walls and its mouldings: what ``lathlight.finishing`` needs of them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from lathlight.finishing import (
    Covered,
    Field,
    Finish,
    FinishJob,
    MouldingBlock,
    MouldingLength,
    PaintRules,
    Surfaces,
    plan_finish,
)

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from lathlight.carpentry import BuiltWall
    from lathlight.mouldings import Casing, Strip
    from lathlight.plan.cache import Memo
    from lathlight.project import Brief, FinishBrief

FLUSH = ("wall end",)  # covers that lie beside the face, not on it; painted as the end that they cover


def derive_finish(
    brief: Brief, walls: Sequence[BuiltWall], strips: Sequence[Strip], memo: Memo, *, casings: Sequence[Casing] = ()
) -> Finish | None:
    """Return the paint of the set; None where it gets no coat of anything.

    Parameters
    ----------
    strips
        All mouldings as the rectangles of wall that they cover.
    casings
        For the curved heads over arches, which are no strips.
    """
    finish = brief.finish
    if not (finish.paint and finish.coats) and not (finish.primer and finish.primer_coats):
        return None
    on_faces = [s for s in strips if s.use not in FLUSH]
    job = FinishJob(
        walls=tuple(walls),
        mouldings=(
            *_lengths(on_faces, primed=finish.mouldings_primed),
            *_curves(casings, primed=finish.mouldings_primed),
        ),
        fields=tuple(_field(wall, on_faces, floor=brief.floor.rise) for wall in walls),
        surfaces=Surfaces(edges=finish.edges, backs=finish.backs),
        paint=finish.paint,
        coats=finish.coats,
        primer=finish.primer,
        primer_coats=finish.primer_coats,
        painted=finish.mouldings,
        flashed=finish.flashed,
        rules=PaintRules(raw_loss=finish.raw_loss, touch_up=finish.touch_up),
        at_hand=_at_hand(finish),
        roller=finish.roller,
        brush=finish.brush,
        blocks=tuple(_blocks(on_faces)),
    )
    return memo.run("finish", plan_finish, job)


def _at_hand(finish: FinishBrief) -> dict[str, float]:
    """Return the litres that are there already, by coating."""
    found: dict[str, float] = {}
    for paint, litres in ((finish.primer, finish.primer_at_hand), (finish.paint, finish.paint_at_hand)):
        if paint is not None and litres is not None:
            found[paint.name] = found.get(paint.name, 0.0) + litres
    return found


# --- mouldings ---------------------------------------------------------------------------------------------------


def _lengths(strips: Sequence[Strip], *, primed: bool) -> Iterator[MouldingLength]:
    """Yield how much of every moulding is on every wall, as it is fixed."""
    found: dict[tuple[str, str, str], list[Strip]] = {}
    for strip in strips:
        if strip.profile is not None:
            found.setdefault((strip.wall, strip.kind, strip.profile.name), []).append(strip)
    for (wall, kind, name), group in found.items():
        profile = group[0].profile
        assert profile is not None, "only mouldings with a profile are grouped"
        yield MouldingLength(
            id=f"{wall}/{kind} {name}",
            wall=wall,
            profile=profile,
            length=sum(_fixed_length(strip) for strip in group),
            primed=primed,
        )


def _fixed_length(strip: Strip) -> float:
    """Return a piece's length along the moulding's middle [mm]: level sides of a frame have their mitres added."""
    if strip.use == "moulding frame":
        return strip.length + (-strip.broad if strip.upright else strip.broad)
    return strip.length


def _curves(casings: Sequence[Casing], *, primed: bool) -> Iterator[MouldingLength]:
    for casing in casings:
        if casing.curve is not None:
            yield MouldingLength(
                id=casing.curve.id, wall=casing.wall, profile=casing.profile, length=casing.curve.length, primed=primed
            )


def _blocks(strips: Sequence[Strip]) -> Iterator[MouldingBlock]:
    for strip in strips:
        if strip.profile is None:
            yield MouldingBlock(
                id=strip.id,
                wall=strip.wall,
                wide=strip.x1 - strip.x0,
                high=strip.z1 - strip.z0,
                thick=strip.stands_out,
            )


# --- where the tools reach ---------------------------------------------------------------------------------------


def _field(wall: BuiltWall, strips: Sequence[Strip], *, floor: float) -> Field:
    """Return a wall's face with all that is on it; neighbours wall its sides in."""
    own = [_covered(strip) for strip in strips if strip.wall == wall.name]
    holes = [
        Covered(name=opening.name, x0=x, z0=z, x1=x + wide, z1=z + high, stands_out=False)
        for flat in wall.flats
        for opening in flat.openings
        for x, z, wide, high in (opening.rough,)
    ]
    return Field(
        wall=wall.name,
        length=wall.length,
        height=wall.height,
        walled_left=wall.left.kind != "free",
        walled_right=wall.right.kind != "free",
        covered=(*own, *holes),
        floor=floor,
    )


def _covered(strip: Strip) -> Covered:
    return Covered(name=_name(strip), x0=strip.x0, z0=strip.z0, x1=strip.x1, z1=strip.z1)


def _name(strip: Strip) -> str:
    """Return what a strip is called where a gap beside it is told of: a frame's four sides have one name."""
    match strip.use:
        case "moulding frame":
            return f"{strip.id.split('/')[-2]} of {strip.belongs_to}"
        case "casing" | "block":
            return f"{strip.kind} of {strip.belongs_to}"
        case "trim" | "wall end":
            return strip.belongs_to
