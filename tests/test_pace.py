"""Time spent, and what is left at this crafter's own pace."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from datetime import UTC, datetime, timedelta

import pytest

from model.pace import BREAK, ENOUGH, Left, Pace
from model.reading import read_kit
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


def test_nothing_is_said_before_enough_was_seen() -> None:
    session = session_with(steady(4))
    for _ in range(ENOUGH - 1):
        session.next()
    assert session.pace.left(session.state) is None
    session.next()
    assert session.pace.left(session.state) is not None


def test_at_a_steady_pace_the_estimate_comes_true() -> None:
    """Each thing takes four seconds, so what is left is known exactly."""
    session = session_with(steady(4))
    told: list[tuple[timedelta, Left]] = []
    while not session.state.due().over:
        session.next()
        left = session.pace.left(session.state)
        if left is not None:
            told.append((session.pace.spent, left))
    end = session.pace.spent
    for spent, left in told:
        assert left.low == left.high == pytest.approx((end - spent).total_seconds())
    assert told[-1][1] == Left(0, 0)


def test_an_uneven_pace_gives_a_range() -> None:
    session = session_with(gaps(iter([0, 0, *[2, 20] * 100])))
    up_to(session, "A/r/load")
    left = session.pace.left(session.state)
    assert left is not None
    assert 0 < left.low < left.high


def test_answers_given_in_one_press_teach_no_pace() -> None:
    session = session_with(steady(4))
    up_to(session, "fill:white mat:3·4")
    session.file_into(2)
    before = {sort: list(seen) for sort, seen in session.pace._seen.items()}
    session.put_right(only_warning(session))
    assert {sort: list(seen) for sort, seen in session.pace._seen.items()} == before


def test_idle_time_is_told() -> None:
    session = session_with(steady(4))
    session.next()
    last = START + timedelta(seconds=12)
    assert session.pace.idle(last + timedelta(minutes=2)) == timedelta(minutes=2)
    assert session.pace.idle(START) == timedelta()
    assert Pace(session.plan).idle(START) == timedelta()


def test_the_table_of_a_large_kit_is_small() -> None:
    plan = read_kit(big_kit(10_000)).plan
    assert plan is not None
    assert len(plan.steps) > 10_000
    counts = Pace(plan)._after
    assert sum(row.itemsize * len(row) for row in counts.values()) < 250_000
    assert [row[len(plan.steps)] for row in counts.values()] == [0, 0, 0, 0]


def test_to_the_end_of_a_changed_kit_the_pace_goes_on() -> None:
    session = session_with(steady(4))
    up_to(session, "A/load")
    pace = session.pace.on(session.plan)
    assert pace.spent == session.pace.spent
    assert pace.left(session.state) == session.pace.left(session.state)
    to_the_end(session)
