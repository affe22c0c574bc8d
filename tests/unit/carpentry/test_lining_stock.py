"""What linings are cut from."""

from __future__ import annotations

from dataclasses import replace

from lathlight.carpentry import LiningPiece, OnSale
from lathlight.carpentry.lining_stock import PlainBoard, lining_stock
from lathlight.catalog import load_catalog
from lathlight.units import LengthStyle

CATALOG = load_catalog()
LUMBER, SHEETS = CATALOG.lumber, CATALOG.sheets
ON_SALE = OnSale(lumber=tuple(LUMBER.values()), sheets=tuple(SHEETS.values()), style=LengthStyle.metric())
LEG = LiningPiece(id="back/door/lining/left", side="left", x=0, z=0, wide=18, high=2000, deep=47, length=2000)


def stock(thickness: float, *, sheet: str, framing: str = "38x38", piece: LiningPiece = LEG, on_sale: OnSale = ON_SALE):
    return lining_stock(piece, thickness=thickness, sheet=SHEETS[sheet], framing=LUMBER[framing], on_sale=on_sale)


def test_a_lining_as_thick_as_the_walls_own_sheet_comes_out_of_it() -> None:
    assert stock(9, sheet="ply 9 mm 3050") is SHEETS["ply 9 mm 3050"]


def test_else_out_of_a_sheet_of_the_same_material() -> None:
    assert stock(18, sheet="ply 9 mm") is SHEETS["ply 18 mm"]
    assert stock(18, sheet="mdf 9 mm") is SHEETS["mdf 18 mm"]


def test_a_piece_longer_than_the_sheet_takes_a_longer_one_or_none() -> None:
    long = replace(LEG, length=2900)
    assert stock(9, sheet="ply 9 mm", piece=long) is SHEETS["ply 9 mm 3050"]
    assert isinstance(stock(18, sheet="ply 9 mm", piece=long), PlainBoard)


def test_three_quarters_of_an_inch_is_a_board_of_that_thickness_and_no_narrower() -> None:
    inch = 25.4
    deep = replace(LEG, deep=1.84 * inch)
    assert stock(0.75 * inch, sheet="ply 3-8 in", framing="2x2", piece=deep) is LUMBER["1x3"]
    assert stock(0.75 * inch, sheet="ply 3-8 in", framing="2x2", piece=replace(LEG, deep=1.5 * inch)) is LUMBER["1x2"]


def test_a_thickness_that_nothing_has_is_a_board_named_by_its_size() -> None:
    assert stock(22, sheet="ply 9 mm") == PlainBoard(name="lining 22 mm x 47 mm")
    imperial = replace(ON_SALE, style=LengthStyle.imperial())
    piece = replace(LEG, deep=2 * 25.4)
    assert stock(0.875 * 25.4, sheet="ply 3-8 in", framing="2x2", piece=piece, on_sale=imperial) == PlainBoard(
        name='lining 7/8" x 2"'
    )
