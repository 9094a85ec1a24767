"""Blocks: pieces side by side and one above another, and counts of pieces packed in one number.

A block is as small as its pieces let it be. Whatever is wanted wider or taller than it is gets
padded with one scrap a side, so a block says all that a region with scraps in it can say.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Kind:
    """Wanted pieces that are all alike, in whole units.

    Attributes:
        width: Their width.
        height: Their height.
        count: How many at most.
        value: What one is worth.
        turnable: Whether they may lie a quarter turn round.
    """

    width: int
    height: int
    count: int
    value: int
    turnable: bool = True

    @property
    def lies(self) -> tuple[tuple[int, int, bool], ...]:
        """The ways in which one may lie: width, height, whether turned."""
        straight = (self.width, self.height, False)
        if self.turnable and self.width != self.height:
            return straight, (self.height, self.width, True)
        return (straight,)


class Block:
    """One piece, or two blocks with a cut between them.

    Attributes:
        width: How wide it is.
        height: How high it is.
        key: The counts of its pieces, packed.
        worth: The value of its pieces together.
        scraps: How many scraps lie within it.
        across: Its two blocks lie side by side; else one above the other.
        first: One block of the two; None for a piece.
        second: The other.
        kind: The number of the piece's kind.
        turned: The piece lies a quarter turn round.
    """

    __slots__ = (
        "across", "first", "height", "key", "kind", "scraps", "second", "turned", "width", "worth",
    )  # fmt: skip

    def __init__(
        self,
        width: int,
        height: int,
        key: int,
        worth: int,
        scraps: int = 0,
        across: bool = False,
        first: Block | None = None,
        second: Block | None = None,
        kind: int = -1,
        turned: bool = False,
    ) -> None:
        """A block as its attributes say."""
        self.width = width
        self.height = height
        self.key = key
        self.worth = worth
        self.scraps = scraps
        self.across = across
        self.first = first
        self.second = second
        self.kind = kind
        self.turned = turned


def joined(first: Block, second: Block, across: bool) -> Block:
    """Two blocks with a cut between them; the lesser one is padded with a scrap.

    Args:
        first: One.
        second: The other.
        across: Side by side.
    """
    if across:
        width = first.width + second.width
        height = max(first.height, second.height)
        uneven = first.height != second.height
    else:
        width = max(first.width, second.width)
        height = first.height + second.height
        uneven = first.width != second.width
    return Block(
        width,
        height,
        first.key + second.key,
        first.worth + second.worth,
        first.scraps + second.scraps + uneven,
        across,
        first,
        second,
    )


def holdable(first: Block, second: Block, across: bool, narrow: int) -> bool:
    """Whether two blocks can be cut apart, and padded, with nothing too narrow in hand.

    Args:
        first: One.
        second: The other.
        across: Side by side.
        narrow: The narrowest part that may be cut, or stay on the bed.
    """
    if across:
        sizes, sides = (first.width, second.width), (first.height, second.height)
    else:
        sizes, sides = (first.height, second.height), (first.width, second.width)
    if max(sizes) < narrow or sum(sizes) < narrow or max(sides) < narrow:
        return False
    return all(
        size >= narrow or side == max(sides) for size, side in zip(sizes, sides, strict=True)
    )


class Packing:
    """Counts of several kinds packed in one number, so that adding is one addition.

    Attributes:
        shifts: Where the count of each kind begins.
        whole: The counts of all pieces.
        guards: A bit above each count, which is lost when a count is too great.
        top: `whole` with all its guards.
    """

    def __init__(self, counts: Sequence[int]) -> None:
        """A packing.

        Args:
            counts: How many of each kind there are at most.
        """
        shift = 0
        self.shifts: list[int] = []
        self.whole = 0
        self.guards = 0
        self._masks: list[int] = []
        for count in counts:
            bits = max(count.bit_length(), 1)
            self.shifts.append(shift)
            self._masks.append((1 << bits) - 1)
            self.whole |= count << shift
            self.guards |= 1 << (shift + bits)
            shift += bits + 1
        self.top = self.whole | self.guards

    def fits(self, key: int) -> bool:
        """Whether no count is greater than there are pieces.

        Args:
            key: The packed counts, sums of two that fit.
        """
        return (self.top - key) & self.guards == self.guards

    def unpacked(self, key: int) -> tuple[int, ...]:
        """The counts of a key.

        Args:
            key: The packed counts.
        """
        return tuple(
            key >> shift & mask for shift, mask in zip(self.shifts, self._masks, strict=True)
        )

    def packed(self, counts: Sequence[int]) -> int:
        """The key of counts.

        Args:
            counts: How many of each kind.
        """
        return sum(count << shift for count, shift in zip(counts, self.shifts, strict=True))


def single_blocks(kinds: Sequence[Kind], packing: Packing, width: int, height: int) -> list[Block]:
    """Every kind lying in every way that fits a sheet.

    Args:
        kinds: The kinds.
        packing: How counts are packed.
        width: The sheet's width.
        height: Its height.
    """
    return [
        Block(wide, high, 1 << packing.shifts[number], kind.value, kind=number, turned=turned)
        for number, kind in enumerate(kinds)
        if kind.count
        for wide, high, turned in kind.lies
        if wide <= width and high <= height
    ]


def pieces_of(block: Block) -> Iterator[Block]:
    """The single pieces of a block.

    Args:
        block: The block.
    """
    waiting = [block]
    while waiting:
        one = waiting.pop()
        if one.first is None or one.second is None:
            yield one
        else:
            waiting += (one.second, one.first)
