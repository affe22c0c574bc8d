"""A new project file: from the answers to the plain questions, or from a demo set.

Decides what the file says and how it explains itself. Which questions there are is left to ``lathlight.app.answers``.
"""

from __future__ import annotations

import json
import re
import unicodedata
from typing import TYPE_CHECKING

from lathlight.app.answers import style_of, wall_names
from lathlight.app.open import brief_of_text
from lathlight.app.save import write_file
from lathlight.app.sketch import BOX, PLAIN, sketch_plan

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping
    from pathlib import Path

_PORTS = (f"{port}{number}" for port in ("com", "lpt") for number in range(10))
RESERVED = frozenset(("con", "prn", "aux", "nul", *_PORTS))  # no file names on Windows

_HEAD = """\
# {title}: a project file of Lathlight. Change a figure, save, and plan again:
#
#     lathlight plan {file}
#
# Lengths may be written as {lengths}. Angles are degrees, weights {weights}.
# Whatever stands after a # is a remark. lathlight schema tells an editor every key there is.
format = 1

[project]
title = {quoted_title}
units = "{units}"
# date = 2030-01-31 # printed in every title block
"""

_ROOM = """
[room] # seen from the camera, which stands at the front
width = "{room width}"
depth = "{room depth}"
ceiling = "{ceiling}"

[[room.doors]] # every part has to come in through here
name = "door"
clear_width = "{door width}"
clear_height = "{door height}"
side = "front" # or back, left, right
"""

_SET = """
[set]
height = "{height}"
sheet = {sheet} # lathlight catalog lists the others
framing = {timber}
"""

_OPENING = """
# An opening in the wall above; take the # away to have it:
# [[walls.openings]]
# name = "window"
# kind = "window" # or door, arch
# at = "{at}" # from the wall's left end
# width = "{width}"
# height = "{opening_height}"
# sill = "{sill}"
"""

_LOOK = """
[finish]
paint = "{paint}" # lathlight catalog lists the others
colour = {colour}
coats = 2

# A line of moulding round the set; take the # away to have it:
# [[trim]]
# name = "rail"
# kind = "rail" # or base, picture rail, cornice
# profile = "{profile}"
# height = "{rail}" # of its top edge above the finished floor

# Frames of moulding on the walls, in even gaps; take the # away to have them:
# [[moulding_frames]]
# name = "panels"
# profile = "{panel}"
# bottom = "{frame_bottom}"
# top = "{frame_top}"
# gap = "{frame_gap}"

[floor]
covering = "none" # boards or vinyl; then its thickness, which raises the finished floor

[fixing]
sheets = "glue" # or screws, pins, filled where they are seen
joints = "screws" # between flats; or bolts, connectors

[[sitters]]
name = "sitter"
forward = "{forward}" # in front of the set

[[pictures]]
name = "portrait"
lens = {lens} # true focal length in mm
sensor = [24, 36] # width and height of the frame as held, in mm
framing = "{framing}"
angles = [-{swing}, {swing}] # how far the camera goes to either side, in degrees
sitters = ["sitter"]

[workshop]
people = 2
"""

_METRIC = {
    "lengths": '2200, "2.2 m" or "220 cm"',
    "weights": "kilograms",
    "at": "0.3 m",
    "width": "0.8 m",
    "opening_height": "1.1 m",
    "sill": "0.9 m",
    "profile": "rail 57",
    "rail": "0.9 m",
    "paint": "flat paint",
    "panel": "panel 30",
    "frame_bottom": "1 m",
    "frame_top": "2 m",
    "frame_gap": "0.1 m",
    "forward": "1.3 m",
}
_IMPERIAL = {
    "lengths": '"7 ft 2 1/2 in", "7ft 2 1/2" or "86 1/2 in"',
    "weights": '"44 lb" or kilograms',
    "at": "1 ft",
    "width": "2 ft 4 in",
    "opening_height": "3 ft 6 in",
    "sill": "3 ft",
    "profile": "rail 2 5-8 in",
    "rail": "3 ft",
    "paint": "flat paint US",
    "panel": "panel 1 1-8 in",
    "frame_bottom": "3 ft 4 in",
    "frame_top": "6 ft 6 in",
    "frame_gap": "4 in",
    "forward": "4 ft 3 in",
}


def compose_project(answers: Mapping[str, str], *, file: str) -> str:
    """Return the commented project file that follows from the answers, one a question.

    Raises
    ------
    InputError
        The answers do not go together; every problem is named.
    """
    metric = style_of(answers).system == "metric"
    words = {
        **answers,
        **(_METRIC if metric else _IMPERIAL),
        "file": file if " " not in file else f'"{file}"',
        "quoted_title": _quoted(answers["title"]),
        **{key: _quoted(answers[key]) for key in ("sheet", "timber", "colour")},
    }
    parts = [_HEAD, _ROOM, _SET]
    text = "".join(part.format_map(words) for part in parts)
    text += "".join(_walls(answers)) + _OPENING.format_map(words) + _LOOK.format_map(words)
    brief_of_text(text, name=file)
    return text


def sketch_answers(answers: Mapping[str, str], *, columns: int, box_lines: bool) -> str:
    """Return a small plan of the answers, drawn with the characters of a terminal.

    Raises
    ------
    InputError
        The answers do not go together.
    """
    brief = brief_of_text(compose_project(answers, file="new.toml"), name="new.toml")
    return sketch_plan(brief, columns=columns, ink=BOX if box_lines else PLAIN)


def write_project(path: Path, text: str, *, overwrite: bool) -> Path:
    """Write a project file whole; return its full path.

    Raises
    ------
    OutputError
        It is there already and may not be overwritten, or cannot be written.
    """
    return write_file(path, text.encode(), overwrite=overwrite)


def file_name(title: str) -> str:
    """Return a file name for a title that every system takes.

    Examples
    --------
    >>> file_name("Potter's corner, No. 2")
    'potters-corner-no-2.toml'
    >>> file_name("???")
    'set.toml'
    """
    plain = unicodedata.normalize("NFKD", title.casefold()).encode("ascii", "ignore").decode()
    stem = re.sub(r"[^a-z0-9]+", "-", plain.replace("'", "")).strip("-")[:60].strip("-")
    return f"set-{stem}.toml" if stem in RESERVED else f"{stem or 'set'}.toml"


def _walls(answers: Mapping[str, str]) -> Iterator[str]:
    names = wall_names(int(answers["walls"]))
    for i, name in enumerate(names, start=1):
        remark = " # from left to right" if i == 1 else ""
        yield f'\n[[walls]]{remark}\nname = "{name}"\nlength = "{answers[f"wall {i}"]}"\n'
        if i < len(names):
            yield f"angle_to_next = {answers[f'corner {i}']} # inside; 90 is square, more opens out\n"


def _quoted(text: str) -> str:
    """Return text as TOML writes it; JSON's way of quoting one printable line is the same."""
    return json.dumps(text, ensure_ascii=False)
