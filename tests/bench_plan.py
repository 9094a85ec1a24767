"""The parts of the benchmark about planning cuts: kit-sized tasks, and a hundred pieces."""

from __future__ import annotations

import resource
import subprocess
import sys
import time
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, field
from math import ceil
from statistics import median
from typing import Any

from model.planning.checking import check_plan
from model.planning.planner import plan_cuts
from model.planning.task import CutPlan, Task
from tests.bench_parts import Row, at_most
from tests.bench_terminal import ROOT
from tests.edge_layouts import Placed, comes_apart, least_scraps, lies_well
from tests.planning_cases import evenly_drawn, hundred_pieces, kit_sized

_SECONDS = 1.0
_SEED = 1
_TEN_SECONDS = 10.0


@dataclass(slots=True)
class _Ours:
    """What the planner gives within the time.

    Attributes:
        plan: The last plan.
        first: Seconds to the first plan.
        proved: Seconds until the sheets were proved least; None where they were not.
        whole: Seconds to the end.
    """

    plan: CutPlan
    first: float
    proved: float | None
    whole: float

    @property
    def sheets(self) -> int:
        return len(self.plan.sheets)

    @property
    def cuts(self) -> int:
        return sum(len(load.marks) for load in self.plan.loads)


def _planned(task: Task, seconds: float) -> _Ours:
    first = proved = None
    begin = time.perf_counter()
    for plan in plan_cuts(task, work=10**9, seconds=seconds):
        now = time.perf_counter() - begin
        first = now if first is None else first
        assert plan.figures is not None
        if proved is None and plan.figures.sheets.proved:
            proved = now
    whole = time.perf_counter() - begin
    flaws = check_plan(task, plan)
    if flaws or plan.missing:
        raise RuntimeError(f"a plan is wrong: {[flaw.text() for flaw in flaws]} {plan.missing}")
    assert first is not None
    return _Ours(plan, first, proved, whole)


@dataclass(slots=True)
class _Theirs:
    """The best of rectpack's layouts of one task, and how many were fit to be compared.

    Attributes:
        sheets: Of the best.
        cuts: Of the best.
        layouts: Layouts looked at.
        unfit: Those that do not come apart edge to edge, or have pieces over one another.
        seen: What is known of a sheet's layout: whether it is fit, and the scraps it leaves.
    """

    sheets: int = 0
    cuts: int = 0
    layouts: int = 0
    unfit: int = 0
    seen: dict[frozenset[Placed], int] = field(default_factory=dict)

    def offer(self, bins: list[list[Placed]], pieces: int, width: int, height: int) -> None:
        """Look at a layout; keep it if it is fit and the best so far."""
        self.layouts += 1
        sheets = [frozenset(placed) for placed in bins]
        if any(
            not lies_well(sheet, len(placed), width, height) or not comes_apart(sheet)
            for sheet, placed in zip(sheets, bins, strict=True)
        ):
            self.unfit += 1
            return
        if self.sheets and len(sheets) > self.sheets:
            return
        scraps = 0
        for sheet in sheets:
            if sheet not in self.seen:
                found = least_scraps(sheet, width, height)
                assert found is not None  # it comes apart
                self.seen[sheet] = found
            scraps += self.seen[sheet]
        cuts = pieces + scraps - len(sheets)
        if not self.sheets or (len(sheets), cuts) < (self.sheets, self.cuts):
            self.sheets, self.cuts = len(sheets), cuts


def _packers(rectpack: Any) -> Iterator[Any]:
    """Every edge-to-edge packer of rectpack, with every order and every choice of a sheet."""
    names = sorted(name for name in vars(rectpack) if name.startswith("Guillotine"))
    sorts = sorted(name for name in vars(rectpack) if name.startswith("SORT_"))
    bins = rectpack.PackingBin
    for name in names:
        algorithm = getattr(rectpack, name)
        for sort in sorts:
            for choice in (bins.BNF, bins.BFF, bins.BBF):
                yield rectpack.newPacker(
                    bin_algo=choice, pack_algo=algorithm, sort_algo=getattr(rectpack, sort)
                )
        yield rectpack.newPacker(bin_algo=bins.Global, pack_algo=algorithm)


def _packed(rectpack: Any, task: Task) -> _Theirs:
    (board,) = task.boards
    width, height = (int(side / task.graduation) for side in (board.width, board.height))
    pieces = [
        (int(want.width / task.graduation), int(want.height / task.graduation))
        for want in task.wants
        for _ in range(want.count)
    ]
    wanted = Counter(tuple(sorted(piece)) for piece in pieces)
    best = _Theirs()
    for packer in _packers(rectpack):
        packer.add_bin(width, height, count=len(pieces))
        for piece in pieces:
            packer.add_rect(*piece)
        packer.pack()
        bins = [
            [(r.x, r.y, r.x + r.width, r.y + r.height) for r in sheet] for sheet in packer if sheet
        ]
        placed = Counter(tuple(sorted((p[2] - p[0], p[3] - p[1]))) for sheet in bins for p in sheet)
        if placed == wanted:  # else it lost a piece
            best.offer(bins, len(pieces), width, height)
    return best


def _share(what: str, part: int, whole: int, goal: float) -> Row:
    said = f"{100 * part / whole:.1f} %  ({part} of {whole})"
    return Row(what, said, f">= {100 * goal:g} %", part >= goal * whole)


def plan(cases: int) -> list[Row]:
    """Plan kit-sized tasks within a second each, beside the best of rectpack's layouts.

    A layout's cuts are its pieces and scraps less its sheets, with the fewest scraps that any order
    of edge-to-edge cuts through the layout as it lies leaves (`tests.edge_layouts`).

    Args:
        cases: How many tasks.
    """
    tasks = kit_sized(cases, seed=_SEED)
    ours = [_planned(task, _SECONDS) for task in tasks]
    done = [each.proved for each in ours if each.proved is not None and each.proved <= _SECONDS]
    times = [_SECONDS if each.proved is None else each.proved for each in ours]
    rows = [
        _share("fewest sheets proved within 1 s", len(done), cases, 0.95),
        at_most("until they are proved, median", median(times), 0.1, "s"),
        Row("until the first plan, median and most",
            f"{median(e.first for e in ours):.3f} s, {max(e.first for e in ours):.3f} s"),
        Row("until the search ends, median and most",
            f"{median(e.whole for e in ours):.2f} s, {max(e.whole for e in ours):.2f} s"),
    ]  # fmt: skip
    scraps = sum(e.plan.figures is not None and e.plan.figures.scraps.proved for e in ours)
    rows.append(Row("fewest scraps proved too", f"{100 * scraps / cases:.1f} %"))
    for name in ("reloads", "turns"):
        sure = sum(getattr(e.plan.figures, name).proved for e in ours)
        rows.append(Row(f"fewest {name} proved too", f"{100 * sure / cases:.1f} %"))
    try:
        import rectpack
    except ImportError:
        return [*rows, Row("beside rectpack", "not measured: pip install '.[bench]' brings it")]
    theirs = [_packed(rectpack, task) for task in tasks]
    return rows + _beside(ours, theirs)


def _beside(ours: list[_Ours], theirs: list[_Theirs]) -> list[Row]:
    pairs = list(zip(ours, theirs, strict=True))
    layouts, unfit = (sum(getattr(t, name) for t in theirs) for name in ("layouts", "unfit"))
    more = [n for n, (a, b) in enumerate(pairs) if a.sheets > b.sheets]
    sheets = sum(a.sheets for a in ours), sum(b.sheets for b in theirs)
    alike = [(n, a, b) for n, (a, b) in enumerate(pairs) if a.sheets == b.sheets]
    longer = [n for n, a, b in alike if a.cuts > b.cuts]
    cuts = sum(a.cuts for _, a, _ in alike), sum(b.cuts for _, _, b in alike)
    return [
        Row("rectpack's layouts that are not edge to edge", f"{unfit:,} of {layouts:,}, left out"),
        Row("tasks with more sheets than its best", f"{len(more)} {more or ''}", "0", not more),
        Row("sheets in all", f"{sheets[0]} against {sheets[1]}", "fewer", sheets[0] < sheets[1]),
        Row(f"more cuts on as many sheets ({len(alike)} tasks)", f"{len(longer)} {longer or ''}",
            "0", not longer),
        Row("cuts in all on as many sheets", f"{cuts[0]} against {cuts[1]}", "fewer",
            cuts[0] < cuts[1]),
    ]  # fmt: skip


def plan10(draws: int) -> list[Row]:
    """Ten sheets by area, each draw in a process of its own, ten seconds each.

    The goal is measured against the whole sheets that the area needs. First a hundred pieces, small
    ones drawn more; then as many as an even draw like in `plan` takes to need ten sheets.

    Args:
        draws: How many draws of each.
    """
    return [
        _ten_sheets(how, seed)
        for how in ("hundred_pieces", "evenly_drawn")
        for seed in range(draws)
    ]


def _ten_sheets(how: str, seed: int) -> Row:
    code = f"from tests.bench_plan import one_draw; one_draw({how!r}, {seed})"
    done = subprocess.run(
        [sys.executable, "-c", code], cwd=ROOT, capture_output=True, text=True, check=True
    )
    pieces, sheets, least, area, seconds, memory = (float(word) for word in done.stdout.split())
    over = 100 * (sheets / ceil(area) - 1)
    return Row(
        f"draw {seed}, {pieces:.0f} pieces: over the whole sheets of their area",
        f"{over:.1f} %  ({sheets:.0f}, {least:.0f} proved; area {area:.2f};"
        f" {seconds:.1f} s, {memory:.0f} MiB)",
        "<= 10 %, 10 s, 300 MiB",
        10 * sheets <= 11 * ceil(area) and seconds <= 10.5 and memory <= 300,
    )


def one_draw(how: str, seed: int) -> None:
    """Plan one draw, and print its figures, for `plan10`.

    Args:
        how: Who draws it.
        seed: Which draw.
    """
    task = {"hundred_pieces": hundred_pieces, "evenly_drawn": evenly_drawn}[how](seed)
    (board,) = task.boards
    found = _planned(task, _TEN_SECONDS)
    pieces = sum(want.count for want in task.wants)
    area = sum(want.count * want.width * want.height for want in task.wants)
    assert found.plan.figures is not None
    memory = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    least = found.plan.figures.sheets.least
    share = float(area / board.width / board.height)
    print(pieces, found.sheets, least, share, found.whole, memory)
