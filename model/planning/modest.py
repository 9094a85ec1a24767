"""Pieces that may be smaller than they are wanted: what that gains, and what is certain then.

The search cuts each piece as large as it may be, and proves its figures for pieces of that size.
Where one may be smaller, fewer sheets or scraps can do, so that much less is certain. With each as
small as it may be more can be had, or fewer sheets do; nothing in between can do with less, since
any plan is one for smaller pieces too, the rest thrown away.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from fractions import Fraction
from math import ceil, floor

from model.planning.task import CutPlan, Figure, Figures, Task, Want


def modest(task: Task, plan: CutPlan) -> CutPlan:
    """The same plan, claiming no more than holds for pieces of every size that will do.

    Args:
        task: What was asked.
        plan: What was answered, with figures that are proved for the largest sizes.
    """
    figures = plan.figures
    elastic = {want.paper for want in task.wants if _may_be_smaller(want, task.graduation)}
    if figures is None or not elastic:
        return plan
    missing = Figure(figures.missing.value, 0)
    least = 0 if plan.missing else min(_least_sheets(task, plan, elastic), figures.sheets.least)
    sheets = Figure(figures.sheets.value, least)
    scraps = Figure(figures.scraps.value, 0)
    sure = missing.proved and sheets.proved and scraps.proved
    settings = figures.settings if sure else Figure(figures.settings.value, 0)
    return replace(
        plan,
        figures=replace(figures, missing=missing, sheets=sheets, scraps=scraps, settings=settings),
    )


def smallest(task: Task, part: Fraction = Fraction(1)) -> Task | None:
    """The task with every piece as small as it may be; None where none may be smaller.

    Args:
        task: What was asked.
        part: Smaller by so much of what it may be, down to the graduation: 1 for all of it.
    """
    if task.graduation <= 0 or not all(_sound(want) for want in task.wants):
        return None  # the search says what is wrong with it
    if not any(_may_be_smaller(want, task.graduation) for want in task.wants):
        return None
    wants = tuple(
        replace(
            want,
            width=_smaller_side(want.width, want, task.graduation, part),
            height=_smaller_side(want.height, want, task.graduation, part),
            smaller_by=Fraction(0),
        )
        if _may_be_smaller(want, task.graduation)
        else want
        for want in task.wants
    )
    return replace(task, wants=wants)


def _smaller_side(side: Fraction, want: Want, graduation: Fraction, part: Fraction) -> Fraction:
    least, most = _least(side, want, graduation), floor(side / graduation) * graduation
    return most - floor((most - least) * part / graduation) * graduation


def as_large(best: CutPlan, plan: CutPlan) -> CutPlan | None:
    """A plan with larger pieces that loses no more and begins no more sheets; else None.

    Args:
        best: The best plan with smaller pieces.
        plan: One with larger pieces.
    """
    old, new = best.figures, plan.figures
    if old is None or new is None:
        return None
    if (new.missing.value, new.sheets.value) != (old.missing.value, old.sheets.value):
        return None
    rest = (new.scraps, new.reloads, new.turns, new.settings)
    unproved = (Figure(figure.value, 0) for figure in rest)
    return replace(plan, figures=Figures(old.missing, old.sheets, *unproved))


def _sound(want: Want) -> bool:
    return 0 <= want.smaller_by < min(want.width, want.height)


def smaller(task: Task, best: CutPlan | None, plan: CutPlan) -> CutPlan | None:
    """The better of two plans, with what is certain of both.

    Pieces are left as large as they are wanted unless more of them can be had, or fewer sheets do.

    Args:
        task: What was asked.
        best: The best plan with pieces of full size.
        plan: One with every piece as small as it may be.
    """
    ours = plan.figures
    if ours is None:
        return best
    # A strip that is too narrow to hold may be so only since its pieces are smaller.
    sure = not task.narrowest
    lost = Figure(ours.missing.value, ours.missing.least if sure else 0)
    sheets = Figure(ours.sheets.value, ours.sheets.least if sure and lost.proved else 0)
    figures = Figures(
        lost, sheets, Figure(ours.scraps.value, 0), Figure(ours.reloads.value, 0),
        Figure(ours.turns.value, 0), Figure(ours.settings.value, 0),
    )  # fmt: skip
    theirs = best.figures if best is not None else None
    if best is None or theirs is None:
        return replace(plan, figures=figures)
    mine = (lost.value, sheets.value)
    if mine < (theirs.missing.value, theirs.sheets.value):
        return replace(plan, figures=figures)
    missing = Figure(theirs.missing.value, max(theirs.missing.least, lost.least))
    least = theirs.sheets.least
    if missing.proved and lost.proved and missing.value == lost.value:
        least = min(max(least, sheets.least), theirs.sheets.value)
    return replace(
        best,
        figures=replace(theirs, missing=missing, sheets=Figure(theirs.sheets.value, least)),
    )


def _least(side: Fraction, want: Want, graduation: Fraction) -> Fraction:
    """The least that a side may measure on the graduation."""
    return ceil((side - want.smaller_by) / graduation) * graduation


def _may_be_smaller(want: Want, graduation: Fraction) -> bool:
    return any(
        _least(side, want, graduation) < floor(side / graduation) * graduation
        for side in (want.width, want.height)
    )


def _least_sheets(task: Task, plan: CutPlan, elastic: set[str]) -> int:
    """As many sheets as the area takes; of a paper with pieces of one size, as was proved."""
    assert plan.figures is not None  # the only caller has seen them
    boards = {board.name: board for board in task.boards}
    begun = Counter(boards[name].paper for _, name in plan.sheets)
    least = 0
    for paper in {want.paper for want in task.wants}:
        here = [board for board in task.boards if board.paper == paper]
        if paper not in elastic and plan.figures.sheets.proved:
            # Papers do not mix: where their sum is least, each is.
            least += begun[paper] - sum(
                boards[name].left_over for _, name in plan.sheets if boards[name].paper == paper
            )
        elif here and not any(board.left_over for board in here):
            area = sum(
                want.count
                * _least(want.width, want, task.graduation)
                * _least(want.height, want, task.graduation)
                for want in task.wants
                if want.paper == paper
            )
            least += ceil(area / max(board.width * board.height for board in here))
    return least
