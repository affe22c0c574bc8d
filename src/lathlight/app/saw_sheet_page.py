"""The bench pages of sheets: every cut in order, its tape figure, the side of the kerf, and what it leaves.

A cut with number n leaves the parts "n left" and "n right", or "n lower" and "n upper", seen with the sheet's length
upright; the list calls them so until they become pieces or offcuts.
"""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING

from lathlight.app.saw_words import CAUTION, Words, head, ranges, times

if TYPE_CHECKING:
    from collections.abc import Sequence

    from lathlight.app.saw_run import Sawn
    from lathlight.cutting import CutSheet, SheetPart


def sheet_page(sawn: Sawn) -> list[str]:
    """Return the lines of a page."""
    assert sawn.sheets is not None
    plan = sawn.sheets[1]
    counts = Counter(sheet.stock for sheet in plan.sheets)
    used = [(sawn.job.stocks[n], count) for n, count in counts.items()]
    words = Words(sawn)
    largest = plan.largest_offcut
    figures = [
        ("saw cuts", str(plan.cuts)),
        ("largest offcut", "none" if largest is None else _size(words, largest)),
    ]
    lines = head(sawn, used, figures)
    if not plan.sheets:
        return [*lines, "", "Nothing to saw."]
    lines += ["", "Sizes are width x length; the length runs along the grain and stands upright in these words."]
    first = 1
    for sheet, alike in sawn.alike_sheets:
        lines += ["", *_sheet(sawn, sheet, list(range(first, first + alike)))]
        first += alike
    return [*lines, "", CAUTION]


def _size(words: Words, part: SheetPart) -> str:
    return f"{words.steps(part.width)} x {words.steps(part.length)}"


def _sheet(sawn: Sawn, sheet: CutSheet, numbers: Sequence[int]) -> list[str]:
    """Return one sheet: its cuts in order, and its offcuts."""
    words = Words(sawn)
    which = "Sheet" if len(numbers) == 1 else "Sheets"
    alike = f" ({times(len(numbers), 'sheet')} alike)" if len(numbers) > 1 else ""
    lines = [f"{which} {ranges(numbers)}: {words.stock(sawn.job.stocks[sheet.stock])}{alike}"]
    lines += _cuts(sawn, sheet) or [f"  No cut: the whole sheet is {_piece(sawn, sheet, 0)}."]
    offcuts = [_size(words, part) for part in sheet.offcuts]
    return [*lines, f"  Left: {'; '.join(offcuts) if offcuts else 'nothing'}."]


def _cuts(sawn: Sawn, sheet: CutSheet) -> list[str]:
    """Return every cut in order: which part, which way, the tape figure, the side of the kerf; then what it leaves."""
    words, names = Words(sawn), {id(sheet.tree): "whole sheet"}
    told: dict[int, list[str]] = {}
    for part in sheet.tree.walk():
        cut = part.cut
        if cut is None:
            continue
        upright = cut.along == "length"
        sides = ("left", "right") if upright else ("lower", "upper")
        leaves: list[str] = []
        for side, inner in zip(sides, part.parts, strict=False):
            names[id(inner)] = f"part {cut.number} {side}"
            leaves.append(f"{side}: {_becomes(sawn, sheet, inner)}")
        kerf = "right of" if upright else "above"
        figure = f"{words.steps(cut.at)} from the {sides[0]} edge, kerf {kerf} the line"
        told[cut.number] = [
            f"  {cut.number:>2}. {names[id(part)]}, along its {cut.along}: {figure}; cut {words.steps(cut.reach)} long",
            f"      {'; '.join(leaves)}",
        ]
    return [line for number in sorted(told) for line in told[number]]


def _becomes(sawn: Sawn, sheet: CutSheet, part: SheetPart) -> str:
    """Return what a part is once it is cut free."""
    size = _size(Words(sawn), part)
    if part.piece is not None:
        return _piece(sawn, sheet, part.piece)
    return f"offcut {size}" if part.is_offcut else size


def _piece(sawn: Sawn, sheet: CutSheet, number: int) -> str:
    piece, words = sheet.pieces[number], Words(sawn)
    name = sawn.job.pieces[piece.item].name
    turned = ", turned" if piece.turned else ""
    called = f'piece "{name}"' if name else "piece"
    return f"{called} {words.steps(piece.width)} x {words.steps(piece.length)}{turned}"
