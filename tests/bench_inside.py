"""The parts of the benchmark that need no terminal: kits, journals, widgets, kills."""

from __future__ import annotations

import asyncio
import importlib
import os
import pkgutil
import re
import subprocess
import sys
import time
import tomllib
from collections.abc import Callable
from pathlib import Path
from random import Random
from statistics import median
from typing import TypeVar

from tests.bench_parts import DRYFIT, SPACE, TABLE, Row, at_most, home
from tests.bench_terminal import ROOT, Terminal

T = TypeVar("T")

_LOAD = """
import sys, time
from model.reading import read_kit
from tests.big_kits import big_kit
read_kit(big_kit(100))  # the first one loads what reading needs
text = big_kit(int(sys.argv[1]))
begin = time.perf_counter()
read = read_kit(text)
print(time.perf_counter() - begin)
assert read.plan is not None, read.findings
"""


def load(rounds: int) -> list[Row]:
    """Load and check kits of 100 to 10,000 pieces, each in a new process, as kits are loaded."""
    times: dict[int, list[float]] = {100: [], 1000: [], 10_000: []}
    for _ in range(rounds):
        for pieces, seconds in times.items():
            command = [sys.executable, "-c", _LOAD, str(pieces)]
            done = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=True)
            seconds.append(float(done.stdout))
    per_piece = {n: median(t) / n * 1e6 for n, t in times.items()}
    said = ", ".join(f"{us:.0f} µs a piece at {n:,}" for n, us in per_piece.items())
    growth = per_piece[10_000] / per_piece[100]
    note = f"{said}; {median(times[10_000]):.2f} s in all"
    return [at_most("loading a kit, a piece at 10,000 to one at 100", growth, 1.5, "x", note)]


def replay(rounds: int) -> list[Row]:
    """Replay a journal of 20,000 actions, and say one more thing after few and after many."""
    from model.session import Session

    rows: list[Row] = []
    with home() as folder:
        long, short = (_played(folder / f"{n}.toml", n) for n in (20_000, 100))
        ours, parsing, opening = [], [], []
        for _ in range(rounds):
            parsing.append(_timed(lambda: tomllib.loads(long.read_text(encoding="utf-8")))[0])
            seconds, session = _timed(lambda: Session.resume(long))
            ours.append(seconds)
            session.close()
            assert not session.state.ignored
            seconds, session = _timed(lambda: Session.resume(short))
            opening.append(seconds)
            session.close()
        took, parsed, opened = median(ours), median(parsing), median(opening)
        note = f"{took:.2f} s to {parsed:.2f} s; a journal of 100 opens in {opened * 1000:.0f} ms"
        rows.append(at_most("replay of 20,000 actions to tomllib", took / parsed, 2, "x", note))
        one, other = Session.resume(short), Session.resume(long)
        few: list[float] = []
        many: list[float] = []
        for _ in range(300):
            for session, times in ((one, few), (other, many)):
                seconds, told = _timed(session.undo if len(times) % 2 else session.next)
                assert told.taken, told
                times.append(seconds)
        one.close()
        other.close()
    note = f"{median(many) * 1e6:.0f} µs to {median(few) * 1e6:.0f} µs, with fsync"
    ratio = median(many) / median(few)
    rows.append(at_most("one action after 20,000 to one after 100", ratio, 1.2, "x", note))
    return rows


def _timed(do: Callable[[], T]) -> tuple[float, T]:
    begin = time.perf_counter()
    done = do()
    return time.perf_counter() - begin, done


def _played(folder: Path, actions: int) -> Path:
    """The file of a session of the large demo kit in which so much was said.

    Mostly the one key, now and then a piece in the wrong pocket put right, undo and redo; at
    the end of the kit most of it is taken back, and it begins again.
    """
    from model.disk import SystemDisk
    from model.reading import load_kit
    from model.session import Session

    class Quick(SystemDisk):
        """Leaves out the wait for the disk, which is not what is measured here."""

        def sync(self, fd: int) -> None:
            pass

    kit = ROOT / "kits" / "harbour.toml"
    session = Session.start(load_kit(kit), kit, folder, disk=Quick())
    chance = Random(actions)
    pockets = range(len(session.plan.kit.pockets))
    said = 0
    while said < actions:
        if session.state.due().over:
            for _ in range(300):
                said += session.undo().taken
        choice = chance.random()
        if choice < 0.05:
            told = session.undo()
        elif choice < 0.08:
            told = session.redo()
        elif choice < 0.12 and session.state.due().item is not None:
            told = session.file_into(chance.choice(pockets))
            said += sum(session.put_right(warning).taken for warning in told.raised)
        else:
            told = session.next()
        said += told.taken
    while session.state.due().over:
        session.undo()
    session.close()
    assert session.path is not None
    return session.path


def widgets() -> list[Row]:
    """Count the mounted widgets of every screen, and say which screens were not seen."""
    counts = asyncio.run(_count())
    classes = _screens()
    rows = [
        at_most(f"mounted widgets, {name}", count, 60, "widgets") for name, count in counts.items()
    ]
    missed = sorted(classes - counts.keys())
    if missed:
        rows.append(Row("   screens not opened here", ", ".join(missed)))
    return rows


def _screens() -> set[str]:
    """The names of all screens that are shown, found in their modules."""
    from textual.screen import Screen

    import tui.screens as package

    names: dict[str, type] = {}
    for module in pkgutil.iter_modules(package.__path__, "tui.screens."):
        for each in vars(importlib.import_module(module.name)).values():
            own = isinstance(each, type) and each.__module__ == module.name
            if own and issubclass(each, Screen):
                names[each.__name__] = each
    parents = {base.__name__ for each in names.values() for base in each.__mro__[1:]}
    return names.keys() - parents


async def _count() -> dict[str, int]:
    from model.reading import load_kit
    from model.session import Session
    from model.settings import Settings
    from tui.app import DryfitApp

    counts: dict[str, int] = {}
    kit = ROOT / "kits" / "harbour.toml"
    with home() as folder:
        session = Session.start(load_kit(kit), kit, folder)
        for _ in range(60):
            session.next()
        app = DryfitApp(Settings(), None, None, folder)
        async with app.run_test(size=(160, 50)) as pilot:

            def see() -> None:
                name = type(app.screen).__name__
                many = sum(1 for _ in app.screen.walk_children())
                counts[name] = max(many, counts.get(name, 0))

            await pilot.pause()
            see()
            await pilot.press("f")
            await pilot.pause()
            see()
            await pilot.press("escape")
            app.show_session(session)
            await pilot.pause()
            see()
            keys = ("k", "a", "comma", "question_mark", "n", "slash", "f", "w", "ctrl+p")
            for key in keys:
                await pilot.press(key)
                await pilot.pause()
                see()
                for _ in range(3):
                    if type(app.screen).__name__ == "TableScreen":
                        break
                    await pilot.press("escape")
                    await pilot.pause()
        session.close()
    return counts


def memory() -> list[Row]:
    """Play the large demo kit to its end in a terminal, and look at the most memory it had."""
    with home() as folder:
        terminal = Terminal.start((*DRYFIT, "harbour"), (120, 40), folder)
        try:
            terminal.until(TABLE)
            terminal.settle()
            done = re.compile(rb"All is done|closing account")
            keys = 0
            while not done.search(terminal.output[-20_000:]) and keys < 2000:
                terminal.press(SPACE, quiet=0.005)
                keys += 1
            terminal.settle()
            terminal.press(SPACE, quiet=0.3)  # the account
            peak = terminal.peak_memory()
            ended = bool(done.search(terminal.output))
        finally:
            terminal.close()
    note = f"the whole run, {keys} keys" if ended else f"NOT ended after {keys} keys"
    return [at_most("most memory, harbour played through", peak, 80, "MiB", note)]


def kills(times: int) -> list[Row]:
    """Run the tests that kill a real process, so many times."""
    rows = []
    for name in ("test_journal_kill.py", "test_kill.py"):
        if not (ROOT / "tests" / name).is_file():
            rows.append(Row(f"kill -9, {name}", "there is no such test"))
            continue
        seconds, done = _timed(
            lambda name=name: subprocess.run(  # type: ignore[misc]
                [sys.executable, "-m", "pytest", "-q", f"tests/{name}"],
                cwd=ROOT,
                env={**os.environ, "DRYFIT_KILLS": str(times)},
                capture_output=True,
                text=True,
            )
        )
        last = done.stdout.strip().splitlines()[-1] if done.stdout.strip() else done.stderr
        rows.append(
            Row(
                f"kill -9, {times} times, {name}",
                f"{last} ({seconds:.0f} s)",
                "no acknowledged action lost",
                done.returncode == 0,
            )
        )
    return rows
