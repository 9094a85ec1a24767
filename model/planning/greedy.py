"""A plan at once, whatever the limits: boards filled one after another with whatever fits.

It asks for no work and no time: a board's fill is found piece by piece, and made again as often as
the pieces allow.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from model.planning.blocks import Kind
from model.planning.filling import Filled, Room, counts_of, sheets_in
from model.planning.loads import holds
from model.planning.placing import Node

_PLACES = 8  # where narrow parts may not be held, a piece is tried in so many places


def greedy(
    kinds: Sequence[Kind], rooms: Sequence[Room], narrow: int = 0
) -> tuple[tuple[Filled, ...], tuple[int, ...]]:
    """Boards with as many pieces as go in at once.

    Args:
        kinds: The kinds, with their counts and what each weighs.
        rooms: The boards.
        narrow: No part that is cut again is narrower.

    Returns:
        What is cut, and how many of each kind are left.
    """
    most = max(kind.value for kind in kinds)

    def area(n: int) -> int:
        return kinds[n].width * kinds[n].height

    large = sorted(range(len(kinds)), key=lambda n: (kinds[n].value < most, -area(n)))
    dear = sorted(
        range(len(kinds)), key=lambda n: (kinds[n].value < most, -Fraction(kinds[n].value, area(n)))
    )
    tries = [_filled(kinds, rooms, order, narrow) for order in (large, dear)]

    def rank(one: tuple[tuple[Filled, ...], tuple[int, ...]]) -> tuple[int, int]:
        left = sum(count * kind.value for count, kind in zip(one[1], kinds, strict=True))
        return left, sheets_in(rooms, one[0])

    return min(tries, key=rank)


def _filled(
    kinds: Sequence[Kind], rooms: Sequence[Room], order: Sequence[int], narrow: int
) -> tuple[tuple[Filled, ...], tuple[int, ...]]:
    left = [kind.count for kind in kinds]
    filled: list[Filled] = []
    by_size = sorted(
        range(len(rooms)),
        key=lambda n: (not rooms[n].free, rooms[n].area if rooms[n].free else -rooms[n].area),
    )
    for number in by_size:
        room = rooms[number]
        boards = room.count
        while boards and any(left):
            block = _board(kinds, room, left, order, narrow).block()
            if block is None:
                break
            counts = counts_of(block, len(kinds))
            times = min(have // need for have, need in zip(left, counts, strict=True) if need)
            times = min(times, boards)
            filled += [Filled(number, block)] * times
            boards -= times
            left = [have - need * times for have, need in zip(left, counts, strict=True)]
    return tuple(filled), tuple(left)


def _board(
    kinds: Sequence[Kind], room: Room, left: Sequence[int], order: Sequence[int], narrow: int
) -> Node:
    top = Node(room.width, room.height)
    free = [top]
    for number in order:
        for _ in range(left[number]):
            for node, lies in _places(kinds[number], free, _PLACES if narrow else 1):
                made = node.put(number, lies, 0)
                block = top.block()
                if not narrow or (
                    block is not None and holds(block, room.width, room.height, narrow)
                ):
                    free.remove(node)
                    free += made
                    break
                node.free()
            else:
                break
    return top


def _places(
    kind: Kind, free: Sequence[Node], most: int
) -> Iterator[tuple[Node, tuple[int, int, bool]]]:
    # Where a side fits exactly first; then where the least is over on the shorter side.
    found: list[tuple[bool, int, int, Node, tuple[int, int, bool]]] = []
    for number, node in enumerate(free):
        for lies in kind.lies:
            x, y = node.wide - lies[0], node.high - lies[1]
            if x >= 0 and y >= 0:
                found.append((bool(x and y), min(x, y), number, node, lies))
    found.sort(key=lambda entry: entry[:3])
    for _, _, _, node, lies in found[:most]:
        yield node, lies
