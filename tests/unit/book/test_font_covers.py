"""The bundled fonts have every character that the demo sets' drawings and books use. Second opinion: fontTools."""

from __future__ import annotations

import json
from collections.abc import Iterator

import pytest
from fontTools.ttLib import TTFont

from lathlight.book import pages as book_pages
from lathlight.book import words
from lathlight.book.pages import MANUSCRIPT, ZERO_WIDTH_SPACE
from lathlight.drawings import STANDING, STANDING_CAUTION, drawing_pages
from lathlight.drawings.labels import texts_of
from lathlight.fonts import SIZES, font_folder
from lathlight.snags import find_snags

NEVER_DRAWN = {ZERO_WIDTH_SPACE, "\n"}  # a place to break, and the end of a line


def covered() -> set[str]:
    """Return the characters that every bundled font has."""
    files = sorted(font_folder().glob("*.ttf"))
    assert len(files) == 3
    return set.intersection(*({chr(code) for code in TTFont(file).getBestCmap()} for file in files))


def strings(value: object) -> Iterator[str]:
    if isinstance(value, str):
        yield value
    elif isinstance(value, dict | list):
        for each in value.values() if isinstance(value, dict) else value:
            yield from strings(each)


def test_every_character_of_a_demo_drawing_is_in_the_fonts(demo_plan) -> None:
    drawn = drawing_pages(demo_plan, find_snags(demo_plan))
    said = [text.words for page in drawn for text in page.texts]
    said += [text.words for page in drawn for placed in page.views for text in texts_of(placed.view.items)]
    used = set("".join(said))
    assert {"×", "°"} & used  # it looks at more than plain letters
    assert used <= covered()
    assert used <= SIZES.keys()  # so that their boxes are their own


def test_every_character_of_a_demo_book_is_in_the_fonts(demo_plan) -> None:
    manuscript = book_pages._files(demo_plan, find_snags(demo_plan), ())[MANUSCRIPT]
    used = set("".join(strings(json.loads(manuscript)))) - NEVER_DRAWN
    assert "·" in used or "×" in used
    assert used <= covered()


@pytest.mark.parametrize("name", [name for name in vars(words) if name.isupper()])
def test_every_standing_word_is_in_the_fonts(name: str) -> None:
    assert set(repr(getattr(words, name))) <= covered()


def test_the_caution_about_standing_is_in_the_fonts() -> None:
    assert set(STANDING + STANDING_CAUTION) <= covered()
