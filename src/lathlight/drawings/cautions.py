"""The cautions that drawings, book and faces share, each in one wording; they approve nothing."""

from __future__ import annotations

PLANNING_AID = (
    "Planning aid only: not an engineering check, not legal advice. Confirm with local codes, the product makers and a "
    "competent person before building or standing anything."
)
STANDING = "STANDING NOT CHECKED"
STANDING_CAUTION = (
    "Nothing here says that the set stands. Bracing, ballast and tipping have not been worked out. Standing walls "
    "fall: until it is braced and ballasted, every piece is held by people, and nobody stands where it can fall. Look "
    "again after every move. Have the bracing planned and looked at by a competent person."
)
