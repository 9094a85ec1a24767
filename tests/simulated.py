"""A crafter with human error rates, at a real session; seeded.

What is said and what is really done with the paper are kept apart: `Crafter.really` is where
each thing lies in truth, the session only knows what was said. Half of the errors are told as
they were done, half are made unaware: the right key is pressed, and the paper goes elsewhere.
At the end everything is counted, and what the count proposes is looked at.
"""

from __future__ import annotations

import random
from collections import Counter
from dataclasses import dataclass, field
from enum import StrEnum

from model.colour import colour_word
from model.find import Finder
from model.length import Unit
from model.lengthtext import LengthStyle, write_length
from model.likeness import LookAlikes
from model.plan import Role
from model.reading import Read
from model.recount import Count, Proposal, Recount
from model.ruler import GRADUATIONS, read_mark
from model.session import Session
from model.sought import Sought, appearance, sought_of
from model.spot import Spot
from tests.tables import clock

TABLE = int(Spot.PILE)
BIN = int(Spot.SCRAPS)


class Slip(StrEnum):
    """What goes wrong."""

    WRONG_POCKET = "filed wrong"
    LOOK_ALIKE = "took a look-alike"
    MISSED = "missed a piece"
    SCRAPPED = "called a piece scrap"


RATES = {
    Slip.WRONG_POCKET: 0.03,
    Slip.LOOK_ALIKE: 0.02,
    Slip.MISSED: 0.01,
    Slip.SCRAPPED: 0.005,
}
"""How often each goes wrong, of all filings."""


@dataclass(slots=True)
class Outcome:
    """What came of one run.

    Attributes:
        told: Slips that were told as they were done.
        warned: Of these, those that were warned of at once.
        served: Of those told, those with which nothing went wrong: a copy of its like was wanted.
        unaware: Slips that were made unaware.
        unseen: Of these, those after which no place lacks anything: nothing tells the things apart.
        astray: Things that lay wrong in truth when the counting began.
        found: Of these, those that lay right after it.
        astray_by: The same by what went wrong.
        lost: Those that did not.
        lost_by: The same by what went wrong.
        right_actions: Things said that were right.
        false_alarms: Warnings that were raised by them.
        notices: Look-alikes that were named at them.
        proposals: Places that were looked at while counting.
        keys: Keys of the run itself.
    """

    told: Counter[Slip] = field(default_factory=Counter)
    warned: Counter[Slip] = field(default_factory=Counter)
    served: Counter[Slip] = field(default_factory=Counter)
    unaware: Counter[Slip] = field(default_factory=Counter)
    unseen: Counter[Slip] = field(default_factory=Counter)
    astray: int = 0
    found: int = 0
    astray_by: Counter[str] = field(default_factory=Counter)
    lost: list[str] = field(default_factory=list)
    lost_by: Counter[str] = field(default_factory=Counter)
    right_actions: int = 0
    false_alarms: int = 0
    notices: int = 0
    proposals: int = 0
    keys: int = 0


class Crafter:
    """One run of a kit by somebody who errs."""

    def __init__(self, read: Read, seed: int, looks: LookAlikes, finder: Finder) -> None:
        self.chance = random.Random(seed)
        self.session = Session.start(read, None, None, clock())
        self.session.pace_by(bool(seed % 2))
        self.plan = self.session.plan
        self.looks = looks
        self.finder = finder
        self.really: dict[str, int] = {}
        self.out = Outcome()
        self._first_of: dict[object, str] = {}
        self._slipped: dict[str, Slip] = {}
        self.kinds: dict[str, Sought] = {
            id: each for each in sought_of(self.plan) for id in each.copies
        }

    def run(self) -> Outcome:
        """Work through the kit, then count everything."""
        state = self.session.state
        while not (due := state.due()).over:
            if state.warnings:
                self._put_right()
            elif due.item is not None:
                self._file(due.item)
            else:
                step = due.step
                assert step is not None
                self._right(lambda: self.session.next())
                for item in step.makes:
                    if state.where(item) >= 0:
                        self.really[item] = state.where(item)
                for item in step.takes:
                    self.really.pop(item, None)
        self._put_right()
        self._count()
        return self.out

    def _right(self, say) -> None:  # type: ignore[no-untyped-def]
        """Something that is right is said."""
        due = self.session.state.due()
        item = due.item or next(iter(due.step.takes if due.step else ()), None)
        self.out.notices += bool(item and self.looks.about(self.session.state, item))
        told = say()
        assert told.taken
        self.out.keys += 1
        self.out.right_actions += 1
        self.out.false_alarms += len(told.raised)

    def _put_right(self) -> None:
        while self.session.state.warnings:
            warning = next(iter(self.session.state.warnings.values()))
            told = self.session.put_right(warning)
            assert told.taken
            self.out.keys += 1
            for item in warning.items:
                self.really[item] = self.session.state.where(item)

    # Filing

    def _file(self, item: str) -> None:
        state = self.session.state
        roll, slip = self.chance.random(), None
        for kind, rate in RATES.items():
            if roll < rate:
                slip = kind
                break
            roll -= rate
        thing = self.plan.items[item]
        if thing.role is Role.SCRAP and slip is not Slip.WRONG_POCKET:
            slip = None
        if slip is Slip.WRONG_POCKET and len(self.plan.kit.pockets) < 2:
            slip = None
        other = None
        if slip is Slip.LOOK_ALIKE:
            other = self._look_alike(item)
            slip = slip if other else None
        if slip is None:
            self._right(lambda: self.session.file_where_it_belongs(item))
            # Whoever exchanged two things earlier takes what is left.
            self.really.setdefault(item, state.where(item))
            return
        aware = self.chance.random() < 0.5
        (self.out.told if aware else self.out.unaware)[slip] += 1
        before = 0 if aware else len(self._wrong())
        self._slip(item, slip, other, aware)
        if not aware:
            self.out.unseen[slip] += len(self._wrong()) == before
            for each in filter(None, (item, other)):
                self._slipped[self._kind(each)] = slip

    def _look_alike(self, item: str) -> str | None:
        on_pile = set(self.session.state.pile)
        alike = [
            copy
            for each in self.looks.of(item)
            for copy in each.other.copies
            if copy in on_pile and self.session.state.belongs(copy) >= 0
        ]
        return self.chance.choice(alike) if alike else None

    def _slip(self, item: str, slip: Slip, other: str | None, aware: bool) -> None:
        session, state = self.session, self.session.state
        home = state.belongs(item)
        self.out.keys += 1
        if slip is Slip.WRONG_POCKET:
            pockets = [p for p in range(len(self.plan.kit.pockets)) if p != home]
            wrong = self.chance.choice(pockets)
            if aware:
                told = session.file_into(wrong, item)
                self.really[item] = wrong
                # A copy of its like may belong there as well: then nothing went wrong.
                served = not told.raised and not state.is_stray(item)
                self.out.served[slip] += served
                self.out.warned[slip] += bool(told.raised) or served
            else:
                session.file_where_it_belongs(item)
                self.really[item] = wrong
        elif slip is Slip.LOOK_ALIKE:
            assert other is not None
            if aware:
                told = session.file_into(home, other)
                self.really[other] = home
                served = not told.raised and not state.is_stray(other)
                self.out.served[slip] += served
                self.out.warned[slip] += bool(told.raised) or served
            else:
                elsewhere = state.belongs(other)
                session.file_where_it_belongs(item)
                self.really[item], self.really[other] = elsewhere, home
        elif slip is Slip.MISSED:
            if aware:
                # It is not said to be filed, so the table goes on asking for it.
                self.out.warned[slip] += state.due().item == item
            else:
                session.file_where_it_belongs(item)
                self.really[item] = TABLE
        elif aware:
            told = session.scrap(item)
            self.really[item] = BIN
            self.out.warned[slip] += bool(told.raised)
        else:
            session.file_where_it_belongs(item)
            self.really[item] = BIN

    # The closing count

    def _wrong(self) -> list[str]:
        """What lies wrong in truth: pockets that hold another number of a kind than they want."""
        state = self.session.state
        want: Counter[tuple[str, int]] = Counter()
        have: Counter[tuple[str, int]] = Counter()
        for item, place in state.place.items():
            if place >= 0 and not self.plan.items[item].partner:
                want[self._kind(item), place] += 1
                have[self._kind(item), self.really.get(item, place)] += 1
        missing = want - have
        return [kind for (kind, _), count in missing.items() for _ in range(count)]

    def _kind(self, item: str) -> str:
        """What nothing tells apart is of one kind."""
        return self._first_of.setdefault(appearance(self.plan.items[item]), item)

    def _count(self) -> None:
        state = self.session.state
        astray = self._wrong()
        self.out.astray = len(astray)
        self.out.astray_by = Counter(map(self._cause, astray))
        recount = Recount(self.plan, state, self.looks)
        for pocket in range(len(self.plan.kit.pockets)):
            lines = recount.lines(pocket)
            listed = Counter(self._kind(copy) for line in lines for copy in line.copies)
            there = [id for id, place in self._truth().items() if place == pocket]
            inside = Counter(map(self._kind, there))
            short = listed - inside
            missing: list[str] = []
            for line in lines:
                count = short.pop(self._kind(line.item.id), 0)
                missing += line.copies[len(line.copies) - count :]
            over = inside - listed
            others: list[str] = []
            for kind in over.elements():
                found = self._identify(kind)
                if found is not None:
                    others.append(recount.seen_in(pocket, found, others))
            recount.counts[pocket] = Count(pocket, tuple(missing), tuple(others))
        self._settle(recount)
        left = self._wrong()
        self.out.lost = left
        self.out.lost_by = Counter(map(self._cause, left))
        self.out.found = self.out.astray - len(left)

    def _cause(self, kind: str) -> str:
        """What went wrong with things of a kind, as far as the crafter slipped with one."""
        return str(self._slipped.get(kind, "followed from another"))

    def _truth(self) -> dict[str, int]:
        state = self.session.state
        return {
            id: self.really.get(id, place)
            for id, place in state.place.items()
            if place >= 0 and not self.plan.items[id].partner
        }

    def _identify(self, kind: str) -> str | None:
        """What is in hand, by measuring it and looking it up."""
        item = self.plan.items[kind]
        sought = self.kinds[kind]
        unit = self.plan.kit.unit
        ruler = GRADUATIONS["1/16 in" if unit is Unit.IN else "1 mm"]
        read = [read_mark(side, ruler).shown for side in sought.sides]
        size = " x ".join(write_length(side, LengthStyle(unit)) for side in read)
        seen = [colour_word(sought.colours[0])] if sought.colours else []
        if item.kind is not None:
            seen += [item.kind.words, item.kind.picture]
        if item.stock is not None and item.stock.torn:
            seen.append("torn")
        if len(sought.sides) < 2:
            seen.append(item.name)  # a shape is known by its outline
        text = " ".join((size, *seen))
        found = self.finder.find(text, self.plan.kit.unit, self.session.state)
        return found.matches[0].copy if found.matches else None

    def _settle(self, recount: Recount) -> None:
        for _ in range(500):
            item = next((item for item, _ in recount.missing()), None)
            proposals = recount.proposals(item) if item else recount.returns()
            if not proposals:
                return
            self._look(recount, proposals[0], last=len(proposals) == 1)

    def _look(self, recount: Recount, proposal: Proposal, last: bool) -> None:
        """Look where something is proposed to be, and say what is there."""
        self.out.proposals += 1
        truth = self._truth()
        kind = self._kind(proposal.item)
        there = [id for id, place in truth.items() if place == proposal.place]
        if proposal.place == TABLE and not self.session.state.scraps:
            # Where there are no scraps to look among, it is looked for in the bin as well.
            there += [id for id, place in truth.items() if place == BIN]
        really_there = [id for id in there if self._kind(id) == kind]
        wrongly = self._over(kind, proposal.place)
        if really_there and wrongly:
            assert self.session.accept(proposal).taken
            recount.accept(proposal)
            self._exchange(really_there[-1], proposal.home)
            if proposal.other:
                other = self._kind(proposal.other)
                here = [
                    id
                    for id, place in truth.items()
                    if place == proposal.home and self._kind(id) == other
                ]
                if here:
                    self._exchange(here[-1], proposal.place)
        elif last:
            recount.give_up(proposal.item, proposal.home)
            recount.give_up(proposal.item, proposal.place)
        else:
            recount.deny(proposal)

    def _over(self, kind: str, place: int) -> bool:
        """Whether a place holds more of a kind in truth than the journal says."""
        if place in (TABLE, BIN):
            return True
        state = self.session.state
        listed = sum(state.where(id) == place for id in state.place if self._kind(id) == kind)
        return sum(p == place for id, p in self._truth().items() if self._kind(id) == kind) > listed

    def _exchange(self, item: str, place: int) -> None:
        """A thing is put somewhere; alike copies may take each other's names."""
        self.really[item] = place


def summary(outcomes: list[Outcome]) -> dict[str, float]:
    """The figures over many runs."""
    told = sum((o.told for o in outcomes), Counter())
    warned = sum((o.warned for o in outcomes), Counter())
    right = sum(o.right_actions for o in outcomes)
    astray = sum(o.astray for o in outcomes)
    return {
        "runs": len(outcomes),
        "told": sum(told.values()),
        "warned at once": sum(warned.values()) / max(1, sum(told.values())),
        "unaware": sum(sum(o.unaware.values()) for o in outcomes),
        "astray at the count": astray,
        "found by the count": sum(o.found for o in outcomes) / max(1, astray),
        "never found": sum(len(o.lost) for o in outcomes),
        "false alarms per hundred right": 100 * sum(o.false_alarms for o in outcomes) / right,
        "notices per hundred right": 100 * sum(o.notices for o in outcomes) / right,
        "places looked at per thing": sum(o.proposals for o in outcomes) / max(1, astray),
        "keys a run": sum(o.keys for o in outcomes) / len(outcomes),
    }
