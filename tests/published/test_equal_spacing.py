"""Equal boxes of applied moulding, equal spacing, and the mitred frame round an opening.

Sources: a home-improvement magazine's formula with its worked numbers (the bracket that its print leaves out put back:
only then is its own answer 16), a question on a woodworking forum, the standard layout rule, geometry; the sizes of two
walls with frames are common practice, no source.
"""

from __future__ import annotations

import pytest

from lathlight.catalog import load_catalog
from lathlight.mouldings.frame_bays import FrameTier, FrameWall
from lathlight.mouldings.frame_layout import MouldingLayout
from lathlight.mouldings.frame_patterns import equal_width
from lathlight.mouldings.frame_pieces import frame_pieces, outside_size
from lathlight.mouldings.moulding_frames import MouldingFramesJob, lay_out_frames
from lathlight.plan import Memo, derive
from lathlight.plan.frames import derive_frames
from lathlight.project import parse_project, resolve
from lathlight.units import LengthStyle

IN = 25.4
STEP = IN / 16
PRACTICE = "common practice, no source"
EXACT = 1e-9


def two_walls(*, height: float, bought: float | None = None) -> MouldingFramesJob:
    """Return walls of 116 and 157 in with a gap of 4 in, to 1/16 in."""
    walls = tuple(
        FrameWall(name=name, start=0.0, end=length * IN, height=96 * IN) for name, length in (("a", 116), ("b", 157))
    )
    tier = FrameTier(
        name="panels",
        moulding=1.25 * IN,
        bottom=8 * IN,
        top=(8 + height) * IN,
        gap=4 * IN,
        bought_width=None if bought is None else bought * IN,
    )
    return MouldingFramesJob(walls=walls, tiers=(tier,), grid=LengthStyle.imperial())


@pytest.mark.published(source="home-improvement magazine, with the bracket put back", place="16, 20 and 18 in")
@pytest.mark.parametrize(("length", "count", "gap", "width"), [(60, 3, 3, 16), (100, 4, 4, 20), (26, 1, 4, 18)])
def test_boxes_have_the_printed_widths(length: float, count: int, gap: float, width: float) -> None:
    assert equal_width(length=length, count=count, gap=gap, end_gap=gap) == pytest.approx(width, abs=EXACT)


@pytest.mark.published(source="woodworking forum question", place="24 in; 26.6 and 21.5 in follow")
@pytest.mark.parametrize(("length", "count", "width"), [(116, 4, 24.0), (157, 5, 26.6), (157, 6, 21.5)])
def test_boxes_of_the_forum_question_have_their_widths(length: float, count: int, width: float) -> None:
    assert equal_width(length=length, count=count, gap=4, end_gap=4) == pytest.approx(width, abs=EXACT)


@pytest.mark.published(source="standard layout rule", place="7 bars of 1 1/2 in in a clear 96 in: gaps of 10 11/16 in")
def test_bars_in_a_clear_opening_leave_equal_gaps() -> None:
    """Between seven bars and the two ends lie eight gaps, with the bars as what keeps them apart."""
    gap = equal_width(length=96, count=8, gap=1.5, end_gap=0)
    assert gap == pytest.approx(10.6875, abs=EXACT)
    assert (gap + 1.5 / 2, gap + 1.5) == pytest.approx((11.4375, 12.1875), abs=EXACT)  # first centre, pitch


@pytest.mark.published(source="geometry", place="opening 30 x 40 in, moulding 2 1/4 in")
def test_a_mitred_frame_is_two_mouldings_longer_than_its_opening() -> None:
    width, height = (outside_size(opening=side, moulding=2.25) for side in (30, 40))
    pieces = frame_pieces(width=width, height=height, moulding=2.25)
    assert sorted({p.long_points for p in pieces}) == [34.5, 44.5]
    assert sorted({p.short_points for p in pieces}) == [30, 40]
    assert sum(p.long_points for p in pieces) == 158


@pytest.mark.published(source=PRACTICE, place="116 and 157 in, gap 4 in: 3 frames of 33 1/3 in, 4 of 34 1/4 in")
@pytest.mark.parametrize("height", [20, 26, 36, 60, 72])
def test_two_unequal_walls_take_three_and_four_frames(height: float) -> None:
    (group,) = lay_out_frames(two_walls(height=height)).in_line
    assert [bay.pattern.count for bay in group.bays] == [3, 4]
    assert [bay.pattern.exact / IN for bay in group.bays] == pytest.approx([33 + 1 / 3, 34.25], abs=EXACT)
    for bay in group.bays:
        assert bay.pattern.width == pytest.approx(bay.pattern.exact, abs=STEP)
        assert bay.pattern.gaps == pytest.approx([4 * IN] * (bay.pattern.count + 1), abs=STEP + EXACT)


@pytest.mark.published(source=PRACTICE, place="116 and 157 in, bought 34 in frames: end gaps of 3 and 4 1/2 in")
@pytest.mark.parametrize("height", [26, 60])
def test_bought_frames_leave_end_gaps_and_a_tie_goes_to_more_frames(height: float) -> None:
    layout = lay_out_frames(two_walls(height=height, bought=34))
    (group,) = layout.in_line
    assert [bay.pattern.count for bay in group.bays] == [3, 4]
    for bay, end in zip(group.bays, (3, 4.5), strict=True):
        inner = [4.0] * (bay.pattern.count - 1)
        assert [gap / IN for gap in bay.pattern.gaps] == pytest.approx([end, *inner, end], abs=EXACT)
    assert group.spread / IN == pytest.approx(1.5, abs=EXACT)
    assert not layout.findings


# --- the same two walls from a project file ----------------------------------------------------------------------

WHOLE_WALLS = """
[project]
title = "two walls"
units = "imperial"
[room]
width = "30 ft"
depth = "30 ft"
ceiling = "11 ft"
[set]
height = "8 ft"
sheet = "cloth board"
framing = "2x2"
flats.max_weight = "400 lb"
[[catalog.sheets]] # invented: no seam on any wall
name = "cloth board"
material = "plywood"
width = "8 ft"
length = "14 ft"
thickness = "1/4 in"
density = 510
stud_spacing = "24 in"
source = "invented"
[[walls]]
name = "a"
length = "116 in"
[[walls]]
name = "b"
length = "157 in"
[[moulding_frames]]
name = "panels"
profile = "panel 1 1-8 in"
bottom = "8 in"
top = "44 in"
gap = "4 in"
"""


def from_file(more: str = "") -> MouldingLayout:
    """Return the frames of the two walls as a project file asks for them."""
    project = parse_project(WHOLE_WALLS + more, name="two.toml")
    plan = derive(resolve(project, load_catalog(), place="two.toml"))
    layout = derive_frames(plan.brief, plan.walls, (), plan.trim, plan.casings, Memo())
    assert layout is not None
    return layout


@pytest.mark.published(source=PRACTICE, place="116 and 157 in in a project: 3 of 33 1/3 in, 4 of 34 1/4 in")
def test_two_unequal_walls_of_a_project_take_three_and_four_frames() -> None:
    layout = from_file()
    assert [f.wall for f in layout.frames] == ["a"] * 3 + ["b"] * 4
    widths = [f.width / IN for f in layout.frames]
    assert widths == pytest.approx([33 + 1 / 3] * 3 + [34.25] * 4, abs=STEP / IN)


@pytest.mark.published(source=PRACTICE, place="116 and 157 in in a project, bought 34 in frames: 3 and 4 1/2 in")
def test_bought_frames_of_a_project_leave_end_gaps() -> None:
    layout = from_file('bought_width = "34 in"\n')
    ends = [f.left / IN for f in layout.frames if f.id.endswith("frame 1")]
    assert ends == pytest.approx([3, 4.5], abs=EXACT)
    assert [f.width / IN for f in layout.frames] == pytest.approx([34] * 7, abs=EXACT)
