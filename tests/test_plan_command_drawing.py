"""Sheets drawn in characters, and the table beside them, for any plan and any width."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from model.language import LANGUAGES, phrases_for
from model.length import Unit
from model.planning.task import CutPlan, Figure, Task
from model.planning.wanted import Wanted
from model.planning.wanted_told import Told, tell
from tests.cut_plans import Cutter, board, cut_trees, inches, want, with_figures
from tui.plan_drawing import draw_sheets
from tui.plan_table import Pen, plan_text
from tui.plan_text import cells, columns, cropped, wrapped


def told(task: Task, plan: CutPlan, unit: Unit = Unit.IN) -> Told:
    names = {each.name: (each.name,) * each.count for each in task.boards}
    called = {each.name: each.name for each in task.wants}
    return tell(Wanted(task, unit, "list", names, called), plan)


def pen(width: int = 80, ascii: bool = False, code: str = "en", unit: Unit = Unit.IN) -> Pen:
    return Pen(phrases_for(code).planning, unit, ascii, width)


def two_and_a_scrap() -> Told:
    task = Task((want("mat", 4, 6, 2),), (board("oak", 8, 8),))
    cutter = Cutter(task)
    scrap, left = cutter.cut(cutter.begin("oak"), *inches(6), turned=True)
    cutter.scrap(scrap)
    cutter.want("mat", *cutter.cut(left, *inches(4), turned=True))
    return told(task, cutter.plan())


def test_a_sheet_as_it_is_drawn() -> None:
    assert draw_sheets(two_and_a_scrap(), pen(), 12).split("\n") == [
        "Sheet oak, 8 × 8 in",
        "┌───────────────┬─────┐",
        "│               │/  / │",
        "│      mat      │  /  │",
        "│     4 × 6     │ /  /│",
        "│               │/  / │",
        "│               │scrap│",
        "├───────────────┤2 × 8│",
        "│               │/  / │",
        "│      mat      │  /  │",
        "│     4 × 6     │ /  /│",
        "│               │/  / │",
        "└───────────────┴─────┘",
    ]


def test_ascii_draws_the_same_in_other_characters() -> None:
    fine = draw_sheets(two_and_a_scrap(), pen(), 14)
    plain = draw_sheets(two_and_a_scrap(), pen(ascii=True), 14)
    assert plain.isascii()
    drawn = fine.translate(str.maketrans("┌┐└┘├┤┬┴┼─│×", "+++++++++-|x"))
    assert plain == drawn


def test_pieces_lie_to_scale() -> None:
    rows = draw_sheets(two_and_a_scrap(), pen(), 17).split("\n")[1:]
    assert (len(rows[0]), len(rows)) == (33, 17)
    # Two of eight inches at the right are the scrap; the rest is halved.
    assert [n for n, row in enumerate(rows) if row[0] in "┌├└"] == [0, 8, 16]
    assert rows[0].index("┬") == 24


def test_a_thin_strip_has_a_letter_that_the_legend_explains() -> None:
    task = Task((want("sliver", "1/2", 12, 4), want("rest", 10, 12)), (board("s", 12, 12),))
    cutter = Cutter(task)
    *strips, rest = cutter.cut(cutter.begin("s"), *inches("11 1/2", 11, "10 1/2", 10))
    cutter.want("sliver", *strips)
    cutter.want("rest", rest)
    text = draw_sheets(told(task, cutter.plan()), pen(60), 20)
    assert text.count("sliver") == 1 and "a  sliver (½ × 12)" in text
    assert "│a│a│a│a│" in text
    assert "rest" in text


def test_sheets_that_are_cut_alike_are_drawn_once() -> None:
    task = Task((want("half", 6, 12, 4),), (board("s", 12, 12, 2),))
    cutter = Cutter(task)
    for _ in range(2):
        cutter.want("half", *cutter.cut(cutter.begin("s"), *inches(6)))
    text = draw_sheets(told(task, cutter.plan()), pen(), 20)
    assert text.startswith("Sheets s 1 and s 2, 12 × 12 in, alike\n")
    assert text.count("┌") == 1


@settings(max_examples=80, deadline=None)
@given(cut_trees(), st.integers(20, 120), st.integers(8, 40), st.booleans(),
       st.sampled_from([*LANGUAGES]), st.sampled_from([*Unit]))  # fmt: skip
def test_any_plan_at_any_width(
    tree: tuple[Task, CutPlan], width: int, height: int, ascii: bool, code: str, unit: Unit
) -> None:
    task, plan = tree
    one = told(task, plan, unit)
    ink = pen(width, ascii, code, unit)
    drawn, table = draw_sheets(one, ink, height), plan_text(one, ink)
    assert all(cells(row) <= width for row in (drawn + "\n" + table).split("\n"))
    assert not ascii or (drawn + table).isascii()
    assert "\u00a0" not in table
    # The last load has its row.
    last = len(plan.loads)
    assert not last or re.search(rf"^ *(\d+-)?{last}[. ]", table, re.MULTILINE)


@settings(max_examples=100)
@given(st.text(max_size=60), st.integers(4, 30))
def test_wrapping_keeps_all_letters_and_the_width(text: str, width: int) -> None:
    rows = wrapped(text, width)
    assert "".join(rows).replace(" ", "") == text.replace(" ", "")
    assert all(cells(row) <= width for row in rows)


def test_wide_letters_take_two_cells() -> None:
    assert cells("日本x") == 5
    assert cropped("日本x", 3) == "日"
    assert columns([["a", "b"], ["日本", "x"]], 20) == ["a     b", "日本  x"]


def test_columns_give_up_rather_than_break_a_word() -> None:
    assert columns([["one two", "three"]], 10) == ["one  three", "two"]
    assert columns([["one two", "three"]], 9) is None


def test_a_narrow_terminal_gets_lines_instead_of_columns() -> None:
    text = plan_text(two_and_a_scrap(), pen(30))
    assert "1. sheet oak, 8 × 8" in text
    assert "   marks: 6\n" in text


def test_a_figure_is_called_proved_only_where_it_is() -> None:
    one = two_and_a_scrap()
    figures = one.figures
    sure = replace(figures, scraps=replace(figures.scraps, least=1))
    told_ = replace(one, plan=replace(one.plan, figures=sure))
    rows = plan_text(told_, pen()).split("\n")
    assert any(re.fullmatch(r"scraps +1  proved least", row) for row in rows)
    assert not any(row.startswith("sheets") and "proved" in row for row in rows)


@pytest.mark.parametrize(("sheets", "scraps", "cuts"), [(1, 1, 2), (1, 0, 1), (0, 1, 0)])
def test_cuts_are_as_certain_as_sheets_and_scraps(sheets: int, scraps: int, cuts: int) -> None:
    one = two_and_a_scrap()
    plan = with_figures(one.wanted.task, one.plan, sheets=sheets, scraps=scraps)
    assert tell(one.wanted, plan).cuts == Figure(2, cuts)


@pytest.mark.parametrize("least", [0, 1])
def test_what_is_certain_of_an_unproved_figure_is_told(least: int) -> None:
    one = two_and_a_scrap()
    turns = replace(one.figures.turns, value=3, least=least)
    told_ = replace(one, plan=replace(one.plan, figures=replace(one.figures, turns=turns)))
    row = next(r for r in plan_text(told_, pen()).split("\n") if r.startswith("quarter turns"))
    assert row.endswith("at least 1" if least else "3")


def test_a_sheet_that_is_a_piece_as_it_is_is_told_by_its_own_name() -> None:
    task = Task((want("cover", 8, 8),), (board("oak", 8, 8),))
    cutter = Cutter(task)
    cutter.want("cover", cutter.begin("oak"))
    one = told(task, cutter.plan())
    assert "Sheet oak is cover as it is: no cut." in plan_text(one, pen())
    assert draw_sheets(one, pen(), 20).startswith("Sheet oak, 8 × 8")


def test_pieces_of_the_same_value_prove_neither_their_number_nor_that_of_the_cuts() -> None:
    """Two halves or the whole are worth the same: one is missing or two, with a cut or none."""
    task = Task(
        (want("whole", 8, 8, value=4), want("half", 4, 8, 2, value=2)), (board("oak", 8, 8),)
    )
    cutter = Cutter(task)
    cutter.want("half", *cutter.cut(cutter.begin("oak"), *inches(4)))
    one = told(task, with_figures(task, cutter.plan(whole=1), missing=4, sheets=1))
    assert one.figures.missing.proved and one.cuts == Figure(1, 0)
    rows = plan_text(one, pen()).split("\n")
    assert any(re.fullmatch(r"missing +1  proved most value", row) for row in rows)
    assert any(re.fullmatch(r"cuts +1", row) for row in rows)


def test_what_must_be_had_is_proved_missing_by_number() -> None:
    task = Task((want("half", 4, 8, 3),), (board("oak", 8, 8),))
    cutter = Cutter(task)
    cutter.want("half", *cutter.cut(cutter.begin("oak"), *inches(4)))
    one = told(task, with_figures(task, cutter.plan(half=1), missing=1, sheets=1))
    assert one.cuts == Figure(1, 1)
    assert re.search(r"^missing +1  proved least$", plan_text(one, pen()), re.MULTILINE)
