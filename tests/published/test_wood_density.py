"""Density of wood from its specific gravity and moisture.

Sources: USDA Forest Products Laboratory, Wood Handbook, FPL-GTR-190 (2010), chapter 4, with the worked number of a
university forestry page (specific gravity 0.40 at 12 %); a university table citing the Wood Handbook for species.
The table's weights are average shipping weights: Engelmann spruce and noble fir differ from the formula there and are
left out; another manual prints 0.48 for western hemlock, this table 0.45.
"""

from __future__ import annotations

import pytest

from lathlight.catalog import load_catalog, wood_density

HANDBOOK = "USDA Forest Products Laboratory, Wood Handbook FPL-GTR-190 (2010), chapter 4"
TABLE = "Oregon State University table citing the Wood Handbook (Agriculture Handbook 72)"
POUND = 0.45359237  # [kg]
CUBIC_FOOT = 0.3048**3  # [m3]
SPECIES = [("Douglas-fir", 0.48, 34), ("western larch", 0.52, 36), ("western hemlock", 0.45, 31)]  # G at 12 %, lb/ft3


def pounds_a_cubic_foot(density: float) -> float:
    return density * CUBIC_FOOT / POUND


@pytest.mark.published(source=HANDBOOK, place="worked number, specific gravity 0.40 at 12 %")
def test_the_worked_number_comes_out() -> None:
    density = wood_density(specific_gravity=0.40, moisture=12)
    assert density == pytest.approx(448, abs=0.5)
    assert pounds_a_cubic_foot(density) == pytest.approx(27.968, abs=0.001)


@pytest.mark.published(source=TABLE, place="specific gravity at 12 %, weight air dry")
@pytest.mark.parametrize(("species", "gravity", "pounds"), SPECIES)
def test_a_species_weighs_what_the_table_says(species: str, gravity: float, pounds: int) -> None:
    assert round(pounds_a_cubic_foot(wood_density(specific_gravity=gravity, moisture=12))) == pounds, species


@pytest.mark.published(source="PS 20 size and Wood Handbook formula, worked out by hand", place="8 ft 2x4, Douglas-fir")
def test_an_eight_foot_two_by_four_of_douglas_fir_weighs_four_and_a_half_kilograms() -> None:
    row = load_catalog().lumber["2x4"]
    volume = row.width * row.depth * 8 * 304.8 * 1e-9  # [m3]
    assert volume / CUBIC_FOOT == pytest.approx(0.291667, abs=1e-6)
    kilograms = volume * wood_density(specific_gravity=0.48, moisture=12)
    assert kilograms == pytest.approx(4.44, abs=0.005)
    assert kilograms / POUND == pytest.approx(9.789, abs=0.01)
