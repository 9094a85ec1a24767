"""Whatever a crafter does, in whatever order, the table tells the truth."""

from __future__ import annotations

import os

from hypothesis import HealthCheck, Phase, settings

from tests.runs import Crafter

TestAnythingAtAll = Crafter.TestCase
TestAnythingAtAll.settings = settings(
    max_examples=int(os.environ.get("DRYFIT_RUNS", "40")),
    stateful_step_count=40,
    deadline=None,
    phases=(Phase.explicit, Phase.reuse, Phase.generate),
    suppress_health_check=list(HealthCheck),
)
