"""Cases of what is put on built walls: moulding frames, casing, floor, fixing, paint, on both sides of each limit."""

from __future__ import annotations

from dataclasses import replace

from tests.unit.snags.case import Case
from tests.unit.snags.dressed import (
    BOUGHT,
    CATALOG,
    DOOR,
    PANEL,
    SCREW,
    TIER,
    block,
    cased,
    edge,
    faced,
    fastener,
    fixed,
    floored,
    frame_wall,
    framed,
    gap,
    need,
    painted,
)
from tests.unit.snags.made_up import PICTURE, SHEET, SITTER

from lathlight.finishing import early_mouldings, glossy_sheen, narrow_gaps, paint_short, raw_edges
from lathlight.mouldings import SeamLine, TrimBand
from lathlight.plan import Plan

LOW = replace(TIER, name="low", top=700.0)
HIGH = replace(TIER, name="high", bottom=900.0)
FIBRE = replace(SHEET, name="Fibreboard", material="MDF")


def jointed(at: float, *, parts: bool, loose: bool = False) -> Plan:
    """One bought frame, from 100 to 700, on a wall of 800 with a seam or a joint at a place."""
    seam = SeamLine(
        name="back/joint 1-2" if parts else "back/seam 3", left=at, right=at, bottom=0.0, top=2400.0, parts=parts
    )
    return framed(frame_wall(800.0, seams=(seam,)), tiers=(replace(BOUGHT, gap=100.0, loose=loose),))


def two_walls(back: float, side: float) -> Plan:
    """Frames 1200 high on two walls, 120 mm from their ends, each alone on its wall: two would be too slim."""
    return framed(frame_wall(back), frame_wall(side, name="side"))


def under_rail(bottom: float) -> Plan:
    """A rail that begins at some height above frames which end at 1500."""
    return framed(frame_wall(800.0, bands=(TrimBand(name="rail", bottom=bottom, top=bottom + 57),)))


def stocked(longest: float) -> Plan:
    """Frames 1200 high and less wide, of a moulding that is sold in one length."""
    return framed(frame_wall(1000.0), tiers=(replace(TIER, profile=replace(PANEL, lengths=(longest,))),))


def looked_at(right: float) -> Plan:
    """A pattern round 1220 and a picture of somebody who sits so far to the right of that."""
    sitter = replace(SITTER, right=right)
    return framed(frame_wall(2440.0), pictures=(replace(PICTURE, sitter=sitter),), sitters=(sitter,))


def leaning(middle: float) -> Plan:
    """A pattern centred on a picture whose middle line meets the wall at a place; the wall's own middle is 1220."""
    return framed(frame_wall(2440.0), tiers=(replace(TIER, middles=(("back", middle),)),))


FRAME_CASES = (
    Case(
        check="frame-longer-than-stock",
        wrong=stocked(1199.0),
        place="back/panels",
        figure=1200,
        right=stocked(1200.0),
    ),
    Case(
        check="joint-through-frame",
        wrong=jointed(400.0, parts=True),
        place="back/panels",
        figure=300,
        right=jointed(400.0, parts=True, loose=True),
    ),
    Case(
        check="seam-through-frame",
        wrong=jointed(131.0, parts=False),
        place="back/panels",
        figure=31,
        right=jointed(130.0, parts=False),  # under the moulding, which is 30 mm broad
    ),
    Case(check="frame-too-near", wrong=under_rail(1539.0), place="back/panels", figure=39, right=under_rail(1540.0)),
    Case(
        check="no-room-for-frame",
        wrong=two_walls(1040, 359),
        place="side/panels",
        figure=119,  # four widths of the moulding are 120
        right=two_walls(1040, 360),
    ),
    Case(
        check="odd-frame",
        wrong=two_walls(1040, 719),
        place="side/panels",
        figure=479 / 800,
        right=two_walls(1040, 720),
    ),
    Case(
        check="bought-frame-end-gap",
        wrong=framed(frame_wall(1082.0), tiers=(BOUGHT,)),
        place="back/panels",
        figure=241,
        right=framed(frame_wall(1080.0), tiers=(BOUGHT,)),
    ),
    Case(
        check="frames-uneven",
        wrong=two_walls(1040, 1066),
        place="panels",
        figure=26,
        right=two_walls(1040, 1065),
    ),
    Case(
        check="frames-slim-or-wide",
        wrong=framed(frame_wall(785.0)),
        place="back/panels",
        figure=1200 / 545,
        right=framed(frame_wall(786.0)),
    ),
    Case(
        check="outer-gaps-differ",
        wrong=leaning(1207.0),
        place="back/panels",
        figure=26,
        right=leaning(1208.0),
    ),
    Case(
        check="tiers-not-in-line",
        wrong=framed(frame_wall(2440.0), tiers=(LOW, replace(HIGH, gap=121.0))),
        place="low|high",
        figure=1,
        right=framed(frame_wall(2440.0), tiers=(LOW, HIGH)),
    ),
    # the picture is 900 x 24/36 = 600 wide at the sitter, and 3410 / 2210 times that on the wall: 2 % are 18.5
    Case(check="pattern-off-picture", wrong=looked_at(19.0), place="back/panels", figure=19, right=looked_at(18.0)),
)
CASING_CASES = (
    Case(
        check="casing-longer-than-stock",
        wrong=cased(replace(DOOR, profile=replace(DOOR.profile, lengths=(2061.0,)))),
        place="back/hatch",
        figure=2062,
        right=cased(replace(DOOR, profile=replace(DOOR.profile, lengths=(2062.0,)))),
    ),
    Case(
        check="casing-off-the-wall",
        wrong=cased(replace(DOOR, left=61.0)),
        place="back/hatch",
        figure=1,
        right=cased(replace(DOOR, left=62.0)),
    ),
    Case(
        check="casings-overlap",
        wrong=cased(DOOR, replace(DOOR, name="arch", left=1223.0)),
        place="back/hatch",
        figure=1,
        right=cased(DOOR, replace(DOOR, name="arch", left=1224.0)),
    ),
)
FLOOR_CASES = (
    Case(
        check="floor-short-of-picture",
        wrong=floored(depth=2099.0),
        place="standing",
        figure=2099,
        right=floored(depth=2100.0),
    ),
    Case(
        check="flats-half-on-covering",
        wrong=floored(depth=2200.0, under_flats=True, width=2998.0),
        place="wall 1",
        figure=1499,
        right=floored(depth=2200.0, under_flats=True, width=3000.0),
    ),
)
FIXING_CASES = (
    Case(
        check="sheet-held-by-nothing",
        wrong=fixed(sheets="screws", fasteners=()),
        place="back",
        figure=0,
        right=fixed(sheets="glue", fasteners=()),
    ),
    Case(
        check="screw-through-skin",
        wrong=fixed(sheets="screws", fasteners=(fastener("screw", 71.0),)),
        place="back",
        figure=71,
        right=fixed(sheets="screws", fasteners=(fastener("screw", 70.0),)),  # 9 and 63, less 2
    ),
    Case(
        check="joint-fastener-too-short",
        wrong=fixed(fasteners=(fastener("screw", 49.0),)),
        place="back/joint 1-2",
        figure=49,
        right=fixed(fasteners=(SCREW,)),  # 38 and 12
    ),
    Case(
        check="trim-not-held",
        wrong=fixed(block(400, 800, loose=True), fasteners=(SCREW,)),  # over the stud from 591 to 629
        place="back/rail",
        figure=1,
        right=fixed(block(0, 800, loose=True), fasteners=(SCREW,)),  # and over the end stud
    ),
    Case(
        check="brad-through-skin",
        wrong=fixed(block(100, 140, upright=True, z0=500, z1=1500), fasteners=(SCREW, fastener("brad", 28.0))),
        place="set",
        figure=28,
        right=fixed(block(100, 140, upright=True, z0=500, z1=1500), fasteners=(SCREW, fastener("brad", 27.0))),
    ),
)
PAINT_CASES = (
    Case(
        check="gap-narrower-than-brush",
        wrong=painted(*narrow_gaps([gap(24.0)])),
        place="back",
        figure=24,
        right=painted(*narrow_gaps([gap(25.0)])),
    ),
    Case(
        check="mouldings-before-paint",
        wrong=painted(*early_mouldings([gap(99.0)], mouldings="after fixing")),
        place="back",
        figure=99,
        right=painted(*early_mouldings([gap(100.0)], mouldings="after fixing")),
    ),
    Case(
        check="glossy-under-flash",
        wrong=painted(*glossy_sheen(CATALOG.paints["eggshell paint"], flashed=True)),
        place="eggshell paint",
        figure=2,
        right=painted(*glossy_sheen(CATALOG.paints["matt paint"], flashed=True)),
    ),
    Case(
        check="paint-short",
        wrong=painted(*paint_short(need(2.0), have=1.99)),
        place="matt paint",
        figure=1.99,
        right=painted(*paint_short(need(2.0), have=2.0)),
    ),
    Case(
        check="raw-edge",
        wrong=painted(*raw_edges([edge(1220.0)])),
        place="set",
        figure=1220,
        right=painted(*raw_edges([edge(1220.0, painted=True)])),
    ),
    Case(
        check="painted-one-side",
        wrong=faced(replace(FIBRE, thickness=6.0)),
        place="Fibreboard",
        figure=6,
        right=faced(replace(FIBRE, thickness=5.9)),
    ),
)
DRESSED_CASES = (*FRAME_CASES, *CASING_CASES, *FLOOR_CASES, *FIXING_CASES, *PAINT_CASES)
