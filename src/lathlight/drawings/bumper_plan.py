"""Where soft pads keep the set off the room: a small plan of the set in it, numbered, and the table of the pads."""

from __future__ import annotations

from typing import TYPE_CHECKING

from lathlight.drawings.composing import Drawing, drawing_page
from lathlight.drawings.in_plan import wall_items
from lathlight.drawings.labels import Taken
from lathlight.drawings.listing import Listing
from lathlight.drawings.outlines import bounds_of
from lathlight.drawings.sheets import Line, Path, Pen, Tone
from lathlight.drawings.shell import area_items, shell_items
from lathlight.drawings.tables import Column
from lathlight.drawings.text import CAP, make_text
from lathlight.drawings.views import make_view
from lathlight.drawings.way_in import cut_height
from lathlight.units import drawing_length

if TYPE_CHECKING:
    from lathlight.drawings.composing import Setting
    from lathlight.drawings.sheets import Item, Page, Point, View
    from lathlight.fixing import Bumper
    from lathlight.plan import Plan

SPOT = 0.9  # half the side of a pad's mark [mm of paper]
FIGURE = 3.0  # [mm of paper]
OUT = (4.0, 6.5, 9.0, 12.0)  # from the face to its number, where that is free [mm of paper]
SHIFTS = (0.0, -2.5, 2.5, -5.0, 5.0, -7.5, 7.5)  # and along it
CAUTION = "Pads keep paint and wall apart; they hold nothing up."


def bumper_pages(plan: Plan, setting: Setting) -> tuple[Page, ...]:
    """Return the page of the bumpers; none where the set stands clear of the room."""
    if not plan.fixing.bumpers:
        return ()
    x0, y0, x1, y1 = bounds_of(plan.brief.room.outline)

    def draw(scale: float) -> View:
        return bumper_view(plan, scale=scale)

    return drawing_page(
        Drawing(draw=draw, size=(x1 - x0, y1 - y0), largest=25.0, good=50.0),
        name="bumpers",
        title="Bumpers, where the set stands near the room",
        setting=setting,
        listings=[bumper_listing(plan)],
        notes=["Heights are from the flats' foot, distances from the flat to what it is near.", CAUTION],
    )


def bumper_view(plan: Plan, *, scale: float) -> View:
    """Return the set in its room, every place of bumpers marked and numbered as in the table."""
    items: list[Item] = [*shell_items(plan, scale)]
    for area in plan.brief.room.pillars:
        items += area_items(area, scale, keep_clear=False)
    items += wall_items(plan, cut_height(plan), plan.layout.pose.to_room)
    shown = places(plan)
    half = SPOT * scale
    spots = [_spot(plan, pads[0]) for pads in shown]
    items += [
        Path(points=tuple((x + a, y + b) for a, b in _diamond(half)), closed=True, pen=Pen.FASTENER, fill=Tone.BLACK)
        for x, y in spots
    ]
    taken = Taken(items, scale=scale)
    taken.block([tuple((x + a, y + b) for a, b in _diamond(2 * half)) for x, y in spots])
    taken.block(item.points for item in items if isinstance(item, Path) and item.fill is Tone.PALE)
    for number, (pads, spot) in enumerate(zip(shown, spots, strict=True), start=1):
        items += _number(str(number), plan, pads[0], spot, taken, scale)
    return make_view(name="bumpers", title="Set in the room", scale=scale, items=items)


def _diamond(half: float) -> tuple[Point, Point, Point, Point]:
    return (-half, 0.0), (0.0, -half), (half, 0.0), (0.0, half)


def _number(words: str, plan: Plan, pad: Bumper, spot: Point, taken: Taken, scale: float) -> list[Item]:
    """Return a pad's number before the wall's face, tied to the pad."""
    drop = CAP / 2 * FIGURE * scale
    line = plan.layout.wall(pad.wall)
    middles = (
        plan.layout.pose.to_room(line.at(along=pad.x + shift * scale, behind=-out * scale))
        for out in OUT
        for shift in SHIFTS
    )
    texts = (
        make_text(words, at=(x, y - drop), size=FIGURE, scale=scale, align="centre", bold=True, backed=True)
        for x, y in middles
    )
    text = taken.first_free(texts, gap=0.4 * scale)
    if text is None:
        return []
    return [Line(a=spot, b=(text.at[0], text.at[1] + drop), pen=Pen.DIMENSION), text]


def places(plan: Plan) -> tuple[tuple[Bumper, ...], ...]:
    """Return the bumpers place by place: those over each other together, in the plan's order."""
    found: dict[tuple[str, str, float], list[Bumper]] = {}
    for pad in plan.fixing.bumpers:
        found.setdefault((pad.flat, pad.face, round(pad.x, 3)), []).append(pad)
    return tuple(tuple(pads) for pads in found.values())


def _spot(plan: Plan, pad: Bumper) -> Point:
    """Return where a bumper is in plan, room axes [mm]."""
    flat = next(flat for flat in plan.flats if flat.id == pad.flat)
    behind = {"back": flat.depth, "end": flat.depth / 2, "front": 0.0}[pad.face]
    return plan.layout.pose.to_room(plan.layout.wall(pad.wall).at(along=pad.x, behind=behind))


def bumper_listing(plan: Plan) -> Listing:
    """Return the table of the bumpers, a row a place."""
    style = plan.brief.style
    marks = {flat.id: flat.mark for flat in plan.flats}
    rows = tuple(
        (
            str(number),
            f"{marks[pads[0].flat]}, {pads[0].face}",
            str(len(pads)),
            ", ".join(drawing_length(pad.z, style=style) for pad in pads),
            drawing_length(min(pad.distance for pad in pads), style=style),
            "the room's wall" if pads[0].near == "room" else pads[0].near,
        )
        for number, pads in enumerate(places(plan), start=1)
    )
    columns = (
        Column(heading="No", width=10, align="right"),
        Column(heading="Flat", width=26),
        Column(heading="Off", width=10, align="right"),
        Column(heading="Heights", width=44),
        Column(heading="Distance", width=24, align="right"),
        Column(heading="From", width=36),
    )
    return Listing(title=f"Bumpers: {plan.brief.fixing.bumper.name}", columns=columns, rows=rows)
