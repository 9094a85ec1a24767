"""Plans for a task: one at once, better ones as they come.

Papers do not mix, so each is planned on its own; a plan is all of them together.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from time import monotonic

from model.planning.loads import TooNarrow, Writer
from model.planning.sheets import Cutting, fewest_sheets
from model.planning.small import exact_small
from model.planning.sparing import Sparing
from model.planning.task import CutPlan, Figure, Figures, Task
from model.planning.tidying import scraps_of
from model.planning.units import Whole, whole_tasks
from model.planning.work import Work
from model.planning.yields import best_yield

WORK = 3_000_000
_SMALL = 200_000


@dataclass(frozen=True, slots=True)
class _Answer:
    """What is known of one paper."""

    whole: Whole
    cutting: Cutting
    missing_least: int = 0
    scraps_least: int = 0

    @property
    def missing(self) -> int:
        return sum(
            count * kind.value
            for count, kind in zip(self.cutting.left, self.whole.kinds, strict=True)
        )


def _holds(whole: Whole, cutting: Cutting) -> bool:
    if not whole.narrow:
        return True
    writer = Writer(Task((), ()).graduation, [want.name for want in whole.wants], whole.narrow)
    try:
        for one in cutting.filled:
            room = whole.rooms[one.room]
            writer.board("", room.width, room.height, one.block)
    except TooNarrow:
        return False
    return True


def _cuttings(whole: Whole, work: Work, after: Work) -> Iterator[_Answer]:
    answer: _Answer | None = None
    for cutting in fewest_sheets(whole.kinds, whole.rooms, work, whole.narrow):
        if _holds(whole, cutting):
            answer = _Answer(whole, cutting)
            yield answer
    if answer is None:
        # Even where no work is left there must be an answer.
        some = Work(max(work.left, 50_000), work.stop)
        cutting, least = best_yield(whole.kinds, whole.rooms, some, whole.narrow)
        work.spend(some.spent)
        if not _holds(whole, cutting):
            left = tuple(kind.count for kind in whole.kinds)
            cutting, least = Cutting((), left, 0, 0), 0
        answer = _Answer(whole, cutting, least)
        yield answer
    exact = _exact(answer, after, min(_SMALL, after.left // 2))
    if exact is None and not any(answer.cutting.left):
        for spared in _spared(answer, after):
            answer = spared
            yield answer
    exact = exact or _exact(answer, after, after.left // 2)
    if exact is not None:
        yield exact
        alike = (answer.missing, answer.cutting.sheets, _scraps(answer))
        if alike == (exact.missing, exact.cutting.sheets, _scraps(exact)):
            # What is proved holds of both; whichever is easier to cut is taken.
            cutting = replace(answer.cutting, least=exact.cutting.least)
            yield replace(exact, cutting=cutting)


def _scraps(answer: _Answer) -> int:
    rooms = answer.whole.rooms
    return sum(
        scraps_of(one.block, rooms[one.room].width, rooms[one.room].height)
        for one in answer.cutting.filled
    )


def _exact(answer: _Answer, work: Work, most: int) -> _Answer | None:
    whole = answer.whole
    if whole.narrow or most <= 0:
        return None
    pieces = sum(kind.count for kind in whole.kinds)
    share = work.share(most)
    boards = pieces if answer.missing else answer.cutting.sheets
    small = exact_small(whole.kinds, whole.rooms, boards, share)
    work.spend(share.spent)
    return None if small is None else _Answer(whole, *small)


def _spared(answer: _Answer, work: Work) -> Iterator[_Answer]:
    """The same sheets with fewer and fewer scraps."""
    whole, cutting = answer.whole, answer.cutting
    sparing = Sparing(whole.kinds, whole.rooms, cutting.filled, whole.narrow)
    sparing.tidy(work)
    least = 0
    if cutting.sheets == cutting.least and len(whole.rooms) == 1:
        area = sum(kind.count * kind.width * kind.height for kind in whole.kinds)
        waste = len(cutting.filled) * whole.rooms[0].area - area
        least = sparing.least if len(cutting.filled) == 1 else int(waste > 0)
    for filled in ((sparing.filled,), sparing.run(least, work)):
        for one in filled:
            better = replace(answer, cutting=replace(cutting, filled=one), scraps_least=least)
            if _holds(whole, better.cutting):
                yield better


def _written(task: Task, answers: list[_Answer]) -> CutPlan:
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
    cuts = sum(len(load.marks) for load in writer.loads)
    # One load at least has as many marks as there are on the average.
    settings = -(-cuts // len(writer.loads)) if sure and scraps.proved and writer.loads else 0
    figures = Figures(
        lost,
        sheets,
        scraps,
        Figure(writer.reloads, 0),
        Figure(writer.turns, 0),
        Figure(len(writer.marks), min(settings, len(writer.marks))),
    )
    return CutPlan(dict(writer.parts), tuple(writer.sheets), tuple(writer.loads), missing, figures)


def _rank(plan: CutPlan) -> tuple[int, ...]:
    figures = plan.figures
    assert figures is not None  # every plan that is written has them
    every = (figures.missing, figures.sheets, figures.scraps, figures.reloads, figures.turns)
    values = [figure.value for figure in (*every, figures.settings)]
    return (*values, *(-figure.least for figure in (*every, figures.settings)))


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
    until = None if seconds is None else monotonic() + seconds

    def stop() -> bool:
        if cancel is not None and cancel():
            return True
        return until is not None and monotonic() > until

    def early() -> bool:
        if seconds is not None and until is not None and monotonic() > until - seconds / 3:
            return True
        return cancel is not None and cancel()

    wholes = whole_tasks(task)
    if not wholes:
        yield _written(task, [])
        return
    # Sheets weigh most, so their number gets most of the work and of the time.
    each = max(work // len(wholes), 5)
    timed = cancel is not None or until is not None
    limits = [Work(each - each // 4, early if timed else None) for _ in wholes]
    after = [Work(each // 4, stop if timed else None) for _ in wholes]
    searches = [_cuttings(*three) for three in zip(wholes, limits, after, strict=True)]
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
            answers[number] = answer
            better = _written(task, answers)
            if progress is not None:
                spent = sum(min(limit.spent, each) for limit in (*limits, *after))
                progress(min(spent / (each * len(limits)), 1.0))
            if _rank(better) < _rank(plan):
                plan = better
                yield plan


def best_plan(task: Task, work: int = WORK, seconds: float | None = None) -> CutPlan:
    """The last and best of the plans.

    Args:
        task: What is wanted, and the paper at hand.
        work: How much may be looked at.
        seconds: The time after which the search ends; None for none.
    """
    *_, plan = plan_cuts(task, work, seconds)
    return plan
