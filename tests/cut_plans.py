"""Plans of cuts made by hand, or at random, with no help from any search."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

from hypothesis import strategies as st

from model.planning.checking import count_figures
from model.planning.task import Board, CutPlan, Figure, Figures, Part, PlannedLoad, Task, Want

INCH = Fraction(127, 5)
GRADUATION = INCH / 16


def inches(*numbers: str | int) -> tuple[Fraction, ...]:
    """``"9 1/2"`` and 8, in mm."""
    return tuple(sum((Fraction(p) for p in str(n).split()), Fraction(0)) * INCH for n in numbers)


def want(name: str, width: str | int, height: str | int, count: int = 1, **more) -> Want:
    return Want(name, *inches(width, height), count, **more)


def board(name: str, width: str | int, height: str | int, count: int = 1, **more) -> Board:
    return Board(name, *inches(width, height), count, **more)


class Cutter:
    """Cuts paper and writes down what it does."""

    def __init__(self, task: Task) -> None:
        self.task = task
        self.parts: dict[int, Part] = {}
        self.sheets: list[tuple[int, str]] = []
        self.loads: list[PlannedLoad] = []

    def begin(self, name: str) -> int:
        paper = next(each for each in self.task.boards if each.name == name)
        number = self._add(Part(paper.width, paper.height))
        self.sheets.append((number, name))
        return number

    def cut(self, part: int, *marks: Fraction, turned: bool = False) -> list[int]:
        """The offcuts by number, and what is left."""
        taken = self.parts[part]
        along, across = taken.width, taken.height
        if turned:
            along, across = across, along
        edges = (along, *marks, Fraction(0))
        made = [
            self._add(Part(above - below, across, taken.upright ^ turned))
            for above, below in pairwise(edges)
        ]
        self.loads.append(PlannedLoad(part, turned, marks, tuple(made[:-1]), made[-1]))
        return made

    def want(self, name: str, *parts: int) -> None:
        for part in parts:
            self.parts[part] = replace(self.parts[part], want=name)

    def scrap(self, *parts: int) -> None:
        for part in parts:
            self.parts[part] = replace(self.parts[part], scrap=True)

    def plan(self, **missing: int) -> CutPlan:
        return with_figures(
            self.task,
            CutPlan(dict(self.parts), tuple(self.sheets), tuple(self.loads), missing),
        )

    def _add(self, part: Part) -> int:
        self.parts[len(self.parts) + 1] = part
        return len(self.parts)


def with_figures(task: Task, plan: CutPlan, **least: int) -> CutPlan:
    """A plan with its figures, which claims nothing but what is named."""
    values = count_figures(task, plan)
    figures = {name: Figure(value, least.get(name, 0)) for name, value in values.items()}
    return replace(plan, figures=Figures(**figures))


def upright_size(part: Part) -> tuple[Fraction, Fraction]:
    return (part.width, part.height) if part.upright else (part.height, part.width)


_ROUND = st.integers(1, 12)


@st.composite
def cut_trees(draw, most_loads: int = 7) -> tuple[Task, CutPlan]:
    """A task, and a plan that cuts just its pieces, by random edge-to-edge cuts."""
    boards = tuple(
        Board(f"board {n + 1}", draw(_ROUND) * INCH, draw(_ROUND) * INCH, draw(st.integers(1, 2)),
              draw(st.sampled_from(["", "blue"])), draw(st.booleans()))
        for n in range(draw(st.integers(1, 2)))
    )  # fmt: skip
    unit = draw(st.sampled_from([INCH, INCH / 2, GRADUATION]))
    cutter = Cutter(Task((), boards))
    sheet: dict[int, int] = {}
    papers: dict[int, str] = {}
    loose: list[int] = []
    unbegun = [each for each in boards for _ in range(each.count)]
    for _ in range(draw(st.integers(1, most_loads))):
        if unbegun and (not loose or draw(st.booleans())):
            begun = unbegun.pop(draw(st.integers(0, len(unbegun) - 1)))
            part = cutter.begin(begun.name)
            sheet[part], papers[part] = part, begun.paper
        elif loose:
            part = loose.pop(draw(st.sampled_from([-1, -1, len(loose) // 2])))
        else:
            break
        turned = draw(st.booleans())
        along = cutter.parts[part].height if turned else cutter.parts[part].width
        room = int(along / unit) - (along / unit == int(along / unit))
        if room < 1:
            loose.append(part)
            continue
        # Even cuts give parts that are alike, as people cut them.
        step = draw(st.integers(1, room))
        even = [n * step for n in range(room // step, 0, -1)]
        some = st.lists(st.integers(1, room), min_size=1, max_size=3, unique=True)
        at = draw(st.one_of(some, st.just(even[:4])))
        made = cutter.cut(part, *(n * unit for n in sorted(at, reverse=True)), turned=turned)
        sheet |= dict.fromkeys(made, sheet[part])
        loose += made
    wants: dict[tuple[Fraction, Fraction, str], str] = {}
    used: set[int] = set()  # of each sheet that is begun something is wanted
    for part in loose:
        key = (*upright_size(cutter.parts[part]), papers[sheet[part]])
        if sheet[part] in used and draw(st.integers(0, 3)) == 0:
            cutter.scrap(part)
        else:
            cutter.want(wants.setdefault(key, f"piece {len(wants) + 1}"), part)
        used.add(sheet[part])
    made = Counter(part.want for part in cutter.parts.values())
    missing = {name: draw(st.integers(0, 1)) for name in wants.values()}
    task = Task(
        tuple(
            Want(name, *key[:2], made[name] + missing[name], key[2], draw(st.booleans()),
                 draw(st.sampled_from([None, 1, 5])), draw(st.sampled_from([0, 1])) * GRADUATION)
            for key, name in wants.items()
        ),
        boards,
    )  # fmt: skip
    cutter.task = task
    first = [load.takes for load in cutter.loads]
    cutter.sheets.sort(key=lambda each: first.index(each[0]) if each[0] in first else len(first))
    return task, cutter.plan(**missing)
