"""Doing what was said: steps done and left out, things filed, thrown away and moved."""

from __future__ import annotations

from typing import Any

from model.event import (
    Checked,
    Deferred,
    Done,
    Event,
    Extra,
    Filed,
    Left,
    Mended,
    Missed,
    Moved,
    Scrapped,
    Settled,
    Skipped,
    TakenUp,
)
from model.plan import Plan, StepKind
from model.spot import Spot
from model.turns import Turns
from model.warning import WarningKind

_ELSEWHERE = frozenset((Spot.NOWHERE, Spot.TAKEN, Spot.IN_HAND, Spot.STACK, Spot.ASIDE))


class Doing(Turns):
    """What has been done, and what was said of it.

    Attributes:
        mendings: Mendings that stand, as text, by the number of their entry. The plan that the
            state is about has to be made with them: `model.story` sees to that.
        unaccounted: Numbers of events that were taken in though what they speak of was not at
            hand: a damaged journal lost how it came.
    """

    def __init__(self, plan: Plan) -> None:
        """Nothing done yet.

        Args:
            plan: The plan.
        """
        super().__init__(plan)
        self.mendings: dict[int, str] = {}
        self.unaccounted: set[int] = set()

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
        if isinstance(event, Missed):
            if self.where(event.item) < 0 or not self._can_lie(event.item):
                return False
            self._miss(event.item)
            return True
        if isinstance(event, Checked):
            return self._check(event.pocket)
        if isinstance(event, Deferred):
            return self._defer(event.sheet)
        if isinstance(event, TakenUp):
            if event.sheet not in self.deferred or self.mid_load:
                return False
            self._take_up((event.sheet,))
            return True
        if isinstance(event, Extra):
            self._add("extra", 1)
            self._warn(f"extra:{self._n}", WarningKind.EXTRA_SCRAP, (), -1)
            return True
        if isinstance(event, Left) and event.warning in self.warnings:
            self._ledger.set(self.left, event.warning, True)
            return True
        if isinstance(event, Settled):
            return self._settle(event.warning)
        if isinstance(event, Mended):
            self._ledger.set(self.mendings, self._n, event.mending)
            return True
        return False

    def at_hand(self, event: Event) -> bool:
        """Whether what is filed, thrown away, moved or worked on is there.

        Args:
            event: The event; of all others this is true, and of what the plan does not know.
        """
        if isinstance(event, (Filed, Moved, Scrapped)):
            return self.where(event.item) not in _ELSEWHERE or event.item not in self.plan.items
        index = self.plan.step_at.get(event.step) if isinstance(event, Done) else None
        if index is None:
            return True
        step = self.plan.steps[index]
        return not any(
            self.place.get(item, Spot.NOWHERE) == Spot.NOWHERE and item in self.plan.made_by
            for item in (*step.takes, *step.touches)
        )

    def _check(self, label: str) -> bool:
        pocket = self._pockets.get(label)
        if pocket is None:
            return False
        self._ledger.set(self.checked, pocket, self._n)
        return True

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
            "checked": dict(self.checked),
            "warnings": dict(self.warnings),
            "left": set(self.left),
            "tally": dict(self._tally),
            "facts": dict(self._facts),
            "deferred": dict(self.deferred),
            "waits": set(self._waits),
            "by load": self.by_load,
            "mendings": dict(self.mendings),
        }
