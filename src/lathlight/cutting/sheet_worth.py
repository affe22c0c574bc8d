"""The most worth that guillotine cuts can get out of a sheet, every piece having its price: what every plan keeps to.

Three stages: columns, strips across them, pieces along a strip, each piece trimmed (Gilmore and Gomory 1965), from
either side of the sheet. A strip and a column each hold no more of a piece than is wanted; a whole sheet may, so the
worth is never too small: a bound. Any number of stages: the recursion of Gilmore and Gomory (1966) over all splits.
Where the job's own grid is too fine for either, pieces and sheets are rounded down to a coarser one, which only adds
room.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from numpy.typing import NDArray

    from lathlight.cutting.sheet_grid import SheetGrid

    Ints = NDArray[np.int64]
    Small = NDArray[np.int32]
    Kind = tuple[int, int]  # size, count

STAGED = 3  # the most stages that the staged tables know
MOST_WORK = 60_000_000  # cells times steps of a staged table
MOST_CELLS = 12_000  # of the table over all splits
MOST_WORTH = 1 << 29  # all that is wanted is worth no more, so that sums stay whole in 32 bits


@dataclass(frozen=True, slots=True, kw_only=True)
class Way:
    """One piece laid one way, on the table's grid."""

    width: int
    length: int
    piece: int
    count: int


def reachable(kinds: Iterable[Kind], *, room: int) -> Ints:
    """Return every sum up to the room of the sizes, each taken at most as often as its count; 0 and the room too.

    Examples
    --------
    >>> reachable([(3, 2), (5, 1)], room=10).tolist()
    [0, 3, 5, 6, 8, 10]
    """
    marks = np.zeros(room + 1, dtype=np.bool_)
    marks[0] = True
    for size, count in kinds:
        for times in split(count, size=size, room=room):
            step = times * size
            marks[step:] |= marks[: room + 1 - step].copy()
    marks[room] = True
    return np.flatnonzero(marks)


def split(count: int, *, size: int, room: int) -> list[int]:
    """Return parts of which every number up to the count that fits the room is a sum.

    Examples
    --------
    >>> split(6, size=10, room=1000), split(6, size=10, room=25)
    ([1, 2, 3], [1, 1])
    """
    left, step = min(count, room // size), 1
    parts: list[int] = []
    while left > 0:
        parts.append(min(step, left))
        left -= parts[-1]
        step *= 2
    return parts


def _reached(points: Ints, rooms: Ints) -> Ints:
    """Return for each room the place of the greatest point within it; -1 where none is."""
    return np.searchsorted(points, rooms, side="right").astype(np.int64) - 1


def _behind(points: Ints, size: int) -> Ints:
    """Return for each point the place of the greatest point that leaves so much room; -1 where none does."""
    return _reached(points, points - size)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Step:
    kind: int
    times: int
    first: int  # place of the first point that has room
    behind: Ints  # for that point and all after it, the point before the step


def _steps(points: Ints, kinds: Sequence[Kind]) -> list[_Step]:
    """Return the steps of a bounded filling of every point."""
    room = int(points[-1])
    found: list[_Step] = []
    for kind, (size, count) in enumerate(kinds):
        for times in split(count, size=size, room=room):
            first = int(np.searchsorted(points, times * size))
            if first < len(points):
                behind = _behind(points, times * size)[first:]
                found.append(_Step(kind=kind, times=times, first=first, behind=behind))
    return found


def _chosen(steps: Sequence[_Step], values: Small, points: int, place: int) -> list[int]:
    """Return how many of each kind fill a point best."""
    best = np.zeros(points, dtype=np.int64)
    before: list[tuple[_Step, Ints]] = []
    for step in steps:
        worth = int(values[step.kind]) * step.times
        if worth > 0:
            after = best.copy()
            after[step.first :] = np.maximum(best[step.first :], best[step.behind] + worth)
            before.append((step, best))
            best = after
    counts = [0] * len(values)
    worth = int(best[place])
    for step, without in reversed(before):
        if int(without[place]) != worth:
            counts[step.kind] += step.times
            place = int(step.behind[place - step.first])
            worth = int(without[place])
    return counts


def _ways(grid: SheetGrid, *, step: int, turned: bool) -> list[Way]:
    """Return every way to lay a piece that some sheet could hold, lowest first."""
    flip = -1 if turned else 1
    wide, high = _rooms(grid, step=step, turned=turned).max(axis=0).tolist()
    found: list[Way] = []
    for place, piece in enumerate(grid.pieces):
        for way in piece.ways:
            w, h = (max(1, size // step) for size in way[::flip])
            if w <= wide and h <= high:
                found.append(Way(width=w, length=h, piece=place, count=piece.count))
    return sorted(found, key=lambda way: (way.length, way.width, way.piece))


def _rooms(grid: SheetGrid, *, step: int, turned: bool) -> Ints:
    rooms = np.array([(s.width, s.length) for s in grid.sheets], dtype=np.int64) // step
    return rooms[:, ::-1] if turned else rooms


class StagedTable:
    """Columns side by side, strips across a column, pieces along a strip; turned: the other way round."""

    def __init__(self, grid: SheetGrid, *, step: int, turned: bool) -> None:
        self.pieces = len(grid.pieces)
        self.ways = ways = _ways(grid, step=step, turned=turned)
        rooms = _rooms(grid, step=step, turned=turned)
        wide, high = rooms.max(axis=0).tolist()
        self.xs = np.union1d(reachable([(w.width, w.count) for w in ways], room=wide), rooms[:, 0])
        heights = sorted({way.length for way in ways})
        kinds = [(h, sum(way.count for way in ways if way.length == h)) for h in heights]
        self.ys = np.union1d(reachable(kinds, room=high), rooms[:, 1])
        self.strip_steps = _steps(self.xs, [(way.width, way.count) for way in ways])
        self.column_steps = _steps(self.ys, kinds)
        self.of_height = [[n for n, way in enumerate(ways) if way.length == h] for h in heights]
        self.last_way = [same[-1] for same in self.of_height]
        self.room_x = np.searchsorted(self.xs, rooms[:, 0])
        self.room_y = np.searchsorted(self.ys, rooms[:, 1])
        self.one_column = grid.stages is not None and grid.stages < STAGED
        self._way_piece = np.array([way.piece for way in ways], dtype=np.int64)

    @property
    def work(self) -> int:
        """Cells times steps: what one filling costs."""
        return len(self.xs) * len(self.ys) * len(self.column_steps)

    def filled(self, values: Ints) -> Staged:
        """Return what every sheet can hold at these prices by piece."""
        worths = values[self._way_piece].astype(np.int32)
        strips = self._strips(worths)
        columns = np.zeros((len(self.ys), len(self.xs)), dtype=np.int32)
        for step in self.column_steps:
            if worths[self.of_height[step.kind]].any():  # pieces of no worth make no strip
                better = columns[step.behind]
                better += strips[step.kind] * np.int32(step.times)
                np.maximum(columns[step.first :], better, out=columns[step.first :])
        sheets = zip(self.room_x.tolist(), self.room_y.tolist(), strict=True)
        rows = [self._side_by_side(columns[y], x) for x, y in sheets]
        return Staged(self, worths=worths, strips=strips, columns=columns, rows=rows)

    def _strips(self, worths: Small) -> Small:
        """Return for each height of strip the worth of every length of it, (heights, xs)."""
        best = np.zeros(len(self.xs), dtype=np.int32)
        found: list[Small] = []
        steps = list(self.strip_steps)
        for last in self.last_way:
            while steps and steps[0].kind <= last:
                step = steps.pop(0)
                worth = np.int32(int(worths[step.kind]) * step.times)
                if worth > 0:
                    best = best.copy()
                    best[step.first :] = np.maximum(best[step.first :], best[step.behind] + worth)
            found.append(best)
        return np.array(found)

    def _side_by_side(self, column: Small, room: int) -> Small:
        """Return the best worth of every width up to the room by columns side by side."""
        best = column[: room + 1].copy()
        if self.one_column:
            return best
        for place in range(1, room + 1):
            if best[place] > best[place - 1]:  # wider without more is no column
                behind = _behind(self.xs[: room + 1], int(self.xs[place]))[place:]
                np.maximum(best[place:], best[behind] + best[place], out=best[place:])
        return best


class Staged:
    """What a staged table's sheets hold at given prices."""

    def __init__(self, table: StagedTable, *, worths: Small, strips: Small, columns: Small, rows: list[Small]) -> None:
        self._table, self._worths, self._strips = table, worths, strips
        self._columns, self._rows = columns, rows
        self.held = np.array([int(row[-1]) for row in rows], dtype=np.int64)

    def counts(self, sheet: int) -> tuple[int, ...]:
        """Return how many of each piece give the worth of a sheet."""
        table = self._table
        row, y = self._rows[sheet], int(table.room_y[sheet])
        column = self._columns[y]
        found = [0] * table.pieces
        queue = [len(row) - 1]
        while queue:
            x = queue.pop()
            if row[x] == column[x]:
                self._add_column(x, y, found)
            else:
                queue += self._halves(row, x)
        return tuple(found)

    def _halves(self, row: Small, x: int) -> tuple[int, int]:
        """Return two widths that together hold what this one does."""
        xs = self._table.xs[: x + 1]
        behind = _reached(xs, xs[x] - xs)
        (places,) = np.nonzero((row[: x + 1] + row[behind] == row[x]) & (row[: x + 1] > 0) & (row[behind] > 0))
        return int(places[0]), int(behind[places[0]])

    def _add_column(self, x: int, y: int, found: list[int]) -> None:
        table = self._table
        strips = self._strips[:, x]
        for kind, times in enumerate(_chosen(table.column_steps, strips, len(table.ys), y)):
            if times:
                worths = self._worths.copy()
                worths[table.last_way[kind] + 1 :] = 0
                for way, often in enumerate(_chosen(table.strip_steps, worths, len(table.xs), x)):
                    found[table.ways[way].piece] += often * times


class SplitTable:
    """All splits of all parts, as many stages as it takes."""

    def __init__(self, grid: SheetGrid, *, step: int) -> None:
        self.pieces = len(grid.pieces)
        self.ways = ways = _ways(grid, step=step, turned=False)
        rooms = _rooms(grid, step=step, turned=False)
        wide, high = rooms.max(axis=0).tolist()
        self.xs = np.union1d(reachable([(w.width, w.count) for w in ways], room=wide), rooms[:, 0])
        self.ys = np.union1d(reachable([(w.length, w.count) for w in ways], room=high), rooms[:, 1])
        self.room_x = np.searchsorted(self.xs, rooms[:, 0])
        self.room_y = np.searchsorted(self.ys, rooms[:, 1])
        self.splits_x, self.splits_y = _splits(self.xs), _splits(self.ys)

    @property
    def work(self) -> int:
        """Cells of the table."""
        return len(self.xs) * len(self.ys)

    def filled(self, values: Ints) -> Splits:
        """Return what every sheet can hold at these prices by piece."""
        worth = np.zeros((len(self.xs), len(self.ys)), dtype=np.int64)
        for way in self.ways:
            x, y = np.searchsorted(self.xs, way.width), np.searchsorted(self.ys, way.length)
            worth[x:, y:] = np.maximum(worth[x:, y:], values[way.piece])
        single = worth.copy()
        for x, (left, right) in enumerate(self.splits_x):
            column = worth[x]
            if len(left):
                np.maximum(column, (worth[left] + worth[right]).max(axis=0), out=column)
            for y, (low, high) in enumerate(self.splits_y):
                if len(low):
                    column[y] = max(column[y], (column[low] + column[high]).max())
        return Splits(self, values=values, single=single, worth=worth)


def _splits(points: Ints) -> list[tuple[Ints, Ints]]:
    """Return for each point its pairs of smaller points that fit side by side, the lesser first."""
    found: list[tuple[Ints, Ints]] = []
    for point in points.tolist():
        lesser = np.flatnonzero((points > 0) & (2 * points <= point))
        found.append((lesser, _reached(points, point - points[lesser])))
    return found


class Splits:
    """What a table over all splits gives at given prices."""

    def __init__(self, table: SplitTable, *, values: Ints, single: Ints, worth: Ints) -> None:
        self._table, self._values, self._single, self._worth = table, values, single, worth
        self.held = worth[table.room_x, table.room_y]

    def counts(self, sheet: int) -> tuple[int, ...]:
        """Return how many of each piece give the worth of a sheet."""
        table, worth = self._table, self._worth
        found = [0] * table.pieces
        queue = [(int(table.room_x[sheet]), int(table.room_y[sheet]))]
        while queue:
            x, y = queue.pop()
            if worth[x, y] == 0:
                continue
            if worth[x, y] == self._single[x, y]:
                found[self._piece(x, y)] += 1
                continue
            left, right = table.splits_x[x]
            (places,) = np.nonzero(worth[left, y] + worth[right, y] == worth[x, y])
            if len(places):
                queue += [(int(left[places[0]]), y), (int(right[places[0]]), y)]
                continue
            low, high = table.splits_y[y]
            (places,) = np.nonzero(worth[x, low] + worth[x, high] == worth[x, y])
            queue += [(x, int(low[places[0]])), (x, int(high[places[0]]))]
        return tuple(found)

    def _piece(self, x: int, y: int) -> int:
        """Return the piece that alone is worth as much as this part."""
        table = self._table
        wide, high = int(table.xs[x]), int(table.ys[y])
        fitting = (way.piece for way in table.ways if way.width <= wide and way.length <= high)
        return next(piece for piece in fitting if self._values[piece] == self._single[x, y])


class WorthTables:
    """The tables that suit a grid's rule, on the finest grid that the work allows."""

    def __init__(self, grid: SheetGrid) -> None:
        self.staged = grid.stages is not None and grid.stages <= STAGED
        self.step = 1
        while True:
            self._tables = self._made(grid)
            limit = MOST_WORK if self.staged else MOST_CELLS
            if self._tables[0].work <= limit:
                break
            self.step = max(self.step + 1, self.step * 5 // 4)

    def _made(self, grid: SheetGrid) -> list[StagedTable] | list[SplitTable]:
        if self.staged:
            return [StagedTable(grid, step=self.step, turned=turned) for turned in (False, True)]
        return [SplitTable(grid, step=self.step)]

    def filled(self, values: Ints) -> list[Staged] | list[Splits]:
        """Return what each table's sheets hold at these prices; what holds most counts."""
        if self.staged:
            return [table.filled(values) for table in self._tables if isinstance(table, StagedTable)]
        return [table.filled(values) for table in self._tables if isinstance(table, SplitTable)]
