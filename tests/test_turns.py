"""A sheet may be put off to be last, and taken up again; all that needs it waits with it."""

from __future__ import annotations

import random

import pytest

from model.account import account_of
from model.folders import demo_folder
from model.plan import Phase, StepKind
from model.reading import read_kit
from model.session import Session
from tests.muddle import QuickDisk
from tests.tables import clock


def session_of(name: str) -> Session:
    text = (demo_folder() / f"{name}.toml").read_text("utf-8")
    return Session.start(read_kit(text), None, None, clock(), disk=QuickDisk())


def to_load(session: Session, sheet: str) -> None:
    while (step := session.state.due().step) is None or (step.kind, step.sheet) != (
        StepKind.LOAD, sheet,
    ):  # fmt: skip
        assert session.next().taken


def sheets_as_cut(session: Session) -> list[str]:
    """The sheets in the order in which they are loaded, up to the end."""
    found: list[str] = []
    while not session.state.due().over:
        step = session.state.due().step
        if step is not None and step.kind is StepKind.LOAD and step.sheet not in found:
            found.append(step.sheet)
        assert session.next().taken
    return found


def test_it_is_trimmed_after_all_others_and_before_the_trimmer_is_put_away():
    session = session_of("harbour")
    usual = [s.name for s in session.plan.kit.sheets]
    to_load(session, "B")
    assert session.defer().taken
    assert session.state.step().sheet != "B"
    order = sheets_as_cut(session)
    trimmed = [
        step.sheet
        for step in session.plan.steps
        if step.kind is StepKind.LOAD and step.phase is Phase.TRIMMING
    ]
    assert order.index("B") == len(set(trimmed)) - 2  # sheet A was cut before; B is the last
    assert set(order) <= set(usual)
    assert account_of(session).closes
    assert session.state.deferred == {}


def test_taken_up_again_it_is_next():
    session = session_of("harbour")
    to_load(session, "B")
    session.defer()
    to_load(session, "D")
    assert session.state.deferred == {"B": True}
    assert session.take_up("B").taken
    step = session.state.step()
    assert (step.sheet, step.kind) == ("B", StepKind.LOAD)
    assert session.state.deferred == {}
    assert account_of(session).closes is False
    sheets_as_cut(session)
    assert account_of(session).closes


def test_undo_puts_it_back_where_it_was():
    session = session_of("harbour")
    to_load(session, "B")
    before = session.state.snapshot()
    session.defer()
    session.undo()
    assert session.state.snapshot() == before


def test_not_while_paper_is_in_the_trimmer():
    session = session_of("harbour")
    to_load(session, "B")
    session.next()
    assert session.defer("C").objection == "finish the load"


def test_the_last_one_can_t_be_put_off():
    session = session_of("cards")
    trimmed = list(
        dict.fromkeys(
            step.sheet for step in session.plan.steps if step.load and step.phase is Phase.TRIMMING
        )
    )
    to_load(session, trimmed[0])
    for sheet in trimmed[:-1]:
        assert session.defer(sheet).taken
    assert session.defer(trimmed[-1]).objection == "last already"
    assert session.defer(trimmed[0]).objection == "done already"
    assert session.defer("no such sheet").objection == "no such thing"
    assert session.take_up(trimmed[-1]).objection == "not put off"
    sheets_as_cut(session)
    assert account_of(session).closes


@pytest.mark.parametrize("name", ["harbour", "cards", "postcard"])
@pytest.mark.parametrize("seed", range(6))
def test_put_off_and_taken_up_at_random_every_run_closes(name, seed):
    rng = random.Random(seed)
    session = session_of(name)
    sheets = [sheet.name for sheet in session.plan.kit.sheets]
    while not session.state.due().over:
        if rng.random() < 0.2:
            sheet = rng.choice(sheets)
            told = session.take_up(sheet) if rng.random() < 0.4 else session.defer(sheet)
            assert told.taken or told.objection
        assert session.next().taken
        for step in session.state.waiting_steps():
            assert step.id not in session.state.done
    assert account_of(session).closes
    assert all(session.state.done.values())
