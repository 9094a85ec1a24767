"""An independent checker: replays a plan load by load, and believes nothing that it says.

It shares no code with the search, nor with the engine of cuts that the table runs on.
"""

from __future__ import annotations

from collections import Counter
from fractions import Fraction

from model.planning.flaws import Flaw
from model.planning.proving import refuted_claims, worth_of
from model.planning.task import Board, CutPlan, Part, PlannedLoad, Task, Want

__all__ = ["Flaw", "check_plan", "count_figures"]

FIGURES = ("missing", "sheets", "scraps", "reloads", "turns", "settings")
"""The names of the figures in the order of their weight."""


def check_plan(task: Task, plan: CutPlan) -> tuple[Flaw, ...]:
    """Everything that is wrong with a plan.

    Args:
        task: What was asked.
        plan: What was answered.

    Returns:
        The flaws in the order of the work; none for a plan that is right and claims no more than
        can be believed.
    """
    doubtful = _task_flaws(task)
    if doubtful:
        return tuple(doubtful)
    replay = _Replay(task, plan)
    replay.run()
    flaws = replay.flaws
    if plan.figures is not None and not flaws:
        flaws = [*_figure_flaws(task, plan), *refuted_claims(task, plan)]
    return tuple(flaws)


def count_figures(task: Task, plan: CutPlan) -> dict[str, int]:
    """The figures of a plan, counted from its loads.

    Args:
        task: What was asked.
        plan: What was answered, right in all else.

    Returns:
        The value of each figure by its name.
    """
    whole = {board.name for board in task.boards if not board.left_over}
    begun = {number for number, _ in plan.sheets}
    out = Counter(part.want for part in plan.parts.values() if part.want)
    reloads = turns = 0
    in_hand: int | None = None
    for load in plan.loads:
        if load.takes == in_hand:
            turns += load.turned
        elif load.takes not in begun:
            reloads += 1
        in_hand = load.rest
    return {
        "missing": sum(
            worth_of(task, want) * max(0, want.count - out[want.name]) for want in task.wants
        ),
        "sheets": sum(name in whole for _, name in plan.sheets),
        "scraps": sum(part.scrap for part in plan.parts.values()),
        "reloads": reloads,
        "turns": turns,
        "settings": len({mark for load in plan.loads for mark in load.marks}),
    }


def _task_flaws(task: Task) -> list[Flaw]:
    """What makes a task itself impossible to check against."""
    flaws = [Flaw("no-name") for want in task.wants if not want.name]
    for names in ([want.name for want in task.wants], [board.name for board in task.boards]):
        flaws += [Flaw("name-twice", None, (name,)) for name, n in Counter(names).items() if n > 1]
    if task.graduation <= 0:
        flaws.append(Flaw("no-graduation", None, (task.graduation,)))
    return flaws


def _figure_flaws(task: Task, plan: CutPlan) -> list[Flaw]:
    """Figures that are not those of the loads, or claim what can't be."""
    flaws: list[Flaw] = []
    counted = count_figures(task, plan)
    for name in FIGURES:
        figure = getattr(plan.figures, name)
        if figure.value != counted[name]:
            flaws.append(Flaw("figure-differs", None, (name, figure.value, counted[name])))
        elif figure.least > figure.value:
            flaws.append(Flaw("least-above", None, (name, figure.value, figure.least)))
        if figure.least < 0:
            flaws.append(Flaw("least-below-zero", None, (name, figure.least)))
    return flaws


def _on(length: Fraction, graduation: Fraction) -> bool:
    return (length / graduation).denominator == 1


class _Replay:
    """The work, done again on paper: what each part really is."""

    def __init__(self, task: Task, plan: CutPlan) -> None:
        self.task, self.plan = task, plan
        self.wants = {want.name: want for want in task.wants}
        self.boards = {board.name: board for board in task.boards}
        self.names = dict(plan.sheets)
        self.flaws: list[Flaw] = []
        self.real: dict[int, Part] = {}
        self.sheet: dict[int, int] = {}
        self.taken: set[int] = set()
        self.offcuts: set[int] = set()
        self.load: int | None = None

    def tell(self, code: str, *things: int | str | Fraction) -> None:
        self.flaws.append(Flaw(code, self.load, things))

    def run(self) -> None:
        self.begin()
        for number, load in enumerate(self.plan.loads):
            self.load = number
            self.cut(load)
        self.load = None
        self.check_begun()
        for part in self.plan.parts:
            if part not in self.real:
                self.tell("never-made", part)
        for part in self.real:
            if part in self.plan.parts:
                self.check_end(part)
        self.check_counts()
        self.check_sums()

    def begin(self) -> None:
        """Lay out the boards that are begun."""
        for number, name in self.plan.sheets:
            board = self.boards.get(name)
            if board is None:
                self.tell("unknown-board", name)
                continue
            self.make(number, Part(board.width, board.height), number)
        for name, count in Counter(name for _, name in self.plan.sheets).items():
            board = self.boards.get(name)
            if board is not None and count > board.count:
                self.tell("too-many-boards", name, count, board.count)

    def make(self, number: int, real: Part, sheet: int) -> None:
        """A part comes into being; what is said of it is compared."""
        if number in self.real:
            self.tell("made-twice", number)
            return
        self.real[number], self.sheet[number] = real, sheet
        said = self.plan.parts.get(number)
        if said is None:
            self.tell("unknown-part", number)
            return
        if (said.width, said.height) != (real.width, real.height):
            self.tell(
                "size-differs", number, said.width, said.height, real.width, real.height
            )  # fmt: skip
        if said.upright != real.upright:
            self.tell("upright-differs", number)

    def cut(self, load: PlannedLoad) -> None:
        """One load."""
        if not load.marks:
            self.tell("no-marks", load.takes)
        if len(load.gives) != len(load.marks):
            self.tell("gives-count", len(load.marks), len(load.gives))
        part = self.real.get(load.takes)
        if part is None:
            self.tell("not-there", load.takes)
            return
        if load.takes in self.taken:
            self.tell("taken-twice", load.takes)
        self.taken.add(load.takes)
        if load.takes in self.offcuts and part.width < self.task.narrowest:
            self.tell("narrow-offcut", load.takes, part.width)
        along, across = (part.height, part.width) if load.turned else (part.width, part.height)
        self.check_marks(load.marks, along)
        upright = part.upright != load.turned
        for number, (above, mark) in zip(
            load.gives, zip((along, *load.marks), load.marks, strict=False), strict=False
        ):
            self.make(number, Part(above - mark, across, upright), self.sheet[load.takes])
            self.offcuts.add(number)
        left = load.marks[-1] if load.marks else along
        self.make(load.rest, Part(left, across, upright), self.sheet[load.takes])

    def check_marks(self, marks: tuple[Fraction, ...], along: Fraction) -> None:
        above: Fraction | None = None
        for mark in marks:
            if not _on(mark, self.task.graduation):
                self.tell("off-graduation", mark)
            if not 0 < mark < along:
                self.tell("outside", mark, along)
            elif above is not None and mark >= above:
                self.tell("not-falling", mark, above)
            if mark < self.task.narrowest:
                self.tell("narrow-mark", mark, self.task.narrowest)
            above = mark

    def check_begun(self) -> None:
        """Every board that is begun is used, in the order that is said."""
        parts = self.plan.parts
        used = {self.sheet[n] for n in self.real if n in parts and parts[n].want}
        for number, name in self.plan.sheets:
            if number not in used:
                self.tell("idle-board", name)
        said_order = [number for number, _ in self.plan.sheets if number in self.taken]
        order = dict.fromkeys(load.takes for load in self.plan.loads if load.takes in self.names)
        for number, said_number in zip(order, said_order, strict=False):
            if number != said_number:
                self.tell("boards-order", self.names[number])
                break

    def check_end(self, number: int) -> None:
        """What becomes of a part."""
        said, real = self.plan.parts[number], self.real[number]
        if number in self.taken:
            if said.want or said.scrap:
                self.tell("cut-again", number)
            return
        if said.want and said.scrap:
            self.tell("two-ends", number)
        elif not said.want and not said.scrap:
            self.tell("loose", number)
        if not said.want:
            return
        want = self.wants.get(said.want)
        if want is None:
            self.tell("unknown-want", said.want)
            return
        paper = self.boards[self.names[self.sheet[number]]].paper
        if paper != want.paper:
            self.tell("wrong-paper", number, want.name, paper)
        as_printed = (real.width, real.height) if real.upright else (real.height, real.width)
        straight, sideways = _fits(as_printed, want), _fits(as_printed[::-1], want)
        if not straight and not sideways:
            self.tell("wrong-size", number, want.name, *as_printed)
        elif not straight and not want.turnable:
            self.tell("turned-wrong", number, want.name)

    def check_counts(self) -> None:
        """Every wanted piece comes out once, or is said to be missing."""
        out = Counter(part.want for part in self.plan.parts.values() if part.want)
        for name in self.plan.missing:
            if name not in self.wants:
                self.tell("unknown-want", name)
        for want in self.task.wants:
            missing = self.plan.missing.get(want.name, 0)
            if missing < 0 or out[want.name] + missing != want.count:
                self.tell("count-differs", want.name, want.count, out[want.name], missing)

    def check_sums(self) -> None:
        """Nothing of the paper is lost or gained, and each cut makes one more piece of it."""
        begun = [self.boards[name] for _, name in self.plan.sheets if name in self.boards]
        ends = [part for number, part in self.plan.parts.items() if number not in self.taken]
        if sum(map(_area, begun)) != sum(map(_area, ends)):
            self.tell("area-differs")
        cuts = sum(len(load.marks) for load in self.plan.loads)
        more = sum(bool(part.want) + part.scrap for part in ends) - len(self.plan.sheets)
        if cuts != more:
            self.tell("cuts-differ", cuts, more)


def _area(paper: Board | Part) -> Fraction:
    return paper.width * paper.height


def _fits(size: tuple[Fraction, ...], want: Want) -> bool:
    """Whether a size will do for a wanted piece, lying so."""
    wanted = (want.width, want.height)
    return all(
        whole - want.smaller_by <= have <= whole for have, whole in zip(size, wanted, strict=True)
    )
