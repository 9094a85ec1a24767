"""Cases for the planner: published ones, and kit-sized ones that are drawn."""

from __future__ import annotations

import json
import os
from collections import Counter
from fractions import Fraction
from pathlib import Path
from random import Random
from typing import Any

from model.planning.blocks import Block, Kind, pieces_of
from model.planning.task import Board, CutPlan, Task, Want

QUARTER = Fraction(127, 20)
"""A quarter of an inch, in mm."""

# What a kit is made of, in quarters of an inch: mats, strips, halves and tags.
_DRAWN = (
    (14, 20), (16, 24), (17, 25), (20, 28), (32, 40),
    (2, 48), (4, 48), (6, 48), (11, 48),
    (24, 48), (24, 24),
    (8, 8), (9, 13), (10, 14), (15, 23),
)  # fmt: skip


def published() -> dict[str, list[dict[str, Any]]] | None:
    """The published cases, from the folder that DRYFIT_CASES names; None where it is not set."""
    folder = os.environ.get("DRYFIT_CASES")
    if not folder:
        return None
    found: dict[str, list[dict[str, Any]]] = json.loads(
        (Path(folder) / "edge_to_edge.json").read_text(encoding="utf-8")
    )
    return found


def kit_sized(cases: int, seed: int = 1, pieces: tuple[int, int] = (5, 25)) -> list[Task]:
    """Drawn tasks on sheets of 12 x 12 in."""
    random = Random(seed)
    found = []
    for _ in range(cases):
        drawn = Counter(random.choice(_DRAWN) for _ in range(random.randint(*pieces)))
        wants = tuple(
            Want(f"piece {wide} x {high}", wide * QUARTER, high * QUARTER, count)
            for (wide, high), count in sorted(drawn.items())
        )
        sheet = Board("sheet", 48 * QUARTER, 48 * QUARTER, 40)
        found.append(Task(wants, (sheet,), QUARTER))
    return found


def hundred_pieces(seed: int, sheets: int = 10) -> Task:
    """A hundred pieces whose area needs so many sheets of 12 x 12 in; small ones are drawn more."""
    random = Random(seed)
    weights = [1 / (wide * high) for wide, high in _DRAWN]
    while True:
        drawn = Counter(random.choices(_DRAWN, weights, k=100))
        if sheets - 1 < _sheets_of(drawn) <= sheets:
            return _on_sheets(drawn)


def evenly_drawn(seed: int, sheets: int = 10) -> Task:
    """Pieces drawn like `kit_sized`, until their area needs so many sheets."""
    random = Random(seed)
    while True:
        drawn: Counter[tuple[int, int]] = Counter()
        while _sheets_of(drawn) <= sheets - 1:
            drawn[random.choice(_DRAWN)] += 1
        if _sheets_of(drawn) <= sheets:
            return _on_sheets(drawn)


def _sheets_of(drawn: Counter[tuple[int, int]]) -> Fraction:
    return Fraction(sum(wide * high * count for (wide, high), count in drawn.items()), 48 * 48)


def _on_sheets(drawn: Counter[tuple[int, int]]) -> Task:
    wants = tuple(
        Want(f"piece {wide} x {high}", wide * QUARTER, high * QUARTER, count)
        for (wide, high), count in sorted(drawn.items())
    )
    return Task(wants, (Board("sheet", 48 * QUARTER, 48 * QUARTER, 40),), QUARTER)


def laid(block: Block, kinds: list[Kind]) -> tuple[int, int]:
    """The size of a block, worked out anew from its pieces; each must lie as it may."""
    if block.first is None or block.second is None:
        kind = kinds[block.kind]
        size = (kind.height, kind.width) if block.turned else (kind.width, kind.height)
        assert kind.turnable or not block.turned
        return size
    (a, b), (c, d) = laid(block.first, kinds), laid(block.second, kinds)
    return (a + c, max(b, d)) if block.across else (max(a, c), b + d)


def value_of(block: Block, kinds: list[Kind], width: int, height: int) -> int:
    """The value of a block's pieces, once it is sure that they fit and are not too many."""
    wide, high = laid(block, kinds)
    assert wide <= width and high <= height
    counts = Counter(piece.kind for piece in pieces_of(block))
    assert all(count <= kinds[kind].count for kind, count in counts.items())
    return sum(kinds[kind].value * count for kind, count in counts.items())


def replayed(task: Task, plan: CutPlan) -> None:
    """Cut a plan load by load: what comes off must be what it says, and every piece be had."""
    boards = {board.name: board for board in task.boards}
    begun = Counter(name for _, name in plan.sheets)
    assert all(count <= boards[name].count for name, count in begun.items())
    here = {}
    for number, name in plan.sheets:
        here[number] = (boards[name].width, boards[name].height, True)
    area = sum(wide * high for wide, high, _ in here.values())
    for load in plan.loads:
        wide, high, upright = here.pop(load.takes)
        if load.turned:
            wide, high, upright = high, wide, not upright
        assert list(load.marks) == sorted(set(load.marks), reverse=True)
        for number, mark in zip(load.gives, load.marks, strict=True):
            assert 0 < mark < wide and mark / task.graduation % 1 == 0
            here[number] = (wide - mark, high, upright)
            wide = mark
        here[load.rest] = (wide, high, upright)
    assert sum(wide * high for wide, high, _ in here.values()) == area
    wants = {want.name: want for want in task.wants}
    had = Counter[str]()
    for number, (wide, high, upright) in here.items():
        part = plan.parts[number]
        assert (part.width, part.height, part.upright) == (wide, high, upright)
        assert part.scrap != bool(part.want)
        if part.want:
            want = wants[part.want]
            size = (wide, high) if upright else (high, wide)
            assert size == (want.width, want.height) or (
                want.turnable and size == (want.height, want.width)
            )
            had[part.want] += 1
    for want in task.wants:
        assert had[want.name] + plan.missing.get(want.name, 0) == want.count
