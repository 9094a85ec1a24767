"""What is at hand for a rescue, from the least that is touched to the most.

Each level adds paper to the one before: what is wrong itself; scraps at hand; all that is left
of the sheet; later sheets of the same paper. What was to come of that paper is wanted too.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from enum import StrEnum
from fractions import Fraction

from model.length import Unit
from model.plan import Item, Plan
from model.plan import Role as Part
from model.rescue.loads_now import load_of, paper_name, parts_of, pieces_beneath, plain
from model.rescue.loose import LoadNow, Loose, Role
from model.rescue.mending import AddedKind, Mending
from model.rescue.mishap import Names, What
from model.rescue.roles import load_now, role_of
from model.rescue.truth import Truth
from model.spot import Spot
from model.state import State

_FINER = {
    Unit.IN: tuple(Fraction(127, 5) / parts for parts in (16, 32, 64)),
    Unit.CM: (Fraction(1), Fraction(1, 2)),
    Unit.MM: (Fraction(1), Fraction(1, 2)),
}
_NOTHING = Fraction(0)
_TRIES = 8  # how many sizes are tried, each smaller than the one before
_NESTED = Fraction(1, 2)  # a piece shorter than half of what it should be is nested on nothing


class Saving(StrEnum):
    """A way to save what can be saved, by how much it touches."""

    NOTHING = "nothing"
    """Nothing is lost: all pieces come out as they should."""
    SHIFT = "shift"
    """Other marks for what is wrong itself."""
    SCRAP = "scrap"
    """Cut anew from a scrap or an offcut at hand."""
    SHEET = "sheet"
    """The rest of the sheet planned anew."""
    LATER = "later"
    """Later sheets of the same paper planned anew."""
    SMALL = "small"
    """Taken a little smaller, as the kit allows."""
    NEST = "nest"
    """Nested on a backing of the size that it should have."""
    PART = "part"
    """Some of it saved with other marks, and the rest lost."""
    NONE = "none"
    """Not saved: go on, and let the pages miss what is lost."""


@dataclass(frozen=True, slots=True)
class Level:
    """What one way may use.

    Attributes:
        saving: Which way.
        loose: What may be cut.
        roles: What is wanted of it.
        plays: Things that are taken as they are for something that is wanted, with that.
        small: Those of them that are smaller than stated.
        kinds: Kinds of pieces that are added.
        tries: What is wanted instead, in smaller and smaller sizes: the first that all comes out
            is taken.
    """

    saving: Saving
    loose: tuple[Loose, ...]
    roles: tuple[Role, ...]
    plays: tuple[tuple[str, str], ...] = ()
    small: tuple[str, ...] = ()
    kinds: tuple[AddedKind, ...] = ()
    tries: tuple[tuple[Role, ...], ...] = ()


@dataclass(frozen=True, slots=True)
class Bench:
    """All that the search for ways needs, as plain data.

    Attributes:
        so: What is so in truth, as far as it differs, with what is due: each way adds to it.
        levels: The levels, the least first.
        loads: The loads that are cut or begun, by what they take, as far as they matter.
        wanted: What is lost unless a way saves it.
        graduation: Marks are whole numbers of these, in mm.
        names: Names that are in use.
        sheets: The sheets of the kit.
        called: What things are called that the kit does not know.
    """

    so: Mending
    levels: tuple[Level, ...]
    loads: Mapping[str, LoadNow]
    wanted: tuple[Role, ...]
    graduation: Fraction
    called: Names
    names: frozenset[str] = field(default_factory=frozenset)
    sheets: frozenset[str] = field(default_factory=frozenset)


def bench_of(state: State, truth: Truth, called: Names) -> Bench:
    """What is at hand.

    Args:
        state: The session.
        truth: What is so.
        called: What things are called that the kit does not know.
    """
    return _Collector(state, truth, called).bench()


class _Collector:
    def __init__(self, state: State, truth: Truth, called: Names) -> None:
        self.state, self.truth, self.plan = state, truth, state.plan
        self.called = called
        self.wanted = tuple(role_of(self.plan, id) for id in truth.wanted)
        self.papers = {role.paper for role in self.wanted}
        self.made = _made(self.plan, state)
        self.names = frozenset(self.plan.kit.kinds).union(i.name for i in self.plan.items.values())
        self._taken_wrongly = [of for of, load in truth.loads.items() if not load.as_written]
        self._taken_wrongly += [thing for pair in truth.swapped for thing in pair]
        self.loads: dict[str, LoadNow] = dict(truth.loads)

    def bench(self) -> Bench:
        plan, truth = self.plan, self.truth
        wrong = tuple(each for each in truth.loose.values() if each.id not in truth.plays)
        levels = list(self._levels(wrong)) if self.wanted else []
        for level in levels:
            for loose in level.loose:
                parent = loose.id.rpartition("/")[0]
                for of in (parent, loose.id if loose.begun else ""):
                    if of and of not in self.loads and of in plan.items:
                        self.loads[of] = load_now(plan, self.state, of)
        step = self.state.step()
        so = Mending(
            at=step.id if step else "",
            gone=truth.gone,
            spent=truth.spent,
            swapped=truth.swapped,
            since=truth.since,
        )
        every = [role for level in levels for role in level.roles]
        return Bench(
            so, tuple(levels), self.loads, self.wanted,
            graduation(plan.kit.unit, every), self.called, self.names, frozenset(plan.sheets),
        )  # fmt: skip

    def _levels(self, wrong: tuple[Loose, ...]) -> Iterator[Level]:
        wanted = self.wanted
        yield Level(Saving.SHIFT, wrong, wanted)
        scraps = (*wrong, *self._scraps())
        yield from self._small(wrong, scraps)
        if len(scraps) > len(wrong):
            yield Level(Saving.SCRAP, scraps, wanted)
        mine = {self.plan.items[role.id].sheet for role in wanted} | {w.sheet for w in wrong}
        rest, roles = self._undone(lambda item: item.sheet in mine)
        level = Level(Saving.SHEET, (*scraps, *rest), (*wanted, *roles))
        if rest:
            yield level
        more, others = self._undone(
            lambda item: item.sheet not in mine and paper_name(item) in self.papers
        )
        if more:
            yield Level(Saving.LATER, (*level.loose, *more), (*level.roles, *others))
        yield from self._nested(wrong)

    def _scraps(self) -> list[Loose]:
        """Scraps at hand that something that is wanted can be cut from."""
        return [
            loose
            for item in self.plan.items.values()
            if item.role is Part.SCRAP and item.id in self.made and item.id not in self.truth.loose
            and not self._within_wrong(item.id)
            for loose in self._loose(item)
            if any(role.paper == loose.paper and _holds(loose, role) for role in self.wanted)
        ]  # fmt: skip

    def _within_wrong(self, id: str) -> bool:
        """Whether a thing comes of one that was taken for another, if it is there at all."""
        return any(id.startswith(f"{thing}/") for thing in self._taken_wrongly)

    def _undone(self, fits: Callable[[Item], bool]) -> tuple[list[Loose], list[Role]]:
        """Things that are still to be cut as the plan has them, and what is to come of them."""
        loose: list[Loose] = []
        roles: list[Role] = []
        for item in self.plan.items.values():
            if item.role not in (Part.SHEET, Part.STRIP) or not fits(item):
                continue
            ruined = item.id == self.truth.mishap.thing and self.truth.mishap.what is What.RUINED
            if ruined or item.id in self.truth.loose or item.id in self.truth.gone:
                continue
            if item.id in self.truth.loads or self._within_wrong(item.id):
                continue
            here = self.state.where(item.id)
            begun = here == Spot.IN_HAND
            there = begun or (item.id in self.made and here not in (Spot.TAKEN, Spot.MISSING))
            load = load_of(self.plan, item.id)
            if not there or load is None or self.state.done.get(load.id) is False:
                continue
            if not plain(self.plan, item.id):
                continue
            for one in self._loose(item):
                loose.append(one)
                left = parts_of(self.plan, item.id)
                if begun:
                    left = tuple(
                        share.name
                        for share in load_now(self.plan, self.state, item.id).left_shares
                        if share.name
                    )
                for part in left:
                    roles += [role_of(self.plan, id) for id in pieces_beneath(self.plan, part)]
        return loose, roles

    def _loose(self, item: Item) -> Iterator[Loose]:
        stock, begun = item.stock, self.state.where(item.id) == Spot.IN_HAND
        lying = item.lying
        if begun:
            load = load_of(self.plan, item.id)
            step = self.state.step()
            if load is None or step is None or step.load != load.id:
                return
            stock, lying = step.before, load.lying
        if stock is None or not stock.measured:
            return
        here = self.state.where(item.id)
        yield Loose(
            item.id, stock.width.value, stock.height.value, paper_name(item), item.sheet,
            lying.sideways, item.lying.sideways, begun, item.role is Part.SHEET and not begun, here,
            torn=bool(stock.torn), name=item.name, scrap=item.role is Part.SCRAP,
        )  # fmt: skip

    def _short(self, wrong: Iterable[Loose]) -> Iterator[tuple[Loose, Role]]:
        """Things that are too small, each with what it should have been."""
        for loose in wrong:
            for role in self.wanted:
                mine = loose.id == role.id or self._meant(loose.id) == role.id
                if mine and not loose.begun and loose.paper == role.paper:
                    yield loose, role

    def _meant(self, id: str) -> str:
        for meant, taken in self.truth.swapped:
            if id.startswith(f"{taken}/"):
                return meant + id[len(taken) :]
        return id

    def _small(self, wrong: tuple[Loose, ...], loose: tuple[Loose, ...]) -> Iterator[Level]:
        """Everything that may be smaller comes out smaller, no more than it takes."""
        most = max((role.smaller_by for role in self.wanted), default=_NOTHING)
        step = graduation(self.plan.kit.unit, self.wanted)
        count = min(int(most / step), _TRIES)
        if not count or not wrong:
            return
        axes = [number for number in (0, 1) if self._is_off(wrong, number)]
        tries = tuple(
            tuple(_smaller(role, most * n / count // step * step, axes) for role in self.wanted)
            for n in range(1, count + 1)
        )
        yield Level(Saving.SMALL, loose, tries[-1], tries=tries)

    def _is_off(self, wrong: tuple[Loose, ...], axis: int) -> bool:
        """Whether things are short, or long, along their sheet's width (0) or height (1)."""
        for loose in wrong:
            meant = self.plan.items.get(self._meant(loose.id))
            step = self.state.step()
            stock = step.before if loose.begun and step else meant.stock if meant else None
            if stock is not None:
                is_, was = (loose.width, loose.height), (stock.width.value, stock.height.value)
                if is_[axis] != was[axis]:
                    return True
        return False

    def _nested(self, wrong: tuple[Loose, ...]) -> Iterator[Level]:
        """A backing of the full size for what is too small, from whatever paper is at hand."""
        scraps = [
            loose
            for item in self.plan.items.values()
            if item.role is Part.SCRAP and item.id in self.made and not self._within_wrong(item.id)
            for loose in self._loose(item)
        ]
        plays: list[tuple[Loose, Role]] = []
        kinds: list[AddedKind] = []
        backings: list[Role] = []
        boards: dict[str, Loose] = {}
        for loose, role in self._short(wrong):
            size = role.width, role.height
            inside = role.fits(loose.width, loose.height, min(size) * _NESTED)
            board = next((b for b in scraps if _holds(b, replace(role, turnable=True))), None)
            if not inside or board is None or role.pocket < 0:
                continue
            boards[board.id] = board
            name = self._free(self.called.backing.format(role.kind), {kind.name for kind in kinds})
            plays.append((loose, role))
            kinds.append(AddedKind(name, role.kind, role.pocket, role.page, size, role.kind))
            backings.append(replace(role, id=f"+{name}", paper=board.paper, turnable=True))
        if plays:
            level = self._taken_so(Saving.NEST, wrong, plays)
            yield replace(
                level,
                loose=(*level.loose, *(b for b in boards.values() if b not in level.loose)),
                roles=(*level.roles, *backings),
                kinds=tuple(kinds),
            )

    def _free(self, name: str, others: set[str]) -> str:
        free, number = name, 2
        while free in self.names or free in others:
            free = f"{name} {number}"
            number += 1
        return free

    def _taken_so(
        self, saving: Saving, wrong: tuple[Loose, ...], plays: list[tuple[Loose, Role]]
    ) -> Level:
        things = {loose.id for loose, _ in plays}
        ids = {role.id for _, role in plays}
        return Level(
            saving,
            tuple(each for each in wrong if each.id not in things),
            tuple(role for role in self.wanted if role.id not in ids),
            tuple((loose.id, role.id) for loose, role in plays),
            tuple(loose.id for loose, _ in plays),
        )


def _smaller(role: Role, by: Fraction, axes: Iterable[int]) -> Role:
    by = min(by, role.smaller_by)
    size = [role.width, role.height]
    for axis in axes:
        size[axis] -= by
    shrunk = by > 0 and min(size) > 0 and (size[0], size[1]) != (role.width, role.height)
    return replace(role, width=size[0], height=size[1], small=True) if shrunk else role


def _holds(loose: Loose, role: Role) -> bool:
    sizes = [(role.width, role.height)]
    if role.turnable:
        sizes.append((role.height, role.width))
    return any(w <= loose.width and h <= loose.height for w, h in sizes)


def _made(plan: Plan, state: State) -> set[str]:
    """What exists, by the plan: sheets, and what steps that are done have made."""
    made = set(plan.sheets)
    for step in plan.steps:
        if state.done.get(step.id):
            made.update(step.makes)
    return made


def graduation(unit: Unit, roles: Iterable[Role]) -> Fraction:
    """The coarsest graduation of a ruler on which all sizes are.

    Args:
        unit: The kit's unit.
        roles: What is wanted.
    """
    sizes = {side for role in roles for side in (role.width, role.height)}
    for each in _FINER[unit]:
        if all((size / each).denominator == 1 for size in sizes):
            return each
    finest = Fraction(1)
    for size in sizes:
        finest = Fraction(1, max(finest.denominator, size.denominator))
    return finest if all((size / finest).denominator == 1 for size in sizes) else _FINER[unit][-1]
