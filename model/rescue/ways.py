"""Ways to save what is lost, as they are found: what touches least first, better ones after.

It works on plain data alone, so that it can run in a process of its own.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from model.planning.checking import check_plan
from model.planning.planner import plan_cuts
from model.planning.task import CutPlan
from model.planning.units import TaskError
from model.rescue.bench import Bench, Level, Saving
from model.rescue.mending import Mending
from model.rescue.weaving import Asked, as_it_is, asked, woven

_QUICK = 60_000
_DEEP = 1_000_000
_SECONDS = 2.0


@dataclass(frozen=True, slots=True)
class Found:
    """A way that was found; a later one of the same number is better, and replaces it.

    Attributes:
        number: The place of its level; that of the truth alone is -1.
        saving: What it does.
        mending: What is cut instead.
        missing: What stays lost, by its identity in the plan.
        taken: Things at hand that it cuts, by their identities.
        proved: Whether no way at this level loses less.
    """

    number: int
    saving: Saving
    mending: Mending
    missing: tuple[str, ...]
    taken: tuple[str, ...] = ()
    proved: bool = False


def ways(bench: Bench, deep: bool = True) -> Iterator[Found]:
    """Ways to save what is lost.

    Args:
        bench: What is at hand.
        deep: Go on, when each level has a first answer, and look for better ones.

    Yields:
        One way at least: when nothing is lost, the truth alone; else one for each level that
        saves more than those that touch less, and then better ones as they come.
    """
    if not bench.wanted:
        alone = as_it_is(bench)
        yield Found(-1, Saving.NOTHING, alone.mending, (), proved=True)
        return
    least: dict[int, int] = {}
    best: dict[int, tuple[int, ...]] = {}
    for work in (_QUICK, _DEEP) if deep else (_QUICK,):
        for number, level in enumerate(bench.levels):
            others = [lost for other, lost in least.items() if other < number]
            for found, rank in _of_level(bench, number, level, work):
                if others and len(found.missing) >= min(others) > 0:
                    continue  # it touches more and saves no more
                if number in best and best[number] <= rank:
                    continue
                least[number], best[number] = len(found.missing), rank
                yield found


def _of_level(
    bench: Bench, number: int, level: Level, work: int
) -> Iterator[tuple[Found, tuple[int, ...]]]:
    """The ways of one level, each with its rank: less is better."""
    if not level.loose and not level.plays:
        alone = as_it_is(bench)
        missing = alone.missing
        yield Found(number, Saving.NONE, alone.mending, missing, proved=True), (len(missing),)
        return
    if level.tries:
        level = _tried(bench, level)
    question = asked(level, bench.graduation)
    for plan in _plans(question, work):
        if check_plan(question.task, plan):
            continue  # the checker refuses it, and nobody is shown it
        way = woven(bench, level, question, plan)
        if any(id.startswith("+") for id in way.missing):
            continue  # without its backing nothing is nested
        saving, figures = level.saving, plan.figures
        if saving is Saving.SHIFT and way.missing:
            saving = Saving.PART if len(way.missing) < len(bench.wanted) else Saving.NONE
        rank, proved = [len(way.missing)], True
        if figures is not None:
            rank += [figures.sheets.value, figures.scraps.value, figures.reloads.value]
            rank += [figures.turns.value, figures.settings.value]
            proved = figures.missing.proved
        yield Found(number, saving, way.mending, way.missing, way.taken, proved), tuple(rank)


def _tried(bench: Bench, level: Level) -> Level:
    """The level with the largest sizes of which everything comes out, else with the smallest."""
    for roles in level.tries:
        level = replace(level, roles=roles)
        question = asked(level, bench.graduation)
        plans = list(_plans(question, _QUICK))
        if plans and not question.stuck and not plans[-1].missing:
            break
    return level


def _plans(question: Asked, work: int) -> Iterator[CutPlan]:
    if not question.task.wants or not question.task.boards:
        yield CutPlan({}, (), ())
        return
    try:
        yield from plan_cuts(question.task, work, _SECONDS)
    except TaskError:
        # Too many kinds or pieces at once for one plan: this level has no way.
        return
