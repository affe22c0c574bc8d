"""The cheapest containers that cover a need: exact for the prices given.

Decides nothing about how much is needed. Without prices the fewest tins are taken (``lathlight.finishing``).
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from decimal import Decimal
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Sequence

SAME = 0.0005  # volumes nearer than this are the same [l]: a tin is filled no closer
FINEST = 1_000_000  # sizes without a common measure are counted in millilitres [nl]
LITRE = 1_000_000_000  # [nl]


@dataclass(frozen=True, slots=True, kw_only=True)
class TinOffer:
    """One size of container with its price."""

    volume: float  # [l], above 0
    price: Decimal
    in_stock: int | None = None  # None: as many as wanted


@dataclass(frozen=True, slots=True, kw_only=True)
class _Found:
    """Tins that hold so much, or more."""

    cost: Decimal
    number: int
    volume: float  # [l]
    counts: tuple[int, ...]  # of each offer, largest first

    @property
    def order(self) -> tuple[Decimal, int, float, tuple[int, ...]]:
        """Cheapest first, then fewest, then least left over, then the larger ones."""
        return self.cost, self.number, round(self.volume, 6), tuple(-count for count in self.counts)


def cheapest_tins(need: float, offers: Sequence[TinOffer]) -> tuple[tuple[TinOffer, int], ...] | None:
    """Return the cheapest containers that hold a need, larger ones first; None where the offers do not hold it.

    Parameters
    ----------
    need
        What is wanted [l], 0 or more; 0 needs no container.
    offers
        At most one for each size; in any order.

    Notes
    -----
    Volumes are counted in the sizes' greatest common measure. Offer by offer, for every amount up to the need, the
    cheapest choice of so many of this offer and the best of the offers before is kept; nothing is left out, so that no
    other choice is cheaper. Of equal costs the fewest containers win, then the least left over, then the larger ones.

    Examples
    --------
    >>> small, large = TinOffer(volume=0.75, price=Decimal(15)), TinOffer(volume=2.5, price=Decimal(32))
    >>> [(offer.volume, number) for offer, number in cheapest_tins(1.8, [small, large])]
    [(2.5, 1)]
    """
    ordered = sorted(offers, key=lambda offer: -offer.volume)
    sizes = [round(offer.volume * LITRE) for offer in ordered]
    unit = max(math.gcd(*sizes), FINEST)
    wanted = max(0, math.ceil((need - SAME) * LITRE / unit - 1e-9))
    best: list[_Found | None] = [_Found(cost=Decimal(0), number=0, volume=0.0, counts=()), *[None] * wanted]
    for offer, size in zip(ordered, sizes, strict=True):
        best = _with_offer(best, offer, max(1, size // unit))
    found = best[wanted]
    if found is None:
        return None
    return tuple((offer, number) for offer, number in zip(ordered, found.counts, strict=True) if number)


def _with_offer(before: Sequence[_Found | None], offer: TinOffer, size: int) -> list[_Found | None]:
    """Return the best for every amount, now that this offer may be taken as well."""
    if offer.in_stock is not None:
        return [_of_few(amount, before, offer, size, offer.in_stock) for amount in range(len(before))]
    best: list[_Found | None] = []
    for amount, without in enumerate(before):  # one more on top of the best for what it leaves to be held
        rest = best[max(0, amount - size)] if amount else None
        one_more = None if rest is None else _plus(replace(rest, counts=rest.counts[:-1]), offer, rest.counts[-1], 1)
        none = None if without is None else _plus(without, offer, 0, 0)
        best.append(_better([each for each in (none, one_more) if each is not None]))
    return best


def _of_few(amount: int, before: Sequence[_Found | None], offer: TinOffer, size: int, stock: int) -> _Found | None:
    """Return the best for one amount with at most so many of the offer."""
    rests = ((count, before[max(0, amount - count * size)]) for count in range(min(-(-amount // size), stock) + 1))
    return _better([_plus(rest, offer, 0, count) for count, rest in rests if rest is not None])


def _plus(rest: _Found, offer: TinOffer, already: int, more: int) -> _Found:
    """Return the rest with so many more of the offer, which so many of it are in already."""
    return _Found(
        cost=rest.cost + more * offer.price,
        number=rest.number + more,
        volume=rest.volume + more * offer.volume,
        counts=(*rest.counts, already + more),
    )


def _better(choices: Sequence[_Found]) -> _Found | None:
    return min(choices, key=lambda found: found.order, default=None)
