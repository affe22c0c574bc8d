"""A second pair of eyes on a cutting of sheets: every sheet is sawn again, cut by cut, from the job alone.

Written apart from the solver and sharing nothing with it but the types: here pieces have their real size and the saw
takes its kerf; there is no widened rectangle, no row and no column.
"""

from __future__ import annotations

import itertools
from collections import Counter
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from lathlight.cutting.sheet_jobs import SheetJob
    from lathlight.cutting.sheet_plan import CutSheet, SawCut, SheetPart, SheetPiece, SheetPlan


def check_sheets(job: SheetJob, plan: SheetPlan) -> list[str]:
    """Return what is wrong with a plan, in words; an empty list where it can be sawn as it stands.

    Checked are, on each sheet, that pieces lie inside with the kerf between neighbours, keep their size and grain, and
    come off by straight cuts through whole parts, of so many stages and no longer than the straight edge; over all,
    counts, limits, cost and that the bound does not exceed it. That the bound is a bound is for
    `sheet_certificate.recheck_sheets`.
    """
    faults: list[str] = []
    for number, sheet in enumerate(plan.sheets, start=1):
        faults += [f"sheet {number}: {fault}" for fault in _sheet_faults(job, sheet)]
    cut = Counter(piece.item for sheet in plan.sheets for piece in sheet.pieces)
    for n, item in enumerate(job.items):
        if cut[n] != item.count:
            faults.append(f"piece {n + 1}: {cut[n]} cut, {item.count} wanted")
    used = Counter(sheet.stock for sheet in plan.sheets)
    for n, stock in enumerate(job.stocks):
        if stock.limit is not None and used[n] > stock.limit:
            faults.append(f"stock {n + 1}: {used[n]} used, {stock.limit} to be had")
    cost = sum(job.stocks[sheet.stock].price for sheet in plan.sheets)
    if cost != plan.cost:
        faults.append(f"cost {plan.cost} is said, {cost} is paid")
    if plan.lower_bound > plan.cost or plan.proven != (plan.lower_bound == plan.cost):
        faults.append(f"bound {plan.lower_bound}, cost {plan.cost}, proven {plan.proven} do not agree")
    return faults


def _sheet_faults(job: SheetJob, sheet: CutSheet) -> list[str]:
    stock = job.stocks[sheet.stock]
    root = sheet.tree
    faults = [fault for piece in sheet.pieces for fault in _piece_faults(job, sheet, piece)]
    faults += _neighbour_faults(job, sheet)
    if (root.x, root.y, root.width, root.length) != (0, 0, stock.width, stock.length):
        faults.append("the cuts do not start from the whole sheet")
    faults += _part_faults(job, sheet, root)
    places = sorted(part.piece for part in root.walk() if part.piece is not None)
    if places != list(range(len(sheet.pieces))):
        faults.append("the cuts do not set every piece free once")
    if [cut.number for cut in sheet.cuts] != list(range(1, len(sheet.cuts) + 1)):
        faults.append("the cuts are not numbered in order")
    faults += _order_faults(root, 0)
    stages = _stages(root, "", 0)
    if job.stages is not None and stages > job.stages:
        faults.append(f"{stages} stages of cuts, {job.stages} allowed")
    return faults


def _piece_faults(job: SheetJob, sheet: CutSheet, piece: SheetPiece) -> list[str]:
    item, stock = job.items[piece.item], job.stocks[sheet.stock]
    size = (item.length, item.width) if piece.turned else (item.width, item.length)
    faults: list[str] = []
    if piece.turned and not item.rotate:
        faults.append(f"piece {piece.item + 1} is turned against the grain")
    if (piece.width, piece.length) != size:
        faults.append(f"piece {piece.item + 1} is {piece.width} x {piece.length}, wanted {size[0]} x {size[1]}")
    across = piece.x + piece.width > stock.width or piece.y + piece.length > stock.length
    if min(piece.x, piece.y) < 0 or across:
        faults.append(f"piece {piece.item + 1} at {piece.x}, {piece.y} lies outside")
    return faults


def _neighbour_faults(job: SheetJob, sheet: CutSheet) -> list[str]:
    faults: list[str] = []
    for a, b in itertools.combinations(sheet.pieces, 2):
        beside = max(b.x - a.x - a.width, a.x - b.x - b.width)
        above = max(b.y - a.y - a.length, a.y - b.y - b.length)
        if max(beside, above) < job.kerf:
            faults.append(f"pieces at {a.x}, {a.y} and {b.x}, {b.y} leave no room for the kerf")
    return faults


def _part_faults(job: SheetJob, sheet: CutSheet, part: SheetPart) -> list[str]:
    """Return what is wrong with one part and all parts of it."""
    if part.cut is None:
        if part.parts:
            return ["a part falls in two without a cut"]
        if part.piece is None:
            return []
        if part.piece >= len(sheet.pieces):
            return ["a part is said to be a piece that the sheet does not have"]
        piece = sheet.pieces[part.piece]
        same = (part.x, part.y, part.width, part.length) == (piece.x, piece.y, piece.width, piece.length)
        return [] if same else [f"the part at {part.x}, {part.y} is not the piece that it is said to be"]
    faults = [*_cut_faults(job, part, part.cut)]
    for inner in part.parts:
        faults += _part_faults(job, sheet, inner)
    return faults


def _cut_faults(job: SheetJob, part: SheetPart, cut: SawCut) -> list[str]:
    place = f"cut {cut.number}"
    lengthwise = cut.along == "length"
    whole, reach = (part.width, part.length) if lengthwise else (part.length, part.width)
    faults: list[str] = []
    if part.piece is not None:
        faults.append(f"{place} goes through a piece")
    if cut.reach != reach:
        faults.append(f"{place} is {cut.reach} long, its part {reach}")
    if job.straight_edge is not None and reach > job.straight_edge:
        faults.append(f"{place} is {reach} long, the straight edge {job.straight_edge}")
    if not 0 < cut.at < whole:
        faults.append(f"{place} at {cut.at} is not within its part of {whole}")
    rest = whole - cut.at - job.kerf
    sides = [(0, cut.at), (cut.at + job.kerf, rest)][: 2 if rest > 0 else 1]
    wanted = [
        (part.x + low, part.y, size, part.length) if lengthwise else (part.x, part.y + low, part.width, size)
        for low, size in sides
    ]
    if [(p.x, p.y, p.width, p.length) for p in part.parts] != wanted:
        faults.append(f"{place} does not leave the parts that it is said to leave")
    return faults


def _order_faults(part: SheetPart, before: int) -> list[str]:
    """Return parts that are cut before they have come off."""
    if part.cut is None:
        return []
    own = part.cut.number
    faults = [] if own > before else [f"cut {own} comes before the part that it cuts"]
    return faults + [fault for inner in part.parts for fault in _order_faults(inner, own)]


def _stages(part: SheetPart, way: str, stage: int) -> int:
    """Return the greatest number of changes of direction, and one, on the way to parts of more than one piece."""
    if part.cut is None or sum(inner.piece is not None for inner in part.walk()) < 2:
        return stage
    own = stage + (part.cut.along != way)
    return max(_stages(inner, part.cut.along, own) for inner in part.parts)
