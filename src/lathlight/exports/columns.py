"""Columns and cells that the lists share: lengths, weights and amounts for people and for machines.

Lengths stand as the project writes them and as plain numbers in millimetres, and inches in an imperial project.
Litres, runs and areas stand in words and as numbers of the project's own unit.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from lathlight.exports.amounts import amount_words, own_amount
from lathlight.exports.tables import Cell, Column, Table
from lathlight.units import drawing_length

if TYPE_CHECKING:
    from collections.abc import Iterable

    from lathlight.units import LengthStyle

INCH = 25.4  # [mm]
POUND = 0.45359237  # [kg]


def length_columns(title: str, style: LengthStyle) -> list[Column]:
    """Return the columns of one length: in words, in mm, and in inches where the project is imperial."""
    columns = [Column(title=title), Column(title=f"{title} [mm]", kind="mm")]
    return columns if style.system == "metric" else [*columns, Column(title=f"{title} [in]", kind="in")]


def length_cells(mm: float | None, style: LengthStyle) -> list[Cell]:
    """Return the cells of one length [mm]; empty ones where there is none."""
    if mm is None:
        return ["", None] if style.system == "metric" else ["", None, None]
    cells: list[Cell] = [drawing_length(mm, style=style), float(mm)]
    return cells if style.system == "metric" else [*cells, mm / INCH]


def mass_columns(title: str, style: LengthStyle) -> list[Column]:
    """Return the columns of one mass: in kg, and in pounds where the project is imperial."""
    columns = [Column(title=f"{title} [kg]", kind="kg")]
    return columns if style.system == "metric" else [*columns, Column(title=f"{title} [lb]", kind="lb")]


def mass_cells(kg: float, style: LengthStyle) -> list[Cell]:
    """Return the cells of one mass [kg]."""
    return [float(kg)] if style.system == "metric" else [float(kg), kg / POUND]


def make_table(name: str, title: str, columns: Iterable[Column], rows: Iterable[Iterable[Cell]]) -> Table:
    """Return a table of any iterables."""
    return Table(name=name, title=title, columns=tuple(columns), rows=tuple(tuple(row) for row in rows))


def texts(*titles: str) -> list[Column]:
    """Return columns of words."""
    return [Column(title=title) for title in titles]


def yes(truth: bool) -> str:
    """Return "yes", or nothing."""
    return "yes" if truth else ""


# --- amounts -------------------------------------------------------------------------------------------------------


def amount_columns(title: str, unit: str, style: LengthStyle) -> list[Column]:
    """Return the columns of an amount in "l", "m" or "m2": in words, and as a number in the project's own unit."""
    return [Column(title=title), Column(title=f"{title} [{own_amount(0.0, unit, style)[1]}]", kind="amount")]


def amount_cells(value: float, unit: str, style: LengthStyle) -> list[Cell]:
    """Return the cells of an amount [l], [m] or [m2]; empty ones where it is 0."""
    return [amount_words(value, unit, style), own_amount(value, unit, style)[0]] if value else ["", None]
