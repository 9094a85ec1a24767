"""A crafter with human error rates, at a real session; seeded.

What is said and what is really done with the paper are kept apart: `Crafter.really` is where
each thing lies in truth, the session only knows what was said. Half of the errors are told as
they were done, half are made unaware: the right key is pressed, and the paper goes elsewhere.
At the end everything is counted, and what the count proposes is looked at.

A look-alike may be in hand wherever one was made before: it lies loose, or is in a pocket that
is open again. Told, it is filed or moved to where it does not belong, or laid back since the
size that is said is not its own; unaware, the two papers change places, or the wrong one is
cut up. What is cut up is gone: a count can only name the pocket's own piece as missing.
"""

from __future__ import annotations

import random
from collections import Counter

from model.colour import colour_word
from model.find import Finder
from model.language.english.words import WORDS
from model.length import Unit
from model.lengthtext import LengthStyle, write_length
from model.likeness import Likeness, LookAlikes
from model.manner import Manner
from model.moment import moment_of
from model.plan import Role, Step
from model.reading import Read
from model.recount import Count, Proposal, Recount
from model.ruler import GRADUATIONS, read_mark
from model.session import Session
from model.sought import TOLERANCE, Sought, appearance, sought_of
from model.spot import Spot
from tests.simulated_outcome import RATES, Outcome, Slip
from tests.tables import clock

TABLE = int(Spot.PILE)
BIN = int(Spot.SCRAPS)
GONE = int(Spot.TAKEN)
MANNER = Manner()


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
        self._instead: dict[str, str] = {}  # what was cut up, and the thing that it was taken for
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
                self._take_up(step)
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
                if self.really.get(item) == GONE:
                    continue  # its name is on another paper
                self.really[item] = self.session.state.where(item)

    # Filing

    def _file(self, item: str) -> None:
        state = self.session.state
        gone = self.really.get(item) == GONE  # what is in hand is taken for it
        slip, other = (None, None) if gone else self._goes_wrong(item)
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

    def _goes_wrong(self, item: str) -> tuple[Slip | None, str | None]:
        """What goes wrong at a filing, and the look-alike that is in hand instead."""
        scrap = self.plan.items[item].role is Role.SCRAP
        alike = [] if scrap else self._look_alikes(item)
        may = {
            Slip.WRONG_POCKET: len(self.plan.kit.pockets) > 1,
            Slip.LOOK_ALIKE: bool(alike),
            Slip.MISSED: not scrap,
            Slip.SCRAPPED: not scrap,
        }
        self.out.chances.update(slip for slip, can in may.items() if can)
        roll = self.chance.random()
        for slip in (slip for slip, can in may.items() if can):
            if roll < RATES[slip]:
                return slip, self.chance.choice(alike) if slip is Slip.LOOK_ALIKE else None
            roll -= RATES[slip]
        return None, None

    def _look_alikes(self, item: str) -> list[str]:
        """What of its look-alikes was made before, and lies loose or is filed elsewhere."""
        state = self.session.state
        home = state.belongs(item)
        return [
            copy
            for each in self.looks.of(item)
            for copy in each.other.copies
            if self._lies_there(copy)
            and state.belongs(copy) >= 0
            and (
                state.where(copy) == TABLE or (state.where(copy) >= 0 and state.where(copy) != home)
            )
        ]

    def _lies_there(self, item: str) -> bool:
        """Whether a thing lies where the session has it."""
        return self.really.get(item, self.session.state.where(item)) == self.session.state.where(
            item
        )

    # Taking up again

    def _take_up(self, step: Step) -> None:
        """A thing is taken up to be cut again or worked on; perhaps another one."""
        state = self.session.state
        for item in (*step.takes, *step.touches):
            here = state.where(item)
            if self.plan.items[item].role not in (Role.STRIP, Role.PIECE) or here == Spot.IN_HAND:
                continue
            near = [
                (each, copy)
                for each in self.looks.of(item)
                for copy in each.other.copies
                if state.where(copy) in {TABLE, here}
                and self._lies_there(copy)
                and copy not in step.takes
                and copy not in step.touches
            ]
            self.out.chances[Slip.TAKEN] += bool(near)
            if not near or self.chance.random() >= RATES[Slip.TAKEN]:
                continue
            likeness, other = self.chance.choice(near)
            if self.chance.random() < 0.5:
                # Whoever looks at what is said lays it back, and nothing is wrong.
                self.out.told[Slip.TAKEN] += 1
                self.out.warned[Slip.TAKEN] += self._said_apart(likeness)
                continue
            self.out.unaware[Slip.TAKEN] += 1
            self.out.spoilt += 1
            # Of a slit in another piece no pocket tells: both lie where they belong.
            if item in step.takes:
                self.really[other] = GONE
                self._instead[other] = item
                self._slipped[self._kind(other)] = Slip.TAKEN

    def _said_apart(self, likeness: Likeness) -> bool:
        """Whether what the table says now tells that a look-alike is another thing."""
        words = WORDS(self.plan, MANNER)
        moment = moment_of(self.session, MANNER)
        if words.alike(likeness) in moment.cautions:
            return True
        said = " ".join((moment.headline, moment.sentence, *moment.more))
        sides = zip(likeness.one.sides, likeness.other.sides, strict=True)
        return likeness.one.item.name in said and any(
            abs(one - other) > TOLERANCE and MANNER.length(one, unit=False) in said
            for one, other in sides
        )

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
                filed = state.where(other) >= 0
                told = session.move(other, home) if filed else session.file_into(home, other)
                self.really[other] = home
                served = not told.raised and not state.is_stray(other)
                self.out.served[slip] += served
                self.out.warned[slip] += bool(told.raised) or served
            else:
                elsewhere = state.where(other) if state.where(other) >= 0 else state.belongs(other)
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
        short = [id for id, place in self._truth().items() if place == GONE]
        self.out.short = len(short)
        self.out.unshown = self.out.spoilt - len(short)
        astray = list((Counter(self._wrong()) - Counter(map(self._kind, short))).elements())
        self.out.astray = len(astray)
        self.out.astray_by = Counter(map(self._cause, astray))
        recount = Recount(self.plan, state, self.looks)
        for pocket in range(len(self.plan.kit.pockets)):
            lines = recount.lines(pocket)
            listed = Counter(self._kind(copy) for line in lines for copy in line.copies)
            there = [id for id, place in self._truth().items() if place == pocket]
            there += [self._instead[id] for id in short if state.where(id) == pocket]
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
            self._look(recount, proposals[0], last=len(proposals) == 1 or not item)

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
            self._name_missing(proposal.item)
        else:
            recount.deny(proposal)

    def _name_missing(self, item: str) -> None:
        """What is found nowhere is said to be missing; of alike copies any may bear the name."""
        state, home = self.session.state, self.session.state.where(item)
        gone = [
            id
            for id, place in self._truth().items()
            if place == GONE and state.where(id) == home and self._kind(id) == self._kind(item)
        ]
        if not gone:
            return
        self.really[gone[0]] = self.really.get(item, home)
        self.really[item] = GONE
        self._instead[item] = self._instead.pop(gone[0])
        assert self.session.missed(item).raised
        self.out.named += 1

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
