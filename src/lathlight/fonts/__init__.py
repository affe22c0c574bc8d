"""The bundled fonts: where the files lie, and how large their characters are without opening them."""

from __future__ import annotations

from pathlib import Path

from lathlight.fonts.widths import CAP_HEIGHT, DESCENDER, SIZES, WIDEST

__all__ = ["CAP_HEIGHT", "DESCENDER", "FAMILY", "SIZES", "WIDEST", "font_folder"]

FAMILY = "IBM Plex Sans"


def font_folder() -> Path:
    """Return the folder that holds the font files, regular, semibold and italic, and their licence."""
    return Path(__file__).parent
