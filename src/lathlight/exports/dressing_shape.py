"""The shape of what is put on built walls in ``plan.json``: mouldings, marking out, floor, fixing, paint, takeoff."""

from __future__ import annotations

from lathlight.exports.shape_parts import (
    BOX,
    COUNT,
    NUMBER,
    POINT,
    RING,
    TEXT,
    TRUTH,
    WORKING,
    Schema,
    list_of,
    maybe,
    one_of,
    record,
    ref,
)

SIDE = one_of("left", "right")
PLACES = list_of(NUMBER)
STRETCHES = list_of(POINT)
JOINED = one_of("screws", "bolts", "connectors")


def dressing_shapes() -> dict[str, Schema]:
    """Return the shapes of the document's keys, by key, in its order."""
    return {
        "casings": list_of(_casing()),
        "wall_ends": list_of(_wall_end()),
        "moulding_frames": _or_null(_frames()),
        "strips": list_of(_strip()),
        "marking": _or_null(_marking()),
        "floor": _or_null(_floor()),
        "fixing": _fixing(),
        "finish": _or_null(_finish()),
        "takeoff": list_of(_takeoff()),
    }


def dressing_definitions() -> dict[str, Schema]:
    """Return the shapes that others refer to by name."""
    return {
        "casing_end": record(
            kind=one_of("mitre", "on the floor", "on a plinth block", "against a corner block", "meets the curve"),
            hand=SIDE,
            slant=NUMBER,
            saw=ref("saw"),
            against=TEXT,
        ),
        "head": record(at=POINT, member=TEXT, fastener=TEXT, hidden_by=maybe(TEXT)),
    }


def _or_null(schema: Schema) -> Schema:
    return schema | {"type": ["object", "null"]}


# --- mouldings -----------------------------------------------------------------------------------------------------


def _casing() -> Schema:
    piece = record(
        id=TEXT,
        part=one_of("left leg", "right leg", "head", "bottom"),
        upright=TRUTH,
        box=BOX,
        long_point=NUMBER,
        short_point=NUMBER,
        first=ref("casing_end"),
        last=ref("casing_end"),
        working=WORKING,
    )
    block = record(
        id=TEXT,
        kind=one_of("plinth block", "corner block"),
        side=SIDE,
        box=BOX,
        thickness=NUMBER,
        working=WORKING,
    )
    curve = record(
        id=TEXT,
        centre=POINT,
        inner_radius=NUMBER,
        outer_radius=NUMBER,
        angle=NUMBER,
        length=NUMBER,
        note=TEXT,
        working=WORKING,
    )
    return record(
        wall=TEXT,
        opening=TEXT,
        kind=one_of("door", "window", "arch"),
        profile=TEXT,
        pieces=list_of(piece),
        blocks=list_of(block),
        curve=maybe(curve),
    )


def _wall_end() -> Schema:
    return record(
        id=TEXT,
        wall=TEXT,
        side=SIDE,
        finish=one_of("painted edge", "cover strip", "return"),
        at=NUMBER,
        bottom=NUMBER,
        top=NUMBER,
        width=NUMBER,
        thickness=NUMBER,
        stock=TEXT,
        note=TEXT,
        working=WORKING,
    )


def _frames() -> Schema:
    tier = record(
        name=TEXT,
        profile=maybe(TEXT),
        moulding=NUMBER,
        bottom=NUMBER,
        top=NUMBER,
        gap=NUMBER,
        end_gap=NUMBER,
        bought_width=maybe(NUMBER),
        walls=maybe(list_of(TEXT)),
        part_at_joints=TRUTH,
        loose=TRUTH,
        working=WORKING,
    )
    bay = record(wall=TEXT, tiers=list_of(TEXT, least=1), left=NUMBER, right=NUMBER, width=NUMBER, gaps=PLACES)
    frame = record(id=TEXT, wall=TEXT, tier=TEXT, left=NUMBER, bottom=NUMBER, width=NUMBER, height=NUMBER)
    return record(tiers=list_of(tier), bays=list_of(bay), frames=list_of(frame))


def _strip() -> Schema:
    return record(
        id=TEXT,
        wall=TEXT,
        use=one_of("trim", "casing", "moulding frame", "block", "wall end"),
        kind=TEXT,
        belongs_to=TEXT,
        profile=maybe(TEXT),
        upright=TRUTH,
        box=BOX,
        stands_out=NUMBER,
        loose=TRUTH,
    )


# --- marking out and floor -----------------------------------------------------------------------------------------


def _marking() -> Schema:
    height = record(
        id=TEXT,
        wall=TEXT,
        name=TEXT,
        kind=TEXT,
        edge=one_of("top edge", "bottom edge", "backing's bottom edge"),
        height=NUMBER,
        offset=NUMBER,
        above_foot=NUMBER,
        rest=NUMBER,
        stretches=STRETCHES,
    )
    flat = record(mark=TEXT, flat=TEXT, height=NUMBER, rest=NUMBER, stretches=STRETCHES, across=TRUTH)
    frame = record(
        frame=TEXT,
        flat=TEXT,
        left=maybe(NUMBER),
        right=maybe(NUMBER),
        left_along=NUMBER,
        right_along=NUMBER,
    )
    return record(
        level_line=record(height=NUMBER, above_foot=NUMBER, working=WORKING),
        rise=NUMBER,
        heights=list_of(height),
        flats=list_of(flat),
        frames=list_of(frame),
        stick=list_of(record(at=NUMBER, offset=NUMBER, names=list_of(TEXT, least=1))),
        stick_length=NUMBER,
    )


def _floor() -> Schema:
    basis = one_of("stated", "pictures", "walls")
    row = record(number=COUNT, low=NUMBER, high=NUMBER, start=NUMBER, end=NUMBER, joints=PLACES)
    return record(
        covering=TEXT,
        thickness=NUMBER,
        flats_stand_on=one_of("floor", "covering"),
        outline=RING,
        extent=BOX,
        area=NUMBER,
        gap=NUMBER,
        width_from=basis,
        depth_from=basis,
        goods=one_of("area only", "strips", "boards", "roll"),
        runs=one_of("along", "away"),
        number=maybe(COUNT),
        rows=list_of(row),
        seams=list_of(list_of(POINT, least=2, most=2)),
        seen=list_of(record(picture=TEXT, left=NUMBER, right=NUMBER, front=NUMBER)),
        working=WORKING,
    )


# --- fixing --------------------------------------------------------------------------------------------------------


def _fixing() -> Schema:
    turn = record(flat=TEXT, day=COUNT, turn=COUNT, weights=COUNT, mass=NUMBER, hours=NUMBER)
    bumper = record(
        flat=TEXT,
        wall=TEXT,
        end=one_of("left", "right", "between"),
        at=POINT,
        face=one_of("back", "end", "front"),
        near=TEXT,
        distance=NUMBER,
    )
    return record(
        sheets=list_of(_sheet_fixing()),
        mouldings=list_of(_moulding_fixing()),
        joints=list_of(_joint_fixing()),
        corners=list_of(_corner_fixing()),
        bumpers=list_of(bumper),
        gluing=list_of(turn),
        most_weights=maybe(record(day=COUNT, number=COUNT, mass=NUMBER, on=list_of(TEXT))),
        glues=list_of(record(name=TEXT, length=NUMBER, number=COUNT, working=WORKING)),
    )


def _sheet_fixing() -> Schema:
    clamping = record(
        held=one_of("weights", "pins", "temporary screws"),
        number=COUNT,
        mass=NUMBER,
        hours=NUMBER,
        glue=TEXT,
        working=WORKING,
    )
    return record(
        piece=TEXT,
        wall=TEXT,
        flat=TEXT,
        held=one_of("glue", "screws", "pins"),
        heads=list_of(ref("head")),
        beads=list_of(record(member=TEXT, line=list_of(POINT, least=2, most=2))),
        clamping=maybe(clamping),
        working=WORKING,
    )


def _moulding_fixing() -> Schema:
    return record(
        strip=TEXT,
        wall=TEXT,
        belongs_to=TEXT,
        held=one_of("brads", "screws that come out", "glue, taped until it sets", "nothing"),
        glue=NUMBER,
        hours=NUMBER,
        brads=list_of(record(at=POINT, member=maybe(TEXT), fastener=maybe(TEXT))),
        screws=list_of(ref("head")),
        note=TEXT,
    )


def _joint_fixing() -> Schema:
    return record(
        joint=TEXT,
        wall=TEXT,
        upright=TRUTH,
        at=NUMBER,
        joined=JOINED,
        hardware=maybe(TEXT),
        places=PLACES,
        through=TEXT,
        into=TEXT,
        temporary=PLACES,
        working=WORKING,
    )


def _corner_fixing() -> Schema:
    return record(
        corner=TEXT,
        joined=JOINED,
        hardware=maybe(TEXT),
        heights=PLACES,
        through=TEXT,
        into=TEXT,
        wedge=maybe(TEXT),
        temporary=PLACES,
        working=WORKING,
    )


# --- paint and takeoff ---------------------------------------------------------------------------------------------


def _finish() -> Schema:
    gap = record(wall=TEXT, between=list_of(TEXT, least=2, most=2), width=NUMBER, length=NUMBER, at=POINT)
    return record(
        mouldings_painted=one_of("before fixing", "after fixing"),
        brushwork=NUMBER,
        areas=list_of(_paint_area()),
        coatings=list_of(_coating()),
        schedule=list_of(_finish_step()),
        tools=list_of(record(wall=TEXT, roller=NUMBER, brush=NUMBER)),
        gaps=list_of(gap),
    )


def _paint_area() -> Schema:
    return record(
        id=TEXT,
        wall=TEXT,
        kind=one_of("face", "joint edge", "opening edge", "top edge", "wall end", "reveal", "back", "moulding"),
        of=one_of("sheet", "sheet edge", "timber", "moulding"),
        material=TEXT,
        area=NUMBER,
        length=NUMBER,
        raw=TRUTH,
        painted=TRUTH,
        working=WORKING,
    )


def _coating() -> Schema:
    return record(
        coating=TEXT,
        sheen=TEXT,
        coats=COUNT,
        area=NUMBER,
        net=NUMBER,
        allowances=list_of(record(reason=TEXT, litres=NUMBER, kept=TRUTH)),
        gross=NUMBER,
        tins=list_of(record(size=NUMBER, number=COUNT)),
        at_hand=TRUTH,
        note=TEXT,
        working=WORKING,
    )


def _finish_step() -> Schema:
    return record(
        number=COUNT,
        surface=TEXT,
        of=TEXT,
        area=NUMBER,
        length=NUMBER,
        coating=TEXT,
        coats=COUNT,
        tool=one_of("roller", "brush"),
        sheen=TEXT,
        note=TEXT,
    )


def _takeoff() -> Schema:
    return record(
        trade=one_of("timber", "sheets", "mouldings", "fixing", "floor", "paint"),
        item=TEXT,
        unit=one_of("", "l", "m", "m2"),
        net=NUMBER,
        allowance=NUMBER,
        reason=TEXT,
        gross=NUMBER,
        packs=list_of(record(size=NUMBER, unit=one_of("mm", "l", ""), number=COUNT)),
        size=maybe(list_of(NUMBER, least=2, most=2)),
        working=WORKING,
    )
