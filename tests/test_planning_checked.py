"""Plans of the search before a checker that shares no code with it; and a search that lies."""

from __future__ import annotations

import random
from dataclasses import replace
from fractions import Fraction

import pytest

from model.planning import bounds, paper
from model.planning.blocks import Block
from model.planning.checking import check_plan
from model.planning.filling import Filled
from model.planning.kitlines import kit_text
from model.planning.placing import Placing
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


def test_a_search_that_is_broken_on_purpose_sees_its_proof_refused(monkeypatch) -> None:
    """Every piece on a sheet of its own, and a bound that calls it the least."""
    task = Task(
        (Want("mat", 4 * INCH, 6 * INCH, 2),), (Board("sheet", 12 * INCH, 12 * INCH, 3),), INCH
    )
    right = best_plan(task)
    assert right.figures is not None and right.figures.sheets == Figure(1, 1)
    each = Filled(0, Block(4, 6, 0, 24, kind=0))
    monkeypatch.setattr(Placing, "at_once", lambda self: (each, each))
    monkeypatch.setattr(paper, "greedy", lambda *_: ((each, each), (0,)))
    monkeypatch.setattr(bounds, "sheets_for", lambda *_: 2)
    monkeypatch.setattr(paper, "exact_small", lambda *_: None)
    wrong = best_plan(task)
    assert wrong.figures is not None and wrong.figures.sheets == Figure(2, 2)
    assert ("false-proof", ("sheets", 2, 1)) in [
        (f.code, f.things) for f in check_plan(task, wrong)
    ]
