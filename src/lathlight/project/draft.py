"""A project file that may still be wrong in places: every table that could be read, the others left out.

Rules that look at several keys at once run on the draft, so that a slip in one table does not hide what is wrong in
another. Nothing else ever sees a draft.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, TypeVar, cast

from pydantic import ValidationError

from lathlight.project.fields import annotations_of, is_list, table_in
from lathlight.project.findings import step_into
from lathlight.project.known import rise_of_floor
from lathlight.project.model import (
    CatalogRows,
    Finish,
    Fixing,
    Floor,
    Light,
    MouldingFrames,
    Picture,
    Price,
    Project,
    ProjectTable,
    Prop,
    Room,
    SetTable,
    Sitter,
    Table,
    Target,
    Trim,
    Wall,
    Workshop,
)

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from lathlight.project.lines import KeyPath
    from lathlight.units import LengthStyle

T = TypeVar("T", bound=Table)


@dataclass(frozen=True, slots=True, kw_only=True)
class Draft:
    """What could be read of a project; an entry or table that has a fault of its own is None."""

    raw: Mapping[str, Any]
    style: LengthStyle
    project: ProjectTable | None
    room: Room | None
    set: SetTable | None
    walls: tuple[Wall | None, ...]
    trim: tuple[Trim | None, ...]
    moulding_frames: tuple[MouldingFrames | None, ...]
    floor: Floor | None
    fixing: Fixing | None
    finish: Finish | None
    props: tuple[Prop | None, ...]
    sitters: tuple[Sitter | None, ...]
    pictures: tuple[Picture | None, ...]
    lights: tuple[Light | None, ...]
    targets: tuple[Target | None, ...]
    prices: tuple[Price | None, ...]
    workshop: Workshop | None
    catalog: CatalogRows | None

    def names(self, *path: str | int) -> tuple[str, ...]:
        """Return the names of a list's entries as they stand in the file, also of entries with faults."""
        return tuple(name for _, name in self.named(*path))

    def named(self, *path: str | int) -> Iterator[tuple[KeyPath, str]]:
        """Return the path and the name of every entry of a list that has a name."""
        here: Any = self.raw
        for step in path:
            here = step_into(here, step)
        for number in range(len(here) if isinstance(here, list) else 0):  # pyright: ignore[reportUnknownArgumentType]
            name = step_into(step_into(here, number), "name")
            if isinstance(name, str):
                yield (*path, number, "name"), name

    def wall_height(self, wall: Wall) -> float | None:
        """Return a wall's height [mm], None where neither it nor the set states one."""
        return wall.height or (self.set.height if self.set else None)

    @property
    def rise(self) -> float:
        """How high the finished floor lies above the foot of the flats [mm]; 0 where that could not be read."""
        if self.floor is None or self.set is None:
            return 0.0
        return rise_of_floor(self.floor, self.set, self.style)


_DRAFTED = tuple(key for key in Draft.__dataclass_fields__ if key not in ("raw", "style"))


def draft_of(project: Project, *, raw: Mapping[str, Any], style: LengthStyle) -> Draft:
    """Return a project that could be read whole."""
    return Draft(raw=raw, style=style, **{key: getattr(project, key) for key in _DRAFTED})


def partial_draft(raw: Mapping[str, Any], *, style: LengthStyle) -> Draft:
    """Return what can be read of a file, table by table and entry by entry."""
    return Draft(raw=raw, style=style, **{key: _read(key, raw, style) for key in _DRAFTED})


def _read(key: str, raw: Mapping[str, Any], style: LengthStyle) -> Any:
    annotation = annotations_of(Project)[key]
    table = table_in(annotation)
    assert table is not None, key
    value: Any = raw.get(key)
    if is_list(annotation):
        entries = cast("list[object]", value) if isinstance(value, list) else []
        return tuple(_table(table, entry, style) for entry in entries)
    if value is None:
        return None if Project.model_fields[key].is_required() else table()
    return _table(table, value, style)


def _table(table: type[T], value: object, style: LengthStyle) -> T | None:
    try:
        return table.model_validate(value, context={"style": style})
    except ValidationError:
        return None
