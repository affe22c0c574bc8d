"""Trim that cannot be drawn: refused with its figures, all of it at once; heights told from the finished floor."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from lathlight.errors import InputError, Problem
from lathlight.units import drawing_length, format_angle

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from lathlight.mouldings.trim_model import Moulding, TrimRules, TrimWall

TOUCH = 1e-6  # [mm]
LEAST_STOCK = 4.0  # projections: a shorter length of moulding leaves nothing between two mitres


def refuse_trim(walls: Sequence[TrimWall], rules: TrimRules) -> None:
    """Raise for lines above the wall's top or below the floor, cornices without spring, bases before a sill.

    Raises
    ------
    InputError
        All problems found, wall by wall.
    """
    problems = [p for wall in walls for line in wall.lines for p in _line_problems(wall, line, rules)]
    if problems:
        raise InputError(problems)


def _line_problems(wall: TrimWall, line: Moulding, rules: TrimRules) -> Iterator[Problem]:
    def show(mm: float) -> str:
        return drawing_length(mm, style=rules.grid)

    def height(z: float) -> str:
        return show(z - rules.floor)

    place = f'walls "{wall.name}" trim "{line.name}"'
    if line.top > wall.height + TOUCH:
        yield Problem(
            place=place,
            found=f"top edge at {height(line.top)}",
            expected=f"at most the wall's height, {height(wall.height)}",
            remedy="Lower the line or make the wall higher.",
        )
    if line.bottom < rules.floor - TOUCH:
        yield Problem(
            place=place,
            found=f"top edge at {height(line.top)}",
            expected=f"at least {show(line.top - line.bottom)}, the height of {line.profile.name} itself",
            remedy="Raise the line or choose a lower moulding.",
        )
    if line.kind == "cornice" and line.spring is None:
        yield Problem(
            place=place,
            found=f"{line.profile.name} without a spring angle",
            expected="the angle between the cornice's back and the wall",
            remedy='Give the line a spring, such as "38 deg".',
        )
    if line.spring is not None and not 0 < line.spring < math.pi / 2:
        yield Problem(
            place=place,
            found=f"spring of {format_angle(line.spring)}",
            expected="more than 0° and less than 90°",
            remedy="Measure the angle between the cornice's back and the wall.",
        )
    usable = max(line.profile.lengths, default=0.0) - rules.trim_cut
    if usable < LEAST_STOCK * line.projection:
        yield Problem(
            place=place,
            found=f"longest stock of {show(usable)} once its end is cut off",
            expected=f"at least {show(LEAST_STOCK * line.projection)}, four times what {line.profile.name} stands out",
            remedy="Give the moulding longer lengths in the catalogue.",
        )
    for opening in wall.openings:
        if line.kind == "base" and 0 < opening.sill < line.top - TOUCH:
            yield Problem(
                place=place,
                found=f'top edge at {height(line.top)}, above the sill of "{opening.name}"',
                expected=f"at most the sill's height, {height(opening.sill)}",
                remedy="Choose a lower base, or raise the sill.",
            )
