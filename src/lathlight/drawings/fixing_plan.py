"""Fixing plan: every wall from the front with its screws, beads, brads and joints, and a legend of the marks.

Counts and places are the plan's own, so that what is drawn is what is bought. Where the set stands near the room's
wall, bumpers have a page of their own, made by ``bumper_plan``.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from lathlight.drawings.bumper_plan import bumper_pages
from lathlight.drawings.composing import Drawing, drawing_page
from lathlight.drawings.dims import level_chains
from lathlight.drawings.fixing_heads import call_outs, face_entries, face_marks, held_of, obstacles, sheet_rows
from lathlight.drawings.fixing_joints import (
    corner_figures,
    joined_of,
    joint_boxes,
    joint_entries,
    joint_figures,
    joint_listing,
    joint_marks,
)
from lathlight.drawings.fixing_marks import legend
from lathlight.drawings.labels import Taken
from lathlight.drawings.listing import Listing
from lathlight.drawings.tables import Column
from lathlight.drawings.views import bounds, make_view
from lathlight.units import drawing_mass, format_length

if TYPE_CHECKING:
    from lathlight.carpentry import BuiltWall
    from lathlight.drawings.composing import Setting
    from lathlight.drawings.fixing_heads import Held
    from lathlight.drawings.sheets import Item, Page, View
    from lathlight.plan import Plan
    from lathlight.units import LengthStyle

LARGEST = {"A4": 16.0, "Letter": 16.0, "A3": 8.0, "Tabloid": 8.0}  # walls are drawn no larger: 16 is 1:16
GOOD = 25.0  # and are large enough at this to have their tables beside them
LEGEND_DROP = 4.0  # from the drawing to its legend [mm of paper]
LEGEND_WIDTH = 110.0  # least width of its rows [mm of paper]


def fixing_pages(plan: Plan, setting: Setting) -> tuple[Page, ...]:
    """Return a page for every wall, left to right, then one of the bumpers where there are any."""
    pages: list[Page] = []
    for wall in plan.walls:

        def draw(scale: float, name: str = wall.name) -> View:
            return fixing_view(plan, name, scale=scale)

        pages += drawing_page(
            Drawing(draw=draw, size=(wall.length, wall.height), largest=LARGEST[setting.heading.paper], good=GOOD),
            name=f"fixing-{wall.mark}",
            title=f"Fixing of wall {wall.mark}, {wall.name}",
            setting=setting,
            listings=fixing_listings(plan, wall),
            notes=fixing_notes(plan, held_of(plan, wall)),
        )
    return (*pages, *bumper_pages(plan, setting))


def fixing_view(plan: Plan, wall: str, *, scale: float) -> View:
    """Return one wall from the front with all that holds it.

    Parameters
    ----------
    plan
        The plan.
    wall
        Name of the wall.
    scale
        Model mm for one mm of paper.
    """
    style = plan.brief.style
    built = next(each for each in plan.walls if each.name == wall)
    held, joined = held_of(plan, built), joined_of(plan, built)
    items: list[Item] = [*face_marks(held, scale), *joint_marks(joined, scale)]
    items += corner_figures(joined, style, scale)
    joints = [joint.at for joint in built.joints if joint.upright]
    items += level_chains([[0.0, *joints, built.length]], edge_y=0.0, below=True, scale=scale, style=style)
    taken = Taken(items, scale=scale)
    hard, soft = obstacles(held, scale)
    taken.block([*hard, *joint_boxes(joined, scale)])
    uncovered = Taken([], scale=scale)
    uncovered.block(soft)
    items += joint_figures(joined, taken, uncovered, style, scale)
    items += call_outs(held, taken, uncovered, style, scale)
    (left, foot), (right, _) = bounds(items, scale=scale)
    entries = [*face_entries(held, scale), *joint_entries(joined, scale)]
    width = max((right - left) / scale, LEGEND_WIDTH)
    items += legend(entries, at=(left, foot - LEGEND_DROP * scale), width=width, scale=scale)
    title = f"Wall {built.mark}, {wall}: fixing, from the front"
    return make_view(name=f"fixing-{built.mark}", title=title, scale=scale, items=items)


def fixing_listings(plan: Plan, wall: BuiltWall) -> list[Listing]:
    """Return the tables of one wall: its sheets, its joints and corners."""
    style = plan.brief.style
    joints = joint_listing(joined_of(plan, wall), style)
    return [_sheet_listing(held_of(plan, wall), style), *([] if joints is None else [joints])]


def _sheet_listing(held: Held, style: LengthStyle) -> Listing:
    columns = (
        Column(heading="Piece", width=18),
        Column(heading="Heads covered", width=28),
        Column(heading="Heads filled", width=28),
        Column(heading="Bead", width=20, align="right"),
        Column(heading="Held meanwhile by", width=38),
        Column(heading="For", width=16, align="right"),
    )
    rows = sheet_rows(held, style)
    used = [k for k in range(len(columns)) if any(row[k] for row in rows)]
    return Listing(
        title=f"How the sheets of wall {held.wall.mark} are held",
        columns=tuple(columns[k] for k in used),
        rows=tuple(tuple(row[k] for k in used) for row in rows),
    )


def fixing_notes(plan: Plan, held: Held) -> tuple[str, ...]:
    """Return what goes with every fixing page: where heights count from, spacings, the day of most weights."""
    rules, style = plan.brief.fixing, plan.brief.style
    notes = ["Seen from the front; flats are joined from the back. Heights are from the flats' foot."]
    spacings: list[str] = []
    if held.heads or held.screws:
        spacings.append(f"screws at most {format_length(rules.screw_spacing, style=style)} apart")
    if any(each.shot for each in held.mouldings):
        spacings.append(f"brads about {format_length(rules.brad_spacing, style=style)} apart")
    if spacings:
        words = ", ".join(spacings)
        notes.append(f"{words[0].upper()}{words[1:]}: every one is drawn where it goes.")
    taped = [each for each in held.mouldings if each.held.startswith("glue")]
    if taped:
        notes.append("Mouldings without brads are glued, and taped until the glue has set.")
    busiest = plan.fixing.busiest
    if busiest is not None and any(sheet.beads for sheet in held.sheets):
        notes.append(
            f"Most weights stand on day {busiest.day}: {busiest.number} × {rules.weight.name}, "
            f"{drawing_mass(busiest.mass, style)} in all. Low, spread on battens, never where they can slide."
        )
    return tuple(notes)
