"""Standing words of the book, and the words for dates, figures and snags.

Cautions defer to local codes, the makers and competent people; they never approve anything.
"""

from __future__ import annotations

import math
from collections import Counter
from typing import TYPE_CHECKING

from lathlight.book.blocks import Grid, Group, ListColumn, Note, SnagNote
from lathlight.exports import amount_words, figure_words, working_words
from lathlight.project import assumptions
from lathlight.snags import Severity
from lathlight.units import format_angle
from lathlight.working import COMMON_PRACTICE, GEOMETRY

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Iterator, Mapping, Sequence

    from lathlight.plan import Plan
    from lathlight.project import Assumption
    from lathlight.snags import Snag
    from lathlight.units import LengthStyle
    from lathlight.working import Working

HOW_CUT = (
    "All pieces come out of these boards and sheets with the kerf of the saw. Where that is proven, nothing that costs "
    "less will do; else it is said how far off it may be. Buy straight boards, and look at each before it is cut."
)
MONTHS = (
    *("January", "February", "March", "April", "May", "June"),
    *("July", "August", "September", "October", "November", "December"),
)
CAUTIONS = (
    Note(
        title="Standing walls fall",
        words="Before a wall is let go, every piece is held by people, braces, ballast or a tie at the top. Nobody "
        "stands in the line of fall. Ballast goes on before people come near the front. Look again after every move. "
        "Children, crowds, wind, leaning, ladders and hung weights change everything. In public places, outdoors, for "
        "tall walls, or where people can climb or lean on it, get a qualified person.",
    ),
    Note(
        title="Other people's buildings",
        words="Fix nothing to a building, floor or ceiling, and hang nothing overhead, without the owner's permission "
        "and a competent person's agreement. What hangs overhead needs a second fastening.",
    ),
    Note(
        title="Lifting",
        words="Weight and awkwardness both count; no set figure is a limit that protects. Carry boards on edge, two "
        "people to a sheet. Clear the path first; gloves and shoes; nobody under a board.",
    ),
    Note(
        title="Saws and nail guns",
        words="Read the manual. Guards and riving knife on; eye and ear protection, dust mask; no loose sleeves, and "
        "no gloves at a turning blade. Support the sheet, unplug before changing a blade, keep hands out of a nail "
        "gun's line and people back.",
    ),
    Note(
        title="Dust",
        words="MDF and plywood make fine dust. Take it off at the tool, wear a mask rated for fine dust, clean up with "
        "a vacuum and not with a broom.",
    ),
    Note(
        title="Adhesives, solvents, spray paint",
        words="Read labels and data sheets. Air to the outside; no flame, heater or spark. Spray outdoors or in a "
        "booth made for it. Oily rags go into a closed metal bin.",
    ),
    Note(title="Old paint, salvaged timber", words="They can hold lead and nails: test and look before cutting."),
    Note(
        title="Fire",
        words="Keep exits, alarms, extinguishers, sprinklers and panels clear. Keep materials away from hot lamps and "
        "modelling lamps; store as little scenery and plastic foam as can be. Public premises often ask for scenery of "
        "a fire class: ask the fire authority, the landlord and the insurer.",
    ),
    Note(
        title="Electricity",
        words="Tested leads, a residual-current device where required, reels unwound, no damaged plugs, no leads in a "
        "row. Wiring is for a licensed electrician. Flash heads hold a dangerous charge after they are unplugged.",
    ),
    Note(
        title="Height",
        words="Build on the floor and stand it up. Steps stand on firm level floor with somebody footing them; three "
        "points of contact; never alone.",
    ),
    Note(
        title="People on the set",
        words="Flash and flicker can affect people who are sensitive to light. Tape down leads and mark what can be "
        "tripped over. Children and animals are never left alone with a wall.",
    ),
    Note(
        title="Never alone",
        words="Lifting, standing walls up and cutting sheets take two. Insurance and venue rules may be stricter than "
        "all of this.",
    ),
)
LEADING_FIGURES = (  # quantities on the first page, in this order, with shorter labels
    ("set/length", "Wall, end to end"),
    ("set/height", "Height"),
    ("set/width", "Width in plan"),
    ("set/depth", "Depth in plan"),
    ("set/face-area", "Faced area"),
    ("set/flats", "Flats"),
    ("set/boards", ""),  # under its own name, which says whether it is proven
    ("set/sheets", ""),
    ("set/weight", "Weight of the set"),
)
ASSUMED_OF = {  # tables of the project file: heading in the list of what was assumed, and all of their entries
    "project": ("The set book and the saw", ""),
    "room/doors": ("Doors of the room", "all doors"),
    "room/way_in": ("Way in", "all stages"),
    "set": ("Where the set stands", ""),
    "set/flats": ("Limits of a flat", ""),
    "walls": ("Walls", "all walls"),
    "walls/openings": ("Openings", "all openings"),
    "trim": ("Trim", "all lines"),
    "moulding_frames": ("Moulding frames", "all tiers"),
    "floor": ("Floor covering", ""),
    "fixing": ("Fixing", ""),
    "finish": ("Finish", ""),
    "lights": ("Lights", "all lights"),
    "sitters": ("Sitters", "all sitters"),
    "pictures": ("Pictures", "all pictures"),
    "workshop": ("Crew and workshop", ""),
    "fittings": ("Fittings and fixings, from the catalogue", ""),
}
OF_CORNERS = frozenset({"set/width", "set/depth"})  # say something only where walls turn


def date_words(date: dt.date | None) -> str:
    """Return a date as 12 March 2026; nothing where there is none."""
    return f"{date.day} {MONTHS[date.month - 1]} {date.year}" if date else ""


def units_words(style: LengthStyle) -> str:
    """Return what lengths in the book are measured in."""
    return "lengths in millimetres" if style.system == "metric" else "lengths in feet and inches"


def leading_figures(plan: Plan) -> tuple[tuple[str, str], ...]:
    """Return the figures that matter as labels and values."""
    style = plan.brief.style
    found = [
        (label or quantity.label.capitalize(), figure_words(quantity.value, quantity.unit, style))
        for identity, label in LEADING_FIGURES
        if plan.corners or identity not in OF_CORNERS
        for quantity in (plan.quantity(identity),)
    ]
    found += _dressing_figures(plan)
    heaviest = max(plan.flats, key=lambda flat: (flat.weight.value, flat.id))
    found.append((f"Heaviest flat, {heaviest.mark}", figure_words(heaviest.weight.value, "kg", style)))
    if plan.corners:
        angles = " · ".join(format_angle(corner.angle) for corner in plan.corners)
        found.append(("Corners, left to right", angles))
    return tuple(found)


def _dressing_figures(plan: Plan) -> Iterator[tuple[str, str]]:
    """Yield how much moulding and paint there is, where there is any."""
    style = plan.brief.style
    runs = [row.line.net for row in plan.takeoff if row.trade == "mouldings" and row.line.unit == "m"]
    if runs:
        yield "Mouldings, as cut", amount_words(math.fsum(runs), "m", style)
    if plan.frames is not None and plan.frames.frames:
        yield "Moulding frames", str(len(plan.frames.frames))
    litres = [coating.need.gross for coating in plan.finish.coatings] if plan.finish is not None else []
    if litres:
        yield "Paint and primer, with allowances", amount_words(math.fsum(litres), "l", style)


def snag_note(snag: Snag, style: LengthStyle) -> SnagNote:
    """Return a snag in words."""
    return SnagNote(
        severity=sentence(snag.severity.words),
        stops=snag.severity is Severity.STOPS,
        check=snag.check,
        place=snag.place,
        what=snag.what,
        figures=_figures(snag, style),
        why=working_words(snag.why, style),
        remedy=snag.remedy,
    )


def _figures(snag: Snag, style: LengthStyle) -> str:
    figure, limit = (figure_words(value, snag.unit, style) for value in (snag.figure, snag.limit))
    return f"{figure}; limit {limit}" if math.isfinite(snag.limit) else figure


def snag_counts(snags: Sequence[Snag]) -> str:
    """Return how many snags there are of each severity, worst first."""
    counts = Counter(snag.severity for snag in snags)
    if not counts:
        return "No check found anything that would go wrong. What is not checked is still yours to see."
    return ", ".join(f"{counts[severity]} × {severity.words}" for severity in sorted(counts)) + "."


def assumed_list(plan: Plan) -> Grid:
    """Return every default that was filled in, table by table: what, taken as what, where, why; equal ones once."""
    counts = _entry_counts(plan)
    tables: dict[str, dict[tuple[str, str, str], list[Assumption]]] = {}
    for each in assumptions(plan.brief):
        row = (sentence(each.label), *_taken(each.why, plan.brief.style))
        tables.setdefault(each.table, {}).setdefault(row, []).append(each)
    groups = tuple(
        Group(
            heading=ASSUMED_OF[table][0],
            detail="",
            rows=tuple((what, value, _where(alike, counts), why) for (what, value, why), alike in rows.items()),
        )
        for table, rows in tables.items()
    )
    columns = (
        ListColumn(title="What", kind="mark", grow=4),
        ListColumn(title="Taken as", grow=3),
        ListColumn(title="Where", grow=3),
        ListColumn(title="Why", grow=8),
    )
    return Grid(columns=columns, groups=groups)


def _taken(why: Working, style: LengthStyle) -> tuple[str, str]:
    """Return the value and why in words; what is common practice says so in the chapter's lead, once."""
    value = "" if why.value is None else figure_words(why.value, why.unit, style)
    words = working_words(why, style)
    for source in (COMMON_PRACTICE, GEOMETRY):
        words = words.removesuffix(f" ({source})")
    return value, sentence(words)


def _entry_counts(plan: Plan) -> Mapping[str, int]:
    """Return how many entries each list of the file has."""
    brief = plan.brief
    return {
        "room/doors": len(brief.room.doors),
        "room/way_in": len(brief.room.way_in),
        "walls": len(brief.walls),
        "walls/openings": sum(len(wall.openings) for wall in brief.walls),
        "trim": len(brief.project.trim),
        "moulding_frames": len(brief.project.moulding_frames),
        "lights": len(brief.project.lights),
        "sitters": len(brief.sitters),
        "pictures": len(brief.pictures),
    }


def _where(alike: Sequence[Assumption], counts: Mapping[str, int]) -> str:
    """Return the entries that a row holds for, by their names, or all of them."""
    table = alike[0].table
    if table in counts and len(alike) == counts[table] > 1:
        return ASSUMED_OF[table][1]
    return ", ".join(" of ".join(reversed(each.entry)) for each in alike if each.entry)


def coat_words(count: int) -> str:
    """Return how many coats."""
    return "1 coat" if count == 1 else f"{count} coats"


def listed(words: Sequence[str]) -> str:
    """Return words as a list in a sentence."""
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} and {words[-1]}" if words else ""


def sentence(words: str) -> str:
    """Return words with a capital at their beginning."""
    return words[:1].upper() + words[1:]
