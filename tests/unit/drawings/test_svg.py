"""SVG: well formed, at the size of the paper, with real words in our own font, and covered in the stated order."""

from __future__ import annotations

import importlib
import io
import math
import re
import xml.etree.ElementTree as ET

import pytest
from pypdf import PdfReader

from lathlight.drawings.dims import level_chains
from lathlight.drawings.hatch import hatch
from lathlight.drawings.sheets import Item, Line, Page, PageLine, Path, Pen, Placed, Tone, View
from lathlight.drawings.svg import ACCENT, PAPER, page_svg, view_svg
from lathlight.drawings.text import make_text, page_text
from lathlight.drawings.views import make_view
from lathlight.fonts import font_folder
from lathlight.units import LengthStyle

SVG = "{http://www.w3.org/2000/svg}"
RING = ((0.0, 0.0), (600.0, 0.0), (600.0, 900.0), (0.0, 900.0))
HOLE = ((100.0, 100.0), (100.0, 200.0), (200.0, 200.0))


def view(*items: Item, scale: float = 20.0) -> View:
    return make_view(name="v", title="Shelf & <wall>", scale=scale, items=items)


def full_view() -> View:
    return view(
        Path(points=RING, closed=True, pen=Pen.CUT, fill=Tone.PALE, holes=(HOLE,)),
        hatch(RING, scale=20.0, holes=[HOLE]),
        Line(a=(0.0, 450.0), b=(600.0, 450.0), pen=Pen.HIDDEN),
        make_text("A1-S1", at=(300.0, 400.0), scale=20.0, align="centre", angle=math.pi / 2, bold=True, backed=True),
        *level_chains([[0.0, 38.0, 600.0]], edge_y=0.0, below=True, scale=20.0, style=LengthStyle.metric()),
    )


def page() -> Page:
    return Page(
        name="p",
        title="Frame “A1”",
        number=1,
        size=(210.0, 297.0),
        views=(Placed(view=full_view(), at=(50.0, 100.0)),),
        texts=(page_text("Figures govern: 3 < 4 & ½", at=(30.0, 20.0), bold=True),),
        lines=(PageLine(a=(20.0, 10.0), b=(200.0, 10.0), pen=Pen.FRAME),),
    )


def parsed(svg: bytes) -> ET.Element:
    return ET.fromstring(svg.decode())


def paths(root: ET.Element) -> list[ET.Element]:
    """All paths but the paper itself."""
    return list(root.iter(f"{SVG}path"))[1:]


def numbers(path: ET.Element) -> list[float]:
    return [float(number) for number in re.findall(r"-?\d+\.?\d*", path.attrib["d"])]


def test_a_page_is_well_formed_and_as_large_as_its_paper() -> None:
    root = parsed(page_svg(page()))
    assert (root.attrib["width"], root.attrib["height"]) == ("210mm", "297mm")
    assert root.attrib["viewBox"] == "0 0 210 297"
    assert root.findtext(f"{SVG}title") == "Frame “A1”"


def test_words_with_marks_of_their_own_stay_as_they_are() -> None:
    words = [text.text for text in parsed(page_svg(page())).iter(f"{SVG}text")]
    assert "Figures govern: 3 < 4 & ½" in words
    assert {"A1-S1", "38", "562"} <= set(words)


def test_a_point_of_the_model_lies_where_its_view_is_placed() -> None:
    one = view(Line(a=(0.0, 0.0), b=(200.0, 0.0), pen=Pen.CUT))
    placed = Placed(view=one, at=(50.0, 100.0))
    root = parsed(
        page_svg(Page(name="p", title="", number=0, size=(210.0, 297.0), views=(placed,), texts=(), lines=()))
    )
    (path,) = paths(root)
    reach = -one.low[0] / 20.0
    assert numbers(path) == pytest.approx([50 + reach, 197 - reach, 60 + reach, 197 - reach], abs=0.006)


def test_a_view_alone_is_as_large_as_it_is_on_paper() -> None:
    made = full_view()
    root = parsed(view_svg(made))
    width, height = made.paper_size
    assert [float(number) for number in root.attrib["viewBox"].split()] == pytest.approx(
        [0, 0, width, height], abs=0.006
    )
    for path in paths(root):
        xy = numbers(path)
        assert all(-0.01 <= x <= width + 0.01 for x in xy[::2])
        assert all(-0.01 <= y <= height + 0.01 for y in xy[1::2])


def test_a_filled_path_covers_what_stands_before_it() -> None:
    behind = Line(a=(0.0, 0.0), b=(600.0, 900.0), pen=Pen.LIGHT)
    front = Path(points=RING, closed=True, pen=Pen.OUTLINE, fill=Tone.WHITE)
    after = Line(a=(0.0, 900.0), b=(600.0, 0.0), pen=Pen.LIGHT)
    kinds = [path.attrib.get("fill", "line") for path in paths(parsed(view_svg(view(behind, front, after))))]
    assert kinds == ["line", "#ffffff", "line"]


def test_strokes_of_one_pen_in_a_row_are_one_element() -> None:
    lines = [Line(a=(0.0, y), b=(100.0, y), pen=Pen.LIGHT) for y in (0.0, 50.0, 100.0)]
    assert len(paths(parsed(view_svg(view(*lines))))) == 1


def test_a_hole_is_left_out_of_its_fill() -> None:
    (path,) = paths(parsed(view_svg(view(Path(points=RING, closed=True, pen=None, fill=Tone.MID, holes=(HOLE,))))))
    assert path.attrib["d"].count("Z") == 2
    assert (path.attrib["fill-rule"], path.attrib["stroke"]) == ("evenodd", "none")


def test_white_lies_under_backed_words_and_over_all_lines() -> None:
    made = view_svg(full_view()).decode()
    back = made.index(f'fill="{PAPER}"', made.index("</g>"))
    assert made.rindex("stroke-width") < back < made.index("<text")


def test_only_snags_wear_the_accent() -> None:
    for pen in Pen:
        (path,) = paths(parsed(view_svg(view(Line(a=(0.0, 0.0), b=(9.0, 9.0), pen=pen)))))
        assert (path.attrib.get("stroke") == ACCENT) == (pen is Pen.SNAG)


def test_dashes_have_the_pens_lengths_on_paper() -> None:
    for pen in Pen:
        (path,) = paths(parsed(view_svg(view(Line(a=(0.0, 0.0), b=(9.0, 9.0), pen=pen), scale=50.0))))
        dashes = path.attrib.get("stroke-dasharray", "").split()
        assert tuple(map(float, dashes)) == pen.pattern
        assert float(path.attrib["stroke-width"]) == pen.width


def test_turned_words_turn_about_their_own_point() -> None:
    (text,) = parsed(view_svg(view(make_text("x", at=(0.0, 0.0), scale=1.0, angle=math.pi / 2)))).iter(f"{SVG}text")
    assert text.attrib["transform"] == f"rotate(-90 {text.attrib['x']} {text.attrib['y']})"


def test_equal_pages_give_equal_bytes_without_long_numbers() -> None:
    first, second = page_svg(page()), page_svg(page())
    assert first == second
    assert not re.search(rb"\d\.\d{3}", first)
    assert b"-0 " not in first


def pdf_of(svg: bytes) -> PdfReader:
    typst = importlib.import_module("typst")
    page_setup = "#set page(width: 210mm, height: 297mm, margin: 0pt)\n"
    source = page_setup + '#image(bytes(sys.inputs.drawing), format: "svg", width: 210mm)'
    pdf = typst.compile(
        source.encode(),
        format="pdf",
        ignore_system_fonts=True,
        font_paths=[str(font_folder())],
        sys_inputs={"drawing": svg.decode()},
    )
    return PdfReader(io.BytesIO(pdf))


def test_in_a_pdf_the_words_can_be_searched() -> None:
    text = pdf_of(page_svg(page())).pages[0].extract_text()
    for words in ("Figures govern", "562", "A1-S1"):
        assert words in text


def test_a_pdf_of_it_holds_no_fonts_but_ours() -> None:
    fonts = pdf_of(page_svg(page())).pages[0]["/Resources"]["/Font"]  # type: ignore[index]
    names = {font.get_object()["/BaseFont"].split("+")[-1] for font in fonts.values()}
    assert names
    assert all(name.startswith("IBMPlexSans") for name in names)


def test_in_a_pdf_the_drawing_has_its_true_size() -> None:
    box = pdf_of(page_svg(page())).pages[0].mediabox
    assert (float(box.width) / 72 * 25.4, float(box.height) / 72 * 25.4) == pytest.approx((210.0, 297.0), abs=0.01)
