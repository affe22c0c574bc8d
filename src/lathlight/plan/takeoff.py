"""The takeoff of a whole set: every trade's lines in one list, with net, allowance, reason and gross.

Boards, sheets and mouldings come as the sawing cuts them; fixing, floor and paint bring their own lines. Prices are
left to buying.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Literal

from lathlight.finishing import Pack, TakeoffRow, moulding_rows, takeoff_line
from lathlight.mouldings import bought_lines
from lathlight.plan.moulding_cuts import framed
from lathlight.plan.sawing import proof_words
from lathlight.working import COMMON_PRACTICE, Working

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping, Sequence

    from lathlight.carpentry import CutLine, Packed
    from lathlight.finishing import Finish, MouldingStock, TakeoffLine
    from lathlight.flooring import FloorPlan
    from lathlight.mouldings import MouldingLayout, TrimPlan, WallEndCover
    from lathlight.project import Brief

CUTTING = 0.1  # share that falls off in cutting, common practice, no source
BOARDS, SHEETS = "whole boards", "whole sheets"
SPARE = "{} to spare"


def derive_takeoff(
    brief: Brief,
    *,
    cut: Sequence[CutLine],
    boards: Sequence[Packed],
    sheets: Sequence[Packed],
    mouldings: Sequence[MouldingStock] = (),
    trim: TrimPlan | None = None,
    frames: MouldingLayout | None = None,
    ends: Sequence[WallEndCover] = (),
    fixing: Iterable[TakeoffLine] = (),
    boxes: Mapping[str, int] | None = None,
    floor: FloorPlan | None = None,
    finish: Finish | None = None,
) -> tuple[TakeoffRow, ...]:
    """Return every row of the takeoff, trade by trade.

    Parameters
    ----------
    cut
        The lists of timber and of sheet pieces: what the boards and the sheets are for.
    boards, sheets, mouldings
        As cut.
    fixing
        Screws, brads, brackets, glue, filler and whatever else holds the set.
    boxes
        How many of a fastener are in a box, by its name; what is sold singly is left out.
    """
    return (
        *_board_rows(boards, cut),
        *_strip_rows(trim),
        *(_end_row(end) for end in ends if end.thickness > 0 and end.stock in brief.catalog.lumber),
        *(_sheet_row(packed, cut) for packed in sheets),
        *(_end_row(end, sheet=True) for end in ends if end.thickness > 0 and end.stock not in brief.catalog.lumber),
        *moulding_rows(mouldings),
        *_bought_rows(frames),
        *_fixing_rows(tuple(fixing), boxes or {}),
        *(TakeoffRow(trade="floor", line=line) for line in (floor.lines if floor is not None else ())),
        *_paint_rows(finish),
    )


# --- timber and sheets -------------------------------------------------------------------------------------------


def _board_rows(boards: Sequence[Packed], cut: Sequence[CutLine]) -> Iterator[TakeoffRow]:
    """Yield one row a stock, all its lengths together; net is what the pieces themselves would fill."""
    stocks: dict[str, list[Packed]] = {}
    for packed in boards:
        stocks.setdefault(packed.stock, []).append(packed)
    for own in stocks.values():
        yield _counted("timber", own, sum(_run(packed, cut) / packed.length for packed in own), BOARDS)


def _run(packed: Packed, cut: Sequence[CutLine]) -> float:
    """Return the length of all pieces on some boards, together [mm]; a layer is a piece."""
    lengths = {identity: line.length for line in cut for identity in line.ids}
    return sum(lengths[piece.split("/layer ")[0]] for board in packed.pieces for piece in board)


def _sheet_row(packed: Packed, cut: Sequence[CutLine]) -> TakeoffRow:
    inside = {piece for sheet in packed.pieces for piece in sheet}
    shown = sum(
        line.length * (line.width or 0.0) * line.number * len(inside.intersection(line.ids)) / len(line.ids)
        for line in cut
    )
    return _counted("sheets", [packed], shown / (packed.length * (packed.width or 1.0)), SHEETS)


def _counted(trade: Literal["timber", "sheets"], own: Sequence[Packed], net: float, what: str) -> TakeoffRow:
    number, spares = sum(packed.number for packed in own), sum(packed.spare for packed in own)
    net = min(round(net, 9), float(number))
    reason = f"{what}, {proof_words(proven=all(packed.proven for packed in own), gap=_gap(own))}"
    spare = f"; {SPARE.format(spares)}" if spares else ""
    line = takeoff_line(
        item=own[0].stock,
        unit="",
        net=net,
        allowance=number + spares - net,
        reason=f"{reason}{spare}" if number + spares > net else "",
        why=own[0].why,
    )
    packs = tuple(Pack(size=packed.length, unit="mm", number=packed.number + packed.spare) for packed in own)
    return TakeoffRow(trade=trade, line=line, packs=packs)


def _gap(own: Sequence[Packed]) -> float | None:
    return max((packed.gap for packed in own if packed.gap is not None), default=None)


def _strip_rows(trim: TrimPlan | None) -> Iterator[TakeoffRow]:
    """Yield the timber that cornice backing strips are ripped from, if there are any."""
    if trim is not None and trim.strips:
        run = math.fsum(strip.length for strip in trim.strips)
        yield _by_length("backing strips behind the cornice", run, len(trim.strips))


def _by_length(item: str, run: float, number: int) -> TakeoffRow:
    line = takeoff_line(
        item=item,
        unit="m",
        net=run / 1000,
        allowance=CUTTING * run / 1000,
        reason=f"{CUTTING * 100:.0f} % for cutting",
        why=Working(
            formula="all pieces together, and what is added",
            inputs=(("pieces", number, ""), ("together", run, "mm")),
            source=COMMON_PRACTICE,
            value=(1 + CUTTING) * run / 1000,
            unit="m",
        ),
    )
    return TakeoffRow(trade="timber", line=line)


def _end_row(end: WallEndCover, *, sheet: bool = False) -> TakeoffRow:
    """Return what lies over a free end of the set: timber by length, or sheet by area."""
    item = f"{end.finish}, {end.side} end: {end.stock}"
    if not sheet:
        return _by_length(item, end.length, 1)
    shown = end.length * end.width
    line = takeoff_line(
        item=item,
        unit="m2",
        net=shown / 1e6,
        allowance=CUTTING * shown / 1e6,
        reason=f"{CUTTING * 100:.0f} % for cutting; an offcut will do",
        why=Working(
            formula="height x width of the end, and what is added",
            inputs=(("height", end.length, "mm"), ("width", end.width, "mm")),
            source=COMMON_PRACTICE,
            value=(1 + CUTTING) * shown / 1e6,
            unit="m2",
        ),
    )
    return TakeoffRow(trade="sheets", line=line)


# --- mouldings ---------------------------------------------------------------------------------------------------


def _bought_rows(layout: MouldingLayout | None) -> Iterator[TakeoffRow]:
    """Yield the frames that are bought whole, by moulding and size."""
    sizes: dict[str, list[tuple[float, float]]] = {}
    for frame, tier in framed(layout):
        if tier.bought_width is not None and tier.profile is not None:
            sizes.setdefault(tier.profile.name, []).append((frame.width, frame.height))
    for name, own in sorted(sizes.items()):
        for size in bought_lines(own):
            line = takeoff_line(
                item=f"{name}, frame bought whole",
                unit="",
                net=size.number,
                allowance=0.0,
                reason="",
                why=Working(
                    formula="frames of one size, outside to outside",
                    inputs=(("width", size.width, "mm"), ("height", size.height, "mm")),
                    value=size.number,
                ),
            )
            yield TakeoffRow(trade="mouldings", line=line, size=(size.width, size.height))


# --- fixing ------------------------------------------------------------------------------------------------------


def _fixing_rows(lines: Sequence[TakeoffLine], boxes: Mapping[str, int]) -> Iterator[TakeoffRow]:
    """Yield what holds the set; the boxes of a fastener stand once, on its first line, and hold those of all lines."""
    left = {line.item: math.fsum(each.gross for each in lines if each.item == line.item) for line in lines}
    for line in lines:
        box, number = boxes.get(line.item, 1), left.pop(line.item, 0.0)
        packs = (Pack(size=box, unit="", number=math.ceil(number / box - 1e-9)),) if box > 1 and number else ()
        yield TakeoffRow(trade="fixing", line=line, packs=packs)


# --- paint -------------------------------------------------------------------------------------------------------


def _paint_rows(finish: Finish | None) -> Iterator[TakeoffRow]:
    for coating in finish.coatings if finish is not None else ():
        tins = () if coating.tins is None else coating.tins.tins
        packs = tuple(Pack(size=size, unit="l", number=number) for size, number in tins)
        yield TakeoffRow(trade="paint", line=coating.line, packs=packs)
