"""Measures what is promised of dryfit's speed and size; run by hand, on a quiet machine.

``python tests/benchmark.py`` measures everything (some minutes); ``python tests/benchmark.py key
memory`` only those parts. Nothing here fails a check: the figures are for people, and depend on
the machine. Compared are ratios within one run, by turns, and medians.

start    from the command to the first painted Table, against an empty app
key      from a key to its painted frame, on the large demo kit and on 10,000 pieces
load     loading a kit of 100 to 10,000 pieces
replay   replaying 20,000 actions, and one more action after them
widgets  mounted widgets of each screen
memory   the most memory of a whole run
kills    killed again and again, nothing acknowledged is lost
errors   2,000 runs of the large kit by a simulated crafter who errs (3 % of pieces filed wrong,
         2 % taken for a look-alike, at a filing or when taken up, of those that have one at hand;
         1 % missed, 0.5 % called a scrap; half told as they were done, half unaware): what is
         warned of, what the closing count finds, what nobody can see and why
find     5,000 queries for real pieces, misread by a graduation, sides swapped, without colour:
         how often the right one is first; and the time of a typed key on 10,000 pieces
keys     the key presses of whole runs of the large kit, faultless and with ten mistakes put
         right, with Space only and with each pocket's key; pressed in the real program, which
         ends with an error when a key does not do what it is for
plan     300 kit-sized tasks planned within 1 s each: fewest sheets proved, times, sheets and cuts
         beside the best of rectpack's edge-to-edge layouts (pip install '.[bench]')
plan10   100 pieces over 10 sheets, 12 draws, within 10 s each: sheets over the area, and memory
"""

from __future__ import annotations

import argparse
import platform
import sys
from collections.abc import Callable
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parent.parent))

from tests import bench_errors, bench_find, bench_inside, bench_keys, bench_parts, bench_plan
from tests.bench_parts import Row


def main() -> int:
    """Measure what is asked for, and print it; 0 always."""
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("parts", nargs="*", metavar="part", help="see above; all by default")
    parser.add_argument("--rounds", type=int, default=15, help="starts and loads to take (15)")
    parser.add_argument("--keys", type=int, default=300, help="key presses to take at most (300)")
    parser.add_argument("--kills", type=int, default=300, help="how often to kill (300)")
    parser.add_argument("--runs", type=int, default=2000, help="runs of who errs (2000)")
    parser.add_argument("--queries", type=int, default=5000, help="pieces asked for (5000)")
    parser.add_argument("--tasks", type=int, default=300, help="tasks to plan (300)")
    parser.add_argument("--draws", type=int, default=12, help="draws of a hundred pieces (12)")
    chosen = parser.parse_args()
    rounds = chosen.rounds
    parts: dict[str, Callable[[], list[Row]]] = {
        "start": lambda: bench_parts.start(rounds),
        "key": lambda: bench_parts.key(chosen.keys),
        "load": lambda: bench_inside.load(max(5, rounds // 2)),
        "replay": lambda: bench_inside.replay(max(3, rounds // 3)),
        "widgets": bench_inside.widgets,
        "memory": bench_inside.memory,
        "errors": lambda: bench_errors.errors(chosen.runs),
        "find": lambda: bench_find.find(chosen.queries, chosen.keys),
        "keys": bench_keys.keys,
        "plan": lambda: bench_plan.plan(chosen.tasks),
        "plan10": lambda: bench_plan.plan10(chosen.draws),
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
