"""A plan as it is told, whatever tells it: names, where each piece lies, figures."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from fractions import Fraction

from model.geometry import Box
from model.planning.checking import FIGURES
from model.planning.task import Board, CutPlan, Figure, Figures, Task
from model.planning.wanted import Place, Wanted
from model.planning.wanted_names import PartNames


@dataclass(frozen=True, slots=True)
class ToldSheet:
    """A sheet that is begun.

    Attributes:
        number: The number of its part.
        name: What it is called.
        board: What it is one of.
        ends: Where each part that is not cut again lies on it, upright, by number.
    """

    number: int
    name: str
    board: Board
    ends: Mapping[int, Box]


@dataclass(frozen=True, slots=True)
class Missing:
    """A piece that could not be had as often as it is wanted.

    Attributes:
        name: What it is called.
        count: How many are missing.
        wanted: How many are wanted.
        places: Where the copies are for, all of them.
        must: It must be had.
    """

    name: str
    count: int
    wanted: int
    places: tuple[Place, ...]
    must: bool


@dataclass(frozen=True, slots=True)
class Told:
    """A plan, ready to be told.

    Attributes:
        wanted: What was asked.
        plan: What was answered, in the order of the kit's sheets where there is a kit.
        names: The names of all parts.
        sheets: The sheets that are begun, in order.
        idle: The names of sheets that need not be begun.
        missing: What could not be had.
        cuts: How many cuts there are.
        better: 1 when the plan is better than the author's own loads, -1 when it is worse, 0 when
            their figures are the same; None where there are none of the author's.
    """

    wanted: Wanted
    plan: CutPlan
    names: PartNames
    sheets: tuple[ToldSheet, ...]
    idle: tuple[str, ...]
    missing: tuple[Missing, ...]
    cuts: Figure
    better: int | None

    @property
    def figures(self) -> Figures:
        """The figures of the plan."""
        assert self.plan.figures is not None  # every plan of the search has them
        return self.plan.figures

    @property
    def proved(self) -> bool:
        """Whether every figure is proved least."""
        return all(getattr(self.figures, name).proved for name in FIGURES)


def tell(wanted: Wanted, plan: CutPlan) -> Told:
    """Work out all that is told of a plan.

    Args:
        wanted: What was asked.
        plan: What was answered.
    """
    ordered = _upright(wanted, _in_order(wanted, plan))
    sheets, called = (wanted.sheets, wanted.called) if wanted.kit else (None, None)
    names = PartNames(wanted.task, ordered, sheets, called, wanted.used)
    boards = {board.name: board for board in wanted.task.boards}
    boxes = places_on_sheets(ordered)
    sheet_of = _sheet_of(ordered)
    ends: dict[int, dict[int, Box]] = {number: {} for number, _ in ordered.sheets}
    for number in ordered.parts:
        if number not in names.cut:
            ends[sheet_of[number]][number] = boxes[number]
    begun = tuple(
        ToldSheet(number, _called(names, ordered, number), boards[board], ends[number])
        for number, board in ordered.sheets
    )
    wants = {want.name: want for want in wanted.task.wants}
    missing = tuple(
        Missing(
            wanted.called[name], count, wants[name].count, wanted.places.get(name, ()),
            wants[name].value is None,
        )
        for name, count in ordered.missing.items()
    )  # fmt: skip
    return Told(
        wanted, ordered, names, begun, tuple(_idle(wanted, ordered)), missing,
        _cuts(wanted, ordered), _better(wanted, ordered),
    )  # fmt: skip


def places_on_sheets(plan: CutPlan) -> dict[int, Box]:
    """Where each part lies on its sheet, in the sheet's own frame.

    Each turn is a quarter clockwise, as the table says it: after one, what lies at the held left
    edge is what was at the bottom.

    Args:
        plan: The plan.
    """
    zero = Fraction(0)
    boxes: dict[int, Box] = {}
    quarter: dict[int, int] = {}
    for number, _ in plan.sheets:
        part = plan.parts[number]
        boxes[number], quarter[number] = Box(zero, zero, part.width, part.height), 0
    for load in plan.loads:
        whole, turns = boxes[load.takes], (quarter[load.takes] + load.turned) % 4
        along = whole.h if turns % 2 else whole.w
        edges = (along, *load.marks, zero)
        for number, above, below in zip((*load.gives, load.rest), edges, edges[1:], strict=False):
            boxes[number], quarter[number] = _slice(whole, turns, below, above), turns
    return boxes


def _slice(whole: Box, turns: int, start: Fraction, end: Fraction) -> Box:
    """What lies between two marks, both from the held edge."""
    size = end - start
    if turns == 0:
        return Box(whole.x + start, whole.y, size, whole.h)
    if turns == 1:
        return Box(whole.x, whole.y + whole.h - end, whole.w, size)
    if turns == 2:
        return Box(whole.x + whole.w - end, whole.y, size, whole.h)
    return Box(whole.x, whole.y + start, whole.w, size)


def _sheet_of(plan: CutPlan) -> dict[int, int]:
    """The sheet that each part was cut from."""
    found = {number: number for number, _ in plan.sheets}
    for load in plan.loads:
        found |= dict.fromkeys((*load.gives, load.rest), found[load.takes])
    return found


def _called(names: PartNames, plan: CutPlan, number: int) -> str:
    """A sheet that is a wanted piece as it is needs no name in a kit, but is told by its own."""
    return names.called.get(number) or dict(plan.sheets)[number]


def _in_order(wanted: Wanted, plan: CutPlan) -> CutPlan:
    """The same plan, its sheets begun in the order in which the kit has them.

    The loads of a sheet stay together, so no figure changes.
    """
    if not wanted.kit:
        return plan
    order = {name: at for at, name in enumerate(wanted.replaced)}
    waiting = {board: iter(names) for board, names in wanted.sheets.items()}
    place = {number: order.get(next(waiting[board]), 0) for number, board in plan.sheets}
    sheet_of = _sheet_of(plan)
    return replace(
        plan,
        sheets=tuple(sorted(plan.sheets, key=lambda begun: place[begun[0]])),
        loads=tuple(sorted(plan.loads, key=lambda load: place[sheet_of[load.takes]])),
    )


def _upright(wanted: Wanted, plan: CutPlan) -> CutPlan:
    """The same plan, with square sheets laid upright where it does not matter how they lie.

    What is cut from such a sheet may be turned, so all of it may as well be turned with it.
    """
    wants = {want.name: want for want in wanted.task.wants}
    sheet_of = _sheet_of(plan)
    first: dict[int, bool] = {load.takes: load.turned for load in plan.loads}
    free = {
        number
        for number, _ in plan.sheets
        if plan.parts[number].width == plan.parts[number].height and first.get(number)
    }
    for number, part in plan.parts.items():
        if part.want and not wants[part.want].turnable:
            free.discard(sheet_of[number])
    parts = {
        number: replace(part, upright=not part.upright)
        if sheet_of[number] in free and number not in free
        else part
        for number, part in plan.parts.items()
    }
    loads = tuple(
        replace(load, turned=False) if load.takes in free else load for load in plan.loads
    )
    return replace(plan, parts=parts, loads=loads)


def _idle(wanted: Wanted, plan: CutPlan) -> list[str]:
    whole = {board.name for board in wanted.task.boards if not board.left_over}
    begun = [name for _, name in plan.sheets]
    idle: list[str] = []
    for board, names in wanted.sheets.items():
        if board in whole:
            idle += names[begun.count(board) :]
    return idle


def _cuts(wanted: Wanted, plan: CutPlan) -> Figure:
    """Cuts = pieces + scraps - sheets, so they are least where the scraps are.

    Unless other plans of the same value have other offcuts, or fewer pieces.
    """
    figures, cuts = plan.figures, sum(len(load.marks) for load in plan.loads)
    offcuts = any(board.left_over for board in wanted.task.boards)
    sure = figures is not None and figures.missing.proved and figures.sheets.proved
    if figures is None or not sure or offcuts or not only_musts(wanted.task, plan):
        return Figure(cuts, 0)
    return Figure(cuts, cuts - figures.scraps.value + figures.scraps.least)


def only_musts(task: Task, plan: CutPlan) -> bool:
    """Whether all that is missing must be had: then its value tells how many pieces those are.

    Args:
        task: What was asked.
        plan: What was answered.
    """
    return not any(plan.missing.get(want.name) and want.value is not None for want in task.wants)


def _better(wanted: Wanted, plan: CutPlan) -> int | None:
    yours = wanted.yours
    if yours is None or yours.figures is None or plan.figures is None:
        return None
    ours = [getattr(plan.figures, name).value for name in FIGURES]
    own = [getattr(yours.figures, name).value for name in FIGURES]
    return (ours < own) - (ours > own)
