"""Cornices lean on their back by the spring angle; every other moulding lies flat on the wall.

Decides which mouldings a key takes, from their sections. That a row's own spring agrees with its section is left to
``lathlight.catalog``.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from lathlight.catalog import SAME_LEAN, lean
from lathlight.project.findings import Finding
from lathlight.units import format_angle

if TYPE_CHECKING:
    from collections.abc import Iterator

    from lathlight.catalog import Profile
    from lathlight.project.lines import KeyPath
    from lathlight.project.model import Trim


def lean_findings(trim: Trim, profile: Profile, *, path: KeyPath) -> Iterator[Finding]:
    """Yield a cornice whose moulding has no spring angle or another one, and other lines whose moulding leans."""
    leans = lean(profile)
    if trim.kind != "cornice":
        yield from flat_findings(profile, path=(*path, "profile"), what=f"a {trim.kind}")
    elif leans is None:
        yield Finding(
            path=(*path, "profile"),
            found=f'"{trim.profile}", which has no spring angle: its back lies flat on the wall',
            expected="a cornice's profile, which leans on its back by the spring angle",
            remedy="Choose a cornice (lathlight catalog cornice), or make the line of another kind.",
        )
    elif trim.spring is None and profile.spring is None:
        yield Finding(
            path=(*path, "profile"),
            found=f'"{trim.profile}", which has no spring angle',
            expected="a cornice's profile, or the spring angle",
            remedy=f"Choose a cornice (lathlight catalog cornice), or add the line spring = {_degrees(leans)}.",
        )
    elif trim.spring is not None and abs(trim.spring - leans) > SAME_LEAN:
        yield Finding(
            path=(*path, "spring"),
            found=f"{format_angle(trim.spring)} for {profile.name}, whose section leans by {format_angle(leans)}",
            expected="the angle of its section",
            remedy="Take the line out, or choose another cornice (lathlight catalog cornice).",
        )


def flat_findings(profile: Profile, *, path: KeyPath, what: str) -> Iterator[Finding]:
    """Yield a cornice's moulding where one with a flat back is wanted."""
    if profile.spring is not None:
        yield Finding(
            path=path,
            found=f'"{profile.name}", which leans on its back as a cornice does, for {what}',
            expected="a moulding whose back lies flat on the wall",
            remedy="Choose another (lathlight catalog moulding).",
        )


def _degrees(radians: float) -> str:
    return format_angle(radians).removesuffix("°")
