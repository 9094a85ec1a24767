"""Plans: they can be cut as they stand, and say what they know."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F
from time import monotonic

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from planning_cases import QUARTER, kit_sized, replayed

from model.planning.planner import best_plan, plan_cuts
from model.planning.task import Board, Task, Want
from model.planning.units import TaskError

SHEET = Board("sheet", F(12), F(12), 3)


def task(*wants: Want, boards: tuple[Board, ...] = (SHEET,)) -> Task:
    return Task(wants, boards, F(1))


@pytest.mark.parametrize("one", kit_sized(12, seed=5))
def test_a_plan_can_be_cut_and_yields_every_piece(one):
    plans = list(plan_cuts(one, work=200_000))
    for plan in plans:
        replayed(one, plan)
        assert not plan.missing
        figures = plan.figures
        assert figures is not None
        cuts = sum(len(load.marks) for load in plan.loads)
        pieces = sum(want.count for want in one.wants)
        assert cuts == pieces + figures.scraps.value - len(plan.sheets)
        for name in figures.__slots__:
            assert getattr(figures, name).least <= getattr(figures, name).value
    assert plans == list(plan_cuts(one, work=200_000))


def test_a_sheet_of_four_is_two_loads_a_hand():
    plan = best_plan(task(Want("quarter", F(6), F(6), 4)))
    replayed(task(Want("quarter", F(6), F(6), 4)), plan)
    figures = plan.figures
    assert figures is not None
    # Halves first; one half is turned on the bed, the other comes from the pile.
    assert (figures.scraps.value, figures.reloads.value, figures.turns.value) == (0, 1, 1)
    assert figures.sheets.proved and figures.scraps.proved


def test_a_print_is_not_turned():
    up = task(Want("print", F(12), F(5), 2, turnable=False), boards=(Board("s", F(12), F(10)),))
    replayed(up, best_plan(up))
    across = task(Want("print", F(5), F(12), 2, turnable=False), boards=(Board("s", F(12), F(10)),))
    with pytest.raises(TaskError, match="print"):
        best_plan(across)


def test_what_is_worth_most_is_had_first():
    one = task(
        Want("must", F(6), F(12)), Want("dear", F(6), F(6), 1, value=9),
        Want("cheap", F(6), F(12), 1, value=8), boards=(Board("s", F(12), F(12)),),
    )  # fmt: skip
    plan = best_plan(one)
    replayed(one, plan)
    assert plan.missing == {"cheap": 1}
    assert plan.figures is not None
    assert plan.figures.missing.value == plan.figures.missing.least == 8


def test_a_mat_may_be_a_little_smaller():
    one = Task((Want("mat", F(41, 8), F(5), smaller_by=F(1, 4)),), (SHEET,), F(1, 4))
    plan = best_plan(one)
    assert {(part.width, part.height) for part in plan.parts.values() if part.want} <= {
        (F(5), F(5))
    }


def test_nothing_too_narrow_is_held():
    one = Task(
        (Want("strip", F(1), F(6), 3), Want("mat", F(4), F(4), 2)),
        (Board("s", F(12), F(12), 2),),
        F(1),
        narrowest=F(2),
    )
    plan = best_plan(one)
    replayed(one, plan)
    assert not plan.missing
    for load in plan.loads:
        part = plan.parts[load.takes]
        assert min(part.width, part.height) >= 2
        assert min(load.marks) >= 2


@pytest.mark.parametrize(
    ("change", "says"),
    [
        ({"wants": (Want("vast", F(13), F(13)),)}, "vast: .*larger than any"),
        ({"boards": ()}, "mat: there is no sheet"),
        ({"boards": (replace(SHEET, count=0),)}, "mat: there is no sheet"),
        ({"wants": (Want("none", F(2), F(2), 0),)}, "none: the count is 0"),
        ({"wants": (Want("odd", F(5, 2), F(2)),)}, "odd: 2.50 x 2 mm is not a whole"),
        ({"wants": (Want("flat", F(0), F(2)),)}, "flat: both sides"),
        ({"wants": (Want("mat", F(2), F(2)), Want("mat", F(3), F(2)))}, "two .* named mat"),
        ({"wants": (Want("grey", F(2), F(2), paper="grey"),)}, "grey: there is no sheet of grey"),
        ({"wants": (Want("many", F(2), F(2), 5000),)}, "many: 5000 are wanted"),
        ({"boards": (replace(SHEET, width=F(25, 2)),)}, "sheet: 12.50 x 12 mm is not a whole"),
        ({"graduation": F(0)}, "graduation"),
        ({"graduation": F(-1)}, "graduation"),
        ({"graduation": F(1, 10**6)}, "sheet: .*graduation that fine"),
        ({"narrowest": F(-1)}, "narrowest"),
        ({"narrowest": F(13)}, "mat: every sheet is narrower than the narrowest strip"),
        ({"boards": (SHEET, SHEET)}, "two papers at hand are named sheet"),
        ({"boards": (replace(SHEET, count=-1),)}, "sheet: the count is -1"),
        ({"wants": (Want("", F(2), F(2)),)}, "no name"),
        ({"wants": (Want("gift", F(2), F(2), value=0),)}, "gift: the value must be more"),
        ({"wants": (Want("less", F(2), F(2), -3),)}, "less: the count is -3"),
        ({"wants": (Want("vastly", F(2), F(2), 10**9),)}, "vastly: 1000000000 are wanted"),
        (
            {"wants": tuple(Want(f"kind {n}", F(1), F(2)) for n in range(1000))},
            "1000 different pieces .* kind 0 to kind 999",
        ),
    ],
)
def test_what_cannot_be_planned_is_named(change, says):
    one = replace(task(Want("mat", F(4), F(4))), **change)
    with pytest.raises(TaskError, match=says):
        best_plan(one)


@pytest.mark.parametrize("limit", [{"work": 1}, {"work": 20_000}, {"seconds": 0.05}])
def test_whatever_the_limit_a_large_task_has_a_plan_soon_that_lacks_nothing(limit):
    # Two hundred kinds, a billion sheets: the limits only say how good the plan is.
    wants = tuple(Want(f"kind {n}", F(20 + n), F(30 + n % 17), 2) for n in range(200))
    one = Task(wants, (Board("sheet", F(300), F(300), 10**9),), F(1))
    begin = monotonic()
    plan = best_plan(one, **limit)
    assert monotonic() - begin < 20  # some 1 s; a hang is what it is about
    replayed(one, plan)
    assert not plan.missing


def test_a_sheet_wanted_as_it_is_may_be_narrower_than_the_narrowest():
    whole = replace(task(Want("whole", F(12), F(12))), narrowest=F(13))
    assert not best_plan(whole).missing


def test_too_few_sheets_say_what_is_missing():
    one = task(Want("half", F(6), F(12), 5), boards=(replace(SHEET, count=2),))
    plan = best_plan(one)
    replayed(one, plan)
    assert plan.missing == {"half": 1}
    assert plan.figures is not None and plan.figures.missing.proved


def test_a_word_stops_it_with_a_plan_in_hand():
    one = kit_sized(1, seed=9)[0]
    plans = list(plan_cuts(one, cancel=lambda: True))
    assert plans
    for plan in plans:
        replayed(one, plan)


def test_a_hundred_pieces_come_close_to_the_area():
    one = kit_sized(1, seed=3, pieces=(100, 100))[0]
    plan = best_plan(one, work=1_000_000, seconds=20)
    replayed(one, plan)
    area = sum(want.count * want.width * want.height for want in one.wants)
    assert plan.figures is not None
    assert plan.figures.sheets.value <= float(area / (48 * QUARTER) ** 2) * 1.1 + 1


sides = st.integers(1, 8)


@settings(max_examples=50, deadline=None)
@given(
    st.lists(
        st.tuples(sides, sides, st.integers(1, 2), st.sampled_from([None, 1, 5])),
        min_size=1,
        max_size=4,
    ),
    st.integers(1, 3),
    st.integers(1, 50_000),
)
def test_area_is_kept_and_no_piece_is_lost(pieces, count, work):
    one = Task(
        tuple(Want(f"w{n}", F(a), F(b), many, value=v) for n, (a, b, many, v) in enumerate(pieces)),
        (Board("s", F(8), F(8), count), Board("o", F(3), F(5), 1, left_over=True)),
        F(1),
    )
    for plan in plan_cuts(one, work):
        replayed(one, plan)
