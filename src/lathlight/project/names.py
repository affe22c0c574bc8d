"""Rules for names: each is used once in its list, and whatever is called by name is there."""

from __future__ import annotations

from typing import TYPE_CHECKING

from lathlight.project.findings import Finding, did_you_mean, listed
from lathlight.units import format_length

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from lathlight.project.draft import Draft
    from lathlight.project.lines import KeyPath

LISTS: tuple[tuple[str, ...], ...] = (
    ("room", "doors"),
    ("room", "pillars"),
    ("room", "keep_clear"),
    ("room", "way_in"),
    ("walls",),
    ("trim",),
    ("moulding_frames",),
    ("props",),
    ("sitters",),
    ("pictures",),
    ("lights",),
    ("targets",),
)
ENTRY = {
    "doors": "door",
    "pillars": "pillar",
    "keep_clear": "kept-clear area",
    "way_in": "stage of the way in",
    "walls": "wall",
    "openings": "opening",
    "trim": "trim line",
    "moulding_frames": "tier of moulding frames",
    "props": "prop",
    "sitters": "sitter",
    "pictures": "picture",
    "lights": "light",
    "targets": "target",
}
WHOLE_WALL = "wall"  # what a pattern may be centred on instead of a picture


def name_findings(draft: Draft) -> Iterator[Finding]:
    """Return names that stand twice in one list, names of nothing, and items with two prices."""
    openings = (("walls", number, "openings") for number in range(len(draft.walls)))
    for path in (*LISTS, *openings):
        yield from _twice(draft, path)
    yield from _prices_twice(draft)
    yield from _references(draft)


def _twice(draft: Draft, path: KeyPath) -> Iterator[Finding]:
    first: dict[str, KeyPath] = {}
    for where, name in draft.named(*path):
        if name in first:
            what = ENTRY[str(path[-1])]
            yield Finding(
                path=where,
                found=f'a second {what} "{name}"',
                expected=f"a name of its own for every {what}",
                remedy=f'Give one of the two another name, such as "{name} 2".',
            )
        first.setdefault(name, where)


def _prices_twice(draft: Draft) -> Iterator[Finding]:
    seen: set[tuple[str, float | None, str]] = set()
    for number, price in enumerate(draft.prices):
        if price is None:
            continue
        key = (price.item, price.length, price.per)
        if key in seen:
            long = "" if price.length is None else f" at {format_length(price.length, style=draft.style)}"
            yield Finding(
                path=("prices", number, "item"),
                found=f'a second price of "{price.item}"{long}',
                expected="one price of an item, or one for each length of it",
                remedy="Take one of the two out.",
            )
        seen.add(key)


def _references(draft: Draft) -> Iterator[Finding]:
    for number, wall in enumerate(draft.walls):
        if wall is not None and wall.trim is not None:
            yield from _unknown(wall.trim, draft.names("trim"), path=("walls", number, "trim"), what="trim line")
    for number, tier in enumerate(draft.moulding_frames):
        if tier is not None:
            path = ("moulding_frames", number)
            yield from _unknown(tier.walls or (), draft.names("walls"), path=(*path, "walls"), what="wall")
            if tier.centre_on != WHOLE_WALL:
                known = draft.names("pictures")
                yield from _one_unknown(tier.centre_on, known, path=(*path, "centre_on"), what="picture")
    for number, prop in enumerate(draft.props):
        if prop is not None and prop.wall is not None:
            yield from _one_unknown(prop.wall, draft.names("walls"), path=("props", number, "wall"), what="wall")
    yield from _references_of_pictures(draft)


def _references_of_pictures(draft: Draft) -> Iterator[Finding]:
    for number, picture in enumerate(draft.pictures):
        if picture is not None:
            path = ("pictures", number, "sitters")
            yield from _unknown(picture.sitters, draft.names("sitters"), path=path, what="sitter")
    for number, light in enumerate(draft.lights):
        if light is not None:
            path = ("lights", number, "pictures")
            yield from _unknown(light.pictures, draft.names("pictures"), path=path, what="picture")
    for number, target in enumerate(draft.targets):
        if target is not None:
            yield from _unknown(target.lights, draft.names("lights"), path=("targets", number, "lights"), what="light")


def _unknown(names: Sequence[str], known: Sequence[str], *, path: KeyPath, what: str) -> Iterator[Finding]:
    for place, name in enumerate(names):
        yield from _one_unknown(name, known, path=(*path, place), what=what)


def _one_unknown(name: str, known: Sequence[str], *, path: KeyPath, what: str) -> Iterator[Finding]:
    if name not in known:
        yield Finding(
            path=path,
            found=f'"{name}"',
            expected=f"the name of a {what} in this file",
            remedy=did_you_mean(name, known, otherwise=f"Known: {listed(known)}."),
        )
