"""Standing words of the book, and the words for dates, figures and snags.

Cautions defer to local codes, the makers and competent people; they never approve anything.
"""

from __future__ import annotations

import math
from collections import Counter
from typing import TYPE_CHECKING

from lathlight.book.blocks import Note, SnagNote
from lathlight.exports import figure_words, working_words
from lathlight.snags import Severity
from lathlight.units import format_angle

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Sequence

    from lathlight.plan import Plan
    from lathlight.snags import Snag
    from lathlight.units import LengthStyle
    from lathlight.working import Working

STANDING = "STANDING NOT CHECKED"
STANDING_WORDS = (
    "Nothing in this book says that the set stands. Bracing, ballast and tipping have not been worked out. Standing "
    "walls fall: until it is braced and ballasted, every piece is held by people, and nobody stands where it can fall. "
    "Have the bracing planned and looked at by a competent person."
)
PLANNING_AID = (
    "Planning aid only. Not an engineering check, not legal advice. Confirm with local codes, the product makers and a "
    "competent person before building or standing anything."
)
NOT_PROVEN = (
    "Boards and sheets are counted by first fit, longest first. The counts are not proven: fewer may do. Buy straight "
    "boards, and look at each before it is cut."
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
    ("set/boards", "Boards, not proven"),
    ("set/sheets", "Sheets, not proven"),
    ("set/weight", "Weight of the set"),
)
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
        (label, figure_words(quantity.value, quantity.unit, style))
        for identity, label in LEADING_FIGURES
        if plan.corners or identity not in OF_CORNERS
        for quantity in (plan.quantity(identity),)
    ]
    heaviest = max(plan.flats, key=lambda flat: (flat.weight.value, flat.id))
    found.append((f"Heaviest flat, {heaviest.mark}", figure_words(heaviest.weight.value, "kg", style)))
    if plan.corners:
        angles = " · ".join(format_angle(corner.angle) for corner in plan.corners)
        found.append(("Corners, left to right", angles))
    return tuple(found)


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


def assumptions(plan: Plan) -> tuple[Note, ...]:
    """Return every default that was filled in, with the value, why, and the walls it holds for."""
    style = plan.brief.style
    places: dict[tuple[str, str], list[str]] = {}
    for wall in plan.brief.walls:
        for name, why in wall.assumed.items():
            places.setdefault((_label(name), _assumed_words(wall, name, why, style)), []).append(wall.name)
    found = [
        Note(title=f"{label}, {_of_walls(walls, len(plan.brief.walls))}", words=words)
        for (label, words), walls in sorted(places.items())
    ]
    limits = plan.brief.limits
    found += [
        Note(title=f"{_label(name)}, flats", words=_assumed_words(limits, name, limits.assumed[name], style))
        for name in sorted(limits.assumed)
    ]
    return tuple(found)


def _of_walls(walls: Sequence[str], count: int) -> str:
    if len(walls) == count:
        return "all walls" if count > 1 else "the wall"
    return f"wall{'s' if len(walls) > 1 else ''} {', '.join(walls)}"


def _label(name: str) -> str:
    return sentence(name.replace("_", " "))


def sentence(words: str) -> str:
    """Return words with a capital at their beginning."""
    return words[:1].upper() + words[1:]


def _assumed_words(owner: object, name: str, why: Working, style: LengthStyle) -> str:
    value = why.value if why.value is not None else getattr(owner, name, None)
    unit = why.unit or "mm"
    if isinstance(value, int | float | str) and not isinstance(value, bool):
        return f"{figure_words(value, '' if isinstance(value, str) else unit, style)}: {working_words(why, style)}"
    return working_words(why, style)
