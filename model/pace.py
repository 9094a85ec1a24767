"""Time spent, and an honest estimate of what is left from this crafter's own pace.

A gap longer than `BREAK` is time away from the table, as is the time between sittings.
The estimate is made of this session's own doings alone, and says nothing until it has
seen enough of them.
"""

from __future__ import annotations

from array import array
from collections import deque
from dataclasses import dataclass
from datetime import datetime, timedelta
from enum import StrEnum

from model.counting import to_be_filed
from model.event import Done, Entry, Filed, Sat, Scrapped
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
            plan: The plan; how much of each sort each step and the later ones ask for is
                counted once.
        """
        self.spent = timedelta()
        """Time at the table."""
        self._plan = plan
        self._last: datetime | None = None
        self._seen: dict[Sort, deque[float]] = {sort: deque(maxlen=_KEPT) for sort in Sort}
        self._after = _left_after(plan)

    def take_in(self, entry: Entry) -> None:
        """Look at one entry, in order."""
        before, self._last = self._last, entry.at
        if isinstance(entry.event, Sat) or before is None:
            return
        # A clock that was set back makes a gap that is no time at all.
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
        ahead = {sort: counts[state.cursor] for sort, counts in self._after.items()}
        ahead[Sort.FILING] += state.waiting
        everything = [seconds for seen in self._seen.values() for seconds in seen]
        if len(everything) < ENOUGH:
            return None
        from statistics import quantiles  # its import would hold up the start

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
        if entry.part_of:
            return None  # several in one press: no pace to learn from
        if isinstance(event, (Filed, Scrapped)):
            return Sort.FILING
        if isinstance(event, Done):
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


def _left_after(plan: Plan) -> dict[Sort, array[int]]:
    """For each step, how many doings of each sort it and the later ones ask for.

    Returns:
        For each sort one count for each step, and one for the end (4 bytes each).
    """
    ends = len(plan.steps)
    left = {sort: array("I", bytes(4 * (ends + 1))) for sort in Sort}
    count = dict.fromkeys(Sort, 0)
    for step in reversed(plan.steps):
        count[_sort_of(plan, step.index)] += 1
        if step.kind is not StepKind.FILL:
            count[Sort.FILING] += sum(to_be_filed(plan, item) for item in step.makes)
        for sort, counts in left.items():
            counts[step.index] = count[sort]
    return left
