"""Drawings as plain data, the pages they stand on, and the two writers that put them on paper."""

from lathlight.drawings.arranging import arrange
from lathlight.drawings.cautions import PLANNING_AID, STANDING, STANDING_CAUTION
from lathlight.drawings.collect import SET_PAGE, drawing_pages
from lathlight.drawings.corner_cuts import bevel_lines, wedge_lines
from lathlight.drawings.corner_hold import CornerHold, corner_hold
from lathlight.drawings.dxf import view_dxf
from lathlight.drawings.iso import set_view, set_views
from lathlight.drawings.outlines import clear_size
from lathlight.drawings.page import PAPERS, Area, make_page, number_page, view_area
from lathlight.drawings.scales import choose_scale, scale_words
from lathlight.drawings.sheets import Page, PageLine, PageText, Placed, View
from lathlight.drawings.svg import page_svg, view_svg
from lathlight.drawings.tables import Column, PageTable, make_table, table_height
from lathlight.drawings.text import text_width, wrap
from lathlight.drawings.views import make_view

__all__ = [
    "PAPERS",
    "PLANNING_AID",
    "SET_PAGE",
    "STANDING",
    "STANDING_CAUTION",
    "Area",
    "Column",
    "CornerHold",
    "Page",
    "PageLine",
    "PageTable",
    "PageText",
    "Placed",
    "View",
    "arrange",
    "bevel_lines",
    "choose_scale",
    "clear_size",
    "corner_hold",
    "drawing_pages",
    "make_page",
    "make_table",
    "make_view",
    "number_page",
    "page_svg",
    "scale_words",
    "set_view",
    "set_views",
    "table_height",
    "text_width",
    "view_area",
    "view_dxf",
    "view_svg",
    "wedge_lines",
    "wrap",
]
