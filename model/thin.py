"""Thin strips, which nobody can place later: what each of them most likely backs.

What the kit says goes first (`model.relations`). Where it says nothing, sizes may: a narrow
plain strip usually backs a printed border strip of its length, a little wider than it, since a
mat shows 1/8 to 1/4 in on either side (common practice, no source; see `REVEALS`). Only pieces
of the same pocket are compared, and of the same page where both are known.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from model.kit import Tie
from model.plan import Item, Plan, Role
from model.relations import Related

THIN = Fraction(254, 5)
"""2 in, in mm: what is no wider, and long, is a thin strip (common practice, no source)."""
SLENDER = 4
"""A thin strip is at least so many times as long as it is wide (our own judgement)."""
REVEALS = (Fraction(127, 40), Fraction(127, 20))
"""1/8 and 1/4 in, in mm: what a mat shows on either side (common practice, no source)."""
_LENGTHS = Fraction(127, 20)
"""1/4 in, in mm: by how much a strip and what it backs may differ in length."""


@dataclass(frozen=True, slots=True)
class Backing:
    """What a thin strip most likely belongs with.

    Attributes:
        stated: The kit's own word on it; None when it was worked out from sizes.
        other: The name of what it belongs with.
        pockets: The pockets that both are in, by index; empty when the kit does not say.
        reveal: By how much it would show on either side, in mm; 0 when it is stated.
    """

    stated: Related | None
    other: str
    pockets: tuple[int, ...]
    reveal: Fraction = Fraction(0)


class ThinStrips:
    """The thin strips of a plan; made once for it."""

    def __init__(self, plan: Plan) -> None:
        """Sort the long pieces by pocket.

        Args:
            plan: The plan.
        """
        self._plan = plan
        self._in_pocket: dict[int, list[Item]] = defaultdict(list)
        seen: set[str] = set()
        for item in plan.items.values():
            group = plan.groups.get(item.group)
            if item.role is not Role.PIECE or group is None or item.group in seen:
                continue
            seen.add(item.group)
            if sides(item) is not None:
                for pocket in group.wanted:
                    self._in_pocket[pocket].append(item)

    def backs(self, item: Item) -> tuple[Backing, ...]:
        """What a strip belongs with, the likeliest first; nothing for what is no thin strip.

        Args:
            item: A piece.
        """
        if not is_thin(item):
            return ()
        stated = [
            Backing(tie, tie.other, self._together(item, tie.other))
            for tie in self._plan.related(item.name)
        ]
        return tuple(stated or sorted(self._computed(item), key=lambda each: each.reveal))

    def _together(self, item: Item, other: str) -> tuple[int, ...]:
        """The pockets that hold both a piece and a kind."""
        copies = (self._plan.items[id] for id in self._plan.copies.get(other, ()))
        theirs = {pocket for copy in copies for pocket in self._wanted(copy)}
        return tuple(pocket for pocket in self._wanted(item) if pocket in theirs)

    def _wanted(self, item: Item) -> tuple[int, ...]:
        group = self._plan.groups.get(item.group)
        return tuple(group.wanted) if group else ()

    def _computed(self, item: Item) -> Iterator[Backing]:
        mine = sides(item)
        if mine is None or (item.paper is not None and item.paper.printed):
            return  # a print is looked at, it backs nothing
        if item.stock is not None and item.stock.torn:
            return  # a torn edge is there to be seen
        found: dict[str, Backing] = {}
        for pocket in self._wanted(item):
            for other in self._in_pocket[pocket]:
                theirs = sides(other)
                if other.name == item.name or theirs is None or other.paper == item.paper:
                    continue
                reveal = (mine[0] - theirs[0]) / 2
                if not REVEALS[0] <= reveal <= REVEALS[1] or self._is_backed(other):
                    continue
                if abs(mine[1] - theirs[1]) > _LENGTHS or not self._one_page(item, other, pocket):
                    continue
                before = found.get(other.name)
                pockets = (*(before.pockets if before else ()), pocket)
                found[other.name] = Backing(None, other.name, pockets, reveal)
        yield from found.values()

    def _is_backed(self, item: Item) -> bool:
        """Whether the kit says itself what backs a piece: then nothing else does."""
        return any(tie.tie is Tie.BACKS and tie.back for tie in self._plan.related(item.name))

    def _one_page(self, item: Item, other: Item, pocket: int) -> bool:
        """Whether two pieces of a pocket can be for one page of it."""
        mine, theirs = self._pages(item, pocket), self._pages(other, pocket)
        return not (mine and theirs) or bool(mine & theirs)

    def _pages(self, item: Item, pocket: int) -> set[int]:
        to = self._plan.groups[item.group].to
        pages = {each.page for each in to if each.pocket == pocket}
        return set() if None in pages else {page for page in pages if page is not None}


def sides(item: Item) -> tuple[Fraction, Fraction] | None:
    """The short and the long side of a piece in mm; None unless both are measured."""
    if item.stock is not None and item.stock.measured:
        width, height = item.stock.width.value, item.stock.height.value
    elif item.kind is not None and item.kind.size is not None:
        width, height = item.kind.size
    else:
        return None
    return min(width, height), max(width, height)


def is_thin(item: Item) -> bool:
    """Whether a piece is a thin strip: narrow, and long."""
    found = sides(item) if item.role is Role.PIECE else None
    return found is not None and found[0] <= THIN and found[1] >= SLENDER * found[0]
