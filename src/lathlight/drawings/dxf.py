"""Views as DXF in real units: layers by line kind, dimensions that stay dimensions, words in the bundled font.

The one place that knows ezdxf. A drawing opens at full size in model space, in millimetres or in inches; dashes,
letters and ticks are sized for the view's scale. What a view shows is not changed here: every dimension carries the
chain's own label, and its block holds the chain's own lines.
"""

# pyright: reportMissingTypeStubs=false, reportPrivateImportUsage=false, reportUnknownMemberType=false

from __future__ import annotations

import io
import json
import math
import os
import sys
import tempfile
from dataclasses import dataclass
from pathlib import Path as FilePath
from typing import TYPE_CHECKING, Any, assert_never

from lathlight.drawings.dims import FOOT_GAP, LIFT, OVERSHOOT, TICK
from lathlight.drawings.sheets import Chain, Hatch, Line, Path, Pen, Point, Text, Tone, View
from lathlight.drawings.text import CAP, NOTE_SIZE

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence
    from types import ModuleType

    from ezdxf.document import Drawing
    from ezdxf.layouts import BlockLayout, Modelspace

    from lathlight.units import LengthStyle

INCH = 25.4  # [mm]
DECIMALS = 6  # of a coordinate, in the file's unit
STYLE = "LATHLIGHT"  # dimension and text style
BOLD_STYLE = "LATHLIGHT-BOLD"
FONT_FILES = {STYLE: "IBMPlexSans_400Regular.ttf", BOLD_STYLE: "IBMPlexSans_600SemiBold.ttf"}
TEXT_LAYER = "TEXT"
FILL_LAYER = "FILL"
INK = 7  # colour index: black on white, white on black
SNAG_INK = 0x9A2A14  # true colour
HALIGN = {"left": 0, "centre": 1, "right": 2}
RELEASE = "R2010"
FONT_CACHE: dict[str, Any] = {"version": 2, "font-faces": []}  # what ezdxf finds in place of the fonts of this machine


def view_dxf(view: View, *, style: LengthStyle, title: str) -> bytes:
    """View as a DXF file (release 2010, UTF-8); equal views give equal bytes.

    Parameters
    ----------
    view
        The drawing; a chain becomes one DIMENSION a gap, a path an LWPOLYLINE, a fill a solid hatch, white a mask.
    style
        Metric files are in millimetres, imperial ones in inches.
    title
        Stands in the drawing's properties.
    """
    doc = _ezdxf().new(RELEASE)
    paper = _Paper(scale=view.scale, unit=1.0 if style.system == "metric" else INCH)
    _set_header(doc, view, paper, style=style, title=title)
    _add_tables(doc, paper, style)
    space = doc.modelspace()
    for item in view.items:
        _add_item(space, item, paper)
    for item in view.items:
        if isinstance(item, Chain):
            _add_chain(doc, item, paper)
    for item in view.items:
        if isinstance(item, Text):
            _add_text(space, item, paper, layer=TEXT_LAYER, backed=item.backed)
    _order_classes(doc)
    stream = io.StringIO()
    doc.write(stream)
    return stream.getvalue().encode("utf-8")


@dataclass(frozen=True, slots=True, kw_only=True)
class _Paper:
    """How the file's unit stands to the model and to paper."""

    scale: float  # model mm for one mm of paper
    unit: float  # mm in one unit of the file

    def point(self, point: Point) -> Point:
        return round(point[0] / self.unit, DECIMALS), round(point[1] / self.unit, DECIMALS)

    def length(self, on_paper: float) -> float:
        """Return a length on paper [mm] in the file's unit at full size."""
        return round(on_paper * self.scale / self.unit, DECIMALS)


def _ezdxf() -> ModuleType:
    """Return ezdxf, kept from reading this machine's fonts when first imported, and from writing the time."""
    if "ezdxf" not in sys.modules:
        before = os.environ.get("XDG_CACHE_HOME")
        with tempfile.TemporaryDirectory() as folder:
            cache = FilePath(folder) / "ezdxf" / "font_manager_cache.json"
            cache.parent.mkdir()
            cache.write_text(json.dumps(FONT_CACHE), encoding="utf-8")
            os.environ["XDG_CACHE_HOME"] = folder
            try:
                import ezdxf
            finally:
                del os.environ["XDG_CACHE_HOME"]
                if before is not None:
                    os.environ["XDG_CACHE_HOME"] = before
    import ezdxf

    ezdxf.options.write_fixed_meta_data_for_testing = True
    return ezdxf


def _set_header(doc: Drawing, view: View, paper: _Paper, *, style: LengthStyle, title: str) -> None:
    metric = style.system == "metric"
    low, high = paper.point(view.low), paper.point(view.high)
    doc.header["$INSUNITS"] = 4 if metric else 1
    doc.header["$MEASUREMENT"] = 1 if metric else 0
    doc.header["$LUNITS"] = 2 if metric else 4  # decimal, architectural
    doc.header["$LTSCALE"] = 1.0
    doc.modelspace().reset_extents((*low, 0.0), (*high, 0.0))
    doc.header["$DIMSTYLE"] = STYLE
    doc.header["$TEXTSTYLE"] = STYLE
    doc.header.custom_vars.append("Title", title)
    doc.header.custom_vars.append("View", view.title)
    doc.header.custom_vars.append("Scale", f"1:{view.scale:g}")
    middle = (low[0] + high[0]) / 2, (low[1] + high[1]) / 2
    doc.set_modelspace_vport(height=1.1 * max(high[1] - low[1], (high[0] - low[0]) / 1.5), center=middle)


def _add_tables(doc: Drawing, paper: _Paper, style: LengthStyle) -> None:
    """Add text styles, line types, layers and the dimension style."""
    for name, font in FONT_FILES.items():
        doc.styles.add(name, font=font)
    for pen in Pen:
        if pen.pattern:
            dashes = [paper.length(part) * (1 if i % 2 == 0 else -1) for i, part in enumerate(pen.pattern)]
            doc.linetypes.add(pen.name, [sum(map(abs, dashes)), *dashes], description=pen.name.lower())
    for pen in Pen:
        if pen.layer not in doc.layers:
            doc.layers.add(pen.layer, color=INK, linetype=_line_type(pen), lineweight=_weight(pen))
    doc.layers.get(Pen.SNAG.layer).dxf.true_color = SNAG_INK
    doc.layers.add(TEXT_LAYER, color=INK)
    doc.layers.add(FILL_LAYER, color=INK)
    doc.set_wipeout_variables(frame=0)
    looks = {
        "dimscale": paper.length(1.0),
        "dimtxt": NOTE_SIZE * CAP,
        "dimtsz": TICK / 2 * math.sqrt(0.5),
        "dimexo": FOOT_GAP,
        "dimexe": OVERSHOOT,
        "dimgap": LIFT,
        "dimtad": 1,  # words above the line
        "dimtih": 0,  # along it, also inside
        "dimtoh": 0,
        "dimlunit": 2 if style.system == "metric" else 4,
        "dimdec": 0 if style.system == "metric" else 4,
        "dimtxsty": STYLE,
    }
    doc.dimstyles.new(STYLE, dxfattribs=looks)


def _add_item(space: Modelspace, item: Line | Path | Hatch | Text | Chain, paper: _Paper) -> None:
    match item:
        case Line():
            space.add_line(paper.point(item.a), paper.point(item.b), _pen(item.pen))
        case Hatch():
            for a, b in item.lines:
                space.add_line(paper.point(a), paper.point(b), _pen(item.pen))
        case Path():
            _add_path(space, item, paper)
        case Text() | Chain():
            return
        case _:
            assert_never(item)


def _add_path(space: Modelspace, path: Path, paper: _Paper) -> None:
    rings = [[paper.point(point) for point in ring] for ring in (path.points, *path.holes)]
    if path.fill is Tone.WHITE:
        _add_mask(space, rings)
    elif path.fill is not None:
        grey = round(path.fill.value * 255)
        solid = space.add_hatch(color=INK, dxfattribs={"layer": FILL_LAYER, "true_color": grey * 0x010101})
        for ring in rings:
            solid.paths.add_polyline_path(ring, is_closed=True)
    if path.pen is not None:
        for ring in rings:
            space.add_lwpolyline(ring, close=path.closed, dxfattribs=_pen(path.pen))


def _add_mask(space: Modelspace | BlockLayout, rings: Sequence[Sequence[Point]]) -> None:
    """Add an area of the paper's own colour; holes hang on a seam without width."""
    outer = rings[0]
    way = [*outer]
    for hole in rings[1:]:
        way += [outer[0], *hole, hole[0]]
    space.add_wipeout(way, dxfattribs={"layer": FILL_LAYER})


def _add_chain(doc: Drawing, chain: Chain, paper: _Paper) -> None:
    """Add a dimension for each gap; its block holds the lines and the label that belong to it."""
    along = math.cos(chain.angle), math.sin(chain.angle)
    measured = [_measured(chain, i, along) for i in range(len(chain.stops))]
    for i, label in enumerate(chain.labels):
        block = doc.blocks.new_anonymous_block(type_char="D")
        for line, owner in zip(chain.lines, chain.owners, strict=True):
            if owner == i:
                block.add_line(paper.point(line.a), paper.point(line.b), _pen(line.pen))
        _add_text(block, label, paper, layer=Pen.DIMENSION.layer, backed=False)
        stop = chain.stops[i + 1]
        on_line = chain.origin[0] + along[0] * stop, chain.origin[1] + along[1] * stop
        doc.modelspace().new_entity(
            "DIMENSION",
            {
                "layer": Pen.DIMENSION.layer,
                "dimstyle": STYLE,
                "geometry": block.name,
                "dimtype": 32,  # linear, with a block of its own
                "angle": round(math.degrees(chain.angle), DECIMALS),
                "defpoint": paper.point(on_line),
                "defpoint2": paper.point(measured[i]),
                "defpoint3": paper.point(measured[i + 1]),
                "text_midpoint": paper.point(_middle(label)),
                "text": label.words,
                "actual_measurement": round((stop - chain.stops[i]) / paper.unit, DECIMALS),
            },
        )


def _measured(chain: Chain, index: int, along: Point) -> Point:
    """Return where a stop's extension line starts: level with its foot, at the stop's rounded position."""
    (x, y), foot, stop = chain.origin, chain.feet[index], chain.stops[index]
    aside = (foot[1] - y) * along[0] - (foot[0] - x) * along[1]
    return x + along[0] * stop - along[1] * aside, y + along[1] * stop + along[0] * aside


def _middle(text: Text) -> Point:
    return sum(x for x, _ in text.box) / 4, sum(y for _, y in text.box) / 4


def _add_text(space: Modelspace | BlockLayout, text: Text, paper: _Paper, *, layer: str, backed: bool) -> None:
    if backed:
        _add_mask(space, [[paper.point(point) for point in text.box]])
    at = paper.point(text.at)
    looks: dict[str, Any] = {
        "layer": layer,
        "style": BOLD_STYLE if text.bold else STYLE,
        "height": paper.length(text.size * CAP),
        "rotation": round(math.degrees(text.angle), DECIMALS),
        "insert": at,
    }
    if text.align != "left":
        looks |= {"halign": HALIGN[text.align], "align_point": at}
    space.add_text(text.words, dxfattribs=looks)


def _order_classes(doc: Drawing) -> None:
    """Put the class table in order: ezdxf fills it from sets, whose order differs from process to process."""
    doc.classes.add_required_classes(doc.dxfversion)
    doc.classes.classes = dict(sorted(doc.classes.classes.items()))


def _pen(pen: Pen) -> Mapping[str, Any]:
    """Return what a stroke says about itself: its layer, and its weight where the layer has another."""
    return {"layer": pen.layer, "lineweight": _weight(pen)} if pen is Pen.TICK else {"layer": pen.layer}


def _line_type(pen: Pen) -> str:
    return pen.name if pen.pattern else "CONTINUOUS"


def _weight(pen: Pen) -> int:
    """Return the width in hundredths of a millimetre."""
    return round(pen.width * 100)
