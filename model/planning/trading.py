"""Two sheets trade pieces, so that fewer scraps are left of both.

One of the two then leaves at most half of the scraps. Sets of pieces that leave so few are not
many; for each of them it is tried whether the other sheet gives the rest with few enough.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from model.planning.blocks import Block, Kind, Packing
from model.planning.filling import Filled, Room, counts_of, priced
from model.planning.tidying import scraps_of, within
from model.planning.tidysets import tidy_sets
from model.planning.unlimited import surroundings
from model.planning.work import Work

_EACH = 4_000


class Trade:
    """Sheets that trade pieces two by two; what was tried in vain is not tried again."""

    def __init__(self, kinds: Sequence[Kind], rooms: Sequence[Room], narrow: int) -> None:
        """No trade yet.

        Args:
            kinds: The kinds.
            rooms: The boards that there are.
            narrow: No part that is cut again is narrower.
        """
        self._areas = [kind.width * kind.height for kind in kinds]
        self._kinds, self._rooms, self._narrow = kinds, rooms, narrow
        self._tried: set[tuple[int, int, tuple[int, ...], int]] = set()

    def _of(self, one: Filled) -> int:
        room = self._rooms[one.room]
        return scraps_of(one.block, room.width, room.height)

    def run(self, filled: Sequence[Filled], work: Work) -> Iterator[list[Filled]]:
        """Trade until no two sheets gain by it.

        Args:
            filled: The boards that are cut.
            work: How much may be looked at.

        Yields:
            The boards after each trade that leaves fewer scraps.
        """
        now = list(filled)
        again = True
        while again:
            again = False
            # Those that leave the most have the most to gain.
            order = sorted(range(len(now)), key=lambda n: -self._of(now[n]))
            pairs = sorted(
                ((a, b) for a in range(len(order)) for b in range(a)), key=lambda two: sum(two)
            )
            for a, b in pairs:
                if work.over:
                    return
                one, other = order[b], order[a]
                better = self._traded(now[one], now[other], work)
                if better is not None:
                    now[one], now[other] = better
                    yield list(now)
                    again = True
                    break

    def _traded(self, one: Filled, other: Filled, work: Work) -> tuple[Filled, Filled] | None:
        size = len(self._kinds)
        counts = tuple(
            a + b
            for a, b in zip(counts_of(one.block, size), counts_of(other.block, size), strict=True)
        )
        target = self._of(one) + self._of(other) - 1
        key = (one.room, other.room, counts, target)
        if key in self._tried:
            return None
        self._tried.add(key)
        kinds = priced(self._kinds, counts, self._areas)
        total = sum(kind.count * kind.value for kind in kinds)
        space = self._rooms[one.room].area + self._rooms[other.room].area
        if target < int(total < space):
            return None
        for first, second in dict.fromkeys(((one.room, other.room), (other.room, one.room))):
            found = self._halves(kinds, counts, total, first, second, target, work)
            if found is not None:
                return found
        return None

    def _halves(
        self,
        kinds: Sequence[Kind],
        counts: Sequence[int],
        total: int,
        first: int,
        second: int,
        target: int,
        work: Work,
    ) -> tuple[Filled, Filled] | None:
        room, rest = self._rooms[first], self._rooms[second]
        near, _ = surroundings(kinds, room.width, room.height, total)
        far = near
        if (rest.width, rest.height) != (room.width, room.height):
            far, _ = surroundings(kinds, rest.width, rest.height, total)
        work.spend(500)  # the tables take time too
        least = max(total - rest.area, 1)
        for scraps in range(target // 2 + 1):
            share = work.share(_EACH * 2)
            sets = tidy_sets(kinds, room, scraps, least, near, share, self._narrow)
            work.spend(share.spent)
            exact = [(key, block) for key, (has, block) in sets.items() if has == scraps]
            exact.sort(key=lambda entry: -entry[1].worth)
            found = self._rest(exact, counts, total, target - scraps, rest, far, work)
            if found is not None:
                return Filled(first, found[0]), Filled(second, found[1])
        return None

    def _rest(
        self,
        sets: Sequence[tuple[int, Block]],
        counts: Sequence[int],
        total: int,
        allowed: int,
        rest: Room,
        far: dict[int, dict[int, int]],
        work: Work,
    ) -> tuple[Block, Block] | None:
        packing = Packing(counts)
        for key, block in sets:
            if work.over:
                return None
            left = total - block.worth
            if not left:
                continue
            if allowed < int(left < rest.area):
                continue
            others = priced(self._kinds, packing.unpacked(packing.whole - key), self._areas)
            share = work.share(_EACH)
            found = within(others, rest.width, rest.height, share, allowed, self._narrow, far, left)
            work.spend(share.spent + 20)
            if found is not None:
                return block, found
        return None
