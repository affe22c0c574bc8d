"""Writes ``src/lathlight/fonts/widths.py`` from the bundled fonts, so that no font is parsed at run time.

Run after a font file was exchanged: ``python tools/make_font_widths.py``. Needs fonttools (dependency group dev).
"""

from __future__ import annotations

from pathlib import Path

from fontTools.ttLib import TTFont

FONTS = Path(__file__).parents[1] / "src" / "lathlight" / "fonts"
FACES = ("IBMPlexSans_400Regular.ttf", "IBMPlexSans_600SemiBold.ttf", "IBMPlexSans_400Regular_Italic.ttf")
HEAD = '''"""Sizes of the bundled characters [1/1000 em]; written by ``tools/make_font_widths.py``, never by hand."""

from __future__ import annotations

CAP_HEIGHT = {cap}
DESCENDER = {descender}  # depth of g, p, q, y below the baseline
WIDEST = ({widest})  # regular, semibold, italic

# character: advance in regular, semibold, italic; lowest and highest edge in any of the three
# fmt: off
SIZES: dict[str, tuple[int, int, int, int, int]] = {{
'''


def main() -> None:
    """Write the table."""
    fonts = [TTFont(FONTS / face) for face in FACES]
    maps = [font.getBestCmap() for font in fonts]
    rows = {code: _row(code, fonts, maps) for code in sorted(set.intersection(*(set(each) for each in maps)))}
    widest = ", ".join(str(max(row[face] for row in rows.values())) for face in range(3))
    low = -min(rows[ord(letter)][3] for letter in "gpqy")
    head = HEAD.format(cap=fonts[0]["OS/2"].sCapHeight, descender=low, widest=widest)
    cells = [f"{_quoted(code)}: {row}," for code, row in rows.items()]
    words = head + "\n".join(_lines(cells)) + "\n}\n# fmt: on\n"
    (FONTS / "widths.py").write_text(words, encoding="utf-8", newline="\n")


def _row(code: int, fonts: list[TTFont], maps: list[dict[int, str]]) -> tuple[int, int, int, int, int]:
    glyphs = [font["glyf"][names[code]] for font, names in zip(fonts, maps, strict=True)]
    advances = [font["hmtx"][names[code]][0] for font, names in zip(fonts, maps, strict=True)]
    drawn = [glyph for glyph in glyphs if glyph.numberOfContours]
    low = min((glyph.yMin for glyph in drawn), default=0)
    high = max((glyph.yMax for glyph in drawn), default=0)
    return advances[0], advances[1], advances[2], low, high


def _quoted(code: int) -> str:
    """Return a string literal of printable ASCII as it is, of anything else by its number."""
    letter = chr(code)
    if 32 <= code < 127:
        return "'\"'" if letter == '"' else '"\\\\"' if letter == "\\" else f'"{letter}"'
    return f'"\\u{code:04x}"' if code < 0x10000 else f'"\\U{code:08x}"'


def _lines(cells: list[str]) -> list[str]:
    lines, line = [], "   "
    for cell in cells:
        if len(line) + 1 + len(cell) > 120:
            lines.append(line)
            line = "   "
        line += f" {cell}"
    return [*lines, line]


if __name__ == "__main__":
    main()
