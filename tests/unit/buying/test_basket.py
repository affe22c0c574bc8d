"""The basket: what is bought for a takeoff, its prices, and how it adds up."""

from __future__ import annotations

from decimal import Decimal
from typing import TYPE_CHECKING

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lathlight.buying import (
    HEADER,
    SECTIONS,
    BasketLine,
    PriceEntry,
    PriceList,
    Tax,
    add_up,
    basket_rows,
    cost_per_use,
    make_basket,
    price_list_of,
    priced_names,
    read_price_csv,
    wanted_prices,
    write_price_csv,
)
from lathlight.catalog import load_catalog
from lathlight.finishing import Pack, TakeoffRow, takeoff_line
from lathlight.units import LengthStyle
from lathlight.working import Working

if TYPE_CHECKING:
    from lathlight.buying import Basket
    from lathlight.finishing import Trade
    from lathlight.plan import Plan
    from lathlight.project import Brief

CATALOG = load_catalog()
METRIC = LengthStyle.metric()
WHY = Working(formula="made up for the test")


def row(
    trade: Trade,
    item: str,
    gross: float,
    unit: str = "",
    *packs: Pack,
    size: tuple[float, float] | None = None,
) -> TakeoffRow:
    line = takeoff_line(item=item, unit=unit, net=gross, allowance=0.0, reason="", why=WHY)
    return TakeoffRow(trade=trade, line=line, packs=packs, size=size)


def basket_of(*rows: TakeoffRow, prices: tuple[PriceEntry, ...] = (), tax: Tax | None = None) -> Basket:
    listed = PriceList(entries=prices, tax=tax or Tax())
    return make_basket(rows, listed, catalog=CATALOG, style=METRIC)


def price(item: str, each: str, per: str = "piece", **sizes: float) -> PriceEntry:
    return PriceEntry(item=item, price=Decimal(each), per=per, **sizes)  # type: ignore[arg-type]


def boards(number: int, length: float = 2400.0) -> TakeoffRow:
    return row("timber", "38x63", number, "", Pack(size=length, unit="mm", number=number))


# --- lines ---------------------------------------------------------------------------------------------------------


def test_boards_are_bought_by_whole_lengths_at_the_price_of_their_length() -> None:
    basket = basket_of(boards(3), prices=(price("38x63", "4.90", length=2400.0),))
    (line,) = basket.lines
    assert (line.section, line.unit, line.number, line.length) == ("timber", "length", 3, 2400.0)
    assert (line.price, line.cost) == (Decimal("4.90"), Decimal("14.70"))


def test_a_missing_price_is_missing_and_never_nothing() -> None:
    basket = basket_of(boards(3), boards(2, 3000.0), prices=(price("38x63", "4.90", length=2400.0),))
    assert [line.cost for line in basket.lines] == [Decimal("14.70"), None]
    assert basket.unpriced == 1
    assert basket.totals is not None
    assert basket.totals.gross == Decimal("14.70")


def test_a_basket_without_any_price_has_no_total() -> None:
    basket = basket_of(boards(3))
    assert basket.totals is None
    assert basket.sections[0].cost is None
    assert basket.why.value == "no price"


def test_a_price_of_nothing_is_a_price() -> None:
    basket = basket_of(row("fixing", "stage weight", 4), prices=(price("stage weight", "0"),))
    assert basket.unpriced == 0
    assert basket.totals is not None
    assert basket.totals.gross == 0


def test_a_price_by_the_metre_holds_for_any_length_and_is_rounded_for_one() -> None:
    rows = row("mouldings", "picture rail 44", 4.2, "m", Pack(size=2105.0, unit="mm", number=2))
    (line,) = basket_of(rows, prices=(price("picture rail 44", "3.10", "metre"),)).lines
    assert line.price == Decimal("6.53")  # 2.105 m x 3.10 = 6.5255
    assert line.cost == Decimal("13.06")


def test_a_price_without_a_length_is_not_guessed_to_be_that_of_any() -> None:
    assert len(CATALOG.lumber["38x63"].lengths) > 1
    (line,) = basket_of(boards(3), prices=(price("38x63", "4.90"),)).lines
    assert line.price is None
    assert "sold in several" in line.note


def test_equal_lengths_of_one_stock_become_one_line() -> None:
    assert [(line.number, line.length) for line in basket_of(boards(3), boards(2), boards(1, 3000.0)).lines] == [
        (5, 2400.0),
        (1, 3000.0),
    ]


def test_sheets_are_priced_by_the_sheet_or_by_their_area() -> None:
    sheets = row("sheets", "ply 9 mm", 5, "", Pack(size=2440.0, unit="mm", number=5))
    (by_sheet,) = basket_of(sheets, prices=(price("ply 9 mm", "34.50", "sheet"),)).lines
    (by_area,) = basket_of(sheets, prices=(price("ply 9 mm", "10", "square metre"),)).lines
    assert by_sheet.cost == Decimal("172.50")
    assert by_area.price == Decimal("29.77")  # 1.22 m x 2.44 m = 2.9768 m2


def test_screws_are_bought_by_the_box_which_holds_all_lines_of_the_item() -> None:
    rows = (row("fixing", "screw 5x70", 80, "", Pack(size=100, unit="", number=2)), row("fixing", "screw 5x70", 50))
    (line,) = basket_of(*rows, prices=(price("screw 5x70", "6.20", "box"),)).lines
    assert (line.section, line.unit, line.number, line.box, line.cost) == (
        "screws and fixings",
        "box",
        2,
        100,
        Decimal("12.40"),
    )


def test_screws_with_only_a_price_for_one_are_bought_singly() -> None:
    rows = (row("fixing", "screw 5x70", 80, "", Pack(size=100, unit="", number=2)), row("fixing", "screw 5x70", 50))
    (line,) = basket_of(*rows, prices=(price("screw 5x70", "0.085"),)).lines
    assert (line.unit, line.number, line.price, line.cost) == ("piece", 130, Decimal("0.085"), Decimal("11.05"))


def test_fixings_stand_in_the_section_of_their_kind() -> None:
    items = {
        "screw 5x70": "screws and fixings",
        "corner plate 150": "hardware",
        "stage weight": "weights",
        "fine filler": "glue and filler",
        "turnbuckle": "hardware",
    }
    basket = basket_of(*(row("fixing", item, 1) for item in items))
    assert {line.item: line.section for line in basket.lines} == items


def test_bought_frames_are_priced_by_their_size() -> None:
    item = "panel 30, frame bought whole"
    rows = [row("mouldings", item, 4, size=(600.0, 400.0)), row("mouldings", item, 2, size=(300.0, 400.0))]
    listed = (price(f"{item}, 600 mm x 400 mm", "12.00"), price(f"{item}, 300 mm x 400 mm", "9.00"))
    assert [(line.section, line.cost) for line in basket_of(*rows, prices=listed).lines] == [
        ("moulding frames", Decimal("48.00")),
        ("moulding frames", Decimal("18.00")),
    ]


def test_a_floor_off_the_roll_is_bought_by_its_run_and_not_by_its_area_too() -> None:
    basket = basket_of(row("floor", "vinyl", 6.97, "m2"), row("floor", "vinyl, off the roll", 2.541, "m"))
    assert [(line.item, line.unit, line.number) for line in basket.lines] == [
        ("vinyl, off the roll", "metre", Decimal("2.55"))
    ]


def test_a_length_of_a_stock_takes_that_stocks_price_by_the_metre() -> None:
    (line,) = basket_of(
        row("timber", "cover strip, left end: 38x63", 2.2, "m"), prices=(price("38x63", "2.00", "metre"),)
    ).lines
    assert line.cost == Decimal("4.40")


def test_a_shop_with_too_few_is_noted() -> None:
    listed = PriceEntry(item="38x63", price=Decimal(5), length=2400.0, in_stock=2)
    assert basket_of(boards(3), prices=(listed,)).lines[0].note == "the shop has 2"
    assert basket_of(boards(2), prices=(listed,)).lines[0].note == ""


# --- paint ---------------------------------------------------------------------------------------------------------


PAINT = row("paint", "flat paint", 3.6, "l", Pack(size=2.5, unit="l", number=1), Pack(size=0.75, unit="l", number=2))
SMALL, MIDDLE = price("flat paint", "22", volume=0.75), price("flat paint", "40", volume=2.5)
LARGE = price("flat paint", "60", volume=5.0)


def tins(*listed: PriceEntry) -> list[tuple[float | None, int, Decimal | None]]:
    return [(line.volume, int(line.number), line.price) for line in basket_of(PAINT, prices=listed).lines]


def test_paint_is_bought_in_the_cheapest_containers_that_hold_the_need() -> None:
    assert tins(SMALL, MIDDLE, LARGE) == [(5.0, 1, Decimal(60))]
    assert tins(SMALL, MIDDLE) == [(2.5, 2, Decimal(40))]  # 80; one and two small ones are 84


def test_paint_whose_takeoff_tins_lack_a_price_stays_in_them() -> None:
    assert tins(MIDDLE, LARGE) == [(2.5, 1, Decimal(40)), (0.75, 2, None)]
    assert tins() == [(2.5, 1, None), (0.75, 2, None)]


def test_paint_priced_by_the_litre_is_priced_by_the_tin() -> None:
    lines = basket_of(PAINT, prices=(price("flat paint", "10", "litre"),)).lines
    assert sum((line.cost or Decimal(0)) for line in lines) == Decimal("37.50")  # 3.75 l is the least that holds 3.6 l


def test_coats_of_one_paint_are_bought_together() -> None:
    rows = [row("paint", "primer", 1.0, "l", Pack(size=2.5, unit="l", number=1)) for _ in range(2)]
    (line,) = basket_of(*rows, prices=(price("primer", "10", volume=0.75), price("primer", "20", volume=2.5))).lines
    assert (line.volume, line.number) == (2.5, 1)


# --- adding up -------------------------------------------------------------------------------------------------------


def line(section: str, number: int, each: Decimal | None) -> BasketLine:
    cost = None if each is None else number * each
    return BasketLine(
        section=section,  # type: ignore[arg-type]
        item="x",
        unit="piece",
        number=Decimal(number),
        price=each,
        cost=cost,
        why=WHY,
    )


LINES = st.builds(
    line,
    st.sampled_from(SECTIONS),
    st.integers(0, 99),
    st.none() | st.integers(0, 10**6).map(lambda coins: Decimal(coins) / 100),
)


@given(lines=st.lists(LINES, max_size=20), percent=st.integers(0, 30), included=st.booleans())
def test_lines_add_up_to_sections_and_sections_to_the_total(
    lines: list[BasketLine], percent: int, included: bool
) -> None:
    tax = Tax(percent=Decimal(percent), included=included)
    basket = add_up(lines, currency="EUR", tax=tax)
    assert sorted(map(repr, basket.lines)) == sorted(map(repr, lines))
    assert basket.unpriced == sum(section.unpriced for section in basket.sections)
    costs = [section.cost for section in basket.sections if section.cost is not None]
    if basket.totals is None:
        assert costs == []
        assert lines
        return
    listed = basket.totals.gross if included else basket.totals.net
    assert listed == sum(costs, Decimal(0)) == sum((each.cost or Decimal(0) for each in lines), Decimal(0))
    assert basket.totals.net + basket.totals.tax == basket.totals.gross


@given(number=st.integers(1, 60), more=st.integers(0, 60))
def test_more_of_a_thing_never_costs_less(number: int, more: int) -> None:
    listed = (price("38x63", "4.90", length=2400.0),)
    few, many = (basket_of(boards(n), prices=listed).totals for n in (number, number + more))
    assert few is not None
    assert many is not None
    assert few.gross <= many.gross


# --- a whole set -----------------------------------------------------------------------------------------------------


def demo_basket(brief: Brief, plan: Plan) -> tuple[Basket, LengthStyle]:
    style = LengthStyle.of(brief.project.project.units, brief.project.project.precision)
    return make_basket(plan.takeoff, price_list_of(brief.project), catalog=brief.catalog, style=style), style


def test_every_row_of_a_demo_sets_takeoff_is_in_its_basket(demo_brief: Brief, demo_plan: Plan) -> None:
    basket, _ = demo_basket(demo_brief, demo_plan)
    items = {line.item for line in basket.lines}
    floors = {row.line.item for row in demo_plan.takeoff if row.trade == "floor"}
    assert {row.line.item for row in demo_plan.takeoff} - items <= floors
    assert floors == set() or floors & items
    for each in demo_plan.takeoff:
        for pack in each.packs:
            if pack.unit == "mm" and each.trade != "sheets":
                assert any(ln.item == each.line.item and ln.length == pack.size for ln in basket.lines)


def test_a_list_of_what_has_no_price_can_be_filled_in_and_prices_the_whole_demo_set(
    demo_brief: Brief, demo_plan: Plan
) -> None:
    basket, style = demo_basket(demo_brief, demo_plan)
    listed = price_list_of(demo_brief.project)
    text = write_price_csv((), style=style, wanted=wanted_prices(basket, style=style))
    filled = "\r\n".join(
        each if number == 0 or not each else f"{each.removesuffix(',,')},1.50,"
        for number, each in enumerate(text.split("\r\n"))
    )
    more = read_price_csv(
        filled,
        style=style,
        currency=listed.currency,
        catalog=demo_brief.catalog,
        also=priced_names(basket, style=style),
    )
    whole = PriceList(entries=(*listed.entries, *more), currency=listed.currency, tax=listed.tax)
    again = make_basket(demo_plan.takeoff, whole, catalog=demo_brief.catalog, style=style)
    assert basket.unpriced > 0
    assert again.unpriced == 0


def test_rows_of_a_basket_say_what_has_no_price_and_end_with_the_total() -> None:
    basket = basket_of(
        boards(3),
        row("fixing", "stage weight", 4),
        prices=(price("38x63", "10", length=2400.0),),
        tax=Tax(percent=Decimal("7.5"), included=False),
    )
    rows = basket_rows(basket, style=METRIC)
    assert all(len(each) == len(HEADER) for each in rows)
    assert rows == (
        ("timber", "38x63", "2400 mm", "length", Decimal(3), Decimal(10), Decimal("30.00"), ""),
        ("weights", "stage weight", "", "piece", Decimal(4), "no price", None, ""),
        ("", "net", "", "EUR", None, None, Decimal("30.00"), "prices above are before tax"),
        ("", "tax 7.5 %", "", "EUR", None, None, Decimal("2.25"), ""),
        ("", "total", "", "EUR", None, None, Decimal("32.25"), ""),
        ("", "without a price", "", "", None, None, None, "1 line, not in the total"),
    )


# --- cost per use ----------------------------------------------------------------------------------------------------


def test_the_cost_of_a_sitting_is_the_total_over_all_sittings() -> None:
    basket = basket_of(boards(3), prices=(price("38x63", "100", length=2400.0),))
    use = cost_per_use(basket, sittings=12, years=2.5)
    assert use is not None
    assert (use.cost, use.sittings, use.at_least) == (Decimal("10.00"), Decimal(30), False)


def test_the_cost_of_a_sitting_is_a_least_one_where_prices_are_missing_and_unknown_where_all_are() -> None:
    partly = basket_of(boards(3), row("fixing", "stage weight", 4), prices=(price("38x63", "1", length=2400.0),))
    use = cost_per_use(partly, sittings=1, years=1.0)
    assert use is not None
    assert use.at_least
    assert cost_per_use(basket_of(boards(3)), sittings=1, years=1.0) is None


@pytest.mark.parametrize(("sittings", "years"), [(0, 1.0), (1, 0.0)])
def test_no_sittings_are_a_callers_mistake(sittings: int, years: float) -> None:
    with pytest.raises(ValueError, match="above 0"):
        cost_per_use(basket_of(), sittings=sittings, years=years)
