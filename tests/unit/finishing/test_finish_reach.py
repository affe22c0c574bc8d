"""Where the roller goes and where only the brush does: second opinion on a raster of whole millimetres."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from lathlight.finishing.tool_reach import Covered, Field, Reach, frame_strips, gaps_between, tool_reach

WALL = Field(wall="back", length=2000.0, height=1000.0, walled_left=False, walled_right=False, covered=())
ROLLER = 100.0


def strip(name: str, z0: float, z1: float, x0: float = 0.0, x1: float = 2000.0) -> Covered:
    return Covered(name=name, x0=x0, z0=z0, x1=x1, z1=z1)


def test_a_bare_wall_is_rolled_whole() -> None:
    assert tool_reach(WALL, roller=ROLLER) == Reach(wall="back", roller=pytest.approx(2e6), brush=pytest.approx(0.0))


def test_a_gap_as_wide_as_the_roller_is_rolled_and_a_narrower_one_brushed() -> None:
    even = replace(WALL, covered=(strip("rail", 400, 450), strip("frames", 550, 580)))
    assert tool_reach(even, roller=ROLLER).brush == pytest.approx(0.0)
    tight = replace(WALL, covered=(strip("rail", 400, 450), strip("frames", 549, 579)))
    reach = tool_reach(tight, roller=ROLLER)
    assert reach.brush == pytest.approx(99.0 * 2000)
    assert reach.roller + reach.brush == pytest.approx(2000 * (1000 - 50 - 30))


def test_a_walled_side_stops_the_roller_and_a_free_one_does_not() -> None:
    near_end = replace(WALL, covered=(Covered(name="frame", x0=60, z0=0, x1=2000, z1=1000),))
    assert tool_reach(near_end, roller=ROLLER).brush == pytest.approx(0.0)
    cornered = replace(near_end, walled_left=True)
    assert tool_reach(cornered, roller=ROLLER) == Reach(
        wall="back", roller=pytest.approx(0.0), brush=pytest.approx(60.0 * 1000)
    )


def test_the_finished_floor_stops_the_roller_where_it_lies() -> None:
    low = replace(WALL, floor=20.0, covered=(strip("rail", 110, 150),))
    reach = tool_reach(low, roller=ROLLER)
    assert reach.brush == pytest.approx(90.0 * 2000)
    assert reach.roller + reach.brush == pytest.approx(2000 * (980 - 40))
    (gap,) = gaps_between(low, narrower=ROLLER)
    assert (gap.between, gap.width) == (("floor", "rail"), 90.0)
    assert tool_reach(replace(low, floor=0.0), roller=ROLLER).brush == pytest.approx(0.0)


def test_the_roller_runs_on_over_an_opening_without_casing() -> None:
    window = Covered(name="window", x0=500, z0=300, x1=900, z1=700, stands_out=False)
    casing = replace(window, name="casing", stands_out=True)
    beside = Covered(name="rail", x0=0, z0=720, x1=2000, z1=760)
    open_wall = tool_reach(replace(WALL, covered=(window, beside)), roller=ROLLER)
    assert open_wall.brush == pytest.approx(0.0)
    assert open_wall.roller == pytest.approx(2e6 - 400 * 400 - 2000 * 40)
    assert tool_reach(replace(WALL, covered=(casing, beside)), roller=ROLLER).brush == pytest.approx(400.0 * 20)
    assert gaps_between(replace(WALL, covered=(window, beside)), narrower=ROLLER) == ()


def raster(field: Field, roller: int) -> tuple[int, int]:
    """Return roller and brush in square millimetres, the roller's square set down at every whole place in turn."""
    margin = 2 * roller
    wide, high = int(field.length), int(field.height)
    solid = np.zeros((wide + 2 * margin, high + 2 * margin), dtype=bool)
    solid[:, :margin] = True
    if field.walled_left:
        solid[:margin] = True
    if field.walled_right:
        solid[margin + wide :] = True
    paint = np.ones((wide, high), dtype=bool)
    for c in field.covered:
        paint[int(c.x0) : int(c.x1), int(c.z0) : int(c.z1)] = False
        solid[margin + int(c.x0) : margin + int(c.x1), margin + int(c.z0) : margin + int(c.z1)] |= c.stands_out
    reached = np.zeros_like(solid)
    for x in range(solid.shape[0] - roller + 1):
        for z in range(solid.shape[1] - roller + 1):
            if not solid[x : x + roller, z : z + roller].any():
                reached[x : x + roller, z : z + roller] = True
    face = (slice(margin, margin + wide), slice(margin, margin + high))
    rolled = int((paint & reached[face]).sum())
    return rolled, int(paint.sum()) - rolled


@st.composite
def fields(draw: st.DrawFn) -> Field:
    boxes = []
    for i in range(draw(st.integers(0, 4))):
        x, z = draw(st.integers(0, 50)), draw(st.integers(0, 30))
        boxes.append(Covered(name=str(i), x0=x, z0=z, x1=min(60, x + draw(st.integers(1, 25))),
                             z1=min(40, z + draw(st.integers(1, 25))), stands_out=draw(st.booleans())))  # fmt: skip
    return Field(wall="w", length=60.0, height=40.0, walled_left=draw(st.booleans()), walled_right=draw(st.booleans()),
                 covered=tuple(boxes))  # fmt: skip


@settings(max_examples=60)
@given(field=fields(), roller=st.integers(3, 12))
def test_the_split_agrees_with_setting_the_roller_down_everywhere(field: Field, roller: int) -> None:
    found = tool_reach(field, roller=float(roller))
    rolled, brushed = raster(field, roller)
    assert found.roller == pytest.approx(rolled, abs=1.0)  # the roller is a hair narrower than its gap
    assert found.brush == pytest.approx(brushed, abs=1.0)


def test_a_frame_covers_its_four_strips_once() -> None:
    strips = frame_strips("frame", x0=100, z0=200, x1=700, z1=900, broad=30)
    assert sum((s.x1 - s.x0) * (s.z1 - s.z0) for s in strips) == pytest.approx(600 * 700 - 540 * 640)


def test_gaps_between_frames_rails_and_corners_are_named_narrowest_first() -> None:
    frames = (
        *frame_strips("one", x0=60, z0=200, x1=900, z1=800, broad=30),
        *frame_strips("two", x0=980, z0=200, x1=1900, z1=800, broad=30),
    )
    field = replace(WALL, walled_left=True, covered=(strip("base", 0, 120), strip("rail", 840, 900), *frames))
    gaps = gaps_between(field, narrower=ROLLER)
    assert [(g.between, g.width, g.length) for g in gaps] == [
        (("one", "rail"), 40.0, 840.0),
        (("two", "rail"), 40.0, 920.0),
        (("left corner", "one"), 60.0, 600.0),
        (("base", "one"), 80.0, 840.0),
        (("one", "two"), 80.0, 600.0),
        (("base", "two"), 80.0, 920.0),
    ]
    middle = gaps[4]
    assert (middle.x, middle.z) == (940.0, 500.0)


def test_a_gap_that_an_opening_interrupts_is_two() -> None:
    door = Covered(name="door", x0=500, z0=0, x1=900, z1=1000, stands_out=False)
    field = replace(WALL, covered=(strip("cap", 0, 140), strip("rail", 190, 240), door))
    gaps = gaps_between(field, narrower=ROLLER)
    assert [(g.between, g.length) for g in gaps] == [(("cap", "rail"), 500.0), (("cap", "rail"), 1100.0)]


def test_a_frame_too_small_for_the_roller_has_a_gap_inside() -> None:
    field = replace(WALL, covered=frame_strips("slim", x0=500, z0=200, x1=640, z1=800, broad=30))
    (gap,) = gaps_between(field, narrower=ROLLER)
    assert (gap.between, gap.width, gap.length) == (("slim", "slim"), 80.0, 600.0 - 60.0)


def test_what_touches_or_has_something_between_leaves_no_gap() -> None:
    field = replace(WALL, covered=(strip("base", 0, 120), strip("cap", 120, 140), strip("rail", 190, 240)))
    assert [g.between for g in gaps_between(field, narrower=ROLLER)] == [("cap", "rail")]


def test_a_roller_has_a_width() -> None:
    with pytest.raises(ValueError, match="0 mm wide"):
        tool_reach(WALL, roller=0.0)
