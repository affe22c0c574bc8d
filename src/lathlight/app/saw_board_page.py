"""The bench pages of boards: what to buy, one list by stop setting, then board after board in the order of cuts."""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING

from lathlight.app.saw_job import length_in_words
from lathlight.app.saw_words import CAUTION, Words, head, ranges, rows_of, times

if TYPE_CHECKING:
    from collections.abc import Sequence

    from lathlight.app.saw_job import SawStock
    from lathlight.app.saw_run import Sawn
    from lathlight.cutting import BoardPlan, Layout


AFRESH = (
    "Measure each piece afresh from the end that was sawn last; the stop does it by itself.",
    "The last column only shows that the board is long enough: mark nothing from it.",
)


def board_page(sawn: Sawn) -> list[str]:
    """Return the lines of a page: longest stop setting first, each piece measured afresh from the sawn end."""
    assert sawn.boards is not None
    plan = sawn.boards[1]
    numbered = _numbered(plan)
    lines = [*head(sawn, _used(sawn, plan), _figures(sawn, plan))]
    if not plan.layouts:
        return [*lines, "", "Nothing to saw."]
    lines += ["", "Stop settings, longest first (set the stop once, then take the boards in turn):"]
    lines += _stops(sawn, numbered)
    lines += ["", *AFRESH]
    for layout, numbers in numbered:
        lines += ["", *_board(sawn, layout, numbers)]
    return [*lines, "", CAUTION]


def _used(sawn: Sawn, plan: BoardPlan) -> list[tuple[SawStock, int]]:
    """Return the stocks that are used, in the plan's order, each with its number of boards."""
    counts: Counter[int] = Counter()
    for layout in plan.layouts:
        counts[layout.stock] += layout.times
    return [(sawn.job.stocks[n], count) for n, count in counts.items()]


def _figures(sawn: Sawn, plan: BoardPlan) -> list[tuple[str, str]]:
    words = Words(sawn)
    fewest = " (fewest at this cost)" if plan.cuts_proven else ""
    alike = " (fewest at this cost and cuts)" if plan.different_proven else ""
    longest = words.steps(plan.longest_offcut) if plan.longest_offcut else "none of use"
    trim = [("trim cut", f"{length_in_words(sawn.job.trim_cut, sawn.job.unit)} off the factory end of a bought board")]
    return [
        ("saw cuts", f"{plan.cuts}{fewest}"),
        ("layouts", f"{plan.different}{alike}"),
        ("longest offcut", longest),
        *(trim if sawn.job.trim_cut else []),
    ]


def _numbered(plan: BoardPlan) -> list[tuple[Layout, list[int]]]:
    """Return each layout with the numbers of its boards."""
    numbered: list[tuple[Layout, list[int]]] = []
    first = 1
    for layout in plan.layouts:
        numbered.append((layout, list(range(first, first + layout.times))))
        first += layout.times
    return numbered


def _called(sawn: Sawn, piece: int) -> str:
    return sawn.job.pieces[piece].name or "piece"


def _stops(sawn: Sawn, numbered: Sequence[tuple[Layout, list[int]]]) -> list[str]:
    """Return one row a length and name: how many pieces, from which boards."""
    assert sawn.boards is not None
    pieces, words = sawn.boards[0].pieces, Words(sawn)
    wanted: dict[tuple[int, str], Counter[int]] = {}
    for layout, numbers in numbered:
        for n in layout.pieces:
            wanted.setdefault((pieces[n].length, _called(sawn, n)), Counter()).update(numbers)
    rows = [
        (words.steps(length), str(boards.total()), name, _shares(boards))
        for (length, name), boards in sorted(wanted.items(), key=lambda each: (-each[0][0], each[0][1]))
    ]
    return rows_of(("stop at", "pieces", "what", "from boards"), rows)


def _shares(boards: Counter[int]) -> str:
    """Return how many pieces each board gives, boards that give as many together."""
    alike: dict[int, list[int]] = {}
    for board, count in sorted(boards.items()):
        alike.setdefault(count, []).append(board)
    return "; ".join(
        f"{count} {'each ' if len(numbers) > 1 else ''}from {ranges(numbers)}"
        for count, numbers in sorted(alike.items(), reverse=True)
    )


def _board(sawn: Sawn, layout: Layout, numbers: Sequence[int]) -> list[str]:
    """Return one board: its cuts in order, and what is left of it."""
    assert sawn.boards is not None
    job, words, stock = sawn.boards[0], Words(sawn), sawn.job.stocks[layout.stock]
    board = job.stocks[layout.stock].length
    which = "Board" if len(numbers) == 1 else "Boards"
    alike = f" ({times(len(numbers), 'board')} alike)" if len(numbers) > 1 else ""
    title = f"{which} {ranges(numbers)}: {words.stock(stock)}{alike}"
    rows: list[tuple[str, str, str, str]] = []
    trimmed = bool(job.trim_cut) and not stock.offcut
    used = job.trim_cut if trimmed else 0
    if trimmed:
        rows.append(("1", words.steps(job.trim_cut), "off the factory end", _of(words, used, board)))
    for n in layout.pieces:
        length = job.pieces[n].length
        if used + length == board:
            rows.append(("no cut", words.steps(length), f"{_called(sawn, n)}: what is left", _of(words, board, board)))
            used = board
            continue
        used = min(board, used + length + job.kerf)
        rows.append((str(len(rows) + 1), words.steps(length), _called(sawn, n), _of(words, used, board)))
    lines = [title, *rows_of(("cut", "measure", "piece", "board used, with kerf"), rows)]
    return [*lines, f"  Left: {_left(sawn, layout)}"]


def _of(words: Words, used: int, board: int) -> str:
    return f"{words.steps(used)} of {words.steps(board)}"


def _left(sawn: Sawn, layout: Layout) -> str:
    """Return what is left of a board and where it goes."""
    assert sawn.boards is not None
    least, left = sawn.boards[0].least_offcut, Words(sawn).steps(layout.left)
    if not layout.left:
        return "nothing."
    each = " from each" if layout.times > 1 else ""
    if not least:
        return f"{left}{each}, shelf or waste (the job gives no least offcut)."
    if layout.left < least:
        return f"{left}{each}, waste (shorter than {Words(sawn).steps(least)})."
    return f"{left}{each}, to the offcut shelf."
