"""A table to be: its title, columns and rows, before it has a place on a page."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from lathlight.drawings.tables import Column


@dataclass(frozen=True, slots=True, kw_only=True)
class Listing:
    """Rows under a title; a page sets it with ``lathlight.drawings.tables``."""

    title: str
    columns: tuple[Column, ...]
    rows: tuple[tuple[str, ...], ...]
    narrow: Listing | None = None  # the same, narrow and tall, to stand beside a drawing

    @property
    def width(self) -> float:
        """Width on paper [mm]."""
        return sum(column.width for column in self.columns)
