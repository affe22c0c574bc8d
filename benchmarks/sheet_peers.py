"""Other ways to cut sheets, written plainly, to stand beside ours: shelves, a packer of free rectangles, CP-SAT.

The packer and CP-SAT do not keep the saw's rule of straight through-cuts, which only makes their task easier.
"""

from __future__ import annotations

from dataclasses import dataclass, field

from lathlight.cutting.sheet_jobs import SheetJob, SheetStock

Size = tuple[int, int]


def pieces_of(job: SheetJob) -> list[tuple[int, int, bool]]:
    """Return every piece, widened by the kerf, largest area first."""
    k = job.kerf
    found = [(i.width + k, i.length + k, i.rotate) for i in job.items for _ in range(i.count)]
    return sorted(found, key=lambda p: (-p[0] * p[1], -p[1]))


def ways(piece: tuple[int, int, bool]) -> list[Size]:
    w, h, rotate = piece
    return [(w, h), (h, w)] if rotate and w != h else [(w, h)]


@dataclass
class _Shelves:
    """One sheet filled shelf by shelf."""

    stock: SheetStock
    width: int
    length: int
    shelves: list[list[int]] = field(default_factory=list)  # height, width used

    def put(self, piece: tuple[int, int, bool]) -> bool:
        for w, h in ways(piece):
            for shelf in self.shelves:
                if h <= shelf[0] and shelf[1] + w <= self.width:
                    shelf[1] += w
                    return True
        for w, h in sorted(ways(piece), key=lambda way: way[1]):
            if w <= self.width and sum(s[0] for s in self.shelves) + h <= self.length:
                self.shelves.append([h, w])
                return True
        return False


@dataclass
class _Free:
    """One sheet with its greatest free rectangles."""

    stock: SheetStock
    width: int
    length: int
    free: list[tuple[int, int, int, int]] = field(default_factory=list)

    def __post_init__(self) -> None:
        self.free = [(0, 0, self.width, self.length)]

    def put(self, piece: tuple[int, int, bool]) -> bool:
        fits = [
            (min(fw - w, fh - h), max(fw - w, fh - h), x, y, w, h)
            for x, y, fw, fh in self.free
            for w, h in ways(piece)
            if w <= fw and h <= fh
        ]
        if not fits:
            return False
        *_, x, y, w, h = min(fits)
        left: list[tuple[int, int, int, int]] = []
        for fx, fy, fw, fh in self.free:
            if x >= fx + fw or x + w <= fx or y >= fy + fh or y + h <= fy:
                left.append((fx, fy, fw, fh))
                continue
            sides = ((fx, fy, x - fx, fh), (x + w, fy, fx + fw - x - w, fh))
            ends = ((fx, fy, fw, y - fy), (fx, y + h, fw, fy + fh - y - h))
            left += [r for r in (*sides, *ends) if r[2] > 0 and r[3] > 0]
        left = list(dict.fromkeys(left))
        self.free = [r for r in left if not any(r != other and _within(r, other) for other in left)]
        return True


def _within(a: tuple[int, int, int, int], b: tuple[int, int, int, int]) -> bool:
    return a[0] >= b[0] and a[1] >= b[1] and a[0] + a[2] <= b[0] + b[2] and a[1] + a[3] <= b[1] + b[3]


def _fill(job: SheetJob, kind: type[_Shelves] | type[_Free]) -> int:
    """Return the cost of first fit, largest first; offcuts lie ready, then the cheapest sheet by area is opened."""
    k = job.kerf
    opened = [
        kind(stock=s, width=s.width + k, length=s.length + k)
        for s in job.stocks
        if not s.price
        for _ in range(s.limit or 0)
    ]
    opened.sort(key=lambda sheet: sheet.width * sheet.length)
    bought = sorted((s for s in job.stocks if s.price), key=lambda s: s.price / (s.width * s.length))
    cost = 0
    for piece in pieces_of(job):
        if any(sheet.put(piece) for sheet in opened):
            continue
        for stock in bought:
            sheet = kind(stock=stock, width=stock.width + k, length=stock.length + k)
            if sheet.put(piece):
                opened.append(sheet)
                cost += stock.price
                break
        else:
            raise ValueError("a piece fits no sheet")
    return cost


def shelves(job: SheetJob) -> int:
    """Return the cost of shelves, first fit, largest first."""
    return _fill(job, _Shelves)


def free_rectangles(job: SheetJob) -> int:
    """Return the cost of a packer that keeps the greatest free rectangles, best short side first."""
    return _fill(job, _Free)


def cp_sat(job: SheetJob, *, seconds: float, most: int) -> tuple[int | None, int]:
    """Return the best cost and the bound of CP-SAT: any packing of at most `most` bought sheets of each size."""
    from ortools.sat.python import cp_model

    model = cp_model.CpModel()
    k = job.kerf
    sheets = [s for s in job.stocks for _ in range(min(most, s.limit if s.limit is not None else most))]
    used = [model.new_bool_var("") for _ in sheets]
    wide, high = [[] for _ in sheets], [[] for _ in sheets]
    for piece in pieces_of(job):
        there = []
        for n, stock in enumerate(sheets):
            for w, h in ways(piece):
                if w <= stock.width + k and h <= stock.length + k:
                    here = model.new_bool_var("")
                    x = model.new_int_var(0, stock.width + k - w, "")
                    y = model.new_int_var(0, stock.length + k - h, "")
                    wide[n].append(model.new_optional_fixed_size_interval_var(x, w, here, ""))
                    high[n].append(model.new_optional_fixed_size_interval_var(y, h, here, ""))
                    model.add_implication(here, used[n])
                    there.append(here)
        model.add_exactly_one(there)
    for w, h in zip(wide, high, strict=True):
        model.add_no_overlap_2d(w, h)
    model.minimize(sum(s.price * u for s, u in zip(sheets, used, strict=True)))
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.random_seed = 0
    solver.parameters.max_time_in_seconds = seconds
    status = solver.solve(model)
    found = round(solver.objective_value) if status in (cp_model.OPTIMAL, cp_model.FEASIBLE) else None
    return found, round(solver.best_objective_bound)
