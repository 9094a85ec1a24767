"""Things that could be mistaken for one another, and what tells them apart.

Two things are look-alikes when they can show the same colour, each side of the one is within
1 in of a side of the other (either way round), and mixing them up would matter: they go to
other pockets or pages, or are cut again otherwise. What no measurement and no mark tells apart
is no look-alike: either may then serve for the other.

They are ranked by how little they differ. Of those only what lies about together now is told,
see `LookAlikes.about`: a thing can't be taken for another that is not there, nor for one
that is half as wide again.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from model.colour import Rgb, difference
from model.plan import Plan, Role, StepKind
from model.sought import Sought, appearance, sought_of
from model.spot import Spot
from model.state import State
from model.tells import Tell

NEAR_SIDE = Fraction(127, 5)
"""1 in, in mm: sides that differ by no more are mixed up (common practice, no source)."""
NEAR_COLOUR = 0.05
"""In OKLab, where 0.02 is about what can just be told apart side by side (our own judgement)."""


@dataclass(frozen=True, slots=True)
class Likeness:
    """Something that a thing may be mistaken for.

    Attributes:
        one: The thing.
        other: What it may be mistaken for.
        tell: What tells them apart.
        apart: By how much their sides differ at most, in mm.
    """

    one: Sought
    other: Sought
    tell: Tell
    apart: Fraction

    @property
    def glaring(self) -> bool:
        """Whether a side differs by more than a third: 1 1/4 and 2 in, but not 3 1/2 and 4."""
        return any(
            max(a, b) * 3 > min(a, b) * 4
            for a, b in zip(self.one.sides, self.other.sides, strict=True)
        )


class LookAlikes:
    """The look-alikes of a plan; made once for it."""

    def __init__(self, plan: Plan) -> None:
        """Sort everything that can be mixed up by its size.

        Args:
            plan: The plan.
        """
        self._plan = plan
        self._all = tuple(each for each in sought_of(plan) if _comparable(each))
        self._number = {id: n for n, each in enumerate(self._all) for id in each.copies}
        self._use = [_next_use(plan, each) for each in self._all]
        # Whatever is within 1 in of a thing lies in the same square of 1 in, or beside it.
        # What nothing tells apart lies in it together, and is compared once.
        squares: dict[tuple[int, int], dict[object, list[int]]] = defaultdict(dict)
        for number, each in enumerate(self._all):
            looks = appearance(each.item)
            squares[_square(each)].setdefault(looks, []).append(number)
        self._squares = dict(squares)
        self._known: dict[int, tuple[Likeness, ...]] = {}

    def of(self, item: str) -> tuple[Likeness, ...]:
        """All that a thing may be mistaken for, the likest first.

        Args:
            item: The thing's identity.
        """
        number = self._number.get(item)
        if number is None:
            return ()
        if number not in self._known:
            found = sorted(self._like(number), key=_how_like)
            self._known[number] = tuple(found)
        return self._known[number]

    def about(self, state: State, item: str) -> tuple[Likeness, ...]:
        """What a thing may be mistaken for now, the likest first.

        That is what lies where it lies itself, or on the pile, or comes off in the same load,
        or is packed with it; and does not differ so much that nobody errs.

        Args:
            state: Where everything is.
            item: The thing that is to be filed, trimmed, or cut by hand.
        """
        here = state.where(item)
        return tuple(
            each
            for each in self.of(item)
            if not each.glaring
            and any(self._near(state, item, here, copy) for copy in each.other.copies)
        )

    def _near(self, state: State, item: str, here: int, copy: str) -> bool:
        there = state.where(copy)
        if there == Spot.PILE or (there >= 0 and there == here):
            return True
        if there != Spot.NOWHERE:
            return False
        step = state.step()
        made, mine = self._plan.made_by.get(copy), self._plan.made_by.get(item)
        if made is None or mine is None or step is None:
            return False
        maker, own = self._plan.steps[made], self._plan.steps[mine]
        together = maker.kind is StepKind.FILL and own.kind is StepKind.FILL
        return together or bool(maker.load and maker.load == own.load)

    def _like(self, number: int) -> Iterator[Likeness]:
        one, use = self._all[number], self._use[number]
        own = appearance(one.item)
        row, column = _square(one)
        for near in ((row + y, column + x) for y in (-1, 0, 1) for x in (-1, 0, 1)):
            for looks, numbers in self._squares.get(near, {}).items():
                first = self._all[numbers[0]]
                apart = max(abs(a - b) for a, b in zip(one.sides, first.sides, strict=True))
                if looks == own or apart > NEAR_SIDE:
                    continue
                tell = tell_apart(one, first)
                if tell is None or not _same_colour(one.colours, first.colours):
                    continue
                for other in numbers:
                    if self._use[other] != use:
                        yield Likeness(one, self._all[other], tell, apart)


def tell_apart(one: Sought, other: Sought) -> Tell | None:
    """What tells two things apart most easily; None when nothing does.

    Args:
        one: A thing of known size.
        other: Another one.
    """
    a, b = one.item, other.item
    printed = [(i.kind.words, i.kind.picture) if i.kind else ("", "") for i in (a, b)]
    if printed[0] != printed[1]:
        return Tell.PRINTED
    papers = [i.paper for i in (a, b) if i.paper is not None]
    if len({paper.name for paper in papers}) > 1 and any(paper.printed for paper in papers):
        return Tell.PATTERN
    torn = [bool(i.stock and i.stock.torn) for i in (a, b)]
    if torn[0] != torn[1]:
        return Tell.TORN
    short, long = (abs(x - y) for x, y in zip(one.sides, other.sides, strict=True))
    if short or long:
        return Tell.LONG if long >= short else Tell.SHORT
    return Tell.BACK if set(one.colours) != set(other.colours) else None


def _how_like(likeness: Likeness) -> tuple[bool, Fraction]:
    # A pattern, or words, are seen at a glance; a quarter of an inch is not.
    glance = likeness.tell in (Tell.PRINTED, Tell.PATTERN, Tell.TORN)
    return glance, likeness.apart


def _comparable(each: Sought) -> bool:
    """Whether it can be mixed up by its size: it is loose, and both its sides are known."""
    loose = each.item.role in (Role.PIECE, Role.STRIP, Role.SCRAP)
    return loose and len(each.sides) == 2 and bool(each.colours)


def _square(each: Sought) -> tuple[int, int]:
    return int(each.sides[0] // NEAR_SIDE), int(each.sides[1] // NEAR_SIDE)


def _next_use(plan: Plan, each: Sought) -> tuple[object, ...]:
    """Where it goes and what is done to it next: where these are alike, mixing up is harmless."""
    item = each.item
    group = plan.groups.get(item.group)
    goes = frozenset((to.pocket, to.page) for to in group.to) if group else frozenset()
    taken = plan.taken_by.get(item.id)
    next_step = plan.steps[taken].work if taken is not None else None
    worked_on = bool(plan.touched_by.get(item.id))
    where = next_step.where if next_step else ()
    return item.role, goes, where, item.id if worked_on else ""


def _same_colour(one: tuple[Rgb, ...], other: tuple[Rgb, ...]) -> bool:
    return any(difference(a, b) <= NEAR_COLOUR for a in one for b in other)
