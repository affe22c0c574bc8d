"""A job of sheets in whole numbers that need no kerf any more.

Every piece is widened by one kerf both ways and so is every sheet, once: pieces lie in a sheet with the kerf between
neighbours where the widened rectangles lie side by side (the last kerf may fall off the edge).
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from lathlight.cutting.sheet_jobs import SheetJob


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """One wanted size, widened by the kerf."""

    item: int  # place in the job
    width: int
    length: int
    count: int
    rotate: bool

    @property
    def area(self) -> int:
        """Area of one."""
        return self.width * self.length

    @property
    def ways(self) -> tuple[tuple[int, int], ...]:
        """Width and length of every way to lay it: straight, and turned where that differs."""
        straight = (self.width, self.length)
        turned = (self.length, self.width)
        return (straight, turned) if self.rotate and self.width != self.length else (straight,)


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """One stock size, widened by one kerf."""

    stock: int  # place in the job
    width: int
    length: int
    price: int
    limit: int  # most that a plan could use


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetGrid:
    """The job in whole numbers, and its rules."""

    pieces: tuple[Piece, ...]  # largest first
    sheets: tuple[Sheet, ...]  # in the job's order, those that can hold a piece
    kerf: int
    stages: int | None
    straight_edge: int | None

    @property
    def count(self) -> int:
        """How many pieces are wanted in all."""
        return sum(piece.count for piece in self.pieces)


def grid_of(job: SheetJob) -> SheetGrid:
    """Return a possible job in whole numbers, its entries merged where they are alike."""
    kerf = job.kerf
    pieces = [
        Piece(item=n, width=i.width + kerf, length=i.length + kerf, count=i.count, rotate=i.rotate)
        for n, i in enumerate(job.items)
        if i.count
    ]
    pieces.sort(key=lambda p: (-p.area, -p.length, p.item))
    total = sum(piece.count for piece in pieces)
    sheets: list[Sheet] = []
    for n, s in enumerate(job.stocks):
        limit = total if s.limit is None else min(total, s.limit)
        sheet = Sheet(stock=n, width=s.width + kerf, length=s.length + kerf, price=s.price, limit=limit)
        if limit and any(holds(sheet, piece) for piece in pieces):
            sheets.append(sheet)
    return SheetGrid(
        pieces=tuple(pieces),
        sheets=tuple(sheets),
        kerf=kerf,
        stages=job.stages,
        straight_edge=job.straight_edge,
    )


def holds(sheet: Sheet, piece: Piece) -> bool:
    """Return whether the piece comes out of the sheet."""
    return any(w <= sheet.width and h <= sheet.length for w, h in piece.ways)
