"""Measures what is promised of dryfit's speed and size; run by hand, on a quiet machine.

``python tests/benchmark.py`` measures everything (some minutes); ``python tests/benchmark.py key
memory`` only those parts. Nothing here fails a check: the figures are for people, and depend on
the machine. Compared are ratios within one run, by turns, and medians.
"""

from __future__ import annotations

import argparse
import platform
import sys
from collections.abc import Callable
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parent.parent))

from tests import bench_inside, bench_parts
from tests.bench_parts import Row


def main() -> int:
    """Measure what is asked for, and print it; 0 always."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("parts", nargs="*", help="start, key, load, replay, widgets, memory, kills")
    parser.add_argument("--rounds", type=int, default=15, help="starts and loads to take (15)")
    parser.add_argument("--keys", type=int, default=300, help="key presses to take at most (300)")
    parser.add_argument("--kills", type=int, default=300, help="how often to kill (300)")
    chosen = parser.parse_args()
    rounds = chosen.rounds
    parts: dict[str, Callable[[], list[Row]]] = {
        "start": lambda: bench_parts.start(rounds),
        "key": lambda: bench_parts.key(chosen.keys),
        "load": lambda: bench_inside.load(max(5, rounds // 2)),
        "replay": lambda: bench_inside.replay(max(3, rounds // 3)),
        "widgets": bench_inside.widgets,
        "memory": bench_inside.memory,
        "kills": lambda: bench_inside.kills(chosen.kills),
    }
    unknown = [name for name in chosen.parts if name not in parts]
    if unknown:
        parser.error(f"no such part: {', '.join(unknown)}")
    print(f"Python {platform.python_version()}, {platform.system()} {platform.machine()}")
    for name in chosen.parts or parts:
        print(f"\n{name}", flush=True)
        for row in parts[name]():
            sign = "    " if row.met is None else "PASS" if row.met else "over"
            goal = f"   goal {row.goal}" if row.goal else ""
            print(f"  {sign} {row.what:<48} {row.value}{goal}", flush=True)
    return 0


if __name__ == "__main__":
    sys.exit(main())
