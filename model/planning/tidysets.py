"""Sets of pieces that one board gives with few scraps.

With few scraps nearly every two blocks that are put together match along the cut. So blocks are
kept by their sides: only a block that may still gain a scrap is tried with those that do not match.
"""

from __future__ import annotations

import heapq
from collections.abc import Sequence

from model.planning.blocks import Block, Kind, Packing, holdable, joined, single_blocks
from model.planning.closed import Closed
from model.planning.filling import Room
from model.planning.work import Work


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
    closed = Closed()
    found: dict[int, tuple[int, Block]] = {}
    waits: dict[tuple[int, int, int], int] = {}  # boxes of pieces, by their scraps
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
        free, worth = top - key, block.worth
        for across, others in closed.beside(block, allowed):
            work.spend(len(others) + 1)
            for other in others:
                if (free - other.key) & guards != guards:
                    continue
                if across:
                    x, y = wide + other.width, high if high > other.height else other.height
                else:
                    x, y = wide if wide > other.width else other.width, high + other.height
                if x > width or y > height or worth + other.worth + around[x][y] < least:
                    continue
                if narrow and not holdable(block, other, across, narrow):
                    continue
                both = key + other.key
                uneven = high != other.height if across else wide != other.width
                more = scraps + other.scraps + uneven
                box = (both, x, y)
                if waits.get(box, more + 1) <= more or any(
                    a <= x and b <= y and n + (a < x) + (b < y) <= more
                    for a, b, n in seen.get(both, ())
                ):
                    continue
                waits[box] = more
                made += 1
                work.spend()
                heapq.heappush(heap, (x * y, more, made, joined(block, other, across)))
    return found
