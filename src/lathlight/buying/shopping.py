"""From the takeoff to the basket: how many of what size are bought, and which price is theirs.

Decides the sale unit of each thing: boards and mouldings by whole lengths, sheets and fittings by the piece, screws by
the box (singly where only a price for one is known), glue by the container, floors off the roll or by the board, paint
in the cheapest containers that hold the need where their prices are known. How much is needed is the takeoff's matter,
which board lengths are taken that of cutting.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from decimal import Decimal
from typing import TYPE_CHECKING

from lathlight.buying.basket import BasketLine, add_up
from lathlight.buying.money import minor_unit, money_text, round_money
from lathlight.buying.price_csv import Wanted
from lathlight.buying.prices import SAME_VOLUME, PriceEntry, find_price, prices_of
from lathlight.buying.tins import TinOffer, cheapest_tins
from lathlight.units import format_length
from lathlight.working import USER, Working

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping, Sequence

    from lathlight.buying.basket import Basket, Section
    from lathlight.buying.prices import Per, PriceList
    from lathlight.catalog import Catalog
    from lathlight.finishing import TakeoffRow
    from lathlight.units import LengthStyle

NOISE = 1e-6  # of the arithmetic: less is no further piece
STEP = 100  # metres and square metres are bought to a hundredth
OF_STOCK = ": "  # "cover strip, left end: 19x38": a length of what is named last
OFF_THE_ROLL, BY_NUMBER = ", off the roll", ", by number"  # how the takeoff says what a floor is bought as
SEVERAL = "its price states no size, and it is sold in several"


@dataclass(frozen=True, slots=True, kw_only=True)
class _Thing:
    """So many of one thing to buy, before its price is known."""

    section: Section
    item: str
    unit: Per
    number: Decimal
    length: float | None = None
    volume: float | None = None
    box: int | None = None
    frame: tuple[float, float] | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class _Found:
    """The price of one, and how it was come by; what stands in the way of one."""

    price: Decimal | None = None
    entry: PriceEntry | None = None
    how: str = "as listed"
    note: str = ""


NOT_FOUND = _Found()


def make_basket(takeoff: Sequence[TakeoffRow], prices: PriceList, *, catalog: Catalog, style: LengthStyle) -> Basket:
    """Return what is bought for a takeoff, shop section by shop section, with tax and total.

    Parameters
    ----------
    takeoff
        Every row of the set; rows of one thing and size become one line.
    prices
        Prices with their currency and tax; what has none is in the basket all the same.
    catalog
        With the project's own rows: which section a fixing belongs to, which sizes paint is sold in.
    style
        How lengths are named: a moulding frame's price is listed under its name and size.
    """
    buyer = _Buyer(prices=prices, catalog=catalog, style=style)
    paint = [row for row in takeoff if row.trade == "paint"]
    other = [row for row in takeoff if row.trade != "paint"]
    lines = [buyer.line(thing) for thing in _merged(buyer.things(other))]
    lines += [line for own in _by_item(paint).values() for line in buyer.tins(own)]
    return add_up(lines, currency=prices.currency, tax=prices.tax)


def wanted_prices(basket: Basket, *, style: LengthStyle) -> tuple[Wanted, ...]:
    """Return the things of a basket that have no price, as lines of a price list to be filled in."""
    return tuple(
        Wanted(item=priced_name(line, style=style), per=line.unit, length=line.length, volume=line.volume)
        for line in basket.lines
        if line.price is None
    )


def priced_names(basket: Basket, *, style: LengthStyle) -> tuple[str, ...]:
    """Return what a price list may call a basket's things, beside the catalogue's own names."""
    return tuple(dict.fromkeys(priced_name(line, style=style) for line in basket.lines))


def priced_name(thing: BasketLine | _Thing, *, style: LengthStyle) -> str:
    """Return the name under which a thing's price is listed: a bought frame's has its size.

    The size is width x height, as in ``panel 30, frame bought whole, 600 mm x 400 mm``.
    """
    if thing.frame is None:
        return thing.item
    wide, high = (format_length(side, style=style) for side in thing.frame)
    return f"{thing.item}, {wide} x {high}"


def _by_item(rows: Iterable[TakeoffRow]) -> dict[str, list[TakeoffRow]]:
    found: dict[str, list[TakeoffRow]] = {}
    for row in rows:
        found.setdefault(row.line.item, []).append(row)
    return found


def _merged(things: Iterable[_Thing]) -> list[_Thing]:
    """Return one thing for all that are the same, where the first of them stood."""
    found: dict[_Thing, _Thing] = {}
    for thing in things:
        key = replace(thing, number=Decimal(0))
        before = found.get(key)
        found[key] = thing if before is None else replace(before, number=before.number + thing.number)
    return list(found.values())


def _whole(number: float) -> Decimal:
    """Return so many whole pieces."""
    return Decimal(math.ceil(number - NOISE))


def _amount(value: float) -> Decimal:
    """Return so many metres or square metres, up to the next hundredth."""
    return Decimal(math.ceil(value * STEP - NOISE)) / STEP


def _per_metre(mm: float) -> Decimal:
    return Decimal(str(round(mm, 4))) / 1000


@dataclass(frozen=True, slots=True, kw_only=True)
class _Buyer:
    """Turns rows into things, and things into lines."""

    prices: PriceList
    catalog: Catalog
    style: LengthStyle

    # --- what is bought --------------------------------------------------------------------------------------------

    def things(self, rows: Sequence[TakeoffRow]) -> Iterator[_Thing]:
        """Yield what the rows other than paint are bought as, row by row."""
        fixing = _by_item(row for row in rows if row.trade == "fixing")
        floors = {row.line.item for row in rows if row.trade == "floor"}
        for row in rows:
            match row.trade:
                case "fixing":
                    own = fixing.pop(row.line.item, None)  # all rows of one item at its first
                    if own is not None:
                        yield self._fixing(row.line.item, own)
                case "floor":
                    if not floors.intersection((row.line.item + OFF_THE_ROLL, row.line.item + BY_NUMBER)):
                        yield _by_unit("floor", row)
                case "sheets" if row.packs:
                    number = _whole(sum(pack.number for pack in row.packs))
                    yield _Thing(section="sheets", item=row.line.item, unit="sheet", number=number)
                case "timber" | "mouldings" | "sheets":
                    yield from _lengths(row, row.trade)
                case _:
                    raise ValueError(f"paint is bought in tins: {row.line.item}")

    def _fixing(self, item: str, rows: Sequence[TakeoffRow]) -> _Thing:
        number = _whole(math.fsum(row.line.gross for row in rows))
        if item in self.catalog.fasteners:
            return self._boxes(item, rows, number)
        if item in self.catalog.adhesives:
            volume = self.catalog.adhesives[item].container
            return _Thing(section="glue and filler", item=item, unit="container", number=number, volume=volume)
        section: Section = "weights" if item in self.catalog.weights else "hardware"
        return _Thing(section=section, item=item, unit="piece", number=number)

    def _boxes(self, item: str, rows: Sequence[TakeoffRow], number: Decimal) -> _Thing:
        """Return boxes, or single pieces where there are no boxes or only the price of one is known."""
        one = _Thing(section="screws and fixings", item=item, unit="piece", number=number)
        packs = [pack for row in rows for pack in row.packs]
        only_single = (
            find_price(self.prices, item, "box") is None and find_price(self.prices, item, "piece") is not None
        )
        if not packs or only_single:
            return one
        boxes = Decimal(sum(pack.number for pack in packs))
        return replace(one, unit="box", number=boxes, box=round(packs[0].size))

    # --- what it costs ---------------------------------------------------------------------------------------------

    def line(self, thing: _Thing) -> BasketLine:
        """Return the line of a thing, with its price where there is one."""
        return self._line(thing, self._found(thing))

    def _line(self, thing: _Thing, found: _Found) -> BasketLine:
        unit = minor_unit(self.prices.currency)
        cost = None if found.price is None else round_money(thing.number * found.price, unit=unit)
        stock = None if found.entry is None else found.entry.in_stock
        short = "" if stock is None or stock >= thing.number else f"the shop has {stock}"
        return BasketLine(
            section=thing.section,
            item=thing.item,
            unit=thing.unit,
            number=thing.number,
            price=found.price,
            cost=cost,
            why=self._why(thing, found, cost),
            length=thing.length,
            volume=thing.volume,
            box=thing.box,
            frame=thing.frame,
            note="; ".join(part for part in (found.note, short) if part),
        )

    def _why(self, thing: _Thing, found: _Found, cost: Decimal | None) -> Working:
        if found.price is None or cost is None:
            inputs = (("number", float(thing.number), ""),)
            return Working(formula="no price is known", inputs=inputs, source=USER, value="no price")
        each = money_text(found.price, currency=self.prices.currency)
        return Working(
            formula=f"number x price of one, {found.how}; half a coin goes up",
            inputs=(("number", float(thing.number), ""), ("price of one", each, "")),
            source=USER,
            value=money_text(cost, currency=self.prices.currency),
        )

    def _found(self, thing: _Thing) -> _Found:
        match thing.unit:
            case "length":
                return self._length_price(thing)
            case "sheet":
                return self._sheet_price(thing)
            case "container":
                return self._container_price(thing.item, thing.volume or 0.0, sizes=1)
            case _:
                return self._plain_price(thing)

    def _plain_price(self, thing: _Thing) -> _Found:
        """Return the price under the thing's own name, or under that of the stock it is a length of."""
        names = dict.fromkeys((priced_name(thing, style=self.style), thing.item.rpartition(OF_STOCK)[2]))
        for name in names:
            entry = find_price(self.prices, name, thing.unit)
            if entry is not None:
                return _Found(price=entry.price, entry=entry)
        return NOT_FOUND

    def _length_price(self, thing: _Thing) -> _Found:
        length = thing.length or 0.0
        entry = find_price(self.prices, thing.item, "length", length=length)
        if entry is not None:
            return _Found(price=entry.price, entry=entry)
        metre = find_price(self.prices, thing.item, "metre", length=length) or find_price(
            self.prices, thing.item, "metre"
        )
        if metre is not None:
            return self._worked_out(metre, _per_metre(length), "price of a metre x its length")
        plain = find_price(self.prices, thing.item, "length")
        if plain is None:
            return NOT_FOUND
        rows = (self.catalog.lumber.get(thing.item), self.catalog.profiles.get(thing.item))
        several = any(row is not None and len(row.lengths) > 1 for row in rows)
        return _Found(note=SEVERAL) if several else _Found(price=plain.price, entry=plain)

    def _sheet_price(self, thing: _Thing) -> _Found:
        entry = find_price(self.prices, thing.item, "sheet")
        if entry is not None:
            return _Found(price=entry.price, entry=entry)
        area = find_price(self.prices, thing.item, "square metre")
        sheet = self.catalog.sheets.get(thing.item)
        if area is None or sheet is None:
            return NOT_FOUND
        size = _per_metre(sheet.width) * _per_metre(sheet.length)
        return self._worked_out(area, size, "price of a square metre x its area")

    def _container_price(self, item: str, volume: float, *, sizes: int) -> _Found:
        """Return the price of one container; one without a volume counts where the thing is sold in one size."""
        entry = find_price(self.prices, item, "container", volume=volume)
        if entry is not None:
            return _Found(price=entry.price, entry=entry)
        litre = find_price(self.prices, item, "litre")
        if litre is not None:
            return self._worked_out(litre, Decimal(str(round(volume, 9))), "price of a litre x its volume")
        plain = find_price(self.prices, item, "container")
        if plain is None:
            return NOT_FOUND
        return _Found(price=plain.price, entry=plain) if sizes == 1 else _Found(note=SEVERAL)

    def _worked_out(self, entry: PriceEntry, size: Decimal, how: str) -> _Found:
        price = round_money(entry.price * size, unit=minor_unit(self.prices.currency))
        return _Found(price=price, entry=replace(entry, in_stock=None), how=f"the {how}")

    # --- paint -----------------------------------------------------------------------------------------------------

    def tins(self, rows: Sequence[TakeoffRow]) -> Iterator[BasketLine]:
        """Yield the containers of one paint: the cheapest where prices are known, else those of the takeoff."""
        item = rows[0].line.item
        need = math.fsum(row.line.gross for row in rows)
        own = _tins_of(rows)
        if not own:
            yield from (self.line(thing) for thing in _merged(_by_unit("paint", row) for row in rows))
            return
        sizes = self._sizes(item, own)
        found = {size: self._container_price(item, size, sizes=len(sizes)) for size in sizes}
        cheapest = self._cheapest(need, own, found)
        for size, number in own.items() if cheapest is None else cheapest:
            thing = _Thing(section="paint", item=item, unit="container", number=Decimal(number), volume=size)
            how = found[size]
            if cheapest is not None:
                how = replace(how, how=f"{how.how}, in the cheapest containers that hold the need")
            yield self._line(thing, how)

    def _sizes(self, item: str, own: Mapping[float, int]) -> tuple[float, ...]:
        """Return every size of container that is on sale, or has a price [l]."""
        row = self.catalog.paints.get(item)
        listed = [entry.volume for entry in prices_of(self.prices, item, "container") if entry.volume is not None]
        sizes = list(own)
        for size in (*(() if row is None else row.containers), *listed):
            if not any(abs(size - other) < SAME_VOLUME for other in sizes):
                sizes.append(size)
        return tuple(sorted(sizes))

    def _cheapest(
        self, need: float, own: Mapping[float, int], found: Mapping[float, _Found]
    ) -> tuple[tuple[float, int], ...] | None:
        """Return the cheapest containers; None where a container of the takeoff has no price to compare with."""
        if any(found[size].price is None for size in own):
            return None
        offers = [
            TinOffer(volume=size, price=each.price, in_stock=None if each.entry is None else each.entry.in_stock)
            for size, each in found.items()
            if each.price is not None
        ]
        tins = cheapest_tins(need, offers)
        return None if tins is None else tuple((offer.volume, number) for offer, number in tins)


def _tins_of(rows: Sequence[TakeoffRow]) -> dict[float, int]:
    """Return the takeoff's containers of one paint, by size [l], largest first."""
    found: dict[float, int] = {}
    for row in rows:
        for pack in row.packs:
            found[pack.size] = found.get(pack.size, 0) + pack.number
    return dict(sorted(found.items(), reverse=True))


def _lengths(row: TakeoffRow, section: Section) -> Iterator[_Thing]:
    """Yield whole lengths, bought frames, or what is bought by the metre or square metre."""
    if row.size is not None:
        number = _whole(row.line.gross)
        yield _Thing(section="moulding frames", item=row.line.item, unit="piece", number=number, frame=row.size)
    elif row.packs:
        for pack in row.packs:
            number = Decimal(pack.number)
            yield _Thing(section=section, item=row.line.item, unit="length", number=number, length=pack.size)
    else:
        yield _by_unit(section, row)


def _by_unit(section: Section, row: TakeoffRow) -> _Thing:
    """Return what is bought in the takeoff's own unit."""
    line = row.line
    units: dict[str, Per] = {"m": "metre", "m2": "square metre", "l": "litre"}
    per = units.get(line.unit, "piece")
    number = _whole(line.gross) if per == "piece" else _amount(line.gross)
    return _Thing(section=section, item=line.item, unit=per, number=number)
