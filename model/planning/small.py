"""Small tasks gone through whole: what is missing, sheets and scraps, all proved."""

from __future__ import annotations

from collections.abc import Sequence
from math import prod

from model.planning.blocks import Block, Kind, Packing, joined, single_blocks
from model.planning.filling import Filled, Room
from model.planning.sheets import Cutting
from model.planning.tidying import scraps_of
from model.planning.work import Work

_MOST_SETS = 3_000


def _catalogue(
    kinds: Sequence[Kind], packing: Packing, room: Room, work: Work
) -> dict[int, tuple[int, Block]] | None:
    """For every set of pieces that one board yields: its fewest scraps, and how."""
    seen: dict[int, list[tuple[int, int, int]]] = {}
    closed: list[Block] = []
    waiting = single_blocks(kinds, packing, room.width, room.height)
    found: dict[int, tuple[int, Block]] = {}
    while waiting:
        block = waiting.pop()
        wide, high, scraps = block.width, block.height, block.scraps
        sizes = seen.setdefault(block.key, [])
        if any(x <= wide and y <= high and n + (x < wide) + (y < high) <= scraps
               for x, y, n in sizes):  # fmt: skip
            continue
        sizes.append((wide, high, scraps))
        whole = scraps_of(block, room.width, room.height)
        if block.key not in found or whole < found[block.key][0]:
            found[block.key] = (whole, block)
        closed.append(block)
        work.spend(len(closed))
        if work.over:
            return None
        for other in closed:
            if not packing.fits(block.key + other.key):
                continue
            if wide + other.width <= room.width:
                waiting.append(joined(block, other, True))
            if high + other.height <= room.height:
                waiting.append(joined(block, other, False))
    return found


def exact_small(
    kinds: Sequence[Kind], rooms: Sequence[Room], most: int, work: Work
) -> tuple[Cutting, int, int] | None:
    """The best cutting of a small task.

    Args:
        kinds: The kinds, with their counts and what each weighs when it is missing.
        rooms: The boards.
        most: Sheets that are surely enough for a best cutting.
        work: How much may be looked at.

    Returns:
        The cutting, what is missing of it by weight, and its scraps; nothing where the task is too
        large to be gone through.
    """
    if prod(kind.count + 1 for kind in kinds) > _MOST_SETS:
        return None
    packing = Packing([kind.count for kind in kinds])
    pieces = sum(kind.count for kind in kinds)
    # By the pieces still wanted: sheets, scraps, and the boards that were cut for it.
    reached: dict[int, tuple[int, int, tuple[Filled, ...]]] = {packing.whole: (0, 0, ())}
    for number, room in enumerate(rooms):
        found = _catalogue(kinds, packing, room, work)
        if found is None:
            return None
        for _ in range(min(room.count, pieces if room.free else most)):
            grown = dict(reached)
            for left, (sheets, scraps, filled) in reached.items():
                work.spend(len(found))
                if work.over:
                    return None
                for key, (more, block) in found.items():
                    if ((left | packing.guards) - key) & packing.guards != packing.guards:
                        continue
                    cost = (sheets + (not room.free), scraps + more)
                    known = grown.get(left - key)
                    if known is None or cost < known[:2]:
                        grown[left - key] = (*cost, (*filled, Filled(number, block)))
            if all(grown[key][:2] == reached.get(key, (None,))[:2] for key in grown):
                break
            reached = grown
    values = [kind.value for kind in kinds]

    def missing(key: int) -> int:
        return sum(n * v for n, v in zip(packing.unpacked(key), values, strict=True))

    best = min(reached, key=lambda key: (missing(key), *reached[key][:2]))
    sheets, scraps, filled = reached[best]
    return Cutting(filled, packing.unpacked(best), sheets, sheets), missing(best), scraps
