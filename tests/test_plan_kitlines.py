"""A plan of cuts written as a kit: the table's own engine makes the same of it."""

from __future__ import annotations

import tomllib
from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from model.length import Unit, parse_length
from model.plan import Role
from model.planning.checking import check_plan
from model.planning.kitlines import kit_lines, kit_text
from model.planning.task import Board, CutPlan, Task, Want
from model.reading import read_kit
from tests.cut_plans import INCH, Cutter, board, cut_trees, inches, want
from tests.kit_of_plan import read_plan, replays_on_the_engine


def three_rows(name: str = "row", sheet: str = "sheet") -> tuple[Task, CutPlan]:
    """A scrap off a sheet, then three rows that are cut alike, one after another."""
    task = Task((want(name, 4, 6, 6),), (board(sheet, "12 1/2", 12),))
    cutter = Cutter(task)
    scrap, *rows = cutter.cut(cutter.begin(sheet), *inches(12, 8, 4))
    cutter.scrap(scrap)
    for row in rows[::-1]:
        cutter.want(name, *cutter.cut(row, *inches(6), turned=True))
    return task, cutter.plan()


def test_the_tables_of_a_plan():
    task, plan = three_rows()
    assert check_plan(task, plan) == ()
    assert kit_lines(task, plan, papers={"": "oak"}) == (
        '[[sheet]]\nname = "sheet"\npaper = "oak"\nsize = "12 1/2 x 12"\n\n'
        '[[piece]]\nname = "row"\nto = "6 to page 1"\nsize = "4 x 6"\nturnable = true\n\n'
        '[[step]]\ntrim = "sheet"\nmarks = ["12", "8", "4"]\n'
        'gives = ["scrap", { name = "strip 1", count = 2 }]\nrest = "strip 1"\n\n'
        '[[step]]\ntrim = "strip 1"\ntimes = 3\nturn = "quarter"\nmarks = ["6"]\n'
        'gives = "row"\nrest = "row"\n'
    )


def test_what_is_cut_otherwise_has_a_name_of_its_own():
    task, plan = three_rows()
    first, second, *others = plan.loads
    made = [replace(plan.parts[n], width=w) for n, w in zip((6, 7), inches(7, 5), strict=True)]
    task = replace(task, wants=(want("row", 4, 6, 4), want("a", 4, 7), want("b", 4, 5)))
    parts = {**plan.parts, 6: replace(made[0], want="a"), 7: replace(made[1], want="b")}
    plan = replace(
        plan, parts=parts, loads=(first, replace(second, marks=inches(5)), *others), figures=None
    )
    assert check_plan(task, plan) == ()
    steps = tomllib.loads(kit_lines(task, plan))["step"]
    assert [step["trim"] for step in steps] == ["sheet", "strip 2", "strip 1"]
    assert [step.get("times") for step in steps] == [None, None, 2]
    assert steps[0]["gives"] == ["scrap", {"name": "strip 1", "count": 2}]
    assert replays_on_the_engine(task, plan)


@given(cut_trees(), st.sampled_from(Unit))
@settings(deadline=None)
def test_random_cuts_replay_on_the_engine_of_the_table(case, unit):
    task, plan = case
    assert replays_on_the_engine(task, plan, unit)
    kit = read_plan(task, plan, unit)
    names = [item.name for item in kit.items.values() if item.role is Role.PIECE]
    missing = sum(plan.missing.values())
    assert len(names) + missing == sum(each.count for each in task.wants)
    cuts = sum(len(load.marks) for load in plan.loads)
    assert sum(len(load) for load in kit.loads.values()) == cuts


def test_strips_that_are_cut_into_strips_that_are_alike_go_together_too():
    # Two halves, each cut into two rows, each row into two: the rows are alike across the halves.
    task = Task((want("tag", 3, 2, 8),), (board("sheet", 12, 4),))
    cutter = Cutter(task)
    halves = cutter.cut(cutter.begin("sheet"), *inches(6))
    rows = [row for half in halves for row in cutter.cut(half, *inches(2), turned=True)]
    for row in rows:
        cutter.want("tag", *cutter.cut(row, *inches(3), turned=True))
    plan = cutter.plan()
    assert check_plan(task, plan) == ()
    steps = tomllib.loads(kit_lines(task, plan))["step"]
    assert [(step["trim"], step.get("times")) for step in steps] == [
        ("sheet", None), ("strip 1", 2), ("strip 2", 4),
    ]  # fmt: skip
    assert replays_on_the_engine(task, plan)


def test_a_step_is_repeated_as_often_as_a_kit_allows_and_no_more():
    # 102 rows in two loads of 50 marks each: more than one step may say in one.
    task = Task((want("chip", 1, 1, 204),), (board("roll", 51, 2, 2),))
    cutter = Cutter(task)
    rows: list[int] = []
    for _ in range(2):
        rows += cutter.cut(cutter.begin("roll"), *inches(*range(50, 0, -1)))
    for row in rows:
        cutter.want("chip", *cutter.cut(row, *inches(1), turned=True))
    plan = cutter.plan()
    steps = tomllib.loads(kit_lines(task, plan))["step"]
    assert [step.get("times") for step in steps[2:]] == [2, 100]
    assert replays_on_the_engine(task, plan)


AWKWARD = ["scrap", "Scrap", "strip 1", "a/b #2", "two\nlines", " ", "x" * 200, '"quoted" \\ back']


@pytest.mark.parametrize("name", AWKWARD)
@pytest.mark.parametrize("sheet", [*AWKWARD, "same"])
def test_awkward_names_and_names_used_twice(name, sheet):
    task, plan = three_rows("same" if sheet == "same" else name, sheet)
    assert replays_on_the_engine(task, plan)


def test_sheets_alike_are_numbered_and_papers_are_kept():
    task = Task(
        (want("a", 6, 12, 2, paper="red"), want("b", 6, 12, 4, paper="blue")),
        (board("sheet", 12, 12, 1, paper="red"), board("sheet 1", 12, 12, 2, paper="blue")),
    )
    cutter = Cutter(task)
    for name, piece in (("sheet 1", "b"), ("sheet", "a"), ("sheet 1", "b")):
        cutter.want(piece, *cutter.cut(cutter.begin(name), *inches(6)))
    kit = read_plan(task, cutter.plan())
    assert kit.order == ("sheet 1 1", "sheet", "sheet 1 2")
    papers = {item.name: item.paper.name for item in kit.items.values() if item.kind}
    assert papers == {"a": "red", "b": "blue"}


def test_a_board_that_is_wanted_as_it_is_is_packed_ready_made():
    task = Task((want("mat", 4, 6, 3),), (board("offcut", 4, 6), board("sheet", 8, 6)))
    cutter = Cutter(task)
    cutter.want("mat", cutter.begin("offcut"))
    cutter.want("mat", *cutter.cut(cutter.begin("sheet"), *inches(4)))
    kit = read_plan(task, cutter.plan())
    assert kit.wanted == (3,)
    assert kit.order == ("sheet",)
    only = Task((want("mat", 4, 6),), (board("offcut", 4, 6),))
    alone = Cutter(only)
    alone.want("mat", alone.begin("offcut"))
    assert read_plan(only, alone.plan()).wanted == (1,)


def test_pieces_go_where_they_are_said_to_go():
    task, plan = three_rows()
    kit = read_plan(task, plan, to={"row": "2 to page 1, 4 to 3·4"}, pages=4)
    assert kit.wanted == (2, 4)
    assert read_plan(task, plan, pages=4).wanted == (6, 0)


def test_a_directional_piece_keeps_its_width_and_height():
    task = Task((want("sign", 4, 6, 2, turnable=False),), (board("sheet", 4, 12),))
    cutter = Cutter(task)
    cutter.want("sign", *cutter.cut(cutter.begin("sheet"), *inches(6), turned=True))
    kit = read_plan(task, cutter.plan())
    assert kit.kit.kinds["sign"].turnable is False
    assert kit.kit.kinds["sign"].size == inches(4, 6)


@pytest.mark.parametrize("unit", Unit)
def test_lengths_are_exact_in_every_unit(unit):
    odd = (Fraction(210), INCH * Fraction(7, 64), Fraction(1, 3), Fraction(241, 10))
    for length in odd:
        high = Fraction(50)
        task = Task(
            (Want("bit", length, high),),
            (Board("sheet", length + 1, high),),
            graduation=length / 7,
        )
        cutter = Cutter(task)
        scrap, bit = cutter.cut(cutter.begin("sheet"), length)
        cutter.want("bit", bit)
        cutter.scrap(scrap)
        assert replays_on_the_engine(task, cutter.plan(), unit)
        mark = tomllib.loads(kit_text(task, cutter.plan(), unit=unit))["step"][0]["marks"][0]
        assert parse_length(mark, unit) == length


def test_a_length_that_no_kit_can_hold_is_said():
    task = Task((Want("bit", Fraction(1, 9973 * 9967), INCH),), (board("sheet", 1, 1),))
    cutter = Cutter(task)
    scrap, bit = cutter.cut(cutter.begin("sheet"), task.wants[0].width)
    cutter.want("bit", bit)
    cutter.scrap(scrap)
    with pytest.raises(ValueError, match="can't be written exactly"):
        kit_text(task, cutter.plan())


_Load = tuple[bool, tuple[Fraction, ...], list[str]]


def trimmed(
    task: Task, boards: list[str], loads: list[_Load], marks: tuple[Fraction, ...]
) -> CutPlan:
    """Boards cut alike, then what they gave, part by part, each by one of the loads.

    A load is told by whether it is turned, its marks, and what becomes of its parts.
    """
    cutter = Cutter(task)
    rows = [row for name in boards for row in cutter.cut(cutter.begin(name), *marks)]
    for row, (turned, at, ends) in zip(rows, loads, strict=True):
        for number, end in zip(cutter.cut(row, *at, turned=turned), ends, strict=True):
            if end:
                cutter.want(end, number)
            else:
                cutter.scrap(number)
    plan = cutter.plan()
    assert check_plan(task, plan) == ()
    return plan


def times(task: Task, plan: CutPlan) -> list[int]:
    assert replays_on_the_engine(task, plan)
    return [step.get("times", 1) for step in tomllib.loads(kit_lines(task, plan))["step"]]


def test_strips_of_two_lengths_are_two_kinds_though_cut_at_one_mark():
    task = Task((want("a", 2, 6, 4),), (board("seven", 4, 7, left_over=True), board("eight", 4, 8)))
    plan = trimmed(task, ["seven", "eight"], [(True, inches(6), ["", "a"])] * 4, inches(2))
    assert times(task, plan) == [1, 1, 2, 2]


def test_strips_of_which_other_things_become_are_two_kinds():
    task = Task((want("a", 2, 6, 3), want("b", 2, 6, turnable=False)), (board("sheet", 4, 12),))
    ends = [(True, inches(6), ["a", "a"]), (True, inches(6), ["a", "b"])]
    assert times(task, trimmed(task, ["sheet"], ends, inches(2))) == [1, 1, 1]


def test_strips_that_are_cut_at_other_marks_are_two_kinds():
    task = Task((want("a", 2, 6, 2, smaller_by=INCH),), (board("sheet", 4, 12),))
    loads = [(True, inches(6), ["", "a"]), (True, inches(5), ["", "a"])]
    assert times(task, trimmed(task, ["sheet"], loads, inches(2))) == [1, 1, 1]


def test_strips_of_two_papers_are_two_kinds_even_if_all_of_them_is_thrown_away():
    task = Task(
        (want("a", 1, 4, paper="red"), want("b", 1, 4, paper="blue")),
        (board("one", 3, 4, paper="red"), board("two", 3, 4, paper="blue")),
    )
    cutter = Cutter(task)
    strips = []
    for name, piece in (("one", "a"), ("two", "b")):
        off, rest = cutter.cut(cutter.begin(name), *inches(1))
        cutter.want(piece, rest)
        strips.append(off)
    for strip in strips:
        cutter.scrap(*cutter.cut(strip, *inches(1)))
    plan = cutter.plan()
    assert check_plan(task, plan) == ()
    assert times(task, plan) == [1, 1, 1, 1]


def test_strips_that_lie_otherwise_on_their_sheets_are_two_kinds():
    # On a paper that has an up they would be of two sizes.
    task = Task((want("a", 2, 3, 8),), (board("tall", 4, 6), board("wide", 6, 4)))
    cutter = Cutter(task)
    strips = cutter.cut(cutter.begin("tall"), *inches(2))
    strips += cutter.cut(cutter.begin("wide"), *inches(2), turned=True)
    for strip in strips:
        cutter.want("a", *cutter.cut(strip, *inches(3), turned=True))
    plan = cutter.plan()
    assert check_plan(task, plan) == ()
    assert times(task, plan) == [1, 1, 2, 2]
    text = kit_text(task, plan).replace(
        'colour = "white" }', 'colour = "white" }\ndirectional = true'
    )
    assert read_kit(text).findings == ()
