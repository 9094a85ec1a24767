"""Time spent, and an honest estimate of what is left from this crafter's own pace.

A gap longer than `BREAK` is time away from the table, as is the time between sittings.
The estimate is made of this session's own doings alone, and says nothing until it has
seen enough of them.
"""

from __future__ import annotations

from collections import deque
from dataclasses import dataclass
from datetime import datetime, timedelta
from enum import StrEnum
from statistics import quantiles

from model.event import Done, Entry, Filed, Moved, Sat, Scrapped, Skipped
from model.plan import Phase, Plan, StepKind
from model.state import State

BREAK = timedelta(minutes=5)
ENOUGH = 6
"""How many doings of a sort are seen before their pace is believed."""
_KEPT = 40


class Sort(StrEnum):
    """Sorts of doings, each with a pace of its own."""

    OPENING = "opening"
    CUTTING = "cutting"
    FILING = "filing"
    BY_HAND = "by hand"


@dataclass(frozen=True, slots=True)
class Left:
    """What is left, in seconds: at this crafter's quicker and slower pace."""

    low: float
    high: float


class Pace:
    """Watches the entries of a session go by."""

    def __init__(self, plan: Plan) -> None:
        """Begin with nothing seen.

        Args:
            plan: The plan; how much of each sort is left after each step is counted once.
        """
        self.spent = timedelta()
        self._plan = plan
        self._last: datetime | None = None
        self._seen: dict[Sort, deque[float]] = {sort: deque(maxlen=_KEPT) for sort in Sort}
        self._after = _left_after(plan)

    def take_in(self, entry: Entry) -> None:
        """Look at one entry, in order."""
        event = entry.event
        before, self._last = self._last, entry.at
        if isinstance(event, Sat) or before is None:
            return
        gap = entry.at - before
        if timedelta() < gap <= BREAK:
            self.spent += gap
            sort = self._sort(entry)
            if sort is not None:
                self._seen[sort].append(gap.total_seconds())

    def idle(self, now: datetime) -> timedelta:
        """How long ago the last entry was; zero before the first."""
        return max(timedelta(), now - self._last) if self._last else timedelta()

    def left(self, state: State) -> Left | None:
        """What is left at this crafter's pace; None while it is not known.

        Args:
            state: Where the session stands.
        """
        after = self._after[min(state.cursor, len(self._after) - 1)]
        ahead = dict(zip(Sort, after, strict=True))
        ahead[Sort.FILING] += sum(self._plan.items[i].fileable for i in state.pile)
        everything = [seconds for seen in self._seen.values() for seconds in seen]
        if len(everything) < ENOUGH:
            return None
        low = high = 0.0
        for sort, count in ahead.items():
            seen = list(self._seen[sort])
            quick, _, slow = quantiles(seen if len(seen) >= ENOUGH else everything, n=4)
            low += quick * count
            high += slow * count
        return Left(low, high)

    def on(self, plan: Plan) -> Pace:
        """The same pace on another plan, for a changed kit."""
        pace = Pace(plan)
        pace.spent, pace._last, pace._seen = self.spent, self._last, self._seen
        return pace

    def _sort(self, entry: Entry) -> Sort | None:
        event = entry.event
        if isinstance(event, (Filed, Scrapped, Moved)):
            return Sort.FILING
        if isinstance(event, (Done, Skipped)):
            index = self._plan.step_at.get(event.step)
            return None if index is None else _sort_of(self._plan, index)
        return None


def _sort_of(plan: Plan, index: int) -> Sort:
    step = plan.steps[index]
    if step.phase is Phase.OPENING:
        return Sort.OPENING
    if step.kind in (StepKind.LOAD, StepKind.CUT):
        return Sort.CUTTING
    return Sort.BY_HAND


def _left_after(plan: Plan) -> list[tuple[int, ...]]:
    """For each step, how many doings of each sort it and the later ones ask for.

    Returns:
        One tuple for each step and one for the end, each in the order of `Sort`.
    """
    count = {sort: 0 for sort in Sort}
    found = [tuple(count.values())]
    for step in reversed(plan.steps):
        count[_sort_of(plan, step.index)] += 1
        if step.kind is not StepKind.FILL:
            count[Sort.FILING] += sum(plan.items[i].fileable for i in step.makes)
        found.append(tuple(count.values()))
    return found[::-1]
