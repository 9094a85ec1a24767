"""Whatever a crafter does, in whatever order, the table tells the truth."""

from __future__ import annotations

import os
import random
from pathlib import Path

import pytest
from hypothesis import HealthCheck, Phase, settings

from model.account import account_of
from model.reading import read_kit
from model.session import Session
from tests.hand_kits import KITS
from tests.muddle import QuickDisk, finish, muddle
from tests.oracle import check_all
from tests.runs import Crafter

TestAnythingAtAll = Crafter.TestCase
TestAnythingAtAll.settings = settings(
    max_examples=int(os.environ.get("DRYFIT_RUNS", "40")),
    stateful_step_count=40,
    deadline=None,
    phases=(Phase.explicit, Phase.reuse, Phase.generate),
    suppress_health_check=list(HealthCheck),
)


@pytest.mark.parametrize("number", range(len(KITS)))
@pytest.mark.parametrize("seed", range(int(os.environ.get("DRYFIT_RUNS", "40")) // 20))
def test_a_muddled_run_is_brought_to_its_end(number: int, seed: int, tmp_path: Path) -> None:
    """However a run went, putting right what is warned of closes the account."""
    rng = random.Random(seed)
    session = Session.start(read_kit(KITS[number]), None, tmp_path, disk=QuickDisk())
    while not session.state.due().over:
        muddle(session, rng, least=rng.choice((5, 30)))
        check_all(session)
    finish(session)
    check_all(session)
    assert account_of(session).closes
    session.close()
