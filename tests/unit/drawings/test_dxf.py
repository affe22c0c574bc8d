"""DXF, read again: lengths, units, layers, line types, words; the same bytes every time."""

from __future__ import annotations

import importlib
import io
import logging
import math
import subprocess
import sys
from typing import Any

import pytest

from lathlight.drawings.dims import level_chains, overall, upright_chains
from lathlight.drawings.dxf import view_dxf
from lathlight.drawings.hatch import hatch
from lathlight.drawings.sheets import Chain, Line, Path, Pen, Tone, View
from lathlight.drawings.text import CAP, make_text
from lathlight.drawings.views import make_view
from lathlight.units import LengthStyle

STYLES = {"metric": LengthStyle.metric(), "imperial": LengthStyle.imperial()}
UNIT = {"metric": 1.0, "imperial": 25.4}
INCH = 25.4
RING = ((0.0, 0.0), (48 * INCH, 0.0), (48 * INCH, 96 * INCH), (0.0, 96 * INCH))
HOLE = ((100.0, 100.0), (100.0, 200.0), (200.0, 200.0))
LINING = hatch(RING, scale=24.0, holes=[HOLE])
WORDS = make_text("A1-S1 ½", at=(600.0, 400.0), size=3.0, scale=24.0, align="centre", angle=math.pi / 2, backed=True)
ROWS = [[0.0, 1.5 * INCH, 24 * INCH, 46.5 * INCH, 48 * INCH], [0.0, 48 * INCH]]


def view(system: str) -> View:
    style = STYLES[system]
    return make_view(
        name="a1",
        title="Flat A1",
        scale=24.0,
        items=[
            Path(points=RING, closed=True, pen=Pen.CUT, fill=Tone.PALE, holes=(HOLE,)),
            Path(points=HOLE, closed=True, pen=None, fill=Tone.WHITE),
            LINING,
            *(Line(a=(0.0, 50.0 * i), b=(900.0, 50.0 * i), pen=pen) for i, pen in enumerate(Pen)),
            WORDS,
            *level_chains(ROWS, edge_y=0.0, below=True, scale=24.0, style=style),
            *upright_chains([[0.0, 96 * INCH]], edge_x=48 * INCH, left=False, scale=24.0, style=style),
            overall(RING[0], RING[2], offset=0.0, scale=24.0, style=style),
        ],
    )


def written(system: str) -> bytes:
    return view_dxf(view(system), style=STYLES[system], title="Corner for a potter")


@pytest.fixture(scope="module", params=["metric", "imperial"])
def system(request: pytest.FixtureRequest) -> str:
    return request.param


@pytest.fixture(scope="module")
def doc(system: str) -> Any:
    return importlib.import_module("ezdxf").read(io.StringIO(written(system).decode("utf-8")))


def test_the_reader_finds_no_error_and_nothing_to_mend(doc: Any) -> None:
    auditor = doc.audit()
    assert [error.message for error in (*auditor.errors, *auditor.fixes)] == []


def test_dimensions_measure_the_lengths_of_the_chains(doc: Any, system: str) -> None:
    chains = [item for item in view(system).items if isinstance(item, Chain)]
    wanted = [
        (label.words, (b - a) / UNIT[system])
        for chain in chains
        for label, a, b in zip(chain.labels, chain.stops, chain.stops[1:], strict=False)
    ]
    found = [(each.dxf.text, each.get_measurement()) for each in doc.modelspace().query("DIMENSION")]
    assert [words for words, _ in found] == [words for words, _ in wanted]
    assert [length for _, length in found] == pytest.approx([length for _, length in wanted], abs=1e-4)
    assert [each.dxf.actual_measurement for each in doc.modelspace().query("DIMENSION")] == pytest.approx(
        [length for _, length in wanted], abs=1e-5
    )


def test_every_dimension_has_a_block_with_its_label_and_its_lines(doc: Any, system: str) -> None:
    lines = 0
    for each in doc.modelspace().query("DIMENSION"):
        block = doc.blocks.get(each.dxf.geometry)
        assert [text.dxf.text for text in block.query("TEXT")] == [each.dxf.text]
        lines += len(block.query("LINE"))
    assert lines == sum(len(item.lines) for item in view(system).items if isinstance(item, Chain))


def test_the_outline_is_as_large_as_the_flat_in_the_files_own_unit(doc: Any, system: str) -> None:
    (outline,) = doc.modelspace().query('LWPOLYLINE[layer=="CUT"]')[:1]
    assert outline.closed
    points = list(outline.get_points("xy"))
    assert points == [(pytest.approx(x / UNIT[system]), pytest.approx(y / UNIT[system])) for x, y in RING]


def test_the_file_states_its_unit(doc: Any, system: str) -> None:
    assert doc.header["$INSUNITS"] == {"metric": 4, "imperial": 1}[system]
    assert doc.header["$MEASUREMENT"] == {"metric": 1, "imperial": 0}[system]


def test_each_pen_has_its_layer_with_its_weight(doc: Any) -> None:
    for pen in set(Pen) - {Pen.TICK}:
        layer = doc.layers.get(pen.layer)
        assert layer.dxf.lineweight == round(pen.width * 100)
        on_layer = doc.modelspace().query(f'LINE[layer=="{pen.layer}"]')
        assert len(on_layer) >= 1
    (tick,) = [line for line in doc.modelspace().query("LINE") if line.dxf.hasattr("lineweight")]
    assert (tick.dxf.layer, tick.dxf.lineweight) == ("DIMENSION", round(Pen.TICK.width * 100))


def test_dashes_are_as_long_on_paper_as_the_pens_say(doc: Any, system: str) -> None:
    for pen in Pen:
        name = doc.layers.get(pen.layer).dxf.linetype
        if pen.pattern:
            tags = doc.linetypes.get(name).pattern_tags.tags
            dashes = [abs(tag.value) for tag in tags if tag.code == 49]
            assert dashes == pytest.approx([part * 24.0 / UNIT[system] for part in pen.pattern])
        else:
            assert name.upper() == "CONTINUOUS"


def test_words_keep_place_height_turn_and_font(doc: Any, system: str) -> None:
    (text,) = doc.modelspace().query("TEXT")
    assert text.dxf.text == "A1-S1 ½"
    assert text.dxf.height == pytest.approx(3.0 * CAP * 24.0 / UNIT[system])
    assert text.dxf.rotation == pytest.approx(90.0)
    assert text.dxf.halign == 1
    assert tuple(text.dxf.align_point)[:2] == pytest.approx([c / UNIT[system] for c in WORDS.at])
    assert doc.styles.get(text.dxf.style).dxf.font == "IBMPlexSans_400Regular.ttf"


def test_section_lining_comes_as_lines(doc: Any, system: str) -> None:
    lines = doc.modelspace().query(f'LINE[layer=="{LINING.pen.layer}"]')
    assert len(lines) == len(LINING.lines) + 1
    first, (a, b) = lines[0], LINING.lines[0]
    assert tuple(first.dxf.start)[:2] == pytest.approx([c / UNIT[system] for c in a], abs=1e-5)
    assert tuple(first.dxf.end)[:2] == pytest.approx([c / UNIT[system] for c in b], abs=1e-5)


def test_fills_are_grey_and_white_is_a_mask(doc: Any) -> None:
    (solid,) = doc.modelspace().query("HATCH")
    assert solid.dxf.solid_fill == 1
    assert len(solid.paths) == 2
    assert solid.rgb == (round(Tone.PALE.value * 255),) * 3
    assert len(doc.modelspace().query("WIPEOUT")) == 2  # the white path, and the paper under the backed words


def test_the_drawings_properties_name_project_view_and_scale(doc: Any) -> None:
    assert doc.header.custom_vars.get("Title") == "Corner for a potter"
    assert doc.header.custom_vars.get("View") == "Flat A1"
    assert doc.header.custom_vars.get("Scale") == "1:24"


def test_it_opens_on_the_whole_drawing(doc: Any, system: str) -> None:
    made = view(system)
    assert tuple(doc.header["$EXTMIN"])[:2] == pytest.approx([c / UNIT[system] for c in made.low], abs=1e-5)
    assert tuple(doc.header["$EXTMAX"])[:2] == pytest.approx([c / UNIT[system] for c in made.high], abs=1e-5)


def test_equal_views_give_equal_bytes(system: str) -> None:
    assert written(system) == written(system)


FRESH = """
import hashlib
from lathlight.drawings.dims import level_chain
from lathlight.drawings.dxf import view_dxf
from lathlight.drawings.sheets import Path, Pen, Tone
from lathlight.drawings.text import make_text
from lathlight.drawings.views import make_view
from lathlight.units import LengthStyle
style = LengthStyle.metric()
ring = ((0.0, 0.0), (100.0, 0.0), (100.0, 100.0))
items = [
    Path(points=ring, closed=True, pen=Pen.SEAM, fill=Tone.PALE),
    make_text("A1", at=(0.0, 0.0), scale=20.0, backed=True),
    level_chain([0.0, 38.0, 600.0], y_line=-200.0, feet_y=0.0, scale=20.0, style=style),
]
made = view_dxf(make_view(name="v", title="V", scale=20.0, items=items), style=style, title="T")
from ezdxf.fonts import fonts
print(hashlib.sha256(made).hexdigest(), len(fonts.font_manager._font_cache))
"""


def test_other_processes_write_the_same_bytes_and_read_no_fonts_of_the_machine(tmp_path: Any) -> None:
    runs = [
        subprocess.run(
            [sys.executable, "-W", "error", "-c", FRESH],
            capture_output=True,
            text=True,
            check=True,
            env={"PATH": "", "PYTHONPATH": ":".join(sys.path), "PYTHONHASHSEED": seed, "HOME": str(tmp_path)},
        )
        for seed in ("1", "2")
    ]
    assert runs[0].stdout == runs[1].stdout
    assert runs[0].stdout.split()[1] == "0"
    assert [run.stderr for run in runs] == ["", ""]
    assert list(tmp_path.iterdir()) == []


def test_writing_logs_nothing(caplog: pytest.LogCaptureFixture) -> None:
    with caplog.at_level(logging.WARNING):
        written("metric")
    assert caplog.records == []
