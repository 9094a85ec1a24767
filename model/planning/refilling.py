"""A given number of sheets, a few of them emptied and filled anew, again and again.

Whatever area is left over then never grows; where it comes to nothing, every piece is had. What is
left over when sheets are filled one after another is mostly a matter of the last ones: two to four
of them, put together, have other ways.
"""

from __future__ import annotations

from collections.abc import Sequence
from random import Random

from model.planning.blocks import Kind
from model.planning.filling import Filled, Room, counts_of, one_round, priced, sheets_in
from model.planning.work import Work

_AT_ONCE = (2, 2, 3, 3, 4)
_POWERS = (1.0, 1.06, 1.15, 1.3, 1.5)
_FINE = 1_000


class Refilling:
    """Sheets that hold more and more of the pieces.

    Attributes:
        patterns: How many of each kind came out of a sheet, for every sheet filled.
    """

    def __init__(
        self, kinds: Sequence[Kind], rooms: Sequence[Room], most: int, narrow: int
    ) -> None:
        """Nothing filled yet.

        Args:
            kinds: The kinds, with their counts.
            rooms: The boards.
            most: Sheets that may be begun.
            narrow: No part that is cut again is narrower.
        """
        self._kinds, self._rooms, self._narrow = kinds, rooms, narrow
        self.most = most
        self._areas = [kind.width * kind.height for kind in kinds]
        self._random = Random(3)  # the same tries for the same task
        self._filled: list[Filled] = []
        self._left: list[int] | None = None
        self.patterns: dict[tuple[int, ...], None] = {}

    def _prices(self) -> list[int]:
        power, uniform = self._random.choice(_POWERS), self._random.uniform
        top = max(self._areas)
        return [
            max(round((area / top) ** power * uniform(0.9, 1.1) * 1000 * _FINE), 1)
            for area in self._areas
        ]

    def _area(self, counts: Sequence[int]) -> int:
        return sum(n * area for n, area in zip(counts, self._areas, strict=True))

    def run(self, tries: int, work: Work) -> list[Filled] | None:
        """Fill anew some times.

        Args:
            tries: How many times.
            work: How much may be looked at.

        Returns:
            The boards with all pieces, once there is a way.
        """
        for _ in range(tries):
            if work.over:
                return None
            if self._left is None:
                self._filled, self._left = one_round(
                    self._kinds, self._rooms, self._prices(), self.most, work, self._narrow
                )
            else:
                self._again(self._left, work)
            if not any(self._left):
                return self._filled
        return None

    def _again(self, left: Sequence[int], work: Work) -> None:
        some = min(self._random.choice(_AT_ONCE), len(self._filled))
        chosen = set(self._random.sample(range(len(self._filled)), some))
        pool = list(left)
        rooms: list[Room] = []
        numbers: list[int] = []
        for n in sorted(chosen):
            one = self._filled[n]
            room = self._rooms[one.room]
            rooms.append(Room(room.width, room.height, 1, room.free))
            numbers.append(one.room)
            for kind, count in enumerate(counts_of(one.block, len(self._kinds))):
                pool[kind] += count
        for number in self._idle():
            room = self._rooms[number]
            rooms.append(Room(room.width, room.height, 1, room.free))
            numbers.append(number)
        sheets = self.most - sheets_in(
            self._rooms, [one for n, one in enumerate(self._filled) if n not in chosen]
        )
        kinds = priced(self._kinds, pool, self._areas)
        filled, now = one_round(kinds, rooms, self._prices(), sheets, work, self._narrow)
        for one in filled:
            self.patterns[tuple(counts_of(one.block, len(self._kinds)))] = None
        if self._area(now) > self._area(left):
            return
        rest = [one for n, one in enumerate(self._filled) if n not in chosen]
        self._filled = [*rest, *(Filled(numbers[one.room], one.block) for one in filled)]
        self._left = now

    def _idle(self) -> list[int]:
        # One board of each room that is not all in use may come in.
        used = [0] * len(self._rooms)
        for one in self._filled:
            used[one.room] += 1
        return [n for n, room in enumerate(self._rooms) if used[n] < room.count]
