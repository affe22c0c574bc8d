"""What a shop keeps besides the walls' own timber and sheet.

Parts that the project names no stock for (linings, wedges wider than the framing) are cut from it; which row each of
them takes is decided where the part is.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from lathlight.catalog import Lumber, Sheet
    from lathlight.units import LengthStyle


@dataclass(frozen=True, slots=True, kw_only=True)
class OnSale:
    """Rows of the catalogue, the project's own among them, and how lengths are written in a stock's name."""

    lumber: tuple[Lumber, ...]
    sheets: tuple[Sheet, ...]
    style: LengthStyle
