"""What a wedge is ripped from: the framing's own stock, a wider timber, or layers glued together.

Decides the stock and the number of layers; the wedge's section is found where the corner is.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from lathlight.working import COMMON_PRACTICE, Working

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from lathlight.carpentry.model import Point
    from lathlight.catalog import Lumber

CLOSE = 0.01  # a timber smaller by so little still holds the wedge [mm]


@dataclass(frozen=True, slots=True, kw_only=True)
class Blank:
    """What a wedge is ripped from."""

    stock: Lumber
    layers: int  # pieces of the stock glued side by side; 1: one board is enough
    size: tuple[float, float]  # of the rectangle round the wedge's section that it holds, longer side first [mm]
    why: Working


def wedge_blank(stock: Lumber, outline: Sequence[Point], *, length: float, lumber: Sequence[Lumber]) -> Blank:
    """Return what a wedge is ripped from.

    Parameters
    ----------
    stock
        The wall's own timber: taken wherever it holds the wedge.
    outline
        The wedge's section [mm].
    length
        Of the wedge [mm].
    lumber
        What else is on sale; only timber of the stock's own system of sizes is looked at.

    Notes
    -----
    A timber holds a wedge where a rectangle round the section, one side along one of its edges, lies within the
    timber's section. Where none on sale does, layers of the wall's own stock are glued side by side.
    """
    around = tuple(_rectangles(outline))
    chosen = _whole(stock, around, length, lumber)
    layers = 1 if chosen is not None else min(_layers(stock, size) for size in around)
    taken = chosen or stock
    fitting = (sorted(size) for size in around if _layers(taken, size) == layers)
    short, long = min(fitting, key=lambda size: (size[1], size[0]))
    return Blank(
        stock=taken,
        layers=layers,
        size=(long, short),
        why=Working(
            formula="the wall's own timber where it holds the wedge, else the smallest on sale that does, else layers "
            "of the wall's own glued side by side",
            inputs=(
                ("wedge", long, "mm"),
                ("by", short, "mm"),
                ("the wall's own timber", stock.name, ""),
                ("layers", layers, ""),
            ),
            source=COMMON_PRACTICE,
            value=taken.name,
        ),
    )


def _whole(
    stock: Lumber, around: Sequence[tuple[float, float]], length: float, lumber: Sequence[Lumber]
) -> Lumber | None:
    """Return the timber that holds a section in one piece; None where none does."""
    if any(_layers(stock, size) == 1 for size in around):
        return stock
    holding = [
        each
        for each in lumber
        if each.system == stock.system
        and max(each.lengths, default=math.inf) >= length - CLOSE
        and any(_layers(each, size) == 1 for size in around)
    ]
    return min(holding, key=lambda each: (each.width * each.depth, each.name), default=None)


def _layers(stock: Lumber, size: tuple[float, float]) -> int:
    """Return how many pieces of a timber, side by side, make up a rectangle of this size."""
    a, b = size
    ways = ((a, b), (b, a))
    return min(math.ceil((x - CLOSE) / stock.width) * math.ceil((y - CLOSE) / stock.depth) for x, y in ways)


def _rectangles(outline: Sequence[Point]) -> Iterator[tuple[float, float]]:
    """Yield the sizes of the rectangles round a section that have a side along one of its edges [mm]."""
    for (ax, ay), (bx, by) in zip(outline, (*outline[1:], outline[0]), strict=True):
        edge = math.hypot(bx - ax, by - ay)
        ux, uy = (bx - ax) / edge, (by - ay) / edge
        along = [x * ux + y * uy for x, y in outline]
        across = [y * ux - x * uy for x, y in outline]
        yield max(along) - min(along), max(across) - min(across)
