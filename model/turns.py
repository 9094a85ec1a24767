"""Whose turn it is: the steps in order, those that are done, and sheets put off to be last.

A sheet that is put off (deferred) is trimmed after all others, before the trimmer is put away.
All that needs what is cut of it waits with it.
"""

from __future__ import annotations

from collections.abc import Iterable

from model.filing import Filing
from model.hanging import hanging_on
from model.ledger import GONE
from model.plan import Phase, Plan, Step, StepKind
from model.spot import Due

_MID_LOAD = (StepKind.CUT, StepKind.TEAR)


class Turns(Filing):
    """What is done, and what is due.

    Attributes:
        done: Steps that were done (True) or left out (False), by id.
        by_load: Whether a whole load is cut before its pieces are filed.
        deferred: Sheets that are put off, by name, the first to be put off first.
    """

    def __init__(self, plan: Plan) -> None:
        """Nothing done yet.

        Args:
            plan: The plan.
        """
        super().__init__(plan)
        self.done: dict[str, bool] = {}
        self.by_load = False
        self.deferred: dict[str, bool] = {}
        self._waits: dict[int, bool] = {}  # the steps that wait with them, by index
        self._facts = {"cursor": 0, "done": 0}

    @property
    def cursor(self) -> int:
        """The index of the step whose turn it is; the number of all steps when all are done."""
        return self._facts["cursor"]

    @property
    def steps_done(self) -> int:
        """How many steps are done or left out."""
        return self._facts["done"]

    def step(self) -> Step | None:
        """The next step; None when all are done."""
        steps = self.plan.steps
        return steps[self.cursor] if self.cursor < len(steps) else None

    def due(self) -> Due:
        """What is to be done next: file what is on the pile, or take the next step."""
        step = self.step()
        top = self.top_to_file
        if top is None or (self.by_load and self.mid_load):
            return Due(step, None)
        return Due(None, top)

    @property
    def mid_load(self) -> bool:
        """Whether paper is in the trimmer, or being torn, with cuts still to be made."""
        step = self.step()
        return step is not None and step.kind in _MID_LOAD

    def waiting_steps(self) -> tuple[Step, ...]:
        """The steps that wait with a sheet that is put off, in order."""
        return tuple(self.plan.steps[index] for index in sorted(self._waits))

    def may_skip(self, step: Step) -> bool:
        """Whether a step may be left out: an optional one that is not begun."""
        return step.optional and step.kind not in _MID_LOAD

    def hangs_on(self, step: Step) -> list[Step]:
        """What is left out with a step, in order; see `model.hanging`."""
        return hanging_on(self.plan, self.done, step)

    def needless(self, item: str) -> bool:
        """Whether a thing was to be cut, and all that was left out."""
        taker = self.plan.taken_by.get(item)
        return taker is not None and self.done.get(self.plan.steps[taker].id) is False

    def objection_to_deferring(self, sheet: str) -> str:
        """Why a sheet can't be put off now, as a code; empty when it can.

        Args:
            sheet: Its name.
        """
        if sheet not in self.plan.sheets:
            return "no such thing"
        if self.mid_load:
            return "finish the load"
        if sheet in self.deferred:
            return "done already"
        mine = self._steps_of(sheet)
        if not mine:
            return "cut up"
        if all(index in mine for index in self._ahead(self.plan.steps[min(mine)].phase)):
            return "last already"
        return ""

    def _ahead(self, phase: Phase) -> Iterable[int]:
        """The steps of a phase that are neither done nor put off."""
        return [
            step.index
            for step in self.plan.steps
            if step.phase == phase and step.id not in self.done and step.index not in self._waits
        ]

    def _steps_of(self, sheet: str) -> set[int]:
        """The steps that are still to be done to a sheet, and all that needs what they make."""
        found: set[int] = set()
        for step in self.plan.steps:
            own = step.sheet == sheet and step.phase >= Phase.TRIMMING
            if own and step.id not in self.done and step.index not in found:
                found.update(each.index for each in hanging_on(self.plan, self.done, step))
        return found

    def _defer(self, sheet: str) -> bool:
        if self.objection_to_deferring(sheet):
            return False
        self._ledger.set(self.deferred, sheet, True)
        for index in self._steps_of(sheet):
            self._ledger.set(self._waits, index, True)
        self._turn()
        return True

    def _take_up(self, sheets: Iterable[str]) -> None:
        """Sheets are put off no longer."""
        for sheet in list(sheets):
            self._ledger.set(self.deferred, sheet, GONE)
        still: set[int] = set().union(*(self._steps_of(sheet) for sheet in self.deferred))
        for index in [index for index in self._waits if index not in still]:
            self._ledger.set(self._waits, index, GONE)
        self._turn(0)

    def _mark_done(self, step: Step, really: bool) -> None:
        self._ledger.set(self.done, step.id, really)
        self._ledger.set(self._facts, "done", self.steps_done + 1)
        self._ledger.set(self._waits, step.index, GONE)
        self._turn()

    def _turn(self, start: int | None = None) -> None:
        """Go on to the step whose turn it is; what was put off comes before a later phase."""
        steps = self.plan.steps
        cursor = self.cursor if start is None else start
        while cursor < len(steps) and (steps[cursor].id in self.done or cursor in self._waits):
            cursor += 1
        if self._waits:
            first = min(self._waits)
            if cursor == len(steps) or steps[first].phase < steps[cursor].phase:
                self._take_up(self.deferred)
                return
        self._ledger.set(self._facts, "cursor", cursor)
