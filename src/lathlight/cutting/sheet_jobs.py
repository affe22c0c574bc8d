"""What is to be cut out of sheets, from which sheets, and by what rules; and what makes such a job impossible.

All sizes are whole numbers of one unit, and all prices whole numbers of one coin: whoever reads the job chooses both.
``width`` runs across the grain (x), ``length`` along it (y).
"""

from __future__ import annotations

from dataclasses import dataclass

from lathlight.errors import InputError, Problem

DEFAULT_STAGES = 3  # sheets, strips, pieces: what a bench with a straight edge bears (common practice, no source)


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetItem:
    """Rectangles of one size that are wanted."""

    width: int
    length: int
    count: int
    rotate: bool = False  # True: the grain does not matter, a quarter turn is allowed


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetStock:
    """Sheets of one size that can be had; an offcut on the shelf has the price 0 and a limit."""

    width: int
    length: int
    price: int
    limit: int | None = None  # None: as many as wanted


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetJob:
    """One material's sheets and pieces, and the rules of the bench."""

    items: tuple[SheetItem, ...]
    stocks: tuple[SheetStock, ...]
    kerf: int
    stages: int | None = DEFAULT_STAGES  # most changes of direction and one; None: any guillotine plan
    straight_edge: int | None = None  # no cut longer than this
    place: str = "sheets"  # where the job stands, for messages


def require_possible(job: SheetJob) -> None:
    """Raise an InputError that holds every problem of the job, in the order of its entries."""
    problems = [*_rule_problems(job), *_stock_problems(job), *_item_problems(job)]
    if problems:
        raise InputError(problems)


def _problem(place: str, found: str, expected: str, remedy: str) -> Problem:
    return Problem(place=place, found=found, expected=expected, remedy=remedy)


def _rule_problems(job: SheetJob) -> list[Problem]:
    found: list[Problem] = []
    if job.kerf < 0:
        remedy = "Give the width of the saw's cut, such as 3 mm."
        found.append(_problem(f"{job.place} kerf", str(job.kerf), "0 or more", remedy))
    if job.stages is not None and job.stages < 1:
        remedy = "Give 2, 3 or more, or leave the rule out."
        found.append(_problem(f"{job.place} stages", str(job.stages), "at least 1", remedy))
    if job.straight_edge is not None and job.straight_edge < 1:
        remedy = "Give the longest cut that the straight edge guides."
        found.append(_problem(f"{job.place} straight edge", str(job.straight_edge), "more than 0", remedy))
    return found


def _stock_problems(job: SheetJob) -> list[Problem]:
    if not job.stocks:
        return [_problem(f"{job.place} stocks", "no sheet", "at least one sheet size", "Name a sheet that can be had.")]
    found: list[Problem] = []
    for n, stock in enumerate(job.stocks, start=1):
        place = f"{job.place} stock {n}"
        if stock.width < 1 or stock.length < 1:
            size = f"{stock.width} x {stock.length}"
            found.append(_problem(place, size, "sides of more than 0", "Give both sides of the sheet."))
        if stock.price < 0:
            found.append(_problem(place, f"price {stock.price}", "0 or more", "Give the price of one sheet."))
        if stock.limit is not None and stock.limit < 0:
            found.append(_problem(place, f"limit {stock.limit}", "0 or more", "Give how many can be had."))
        if stock.price == 0 and stock.limit is None:
            remedy = "Give the price, or say how many lie on the shelf."
            found.append(_problem(place, "free without limit", "a price or a limit", remedy))
    return found


def _item_problems(job: SheetJob) -> list[Problem]:
    found: list[Problem] = []
    for n, item in enumerate(job.items, start=1):
        place, size = f"{job.place} piece {n}", f"{item.width} x {item.length}"
        if item.width < 1 or item.length < 1:
            found.append(_problem(place, size, "sides of more than 0", "Give both sides of the piece."))
        elif item.count < 0:
            found.append(_problem(place, f"count {item.count}", "0 or more", "Give how many are wanted."))
        elif item.count and job.stocks and not any(fits(item, stock) for stock in job.stocks):
            largest = max(job.stocks, key=lambda s: (s.width * s.length, s.width))
            expected = f"at most a sheet, {largest.width} x {largest.length}"
            remedy = "Add a larger sheet, let the piece turn if the grain allows, or make it of two."
            found.append(_problem(place, size, expected, remedy))
    return found


def fits(item: SheetItem, stock: SheetStock) -> bool:
    """Return whether the piece comes out of the sheet at all."""
    straight = item.width <= stock.width and item.length <= stock.length
    turned = item.length <= stock.width and item.width <= stock.length
    return stock.limit != 0 and (straight or (item.rotate and turned))
