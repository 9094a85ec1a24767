"""`dryfit plan`: from a wanted list or a kit to loads for the trimmer."""

from __future__ import annotations

import argparse
import json
import shutil
import sys
from collections.abc import Callable
from fractions import Fraction
from pathlib import Path
from time import monotonic
from typing import TYPE_CHECKING

from model.apart import Apart
from model.planning.planner import WORK, plan_cuts
from model.planning.task import CutPlan
from model.planning.wanted import Choices, Wanted

if TYPE_CHECKING:
    from model.finding import Finding
    from model.language.english.planning import PlanningPhrases
    from model.planning.wanted_told import Told
    from model.settings import Settings

SECONDS = 5.0
_LONGEST = 86_400.0
_GRACE = 2.0  # the search looks at its own clock; should it ever not, it is ended after this
_NOTHING = 30.0  # nor is the first plan waited for any longer, over the time that is given
_TICK = 0.05
_SHOWN_AFTER = 0.5  # seconds in which nobody misses a word
_MANY_WORK = 10**12
_NO_PLAN = "it was stopped before there was any plan"


def add_parser(commands: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    """Add the command to those without a screen.

    Args:
        commands: Where to.
    """
    plan = commands.add_parser(
        "plan",
        help="how to cut wanted pieces from the paper at hand",
        description="Works out loads for the trimmer: as few sheets as can be, then as few scraps, "
        "then as little handling. FILE is a wanted list, or a kit: what its cuts make, or, while "
        "it has no steps, its pieces. The exit code is 0 when every piece that must be had "
        "comes out, 1 when one is missing or something is wrong with the file, 2 when the "
        "arguments are, 130 when it was stopped before there was any plan.",
    )
    plan.add_argument("file", help="a wanted list, a kit file, or a demo kit's name")
    plan.add_argument(
        "--time", type=_seconds, metavar="SECONDS",
        help=f"how long to look for better plans ({SECONDS:g}; no limit where --work is given)",
    )  # fmt: skip
    plan.add_argument(
        "--work", type=_work, metavar="N",
        help="how much to look at: the same plan each time for the same number",
    )  # fmt: skip
    plan.add_argument(
        "--graduation", metavar="LENGTH",
        help="what the trimmer's ruler reads to, such as 1/8 or 0.5 mm (1/16 in, or 1 mm)",
    )  # fmt: skip
    plan.add_argument(
        "--narrowest", metavar="LENGTH", help="hold and trim nothing that is narrower"
    )
    plan.add_argument("--turnable", action="store_true", help="every piece may be turned")
    shown = plan.add_mutually_exclusive_group()
    shown.add_argument("--draw", action="store_true", help="draw each sheet too")
    shown.add_argument("--toml", action="store_true", help="as the tables of a kit")
    shown.add_argument("--json", action="store_true", help="as JSON")
    plan.add_argument("--ascii", action="store_true", help="only ASCII characters, this once")


def _seconds(text: str) -> float:
    try:
        seconds = float(text)
    except ValueError:
        raise argparse.ArgumentTypeError(f"{text!r} is no number of seconds") from None
    if not 0 < seconds <= _LONGEST:
        raise argparse.ArgumentTypeError(f"{text} must be more than 0, and at most a day")
    return seconds


def _work(text: str) -> int:
    if not text.isascii() or not text.isdigit() or not 0 < int(text[:20]) <= _MANY_WORK:
        raise argparse.ArgumentTypeError(f"{text!r} is no whole number from 1 to {_MANY_WORK}")
    return int(text)


def run_plan(
    chosen: argparse.Namespace,
    fail: Callable[[str, bool, int], int],
    crafter: Callable[[], Settings],
) -> int:
    """Run the command; see `add_parser` for the exit codes.

    Args:
        chosen: Its arguments.
        fail: Says why nothing came of it: the reason, whether as JSON, the exit code.
        crafter: The crafter's settings.
    """
    try:
        return _run(chosen, fail, crafter)
    except KeyboardInterrupt:
        return fail(_NO_PLAN, chosen.json, 130)


def _run(
    chosen: argparse.Namespace,
    fail: Callable[[str, bool, int], int],
    crafter: Callable[[], Settings],
) -> int:
    from model.finding import KitError
    from model.folders import find_kit, why_no_kit
    from model.planning.wanted_reading import load_wanted

    path = find_kit(chosen.file)
    if path is None:
        return fail(why_no_kit(chosen.file), chosen.json, 2)
    try:
        choices = _choices(chosen, path)
    except ValueError as error:
        return fail(str(error), chosen.json, 2)
    try:
        wanted, findings, text = load_wanted(path, choices)
    except KitError as error:
        wanted, findings, text = None, error.findings, ""
    for finding in findings:
        print(f"{path}: {'' if finding.grave else '(remark) '}{finding}", file=sys.stderr)
    if wanted is None:
        return _unusable(path, findings, chosen.json)
    seconds = chosen.time or (None if chosen.work else SECONDS)
    settings = crafter()
    words = settings.phrases.planning
    plan, ended, wrong = search(wanted, chosen.work, seconds, words)
    if plan is None:
        return fail(wrong or _NO_PLAN, chosen.json,
                    1 if wrong else 130)  # fmt: skip
    from model.planning.wanted_told import tell

    told = tell(wanted, plan)
    if chosen.json:
        from tui.plan_json import plan_data

        print(json.dumps(plan_data(told, ended), indent=2, ensure_ascii=False))
    elif chosen.toml:
        from model.planning.wanted_lines import toml_of_plan

        try:
            print(toml_of_plan(told, text), end="")
        except ValueError as why:
            return fail(str(why), False, 1)
    else:
        _print_text(told, words, settings.ascii or chosen.ascii, chosen.draw, ended, seconds)
    return 1 if wanted.lacks(plan) else 0


def _choices(chosen: argparse.Namespace, path: Path) -> Choices:
    """The options that are lengths, in the unit of the file.

    Raises:
        ValueError: One can't be read.
    """
    from model.length import LengthError, Unit, parse_length
    from model.planning.wanted_reading import unit_of_file

    unit = unit_of_file(path) if chosen.graduation or chosen.narrowest else Unit.IN
    found: dict[str, Fraction | None] = {}
    for name in ("graduation", "narrowest"):
        said = getattr(chosen, name)
        try:
            found[name] = None if said is None else parse_length(said, unit)
        except LengthError as error:
            raise ValueError(f"--{name}: {error}") from None
    return Choices(found["graduation"], found["narrowest"], chosen.turnable)


def _unusable(path: Path, findings: tuple[Finding, ...], as_json: bool) -> int:
    if as_json:
        found = [
            {"code": f.code, "line": f.line, "what": f.what, "remedy": f.remedy, "grave": f.grave}
            for f in findings
        ]
        error = {"error": f"{path} can't be planned", "findings": found}
        print(json.dumps(error, indent=2, ensure_ascii=False))
    return 1


def search(
    wanted: Wanted, work: int | None, seconds: float | None, words: PlanningPhrases
) -> tuple[CutPlan | None, str, str]:
    """Look for plans in a process of its own, and tell how it goes where somebody watches.

    Args:
        wanted: What is wanted.
        work: How much to look at; None for as much as the time allows.
        seconds: The time; None for no limit.
        words: What is said of it.

    Returns:
        The best plan; ``done``, ``time`` or ``stopped``; what went wrong.
    """
    limit = work or max(WORK, round(WORK * (seconds or 0) / SECONDS))
    best: CutPlan | None = None
    ended, start = "done", monotonic()
    progress = _Progress(words)
    with Apart(plan_cuts, wanted.task, limit, seconds) as apart:
        try:
            while True:
                over = apart.wait(_TICK)
                for plan in apart.poll():
                    best = plan
                spent = monotonic() - start
                if over:
                    break
                if seconds is not None and spent > seconds + (_GRACE if best else _NOTHING):
                    break
                progress.tell(spent, best)
        except KeyboardInterrupt:
            ended = "stopped"
            for plan in apart.poll():
                best = plan
        error = "" if apart.error is None else str(apart.error)
        if best is None and not error and ended == "done":
            error = "no plan was found in the time; give it more with --time"
    progress.clear()
    if ended == "done" and seconds is not None and monotonic() - start >= seconds:
        ended = "time"
    return best, ended, error


class _Progress:
    """One line at the foot of a terminal, written over and over; nothing anywhere else."""

    def __init__(self, words: PlanningPhrases) -> None:
        self.words, self.shown = words, ""
        self.seen = sys.stderr is not None and sys.stderr.isatty()

    def tell(self, seconds: float, best: CutPlan | None) -> None:
        if not self.seen or seconds < _SHOWN_AFTER:
            return
        figures = best.figures if best is not None else None
        if figures is None:
            said = self.words.begins(int(seconds))
        else:
            said = self.words.progress(int(seconds), figures.sheets.value, figures.scraps.value)
        if said != self.shown:
            said = said[: max(10, shutil.get_terminal_size().columns - 1)]
            self._write(said)

    def clear(self) -> None:
        if self.shown:
            self._write("")

    def _write(self, said: str) -> None:
        blank = " " * len(self.shown)
        sys.stderr.write(f"\r{blank}\r{said}")
        sys.stderr.flush()
        self.shown = said


def _print_text(
    told: Told, words: PlanningPhrases, ascii: bool, draw: bool, ended: str, seconds: float | None
) -> None:
    from tui.plan_drawing import draw_sheets
    from tui.plan_table import Pen, plan_text

    size = shutil.get_terminal_size((80, 24))
    pen = Pen(words, told.wanted.unit, ascii, max(20, min(size.columns, 120)))
    print(plan_text(told, pen))
    if draw:
        print()
        print(draw_sheets(told, pen, max(8, min(size.lines - 4, 40))))
    figures = told.figures
    open_ = not (figures.missing.proved and figures.sheets.proved and figures.scraps.proved)
    if ended == "stopped":
        print(f"\n{words.stopped()}")
    elif ended == "time" and open_:
        print(f"\n{words.time_up(f'{seconds:g}')}")
    sys.stdout.flush()
