"""Timber, sheets, mouldings, paints, glues, fixings, fittings and weights, each row with its source."""

from lathlight.catalog.columns import SAME_LEAN, TABLES, Column, Row, TableOf, rows_of
from lathlight.catalog.density import wood_density
from lathlight.catalog.extend import extended
from lathlight.catalog.load import load_catalog
from lathlight.catalog.measures import US_GALLON, parse_measure
from lathlight.catalog.nominal import looks_nominal, nearest_row, nominal_actual, nominal_thickness
from lathlight.catalog.profiles import drop, face, girth, lean, projection, width
from lathlight.catalog.rows import Adhesive, Bracket, Catalog, Fastener, Lumber, Paint, Profile, Sheet, Weight
from lathlight.catalog.search import Found, nearest_words, rows_as_table, search_catalog

__all__ = [
    "SAME_LEAN",
    "TABLES",
    "US_GALLON",
    "Adhesive",
    "Bracket",
    "Catalog",
    "Column",
    "Fastener",
    "Found",
    "Lumber",
    "Paint",
    "Profile",
    "Row",
    "Sheet",
    "TableOf",
    "Weight",
    "drop",
    "extended",
    "face",
    "girth",
    "lean",
    "load_catalog",
    "looks_nominal",
    "nearest_row",
    "nearest_words",
    "nominal_actual",
    "nominal_thickness",
    "parse_measure",
    "projection",
    "rows_as_table",
    "rows_of",
    "search_catalog",
    "width",
    "wood_density",
]
