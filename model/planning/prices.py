"""How many sheets are needed at least: prices for the pieces that no sheet can beat.

Whatever the prices, the sum over all pieces divided by the most that one sheet can bring is a
bound. Good prices come from a linear programme over the patterns known so far, in floating point;
they are then rounded to whole numbers, and the bound is worked out in those alone. So a slip of the
programme makes a bound weaker, never wrong.
"""

from __future__ import annotations

from collections.abc import Sequence

_TINY = 1e-9
_SCALE = 100_000


class Programme:
    """Sheets by pattern, as few as may be, so that every piece comes out: revised simplex.

    Attributes:
        prices: What each kind is worth now, in sheets.
        scale: What a whole sheet is worth in whole prices.
    """

    scale = _SCALE

    def __init__(self, counts: Sequence[int], costs: Sequence[float]) -> None:
        """A programme with one costly pattern for each kind: a single piece.

        Args:
            counts: How many of each kind are wanted; none of them nothing.
            costs: What a pattern of that piece alone costs.
        """
        size = len(counts)
        self._inverse = [[float(i == j) for j in range(size)] for i in range(size)]
        self._amounts = [float(count) for count in counts]
        self._costs = list(costs)
        self._patterns: list[tuple[int, ...]] = []
        self.prices: list[float] = list(costs)

    def _enter(self, column: Sequence[float], cost: float) -> bool:
        moved = [sum(a * b for a, b in zip(row, column, strict=True) if b) for row in self._inverse]
        row = -1
        least = 0.0
        for i, (amount, rate) in enumerate(zip(self._amounts, moved, strict=True)):
            if rate > _TINY and (row < 0 or amount / rate < least - _TINY):
                row, least = i, amount / rate
        if row < 0:
            return False
        pivot = moved[row]
        chosen = [entry / pivot for entry in self._inverse[row]]
        for i, rate in enumerate(moved):
            if i == row:
                continue
            if rate:
                mine = self._inverse[i]
                self._inverse[i] = [a - rate * b for a, b in zip(mine, chosen, strict=True)]
                self._amounts[i] = max(self._amounts[i] - rate * least, 0.0)
        self._inverse[row] = chosen
        self._amounts[row] = least
        self._costs[row] = cost
        return True

    def _price(self) -> None:
        self.prices = [
            sum(cost * row[j] for cost, row in zip(self._costs, self._inverse, strict=True))
            for j in range(len(self._costs))
        ]

    def add(self, pattern: tuple[int, ...]) -> None:
        """Note a pattern; `solve` may then use it.

        Args:
            pattern: How many of each kind come out of one sheet.
        """
        if pattern not in self._patterns:
            self._patterns.append(pattern)

    def solve(self) -> None:
        """Find the best mix of the patterns known, and its prices."""
        size = len(self._costs)
        for _ in range(40 * (size + 5)):  # it never comes near, save where rounding goes in a ring
            self._price()
            gain = 1e-7
            enter: tuple[list[float], float] | None = None
            for pattern in self._patterns:
                reduced = sum(p * n for p, n in zip(self.prices, pattern, strict=True)) - 1.0
                if reduced > gain:
                    gain, enter = reduced, ([float(n) for n in pattern], 1.0)
            for j, price in enumerate(self.prices):
                if -price > gain:
                    gain, enter = -price, ([-float(i == j) for i in range(size)], 0.0)
            if enter is None or not self._enter(*enter):
                break
        self._price()

    def whole_prices(self) -> list[int]:
        """The prices as whole numbers, none below nothing."""
        return [max(round(price * _SCALE), 0) for price in self.prices]
