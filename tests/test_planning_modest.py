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


def test_a_mat_that_fits_smaller_is_not_missing() -> None:
    task = mats("6 1/8", "1/4", boards=1)
    plan = best_plan(task, WORK)
    assert not plan.missing and proved(plan)[:2] == ["missing", "sheets"]
    assert check_plan(task, plan) == ()


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


def test_a_piece_larger_than_the_sheet_may_fit_smaller() -> None:
    one = Want("mat", INCH * 97 / 8, INCH * 12, 1, smaller_by=INCH / 4)
    plan = best_plan(Task((one,), (Board("sheet", INCH * 12, INCH * 12, 1),)))
    assert not plan.missing


def test_the_search_itself_claims_no_more() -> None:
    """Two mats of 6 1/8 in, each a quarter smaller if need be, come out of one sheet of 12."""
    inch = Fraction(127, 5)
    want = Want("mat", inch * 49 / 8, inch * 12, 2, smaller_by=inch / 4)
    task = Task((want,), (Board("sheet", inch * 12, inch * 12, 5),))
    figures = best_plan(task).figures
    assert figures is not None
    assert figures.sheets.least <= 1


def alike_mats(count: int, size: Fraction, less: Fraction) -> Task:
    one = Want("mat", size, INCH * 12, count, smaller_by=less)
    return Task((one,), (Board("sheet", INCH * 12, INCH * 12, 5),))


def test_a_mat_may_be_smaller_where_that_saves_a_sheet() -> None:
    """Two of 6 1/8 in take two sheets of 12; an eighth less, both come out of one."""
    plan = best_plan(alike_mats(2, INCH * 49 / 8, INCH / 4))
    assert plan.figures is not None and not plan.missing
    assert (plan.figures.sheets.value, plan.figures.sheets.least) == (1, 1)
    sizes = [part.width for part in plan.parts.values() if part.want]
    assert sizes == [INCH * 6, INCH * 6]  # no smaller than it takes
    assert not check_plan(alike_mats(2, INCH * 49 / 8, INCH / 4), plan)


def test_a_mat_is_as_large_as_it_is_wanted_where_nothing_is_won() -> None:
    plan = best_plan(alike_mats(2, INCH * 5, INCH / 4))
    assert {part.width for part in plan.parts.values() if part.want} == {INCH * 5}


@pytest.mark.parametrize("seed", range(60))
def test_small_tasks_with_sizes_that_may_be_less(seed: int) -> None:
    """No figure is called least that some way to cut, with any sizes that will do, goes below."""
    rng = random.Random(seed)
    wants = tuple(
        Want(
            f"w{n}", INCH * rng.randint(2, 6), INCH * rng.randint(2, 6), 1,
            turnable=rng.random() < 0.5, smaller_by=INCH * rng.choice((0, 0, 1)),
            value=rng.choice((None, 1, 3)),
        )
        for n in range(rng.randint(1, 4))
    )  # fmt: skip
    boards = (Board("sheet", INCH * rng.randint(6, 8), INCH * rng.randint(6, 8), 3),)
    task = Task(wants, boards, INCH)
    for plan in plan_cuts(task):
        assert not check_plan(task, plan)
