"""The caution that every face shows with a plan: the drawings' own words, in one paragraph."""

from __future__ import annotations

from lathlight.drawings import PLANNING_AID, STANDING

CAUTION = f"{STANDING}: hold every wall until it is braced and weighted. {PLANNING_AID}"
