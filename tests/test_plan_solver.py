"""What is proved of small tasks, against a general solver that knows nothing of paper."""

from __future__ import annotations

import os
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from model.planning.checking import check_plan
from model.planning.planner import best_plan
from model.planning.proving import Small, prove_small
from model.planning.task import Board, Task, Want
from model.planning.units import TaskError
from tests.cut_plans import INCH, board, want

pytest.importorskip("highspy", reason="the solver is an extra: pip install '.[solver]'")

from tests.solver_model import Least, least_by_solver

_SIDES = st.integers(1, 6).map(lambda n: n * INCH)
_PAPERS = st.sampled_from(["", "", "blue"])


def _best(small: Small) -> Least:
    missing = small.least_missing()
    sheets = small.least_sheets(missing)
    assert sheets is not None
    scraps = small.least_scraps(missing, sheets)
    assert scraps is not None
    return Least(missing, sheets, scraps)


@st.composite
def small_tasks(draw) -> Task:
    wants = []
    for n in range(draw(st.integers(1, 3))):
        value = draw(st.sampled_from([None, None, 1, 3]))
        slack = draw(st.sampled_from([0, 0, 1])) * INCH
        width, height = draw(_SIDES), draw(_SIDES)
        wants.append(
            Want(f"piece {n}", width, height, draw(st.integers(1, 2)), draw(_PAPERS),
                 draw(st.booleans()), value, min(slack, width - INCH, height - INCH))
        )  # fmt: skip
    boards = tuple(
        Board(f"board {n}", draw(_SIDES), draw(_SIDES), draw(st.integers(1, 3)), draw(_PAPERS),
              draw(st.booleans()))
        for n in range(draw(st.integers(1, 3)))
    )  # fmt: skip
    return Task(tuple(wants), boards, INCH)


@given(small_tasks())
@settings(deadline=None, max_examples=60)
def test_the_solver_finds_what_is_proved(task):
    small = prove_small(task)
    assert small is not None
    assert _best(small) == least_by_solver(task)


def _drawn(seed: int) -> Task:
    random = Random(seed)
    wide, high = random.randint(3, 7), random.randint(3, 7)
    wants = tuple(
        Want(f"piece {n}", random.randint(1, wide) * INCH, random.randint(1, high) * INCH,
             random.randint(1, 3), turnable=random.random() < 0.6,
             value=random.choice([None, None, None, 4]))
        for n in range(random.randint(1, 4))
    )  # fmt: skip
    boards = [Board("sheet", wide * INCH, high * INCH, random.randint(1, 5))]
    if random.random() < 0.3:
        boards.append(Board("offcut", INCH * random.randint(1, wide), INCH * 2, 1, left_over=True))
    return Task(wants, tuple(boards), INCH)


@pytest.mark.parametrize("part", range(10))
def test_plans_are_as_good_as_the_solver_says(part):
    """Sheets and scraps are equal, and proved, on hundreds of random tasks."""
    for seed in range(part, int(os.environ.get("DRYFIT_SOLVED", "300")), 10):
        task = _drawn(seed)
        try:
            plan = best_plan(task)
        except TaskError:  # a piece that is larger than any sheet, and may not be turned
            continue
        assert check_plan(task, plan) == (), seed
        figures = plan.figures
        assert figures is not None
        every = (figures.missing, figures.sheets, figures.scraps)
        assert Least(*(each.value for each in every)) == least_by_solver(task), seed
        assert all(each.proved for each in every), seed


def test_the_solver_knows_the_trade():
    # Common practice, no source: three squares of 3 3/4 from a strip of 12, one scrap.
    task = Task((want("square", "3 3/4", "3 3/4", 3),), (board("strip", "3 3/4", 12),))
    assert least_by_solver(task) == Least(0, 1, 1)
    # Four 2 x 3 around a 1 x 1 fill 5 x 5, but no cut runs from edge to edge. From memory.
    pinwheel = Task((want("blade", 2, 3, 4), want("hub", 1, 1)), (board("sheet", 5, 5, 2),))
    assert least_by_solver(pinwheel).sheets == 2
