"""The most value from a sheet when every kind may be cut as often as wanted.

Cuts lie at sums of piece sides only: anything else can be slid down to one. The table answers the
question itself, and bounds from above what a limited number of copies can bring, both within a
block and around it.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Callable, Sequence
from operator import add, itemgetter

from model.planning.blocks import Kind

_Picks = Callable[[Sequence[int]], tuple[int, ...]]
MOST_CELLS = 20_000  # a finer grid takes longer to fill than it saves


def points_of(sides: Sequence[int], size: int) -> list[int]:
    """Every sum of sides up to a size, nothing and the size itself among them, rising.

    Args:
        sides: The sides that may be laid along it.
        size: The size.
    """
    sums = 1
    mask = (1 << (size + 1)) - 1
    for side in sorted({side for side in sides if 0 < side <= size}):
        step = side
        while step <= size:
            sums |= sums << step & mask
            step *= 2
    return sorted({place for place in range(size + 1) if sums >> place & 1} | {size})


def _getters(points: list[int]) -> list[tuple[_Picks, _Picks] | None]:
    """For each size, the two parts that a cut may leave, as picks from a row of values."""
    found: list[tuple[_Picks, _Picks] | None] = []
    for size in points:
        less: list[int] = []
        more: list[int] = []
        for number, part in enumerate(points):
            if number and part * 2 <= size:
                less.append(number)
                more.append(bisect_right(points, size - part) - 1)
        if not less:
            found.append(None)
            continue
        if len(less) == 1:  # a getter of one gives no tuple
            less.append(less[0])
            more.append(more[0])
        found.append((itemgetter(*less), itemgetter(*more)))
    return found


def _gaps(points: list[int]) -> list[_Picks | None]:
    """For each size, picks of what is left beside it in each greater one."""
    found: list[_Picks | None] = []
    for number, size in enumerate(points):
        picks = [bisect_right(points, more - size) - 1 for more in points[number + 1 :]]
        if len(picks) == 1:
            picks.append(0)  # a getter of one gives no tuple; the second is not looked at
        found.append(itemgetter(*picks) if picks else None)
    return found


class Unlimited:
    """The best value of every region, copies unlimited.

    Attributes:
        xs: Widths that matter, rising.
        ys: Heights that matter, rising.
        rows: The best value by height, then width.
    """

    def __init__(self, kinds: Sequence[Kind], width: int, height: int) -> None:
        """Fill the table.

        Args:
            kinds: The kinds; their counts do not matter.
            width: The sheet's width.
            height: Its height.
        """
        lies = [
            (wide, high, kind.value)
            for kind in kinds
            for wide, high, _ in kind.lies
            if wide <= width and high <= height
        ]
        self.xs = points_of([wide for wide, _, _ in lies], width)
        self.ys = points_of([high for _, high, _ in lies], height)
        xs, ys = self.xs, self.ys
        by_x, by_y = _getters(xs), _getters(ys)
        self._at_x = {size: number for number, size in enumerate(xs)}
        self._at_y = {size: number for number, size in enumerate(ys)}
        seeds: dict[tuple[int, int], int] = {}
        for wide, high, value in lies:
            spot = (self._at_y[high], self._at_x[wide])
            seeds[spot] = max(seeds.get(spot, 0), value)
        alike = xs == ys and all(
            (x, y) in seeds and seeds[x, y] == v for (y, x), v in seeds.items()
        )
        columns = [[0] * len(ys) for _ in xs]
        rows: list[list[int]] = []
        below = [0] * len(xs)
        for j in range(len(ys)):
            row = [0] * len(xs)
            cut_y = by_y[j]
            for i in range(len(xs)):
                if alike and i < j:
                    best = rows[i][j]
                else:
                    best = max(seeds.get((j, i), 0), below[i], row[i - 1] if i else 0)
                    cut_x = by_x[i]
                    if cut_x:
                        best = max(best, max(map(add, cut_x[0](row), cut_x[1](row))))
                    if cut_y:
                        column = columns[i]
                        best = max(best, max(map(add, cut_y[0](column), cut_y[1](column))))
                row[i] = best
                columns[i][j] = best
            rows.append(row)
            below = row
        self.rows = rows
        self._alike = alike
        self._columns = columns

    @property
    def best(self) -> int:
        """The best value of the whole sheet."""
        return self.rows[-1][-1]

    def value(self, width: int, height: int) -> int:
        """The best value of a region.

        Args:
            width: Its width.
            height: Its height.
        """
        i = bisect_right(self.xs, width) - 1
        j = bisect_right(self.ys, height) - 1
        return self.rows[j][i]

    def around(self) -> dict[int, dict[int, int]]:
        """By width, then height of a block: the best value of what lies around it in the sheet."""
        xs, ys, rows = self.xs, self.ys, self.rows
        gap_x, gap_y = _gaps(xs), _gaps(ys)
        out = [[0] * len(xs) for _ in ys]
        columns = [[0] * len(ys) for _ in xs]
        for j in range(len(ys) - 1, -1, -1):
            row, mine, pick_y = rows[j], out[j], gap_y[j]
            for i in range(len(xs) - 1, -1, -1):
                if self._alike and i < j:
                    break
                best = 0
                pick_x = gap_x[i]
                if pick_x:
                    best = max(map(add, mine[i + 1 :], pick_x(row)))
                if pick_y:
                    column = columns[i][j + 1 :]
                    best = max(best, max(map(add, column, pick_y(self._columns[i]))))
                mine[i] = best
                columns[i][j] = best
                if self._alike:
                    out[i][j] = best
                    columns[j][i] = best
        return {x: {y: out[j][i] for j, y in enumerate(ys)} for i, x in enumerate(xs)}


class _Anything(dict[int, dict[int, int]]):
    """The same value around every block: for grids too fine to fill a table of."""

    def __init__(self, most: int) -> None:
        super().__init__()
        self._same = _Same(most)

    def __missing__(self, width: int) -> dict[int, int]:
        return self._same


class _Same(dict[int, int]):
    def __init__(self, most: int) -> None:
        super().__init__()
        self._most = most

    def __missing__(self, height: int) -> int:
        return self._most


def cells_of(kinds: Sequence[Kind], width: int, height: int) -> int:
    """How many cells a table would have.

    Args:
        kinds: The kinds.
        width: The sheet's width.
        height: Its height.
    """
    lies = [lie for kind in kinds if kind.count for lie in kind.lies]
    across = points_of([wide for wide, _, _ in lies], width)
    return len(across) * len(points_of([high for _, high, _ in lies], height))


def surroundings(
    kinds: Sequence[Kind], width: int, height: int, most: int
) -> tuple[dict[int, dict[int, int]], int]:
    """The best value around each block, and of the whole sheet, or what stands in for them.

    Args:
        kinds: The kinds.
        width: The sheet's width.
        height: Its height.
        most: The value of all pieces together.
    """
    if cells_of(kinds, width, height) > MOST_CELLS:
        return _Anything(most), most
    table = Unlimited([kind for kind in kinds if kind.count], width, height)
    return table.around(), min(table.best, most)
