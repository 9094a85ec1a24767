"""A real process is killed at random moments; nothing that it acknowledged may be missing.

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

import model.journal
from model.journal import Journal, Record, read_journal

ROOT = Path(model.journal.__file__).parent.parent
KILLS = int(os.environ.get("DRYFIT_KILLS", "24"))
PER_FILE = 6  # kills until a new file is begun, so that beginning one is hit too


def record(number: int) -> Record:
    """The record of this number, known on both sides; now and then one that takes long to write."""
    size = 8_000 if number % 50 == 0 else number * 37 % 90
    return {"what": "cut", "number": number, "note": "½ in" * size, "marks": ["8", "4"]}


def work(path: Path) -> None:
    """What the child does: go on with the session for ever, and acknowledge each record."""
    if path.exists():
        journal, reading = Journal.resume(path)
        number = len(reading.records)
    else:
        journal, number = Journal.create(path, {"title": "Two kites"}), 0
    print("ready", flush=True)
    while True:
        number += 1
        if journal.append(record(number)) is None:
            print(number, flush=True)


@pytest.mark.skipif(sys.platform == "win32", reason="Windows has no SIGKILL; not tried there")
def test_no_acknowledged_record_is_lost(tmp_path: Path) -> None:
    chance = random.Random()
    acknowledged: dict[Path, int] = {}
    begun = busy = 0
    for kill in range(KILLS):
        path = tmp_path / f"session {kill // PER_FILE}.toml"
        child = subprocess.Popen(
            [sys.executable, __file__, str(path)],
            stdout=subprocess.PIPE,
            env={**os.environ, "PYTHONPATH": str(ROOT)},
        )
        assert child.stdout is not None
        lines: list[bytes] = []
        if kill % PER_FILE:
            # After it has got going; otherwise at any moment from its start.
            lines.append(child.stdout.readline())
            wait = chance.uniform(0, 0.08)
        else:
            wait = chance.uniform(0.05, 0.4)
        timer = threading.Timer(wait, lambda pid=child.pid: os.kill(pid, signal.SIGKILL))
        timer.start()
        lines += child.stdout.read().splitlines()
        assert child.wait() == -signal.SIGKILL
        timer.join()
        child.stdout.close()
        numbers = [int(line) for line in lines if line.strip().isdigit()]
        acknowledged[path] = max([acknowledged.get(path, 0), *numbers])
        begun += b"ready" in {line.strip() for line in lines}
        busy += bool(numbers)
        if not path.exists():
            assert acknowledged[path] == 0
            continue
        reading = read_journal(path)
        kept = len(reading.records)
        assert kept >= acknowledged[path], f"kill {kill}: acknowledged records are missing"
        assert list(reading.records) == [record(number) for number in range(1, kept + 1)]
        assert {trouble.kind for trouble in reading.troubles} <= {"torn"}
    assert begun >= KILLS * 2 // 3, "too few of the killed had got going for this to say anything"
    assert busy >= KILLS // 3, "too few of the killed had saved something"


if __name__ == "__main__":
    work(Path(sys.argv[1]))
