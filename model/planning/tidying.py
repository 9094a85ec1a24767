"""All pieces of a sheet, cut so that the fewest scraps are left."""

from __future__ import annotations

import heapq
from collections.abc import Sequence

from model.planning.blocks import Block, Kind, Packing, holdable, joined, single_blocks
from model.planning.closed import Closed
from model.planning.unlimited import surroundings
from model.planning.work import Work


def scraps_of(block: Block, width: int, height: int) -> int:
    """How many scraps a block leaves in a sheet.

    Args:
        block: The block.
        width: The sheet's width.
        height: Its height.
    """
    return block.scraps + (block.width < width) + (block.height < height)


def fewest_scraps(
    kinds: Sequence[Kind], width: int, height: int, work: Work, below: int, narrow: int = 0
) -> tuple[Block | None, int]:
    """All pieces out of one sheet with fewer scraps than are known.

    Args:
        kinds: The kinds, with counts; their values do not matter.
        width: The sheet's width.
        height: Its height.
        work: How much may be looked at.
        below: Only fewer scraps than this are of interest.
        narrow: No part that is cut again is narrower.

    Returns:
        The block, or nothing, and the fewest scraps as far as is proved.
    """
    wanted = [
        Kind(kind.width, kind.height, kind.count, kind.width * kind.height, kind.turnable)
        for kind in kinds
    ]
    total = sum(kind.count * kind.value for kind in wanted)
    least = int(total < width * height)
    if least >= below:
        return None, least
    around, _ = surroundings(wanted, width, height, total)
    for allowed in range(least, below):
        block = within(wanted, width, height, work, allowed, narrow, around, total)
        if block is not None:
            return block, allowed
        if work.over or narrow:
            return None, allowed if work.over and not narrow else least
    return None, below


def within(
    kinds: Sequence[Kind],
    width: int,
    height: int,
    work: Work,
    allowed: int,
    narrow: int,
    around: dict[int, dict[int, int]],
    total: int,
) -> Block | None:
    """All pieces out of one sheet with so many scraps.

    Args:
        kinds: The kinds, with counts; their values are their areas.
        width: The sheet's width.
        height: Its height.
        work: How much may be looked at; nothing found within it proves nothing.
        allowed: Scraps that may be left.
        narrow: No part that is cut again is narrower.
        around: The most area around each block.
        total: The area of all pieces.
    """
    packing = Packing([kind.count for kind in kinds])
    top, guards = packing.top, packing.guards
    heap: list[tuple[int, int, int, Block]] = []
    seen: dict[int, list[tuple[int, int, int]]] = {}
    closed = Closed()
    made = 0

    def offer(block: Block) -> Block | None:
        nonlocal made
        wide, high, scraps = block.width, block.height, block.scraps
        if block.worth == total:
            return block if scraps_of(block, width, height) <= allowed else None
        sizes = seen.setdefault(block.key, [])
        if any(
            x <= wide and y <= high and n + (x < wide) + (y < high) <= scraps for x, y, n in sizes
        ):  # another holds the same, padded if need be
            return None
        sizes.append((wide, high, scraps))
        made += 1
        heapq.heappush(heap, (-around[wide][high] - block.worth, -block.worth, made, block))
        return None

    for block in single_blocks(kinds, packing, width, height):
        if offer(block) is not None:
            return block
    while heap and not work.over:
        block = heapq.heappop(heap)[3]
        closed.add(block)
        wide, high, key = block.width, block.height, block.key
        for across, others in closed.beside(block, allowed):
            work.spend(len(others) + 1)
            for other in others:
                if (top - key - other.key) & guards != guards:
                    continue
                if across:
                    x, y = wide + other.width, high if high > other.height else other.height
                else:
                    x, y = wide if wide > other.width else other.width, high + other.height
                if x > width or y > height or block.worth + other.worth + around[x][y] < total:
                    continue
                if narrow and not holdable(block, other, across, narrow):
                    continue
                found = offer(joined(block, other, across))
                if found is not None:
                    return found
    return None
