"""Many plans grown at once: pieces laid one by one into the parts that guillotine cuts leave, orders bred for room.

What is sought is a filling of given sheets that leaves nothing out; the area left out guides the breeding (random keys
after Bean 1994, the pieces left out moved forward after Joslin and Clements 1999: from memory).
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from lathlight.cutting.sheet_blocks import Laid
from lathlight.cutting.sheet_parts import Parts

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray

    from lathlight.cutting.sheet_grid import SheetGrid

    Ints = NDArray[np.int64]
    Bools = NDArray[np.bool_]
    Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Genes:
    """What makes each plan of a swarm different, (plans, pieces) unless said."""

    keys: Floats  # order of laying, smallest first
    flips: Bools  # the other of the two first cuts
    partners: Ints  # which extra the cut is set wider for, -1 none
    weights: Floats  # (plans, 3) of the shorter gap, the longer gap, the part's area

    def where(self, chosen: Bools, other: Genes) -> Genes:
        """Return the other's genes in the chosen plans, these elsewhere."""
        pick = chosen[:, None]
        return Genes(
            keys=np.where(pick, other.keys, self.keys),
            flips=np.where(pick, other.flips, self.flips),
            partners=np.where(pick, other.partners, self.partners),
            weights=np.where(pick, other.weights, self.weights),
        )

    def taken(self, rows: Ints) -> Genes:
        """Return the genes of these plans, in this order."""
        return Genes(
            keys=self.keys[rows], flips=self.flips[rows], partners=self.partners[rows], weights=self.weights[rows]
        )


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Grown:
    """What a swarm came to; (pieces, plans) in laying order unless said."""

    left_out: Ints  # (plans,) area of the pieces that found no room
    largest: Ints  # (plans,) area of the largest part that stayed free
    copies: Ints  # which piece of the swarm
    sheet: Ints  # -1: left out
    x: Ints
    y: Ints
    turned: Bools

    def where(self, chosen: Bools, other: Grown) -> Grown:
        """Return the other's plans where chosen, these elsewhere."""
        return Grown(
            left_out=np.where(chosen, other.left_out, self.left_out),
            largest=np.where(chosen, other.largest, self.largest),
            copies=np.where(chosen, other.copies, self.copies),
            sheet=np.where(chosen, other.sheet, self.sheet),
            x=np.where(chosen, other.x, self.x),
            y=np.where(chosen, other.y, self.y),
            turned=np.where(chosen, other.turned, self.turned),
        )

    def taken(self, rows: Ints) -> Grown:
        """Return these plans, in this order."""
        return Grown(
            left_out=self.left_out[rows],
            largest=self.largest[rows],
            copies=self.copies[:, rows],
            sheet=self.sheet[:, rows],
            x=self.x[:, rows],
            y=self.y[:, rows],
            turned=self.turned[:, rows],
        )


class Swarm:
    """Grows plans for one set of sheets."""

    def __init__(self, grid: SheetGrid, *, bins: Sequence[int], seed: int, plans: int) -> None:
        self.grid, self.bins, self.plans = grid, tuple(bins), plans
        self._random = np.random.default_rng(seed)
        pieces = grid.pieces
        self._type = np.repeat(np.arange(len(pieces)), [p.count for p in pieces])
        self._w = np.array([pieces[t].width for t in self._type], dtype=np.int64)
        self._h = np.array([pieces[t].length for t in self._type], dtype=np.int64)
        self._turns = np.array([pieces[t].rotate and pieces[t].width != pieces[t].length for t in self._type])
        ways = sorted({way for piece in pieces for way in piece.ways})
        ways += [(2 * w, 2 * h) for w, h in ways]
        self._extra = np.array([*ways, (0, 0)], dtype=np.int64)  # the last one is none
        self._area = self._w * self._h

    def first_genes(self) -> Genes:
        """Return genes to start from: sorted by area, sides, with noise that grows from plan to plan."""
        plans, count, random = self.plans, len(self._type), self._random
        long, short = np.maximum(self._w, self._h), np.minimum(self._w, self._h)
        sizes = [self._area, long, self._h, self._w, short]
        ranks = np.array([-(size / size.max()) + self._type * 1e-6 for size in sizes])
        noise = np.linspace(0.0, 0.35, plans)[:, None]
        by_type = random.normal(size=(plans, len(self.grid.pieces)))[:, self._type]
        keys = ranks[np.arange(plans) % len(sizes)] + noise * (0.7 * by_type + 0.3 * random.normal(size=(plans, count)))
        weights = np.abs(random.normal(size=(plans, 3))) * np.array([1.0, 0.3, 1.0])
        weights[: len(sizes)] = (0.0, 0.0, 1.0)
        partners = np.full((plans, count), -1, dtype=np.int64)
        flips = random.random((plans, count)) < 0.15
        flips[: len(sizes)] = False
        return Genes(keys=keys, flips=flips, partners=partners, weights=weights)

    def bred(self, genes: Genes, grown: Grown) -> Genes:
        """Return genes that differ in a few places; what was left out moves forward."""
        random, shape = self._random, genes.keys.shape
        few = 1.0 + 2.0 * random.random((self.plans, 1))
        keys = genes.keys.copy()
        other = np.take_along_axis(keys, random.integers(0, shape[1], shape), axis=1)
        moved = random.random(shape) < few / shape[1]
        keys = np.where(moved, other + 1e-3 * random.normal(size=shape), keys)
        out = np.zeros(shape, dtype=np.bool_)
        np.put_along_axis(out, grown.copies.T, grown.sheet.T < 0, axis=1)
        forward = out & (random.random(shape) < 0.3)
        keys = np.where(forward, keys - random.random(shape) * 0.5, keys)
        flips = genes.flips ^ (random.random(shape) < few / shape[1])
        change = random.random(shape) < few / shape[1]
        partner = np.where(random.random(shape) < 0.5, -1, random.integers(0, len(self._extra) - 1, shape))
        partners = np.where(change, partner, genes.partners)
        turned = random.random((self.plans, 1)) < 0.1
        weights = np.where(turned, np.abs(random.normal(size=(self.plans, 3))), genes.weights)
        return Genes(keys=keys, flips=flips, partners=partners, weights=weights)

    def grown(self, genes: Genes) -> Grown:
        """Return the plans that these genes give."""
        parts = Parts(self.grid, bins=self.bins, plans=self.plans)
        rows = np.arange(self.plans)
        copies: Ints = np.argsort(genes.keys, axis=1, kind="stable").T
        shape = copies.shape
        sheet, x, y = (np.full(shape, -1, dtype=np.int64) for _ in range(3))
        turned = np.zeros(shape, dtype=np.bool_)
        any_turns = bool(self._turns.any())
        for step, copy in enumerate(copies):
            turns = self._turns[copy] if any_turns else None
            pick = parts.pick(self._w[copy], self._h[copy], turns=turns, weights=genes.weights)
            sheet[step] = np.where(pick.found, pick.sheet, -1)
            x[step], y[step], turned[step] = pick.x, pick.y, pick.turned
            extra = self._extra[genes.partners[rows, copy]]
            parts.lay(pick, flips=genes.flips[rows, copy], extra=extra)
        left: Ints = np.where(sheet < 0, self._area[copies], 0).sum(axis=0)
        largest: Ints = parts.area.max(axis=1)
        return Grown(left_out=left, largest=largest, copies=copies, sheet=sheet, x=x, y=y, turned=turned)

    def laid(self, grown: Grown, plan: int) -> tuple[tuple[Laid, ...], ...]:
        """Return for each sheet the pieces of one plan."""
        found: list[list[Laid]] = [[] for _ in self.bins]
        for step in range(len(grown.sheet)):
            copy, sheet = int(grown.copies[step, plan]), int(grown.sheet[step, plan])
            if sheet >= 0:
                w, h = int(self._w[copy]), int(self._h[copy])
                if grown.turned[step, plan]:
                    w, h = h, w
                x, y = int(grown.x[step, plan]), int(grown.y[step, plan])
                found[sheet].append(Laid(piece=int(self._type[copy]), x=x, y=y, width=w, length=h))
        return tuple(tuple(sheet) for sheet in found)
