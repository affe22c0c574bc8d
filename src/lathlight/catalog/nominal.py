"""What the shop calls a size against what it measures: nominal names are looked up here, never computed with."""

from __future__ import annotations

import functools
import re
from typing import TYPE_CHECKING, TypeVar

from lathlight.errors import nearest
from lathlight.units import INCH

if TYPE_CHECKING:
    from collections.abc import Mapping

    from lathlight.catalog.columns import Row
    from lathlight.catalog.rows import Catalog, Lumber, Sheet

SAME = 0.3  # sizes this near are the same figure typed in another unit or rounded to a tenth of an inch or a mm [mm]
LARGEST_INCHES = 13.0  # a trade name's figures up to this are inches, above it millimetres
_PAIR = re.compile(r"(\d+(?:\.\d+)?)x(\d+(?:\.\d+)?)")

R = TypeVar("R", bound="Row")


def plain(text: str) -> str:
    """Return a name as it is compared: small letters, `x` between figures, a fraction's stroke as a dash.

    Examples
    --------
    >>> plain("2 × 4"), plain('2" x 2"'), plain("Ply 1/4 in")
    ('2x4', '2x2', 'ply 1-4 in')
    """
    low = text.lower().replace("×", "x").replace("/", "-").replace('"', "").replace("″", "")
    return re.sub(r"(?<=\d)\s*(?:x|by)\s*(?=\d)", "x", " ".join(low.split()))


def nearest_row(rows: Mapping[str, R], typed: str) -> R | None:
    """Return the row that a mistyped name most likely means, or None where nothing is near.

    First one whose name or nominal size it is in other letters, then the one with the nearest name.
    """
    wanted = plain(typed)
    if (called := _called(rows, wanted)) is not None:
        return called
    named = {plain(row.name): row for row in rows.values()}
    near = nearest(wanted, named)
    return None if near is None else named[near]


def nominal_actual(catalog: Catalog, text: str) -> Lumber | None:
    """Return the timber that goes by a name such as ``2x2``, ``2 by 4`` or ``CLS 3x2``; None where none does."""
    return _called(catalog.lumber, plain(text))


def _called(rows: Mapping[str, R], wanted: str) -> R | None:
    """Return the row whose name or nominal size this is, compared plainly."""
    for row in rows.values():
        nominal: str = getattr(row, "nominal", "")
        if wanted == plain(row.name) or (nominal and wanted == plain(nominal)):
            return row
    return None


def looks_nominal(catalog: Catalog, *, width: float, depth: float) -> Lumber | None:
    """Return the timber whose nominal size these figures are [mm], where its size in the hand is another.

    50.8 x 50.8 mm is what a 2x2 is called, not what it measures. Either way round counts. None where the figures
    are the true size of some row, or nobody's nominal size.
    """
    sizes = (width, depth)
    if any(_same(sizes, (row.width, row.depth)) for row in catalog.lumber.values()):
        return None
    for row in catalog.lumber.values():
        called = nominal_size(row.nominal)
        if called is not None and _same(sizes, called):
            return row
    return None


def nominal_thickness(catalog: Catalog, *, material: str, thickness: float) -> Sheet | None:
    """Return the sheet of a material that is called by this thickness [mm] but is thinner or thicker; or None."""
    alike = [row for row in catalog.sheets.values() if row.material == material]
    if any(abs(row.thickness - thickness) <= SAME for row in alike):
        return None
    return next((row for row in alike if abs((_inches(row.nominal) or 0.0) - thickness) <= SAME), None)


@functools.lru_cache(maxsize=256)
def nominal_size(nominal: str) -> tuple[float, float] | None:
    """Return the two figures in a trade name [mm]; None where it has none.

    Examples
    --------
    >>> nominal_size("2x4"), nominal_size("CLS 3x2"), nominal_size("25x50"), nominal_size("")
    ((50.8, 101.6), (76.2, 50.8), (25.0, 50.0), None)
    """
    match = _PAIR.search(plain(nominal))
    if match is None:
        return None
    one, other = float(match[1]), float(match[2])
    unit = float(INCH) if max(one, other) <= LARGEST_INCHES else 1.0
    return round(one * unit, 6), round(other * unit, 6)


def _inches(nominal: str) -> float | None:
    match = re.fullmatch(r"(\d+)/(\d+) in", nominal)
    return None if match is None else float(INCH * int(match[1]) / int(match[2]))


def _same(sizes: tuple[float, float], others: tuple[float, float]) -> bool:
    return all(abs(a - b) <= SAME for a, b in zip(sorted(sizes), sorted(others), strict=True))
