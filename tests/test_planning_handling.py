"""Reloads, turns and marks: the bounds against going through every way to cut."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F
from itertools import combinations
from random import Random

import pytest

from model.planning.checking import check_plan
from model.planning.handling import Handling, least_handling
from model.planning.planner import best_plan
from model.planning.task import Board, Figure, Task, Want
from model.planning.units import TaskError


def ways(width, height, pieces, known):
    """Every way to cut a part into these pieces: scraps, reloads, turns, whether it is cut.

    Cuts at every whole number. A load is a run of parallel cuts; of its parts that are cut again
    one is what stays, and is turned, the others come from the pile.
    """
    key = (width, height, pieces)
    if key not in known:
        found = {(1, 0, 0, False)} if not pieces else set()
        if len(pieces) == 1 and pieces[0] in ((width, height), (height, width)):
            found.add((0, 0, 0, False))
        if pieces and sum(w * h for w, h in pieces) <= width * height:
            for across in (True, False):
                found |= rows(width, height, pieces, across, known)
        known[key] = _best(found)
    return known[key]


def rows(width, height, pieces, across, known):
    """As `ways`, but the part is cut in parallel: its first part, and then the others."""
    runs = strips(width, height, pieces, across, known, first=True)
    return {
        (scraps, max(again - 1, 0) + reloads, (again > 0) + turns, True)
        for scraps, again, reloads, turns in runs
    }


def strips(width, height, pieces, across, known, first=False):
    key = (width, height, pieces, across, first)
    if key in known:
        return known[key]
    found = set()
    side = width if across else height
    for cut in range(1, side + 1 - first):
        for size in range(len(pieces) + 1):
            for chosen in combinations(range(len(pieces)), size):
                some = tuple(pieces[n] for n in chosen)
                others = tuple(p for n, p in enumerate(pieces) if n not in chosen)
                if (cut == side) != (not others and cut == side):
                    continue
                here = (cut, height) if across else (width, cut)
                rest = (width - cut, height) if across else (width, height - cut)
                ends = strips(*rest, others, across, known) if cut < side else {(0, 0, 0, 0)}
                if not ends:
                    continue
                # What is in it is cut the other way: else it would be the same load.
                mine = set(_inner(*here, some, across, known))
                found |= {
                    (a + d, b + e, c + f, g + h) for a, b, c, g in mine for d, e, f, h in ends
                }
    known[key] = _best(found)
    return known[key]


def _inner(width, height, pieces, across, known):
    found = {(1, 0, 0, 0)} if not pieces else set()
    if len(pieces) == 1 and pieces[0] in ((width, height), (height, width)):
        found.add((0, 0, 0, 0))
    if pieces and sum(w * h for w, h in pieces) <= width * height:
        found |= {(s, 1, r, t) for s, r, t, _ in rows(width, height, pieces, not across, known)}
    return found


def _best(found):
    return {
        one
        for one in found
        if not any(
            all(a <= b for a, b in zip(two, one, strict=True)) and two != one for two in found
        )
    }


def least(width, height, pieces, sheets, known):
    """Fewest scraps, then reloads, then turns, from so many sheets that each give a piece."""
    reached = {pieces: {(0, 0, 0)}}
    for _ in range(sheets):
        grown = {}
        for left, costs in reached.items():
            for size in range(1, len(left) + 1):
                for chosen in combinations(range(len(left)), size):
                    some = tuple(left[n] for n in chosen)
                    rest = tuple(p for n, p in enumerate(left) if n not in chosen)
                    for a, b, c, _ in ways(width, height, some, known):
                        grown.setdefault(rest, set()).update(
                            (a + d, b + e, c + f) for d, e, f in costs
                        )
        reached = grown
    return min(reached.get((), ()), default=None)


def drawn(seed):
    random = Random(seed)
    wide, high = random.randint(2, 4), random.randint(2, 5)
    pieces = [
        (random.randint(1, wide), random.randint(1, high)) for _ in range(random.randint(2, 4))
    ]
    wants = tuple(
        Want(f"piece {w} x {h}", F(w), F(h), pieces.count((w, h))) for w, h in sorted(set(pieces))
    )
    return Task(wants, (Board("sheet", F(wide), F(high), 4),), F(1)), wide, high, pieces


@pytest.mark.parametrize("part", range(4))
def test_no_bound_is_above_what_going_through_every_way_finds(part):
    told = 0
    for seed in range(part, 200, 4):
        task, wide, high, pieces = drawn(seed)
        try:
            plan = best_plan(task, work=100_000)
        except TaskError:
            continue
        assert check_plan(task, plan) == ()
        figures = plan.figures
        assert figures is not None
        found = least(wide, high, tuple(sorted(pieces)), len(plan.sheets), {})
        assert found is not None
        if not figures.scraps.proved:
            continue
        assert found[0] == figures.scraps.value, seed
        assert figures.reloads.least <= found[1] <= figures.reloads.value, seed
        if found[1] == figures.reloads.value:
            assert figures.turns.least <= found[2] <= figures.turns.value, seed
        told += figures.turns.least > 0
    assert told > 5


def test_eight_tags_need_a_turn_in_each_sheet_or_a_reload():
    # By hand: no tag is as long as the sheet, so every sheet is cut across too.
    task = Task((Want("tag", F(6), F(6), 8),), (Board("sheet", F(12), F(12), 2),), F(1))
    figures = best_plan(task).figures
    assert figures is not None
    # No scrap: what comes off first is cut again, so one half of each comes from the pile.
    assert figures.reloads == Figure(2, 2)
    assert figures.turns.value == 2


def test_a_strip_and_a_half_turn_nothing():
    task = Task((Want("strip", F(2), F(12), 6),), (Board("sheet", F(12), F(12), 2),), F(1))
    figures = best_plan(task).figures
    assert figures is not None
    assert figures.reloads == figures.turns == Figure(0, 0)


def test_a_reload_may_stand_in_for_a_turn():
    # Two sheets of tags are cut across, whichever way the strips are taken up.
    task = Task((Want("tag", F(6), F(6), 8),), (Board("sheet", F(12), F(12), 2),), F(1))
    assert least_handling(task, 2, 0, 6, 1, 9).turns == 1
    assert least_handling(task, 2, 0, 6, 2, 9).turns == 0
    assert least_handling(task, 2, 2, 8, 5, 9).reloads == 0
    assert least_handling(task, 2, 0, 6, 2, 2).settings == 1
    assert least_handling(task, 2, 0, 7, 2, 2).settings == 2
    offcut = replace(task, boards=(*task.boards, Board("o", F(6), F(6), 1, left_over=True)))
    assert least_handling(offcut, 2, 0, 6, 1, 9) == Handling()
