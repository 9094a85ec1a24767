"""Pieces placed one by one into what is free, in many orders: quick, and with few scraps.

A piece goes into the corner of a free rectangle; what is over is cut off, edge to edge. Where a
side fits exactly there is one free rectangle less to throw away in the end. The boards are given,
so no try begins more of them.
"""

from __future__ import annotations

from collections.abc import Sequence
from random import Random

from model.planning.blocks import Block, Kind, joined
from model.planning.filling import Filled, Room

_Piece = tuple[int, int, int]  # width, height, kind
_MISFIT = 1 << 40


class Node:
    """A rectangle of a board: free, or with a piece in its corner and two rectangles beside it.

    Attributes:
        wide: How wide it is.
        high: How high it is.
        kind: The number of the piece's kind; -1 while it is free.
        lies: How the piece lies: its width and height, and whether it is turned.
        right: The rectangle to the right of the piece, if any.
        over: The one above it.
    """

    __slots__ = ("high", "kind", "lies", "over", "right", "wide")

    def __init__(self, wide: int, high: int) -> None:
        """A free rectangle.

        Args:
            wide: How wide it is.
            high: How high it is.
        """
        self.wide = wide
        self.high = high
        self.free()

    def free(self) -> None:
        """Take the piece out again."""
        self.kind = -1
        self.lies = (0, 0, False)
        self.right: Node | None = None
        self.over: Node | None = None

    def put(self, kind: int, lies: tuple[int, int, bool], split: int) -> list[Node]:
        """Put a piece into the corner.

        Args:
            kind: The number of its kind.
            lies: How it lies.
            split: The rule by which the rest is cut in two.

        Returns:
            What is free beside it.
        """
        self.kind, self.lies = kind, lies
        wide, high, _ = lies
        x, y = self.wide - wide, self.high - high
        if split == 0:
            across = x * self.high > y * self.wide  # the larger rest stays whole
        elif split == 1:
            across = x > y
        elif split == 2:
            across = self.wide > self.high
        else:
            across = x < y
        made: list[Node] = []
        if x:
            self.right = Node(x, self.high if across or not y else high)
            made.append(self.right)
        if y:
            self.over = Node(wide if across or not x else self.wide, y)
            made.append(self.over)
        return made

    def block(self) -> Block | None:
        """Its pieces as a block; nothing where it is free."""
        if self.kind < 0:
            return None
        wide, high, turned = self.lies
        # Its pieces are not counted: whoever needs to know looks at them.
        block = Block(wide, high, 0, wide * high, kind=self.kind, turned=turned)
        right = None if self.right is None else self.right.block()
        over = None if self.over is None else self.over.block()
        first_over = self.over is not None and self.over.wide == wide
        for part, across in ((over, False), (right, True)) if first_over else (
            (right, True), (over, False),
        ):  # fmt: skip
            if part is not None:
                block = joined(block, part, across)
        return block


class Placing:
    """Tries, each better than the last or thrown away.

    Attributes:
        scraps: The fewest scraps of any try so far in which every piece had its place.
    """

    def __init__(self, kinds: Sequence[Kind], rooms: Sequence[Room], boards: Sequence[int]) -> None:
        """Tries.

        Args:
            kinds: The kinds, with their counts.
            rooms: The boards that there are.
            boards: Those that may be used, by the number of their room.
        """
        self._kinds, self._rooms, self._boards = kinds, rooms, list(boards)
        self._random = Random(2)  # the same tries for the same task
        self._order = [
            number for number, kind in enumerate(kinds) for _ in range(kind.count)
        ]  # the order of the best try
        self._rules = (0, 0, False, True)
        self._tries = 0
        self.scraps = _MISFIT
        self._hard = [0] * len(kinds)  # how often a piece found no place

    def _next_order(self) -> tuple[list[int], tuple[int, int, bool, bool]]:
        random, kinds = self._random, self._kinds
        order = list(self._order)
        if self.scraps == _MISFIT or self._tries % 3 == 0:
            power, noise = random.choice((0.0, 0.5, 1.0, 2.0)), random.choice((0.0, 0.1, 0.4))
            weights = [
                max(kind.width, kind.height)
                * min(kind.width, kind.height) ** power
                * (1 + 0.05 * self._hard[number])
                * (1 + noise * random.random())
                for number, kind in enumerate(kinds)
            ]
            order.sort(key=lambda number: -weights[number])
        else:
            for _ in range(random.randint(1, 3)):
                a, b = random.randrange(len(order)), random.randrange(len(order))
                if random.random() < 0.5:
                    order[a], order[b] = order[b], order[a]
                else:
                    order.insert(b, order.pop(a))
            if random.random() < 0.7:
                return order, self._rules
        chances = random.random() < 0.7, random.random() < 0.7
        return order, (random.randrange(3), random.randrange(4), *chances)

    def at_once(self) -> tuple[Filled, ...] | None:
        """The boards cut when the largest piece is placed first; nothing if one is left."""
        kinds = self._kinds
        order = sorted(self._order, key=lambda n: -kinds[n].width * kinds[n].height)
        tops, scraps = self._placed(order, (0, 0, True, True))
        return None if scraps >= _MISFIT else self._filled(tops)

    def anew(self) -> None:
        """Forget the best try: the next ones set out from elsewhere."""
        self.scraps = _MISFIT

    def attempt(self) -> tuple[Filled, ...] | None:
        """One more try.

        Returns:
            The boards that are cut; nothing where a piece found no place, or too many are left.
        """
        self._tries += 1
        order, rules = self._next_order()
        tops, scraps = self._placed(order, rules)
        if scraps >= _MISFIT or scraps > self.scraps:
            return None
        self.scraps, self._order, self._rules = scraps, order, rules
        return self._filled(tops)

    def _filled(self, tops: Sequence[Node]) -> tuple[Filled, ...]:
        return tuple(
            Filled(room, block)
            for room, top in zip(self._boards, tops, strict=True)
            if (block := top.block()) is not None
        )

    def _placed(
        self, order: Sequence[int], rules: tuple[int, int, bool, bool]
    ) -> tuple[list[Node], int]:
        fit, split, begun_first, exact_first = rules
        kinds = self._kinds
        tops = [Node(self._rooms[n].width, self._rooms[n].height) for n in self._boards]
        free: list[Node] = []
        fresh = list(tops)
        if not begun_first:
            free, fresh = fresh, []
        for kind in order:
            lies = kinds[kind].lies
            best: Node | None = None
            least = _MISFIT
            laid = (0, 0, False)
            for nodes in (free, fresh):
                for node in nodes:
                    for wide, high, turn in lies:
                        x, y = node.wide - wide, node.high - high
                        if x < 0 or y < 0:
                            continue
                        if fit == 0:
                            score = (x if x < y else y) * 1000 + (y if x < y else x)
                        elif fit == 1:
                            score = node.wide * node.high - wide * high
                        else:
                            score = x * y
                        if x and y and exact_first:
                            score += 1 << 30
                        if score < least:
                            best, least, laid = node, score, (wide, high, turn)
                if best is not None:
                    break
            if best is None:
                self._hard[kind] += 1
                return tops, _MISFIT
            if best in free:
                free.remove(best)
            else:
                fresh.remove(best)
            free += best.put(kind, laid, split)
        whole = 0 if begun_first else sum(top.kind < 0 for top in tops)
        return tops, len(free) - whole
