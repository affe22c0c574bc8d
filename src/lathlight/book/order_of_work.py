"""The order of work of one set, in words and without times: from the first cut to the last touch of paint.

Decides which flat comes after which, and says what is particular to this set; how long things take and who does them
is left to a later part. Ways of working are common practice, no source, unless they follow from the plan.
"""

from __future__ import annotations

import math
from collections import Counter
from typing import TYPE_CHECKING

from lathlight.book.blocks import Step
from lathlight.book.finish_steps import fill_step, floor_step, paint_step, touch_up_step
from lathlight.book.fixing_chapter import bumper_words
from lathlight.book.fixing_steps import bracket_words, skin_step
from lathlight.book.mark_step import mark_step
from lathlight.book.trim_steps import base_step, loose_steps, moulding_step
from lathlight.book.words import listed, sentence
from lathlight.drawings import STANDING, bevel_lines, corner_hold, wedge_lines
from lathlight.exports import figure_words, length_words
from lathlight.units import drawing_length, format_angle

if TYPE_CHECKING:
    from collections.abc import Mapping

    from lathlight.carpentry import BuiltWall, Corner, Flat
    from lathlight.drawings import CornerHold
    from lathlight.plan import Plan
    from lathlight.units import LengthStyle

OUT_OF_SQUARE = 2.0  # most that two diagonals may differ [mm]: common practice, no source


def work_steps(plan: Plan) -> tuple[Step, ...]:
    """Return the steps of the work for this set.

    Mouldings that are painted before they are fixed go on after the paint, others before it; the covering lies before
    the flats stand on it, or before the base stands on it.
    """
    mouldings, finish = moulding_step(plan), (fill_step(plan), paint_step(plan))
    early = plan.brief.finish.mouldings == "before fixing"
    floor = [floor_step(plan)] if plan.floor is not None else []
    under = plan.brief.floor.stands_on == "covering"
    return (
        _cut(plan),
        _frame(plan),
        _square(plan),
        skin_step(plan),
        _dry_assemble(plan),
        mark_step(plan),
        _take_down(plan),
        *((*finish, mouldings) if early else (mouldings, *finish)),
        *(floor if under else ()),
        _stand(plan),
        _brace(plan),
        *(() if under else floor),
        *loose_steps(plan),
        base_step(plan),
        touch_up_step(plan),
    )


def assembly_order(plan: Plan) -> tuple[Flat, ...]:
    """Return the flats in the order in which they are stood up.

    The middle wall first, then its neighbour to the right, so that two make a corner, on to the right end, and then
    from the middle to the left end; in every wall the flat that is next to what stands already comes first, lower
    before upper.
    """
    walls = list(plan.walls)
    middle = len(walls) // 2
    order = [*_rows(walls[middle])]
    for wall in walls[middle + 1 :]:
        order += _rows(wall)
    for wall in reversed(walls[:middle]):
        order += _rows(wall, from_right=True)
    return tuple(order)


def _rows(wall: BuiltWall, *, from_right: bool = False) -> list[Flat]:
    return sorted(wall.flats, key=lambda flat: (-flat.x0 if from_right else flat.x0, flat.z0))


def _cut(plan: Plan) -> Step:
    pieces = sum(line.number for line in plan.timber)
    boards = sum(pack.number for pack in plan.boards)
    sheets = sum(pack.number for pack in plan.sheets)
    straight = [line.mark for line in plan.timber if "straightest" in line.note]
    lines = [
        f"Timber: {pieces} pieces out of {boards} boards, by the list, the longest of each flat first. "
        "Pieces that may be offcuts come last, out of what is left.",
        f"Sheets: {sum(line.number for line in plan.panels)} pieces, linings included, out of {sheets} sheets. "
        "Keep the factory edges for the seams; sawn edges go to corners and under trim.",
        "Write the mark on every piece as it comes off the saw.",
    ]
    bevels = [line for corner in plan.corners for line in bevel_lines(plan, corner)]
    if bevels:
        lines.insert(1, f"Sheet edges sawn at an angle, as seen from the front: {'; '.join(bevels)}.")
    if straight:
        lines.insert(1, f"Straightest boards for the end studs: {listed(straight)}.")
    return Step(title="Cut", lines=tuple(lines))


def _frame(plan: Plan) -> Step:
    lines = ["On a flat floor, face upwards. Two screws in every end that meets another piece."]
    for flat in plan.flats:
        roles = Counter(member.role for member in flat.members)
        parts = ", ".join(f"{count} × {role}" for role, count in roles.items())
        lines.append(f"{flat.mark}: {flat.through} run through. {parts}.")
    return Step(title="Frame", lines=tuple(lines))


def _square(plan: Plan) -> Step:
    style = plan.brief.style
    measures = " · ".join(f"{flat.mark} {drawing_length(flat.diagonal, style=style)}" for flat in plan.flats)
    lines = [
        "Measure both diagonals of every frame and push the longer one in until they are equal; more than "
        f"{length_words(OUT_OF_SQUARE, style)} apart is out of square (common practice). Then fix the corner plates on "
        "the back.",
        f"Both diagonals: {measures}.",
    ]
    return Step(title="Square", lines=tuple(lines))


def _dry_assemble(plan: Plan) -> Step:
    order = " → ".join(flat.mark for flat in assembly_order(plan))
    lines = [
        f"Stand the flats up once without glue or filler, in this order: {order}. {_held(plan)}",
        *(_joint_line(wall) for wall in plan.walls if wall.joints),
        *(_corner_line(corner, plan) for corner in plan.corners),
        *bracket_words(plan),
    ]
    return Step(title="Dry-assemble", lines=tuple(lines))


def _held(plan: Plan) -> str:
    if plan.corners:
        return "Every flat is held until it is joined, and the set until it is braced: a corner helps, it does not do."
    return "Every flat is held until it is joined and braced: a straight wall does not stand by itself."


def _joint_line(wall: BuiltWall) -> str:
    marks = {flat.name: flat.mark for flat in wall.flats}
    pairs = [f"{marks[joint.left]}–{marks[joint.right]}" for joint in wall.joints]
    return f"Wall {wall.mark}: faces flush at {listed(pairs)}; these joints part again at every move."


def _corner_line(corner: Corner, plan: Plan) -> str:
    marks = {wall.name: wall.mark for wall in plan.walls}
    head = f"Corner {marks[corner.left]}–{marks[corner.right]}, {format_angle(corner.angle)}"
    wedges = "".join(f"{sentence(line)}. " for line in wedge_lines(plan, corner))
    hold = corner_hold(plan, corner)
    bay = marks[corner.left if corner.screws is None else corner.screws.from_wall]
    joined = "" if hold is None else _joined(hold, bay)
    return f"{head}: {_meeting(corner, marks)}. {wedges}{joined}".rstrip()


def _meeting(corner: Corner, marks: Mapping[str, str]) -> str:
    """Return whose frame runs past, or how the faces meet where none does."""
    if corner.screws is not None:
        return f"{marks[corner.right if corner.frame_laps == 'right' else corner.left]}'s frame laps"
    if corner.wedge is not None:
        return "the faces meet on the mitre" if corner.style == "mitre" else "the faces meet arris to arris"
    return "the faces meet, nothing goes in behind"


def _joined(hold: CornerHold, bay: str) -> str:
    """Return what joins two walls at their corner and where, from which bay."""
    if hold.what is None:
        return "Nothing on sale is long enough to join them: see the snags."
    heights = f"{listed(hold.heights)} above the flats' foot"
    if hold.joined == "connectors":
        return f"{hold.what} on the end studs, half on each, {heights}."
    reach = "into the other" if hold.joined == "screws" else "and the other"
    return f"{hold.what} from wall {bay}'s bay through its end stud{hold.between} {reach}, {heights}."


def _take_down(plan: Plan) -> Step:
    back = " → ".join(flat.mark for flat in reversed(assembly_order(plan)))
    return Step(
        title="Take down",
        lines=(f"In the reverse order: {back}. Lay each flat on its back on battens.",),
    )


def _stand(plan: Plan) -> Step:
    style, crew = plan.brief.style, plan.brief.crew
    order = " → ".join(flat.mark for flat in assembly_order(plan))
    heaviest = max(plan.flats, key=lambda flat: (flat.weight.value, flat.id))
    weight, each = (figure_words(kg, "kg", style) for kg in (heaviest.weight.value, crew.lift_per_person))
    people = max(2, math.ceil(heaviest.weight.value / crew.lift_per_person)) if crew.lift_per_person > 0 else 2
    lines = [
        f"Same order as before: {order}. Walk each flat up with somebody footing it. {_held(plan)}",
        f"The heaviest flat, {heaviest.mark}, weighs {weight}: at least {people} people at {each} each, by your own "
        f"figure; a crew of {crew.people} is planned.",
        *(
            f"{p.flat} cannot be stood up as planned: {_raising(p.raises.figure, p.raises.limit, style)}."
            for p in plan.passages
            if not p.raises.passes
        ),
    ]
    if any(flat.built_in_room for flat in plan.flats):
        built = listed([flat.mark for flat in plan.flats if flat.built_in_room])
        lines.append(f"Built in the room, since no way in lets them through: {built}.")
    lines += bumper_words(plan)
    return Step(title="Stand", lines=tuple(lines))


def _raising(figure: float, limit: float, style: LengthStyle) -> str:
    return f"its sweep is {length_words(figure, style)}, the room gives {length_words(limit, style)}"


def _brace(plan: Plan) -> Step:
    total = figure_words(plan.quantity("set/weight").value, "kg", plan.brief.style)
    return Step(
        title="Brace",
        lines=(
            f"{STANDING}. This book plans no braces and no ballast for the {total} of this set. Let nothing go before "
            "braces and ballast, planned and looked at by a competent person, are on.",
        ),
    )
