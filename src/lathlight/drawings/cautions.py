"""The caution about standing, in the one wording that drawings and book share; it approves nothing."""

from __future__ import annotations

STANDING = "STANDING NOT CHECKED"
STANDING_CAUTION = (
    "Nothing here says that the set stands. Bracing, ballast and tipping have not been worked out. Standing walls "
    "fall: until it is braced and ballasted, every piece is held by people, and nobody stands where it can fall. Look "
    "again after every move. Have the bracing planned and looked at by a competent person."
)
