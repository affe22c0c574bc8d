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
from lathlight.units import format_length, snap

if TYPE_CHECKING:
    from collections.abc import Iterator

    from lathlight.catalog import Catalog, Lumber
    from lathlight.project.draft import Draft
    from lathlight.project.lines import KeyPath
    from lathlight.project.model import Trim, Wall


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
    findings += lookup.short_walls()
    findings += lookup.trim()
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
        """Yield cornices without a spring angle, and lines lower than their own moulding."""
        for number, trim in enumerate(self.draft.trim):
            if trim is not None:
                yield from self._trim(trim, number)

    def _trim(self, trim: Trim, number: int) -> Iterator[Finding]:
        profile = self.catalog.profiles.get(trim.profile)
        if profile is None:
            return
        if trim.kind == "cornice" and profile.spring is None and trim.spring is None:
            yield Finding(
                path=("trim", number, "profile"),
                found=f'"{trim.profile}", which has no spring angle',
                expected="a cornice's profile, or the spring angle",
                remedy="Choose a cornice (lathlight catalog cornice), or add a line such as spring = 38.",
            )
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

    def _tops(self, trim: Trim) -> Iterator[float]:
        """Yield the heights of a line's top edge: as stated, or a cornice's on every wall [mm]."""
        if trim.height is not None:
            yield snap(trim.height, self.draft.style)
        elif trim.kind == "cornice":
            for wall in self.draft.walls:
                height = None if wall is None else self.draft.wall_height(wall)
                if wall is not None and height is not None and (wall.trim is None or trim.name in wall.trim):
                    yield snap(height, self.draft.style)

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
    for key in ("paint", "primer"):
        yield ("finish", key), "paints", "paint"


def _value(raw: Any, path: KeyPath) -> Any:
    here = raw
    for step in path:
        here = step_into(here, step)
    return here


def _count(raw: Any, path: KeyPath) -> int:
    entries = _value(raw, path)
    return len(entries) if isinstance(entries, list) else 0  # pyright: ignore[reportUnknownArgumentType]
