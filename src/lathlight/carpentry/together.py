"""Sheets of neighbouring walls chosen together: an offcut of one wall may be a piece of the next.

Each wall keeps its best divisions; of their combinations the one with the fewest sheets in all wins, then fewest seams
and least harm. Walls are taken in groups, so that the work grows with the number of walls and no faster.
"""

from __future__ import annotations

from itertools import product
from typing import TYPE_CHECKING

from lathlight.carpentry.packing import pack_sheets
from lathlight.carpentry.sheeting import Scored, Sheeting, SheetJob, boxes_of, ranked_sheetings

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Sequence

    Score = Callable[[Sequence[int]], tuple[float, ...]]

GROUP = 6  # neighbouring walls that are chosen together
KEPT = 8  # divisions kept a wall
MOST_COMBINATIONS = 100  # all of them are compared up to here; beyond, one wall after the other
ROUNDS = 3
LEAST_HARM = 0.15  # a sheet saved is not bought with a seam nearer to a sitter's head than this [m, weighted]


def choose_together(jobs: Sequence[SheetJob]) -> tuple[Sheeting, ...]:
    """Return a division for every wall of a group.

    Parameters
    ----------
    jobs
        Neighbouring walls; sheets of different kinds are counted apart.
    """
    ranked = [_harmless(ranked_sheetings(job, most=KEPT)) for job in jobs]
    sizes = [[_sizes(job, scored) for scored in options] for job, options in zip(jobs, ranked, strict=True)]

    def score(choice: Sequence[int]) -> tuple[float, ...]:
        rest = [ranked[wall][i].rest for wall, i in enumerate(choice)]
        return _sheets(jobs, [sizes[wall][i] for wall, i in enumerate(choice)]), *map(sum, zip(*rest, strict=True))

    combinations = 1
    for options in ranked:
        combinations *= len(options)
    if combinations <= MOST_COMBINATIONS:
        best = min(product(*(range(len(options)) for options in ranked)), key=score)
    else:
        best = _one_by_one([len(options) for options in ranked], score)
    return tuple(options[i].sheeting for options, i in zip(ranked, best, strict=True))


def _harmless(ranked: tuple[Scored, ...]) -> tuple[Scored, ...]:
    """Return the divisions that do the pictures hardly more harm than the wall's own best."""
    return tuple(option for option in ranked if option.harm <= ranked[0].harm + LEAST_HARM)


def groups_of(count: int) -> Iterable[range]:
    """Yield the groups of neighbouring walls, by index."""
    for start in range(0, count, GROUP):
        yield range(start, min(start + GROUP, count))


def _one_by_one(counts: Sequence[int], score: Score) -> tuple[int, ...]:
    """Return a choice that no change of a single wall betters."""
    best = [0] * len(counts)
    value = score(best)
    for _ in range(ROUNDS):
        before = value
        for wall, count in enumerate(counts):
            for i in range(count):
                tried = [*best[:wall], i, *best[wall + 1 :]]
                if (found := score(tried)) < value:
                    best, value = tried, found
        if value == before:
            break
    return tuple(best)


def _sizes(job: SheetJob, scored: Scored) -> tuple[tuple[float, float], ...]:
    boxes = boxes_of(scored.sheeting.xs, scored.sheeting.zs, job.openings)
    return tuple((x1 - x0, z1 - z0) for x0, z0, x1, z1 in boxes)


def _sheets(jobs: Sequence[SheetJob], sizes: Sequence[tuple[tuple[float, float], ...]]) -> int:
    """Return the first-fit number of sheets of all walls together."""
    kinds: dict[str, list[tuple[float, float]]] = {}
    rows = {job.sheet.name: job for job in jobs}
    for job, own in zip(jobs, sizes, strict=True):
        kinds.setdefault(job.sheet.name, []).extend(own)
    total = 0
    for name, pieces in kinds.items():
        sheet, kerf = rows[name].sheet, rows[name].kerf
        free = [not sheet.grain] * len(pieces)
        total += len(pack_sheets(pieces, width=sheet.width, length=sheet.length, kerf=kerf, may_turn=free))
    return total
