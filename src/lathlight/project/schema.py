"""JSON Schema of the project file, for editors that complete keys and underline slips.

Made from the model: descriptions are its docstrings, lengths are text or numbers. Rules that look at several keys at
once cannot be said in it; the reader holds them.
"""

from __future__ import annotations

from typing import Any, cast

from lathlight.project.model import Project

DIALECT = "https://json-schema.org/draft/2020-12/schema"
TITLE = "Lathlight project file"
LIMITS = {  # the validator's words and the standard's
    "gt": "exclusiveMinimum",
    "ge": "minimum",
    "le": "maximum",
    "lt": "exclusiveMaximum",
}


def project_schema() -> dict[str, Any]:
    """Return the JSON Schema of the project file, draft 2020-12."""
    schema = cast("dict[str, Any]", _tidied(Project.model_json_schema(mode="validation")))
    return {"$schema": DIALECT, **schema, "title": TITLE}


def _tidied(node: object) -> object:
    """Return a part of the schema in the standard's words, without titles that only repeat keys."""
    if isinstance(node, list):
        return [_tidied(each) for each in cast("list[object]", node)]
    if not isinstance(node, dict):
        return node
    part = cast("dict[str, Any]", node)
    if _is_optional(part):
        part = _without_null(part)
    limits = {LIMITS[key]: value for key, value in part.items() if key in LIMITS}
    kept = {key: value for key, value in part.items() if key not in LIMITS and not _repeats_key(key, value)}
    return {key: _tidied(value) for key, value in kept.items()} | limits


def _repeats_key(key: str, value: object) -> bool:
    return key == "title" and isinstance(value, str)


def _is_optional(part: dict[str, Any]) -> bool:
    return {"type": "null"} in cast("list[object]", part.get("anyOf", []))


def _without_null(part: dict[str, Any]) -> dict[str, Any]:
    """Return a part that may be left out but not be null, which TOML does not have."""
    kinds = [kind for kind in part["anyOf"] if kind != {"type": "null"}]
    rest = {key: value for key, value in part.items() if key != "anyOf" and (key, value) != ("default", None)}
    return rest | (kinds[0] if len(kinds) == 1 else {"anyOf": kinds})
