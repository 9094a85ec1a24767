"""How a mending changes a plan: what is cut instead, and all that follows from it.

The plan is taken apart into units, one for each thing that a step is done to. Mended loads
take the place of the author's, or are put in; what works on a thing that another part is now,
works on that part; and what has nothing left to work on is dropped. All that is then worked
out by `model.compiling`, as a kit's own steps are. Nothing asks what was done already: the
same plan and mending always give the same plan.
"""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Sequence
from dataclasses import dataclass, replace

from model.compiling import compile_kit
from model.finding import Findings
from model.kit import SCRAP, Give, Kit, Source, Verb, Work
from model.plan import Phase, Plan, StepKind
from model.rescue.amended_kit import fresh, with_kinds, without
from model.rescue.mending import CannotMend, Fate, MendedLoad, Mending, Share
from model.rescue.units import LOADED, Unit, names_of_parts, things_of, units_of, with_things

__all__ = ["CannotMend", "amend"]

_SCRAP = Share(Fate.SCRAP)
_UNWAITED = -1
"""Stands before all mended loads: what waited for a thing is done as soon as that is there."""


def amend(plan: Plan, mending: Mending) -> Plan:
    """The plan as it is with a mending.

    Args:
        plan: The plan that the mending speaks of.
        mending: How the work differs.

    Returns:
        The new plan, of a kit that differs from the old one as the work does. Things that are
        cut as before keep their identities, and so do steps.

    Raises:
        CannotMend: It makes no sense on this plan.
    """
    kit = with_kinds(without(plan, mending), mending.kinds)
    _check_places(mending)
    made = _Amending(plan, mending, kit).made()
    first: dict[object, int] = {}
    for number, work in enumerate(plan.kit.work):
        first.setdefault(work.where, number)
    works = sorted((each.work for each in made), key=lambda w: first.get(w.where, len(first)))
    kit = replace(kit, work=tuple(works), scrap_sizes=())
    amended = compile_kit(kit, Findings(), phased=[(each.phase, each.work) for each in made])
    if amended is None:
        raise CannotMend("too many")
    _check_made(amended, made)
    return replace(amended, kit=replace(kit, scraps=len(amended.scraps)))


@dataclass(slots=True)
class _Made:
    """A unit of the new plan.

    Attributes:
        work: What is done.
        phase: When.
        item: What it is done to, by its identity in the new plan.
        parts: What comes of it, by identity, in the order of `things_of`.
    """

    work: Work
    phase: Phase
    item: str
    parts: tuple[str, ...] = ()


class _Amending:
    """Works out which unit is done to what, and when."""

    def __init__(self, plan: Plan, mending: Mending, kit: Kit) -> None:
        self.plan, self.mending, self.kit = plan, mending, kit
        self.units = units_of(plan)
        self.gives = {
            part: give
            for unit in self.units
            for part, give in zip(unit.parts, things_of(unit.work), strict=True)
        }
        self.out: list[_Made] = []
        self.loads = _by_thing(mending.loads)
        self.order = {load.of: number for number, load in enumerate(mending.loads)}
        self.handed = {
            share.name for load in mending.loads for share in load.shares if self._plays(share)
        }
        lost = {*mending.gone, *kit.absent, *kit.replaced}
        self.now = {id: id for id in plan.items if id not in lost and self._unmade(id)}
        self.role: dict[str, str] = {}  # what a new thing is, in the old plan
        self.mended: set[str] = set()  # what mended loads make
        self.taken: dict[str, bool] = {}  # whether by a mended load
        self.cutters = {unit.item: unit for unit in self.units if unit.takes}
        self.ahead = {*self.cutters}
        self.waiting: dict[str, list[Unit]] = defaultdict(list)
        self.ready: list[tuple[int, Unit | MendedLoad, str]] = []
        self.put_in = False
        self.twins: dict[str, int] = {}
        self.holed: dict[str, str] = {}  # scraps that were pieces when they were punched

    def _unmade(self, id: str) -> bool:
        """Whether no step of the author makes a thing: sheets, and what is packed ready made."""
        made = self.plan.made_by.get(id)
        return made is None or self.plan.steps[made].work is None

    def made(self) -> list[_Made]:
        """All units of the new plan, in order."""
        at = self._place()
        phase = Phase.TRIMMING
        for number, unit in enumerate(self.units):
            phase = unit.phase
            if number == at:
                self._put_in(phase)
            self._do(unit)
            self._go_on(phase)
        if not self.put_in:
            self._put_in(phase)
        if self.loads:
            raise CannotMend("not made", *self.loads)
        for id, mended in self.taken.items():
            packed = id in self.plan.items and self._unmade(id) and id not in self.plan.sheets
            if mended and packed and id not in self.plan.taken_by:
                raise CannotMend("ready made", id)
        self._rename()
        return self.out

    def _place(self) -> int:
        """Before which unit loads are put in; as many as there are units for the end."""
        if not self.mending.at:
            return len(self.units)
        index = self.plan.step_at.get(self.mending.at)
        if index is None:
            raise CannotMend("no such step", self.mending.at)
        # Nothing comes between the cuts of a load.
        begun = self.plan.steps[index].kind in (StepKind.CUT, StepKind.TEAR)
        first = index + 1 if begun else index
        ahead = (n for n, unit in enumerate(self.units) if unit.index >= first)
        return next(ahead, len(self.units))

    # In order

    def _put_in(self, phase: Phase) -> None:
        """The loads of things that are at hand, and that no step of the author takes."""
        self.put_in = True
        for load in self.mending.loads:
            target = self.now.get(load.of)
            if load.of in self.loads and target and not self._placed(load.of):
                self.ready.append((self.order[load.of], load, target))
        self._go_on(phase)

    def _placed(self, id: str) -> bool:
        """Whether something else says when a load comes: the author's step, or another load."""
        return id in self.ahead or id.rpartition("/")[0] in self.order

    def _plays(self, share: Share) -> bool:
        """Whether a part is what a thing of the old plan was, which was no scrap."""
        give = self.gives.get(share.name) if share.fate is Fate.ROLE else None
        return give is not None and not give.scrap

    def _do(self, unit: Unit) -> None:
        if unit.takes:
            self.ahead.discard(unit.item)
        if unit.item in self.mending.idle:
            return
        if not unit.item:
            self.out.append(_Made(unit.work, unit.phase, ""))
            return
        if not unit.takes and unit.item in self.holed:
            self._done_to(unit, self.holed[unit.item])
            unit = _bare(unit)
        target = self.now.get(unit.item)
        if target is not None:
            self._do_to(unit, target)
        elif unit.item in self.handed:
            self.waiting[unit.item].append(unit)

    def _do_to(self, unit: Unit, target: str) -> None:
        if target in self.taken:
            return
        key = target if target in self.mended else unit.item
        if unit.takes and key in self.loads:
            self._cut_instead(self.loads[key], target, unit, unit.phase)
            return
        work = replace(unit.work, of=target)
        step = self.plan.steps[unit.index]
        if target != unit.item and step.kind is StepKind.LOAD and step.before is not None:
            work = replace(work, along=step.before.along(step.lying).value)
        parts = self._come(work, target, unit.phase, unit.takes)
        for part, new in zip(unit.parts, parts, strict=True):
            if part in self.handed:
                raise CannotMend("role twice", part)
            self._is(new, part)

    def _done_to(self, unit: Unit, target: str) -> None:
        """A slit or a punch was made before its piece became a scrap."""
        parts = self._come(replace(unit.work, of=target), target, unit.phase, False)
        for part, new in zip(unit.parts, parts, strict=True):
            self._is(new, part)

    def _come(
        self, work: Work, item: str, phase: Phase, takes: bool, by: bool = False
    ) -> Sequence[str]:
        """Note a unit of the new plan."""
        if takes:
            self.taken[item] = by
        step = f"{item}/{work.verb}"
        self.twins[step] = self.twins.get(step, 0) + 1
        parts = names_of_parts(work, item, self.twins[step])
        self.out.append(_Made(work, phase, item, parts))
        return parts

    def _is(self, new: str, old: str) -> None:
        """A thing of the new plan is what one of the old plan was."""
        if old in self.now:
            raise CannotMend("role twice", old)
        self.now[old] = new
        self.role[new] = old
        self.ready += [(_UNWAITED, unit, new) for unit in self.waiting.pop(old, ())]
        if self.put_in and old in self.loads and not self._placed(old):
            self.ready.append((self.order[old], self.loads[old], new))

    def _go_on(self, phase: Phase) -> None:
        """Do what has become possible, in the order of the mending."""
        while ready := [each for each in self.ready if self._may_come(each[1])]:
            number, what, target = min(ready, key=lambda each: each[0])
            self.ready.remove((number, what, target))
            if isinstance(what, Unit):
                self._do_to(replace(what, phase=max(what.phase, phase)), target)
            elif what.of in self.loads:
                self._cut_instead(what, target, None, phase)

    def _may_come(self, what: Unit | MendedLoad) -> bool:
        """Not before its place: a sheet may lie in the trimmer there, laid and not cut yet."""
        return self.put_in or isinstance(what, Unit) or what.of in self.cutters

    # A mended load

    def _cut_instead(self, load: MendedLoad, target: str, unit: Unit | None, phase: Phase) -> None:
        del self.loads[load.of]
        if target in self.taken:
            raise CannotMend("taken twice", load.of)
        if len(load.gives) != len(load.marks) or not load.marks:
            raise CannotMend("parts", load.of)
        if any(mark.at is not None and mark.at <= 0 for mark in load.marks):
            raise CannotMend("impossible", load.of)
        was = unit.work.parts if unit and unit.work.verb in LOADED else ()
        gives = [
            was[n] if share == _SCRAP and n < len(was) and was[n].scrap else self._give(share)
            for n, share in enumerate(load.shares)
        ]
        work = self._work(load, target, unit, phase)
        work = replace(work, gives=tuple(gives[:-1]), rest=gives[-1])
        parts = self._come(work, target, phase, True, True)
        self.mended.update(parts)
        for part, share in zip(parts, load.shares, strict=True):
            if self._plays(share):
                self._is(part, share.name)
            elif share.fate is Fate.SCRAP and share.name:
                self.holed[share.name] = part
            if part in self.loads and self.role.get(part) not in self.ahead:
                self.ready.append((self.order[part], self.loads[part], part))

    def _give(self, share: Share) -> Give:
        if share.fate is Fate.ROLE:
            give = self.gives.get(share.name)
            if give is None:
                raise CannotMend("no such thing", share.name)
            return replace(give)
        name = SCRAP if share.fate is Fate.SCRAP else share.name
        if share.fate is Fate.STRIP and (not name or name in self.kit.kinds or self._sheet(name)):
            raise CannotMend("name taken", name)
        return Give(name, None, None, "", ("mending",))

    def _sheet(self, name: str) -> bool:
        return name in self.plan.sheets

    def _work(self, load: MendedLoad, target: str, unit: Unit | None, phase: Phase) -> Work:
        """A load as a step of the author, but for what comes of it and the name it takes."""
        unit = unit or self.cutters.get(load.of)
        if load.as_written:
            if unit is None or unit.work.verb not in LOADED:
                raise CannotMend("no such step", load.of)
            work = unit.work
            if (load.turn and load.turn != work.turn) or load.up not in (None, work.up):
                work = replace(work, lay=None, turn=load.turn or work.turn)
                work = replace(work, up=load.up or work.up, up_said=work.up_said or bool(load.up))
        else:
            where = unit.work.where if unit else ("mending", self.order[load.of])
            verb = Verb.KNIFE if phase >= Phase.TRIMMER_AWAY else Verb.TRIM
            if unit and unit.work.verb in (Verb.TRIM, Verb.KNIFE):
                verb = unit.work.verb
            work = Work(
                Verb.TEAR if load.torn else verb, "", up=load.up or "face", turn=load.turn % 4,
                where=where, up_said=load.up is not None,
            )  # fmt: skip
        work = replace(work, of=target)
        if work.verb is not Verb.TEAR:
            return replace(work, marks=load.marks)
        if any(mark.at is None for mark in load.marks):
            raise CannotMend("impossible", load.of)
        return replace(work, widths=tuple(mark.at for mark in load.marks if mark.at is not None))

    # What things are called in the end

    def _rename(self) -> None:
        """A scrap that is cut after all is a strip; a strip that nothing takes is a scrap."""
        used = {*self.kit.kinds, *self.plan.sheets, SCRAP}
        used |= {give.name for each in self.out for give in each.work.parts}
        names = {id: item.name for id, item in self.plan.items.items() if self._unmade(id)}
        for each in self.out:
            gives = [*things_of(each.work)]
            for at, part in enumerate(each.parts):
                give = gives[at]
                if self._is_strip_now(part, give):
                    called = fresh(part if give.scrap else f"{give.name} {part}", used)
                    gives[at] = Give(called, None, None, "", give.where)
                elif self._is_loose(each, at, give):
                    gives[at] = Give(SCRAP, None, None, "", give.where)
                names[part] = gives[at].name
            if gives != [*things_of(each.work)]:
                each.work = with_things(each.work, gives)
        for each in self.out:
            if each.item and each.work.take != names[each.item]:
                each.work = replace(each.work, take=names[each.item])

    def _is_strip_now(self, part: str, give: Give) -> bool:
        """Whether something is cut that was not to be cut."""
        if not self.taken.get(part):
            return False
        piece = give.name in self.kit.kinds
        return give.scrap or (piece and self.role.get(part) not in self.plan.taken_by)

    def _is_loose(self, each: _Made, at: int, give: Give) -> bool:
        """Whether a part has nowhere to go."""
        if each.parts[at] in self.taken or give.scrap or give.to is not None:
            return False
        if each.work.verb not in LOADED and at < len(each.parts) - 1:
            return False  # the shapes after it would be called otherwise
        kind = self.kit.kinds.get(give.name)
        return kind is None or (kind.source is Source.CUT and not kind.to)


def _check_places(mending: Mending) -> None:
    """Each copy of a kind that is added has a place."""
    made = Counter(
        share.name for load in mending.loads for share in load.shares if share.fate is Fate.MADE
    )
    for name, copies in made.items():
        if copies > sum(kind.name == name for kind in mending.kinds):
            raise CannotMend("no such thing", name)


def _bare(unit: Unit) -> Unit:
    """The same done once more, to another piece: what came off the first time is there."""
    gives = tuple(Give(SCRAP, None, None, "", give.where) for give in unit.work.gives)
    return replace(unit, work=replace(unit.work, gives=gives), parts=())


def _by_thing(loads: Sequence[MendedLoad]) -> dict[str, MendedLoad]:
    found: dict[str, MendedLoad] = {}
    for load in loads:
        if load.of in found:
            raise CannotMend("taken twice", load.of)
        found[load.of] = load
    return found


def _check_made(plan: Plan, made: Sequence[_Made]) -> None:
    """Every unit came about as it was meant: of a cut that can't be made no number is kept."""
    for each in made:
        if each.work.verb not in LOADED:
            done = not each.item or f"{each.item}/{each.work.verb}" in plan.step_at
        else:
            load = plan.step_at.get(f"{each.item}/load")
            done = load is not None and plan.steps[load].before == plan.items[each.item].stock
        if not done or not all(part in plan.items for part in each.parts):
            raise CannotMend("impossible", each.item)
