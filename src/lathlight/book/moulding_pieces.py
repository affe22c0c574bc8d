"""The typeset list of all mouldings to cut: trim, casing, moulding frames, then plain blocks and strips.

Rows of the trim are those of ``trim_pieces``. Decides how pieces that are alike are counted together; lengths and
settings of the saw are the plan's own.
"""

from __future__ import annotations

from collections import Counter
from itertools import groupby
from typing import TYPE_CHECKING

from lathlight.book.blocks import Chapter, Grid, Group, ListColumn, Words
from lathlight.book.trim_pieces import LEAD, piece_columns, trim_groups
from lathlight.book.words import listed, sentence
from lathlight.exports import length_words, saw_words
from lathlight.mouldings import frame_pieces
from lathlight.units import drawing_length, format_angle

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from lathlight.book.blocks import Block, Cell
    from lathlight.mouldings import Casing, CasingEnd, CasingPiece, FrameTier, MouldingFrame, MouldingLayout
    from lathlight.plan import Plan
    from lathlight.units import LengthStyle

CASED = "casing, cut flat on its back, outer edge to the fence"
LIES = "flat on its back, outer edge to the fence; "
MITRED = "four pieces to a frame, both ends mitred 45°, one cut of either hand, the outer edge longest"
WHOLE = "frames bought whole, width × height outside to outside"
JIG = (
    "Set a stop for pieces that are alike, and glue each frame up on a flat board, its two diagonals equal, before it "
    "goes on the wall. Small pieces are cut off a longer length and never held by hand at the blade."
)
SIDES = (("top", "tops and bottoms"), ("right", "sides"))  # two of a kind: opposite pieces are alike


def moulding_chapters(plan: Plan) -> Iterator[Chapter]:
    """Yield the chapter of the mouldings; nothing where the set has none."""
    blocks = tuple(_blocks(plan))
    if blocks:
        yield Chapter(title="Mouldings to cut", lead=LEAD, blocks=blocks)


def _blocks(plan: Plan) -> Iterator[Block]:
    style = plan.brief.style
    trim = trim_groups(plan.trim, style) if plan.trim is not None else ()
    groups = (*trim, *_casing_groups(plan.casings, style))
    if groups:
        yield Grid(columns=piece_columns(), groups=groups)
    framed = tuple(_frame_groups(plan.frames, style))
    if framed:
        yield Grid(columns=FRAME_COLUMNS, groups=framed)
        yield Words(words=JIG)
    plain = tuple(_plain_rows(plan))
    if plain:
        rows = Group(heading="Blocks, and covers of the wall ends", detail="plain stock, square ends", rows=plain)
        yield Grid(columns=PLAIN_COLUMNS, groups=(rows,))


# --- casing --------------------------------------------------------------------------------------------------------


def _casing_groups(casings: Sequence[Casing], style: LengthStyle) -> Iterator[Group]:
    ordered = sorted(casings, key=lambda casing: casing.profile.name)
    for profile, own in groupby(ordered, key=lambda casing: casing.profile.name):
        rows = tuple(row for casing in own for row in _casing_rows(casing, style))
        yield Group(heading=sentence(profile), detail=CASED, rows=rows)


def _casing_rows(casing: Casing, style: LengthStyle) -> Iterator[tuple[Cell, ...]]:
    for piece in casing.pieces:
        lengths = (drawing_length(mm, style=style) for mm in (piece.long_point, piece.short_point))
        yield piece.id, *lengths, "", *_casing_ends(piece), "", 1
    if casing.curve is not None:
        curve = casing.curve
        inner, outer = (length_words(radius, style) for radius in (curve.inner_radius, curve.outer_radius))
        note = f"radius {inner} inside, {outer} outside, turns through {format_angle(curve.angle)}; {curve.note}"
        yield curve.id, drawing_length(curve.length, style=style), "", "", "", "", note, 1


def _casing_ends(piece: CasingPiece) -> tuple[str, str]:
    """Return how the two ends are cut, that on the left of the saw first."""
    names = ("bottom", "top") if piece.upright else ("left", "right")
    ends = sorted(zip(names, (piece.first, piece.last), strict=True), key=lambda pair: pair[1].hand != "left")
    left, right = (_casing_end(name, end) for name, end in ends)
    return left, right


def _casing_end(name: str, end: CasingEnd) -> str:
    """Return how one end is cut; how the piece lies is said once, over all of them."""
    return f"{name}, {end.kind}: {saw_words(end.saw).replace(LIES, '')}"


# --- moulding frames -----------------------------------------------------------------------------------------------

FRAME_COLUMNS = (
    ListColumn(title="For", kind="mark", grow=3),
    ListColumn(title="Number", kind="figure"),
    ListColumn(title="Long points", kind="figure"),
    ListColumn(title="Short points", kind="figure"),
    ListColumn(title="Walls", grow=3),
    ListColumn(title="Cut", kind="ticks", grow=3),
)


def _frame_groups(layout: MouldingLayout | None, style: LengthStyle) -> Iterator[Group]:
    """Yield frames by profile, mitred ones before those that are bought whole."""
    if layout is None:
        return
    tiers = {tier.name: tier for group in layout.in_line for tier in group.tiers}
    own = {name: [frame for frame in layout.frames if frame.tier == name] for name in tiers}
    names = sorted({tier.profile.name for tier in tiers.values() if tier.profile is not None})
    for profile in names:
        alike = [t for t in tiers.values() if t.profile is not None and t.profile.name == profile and own[t.name]]
        mitred = [row for t in alike if t.bought_width is None for row in _mitred(t, own[t.name], style)]
        bought = [row for t in alike if t.bought_width is not None for row in _bought(t, own[t.name], style)]
        for detail, rows in ((MITRED, mitred), (WHOLE, bought)):
            if rows:
                yield Group(heading=sentence(profile), detail=detail, rows=tuple(rows))


def _mitred(tier: FrameTier, frames: Iterable[MouldingFrame], style: LengthStyle) -> Iterator[tuple[Cell, ...]]:
    """Yield a row for every length of one tier, longest first: how many, and on which walls."""
    found: dict[tuple[float, float, str], list[str]] = {}
    for frame in frames:
        pieces = {p.role: p for p in frame_pieces(width=frame.width, height=frame.height, moulding=tier.moulding)}
        for role, name in SIDES:
            piece = pieces[role]
            found.setdefault((piece.long_points, piece.short_points, name), []).append(frame.wall)
    for (long, short, name), walls in sorted(found.items(), key=lambda item: (-item[0][0], item[0][2])):
        lengths = (drawing_length(mm, style=style) for mm in (long, short))
        yield f"{tier.name}, {name}", str(2 * len(walls)), *lengths, _walls(walls), 2 * len(walls)


def _bought(tier: FrameTier, frames: Iterable[MouldingFrame], style: LengthStyle) -> Iterator[tuple[Cell, ...]]:
    sizes: dict[tuple[float, float], list[str]] = {}
    for frame in frames:
        sizes.setdefault((frame.width, frame.height), []).append(frame.wall)
    for size, walls in sorted(sizes.items(), reverse=True):
        across = " × ".join(drawing_length(mm, style=style) for mm in size)
        yield f"{tier.name}, {across}", str(len(walls)), "", "", _walls(walls), len(walls)


def _walls(walls: Iterable[str]) -> str:
    """Return on which walls frames are, and how many on each."""
    return listed([f"{number} on {wall}" for wall, number in Counter(walls).items()])


# --- plain stock ---------------------------------------------------------------------------------------------------

PLAIN_COLUMNS = (
    ListColumn(title="Piece", kind="mark", grow=3),
    ListColumn(title="Length", kind="figure"),
    ListColumn(title="Width", kind="figure"),
    ListColumn(title="Thick", kind="figure"),
    ListColumn(title="From", grow=1),
    ListColumn(title="Note", grow=3),
    ListColumn(title="Cut", kind="ticks"),
)


def _plain_rows(plan: Plan) -> Iterator[tuple[Cell, ...]]:
    style = plan.brief.style
    for casing in plan.casings:
        for block in casing.blocks:
            sides = (drawing_length(mm, style=style) for mm in (block.height, block.width, block.thickness))
            yield block.id, *sides, "", block.kind, 1
    for end in plan.ends:
        if end.thickness > 0:
            sides = (drawing_length(mm, style=style) for mm in (end.length, end.width, end.thickness))
            yield end.id, *sides, end.stock, end.note, 1
