"""The saw's way through one sheet: cuts in order, tape figures, what falls off, and where waste is best left.

Within a row or column the pieces close up and the waste falls off in one; a sheet whose row is too short for it may
lose that waste first, in one long cut, where the stages allow. The way with fewest cuts wins, then the one that leaves
the largest offcut.
"""

from __future__ import annotations

import itertools
from dataclasses import dataclass
from typing import TYPE_CHECKING

from lathlight.cutting.sheet_blocks import Block, blocks_of
from lathlight.cutting.sheet_plan import CutSheet, SawCut, SheetPart, SheetPiece

if TYPE_CHECKING:
    from lathlight.cutting.sheet_blocks import Laid
    from lathlight.cutting.sheet_grid import Sheet, SheetGrid


class _TooLongError(Exception):
    """A cut is longer than the straight edge."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Room:
    """Where a block lies, with the waste around it; widened by the kerf."""

    x: int
    y: int
    width: int
    length: int

    def parted(self, *, upright: bool, at: int) -> tuple[_Room, _Room]:
        """Return the two sides of a cut."""
        if upright:
            first = _Room(x=self.x, y=self.y, width=at, length=self.length)
            return first, _Room(x=self.x + at, y=self.y, width=self.width - at, length=self.length)
        first = _Room(x=self.x, y=self.y, width=self.width, length=at)
        return first, _Room(x=self.x, y=self.y + at, width=self.width, length=self.length - at)


class _Saw:
    """Cuts one sheet."""

    def __init__(self, grid: SheetGrid) -> None:
        self._grid = grid
        self._number = itertools.count(1)
        self.pieces: list[SheetPiece] = []
        self.stages = 0

    def part(self, block: Block, room: _Room, *, stage: int) -> SheetPart:
        """Return a room cut into a block's pieces; `stage` is that of the room's own cuts."""
        if block.kind == "piece":
            return self._trimmed(block, room)
        upright = block.kind == "row"
        rooms, rest = [room], room
        for inner in block.blocks:
            first, rest = rest.parted(upright=upright, at=inner.width if upright else inner.length)
            rooms[-1:] = [first, rest]
        wasted = (rest.width if upright else rest.length) > 0
        cuts: list[SawCut] = []
        left = room
        for first in rooms[: -1 if wasted else -2]:
            cuts.append(self._cut(left, upright=upright, at=first.width if upright else first.length, stage=stage))
            left = left.parted(upright=upright, at=first.width if upright else first.length)[1]
        inner = [self.part(b, r, stage=stage + 1) for b, r in zip(block.blocks, rooms, strict=False)]
        sides = [*inner, self._offcut(rest) if wasted else None]
        return self._assembled(room, cuts, sides)

    def _assembled(self, room: _Room, cuts: list[SawCut], sides: list[SheetPart | None]) -> SheetPart:
        """Return the chain of cuts as parts within parts."""
        sides = sides[: len(cuts) + 1]
        starts = [room]
        for cut in cuts[:-1]:
            at = cut.at + self._grid.kerf
            starts.append(starts[-1].parted(upright=cut.along == "length", at=at)[1])
        beyond = sides[-1]
        for start, cut, side in zip(reversed(starts), reversed(cuts), reversed(sides[:-1]), strict=True):
            whole = self._bare(start)
            parts = tuple(part for part in (side, beyond) if part is not None)
            beyond = SheetPart(x=whole.x, y=whole.y, width=whole.width, length=whole.length, cut=cut, parts=parts)
        assert beyond is not None
        return beyond

    def _cut(self, room: _Room, *, upright: bool, at: int, stage: int) -> SawCut:
        bare = self._bare(room)
        reach = bare.length if upright else bare.width
        if self._grid.straight_edge is not None and reach > self._grid.straight_edge:
            raise _TooLongError
        self.stages = max(self.stages, stage)
        along = "length" if upright else "width"
        return SawCut(number=next(self._number), along=along, at=at - self._grid.kerf, reach=reach, stage=stage)

    def _bare(self, room: _Room) -> SheetPart:
        """Return the real size of a room, without the kerf beyond it."""
        kerf = self._grid.kerf
        return SheetPart(x=room.x, y=room.y, width=room.width - kerf, length=room.length - kerf)

    def _offcut(self, room: _Room) -> SheetPart | None:
        """Return what is left over; None where it all goes to sawdust."""
        bare = self._bare(room)
        return bare if bare.width > 0 and bare.length > 0 else None

    def _trimmed(self, block: Block, room: _Room) -> SheetPart:
        """Return a room trimmed to one piece, the larger offcut first."""
        wide, high = room.width > block.width, room.length > block.length
        if wide or high:
            keep = (room.width - block.width) * room.length, room.width * (room.length - block.length)
            upright = wide and (not high or keep[0] >= keep[1])
            edge = self._grid.straight_edge
            if wide and high and edge is not None:
                reach = self._bare(room)
                upright = reach.length <= edge if upright else reach.width > edge
            at = block.width if upright else block.length
            first, rest = room.parted(upright=upright, at=at)
            cut = self._cut(room, upright=upright, at=at, stage=0)
            return self._assembled(room, [cut], [self._trimmed(block, first), self._offcut(rest)])
        bare = self._bare(room)
        piece = self._grid.pieces[block.piece]
        turned = (block.width, block.length) != (piece.width, piece.length)
        self.pieces.append(
            SheetPiece(item=piece.item, x=bare.x, y=bare.y, width=bare.width, length=bare.length, turned=turned)
        )
        place = len(self.pieces) - 1
        return SheetPart(x=bare.x, y=bare.y, width=bare.width, length=bare.length, piece=place)

    def whole(self, block: Block, sheet: Sheet, *, waste_first: bool) -> CutSheet:
        """Return the sheet cut; the waste beyond the block's free side comes off first or last."""
        room = _Room(x=0, y=0, width=sheet.width, length=sheet.length)
        if not waste_first:
            return self._done(sheet, self.part(block, room, stage=1))
        upright = block.kind == "column"  # across the block's own cuts
        at = block.width if upright else block.length
        first, rest = room.parted(upright=upright, at=at)
        cut = self._cut(room, upright=upright, at=at, stage=1)
        inner = self.part(block, first, stage=2)
        return self._done(sheet, self._assembled(room, [cut], [inner, self._offcut(rest)]))

    def _done(self, sheet: Sheet, tree: SheetPart) -> CutSheet:
        return CutSheet(stock=sheet.stock, pieces=tuple(self.pieces), tree=tree)


def merit(sheets: tuple[CutSheet, ...]) -> tuple[int, int]:
    """Return the aims after cost, the less the better: cuts in all, and the largest offcut's area below zero."""
    cuts = sum(len(sheet.cuts) for sheet in sheets)
    largest = max((o.width * o.length for sheet in sheets for o in sheet.offcuts[:1]), default=0)
    return cuts, -largest


def sawn(grid: SheetGrid, sheet: Sheet, blocks: list[Block]) -> CutSheet | None:
    """Return a sheet cut into one of several arrangements the best way; None where the rules forbid all of them."""
    found: list[CutSheet] = []
    for block in blocks:
        spare = sheet.length > block.length if block.kind == "row" else sheet.width > block.width
        for waste_first in (False, True) if block.blocks and spare else (False,):
            saw = _Saw(grid)
            try:
                whole = saw.whole(block, sheet, waste_first=waste_first)
            except _TooLongError:
                continue
            if grid.stages is None or saw.stages <= grid.stages:
                found.append(whole)
    return min(found, key=lambda whole: merit((whole,)), default=None)


def sawn_all(grid: SheetGrid, bins: tuple[int, ...], laid: tuple[tuple[Laid, ...], ...]) -> tuple[CutSheet, ...] | None:
    """Return the sheets that hold something, cut; None where the rules forbid one of them."""
    found: list[CutSheet] = []
    for place, pieces in zip(bins, laid, strict=True):
        if pieces:
            whole = sawn(grid, grid.sheets[place], blocks_of(pieces))
            if whole is None:
                return None
            found.append(whole)
    return tuple(found)
