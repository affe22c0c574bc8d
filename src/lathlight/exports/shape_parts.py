"""What the JSON Schema of ``plan.json`` is put together from: plain shapes, records, lists."""

from __future__ import annotations

from typing import Any

Schema = dict[str, Any]

TEXT: Schema = {"type": "string"}
NUMBER: Schema = {"type": "number"}
COUNT: Schema = {"type": "integer", "minimum": 0}
TRUTH: Schema = {"type": "boolean"}


def maybe(schema: Schema) -> Schema:
    """Return what may be null instead."""
    return {"anyOf": [schema, {"type": "null"}]}


def list_of(of: Schema, *, least: int = 0, most: int | None = None) -> Schema:
    """Return a list of so many of one thing."""
    schema: Schema = {"type": "array", "items": of, "minItems": least}
    return schema if most is None else schema | {"maxItems": most}


def record(optional: tuple[str, ...] = (), /, **fields: Schema) -> Schema:
    """Return an object with these fields and no others; `optional` ones may be left out."""
    return {
        "type": "object",
        "properties": fields,
        "required": [name for name in fields if name not in optional],
        "additionalProperties": False,
    }


def ref(name: str) -> Schema:
    """Return a shape that the schema defines by name."""
    return {"$ref": f"#/$defs/{name}"}


def one_of(*words: str) -> Schema:
    """Return one of these words."""
    return {"enum": list(words)}


POINT = ref("point")
RING = list_of(POINT, least=3)
WORKING = ref("working")
BOX = list_of(NUMBER, least=4, most=4)  # left, bottom, right, top, wall axes
