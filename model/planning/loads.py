"""From blocks to loads that the table can run.

Parallel cuts of one part are one load. Whatever is cut again stays on the bed where it can: the
piece in hand is then turned and cut on, which costs less than a part from the pile.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from itertools import islice, permutations

from model.planning.blocks import Block
from model.planning.task import Part, PlannedLoad

_ORDERS = 120


class TooNarrow(Exception):
    """A part that is cut again, or what stays on the bed, is narrower than can be held."""


@dataclass(slots=True)
class Region:
    """A rectangle of a board: a piece, a scrap, or cut in parallel into others.

    Attributes:
        width: Its width as the board lies upright, in whole units.
        height: Its height.
        kind: The piece's kind; -1 for none.
        across: It is cut into regions side by side.
        inner: What it is cut into.
    """

    width: int
    height: int
    kind: int = -1
    across: bool = False
    inner: list[Region] = field(default_factory=list)


def _split(
    width: int, height: int, across: bool, parts: Sequence[tuple[Block | None, int]], narrow: int
) -> Region:
    region = Region(width, height, across=across)
    for block, size in parts:
        wide, high = (size, height) if across else (width, size)
        one = Region(wide, high) if block is None else region_of(block, wide, high, narrow)
        if one.inner and one.across == across:
            region.inner += one.inner
        else:
            region.inner.append(one)
    return region


def region_of(block: Block, width: int, height: int, narrow: int = 0) -> Region:
    """A block laid out in a rectangle, what is over cut off as scraps.

    Args:
        block: The block.
        width: The rectangle's width.
        height: Its height.
        narrow: A piece narrower than this comes off last.
    """
    over_x, over_y = width - block.width, height - block.height
    if over_x and over_y:
        if block.first is not None:
            across = not block.across  # the other side is then one load with the block's own cuts
        elif block.width < narrow or block.height < narrow:
            across = block.width >= block.height
        else:
            across = over_x * height >= over_y * width  # one large leftover
    else:
        across = bool(over_x)
    if over_x or over_y:
        size, over = (block.width, over_x) if across else (block.height, over_y)
        return _split(width, height, across, ((block, size), (None, over)), narrow)
    if block.first is None or block.second is None:
        return Region(width, height, kind=block.kind)
    first, second = block.first, block.second
    sizes = (first.width, second.width) if block.across else (first.height, second.height)
    return _split(width, height, block.across, ((first, sizes[0]), (second, sizes[1])), narrow)


def holds(block: Block, width: int, height: int, narrow: int) -> bool:
    """Whether a board can be cut so with nothing too narrow in hand.

    Args:
        block: What is cut from the board.
        width: The board's width, in whole units.
        height: Its height.
        narrow: No part that is cut, and nothing that stays on the bed, is narrower.
    """
    waiting = [region_of(block, width, height, narrow)] if narrow else []
    while waiting:
        region = waiting.pop()
        if not region.inner:
            continue
        sizes = [one.width if region.across else one.height for one in region.inner]
        if min(region.width, region.height) < narrow or max(sizes) < narrow:
            return False
        waiting += region.inner
    return True


@dataclass(slots=True)
class Writer:
    """Loads as they are written, board by board.

    Attributes:
        unit: A whole unit, in mm.
        names: The wanted piece's name of each kind.
        narrow: No part that is cut, and nothing that stays on the bed, is narrower.
        parts: Every part by its number.
        loads: The loads.
        sheets: The boards begun, by number and name.
        scraps: How many parts are thrown away.
        reloads: Loads that take a part from the pile.
        turns: Loads that turn the rest of the load just before.
        marks: Distinct marks.
    """

    unit: Fraction
    names: Sequence[str]
    narrow: int = 0
    parts: dict[int, Part] = field(default_factory=dict)
    loads: list[PlannedLoad] = field(default_factory=list)
    sheets: list[tuple[int, str]] = field(default_factory=list)
    scraps: int = 0
    reloads: int = 0
    turns: int = 0
    marks: set[int] = field(default_factory=set)

    def board(self, name: str, width: int, height: int, block: Block) -> None:
        """Write the loads of one board.

        Args:
            name: Its name.
            width: Its width, in whole units.
            height: Its height.
            block: What is cut from it.

        Raises:
            TooNarrow: Something is too narrow to hold.
        """
        region = region_of(block, width, height, self.narrow)
        number = self._part(region, upright=True)
        self.sheets.append((number, name))
        pile = [(number, region)] if region.inner else []
        rest = number
        while pile:
            taken, now = pile.pop()
            if len(self.loads) and taken != number:
                if taken == rest:
                    self.turns += 1
                else:
                    self.reloads += 1
            rest, waiting = self._load(taken, now)
            pile += waiting

    def _part(self, region: Region, upright: bool) -> int:
        number = len(self.parts) + 1
        scrap = not region.inner and region.kind < 0
        self.scraps += scrap
        wide, high = region.width * self.unit, region.height * self.unit
        self.parts[number] = Part(
            wide if upright else high,
            high if upright else wide,
            upright,
            "" if region.kind < 0 else self.names[region.kind],
            scrap,
        )
        return number

    def _load(self, taken: int, region: Region) -> tuple[int, list[tuple[int, Region]]]:
        if min(region.width, region.height) < self.narrow:
            raise TooNarrow
        across = region.across
        whole = region.width if across else region.height
        inner = region.inner

        def size(one: Region) -> int:
            return one.width if across else one.height

        wide = [one for one in inner if size(one) >= self.narrow]
        if not wide:
            raise TooNarrow
        # What is cut again stays in hand; else a piece, the widest, which is safest to hold.
        stays = max(wide, key=lambda one: (bool(one.inner), one.kind >= 0, size(one)))
        others = [one for one in inner if one is not stays]
        others.sort(key=lambda one: (size(one), bool(one.inner), one.kind))
        off, marks = self._order(others, [size(one) for one in others], whole)
        self.marks.update(marks)
        upright = across
        gives = [self._part(one, upright) for one in off]
        rest = self._part(stays, upright)
        self.loads.append(
            PlannedLoad(
                taken,
                across != self.parts[taken].upright,
                tuple(mark * self.unit for mark in marks),
                tuple(gives),
                rest,
            )
        )
        waiting = [(n, one) for n, one in zip(gives, off, strict=True) if one.inner]
        if stays.inner:
            waiting.append((rest, stays))
        return rest, waiting

    def _order(
        self, others: list[Region], sizes: list[int], whole: int
    ) -> tuple[list[Region], list[int]]:
        # The order that sets the fewest marks not set before; narrow ones first where it is alike.
        best: tuple[int, tuple[int, ...], list[int]] | None = None
        seen: set[tuple[int, ...]] = set()
        for order in islice(permutations(range(len(others))), _ORDERS):
            widths = tuple(sizes[n] for n in order)
            if widths in seen:
                continue
            seen.add(widths)
            marks: list[int] = []
            mark = whole
            for width in widths:
                mark -= width
                marks.append(mark)
            new = len(set(marks) - self.marks)
            if best is None or new < best[0]:
                best = (new, order, marks)
        assert best is not None  # a region that is cut has two parts at least
        return [others[n] for n in best[1]], best[2]
