"""How far paint goes, and how much of it a wall takes.

Sources: a coating's data sheet with its worked example, a technical bulletin's conversion chart, a trade magazine's
comparison of two paints, a paint-quantity tutorial; the US gallon as NIST SP 811 defines it. Where a chart contradicts
its own formula (527 printed for 577 at 72 % and 2 mil) the row is left out.
"""

from __future__ import annotations

from dataclasses import replace

import pytest

from lathlight.catalog import Paint, load_catalog
from lathlight.finishing.containers import cover_need
from lathlight.finishing.paint_areas import PaintArea
from lathlight.finishing.paint_need import PaintRules, paint_needs
from lathlight.finishing.spread import (
    film_of_spread,
    metric_of_us,
    metric_spread,
    us_of_metric,
    us_spread,
    wet_film,
)
from lathlight.units import SQUARE_FOOT
from lathlight.working import Working

DATA_SHEET = "coating data sheet, theoretical coverage"
CHART = "technical bulletin, conversion chart of spreading rates"
PRACTICE = "common practice, no source"
ROWS = [(30, 1, 481), (35, 1, 561), (35, 2, 281), (40, 4, 160), (45, 1, 722), (50, 3, 267), (55, 6, 147),
        (60, 8, 120), (65, 5, 209), (70, 10, 112), (100, 2, 802)]  # % solids, mil, ft2/US gal as printed  # fmt: skip
NOTHING_ADDED = PaintRules(raw_loss=0.0, edge_passes=0, tray=0.0, touch_up=0.0)
GALLON = 3.785411784  # [l], NIST SP 811


def face(square_metres: float) -> PaintArea:
    return PaintArea(
        id="wall/face",
        wall="wall",
        kind="face",
        stuff="sheet",
        material="plywood",
        area=square_metres * 1e6,
        length=0.0,
        raw=False,
        painted=True,
        why=Working(formula="given"),
    )


def litres(square_metres: float, *, spread: float, coats: int, rules: PaintRules = NOTHING_ADDED) -> float:
    paint: Paint = replace(load_catalog().paints["matt paint"], spread=spread)
    (need,) = paint_needs([face(square_metres)], paint=paint, coats=coats, primer=None, primer_coats=0, rules=rules)
    return need.gross


@pytest.mark.published(source=DATA_SHEET, place="worked example, 65 % solids at 5.0 mil and 125 micrometres")
def test_the_worked_example_of_a_data_sheet() -> None:
    assert us_spread(solids=0.65, mils=5.0) == pytest.approx(208.52, abs=0.022)  # the sheet takes 1604 for 1604.17
    assert metric_spread(solids=0.65, micrometres=125.0) == pytest.approx(5.2, abs=1e-9)


@pytest.mark.published(source=CHART, place="rows from 30 to 100 % solids, 1 to 10 mil")
@pytest.mark.parametrize(("percent", "mils", "printed"), ROWS)
def test_the_chart_of_spreading_rates(percent: int, mils: int, printed: int) -> None:
    assert us_spread(solids=percent / 100, mils=mils) == pytest.approx(printed, abs=0.5)


@pytest.mark.published(source="definition of the US gallon: 231 cubic inches, NIST SP 811", place="appendix B.8")
def test_a_gallon_one_mil_thick_covers_1604_square_feet() -> None:
    assert us_spread(solids=1.0, mils=1.0) == pytest.approx(1604.1667, abs=1e-4)


@pytest.mark.published(source="trade magazine, two paints compared", place="46 % and 56 % solids at 2.5 mil")
@pytest.mark.parametrize(
    ("solids", "price", "rate", "cost"), [(0.46, 43.50, 295.1, 0.1474), (0.56, 44.75, 359.3, 0.1246)]
)
def test_the_dearer_gallon_with_more_solids_costs_less_a_square_foot(
    solids: float, price: float, rate: float, cost: float
) -> None:
    found = us_spread(solids=solids, mils=2.5)
    assert found == pytest.approx(rate, abs=0.1)
    assert price / found == pytest.approx(cost, abs=1e-4)


@pytest.mark.published(source="technical bulletin, wet and dry film", place="2.8 mil dry at 35 %")
def test_a_dry_film_needs_a_thicker_wet_one() -> None:
    assert wet_film(dry=2.8, solids=0.35) == pytest.approx(8.0, abs=1e-9)


@pytest.mark.published(source="exact unit definitions; label ranges of wall paints", place="350 to 400 ft2/US gal")
@pytest.mark.parametrize(("us", "metric"), [(350, 8.59), (400, 9.82)])
def test_label_ranges_in_both_units(us: float, metric: float) -> None:
    assert metric_of_us(us) == pytest.approx(metric, abs=0.01)


@pytest.mark.published(source="exact unit definitions; label ranges of wall paints", place="10 to 12 m2/l")
@pytest.mark.parametrize(("metric", "us"), [(10, 407.5), (12, 489.0)])
def test_metric_label_ranges_in_square_feet(metric: float, us: float) -> None:
    assert us_of_metric(metric) == pytest.approx(us, abs=0.5)


@pytest.mark.published(source="four trade articles; label ranges of wall paints", place="recoat 2 to 6 h; 9 to 12 m2/l")
def test_every_wall_paint_of_the_catalogue_lies_within_what_labels_print() -> None:
    """Label ranges: 350 to 400 ft2/US gal, 9 to 12 m2/l a coat; water-borne paint is recoated after 2 to 6 h."""
    paints = [p for p in load_catalog().paints.values() if p.use == "wall"]
    assert len(paints) >= 8
    assert all(metric_of_us(350) - 1e-9 <= p.spread <= 12.0 + 1e-9 for p in paints)
    assert all(2 <= p.recoat_hours <= 6 for p in paints)


@pytest.mark.published(source="volume over area", place="400 ft2/US gal and 12 m2/l")
@pytest.mark.parametrize(("spread", "micrometres"), [(metric_of_us(400), 101.86), (12.0, 83.33)])
def test_a_spreading_rate_says_how_thick_the_wet_film_is(spread: float, micrometres: float) -> None:
    assert film_of_spread(spread) * 1000 == pytest.approx(micrometres, abs=0.01)


@pytest.mark.published(source="paint-quantity tutorial", place="room of 42 m2, 11 m2/l, two coats: 7.6 l")
def test_a_room_of_42_square_metres() -> None:
    assert litres(42.0, spread=11.0, coats=2) == pytest.approx(7.636, abs=0.05)


@pytest.mark.published(
    source="area x coats / rate x 1.10, computed by hand", place="2.4 x 9.6 m, two coats, 2.5 l tins"
)
def test_a_wall_of_23_square_metres_takes_two_tins() -> None:
    need = litres(23.04, spread=11.0, coats=2, rules=replace(NOTHING_ADDED, touch_up=0.1))
    assert need == pytest.approx(4.608, abs=1e-9)
    assert cover_need(need, sizes=[2.5]).number == 2


@pytest.mark.published(source=PRACTICE, place="L of 12 ft by 8 ft with mouldings: about three quarters of a US gallon")
def test_two_coats_on_an_l_with_its_mouldings_take_about_three_quarters_of_a_gallon() -> None:
    with_girth = 12 * 8 * 1.12 * float(SQUARE_FOOT) / 1e6
    spread = metric_of_us(350.0)
    lost = litres(with_girth, spread=spread, coats=2, rules=replace(NOTHING_ADDED, touch_up=0.1)) / GALLON
    assert lost == pytest.approx(0.676, abs=0.001)
    with_tray = litres(with_girth, spread=spread, coats=2, rules=PaintRules(raw_loss=0.0)) / GALLON
    assert with_tray == pytest.approx(0.75, abs=0.05)
