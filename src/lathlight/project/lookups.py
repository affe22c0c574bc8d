"""The catalogue names that a file calls, each looked up, and what the rows found there forbid.

Works on what could be read of a file, so that a slip elsewhere hides no misspelt name. Decides nothing about
timber: a wall shorter than its own end studs is found here, what could be drawn but would fail is a snag.
"""

from __future__ import annotations

import json
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any

from lathlight.catalog import drop, extended, nearest_row, rows_of
from lathlight.errors import InputError
from lathlight.project.defaults import defaults_of
from lathlight.project.findings import Finding, step_into
from lathlight.project.leaning import flat_findings, lean_findings
from lathlight.project.stacked import stacked_findings
from lathlight.units import format_length, snap

if TYPE_CHECKING:
    from collections.abc import Iterator

    from lathlight.catalog import Catalog, Lumber
    from lathlight.project.draft import Draft
    from lathlight.project.lines import KeyPath
    from lathlight.project.model import MouldingFrames, Trim, Wall

WITH_FLAT_BACK = {"casing": "a casing", "moulding_frames": "moulding frames"}
GLUE_USES = {"glue": ("sheet to timber", "moulding"), "moulding_glue": ("sheet to timber", "moulding", "joint")}
PAINT_USES = {"paint": ("wall",), "primer": ("primer", "sealer")}  # which uses of a row a key takes


def lookup_findings(draft: Draft, catalog: Catalog) -> tuple[Catalog, list[Finding]]:
    """Return the catalogue with the project's own rows, and what is wrong with names that the file calls.

    Parameters
    ----------
    draft
        As far as the file could be read.
    catalog
        The catalogue that comes with the program.
    """
    full, findings = _with_own_rows(draft, catalog)
    is_whole = draft.catalog is not None and not findings
    lookup = _Lookup(draft=draft, catalog=full, own=frozenset() if is_whole else _own_names(draft))
    findings += lookup.unknown_names()
    findings += lookup.wrong_paints()
    findings += lookup.short_walls()
    findings += lookup.wrong_glues()
    findings += lookup.trim()
    findings += stacked_findings(draft, full.profiles)
    findings += lookup.tiers()
    findings += lookup.flat_backs()
    return full, findings


def _with_own_rows(draft: Draft, catalog: Catalog) -> tuple[Catalog, list[Finding]]:
    if draft.catalog is None:
        return catalog, []
    rows = {table: getattr(draft.catalog, table) for table in type(draft.catalog).model_fields}
    try:
        return extended(catalog, rows, style=draft.style, place=lambda path: json.dumps(path)), []
    except InputError as error:
        return catalog, [
            Finding(path=tuple(json.loads(each.place)), found=each.found, expected=each.expected, remedy=each.remedy)
            for each in error.problems
        ]


def _own_names(draft: Draft) -> frozenset[str]:
    """Return the names of the project's own rows, for where they could not be read: that has been found."""
    tables = step_into(draft.raw, "catalog")
    keys: list[str] = list(tables) if isinstance(tables, dict) else []  # pyright: ignore[reportUnknownArgumentType]
    return frozenset(name for table in keys for name in draft.names("catalog", table))


@dataclass(frozen=True, slots=True, kw_only=True)
class _Lookup:
    """What a file calls by name, and the catalogue to find it in."""

    draft: Draft
    catalog: Catalog
    own: frozenset[str] = field(repr=False)

    # --- names -----------------------------------------------------------------------------------------------------

    def unknown_names(self) -> Iterator[Finding]:
        """Yield names that no row has."""
        for path, table, what in _calls(self.draft.raw):
            name = _value(self.draft.raw, path)
            if isinstance(name, str) and name not in rows_of(self.catalog, table) and name not in self.own:
                yield self._unknown(name, path, table, what)

    def _unknown(self, name: str, path: KeyPath, table: str, what: str) -> Finding:
        near = nearest_row(rows_of(self.catalog, table), name)
        return Finding(
            path=path,
            found=f'unknown {what} "{name}"',
            expected=f"a name of the catalogue's table {table}",
            remedy=f'Did you mean "{near.name}"?' if near else f"Look it up: lathlight catalog {what}.",
        )

    def wrong_paints(self) -> Iterator[Finding]:
        """Yield primers that stand for paint, and the other way round."""
        for key, uses in PAINT_USES.items():
            name = _value(self.draft.raw, ("finish", key))
            paint = self.catalog.paints.get(name) if isinstance(name, str) else None
            if paint is not None and paint.use not in uses:
                usual = getattr(defaults_of(self.draft.style), key)
                yield Finding(
                    path=("finish", key),
                    found=f'"{name}", whose use is "{paint.use}"',
                    expected=f"a row of the catalogue's table paints whose use is {' or '.join(uses)}",
                    remedy=f'Name one such as "{usual}" (lathlight catalog paint lists the others).',
                )

    def wrong_glues(self) -> Iterator[Finding]:
        """Yield fillers and the like that stand for the glue of sheets or mouldings."""
        for key, uses in GLUE_USES.items():
            name = _value(self.draft.raw, ("fixing", key))
            glue = self.catalog.adhesives.get(name) if isinstance(name, str) else None
            if glue is not None and glue.use not in uses:
                yield Finding(
                    path=("fixing", key),
                    found=f'"{name}", whose use is "{glue.use}"',
                    expected=f"a row of the catalogue's table adhesives whose use is {' or '.join(uses)}",
                    remedy="Name one of those (lathlight catalog glue lists them), or take the line out.",
                )

    # --- walls -----------------------------------------------------------------------------------------------------

    def short_walls(self) -> Iterator[Finding]:
        """Yield walls with no room for their own end studs or plates."""
        for number, wall in enumerate(self.draft.walls):
            framing = None if wall is None else self._framing(wall)
            if wall is not None and framing is not None:
                yield from self._short(wall, number, framing)

    def _framing(self, wall: Wall) -> Lumber | None:
        shared = self.draft.set.framing if self.draft.set is not None else None
        return self.catalog.lumber.get(wall.framing or shared or defaults_of(self.draft.style).framing)

    def _short(self, wall: Wall, number: int, framing: Lumber) -> Iterator[Finding]:
        least, height = 2 * framing.width, self.draft.wall_height(wall)
        sizes = (("length", wall.length, "two end studs"), ("height", height, "two plates"))
        for key, size, what in sizes:
            if size is not None and size <= least:
                yield Finding(
                    path=("walls", number, key),
                    found=self._length(size),
                    expected=f"more than {self._length(least)} ({what} of {framing.name})",
                    remedy=f"Give a {key} such as {self._length(1200.0)}, or take the wall out.",
                )

    # --- trim ------------------------------------------------------------------------------------------------------

    def trim(self) -> Iterator[Finding]:
        """Yield cornices without a spring angle, others with one, and lines lower than their own moulding."""
        for number, trim in enumerate(self.draft.trim):
            if trim is not None:
                yield from self._trim(trim, number)

    def _trim(self, trim: Trim, number: int) -> Iterator[Finding]:
        profile = self.catalog.profiles.get(trim.profile)
        if profile is None:
            return
        yield from lean_findings(trim, profile, path=("trim", number))
        covers = drop(profile)
        for top in self._tops(trim):
            if top - covers < -1e-6:
                yield Finding(
                    path=("trim", number, "height"),
                    found=self._length(top),
                    expected=f"at least {self._length(covers)}, the height of {trim.profile} itself",
                    remedy="The height is that of the top edge above the finished floor: give a greater one.",
                )
                return
        if trim.kind == "base":
            yield from self._before_a_sill(trim, number, top=covers if trim.height is None else trim.height)

    def _before_a_sill(self, trim: Trim, number: int, *, top: float) -> Iterator[Finding]:
        """Yield a base that would run across an opening: both heights are above the finished floor."""
        for wall in self.draft.walls:
            runs_here = wall is not None and (wall.trim is None or trim.name in wall.trim)
            for opening in wall.openings if wall is not None and runs_here else ():
                if 0 < opening.sill < top - 1e-6:
                    yield Finding(
                        path=("trim", number, "profile" if trim.height is None else "height"),
                        found=f"a base up to {self._length(top)}",
                        expected=f'at most the sill of opening "{opening.name}", {self._length(opening.sill)}',
                        remedy="Choose a lower base, raise the sill, or leave the base out on that wall.",
                    )
                    return

    def _tops(self, trim: Trim) -> Iterator[float]:
        """Yield the heights of a line's top edge: as stated, or a cornice's on every wall [mm]."""
        if trim.height is not None:
            yield snap(trim.height, self.draft.style)
        elif trim.kind == "cornice":
            for wall in self.draft.walls:
                height = None if wall is None else self.draft.wall_height(wall)
                if wall is not None and height is not None and (wall.trim is None or trim.name in wall.trim):
                    yield snap(height, self.draft.style)

    # --- moulding frames -------------------------------------------------------------------------------------------

    def tiers(self) -> Iterator[Finding]:
        """Yield moulding frames with no room for their own moulding, or for one frame on any of their walls."""
        for number, tier in enumerate(self.draft.moulding_frames):
            profile = None if tier is None else self.catalog.profiles.get(tier.profile)
            if tier is not None and profile is not None:
                yield from self._tier(tier, ("moulding_frames", number), least=2 * drop(profile))

    def _tier(self, tier: MouldingFrames, path: KeyPath, *, least: float) -> Iterator[Finding]:
        sizes = (("top", tier.top - tier.bottom, "high"), ("bought_width", tier.bought_width, "wide"))
        for key, size, how in sizes:
            if size is not None and 0 < size <= least:
                yield Finding(
                    path=(*path, key),
                    found=f"a moulding frame {self._length(size)} {how}",
                    expected=f"more than {self._length(least)}, twice the height of {tier.profile}",
                    remedy="Make the frame larger, or choose a narrower moulding.",
                )
        yield from self._too_wide(tier, path, least=max(least, tier.bought_width or 0.0))

    def _too_wide(self, tier: MouldingFrames, path: KeyPath, *, least: float) -> Iterator[Finding]:
        """Yield a tier none of whose walls has room for a single frame, however small the gaps."""
        walls = [wall for wall in self.draft.walls if wall and (tier.walls is None or wall.name in tier.walls)]
        longest = max(walls, key=lambda wall: wall.length, default=None)
        if longest is not None and longest.length <= least:
            yield Finding(
                path=(*path, "walls" if tier.bought_width is None else "bought_width"),
                found=f"a moulding frame at least {self._length(least)} wide",
                expected=f'less than wall "{longest.name}", the longest it is on, {self._length(longest.length)}',
                remedy="Take narrower frames, or leave them out on these walls.",
            )

    def flat_backs(self) -> Iterator[Finding]:
        """Yield casings and moulding frames of a moulding that leans on its back."""
        for path, table, _ in _calls(self.draft.raw):
            what = WITH_FLAT_BACK.get(str(path[-1] if path[-1] == "casing" else path[0]))
            name = _value(self.draft.raw, path)
            profile = self.catalog.profiles.get(name) if table == "profiles" and isinstance(name, str) else None
            if profile is not None and what is not None:
                yield from flat_findings(profile, path=path, what=what)

    def _length(self, mm: float) -> str:
        return format_length(round(mm, 6), style=self.draft.style)


def _calls(raw: Any) -> Iterator[tuple[KeyPath, str, str]]:
    """Yield every key that holds a name of the catalogue, with the table it is in and what a row of it is called."""
    owners: list[KeyPath] = [("set",), *(("walls", number) for number in range(_count(raw, ("walls",))))]
    for owner in owners:
        yield (*owner, "sheet"), "sheets", "sheet"
        yield (*owner, "framing"), "lumber", "timber"
        for place in range(_count(raw, (*owner, "openings"))):
            yield (*owner, "openings", place, "casing"), "profiles", "moulding"
    for table in ("trim", "moulding_frames"):
        for number in range(_count(raw, (table,))):
            yield (table, number, "profile"), "profiles", "moulding"
    for key in PAINT_USES:
        yield ("finish", key), "paints", "paint"
    yield ("fixing", "weight"), "weights", "weight"
    for key in ("glue", "moulding_glue"):
        yield ("fixing", key), "adhesives", "glue"


def _value(raw: Any, path: KeyPath) -> Any:
    here = raw
    for step in path:
        here = step_into(here, step)
    return here


def _count(raw: Any, path: KeyPath) -> int:
    entries = _value(raw, path)
    return len(entries) if isinstance(entries, list) else 0  # pyright: ignore[reportUnknownArgumentType]
