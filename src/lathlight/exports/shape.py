"""The shape of ``plan.json`` as a JSON Schema (draft 2020-12).

Kept apart from the writer on purpose: a test holds every document against it, so that neither changes unseen.
"""

from __future__ import annotations

from lathlight.exports.dressing_shape import dressing_definitions, dressing_shapes
from lathlight.exports.shape_parts import (
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


def plan_schema() -> Schema:
    """Return the JSON Schema that every ``plan.json`` of version 1 keeps."""
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "Lathlight plan, version 1",
        **record(
            format={"const": "lathlight-plan"},
            version={"const": 1},
            program=TEXT,
            units=record(
                length={"const": "mm"}, area={"const": "mm2"}, mass={"const": "kg"}, angle={"const": "degree"}
            ),
            standing=TEXT,
            project=_project(),
            room=_room(),
            place=record(x=NUMBER, y=NUMBER, turn=NUMBER),
            walls=list_of(_wall(), least=1),
            corners=list_of(_corner()),
            flats=list_of(_flat(), least=1),
            members=list_of(_member()),
            corner_plates=list_of(_plate()),
            pieces=list_of(_piece()),
            openings=list_of(_opening()),
            timber=list_of(ref("cut_line")),
            panels=list_of(ref("cut_line")),
            boards=list_of(ref("packed")),
            sheets=list_of(ref("packed")),
            cut_sheets=list_of(_cut_sheet()),
            trim=_trim(),
            **dressing_shapes(),
            hardware=list_of(record(what=TEXT, name=TEXT, use=TEXT, number=COUNT, box=COUNT, boxes=COUNT)),
            quantities=list_of(record(id=TEXT, label=TEXT, value=maybe(NUMBER), unit=TEXT, working=WORKING)),
            assumed=list_of(record(place=TEXT, what=TEXT, value={"anyOf": [NUMBER, TEXT]}, unit=TEXT, working=WORKING)),
            snags=list_of(_snag()),
        ),
        "$defs": {
            "point": list_of(NUMBER, least=2, most=2),
            "place": list_of(NUMBER, least=3, most=3),
            "working": _working(),
            "end": _end(),
            "passing": record(through=TEXT, passes=TRUTH, figure=maybe(NUMBER), limit=maybe(NUMBER), how=TEXT),
            "cut_line": _cut_line(),
            "packed": _packed(),
            "saw": _saw(),
            "trim_end": _trim_end(),
            **dressing_definitions(),
        },
    }


def _working() -> Schema:
    value: Schema = {"anyOf": [NUMBER, TEXT, {"type": "null"}]}
    return record(
        ("inputs",), formula=TEXT, source=TEXT, inputs=list_of(record(name=TEXT, value=value, unit=TEXT), least=1)
    )


def _project() -> Schema:
    return record(
        title=TEXT,
        date=maybe({"type": "string", "pattern": r"^\d{4}-\d{2}-\d{2}$"}),
        revision=TEXT,
        units=one_of("metric", "imperial"),
        step=NUMBER,
        paper=one_of("A4", "A3", "Letter", "Tabloid"),
        notes=TEXT,
    )


def _room() -> Schema:
    return record(
        outline=RING,
        ceiling=NUMBER,
        doors=list_of(record(name=TEXT, clear_width=NUMBER, clear_height=NUMBER, ends=list_of(POINT, least=2, most=2))),
        pillars=list_of(record(name=TEXT, outline=RING)),
        keep_clear=list_of(record(name=TEXT, outline=RING, why=TEXT)),
    )


def _end() -> Schema:
    return record(
        kind=one_of("free", "lap", "arris", "mitre"),
        angle=NUMBER,
        neighbour=maybe(TEXT),
        frame_laps=TRUTH,
        sheet_laps=TRUTH,
        sheet_front=NUMBER,
        sheet_back=NUMBER,
        frame=NUMBER,
    )


def _wall() -> Schema:
    seam = record(id=TEXT, upright=TRUTH, at=NUMBER, low=NUMBER, high=NUMBER, parts=TRUTH, covered_by=maybe(TEXT))
    return record(
        name=TEXT,
        mark=TEXT,
        start=POINT,
        end=POINT,
        length=NUMBER,
        height=NUMBER,
        left=ref("end"),
        right=ref("end"),
        flats=list_of(TEXT, least=1),
        seams=list_of(seam),
        joints=list_of(record(id=TEXT, left=TEXT, right=TEXT, upright=TRUTH, at=NUMBER)),
        working=WORKING,
    )


def _corner() -> Schema:
    side = one_of("left", "right", "neither")
    return record(
        id=TEXT,
        left=TEXT,
        right=TEXT,
        angle=NUMBER,
        style=one_of("lap", "arris", "mitre"),
        frame_laps=side,
        sheet_laps=side,
        screws=maybe(record(name=TEXT, heights=list_of(NUMBER, least=1), from_wall=TEXT, through=TEXT, into=TEXT)),
        wedge=maybe(record(id=TEXT, outline=RING, length=NUMBER, angle=NUMBER, width=NUMBER)),
        working=WORKING,
    )


def _flat() -> Schema:
    return record(
        id=TEXT,
        wall=TEXT,
        mark=TEXT,
        frame=list_of(NUMBER, least=4, most=4),
        sheet_ends=list_of(NUMBER, least=2, most=2),
        width=NUMBER,
        height=NUMBER,
        thickness=NUMBER,
        diagonal=NUMBER,
        timber=TEXT,
        sheet=TEXT,
        through=one_of("plates", "end studs"),
        built_in_room=TRUTH,
        weight=NUMBER,
        centre_of_gravity=ref("place"),
        way_in=list_of(ref("passing")),
        standing_up=maybe(ref("passing")),
        working=WORKING,
    )


def _member() -> Schema:
    return record(
        id=TEXT,
        wall=TEXT,
        flat=TEXT,
        role=TEXT,
        mark=TEXT,
        timber=TEXT,
        length=NUMBER,
        ends=list_of(NUMBER, least=2, most=2),
        box=list_of(ref("place"), least=2, most=2),
        section=maybe(RING),
        upright=TRUTH,
        laid_flat=TRUTH,
        ripped=TRUTH,
        may_be_offcut=TRUTH,
        straightest=TRUTH,
        working=WORKING,
    )


def _plate() -> Schema:
    return record(id=TEXT, flat=TEXT, name=TEXT, outline=RING, behind=NUMBER, thickness=NUMBER)


def _piece() -> Schema:
    return record(
        id=TEXT,
        wall=TEXT,
        flat=TEXT,
        mark=TEXT,
        sheet=TEXT,
        thickness=NUMBER,
        outline=RING,
        holes=list_of(RING),
        width=NUMBER,
        height=NUMBER,
        bevel_left=NUMBER,
        bevel_right=NUMBER,
        turned=TRUTH,
        factory_edges=list_of(one_of("left", "right", "bottom", "top"), most=4),
        area=NUMBER,
        working=WORKING,
    )


def _opening() -> Schema:
    lining = record(id=TEXT, side=TEXT, length=NUMBER, depth=NUMBER, thickness=NUMBER)
    box = list_of(NUMBER, least=4, most=4)
    return record(
        id=TEXT,
        name=TEXT,
        wall=TEXT,
        flat=TEXT,
        kind=one_of("door", "window", "arch"),
        clear=box,
        rough=box,
        rise=NUMBER,
        radius=maybe(NUMBER),
        ordinates=list_of(POINT),
        strap=maybe(NUMBER),
        lining=list_of(lining),
        working=WORKING,
    )


def _cut_line() -> Schema:
    return record(
        mark=TEXT,
        what=TEXT,
        stock=TEXT,
        number=COUNT,
        length=NUMBER,
        width=maybe(NUMBER),
        ends=list_of(NUMBER, least=2, most=2),
        may_be_offcut=TRUTH,
        note=TEXT,
        ids=list_of(TEXT, least=1),
    )


def _packed() -> Schema:
    return record(
        stock=TEXT,
        length=NUMBER,
        width=maybe(NUMBER),
        number=COUNT,
        spare=COUNT,
        proven=TRUTH,
        pieces=list_of(list_of(TEXT, least=1)),
        working=WORKING,
    )


def _cut_sheet() -> Schema:
    piece = record(id=TEXT, x=NUMBER, y=NUMBER, width=NUMBER, height=NUMBER, turned=TRUTH)
    return record(sheet=TEXT, number={"type": "integer", "minimum": 1}, pieces=list_of(piece, least=1))


def _trim() -> Schema:
    meeting = record(
        left=TEXT,
        right=TEXT,
        left_line=maybe(TEXT),
        right_line=maybe(TEXT),
        angle=NUMBER,
        how=one_of("mitre", "cope", "slides past", "clear of each other", "ends alone"),
        first=maybe(TEXT),
        note=TEXT,
    )
    side = one_of("left", "right")
    strip = record(id=TEXT, piece=TEXT, start=NUMBER, end=NUMBER, length=NUMBER, section=RING, rip=NUMBER)
    return record(
        pieces=list_of(_trim_piece()),
        returns=list_of(record(id=TEXT, piece=TEXT, end=side, profile=TEXT, long_point=NUMBER, saw=ref("saw"))),
        strips=list_of(strip),
        meetings=list_of(meeting),
        order=list_of(TEXT),
        cuts=list_of(TEXT),
    ) | {"type": ["object", "null"]}


def _trim_piece() -> Schema:
    return record(
        id=TEXT,
        wall=TEXT,
        line=TEXT,
        kind=one_of("base", "rail", "picture rail", "cornice"),
        profile=TEXT,
        top=NUMBER,
        bottom=NUMBER,
        long_point=NUMBER,
        short_point=NUMBER,
        back=NUMBER,
        front=NUMBER,
        left=ref("trim_end"),
        right=ref("trim_end"),
        loose=TRUTH,
        note=TEXT,
        working=WORKING,
    )


def _saw() -> Schema:
    return record(
        mitre=NUMBER,
        bevel=NUMBER,
        swing=one_of("left", "right", "none"),
        fence=one_of("back", "bottom edge", "top edge", "outer edge"),
        kept=one_of("left", "right"),
    )


def _trim_end() -> Schema:
    return record(
        kind=one_of(
            *("inside mitre", "outside mitre", "cope", "against the wall", "against the line"),
            *("against casing", "at a joint", "scarf", "returned", "square"),
        ),
        station=NUMBER,
        back=NUMBER,
        front=NUMBER,
        slant=NUMBER,
        saw=ref("saw"),
        beyond_saw=TRUTH,
        against=TEXT,
        cope=NUMBER,
        over=TRUTH,
    )


def _snag() -> Schema:
    return record(
        id=TEXT,
        check=TEXT,
        severity={"enum": [0, 1, 2, 3]},
        severity_words=TEXT,
        place=TEXT,
        what=TEXT,
        figure=maybe(NUMBER),
        limit=maybe(NUMBER),
        unit=TEXT,
        remedy=TEXT,
        working=WORKING,
    )
