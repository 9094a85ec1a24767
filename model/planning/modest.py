"""Claims that hold although some pieces may be smaller than they were planned.

The search cuts each piece as large as it may be, and proves its figures for pieces of that size.
Where one may be smaller, fewer sheets or scraps can do, so that much less is certain.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from fractions import Fraction
from math import ceil, floor

from model.planning.task import CutPlan, Figure, Task, Want


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
