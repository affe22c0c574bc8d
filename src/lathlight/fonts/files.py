"""Where the font files lie and what their family is called."""

from __future__ import annotations

from pathlib import Path

FAMILY = "IBM Plex Sans"


def font_folder() -> Path:
    """Return the folder that holds the font files, regular, semibold and italic, and their licence."""
    return Path(__file__).parent
