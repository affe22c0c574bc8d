"""Sheet jobs for the tests, and a slow plain opinion on them."""

from __future__ import annotations

import functools
import itertools
import random

from lathlight.cutting.sheet_jobs import SheetItem, SheetJob, SheetStock
from lathlight.cutting.sheet_watch import SheetWork

LITTLE = SheetWork(bound_rounds=60, plans=32, generations=60, polish=2)
PLY = SheetStock(width=1220, length=2440, price=3600)


def item(width: int, length: int, count: int = 1, *, rotate: bool = False) -> SheetItem:
    return SheetItem(width=width, length=length, count=count, rotate=rotate)


def job(*items: SheetItem, stocks: tuple[SheetStock, ...] = (PLY,), kerf: int = 3, **rules: int | None) -> SheetJob:
    return SheetJob(items=items, stocks=stocks, kerf=kerf, **rules)


def random_job(seed: int, *, stages: int | None = 3) -> SheetJob:
    """Return a small job of mixed pieces, one or two bought sheets and perhaps an offcut."""
    draw = random.Random(seed)
    items = tuple(
        item(draw.randint(2, 9), draw.randint(2, 14), draw.randint(1, 5), rotate=draw.random() < 0.5)
        for _ in range(draw.randint(1, 5))
    )
    stocks = [SheetStock(width=12, length=16, price=100)]
    if draw.random() < 0.5:
        stocks.append(SheetStock(width=12, length=8, price=54))
    if draw.random() < 0.5:
        stocks.append(SheetStock(width=9, length=7, price=0, limit=draw.randint(1, 2)))
    return SheetJob(items=items, stocks=tuple(stocks), kerf=draw.randint(0, 1), stages=stages)


def fewest_sheets(case: SheetJob) -> int:
    """Return the fewest sheets of the only stock, by trying every way to share out few pieces and every cut."""
    pieces = tuple((i.width, i.length, i.rotate) for i in case.items for _ in range(i.count))
    (stock,) = case.stocks
    stages = 99 if case.stages is None else case.stages

    @functools.cache
    def cuttable(chosen: tuple[int, ...], w: int, h: int, way: str, left: int) -> bool:
        if not chosen:
            return True
        if len(chosen) == 1:
            a, b, rotate = pieces[chosen[0]]
            return (a <= w and b <= h) or (rotate and b <= w and a <= h)
        for along, whole in (("x", w), ("y", h)):
            after = left - (along != way)
            if after < 0:
                continue
            for at in range(1, whole):
                rest = max(0, whole - at - case.kerf)
                first = (at, h) if along == "x" else (w, at)
                beyond = (rest, h) if along == "x" else (w, rest)
                for size in range(len(chosen) + 1):
                    for some in itertools.combinations(chosen, size):
                        others = tuple(n for n in chosen if n not in some)
                        if cuttable(some, *first, along, after) and cuttable(others, *beyond, along, after):
                            return True
        return False

    @functools.cache
    def fewest(chosen: tuple[int, ...]) -> int:
        if not chosen:
            return 0
        best = len(chosen)
        for size in range(len(chosen)):
            for mates in itertools.combinations(chosen[1:], size):
                if cuttable((chosen[0], *mates), stock.width, stock.length, "", stages):
                    best = min(best, 1 + fewest(tuple(n for n in chosen[1:] if n not in mates)))
        return best

    return fewest(tuple(range(len(pieces))))
