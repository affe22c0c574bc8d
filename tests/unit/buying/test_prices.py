"""The price list: looking up, what is wrong with it, and CSV there and back."""

from __future__ import annotations

from decimal import Decimal
from typing import TYPE_CHECKING

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lathlight.buying import (
    PriceEntry,
    PriceList,
    Wanted,
    check_entries,
    find_price,
    parse_price,
    price_list_of,
    read_price_csv,
    write_price_csv,
)
from lathlight.catalog import load_catalog
from lathlight.errors import InputError
from lathlight.units import LengthStyle, UnitError

if TYPE_CHECKING:
    from lathlight.project import Brief

CATALOG = load_catalog()
METRIC, IMPERIAL = LengthStyle.metric(), LengthStyle.imperial()
BOARD = PriceEntry(item="38x63", price=Decimal("4.90"), length=2400.0)


def read(text: str, *, style: LengthStyle = METRIC) -> tuple[PriceEntry, ...]:
    return read_price_csv(text, style=style, currency="EUR", catalog=CATALOG, also=("boards",))


def problems(text: str) -> list[str]:
    with pytest.raises(InputError) as caught:
        read(text)
    return [str(each) for each in caught.value.problems]


# --- looking up ----------------------------------------------------------------------------------------------------


def test_a_price_for_a_piece_is_one_for_a_whole_length_sheet_or_container() -> None:
    entries = (
        BOARD,
        PriceEntry(item="ply 9 mm", price=Decimal(30)),
        PriceEntry(item="primer", price=Decimal(9), volume=2.5),
    )
    prices = PriceList(entries=entries)
    assert find_price(prices, "38x63", "length", length=2400.2) == entries[0]
    assert find_price(prices, "ply 9 mm", "sheet") == entries[1]
    assert find_price(prices, "primer", "container", volume=2.5) == entries[2]


def test_a_price_for_another_size_or_unit_is_not_taken() -> None:
    prices = PriceList(entries=(BOARD, PriceEntry(item="screw 5x70", price=Decimal("0.10"))))
    assert find_price(prices, "38x63", "length", length=3000.0) is None
    assert find_price(prices, "38x63", "length") is None
    assert find_price(prices, "38x63", "metre") is None
    assert find_price(prices, "screw 5x70", "box") is None


def test_a_projects_prices_come_with_its_currency_and_tax(demo_brief: Brief) -> None:
    project = demo_brief.project
    prices = price_list_of(project)
    assert [(entry.item, entry.price) for entry in prices.entries] == [(r.item, r.price) for r in project.prices]
    assert prices.currency == project.project.currency
    assert (prices.tax.percent, prices.tax.included) == (
        project.project.tax_percent,
        project.project.prices_include_tax,
    )
    assert check_entries(prices.entries, catalog=demo_brief.catalog) == ()


# --- what is wrong -------------------------------------------------------------------------------------------------


def test_two_prices_for_one_item_unit_and_size_are_named() -> None:
    twice = (BOARD, PriceEntry(item="38x63", price=Decimal(5), per="length", length=2400.0))
    (problem,) = check_entries(twice, catalog=CATALOG)
    assert str(problem) == (
        'prices[1] item: found a second price of "38x63" per length, expected one price of an item, sale unit and '
        "size. Take one of the two out."
    )


def test_one_item_may_have_a_price_for_each_size_and_unit() -> None:
    entries = (
        BOARD,
        PriceEntry(item="38x63", price=Decimal(6), length=3000.0),
        PriceEntry(item="38x63", price=Decimal(2), per="metre"),
    )
    assert check_entries(entries, catalog=CATALOG) == ()


def test_an_unknown_item_gets_the_nearest_name() -> None:
    (problem,) = check_entries((PriceEntry(item="38x36", price=Decimal(1)),), catalog=CATALOG)
    assert problem.found == 'unknown item "38x36"'
    assert "Did you mean" in problem.remedy


@pytest.mark.parametrize("price", ["-1", "NaN", "Infinity", "1e12"])
def test_a_price_that_no_shop_knows_is_named(price: str) -> None:
    (problem,) = check_entries((PriceEntry(item="38x63", price=Decimal(price)),), catalog=CATALOG)
    assert problem.place == "prices[0] price"


@pytest.mark.parametrize(
    ("entry", "key"),
    [
        (PriceEntry(item="primer", price=Decimal(1), per="sheet"), "per"),
        (PriceEntry(item="ply 9 mm", price=Decimal(1), length=2400.0), "length"),
        (PriceEntry(item="38x63", price=Decimal(1), volume=2.5), "volume"),
    ],
)
def test_a_unit_or_size_that_the_thing_cannot_have_is_named(entry: PriceEntry, key: str) -> None:
    assert [problem.place for problem in check_entries((entry,), catalog=CATALOG)] == [f"prices[0] {key}"]


# --- the text of a price ---------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("text", "price"),
    [
        ("12.50", "12.50"),
        ("12,50", "12.50"),
        ("0,125", "0.125"),
        (",5", "0.5"),
        ("1.234,50", "1234.50"),
        ("1,234.50", "1234.50"),
        ("1 234,50", "1234.50"),
        ("1'234.50", "1234.50"),
        ("1,234,567", "1234567"),
        ("1.2340", "1.234"),
        ("12.50 EUR", "12.50"),
        ("eur 12,5", "12.5"),
        ("0", "0"),
    ],
)
def test_a_price_is_read_with_point_or_comma(text: str, price: str) -> None:
    assert parse_price(text, currency="EUR") == Decimal(price)


@pytest.mark.parametrize("text", ["", "dear", "12.50 USD", "-3", "\u22123", "-0", "nan", "1e5", "1.2.3", "٣", "12."])
def test_what_is_no_price_is_refused(text: str) -> None:
    with pytest.raises(UnitError):
        parse_price(text, currency="EUR")


@pytest.mark.parametrize("text", ["1,234", "1.234"])
def test_a_price_that_can_be_read_in_two_ways_is_refused_with_both(text: str) -> None:
    with pytest.raises(UnitError) as caught:
        parse_price(text, currency="EUR")
    assert "1234 or" in caught.value.remedy
    assert all(parse_price(way, currency="EUR") for way in ("1234", f"{text}0"))


# --- CSV -----------------------------------------------------------------------------------------------------------


ITEMS = st.sampled_from(
    [
        ("38x63", "length", "length"),
        ("primer", "container", "volume"),
        ("ply 9 mm", "sheet", ""),
        ("boards", "metre", ""),
    ]
)
AMOUNTS = st.integers(0, 10**7).flatmap(lambda n: st.integers(0, 4).map(lambda places: Decimal(n).scaleb(-places)))


@st.composite
def entries(draw: st.DrawFn) -> list[PriceEntry]:
    found: dict[object, PriceEntry] = {}
    for item, per, size in draw(st.lists(ITEMS, max_size=8)):
        number = draw(st.sampled_from([0.75, 2.5, 3.785411784, 0.1 + 0.2]))
        length = number * 1000 if size == "length" else None
        volume = number if size == "volume" else None
        stock = draw(st.none() | st.integers(0, 50))
        found[item, length, volume] = PriceEntry(
            item=item, price=draw(AMOUNTS), per=per, length=length, volume=volume, in_stock=stock
        )
    return list(found.values())


@given(listed=entries(), decimal=st.sampled_from([".", ","]), style=st.sampled_from([METRIC, IMPERIAL]))
def test_a_price_list_that_is_written_reads_back_the_same(
    listed: list[PriceEntry], decimal: str, style: LengthStyle
) -> None:
    text = write_price_csv(listed, style=style, decimal="," if decimal == "," else ".")
    assert list(read(text, style=style)) == listed


def test_a_line_to_be_filled_in_is_read_over_until_it_has_a_price() -> None:
    text = write_price_csv([], style=METRIC, wanted=[Wanted(item="primer", per="container", volume=2.5)])
    assert read(text) == ()
    filled = text.replace("2.5 l,,", "2.5 l,19.90,")
    assert read(filled) == (PriceEntry(item="primer", price=Decimal("19.90"), per="container", volume=2.5),)


def test_a_spreadsheet_with_decimal_commas_and_a_byte_order_mark_is_read() -> None:
    text = "\ufeffItem;Per;Price;In stock\r\n38x63;metre;2,05;12\r\n;;;\r\n"
    assert read(text) == (PriceEntry(item="38x63", price=Decimal("2.05"), per="metre", in_stock=12),)


def test_every_problem_of_a_file_is_named_in_its_order_with_its_line() -> None:
    text = "item,per,price\nply 9 mm,sheet,dear\n38x36,,4\n38x63,metre,2\n38x63,meter,-1\n38x63,metre,3\n"
    found = problems(text)
    assert [each.split(":")[1].split(" ")[0] for each in found] == ["2", "3", "5", "5", "6"]
    assert 'found "dear", expected a number of EUR' in found[0]
    assert 'unknown item "38x36"' in found[1]
    assert 'Did you mean "metre"?' in found[2]
    assert "expected a price of 0 or more" in found[3]
    assert "a second price" in found[4]


def test_columns_are_named_where_they_are_unknown_missing_or_twice() -> None:
    found = problems("item,lenght,item\n")
    assert 'the column "item" twice' in found[0]
    assert 'an unknown column "lenght"' in found[1]
    assert 'Did you mean "length"?' in found[1]
    assert 'no column "price"' in found[2]


def test_a_decimal_comma_between_commas_is_named() -> None:
    (found,) = problems("item,price\n38x63,2,05\n")
    assert "found 3 cells, expected at most 2" in found


@pytest.mark.parametrize("text", ["", "\n\n", "\ufeff"])
def test_an_empty_file_is_told_which_columns_it_needs(text: str) -> None:
    assert "a first line of columns" in problems(text)[0]
