"""How many screws, pins, brads, bolts, brackets, bumpers and weights the fixing takes, and how much glue and filler."""

from __future__ import annotations

import math
from collections import Counter
from dataclasses import dataclass
from typing import TYPE_CHECKING

from lathlight.finishing import brad_lines, glue_line, glue_need, takeoff_line, weight_line
from lathlight.fixing.lengths import fit_fastener
from lathlight.fixing.model import HardwareCount
from lathlight.working import COMMON_PRACTICE, Working

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from lathlight.carpentry import Flat
    from lathlight.catalog import Fastener
    from lathlight.finishing import Brad, Glue, TakeoffLine, WeightDay
    from lathlight.fixing.model import Bumper, CornerFixing, JointFixing, SheetFixing, StripFixing
    from lathlight.project import FixingBrief

SPARE = 0.1  # share of screws and pins lost or spoilt: common practice, no source
BRACKET_SCREWS = 4  # in every temporary bracket: common practice, no source
SCREW_FILLER = 0.3  # filler over a countersunk head [ml]: common practice, no source
BRAD_FILLER = 0.05  # over a brad or a pin [ml]: common practice, no source
HELD_WITH = {"pins": ("pin", "brad"), "temporary screws": ("screw",)}


@dataclass(frozen=True, slots=True, kw_only=True)
class Fixed:
    """All that is counted."""

    flats: tuple[Flat, ...]
    sheets: tuple[SheetFixing, ...]
    strips: tuple[StripFixing, ...]
    joints: tuple[JointFixing, ...]
    corners: tuple[CornerFixing, ...]
    bumpers: tuple[Bumper, ...]
    busiest: WeightDay | None
    rules: FixingBrief
    frames: tuple[HardwareCount, ...] = ()  # fittings and fixings of the frames themselves

    @property
    def brads(self) -> tuple[Brad, ...]:
        """Every place of a brad."""
        return tuple(brad for strip in self.strips for brad in strip.brads)


def glues_of(fixed: Fixed) -> tuple[Glue, ...]:
    """Return the containers of each glue; one line where sheets and mouldings take the same."""
    lengths: dict[str, float] = {}
    rows = {glue.name: glue for glue in (fixed.rules.glue, fixed.rules.moulding_glue)}
    behind_sheets = math.fsum(b.length for s in fixed.sheets for b in s.beads)
    behind_mouldings = math.fsum(s.glue for s in fixed.strips)
    for glue, length in ((fixed.rules.glue, behind_sheets), (fixed.rules.moulding_glue, behind_mouldings)):
        lengths[glue.name] = lengths.get(glue.name, 0.0) + length
    return tuple(glue_need(rows[name], length) for name, length in lengths.items() if length > 0)


def hardware_of(fixed: Fixed) -> tuple[HardwareCount, ...]:
    """Return fittings and fixings by use: those of the frames, then of sheets, mouldings, joints and corners."""
    return fixed.frames + tuple(
        HardwareCount(what=what, name=name, use=use, number=number, box=box)
        for (what, name, use, box), number in _summed(_uses(fixed))
        if number
    )


def takeoff_of(fixed: Fixed, glues: Sequence[Glue]) -> tuple[TakeoffLine, ...]:
    """Return what is wanted of everything, with its allowance: fasteners, fittings, glue, filler, weights."""
    lines = [
        *(_with_spares(name, number) for name, number in _fasteners(hardware_of(fixed))),
        *brad_lines(fixed.brads),
        *(_plain(count) for count in hardware_of(fixed) if count.what not in LOST),
        *(glue_line(glue) for glue in glues),
        *_filler(fixed),
    ]
    if fixed.busiest is not None:
        lines.append(weight_line(fixed.rules.weight, fixed.busiest))
    return tuple(lines)


# --- by use ----------------------------------------------------------------------------------------------------------

LOST = frozenset({"screw", "pin", "brad", "nail"})  # kinds that are dropped and spoilt
_Use = tuple[str, str, str, int]


def _summed(uses: Iterable[tuple[_Use, int]]) -> list[tuple[_Use, int]]:
    counts: Counter[_Use] = Counter()
    for use, number in uses:
        counts[use] += number
    return list(counts.items())


def _uses(fixed: Fixed) -> Iterator[tuple[_Use, int]]:
    rows = {f.name: f for f in fixed.rules.fasteners}
    for sheet in fixed.sheets:
        for head in sheet.heads:
            yield _of(head.fastener, "sheets, under mouldings" if head.hidden_by else "sheets, filled over"), 1
    yield from _while_gluing(fixed)
    for strip in fixed.strips:
        for brad in strip.shot:
            assert brad.choice.fastener is not None, "only brads that are driven"
            yield _of(brad.choice.fastener, "mouldings"), 1
        for head in strip.screws:
            yield (
                _of(head.fastener, "mouldings that come off" if head.hidden_by is None else "strips behind cornice"),
                1,
            )
    yield from _joined(fixed, rows)
    yield from _brackets(fixed)
    bumper = fixed.rules.bumper
    yield (bumper.kind, bumper.name, "where the set stands near the room's wall", 1), len(fixed.bumpers)


def _of(fastener: Fastener, use: str) -> _Use:
    return fastener.kind, fastener.name, use, fastener.box


def _while_gluing(fixed: Fixed) -> Iterator[tuple[_Use, int]]:
    """Yield the pins or screws that hold glued sheets; weights are counted by day."""
    sizes = {flat.id: (flat.sheet.thickness, flat.stock.depth) for flat in fixed.flats}
    for sheet in fixed.sheets:
        if sheet.clamping is None or sheet.clamping.held == "weights":
            continue
        through, timber = sizes[sheet.flat]
        kinds = HELD_WITH[sheet.clamping.held]
        fit = fit_fastener(fixed.rules.fasteners, kinds=kinds, through=through, timber=timber)
        if fit.fastener is not None:
            yield _of(fit.fastener, "hold sheets while the glue sets"), sheet.clamping.number


def _joined(fixed: Fixed, rows: dict[str, Fastener]) -> Iterator[tuple[_Use, int]]:
    uses = [(j.hardware, len(j.places), "joints between flats") for j in fixed.joints]
    uses += [(c.hardware, len(c.heights), "corners") for c in fixed.corners if not c.by_carpentry]
    for name, number, use in uses:
        if name is None:
            continue
        row = rows.get(name)
        yield (("connector", name, use, 1) if row is None else _of(row, use)), number


def _brackets(fixed: Fixed) -> Iterator[tuple[_Use, int]]:
    number = sum(len(each.temporary) for each in (*fixed.joints, *fixed.corners))
    bracket = fixed.rules.bracket
    yield (bracket.kind, bracket.name, "temporary, low and high, while marking out", 1), number
    deep = min((flat.stock.depth for flat in fixed.flats), default=0.0)
    fit = fit_fastener(fixed.rules.fasteners, kinds=("screw",), through=bracket.thickness, timber=deep)
    if fit.fastener is not None:
        yield _of(fit.fastener, "temporary brackets, four each"), BRACKET_SCREWS * number


# --- takeoff ---------------------------------------------------------------------------------------------------------


def _fasteners(counts: Sequence[HardwareCount]) -> list[tuple[str, int]]:
    """Return screws and pins by row; what holds mouldings has lines of its own."""
    names: Counter[str] = Counter()
    for count in counts:
        if count.what in LOST and count.use != "mouldings":
            names[count.name] += count.number
    return sorted(names.items())


def _with_spares(name: str, number: int) -> TakeoffLine:
    return takeoff_line(
        item=name,
        unit="",
        net=number,
        allowance=math.ceil(number * SPARE - 1e-9),
        reason=f"{SPARE * 100:.3g} % lost or spoilt",
        why=Working(
            formula="every place of the fixing plan that takes this fastener",
            inputs=(("places", number, ""), ("spares", SPARE, "share")),
            source=COMMON_PRACTICE,
            value=number,
        ),
    )


def _plain(count: HardwareCount) -> TakeoffLine:
    why = Working(formula=f"counted on the drawings: {count.use}", source=COMMON_PRACTICE, value=count.number)
    return takeoff_line(item=count.name, unit="", net=count.number, allowance=0.0, reason="", why=why)


def heads_to_fill(fixed: Fixed) -> tuple[int, int]:
    """Return how many screw heads, and how many brads and pins, are filled over."""
    heads = Counter(h.fastener.kind for s in fixed.sheets for h in s.seen)
    heads.update(h.fastener.kind for s in fixed.strips for h in s.screws if h.hidden_by is None)
    heads.update(b.choice.fastener.kind for b in fixed.brads if b.choice.fastener is not None)
    for sheet in fixed.sheets:
        if sheet.clamping is not None and sheet.clamping.held != "weights":
            heads["screw" if sheet.clamping.held == "temporary screws" else "pin"] += sheet.clamping.number
    return heads["screw"], sum(number for kind, number in heads.items() if kind != "screw")


def _filler(fixed: Fixed) -> Iterator[TakeoffLine]:
    screws, brads = heads_to_fill(fixed)
    if not screws and not brads:
        return
    filler = fixed.rules.filler
    net = (screws * SCREW_FILLER + brads * BRAD_FILLER) / 1000 / filler.container
    whole = math.ceil(net - 1e-9)
    yield takeoff_line(
        item=filler.name,
        unit="",
        net=net,
        allowance=whole - net,
        reason="whole containers",
        why=Working(
            formula="heads that are seen, so much filler each, over one container, rounded up",
            inputs=(
                ("screw heads", screws, ""),
                ("a screw head", SCREW_FILLER, "ml"),
                ("brads and pins", brads, ""),
                ("a brad", BRAD_FILLER, "ml"),
                ("container", filler.container, "l"),
            ),
            source=COMMON_PRACTICE,
            value=whole,
        ),
    )
