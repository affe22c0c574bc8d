"""Timber and sheets as they are bought and sawn: nominal sizes, pieces longer than the stock, angles past the saw."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import TYPE_CHECKING

from lathlight.carpentry import OnSale, loose_blank, member_blank
from lathlight.catalog import looks_nominal, nominal_thickness
from lathlight.snags.check import Check, Finding, check
from lathlight.snags.model import Severity
from lathlight.snags.outlines import thinnest
from lathlight.snags.wording import fine, length, lengths
from lathlight.units import format_angle
from lathlight.working import COMMON_PRACTICE

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from lathlight.carpentry import Blank
    from lathlight.catalog import Catalog, Lumber
    from lathlight.plan import Plan

FAMILY = "stock and sawing"
TOUCH = 1e-6
BLADE_TILT = math.radians(45)  # what a circular saw tilts to [rad], common practice
FEATHER = 1e-3  # [rad] an angle this little past the limit is the limit
LEAST_STRIP = 150.0  # a narrower strip of sheet is awkward to saw and to fix [mm], common practice
LEAST_LEG = 60.0  # a leg of sheet beside an opening that is narrower snaps [mm], common practice
HAIR_OVER = 50.0  # so little over whole sheets is worth a thought [mm], common practice


@check(
    name="nominal-as-actual",
    family=FAMILY,
    severity=Severity.SPOILS,
    title="Nominal size typed as an actual size",
    why="the piece in the hand is smaller, and every part that depends on it comes out wrong",
    limit="no row of the project's own whose sizes are a trade name's figures",
    source="nominal and actual sizes of the catalogue",
    remedy="Measure a piece with the tape and type what it says.",
)
def nominal_as_actual(plan: Plan) -> Iterable[Finding]:
    """Find rows of the project's own that state what the shop calls a size."""
    catalog, rows = plan.brief.catalog, plan.brief.project.catalog
    own_timber, own_sheets = _names(rows.lumber), _names(rows.sheets)
    others = replace(
        catalog,
        lumber={n: r for n, r in catalog.lumber.items() if n not in own_timber},
        sheets={n: r for n, r in catalog.sheets.items() if n not in own_sheets},
    )
    for name in own_timber:
        row = catalog.lumber.get(name)
        true = None if row is None else _true_size(others, row)
        if row is not None and true is not None:
            yield Finding(
                place=name,
                what=f"Timber {name} is entered as {length(row.width, plan)} x {length(row.depth, plan)}, "
                f"which is what {true.nominal or true.name} is called; it measures "
                f"{length(true.width, plan)} x {length(true.depth, plan)}",
                figure=row.width,
                limit=true.width,
            )
    for name in own_sheets:
        sheet = catalog.sheets.get(name)
        if sheet is None:
            continue
        thin = nominal_thickness(others, material=sheet.material, thickness=sheet.thickness)
        if thin is not None:
            yield Finding(
                place=name,
                what=f"Sheet {name} is entered {fine(sheet.thickness, plan)} thick, which is what {thin.name} is "
                f"called; it measures {fine(thin.thickness, plan)}",
                figure=sheet.thickness,
                limit=thin.thickness,
            )


def _names(rows: Sequence[dict[str, object]]) -> tuple[str, ...]:
    return tuple(str(row["name"]) for row in rows if "name" in row)


def _true_size(others: Catalog, row: Lumber) -> Lumber | None:
    return looks_nominal(others, width=row.width, depth=row.depth)


@check(
    name="longer-than-stock",
    family=FAMILY,
    severity=Severity.STOPS,
    title="Piece longer than any stock",
    why="it cannot be cut from what is on sale",
    limit="the longest stock length in the catalogue, less the trim cut",
    source="stock lengths of the catalogue or the project file",
    remedy="Add a longer stock length to the project's catalogue rows if a shop keeps it, or split the wall.",
)
def longer_than_stock(plan: Plan) -> Iterable[Finding]:
    """Find members that no stock length yields."""
    trim = plan.brief.saw.trim_cut
    for flat in plan.flats:
        for member in flat.members:
            longest = max(member.stock.lengths, default=0.0)
            fits = member.length <= longest - trim + TOUCH or abs(member.length - longest) <= TOUCH
            if not fits:
                found, wanted = lengths(member.length, longest, plan)
                yield Finding(
                    place=member.id,
                    what=f"{member.id} is {found} long and {member.stock.name} is sold up to {wanted}",
                    figure=member.length,
                    limit=longest,
                    inputs=(("trim cut", trim, "mm"),),
                )


@check(
    name="wedge-wider-than-framing",
    family=FAMILY,
    severity=Severity.COSTS,
    title="Wedge that the framing's timber does not hold",
    why="no board that the frames are cut from is large enough to rip it out of",
    limit="the section of the wall's own timber",
    source="sizes of the catalogue or the project file",
    remedy="Buy that timber along with the rest, or lap the corner or open its angle until the wedge is thinner.",
)
def wedge_wider_than_framing(plan: Plan) -> Iterable[Finding]:
    """Find wedges that take another timber than the frame's, or layers of it."""
    for place, stock, blank in _blanks(plan):
        if blank.stock == stock and blank.layers == 1:
            continue
        (long, short), most, least = blank.size, max(stock.width, stock.depth), min(stock.width, stock.depth)
        sizes = " x ".join(length(mm, plan) for mm in (long, short))
        made = f"ripped from {blank.stock.name}" if blank.layers == 1 else f"glued from {blank.layers} layers of it"
        yield Finding(
            place=place,
            what=f"Wedge {place} takes a section of {sizes}, more than {stock.name} has, and is {made}",
            figure=long if long > most else short,
            limit=most if long > most else least,
            remedy="Glue and clamp the layers a day before they are ripped, or open the corner until the wedge is "
            "thinner."
            if blank.layers > 1
            else None,
            inputs=(*blank.why.inputs, ("ripped from", blank.stock.name, "")),
        )


def _blanks(plan: Plan) -> Iterator[tuple[str, Lumber, Blank]]:
    """Yield every wedge with its wall's timber and what it is ripped from."""
    catalog = plan.brief.catalog
    on_sale = OnSale(
        lumber=tuple(catalog.lumber.values()), sheets=tuple(catalog.sheets.values()), style=plan.brief.style
    )
    for flat in plan.flats:
        for member in flat.members:
            blank = member_blank(member, on_sale)
            if blank is not None:
                yield member.id, member.stock, blank
    stocks = {flat.wall: flat.stock for flat in plan.flats}
    for corner in plan.corners:
        if corner.wedge is not None:
            stock = stocks[corner.left]
            yield corner.wedge.id, stock, loose_blank(corner.wedge, stock, on_sale)


@check(
    name="larger-than-sheet",
    family=FAMILY,
    severity=Severity.STOPS,
    title="Piece larger than its sheet",
    why="it cannot be cut from one sheet",
    limit="width and length of the sheet in the catalogue",
    source="sheet sizes of the catalogue or the project file",
    remedy="Take a larger sheet, or let the wall have another seam.",
)
def larger_than_sheet(plan: Plan) -> Iterable[Finding]:
    """Find sheet pieces that no sheet yields."""
    for piece in plan.pieces:
        short, long = sorted((piece.width, piece.height))
        sheet = sorted((piece.sheet.width, piece.sheet.length))
        if short <= sheet[0] + TOUCH and long <= sheet[1] + TOUCH:
            continue
        over, limit = (long, sheet[1]) if long > sheet[1] + TOUCH else (short, sheet[0])
        found, wanted = lengths(over, limit, plan)
        yield Finding(
            place=piece.id,
            what=f"Sheet {piece.id} is {found} where {piece.sheet.name} measures {wanted}",
            figure=over,
            limit=limit,
        )


@check(
    name="grain-turned",
    family=FAMILY,
    severity=Severity.COSTS,
    title="Sheet turned against its grain",
    why="grain that runs level beside upright grain shows through thin paint and bends the other way",
    limit="no sheet with grain laid with its long side along the wall",
    source=COMMON_PRACTICE,
    remedy="Take a sheet without grain, or a longer one that stands upright.",
)
def grain_turned(plan: Plan) -> Iterable[Finding]:
    """Find pieces of grained sheet that lie on their sides."""
    for piece in plan.pieces:
        if piece.turned and piece.sheet.grain:
            yield Finding(
                place=piece.id,
                what=f"Sheet {piece.id} ({piece.sheet.name}) lies with its grain along the wall",
                figure=math.pi / 2,
                limit=0.0,
                unit="rad",
            )


@check(
    name="bevel-past-saw",
    family=FAMILY,
    severity=Severity.COSTS,
    title="Cut at a sharper angle than the saw tilts to",
    why="the saw cannot be set to it in one pass",
    limit="45 degrees from square",
    source="common practice, no source: tilt of a circular saw",
    remedy="Lap the corner instead of mitring it, open its angle, or plane the bevel by hand from a 45 degree cut.",
)
def bevel_past_saw(plan: Plan) -> Iterable[Finding]:
    """Find ends, edges and wedges beyond the blade's tilt."""
    for place, what, angle in _bevels(plan):
        if angle > BLADE_TILT + FEATHER:
            yield Finding(
                place=place,
                what=f"{what} is cut at {format_angle(angle)} where the saw tilts to {format_angle(BLADE_TILT)}",
                figure=angle,
                limit=BLADE_TILT,
                unit="rad",
            )


def _bevels(plan: Plan) -> Iterator[tuple[str, str, float]]:
    for flat in plan.flats:
        for member in flat.members:
            yield member.id, member.id, max(abs(end) for end in member.ends)
        for piece in flat.pieces:
            deepest = max(abs(piece.bevel_left), abs(piece.bevel_right))
            yield piece.id, f"Sheet {piece.id}", math.atan2(deepest, piece.sheet.thickness)
    for corner in plan.corners:
        if corner.wedge is not None:
            yield corner.wedge.id, f"Wedge {corner.wedge.id}", abs(corner.wedge.angle) / 2


@check(
    name="narrow-strip",
    family=FAMILY,
    severity=Severity.COSTS,
    title="Narrow strip of sheet",
    why="a strip is awkward to saw straight, splits at its fixings and shows a second seam close to the first",
    limit="{150 mm} wide",
    source=COMMON_PRACTICE,
    remedy="Shift the seams so that both end pieces share the rest, or change the wall's length.",
)
def narrow_strip(plan: Plan) -> Iterable[Finding]:
    """Find pieces that are narrow strips."""
    for piece in plan.pieces:
        narrow = min(piece.width, piece.height)
        if narrow < LEAST_STRIP - TOUCH:
            found, wanted = lengths(narrow, LEAST_STRIP, plan)
            yield Finding(
                place=piece.id,
                what=f"Sheet {piece.id} is a strip {found} wide where {wanted} is wanted",
                figure=narrow,
                limit=LEAST_STRIP,
            )


@check(
    name="just-over-whole-sheets",
    family=FAMILY,
    severity=Severity.COSTS,
    title="Wall a little longer or higher than whole sheets",
    why="the last hair's breadth costs another row of sheets, more cuts and a seam that nothing asks for",
    limit="up to {50 mm} over a number of whole sheets, side by side or one above the other",
    source=COMMON_PRACTICE,
    remedy="Shorten or lower the wall by that much, if the pictures allow it, or take longer sheets.",
)
def just_over_whole_sheets(plan: Plan) -> Iterable[Finding]:
    """Find walls that miss whole sheets by a little."""
    for wall in plan.walls:
        sheet = wall.flats[0].sheet
        run = max(f.sheet_x1 for f in wall.flats) - min(f.sheet_x0 for f in wall.flats)
        parts = [
            (size % whole, f"{length(size % whole, plan)} {what} than {int(size // whole)} whole sheets")
            for what, size, whole in (("longer", run, sheet.width), ("higher", wall.height, sheet.length))
            if size > whole and TOUCH < size % whole < HAIR_OVER - TOUCH
        ]
        if parts:
            yield Finding(
                place=wall.name,
                what=f"Wall {wall.name} is {' and '.join(words for _, words in parts)} of {sheet.name}",
                figure=max(over for over, _ in parts),
                limit=HAIR_OVER,
            )


@check(
    name="thin-leg",
    family=FAMILY,
    severity=Severity.SPOILS,
    title="Thin leg of sheet beside an opening",
    why="it snaps off at the opening's corner while the sheet is carried",
    limit="{60 mm} wide",
    source=COMMON_PRACTICE,
    remedy="Move the seam onto the opening's edge, or the opening away from the seam.",
)
def thin_leg(plan: Plan) -> Iterable[Finding]:
    """Find pieces with a leg that snaps."""
    for piece in plan.pieces:
        if len(piece.outline) == 4 and not piece.holes:
            continue  # a whole rectangle has no leg
        leg = thinnest(piece)
        if leg < LEAST_LEG - TOUCH:
            found, wanted = lengths(leg, LEAST_LEG, plan)
            yield Finding(
                place=piece.id,
                what=f"Sheet {piece.id} has a leg {found} wide beside an opening where {wanted} is wanted",
                figure=leg,
                limit=LEAST_LEG,
            )


@check(
    name="no-spare-board",
    family=FAMILY,
    severity=Severity.KNOW,
    title="No spare board is bought",
    why="one board in ten is bowed, split or cut wrong, and the shop is shut when it turns up",
    limit="one spare of the longest piece per section",
    source=COMMON_PRACTICE,
    remedy="Set spare_boards = true in [workshop].",
)
def no_spare_board(plan: Plan) -> Iterable[Finding]:
    """Find projects that buy no spares."""
    if not plan.brief.saw.spare_boards:
        yield Finding(place="set", what="No spare board is bought for any section", figure=0.0, limit=1.0, unit="")


@check(
    name="no-kerf",
    family=FAMILY,
    severity=Severity.SPOILS,
    title="The saw takes nothing away",
    why="each cut turns its width into dust, so that the last piece of every board comes out short",
    limit="a kerf above nothing",
    source="width of the saw's cut",
    remedy="Measure a cut and set kerf in [workshop]; 3 mm or 1/8 in is usual.",
)
def no_kerf(plan: Plan) -> Iterable[Finding]:
    """Find projects whose saw has no kerf."""
    if plan.brief.saw.kerf <= 0:
        yield Finding(place="set", what="The kerf is entered as nothing", figure=0.0, limit=0.0)


CHECKS: tuple[Check, ...] = (
    longer_than_stock,
    larger_than_sheet,
    wedge_wider_than_framing,
    nominal_as_actual,
    no_kerf,
    thin_leg,
    grain_turned,
    bevel_past_saw,
    narrow_strip,
    just_over_whole_sheets,
    no_spare_board,
)
