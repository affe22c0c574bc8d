"""Saw jobs as JSON lines, one job a line, all figures in the line's own unit.

Four forms are told apart by their keys: ``capacity`` with ``items`` (boards of one length, price 1), ``stocks`` with
``items`` as ``[length, count]`` (boards), ``stocks`` with ``items`` as ``{"l", "w", "qty", "rotate"}`` (sheets), and
``W``, ``H`` with ``pieces`` (sheets of one size, price 1, any number of stages). Remarks beside them are passed over.
"""

from __future__ import annotations

import json
from decimal import Decimal
from fractions import Fraction
from typing import TYPE_CHECKING, Any, cast

from lathlight.app.saw_entries import MOST_PIECES, decimal_of, stages_of
from lathlight.app.saw_job import SawJob, SawPiece, SawStock, figure
from lathlight.app.saw_slips import shown
from lathlight.errors import nearest

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from lathlight.app.saw_slips import Slips

JOB_KEYS = ("id", "name", "set", "kind", "unit", "currency", "stocks", "items", "capacity", "W", "H", "pieces")
RULE_KEYS = ("kerf", "trim_cut", "least_offcut", "straight_edge", "stages")
VALUED = {"pieces_w_h_value": False, "pieces_w_h_max_value": True}  # whether a count stands before the value
REMARKS = ("tier", "lb", "ub", "optimum", "note", "source", "area", "optimum_sheets", "optimum_value")
STOCK_KEYS = ("length", "l", "w", "price", "limit", "offcut", "name")
LONGEST_LINE = 5_000_000


def read_lines(text: str, *, file: str, slips: Slips) -> tuple[SawJob, ...]:
    """Return the jobs of a text, in its order; lines that cannot be used go to the slips, each with its number."""
    jobs: list[SawJob] = []
    for number, line in enumerate(text.split("\n"), start=1):
        if not line.strip():
            continue
        row = _row(line, file=file, number=number, slips=slips)
        if row is not None and (job := _Line(row, file=file, number=number, slips=slips).job()) is not None:
            jobs.append(job)
    return tuple(jobs)


def _row(line: str, *, file: str, number: int, slips: Slips) -> dict[str, Any] | None:
    try:
        row: object = json.loads(line, parse_float=Decimal)
    except json.JSONDecodeError as error:
        found = f"a line that breaks off or is not JSON at column {error.colno} ({error.msg})"
        remedy = "Mend or take out the line; each line is one whole job in braces."
        slips.add(number, place=f"{file}:{number}", found=found, expected="one JSON document a line", remedy=remedy)
        return None
    except (ValueError, RecursionError):
        remedy = "Take the line out."
        slips.add(
            number, place=f"{file}:{number}", found="a number of thousands of digits or brackets without end",
            expected="one JSON document a line", remedy=remedy,
        )  # fmt: skip
        return None
    if not isinstance(row, dict):
        slips.add(
            number,
            place=f"{file}:{number}",
            found=shown(row),
            expected="a job in braces",
            remedy='Write the job as {"id": ..., "stocks": [...], "items": [...]}.',
        )
        return None
    return cast("dict[str, Any]", row)


class _Line:
    """One line that is read."""

    def __init__(self, row: dict[str, Any], *, file: str, number: int, slips: Slips) -> None:
        self.row = row
        self.number = number
        name = row.get("id", row.get("name"))
        self.name = str(name) if isinstance(name, str | int) and str(name).strip() else f"line {number}"
        self.place = f"{file}:{number} {self.name}" if name else f"{file}:{number}"
        self._slips = slips
        self._fine = True

    def wrong(self, key: str, found: str, expected: str, remedy: str) -> None:
        self._fine = False
        place = f"{self.place} {key}".rstrip()
        self._slips.add(self.number, place=place, found=found, expected=expected, remedy=remedy)

    def job(self) -> SawJob | None:
        self._misspelt()
        row = self.row
        valued = next((key for key in VALUED if key in row), None)
        one_size = "W" in row or "H" in row
        pieces = self._flat_pieces(valued or "pieces") if one_size else self._items()
        is_sheets = one_size or any(piece.width is not None for piece in pieces)
        if is_sheets and any(piece.width is None for piece in pieces):
            self.wrong("items", "pieces of board among pieces of sheet", "one kind a job", "Put them on two lines.")
        stocks = self._one_sheet() if one_size else self._stocks(is_sheets=is_sheets)
        straight_edge = self.length("straight_edge", row["straight_edge"]) if "straight_edge" in row else None
        job = SawJob(
            name=self.name,
            place=self.place,
            line=self.number,
            pieces=pieces,
            stocks=stocks,
            unit=str(row.get("unit") or ""),
            is_sheets=is_sheets,
            kerf=self.length("kerf", row.get("kerf", 0)),
            trim_cut=self.length("trim_cut", row.get("trim_cut", 0)),
            least_offcut=self.length("least_offcut", row.get("least_offcut", 0)),
            straight_edge=straight_edge,
            stages=self._stages(default=None if one_size else 3),
            currency=str(row.get("currency") or ""),
            ignored="the pieces' values: all pieces are cut, at the least cost" if valued else "",
        )
        return job if self._fine else None

    def _misspelt(self) -> None:
        """Refuse a key that is nearly one that counts; whatever else a line holds is a remark."""
        for key in self.row:
            known = (*JOB_KEYS, *RULE_KEYS, *VALUED)
            near = None if key in (*known, *REMARKS) else nearest(key, known)
            if near is not None:
                remedy = f'Did you mean "{near}"? Otherwise call the remark by another name.'
                self.wrong(key, "a key that is not known", "a job's keys", remedy)

    def length(self, key: str, value: object, *, above: bool = False) -> Fraction:
        if isinstance(value, int | Decimal) and not isinstance(value, bool):
            finite = not isinstance(value, Decimal) or value.is_finite()
            if finite and abs(value) < 10**12 and (value > 0 or (value == 0 and not above)):
                return Fraction(value)
        expected = "a number above 0" if above else "a number, 0 or more"
        self.wrong(key, shown(value), expected, "Give it as a plain number in the line's own unit.")
        return Fraction(1)

    def count(self, key: str, value: object) -> int:
        if isinstance(value, int) and not isinstance(value, bool) and 0 <= value <= MOST_PIECES:
            return value
        self.wrong(key, shown(value), f"a whole number from 0 to {MOST_PIECES}", "Say how many.")
        return 0

    def _list(self, key: str) -> Sequence[Any]:
        value = self.row.get(key)
        if isinstance(value, list) and value:
            return cast("list[Any]", value)
        found = "nothing under it" if key in self.row else "no such key"
        self.wrong(key, found if not value or isinstance(value, list) else shown(value), "a list", "List at least one.")
        return ()

    def _items(self) -> tuple[SawPiece, ...]:
        return tuple(self._item(f"items[{n}]", each) for n, each in enumerate(self._list("items")))

    def _item(self, key: str, each: object) -> SawPiece:
        if isinstance(each, dict):
            return self._named_item(key, cast("dict[str, Any]", each))
        pair = cast("list[object]", each) if isinstance(each, list) else []
        if len(pair) == 2:
            length, count = pair
            return self._piece(key, length=self.length(key, length, above=True), count=self.count(key, count))
        self.wrong(key, "another entry", "[length, count]", "Give the piece's length and how many.")
        return self._piece(key, length=Fraction(1), count=0)

    def _named_item(self, key: str, each: Mapping[str, Any]) -> SawPiece:
        self._known(key, each, ("length", "l", "w", "qty", "rotate", "name"))
        long = "l" if "l" in each else "length"
        rotate = each.get("rotate", False)
        if not isinstance(rotate, bool):
            self.wrong(f"{key} rotate", shown(rotate), "true or false", "Say whether the piece may be turned.")
        return self._piece(
            key,
            length=self.length(f"{key} {long}", each.get(long), above=True),
            width=self.length(f"{key} w", each["w"], above=True) if "w" in each else None,
            count=self.count(f"{key} qty", each.get("qty", 1)),
            turns=rotate is True,
            name=str(each.get("name") or ""),
        )

    def _known(self, key: str, each: Mapping[str, Any], known: Sequence[str]) -> None:
        for odd in each:
            near = None if odd in known else nearest(odd, known)
            if near is not None:
                self.wrong(f"{key} {odd}", "a key that is not known", ", ".join(known), f'Did you mean "{near}"?')

    def _flat_pieces(self, key: str) -> tuple[SawPiece, ...]:
        found: list[SawPiece] = []
        counted, cells = VALUED.get(key, True), 4 if VALUED.get(key) else 3
        for n, each in enumerate(self._list(key)):
            place = f"{key}[{n}]"
            row = cast("list[Any]", each) if isinstance(each, list) else []
            if len(row) != cells:
                self.wrong(place, "another entry", f"a list of {cells} numbers, width first", "Give all of them.")
                continue
            width, length = (self.length(place, side, above=True) for side in row[:2])
            found.append(
                self._piece(place, length=length, width=width, count=self.count(place, row[2]) if counted else 1)
            )
        return tuple(found)

    def _piece(
        self,
        key: str,
        *,
        length: Fraction,
        count: int,
        width: Fraction | None = None,
        turns: bool = False,
        name: str = "",
    ) -> SawPiece:
        place = f"{self.place} {key}"
        return SawPiece(place=place, line=self.number, name=name, length=length, width=width, count=count, turns=turns)

    def _one_sheet(self) -> tuple[SawStock, ...]:
        width, length = (self.length(key, self.row.get(key), above=True) for key in ("W", "H"))
        entry = {"l": figure(length), "w": figure(width), "price": 1}
        return (self._stock(f"{self.place} W", entry=entry, length=length, width=width, price=Decimal(1)),)

    def _stocks(self, *, is_sheets: bool) -> tuple[SawStock, ...]:
        if "capacity" in self.row and "stocks" not in self.row:
            length = self.length("capacity", self.row["capacity"], above=True)
            entry = {"length": figure(length), "price": 1}
            return (self._stock(f"{self.place} capacity", entry=entry, length=length, price=Decimal(1)),)
        listed = enumerate(self._list("stocks"))
        return tuple(stock for n, each in listed if (stock := self._entry(f"stocks[{n}]", each, is_sheets=is_sheets)))

    def _entry(self, key: str, each: object, *, is_sheets: bool) -> SawStock | None:
        if not isinstance(each, dict):
            self.wrong(key, shown(each), "a table in braces", 'Write {"length": 2400, "price": 420}.')
            return None
        stock = cast("dict[str, Any]", each)
        self._known(key, stock, STOCK_KEYS)
        long = "l" if is_sheets else "length"
        price, limit, offcut = decimal_of(stock.get("price")), stock.get("limit"), stock.get("offcut", False)
        if not isinstance(offcut, bool):
            self.wrong(f"{key} offcut", shown(offcut), "true or false", "Say whether it lies on the shelf.")
        if price is None:
            found = shown(stock["price"]) if "price" in stock else "no price"
            self.wrong(f"{key} price", found, "a number, 0 or more", "Give the price of one.")
        return self._stock(
            f"{self.place} {key}",
            entry={name: _plain(value) for name, value in stock.items()},
            length=self.length(f"{key} {long}", stock.get(long), above=True),
            width=self.length(f"{key} w", stock.get("w"), above=True) if is_sheets else None,
            price=price or Decimal(0),
            limit=None if limit is None else self.count(f"{key} limit", limit),
            offcut=offcut is True,
            name=str(stock.get("name") or ""),
        )

    def _stock(
        self,
        place: str,
        *,
        entry: Mapping[str, object],
        length: Fraction,
        price: Decimal,
        width: Fraction | None = None,
        limit: int | None = None,
        offcut: bool = False,
        name: str = "",
    ) -> SawStock:
        return SawStock(
            place=place,
            line=self.number,
            name=name,
            length=length,
            width=width,
            price=price,
            limit=1 if offcut and limit is None else limit,
            offcut=offcut,
            entry=entry,
        )

    def _stages(self, *, default: int | None) -> int | None:
        if "stages" not in self.row:
            return default
        try:
            return stages_of(self.row["stages"])
        except ValueError:
            self.wrong("stages", shown(self.row["stages"]), 'a whole number from 1, or "any"', "Leave it out for 3.")
            return default


def _plain(value: object) -> object:
    return figure(value) if isinstance(value, Decimal) and value.is_finite() else value
