"""What a cutting of sheets comes to: sheets with their pieces, the saw's way through them, cost, bound and proof.

Sizes are real ones again, kerf not included, in the job's unit; x runs along a sheet's width, y along its length.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

if TYPE_CHECKING:
    from collections.abc import Iterator

Ended = Literal["finished", "work limit", "clock", "asked to stop"]


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetPiece:
    """One piece where it lies in its sheet."""

    item: int  # place in the job's items
    x: int
    y: int
    width: int
    length: int
    turned: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class SawCut:
    """One straight cut through a whole part, from edge to edge."""

    number: int  # order of cutting in its sheet, from 1
    along: Literal["length", "width"]  # which way the saw runs
    at: int  # tape figure from the part's left edge (or lower edge, along the width); the kerf lies beyond it
    reach: int  # length of the cut
    stage: int  # 0: trims a part that holds one piece


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetPart:
    """A part of a sheet: cut in two, or a piece, or an offcut."""

    x: int
    y: int
    width: int
    length: int
    piece: int | None = None  # place among the sheet's pieces
    cut: SawCut | None = None
    parts: tuple[SheetPart, ...] = ()  # what the cut leaves: this side of the line, then beyond the kerf if anything

    def walk(self) -> Iterator[SheetPart]:
        """Yield this part and every part of it."""
        yield self
        for part in self.parts:
            yield from part.walk()

    @property
    def is_offcut(self) -> bool:
        """Whether nothing is wanted of it."""
        return self.piece is None and self.cut is None


@dataclass(frozen=True, slots=True, kw_only=True)
class CutSheet:
    """One sheet, its pieces and the saw's way through it."""

    stock: int  # place in the job's stocks
    pieces: tuple[SheetPiece, ...]
    tree: SheetPart

    @property
    def cuts(self) -> tuple[SawCut, ...]:
        """Every cut, in the order of cutting."""
        found = (part.cut for part in self.tree.walk() if part.cut is not None)
        return tuple(sorted(found, key=lambda cut: cut.number))

    @property
    def offcuts(self) -> tuple[SheetPart, ...]:
        """What is left over, largest first."""
        found = (part for part in self.tree.walk() if part.is_offcut)
        return tuple(sorted(found, key=lambda part: (-part.width * part.length, part.x, part.y)))


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetInequality:
    """One inequality of a proof: the sheets hold at least what the pieces are worth."""

    item_values: tuple[int, ...]  # worth of one of each of the job's items
    stock_values: tuple[int, ...]  # most worth that one sheet of each stock holds by the proof's rule
    wanted: int  # worth of all items


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetProof:
    """Why no plan costs less than the bound."""

    inequalities: tuple[SheetInequality, ...]
    stages: int | None  # the bound holds for plans of at most so many stages; None: for every guillotine plan
    step: int  # sizes, kerf included, were rounded down to multiples of this


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetPlan:
    """How to cut the job; `proven` speaks of the cost, not of the later aims."""

    sheets: tuple[CutSheet, ...]  # bought sheets last, as the job lists them
    cost: int
    lower_bound: int  # no plan within the job's rules costs less
    proven: bool  # cost == lower_bound
    proof: SheetProof
    ended: Ended

    @property
    def gap(self) -> float:
        """Cost above the bound, as a share of the bound; 0 where the cost is proven."""
        return 0.0 if self.proven else self.cost / self.lower_bound - 1 if self.lower_bound else float("inf")

    @property
    def cuts(self) -> int:
        """How many cuts there are in all."""
        return sum(len(sheet.cuts) for sheet in self.sheets)

    @property
    def largest_offcut(self) -> SheetPart | None:
        """The greatest part that is left over, if any."""
        found = [sheet.offcuts[0] for sheet in self.sheets if sheet.offcuts]
        return max(found, key=lambda part: part.width * part.length, default=None)
