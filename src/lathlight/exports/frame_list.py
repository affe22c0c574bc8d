"""The moulding frames as tables: every frame where it hangs, and what is cut or bought for them by size.

Decides columns, order and counting of pieces that are alike; sizes are those of ``lathlight.mouldings``.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from lathlight.exports.columns import length_cells, length_columns, make_table, texts, yes
from lathlight.exports.tables import Cell, Column
from lathlight.mouldings import bought_lines, frame_pieces

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from lathlight.exports.tables import Table
    from lathlight.mouldings import FrameTier, MouldingFrame, MouldingLayout
    from lathlight.units import LengthStyle

MITRED = "45° both ends, one cut of either hand, the outer edge longest"
WHOLE = "bought whole, outside to outside"
SIDES = (("top", "tops and bottoms"), ("right", "sides"))  # opposite pieces of a frame are alike


def tiers_of(layout: MouldingLayout) -> Mapping[str, FrameTier]:
    """Return the tiers of a layout by name, in its own order."""
    return {tier.name: tier for group in layout.in_line for tier in group.tiers}


def profile_name(tier: FrameTier) -> str:
    """Return the catalogue's name of a tier's moulding; "" where only its size is known."""
    return "" if tier.profile is None else tier.profile.name


def frame_table(layout: MouldingLayout, style: LengthStyle, *, rise: float) -> Table:
    """Return the table ``moulding frames``: every frame, from left to right, heights from the finished floor.

    Parameters
    ----------
    rise
        How high the finished floor lies above the foot of the flats [mm].
    """
    titles = ("Width", "Height", "From left", "Bottom", "Top")
    columns = [
        *texts("Id", "Wall", "Tier", "Moulding"),
        *(c for title in titles for c in length_columns(title, style)),
        *texts("Bought whole", "Loose"),
    ]
    tiers = tiers_of(layout)
    rows = (_frame_row(frame, tiers[frame.tier], style, rise) for frame in layout.frames)
    return make_table("moulding frames", "Moulding frames", columns, rows)


def _frame_row(frame: MouldingFrame, tier: FrameTier, style: LengthStyle, rise: float) -> list[Cell]:
    sizes = (frame.width, frame.height, frame.left, frame.bottom - rise, frame.top - rise)
    return [
        *(frame.id, frame.wall, frame.tier, profile_name(tier)),
        *(cell for mm in sizes for cell in length_cells(mm, style)),
        *(yes(tier.bought_width is not None), yes(tier.loose)),
    ]


def frame_piece_table(layout: MouldingLayout, style: LengthStyle) -> Table:
    """Return the table ``frame pieces``: what is cut for the frames, tier by tier, longest first, or bought whole.

    A piece that is cut has its long and short points; a frame that is bought has its width and height.
    """
    columns = [
        *texts("What", "Tier", "Moulding"),
        Column(title="Number", kind="count"),
        *(c for title in ("Long points", "Short points", "Width", "Height") for c in length_columns(title, style)),
        *texts("Ends"),
    ]
    tiers = tiers_of(layout)
    own = {name: [frame for frame in layout.frames if frame.tier == name] for name in tiers}
    rows = (
        row
        for name, tier in tiers.items()
        for row in (_cut if tier.bought_width is None else _bought)(tier, own[name], style)
    )
    return make_table("frame pieces", "Moulding frames to cut and to buy", columns, rows)


def _cut(tier: FrameTier, frames: Sequence[MouldingFrame], style: LengthStyle) -> Iterator[list[Cell]]:
    counts: dict[tuple[float, float, str], int] = {}
    for frame in frames:
        pieces = {p.role: p for p in frame_pieces(width=frame.width, height=frame.height, moulding=tier.moulding)}
        for role, name in SIDES:
            key = (pieces[role].long_points, pieces[role].short_points, name)
            counts[key] = counts.get(key, 0) + 2
    for (long, short, name), number in sorted(counts.items(), key=lambda item: (-item[0][0], item[0][2])):
        sizes = (long, short, None, None)
        cells = (cell for mm in sizes for cell in length_cells(mm, style))
        yield [name, tier.name, profile_name(tier), number, *cells, MITRED]


def _bought(tier: FrameTier, frames: Sequence[MouldingFrame], style: LengthStyle) -> Iterator[list[Cell]]:
    for line in bought_lines((frame.width, frame.height) for frame in frames):
        cells = (cell for mm in (None, None, line.width, line.height) for cell in length_cells(mm, style))
        yield ["frame", tier.name, profile_name(tier), line.number, *cells, WHOLE]
