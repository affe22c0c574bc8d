"""The bundled fonts: where the files lie, and how large their characters are without opening them."""

from lathlight.fonts.files import FAMILY, font_folder
from lathlight.fonts.widths import CAP_HEIGHT, DESCENDER, SIZES, WIDEST

__all__ = ["CAP_HEIGHT", "DESCENDER", "FAMILY", "SIZES", "WIDEST", "font_folder"]
