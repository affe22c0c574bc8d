"""Sections of all mouldings that a set uses, full size: hatched, measured, named, each with the wall behind it.

A cornice stands with its backing strip and the angle that the strip is ripped to. A rule of 100 mm or 4 inches shows
whether the page was printed at its true size. Which profile goes where is the plan's.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from lathlight.catalog import drop, projection, width
from lathlight.drawings.cells import Cell, flow, make_cell, page_of, page_room
from lathlight.drawings.dims import chain, level_chains, upright_chains
from lathlight.drawings.hatch import hatch
from lathlight.drawings.sheets import Line, Path, Pen
from lathlight.drawings.text import LEADING, NOTE_SIZE, make_text, wrap
from lathlight.drawings.views import bounds, make_view
from lathlight.units import drawing_length, format_angle

if TYPE_CHECKING:
    from collections.abc import Sequence

    from lathlight.catalog import Profile
    from lathlight.drawings.composing import Setting
    from lathlight.drawings.sheets import Item, Page, Point, View
    from lathlight.plan import Plan
    from lathlight.units import LengthStyle

FULL_SIZE = 1.0
SMALLER = {"metric": (2.0, 5.0, 10.0), "imperial": (2.0, 4.0, 8.0)}  # scales of sections larger than a page
WALL = 7.0  # depth of the wall that is shown behind a section [mm of paper]
PAST = 5.0  # how far the wall runs past a section [mm of paper]
WORDS = 50.0  # width of the words over a section [mm of paper]
NAME_SIZE = 3.2  # [mm of paper]
LINING = 1.2  # between hatch lines [mm of paper]
RULES = {"metric": (100.0, "100 mm", 10.0), "imperial": (101.6, '4"', 25.4)}  # length, figure, step [mm]
RULE_ROOM = 14.0  # of the rule over the sections [mm of paper]
TICK = 2.5  # [mm of paper]
CHECK = "Measure this rule on the print: it must be {length} long, or the page is not at full size."
TITLE = "Sections of mouldings, full size"
NOTES = ("The wall stands left of each section. Of a moulding frame, and of casing, the upper edge is the outer one.",)


@dataclass(frozen=True, slots=True, kw_only=True)
class ProfileUse:
    """A profile with what uses it."""

    profile: Profile
    uses: tuple[str, ...]  # "base: walls A, B"
    strip: tuple[Point, ...]  # the backing strip's section over the profile's lower edge; () where there is none
    rip: float  # angle between the strip's slope and the wall [rad]
    floor: bool  # True: it stands on the floor


def profile_uses(plan: Plan) -> tuple[ProfileUse, ...]:
    """Return every profile of a plan once, in the order of its first use."""
    found: dict[str, dict[tuple[str, str], set[str]]] = {}
    profiles: dict[str, Profile] = {}
    for strip in plan.strips:
        if strip.profile is not None:
            profiles.setdefault(strip.profile.name, strip.profile)
            used = found.setdefault(strip.profile.name, {})
            used.setdefault((strip.use, strip.belongs_to), set()).add(strip.wall)
    return tuple(_use(plan, profiles[name], used) for name, used in found.items())


def _use(plan: Plan, profile: Profile, used: dict[tuple[str, str], set[str]]) -> ProfileUse:
    marks = {wall.name: wall.mark for wall in plan.walls}
    words = [
        f"{_used_as(use, name)}: {'wall' if len(walls) == 1 else 'walls'} "
        + ", ".join(mark for wall, mark in marks.items() if wall in walls)
        for (use, name), walls in used.items()
    ]
    pieces = {p.id: p for p in plan.trim.pieces if p.profile == profile} if plan.trim else {}
    backs = [s for s in plan.trim.strips if s.piece in pieces] if plan.trim else []
    foot = pieces[backs[0].piece].bottom if backs else 0.0
    return ProfileUse(
        profile=profile,
        uses=tuple(words),
        strip=tuple((out, up - foot) for out, up in backs[0].section) if backs else (),
        rip=backs[0].rip if backs else 0.0,
        floor=profile.kind == "base",
    )


def _used_as(use: str, name: str) -> str:
    match use:
        case "casing":
            return f"casing of {name}"
        case "moulding frame":
            return f"moulding frames, {name}"
        case _:
            return name


# --- pages -------------------------------------------------------------------------------------------------------


def profile_pages(plan: Plan, setting: Setting) -> tuple[Page, ...]:
    """Return every profile at full size, as many a page as fit it; one larger than a page has its own, smaller."""
    wide, high = page_room(setting, NOTES)
    room = (wide, high - RULE_ROOM)
    scaled: dict[float, list[Cell]] = {}
    for use in sorted(profile_uses(plan), key=lambda use: -drop(use.profile)):  # rows of like height fit more
        scale, cell = _fitting(use, room, setting.style)
        scaled.setdefault(scale, []).append(cell)
    loads = [(scale, items) for scale in sorted(scaled) for items in flow(scaled[scale], room=room, scale=scale)]
    return tuple(
        _page(items, scale, name="profiles" if len(loads) == 1 else f"profiles-{number}", setting=setting)
        for number, (scale, items) in enumerate(loads, start=1)
    )


def _fitting(use: ProfileUse, room: Point, style: LengthStyle) -> tuple[float, Cell]:
    """Return the largest scale at which a section fits a page, and the section at that scale."""
    smaller = SMALLER[style.system]
    for scale in (FULL_SIZE, *smaller):
        cell = profile_cell(use, style=style, scale=scale)
        if cell.size[0] <= room[0] * scale and cell.size[1] <= room[1] * scale:
            return scale, cell
    return smaller[-1], profile_cell(use, style=style, scale=smaller[-1])


def _page(items: Sequence[Item], scale: float, *, name: str, setting: Setting) -> Page:
    title = TITLE if scale == FULL_SIZE else "Sections of mouldings larger than a page"
    view = profiles_view(items, name=name, title=title, scale=scale, style=setting.style)
    return page_of(view, title=title, setting=setting, notes=NOTES)


def profiles_view(items: Sequence[Item], *, name: str, title: str, scale: float, style: LengthStyle) -> View:
    """Return sections that have their places already; at full size the rule stands over them."""
    rule: list[Item] = []
    if scale == FULL_SIZE:
        (left, _), (_, top) = bounds(items, scale=scale)
        rule = _rule((left, top + 8.0), style)
    return make_view(name=name, title=title, scale=scale, items=[*rule, *items])


def _rule(at: Point, style: LengthStyle) -> list[Item]:
    """Return a rule whose length is to be measured on the print, from its lower left corner."""
    length, figure, step = RULES[style.system]
    x, y = at
    items: list[Item] = [Line(a=(x, y), b=(x + length, y), pen=Pen.OUTLINE)]
    count = round(length / step)
    for k in range(count + 1):
        high = TICK * (1.6 if k in (0, count) else 1.0)
        items.append(Line(a=(x + k * step, y), b=(x + k * step, y + high), pen=Pen.LIGHT))
    items.append(make_text(figure, at=(x + length + 2.0, y), scale=FULL_SIZE, bold=True))
    items.append(make_text(CHECK.format(length=figure), at=(x, y - 3.6), scale=FULL_SIZE))
    return items


# --- one section -------------------------------------------------------------------------------------------------


def profile_cell(use: ProfileUse, *, style: LengthStyle, scale: float = FULL_SIZE) -> Cell:
    """Return one section with its wall, figures and words; its own axes: out from the wall, up from its foot.

    Parameters
    ----------
    use
        The profile with what uses it.
    style
        How the project writes lengths.
    scale
        Model mm for one mm of paper.
    """
    profile = use.profile
    low = min(up for _, up in profile.points)
    ring = tuple((out, up - low) for out, up in profile.points)
    high, out = drop(profile), projection(profile)
    items: list[Item] = [*_wall(high, use, scale)]
    if use.strip:
        items += [
            hatch(use.strip, scale=scale, spacing=LINING, angle=3 * math.pi / 4),
            Path(points=use.strip, closed=True, pen=Pen.OUTLINE),
        ]
    items += [hatch(ring, scale=scale, spacing=LINING), Path(points=ring, closed=True, pen=Pen.CUT)]
    edge = -WALL * scale
    items += upright_chains([[0.0, high]], edge_x=edge, left=True, scale=scale, style=style)
    items += level_chains([[0.0, out]], edge_y=min(0.0, -PAST * scale), below=True, scale=scale, style=style)
    if profile.spring is not None:
        items += _spring(use, ring, style, scale)
    return make_cell([*items, *_words(use, items, style, scale)], scale=scale)


def _wall(high: float, use: ProfileUse, scale: float) -> list[Item]:
    """Return the wall's face with the hatched strip behind it, and the floor where the moulding stands on it."""
    low = 0.0 if use.floor else -PAST * scale
    top = high if use.profile.kind == "cornice" else high + PAST * scale
    band = ((-WALL * scale, low), (0.0, low), (0.0, top), (-WALL * scale, top))
    items: list[Item] = [
        hatch(band, scale=scale, spacing=2.4, angle=math.pi / 4),
        Line(a=(0.0, low), b=(0.0, top), pen=Pen.CUT),
    ]
    if use.floor:
        end = projection(use.profile) + 2 * PAST * scale
        items.append(Line(a=(-WALL * scale, 0.0), b=(end, 0.0), pen=Pen.PHANTOM))
    return items


def _spring(use: ProfileUse, ring: Sequence[Point], style: LengthStyle, scale: float) -> list[Item]:
    """Return a cornice's width across its face, parallel to its back, beyond the section."""
    spring = use.profile.spring or 0.0
    along, away = (math.sin(spring), math.cos(spring)), (math.cos(spring), -math.sin(spring))
    places = [x * along[0] + y * along[1] for x, y in ring]
    front = max(x * away[0] + y * away[1] for x, y in ring)
    ends = [ring[places.index(end(places))] for end in (min, max)]
    off = front + 6.0 * scale
    return [
        chain(
            origin=(off * away[0], off * away[1]),
            angle=math.atan2(along[1], along[0]),
            stops=(min(places), max(places)),
            feet=ends,
            scale=scale,
            style=style,
        )
    ]


def _words(use: ProfileUse, items: Sequence[Item], style: LengthStyle, scale: float) -> list[Item]:
    """Return name, figures and uses over a section."""
    profile = use.profile
    sizes = f"stands out {_size(projection(profile), style)}, covers {_size(drop(profile), style)} of the wall"
    lines = [*wrap(profile.name, width=WORDS, size=NAME_SIZE, bold=True)]
    names = len(lines)
    said = [sizes]
    if profile.spring is not None:
        said.append(
            f"spring {format_angle(profile.spring)} to the wall, {_size(width(profile), style)} across its face"
        )
    if use.strip:
        said.append(f"backing strip ripped at {format_angle(use.rip)} to the wall")
    lines += [line for words in (*said, *use.uses) for line in wrap(words, width=WORDS)]
    (left, _), (_, top) = bounds(items, scale=scale)
    y = top + (3.0 + (len(lines) - 1) * LEADING * NOTE_SIZE) * scale
    texts: list[Item] = []
    for number, line in enumerate(lines):
        bold = number < names
        size = NAME_SIZE if bold else NOTE_SIZE
        at = (left, y - number * LEADING * NOTE_SIZE * scale + (1.2 * scale * (names - number) if bold else 0.0))
        texts.append(make_text(line, at=at, size=size, scale=scale, bold=bold))
    return texts


def _size(mm: float, style: LengthStyle) -> str:
    return drawing_length(mm, style=style) + (" mm" if style.system == "metric" else "")
