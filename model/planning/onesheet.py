"""The most value from one sheet, each kind limited: best first, from single pieces up.

Blocks are joined two by two. A block whose value, with the best that could lie around it, is no
better than what is known is dropped; so is one that another holds the same pieces as, no larger.
"""

from __future__ import annotations

import heapq
from bisect import bisect_right, insort
from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from model.planning.blocks import Block, Kind, Packing, holdable, joined, single_blocks
from model.planning.unlimited import surroundings
from model.planning.work import Work


@dataclass(frozen=True, slots=True)
class Best:
    """The most value found.

    Attributes:
        value: The value.
        bound: No block brings more.
        block: The block that brings it; None where nothing fits.
    """

    value: int
    bound: int
    block: Block | None

    @property
    def proved(self) -> bool:
        """Whether nothing brings more."""
        return self.value == self.bound


def most_value(
    kinds: Sequence[Kind], width: int, height: int, work: Work, floor: int = 0, narrow: int = 0
) -> Best:
    """The most value that one sheet can give.

    Args:
        kinds: The kinds, each with the most copies that count.
        width: The sheet's width.
        height: Its height.
        work: How much may be looked at.
        floor: Only more than this is of interest.
        narrow: No part that is cut again is narrower. The bound leaves this out: a block that is
            too narrow might be padded first.
    """
    # What is worth nothing is left out.
    kinds = [kind if kind.value else replace(kind, count=0) for kind in kinds]
    packing = Packing([kind.count for kind in kinds])
    top, guards = packing.top, packing.guards
    most = sum(kind.count * kind.value for kind in kinds)
    around, ceiling = surroundings(kinds, width, height, most)
    best: Block | None = None
    value = floor
    heap: list[tuple[int, int, int, int, Block]] = []
    seen: dict[int, list[tuple[int, int]]] = {}
    made = 0

    dense = sorted(
        (
            (
                kind.value,
                kind.width * kind.height,
                shift,
                (1 << kind.count.bit_length()) - 1,
                kind.count,
            )
            for kind, shift in zip(kinds, packing.shifts, strict=True)
            if kind.count
        ),
        key=lambda entry: Fraction(entry[0], entry[1]),
        reverse=True,
    )
    whole = width * height

    def capped(block: Block) -> int:
        # What the pieces left over can still bring, were they as soft as dough.
        left = whole - block.width * block.height
        key, total = block.key, block.worth
        for worth, area, shift, mask, count in dense:
            free = count - (key >> shift & mask)
            if free:
                if free * area > left:
                    return total + worth * left // area
                left -= free * area
                total += free * worth
        return total

    def offer(block: Block, bound: int) -> None:
        nonlocal best, value, made
        sizes = seen.setdefault(block.key, [])
        wide, high = block.width, block.height
        for x, y in sizes:
            if x <= wide and y <= high:
                return
        least = min(bound, capped(block))
        if least <= value:
            return
        sizes.append((wide, high))
        if block.worth > value:
            best, value = block, block.worth
        made += 1
        heapq.heappush(heap, (-(bound if floor else least), -block.worth, made, least, block))

    for block in single_blocks(kinds, packing, width, height):
        offer(block, block.worth + around[block.width][block.height])
    by_width: list[tuple[int, int, Block]] = []
    by_height: list[tuple[int, int, Block]] = []
    bound: int | None = None
    while heap:
        if value >= most:
            break
        if work.over:
            bound = max(value, *(entry[3] for entry in heap))
            break
        _, _, order, least, block = heapq.heappop(heap)
        if least <= value:
            continue
        wide, high, key, worth = block.width, block.height, block.key, block.worth
        if any((x <= wide and y <= high) and (x, y) != (wide, high) for x, y in seen[key]):
            continue  # a smaller one came after it
        insort(by_width, (wide, order, block))
        insort(by_height, (high, order, block))
        room_x = width - wide
        room_y = height - high
        last = bisect_right(by_width, room_x, key=lambda entry: entry[0])
        work.spend(last)
        for other_wide, _, other in by_width[:last]:
            if (top - key - other.key) & guards != guards:
                continue
            other_high = other.height
            limit = (
                worth
                + other.worth
                + around[wide + other_wide][high if high > other_high else other_high]
            )
            if limit > value and (not narrow or holdable(block, other, True, narrow)):
                offer(joined(block, other, True), limit)
        last = bisect_right(by_height, room_y, key=lambda entry: entry[0])
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
            if limit > value and (not narrow or holdable(block, other, False, narrow)):
                offer(joined(block, other, False), limit)
    if bound is None:
        bound = ceiling if narrow else value
    elif narrow:
        bound = ceiling
    return Best(value, max(bound, value), best)
