"""What makes a saw job impossible, told in the file's own figures before any solver sees it."""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING

from lathlight.app.saw_job import length_in_words, lengths_of, money_in_words, steps_of

if TYPE_CHECKING:
    from lathlight.app.saw_job import SawJob, SawPiece, SawStock
    from lathlight.app.saw_slips import Slips

MOST_STEPS = 2_000_000  # of the longest stock: tables of that length still fit in memory
FINEST_STEP = 1_000  # parts of a unit of length


def check_job(job: SawJob, slips: Slips, *, by_hand: bool) -> None:
    """Note what is impossible in a job; ``by_hand`` also doubts offcuts of one size without names."""
    _twice(job, slips, by_hand=by_hand)
    _free(job, slips)
    if _fine_enough(job, slips):
        for piece in job.pieces:
            if piece.count and job.stocks and not any(_holds(job, stock, piece) for stock in job.stocks):
                _too_large(job, piece, slips)


def _twice(job: SawJob, slips: Slips, *, by_hand: bool) -> None:
    """Note an offcut that is listed twice and a bought size that has two prices."""
    offcuts: dict[object, SawStock] = {}
    bought: dict[object, SawStock] = {}
    for stock in job.stocks:
        size = (stock.length, stock.width)
        if stock.offcut:
            key = stock.name or (size if by_hand else None)
            first = offcuts.setdefault(key, stock) if key else stock
            if first is not stock:
                called = f'offcut "{stock.name}"' if stock.name else f"an offcut of {size_in_words(job, stock)}"
                remedy = "Take one of the two out, or name two real ones apart."
                slips.add(
                    stock.line, place=stock.place, found=f"{called} a second time", expected="each offcut once",
                    remedy=remedy,
                )  # fmt: skip
            continue
        first = bought.setdefault((stock.name, size), stock)
        if first.price != stock.price:
            second = money_in_words(stock.price, job.currency)
            slips.add(
                stock.line,
                place=stock.place,
                found=f"price {second} for what costs {money_in_words(first.price, job.currency)} before",
                expected="one price for one item",
                remedy="Keep one of the two, or give the dearer one a name of its own.",
            )


def _free(job: SawJob, slips: Slips) -> None:
    for stock in job.stocks:
        if not stock.offcut and stock.price == 0 and stock.limit is None:
            slips.add(
                stock.line,
                place=stock.place,
                found="stock that is free without end",
                expected="a price, or how many there are",
                remedy="Give the price of one, or say that it is an offcut.",
            )


def _fine_enough(job: SawJob, slips: Slips) -> bool:
    """Return False where lengths have no common step that a table could be made of, and name the one to blame."""
    steps = steps_of(job)
    longest = max((stock.length for stock in job.stocks), default=Fraction(0))
    if longest * steps.length <= MOST_STEPS:
        return True
    finest = max(lengths_of(job), key=lambda x: x.denominator)
    if finest.denominator <= FINEST_STEP and longest > MOST_STEPS / FINEST_STEP:
        finest = longest
    owner = next((each for each in (*job.pieces, *job.stocks) if finest in (each.length, each.width)), job)
    slips.add(
        owner.line,
        place=owner.place,
        found=f"{length_in_words(finest, job.unit)}, which needs steps too fine for the longest stock",
        expected="lengths on one step that a tape shows, such as 0.5 mm or 1/32 in",
        remedy="Round it to such a step: pieces and kerf up, stock down.",
    )
    return False


def _room(job: SawJob, stock: SawStock) -> Fraction:
    return stock.length if stock.offcut else stock.length - job.trim_cut


def _holds(job: SawJob, stock: SawStock, piece: SawPiece) -> bool:
    if stock.limit == 0:
        return False
    if piece.width is None or stock.width is None:
        return piece.length <= _room(job, stock)
    straight = piece.length <= stock.length and piece.width <= stock.width
    return straight or (piece.turns and piece.length <= stock.width and piece.width <= stock.length)


def _too_large(job: SawJob, piece: SawPiece, slips: Slips) -> None:
    """Note a piece that no stock holds: by name, with what could be done."""
    called = f'"{piece.name}" ' if piece.name else ""
    offered = [stock for stock in job.stocks if stock.limit != 0]
    if not offered:
        slips.add(
            piece.line, place=piece.place, found="no stock to be had", expected="at least one",
            remedy="Every number of the stock is 0: raise one, or add another size.",
        )  # fmt: skip
        return
    if job.is_sheets:
        largest = max(offered, key=lambda s: (s.length * (s.width or 0), s.length))
        expected = f"at most a sheet, {size_in_words(job, largest)}"
        turn = "" if piece.turns else "let the piece turn where the grain allows, "
        remedy = f"Add a larger sheet, {turn}or join the piece from two."
    else:
        longest = max(_room(job, stock) for stock in offered)
        trim = f" after the trim cut of {length_in_words(job.trim_cut, job.unit)}" if job.trim_cut else ""
        expected = f"at most {length_in_words(longest, job.unit)}, the longest stock{trim}"
        scarf = any(stock.moulding for stock in job.stocks)
        join = ", or join it from two lengths with a scarf and list both" if scarf else ", or list it as two pieces"
        remedy = f"Add stock of at least {length_in_words(piece.length + job.trim_cut, job.unit)}{join}."
    size = size_in_words(job, piece)
    slips.add(piece.line, place=piece.place, found=f"{called}{size}", expected=expected, remedy=remedy)


def size_in_words(job: SawJob, each: SawPiece | SawStock) -> str:
    """Return a length, or length and width, for people: length first, as timber and sheets are called."""
    length = length_in_words(each.length, job.unit)
    return length if each.width is None else f"{length} long, {length_in_words(each.width, job.unit)} wide"
