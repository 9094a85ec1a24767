"""Figures of the session: replaying a long journal, and what one action costs.

Run by hand: ``python -m tests.bench_session``. Times are compared within one run; medians.
"""

from __future__ import annotations

import random
import statistics
import tempfile
import time
import tomllib
import tracemalloc
from collections.abc import Callable, Sequence
from datetime import UTC, datetime, timedelta
from pathlib import Path

from model.folders import demo_folder
from model.journal import Record, read_journal
from model.plan import Plan
from model.reading import Read, load_kit, read_kit
from model.session import Session
from model.shelf import sessions_in
from model.state import State
from tests.big_kits import big_kit
from tests.muddle import QuickDisk, muddle


def ticking(start: datetime) -> Callable[[], datetime]:
    """A clock that goes on by four seconds at each look."""
    at = [start]

    def look() -> datetime:
        at[0] += timedelta(seconds=4)
        return at[0]

    return look


def long_session(kit: Read, folder: Path, records: int, seed: int = 1) -> Path:
    """A session of about so many records, as a crafter who errs now and then makes it.

    When all is done it is taken back, twenty presses at a time, and gone on with.

    Args:
        kit: The kit.
        folder: Where to.
        records: How many.
        seed: Decides what goes wrong.
    """
    rng = random.Random(seed)
    clock = ticking(datetime(2026, 1, 2, 10, tzinfo=UTC))
    session = Session.start(kit, None, folder, clock, disk=QuickDisk())
    path = session.path
    assert path is not None
    while session.said < records:
        if session.state.due().over:
            for _ in range(20):
                session.undo()
        muddle(session, rng, least=6)
    session.close()
    return path


def median(action: Callable[[], object], times: int = 5) -> float:
    """The median time of an action, in seconds."""
    spent = []
    for _ in range(times):
        start = time.perf_counter()
        action()
        spent.append(time.perf_counter() - start)
    return statistics.median(spent)


def taken_in(plan: Plan, records: Sequence[Record]) -> State:
    """Decode and fold, as a session does when it is resumed."""
    session = Session(plan, {}, None)
    session._take_in(records)
    return session.state


def replay(name: str, kit: Read, records: int) -> None:
    """Print how long a replay takes against parsing alone."""
    assert kit.plan is not None
    plan = kit.plan
    with tempfile.TemporaryDirectory() as folder:
        path = long_session(kit, Path(folder), records)
        text = path.read_text(encoding="utf-8")
        reading = read_journal(path)
        parse = median(lambda: tomllib.loads(text))
        read = median(lambda: read_journal(path))
        folded = median(lambda: taken_in(plan, reading.records))
        whole = median(lambda: Session.resume(path, disk=QuickDisk()).close())
        shelf = median(lambda: sessions_in(Path(folder)))
        count = len(reading.records)
        tracemalloc.start()
        state = taken_in(plan, reading.records)
        memory, _ = tracemalloc.get_traced_memory()
        tracemalloc.stop()
        assert not state.ignored
    print(
        f"{name}: {count} records, tomllib alone {parse:.3f} s; read_journal {read / parse:.2f} x, "
        f"decode and fold {folded / parse:.2f} x, Session.resume in all {whole / parse:.2f} x, "
        f"shelf glance {shelf * 1000:.1f} ms; state {memory / 2**20:.1f} MiB"
    )


def action_cost(name: str, kit: Read, far: int) -> None:
    """Print what one action costs at the beginning and far on."""
    with tempfile.TemporaryDirectory() as folder:
        rng = random.Random(2)
        session = Session.start(kit, None, Path(folder), disk=QuickDisk())
        costs = []
        while session.said < far and not session.state.due().over:
            start = time.perf_counter()
            muddle(session, rng, least=6)
            costs.append(time.perf_counter() - start)
        session.close()
    part = max(1, len(costs) // 5)
    first, last = statistics.median(costs[:part]), statistics.median(costs[-part:])
    worst = sorted(costs)[int(len(costs) * 0.99)]
    print(
        f"{name}: {len(costs)} actions, first fifth {first * 1e6:.0f} us, last fifth "
        f"{last * 1e6:.0f} us ({last / first:.2f} x), 99th of 100 {worst * 1e6:.0f} us"
    )


def main() -> None:
    """Print all figures."""
    harbour = load_kit(demo_folder() / "harbour.toml")
    large = read_kit(big_kit(10_000))
    replay("harbour", harbour, 20_000)
    replay("10,000 pieces", large, 20_000)
    action_cost("harbour", harbour, 100_000)
    action_cost("360 pieces", read_kit(big_kit(360)), 100_000)
    action_cost("10,000 pieces", large, 100_000)


if __name__ == "__main__":
    main()
