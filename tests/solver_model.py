"""Small tasks answered by a general solver: an exact model of edge-to-edge cuts.

A rectangle of paper is a place in a flow. So many of it are begun or come off larger ones; each is
cut across at some mark into two, is a wanted piece, or is a scrap. Since every cut goes from edge
to edge and any number of stages is allowed, every such flow in whole numbers is a plan, and every
plan is such a flow. Sides are whole numbers of their largest common measure, and every one of
these may be a mark: nothing is left out on purpose.
"""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass
from fractions import Fraction
from functools import reduce
from math import gcd, lcm

import highspy

from model.planning.proving import worth_of
from model.planning.task import Task

_Plate = tuple[str, int, int]


@dataclass(frozen=True)
class Least:
    """The first three figures of the best plan."""

    missing: int
    sheets: int
    scraps: int


def least_by_solver(task: Task) -> Least:
    """The least missing value, with it the fewest sheets, with these the fewest scraps.

    Args:
        task: A task of some dozen marks each way, without a narrowest strip.
    """
    unit = _common_measure(
        [side for each in (*task.wants, *task.boards) for side in (each.width, each.height)]
        + [want.smaller_by for want in task.wants if want.smaller_by]
    )
    solver = highspy.Highs()
    solver.setOptionValue("output_flag", False)
    solver.setOptionValue("mip_rel_gap", 0.0)
    there: dict[_Plate, list] = defaultdict(list)  # what brings a plate into being, less its uses
    sheets, scraps, missing = [], [], []
    plates: set[_Plate] = set()
    for board in task.boards:
        plate = (board.paper, int(board.width / unit), int(board.height / unit))
        begun = solver.addIntegral(lb=0, ub=board.count)
        there[plate].append(begun)
        plates |= {(plate[0], w + 1, h + 1) for w in range(plate[1]) for h in range(plate[2])}
        if not board.left_over:
            sheets.append(begun)
    for paper, w, h in plates:
        plate = (paper, w, h)
        scrap = solver.addIntegral(lb=0)
        scraps.append(scrap)
        there[plate].append(-scrap)
        for at in range(1, w // 2 + 1):
            _cut(solver, there, plate, (paper, at, h), (paper, w - at, h))
        for at in range(1, h // 2 + 1):
            _cut(solver, there, plate, (paper, w, at), (paper, w, h - at))
    for want in task.wants:
        width, height, slack = (int(x / unit) for x in (want.width, want.height, want.smaller_by))
        sizes = {
            (w, h)
            for w in range(width - slack, width + 1)
            for h in range(height - slack, height + 1)
        }
        if want.turnable:
            sizes |= {(h, w) for w, h in sizes}
        without = solver.addIntegral(lb=0, ub=want.count)
        missing.append(worth_of(task, want) * without)
        had = [without]
        for w, h in sizes:
            if (want.paper, w, h) in plates:
                piece = solver.addIntegral(lb=0, ub=want.count)
                there[want.paper, w, h].append(-piece)
                had.append(piece)
        solver.addConstr(solver.qsum(had) == want.count)
    for flows in there.values():
        solver.addConstr(solver.qsum(flows) == 0)
    return Least(*(_settle(solver, terms) for terms in (missing, sheets, scraps)))


def _cut(solver, there, plate: _Plate, one: _Plate, other: _Plate) -> None:
    cuts = solver.addIntegral(lb=0)
    there[plate].append(-cuts)
    there[one].append(cuts)
    there[other].append(cuts)


def _settle(solver, terms: list) -> int:
    """The least that some terms can add up to; from now on they do."""
    if not terms:
        return 0
    total = solver.qsum(terms)
    solver.minimize(total)
    assert solver.getModelStatus() == highspy.HighsModelStatus.kOptimal
    least = round(solver.getObjectiveValue())
    solver.addConstr(total <= least)
    return least


def _common_measure(sides: list[Fraction]) -> Fraction:
    denominator = lcm(*(side.denominator for side in sides))
    return Fraction(reduce(gcd, (int(side * denominator) for side in sides)), denominator)
