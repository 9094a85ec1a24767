"""A real run in a process of its own is killed at random moments; nothing acknowledged is lost.

DRYFIT_KILLS sets how many times (24; the benchmark uses 300).
"""

from __future__ import annotations

import os
import random
import signal
import subprocess
import sys
import threading
from pathlib import Path

import pytest

from model.folders import demo_folder
from model.session import Session
from model.shelf import sessions_in
from model.story import fold
from tests.crafter import digest_of, said
from tests.muddle import entries_of, plan_of_text
from tests.oracle import check_all

KILLS = int(os.environ.get("DRYFIT_KILLS", "24"))
ROOT = Path(__file__).resolve().parent.parent
A_SESSION = 24
"""So many times the same session is gone on with, then a new one is begun."""
AT_ONCE = 6
"""One in so many times the crafter is killed at any moment from the program's start on."""


@pytest.mark.skipif(sys.platform == "win32", reason="Windows has no SIGKILL; not tried there")
def test_no_acknowledged_action_is_lost(tmp_path: Path) -> None:
    chance = random.Random()
    plan = plan_of_text((demo_folder() / "harbour.toml").read_text("utf-8"))
    acknowledged: dict[int, str] = {}
    going = busy = 0
    folder = tmp_path
    for kill in range(KILLS):
        if kill % A_SESSION == 0:
            folder = tmp_path / f"from {kill}"
            folder.mkdir()
            acknowledged = {}
        lines = killed(folder, kill, chance)
        told = [line.split(" ", 1) for line in lines if line[:1].isdigit()]
        acknowledged.update({int(n): text for n, text in told})
        going += bool(lines)
        busy += bool(told)
        files = list(folder.glob("[!.]*.toml"))
        if not files:
            assert not acknowledged
            continue
        (path,) = files
        entries = entries_of(path)
        kept = dict(said(entry).split(" ", 1) for entry in entries)
        missing = {n: text for n, text in acknowledged.items() if kept.get(str(n)) != text}
        assert missing == {}, f"kill {kill}: acknowledged actions are missing"
        if lines:
            # The crafter had found what was kept of the time before.
            _, digest, number = lines[0].split()
            before = [entry for entry in entries if entry.n <= int(number)]
            assert digest == digest_of(fold(plan, before))
    assert going >= KILLS * 2 // 3, "too few of the killed had got going for this to say anything"
    assert busy >= KILLS // 3, "too few of the killed had done something"
    session = Session.resume(path)
    assert {trouble.kind for trouble in session.troubles} <= {"torn"}
    assert session.state.ignored == []
    check_all(session)
    (seen,) = sessions_in(folder)
    assert seen.done == session.state.steps_done
    session.close()


def killed(folder: Path, kill: int, chance: random.Random) -> list[str]:
    """Let a crafter work for a moment, and kill them; what they printed, line by line."""
    child = subprocess.Popen(
        [sys.executable, "-m", "tests.crafter", str(folder), str(kill)],
        stdout=subprocess.PIPE, cwd=ROOT, text=True,
    )  # fmt: skip
    assert child.stdout is not None
    lines: list[str] = []
    if kill % AT_ONCE:
        lines.append(child.stdout.readline())
        wait = chance.uniform(0, 0.12)
    else:
        wait = chance.uniform(0.05, 0.8)
    timer = threading.Timer(wait, lambda: os.kill(child.pid, signal.SIGKILL))
    timer.start()
    lines += child.stdout.readlines()
    assert child.wait() == -signal.SIGKILL
    timer.join()
    child.stdout.close()
    if lines and not lines[-1].endswith("\n"):
        lines.pop()  # cut off by the kill
    return [line.rstrip("\n") for line in lines]
