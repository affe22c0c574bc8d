"""The shape of ``plan.json`` as a JSON Schema (draft 2020-12).

Kept apart from the writer on purpose: a test holds every document against it, so that neither changes unseen.
"""

from __future__ import annotations

from typing import Any

Schema = dict[str, Any]

TEXT: Schema = {"type": "string"}
NUMBER: Schema = {"type": "number"}
COUNT: Schema = {"type": "integer", "minimum": 0}
TRUTH: Schema = {"type": "boolean"}


def _maybe(schema: Schema) -> Schema:
    return {"anyOf": [schema, {"type": "null"}]}


def _list(of: Schema, *, least: int = 0, most: int | None = None) -> Schema:
    schema: Schema = {"type": "array", "items": of, "minItems": least}
    return schema if most is None else schema | {"maxItems": most}


def _record(optional: tuple[str, ...] = (), /, **fields: Schema) -> Schema:
    return {
        "type": "object",
        "properties": fields,
        "required": [name for name in fields if name not in optional],
        "additionalProperties": False,
    }


def _ref(name: str) -> Schema:
    return {"$ref": f"#/$defs/{name}"}


def _one_of(*words: str) -> Schema:
    return {"enum": list(words)}


POINT = _ref("point")
RING = _list(POINT, least=3)
WORKING = _ref("working")


def plan_schema() -> Schema:
    """Return the JSON Schema that every ``plan.json`` of version 1 keeps."""
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "Lathlight plan, version 1",
        **_record(
            format={"const": "lathlight-plan"},
            version={"const": 1},
            program=TEXT,
            units=_record(
                length={"const": "mm"}, area={"const": "mm2"}, mass={"const": "kg"}, angle={"const": "degree"}
            ),
            standing=TEXT,
            project=_project(),
            room=_room(),
            place=_record(x=NUMBER, y=NUMBER, turn=NUMBER),
            walls=_list(_wall(), least=1),
            corners=_list(_corner()),
            flats=_list(_flat(), least=1),
            members=_list(_member()),
            corner_plates=_list(_plate()),
            pieces=_list(_piece()),
            openings=_list(_opening()),
            timber=_list(_ref("cut_line")),
            panels=_list(_ref("cut_line")),
            boards=_list(_ref("packed")),
            sheets=_list(_ref("packed")),
            cut_sheets=_list(_cut_sheet()),
            trim=_trim(),
            hardware=_list(_record(what=TEXT, name=TEXT, use=TEXT, number=COUNT, box=COUNT, boxes=COUNT)),
            quantities=_list(_record(id=TEXT, label=TEXT, value=_maybe(NUMBER), unit=TEXT, working=WORKING)),
            assumed=_list(_record(place=TEXT, what=TEXT, value={"anyOf": [NUMBER, TEXT]}, unit=TEXT, working=WORKING)),
            snags=_list(_snag()),
        ),
        "$defs": {
            "point": _list(NUMBER, least=2, most=2),
            "place": _list(NUMBER, least=3, most=3),
            "working": _working(),
            "end": _end(),
            "passing": _record(through=TEXT, passes=TRUTH, figure=_maybe(NUMBER), limit=_maybe(NUMBER), how=TEXT),
            "cut_line": _cut_line(),
            "packed": _packed(),
            "saw": _saw(),
            "trim_end": _trim_end(),
        },
    }


def _working() -> Schema:
    value: Schema = {"anyOf": [NUMBER, TEXT, {"type": "null"}]}
    return _record(
        ("inputs",), formula=TEXT, source=TEXT, inputs=_list(_record(name=TEXT, value=value, unit=TEXT), least=1)
    )


def _project() -> Schema:
    return _record(
        title=TEXT,
        date=_maybe({"type": "string", "pattern": r"^\d{4}-\d{2}-\d{2}$"}),
        revision=TEXT,
        units=_one_of("metric", "imperial"),
        step=NUMBER,
        paper=_one_of("A4", "A3", "Letter", "Tabloid"),
        notes=TEXT,
    )


def _room() -> Schema:
    return _record(
        outline=RING,
        ceiling=NUMBER,
        doors=_list(_record(name=TEXT, clear_width=NUMBER, clear_height=NUMBER, ends=_list(POINT, least=2, most=2))),
        pillars=_list(_record(name=TEXT, outline=RING)),
        keep_clear=_list(_record(name=TEXT, outline=RING, why=TEXT)),
    )


def _end() -> Schema:
    return _record(
        kind=_one_of("free", "lap", "arris", "mitre"),
        angle=NUMBER,
        neighbour=_maybe(TEXT),
        frame_laps=TRUTH,
        sheet_laps=TRUTH,
        sheet_front=NUMBER,
        sheet_back=NUMBER,
        frame=NUMBER,
    )


def _wall() -> Schema:
    seam = _record(id=TEXT, upright=TRUTH, at=NUMBER, low=NUMBER, high=NUMBER, parts=TRUTH, covered_by=_maybe(TEXT))
    return _record(
        name=TEXT,
        mark=TEXT,
        start=POINT,
        end=POINT,
        length=NUMBER,
        height=NUMBER,
        left=_ref("end"),
        right=_ref("end"),
        flats=_list(TEXT, least=1),
        seams=_list(seam),
        joints=_list(_record(id=TEXT, left=TEXT, right=TEXT, upright=TRUTH, at=NUMBER)),
        working=WORKING,
    )


def _corner() -> Schema:
    side = _one_of("left", "right", "neither")
    return _record(
        id=TEXT,
        left=TEXT,
        right=TEXT,
        angle=NUMBER,
        style=_one_of("lap", "arris", "mitre"),
        frame_laps=side,
        sheet_laps=side,
        screws=_maybe(_record(name=TEXT, heights=_list(NUMBER, least=1), from_wall=TEXT, through=TEXT, into=TEXT)),
        wedge=_maybe(_record(id=TEXT, outline=RING, length=NUMBER, angle=NUMBER, width=NUMBER)),
        working=WORKING,
    )


def _flat() -> Schema:
    return _record(
        id=TEXT,
        wall=TEXT,
        mark=TEXT,
        frame=_list(NUMBER, least=4, most=4),
        sheet_ends=_list(NUMBER, least=2, most=2),
        width=NUMBER,
        height=NUMBER,
        thickness=NUMBER,
        diagonal=NUMBER,
        timber=TEXT,
        sheet=TEXT,
        through=_one_of("plates", "end studs"),
        built_in_room=TRUTH,
        weight=NUMBER,
        centre_of_gravity=_ref("place"),
        way_in=_list(_ref("passing")),
        standing_up=_maybe(_ref("passing")),
        working=WORKING,
    )


def _member() -> Schema:
    return _record(
        id=TEXT,
        wall=TEXT,
        flat=TEXT,
        role=TEXT,
        mark=TEXT,
        timber=TEXT,
        length=NUMBER,
        ends=_list(NUMBER, least=2, most=2),
        box=_list(_ref("place"), least=2, most=2),
        section=_maybe(RING),
        upright=TRUTH,
        laid_flat=TRUTH,
        ripped=TRUTH,
        may_be_offcut=TRUTH,
        straightest=TRUTH,
        working=WORKING,
    )


def _plate() -> Schema:
    return _record(id=TEXT, flat=TEXT, name=TEXT, outline=RING, behind=NUMBER, thickness=NUMBER)


def _piece() -> Schema:
    return _record(
        id=TEXT,
        wall=TEXT,
        flat=TEXT,
        mark=TEXT,
        sheet=TEXT,
        thickness=NUMBER,
        outline=RING,
        holes=_list(RING),
        width=NUMBER,
        height=NUMBER,
        bevel_left=NUMBER,
        bevel_right=NUMBER,
        turned=TRUTH,
        factory_edges=_list(_one_of("left", "right", "bottom", "top"), most=4),
        area=NUMBER,
        working=WORKING,
    )


def _opening() -> Schema:
    lining = _record(id=TEXT, side=TEXT, length=NUMBER, depth=NUMBER, thickness=NUMBER)
    box = _list(NUMBER, least=4, most=4)
    return _record(
        id=TEXT,
        name=TEXT,
        wall=TEXT,
        flat=TEXT,
        kind=_one_of("door", "window", "arch"),
        clear=box,
        rough=box,
        rise=NUMBER,
        radius=_maybe(NUMBER),
        ordinates=_list(POINT),
        strap=_maybe(NUMBER),
        lining=_list(lining),
        working=WORKING,
    )


def _cut_line() -> Schema:
    return _record(
        mark=TEXT,
        what=TEXT,
        stock=TEXT,
        number=COUNT,
        length=NUMBER,
        width=_maybe(NUMBER),
        ends=_list(NUMBER, least=2, most=2),
        may_be_offcut=TRUTH,
        note=TEXT,
        ids=_list(TEXT, least=1),
    )


def _packed() -> Schema:
    return _record(
        stock=TEXT,
        length=NUMBER,
        width=_maybe(NUMBER),
        number=COUNT,
        spare=COUNT,
        proven=TRUTH,
        pieces=_list(_list(TEXT, least=1)),
        working=WORKING,
    )


def _cut_sheet() -> Schema:
    piece = _record(id=TEXT, x=NUMBER, y=NUMBER, width=NUMBER, height=NUMBER, turned=TRUTH)
    return _record(sheet=TEXT, number={"type": "integer", "minimum": 1}, pieces=_list(piece, least=1))


def _trim() -> Schema:
    meeting = _record(
        left=TEXT,
        right=TEXT,
        left_line=_maybe(TEXT),
        right_line=_maybe(TEXT),
        angle=NUMBER,
        how=_one_of("mitre", "cope", "slides past", "clear of each other", "ends alone"),
        first=_maybe(TEXT),
        note=TEXT,
    )
    side = _one_of("left", "right")
    strip = _record(id=TEXT, piece=TEXT, start=NUMBER, end=NUMBER, length=NUMBER, section=RING, rip=NUMBER)
    return _record(
        pieces=_list(_trim_piece()),
        returns=_list(_record(id=TEXT, piece=TEXT, end=side, profile=TEXT, long_point=NUMBER, saw=_ref("saw"))),
        strips=_list(strip),
        meetings=_list(meeting),
        order=_list(TEXT),
        cuts=_list(TEXT),
    ) | {"type": ["object", "null"]}


def _trim_piece() -> Schema:
    return _record(
        id=TEXT,
        wall=TEXT,
        line=TEXT,
        kind=_one_of("base", "rail", "picture rail", "cornice"),
        profile=TEXT,
        top=NUMBER,
        bottom=NUMBER,
        long_point=NUMBER,
        short_point=NUMBER,
        back=NUMBER,
        front=NUMBER,
        left=_ref("trim_end"),
        right=_ref("trim_end"),
        loose=TRUTH,
        note=TEXT,
        working=WORKING,
    )


def _saw() -> Schema:
    return _record(
        mitre=NUMBER,
        bevel=NUMBER,
        swing=_one_of("left", "right", "none"),
        fence=_one_of("back", "bottom edge", "top edge"),
        kept=_one_of("left", "right"),
    )


def _trim_end() -> Schema:
    return _record(
        kind=_one_of(
            *("inside mitre", "outside mitre", "cope", "against the wall", "against the line"),
            *("against casing", "at a joint", "scarf", "returned", "square"),
        ),
        station=NUMBER,
        back=NUMBER,
        front=NUMBER,
        slant=NUMBER,
        saw=_ref("saw"),
        beyond_saw=TRUTH,
        against=TEXT,
        cope=NUMBER,
        over=TRUTH,
    )


def _snag() -> Schema:
    return _record(
        id=TEXT,
        check=TEXT,
        severity={"enum": [0, 1, 2, 3]},
        severity_words=TEXT,
        place=TEXT,
        what=TEXT,
        figure=_maybe(NUMBER),
        limit=_maybe(NUMBER),
        unit=TEXT,
        remedy=TEXT,
        working=WORKING,
    )
