"""The trim in the typeset list of mouldings, profile by profile; rows and words are those of ``lathlight.exports``."""

from __future__ import annotations

from itertools import groupby
from typing import TYPE_CHECKING

from lathlight.book.blocks import Group, ListColumn
from lathlight.book.words import sentence
from lathlight.exports import trim_cuts
from lathlight.units import drawing_length

if TYPE_CHECKING:
    from lathlight.book.blocks import Cell
    from lathlight.exports import EndCut, TrimCut
    from lathlight.mouldings import TrimPlan
    from lathlight.units import LengthStyle

LEAD = (
    "Ends are seen from the front of the set; the long point is what the stock must give. For the saw you face the "
    "fence: a swing is where its handle goes, a tilt is the blade's. Longest first; try every angle on an offcut, and "
    "hold it to the corner before the piece is cut."
)


def piece_columns() -> tuple[ListColumn, ...]:
    """Return the columns of a list of pieces with two ends: a row a piece, each with a box to tick."""
    return (
        ListColumn(title="Piece", kind="mark", grow=3),
        ListColumn(title="Long point", kind="figure"),
        ListColumn(title="Short point", kind="figure"),
        ListColumn(title="At the back", kind="figure"),
        ListColumn(title="Left end", grow=5),
        ListColumn(title="Right end", grow=5),
        ListColumn(title="Note", grow=4),
        ListColumn(title="Cut", kind="ticks"),
    )


def trim_groups(trim: TrimPlan, style: LengthStyle) -> tuple[Group, ...]:
    """Return the trim profile by profile: pieces, returns, backing strips."""
    return tuple(
        Group(heading=sentence(profile), detail="", rows=tuple(_row(cut, style) for cut in cuts))
        for profile, cuts in groupby(trim_cuts(trim, style), key=lambda cut: cut.profile)
    )


def _row(cut: TrimCut, style: LengthStyle) -> tuple[Cell, ...]:
    lengths = (drawing_length(mm, style=style) for mm in (cut.long_point, cut.short_point, cut.back))
    unsaid = cut.loose and cut.what == "piece" and "loose" not in cut.note
    note = "; ".join(words for words in ("loose" if unsaid else "", cut.note) if words)
    return cut.id, *lengths, _end(cut.left), _end(cut.right), note, 1


def _end(end: EndCut) -> str:
    return end.kind if end.saw == end.kind else f"{end.kind}: {end.saw}"
