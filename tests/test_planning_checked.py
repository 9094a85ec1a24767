"""Plans of the search before a checker that shares no code with it; and a search that lies."""

from __future__ import annotations

import random
from dataclasses import replace
from fractions import Fraction

import pytest

from model.planning.checking import check_plan
from model.planning.kitlines import kit_text
from model.planning.planner import best_plan
from model.planning.task import Board, Figure, Task, Want
from model.reading import read_kit

INCH = Fraction(254, 10)


def small_task(seed: int, narrowest: int = 0) -> Task:
    """A few pieces out of one or two sheets, on a coarse grid, so that all ways can be tried."""
    draw = random.Random(seed)
    wide, high = draw.randint(4, 9), draw.randint(4, 9)
    wants = tuple(
        Want(
            f"piece {number}",
            draw.randint(1, wide) * INCH,
            draw.randint(1, high) * INCH,
            draw.randint(1, 2),
            turnable=draw.random() < 0.6,
            value=draw.choice([None, None, 5]),
        )
        for number in range(draw.randint(1, 3))
    )
    board = Board("sheet", wide * INCH, high * INCH, draw.randint(1, 4))
    return Task(wants, (board,), INCH, narrowest * INCH)


@pytest.mark.parametrize("seed", range(60))
def test_the_checker_finds_no_flaw_in_what_the_search_found(seed: int) -> None:
    task = small_task(seed, narrowest=seed % 3 == 2)
    plan = best_plan(task, work=200_000)
    assert [flaw.text() for flaw in check_plan(task, plan)] == []


@pytest.mark.parametrize("seed", range(12))
def test_a_search_that_claims_too_much_is_refused(seed: int) -> None:
    """One sheet more than is needed, called the least there can be."""
    task = small_task(seed)
    plan = best_plan(task, work=200_000)
    figures = plan.figures
    assert figures is not None
    false = replace(figures, sheets=Figure(figures.sheets.value, figures.sheets.value + 1))
    assert check_plan(task, replace(plan, figures=false))


def test_a_plan_runs_at_the_table_as_it_is() -> None:
    """Three mats of 4 x 6 and a strip out of a 12 x 12 sheet, as a kit that has no mistake."""
    task = Task(
        (Want("mat", 4 * INCH, 6 * INCH, 3), Want("strip", INCH, 12 * INCH)),
        (Board("A", 12 * INCH, 12 * INCH),),
    )
    plan = best_plan(task, work=200_000)
    assert check_plan(task, plan) == ()
    read = read_kit(kit_text(task, plan))
    assert read.plan is not None, read.findings
    made = [item.name for item in read.plan.items.values() if item.name in ("mat", "strip")]
    assert sorted(made) == ["mat", "mat", "mat", "strip"]
