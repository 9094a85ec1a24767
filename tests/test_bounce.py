"""A key that bounces, or is held down, says one thing once."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from textual.events import Key

from model.plan import StepKind
from model.settings import BOUNCES, Settings, with_value
from tests.screens import begun, table
from tui.bounce import Bounce


def pressed(key: str, at: float) -> Key:
    event = Key(key, None)
    event.time = at
    return event


@given(st.lists(st.floats(0, 0.079), min_size=1, max_size=30))
def test_a_key_that_is_held_down_is_one_press(gaps: list[float]) -> None:
    bounce, at, counted = Bounce(0.08), 100.0, 0
    for gap in [1.0, *gaps]:
        at += gap
        counted += not bounce.again(pressed("space", at))
    assert counted == 1


@given(st.lists(st.floats(0.081, 10), min_size=1, max_size=30))
def test_a_hand_that_presses_again_is_heard_each_time(gaps: list[float]) -> None:
    bounce, at = Bounce(0.08), 100.0
    for gap in gaps:
        at += gap
        assert not bounce.again(pressed("space", at))


def test_other_keys_and_keys_that_go_through_lists_are_never_held_back() -> None:
    bounce = Bounce(0.3)
    assert not any(bounce.again(pressed(key, 5.0)) for key in ("1", "2", "1", "p", "l"))
    assert not any(bounce.again(pressed("down", 6.0)) for _ in range(9))
    assert not any(Bounce(0).again(pressed("space", 7.0)) for _ in range(9))


async def test_a_bouncing_pedal_makes_one_cut(tmp_path) -> None:
    session = begun("harbour", tmp_path)
    while (step := session.state.due().step) is None or step.kind is not StepKind.LOAD:
        session.next()
    async with table(session) as (pilot, screen):
        pilot.app.bounce.within = 10.0
        said = session.said
        await pilot.press("space", "space", "space")
        assert session.said == said + 1
        assert session.state.due().step is not None
        assert session.state.due().step.kind is StepKind.CUT
        await pilot.press("u", "space")  # another key between them: the pedal was pressed again
        assert screen.moment.due.step is not None


async def test_letters_that_are_typed_may_come_twice(tmp_path) -> None:
    session = begun("postcard", tmp_path)
    async with table(session) as (pilot, _):
        pilot.app.bounce.within = 10.0
        await pilot.press("f", "4", "4", "x", "x")
        assert pilot.app.screen.query_one("#asked").value == "44xx"


@pytest.mark.parametrize("value", [*BOUNCES, 5, -80, True, "80"])
def test_only_the_values_there_are_can_be_set(value) -> None:
    settings, why = with_value(Settings(), "bounce", value)
    right = value in BOUNCES and type(value) is int
    assert (why == "") == right
    assert settings.bounce == (value if right else 80)


async def test_of_a_burst_the_first_key_counts(tmp_path) -> None:
    """They come in one reading of the terminal, before the first of them was looked up."""
    session = begun("harbour", tmp_path)
    async with table(session) as (pilot, _):
        app = pilot.app
        app.bounce.within = 0.08
        for _ in range(2):
            said = session.said
            for _ in range(5):
                app.post_message(Key("space", " "))
            await pilot.pause()
            assert session.said == said + 1
            app.bounce = Bounce(0.08)  # a while later
