"""Time spent, and an honest estimate of what is left from this crafter's own pace.

A gap longer than `BREAK` is time away from the table, as is the time between sittings.
Each sort of doings has a pace of its own, and the estimate says how little is known: a sort
that was seen seldom makes the span wide, and one that was not seen yet may take anything from
this crafter's quick doings up to a break. Where that leaves the end open, only the least is
told, or nothing.
"""

from __future__ import annotations

from array import array
from collections import deque
from dataclasses import dataclass
from datetime import datetime, timedelta
from enum import StrEnum
from math import sqrt

from model.counting import to_be_filed
from model.event import Done, Entry, Filed, Sat, Scrapped
from model.kit import Verb
from model.plan import Phase, Plan, StepKind
from model.state import State

BREAK = timedelta(minutes=5)
_LONGEST = BREAK.total_seconds()
_KEPT = 40
_SPREAD = 0.5
"""How much doings of one sort differ, as a share of their mean, before many were seen."""
_SPREAD_WEIGHT = 3
"""As many doings as that assumption counts for."""
_DRIFT = 0.12
"""A hand that gets quicker, or tired: what no sample of its past tells of its future."""
_SURE = 2
"""How many standard deviations the span reaches to each side: about nine in ten."""
_INTERRUPTED = 1.15
"""So much longer all may take than it did: somebody calls, and nobody notes it as a break."""
_WIDE = 4
_SHORT = 1500.0
"""A span is told when its end is less than `_WIDE` times its start, or it is this short (s)."""


class Sort(StrEnum):
    """Sorts of doings, each with a pace of its own."""

    OPENING = "opening"
    LAYING = "laying"
    CUTTING = "cutting"
    FILING = "filing"
    TEARING = "tearing"
    KNIFE = "knife"
    BY_HAND = "by hand"


_SLOWER = {Sort.KNIFE: 5, Sort.TEARING: 10, Sort.BY_HAND: 20}
"""At most so many times a cut on the trimmer they may take (common practice, no source)."""


@dataclass(frozen=True, slots=True)
class Left:
    """What is left, in seconds.

    Attributes:
        low: The least that is likely.
        high: The most that is likely; None while too much is not known yet.
    """

    low: float
    high: float | None


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
        self._learnt = self._beside = 0.0  # seconds of doings of a sort, and of all else
        self._after = _left_after(plan)

    def take_in(self, entry: Entry) -> None:
        """Look at one entry, in order."""
        before, self._last = self._last, entry.at
        if isinstance(entry.event, Sat) or before is None:
            return
        # A clock that was set back makes a gap that is no time at all.
        gap = max(timedelta(), entry.at - before)
        if gap > BREAK:
            return
        self.spent += gap
        seconds = gap.total_seconds()
        sort = self._sort(entry)
        if sort is None:
            self._beside += seconds
        else:
            self._learnt += seconds
            self._seen[sort].append(seconds)

    def left(self, state: State) -> Left | None:
        """What is left at this crafter's pace; None while it is not known.

        Args:
            state: Where the session stands.
        """
        ahead = {sort: counts[state.cursor] for sort, counts in self._after.items()}
        for step in state.waiting_steps():
            if step.index < state.cursor:  # put off, and still to come
                for sort, counts in self._after.items():
                    ahead[sort] += counts[step.index] - counts[step.index + 1]
        ahead[Sort.FILING] += state.waiting
        if not any(ahead.values()):
            return Left(0.0, 0.0)
        if not self._learnt:
            return None
        likely = doubt = unseen_low = unseen_high = 0.0
        unseen = 0
        for sort, count in ahead.items():
            if count and self._seen[sort]:
                mean, spread = _mean_and_spread(self._seen[sort])
                likely += count * mean
                # The sum of so many doings, and the mean itself is known from a few only.
                doubt += spread**2 * (count + count**2 / len(self._seen[sort]))
            elif count:
                low, high = self._unseen(sort)
                unseen_low += count * low
                unseen_high += count * high
                unseen += count
        reach = _SURE * sqrt(doubt + (_DRIFT * likely) ** 2)
        # Undoing, answering warnings and the like go on as they did.
        more = 1 + self._beside / self._learnt
        low = more * (max(0.0, likely - reach) + unseen_low)
        high = _INTERRUPTED * more * (likely + reach) + unseen_high
        if high <= _WIDE * low or high - low <= _SHORT:
            return Left(low, high)
        return Left(low, None) if 2 * unseen <= sum(ahead.values()) and low >= 60 else None

    def _unseen(self, sort: Sort) -> tuple[float, float]:
        """The least and the most that a doing may take of a sort that was not seen yet."""
        cuts = self._seen[Sort.CUTTING]
        if sort in _SLOWER and cuts:
            mean, _ = _mean_and_spread(cuts)
            return mean, min(_LONGEST, _SLOWER[sort] * mean)
        return min(_mean_and_spread(seen)[0] for seen in self._seen.values() if seen), _LONGEST

    def on(self, plan: Plan) -> Pace:
        """The same pace on another plan, for a changed kit."""
        pace = Pace(plan)
        pace.spent, pace._last, pace._seen = self.spent, self._last, self._seen
        pace._learnt, pace._beside = self._learnt, self._beside
        return pace

    def _sort(self, entry: Entry) -> Sort | None:
        event = entry.event
        if isinstance(event, Filed) or (isinstance(event, Scrapped) and not entry.part_of):
            # Filed with the press that told of the cut: that took no time of its own.
            return Sort.FILING
        if isinstance(event, Done):
            index = self._plan.step_at.get(event.step)
            return None if index is None else _sort_of(self._plan, index)
        return None


def _mean_and_spread(seen: deque[float]) -> tuple[float, float]:
    """The mean of what was seen, and how far single doings are from it (seconds)."""
    many = len(seen)
    mean = sum(seen) / many
    squares = sum((seconds - mean) ** 2 for seconds in seen)
    assumed = _SPREAD_WEIGHT * (_SPREAD * mean) ** 2
    return mean, sqrt((squares + assumed) / (many - 1 + _SPREAD_WEIGHT))


def _sort_of(plan: Plan, index: int) -> Sort:
    step = plan.steps[index]
    if step.phase is Phase.OPENING:
        return Sort.OPENING
    if step.kind in (StepKind.LOAD, StepKind.AWAY):
        return Sort.LAYING
    if step.kind is StepKind.TEAR:
        return Sort.TEARING
    if step.kind is StepKind.CUT:
        return Sort.KNIFE if step.verb is Verb.KNIFE else Sort.CUTTING
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
