"""Floor jobs for tests: walls laid out, one picture, nothing assumed."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

from lathlight.flooring import FloorJob, PictureFrame
from lathlight.layout import lay_out_walls
from lathlight.units import LengthStyle

METRIC, IMPERIAL = LengthStyle.metric(), LengthStyle.imperial()

PICTURE = PictureFrame(  # 3000 mm from the sitter: 50 x (1 + 1770 / 30)
    picture="standing",
    sitter=(0.0, -1500.0),
    angles=(0.0, 0.0),
    lens=(50.0, 50.0),
    sensor=(20.0, 30.0),
    height=1770.0,
    bottom=-300.0,
    camera=(1200.0, 1200.0),
)


def floor_job(*lengths: float, corner: float = 90.0, **changes: Any) -> FloorJob:
    """Return a floor before walls of these lengths at one corner angle [degrees]; a plain wall of 3 m for none."""
    lengths = lengths or (3000.0,)
    walls = lay_out_walls(
        names=[f"wall {i + 1}" for i in range(len(lengths))],
        lengths=lengths,
        heights=[2400.0] * len(lengths),
        angles=[math.radians(corner)] * (len(lengths) - 1),
    )
    plain = FloorJob(
        covering="boards",
        walls=walls,
        depths=(50.0,) * len(walls),
        under_flats=False,
        width=None,
        depth=None,
        gap=0.0,
        strip_width=None,
        strip_length=None,
        strips="away",
        pictures=(),
        sitters=(),
        grid=METRIC,
        kerf=3.0,
    )
    return replace(plain, **changes)
