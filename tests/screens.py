"""Help for tests of screens: a table on a kit of one's choice, and what it shows as text."""

from __future__ import annotations

from collections.abc import AsyncIterator, Sequence
from contextlib import asynccontextmanager
from datetime import UTC, datetime, timedelta
from functools import cache
from pathlib import Path

from rich.segment import Segment
from textual import constants
from textual.pilot import Pilot
from textual.strip import Strip

from model.folders import demo_kit
from model.reading import load_kit
from model.session import Session
from model.settings import Settings
from tests.muddle import QuickDisk
from tui.app import DryfitApp
from tui.screens.table import TableScreen

# What a test sees must not depend on the terminal that it runs in: Textual looks at it once.
vars(constants)["COLOR_SYSTEM"] = "truecolor"


class Clock:
    """A clock that goes on by ten seconds each time it is asked."""

    def __init__(self) -> None:
        self.at = datetime(2026, 1, 5, 10, 0, tzinfo=UTC)

    def __call__(self) -> datetime:
        self.at += timedelta(seconds=10)
        return self.at


def begun(kit: str, folder: Path, steps: int = 0) -> Session:
    """A session of a demo kit in which so many keys were pressed already."""
    path = demo_kit(kit)
    assert path is not None
    session = Session.start(_read(path), path, folder, clock=Clock(), disk=QuickDisk())
    for _ in range(steps):
        told = session.next()
        assert told.taken, told
    return session


_read = cache(load_kit)
"""A demo kit stays as it is, and nothing changes what was read of it."""


@asynccontextmanager
async def table(
    session: Session, size: tuple[int, int] = (80, 24), settings: Settings | None = None
) -> AsyncIterator[tuple[Pilot[None], TableScreen]]:
    """The table on a session, in an app without a terminal."""
    app = DryfitApp(settings or Settings(), None, None, session.path and session.path.parent)
    async with app.run_test(size=size) as pilot:
        app.show_session(session)
        await pilot.pause()
        screen = app.screen
        assert isinstance(screen, TableScreen)
        yield pilot, screen
    session.close()


def text_of(app: DryfitApp) -> str:
    """What the screen shows, as rows of text without trailing spaces.

    Spaces in reverse, of which the large figures are made, are shown as full blocks.
    """
    return text_in(app.screen._compositor.render_strips(app.size))


def text_in(rows: Sequence[Strip]) -> str:
    """The same of rows that were painted."""
    return "\n".join("".join(map(_as_text, row)).rstrip() for row in rows)


def _as_text(segment: Segment) -> str:
    solid = segment.style is not None and segment.style.reverse and segment.text.isspace()
    return "█" * len(segment.text) if solid else segment.text
