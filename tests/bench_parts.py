"""The parts of the benchmark that watch dryfit from outside, in a terminal.

All times are medians; what is compared is run by turns, so that whatever else the machine is
doing falls on both alike. No goal is a test: the figures are for people.
"""

from __future__ import annotations

import asyncio
import os
import re
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from statistics import median
from typing import TYPE_CHECKING

from tests.bench_terminal import ROOT, Answer, Terminal

if TYPE_CHECKING:
    from model.session import Session

APPS = str(ROOT / "tests" / "bench_apps.py")
DRYFIT = ("-m", "tui.command")
TABLE = re.compile(rb"step \d+/.*quit", re.DOTALL)
"""Text of the table's first and of its last row."""
SPACE = b" "
WARM = 3  # presses that only warm up


@dataclass(frozen=True, slots=True)
class Row:
    """A line of the result.

    Attributes:
        what: What was measured.
        value: What came out, as text.
        goal: The goal, as text; empty for a mere remark.
        met: Whether it is met; None for a mere remark.
    """

    what: str
    value: str
    goal: str = ""
    met: bool | None = None


def at_most(what: str, value: float, goal: float, unit: str, note: str = "") -> Row:
    """A line for a value that should not be larger than a goal."""
    said = f"{value:.2f} {unit}{f'  ({note})' if note else ''}"
    return Row(what, said, f"<= {goal:g} {unit}", value <= goal)


@contextmanager
def home() -> Iterator[Path]:
    """An empty home folder, on the disk of the system's temporary files."""
    with tempfile.TemporaryDirectory(prefix="dryfit-bench-") as folder:
        yield Path(folder)


# 1. From the start of the process to the first painted table


def start(rounds: int) -> list[Row]:
    """Start dryfit and an empty app by turns."""
    size = (120, 40)
    rows: list[Row] = []
    # Textual goes to the last line to paint it, whatever is on it.
    last_line = re.compile(rb"\x1b\[40;1H")
    for kit in ("postcard", "harbour"):
        empty: list[float] = []
        table: list[float] = []
        settled: list[float] = []
        for _ in range(rounds + 1):  # the first only warms up
            with home() as folder:
                for command, needle, times in (
                    ((APPS, "empty"), last_line, empty),
                    ((*DRYFIT, kit), TABLE, table),
                ):
                    terminal = Terminal.start(command, size, folder)
                    times.append(terminal.until(needle))
                    if times is table:
                        settled.append(terminal.settle())
                    terminal.close()
        ours, base = median(table[1:]), median(empty[1:])
        note = f"{ours * 1000:.0f} ms to {base * 1000:.0f} ms"
        rows.append(at_most(f"start to first painted Table, {kit}", ours / base, 1.25, "x", note))
        rows.append(Row("   until nothing more is painted", f"{median(settled[1:]) * 1000:.0f} ms"))
    return rows + version(rounds)


def version(rounds: int) -> list[Row]:
    """The time of ``--version``, and what it imports."""
    code = (
        "import sys\nfrom tui.command import main\nmain(['--version'])\n"
        "print(sorted({'textual', 'rich', 'pydantic'} & set(sys.modules)), file=sys.stderr)"
    )
    times = []
    for _ in range(rounds):
        begin = time.perf_counter()
        done = subprocess.run(
            [sys.executable, "-c", code], cwd=ROOT, capture_output=True, text=True, check=True
        )
        times.append(time.perf_counter() - begin)
    heavy = done.stderr.strip()
    note = f"{median(times) * 1000:.0f} ms, imports {'neither' if heavy == '[]' else heavy}"
    return [Row("dryfit --version", note, "neither textual nor pydantic", heavy == "[]")]


# 2. From a key to the painted frame


def key(keys: int) -> list[Row]:
    """Press the one key on a large kit, on a huge one, and on the plain app, by turns."""
    from tests.big_kits import big_kit

    rows: list[Row] = []
    for size in ((120, 40), (80, 24)):
        for name in ("harbour", "10,000 pieces"):
            with home() as folder:
                kit = ROOT / "kits" / "harbour.toml"
                if name != "harbour":
                    kit = folder / "large.toml"
                    kit.write_text(big_kit(10_000), encoding="utf-8")
                session, left = at_first_cut(kit, folder, keys + WARM)
                title = f"{name}, {size[0]}x{size[1]}"
                rows += by_turns(title, session, size, folder, left - WARM)
    rows += sync_share()
    return rows


def at_first_cut(kit: Path, folder: Path, most: int) -> tuple[Path, int]:
    """A session of a kit up to its first cut; how many presses are left, as far as of interest."""
    from model.reading import load_kit
    from model.session import Session

    read = load_kit(kit)
    session = Session.start(read, kit, folder / "dryfit" / "sessions")
    trial = Session.start(read, None, None)
    for each in (session, trial):
        _go_to_first_cut(each)
    left = 0
    while left < most and trial.next().taken:
        left += 1
    path = session.path
    assert path is not None
    session.close()
    return path, left


def _go_to_first_cut(session: Session) -> None:
    from model.plan import StepKind

    while (step := session.state.due().step) is None or step.kind is not StepKind.CUT:
        if not session.next().taken:
            raise RuntimeError("this kit has no cut")


def by_turns(name: str, session: Path, size: tuple[int, int], folder: Path, keys: int) -> list[Row]:
    area = _drawing_area(session, size)
    terminal = Terminal.start((*DRYFIT, str(session)), size, folder)
    plain = Terminal.start((APPS, "region", *map(str, area)), size, folder)
    try:
        terminal.until(re.compile(rb"Welcome back|Go on|step \d+/"))
        for each in (terminal, plain):
            each.settle()
            each.press(b"g")  # away with the welcome
        ours: list[Answer] = []
        base: list[Answer] = []
        busy: list[tuple[float, float]] = []
        for number in range(1, keys + WARM + 1):
            base.append(plain.press(SPACE))
            ours.append(terminal.press(SPACE))
            if number in (WARM, keys + WARM):
                busy.append((terminal.processor_time(), plain.processor_time()))
            if number > WARM and not ours[-1].size:
                raise RuntimeError(f"{name}: key {number} painted nothing")
    finally:
        terminal.close()
        plain.close()
    ours, base = ours[WARM:], base[WARM:]
    mine = median(a.seconds for a in ours) * 1000
    theirs = median(a.seconds for a in base) * 1000
    note = f"{mine:.2f} ms to {theirs:.2f} ms, {keys} keys"
    sizes = [a.size for a in ours]
    spent, spent_plain = (1000 * (b - a) / keys for a, b in zip(*busy, strict=True))
    frames = sum(a.frames for a in ours) / len(ours)
    slow = sorted(a.seconds for a in ours)[int(len(ours) * 0.95)] * 1000
    return [
        at_most(f"key to painted frame, {name}", mine / theirs, 3, "x", note),
        at_most(
            "   bytes a key, median",
            median(sizes) / 1024,
            4,
            "KB",
            f"at most {max(sizes) / 1024:.1f}; plain app {median(a.size for a in base)} bytes",
        ),
        Row(
            "   processor time a key",
            f"{spent / spent_plain:.2f} x  ({spent:.2f} ms to "
            f"{spent_plain:.2f} ms), which other programs disturb less",
        ),
        Row("   the slowest 5 % take more than", f"{slow:.1f} ms; {frames:.2f} frames a key"),
    ]


def _drawing_area(session: Path, size: tuple[int, int]) -> tuple[int, int, int, int]:
    """Where the drawing stands on a table of a size."""
    from model.session import Session
    from model.settings import Settings
    from tui.app import DryfitApp
    from tui.widgets.drawing import Drawing

    async def look() -> tuple[int, int, int, int]:
        app = DryfitApp(Settings())
        async with app.run_test(size=size) as pilot:
            app.show_session(Session.watch(session))
            await pilot.pause()
            drawing = app.screen.query_one(Drawing)
            found = drawing.picture.translate(drawing.region.offset)
            return found.x, found.y, found.width, found.height

    return asyncio.run(look())


def sync_share() -> list[Row]:
    """How long the disk takes to have an action for certain."""
    times = []
    with home() as folder, (folder / "file").open("ab", buffering=0) as file:
        for _ in range(200):
            file.write(b"x" * 120)
            begin = time.perf_counter()
            os.fsync(file.fileno())
            times.append(time.perf_counter() - begin)
    return [Row("   of which the disk's fsync takes", f"{median(times) * 1000:.2f} ms a key")]
