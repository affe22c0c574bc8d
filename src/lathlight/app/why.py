"""How any value of a plan came about, found by its id and put into words.

Decides what can be asked for and how a working reads. The workings themselves hang on members and quantities.
"""

from __future__ import annotations

import difflib
import math
import re
from typing import TYPE_CHECKING

from lathlight.app.corners import corner_figures, corner_note
from lathlight.app.subject import Subject, make_subject
from lathlight.app.why_dressing import dressing_subjects
from lathlight.errors import InputError
from lathlight.exports import figure_words, saw_words
from lathlight.project import assumptions
from lathlight.units import file_length

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping

    from lathlight.app.corners import Figure
    from lathlight.app.run import Planned
    from lathlight.carpentry import Flat, Packed
    from lathlight.mouldings import TrimPiece
    from lathlight.plan import Plan
    from lathlight.project import Brief
    from lathlight.units import LengthStyle

FIGURE = 6  # decimals of a figure in a document
NEAR = 3  # ids offered for a misspelt one
LIKE_ENOUGH = 0.6
SIGNS = re.compile(r"[\s_|]+")  # signs of an id that may be typed as blanks: a shell minds some of them


def subjects(planned: Planned) -> Mapping[str, Subject]:
    """Return everything that can be asked about, by id, kind by kind."""
    plan = planned.plan
    every = (
        *_quantities(plan),
        *_walls(plan),
        *_flats(plan),
        *_corners(plan),
        *_trim(plan),
        *dressing_subjects(plan),
        *_passages(plan),
        *_stock(plan),
        *_snags(planned),
        *_assumed(plan.brief),
    )
    return {subject.id: subject for subject in every}


def find_subject(known: Mapping[str, Subject], identity: str) -> Subject:
    """Return what an id stands for; letters may be large or small, and an end that no other id has will do.

    Raises
    ------
    InputError
        Nothing has that id; the nearest ones are named.
    """
    if identity in known:
        return known[identity]
    wanted = _folded(identity)
    folded = {_folded(each): each for each in reversed(list(known))}
    if wanted in folded:
        return known[folded[wanted]]
    ends = [each for typed, each in folded.items() if typed.endswith(f"/{wanted}")]
    if len(ends) == 1:
        return known[ends[0]]
    raise InputError.of(
        place="the plan's ids",
        found=f'"{identity}"',
        expected="the id of something in this plan",
        remedy=_instead(wanted, folded, ends),
    )


def _folded(identity: str) -> str:
    return SIGNS.sub(" ", identity.casefold()).strip()


def _instead(wanted: str, folded: Mapping[str, str], ends: list[str]) -> str:
    if ends:
        return f"Which one: {' or '.join(ends[::-1][:NEAR])}{', or another' if len(ends) > NEAR else ''}?"
    near = difflib.get_close_matches(wanted, folded, n=NEAR, cutoff=LIKE_ENOUGH)
    if not near:
        return "lathlight why FILE lists every id there is; what the file states itself has none."
    return f"Did you mean {' or '.join(folded[each] for each in near)}?"


def working_in_words(subject: Subject, style: LengthStyle) -> tuple[tuple[str, str], ...]:
    """Return a working as pairs of a heading and its words: what, how, from which inputs, by which source."""
    why = subject.why
    value, unit = (subject.value, subject.unit) if why.value is None else (why.value, why.unit)
    pairs = [("what", subject.what)]
    if value is not None:
        pairs.append(("value", figure_words(value, unit, style)))
    pairs += [("and", f"{name}: {figure_words(given, of, style)}") for name, given, of in subject.figures]
    pairs.append(("how", why.formula))
    pairs += [("from", f"{name}: {figure_words(given, of, style)}") for name, given, of in why.inputs]
    if subject.note:
        pairs.append(("note", subject.note))
    pairs.append(("source", why.source))
    return tuple(pairs)


def _quantities(plan: Plan) -> Iterator[Subject]:
    weights = (flat.weight for flat in plan.flats)
    for quantity in (*plan.quantities, *weights):
        yield Subject(
            id=quantity.id,
            kind="quantity",
            what=quantity.label,
            value=quantity.value,
            unit=quantity.unit,
            why=quantity.why,
        )


def _walls(plan: Plan) -> Iterator[Subject]:
    for wall in plan.walls:
        yield make_subject(wall.name, "wall", f"wall {wall.mark}", why=wall.why, value=wall.length, unit="mm")
        for seam in wall.seams:
            what = f"{'upright' if seam.upright else 'level'} seam"
            yield make_subject(seam.id, "seam", what, why=seam.why, value=seam.at, unit="mm")


def _flats(plan: Plan) -> Iterator[Subject]:
    for flat in plan.flats:
        yield make_subject(flat.id, "flat", f"flat {flat.mark}", why=flat.why, value=flat.width, unit="mm")
        yield from _parts(flat)


def _parts(flat: Flat) -> Iterator[Subject]:
    for member in flat.members:
        what = f"{member.role} {flat.mark}-{member.mark} of {member.stock.name}"
        yield make_subject(member.id, "member", what, why=member.why, value=member.length, unit="mm")
    for piece in flat.pieces:
        what = f"sheet piece {flat.mark}-{piece.mark} of {piece.sheet.name}"
        yield make_subject(piece.id, "sheet piece", what, why=piece.why, value=piece.area, unit="mm2")
    for opening in flat.openings:
        what = f"{opening.kind} {opening.name}, rough width"
        yield make_subject(opening.id, "opening", what, why=opening.why, value=opening.rough[2], unit="mm")


def _corners(plan: Plan) -> Iterator[Subject]:
    for corner in plan.corners:
        yield Subject(
            id=corner.id,
            kind="corner",
            what=f"corner of {corner.left} and {corner.right}",
            value=corner.angle,
            unit="rad",
            why=corner.why,
            figures=corner_figures(plan, corner),
            note=corner_note(corner),
        )
        if corner.screws is not None:
            what = f"screws {corner.screws.screw.name}"
            number = len(corner.screws.heights)
            yield make_subject(f"{corner.id}/screws", "corner", what, why=corner.screws.why, value=number)
        if corner.wedge is not None:
            wedge = corner.wedge
            yield make_subject(wedge.id, "corner", "wedge, widest side", why=wedge.why, value=wedge.wide, unit="mm")


def _trim(plan: Plan) -> Iterator[Subject]:
    for piece in () if plan.trim is None else plan.trim.pieces:
        yield Subject(
            id=piece.id,
            kind="trim",
            what=f"{piece.kind} of {piece.profile.name}, long point to long point",
            value=piece.long_point,
            unit="mm",
            why=piece.why,
            figures=(("short point to short point", piece.short_point, "mm"), ("at the back", piece.back, "mm")),
            note=_trim_note(piece),
        )


def _trim_note(piece: TrimPiece) -> str:
    ends = (("left", piece.left), ("right", piece.right))
    saws = [f"{side} end, {e.kind}: {saw_words(e.saw, beyond_saw=e.beyond_saw)}" for side, e in ends]
    return ". ".join([*saws, *([piece.note] if piece.note else [])])


def _passages(plan: Plan) -> Iterator[Subject]:
    for passage in plan.passages:
        for stage in (*passage.stages, passage.raises):
            what = f"{stage.how}: {'passes' if stage.passes else 'does not pass'}"
            identity = f"{passage.flat}/{stage.through}"
            yield make_subject(identity, "way in", what, why=stage.why, value=stage.figure, unit="mm")


def _stock(plan: Plan) -> Iterator[Subject]:
    for packed in (*plan.boards, *plan.sheets):
        what = f"pieces of {packed.stock} to buy, {'proven' if packed.proven else 'not proven'}"
        identity = f"buy/{packed.stock}/{_size(packed, plan.brief.style)}"
        yield make_subject(identity, "stock", what, why=packed.why, value=packed.number)


def _size(packed: Packed, style: LengthStyle) -> str:
    """Return a stock's size for an id: 4800, 2440x1220, 8ft, 8ftx4ft; no blanks, strokes or marks."""
    sides = [packed.length] if packed.width is None else [packed.length, packed.width]
    return "x".join(_side(side, style) for side in sides)


def _side(mm: float, style: LengthStyle) -> str:
    text = file_length(round(mm, FIGURE), style=style)
    text = text.removesuffix(" mm") if style.system == "metric" else text.removesuffix(" 0in")
    return text.replace(" ", "-").replace("/", "-")


def _snags(planned: Planned) -> Iterator[Subject]:
    for snag in planned.snags:
        yield make_subject(snag.id, "snag", snag.what, why=snag.why, value=snag.figure, unit=snag.unit)


def _assumed(brief: Brief) -> Iterator[Subject]:
    for each in assumptions(brief):
        of = f" ({' of '.join(reversed(each.entry))})" if each.entry else ""
        yield make_subject(each.id, "assumed", f"{each.label}{of}: the file does not state it", why=each.why)


def subject_document(subject: Subject) -> Mapping[str, object]:
    """Return a subject with its working, ready for JSON: figures in mm, kg, rad."""
    why = subject.why
    value, unit = (subject.value, subject.unit) if why.value is None else (why.value, why.unit)
    return {
        "id": subject.id,
        "kind": subject.kind,
        "what": subject.what,
        "value": plain_figure(value),
        "unit": unit,
        "figures": _figures(subject.figures),
        "formula": why.formula,
        "inputs": _figures(why.inputs),
        "note": subject.note,
        "source": why.source,
    }


def _figures(figures: Iterable[Figure]) -> list[Mapping[str, object]]:
    return [{"name": name, "value": plain_figure(value), "unit": unit} for name, value, unit in figures]


def plain_figure(value: float | str | None) -> float | str | None:
    """Return a value without the noise of the arithmetic; None for an infinite one: JSON has no word for it."""
    if not isinstance(value, float):
        return value
    return round(value, FIGURE) + 0.0 if math.isfinite(value) else None


def by_kind(known: Iterable[Subject]) -> Mapping[str, tuple[str, ...]]:
    """Return the ids of each kind of thing, in the plan's order."""
    kinds: dict[str, list[str]] = {}
    for subject in known:
        kinds.setdefault(subject.kind, []).append(subject.id)
    return {kind: tuple(identities) for kind, identities in kinds.items()}
