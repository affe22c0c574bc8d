"""Tables on pages: cells keep to their columns, rows to their rules, heights to what was announced."""

from __future__ import annotations

from itertools import combinations, pairwise

import pytest

from lathlight.drawings.tables import Column, make_table, table_height
from lathlight.drawings.text import boxes_overlap

COLUMNS = [
    Column(heading="Mark", width=18.0),
    Column(heading="Piece", width=30.0),
    Column(heading="Length", width=20.0, align="right"),
]
ROWS = [
    ["A1-S1", "End stud, the straightest board of all", "2174"],
    ["A1-P1", "Plate", "2200"],
    ["A1-N1", "", "552"],
]


def test_words_stay_inside_their_column() -> None:
    table = make_table(COLUMNS, ROWS, at=(10.0, 100.0))
    edges = [10.0, 28.0, 58.0, 78.0]
    for text in table.texts:
        left, right = min(x for x, _ in text.box), max(x for x, _ in text.box)
        assert any(a <= left and right <= b for a, b in pairwise(edges)), text.words


def test_no_words_overlap_and_none_cross_a_rule() -> None:
    table = make_table(COLUMNS, ROWS, at=(10.0, 100.0))
    assert not any(boxes_overlap(a.box, b.box) for a, b in combinations(table.texts, 2))
    assert not any(boxes_overlap(text.box, (line.a, line.b)) for text in table.texts for line in table.lines)


def test_the_height_is_the_one_announced_and_holds_all_words() -> None:
    table = make_table(COLUMNS, ROWS, at=(10.0, 100.0))
    assert table.height == pytest.approx(table_height(COLUMNS, ROWS))
    assert min(line.a[1] for line in table.lines) == pytest.approx(100.0 - table.height)
    assert all(100.0 - table.height <= y <= 100.0 for text in table.texts for _, y in text.box)


def test_a_cell_that_wraps_makes_its_row_higher() -> None:
    short, long = (table_height(COLUMNS, [["A", words, "1"]]) for words in ("Stud", "Stud " * 12))
    assert long > short


def test_the_heading_is_bold_and_the_rows_are_not() -> None:
    bold = {text.words: text.bold for text in make_table(COLUMNS, ROWS, at=(0.0, 0.0)).texts}
    assert (bold["Mark"], bold["Plate"]) == (True, False)


def test_figures_end_at_one_line() -> None:
    table = make_table(COLUMNS, ROWS, at=(0.0, 0.0))
    assert len({text.at[0] for text in table.texts if text.words in {"2174", "2200", "552"}}) == 1
