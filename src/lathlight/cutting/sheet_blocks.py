"""Pieces side by side or one above the other: the plan of a sheet before the saw's waste is placed.

A block is a piece, a row (cuts along the length part it) or a column (cuts along the width). Rows and columns
alternate, so a block's depth is the number of its stages.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Kind = Literal["piece", "row", "column"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Laid:
    """One piece in a sheet; sizes widened by the kerf."""

    piece: int  # place in the grid
    x: int
    y: int
    width: int
    length: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Block:
    """A piece, or blocks in a row or a column; sizes widened by the kerf, no waste around."""

    kind: Kind
    width: int
    length: int
    piece: int = -1  # place in the grid
    blocks: tuple[Block, ...] = ()

    @property
    def depth(self) -> int:
        """How many stages of cuts part its pieces."""
        return 1 + max(block.depth for block in self.blocks) if self.blocks else 0


def piece_block(*, piece: int, width: int, length: int) -> Block:
    """Return the block of one piece."""
    return Block(kind="piece", width=width, length=length, piece=piece)


def joined(kind: Literal["row", "column"], blocks: list[Block]) -> Block:
    """Return blocks in a row or a column; a block of the same kind gives its own blocks. Largest first."""
    flat = [inner for block in blocks for inner in (block.blocks if block.kind == kind else (block,))]
    flat.sort(key=_size, reverse=True)
    widths, lengths = [block.width for block in flat], [block.length for block in flat]
    if kind == "row":
        return Block(kind=kind, width=sum(widths), length=max(lengths), blocks=tuple(flat))
    return Block(kind=kind, width=max(widths), length=sum(lengths), blocks=tuple(flat))


def _size(block: Block) -> tuple[int, int, int]:
    return block.width * block.length, block.length, block.width


def blocks_of(laid: tuple[Laid, ...]) -> list[Block]:
    """Return the blocks that pieces laid by guillotine cuts make: one, or two where either cut could come first."""
    rows, columns = _sliced(laid, "row"), _sliced(laid, "column")
    return [block for block in (rows, columns) if block is not None]


def _sliced(laid: tuple[Laid, ...], kind: Literal["row", "column"]) -> Block | None:
    """Return the pieces sliced wherever a straight cut goes through, first one way; None where none does."""
    if len(laid) == 1:
        only = laid[0]
        return piece_block(piece=only.piece, width=only.width, length=only.length) if kind == "row" else None
    groups = _groups(laid, kind)
    if len(groups) == 1:
        return None
    found: list[Block] = []
    for group in groups:
        across = _sliced(group, "column" if kind == "row" else "row") or _sliced(group, kind)
        if across is None:
            return None
        found.append(across)
    return joined(kind, found)


def _groups(laid: tuple[Laid, ...], kind: Literal["row", "column"]) -> list[tuple[Laid, ...]]:
    """Return the pieces in groups that straight cuts part."""
    spans = [(p.x, p.x + p.width, p) if kind == "row" else (p.y, p.y + p.length, p) for p in laid]
    spans.sort(key=lambda span: (span[0], span[1], span[2].x, span[2].y))
    groups: list[list[Laid]] = []
    end = -1
    for low, high, piece in spans:
        if low >= end:
            groups.append([])
        groups[-1].append(piece)
        end = max(end, high)
    return [tuple(group) for group in groups]
