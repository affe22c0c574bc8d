"""What the book's typeset pages are made of, as plain data; ``set-book.typ`` says how each looks.

No markup: every word is text, so nothing that a user typed is ever read as an instruction.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

Cell = str | int  # a whole number in a column of ticks: so many boxes to tick


@dataclass(frozen=True, slots=True, kw_only=True)
class ListColumn:
    """One column of a typeset list."""

    title: str
    kind: Literal["words", "figure", "mark", "ticks"] = "words"  # figures to the right, marks semibold
    grow: int = 0  # share of the room that is left; 0: as wide as its longest cell


@dataclass(frozen=True, slots=True, kw_only=True)
class Group:
    """Rows of a list that belong together; its heading is repeated where a page breaks it."""

    heading: str  # "" for none
    detail: str
    rows: tuple[tuple[Cell, ...], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Grid:
    """A typeset list."""

    columns: tuple[ListColumn, ...]
    groups: tuple[Group, ...]
    kind: Literal["grid"] = field(default="grid", init=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class Steps:
    """Numbered steps, each a title and lines, with a box to tick."""

    steps: tuple[Step, ...]
    kind: Literal["steps"] = field(default="steps", init=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One step of the work."""

    title: str
    lines: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Note:
    """One remark with a heading."""

    title: str
    words: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Notes:
    """Remarks one under another."""

    notes: tuple[Note, ...]
    kind: Literal["notes"] = field(default="notes", init=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class SnagNote:
    """One snag in words."""

    severity: str
    stops: bool
    check: str
    place: str
    what: str
    figures: str  # "2250 mm, at most 0 mm"
    why: str
    remedy: str


@dataclass(frozen=True, slots=True, kw_only=True)
class SnagList:
    """Snags in full, worst first."""

    snags: tuple[SnagNote, ...]
    kind: Literal["snags"] = field(default="snags", init=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class Words:
    """A paragraph."""

    words: str
    kind: Literal["words"] = field(default="words", init=False)


Block = Grid | Steps | Notes | SnagList | Words


@dataclass(frozen=True, slots=True, kw_only=True)
class Chapter:
    """A part of the book with a heading of its own."""

    title: str
    lead: str  # one line under the heading; "" for none
    blocks: tuple[Block, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Cover:
    """The first page."""

    view: str  # file of the line drawing
    view_size: tuple[float, float]  # [mm]
    figures: tuple[tuple[str, str], ...]  # label, value
    counts: str  # "1 stops the job, 2 cost money"
    worst: tuple[SnagNote, ...]
    others: int  # snags that are not on this page
    notes: str


@dataclass(frozen=True, slots=True, kw_only=True)
class DrawingPage:
    """One drawing as a whole page."""

    file: str  # "" while pages are only counted
    title: str
    size: tuple[float, float]  # [mm]


@dataclass(frozen=True, slots=True, kw_only=True)
class Manuscript:
    """All that the typesetter needs, in the order of the pages."""

    title: str
    revision: str
    date: str
    units: str
    paper: tuple[float, float]  # upright [mm]
    prose_columns: int
    standing: str
    standing_words: str
    planning_aid: str
    cover: Cover
    drawings: tuple[DrawingPage, ...]
    lists: tuple[Chapter, ...]  # across the whole page
    prose: tuple[Chapter, ...]  # in columns, on a fresh page
