"""Planned cuts woven into the loads of a session: parts get the identities of things.

A planned load speaks of parts by number, as if every part lay upright. Here each becomes a load
of a thing that is there, goes on with a load that is begun, or is of something that one of these
makes. Paper that is not on the graduation is first cut to it.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction
from math import floor

from model.planning.task import Board, CutPlan, PlannedLoad, Task, Want
from model.rescue.bench import Bench, Level
from model.rescue.loose import SCRAPPED, LoadNow, Loose, Role, played
from model.rescue.mending import Fate, MendedLoad, Mending, Share, at_marks

Key = tuple[str, Fraction, Fraction, bool]


@dataclass(frozen=True, slots=True)
class Asked:
    """A level as a task, and what its names stand for.

    Attributes:
        task: The task.
        roles: What is wanted, by the name in the task.
        boards: What may be cut, by the name in the task.
        stuck: What is wanted and can't be planned.
    """

    task: Task
    roles: dict[str, list[Role]]
    boards: dict[str, Loose]
    stuck: tuple[Role, ...]


def asked(level: Level, graduation: Fraction) -> Asked:
    """A level as a task for the planner.

    Args:
        level: What may be used, and what is wanted of it.
        graduation: Marks are whole numbers of these, in mm.
    """
    boards = {
        loose.id: loose
        for loose in level.loose
        if min(_down(loose, graduation)) > 0 and not loose.torn and not loose.spoilt.name
    }
    sizes = {(loose.paper, *_down(loose, graduation)) for loose in boards.values()}
    alike: dict[Key, list[Role]] = defaultdict(list)
    stuck: list[Role] = []
    for role in level.roles:
        on_marks = all((side / graduation).denominator == 1 for side in (role.width, role.height))
        if role.stuck or not on_marks or not _fits_one(role, sizes):
            stuck.append(role)
        else:
            alike[role.paper, role.width, role.height, role.turnable].append(role)
    names = {f"w{n}": roles for n, roles in enumerate(alike.values())}
    wants = tuple(
        Want(name, *key[1:3], len(roles), key[0], key[3], 1)
        for (name, roles), key in zip(names.items(), alike, strict=True)
    )
    papers = {want.paper for want in wants}
    listed = tuple(
        Board(id, *_down(loose, graduation), paper=loose.paper, left_over=not loose.whole)
        for id, loose in boards.items()
        if loose.paper in papers
    )
    return Asked(Task(wants, listed, graduation), names, boards, tuple(stuck))


def _down(loose: Loose, graduation: Fraction) -> tuple[Fraction, Fraction]:
    width, height = (floor(x / graduation) * graduation for x in (loose.width, loose.height))
    return width, height


def _fits_one(role: Role, sizes: Iterable[tuple[str, Fraction, Fraction]]) -> bool:
    return any(
        paper == role.paper
        and (
            (role.width <= width and role.height <= height)
            or (role.turnable and role.height <= width and role.width <= height)
        )
        for paper, width, height in sizes
    )


@dataclass(slots=True)
class _Weaver:
    bench: Bench
    level: Level
    question: Asked
    plan: CutPlan
    loads: dict[str, LoadNow] = field(default_factory=dict)
    new: list[MendedLoad] = field(default_factory=list)
    used: set[str] = field(default_factory=set)
    idle: list[str] = field(default_factory=list)
    unloaded: list[str] = field(default_factory=list)
    at: dict[int, str] = field(default_factory=dict)
    """The identity of a part of the plan."""
    named: set[str] = field(default_factory=set)
    roles: dict[str, list[Role]] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self.roles = {name: list(roles) for name, roles in self.question.roles.items()}
        self.loads = dict(self.bench.loads)

    def weave(self) -> None:
        for thing, role in self.level.plays:
            self.give(thing, played(role))
            self.used.add(thing)
        taken = {load.takes for load in self.plan.loads}
        for number, name in self.plan.sheets:
            loose = self.question.boards[name]
            self.used.add(name)
            part = self.plan.parts[number]
            if number not in taken:
                # It is wanted as it is, or would be once it is cut to the graduation.
                self.square(loose, part.width, part.height, self.share(part.want))
        boards = {number: self.question.boards[name] for number, name in self.plan.sheets}
        for load in self.plan.loads:
            if load.takes in boards:
                self.first(load, boards[load.takes])
            else:
                self.put(load, self.at[load.takes], int(load.turned))
        for loose in self.level.loose:
            if loose.id not in self.used:
                self.leave(loose)

    # Shares

    def share(self, want: str) -> Share:
        role = self.roles[want].pop(0)
        return Share(Fate.MADE, role.id[1:]) if role.id.startswith("+") else played(role.id)

    def strip(self, loose: Loose | None = None) -> Share:
        """A name for what is cut again: of a thing that is there, or of a part of a new load."""
        called = self.bench.called
        if loose is not None and loose.name and not loose.scrap and loose.wrong:
            return self._free(called.spare.format(loose.name), first=True)
        return self._free(called.scrap if loose is not None and loose.scrap else called.strip)

    def _free(self, name: str, first: bool = False) -> Share:
        number = 1
        free = name if first else f"{name} 1"
        while free in self.bench.names or free in self.named:
            number += 1
            free = f"{name} {number}"
        self.named.add(free)
        return Share(Fate.STRIP, free)

    def give(self, thing: str, share: Share) -> None:
        """What becomes of a part of a load that is cut."""
        parent, _, number = thing.rpartition("/")
        if parent and self.loads[parent].part(number) != share:
            self.loads[parent] = self.loads[parent].sharing(number, share)

    def end(self, loose: Loose, share: Share | None = None) -> str:
        """A thing is taken up by itself, out of the trimmer if it is in there.

        Args:
            loose: The thing.
            share: What becomes of it; None where it is cut.

        Returns:
            Its identity from then on.
        """
        of = loose.id
        if not loose.begun or not self.loads[of].marks:
            if loose.begun:  # laid in, and not cut yet
                del self.loads[of]
                self.unloaded.append(of)
            self.give(of, share or self.kept(loose))
            return of
        rest = share or self.strip()
        self.loads[of] = replace(self.loads[of], rest=rest, left=(), left_shares=(), changed=True)
        return f"{of}/r"

    # The first load of a thing that is there

    def first(self, load: PlannedLoad, loose: Loose) -> None:
        part = self.plan.parts[load.takes]
        turn = int(load.turned != loose.sideways)
        # What lies along the ruler in this load.
        along, across = loose.width, loose.height
        planned, other = part.width, part.height
        if load.turned:
            along, across, planned, other = across, along, other, planned
        off = load.gives and self.plan.parts[load.gives[0]].scrap
        square_along = along != planned and not off
        if loose.begun and not turn and across == other:
            self.go_on(load, loose, planned if square_along else None)
            return
        of = self.end(loose)
        if of == loose.id:
            turn = int(load.turned != loose.off)
        if across != other:
            # First across, so that the load itself can follow.
            self.new.append(self.cut(of, int(not turn), (other,), (SCRAPPED,), self.strip()))
            of, turn = f"{of}/r", 1
        if square_along:
            self.put(load, of, turn, planned)
        else:
            self.put(load, of, turn)

    def kept(self, loose: Loose) -> Share:
        """What a thing is called that is cut: a strip of the plan keeps its name."""
        parent, _, number = loose.id.rpartition("/")
        share = self.bench.loads[parent].part(number) if parent else SCRAPPED
        own = share == played(loose.id) and not loose.wrong
        return share if share is not None and (own or not parent) else self.strip(loose)

    def square(self, loose: Loose, width: Fraction, height: Fraction, share: Share) -> None:
        """Cut a thing down to what is planned of it, where that is the whole of it."""
        cuts = [(False, width)] * (loose.width != width) + [(True, height)] * (
            loose.height != height
        )
        of = self.end(loose, None if cuts else share)
        sideways = loose.off if of == loose.id else loose.sideways
        for n, (high, mark) in enumerate(cuts, 1):
            rest = share if n == len(cuts) else self.strip()
            self.new.append(self.cut(of, int(high != sideways), (mark,), (SCRAPPED,), rest))
            of, sideways = f"{of}/r", high

    def go_on(self, load: PlannedLoad, loose: Loose, first: Fraction | None) -> None:
        """Go on with a load that is begun."""
        now = self.loads[loose.id]
        marks = load.marks if first is None else (first, *load.marks)
        gives = [] if first is None else [SCRAPPED]
        for part in load.gives:
            gives.append(self.fate(part))
            number = len(now.gives) + len(gives)
            self.at[part] = f"{loose.id}/{number}"
        rest = self.fate(load.rest)
        self.at[load.rest] = f"{loose.id}/r"
        self.loads[loose.id] = replace(
            now,
            marks=(*now.marks, *at_marks(marks)),
            gives=(*now.gives, *gives),
            rest=rest,
            left=(),
            left_shares=(),
            changed=True,
        )

    def put(self, load: PlannedLoad, of: str, turn: int, first: Fraction | None = None) -> None:
        """A load of its own."""
        gives = [] if first is None else [SCRAPPED]
        marks = load.marks if first is None else (first, *load.marks)
        for part in load.gives:
            gives.append(self.fate(part))
            self.at[part] = f"{of}/{len(gives)}"
        rest = self.fate(load.rest)
        self.at[load.rest] = f"{of}/r"
        self.new.append(self.cut(of, turn, marks, gives, rest))

    def fate(self, number: int) -> Share:
        part = self.plan.parts[number]
        if part.want:
            return self.share(part.want)
        return SCRAPPED if part.scrap else self.strip()

    def cut(
        self, of: str, turn: int, marks: Sequence[Fraction], gives: Iterable[Share], rest: Share
    ) -> MendedLoad:
        return MendedLoad(of, at_marks(marks), tuple(gives), rest, turn)

    # What is not used

    def leave(self, loose: Loose) -> None:
        if self.end(loose, loose.spoilt) in self.bench.sheets:
            self.idle.append(loose.id)


@dataclass(frozen=True, slots=True)
class Woven:
    """A way as a mending.

    Attributes:
        mending: What is cut instead.
        missing: What stays lost, by its identity in the plan.
        taken: Things that are cut again or thrown away, wherever they lie.
    """

    mending: Mending
    missing: tuple[str, ...]
    taken: tuple[str, ...] = ()


def woven(bench: Bench, level: Level, question: Asked, plan: CutPlan) -> Woven:
    """A planned way as a mending of the session.

    Args:
        bench: What is at hand.
        level: What this way uses.
        question: The level as a task.
        plan: The planner's answer.
    """
    weaver = _Weaver(bench, level, question, plan)
    weaver.weave()
    changed = [now for now in weaver.loads.values() if now.changed]
    changed.sort(key=lambda now: now.of.count("/"))
    loads = tuple(now.whole() for now in changed)
    left = {role.id for roles in weaver.roles.values() for role in roles}
    missing = (*(role.id for role in question.stuck), *sorted(left))
    mending = replace(
        bench.so,
        loads=(*loads, *weaver.new),
        idle=tuple(weaver.idle),
        unloaded=tuple(weaver.unloaded),
        kinds=level.kinds,
        small=(*level.small, *_small_parts(level, (*loads, *weaver.new))),
    )
    boards = tuple(weaver.question.boards[name].id for _, name in plan.sheets)
    return Woven(mending, missing, boards)


def _small_parts(level: Level, loads: Iterable[MendedLoad]) -> Iterator[str]:
    """Parts that are smaller than stated."""
    small = {played(role.id) for role in level.roles if role.small}
    for load in loads:
        for number, share in enumerate(load.shares, 1):
            if share in small:
                yield f"{load.of}/{'r' if share is load.rest else number}"


def as_it_is(bench: Bench) -> Woven:
    """The truth alone: nothing new is cut, and what does not fit is thrown away."""
    changed = sorted(
        (now for now in bench.loads.values() if now.changed), key=lambda now: now.of.count("/")
    )
    mending = replace(bench.so, loads=tuple(now.whole() for now in changed))
    return Woven(mending, tuple(role.id for role in bench.wanted))
