"""How every sheet piece is held: glue and hidden screws, or rows of screws or pins; and what holds it as it sets.

Decides which timber takes a screw and how long that is. Where heads may sit is ``sheet_heads``; beads and clamping are
``lathlight.finishing``'s.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from lathlight.finishing import ClampRules, clamp_with_fasteners, clamp_with_weights, sheet_beads
from lathlight.fixing.lands import lands_of
from lathlight.fixing.lengths import fit_fastener
from lathlight.fixing.model import FixingFinding, Head, SheetFixing
from lathlight.fixing.sheet_heads import all_places, hidden_places
from lathlight.working import COMMON_PRACTICE, GEOMETRY, Working

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from lathlight.carpentry import Flat, SheetPiece
    from lathlight.finishing import Bead, Clamping
    from lathlight.fixing.lengths import Fit
    from lathlight.fixing.sheet_heads import Place
    from lathlight.mouldings import Strip
    from lathlight.project import FixingBrief

Mode = Literal["glue", "screws", "pins"]
KINDS: dict[Mode, tuple[str, ...]] = {"glue": ("screw",), "screws": ("screw",), "pins": ("pin", "brad")}
SOURCE = f"{GEOMETRY}; spacing and distances from edges: {COMMON_PRACTICE}"


@dataclass(frozen=True, slots=True, kw_only=True)
class FlatSheets:
    """The sheets of one flat as fixed, and what would go wrong with them."""

    sheets: tuple[SheetFixing, ...]
    findings: tuple[FixingFinding, ...]


def fix_sheets(flat: Flat, strips: Sequence[Strip], rules: FixingBrief) -> FlatSheets:
    """Return how every sheet piece of a flat is held.

    Parameters
    ----------
    flat
        With its members and pieces.
    strips
        Of its wall; those beside the flat do no harm.
    rules
        Glue, screws or pins, their spacing, what holds while the glue sets, and fasteners to choose from.
    """
    beads = sheet_beads(flat) if rules.sheets == "glue" else ()
    by_piece: dict[str, list[Bead]] = {}
    for bead in beads:
        by_piece.setdefault(bead.piece, []).append(bead)
    found = [_fix_piece(flat, piece, strips, rules, by_piece.get(piece.id, [])) for piece in flat.pieces]
    return FlatSheets(
        sheets=tuple(sheet for sheet, _ in found), findings=tuple(each for _, findings in found for each in findings)
    )


def _fix_piece(
    flat: Flat, piece: SheetPiece, strips: Sequence[Strip], rules: FixingBrief, beads: Sequence[Bead]
) -> tuple[SheetFixing, list[FixingFinding]]:
    near = _over(strips, piece)
    places_of = hidden_places if rules.sheets == "glue" else all_places
    places = places_of(piece, lands_of(piece, flat.members), near, spacing=rules.screw_spacing)
    heads, misfits = _heads(piece, places, rules)
    clamping = _clamping(piece, beads, flat.stock.width, rules) if beads else None
    sheet = SheetFixing(
        piece=piece.id,
        flat=flat.id,
        wall=flat.wall,
        mode=rules.sheets,
        heads=heads,
        beads=tuple(beads),
        clamping=clamping,
        why=_why(rules, len(heads), len(beads)),
    )
    return sheet, [*_misfitting(piece, misfits), *_held_by_nothing(sheet)]


def _over(strips: Iterable[Strip], piece: SheetPiece) -> list[Strip]:
    xs, zs = [p[0] for p in piece.outline], [p[1] for p in piece.outline]
    x0, x1, z0, z1 = min(xs), max(xs), min(zs), max(zs)
    return [s for s in strips if s.x0 < x1 and s.x1 > x0 and s.z0 < z1 and s.z1 > z0]


def _heads(piece: SheetPiece, places: Iterable[Place], rules: FixingBrief) -> tuple[tuple[Head, ...], list[Fit]]:
    """Return the heads, and the fits of the places where no fastener on sale fits."""
    fits: dict[float, Fit] = {}
    heads: list[Head] = []
    misfits: list[Fit] = []
    for at, land, strip in places:
        deep = land.member.deep
        fit = fits.get(deep)
        if fit is None:
            fit = fits[deep] = fit_fastener(
                rules.fasteners, kinds=KINDS[rules.sheets], through=piece.sheet.thickness, timber=deep
            )
        if fit.fastener is None:
            misfits.append(fit)
            continue
        hidden_by = None if strip is None else strip.id
        heads.append(Head(at=at, member=land.member.id, fastener=fit.fastener, hidden_by=hidden_by))
    return tuple(heads), misfits


def _clamping(piece: SheetPiece, beads: Sequence[Bead], land: float, rules: FixingBrief) -> Clamping:
    clamp_rules = ClampRules()
    if rules.hold == "weights":
        return clamp_with_weights(
            piece.id, beads, land=land, adhesive=rules.glue, weight=rules.weight, rules=clamp_rules
        )
    return clamp_with_fasteners(piece.id, beads, held=rules.hold, adhesive=rules.glue, rules=clamp_rules)


def _misfitting(piece: SheetPiece, misfits: Sequence[Fit]) -> Iterable[FixingFinding]:
    if not misfits:
        return
    worst = min(misfits, key=lambda fit: fit.longest)
    yield FixingFinding(
        kind="fastener through the timber",
        wall=piece.wall,
        place=piece.id,
        found=worst.on_sale,
        limit=worst.longest,
        unit="mm",
        number=len(misfits),
        inputs=(("shortest that holds", worst.shortest, "mm"), ("sheet", piece.sheet.thickness, "mm")),
    )


def _held_by_nothing(sheet: SheetFixing) -> Iterable[FixingFinding]:
    if not sheet.heads and not sheet.beads:
        yield FixingFinding(kind="sheet held by nothing", wall=sheet.wall, place=sheet.piece, found=0, limit=1, unit="")


def _why(rules: FixingBrief, heads: int, beads: int) -> Working:
    formulas = {
        "glue": "glued to all timber behind it; screwed where a moulding over timber hides the heads, nowhere else",
        "screws": "screws along all timber: the spacing along edges, twice that and at most 300 mm inside",
        "pins": "pins along all timber: the spacing along edges, twice that and at most 300 mm inside",
    }
    return Working(
        formula=formulas[rules.sheets],
        inputs=(("spacing", rules.screw_spacing, "mm"), ("beads", beads, "")),
        source=SOURCE,
        value=heads,
    )
