"""How any value of a plan came about, found by its id and put into words.

Decides what can be asked for and how a working reads. The workings themselves hang on members and quantities.
"""

from __future__ import annotations

import difflib
import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from lathlight.errors import InputError
from lathlight.exports import figure_words
from lathlight.units import format_length

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping

    from lathlight.app.run import Planned
    from lathlight.carpentry import Flat
    from lathlight.plan import Plan
    from lathlight.project import Brief
    from lathlight.units import LengthStyle
    from lathlight.working import Working

TIDY = 4  # decimals of a millimetre beyond which there is only the noise of the arithmetic
FIGURE = 6  # decimals of any other figure
NEAR = 3  # ids offered for a misspelt one
LIKE_ENOUGH = 0.6


@dataclass(frozen=True, slots=True, kw_only=True)
class Subject:
    """One thing that can be asked about."""

    id: str
    kind: str  # "member", "seam", "quantity"
    what: str  # in a few words
    value: float | str | None
    unit: str
    why: Working


def subjects(planned: Planned) -> Mapping[str, Subject]:
    """Return everything that can be asked about, by id, kind by kind."""
    plan = planned.plan
    every = (
        *_quantities(plan),
        *_walls(plan),
        *_flats(plan),
        *_corners(plan),
        *_passages(plan),
        *_stock(plan),
        *_snags(planned),
        *_assumed(plan.brief),
    )
    return {subject.id: subject for subject in every}


def find_subject(known: Mapping[str, Subject], identity: str) -> Subject:
    """Return what an id stands for; letters may be large or small.

    Raises
    ------
    InputError
        Nothing has that id; the nearest ones are named.
    """
    if identity in known:
        return known[identity]
    folded = {each.casefold(): each for each in reversed(list(known))}
    if identity.casefold() in folded:
        return known[folded[identity.casefold()]]
    raise InputError.of(
        place="the plan's ids",
        found=f'"{identity}"',
        expected="the id of something in this plan",
        remedy=_instead(identity, known),
    )


def working_in_words(subject: Subject, style: LengthStyle) -> tuple[tuple[str, str], ...]:
    """Return a working as pairs of a heading and its words: what, how, from which inputs, by which source."""
    why = subject.why
    value, unit = (subject.value, subject.unit) if why.value is None else (why.value, why.unit)
    pairs = [("what", subject.what)]
    if value is not None:
        pairs.append(("value", in_words(value, unit, style)))
    pairs.append(("how", why.formula))
    pairs += [("from", f"{name}: {in_words(given, of, style)}") for name, given, of in why.inputs]
    pairs.append(("source", why.source))
    return tuple(pairs)


def in_words(value: float | str, unit: str, style: LengthStyle) -> str:
    """Return a value with its unit, as the project writes it; a length is not rounded to the saw's step.

    Examples
    --------
    >>> from lathlight.units import LengthStyle
    >>> in_words(2174.0, "mm", LengthStyle.metric()), in_words(12, "", LengthStyle.metric())
    ('2174 mm', '12')
    """
    if unit == "mm" and not isinstance(value, str) and math.isfinite(value):
        return format_length(round(value, TIDY), style=style)
    return figure_words(value, unit, style)


def _instead(identity: str, known: Mapping[str, Subject]) -> str:
    folded = {each.casefold(): each for each in known}
    near = difflib.get_close_matches(identity.casefold(), folded, n=NEAR, cutoff=LIKE_ENOUGH)
    if not near:
        return "lathlight why FILE lists every id there is."
    return f"Did you mean {' or '.join(folded[each] for each in near)}?"


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
        yield _subject(wall.name, "wall", f"wall {wall.mark}", why=wall.why, value=wall.length, unit="mm")
        for seam in wall.seams:
            what = f"{'upright' if seam.upright else 'level'} seam"
            yield _subject(seam.id, "seam", what, why=seam.why, value=seam.at, unit="mm")


def _flats(plan: Plan) -> Iterator[Subject]:
    for flat in plan.flats:
        yield _subject(flat.id, "flat", f"flat {flat.mark}", why=flat.why, value=flat.width, unit="mm")
        yield from _parts(flat)


def _parts(flat: Flat) -> Iterator[Subject]:
    for member in flat.members:
        what = f"{member.role} {flat.mark}-{member.mark} of {member.stock.name}"
        yield _subject(member.id, "member", what, why=member.why, value=member.length, unit="mm")
    for piece in flat.pieces:
        what = f"sheet piece {flat.mark}-{piece.mark} of {piece.sheet.name}"
        yield _subject(piece.id, "sheet piece", what, why=piece.why, value=piece.area, unit="mm2")
    for opening in flat.openings:
        what = f"{opening.kind} {opening.name}, rough width"
        yield _subject(opening.id, "opening", what, why=opening.why, value=opening.rough[2], unit="mm")


def _corners(plan: Plan) -> Iterator[Subject]:
    for corner in plan.corners:
        what = f"corner of {corner.left} and {corner.right}: {corner.style}"
        yield _subject(corner.id, "corner", what, why=corner.why, value=corner.angle, unit="rad")
        if corner.screws is not None:
            what = f"screws {corner.screws.screw.name}"
            number = len(corner.screws.heights)
            yield _subject(f"{corner.id}/screws", "corner", what, why=corner.screws.why, value=number)
        if corner.wedge is not None:
            wedge = corner.wedge
            yield _subject(wedge.id, "corner", "wedge, widest side", why=wedge.why, value=wedge.wide, unit="mm")


def _passages(plan: Plan) -> Iterator[Subject]:
    for passage in plan.passages:
        for stage in (*passage.stages, passage.raises):
            what = f"{stage.how}: {'passes' if stage.passes else 'does not pass'}"
            identity = f"{passage.flat}/{stage.through}"
            yield _subject(identity, "way in", what, why=stage.why, value=stage.figure, unit="mm")


def _stock(plan: Plan) -> Iterator[Subject]:
    for packed in (*plan.boards, *plan.sheets):
        size = f"{packed.length:.10g}" + (f"x{packed.width:.10g}" if packed.width is not None else "")
        what = f"pieces of {packed.stock} to buy, not proven"
        yield _subject(f"buy/{packed.stock}/{size}", "stock", what, why=packed.why, value=packed.number)


def _snags(planned: Planned) -> Iterator[Subject]:
    for snag in planned.snags:
        yield _subject(snag.id, "snag", snag.what, why=snag.why, value=snag.figure, unit=snag.unit)


def _assumed(brief: Brief) -> Iterator[Subject]:
    tables = [(f"assumed/{wall.name}", wall.assumed) for wall in brief.walls]
    tables.append(("assumed/flats", brief.limits.assumed))
    for place, assumed in tables:
        for name, why in assumed.items():
            yield _subject(f"{place}/{name}", "assumed", f"{name.replace('_', ' ')}, not stated", why=why)


def _subject(  # one line a thing
    identity: str, kind: str, what: str, *, why: Working, value: float | str | None = None, unit: str = ""
) -> Subject:
    return Subject(id=identity, kind=kind, what=what, value=value, unit=unit, why=why)


def subject_document(subject: Subject) -> Mapping[str, object]:
    """Return a subject with its working, ready for JSON: figures in mm, kg, rad."""
    why = subject.why
    value, unit = (subject.value, subject.unit) if why.value is None else (why.value, why.unit)
    inputs = [{"name": name, "value": plain_figure(given), "unit": of} for name, given, of in why.inputs]
    return {
        "id": subject.id,
        "kind": subject.kind,
        "what": subject.what,
        "value": plain_figure(value),
        "unit": unit,
        "formula": why.formula,
        "inputs": inputs,
        "source": why.source,
    }


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
