"""Density of wood: what is no wood is refused."""

from __future__ import annotations

import pytest

from lathlight.catalog import wood_density


def test_dry_wood_weighs_its_specific_gravity() -> None:
    assert wood_density(specific_gravity=0.5, moisture=0) == 500


@pytest.mark.parametrize(("gravity", "moisture"), [(0, 12), (-0.4, 12), (0.4, -1)])
def test_figures_that_do_not_belong_to_wood_are_refused(gravity: float, moisture: float) -> None:
    with pytest.raises(ValueError, match="do not belong to wood"):
        wood_density(specific_gravity=gravity, moisture=moisture)
