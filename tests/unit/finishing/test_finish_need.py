"""How much paint, what is added to it, and what is refused."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

import pytest

from lathlight.catalog import Paint, load_catalog
from lathlight.errors import InputError
from lathlight.finishing.paint_areas import PaintArea
from lathlight.finishing.paint_need import PaintNeed, PaintRules, need_line, paint_needs
from lathlight.finishing.quantities import takeoff_line
from lathlight.finishing.spread import film_of_spread, metric_spread, us_spread
from lathlight.working import Working

PAINTS = load_catalog().paints
PAINT, PRIMER = PAINTS["matt paint"], PAINTS["primer"]
WHY = Working(formula="given")
FACE = PaintArea(id="a/face", wall="a", kind="face", stuff="sheet", material="MDF", area=12e6, length=0.0, raw=True,
                 painted=True, why=WHY)  # fmt: skip
EDGE = replace(FACE, id="a/edge", kind="joint edge", stuff="sheet edge", area=0.1e6, length=5000.0)
PLAIN = PaintRules(raw_loss=0.0, edge_passes=0, tray=0.0, touch_up=0.0)


def needs(areas: list[PaintArea], *, rules: PaintRules = PLAIN, **more: Any) -> tuple[PaintNeed, ...]:
    given: dict[str, Any] = {"paint": PAINT, "coats": 2, "primer": PRIMER, "primer_coats": 1, **more}
    return paint_needs(areas, rules=rules, **given)


def test_litres_are_area_by_coats_over_the_spreading_rate() -> None:
    primer, paint = needs([FACE])
    assert (primer.net, paint.net) == pytest.approx((12 / 10, 12 * 2 / 12))
    assert paint.gross == paint.net
    assert paint.sheen == "matt"


def test_the_first_coat_bears_what_bare_sheet_drinks() -> None:
    rules = replace(PLAIN, raw_loss=0.25)
    primer, paint = needs([FACE], rules=rules)
    assert primer.gross == pytest.approx(1.2 * 1.25)
    assert paint.allowances == ()
    (alone,) = needs([FACE], rules=rules, primer=None)
    assert alone.gross == pytest.approx(1.0 + 1.0 * 1.25)


def test_what_comes_primed_gets_no_primer_and_drinks_nothing() -> None:
    primed = replace(FACE, id="m", kind="moulding", stuff="moulding", raw=False, area=6e6)
    primer, paint = needs([FACE, primed], rules=replace(PLAIN, raw_loss=0.25))
    assert (primer.area, paint.area) == (12e6, 18e6)


def test_sawn_edges_of_mdf_take_two_more_passes_and_those_of_plywood_none() -> None:
    rules = replace(PLAIN, edge_passes=2)
    primer, _ = needs([EDGE], rules=rules)
    assert primer.gross == pytest.approx(3 * 0.1 / 10)
    plywood, _ = needs([replace(EDGE, material="plywood")], rules=rules)
    assert plywood.gross == pytest.approx(0.1 / 10)


def test_touching_up_is_kept_of_the_paint_not_of_the_primer() -> None:
    primer, paint = needs([FACE], rules=replace(PLAIN, touch_up=0.1))
    assert primer.gross == primer.net
    assert paint.gross == pytest.approx(paint.net * 1.1)
    assert [a.kept for a in paint.allowances] == [True]


def test_every_coating_leaves_a_tray_behind_unless_nothing_is_painted() -> None:
    rules = replace(PLAIN, tray=0.2)
    assert [n.gross - n.net for n in needs([FACE], rules=rules)] == pytest.approx([0.2, 0.2])
    assert [n.gross for n in needs([replace(FACE, painted=False)], rules=rules)] == [0.0, 0.0]


def test_no_coats_leave_a_coating_out() -> None:
    assert [n.coating.name for n in needs([FACE], coats=0)] == ["primer"]
    assert [n.coating.name for n in needs([FACE], primer_coats=0)] == ["matt paint"]


def test_the_line_names_every_allowance() -> None:
    line = need_line(needs([FACE], rules=PaintRules())[1])
    assert (line.item, line.unit) == ("matt paint", "l")
    assert line.gross == pytest.approx(line.net + line.allowance)
    assert line.reason == "kept for touching up 10 %; stays in roller and tray 10 %"
    assert ("sheen", "matt", "") in line.why.inputs


@pytest.mark.parametrize("spread", [0.0, -11.0, math.nan, math.inf])
def test_a_spreading_rate_that_no_paint_has_is_refused(spread: float) -> None:
    odd: Paint = replace(PAINT, spread=spread)
    with pytest.raises(InputError, match=r"paint matt paint: spread: found .* expected a spreading rate above 0 m2/l"):
        needs([FACE], paint=odd)
    with pytest.raises(InputError, match="above 0"):
        film_of_spread(spread)


@pytest.mark.parametrize("coats", [-1, 9, 1.5, math.nan])
def test_coats_out_of_range_are_refused(coats: float) -> None:
    with pytest.raises(InputError, match=r"coats: found .* expected a whole number from 0 to 8"):
        needs([FACE], coats=coats)


def test_more_primer_than_four_coats_is_refused() -> None:
    with pytest.raises(InputError, match="primer_coats: found 5, expected a whole number from 0 to 4"):
        needs([FACE], primer_coats=5)


@pytest.mark.parametrize("rules", [{"touch_up": 10.0}, {"raw_loss": -0.1}, {"tray": math.nan}])
def test_shares_that_are_none_are_refused(rules: dict[str, float]) -> None:
    with pytest.raises(InputError, match="expected 0 to 1"):
        needs([FACE], rules=replace(PLAIN, **rules))


@pytest.mark.parametrize("solids", [0.0, -0.3, 38.0])
def test_solids_are_a_share(solids: float) -> None:
    with pytest.raises(InputError, match=r"Write 38 % as 0\.38"):
        us_spread(solids=solids, mils=1.0)


@pytest.mark.parametrize("film", [0.0, -1.0, math.inf])
def test_a_film_has_a_thickness(film: float) -> None:
    with pytest.raises(InputError, match="film thickness"):
        metric_spread(solids=0.4, micrometres=film)


def test_a_takeoff_line_never_hides_an_allowance_without_a_reason() -> None:
    with pytest.raises(ValueError, match="needs its reason"):
        takeoff_line(item="paint", unit="l", net=1.0, allowance=0.1, reason="", why=WHY)
    with pytest.raises(ValueError, match="must not be negative"):
        takeoff_line(item="paint", unit="l", net=-1.0, allowance=0.0, reason="", why=WHY)
