"""Very many pieces in batches of neighbours, each quickly cut, so that the work grows with the set and no faster."""

from __future__ import annotations

from typing import TYPE_CHECKING, TypeVar

if TYPE_CHECKING:
    from collections.abc import Callable, Hashable, Sequence

Item = TypeVar("Item")


def in_batches(
    items: Sequence[Item], size_of: Callable[[Item], Hashable], *, sizes: int, most: int
) -> tuple[tuple[Item, ...], ...]:
    """Return the items in order, in batches of so many sizes and so many items at most.

    Equal pieces are hardly more work than one, so that sizes count first.

    Examples
    --------
    >>> in_batches([3, 3, 4, 5, 5], lambda item: item, sizes=2, most=9)
    ((3, 3, 4), (5, 5))
    """
    batches: list[list[Item]] = []
    found: set[Hashable] = set()
    for item in items:
        found.add(size_of(item))
        if not batches or len(found) > sizes or len(batches[-1]) == most:
            batches.append([])
            found = {size_of(item)}
        batches[-1].append(item)
    return tuple(tuple(batch) for batch in batches)
