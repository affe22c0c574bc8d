"""All pages of drawings of a plan, in the order in which a set is read and built.

Plan in the room, elevations, mouldings, framing of every flat, sheets, corners, fixing, trim at the corners, profiles,
marking out with the story stick, floor; the line drawing of the set is made apart, for the book's first page. What each
shows is left to its own module.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from lathlight.drawings.composing import Drawing, Setting, drawing_page, drawing_with_tables, table_pages
from lathlight.drawings.corner import corner_view
from lathlight.drawings.corner_sides import alike, corner_size
from lathlight.drawings.corner_steps import corner_notes, steps_listing
from lathlight.drawings.cuts import cut_sheets_view, piece_listing, sheet_map_view
from lathlight.drawings.elevation import strip_view, wall_view
from lathlight.drawings.fixing_plan import fixing_pages
from lathlight.drawings.floor_plan import floor_pages
from lathlight.drawings.framing import arch_listings, framing_notes, framing_view, opening_listings, timber_listing
from lathlight.drawings.iso import set_size, set_views
from lathlight.drawings.marking_out import marking_pages
from lathlight.drawings.outlines import bounds_of
from lathlight.drawings.page import view_area
from lathlight.drawings.profiles import profile_pages
from lathlight.drawings.room import room_view
from lathlight.drawings.trim_corner import trim_corner_pages
from lathlight.drawings.trim_layout import trim_layout_pages
from lathlight.drawings.way_in import places_listing, room_notes, way_in_listing
from lathlight.plan import proof_words

if TYPE_CHECKING:
    from collections.abc import Sequence

    from lathlight.carpentry import Corner, CutSheet, Flat
    from lathlight.drawings.listing import Listing
    from lathlight.drawings.sheets import Page, View
    from lathlight.plan import Plan
    from lathlight.snags import Snag

SET_PAGE = "set"  # the page of the line drawing: a file of its own, no page of the book
LARGEST = {"A4": 16.0, "Letter": 16.0, "A3": 8.0, "Tabloid": 8.0}  # flats and walls are drawn no larger: 16 is 1:16
GOOD = 25.0  # and are large enough at this
STRIP_SCALE = 50.0  # walls are unfolded into strips that still fit the page at about this scale
SHEET_SCALES = {"metric": 25.0, "imperial": 24.0}
SHEET_ROOM = (8.0, 16.0)  # what a sheet needs on paper beside itself: gap, and gap with its number [mm]
WORST = 4  # snags that stand on a drawing's own page


def drawing_pages(plan: Plan, snags: Sequence[Snag] = ()) -> tuple[Page, ...]:
    """Return every page of drawings, numbered from 0 on by the book.

    Parameters
    ----------
    plan
        What is drawn.
    snags
        Findings; those of a flat or wall stand as notes on its own page.
    """
    setting = Setting(heading=plan.brief.title, style=plan.brief.style)
    return (
        *_set_page(plan, setting),
        *_room_page(plan, setting),
        *_elevation_pages(plan, setting, snags),
        *trim_layout_pages(plan, setting),
        *_framing_pages(plan, setting, snags),
        *_sheet_pages(plan, setting, snags),
        *_corner_pages(plan, setting),
        *fixing_pages(plan, setting),
        *trim_corner_pages(plan, setting),
        *profile_pages(plan, setting),
        *(() if plan.marking is None else marking_pages(plan, plan.marking, setting)),
        *floor_pages(plan, setting),
    )


def set_drawing(plan: Plan) -> Drawing:
    """Return the line drawing of the whole set, to be fitted to any room on paper."""
    return Drawing(draw=set_views(plan), size=set_size(plan), scaled=False)


def _set_page(plan: Plan, setting: Setting) -> tuple[Page, ...]:
    return drawing_page(set_drawing(plan), name=SET_PAGE, title="The set", setting=setting)


def _room_page(plan: Plan, setting: Setting) -> tuple[Page, ...]:
    x0, y0, x1, y1 = bounds_of(plan.brief.room.outline)
    places = places_listing(plan)

    def draw(scale: float) -> View:
        return room_view(plan, scale=scale)

    return drawing_page(
        Drawing(draw=draw, size=(x1 - x0, y1 - y0)),
        name="room",
        title="Plan in the room, way in",
        setting=setting,
        listings=[way_in_listing(plan), *([places] if places else [])],
        notes=room_notes(plan),
    )


def _elevation_pages(plan: Plan, setting: Setting, snags: Sequence[Snag]) -> tuple[Page, ...]:
    pages: list[Page] = []
    if len(plan.walls) > 1:
        for names in _strips(plan, setting):
            pages += _strip_page(plan, names, setting)
    for wall in plan.walls:
        pages += _wall_page(plan, wall.name, setting, snags)
    return tuple(pages)


def _strips(plan: Plan, setting: Setting) -> list[list[str]]:
    """Return neighbouring walls in groups that fit one strip."""
    room = max(view_area(setting.heading.paper, landscape=True).size[0] - 60.0, 100.0) * STRIP_SCALE
    groups: list[list[str]] = []
    left = 0.0
    for wall in plan.walls:
        if not groups or wall.length > left:
            groups.append([])
            left = room
        groups[-1].append(wall.name)
        left -= wall.length
    return groups


def _strip_page(plan: Plan, names: Sequence[str], setting: Setting) -> tuple[Page, ...]:
    walls = [wall for wall in plan.walls if wall.name in names]

    def draw(scale: float) -> View:
        return strip_view(plan, names, scale=scale)

    whole = len(walls) == len(plan.walls)
    which = "" if whole else f" {walls[0].mark} to {walls[-1].mark}"
    return drawing_page(
        Drawing(
            draw=draw,
            size=(sum(w.length for w in walls), max(w.height for w in walls)),
            largest=LARGEST[setting.heading.paper],
        ),
        name="elevation" if whole else f"elevation-from-{walls[0].mark}",
        title=f"Elevation, walls{which} unfolded",
        setting=setting,
    )


def _wall_page(plan: Plan, name: str, setting: Setting, snags: Sequence[Snag]) -> tuple[Page, ...]:
    wall = next(each for each in plan.walls if each.name == name)

    def draw(scale: float) -> View:
        return wall_view(plan, name, scale=scale)

    return drawing_page(
        Drawing(draw=draw, size=(wall.length, wall.height), largest=LARGEST[setting.heading.paper]),
        name=f"elevation-{wall.mark}",
        title=f"Elevation of wall {wall.mark}, {name}",
        setting=setting,
        notes=_snag_notes(snags, [name]),
    )


def _framing_pages(plan: Plan, setting: Setting, snags: Sequence[Snag]) -> tuple[Page, ...]:
    """Return a page for every flat; tables that find no room there stand together after those of their wall."""
    pages: list[Page] = []
    for wall in plan.walls:
        left: list[Listing] = []
        for flat in wall.flats:
            page, rest = _framing_page(plan, flat, setting, snags)
            pages.append(page)
            left += rest
        title = f"Framing of wall {wall.mark}: tables"
        pages += table_pages(left, name=f"framing-{wall.mark}-lists", title=title, setting=setting)
    return tuple(pages)


def _framing_page(plan: Plan, flat: Flat, setting: Setting, snags: Sequence[Snag]) -> tuple[Page, tuple[Listing, ...]]:
    """Return a flat's page and those of its tables that find no room on it."""

    def draw(scale: float) -> View:
        return framing_view(plan, flat, scale=scale)

    listings = [timber_listing(plan, flat), *opening_listings(plan, flat), *arch_listings(plan, flat)]
    own = [flat.id, *(member.id for member in flat.members)]
    return drawing_with_tables(
        Drawing(draw=draw, size=(flat.width, flat.height), largest=LARGEST[setting.heading.paper], good=GOOD),
        name=f"framing-{flat.mark}",
        title=f"Framing of flat {flat.mark}, seen from behind",
        setting=setting,
        listings=listings,
        notes=[*framing_notes(plan, flat), *_snag_notes(snags, own)],
    )


def _sheet_pages(plan: Plan, setting: Setting, snags: Sequence[Snag]) -> tuple[Page, ...]:
    pages: list[Page] = []
    for wall in plan.walls:
        own = [piece.id for flat in wall.flats for piece in flat.pieces]

        def draw(scale: float, name: str = wall.name) -> View:
            return sheet_map_view(plan, name, scale=scale)

        pages += drawing_page(
            Drawing(draw=draw, size=(wall.length, wall.height), largest=LARGEST[setting.heading.paper], good=GOOD),
            name=f"sheets-{wall.mark}",
            title=f"Sheet pieces of wall {wall.mark}",
            setting=setting,
            listings=[piece_listing(plan, wall.name)],
            notes=["Two strokes and F mark a factory edge: it goes to a seam.", *_snag_notes(snags, own)],
        )
    return (*pages, *_cut_sheet_pages(plan, setting))


def _cut_sheet_pages(plan: Plan, setting: Setting) -> tuple[Page, ...]:
    """Return the sheets with what is sawn from each, as many a page as fit it."""
    groups = _sheet_groups(plan, setting)
    pages: list[Page] = []
    for number, (columns, sheets) in enumerate(groups, start=1):
        name = "cut-sheets" if len(groups) == 1 else f"cut-sheets-{number}"

        def draw(scale: float, sheets: Sequence[CutSheet] = sheets, columns: int = columns, name: str = name) -> View:
            return cut_sheets_view(plan, sheets, columns=columns, scale=scale, name=name)

        size = (sheets[0].sheet.width * columns, sheets[0].sheet.length * -(-len(sheets) // columns))
        pages += drawing_page(
            Drawing(draw=draw, size=size, largest=10.0),
            name=name,
            title="What is sawn from each sheet",
            setting=setting,
            notes=[_counted(plan, sheets[0].sheet.name)],
        )
    return tuple(pages)


def _counted(plan: Plan, stock: str) -> str:
    """Return how near the number of sheets is to the fewest."""
    words = next(proof_words(proven=p.proven, gap=p.gap) for p in plan.sheets if p.stock == stock)
    return f"Number of sheets of {stock}: {words}."


def _sheet_groups(plan: Plan, setting: Setting) -> list[tuple[int, list[CutSheet]]]:
    """Return sheets in page loads with the number of columns of each, sheet type by sheet type."""
    width, height = view_area(setting.heading.paper, landscape=False, notes=[_counted(plan, plan.sheets[0].stock)]).size
    scale = SHEET_SCALES[setting.style.system]
    groups: list[tuple[int, list[CutSheet]]] = []
    for name in dict.fromkeys(cut.sheet.name for cut in plan.cut_sheets):
        own = [cut for cut in plan.cut_sheets if cut.sheet.name == name]
        columns = max(1, int((width + SHEET_ROOM[0]) / (own[0].sheet.width / scale + SHEET_ROOM[0])))
        rows = max(1, int(height / (own[0].sheet.length / scale + SHEET_ROOM[1])))
        load = columns * rows
        for start in range(0, len(own), load):
            part = own[start : start + load]
            groups.append((min(columns, len(part)), part))
    return groups


def _corner_pages(plan: Plan, setting: Setting) -> tuple[Page, ...]:
    pages: list[Page] = []
    for first, *others in alike(plan):
        marks = [next(wall.mark for wall in plan.walls if wall.name == name) for name in (first.left, first.right)]

        def draw(scale: float, first: Corner = first, others: Sequence[Corner] = others) -> View:
            return corner_view(plan, first, scale=scale, also=[corner.id for corner in others])

        pages += drawing_page(
            Drawing(draw=draw, size=corner_size(plan, first), largest=2.0),
            name=f"corner-{'-'.join(marks)}",
            title=f"Corner {' | '.join(marks)}",
            setting=setting,
            listings=[steps_listing(plan, first, others)],
            notes=corner_notes(plan, first),
        )
    return tuple(pages)


def _snag_notes(snags: Sequence[Snag], places: Sequence[str]) -> list[str]:
    """Return the worst snags of some places as notes."""
    own = sorted((snag for snag in snags if snag.place in places), key=lambda snag: (snag.severity, snag.id))
    notes = [f"SNAG, {snag.severity.words}: {snag.what}" for snag in own[:WORST]]
    more = len(own) - WORST
    return [*notes, f"{more} more snags in the list of snags."] if more > 0 else notes
