"""The table of character sizes equals the font files it was made from."""

from __future__ import annotations

import pytest
from fontTools.ttLib import TTFont

from lathlight.fonts import CAP_HEIGHT, DESCENDER, FAMILY, SIZES, WIDEST, font_folder

FACES = ["IBMPlexSans_400Regular.ttf", "IBMPlexSans_600SemiBold.ttf", "IBMPlexSans_400Regular_Italic.ttf"]


@pytest.mark.parametrize(("face", "file"), list(enumerate(FACES)))
def test_every_width_is_the_fonts_own(face: int, file: str) -> None:
    font = TTFont(font_folder() / file)
    names = font.getBestCmap()
    got = {letter: row[face] for letter, row in SIZES.items()}
    assert got == {letter: font["hmtx"][names[ord(letter)]][0] for letter in SIZES}
    assert WIDEST[face] == max(got.values())


@pytest.mark.parametrize("file", FACES)
def test_no_character_reaches_past_its_lowest_and_highest_edge(file: str) -> None:
    font = TTFont(font_folder() / file)
    names, glyphs = font.getBestCmap(), font["glyf"]
    for letter, (*_, low, high) in SIZES.items():
        glyph = glyphs[names[ord(letter)]]
        if glyph.numberOfContours:
            assert low <= glyph.yMin, letter
            assert glyph.yMax <= high, letter


def test_capitals_and_descenders_are_as_high_as_stated() -> None:
    assert SIZES["H"][4] == CAP_HEIGHT
    assert min(SIZES[letter][3] for letter in "gpqy") == -DESCENDER


def test_every_character_that_drawings_need_is_there() -> None:
    latin = {chr(code) for code in (*range(0x20, 0x7F), *range(0xA0, 0x100))}
    assert latin | set("×°–—²³ø½¼¾⅛⅜⅝⅞′″←↑→↓↔↕±≤≥…“”‘’•€") <= set(SIZES)


def test_digits_are_equally_wide() -> None:
    assert len({SIZES[digit][:3] for digit in "0123456789"}) == 1


@pytest.mark.parametrize("file", FACES)
def test_every_font_file_belongs_to_the_family(file: str) -> None:
    names = TTFont(font_folder() / file)["name"]
    assert (names.getDebugName(16) or names.getDebugName(1)) == FAMILY


def test_the_licence_lies_beside_the_fonts() -> None:
    assert "SIL OPEN FONT LICENSE" in (font_folder() / "OFL.txt").read_text(encoding="utf-8").upper()
