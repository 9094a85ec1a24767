"""Sheets filled one after another, each with the most value at the prices of the day.

A price says how hard a piece is to place. Rounds differ in their prices: what was left over costs
more in the next one, so that it goes in earlier.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from random import Random

from model.planning.blocks import Block, Kind, pieces_of
from model.planning.onesheet import most_value
from model.planning.work import Work

_FILL = 3_000
_LAST = 60_000
_POWERS = (1.0, 1.06, 1.15, 1.3, 1.5, 2.0, 1.03, 1.1, 1.2, 0.9)
_FINE = 1_000


@dataclass(frozen=True, slots=True)
class Room:
    """Boards that are all alike, in whole units.

    Attributes:
        width: Their width.
        height: Their height.
        count: How many there are.
        free: They are left over from before and cost no sheet.
    """

    width: int
    height: int
    count: int
    free: bool = False

    @property
    def area(self) -> int:
        """The area of one."""
        return self.width * self.height


@dataclass(frozen=True, slots=True)
class Filled:
    """A board and what is cut from it.

    Attributes:
        room: The number of its room.
        block: Its pieces.
    """

    room: int
    block: Block


def counts_of(block: Block, kinds: int) -> list[int]:
    """How many pieces of each kind a block has.

    Args:
        block: The block.
        kinds: How many kinds there are.
    """
    counts = [0] * kinds
    for piece in pieces_of(block):
        counts[piece.kind] += 1
    return counts


def priced(kinds: Sequence[Kind], counts: Sequence[int], prices: Sequence[int]) -> list[Kind]:
    """The same kinds with other counts and values.

    Args:
        kinds: The kinds.
        counts: How many of each.
        prices: What each is worth.
    """
    return [
        Kind(kind.width, kind.height, count, price, kind.turnable)
        for kind, count, price in zip(kinds, counts, prices, strict=True)
    ]


def whole_set(
    kinds: Sequence[Kind], width: int, height: int, work: Work, narrow: int = 0
) -> Block | None:
    """All pieces out of one sheet, or nothing.

    Args:
        kinds: The kinds; their values do not matter.
        width: The sheet's width.
        height: Its height.
        work: How much may be looked at; nothing found within it proves nothing.
        narrow: No part that is cut again is narrower.
    """
    areas = [kind.width * kind.height for kind in kinds]
    total = sum(kind.count * area for kind, area in zip(kinds, areas, strict=True))
    if total > width * height:
        return None
    counts = [kind.count for kind in kinds]
    return most_value(priced(kinds, counts, areas), width, height, work, total - 1, narrow).block


def one_round(
    kinds: Sequence[Kind],
    rooms: Sequence[Room],
    prices: Sequence[int],
    most: int,
    work: Work,
    narrow: int = 0,
    each: int = _FILL,
) -> tuple[list[Filled], list[int]]:
    """Fill boards one by one: those left over first, then sheets, the largest first.

    Args:
        kinds: The kinds, with their counts.
        rooms: The boards.
        prices: What each kind is worth.
        most: Sheets that may be begun.
        work: How much may be looked at.
        narrow: No part that is cut again is narrower.
        each: How much may be looked at for one board.

    Returns:
        What was filled, and how many of each kind are left.
    """
    left = [kind.count for kind in kinds]
    filled: list[Filled] = []
    order = sorted(
        range(len(rooms)),
        key=lambda n: (not rooms[n].free, rooms[n].area if rooms[n].free else -rooms[n].area),
    )
    used = 0
    for number in order:
        room = rooms[number]
        for _ in range(room.count):
            if not any(left) or (used >= most and not room.free) or work.over:
                break
            block: Block | None = None
            if used == most - 1 and not room.free:
                try_all = work.share(_LAST)
                block = whole_set(
                    priced(kinds, left, left), room.width, room.height, try_all, narrow
                )
                work.spend(try_all.spent)
            if block is None:
                fill = work.share(each)
                now = priced(kinds, left, prices)
                block = most_value(now, room.width, room.height, fill, 0, narrow).block
                work.spend(fill.spent + 500)  # the tables take time too
            if block is None:
                break
            used += not room.free
            filled.append(Filled(number, block))
            for kind, count in enumerate(counts_of(block, len(kinds))):
                left[kind] -= count
    return filled, left


def sheets_in(rooms: Sequence[Room], filled: Sequence[Filled]) -> int:
    """How many sheets are begun.

    Args:
        rooms: The boards.
        filled: What is cut.
    """
    return sum(not rooms[one.room].free for one in filled)


class Rounds:
    """Rounds of filling, each with other prices.

    Attributes:
        patterns: How many of each kind came out of a sheet, for every sheet filled.
    """

    def __init__(self, kinds: Sequence[Kind], rooms: Sequence[Room], narrow: int = 0) -> None:
        """Rounds.

        Args:
            kinds: The kinds, with their counts.
            rooms: The boards.
            narrow: No part that is cut again is narrower.
        """
        self._narrow = narrow
        self._kinds = kinds
        self._rooms = rooms
        self._random = Random(1)  # the same rounds for the same task
        self._base = [float(kind.width * kind.height) for kind in kinds]
        self._prices = list(self._base)
        self._count = 0
        self.patterns: dict[tuple[int, ...], None] = {}

    def _next_prices(self) -> list[int]:
        if self._count < len(_POWERS):
            power = _POWERS[self._count]
            top = max(self._base)
            prices = [(area / top) ** power for area in self._base]
        else:
            top = max(self._prices)
            prices = [price / top * self._random.uniform(0.93, 1.07) for price in self._prices]
        return [max(round(price * 1000 * _FINE), 1) for price in prices]

    def run(self, rounds: int, most: int, work: Work) -> Iterator[tuple[list[Filled], list[int]]]:
        """Some rounds.

        Args:
            rounds: How many.
            most: Sheets that may be begun.
            work: How much may be looked at.
        """
        for _ in range(rounds):
            if work.over:
                return
            prices = self._next_prices()
            self._count += 1
            filled, left = one_round(self._kinds, self._rooms, prices, most, work, self._narrow)
            for one in filled:
                self.patterns[tuple(counts_of(one.block, len(self._kinds)))] = None
            for kind, count in enumerate(left):
                if count:
                    self._prices[kind] *= self._random.uniform(1.0, 1.3)
            yield filled, left
