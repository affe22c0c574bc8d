"""A list of pieces and stock without a set: what it holds, exactly, and the whole numbers that the solvers take.

Lengths are exact fractions of the file's own unit and prices decimal money; the step of the whole numbers is the
coarsest that all of them lie on. Reading files is left to ``saw_read``, refusing the impossible to ``saw_checks``.
"""

from __future__ import annotations

import math
import re
from dataclasses import dataclass, field
from decimal import Decimal
from fractions import Fraction
from typing import TYPE_CHECKING

from lathlight.cutting import BoardJob, Piece, SheetItem, SheetJob, SheetStock, Stock
from lathlight.units import INCH, LengthStyle, format_length

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

IMPERIAL = LengthStyle.imperial(32)
_UNIT = re.compile(r"(?:(?P<over>[1-9][0-9]*)/(?P<under>[1-9][0-9]*) ?)?(?P<unit>mm|in)")


@dataclass(frozen=True, slots=True, kw_only=True)
class SawPiece:
    """Pieces of one size; a width makes them pieces of sheet."""

    place: str  # file, line, key, for messages
    line: int
    name: str
    length: Fraction
    width: Fraction | None = None  # across the grain
    count: int = 1
    turns: bool = False  # the grain does not matter: a piece of sheet may be turned by a quarter


@dataclass(frozen=True, slots=True, kw_only=True)
class SawStock:
    """Boards or sheets of one size, to be bought or on the offcut shelf."""

    place: str
    line: int
    name: str
    length: Fraction
    price: Decimal  # of one; 0 on the shelf
    entry: Mapping[str, object] = field(hash=False)  # as the file gives it, for the plan's own document
    width: Fraction | None = None
    limit: int | None = None  # most to be had
    offcut: bool = False
    moulding: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class SawJob:
    """What is cut apart from everything else: boards of one section, or sheets of one material."""

    name: str
    place: str
    line: int
    pieces: tuple[SawPiece, ...]
    stocks: tuple[SawStock, ...]
    kerf: Fraction
    unit: str = ""  # of every length: mm, in, 1/16in, or nothing where the file does not say
    is_sheets: bool = False
    trim_cut: Fraction = Fraction(0)  # off the factory end of a bought board, kerf included
    least_offcut: Fraction = Fraction(0)
    stages: int | None = 3
    straight_edge: Fraction | None = None
    currency: str = ""
    ignored: str = ""  # what the file holds and a least-cost plan does not use

    @property
    def piece_count(self) -> int:
        """How many pieces are wanted in all."""
        return sum(piece.count for piece in self.pieces)


@dataclass(frozen=True, slots=True, kw_only=True)
class Steps:
    """How finely one unit of length, and one unit of money, is divided."""

    length: int  # steps in one unit of length
    decimals: int  # of money

    def whole(self, length: Fraction) -> int:
        """Return a length in whole steps."""
        return int(length * self.length)

    def coins(self, price: Decimal) -> int:
        """Return a price in whole coins."""
        return int(price.scaleb(self.decimals))

    def back(self, steps: int) -> Fraction:
        """Return whole steps as a length in the file's unit."""
        return Fraction(steps, self.length)

    def price(self, coins: int) -> Decimal:
        """Return whole coins as money."""
        return Decimal(coins).scaleb(-self.decimals)


def lengths_of(job: SawJob) -> Iterable[Fraction]:
    """Yield every length of a job."""
    yield from (job.kerf, job.trim_cut, job.least_offcut)
    if job.straight_edge is not None:
        yield job.straight_edge
    for each in (*job.pieces, *job.stocks):
        yield each.length
        if each.width is not None:
            yield each.width


def steps_of(job: SawJob) -> Steps:
    """Return the coarsest steps on which every length and every price lies.

    Money with parts has two decimals at least.
    """
    decimals = max((-_exponent(stock.price) for stock in job.stocks), default=0)
    decimals = max(decimals, 2) if decimals > 0 else 0
    return Steps(length=math.lcm(*(x.denominator for x in lengths_of(job))), decimals=decimals)


def _exponent(price: Decimal) -> int:
    exponent = price.as_tuple().exponent
    assert isinstance(exponent, int), "a price is finite"
    return exponent


def board_job(job: SawJob, steps: Steps) -> BoardJob:
    """Return the boards' job in whole steps."""
    return BoardJob(
        pieces=tuple(Piece(length=steps.whole(p.length), count=p.count, name=p.name) for p in job.pieces),
        stocks=tuple(
            Stock(
                length=steps.whole(s.length),
                price=steps.coins(s.price),
                limit=s.limit,
                offcut=s.offcut,
                name=f"{s.name} ({n})",  # entries that are rightly alike stay apart
            )
            for n, s in enumerate(job.stocks, start=1)
        ),
        kerf=steps.whole(job.kerf),
        trim_cut=steps.whole(job.trim_cut),
        least_offcut=steps.whole(job.least_offcut),
    )


def sheet_job(job: SawJob, steps: Steps) -> SheetJob:
    """Return the sheets' job in whole steps."""
    items = [(p, p.width) for p in job.pieces if p.width is not None]
    stocks = [(s, s.width) for s in job.stocks if s.width is not None]
    return SheetJob(
        items=tuple(
            SheetItem(width=steps.whole(width), length=steps.whole(p.length), count=p.count, rotate=p.turns)
            for p, width in items
        ),
        stocks=tuple(
            SheetStock(
                width=steps.whole(width), length=steps.whole(s.length), price=steps.coins(s.price), limit=s.limit
            )
            for s, width in stocks
        ),
        kerf=steps.whole(job.kerf),
        stages=job.stages,
        straight_edge=None if job.straight_edge is None else steps.whole(job.straight_edge),
        place=job.place,
    )


def figure(value: Fraction | Decimal) -> int | float:
    """Return an exact value as the number that a JSON document shows.

    Examples
    --------
    >>> figure(Fraction(2400)), figure(Decimal("4.20")), figure(Fraction(191, 2))
    (2400, 4.2, 95.5)
    """
    exact = Fraction(value)
    return exact.numerator if exact.denominator == 1 else float(value)


def length_in_words(value: Fraction, unit: str) -> str:
    r"""Return a length for people: inches and their parts as feet and inches, anything else as it is.

    Examples
    --------
    >>> length_in_words(Fraction(2400), "mm"), length_in_words(Fraction(2188), "1/16in")
    ('2400 mm', '11\' 4 3/4"')
    >>> length_in_words(Fraction(1, 2), "")
    '0.5'
    """
    found = _UNIT.fullmatch(unit)
    if found is not None and found["unit"] == "in":
        share = Fraction(int(found["over"]), int(found["under"])) if found["over"] else Fraction(1)
        return format_length(float(value * share * INCH), style=IMPERIAL)
    text = format(Decimal(str(figure(value))), "f")
    return f"{text} {unit}" if unit else text


def money_in_words(value: Decimal, currency: str) -> str:
    """Return money for people, with the decimals that it has.

    Examples
    --------
    >>> money_in_words(Decimal("12.60"), "EUR"), money_in_words(Decimal(7), "")
    ('12.60 EUR', '7')
    """
    text = format(value, "f")
    return f"{text} {currency}" if currency else text
