"""A table to try things at: the kit in which pieces are cut again, and short ways to work it."""

from __future__ import annotations

from collections.abc import Callable
from datetime import UTC, datetime, timedelta

from model.event import Event
from model.reading import read_kit
from model.session import Session
from model.warning import Warning, WarningKind
from tests.hand_kits import CUT_AGAIN

P12, P34, P56 = 0, 1, 2
"""The pockets of the kit, by index."""


def clock(step: float = 4.0) -> Callable[[], datetime]:
    """A clock that goes on by so many seconds at each look."""
    at = [datetime(2026, 1, 2, 10, tzinfo=UTC)]

    def look() -> datetime:
        at[0] += timedelta(seconds=step)
        return at[0]

    return look


def table(text: str = CUT_AGAIN) -> Session:
    """A session that is not saved."""
    return Session.start(read_kit(text), None, None, clock(), "this is a test")


def up_to(session: Session, step: str) -> None:
    """Do everything as it should be done, until this step is due."""
    while (due := session.state.due()).step is None or due.step.id != step:
        assert session.next().taken, f"{step} never came"


def until_in_hand(session: Session, item: str) -> None:
    """Do everything as it should be done, until this thing is to be filed."""
    while session.state.due().item != item:
        assert session.next().taken, f"{item} never came"


def to_the_end(session: Session) -> None:
    """Do everything that is left as it should be done."""
    while not session.state.due().over:
        assert session.next().taken


def only_warning(session: Session) -> Warning:
    """The one warning that stands."""
    (warning,) = session.state.warnings.values()
    return warning


def kinds(session: Session) -> list[WarningKind]:
    """The kinds of the warnings that stand."""
    return [warning.kind for warning in session.state.warnings.values()]


def counts(session: Session) -> list[tuple[int, int]]:
    """Held and wanted of each pocket."""
    state = session.state
    return [(state.held(p.index), state.wanted(p.index)) for p in session.plan.kit.pockets]


def objected(session: Session, event: Event) -> str:
    """Say something that should be objected to; nothing may come of it."""
    before = session.state.snapshot()
    told = session.say(event)
    assert session.state.snapshot() == before
    return told.objection
