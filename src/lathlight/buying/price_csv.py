"""A price list as CSV: one line a price, to be filled in with any spreadsheet or editor and read back.

The columns are ``item``, ``per``, ``length``, ``volume``, ``price`` and ``in stock``. Commas or semicolons part them
(RFC 4180; semicolons where the decimal sign is a comma, as spreadsheets set to such a language write it). A line whose
price is empty is one that is not known yet; it is read over. Works on text; files are left to the caller.
"""

from __future__ import annotations

import csv
import io
import re
from dataclasses import dataclass
from decimal import Decimal
from typing import TYPE_CHECKING, Literal, cast

from lathlight.buying.money import minor_unit, plain_figure
from lathlight.buying.prices import LARGEST, PERS, Per, PriceEntry, check_entries
from lathlight.buying.sizes import volume_text
from lathlight.catalog import parse_measure
from lathlight.errors import InputError, Problem, nearest
from lathlight.units import UnitError, file_length, parse_length

if TYPE_CHECKING:
    from collections.abc import Callable, Collection, Iterable, Iterator, Mapping

    from lathlight.catalog import Catalog
    from lathlight.units import LengthStyle

COLUMNS = ("item", "per", "length", "volume", "price", "in stock")
NEEDED = ("item", "price")
MARK = "\ufeff"  # byte order mark that spreadsheets put first
RUNS_AS_FORMULA = ("=", "+", "-", "@", "\t")  # a spreadsheet would calculate; an apostrophe keeps it a text
MOST_STOCK = 1_000_000
_FIGURE = re.compile(r"-?(?:[0-9]+|[0-9]{1,3}(?:[ '][0-9]{3})+|[0-9]{1,3}(?:[.,][0-9]{3})+)?(?:[.,][0-9]+)?")
_DOUBTFUL = re.compile(r"-?[1-9][0-9]{0,2}[.,][0-9]{3}")


@dataclass(frozen=True, slots=True, kw_only=True)
class Wanted:
    """A thing whose price is not known yet."""

    item: str
    per: Per
    length: float | None = None  # [mm]
    volume: float | None = None  # [l]


# --- writing -------------------------------------------------------------------------------------------------------


def write_price_csv(
    entries: Iterable[PriceEntry],
    *,
    style: LengthStyle,
    currency: str = "EUR",
    decimal: Literal[".", ","] = ".",
    wanted: Iterable[Wanted] = (),
) -> str:
    r"""Return a price list as CSV; :func:`read_price_csv` reads the same entries back.

    Parameters
    ----------
    decimal
        Decimal sign of the prices; with a comma, semicolons part the columns.
    wanted
        Things without a price: lines to be filled in.

    Examples
    --------
    >>> from lathlight.units import LengthStyle
    >>> entry = PriceEntry(item="38x63", price=Decimal("4.9"), length=2400.0)
    >>> print(write_price_csv([entry], style=LengthStyle.metric()).replace("\r", ""), end="")
    item,per,length,volume,price,in stock
    38x63,piece,2400 mm,,4.90,
    """
    text = io.StringIO(newline="")
    writer = csv.writer(text, delimiter="," if decimal == "." else ";", lineterminator="\r\n")
    writer.writerow(COLUMNS)
    for entry in entries:
        price = _written(entry.price, currency).replace(".", decimal)
        stock = "" if entry.in_stock is None else str(entry.in_stock)
        writer.writerow([*_named(entry, style), price, stock])
    for thing in wanted:
        writer.writerow([*_named(thing, style), "", ""])
    return text.getvalue()


def _written(price: Decimal, currency: str) -> str:
    """Return a price with its decimals; never three after a figure that they could make thousands of."""
    figure = plain_figure(price, unit=minor_unit(currency))
    return f"{figure}0" if _DOUBTFUL.fullmatch(figure) else figure


def _named(thing: PriceEntry | Wanted, style: LengthStyle) -> tuple[str, str, str, str]:
    item = f"'{thing.item}" if thing.item.startswith(RUNS_AS_FORMULA) else thing.item
    length = "" if thing.length is None else file_length(thing.length, style=style)
    return item, thing.per, length, "" if thing.volume is None else volume_text(thing.volume, style=style)


# --- reading -------------------------------------------------------------------------------------------------------


def read_price_csv(
    text: str,
    *,
    style: LengthStyle,
    currency: str,
    catalog: Catalog,
    also: Collection[str] = (),
    name: str = "prices.csv",
) -> tuple[PriceEntry, ...]:
    """Return the prices of a CSV text, in its order.

    Parameters
    ----------
    style
        How lengths without a unit are meant.
    currency
        Currency of the project: a price that names another one is refused.
    catalog, also
        What may have a price (:func:`lathlight.buying.prices.check_entries`).
    name
        The file's name, for messages.

    Raises
    ------
    InputError
        A column or a cell cannot be read, or what :func:`lathlight.buying.prices.check_entries` finds; all problems.
    """
    rows = _rows(text, name)
    reader = _Reader(style=style, currency=currency)
    entries: list[PriceEntry] = []
    lines: list[int] = []
    found: list[tuple[int, Problem]] = []
    for line, cells in rows:
        entry, faults = reader.read(cells, lambda key, line=line: f"{name}:{line} {key}")
        found += [(line, fault) for fault in faults]
        if entry is not None:
            entries.append(entry)
            lines.append(line)
    judged = check_entries(
        entries, catalog=catalog, also=also, place=lambda number, key: f"{name}:{lines[number]} {key}"
    )
    found += [(int(each.place.removeprefix(f"{name}:").split(" ")[0]), each) for each in judged]
    if found:
        raise InputError([each for _, each in sorted(found, key=lambda pair: pair[0])])
    return tuple(entries)


def _rows(text: str, name: str) -> list[tuple[int, dict[str, str]]]:
    """Return every line that is not empty, by column, with its number."""
    body = text.removeprefix(MARK)
    head = next((line for line in body.splitlines() if line.strip()), "")
    reader = csv.reader(io.StringIO(body, newline=""), delimiter=";" if head.count(";") > head.count(",") else ",")
    columns: list[str] | None = None
    rows: list[tuple[int, dict[str, str]]] = []
    found: list[Problem] = []
    try:
        for cells in reader:
            if not any(cell.strip() for cell in cells):
                continue
            if columns is None:
                columns = [" ".join(cell.lower().replace("_", " ").split()) for cell in cells]
                found += _wrong_columns(columns, f"{name}:{reader.line_num}")
                continue
            found += _too_many(cells, columns, f"{name}:{reader.line_num}")
            rows.append((reader.line_num, dict(zip(columns, (cell.strip() for cell in cells), strict=False))))
    except csv.Error as error:
        found.append(_fault(f"{name}:{reader.line_num}", f"no CSV ({error})", "lines of cells", "Save it as CSV anew."))
    if columns is None:
        found.append(_fault(name, "no line", f"a first line of columns: {', '.join(COLUMNS)}", "Write that line."))
    if found:
        raise InputError(found)
    return rows


def _wrong_columns(columns: list[str], place: str) -> Iterator[Problem]:
    for column in dict.fromkeys(columns):
        if column not in COLUMNS:
            near = nearest(column, COLUMNS)
            remedy = f'Did you mean "{near}"?' if near else "Take the column out."
            yield _fault(place, f'an unknown column "{column}"', f"one of {', '.join(COLUMNS)}", remedy)
        elif columns.count(column) > 1:
            yield _fault(place, f'the column "{column}" twice', "each column once", "Take one of the two out.")
    for column in NEEDED:
        if column not in columns:
            yield _fault(place, f'no column "{column}"', f"the columns {' and '.join(NEEDED)}", "Add it.")


def _too_many(cells: list[str], columns: list[str], place: str) -> Iterator[Problem]:
    if any(cell.strip() for cell in cells[len(columns) :]):
        remedy = "Put a price with a decimal comma in quotation marks, or part the columns by semicolons."
        yield _fault(place, f"{len(cells)} cells", f"at most {len(columns)}, as many as columns", remedy)


def _fault(place: str, found: str, expected: str, remedy: str) -> Problem:
    return Problem(place=place, found=found, expected=expected, remedy=remedy)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Reader:
    """Reads one line's cells."""

    style: LengthStyle
    currency: str

    def read(
        self, cells: Mapping[str, str], where: Callable[[str], str]
    ) -> tuple[PriceEntry | None, tuple[Problem, ...]]:
        """Return the entry of a line, None where its price is empty, and what is wrong."""
        if not cells.get("price"):
            return None, ()
        readers: dict[str, Callable[[str], object]] = {
            "item": self._item,
            "per": self._per,
            "length": self._length,
            "volume": lambda text: parse_measure(text, measure="volume"),
            "price": lambda text: parse_price(text, currency=self.currency),
            "in stock": self._stock,
        }
        values: dict[str, object] = {}
        found: list[Problem] = []
        for key, read in readers.items():
            cell = cells.get(key, "")
            try:
                values[key] = read(cell) if cell or key in ("item", "per") else None
            except UnitError as error:
                found.append(_fault(where(key), error.found, error.expected, error.remedy))
        if found:
            return None, tuple(found)
        return PriceEntry(
            item=cast("str", values["item"]),
            price=cast("Decimal", values["price"]),
            per=cast("Per", values["per"]),
            length=cast("float | None", values["length"]),
            volume=cast("float | None", values["volume"]),
            in_stock=cast("int | None", values["in stock"]),
        ), ()

    def _item(self, text: str) -> str:
        if not text:
            raise UnitError(found="nothing", expected="the item's name", remedy="Write what the price is for.")
        return text[1:] if text.startswith("'") and text[1:].startswith(RUNS_AS_FORMULA) else text

    def _per(self, text: str) -> Per:
        word = " ".join(text.lower().split()) or "piece"
        if word in PERS:
            return word
        near = nearest(word, PERS)
        remedy = f'Did you mean "{near}"?' if near else "Take one of these words."
        raise UnitError(found=f'"{text}"', expected=" or ".join(PERS), remedy=remedy)

    def _length(self, text: str) -> float:
        length = parse_length(text, style=self.style)
        if length <= 0:
            raise UnitError(found=f'"{text}"', expected="a length above 0", remedy="Give the stock length.")
        return length

    def _stock(self, text: str) -> int:
        if not re.fullmatch(r"[0-9]{1,7}", text) or int(text) > MOST_STOCK:
            expected = f"a whole number from 0 to {MOST_STOCK}"
            raise UnitError(
                found=f'"{text}"', expected=expected, remedy="Write how many the shop has, or leave it empty."
            )
        return int(text)


def parse_price(text: str, *, currency: str) -> Decimal:
    """Return a price from its text: decimal point or comma, thousands parted or not, with or without the currency.

    Raises
    ------
    UnitError
        No number, a negative one, another currency, or a figure that can be read in two ways such as ``1,234``.

    Examples
    --------
    >>> parse_price("12,50", currency="EUR"), parse_price("1.234,50 EUR", currency="EUR")
    (Decimal('12.50'), Decimal('1234.50'))
    """
    shown = f'"{text[:40]}"'
    plain = " ".join(text.split())
    for bare in (plain[: -len(currency)], plain[len(currency) :]):
        if plain.upper() in (bare.upper() + currency.upper(), currency.upper() + bare.upper()):
            plain = bare.strip()
            break
    plain = plain.replace("\N{MINUS SIGN}", "-").replace("\N{RIGHT SINGLE QUOTATION MARK}", "'")
    if not re.search(r"[0-9]", plain) or not _FIGURE.fullmatch(plain):
        raise UnitError(
            found=shown, expected=f"a number of {currency}", remedy="Write a number such as 12.50 or 12,50."
        )
    if _DOUBTFUL.fullmatch(plain):
        thousands, decimal = re.sub(r"[.,]", "", plain), f"{plain}0"
        raise UnitError(
            found=shown,
            expected="a price that can be read in one way only",
            remedy=f"Type {thousands} or {decimal}, as it is meant.",
        )
    price = Decimal(_plain_number(plain))
    if price < 0 or price.is_signed():
        raise UnitError(found=shown, expected="a price of 0 or more", remedy="Take the minus sign out.")
    if price >= LARGEST:
        raise UnitError(found=shown, expected=f"a price below {LARGEST}", remedy="Look at the figure.")
    return price


def _plain_number(text: str) -> str:
    """Return a number with a decimal point and nothing between its thousands."""
    bare = re.sub(r"[ ']", "", text)
    last = max(bare.rfind("."), bare.rfind(","))
    whole, decimals = (bare, "") if last < 0 else (bare[:last], bare[last + 1 :])
    if last >= 0 and bare.count(bare[last]) > 1:  # 1,234,567: the last sign parts thousands as well
        whole, decimals = bare, ""
    return f"{re.sub('[.,]', '', whole) or '0'}.{decimals or '0'}" if decimals else re.sub("[.,]", "", whole)
