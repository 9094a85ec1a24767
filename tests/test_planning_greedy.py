"""A plan at once, whatever the limits; and nothing too narrow is ever held."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from planning_cases import hundred_pieces, kit_sized, replayed

from model.planning.blocks import Kind
from model.planning.checking import check_plan
from model.planning.filling import Room, counts_of, sheets_in
from model.planning.greedy import greedy
from model.planning.planner import best_plan, plan_cuts
from model.planning.refilling import Refilling
from model.planning.sheets import fewest_sheets
from model.planning.task import Board, Task, Want
from model.planning.units import TaskError, whole_tasks
from model.planning.work import Work

INCH = F(254, 10)


def many_sorts(sheets, narrowest=F(0)):
    """A hundred and fifty sorts of pieces, two of each: some 68 sheets by area."""
    wants = tuple(
        Want(
            f"piece {n}",
            (1 + n % 9 + F(n % 16, 16)) * INCH,
            (1 + n * 7 % 10 + F(n * 3 % 16, 16)) * INCH,
            2,
        )
        for n in range(150)
    )
    return Task(wants, (Board("sheet", 12 * INCH, 12 * INCH, sheets),), narrowest=narrowest * INCH)


@pytest.mark.parametrize("limit", [{"work": 1}, {"work": 10**9, "seconds": 0.01}, {"seconds": 0.3}])
@pytest.mark.parametrize("narrowest", [F(0), F(3, 4)])
def test_the_first_plan_is_whole_whatever_the_limits(limit, narrowest):
    task = many_sorts(100, narrowest)
    for plan in plan_cuts(task, **limit):
        assert check_plan(task, plan) == ()
        assert not plan.missing
        assert len(plan.sheets) < 90


@pytest.mark.parametrize("limit", [{"work": 1}, {"work": 10**9, "seconds": 0.01}])
def test_where_the_sheets_do_not_do_all_of_them_are_used(limit):
    task = many_sorts(50)
    for plan in plan_cuts(task, **limit):
        assert check_plan(task, plan) == ()
        assert len(plan.sheets) == 50
        assert sum(plan.missing.values()) < 90


def test_a_word_to_stop_still_leaves_a_plan():
    plans = list(plan_cuts(many_sorts(50), cancel=lambda: True))
    assert plans and len(plans[-1].sheets) == 50


def test_what_must_be_had_goes_before_what_is_small():
    must, may = Kind(6, 12, 1, 100), Kind(4, 4, 9, 1)
    filled, left = greedy([must, may], [Room(12, 12, 1)])
    assert left[0] == 0
    assert counts_of(filled[0].block, 2) == [1, 9 - left[1]]


def test_many_small_ones_are_worth_more_than_one_large():
    filled, left = greedy([Kind(12, 12, 1, 1), Kind(6, 6, 4, 1)], [Room(12, 12, 1)])
    assert left == (1, 0)
    assert sheets_in([Room(12, 12, 1)], filled) == 1


sizes = st.integers(1, 12)


@settings(max_examples=60, deadline=None)
@given(
    st.lists(st.tuples(sizes, sizes, st.integers(1, 3)), min_size=1, max_size=5),
    st.integers(2, 6),
    st.integers(1, 3),
    st.integers(1, 30_000),
)
def test_nothing_too_narrow_is_held_in_any_plan(pieces, narrowest, sheets, work):
    task = Task(
        tuple(Want(f"w{n}", F(a), F(b), many) for n, (a, b, many) in enumerate(pieces)),
        (Board("s", F(12), F(12), sheets), Board("o", F(3), F(9), 2, left_over=True)),
        F(1),
        F(narrowest),
    )
    try:
        plans = list(plan_cuts(task, work))
    except TaskError:
        return
    assert plans
    for plan in plans:
        assert [flaw.text() for flaw in check_plan(task, plan)] == []


def test_a_narrowest_strip_hides_no_plan():
    """The quickest layout holds strips that are too narrow; as many sheets do without."""
    for one in kit_sized(8, seed=4):
        narrow = replace(one, narrowest=3 * one.graduation)
        plan = best_plan(narrow, work=200_000)
        replayed(narrow, plan)
        assert not plan.missing
        assert check_plan(narrow, plan) == ()
        free = best_plan(one, work=200_000).figures
        assert plan.figures is not None and free is not None
        assert free.sheets.value <= plan.figures.sheets.value <= free.sheets.value + 1


def test_sheets_emptied_and_filled_anew_hold_what_they_did_not():
    """Drawn; filled one after another, at any prices tried, they leave a piece over."""
    (whole,) = whole_tasks(hundred_pieces(0))
    refilling = Refilling(whole.kinds, whole.rooms, 10, 0)
    work = Work(10**8)
    assert refilling.run(1, work) is None  # one after another
    filled = refilling.run(400, work)
    assert filled is not None
    assert len(filled) == 10
    counts = [counts_of(one.block, len(whole.kinds)) for one in filled]
    assert [sum(of) for of in zip(*counts, strict=True)] == [k.count for k in whole.kinds]


def test_a_task_that_its_area_lets_hope_for_five_sheets_has_five():
    (whole,) = whole_tasks(kit_sized(143)[142])
    *_, last = fewest_sheets(whole.kinds, whole.rooms, Work(3_000_000))
    assert (last.sheets, last.least) == (5, 5)


def test_an_offcut_is_filled_anew_with_the_sheets():
    rooms = [Room(12, 12, 2), Room(4, 6, 1, free=True)]
    kinds = [Kind(4, 6, 13, 1), Kind(5, 7, 0, 1)]
    filled = Refilling(kinds, rooms, 2, 0).run(200, Work(10**7))
    assert filled is not None
    assert sheets_in(rooms, filled) == 2
    assert sum(rooms[one.room].free for one in filled) == 1
