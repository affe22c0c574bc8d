"""What can be asked about of mouldings, fixing, marking out, floor, paint and takeoff.

Decides ids, words and further figures; heights count from the finished floor. What holds a thing has its id and
``fixing`` after it; rows of the takeoff are ``takeoff/trade/item``.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from typing import TYPE_CHECKING

from lathlight.app.subject import Subject, make_subject
from lathlight.exports import saw_words

if TYPE_CHECKING:
    from collections.abc import Iterator

    from lathlight.app.corners import Figure
    from lathlight.finishing import Coating, Finish
    from lathlight.fixing import FixingPlan, SheetFixing, StripFixing
    from lathlight.mouldings import Casing, CasingPiece, MouldingFrame, MouldingLayout
    from lathlight.plan import Plan


def dressing_subjects(plan: Plan) -> Iterator[Subject]:
    """Yield everything of what is put on the built walls, kind by kind."""
    rise = plan.brief.floor.rise
    yield from _frames(plan.frames, rise)
    for casing in plan.casings:
        yield from _casing(casing, rise)
    for end in plan.ends:
        what = f"{end.side} end of the set, {end.finish}: width that shows"
        yield make_subject(end.id, "wall end", what, why=end.why, note=end.note)
    yield from _marking(plan)
    yield from _fixing(plan.fixing)
    if plan.floor is not None:
        what = f"floor covering, {plan.floor.covering}"
        yield make_subject("floor/area", "floor", what, why=plan.floor.why)
    if plan.finish is not None:
        yield from _paint(plan.finish)
    yield from _takeoff(plan)


# --- mouldings -----------------------------------------------------------------------------------------------------


def _frames(layout: MouldingLayout | None, rise: float) -> Iterator[Subject]:
    if layout is None:
        return
    why = {tier.name: replace(group.why, value=None) for group in layout.in_line for tier in group.tiers}
    for group in layout.in_line:
        for tier in group.tiers:
            number = sum(frame.tier == tier.name for frame in layout.frames)
            figures: tuple[Figure, ...] = (("frames", number, ""), ("spread of widths or end gaps", group.spread, "mm"))
            what = f"tier of moulding frames, {tier.name}"
            identity = f"moulding frames/{tier.name}"
            yield make_subject(identity, "moulding frames", what, why=group.why, figures=figures)
    for frame in layout.frames:
        what = f"moulding frame of tier {frame.tier}, width outside to outside"
        yield make_subject(
            frame.id, "moulding frame", what, why=why[frame.tier], value=frame.width, unit="mm",
            figures=_frame_figures(frame, rise),
        )  # fmt: skip


def _frame_figures(frame: MouldingFrame, rise: float) -> tuple[Figure, ...]:
    return (
        ("width", frame.width, "mm"),
        ("height", frame.height, "mm"),
        ("left edge from the wall's left corner", frame.left, "mm"),
        ("bottom edge above the finished floor", frame.bottom - rise, "mm"),
        ("top edge above the finished floor", frame.top - rise, "mm"),
    )


def _casing(casing: Casing, rise: float) -> Iterator[Subject]:
    for piece in casing.pieces:
        yield make_subject(
            piece.id, "casing", f"casing of {casing.opening}, {piece.part} of {casing.profile.name}", why=piece.why,
            value=piece.long_point, unit="mm", figures=_casing_figures(piece, rise), note=_saws(piece),
        )  # fmt: skip
    for block in casing.blocks:
        yield make_subject(
            block.id, "casing", f"{block.kind} of {casing.opening}, width", why=block.why, value=block.width, unit="mm",
            figures=(("height", block.height, "mm"), ("thickness", block.thickness, "mm")),
        )  # fmt: skip
    if casing.curve is not None:
        curve = casing.curve
        figures: tuple[Figure, ...] = (
            ("inner radius", curve.inner_radius, "mm"),
            ("outer radius", curve.outer_radius, "mm"),
            ("turns through", curve.angle, "rad"),
        )
        what = f"curved head of {casing.opening}, along its middle"
        yield make_subject(
            curve.id, "casing", what, why=curve.why, value=curve.length, unit="mm", figures=figures, note=curve.note
        )


def _casing_figures(piece: CasingPiece, rise: float) -> tuple[Figure, ...]:
    return (
        ("long point to long point", piece.long_point, "mm"),
        ("short point to short point", piece.short_point, "mm"),
        ("bottom above the finished floor", piece.z0 - rise, "mm"),
        ("top above the finished floor", piece.z1 - rise, "mm"),
    )


def _saws(piece: CasingPiece) -> str:
    names = ("bottom", "top") if piece.upright else ("left", "right")
    ends = zip(names, (piece.first, piece.last), strict=True)
    return ". ".join(f"{name} end, {end.kind}: {saw_words(end.saw)}" for name, end in ends)


# --- marking out and fixing ----------------------------------------------------------------------------------------


def _marking(plan: Plan) -> Iterator[Subject]:
    if plan.marking is None:
        return
    level, stick = plan.marking.level, plan.marking.stick
    figures: tuple[Figure, ...] = (("above the foot of the flats", level.above_foot, "mm"),)
    yield make_subject(
        "marking/level line", "marking out", "level line above the finished floor", why=level.why, value=level.height,
        unit="mm", figures=figures,
    )  # fmt: skip
    yield make_subject(
        "marking/story stick", "marking out", "length of the story stick", why=stick.why, value=stick.length, unit="mm"
    )


def _fixing(fixing: FixingPlan) -> Iterator[Subject]:
    for sheet in fixing.sheets:
        yield from _sheet(sheet)
    for strip in fixing.strips:
        yield from _strip(strip)
    for joint in fixing.joints:
        what = f"{joint.joined} of a joint between flats"
        identity = f"{joint.joint}/fixing"
        yield make_subject(identity, "joint", what, why=joint.why, value=len(joint.places))
    for corner in fixing.corners:
        what = f"{corner.joined} of a corner"
        yield make_subject(f"{corner.corner}/fixing", "joint", what, why=corner.why, value=len(corner.heights))
    if fixing.rounds:
        yield make_subject("fixing/gluing", "fixing", "flats that are glued in a day", why=fixing.why_rounds)
    for glue in fixing.glues:
        what = f"containers of {glue.adhesive.name}"
        yield make_subject(f"fixing/{glue.adhesive.name}", "fixing", what, why=glue.why, value=glue.number)


def _sheet(sheet: SheetFixing) -> Iterator[Subject]:
    figures: tuple[Figure, ...] = (
        ("filled over", len(sheet.seen), ""),
        ("bead of glue", sheet.bead_length, "mm"),
    )
    yield make_subject(
        f"{sheet.piece}/fixing",
        "fixing",
        f"screws or pins of a sheet held by {sheet.mode}",
        why=sheet.why,
        figures=figures,
    )
    if sheet.clamping is not None:
        clamping = sheet.clamping
        what = f"{clamping.held} while the glue sets"
        more: tuple[Figure, ...] = (("held for", clamping.hours, "h"),)
        identity = f"{sheet.piece}/clamping"
        yield make_subject(identity, "fixing", what, why=clamping.why, value=clamping.number, figures=more)


def _strip(strip: StripFixing) -> Iterator[Subject]:
    """Yield how one moulding is held, where brads were chosen or sought for it: by the first of them."""
    if not strip.brads:
        return
    brad = next(iter(strip.shot), strip.brads[0])
    figures: tuple[Figure, ...] = (
        ("brads", len(strip.shot), ""),
        ("places where none fits", len(strip.brads) - len(strip.shot), ""),
        ("bead of glue", strip.glue, "mm"),
    )
    what = f"how the moulding is held: {strip.held}"
    yield make_subject(f"{strip.strip}/fixing", "fixing", what, why=brad.choice.why, figures=figures, note=strip.note)


# --- paint and takeoff ---------------------------------------------------------------------------------------------


def _paint(finish: Finish) -> Iterator[Subject]:
    for coating in finish.coatings:
        yield from _coating(coating)
    for area in finish.areas:
        what = f"{area.kind} of {area.material or area.stuff}{'' if area.painted else ', not painted'}"
        yield make_subject(area.id, "painted surface", what, why=area.why, value=area.area, unit="mm2")


def _coating(coating: Coating) -> Iterator[Subject]:
    need = coating.need
    what = f"{need.coating.name}, {need.coats} {'coat' if need.coats == 1 else 'coats'}, with what is added"
    identity = f"paint/{need.coating.name}"
    yield make_subject(identity, "paint", what, why=coating.line.why, note=coating.note)
    if coating.tins is not None:
        yield make_subject(f"{identity}/tins", "paint", f"tins of {need.coating.name}", why=coating.tins.why)


def _takeoff(plan: Plan) -> Iterator[Subject]:
    """Yield every row of the takeoff; several of one item are numbered from the second."""
    seen: Counter[str] = Counter()
    for row in plan.takeoff:
        line, identity = row.line, f"takeoff/{row.trade}/{row.line.item}"
        seen[identity] += 1
        number = f"/{seen[identity]}" if seen[identity] > 1 else ""
        figures: tuple[Figure, ...] = (
            ("net", line.net, line.unit),
            ("allowance", line.allowance, line.unit),
        )
        yield make_subject(
            f"{identity}{number}", "takeoff", f"{line.item}, with its allowance", figures=figures,
            why=replace(line.why, value=line.gross, unit=line.unit), note=line.reason,
        )  # fmt: skip
