"""Doing what was said: steps done and left out, things filed, thrown away and moved."""

from __future__ import annotations

from typing import Any

from model.event import Done, Event, Extra, Filed, Left, Moved, Scrapped, Settled, Skipped
from model.filing import Filing
from model.hanging import hanging_on
from model.plan import Plan, Step, StepKind
from model.spot import Due, Spot
from model.warning import WarningKind


class Doing(Filing):
    """What has been done, and what is due.

    Attributes:
        done: Steps that were done (True) or left out (False), by id.
        by_load: Whether a whole load is cut before its pieces are filed.
    """

    def __init__(self, plan: Plan) -> None:
        """Nothing done yet.

        Args:
            plan: The plan.
        """
        super().__init__(plan)
        self.done: dict[str, bool] = {}
        self.by_load = False
        self._facts = {"cursor": 0, "done": 0}

    @property
    def cursor(self) -> int:
        """The index of the first step that is neither done nor left out."""
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
        mid_load = step is not None and step.kind in (StepKind.CUT, StepKind.TEAR)
        if top is None or (self.by_load and mid_load):
            return Due(step, None)
        return Due(None, top)

    def may_skip(self, step: Step) -> bool:
        """Whether a step may be left out: an optional one that is not begun."""
        return step.optional and step.kind not in (StepKind.CUT, StepKind.TEAR)

    def hangs_on(self, step: Step) -> list[Step]:
        """What is left out with a step, in order; see `model.hanging`."""
        return hanging_on(self.plan, self.done, step)

    def needless(self, item: str) -> bool:
        """Whether a thing was to be cut, and all that was left out."""
        taker = self.plan.taken_by.get(item)
        return taker is not None and self.done.get(self.plan.steps[taker].id) is False

    # What was said

    def _take_in(self, event: Event) -> bool:
        """Take in what was done; False when it makes no sense."""
        if isinstance(event, Done):
            return self._do(event)
        if isinstance(event, (Filed, Moved)):
            return self._file(event)
        if isinstance(event, Scrapped):
            return self._scrap(event.item)
        if isinstance(event, Skipped):
            return self._skip(event.step)
        if isinstance(event, Extra):
            self._add("extra", 1)
            self._warn(f"extra:{self._n}", WarningKind.EXTRA_SCRAP, (), -1)
            return True
        if isinstance(event, Left) and event.warning in self.warnings:
            self._ledger.set(self.left, event.warning, True)
            return True
        if isinstance(event, Settled):
            return self._settle(event.warning)
        return False

    def _settle(self, id: str) -> bool:
        warning = self.warnings.get(id)
        if warning is None or not warning.kind.settled_by_word:
            return False
        if warning.kind is WarningKind.EXTRA_SCRAP:
            self._add("extra", -1)
        self._unwarn(id)
        return True

    def _do(self, event: Done) -> bool:
        index = self.plan.step_at.get(event.step)
        if index is None or event.step in self.done:
            return False
        step = self.plan.steps[index]
        if step.kind is StepKind.FILL:
            into = self._pockets.get(event.into) if event.into else step.pocket
            if into is None:
                return False
            self._fill(step, into)
        else:
            spot = Spot.IN_HAND if step.kind is StepKind.LOAD else Spot.TAKEN
            for item in step.takes:
                self._use(item, spot)
            if step.kind in (StepKind.STACK, StepKind.ASIDE):
                to = Spot.STACK if step.kind is StepKind.STACK else Spot.ASIDE
                for item in step.touches:
                    self._ledger.set(self.place, item, int(to))
            # What comes off is in hand, what stays on the bed is taken up after it.
            for item in reversed(step.makes):
                if self.where(item) == Spot.NOWHERE:
                    self._lay(item)
        self._mark_done(step, True)
        return True

    def _mark_done(self, step: Step, really: bool) -> None:
        self._ledger.set(self.done, step.id, really)
        self._ledger.set(self._facts, "done", self.steps_done + 1)
        cursor = self.cursor
        steps = self.plan.steps
        while cursor < len(steps) and steps[cursor].id in self.done:
            cursor += 1
        self._ledger.set(self._facts, "cursor", cursor)

    def _file(self, event: Filed | Moved) -> bool:
        item = event.item
        if not self._can_lie(item):
            return False
        here = self.where(item)
        if isinstance(event, Moved) and not event.pocket:
            if here == Spot.PILE:
                return False
            self._lift(item)
            self._lay(item)
            return True
        pocket = self._pockets.get(event.pocket)
        if pocket is None:
            return False
        if here >= 0:
            if isinstance(event, Filed):
                self._warn(f"twice:{item}", WarningKind.TWICE, (item,), pocket)
                return True
            if here == pocket:
                return False
        self._lift(item)
        self._put((item,), pocket)
        return True

    def _scrap(self, item: str) -> bool:
        if not self._can_lie(item) or self.where(item) == Spot.SCRAPS:
            return False
        self._throw(item)
        return True

    def _can_lie(self, item: str) -> bool:
        """Whether a thing can lie anywhere by itself.

        One that nobody is known to have made may: a damaged journal may have lost that. One
        that was left out can't, and companions lie where their pieces lie.
        """
        thing = self.plan.items.get(item)
        if thing is None or thing.partner:
            return False
        made = self.plan.made_by.get(item)
        left_out = made is not None and self.done.get(self.plan.steps[made].id) is False
        return not (left_out and self.where(item) == Spot.NOWHERE)

    def _skip(self, step_id: str) -> bool:
        index = self.plan.step_at.get(step_id)
        if index is None or step_id in self.done:
            return False
        out = self.hangs_on(self.plan.steps[index])
        missing = [item for step in out for item in step.makes if self.where(item) == Spot.NOWHERE]
        for step in out:
            self._mark_done(step, False)
        for item in missing:
            self._waive(item)
        never = set(missing)
        for step in out:
            for item in step.takes:
                if item not in never:
                    self._keep(item)
        return True

    def snapshot(self) -> dict[str, Any]:
        """All values that two equal states share; for comparing, not for views."""
        return {
            "place": dict(self.place),
            "done": dict(self.done),
            "pile": self.pile,
            "to file": tuple(self._to_file.names("pile")),
            "strays": self._strays.rows(),
            "stray": dict(self._stray),
            "right": {key: count for key, count in self._right.items() if count},
            "room": {key: self.room(*key) for key in self._right},
            "coming": dict(self._coming),
            "lent": dict(self._lent),
            "held": {pocket: count for pocket, count in self._held.items() if count},
            "wanted": dict(self._wanted),
            "kept": set(self.kept),
            "warnings": dict(self.warnings),
            "left": set(self.left),
            "tally": dict(self._tally),
            "facts": dict(self._facts),
            "by load": self.by_load,
        }
