"""Proportions: ratios beside rules that disagree."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from lathlight.catalog import load_catalog
from lathlight.mouldings import Moulding, Proportion, TrimWall, proportions_of
from lathlight.mouldings.proportions import RULES, rules_for

PROFILES = load_catalog().profiles
IN = 25.4
RAIL = Moulding(name="rail", kind="rail", profile=PROFILES["rail 2 5-8 in"], top=36 * IN, spring=None)
BASE = Moulding(name="base", kind="base", profile=PROFILES["base 5 1-4 in"], top=133.35, spring=None)
CROWN = Moulding(
    name="crown", kind="cornice", profile=PROFILES["cornice 3 5-8 in at 38"], top=96 * IN, spring=math.radians(38)
)


def rows(*lines: Moulding, height: float = 96 * IN, floor: float = 0.0) -> tuple[Proportion, ...]:
    return proportions_of((TrimWall(name="back", length=3000.0, height=height, lines=lines),), floor=floor)


def said(row: Proportion) -> dict[str, bool]:
    return {v.rule.name: v.agrees for v in row.verdicts}


def test_shop_and_classical_rules_disagree_about_a_rail_at_36_in_under_8_ft() -> None:
    placed = next(r for r in rows(RAIL) if r.measure == "top edge to wall")
    assert placed.ratio == pytest.approx(0.375)
    assert said(placed) == {
        "shop": True,
        "classical": False,
        "wainscot": False,
        "wainscot with a plate rail": False,
        "usual": True,
    }


def test_a_low_rail_is_the_classical_one() -> None:
    placed = next(r for r in rows(replace(RAIL, top=24 * IN)) if r.measure == "top edge to wall")
    assert (said(placed)["shop"], said(placed)["classical"]) == (False, True)


def test_heights_and_the_wall_count_from_the_finished_floor() -> None:
    raised = next(r for r in rows(replace(RAIL, top=37 * IN), height=97 * IN, floor=IN) if r.kind == "rail")
    assert raised.over == pytest.approx((36 * IN, 96 * IN))


def test_a_cornice_is_compared_with_the_wall_and_with_the_base() -> None:
    found = {r.measure: r for r in rows(BASE, CROWN) if r.line == "crown"}
    assert said(found["moulding to base"]) == {"beside the base": True}
    assert said(found["moulding to wall"]) == {"shop": True, "by the ceiling": True}
    low = replace(BASE, profile=PROFILES["base 70"], top=70.0)
    heavy = {r.measure: r for r in rows(low, CROWN) if r.line == "crown"}
    assert said(heavy["moulding to base"]) == {"beside the base": False}
    assert {r.measure for r in rows(CROWN)} == {"moulding to wall"}


def test_of_rules_for_several_ceilings_the_nearest_counts() -> None:
    for feet, words in ((8, "under 8 ft"), (8.6, "under 9 ft"), (12, "under 10 ft")):
        (rule,) = [
            r
            for r in rules_for(kind="cornice", measure="moulding to wall", height=feet * 12 * IN)
            if r.name == "by the ceiling"
        ]
        assert words in rule.words


def test_a_line_without_rules_still_shows_its_ratio() -> None:
    picture_rail = replace(RAIL, name="high", kind="picture rail", top=81 * IN)
    placed = next(r for r in rows(picture_rail) if r.measure == "top edge to wall")
    assert placed.verdicts == ()
    assert placed.ratio == pytest.approx(81 / 96)


def test_every_rule_is_a_band_with_its_source() -> None:
    assert all(rule.low < rule.high and rule.source for rule in RULES)
