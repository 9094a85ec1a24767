"""Plans for a task: one at once, better ones as they come.

Papers do not mix, so each is planned on its own; a plan is all of them together.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace
from fractions import Fraction
from time import monotonic

from model.planning.handling import Handling, least_handling
from model.planning.loads import Writer
from model.planning.modest import as_large, modest, smaller, smallest
from model.planning.paper import Answer
from model.planning.paper import answers as answers_of
from model.planning.task import CutPlan, Figure, Figures, Task
from model.planning.units import TaskError, whole_tasks
from model.planning.work import Work

WORK = 3_000_000


def _written(task: Task, answers: list[Answer]) -> CutPlan:
    writer = Writer(task.graduation, ())
    missing: dict[str, int] = {}
    for answer in answers:
        whole = answer.whole
        writer.names = [want.name for want in whole.wants]
        writer.narrow = whole.narrow
        for one in answer.cutting.filled:
            room = whole.rooms[one.room]
            writer.board(whole.boards[one.room].name, room.width, room.height, one.block)
        for want, count in zip(whole.wants, answer.cutting.left, strict=True):
            if count:
                missing[want.name] = count
    lost = Figure(sum(answer.missing for answer in answers), sum(a.missing_least for a in answers))
    sure = lost.proved or len(answers) == 1
    sheets = Figure(
        sum(answer.cutting.sheets for answer in answers),
        sum(answer.cutting.least for answer in answers) if sure else 0,
    )
    sure = lost.proved and sheets.proved
    scraps = Figure(writer.scraps, sum(a.scraps_least for a in answers) if sure else 0)
    handling = Handling()
    if sure and scraps.proved and not lost.value:
        cuts = sum(len(load.marks) for load in writer.loads)
        handling = least_handling(
            task, len(writer.sheets), scraps.value, cuts, writer.reloads, writer.turns
        )
    figures = Figures(
        lost,
        sheets,
        scraps,
        Figure(writer.reloads, handling.reloads),
        Figure(writer.turns, handling.turns),
        Figure(len(writer.marks), handling.settings),
    )
    return CutPlan(dict(writer.parts), tuple(writer.sheets), tuple(writer.loads), missing, figures)


def _rank(plan: CutPlan) -> tuple[int, ...]:
    figures = plan.figures
    assert figures is not None  # every plan that is written has them
    every = (figures.missing, figures.sheets, figures.scraps, figures.reloads, figures.turns)
    values = [figure.value for figure in (*every, figures.settings)]
    return (*values, *(-figure.least for figure in (*every, figures.settings)))


_PARTS = tuple(Fraction(n, 8) for n in range(1, 8))


def plan_cuts(
    task: Task,
    work: int = WORK,
    seconds: float | None = None,
    progress: Callable[[float], None] | None = None,
    cancel: Callable[[], bool] | None = None,
) -> Iterator[CutPlan]:
    """Better and better plans, each one better or better proved than the one before.

    Args:
        task: What is wanted, and the paper at hand.
        work: How much may be looked at: for the same limit, the same plans.
        seconds: The time after which the search ends; None for none.
        progress: Told from time to time what share of the work is done.
        cancel: Asked often whether to stop.

    Yields:
        A plan for each step forward, one at least.

    Raises:
        TaskError: Something in the task cannot be planned; the message names it.
    """
    small = smallest(task)
    if small is None:
        yield from _as_wanted(task, work, seconds, progress, cancel)
        return
    best: CutPlan | None = None
    half = None if seconds is None else seconds / 2
    try:
        for plan in _as_wanted(task, max(work // 2, 1), half, progress, cancel):
            best = modest(task, plan)
            yield best
    except TaskError:
        whole_tasks(small)  # where it can't be planned with smaller pieces either, that is told
    full = best
    for plan in _as_wanted(small, max(work // 4, 1), half, None, cancel):
        better = smaller(task, best, plan)
        if better is not None and better != best:
            best = better
            yield best
    if best is None or full is None or best.loads == full.loads:
        return
    for part in _PARTS:  # the largest sizes that do as well
        between = smallest(task, part)
        if between is None:
            return
        *_, plan = _as_wanted(between, max(work // 16, 1), half and half / 4, None, cancel)
        better = as_large(best, plan)
        if better is not None:
            yield better
            return


def _as_wanted(
    task: Task,
    work: int,
    seconds: float | None,
    progress: Callable[[float], None] | None,
    cancel: Callable[[], bool] | None,
) -> Iterator[CutPlan]:
    """Plans with every piece as large as it is wanted, down to the graduation."""
    until = None if seconds is None else monotonic() + seconds

    rest = 0.0 if seconds is None else min(seconds / 2, max(2.0, seconds / 4))

    def stop() -> bool:
        if cancel is not None and cancel():
            return True
        return until is not None and monotonic() > until

    def early() -> bool:
        if seconds is not None and until is not None and monotonic() > until - rest:
            return True
        return cancel is not None and cancel()

    wholes = whole_tasks(task)
    if not wholes:
        yield _written(task, [])
        return
    # Sheets weigh most, so their number gets most of the work, and half of the time or more.
    each = max(work // len(wholes), 5)
    timed = cancel is not None or until is not None
    limits = [Work(each - each // 4, early if timed else None) for _ in wholes]
    after = [Work(each // 4, stop if timed else None) for _ in wholes]
    searches = [answers_of(*three) for three in zip(wholes, limits, after, strict=True)]
    answers = [next(search) for search in searches]
    plan = _written(task, answers)
    yield plan
    waiting = list(range(len(wholes)))
    while waiting:
        for number in list(waiting):
            answer = next(searches[number], None)
            if answer is None:
                waiting.remove(number)
                continue
            if progress is not None:
                spent = sum(min(limit.spent, each) for limit in (*limits, *after))
                progress(min(spent / (each * len(limits)), 1.0))
            for one in _both(answers[number], answer):
                tried = [*answers[:number], one, *answers[number + 1 :]]
                better = _written(task, tried)
                if _rank(better) < _rank(plan):
                    answers, plan = tried, better
                    yield plan


def _both(old: Answer, new: Answer) -> Iterator[Answer]:
    yield new
    if (old.missing, old.cutting.sheets, old.scraps) == (
        new.missing,
        new.cutting.sheets,
        new.scraps,
    ):
        # What is proved of one holds of the other, which may be easier to cut.
        least = max(old.cutting.least, new.cutting.least)
        for one in (old, new):
            yield replace(
                one,
                cutting=replace(one.cutting, least=least),
                missing_least=max(old.missing_least, new.missing_least),
                scraps_least=max(old.scraps_least, new.scraps_least),
            )


def best_plan(task: Task, work: int = WORK, seconds: float | None = None) -> CutPlan:
    """The last and best of the plans.

    Args:
        task: What is wanted, and the paper at hand.
        work: How much may be looked at.
        seconds: The time after which the search ends; None for none.
    """
    *_, plan = plan_cuts(task, work, seconds)
    return plan
