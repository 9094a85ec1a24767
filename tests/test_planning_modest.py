"""What is certain where some pieces may be smaller than they were planned."""

from __future__ import annotations

import random
from dataclasses import replace
from fractions import Fraction

import pytest

from model.planning.checking import check_plan
from model.planning.modest import modest
from model.planning.planner import best_plan, plan_cuts
from model.planning.task import Board, CutPlan, Task, Want
from tests.cut_plans import INCH, board, want

WORK = 50_000


def proved(plan: CutPlan) -> list[str]:
    names = ("missing", "sheets", "scraps", "settings")
    return [name for name in names if getattr(plan.figures, name).proved]


def mats(wide: str, slack: str, boards: int = 2) -> Task:
    """Two mats on sheets of 12 x 12, with which they share one side."""
    one = replace(want("mat", wide, 12, 2), smaller_by=want("", slack, 1).width)
    return Task((one,), (board("oak", 12, 12, boards),))


def test_two_sheets_are_not_the_least_where_both_mats_may_be_cut_from_one() -> None:
    """12 in make two mats of 6 in, which may be 1/4 in less than 6 1/8 in."""
    task = mats("6 1/8", "1/4")
    plan = modest(task, best_plan(task, WORK))
    assert plan.figures is not None
    assert plan.figures.sheets.least == 1
    assert "scraps" not in proved(plan)
    assert check_plan(task, plan) == ()


def test_two_sheets_are_the_least_where_even_the_smallest_mats_have_no_room_on_one() -> None:
    task = mats("6 1/2", "1/4")
    plan = modest(task, best_plan(task, WORK))
    assert proved(plan) == ["missing", "sheets"]


def test_a_mat_is_not_surely_missing_where_it_would_fit_smaller() -> None:
    task = mats("6 1/8", "1/4", boards=1)
    plan = modest(task, best_plan(task, WORK))
    assert plan.missing == {"mat": 1}
    assert proved(plan) == []


@pytest.mark.parametrize("slack", ["1/32", "3/64"])
def test_less_than_a_graduation_takes_nothing_back(slack: str) -> None:
    task = mats("6 1/8", slack)
    plan = best_plan(task, WORK)
    assert modest(task, plan) == plan


def test_of_another_paper_nothing_is_taken_back() -> None:
    """Three pieces on two sheets, by their widths and not by their area."""
    task = mats("6 1/2", "1/4")
    blue = replace(want("tag", 7, 7, 2), paper="blue")
    sheet = replace(board("sky", 12, 12, 2), paper="blue")
    task = Task((*task.wants, blue), (*task.boards, sheet), task.graduation)
    plan = modest(task, best_plan(task, WORK))
    assert plan.figures is not None
    assert (plan.figures.sheets.value, plan.figures.sheets.least) == (4, 4)


@pytest.mark.parametrize("seed", range(60))
def test_no_plan_goes_below_what_is_still_claimed(seed: int) -> None:
    """All ways to cut are gone through, with every size that will do, by the checker."""
    draw = random.Random(seed)
    wants = tuple(
        replace(
            want(f"piece {n}", draw.randint(2, 6), draw.randint(2, 6), draw.randint(1, 2)),
            smaller_by=draw.choice([0, 1, 1]) * INCH, value=draw.choice([None, None, 3]),
        )
        for n in range(draw.randint(1, 3))
    )  # fmt: skip
    task = Task(wants, (board("oak", 6, 6, draw.randint(1, 4)),), INCH)
    for plan in plan_cuts(task, WORK):
        assert [flaw.text() for flaw in check_plan(task, modest(task, plan))] == []


def test_the_search_itself_claims_no_more() -> None:
    """Two mats of 6 1/8 in, each a quarter smaller if need be, come out of one sheet of 12."""
    inch = Fraction(127, 5)
    want = Want("mat", inch * 49 / 8, inch * 12, 2, smaller_by=inch / 4)
    task = Task((want,), (Board("sheet", inch * 12, inch * 12, 5),))
    figures = best_plan(task).figures
    assert figures is not None
    assert figures.sheets.least <= 1
