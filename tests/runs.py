"""Random runs: a crafter who does anything at all at the table, checked at every step."""

from __future__ import annotations

import random
import tempfile
from pathlib import Path

from hypothesis import strategies as st
from hypothesis.stateful import (
    RuleBasedStateMachine,
    initialize,
    invariant,
    precondition,
    rule,
)

from model.account import account_of
from model.event import (
    Done,
    Event,
    Extra,
    Filed,
    Left,
    Moved,
    Restored,
    Retracted,
    Scrapped,
    Settled,
    Skipped,
    Withdrawn,
)
from model.plan import StepKind
from model.reading import read_kit
from model.session import Session, Told
from model.state import State
from model.story import fold
from model.warning import WarningKind
from tests.hand_kits import KITS
from tests.kits import kit_texts
from tests.muddle import QuickDisk, entries_of, finish, plan_of_text
from tests.oracle import check_all


class Crafter(RuleBasedStateMachine):
    """Does anything, and looks whether the table still tells the truth."""

    session: Session

    def __init__(self) -> None:
        super().__init__()
        self.folder = tempfile.TemporaryDirectory()
        self.rng = random.Random()

    @initialize(text=st.one_of(st.sampled_from(KITS), kit_texts()), rng=st.randoms())
    def begin(self, text: str, rng: random.Random) -> None:
        self.rng = rng
        self.session = Session.start(read_kit(text), None, Path(self.folder.name), disk=QuickDisk())
        self.text = text

    # What a crafter does

    def expect(self, told: Told, before: dict[str, object]) -> None:
        """What is objected to changes nothing; what is not objected to is never ignored."""
        state = self.session.state
        assert state.ignored == []
        if not told.taken:
            assert state.snapshot() == before
        for warning in told.raised:
            assert warning.id in state.warnings
            assert warning.id not in state.left

    def do(self, name: str, *args: object) -> None:
        before = self.session.state.snapshot()
        self.expect(getattr(self.session, name)(*args), before)

    @rule(times=st.integers(1, 12))
    def next(self, times: int) -> None:
        for _ in range(times):
            over = self.session.state.due().over
            before = self.session.state.snapshot()
            told = self.session.next()
            assert told.taken is not over
            self.expect(told, before)

    @rule()
    def file_anywhere(self) -> None:
        self.do("file_into", self.rng.randrange(len(self.session.plan.kit.pockets)))

    @rule()
    def scrap(self) -> None:
        self.do("scrap")

    @rule()
    def defer(self) -> None:
        self.do("defer", self.rng.choice(self.session.plan.kit.sheets).name)

    @precondition(lambda self: self.session.state.deferred)
    @rule()
    def take_up(self) -> None:
        self.do("take_up", self.rng.choice(list(self.session.state.deferred)))

    @precondition(lambda self: self.session.state.place)
    @rule()
    def miss(self) -> None:
        self.do("missed", self.rng.choice(list(self.session.state.place)))

    @rule()
    def check(self) -> None:
        self.do("checked", self.rng.randrange(len(self.session.plan.kit.pockets)))

    @rule()
    def extra(self) -> None:
        before = self.session.state.snapshot()
        self.expect(self.session.say(Extra()), before)

    @precondition(lambda self: self.session.state.place)
    @rule(pile=st.booleans())
    def move_anything(self, pile: bool) -> None:
        item = self.rng.choice(list(self.session.state.place))
        before = self.session.state.snapshot()
        label = self.rng.choice(self.session.plan.kit.pockets).label
        event: Event = Moved(item, "" if pile else label)
        self.expect(self.session.say(event), before)

    @precondition(lambda self: self.session.state.warnings)
    @rule()
    def put_right(self) -> None:
        warning = self.rng.choice(list(self.session.state.warnings.values()))
        before = self.session.state.snapshot()
        told = self.session.put_right(warning)
        assert told.taken
        # A scrap that goes back to the scraps may remind of one too many among them.
        assert {w.kind for w in told.raised} <= {
            WarningKind.EXTRA_SCRAP,
            WarningKind.WANTED_SCRAPPED,
        }
        assert warning.id not in self.session.state.warnings
        if not self.session.state.due().over:
            after = self.session.state.snapshot()
            assert self.session.undo().taken
            assert self.session.state.snapshot() == before
            assert self.session.redo().taken
            assert self.session.state.snapshot() == after

    @precondition(lambda self: self.session.state.warnings)
    @rule()
    def answer_with_a_pocket(self) -> None:
        warning = self.rng.choice(list(self.session.state.warnings.values()))
        pocket = self.rng.randrange(len(self.session.plan.kit.pockets))
        before = self.session.state.snapshot()
        said = self.session.said
        told = self.session.answer(warning, pocket)
        assert self.session.state.ignored == []
        if not told.taken and told.n == 0 and self.session.said == said:
            assert self.session.state.snapshot() == before
        else:
            after = self.session.state.snapshot()
            self.session.undo()
            assert self.session.state.snapshot() == before
            self.session.redo()
            assert self.session.state.snapshot() == after

    @precondition(lambda self: self.session.state.warnings)
    @rule()
    def leave(self) -> None:
        self.do("leave", self.rng.choice(list(self.session.state.warnings.values())))

    @precondition(lambda self: (s := self.session.state.due().step) is not None and s.optional)
    @rule()
    def skip(self) -> None:
        self.do("skip")

    @rule(times=st.integers(1, 8))
    def undo(self, times: int) -> None:
        for _ in range(times):
            self.do("undo")

    @rule(times=st.integers(1, 8))
    def undo_words(self, times: int) -> None:
        """Paper stays cut: what was said of where things are is taken back, one by one."""
        session = self.session
        seen = [session.state.snapshot()]
        for _ in range(times):
            word = session.state.last_word()
            steps = dict(session.state.done)
            told = session.undo_word()
            assert told.taken is (word is not None)
            self.expect(told, seen[-1])
            if not told.taken:
                break
            for step in steps.keys() - session.state.done.keys():
                assert session.plan.steps[session.plan.step_at[step]].kind is StepKind.FILL
            assert session.state.done.keys() <= steps.keys()
            seen.append(session.state.snapshot())
        if self.rng.random() < 0.5:
            for before in reversed(seen[:-1]):
                assert session.redo().taken
                assert session.state.snapshot() == before

    @rule(times=st.integers(1, 8))
    def redo(self, times: int) -> None:
        for _ in range(times):
            self.do("redo")

    @rule()
    def change_pace(self) -> None:
        self.do("pace_by", not self.session.state.by_load)

    @rule(kind=st.integers(0, 9))
    def say_anything(self, kind: int) -> None:
        """Things that no key says at this moment."""
        plan, rng = self.session.plan, self.rng
        item = rng.choice(list(plan.items))
        step = rng.choice(plan.steps).id
        label = rng.choice([*(p.label for p in plan.kit.pockets), "nowhere"])
        warning = rng.choice([*self.session.state.warnings, "none"])
        number = rng.randint(0, 40)
        event: Event = (
            Done(step),
            Done(step, label),
            Filed(item, label),
            Scrapped(item),
            Left(warning),
            Settled(warning),
            Skipped(step),
            Retracted(number),
            Restored(number),
            Withdrawn(number),
        )[kind]
        before = self.session.state.snapshot()
        objection = self.session.state.objection(event)
        told = self.session.say(event)
        assert told.objection == objection
        self.expect(told, before)

    @rule()
    def come_back_later(self) -> None:
        before, mistakes = self.session.state.snapshot(), list(self.session.state.mistakes)
        path = self.session.path
        assert path is not None
        assert self.session.close() == ""
        self.session = Session.resume(path, disk=QuickDisk())
        assert self.session.troubles == ()
        assert self.session.state.snapshot() == before
        assert self.session.state.mistakes == mistakes

    # What is always true

    @invariant()
    def holds_together(self) -> None:
        if hasattr(self, "session"):
            check_all(self.session)

    def teardown(self) -> None:
        if not hasattr(self, "session"):
            self.folder.cleanup()
            return
        session, path = self.session, self.session.path
        assert path is not None
        before = session.state.snapshot()
        told_again = fold(plan_of_text(self.text), entries_of(path))
        assert told_again.snapshot() == before
        assert told_again.ignored == []
        finish(session)
        check_all(session)
        assert account_of(session).closes
        while session.undo().taken:
            pass
        fresh = State(session.plan)
        fresh.by_load = session.state.by_load
        assert session.state.snapshot() == fresh.snapshot()
        while session.redo().taken:
            pass
        assert session.state.last_taken_back == 0
        session.close()
        self.folder.cleanup()
