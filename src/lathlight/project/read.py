"""Reading a project file: from bytes to a validated project, or every problem of the file at once.

Decides what is a readable file; what the tables mean is left to the model and the rules, where a key stands to
``lines``, older formats to ``upgrade``. Nothing is read that is too large, and nothing is written.
"""

from __future__ import annotations

import re
import tomllib
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from pydantic import ValidationError

from lathlight.errors import InputError, Problem, nearest
from lathlight.project.draft import draft_of, partial_draft
from lathlight.project.findings import Finding, in_file_order, step_into
from lathlight.project.lookups import lookup_findings
from lathlight.project.model import FORMAT, Project
from lathlight.project.rules import broken_rules
from lathlight.project.upgrade import format_of, is_readable, upgrade
from lathlight.project.wording import findings_of, odd_values, shown
from lathlight.units import LengthStyle

if TYPE_CHECKING:
    from collections.abc import Mapping
    from pathlib import Path

    from lathlight.catalog import Catalog

LARGEST = 1_000_000  # bytes: keeping comments takes seconds for more than that
ENDINGS = (".toml",)


@dataclass(frozen=True, slots=True, kw_only=True)
class ProjectFile:
    """A project with the text that it was read from, so that changes can be written back with comments kept."""

    project: Project
    text: str
    path: Path


def read_project(path: Path, *, catalog: Catalog | None = None) -> ProjectFile:
    """Return the project in a file.

    Parameters
    ----------
    path
        The file.
    catalog
        As :func:`parse_project`.

    Raises
    ------
    InputError
        The file is missing, a folder, unreadable, over 1 MB, not UTF-8, not TOML or of a newer format; or its tables
        cannot be used: all problems at once, in the order of the file, each with its line.
    """
    text = _decoded(_bytes(path), name=path.name)
    return ProjectFile(project=parse_project(text, name=path.name, catalog=catalog), text=text, path=path)


def parse_project(text: str, *, name: str, catalog: Catalog | None = None) -> Project:
    """Return the project in a text.

    Parameters
    ----------
    text
        TOML.
    name
        What the text is called in messages: the file's name.
    catalog
        Where the file has problems, names are looked up here as well, so that misspelt ones are told in the same
        round. None: they are left to ``resolve``, which finds the same.

    Raises
    ------
    InputError
        As :func:`read_project`.
    """
    if len(text) > LARGEST:
        raise _too_large(name, len(text))
    try:
        return _parsed(_tables(text, name=name), name=name, text=text, catalog=catalog)
    except RecursionError as error:
        remedy = "Take the tables within tables out."
        raise _one_problem(name, "tables within tables without end", "a project file", remedy) from error


def _parsed(raw: dict[str, Any], *, name: str, text: str, catalog: Catalog | None) -> Project:
    version = format_of(raw)
    if not is_readable(version):
        raise InputError(in_file_order([_other_format(version)], name=name, raw=raw, text=text))
    assert isinstance(version, int)
    return _validated(upgrade(raw, version), name=name, text=text, catalog=catalog)


def _validated(raw: Mapping[str, Any], *, name: str, text: str, catalog: Catalog | None) -> Project:
    style = style_of(raw)
    findings = list(odd_values(raw, style=style))
    project: Project | None = None
    try:
        project = Project.model_validate(raw, context={"style": style})
        draft = draft_of(project, raw=raw, style=style)
    except ValidationError as error:
        odd = {each.path for each in findings}
        findings += [each for each in findings_of(error, raw=raw, style=style) if each.path not in odd]
        draft = partial_draft(raw, style=style)
    findings += broken_rules(draft)
    if project is None or findings:
        findings += lookup_findings(draft, catalog)[1] if catalog is not None else []
        raise InputError(in_file_order(findings, name=name, raw=raw, text=text))
    return project


def style_of(raw: Mapping[str, Any]) -> LengthStyle:
    """Return the style of a file that has not been validated yet; metric where it does not say."""
    table = raw.get("project")
    units, precision = step_into(table, "units"), step_into(table, "precision")
    if units != "imperial":
        return LengthStyle.metric()
    try:
        return LengthStyle.of("imperial", precision)
    except ValueError:
        return LengthStyle.imperial()


# --- the file ------------------------------------------------------------------------------------------------------


def _bytes(path: Path) -> bytes:
    """Return a file's content, unless it is too large to be looked at."""
    name = path.name or str(path)
    try:
        if path.is_dir():
            raise _one_problem(name, "a folder", "a project file", "Name the file inside it, which ends in .toml.")
        if not path.exists():
            raise _missing(path)
        if not path.is_file():
            raise _one_problem(name, "something that is no file", "a project file", "Name a file that ends in .toml.")
        if (size := path.stat().st_size) > LARGEST:
            raise _too_large(name, size)
        return path.read_bytes()
    except PermissionError as error:
        remedy = "Change its permissions, or copy it to a folder of yours."
        raise _one_problem(name, "a file that may not be read", "a readable file", remedy) from error
    except InputError:
        raise
    except (OSError, ValueError) as error:
        raise _one_problem(name, f"a name that leads nowhere ({error})", "a project file", "Check the name.") from error


def _missing(path: Path) -> InputError:
    folder = path.parent
    files = list(folder.iterdir()) if folder.is_dir() else []
    others = {each.stem: each.name for each in files if each.suffix in ENDINGS}
    near = nearest(path.stem, others)  # without the ending, which all have in common
    otherwise = "Check the name and the folder, or start one with: lathlight new."
    remedy = f'Did you mean "{others[near]}"?' if near else otherwise
    return _one_problem(path.name, "no such file", "a project file", remedy)


def _too_large(name: str, size: int) -> InputError:
    remedy = "Split the set into several files, and keep pictures and notes elsewhere."
    return _one_problem(name, f"a file of {size / 1e6:.1f} MB", "at most 1 MB", remedy)


def _decoded(data: bytes, *, name: str) -> str:
    remedy = 'Save it as UTF-8 (in the editor: "Save as", encoding UTF-8).'
    if data.startswith((b"\xff\xfe", b"\xfe\xff")):
        raise _one_problem(f"{name}:1", "a file in UTF-16", "text in UTF-8", remedy)
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        before = data[: error.start]
        line = before.count(b"\n") + 1
        column = error.start - (before.rfind(b"\n") + 1) + 1
        found = f"byte 0x{data[error.start]:02x} at place {column} of the line, which is not UTF-8"
        raise _one_problem(f"{name}:{line}", found, "text in UTF-8", remedy) from error


# --- the notation --------------------------------------------------------------------------------------------------

_PLACE = re.compile(r" \(at (?:line (?P<line>[0-9]+), column (?P<column>[0-9]+)|end of document)\)$")
_INCH_MARK = re.compile(r"[0-9]\s*\"\"|\"[^\"]*[0-9]'[^\"]*\"\s*\"?\s*(?:#.*)?$")
_DECIMAL_COMMA = re.compile(r"=\s*[0-9]+,[0-9]+")
_BARE_VALUE = re.compile(r"=\s*(?!true\b|false\b)[A-Za-z0-9]")

NOT_TOML = {  # what the reader of the notation says, and what it means to whoever typed the line
    "Invalid value": "with a value that is neither text in quotation marks nor a number, true, false or a date",
    "overwrite a value": "whose key has a value already",
    "Cannot declare": "a table that stands twice",
    "Cannot": "which adds to a table that is whole already",
    "Duplicate inline": "with one key twice in the braces",
    "Expected newline": "with something after its end",
    "Expected '='": "a key without an equals sign",
    "Expected ']": "a table without its closing bracket",
    "Expected": "with quotation marks that are not closed",
    "Unclosed array": "the last line, with a square bracket that is not closed",
    "Unclosed inline": "with braces that are not closed",
    "Unterminated": "with quotation marks that are not closed",
    "Illegal character '\\n'": "with quotation marks that are not closed",
    "Illegal character": "with a sign that may not stand there",
    "Found invalid character": "with a sign that may not stand there",
    "Unescaped": "with a backslash that stands alone in the text",
    "Escaped character": "with a backslash that stands alone in the text",
    "Invalid hex": "with a backslash that stands alone in the text",
    "Invalid initial": "where a key should begin",
    "Invalid statement": "which begins with no key",
    "Invalid date": "with a date that no calendar has",
}


def _tables(text: str, *, name: str) -> dict[str, Any]:
    """Return the tables of a TOML text."""
    try:
        return tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise InputError([_not_toml(error, text, name)]) from error
    except RecursionError as error:
        remedy = "Close the brackets, or take the inner ones out."
        raise _one_problem(name, "brackets within brackets without end", "a TOML file", remedy) from error
    except ValueError as error:  # a whole number with thousands of digits
        raise _one_problem(name, "a number of thousands of digits", "a TOML file", "Take the number out.") from error


def _not_toml(error: tomllib.TOMLDecodeError, text: str, name: str) -> Problem:
    lines = text.splitlines() or [""]
    place = _PLACE.search(str(error))
    number = int(place["line"]) if place and place["line"] else len(lines)
    line = lines[min(number, len(lines)) - 1].strip()
    reason = _PLACE.sub("", str(error))
    words = next(
        (ours for theirs, ours in NOT_TOML.items() if theirs in reason), "which no reader of TOML can make out"
    )
    column = f", column {place['column']}" if place and place["column"] else ""
    return Problem(
        place=f"{name}:{number}{column}",
        found=f"{shown(line, style=LengthStyle.metric())}, {words}",
        expected="a line of TOML: key = value, [table] or [[table]]",
        remedy=_remedy_of_line(line, reason),
    )


def _remedy_of_line(line: str, reason: str) -> str:
    if _INCH_MARK.search(line):
        return 'An inch mark ends the text: type in and ft instead of the marks, as in "8ft 0 1/2in".'
    if _DECIMAL_COMMA.search(line):
        return 'Put a length with a comma in quotation marks and give it its unit, as in "2,44 m".'
    if "overwrite" in reason or "declare" in reason or "twice" in reason:
        return "Take one of the two lines out; tables of a list have two brackets on each side, as in [[walls]]."
    if "{" in line and "}" not in line:
        return "Close the braces on the same line, or write the entry as a table of its own, as in [[room.doors]]."
    if _BARE_VALUE.search(line):
        return 'Put text in quotation marks, as in name = "back" or length = "2.44 m".'
    return 'Mend the line; text stands in quotation marks, as in name = "back".'


def _other_format(version: object) -> Finding:
    if isinstance(version, int) and version > FORMAT:
        remedy = "The file was written by a newer program: install the newest one."
    else:
        remedy = f"Type format = {FORMAT}, or take the line out."
    return Finding(
        path=("format",),
        found=f"format {shown(version, style=LengthStyle.metric())}",
        expected=f"a format from 1 to {FORMAT}",
        remedy=remedy,
    )


def _one_problem(place: str, found: str, expected: str, remedy: str) -> InputError:
    return InputError([Problem(place=place, found=found, expected=expected, remedy=remedy)])
