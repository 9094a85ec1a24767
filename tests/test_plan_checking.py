"""The independent checker of plans: right ones pass, and one thing wrong is enough."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given, settings

from model.planning import proving
from model.planning.checking import check_plan, count_figures
from model.planning.flaws import CODES, Flaw
from model.planning.proving import prove_small, refuted_by
from model.planning.task import CutPlan, Figure, Part, Task
from tests.cut_plans import (
    GRADUATION,
    INCH,
    Cutter,
    board,
    cut_trees,
    inches,
    want,
    with_figures,
)
from tests.kit_of_plan import replays_on_the_engine


def squares() -> tuple[Task, CutPlan]:
    """A 3 3/4 x 12 strip at 11 1/4, 7 1/2, 3 3/4: three squares, and a scrap 3/4 wide."""
    task = Task((want("square", "3 3/4", "3 3/4", 3),), (board("strip", "3 3/4", 12),))
    cutter = Cutter(task)
    scrap, *made = cutter.cut(
        cutter.begin("strip"), *inches("11 1/4", "7 1/2", "3 3/4"), turned=True
    )
    cutter.scrap(scrap)
    cutter.want("square", *made)
    return task, cutter.plan()


def harbour_half(**more) -> tuple[Task, CutPlan]:
    """A sheet halved, and a half cut into mats: the other half of it is wanted too."""
    task = Task(
        (want("half", 6, 12, turnable=False, paper="print"), want("mat", 4, 6, 3, paper="print")),
        (board("sheet", 12, 12, 2, paper="print"), board("offcut", 3, 3, left_over=True)),
        **more,
    )
    cutter = Cutter(task)
    half, rest = cutter.cut(cutter.begin("sheet"), *inches(6))
    cutter.want("half", half)
    cutter.want("mat", *cutter.cut(rest, *inches(8, 4), turned=True))
    return task, cutter.plan()


def codes(task: Task, plan: CutPlan) -> set[str]:
    return {flaw.code for flaw in check_plan(task, plan)}


def test_a_strip_gives_three_squares_and_a_scrap():
    # Common practice, no source.
    task, plan = squares()
    assert check_plan(task, plan) == ()
    scrap, *made = (plan.parts[n] for n in (*plan.loads[0].gives, plan.loads[0].rest))
    assert (scrap.width, scrap.height) == inches("3/4", "3 3/4")
    assert {(part.width, part.height) for part in made} == {inches("3 3/4", "3 3/4")}
    assert count_figures(task, plan) == {
        "missing": 0, "sheets": 1, "scraps": 1, "reloads": 0, "turns": 0, "settings": 3,
    }  # fmt: skip


def test_a_half_turned_gives_three_mats():
    # Common practice, no source: 6 x 12 turned, marks 8 and 4, is three of 4 x 6.
    task, plan = harbour_half()
    assert check_plan(task, plan) == ()
    assert [plan.parts[n].width for n in plan.loads[1].gives] == list(inches(4, 4))
    assert count_figures(task, plan)["turns"] == 1


def part(plan: CutPlan, number: int, **change) -> CutPlan:
    return replace(plan, parts={**plan.parts, number: replace(plan.parts[number], **change)})


def load(plan: CutPlan, at: int, **change) -> CutPlan:
    loads = list(plan.loads)
    loads[at] = replace(loads[at], **change)
    return replace(plan, loads=tuple(loads))


def marked(*marks: str | int) -> Callable[[CutPlan], CutPlan]:
    return lambda plan: load(plan, 0, marks=inches(*marks))


def claims(**least: int) -> Callable[[CutPlan], CutPlan]:
    task = harbour_half()[0]
    return lambda plan: with_figures(task, plan, **least)


def says(name: str, value: int, least: int = 0) -> Callable[[CutPlan], CutPlan]:
    def change(plan: CutPlan) -> CutPlan:
        assert plan.figures is not None
        return replace(plan, figures=replace(plan.figures, **{name: Figure(value, least)}))

    return change


# In `harbour_half` the sheet is part 1, the half 2, what is cut again 3, the mats 4, 5 and 6.
ONE_CHANGE: dict[str, Callable[[CutPlan], CutPlan]] = {
    "unknown-board": lambda p: replace(p, sheets=((1, "shet"),)),
    "too-many-boards": lambda p: replace(
        p, sheets=((1, "sheet"), (7, "sheet"), (8, "sheet")),
        parts={**p.parts, 7: Part(*inches(12, 12)), 8: Part(*inches(12, 12))},
    ),
    "idle-board": lambda p: replace(
        p, sheets=(*p.sheets, (7, "sheet")), parts={**p.parts, 7: Part(*inches(12, 12))}
    ),
    "unknown-part": lambda p: replace(p, parts={n: p.parts[n] for n in p.parts if n != 5}),
    "never-made": lambda p: replace(p, parts={**p.parts, 7: Part(*inches(1, 1), scrap=True)}),
    "made-twice": lambda p: load(p, 1, gives=(4, 4)),
    "not-there": lambda p: replace(p, loads=p.loads[::-1]),
    "taken-twice": lambda p: load(p, 1, takes=1),
    "no-marks": lambda p: load(p, 1, marks=()),
    "gives-count": lambda p: load(p, 1, gives=(4,)),
    "off-graduation": marked("6 1/32"),
    "outside": marked(12),
    "not-falling": lambda p: load(p, 1, marks=inches(4, 8)),
    "size-differs": lambda p: part(p, 5, width=inches("3 15/16")[0]),
    "upright-differs": lambda p: part(p, 3, upright=False),
    "cut-again": lambda p: part(p, 3, scrap=True),
    "loose": lambda p: part(p, 5, want=""),
    "two-ends": lambda p: part(p, 5, scrap=True),
    "unknown-want": lambda p: part(p, 5, want="matt"),
    "wrong-size": lambda p: part(p, 5, want="half"),
    "count-differs": lambda p: replace(p, missing={"mat": 1}),
    "area-differs": lambda p: part(p, 6, height=inches(5)[0]),
    "cuts-differ": lambda p: part(p, 6, want=""),
    "figure-differs": says("settings", 2),
    "least-above": says("turns", 1, 2),
    "least-below-zero": says("turns", 1, -1),
}  # fmt: skip


@pytest.mark.parametrize("code", ONE_CHANGE)
def test_a_plan_that_is_wrong_in_one_place_is_refused(code):
    task, plan = harbour_half()
    assert code in codes(task, ONE_CHANGE[code](plan))


def two_sheets() -> tuple[Task, CutPlan]:
    """Two boards, each cut in two."""
    task = Task((want("a", 2, 6, 2), want("b", 2, 3, 2)), (board("one", 4, 6), board("two", 4, 3)))
    cutter = Cutter(task)
    for name, piece in (("one", "a"), ("two", "b")):
        cutter.want(piece, *cutter.cut(cutter.begin(name), *inches(2)))
    return task, cutter.plan()


def cut_again_and_again() -> tuple[Task, CutPlan]:
    """Two strips off a sheet, of which the thin one is cut again, then what is left, turned."""
    task = Task(
        (want("a", "1/2", 6, 2), want("b", 2, 12), want("c", "1 1/2", 6, 2)),
        (board("sheet", 4, 12),),
    )
    cutter = Cutter(task)
    thin, b, rest = cutter.cut(cutter.begin("sheet"), *inches("3 1/2", "1 1/2"))
    cutter.want("b", b)
    cutter.want("c", *cutter.cut(rest, *inches(6), turned=True))
    cutter.want("a", *cutter.cut(thin, *inches(6), turned=True))
    return task, cutter.plan()


def task_flaw(code: str) -> tuple[Task, CutPlan]:
    task, plan = harbour_half()
    if code == "name-twice":
        return replace(task, wants=(*task.wants, task.wants[0])), plan
    if code == "no-name":
        return replace(task, wants=(*task.wants, want("", 1, 1))), plan
    return replace(task, graduation=Fraction(0)), plan


def by_the_task(code: str) -> tuple[Task, CutPlan]:
    """A right plan, and a task that is changed so that it no longer is."""
    task, plan = harbour_half()
    half, mat = task.wants
    if code == "wrong-paper":
        return replace(task, wants=(half, replace(mat, paper=""))), plan
    if code == "turned-wrong":
        return replace(task, wants=(replace(half, width=half.height, height=half.width), mat)), plan
    if code == "narrow-mark":
        return replace(task, narrowest=inches("4 1/16")[0]), plan
    task, plan = cut_again_and_again()
    assert check_plan(task, plan) == ()
    return replace(task, narrowest=INCH), plan


OTHERS: dict[str, Callable[[], tuple[Task, CutPlan]]] = {
    "name-twice": lambda: task_flaw("name-twice"),
    "no-name": lambda: task_flaw("no-name"),
    "no-graduation": lambda: task_flaw("no-graduation"),
    "wrong-paper": lambda: by_the_task("wrong-paper"),
    "turned-wrong": lambda: by_the_task("turned-wrong"),
    "narrow-mark": lambda: by_the_task("narrow-mark"),
    "narrow-offcut": lambda: by_the_task("narrow-offcut"),
    "boards-order": lambda: (
        two_sheets()[0], replace(two_sheets()[1], sheets=two_sheets()[1].sheets[::-1])
    ),
    "false-proof": lambda: wasteful(sheets=2),
}  # fmt: skip


@pytest.mark.parametrize("code", OTHERS)
def test_a_plan_that_does_not_answer_its_task_is_refused(code):
    assert code in codes(*OTHERS[code]())


def test_each_code_is_seen_and_can_be_said():
    assert {*ONE_CHANGE, *OTHERS} == CODES
    task, plan = harbour_half()
    cases = [(task, change(plan)) for change in ONE_CHANGE.values()]
    cases += [case() for case in OTHERS.values()]
    said = [flaw.text() for case in cases for flaw in check_plan(*case)]
    assert all("{" not in text and "Fraction" not in text for text in said)
    assert Flaw("outside", 0, inches(12, 12)).text() == (
        "load 1: mark 12 is not inside the part, which measures 12"
    )


def test_a_piece_may_be_smaller_by_what_it_says_and_no_more():
    task, plan = squares()
    (square,) = task.wants
    for slack, found in (("1/4", set()), ("3/16", {"wrong-size"})):
        larger = replace(square, smaller_by=inches(slack)[0], width=inches(4)[0])
        assert codes(replace(task, wants=(larger,)), plan) == found
    smaller = replace(square, smaller_by=INCH, width=inches("3 1/2")[0])
    assert codes(replace(task, wants=(smaller,)), plan) == {"wrong-size"}


def test_a_directional_print_cut_from_a_sheet_on_its_side_is_told_by_the_sheet():
    # 4 x 6 upright on the sheet, though it comes off lying on its side.
    task = Task((want("sign", 4, 6, turnable=False),), (board("sheet", 4, 12),))
    cutter = Cutter(task)
    scrap, sign = cutter.cut(cutter.begin("sheet"), *inches(6), turned=True)
    cutter.want("sign", sign)
    cutter.scrap(scrap)
    assert (cutter.parts[sign].width, cutter.parts[sign].height) == inches(6, 4)
    assert check_plan(task, cutter.plan()) == ()
    sideways = replace(task, wants=(want("sign", 6, 4, turnable=False),))
    assert codes(sideways, cutter.plan()) == {"turned-wrong"}


def test_what_must_be_had_weighs_more_than_all_the_rest():
    task = Task(
        (want("must", 5, 5), want("nice", 1, 1, 3, value=4)),
        (board("sheet", 1, 1, left_over=True),),
    )
    plan = with_figures(task, CutPlan({}, (), (), {"must": 1, "nice": 3}))
    assert check_plan(task, plan) == ()
    assert plan.figures is not None
    assert plan.figures.missing.value == 13 + 12


def test_a_board_may_be_narrower_than_any_strip_worth_holding():
    task = Task((want("a", "1/2", 6, 2),), (board("offcut", "1/2", 12),), narrowest=INCH)
    cutter = Cutter(task)
    cutter.want("a", *cutter.cut(cutter.begin("offcut"), *inches(6), turned=True))
    assert check_plan(task, cutter.plan()) == ()


def test_what_stays_in_hand_is_neither_reloaded_nor_turned():
    task = Task((want("a", 4, 6, 3),), (board("sheet", 12, 6),))
    cutter = Cutter(task)
    a, rest = cutter.cut(cutter.begin("sheet"), *inches(8))
    cutter.want("a", a, *cutter.cut(rest, *inches(4)))
    figures = count_figures(task, cutter.plan())
    assert (figures["reloads"], figures["turns"], figures["settings"]) == (0, 0, 2)


def test_no_fewer_than_none_can_be_missing():
    task, plan = squares()
    (square,) = task.wants
    fewer = replace(plan, missing={"square": -1})
    assert codes(replace(task, wants=(replace(square, count=2),)), fewer) == {"count-differs"}


# Proofs


def wasteful(**least: int) -> tuple[Task, CutPlan]:
    """Two pieces from two sheets, though one sheet has room for both."""
    task = Task((want("mat", 4, 6, 2),), (board("sheet", 12, 12, 2),))
    cutter = Cutter(task)
    for _ in range(2):
        high, rest = cutter.cut(cutter.begin("sheet"), *inches(4))
        wide, mat = cutter.cut(rest, *inches(6), turned=True)
        cutter.scrap(high, wide)
        cutter.want("mat", mat)
    return task, with_figures(task, cutter.plan(), **least)


def test_a_false_proof_is_refused_and_a_modest_claim_is_not():
    task, plan = wasteful(sheets=2)
    assert check_plan(task, plan) == (Flaw("false-proof", None, ("sheets", 2, 1)),)
    assert check_plan(*wasteful(sheets=1)) == ()
    # On two sheets each has two scraps: that is proved, and the claim is believed.
    assert check_plan(*wasteful(scraps=4)) == ()


def test_all_ways_to_cut_a_small_task_are_known():
    # Two 4 x 6 from 12 x 12: end to end they fill 12 x 4, and 12 x 8 is left.
    # One alone, or one on each sheet, leaves a strip beside it and one above.
    assert prove_small(wasteful()[0]).reached == {
        (2, 0): 0, (1, 1): 2, (0, 1): 1, (0, 2): 4,
    }  # fmt: skip
    task, _ = squares()
    small = prove_small(task)
    assert (small.least_missing(), small.least_sheets(0), small.least_scraps(0, 1)) == (0, 1, 1)
    assert small.least_sheets(17) is None


def test_no_edge_to_edge_cut_makes_a_pinwheel():
    # Four 2 x 3 around a 1 x 1 fill 5 x 5, but no cut runs from edge to edge. From memory.
    pinwheel = Task((want("blade", 2, 3, 4), want("hub", 1, 1)), (board("sheet", 5, 5),))
    assert prove_small(pinwheel).least_missing() > 0
    blades = replace(pinwheel, wants=(want("blade", 2, 3, 3), want("hub", 1, 1)))
    assert prove_small(blades).least_missing() == 0


def test_each_paper_is_proved_by_itself():
    red, blue = want("a", 2, 2, paper="red"), want("b", 2, 2, paper="blue")
    both = Task((red, blue), (board("sheet", 4, 2, paper="red"),))
    assert prove_small(both).reached == {(2, 0): 0, (1, 1): 1}
    assert prove_small(replace(both, wants=(blue, red))).reached == {(2, 0): 0, (1, 1): 1}
    assert prove_small(replace(both, wants=(blue,))).reached == {(1, 0): 0}


def test_a_piece_that_is_larger_than_a_board_does_not_come_out_of_it():
    task = Task((want("a", 5, 2), want("b", 2, 2)), (board("sheet", 4, 2), board("strip", 2, 2)))
    assert prove_small(task).least_missing() == 1
    # Two sheets of two sizes: the pair fits on the large one alone.
    pair = Task((want("a", 4, 2, 2),), (board("small", 4, 2), board("large", 4, 4)))
    assert prove_small(pair).reached == {(2, 0): 0, (1, 1): 0, (0, 1): 0, (0, 2): 1}


def test_what_may_be_smaller_is_tried_smaller():
    task = Task((want("mat", 4, 6, 2, smaller_by=INCH / 8),), (board("sheet", "7 7/8", 6),))
    small = prove_small(task)
    assert (small.least_missing(), small.least_scraps(0, 1)) == (0, 0)
    exact = replace(task, wants=(want("mat", 4, 6, 2),))
    assert prove_small(exact).least_missing() == 1


@pytest.mark.parametrize(
    "task",
    [
        Task((want("tag", 1, 1, 8),), (board("sheet", 12, 12),)),
        Task((want("tag", 1, 1),), (board("sheet", 12, 12),), narrowest=INCH),
        Task((want("tag", "1 1/32", 1),), (board("sheet", 12, 12),)),
    ],
)
def test_what_is_not_small_is_left_alone(task):
    assert prove_small(task) is None


def test_it_gives_up_when_the_work_grows(monkeypatch):
    task, plan = wasteful(sheets=2)
    assert prove_small(task, 1) is None
    monkeypatch.setattr(proving, "MOST_PIECES", 1)
    assert check_plan(task, plan) == ()  # nothing is known against it


def reordered(first: bool) -> tuple[Task, CutPlan]:
    """What stays on the bed is cut at once, or later, from the pile."""
    task = Task((want("a", 6, 6, 2), want("b", 6, 4, 3, turnable=False)), (board("sheet", 12, 12),))
    cutter = Cutter(task)
    off, rest = cutter.cut(cutter.begin("sheet"), *inches(6))
    for number, (name, marks) in zip(
        (rest, off) if first else (off, rest), (("a", [6]), ("b", [8, 4])), strict=True
    ):
        cutter.want(name, *cutter.cut(number, *inches(*marks), turned=True))
    return task, cutter.plan()


def test_a_proof_about_reloads_or_turns_that_a_better_order_refutes():
    task, plan = reordered(first=True)
    assert check_plan(task, with_figures(task, plan, reloads=1, turns=1)) == ()
    task, plan = reordered(first=False)
    assert count_figures(task, plan)["reloads"] == 2
    assert check_plan(task, with_figures(task, plan, reloads=2)) == (
        Flaw("false-proof", None, ("reloads", 2, 1)),
    )


def test_a_proof_about_turns_is_refuted_where_a_strip_need_not_be_turned():
    task = Task((want("a", 2, 12, 2), want("b", 4, 6, 2)), (board("sheet", 8, 12),))
    cutter = Cutter(task)
    off, rest = cutter.cut(cutter.begin("sheet"), *inches(4))
    cutter.want("b", *cutter.cut(rest, *inches(6), turned=True))
    cutter.want("a", *cutter.cut(off, *inches(2)))
    plan = with_figures(task, cutter.plan(), reloads=1, turns=1)
    assert check_plan(task, plan) == (Flaw("false-proof", None, ("turns", 1, 0)),)


def test_another_plan_refutes_a_claim_up_to_the_first_figure_that_differs():
    task, plan = reordered(first=False)
    _, better = reordered(first=True)
    claimed = with_figures(task, plan, reloads=2, settings=3)
    assert refuted_by(claimed, better) == (Flaw("false-proof", None, ("reloads", 2, 1)),)
    assert refuted_by(with_figures(task, plan, settings=3), better) == ()
    assert refuted_by(claimed, claimed) == ()


# At random


@given(cut_trees())
@settings(deadline=None)
def test_random_cuts_are_found_right(case):
    assert check_plan(*case) == ()


@given(cut_trees(most_loads=3))
@settings(deadline=None)
def test_no_plan_goes_below_what_is_proved_of_a_small_task(case):
    task, plan = case
    small = prove_small(task)
    if small is None or plan.figures is None:
        return
    missing, sheets = plan.figures.missing.value, plan.figures.sheets.value
    assert small.least_missing() <= missing
    assert small.least_sheets(missing) <= sheets
    assert small.least_scraps(missing, sheets) <= plan.figures.scraps.value


def changes(task: Task, plan: CutPlan) -> Iterator[CutPlan]:
    """The plan, changed in one place after another."""
    for number, was in plan.parts.items():
        for change in (
            {"width": was.width + GRADUATION}, {"height": was.height - GRADUATION},
            {"upright": not was.upright}, {"scrap": not was.scrap}, {"want": ""},
            *({"want": each.name} for each in task.wants),
        ):  # fmt: skip
            yield part(plan, number, **change)
    for at, was in enumerate(plan.loads):
        marks = was.marks
        for n, mark in enumerate(marks):
            for by in (GRADUATION, -GRADUATION, GRADUATION / 2):
                yield load(plan, at, marks=(*marks[:n], mark + by, *marks[n + 1 :]))
        yield load(plan, at, turned=not was.turned)
        yield load(plan, at, marks=marks[:-1])
        yield load(plan, at, gives=(was.rest, *was.gives[1:]), rest=was.gives[0])
        for number in plan.parts:
            yield load(plan, at, takes=number)
            yield load(plan, at, rest=number)
        yield replace(plan, loads=plan.loads[:at] + plan.loads[at + 1 :])
        yield replace(plan, loads=(*plan.loads, was))
        yield replace(plan, loads=(*plan.loads[:at], *plan.loads[at + 1 :], was))
    for name in (each.name for each in task.wants):
        for by in (1, -1):
            yield replace(plan, missing={**plan.missing, name: plan.missing.get(name, 0) + by})
    for at, (number, _) in enumerate(plan.sheets):
        yield replace(plan, sheets=plan.sheets[:at] + plan.sheets[at + 1 :])
        for other in task.boards:
            changed = (*plan.sheets[:at], (number, other.name), *plan.sheets[at + 1 :])
            yield replace(plan, sheets=changed)
    for name in count_figures(task, plan):
        yield says(name, getattr(plan.figures, name).value + 1)(plan)


@given(cut_trees(most_loads=4))
@settings(max_examples=50, deadline=None)
def test_one_change_is_refused_or_makes_a_plan_that_is_as_good(case):
    task, plan = case
    for changed in changes(task, plan):
        if changed != plan and not check_plan(task, changed):
            # What was exchanged is alike, or may come in either order: it works on the table too.
            assert replays_on_the_engine(task, changed)
            assert count_figures(task, changed) == {
                name: getattr(plan.figures, name).value for name in count_figures(task, plan)
            }
