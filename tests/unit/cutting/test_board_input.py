"""Board jobs that cannot be cut as asked."""

from __future__ import annotations

import pytest
from tests.unit.cutting.board_cases import job

from lathlight.cutting import BoardJob, Piece, Stock, solve_boards
from lathlight.errors import InputError

BOARD = Stock(length=100, price=5)


def refused(bad: BoardJob) -> str:
    """Return what is said against a job."""
    with pytest.raises(InputError) as caught:
        solve_boards(bad)
    return str(caught.value)


def test_a_piece_longer_than_every_board_is_named() -> None:
    said = refused(BoardJob(pieces=(Piece(length=120, name="long rail"),), stocks=(BOARD,)))
    assert "piece 'long rail': found length 120, expected at most 100" in said


def test_the_trim_cut_counts_against_a_bought_board() -> None:
    assert "at most 96" in refused(job([(100, 1)], [(100, 5)], trim_cut=4))


def test_no_stock_at_all_is_said() -> None:
    assert "stock: found none" in refused(job([(10, 1)], []))


def test_all_faults_are_told_at_once() -> None:
    bad = BoardJob(
        pieces=(Piece(length=0), Piece(length=10, count=-1)),
        stocks=(Stock(length=-1, price=5), Stock(length=9, price=-5, limit=-2)),
        kerf=-3,
        trim_cut=-1,
        least_offcut=-1,
    )
    assert refused(bad).count("\n") == 7


def test_an_offcut_listed_twice_is_named() -> None:
    shelf = Stock(length=50, price=0, limit=1, offcut=True, name="shelf 7")
    said = refused(BoardJob(pieces=(Piece(length=10),), stocks=(BOARD, shelf, shelf)))
    assert "stock 'shelf 7': found it a second time" in said


def test_two_prices_for_one_length_are_refused() -> None:
    assert "found price 6, expected 5" in refused(job([(10, 1)], [(100, 5), (100, 6)]))


def test_the_same_length_under_another_name_may_have_another_price() -> None:
    dear = Stock(length=100, price=9, name="planed")
    assert solve_boards(BoardJob(pieces=(Piece(length=10),), stocks=(dear, BOARD))).cost == 5
