"""Players who say anything at all: the table tells the truth and every way back is open.

The players are seeded, so that one who finds something can be made a case of its own.
"""

from __future__ import annotations

import os
import random
from pathlib import Path

import pytest

from model.account import account_of
from model.manner import Manner
from model.moment import moment_of
from model.reading import read_kit
from model.session import Session
from model.shelf import sessions_in
from model.state import State
from model.story import fold
from tests.hand_kits import KITS
from tests.kits import random_kit
from tests.muddle import QuickDisk, entries_of, finish, muddle, plan_of_text
from tests.oracle import check_all

PLAYERS = int(os.environ.get("DRYFIT_RUNS", "40")) // 2


def kit_of(rng: random.Random, seed: int) -> str:
    """The demo kits and the one by hand in turn, and as many random kits."""
    return KITS[seed // 2 % len(KITS)] if seed % 2 else random_kit(rng)


def go_back_and_forth(session: Session, rng: random.Random) -> None:
    """Take back words while paper stays cut, some of them said again at once."""
    while session.state.last_word() is not None and rng.random() < 0.8:
        before = session.state.snapshot()
        assert session.undo_word().taken
        look(session)
        if rng.random() < 0.3:
            after = session.state.snapshot()
            assert session.redo().taken
            assert session.state.snapshot() == before
            assert session.undo_word().taken
            assert session.state.snapshot() == after


def look(session: Session) -> None:
    """Look at everything that can be seen; whatever is said of it has to be true."""
    assert session.state.ignored == []
    check_all(session)
    moment_of(session, Manner())


@pytest.mark.parametrize("seed", range(PLAYERS))
def test_whatever_is_said_it_is_true_and_can_be_taken_back(seed: int, tmp_path: Path) -> None:
    rng = random.Random(seed)
    text = kit_of(rng, seed)
    session = Session.start(read_kit(text), None, tmp_path, disk=QuickDisk())
    path = session.path
    assert path is not None
    least = rng.choice((10, 30, 60, 90))
    for _ in range(rng.randint(20, 160)):
        if session.state.due().over:
            break
        muddle(session, rng, least)
        look(session)
        if rng.random() < 0.05:
            go_back_and_forth(session, rng)
    again = fold(plan_of_text(text), entries_of(path))
    assert again.snapshot() == session.state.snapshot()
    assert again.mistakes == session.state.mistakes and again.ignored == []
    (seen,) = sessions_in(tmp_path)
    assert seen.done == session.state.steps_done
    assert seen.finished is session.state.due().over
    finish(session)
    look(session)
    assert account_of(session).closes
    while session.undo().taken:  # each question is answered with "not cut yet"
        pass
    fresh = State(session.plan)
    fresh.by_load = session.state.by_load
    assert session.state.snapshot() == fresh.snapshot()
    while session.redo().taken:
        pass
    assert account_of(session).closes
    session.close()
