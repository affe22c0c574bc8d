"""Random sets of walls with moulding frames: they add up, overlap nowhere, mirror, and keep clear.

A longer wall may well get narrower frames (one more of them), so nothing is claimed of that.
"""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

from hypothesis import assume, given
from hypothesis import strategies as st
from tests.properties.strategies import IMPERIAL, METRIC

from lathlight.errors import InputError
from lathlight.mouldings.frame_bays import LEAST_CLEAR, Block, FrameTier, FrameWall, SeamLine, blocks_tier
from lathlight.mouldings.frame_layout import MouldingLayout
from lathlight.mouldings.moulding_frames import MouldingFramesJob, lay_out_frames
from lathlight.units import LengthStyle, snap

HEIGHT = 2438.4  # on both grids
NOISE = 1e-6


def on(grid: LengthStyle, least: float, most: float) -> st.SearchStrategy[float]:
    return st.floats(least, most).map(lambda mm: snap(mm, grid))


@st.composite
def walls(draw: st.DrawFn, *, name: str, grid: LengthStyle) -> FrameWall:
    length = draw(on(grid, 300, 4000))
    blocks: tuple[Block, ...] = ()
    if length > 1500 and draw(st.booleans()):
        left = draw(on(grid, 100, length - 800))
        bottom = draw(on(grid, 0, 1400))
        blocks = (
            Block(name="window", left=left, right=left + snap(700, grid), bottom=bottom, top=bottom + snap(900, grid)),
        )
    seams = tuple(
        SeamLine(name=str(n), left=x, right=x, bottom=0.0, top=HEIGHT, parts=draw(st.booleans()))
        for n, x in enumerate(draw(st.lists(on(grid, 1, length - 1), max_size=2, unique=True)))
    )
    return FrameWall(name=name, start=0.0, end=length, height=HEIGHT, blocks=blocks, seams=seams)


@st.composite
def jobs(draw: st.DrawFn) -> MouldingFramesJob:
    grid = draw(st.sampled_from((METRIC, IMPERIAL)))
    count = draw(st.integers(1, 4))
    gap = draw(on(grid, 50, 200))
    bought = draw(st.none() | on(grid, 250, 900))
    end_gap = draw(st.none() | on(grid, 50, 300))
    low = FrameTier(
        name="low",
        moulding=30.0,
        bottom=150.0,
        top=750.0,
        gap=gap,
        end_gap=end_gap,
        bought_width=bought,
        part_at_joints=draw(st.booleans()),
        loose=draw(st.booleans()),
    )
    high = replace(low, name="high", bottom=900.0, top=draw(on(grid, 1400, 2300)))
    return MouldingFramesJob(
        walls=tuple(draw(walls(name=str(n), grid=grid)) for n in range(count)),
        tiers=draw(st.sampled_from(((low,), (high,), (low, high)))),
        grid=grid,
    )


def laid(job: MouldingFramesJob) -> MouldingLayout:
    """Return the layout, or give the example up where a tier has no room anywhere."""
    try:
        return lay_out_frames(job)
    except InputError:
        assume(False)
        raise


@given(jobs())
def test_frames_and_gaps_add_up_to_their_bay(job: MouldingFramesJob) -> None:
    for group in laid(job).in_line:
        for filled in group.bays:
            pattern, bay = filled.pattern, filled.bay
            assert abs(sum(pattern.gaps) + pattern.count * pattern.width - (bay.right - bay.left)) < NOISE
            assert min(pattern.gaps) >= 0


@given(jobs())
def test_frames_overlap_nothing_and_keep_clear_of_openings(job: MouldingFramesJob) -> None:
    layout = laid(job)
    tiers = {t.name: t for t in job.tiers}
    for wall in job.walls:
        for name in sorted(tiers):
            here = [f for f in layout.frames if f.wall == wall.name and f.tier == name]
            assert all(wall.start <= f.left and f.right <= wall.end + NOISE for f in here)
            assert all(a.right < b.left for a, b in pairwise(here))
            for block in wall.blocks:
                if blocks_tier(block, tiers[name]):
                    assert not any(f.left < block.right - NOISE and f.right > block.left + NOISE for f in here)


@given(jobs())
def test_the_gap_between_frames_is_the_wished_one_to_two_steps(job: MouldingFramesJob) -> None:
    step = float(job.grid.step)
    for group in laid(job).in_line:
        for filled in group.bays:
            assert all(abs(gap - group.tiers[0].gap) <= 2 * step + NOISE for gap in filled.pattern.gaps[1:-1])


@given(jobs())
def test_an_outer_frame_too_near_to_an_end_is_always_said(job: MouldingFramesJob) -> None:
    layout = laid(job)
    said = {(f.wall, f.found) for f in layout.findings if f.kind == "clear"}
    for group in layout.in_line:
        for filled in group.bays:
            for edge, gap in zip(filled.bay.ends, filled.pattern.ends, strict=True):
                if edge in ("end", "block") and gap < LEAST_CLEAR - NOISE:
                    assert (filled.bay.wall, gap) in said


@given(jobs())
def test_every_stretch_has_its_frames_or_says_that_it_has_none(job: MouldingFramesJob) -> None:
    layout = laid(job)
    assert sum(f.kind == "no room" for f in layout.findings) == sum(len(group.empty) for group in layout.in_line)


def mirrored(job: MouldingFramesJob) -> MouldingFramesJob:
    def turned(wall: FrameWall) -> FrameWall:
        return replace(
            wall,
            blocks=tuple(replace(b, left=wall.end - b.right, right=wall.end - b.left) for b in wall.blocks),
            seams=tuple(replace(s, left=wall.end - s.right, right=wall.end - s.left) for s in wall.seams),
        )

    return replace(job, walls=tuple(turned(wall) for wall in reversed(job.walls)))


@given(jobs())
def test_a_mirrored_set_mirrors_exactly_and_bought_frames_to_a_step(job: MouldingFramesJob) -> None:
    there, back = laid(job), laid(mirrored(job))
    ends = {wall.name: wall.end for wall in job.walls}
    one = sorted((f.wall, f.tier, f.left, f.width) for f in there.frames)
    other = sorted((f.wall, f.tier, ends[f.wall] - f.right, f.width) for f in back.frames)
    slack = NOISE if job.tiers[0].bought_width is None else float(job.grid.step) + NOISE
    assert [entry[:2] for entry in one] == [entry[:2] for entry in other]
    for (*_, left, width), (*_, mirrored_left, mirrored_width) in zip(one, other, strict=True):
        assert abs(left - mirrored_left) <= slack
        assert width == mirrored_width


@given(jobs(), st.integers(1, 3))
def test_a_set_of_the_same_walls_twice_gets_the_same_frames_on_both(job: MouldingFramesJob, times: int) -> None:
    again = tuple(replace(w, name=f"{w.name} again {n}") for n in range(times) for w in job.walls)
    once, more = laid(job), laid(replace(job, walls=(*job.walls, *again)))
    widths = [b.pattern.width for group in once.in_line for b in group.bays]
    assert [b.pattern.width for group in more.in_line for b in group.bays] == widths * (times + 1)
