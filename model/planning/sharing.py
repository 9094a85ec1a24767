"""So few sheets, gone through whole: how all pieces are shared out among them, or that they can't.

At good prices every sheet must bring nearly the most that one can bring; else the others could not
make up for it. So only the sets of pieces that bring so much are looked for, which are few, and
then mixed in every way.
"""

from __future__ import annotations

from bisect import bisect_right, insort
from collections.abc import Sequence

from model.planning.blocks import Block, Kind, Packing, holdable, joined, single_blocks
from model.planning.filling import Filled, Room, priced
from model.planning.unlimited import surroundings
from model.planning.work import Work


def rich_sets(
    kinds: Sequence[Kind], room: Room, least: int, work: Work, narrow: int = 0
) -> dict[int, Block] | None:
    """Every set of pieces that comes out of one board and brings so much.

    Args:
        kinds: The kinds; their values are their prices.
        room: The board.
        least: What a set must bring.
        work: How much may be looked at.
        narrow: No part that is cut again is narrower; the sets are then not all there are.

    Returns:
        A block for each set, by its packed counts; None where the work ended before.
    """
    packing = Packing([kind.count for kind in kinds])
    top, guards = packing.top, packing.guards
    width, height = room.width, room.height
    most = sum(kind.count * kind.value for kind in kinds)
    around, _ = surroundings(kinds, width, height, most)
    seen: dict[int, list[tuple[int, int]]] = {}
    found: dict[int, Block] = {}
    waiting: list[Block] = []
    made = 0

    def offer(block: Block) -> None:
        wide, high = block.width, block.height
        sizes = seen.setdefault(block.key, [])
        for x, y in sizes:
            if x <= wide and y <= high:
                return
        sizes.append((wide, high))
        waiting.append(block)
        if block.worth >= least:
            found.setdefault(block.key, block)

    for block in single_blocks(kinds, packing, width, height):
        if block.worth + around[block.width][block.height] >= least:
            offer(block)
    by_width: list[tuple[int, int, Block]] = []
    by_height: list[tuple[int, int, Block]] = []
    while waiting:
        block = waiting.pop()
        wide, high, key, worth = block.width, block.height, block.key, block.worth
        if any((x <= wide and y <= high) and (x, y) != (wide, high) for x, y in seen[key]):
            continue  # a smaller one came after it
        made += 1
        insort(by_width, (wide, made, block))
        insort(by_height, (high, made, block))
        last = bisect_right(by_width, width - wide, key=lambda entry: entry[0])
        work.spend(last + 1)
        for other_wide, _, other in by_width[:last]:
            if (top - key - other.key) & guards != guards:
                continue
            other_high = other.height
            limit = (
                worth
                + other.worth
                + around[wide + other_wide][high if high > other_high else other_high]
            )
            if limit >= least and (not narrow or holdable(block, other, True, narrow)):
                offer(joined(block, other, True))
        last = bisect_right(by_height, height - high, key=lambda entry: entry[0])
        work.spend(last + 1)
        for other_high, _, other in by_height[:last]:
            if (top - key - other.key) & guards != guards:
                continue
            other_wide = other.width
            limit = (
                worth
                + other.worth
                + around[wide if wide > other_wide else other_wide][high + other_high]
            )
            if limit >= least and (not narrow or holdable(block, other, False, narrow)):
                offer(joined(block, other, False))
        if work.over:
            return None
    return found


class _Mixing:
    """Sets mixed until every piece is had."""

    def __init__(
        self,
        kinds: Sequence[Kind],
        rooms: Sequence[Room],
        brings: Sequence[int],
        sets: Sequence[dict[int, Block]],
        work: Work,
    ) -> None:
        self._rooms, self._brings, self._work = rooms, brings, work
        self._packing = Packing([kind.count for kind in kinds])
        self._values = [kind.value for kind in kinds]
        # The piece that is placed first: the dearest that is left, since it goes with the fewest.
        self._order = sorted(range(len(kinds)), key=lambda n: -kinds[n].width * kinds[n].height)
        self._sets = [
            [
                sorted(
                    ((block.worth, key, block) for key, block in found.items()
                     if self._packing.unpacked(key)[kind]),
                    key=lambda entry: (-entry[0], entry[1]),
                )
                for kind in range(len(kinds))
            ]
            for found in sets
        ]  # fmt: skip
        self._tried: set[tuple[int, tuple[int, ...], int]] = set()

    def _potential(self, boards: tuple[int, ...], paid: int) -> int:
        total = 0
        dear: list[tuple[int, int]] = []
        for room, most, count in zip(self._rooms, self._brings, boards, strict=True):
            if room.free:
                total += most * count
            else:
                dear.append((most, count))
        for most, count in sorted(dear, reverse=True):
            used = min(count, paid)
            total += used * most
            paid -= used
        return total

    def fill(
        self, left: int, value: int, boards: tuple[int, ...], paid: int
    ) -> list[Filled] | None:
        if not left:
            return []
        state = (left, boards, paid)
        if state in self._tried or self._potential(boards, paid) < value:
            return None
        self._tried.add(state)
        counts = self._packing.unpacked(left)
        pivot = next(kind for kind in self._order if counts[kind])
        guards = self._packing.guards
        for number, room in enumerate(self._rooms):
            if not boards[number] or (not room.free and not paid):
                continue
            fewer = (*boards[:number], boards[number] - 1, *boards[number + 1 :])
            rest = paid - (not room.free)
            slack = self._potential(fewer, rest) - value
            entries = self._sets[number][pivot]
            self._work.spend(len(entries) // 20 + 1)
            for worth, key, block in entries:
                if slack + worth < 0:
                    break
                if ((left | guards) - key) & guards != guards:
                    continue
                if self._work.over:
                    return None
                found = self.fill(left - key, value - worth, fewer, rest)
                if found is not None:
                    return [Filled(number, block), *found]
        return None


def shared_out(
    kinds: Sequence[Kind],
    rooms: Sequence[Room],
    sheets: int,
    prices: Sequence[int],
    brings: Sequence[int],
    work: Work,
    narrow: int = 0,
) -> tuple[list[Filled] | None, bool]:
    """All pieces shared out among so many sheets.

    Args:
        kinds: The kinds, with their counts.
        rooms: The boards.
        sheets: How many sheets may be begun.
        prices: What each kind is worth.
        brings: What one board of each room brings at most, at those prices.
        work: How much may be looked at.
        narrow: No part that is cut again is narrower.

    Returns:
        The boards with their pieces, or nothing; and whether it is sure then that there is no way.
    """
    counts = [kind.count for kind in kinds]
    dear = priced(kinds, counts, prices)
    total = sum(kind.count * kind.value for kind in dear)
    nothing: list[dict[int, Block]] = [{} for _ in rooms]
    boards = tuple(room.count for room in rooms)
    # What may be lost in all, against boards that each bring the most they can.
    lost = _Mixing(dear, rooms, brings, nothing, work)._potential(boards, sheets) - total
    if lost < 0:
        return None, True
    sets: list[dict[int, Block]] = []
    for room, most in zip(rooms, brings, strict=True):
        found = rich_sets(dear, room, max(most - lost, 0), work, narrow)
        if found is None:
            return None, False
        sets.append(found)
    mixing = _Mixing(dear, rooms, brings, sets, work)
    filled = mixing.fill(Packing(counts).whole, total, boards, sheets)
    return filled, filled is None and not work.over and not narrow
