"""The price list: what one of a thing costs, and which price goes with a thing of a certain size.

Decides which sale units a thing can have and what is wrong with a list. A price for a "piece" is one for a whole
length, sheet or container as well. How a list is written as CSV is left to ``lathlight.buying.price_csv``, how many are
bought to ``lathlight.buying.shopping``.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from decimal import Decimal
from typing import TYPE_CHECKING, Literal

from lathlight.buying.money import Tax
from lathlight.catalog import TABLES, rows_of
from lathlight.errors import Problem, nearest

if TYPE_CHECKING:
    from collections.abc import Callable, Collection, Iterator, Sequence

    from lathlight.catalog import Catalog
    from lathlight.project import Project

Per = Literal["piece", "length", "sheet", "litre", "container", "box", "metre", "square metre"]
PERS: tuple[Per, ...] = ("piece", "length", "sheet", "litre", "container", "box", "metre", "square metre")
UNITS_OF: dict[str, tuple[Per, ...]] = {  # by the catalogue's tables; other things may have any
    "lumber": ("piece", "length", "metre"),
    "sheets": ("piece", "sheet", "square metre"),
    "profiles": ("piece", "length", "metre"),
    "paints": ("piece", "container", "litre"),
    "adhesives": ("piece", "container", "litre"),
    "fasteners": ("piece", "box"),
    "brackets": ("piece",),
    "weights": ("piece",),
}
ONE_WHOLE = ("length", "sheet", "container")  # a piece is any of these
SAME_LENGTH = 0.5  # lengths nearer than this are one stock length [mm]
SAME_VOLUME = 0.0005  # volumes nearer than this are one container [l]
LARGEST = Decimal(1_000_000_000)  # nothing for a set costs as much


@dataclass(frozen=True, slots=True, kw_only=True)
class PriceEntry:
    """What one of a thing costs."""

    item: str  # a catalogue row's name, or what the takeoff calls it
    price: Decimal  # with or without tax, as the whole list
    per: Per = "piece"
    length: float | None = None  # of the board or moulding [mm]
    volume: float | None = None  # of the container [l]
    in_stock: int | None = None  # how many the shop has


@dataclass(frozen=True, slots=True, kw_only=True)
class PriceList:
    """Prices of one currency, all with the tax or all without."""

    entries: tuple[PriceEntry, ...] = ()
    currency: str = "EUR"
    tax: Tax = field(default_factory=Tax)


def price_list_of(project: Project) -> PriceList:
    """Return the price list of a project file, in the file's order."""
    entries = tuple(
        PriceEntry(item=row.item, price=row.price, per=row.per, length=row.length, in_stock=row.in_stock)
        for row in project.prices
    )
    title = project.project
    tax = Tax(percent=title.tax_percent, included=title.prices_include_tax)
    return PriceList(entries=entries, currency=title.currency, tax=tax)


# --- looking up ----------------------------------------------------------------------------------------------------


def find_price(
    prices: PriceList, item: str, per: Per, *, length: float | None = None, volume: float | None = None
) -> PriceEntry | None:
    """Return the price of an item for one sale unit and exactly that size; None where there is none.

    Parameters
    ----------
    length
        Of the board or moulding [mm]; None finds only a price that states no length.
    volume
        Of the container [l]; None finds only a price that states no volume.

    Examples
    --------
    >>> prices = PriceList(entries=(PriceEntry(item="38x63", price=Decimal("4.90"), length=2400.0),))
    >>> find_price(prices, "38x63", "length", length=2400.0).price
    Decimal('4.90')
    >>> find_price(prices, "38x63", "length", length=3000.0) is None
    True
    """
    for entry in prices.entries:
        if (
            entry.item == item
            and _same_unit(entry.per, per)
            and _same(entry.length, length, SAME_LENGTH)
            and _same(entry.volume, volume, SAME_VOLUME)
        ):
            return entry
    return None


def prices_of(prices: PriceList, item: str, per: Per) -> tuple[PriceEntry, ...]:
    """Return every price of an item for one sale unit, whatever its size."""
    return tuple(entry for entry in prices.entries if entry.item == item and _same_unit(entry.per, per))


def _same_unit(listed: Per, wanted: Per) -> bool:
    return listed == wanted or ("piece" in {listed, wanted} and _whole(listed) == _whole(wanted))


def _whole(per: Per) -> Per:
    """Return "piece" for one whole of whatever kind."""
    return "piece" if per in ONE_WHOLE else per


def _same(listed: float | None, wanted: float | None, near: float) -> bool:
    if listed is None or wanted is None:
        return listed is wanted
    return abs(listed - wanted) < near


# --- what is wrong with a list ---------------------------------------------------------------------------------------


def check_entries(
    entries: Sequence[PriceEntry],
    *,
    catalog: Catalog,
    also: Collection[str] = (),
    place: Callable[[int, str], str] | None = None,
) -> tuple[Problem, ...]:
    """Return what is wrong with a price list, in its order.

    Parameters
    ----------
    catalog
        With the project's own rows: its names are the items.
    also
        What else may have a price: names of the takeoff that no row of the catalogue has.
    place
        How a message calls one key of an entry, from the entry's number and the key; ``prices[0] price`` where not
        given.
    """
    where = place or _place
    known = {name: table for table in TABLES for name in rows_of(catalog, table)}
    found: list[Problem] = []
    seen: set[tuple[object, ...]] = set()
    for number, entry in enumerate(entries):
        found += _faults(entry, known, also, lambda key, number=number: where(number, key))
        key = (entry.item, _whole(entry.per), _steps(entry.length, SAME_LENGTH), _steps(entry.volume, SAME_VOLUME))
        if key in seen:
            found.append(_second(entry, where(number, "item")))
        seen.add(key)
    return tuple(found)


def _steps(size: float | None, step: float) -> int | None:
    return None if size is None else round(size / step)


def _second(entry: PriceEntry, place: str) -> Problem:
    """Return the problem of an entry that gives a thing a second price."""
    return Problem(
        place=place,
        found=f'a second price of "{entry.item}" per {entry.per}',
        expected="one price of an item, sale unit and size",
        remedy="Take one of the two out.",
    )


def _place(number: int, key: str) -> str:
    return f"prices[{number}] {key}"


def _faults(
    entry: PriceEntry, known: dict[str, str], also: Collection[str], where: Callable[[str], str]
) -> Iterator[Problem]:
    if not entry.price.is_finite() or not 0 <= entry.price < LARGEST:
        yield Problem(
            place=where("price"),
            found=f"{entry.price}",
            expected=f"a price from 0 and below {LARGEST}",
            remedy="Give what one costs; leave it out where it is not known.",
        )
    if entry.item not in known and entry.item not in also:
        near = nearest(entry.item, (*known, *also))
        yield Problem(
            place=where("item"),
            found=f'unknown item "{entry.item}"',
            expected="a name of the catalogue or of the takeoff",
            remedy=f'Did you mean "{near}"?' if near else "Look it up (lathlight catalog), or take the line out.",
        )
        return
    yield from _unfit(entry, known.get(entry.item), where)


def _unfit(entry: PriceEntry, table: str | None, where: Callable[[str], str]) -> Iterator[Problem]:
    """Yield a sale unit or a size that the thing cannot have."""
    units = PERS if table is None else UNITS_OF[table]
    if entry.per not in units:
        yield Problem(
            place=where("per"),
            found=f'a price per {entry.per} of "{entry.item}"',
            expected=f"per {' or '.join(units)}",
            remedy=f'Write per = "{units[-1]}", or take the line out.',
        )
    sizes = (("length", entry.length, ("lumber", "profiles")), ("volume", entry.volume, ("paints", "adhesives")))
    for key, size, tables in sizes:
        if size is not None and table is not None and table not in tables:
            yield Problem(
                place=where(key),
                found=f'a {key} of "{entry.item}"',
                expected=f"no {key}: it is not sold by it",
                remedy=f"Take the {key} out.",
            )
