"""The entries of a saw job written by hand, TOML or CSV: what each key means, and what is refused.

Both readers hand over the same entries; here they become jobs, one a section. Whether the stock can hold the pieces is
left to ``saw_checks``.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from decimal import Decimal, InvalidOperation
from fractions import Fraction
from typing import TYPE_CHECKING, Any

from lathlight.app.saw_job import SawJob, SawPiece, SawStock, figure
from lathlight.app.saw_slips import shown
from lathlight.errors import nearest
from lathlight.units import INCH, LengthStyle, UnitError, parse_length

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from lathlight.app.saw_slips import Slips

MOST_PIECES = 100_000  # of one entry: more is a slip of the pen
MOST_PRICE = Decimal(10**9)
MOST_DECIMALS = 4
JOB_KEYS = ("name", "units", "currency", "kerf", "trim_cut", "least_offcut", "straight_edge", "stages")
PIECE_KEYS = ("name", "section", "length", "width", "number", "grain")
STOCK_KEYS = ("name", "section", "length", "width", "number", "price", "offcut", "moulding")


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """One entry of a file: its values, and where each of them stands."""

    place: str  # "pieces[2]"
    line: int  # where it begins; 0 where that is not known
    values: Mapping[str, Any]
    lines: Mapping[str, int] = field(default_factory=dict[str, int])  # of its keys, where they differ

    def line_of(self, key: str) -> int:
        """Return the line of a key, or of the entry."""
        return self.lines.get(key, self.line)


@dataclass(frozen=True, slots=True, kw_only=True)
class Listed:
    """Everything that a file lists."""

    file: str
    stem: str
    job: Entry
    pieces: Sequence[Entry]
    stocks: Sequence[Entry]


class _Reader:
    """Reads values of entries; what is wrong goes to the slips."""

    def __init__(self, listed: Listed, slips: Slips) -> None:
        self.file = listed.file
        self.slips = slips
        units = listed.job.values.get("units", "metric")
        if units not in ("metric", "imperial"):
            remedy = "Type metric, where a plain number is millimetres, or imperial."
            self.wrong(listed.job, "units", shown(units), "metric or imperial", remedy)
        self.style = LengthStyle.imperial(32) if units == "imperial" else LengthStyle.metric()
        self.unit = "in" if units == "imperial" else "mm"

    def place(self, entry: Entry, key: str) -> str:
        name = entry.values.get("name")
        line = entry.line_of(key)
        where = self.file if not line else f"{self.file}:{line}"
        named = f" {shown(name)}" if isinstance(name, str) and name and key != "name" else ""
        return f"{where} {entry.place}{named} {key}".rstrip()

    def wrong(self, entry: Entry, key: str, found: str, expected: str, remedy: str) -> None:
        self.slips.add(entry.line_of(key), place=self.place(entry, key), found=found, expected=expected, remedy=remedy)

    def keys(self, entry: Entry, known: Sequence[str]) -> None:
        for key in entry.values:
            if key not in known:
                near = nearest(key, known)
                remedy = f'Did you mean "{near}"?' if near else "Take it out."
                self.wrong(entry, key, "a key that is not known", f"one of {', '.join(known)}", remedy)

    def text(self, entry: Entry, key: str) -> str:
        value = entry.values.get(key, "")
        if isinstance(value, str):
            return value.strip()
        self.wrong(entry, key, shown(value), "text", f'Put it in quotation marks, as in {key} = "rail".')
        return ""

    def length(self, entry: Entry, key: str, *, least: int = 0, above: bool = False) -> Fraction | None:
        """Return an exact length in the file's unit; None where it is missing or wrong."""
        if key not in entry.values:
            return None
        value: Any = entry.values[key]
        try:
            exact = Fraction(Decimal(repr(parse_length(_number(value), style=self.style))))
        except UnitError as error:
            self.wrong(entry, key, error.found, error.expected, error.remedy)
            return None
        if exact < least or (above and exact == least):
            remedy = "Give a length such as 2400 mm or 95 1/2 in." if above else "Give what the saw takes, or 0."
            self.wrong(entry, key, shown(value), "more than 0" if above else "0 or more", remedy)
            return None
        return exact / INCH if self.unit == "in" else exact

    def needed_length(self, entry: Entry) -> Fraction | None:
        if "length" not in entry.values:
            self.wrong(entry, "length", "no length", "its length", "Give a length such as 2400 mm or 95 1/2 in.")
        return self.length(entry, "length", above=True)

    def count(self, entry: Entry) -> int | None:
        if "number" not in entry.values:
            return None
        value: Any = entry.values["number"]
        whole = int(value) if isinstance(value, str) and re.fullmatch(r"[0-9]{1,9}", value.strip()) else value
        if isinstance(whole, bool) or not isinstance(whole, int) or not 0 <= whole <= MOST_PIECES:
            self.wrong(entry, "number", shown(value), f"a whole number from 0 to {MOST_PIECES}", "Say how many.")
            return None
        return whole

    def truth(self, entry: Entry, key: str) -> bool:
        value = entry.values.get(key, False)
        if not isinstance(value, bool):
            self.wrong(entry, key, shown(value), "true or false", f"Type {key} = true, or take the key out.")
        return value is True

    def price(self, entry: Entry, *, offcut: bool) -> Decimal | None:
        """Return the price of one; an offcut is free, a bought board without a price is told as missing."""
        if "price" not in entry.values:
            if offcut:
                return Decimal(0)
            remedy = "Give what one costs; an offcut from the shelf says offcut = true instead."
            self.wrong(entry, "price", "no price", "the price of one", remedy)
            return None
        value: Any = entry.values["price"]
        price = decimal_of(value)
        if price is None:
            self.wrong(entry, "price", shown(value), "a number, 0 or more", "Give what one costs, such as 4.20.")
        elif offcut and price:
            self.wrong(entry, "price", shown(value), "no price: what is on the shelf is free", "Take the price out.")
        return price


def _number(value: object) -> object:
    """Return a decimal as the number that a length is read from."""
    return float(value) if isinstance(value, Decimal) and value.is_finite() else value


def decimal_of(value: object) -> Decimal | None:
    """Return money as it was typed, exactly; None for what is no amount of money.

    Examples
    --------
    >>> decimal_of("4,20"), decimal_of(3), decimal_of("dear"), decimal_of("-1")
    (Decimal('4.20'), Decimal('3'), None, None)
    """
    if isinstance(value, bool) or not isinstance(value, int | str | Decimal | float):
        return None
    text = str(value).strip()
    text = text.replace(",", ".") if re.fullmatch(r"[0-9]+,[0-9]{1,2}", text) else text
    try:
        price = Decimal(text)
    except InvalidOperation:
        return None
    if not price.is_finite() or not 0 <= price <= MOST_PRICE:
        return None
    fine = -int(price.as_tuple().exponent)
    return price if fine <= MOST_DECIMALS else None


# --- entries to jobs ---------------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True, kw_only=True)
class _Settings:
    kerf: Fraction
    trim_cut: Fraction
    least_offcut: Fraction
    straight_edge: Fraction | None
    stages: int | None
    currency: str
    name: str


def jobs_of(listed: Listed, slips: Slips) -> tuple[SawJob, ...]:
    """Return the jobs of a file, in the order in which their pieces begin: one a section, boards apart from sheets."""
    read = _Reader(listed, slips)
    settings = _settings(read, listed)
    pieces = [(_section(read, each), each, piece) for each in listed.pieces if (piece := _piece(read, each))]
    stocks = [(_section(read, each), stock) for each in listed.stocks if (stock := _stock(read, each))]
    if not listed.pieces:
        _nothing(read, listed, "pieces", "List at least one piece with its length and number.")
    kinds = dict.fromkeys((section, piece.width is not None) for section, _, piece in pieces)
    known = {section for section, _ in stocks}
    jobs: list[SawJob] = []
    for section, is_sheets in kinds:
        wanted = [(entry, p) for s, entry, p in pieces if (s, p.width is not None) == (section, is_sheets)]
        offered = [stock for s, stock in stocks if (s, stock.width is not None) == (section, is_sheets)]
        entry = wanted[0][0]
        if not offered and not slips:
            _no_stock(read, entry, section, is_sheets=is_sheets, known=known)
        named = section or ("" if len(kinds) == 1 else "sheets" if is_sheets else "boards")
        jobs.append(
            SawJob(
                name=f"{settings.name} {named}".strip(),
                place=f"{listed.file} {section}".strip(),
                line=entry.line,
                pieces=tuple(p for _, p in wanted),
                stocks=tuple(offered),
                unit=read.unit,
                is_sheets=is_sheets,
                kerf=settings.kerf,
                trim_cut=Fraction(0) if is_sheets else settings.trim_cut,
                least_offcut=settings.least_offcut,
                straight_edge=settings.straight_edge if is_sheets else None,
                stages=settings.stages,
                currency=settings.currency,
            )
        )
    return tuple(jobs)


def _settings(read: _Reader, listed: Listed) -> _Settings:
    job = listed.job
    read.keys(job, JOB_KEYS)
    return _Settings(
        kerf=read.length(job, "kerf") or Fraction(0),
        trim_cut=read.length(job, "trim_cut") or Fraction(0),
        least_offcut=read.length(job, "least_offcut") or Fraction(0),
        straight_edge=read.length(job, "straight_edge", above=True),
        stages=_stages(read, job),
        currency=read.text(job, "currency"),
        name=read.text(job, "name") or listed.stem,
    )


def _stages(read: _Reader, job: Entry) -> int | None:
    value: Any = job.values.get("stages", 3)
    try:
        return stages_of(value)
    except ValueError:
        remedy = "Leave it out for 3, or type any for cuts of every kind through whole parts."
        read.wrong(job, "stages", shown(value), "a whole number from 1, or any", remedy)
        return 3


def stages_of(value: object) -> int | None:
    """Return the most stages of a plan of sheets: a number from 1, or None for "any".

    Raises
    ------
    ValueError
        Anything else.
    """
    if value == "any":
        return None
    if isinstance(value, str) and re.fullmatch(r"[0-9]{1,3}", value.strip()):
        value = int(value)
    if isinstance(value, bool) or not isinstance(value, int) or value < 1:
        message = "neither a number from 1 nor any"
        raise ValueError(message)
    return value


def _section(read: _Reader, entry: Entry) -> str:
    value = entry.values.get("section", "")
    return value.strip() if isinstance(value, str) else ""


def _piece(read: _Reader, entry: Entry) -> SawPiece | None:
    read.keys(entry, PIECE_KEYS)
    read.text(entry, "section")
    grain = entry.values.get("grain", "fixed")
    if grain not in ("fixed", "free"):
        remedy = "Type fixed where the piece's length runs along the grain, free where it may be turned."
        read.wrong(entry, "grain", shown(grain), "fixed or free", remedy)
    length, width = read.needed_length(entry), read.length(entry, "width", above=True)
    count, name = read.count(entry), read.text(entry, "name")
    if length is None or (width is None and "width" in entry.values):
        return None
    return SawPiece(
        place=read.place(entry, "length"),
        line=entry.line,
        name=name,
        length=length,
        width=width,
        count=1 if count is None else count,
        turns=grain == "free",
    )


def _stock(read: _Reader, entry: Entry) -> SawStock | None:
    read.keys(entry, STOCK_KEYS)
    read.text(entry, "section")
    offcut, moulding = read.truth(entry, "offcut"), read.truth(entry, "moulding")
    length, width = read.needed_length(entry), read.length(entry, "width", above=True)
    price, limit = read.price(entry, offcut=offcut), read.count(entry)
    name, section = read.text(entry, "name"), _section(read, entry)
    if length is None or price is None or (width is None and "width" in entry.values):
        return None
    size = {"length": figure(length)} if width is None else {"l": figure(length), "w": figure(width)}
    named = {key: value for key, value in (("name", name), ("section", section)) if value}
    return SawStock(
        place=read.place(entry, ""),
        line=entry.line,
        name=name,
        length=length,
        width=width,
        price=price,
        limit=1 if offcut and limit is None else limit,
        offcut=offcut,
        moulding=moulding,
        entry={**named, **size, "price": figure(price), **({"offcut": True} if offcut else {})},
    )


def _nothing(read: _Reader, listed: Listed, table: str, remedy: str) -> None:
    read.slips.add(0, place=f"{listed.file} {table}", found="none", expected="at least one", remedy=remedy)


def _no_stock(read: _Reader, entry: Entry, section: str, *, is_sheets: bool, known: set[str]) -> None:
    kind = "sheets" if is_sheets else "boards"
    of = f' of section "{section}"' if section else ""
    near = nearest(section, known) if section else None
    hint = f'Did you mean section "{near}"? ' if near and near != section else ""
    sizes = "length, width and price" if is_sheets else "length and price"
    read.wrong(
        entry, "section" if section else "", f"a piece without stock{of}", f"{kind}{of} to cut it from",
        f"{hint}List the {kind} that can be bought, with {sizes}.",
    )  # fmt: skip
