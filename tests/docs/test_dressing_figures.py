"""Figures of the pages on moulding frames and marking out are those of the pages' own project files."""

from __future__ import annotations

from tests.docs.test_figures import planned, text_of

from lathlight.snags import find_snags
from lathlight.units import drawing_length

FRAMES = "how-to/lay-out-moulding-frames.md"
LEVEL = "how-to/mark-out-from-a-level-line.md"


def test_the_frames_of_the_page_are_as_many_and_as_wide_as_it_says() -> None:
    plan = planned(FRAMES)
    widths = {wall: [f.width for f in plan.frames.frames if f.wall == wall] for wall in ("back", "side")}
    assert [len(each) for each in widths.values()] == [3, 1]
    told = {drawing_length(width, style=plan.brief.style) for each in widths.values() for width in each}
    assert told == {"3'-2 5/8\"", "3'-2\""}, "38 5/8 in and 38 in"
    assert "three frames of 38 5/8 in and the side wall one of 38 in" in text_of(FRAMES)
    assert not [snag.id for snag in find_snags(plan) if "frame" in snag.check]


def test_the_level_line_and_the_rail_of_the_page_lie_where_it_says() -> None:
    plan = planned(LEVEL)
    (rail,) = [line for line in plan.brief.walls[0].trim if line.name == "rail"]
    assert (plan.marking.level.height, rail.top) == (1000, 908)
    assert "1000 mm here" in text_of(LEVEL)
    assert "900 mm over the boards and 908 mm over the flats' foot" in text_of(LEVEL)
