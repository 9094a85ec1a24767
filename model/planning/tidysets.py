"""Sets of pieces that one board gives with few scraps.

With few scraps nearly every two blocks that are put together match along the cut. So blocks are
kept by their sides: only a block that may still gain a scrap is tried with those that do not match.
"""

from __future__ import annotations

import heapq
from collections.abc import Iterator, Sequence

from model.planning.blocks import Block, Kind, Packing, holdable, joined, single_blocks
from model.planning.filling import Room
from model.planning.work import Work


class _Closed:
    """Blocks by their scraps, and by scraps and side."""

    def __init__(self) -> None:
        self.every: dict[int, list[Block]] = {}
        self.matching: dict[tuple[int, bool, int], list[Block]] = {}

    def add(self, block: Block) -> None:
        self.every.setdefault(block.scraps, []).append(block)
        for across, side in ((True, block.height), (False, block.width)):
            self.matching.setdefault((block.scraps, across, side), []).append(block)

    def beside(self, block: Block, allowed: int) -> Iterator[tuple[bool, Sequence[Block]]]:
        """The blocks that may go beside one, or above it, with so many scraps in all."""
        spare = allowed - block.scraps
        for scraps in range(spare):
            every = self.every.get(scraps, ())
            yield True, every
            yield False, every
        yield True, self.matching.get((spare, True, block.height), ())
        yield False, self.matching.get((spare, False, block.width), ())


def tidy_sets(
    kinds: Sequence[Kind],
    room: Room,
    allowed: int,
    least: int,
    around: dict[int, dict[int, int]],
    work: Work,
    narrow: int = 0,
) -> dict[int, tuple[int, Block]]:
    """Sets of pieces that one board gives with few scraps.

    Args:
        kinds: The kinds; their values are their areas.
        room: The board.
        allowed: Scraps that may be left.
        least: The least area that a set must have.
        around: The most area around each block.
        work: How much may be looked at; where it ends, not all sets are found.
        narrow: No part that is cut again is narrower.

    Returns:
        By packed counts: the fewest scraps, and how.
    """
    packing = Packing([kind.count for kind in kinds])
    top, guards = packing.top, packing.guards
    width, height = room.width, room.height
    seen: dict[int, list[tuple[int, int, int]]] = {}
    closed = _Closed()
    found: dict[int, tuple[int, Block]] = {}
    made = 0
    # Small boxes first: whatever makes a block needless then comes before it.
    heap: list[tuple[int, int, int, Block]] = []
    for block in single_blocks(kinds, packing, width, height):
        if block.worth + around[block.width][block.height] >= least:
            made += 1
            heap.append((block.width * block.height, block.scraps, made, block))
    heapq.heapify(heap)
    while heap and not work.over:
        block = heapq.heappop(heap)[3]
        wide, high, key, scraps = block.width, block.height, block.key, block.scraps
        sizes = seen.setdefault(key, [])
        if any(
            x <= wide and y <= high and n + (x < wide) + (y < high) <= scraps for x, y, n in sizes
        ):
            continue
        sizes.append((wide, high, scraps))
        whole = scraps + (wide < width) + (high < height)
        if (
            whole <= allowed
            and block.worth >= least
            and (key not in found or whole < found[key][0])
        ):
            found[key] = (whole, block)
        closed.add(block)
        free = top - key
        for across, others in closed.beside(block, allowed):
            work.spend(len(others) + 1)
            for other in others:
                if (free - other.key) & guards != guards:
                    continue
                if across:
                    x, y = wide + other.width, high if high > other.height else other.height
                else:
                    x, y = wide if wide > other.width else other.width, high + other.height
                if x > width or y > height or block.worth + other.worth + around[x][y] < least:
                    continue
                if narrow and not holdable(block, other, across, narrow):
                    continue
                both = joined(block, other, across)
                known = seen.get(both.key)
                if known and any(
                    a <= x and b <= y and n + (a < x) + (b < y) <= both.scraps for a, b, n in known
                ):
                    continue
                made += 1
                work.spend()
                heapq.heappush(heap, (x * y, both.scraps, made, both))
    return found
