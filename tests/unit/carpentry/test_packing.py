"""First-fit counts of boards and sheets."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lathlight.carpentry.packing import pack_boards, pack_sheets


def test_a_whole_piece_needs_no_cut() -> None:
    plan = pack_boards([2400.0, 2400.0], stock=[2400.0], kerf=3.0)
    assert (len(plan.items), plan.cuts) == (2, 0)


def test_a_piece_that_ends_on_the_boards_end_needs_no_second_cut() -> None:
    assert pack_boards([1200.0, 1197.0], stock=[2400.0], kerf=3.0).cuts == 1


def test_two_pieces_with_waste_need_two_cuts() -> None:
    assert pack_boards([1000.0, 1000.0], stock=[2400.0], kerf=3.0).cuts == 2


def test_the_stock_length_with_least_timber_is_chosen() -> None:
    plan = pack_boards([1450.0, 1450.0], stock=[2400.0, 3000.0], kerf=3.0)
    assert (plan.length, len(plan.items)) == (3000.0, 1)


def test_a_piece_longer_than_every_stock_length_gets_a_board_of_its_own() -> None:
    assert len(pack_boards([5000.0, 1000.0], stock=[2400.0, 3000.0], kerf=3.0).items) == 2


def test_what_is_cut_off_a_factory_end_is_not_used() -> None:
    assert len(pack_boards([1198.0, 1198.0], stock=[2400.0], kerf=3.0).items) == 1
    assert len(pack_boards([1198.0, 1198.0], stock=[2400.0], kerf=3.0, trim_cut=10.0).items) == 2


@given(st.lists(st.integers(50, 2400), min_size=1, max_size=25), st.integers(0, 5))
def test_no_board_is_overfilled_and_no_piece_is_lost(pieces: list[int], kerf: int) -> None:
    plan = pack_boards([float(p) for p in pieces], stock=[2400.0], kerf=float(kerf))
    assert sorted(i for board in plan.items for i in board) == list(range(len(pieces)))
    for board in plan.items:
        assert sum(pieces[i] for i in board) + kerf * (len(board) - 1) <= 2400 + 1e-6


sizes = st.tuples(st.integers(50, 1220), st.integers(50, 1220)).map(lambda s: (float(s[0]), float(s[1])))


@given(st.lists(sizes, min_size=1, max_size=14), st.integers(0, 5))
def test_pieces_lie_inside_their_sheet_a_kerf_apart(pieces: list[tuple[float, float]], kerf: int) -> None:
    packed = pack_sheets(pieces, width=1220.0, length=2440.0, kerf=float(kerf), may_turn=[True] * len(pieces))
    assert sorted(p.item for sheet in packed for p in sheet) == list(range(len(pieces)))
    for sheet in packed:
        for i, a in enumerate(sheet):
            assert a.x + a.width <= 1220 + 1e-6
            assert a.y + a.height <= 2440 + 1e-6
            assert sorted((a.width, a.height)) == sorted(pieces[a.item])
            for b in sheet[i + 1 :]:
                apart_x = a.x + a.width + kerf <= b.x + 1e-6 or b.x + b.width + kerf <= a.x + 1e-6
                apart_y = a.y + a.height + kerf <= b.y + 1e-6 or b.y + b.height + kerf <= a.y + 1e-6
                assert apart_x or apart_y


def test_a_piece_with_grain_is_not_turned() -> None:
    packed = pack_sheets([(2000.0, 600.0)], width=1220.0, length=2440.0, kerf=3.0, may_turn=[False])
    assert not packed[0][0].turned


@pytest.mark.parametrize("turned", [True, False])
def test_two_strips_share_a_sheet(turned: bool) -> None:
    size = (2250.0, 600.0) if turned else (600.0, 2250.0)
    assert len(pack_sheets([size, size], width=1220.0, length=2440.0, kerf=3.0, may_turn=[True, True])) == 1
