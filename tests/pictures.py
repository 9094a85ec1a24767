"""Every screen, walked through once for all its pictures: sizes, looks, and without colour.

An app is started for each moment of a run and for each dress; sizes and themes are changed while
it stands, as starting one takes longer than painting a dozen pictures.
"""

from __future__ import annotations

import asyncio
import hashlib
from collections.abc import AsyncIterator, Callable, Sequence
from contextlib import asynccontextmanager
from datetime import UTC, datetime, timedelta
from functools import lru_cache
from itertools import groupby
from pathlib import Path
from typing import Any

import pytest
from rich.style import Style
from textual._compositor import Compositor
from textual.pilot import Pilot
from textual.screen import Screen
from textual.strip import Strip
from textual.widgets import Input

from model.plan import Role, StepKind
from model.session import Session
from model.settings import Settings
from tests.screens import begun, text_in, text_of
from tui.app import DryfitApp
from tui.screens.table import TableScreen
from tui.themes import THEMES

FOLDER = Path(__file__).parent / "snapshots"
SIZES = [(80, 24), (60, 20), (120, 40), (160, 50)]
PLAIN = "plain"
"""NO_COLOR and ASCII."""
LOOKS = [*(theme.name.removeprefix("dryfit-") for theme in THEMES), PLAIN]
Go = Callable[[Session], object]


def to_step(session: Session, kind: StepKind, number: int = 1) -> None:
    while True:
        step = session.state.due().step
        if step is not None and step.kind is kind:
            number -= 1
            if not number:
                return
        assert session.next().taken


def to_filing(session: Session, role: Role) -> None:
    while True:
        item = session.state.due().item
        if item is not None and session.plan.items[item].role is role:
            return
        assert session.next().taken


def to_end(session: Session) -> None:
    while not session.state.due().over:
        assert session.next().taken


def _at(kind: StepKind, number: int = 1) -> Go:
    return lambda session: to_step(session, kind, number)


def _wrong(session: Session) -> None:
    to_filing(session, Role.PIECE)
    assert session.file_into(2).raised


def _left(session: Session) -> None:
    _wrong(session)
    for warning in list(session.state.warnings.values()):
        assert session.leave(warning).taken
    assert session.next().taken


def _put_off(session: Session) -> None:
    to_step(session, StepKind.LOAD)
    assert session.defer().taken


def _piled(session: Session) -> None:
    assert session.pace_by(True).taken
    to_step(session, StepKind.CUT, 4)


def _cut_once(session: Session) -> None:
    to_step(session, StepKind.CUT)
    session.next()


def _some(steps: int) -> Go:
    def go(session: Session) -> None:
        for _ in range(steps):
            assert session.next().taken

    return go


SHELF, LESSON, BACK = "shelf", "lesson", "back"
# Kit, what is done before, and the keys of each screen that is looked at then.
MOMENTS: list[tuple[str, Go, dict[str, list[str]]]] = [
    ("harbour", lambda s: None, {"open": [], SHELF: [], BACK: []}),
    ("harbour", _at(StepKind.ASIDE), {"aside": []}),
    ("harbour", _at(StepKind.FILL), {"fill": []}),
    ("harbour", _at(StepKind.STACK, 3), {"stack": []}),
    ("harbour", _at(StepKind.TURN_STACK), {"turn": []}),
    ("harbour", _at(StepKind.LOAD), {"load": [], "notes": ["n"]}),
    (
        "harbour",
        _at(StepKind.CUT, 2),
        {"cut": [], "find": ["f", *"4 x 6"], "none": ["f", *"9 x 9 teal"], "not-it": ["i"]},
    ),
    ("harbour", lambda s: to_filing(s, Role.PIECE), {"file": [], "pockets": ["k"]}),
    ("harbour", _wrong, {"warning": []}),
    ("harbour", _left, {"left": [], "warnings": ["w"], "pockets-wrong": ["k"]}),
    ("harbour", _put_off, {"put-off": []}),
    ("harbour", _piled, {"pile": []}),
    ("harbour", lambda s: to_filing(s, Role.SCRAP), {"scrap": []}),
    ("harbour", _at(StepKind.AWAY), {"away": []}),
    ("harbour", _at(StepKind.TEAR), {"tear": []}),
    ("harbour", _at(StepKind.SHAPE, 2), {"trace": []}),
    ("harbour", _at(StepKind.MARK), {"slit": []}),
    ("harbour", _at(StepKind.DO), {"do": []}),
    (
        "harbour",
        to_end,
        {
            "end": [],
            "account": ["a"],
            "count": ["k", "c", "space"],
            "settling": ["k", "c", "a", "home", "space", "enter"],
        },
    ),
    (
        "harbour",
        _some(60),
        {
            "miscut": ["m"],
            "miscut-cuts": ["m", "e"],
            "miscut-thing": ["m", "6"],
            "miscut-mark": ["m", "1", *"3 3/4"],
            "miscut-cannot": ["m", "1", *"12"],
            "miscut-face": ["m", "5"],
            "miscut-ways": ["m", "1", *"3 3/4", "enter"],
            "miscut-step": ["m", "1", *"3 3/4", "enter", "right", "right"],
        },
    ),
    ("cards", _at(StepKind.CUT, 3), {"metric": []}),
    (
        "postcard",
        lambda s: None,
        {
            "help": ["question_mark"],
            "settings": ["comma"],
            "keys": ["comma", "k"],
            "line": ["comma", "down", "down", "enter"],
            LESSON: [],
        },
    ),
    ("postcard", _cut_once, {"question": ["u"]}),
]
NAMES = [name for _, _, screens in MOMENTS for name in screens]
Shot = tuple[str, str, tuple[int, int]]
"""Name of a screen, look, and size."""


@lru_cache(maxsize=4096)
def _dress(style: Style | None) -> str:
    """A style in a few characters, the same with every version of every library."""
    if style is None:
        return "-"
    colours = (
        "-" if colour is None or colour.is_default else colour.get_truecolor().hex
        for colour in (style.color, style.bgcolor)
    )
    marks = ("bold", "dim", "italic", "underline", "reverse", "strike")
    return " ".join((*colours, *(mark for mark in marks if getattr(style, mark))))


def _digest(rows: Sequence[Strip]) -> str:
    """A few digits for the styles of the screen, and over how many cells each of them goes."""
    runs = [
        (dress, sum(segment.cell_length for segment in run))
        for row in rows
        for dress, run in groupby(row, key=lambda segment: _dress(segment.style))
    ]
    return hashlib.sha256(repr(runs).encode()).hexdigest()[:6]


_paint = Compositor.render_update


def _unsent(compositor: Compositor, *args: Any, **named: Any) -> Any:
    """The table is not sent to a terminal that nobody sees: it is read off beside it.

    Lists are: they learn what they have to scroll only as they are painted.
    """
    if not isinstance(compositor.root, TableScreen):
        return _paint(compositor, *args, **named)
    compositor._dirty_regions.clear()
    return None


@asynccontextmanager
async def _started(
    kit: str, go: Go, screen: str, settings: Settings, folder: Path
) -> AsyncIterator[Pilot[None]]:
    """The program on the screen that all of a moment's are called from."""
    session = begun(kit, folder)
    go(session)
    app = DryfitApp(settings, None, None, folder)
    async with app.run_test(size=SIZES[0]) as pilot:
        if screen == SHELF:
            session.close()
            app.show_shelf()
        elif screen == BACK:
            for _ in range(30):
                assert session.next().taken
            path = session.path
            session.close()
            assert path is not None
            app.open_session(path)
        else:
            app.show_session(session, teach=screen == LESSON)
        await pilot.pause()
        if screen == SHELF:
            await _summed_up(pilot)
        yield pilot
        app.close_sessions()
    session.close()


async def _summed_up(pilot: Pilot[None]) -> None:
    """Wait until the shelf has read its session, which it does beside."""
    for _ in range(500):
        if "step" in text_of(pilot.app):  # type: ignore[arg-type]
            return
        await pilot.pause(0.01)
    raise AssertionError("the shelf does not say where its session stands")


async def _shots(
    pilot: Pilot[None], screens: dict[str, list[str]], looks: list[str]
) -> AsyncIterator[tuple[Shot, DryfitApp]]:
    """Each screen in each look at each size, as it stands painted."""
    app = pilot.app
    assert isinstance(app, DryfitApp)
    base: Screen[object] = app.screen
    for look in looks:
        if look != PLAIN:
            app.theme = f"dryfit-{look}"  # before a question is up, which would keep its looks
            await pilot.pause()
        for name, keys in screens.items():
            await pilot.press(*keys)
            for field in app.screen.query(Input):
                field.cursor_blink = False
            for size in SIZES:
                await pilot.resize_terminal(*size)
                await pilot.pause()
                yield (name, look, size), app
            await pilot.resize_terminal(*SIZES[0])
            assert (app.screen is base) is (not keys), name
            while app.screen is not base:
                app.pop_screen()
                await pilot.pause()


async def walk(folder: Path, plain: bool) -> dict[Shot, tuple[str, str]]:
    """Text and digest of every screen, in the coloured looks or in the plain one.

    Args:
        folder: An empty folder for sessions.
        plain: ASCII, and no colour; the environment must say so too.
    """
    found: dict[Shot, tuple[str, str]] = {}
    settings = Settings(ascii=plain)
    looks = [PLAIN] if plain else LOOKS[:-1]
    for number, (kit, go, screens) in enumerate(MOMENTS):
        usual = {name: keys for name, keys in screens.items() if name not in (SHELF, LESSON, BACK)}
        groups = [usual, *({name: []} for name in screens if name not in usual)]
        for group in filter(None, groups):
            first = next(iter(group))
            async with _started(kit, go, first, settings, folder / f"{number}{first}") as pilot:
                async for shot, app in _shots(pilot, group, looks):
                    rows = app.screen._compositor.render_strips(app.size)
                    found[shot] = text_in(rows), _digest(rows)
    return found


def take_all(folder: Path) -> dict[Shot, tuple[str, str]]:
    """All pictures; nothing in them depends on the time, the terminal or the machine."""
    return _taken(folder / "coloured", False) | _taken(folder / "plain", True)


def _taken(home: Path, plain: bool) -> dict[Shot, tuple[str, str]]:
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("DRYFIT_HOME", str(home))
        patch.delenv("NO_COLOR", raising=False)
        if plain:
            patch.setenv("NO_COLOR", "1")
        patch.setattr("model.run.now", lambda: datetime(2026, 1, 5, 10, 0, tzinfo=UTC))
        patch.setattr("tui.screens.miscut.now", lambda: datetime(2026, 1, 5, 10, 30, tzinfo=UTC))
        # Ways are looked for here and now, not in another process that takes its time.
        patch.setattr("model.rescue.rescue.Rescue.begin", lambda self: self.search(deep=False))
        patch.setattr(Compositor, "render_update", _unsent)
        shelf = "tui.screens.shelf"
        patch.setattr(f"{shelf}.kept_in", lambda: (home / "0shelf", Path("/home/kits"), ""))
        patch.setattr(f"{shelf}.since", lambda then: timedelta(days=1))
        patch.setattr(f"{shelf}._PAUSE", 0.001)
        return asyncio.run(walk(home, plain))
