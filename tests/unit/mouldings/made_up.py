"""A trim that has every kind of row: mitres, copes, scarfs, returns, an outside corner, a cornice with its strips."""

from __future__ import annotations

import math
from dataclasses import replace

from lathlight.catalog import load_catalog
from lathlight.mouldings import Moulding, TrimPlan, TrimRules, TrimWall, plan_trim
from lathlight.units import LengthStyle

PROFILES = load_catalog().profiles
NAMES = ("left return", "back", "right return")


def made_up_trim(*, cope: bool = True) -> TrimPlan:
    """Return trim on walls named as those of the parlour: an inside corner at 90 degrees, an outside one at 270."""
    crown = PROFILES["cornice 92 at 38"]
    rail = Moulding(name="rail", kind="rail", profile=PROFILES["rail 57"], top=900.0, spring=None)
    lines = (
        Moulding(name="foot", kind="base", profile=PROFILES["base 95"], top=95.0, spring=None, loose=True),
        replace(rail, inside="cope" if cope else "mitre"),
        Moulding(name="crown", kind="cornice", profile=crown, top=2400.0, spring=crown.spring),
    )
    lengths = (1220.0, 7000.0, 1220.0)  # no stock is so long: the middle wall has scarfs
    walls = tuple(TrimWall(name=n, length=x, height=2400.0, lines=lines) for n, x in zip(NAMES, lengths, strict=True))
    corners = (math.pi / 2, 3 * math.pi / 2)
    return plan_trim(walls, corners=corners, rules=TrimRules(grid=LengthStyle.metric()))
