"""Every screen as text, at several sizes, against what was looked at and found good.

After a change that is meant: ``DRYFIT_SNAPSHOTS=write python -m pytest tests/test_snapshots.py``,
then look at the difference, and at the screens as pictures (see DEVELOPERS.md).
"""

from __future__ import annotations

import os
from datetime import UTC, datetime
from pathlib import Path

import pytest

from model.plan import Role, StepKind
from model.session import Session
from tests.screens import begun, table, text_of

FOLDER = Path(__file__).parent / "snapshots"
SIZES = [(80, 24), (60, 20), (120, 40), (160, 50)]


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


SCENES = {
    "open": ("harbour", lambda s: None, []),
    "fill": ("harbour", lambda s: to_step(s, StepKind.FILL), []),
    "stack": ("harbour", lambda s: to_step(s, StepKind.STACK, 3), []),
    "load": ("harbour", lambda s: to_step(s, StepKind.LOAD), []),
    "cut": ("harbour", lambda s: to_step(s, StepKind.CUT, 2), []),
    "metric": ("cards", lambda s: to_step(s, StepKind.CUT, 3), []),
    "file": ("harbour", lambda s: to_filing(s, Role.PIECE), []),
    "scrap": ("harbour", lambda s: to_filing(s, Role.SCRAP), []),
    "warning": ("harbour", lambda s: to_filing(s, Role.PIECE), ["5"]),
    "tear": ("harbour", lambda s: to_step(s, StepKind.TEAR), []),
    "trace": ("harbour", lambda s: to_step(s, StepKind.SHAPE, 2), []),
    "pockets": ("harbour", lambda s: to_filing(s, Role.PIECE), ["k"]),
    "account": ("harbour", to_end, ["a"]),
    "help": ("postcard", lambda s: None, ["question_mark"]),
    "settings": ("postcard", lambda s: None, ["comma"]),
    "question": ("postcard", lambda s: (to_step(s, StepKind.CUT), s.next()), ["u"]),
}


@pytest.mark.parametrize("size", SIZES, ids=lambda size: f"{size[0]}x{size[1]}")
@pytest.mark.parametrize("name", SCENES)
async def test_the_screen_is_as_it_was(tmp_path, monkeypatch, name, size):
    monkeypatch.setenv("DRYFIT_HOME", str(tmp_path))
    monkeypatch.setattr("model.run.now", lambda: datetime(2026, 1, 5, 10, 0, tzinfo=UTC))
    kit, go, keys = SCENES[name]
    session = begun(kit, tmp_path)
    go(session)
    async with table(session, size) as (pilot, _):
        await pilot.press(*keys)
        await pilot.pause()
        shown = text_of(pilot.app).replace(str(tmp_path), "FOLDER") + "\n"
    path = FOLDER / f"{name}-{size[0]}x{size[1]}.txt"
    if os.environ.get("DRYFIT_SNAPSHOTS") == "write":
        FOLDER.mkdir(exist_ok=True)
        path.write_text(shown, encoding="utf-8")
    assert shown == path.read_text(encoding="utf-8")
