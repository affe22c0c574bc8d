"""How a saw job is told to people: what each thing is called, and the head of every page."""

from __future__ import annotations

from typing import TYPE_CHECKING

from lathlight.app.saw_job import length_in_words, money_in_words

if TYPE_CHECKING:
    from collections.abc import Sequence

    from lathlight.app.saw_job import SawPiece, SawStock
    from lathlight.app.saw_run import Sawn

CAUTION = (
    "Saw with eye and ear protection, against dust, with the work held fast and both hands off the line; follow the "
    "saw's own manual. Long boards and whole sheets want a second person. Measure the first piece of each length "
    "before sawing the rest. (Common practice, no source.)"
)
ENDED = {
    "work limit": "The search ended with the work it may do.",
    "clock": "The search ended by the clock; another run may end with another plan.",
    "asked to stop": "The search was stopped; this is the best plan that it had.",
}


class Words:
    """Lengths and money of one plan, in the file's unit."""

    def __init__(self, sawn: Sawn) -> None:
        self._sawn = sawn

    def steps(self, steps: int) -> str:
        """Return a length that the solver counts."""
        return length_in_words(self._sawn.steps.back(steps), self._sawn.job.unit)

    def coins(self, coins: int) -> str:
        """Return money that the solver counts."""
        return money_in_words(self._sawn.steps.price(coins), self._sawn.job.currency)

    def size(self, each: SawPiece | SawStock) -> str:
        """Return a length, or width by length as a sheet lies in its plan."""
        length = length_in_words(each.length, self._sawn.job.unit)
        return length if each.width is None else f"{length_in_words(each.width, self._sawn.job.unit)} x {length}"

    def stock(self, stock: SawStock) -> str:
        """Return what a stock is called."""
        named = f'"{stock.name}", ' if stock.name else ""
        return f"{named}{self.size(stock)}{', offcut from the shelf' if stock.offcut else ''}"


def head(sawn: Sawn, used: Sequence[tuple[SawStock, int]], further: Sequence[tuple[str, str]]) -> list[str]:
    """Return a page's head: the cost with its proof, what to buy, what to take from the shelf."""
    words, plan, job = Words(sawn), sawn.plan, sawn.job
    bought = [f"{n} of {words.stock(stock)}, {words.coins(sawn.steps.coins(stock.price))} each" for stock, n in used
              if not stock.offcut]  # fmt: skip
    shelf = [f"{n} of {words.size(stock)}" + (f' ("{stock.name}")' if stock.name else "") for stock, n in used
             if stock.offcut]  # fmt: skip
    rows = [
        ("cost", f"{words.coins(plan.cost)} ({proof_in_words(sawn)})"),
        ("lower bound", words.coins(plan.lower_bound)),
        *(("to buy" if not n else "", text) for n, text in enumerate(bought or ["nothing"])),
        *(("from the shelf" if not n else "", text) for n, text in enumerate(shelf)),
        *further,
        ("kerf", length_in_words(job.kerf, job.unit)),
    ]
    widest = max(len(label) for label, _ in rows)
    lines = [job.name, *(f"  {label.ljust(widest)}  {text}".rstrip() for label, text in rows)]
    if plan.ended in ENDED and not plan.proven:
        lines.append(f"  {ENDED[plan.ended]}")
    if job.ignored:
        lines.append(f"  Not used: {job.ignored}.")
    return lines


def proof_in_words(sawn: Sawn) -> str:
    """Return whether the cost is proven, or how far it may be from the least."""
    if sawn.plan.proven:
        return "proven: no plan costs less"
    if not sawn.plan.lower_bound:
        return "not proven: nothing is known of the least possible"
    return f"not proven: at most {sawn.gap_percent:g} % above the least possible"


def rows_of(header: Sequence[str], rows: Sequence[Sequence[str]]) -> list[str]:
    """Return a table with a ruled head, as lines."""
    widths = [max(len(row[i]) for row in (header, *rows)) for i in range(len(header))]
    ruled = ["-" * width for width in widths]
    return [
        "  " + "  ".join(cell.ljust(width) for cell, width in zip(row, widths, strict=True)).rstrip()
        for row in (header, ruled, *rows)
    ]


def ranges(numbers: Sequence[int]) -> str:
    """Return sorted numbers with runs drawn together.

    Examples
    --------
    >>> ranges([1, 2, 3, 5, 7, 8])
    '1 to 3, 5, 7, 8'
    """
    runs: list[list[int]] = []
    for number in numbers:
        if runs and number == runs[-1][-1] + 1:
            runs[-1].append(number)
        else:
            runs.append([number])
    texts = [f"{run[0]} to {run[-1]}" if len(run) > 2 else ", ".join(map(str, run)) for run in runs]
    return ", ".join(texts)


def times(number: int, word: str) -> str:
    """Return a count with its word.

    Examples
    --------
    >>> times(1, "board"), times(3, "board")
    ('1 board', '3 boards')
    """
    return f"{number} {word}{'' if number == 1 else 's'}"
