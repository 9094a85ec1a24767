"""Mendings in a session: what was said is told anew, and undo takes it all back."""

from __future__ import annotations

import os
import random
import tempfile
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st
from hypothesis.stateful import rule

from model.account import account_of
from model.event import Event, Extra, Moved, Scrapped
from model.folders import demo_kit
from model.plan import Plan, Role
from model.reading import load_kit, read_kit
from model.rescue.amend import CannotMend, amend
from model.session import Session
from model.story import fold
from tests.hand_kits import KITS
from tests.kits import kit_texts
from tests.mendings import any_mending
from tests.muddle import QuickDisk, entries_of, finish, muddle, plan_of_text
from tests.oracle import check_account, check_all, check_places
from tests.runs import Crafter

slowly = settings(
    suppress_health_check=list(HealthCheck),
    deadline=None,
    max_examples=int(os.environ.get("DRYFIT_RUNS", "40")),
    phases=(Phase.explicit, Phase.reuse, Phase.generate),
)
TEXTS = st.one_of(st.sampled_from(KITS), kit_texts())


def begun(text: str, folder: Path | None) -> Session:
    return Session.start(read_kit(text), None, folder, disk=QuickDisk())


def at_of(session: Session) -> str:
    """The step that is due."""
    step = session.state.step()
    return step.id if step else ""


def loses(plan: Plan) -> bool:
    """Whether a pocket waits for something that nothing makes."""
    made: dict[str, int] = {}
    for item in plan.items.values():
        if item.role is Role.PIECE and not item.partner:
            made[item.group] = made.get(item.group, 0) + 1
    return any(made.get(key, 0) < sum(group.wanted.values()) for key, group in plan.groups.items())


def moves_of(rng: random.Random, session: Session) -> list[Event]:
    """Things put elsewhere with a mending."""
    found: list[Event] = []
    for _ in range(rng.randrange(3)):
        item = rng.choice(list(session.state.place) or ["nothing"])
        label = rng.choice(session.plan.kit.pockets).label
        found.append(rng.choice((Moved(item, ""), Moved(item, label), Scrapped(item))))
    return found


def mend(session: Session, rng: random.Random, tries: int = 6) -> int:
    """Mend something at random; the number of the answer, 0 when nothing made sense."""
    for _ in range(tries):
        mending = any_mending(rng, session.plan, at_of(session))
        if rng.random() < 0.3:
            two = rng.sample(list(session.plan.items), min(2, len(session.plan.items)))
            if len(two) == 2:
                since = rng.randint(0, session.said)
                mending = replace(mending, swapped=((two[0], two[1]),), since=since)
        before = session.state.snapshot()
        told = session.mend(mending, "mark", "", "shift", moves_of(rng, session))
        if told.taken:
            return told.n
        assert told.objection == "cannot mend"
        assert session.state.snapshot() == before
    return 0


def bungle(session: Session, rng: random.Random, since: int) -> None:
    """Say anything that undo takes back, and nothing of what was said before `since`."""
    state, pockets = session.state, len(session.plan.kit.pockets)
    doing = rng.randrange(12)
    if doing == 0 and state.last_answer > since:
        session.undo()
    elif doing == 1:
        session.redo()
    elif doing == 2 and state.place:
        session.move(rng.choice(list(state.place)), rng.randrange(pockets))
    elif doing == 3:
        session.scrap()
    elif doing == 4 and state.warnings:
        session.put_right(rng.choice(list(state.warnings.values())))
    elif doing == 5:
        session.file_into(rng.randrange(pockets))
    elif doing == 6:
        session.say(Extra())
    else:
        session.next()


def check_told_again(session: Session, text: str, path: Path) -> None:
    """The journal tells the same."""
    again = fold(plan_of_text(text), entries_of(path))
    assert again.snapshot() == session.state.snapshot()
    assert again.ignored == session.state.ignored == []
    assert again.mistakes == session.state.mistakes
    assert (again.sittings, again.foreign) == (session.state.sittings, session.state.foreign)
    assert again.plan == session.plan


class TestUndo:
    @slowly
    @given(TEXTS, st.randoms(use_true_random=False), st.integers(0, 60))
    def test_undo_takes_all_of_it_back_and_redo_says_it_again(
        self, text: str, rng: random.Random, steps: int
    ) -> None:
        with tempfile.TemporaryDirectory() as folder:
            session = begun(text, Path(folder))
            for _ in range(steps):
                muddle(session, rng, least=10)
            path, plan = session.path, session.plan
            assert path is not None
            before, mistakes = session.state.snapshot(), list(session.state.mistakes)
            n = mend(session, rng)
            if not n:
                return
            assert session.state.mistakes[: len(mistakes)] == mistakes
            check_told_again(session, text, path)
            mended, after = session.plan, session.state.snapshot()
            for _ in range(rng.randrange(25)):
                bungle(session, rng, n)
                if rng.random() < 0.1:
                    mend(session, rng, 1)
            check_told_again(session, text, path)
            session.pace_by(bool(before["by load"]))
            while session.state.last_answer >= n:
                assert session.undo().taken
            assert session.plan == plan
            assert session.state.snapshot() == before
            assert session.redo().taken
            assert session.plan == mended
            assert session.state.snapshot() == after
            while session.redo().taken:
                pass
            check_told_again(session, text, path)

    @slowly
    @given(TEXTS, st.randoms(use_true_random=False))
    def test_several_one_upon_the_other(self, text: str, rng: random.Random) -> None:
        with tempfile.TemporaryDirectory() as folder:
            session = begun(text, Path(folder))
            seen = [(session.plan, session.state.snapshot(), 0)]
            for _ in range(4):
                for _ in range(rng.randrange(12)):
                    session.next()
                before = session.plan, session.state.snapshot()
                n = mend(session, rng)
                if n:
                    seen.append((*before, n))
            for plan, state, n in reversed(seen[1:]):
                while session.state.last_answer >= n:
                    session.undo()
                assert session.plan == plan
                assert session.state.snapshot() == state
            assert session.path is not None
            check_told_again(session, text, session.path)


class TestWholeRuns:
    @slowly
    @given(TEXTS, st.randoms(use_true_random=False), st.integers(0, 60))
    def test_the_account_closes_when_all_pieces_came(
        self, text: str, rng: random.Random, steps: int
    ) -> None:
        session = begun(text, None)
        for _ in range(steps):
            session.next()
        mend(session, rng)
        check_places(session.state)
        if not loses(session.plan):
            check_all(session)
        finish(session)
        check_places(session.state)
        account = account_of(session)
        assert all(sheet.closes for sheet in account.sheets)
        if not loses(session.plan):
            check_account(session)
            assert account.closes
        else:
            assert not account.closes

    @pytest.mark.parametrize("name", ["postcard", "cards", "harbour"])
    def test_demo_kits_at_every_step(self, name: str) -> None:
        """A sheet is cut a little beside its mark, at each moment of a run."""
        kit = load_kit(demo_kit(name))
        rng = random.Random(name)
        session = Session.start(kit, None, None)
        mended = 0
        while not session.state.due().over:
            session.next()
            if rng.random() < 0.7:
                continue
            plan, before = session.plan, session.state.snapshot()
            if mend(session, rng, 1):
                mended += 1
                check_places(session.state)
                if not loses(session.plan):
                    check_all(session)
                session.next()
                session.undo()
                while session.state.mendings:
                    session.undo()
                assert session.plan == plan
                assert session.state.snapshot() == before
        assert mended > 5
        assert account_of(session).closes


class Mender(Crafter):
    """Does anything, and mends what it says went wrong."""

    @rule()
    def mend(self) -> None:
        """As long as nothing is lost the table has to be as right as ever."""
        before = self.session.state.snapshot()
        mending = any_mending(self.rng, self.session.plan, at_of(self.session))
        try:
            if loses(amend(self.session.plan, mending)):
                return
        except CannotMend:
            pass
        moves = moves_of(self.rng, self.session)
        told = self.session.mend(mending, "mark", "", "shift", moves)
        self.expect(told, before)
        if told.taken:
            after = self.session.state.snapshot()
            assert self.session.undo().taken
            assert self.session.state.snapshot() == before
            assert self.session.redo().taken
            assert self.session.state.snapshot() == after


TestAnythingAtAllMended = Mender.TestCase
TestAnythingAtAllMended.settings = settings(
    max_examples=int(os.environ.get("DRYFIT_RUNS", "40")),
    stateful_step_count=40,
    deadline=None,
    phases=(Phase.explicit, Phase.reuse, Phase.generate),
    suppress_health_check=list(HealthCheck),
)
