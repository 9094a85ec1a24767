"""Time spent, and what is left at this crafter's own pace."""

from __future__ import annotations

import random
from array import array
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta

import pytest

from model.folders import demo_folder
from model.pace import BREAK, Left, Pace, Sort
from model.plan import Phase, StepKind
from model.reading import load_kit, read_kit
from model.session import Session
from tests.big_kits import big_kit
from tests.hand_kits import CUT_AGAIN
from tests.tables import only_warning, to_the_end, up_to

START = datetime(2026, 1, 2, 10, tzinfo=UTC)


def session_with(clock: Callable[[], datetime]) -> Session:
    return Session.start(read_kit(CUT_AGAIN), None, None, clock, "a test")


def gaps(seconds: Iterator[float]) -> Callable[[], datetime]:
    at = [START]

    def look() -> datetime:
        at[0] += timedelta(seconds=next(seconds))
        return at[0]

    return look


def steady(seconds: float) -> Callable[[], datetime]:
    return gaps(iter(lambda: seconds, None))


def test_time_is_what_lies_between_doings() -> None:
    session = session_with(steady(4))
    for _ in range(10):
        session.next()
    assert session.pace.spent == timedelta(seconds=40)


def test_a_break_is_not_time_at_the_table() -> None:
    long = BREAK.total_seconds() + 1
    session = session_with(gaps(iter([0, 0, 4, long, 4, 4 * 3600, 4])))
    for _ in range(5):
        session.next()
    assert session.pace.spent == timedelta(seconds=12)
    assert timedelta(minutes=5) == BREAK


def test_a_clock_set_back_takes_no_time_away() -> None:
    session = session_with(gaps(iter([0, 0, 4, -7200, 4, 4])))
    for _ in range(4):
        session.next()
    assert session.pace.spent == timedelta(seconds=12)


def test_nothing_is_said_before_anything_was_seen() -> None:
    session = session_with(steady(4))
    assert session.pace.left(session.state) is None
    session.next()
    assert session.pace.left(session.state) is None  # cuts may take anything


def left_of(session: Session) -> Left:
    left = session.pace.left(session.state)
    assert left is not None
    return left


def test_at_a_steady_pace_the_estimate_comes_true() -> None:
    """Each thing takes four seconds, so what is left is known exactly."""
    session = session_with(steady(4))
    told: list[tuple[timedelta, float, float]] = []
    while not session.state.due().over:
        session.next()
        left = session.pace.left(session.state)
        if left is not None and left.high is not None:
            told.append((session.pace.spent, left.low, left.high))
    end = session.pace.spent
    for spent, low, high in told:
        assert low <= (end - spent).total_seconds() <= high
    assert len(told) > 20
    assert left_of(session) == Left(0, 0)


def test_what_was_seen_often_is_known_better() -> None:
    def width(cuts: int) -> float:
        pace = Pace(session_with(steady(4)).plan)
        for _ in range(cuts):
            for sort in Sort:
                pace._seen[sort].append(20.0)
                pace._learnt += 20
        left = pace.left(session_with(steady(4)).state)
        assert left is not None
        assert left.high is not None
        return left.high / left.low

    assert 1 < width(40) < width(10) < width(4)


def test_a_sort_that_was_not_seen_leaves_the_end_open() -> None:
    """On the large kit nobody knows after the opening how long a cut will take."""
    session = demo("harbour", steady(4))
    up_to(session, "A/load")
    assert session.pace.left(session.state) is None
    up_to(session, "B/load")
    assert left_of(session).low > 60


def test_each_step_is_of_its_own_sort() -> None:
    """Of the large kit: two tears, six cuts with the knife, five things by hand."""
    plan = demo("harbour", steady(4)).plan
    ahead = {sort: counts[0] for sort, counts in Pace(plan)._after.items()}
    loads = [step for step in plan.steps if step.kind is StepKind.LOAD]
    cuts = [step for step in plan.steps if step.kind is StepKind.CUT]
    assert (ahead[Sort.TEARING], ahead[Sort.KNIFE], ahead[Sort.BY_HAND]) == (2, 6, 5)
    assert (ahead[Sort.LAYING], ahead[Sort.CUTTING]) == (len(loads) + 1, len(cuts) - 6)
    opening = sum(step.phase is Phase.OPENING for step in plan.steps)
    assert ahead[Sort.OPENING] == opening
    assert sum(ahead.values()) - ahead[Sort.FILING] == len(plan.steps)


def test_what_lies_on_the_pile_is_left_to_do() -> None:
    session = session_with(steady(4))
    session.pace_by(True)
    up_to(session, "A/1")
    session.pace._after = {sort: array("I", [0] * 99) for sort in Sort}
    assert left_of(session) == Left(0, 0)
    session.next()
    assert left_of(session).low > 0


def test_undoing_and_the_like_is_time_too() -> None:
    session = session_with(steady(4))
    up_to(session, "A/r/load")
    before = left_of(session)
    for _ in range(10):
        session.undo()
        session.redo()
    after = left_of(session)
    assert after.low > before.low


def test_filing_with_the_press_that_tells_of_the_cut_takes_no_time() -> None:
    """Who says cut and pocket with one digit files in no time; so it is not waited for."""
    session = session_with(steady(4))
    up_to(session, "A/1")
    session.file_into(0)
    seen = session.pace._seen
    assert (len(seen[Sort.CUTTING]), len(seen[Sort.FILING])) == (1, 1)


@pytest.mark.parametrize(("gap", "counts"), [(300, True), (300.001, False)])
def test_just_how_long_a_break_is(gap: float, counts: bool) -> None:
    session = session_with(gaps(iter([0, 0, 4, gap, 4])))
    for _ in range(2):
        session.next()
    assert session.pace.spent == timedelta(seconds=4 + gap * counts)
    assert len(session.pace._seen[Sort.OPENING]) == 1 + counts


def test_answers_given_in_one_press_teach_no_pace() -> None:
    session = session_with(steady(4))
    up_to(session, "fill:white mat:3·4")
    session.file_into(2)
    before = {sort: list(seen) for sort, seen in session.pace._seen.items()}
    session.put_right(only_warning(session))
    assert {sort: list(seen) for sort, seen in session.pace._seen.items()} == before


def test_the_table_of_a_large_kit_is_small() -> None:
    plan = read_kit(big_kit(10_000)).plan
    assert plan is not None
    assert len(plan.steps) > 10_000
    counts = Pace(plan)._after
    assert sum(row.itemsize * len(row) for row in counts.values()) < 350_000
    assert [row[len(plan.steps)] for row in counts.values()] == [0] * len(Sort)


def test_to_the_end_of_a_changed_kit_the_pace_goes_on() -> None:
    session = session_with(steady(4))
    up_to(session, "A/load")
    pace = session.pace.on(session.plan)
    assert pace.spent == session.pace.spent
    assert pace.left(session.state) == session.pace.left(session.state)
    to_the_end(session)


# Crafters at work


def demo(name: str, clock: Callable[[], datetime]) -> Session:
    return Session.start(load_kit(demo_folder() / f"{name}.toml"), None, None, clock, "a test")


@dataclass(frozen=True)
class Crafter:
    """How long things take somebody, in seconds, and how steadily."""

    opening: float = 5
    load: float = 35
    cut: float = 25
    file: float = 8
    tear: float = 60
    hand: float = 240
    noise: float = 0.4  # of the logarithm
    breaks: float = 0.0  # how often somebody calls, or there is tea
    wrong: float = 0.0
    by_load: bool = False
    slower_by: float = 1.0  # in the end

    def takes(self, session: Session) -> float:
        """How long what is due takes."""
        due = session.state.due()
        if session.state.warnings:
            return 10
        if due.step is None:
            return self.file
        if due.step.phase is Phase.OPENING:
            return self.opening
        kinds = {
            StepKind.LOAD: self.load,
            StepKind.AWAY: self.load,
            StepKind.CUT: self.cut,
            StepKind.TEAR: self.tear,
        }
        return kinds.get(due.step.kind, self.hand)


CRAFTERS = {
    "as clockwork": Crafter(noise=0.01),
    "usual": Crafter(),
    "quick": Crafter(3, 10, 6, 3, 30, 60),
    "slow": Crafter(20, 60, 40, 25, 150, 280),
    "takes breaks": Crafter(breaks=0.03),
    "errs": Crafter(wrong=0.05),
    "by the load": Crafter(by_load=True),
    "learns": Crafter(slower_by=0.6),
    "tires": Crafter(slower_by=1.5),
}


def work(kit: str, crafter: Crafter, seed: int) -> list[tuple[float, Left | None]]:
    """What was told at each moment of a run, with the time that was truly left then."""
    rng = random.Random(seed)
    at = [START]
    session = demo(kit, lambda: at[0])
    session.pace_by(crafter.by_load)
    told: list[tuple[timedelta, Left | None]] = []
    while not session.state.due().over or session.state.warnings:
        done = session.state.steps_done / len(session.plan.steps)
        noise = rng.lognormvariate(-(crafter.noise**2) / 2, crafter.noise)
        seconds = min(299, crafter.takes(session) * noise * crafter.slower_by**done)
        if rng.random() < crafter.breaks:
            seconds += rng.choice([120, 400, 3000])
        at[0] += timedelta(seconds=seconds)
        if session.state.warnings:
            session.put_right(next(iter(session.state.warnings.values())))
        elif rng.random() < crafter.wrong:
            session.file_into(rng.randrange(len(session.plan.kit.pockets)))
        else:
            session.next()
        told.append((session.pace.spent, session.pace.left(session.state)))
    end = session.pace.spent
    return [((end - spent).total_seconds(), left) for spent, left in told]


@pytest.mark.parametrize("kit", ["harbour", "postcard", "cards"])
@pytest.mark.parametrize("name", CRAFTERS)
def test_the_span_holds_the_truth(name: str, kit: str) -> None:
    """It is told in a good part of the run, and then it is right four times in five."""
    for seed in range(3):
        told = work(kit, CRAFTERS[name], seed)
        spans = [
            left.low - 0.1 <= truly <= left.high + 0.1
            for truly, left in told
            if left is not None and left.high
        ]
        assert len(spans) > 0.4 * len(told)
        assert sum(spans) >= 0.8 * len(spans)


@pytest.mark.parametrize("name", CRAFTERS)
def test_what_is_told_to_be_the_least_is_less_than_the_truth(name: str) -> None:
    found = 0
    for truly, left in work("harbour", CRAFTERS[name], 7):
        if left is not None and left.high is None:
            assert 60 <= left.low <= truly
            found += 1
    assert found


def test_the_span_is_of_use() -> None:
    """Where all sorts were seen, its end is not much more than twice its start."""
    half = [left for truly, left in work("cards", CRAFTERS["usual"], 1) if 240 < truly < 720]
    assert len(half) > 20
    for left in half:
        assert left is not None
        assert left.high is not None
        assert left.high < 3.2 * left.low
