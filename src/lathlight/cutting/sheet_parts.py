"""The parts that guillotine cuts have left free, of many plans at once, and what laying a piece makes of them.

A part carries the way its next cuts may run without turning the saw and the stage they belong to, so a plan keeps the
rule of stages while it grows. A piece laid in a part's corner leaves up to three: beside it, above it, and, where the
cut was set wider than the piece to take a partner, between. All sizes are widened by the kerf.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray

    from lathlight.cutting.sheet_grid import SheetGrid

    Ints = NDArray[np.int64]
    Bools = NDArray[np.bool_]
    Floats = NDArray[np.float64]

SPARE_PARTS = 20  # parts a plan remembers beside its sheets; the smallest is forgotten
SIDE = 1000.0  # one unit of a side against one of area, in how well a piece fits
UPRIGHT, LEVEL, EITHER = 0, 1, 2  # ways of a part's next cuts: along the length, along the width
ANY_STAGE = 10**6
FAR = 1 << 60


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Pick:
    """The part chosen for the next piece of every plan, all (plans,)."""

    slot: Ints
    found: Bools  # False: the piece fits no part
    turned: Bools
    w: Ints  # of the piece as it lies
    h: Ints
    part_w: Ints
    part_h: Ints
    x: Ints
    y: Ints
    sheet: Ints
    way: Ints
    stage: Ints


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Cuts:
    """How a chosen part is cut, all (plans,)."""

    upright: Bools  # the first cut runs along the length
    alone: Bools  # no stage is left: the piece is trimmed out of the part
    wide: Ints  # where an upright first cut falls
    high: Ints  # where a level first cut falls
    beside: Ints  # stage of the cuts in the part beside
    above: Ints  # stage of the cuts in the part above


class Parts:
    """The free parts of every plan, (plans, parts)."""

    def __init__(self, grid: SheetGrid, *, bins: Sequence[int], plans: int) -> None:
        sheets = [grid.sheets[b] for b in bins]
        shape = (plans, len(sheets) + SPARE_PARTS)
        self._rows = np.arange(plans)
        self._w, self._h = np.zeros(shape, dtype=np.int64), np.zeros(shape, dtype=np.int64)
        self._w[:, : len(sheets)] = [sheet.width for sheet in sheets]
        self._h[:, : len(sheets)] = [sheet.length for sheet in sheets]
        self.area = self._w * self._h
        self._place = np.zeros((*shape, 5), dtype=np.int64)  # x, y, sheet, way, stage
        self._place[:, : len(sheets), 2] = np.arange(len(sheets))
        self._place[:, : len(sheets), 3] = EITHER
        self._edge = FAR if grid.straight_edge is None else grid.straight_edge + grid.kerf
        self._stages = ANY_STAGE if grid.stages is None else grid.stages
        self._floor = min(min(way) for piece in grid.pieces for way in piece.ways)

    def pick(self, w: Ints, h: Ints, *, turns: Bools | None, weights: Floats) -> Pick:
        """Return for each plan's next piece the part that it fits best; None turns no piece."""
        rows = self._rows
        fit = self._fit(w, h, weights)
        slot: Ints = fit.argmin(axis=1)
        best = fit[rows, slot]
        turned = np.zeros(len(w), dtype=np.bool_)
        if turns is not None:
            across = self._fit(h, w, weights)
            other = across.argmin(axis=1)
            turned = turns & (across[rows, other] < best)
            slot = np.where(turned, other, slot)
            best = np.where(turned, across[rows, other], best)
            w, h = np.where(turned, h, w), np.where(turned, w, h)
        x, y, sheet, way, stage = self._place[rows, slot].T
        return Pick(
            slot=slot,
            found=np.isfinite(best),
            turned=turned,
            w=w,
            h=h,
            part_w=self._w[rows, slot],
            part_h=self._h[rows, slot],
            x=x,
            y=y,
            sheet=sheet,
            way=way,
            stage=stage,
        )

    def _fit(self, w: Ints, h: Ints, weights: Floats) -> Floats:
        """Return how well a piece fits each part, the less the better, infinite where it does not."""
        wide, high = self._w - w[:, None], self._h - h[:, None]
        short = np.minimum(wide, high)
        fit = (weights[:, :1] * SIDE) * short
        fit += (weights[:, 1:2] * SIDE) * np.maximum(wide, high)
        fit += weights[:, 2:] * self.area
        bad = short < 0
        if self._edge < FAR:
            upright = ((wide == 0) | (self._h <= self._edge)) & ((high == 0) | (w[:, None] <= self._edge))
            level = ((high == 0) | (self._w <= self._edge)) & ((wide == 0) | (h[:, None] <= self._edge))
            bad |= ~(upright | level)
        fit[bad] = np.inf
        return fit

    def _cuts(self, pick: Pick, *, flips: Bools, extra: Ints) -> _Cuts:
        """Return how the chosen parts are cut: no stage wasted, the larger rest kept whole, unless flipped."""
        w, h, part_w, part_h, edge = pick.w, pick.h, pick.part_w, pick.part_h, self._edge
        upright_stage: Ints = pick.stage + (pick.way != UPRIGHT).astype(np.int64)
        level_stage: Ints = pick.stage + (pick.way != LEVEL).astype(np.int64)
        can_up = ((w == part_w) | ((upright_stage <= self._stages) & (part_h <= edge))) & ((h == part_h) | (w <= edge))
        can_level = ((h == part_h) | ((level_stage <= self._stages) & (part_w <= edge))) & ((w == part_w) | (h <= edge))
        above_if_up: Ints = np.where(w == part_w, level_stage, upright_stage + 1)
        beside_if_level: Ints = np.where(h == part_h, upright_stage, level_stage + 1)
        lost_if_up = np.where(above_if_up > self._stages, w * (part_h - h), 0)
        lost_if_level = np.where(beside_if_level > self._stages, (part_w - w) * h, 0)
        larger_beside = (part_w - w) * part_h > (part_h - h) * part_w
        wish = np.where(lost_if_up == lost_if_level, larger_beside, lost_if_up < lost_if_level) ^ flips
        upright = can_up & (wish | ~can_level)
        wide, high = w + extra[:, 0], h + extra[:, 1]
        wider = upright & (h < part_h) & (wide < part_w) & (wide <= edge)
        higher = ~upright & (w < part_w) & (high < part_h) & (high <= edge)
        return _Cuts(
            upright=upright,
            alone=~(can_up | can_level),
            wide=np.where(wider, wide, w),
            high=np.where(higher, high, h),
            beside=np.where(upright, upright_stage, beside_if_level),
            above=np.where(upright, above_if_up, level_stage),
        )

    def lay(self, pick: Pick, *, flips: Bools, extra: Ints) -> None:
        """Lay the chosen pieces; `extra` (plans, 2) is by how much the first cut leaves room for a partner."""
        cuts = self._cuts(pick, flips=flips, extra=extra)
        x, y, w, h, up = pick.x, pick.y, pick.w, pick.h, cuts.upright
        right_x, top_y = x + cuts.wide, y + cuts.high
        rows, slot = self._rows[pick.found], pick.slot[pick.found]
        self._w[rows, slot] = self._h[rows, slot] = self.area[rows, slot] = 0
        use = pick.found & ~cuts.alone
        wide, high = pick.part_w - cuts.wide, np.where(up, pick.part_h, cuts.high)
        self._put(use, pick, x=right_x, y=y, w=wide, h=high, way=np.full_like(x, UPRIGHT), stage=cuts.beside)
        wide, high = np.where(up, cuts.wide, pick.part_w), pick.part_h - cuts.high
        self._put(use, pick, x=x, y=top_y, w=wide, h=high, way=np.full_like(x, LEVEL), stage=cuts.above)
        use = use & ((cuts.wide > w) | (cuts.high > h))
        if use.any():
            wide, high = np.where(up, cuts.wide - w, w), np.where(up, h, cuts.high - h)
            between_x, between_y = np.where(up, x + w, x), np.where(up, y, y + h)
            way, stage = np.where(up, UPRIGHT, LEVEL), np.where(up, cuts.above, cuts.beside) + 1
            self._put(use, pick, x=between_x, y=between_y, w=wide, h=high, way=way, stage=stage)

    def _put(self, use: Bools, pick: Pick, *, x: Ints, y: Ints, w: Ints, h: Ints, way: Ints, stage: Ints) -> None:
        """Remember a part in place of the smallest, in the plans that use it and where a piece could still go."""
        (rows,) = np.nonzero(use & (np.minimum(w, h) >= self._floor) & (stage <= self._stages))
        if len(rows):
            slot = self.area[rows].argmin(axis=1)
            w, h = w[rows], h[rows]
            self._w[rows, slot], self._h[rows, slot], self.area[rows, slot] = w, h, w * h
            place = np.column_stack([x[rows], y[rows], pick.sheet[rows], way[rows], stage[rows]])
            self._place[rows, slot] = place
