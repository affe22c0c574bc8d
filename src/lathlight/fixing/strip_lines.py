"""Along which lines a moulding is fixed, how thick it is there, and what it is fixed to.

One line in the middle of a moulding, two in a broad one. A cornice touches the wall with its foot only: it gets a line
through the foot, and one into the strip behind it. A wall end's cover is fixed sideways into the end stud.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from lathlight.catalog import drop, width
from lathlight.finishing import thickness_at

if TYPE_CHECKING:
    from lathlight.catalog import Profile
    from lathlight.fixing.model import Point
    from lathlight.mouldings import Strip

BROAD = 60.0  # a moulding broader than this is fixed along two lines [mm]: common practice, no source
QUARTERS = (0.25, 0.75)  # where the two lines lie, in shares of the breadth: common practice, no source
STRIP_HEIGHTS = (0.5, 0.7, 0.35)  # where a cornice's strip may be screwed, in shares of its height: common practice
INWARD = 15.0  # from a wall's end to the middle of its end stud, about [mm]
TOUCH = 0.01  # the tables are written to 0.01 mm


@dataclass(frozen=True, slots=True, kw_only=True)
class FixLine:
    """One line of brads or screws along a strip; wall axes [mm]."""

    at: float  # across: x of an upright strip, z of a level one
    start: float
    end: float
    upright: bool
    thickness: float  # of the moulding where they go through
    into: Literal["wall", "strip", "end stud"]
    hollow: float = 0.0  # depth of the strip behind a cornice, square to its back
    probe: float = 0.0  # where the end stud lies, x; for a wall end's cover

    @property
    def length(self) -> float:
        """Along the moulding [mm]."""
        return self.end - self.start

    def point(self, along: float) -> Point:
        """Return the place (x, z) so far along the wall or up it."""
        return (self.at, along) if self.upright else (along, self.at)


def fix_lines(strip: Strip) -> tuple[FixLine, ...]:
    """Return the lines of a strip; none where nothing lies on the wall."""
    if strip.use == "wall end":
        return _end_line(strip)
    if strip.profile is not None and strip.profile.spring is not None:
        return _cornice_lines(strip, strip.profile, strip.profile.spring)
    shares = QUARTERS if strip.broad > BROAD else (0.5,)
    thick = [_thickness(strip, share) for share in shares]
    if strip.upright:  # which side of its section lies left is not known here: the thinner counts
        thick = [min(thick)] * len(thick)
    return tuple(_line(strip, share, each) for share, each in zip(shares, thick, strict=True))


def _line(strip: Strip, share: float, thickness: float) -> FixLine:
    low, start, end = (strip.x0, strip.z0, strip.z1) if strip.upright else (strip.z0, strip.x0, strip.x1)
    return FixLine(
        at=low + share * strip.broad, start=start, end=end, upright=strip.upright, thickness=thickness, into="wall"
    )


def _thickness(strip: Strip, share: float) -> float:
    if strip.profile is None:
        return strip.stands_out
    lowest = min(up for _, up in strip.profile.points)
    return thickness_at(strip.profile, up=lowest + share * width(strip.profile))


def _end_line(strip: Strip) -> tuple[FixLine, ...]:
    if strip.broad <= TOUCH:
        return ()
    at_left = strip.belongs_to.startswith("left")
    return (
        FixLine(
            at=(strip.x0 + strip.x1) / 2,
            start=strip.z0,
            end=strip.z1,
            upright=True,
            thickness=strip.broad,
            into="end stud",
            probe=strip.x1 + INWARD if at_left else strip.x0 - INWARD,
        ),
    )


def _cornice_lines(strip: Strip, profile: Profile, spring: float) -> tuple[FixLine, ...]:
    lowest = min(up for _, up in profile.points)
    foot = foot_of(profile)
    high = drop(profile) - foot
    through_foot = FixLine(
        at=strip.z0 + foot / 2,
        start=strip.x0,
        end=strip.x1,
        upright=False,
        thickness=_front(profile, up=lowest + foot / 2),
        into="wall",
    )
    into_strip = FixLine(
        at=strip.z0 + foot + high / 2,
        start=strip.x0,
        end=strip.x1,
        upright=False,
        thickness=_across(profile, spring, lowest + foot),
        into="strip",
        hollow=hollow_depth(high, spring),
    )
    return through_foot, into_strip


def strip_screw_lines(strip: Strip) -> tuple[FixLine, ...]:
    """Return the heights at which the strip behind a cornice may be screwed to the wall, best first; else none.

    The thickness is that of the strip, level, where the screw goes through.
    """
    profile = strip.profile
    if profile is None or profile.spring is None:
        return ()
    foot = foot_of(profile)
    high = drop(profile) - foot
    return tuple(
        FixLine(
            at=strip.z0 + foot + share * high,
            start=strip.x0,
            end=strip.x1,
            upright=False,
            thickness=share * high * math.tan(profile.spring),
            into="wall",
        )
        for share in STRIP_HEIGHTS
    )


def foot_of(profile: Profile) -> float:
    """Height of a cornice's foot, with which alone it touches the wall [mm]."""
    lowest = min(up for _, up in profile.points)
    return max(up for out, up in profile.points if out <= TOUCH) - lowest


def hollow_depth(high: float, spring: float) -> float:
    """Depth of the hollow behind a cornice's middle, square to its back [mm]: as far as the wall or the top edge.

    Parameters
    ----------
    high
        From its foot to its top edge [mm].
    spring
        Between its back and the wall [rad].
    """
    return min(high * math.tan(spring) / 2 / math.cos(spring), high / 2 / math.sin(spring))


def _front(profile: Profile, *, up: float) -> float:
    ring = profile.points
    return max(
        a[0] + (b[0] - a[0]) * (up - a[1]) / (b[1] - a[1])
        for a, b in zip(ring, (*ring[1:], ring[0]), strict=True)
        if a[1] != b[1] and min(a[1], b[1]) <= up <= max(a[1], b[1])
    )


def _across(profile: Profile, spring: float, foot: float) -> float:
    """Thickness of a cornice square to its back where it is thickest [mm]."""
    return max(out * math.cos(spring) - (up - foot) * math.sin(spring) for out, up in profile.points)
