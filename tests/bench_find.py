"""The part of the benchmark about Find: whether the right piece is first, and how soon."""

from __future__ import annotations

import re
import time
from pathlib import Path
from statistics import median

from tests.bench_parts import APPS, DRYFIT, TABLE, Row, home
from tests.bench_terminal import ROOT, Answer, Terminal
from tests.find_queries import queries

_KITS = {"harbour": 3, "cards": 2}
_SIZE = (120, 40)
WARM = 20
_FOUND = re.compile(rb"Find a piece")


def find(asked: int, keys: int) -> list[Row]:
    """Ask for real pieces as people misread them; then time a typed key.

    Args:
        asked: How many queries.
        keys: How many key presses to time.
    """
    rows = []
    whole = sum(_KITS.values())
    for seed, (name, share) in enumerate(_KITS.items()):
        rows.append(_ranked(name, asked * share // whole, seed))
    with home() as folder:
        kit = folder / "large.toml"
        from tests.big_kits import big_kit

        kit.write_text(big_kit(10_000), encoding="utf-8")
        rows += _finder_alone(kit, keys * 5)
        rows += _typed(kit, folder, keys)
    return rows


def _ranked(name: str, asked: int, seed: int) -> Row:
    from model.find import Finder
    from model.reading import load_kit
    from model.state import State

    plan = load_kit(ROOT / "kits" / f"{name}.toml").plan
    assert plan is not None
    finder, state = Finder(plan), State(plan)
    decidable = first = 0
    for each in queries(plan, asked, seed):
        if each.decidable:
            decidable += 1
            matches = finder.find(each.text, plan.kit.unit, state).matches
            first += bool(matches) and matches[0].sought == each.sought
    return Row(
        f"ranked first where it can be decided, {name}",
        f"{100 * first / decidable:.1f} %  ({first:,} of {decidable:,}; {asked:,} asked)",
        ">= 95 %",
        first >= 0.95 * decidable,
    )


def _texts(kit: Path, count: int) -> list[str]:
    """What is in the field after each typed key, query after query."""
    from model.reading import load_kit

    plan = load_kit(kit).plan
    assert plan is not None
    texts: list[str] = []
    for each in queries(plan, count, 5):
        texts += [each.text[:end] for end in range(1, len(each.text) + 1)]
        if len(texts) >= count:
            break
    return texts[:count]


def _p99(values: list[float]) -> float:
    return sorted(values)[int(len(values) * 0.99)]


def _finder_alone(kit: Path, keys: int) -> list[Row]:
    from model.find import Finder
    from model.reading import load_kit
    from model.state import State

    plan = load_kit(kit).plan
    assert plan is not None
    finder, state = Finder(plan), State(plan)
    times: list[float] = []
    for text in _texts(kit, keys):
        begin = time.perf_counter()
        finder.find(text, plan.kit.unit, state)
        times.append(1000 * (time.perf_counter() - begin))
    said = f"{median(times):.2f} ms median, {_p99(times):.2f} ms at 99 %, {len(times):,} keys"
    return [Row("finding alone, a typed key, 10,000 pieces", said)]


def _typed(kit: Path, folder: Path, keys: int) -> list[Row]:
    """Type into Find in a terminal, by turns with a key of the plainest app that paints rows."""
    from tests.bench_parts import at_first_cut

    session, _ = at_first_cut(kit, folder, 1)
    ours: list[Answer] = []
    base: list[Answer] = []
    busy: list[tuple[float, float]] = []
    terminal = Terminal.start((*DRYFIT, str(session)), _SIZE, folder)
    # As many rows as Find has for what it found.
    area = (0, 3, _SIZE[0], _SIZE[1] - 4)
    plain = Terminal.start((APPS, "region", *map(str, area)), _SIZE, folder)
    try:
        terminal.until(TABLE)
        for each in (terminal, plain):
            each.settle()
        terminal.press(b"f")
        if not _FOUND.search(terminal.output):
            raise RuntimeError("f does not open Find")
        last = ""
        for number, text in enumerate(_texts(kit, keys + WARM)):
            if not text.startswith(last):
                terminal.press(b"\x15")  # Ctrl+U empties the field
            last = text
            answer = terminal.press(text[-1].encode())
            if not answer.size:
                raise RuntimeError(f"Find: {text!r} painted nothing")
            frame = plain.press(b" ")
            if number >= WARM:
                ours.append(answer)
                base.append(frame)
            if number in (WARM - 1, keys + WARM - 1):
                busy.append((terminal.processor_time(), plain.processor_time()))
    finally:
        terminal.close()
        plain.close()
    mine, theirs = ([1000 * each.seconds for each in times] for times in (ours, base))
    frame = median(theirs)
    spent, plainly = (1000 * (b - a) / keys for a, b in zip(*busy, strict=True))
    frames = sum(each.frames for each in ours) / len(ours)
    return [
        Row(
            "a key typed in Find to its painted frame",
            f"{median(mine) / frame:.1f} x  ({median(mine):.1f} ms to {frame:.1f} ms, {keys} keys)",
        ),
        Row("   at 99 %", f"{_p99(mine) / frame:.1f} x  ({_p99(mine):.1f} ms)"),
        Row(
            "   processor time a key",
            f"{spent / plainly:.1f} x  ({spent:.1f} ms to {plainly:.1f} ms); "
            f"{frames:.2f} frames a key",
        ),
    ]
