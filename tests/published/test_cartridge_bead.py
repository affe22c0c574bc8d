"""How far the glue of one cartridge runs.

Source: sealant supplier's note on cartridges (10.1 US fluid ounces are 298.7 ml); length is volume over cross-section,
computed by hand. One public page prints twice what the volume allows for a 1/4 in square bead; it is left out.
"""

from __future__ import annotations

from dataclasses import replace

import pytest

from lathlight.catalog import load_catalog
from lathlight.finishing.beads import bead_length, glue_need, round_section

NOTE = "sealant supplier's note, 10.1 US fl oz a cartridge"
INCH, FOOT = 25.4, 304.8
CARTRIDGE = load_catalog().adhesives["construction adhesive US"].container
ROUND = [(1 / 8, 123.8), (3 / 16, 55.0), (1 / 4, 30.9), (3 / 8, 13.8), (1 / 2, 7.7)]  # diameter [in], run [ft]
FLAT = [(1 / 8, 1 / 8, 97.2), (1 / 4, 1 / 4, 24.3), (3 / 8, 3 / 8, 10.8), (1 / 2, 1 / 2, 6.1), (3 / 8, 1 / 4, 16.2)]
METRIC = [(4, 24.67), (5, 15.79), (6, 10.96), (8, 6.17), (10, 3.95), (12, 2.74)]  # diameter [mm], run [m]


@pytest.mark.published(source=NOTE, place="298.7 ml, 18.227 cubic inches")
def test_a_cartridge_of_ten_ounces_in_millilitres() -> None:
    litres = load_catalog().adhesives["construction adhesive US"].container
    assert litres * 1000 == pytest.approx(298.7, abs=0.1)
    assert litres * 1e6 / INCH**3 == pytest.approx(18.227, abs=0.01)


@pytest.mark.published(source=NOTE, place="round beads of 1/8 to 1/2 in")
@pytest.mark.parametrize(("diameter", "feet"), ROUND)
def test_a_round_bead_from_one_cartridge(diameter: float, feet: float) -> None:
    run = bead_length(volume=CARTRIDGE, section=round_section(diameter * INCH))
    assert run / FOOT == pytest.approx(feet, abs=0.1)


@pytest.mark.published(source=NOTE, place="square beads of 1/8 to 1/2 in, and 3/8 x 1/4 in")
@pytest.mark.parametrize(("wide", "deep", "feet"), FLAT)
def test_a_square_bead_from_one_cartridge(wide: float, deep: float, feet: float) -> None:
    assert bead_length(volume=CARTRIDGE, section=wide * deep * INCH**2) / FOOT == pytest.approx(feet, abs=0.1)


@pytest.mark.published(source="volume over cross-section, 310 ml", place="round beads of 4 to 12 mm")
@pytest.mark.parametrize(("diameter", "metres"), METRIC)
def test_a_metric_cartridge(diameter: float, metres: float) -> None:
    assert bead_length(volume=0.310, section=round_section(diameter)) / 1000 == pytest.approx(metres, abs=0.01)


@pytest.mark.published(source="trade check: 6 mm round bead, 300 ml", place="10.6 m a cartridge")
def test_cartridges_are_rounded_up() -> None:
    tube = replace(load_catalog().adhesives["construction adhesive"], container=0.300, bead=6.0)
    assert glue_need(tube, 10_600.0, reserve=0.0).number == 1
    assert glue_need(tube, 10_700.0, reserve=0.0).number == 2
    assert glue_need(tube, 10_600.0, reserve=0.1).number == 2
