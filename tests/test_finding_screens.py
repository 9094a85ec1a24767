"""Finding, counting and putting off, with real keys at the screens."""

from __future__ import annotations

from collections.abc import Iterable

import pytest

from model.manner import Manner
from model.moment import moment_of
from model.plan import StepKind
from model.session import Session
from model.spot import Spot
from tests.screens import begun, table, text_of


async def type_in(pilot, text: str) -> None:  # type: ignore[no-untyped-def]
    """Press what a person types."""
    for char in text:
        await pilot.press("space" if char == " " else char)
    await pilot.pause()


def until(session: Session, name: str) -> None:
    """Up to the moment at which a piece of this name is to be filed."""
    while (item := session.state.due().item) is None or session.plan.items[item].name != name:
        assert session.next().taken


def sentences(session: Session) -> Iterable[str]:
    while not session.state.due().over:
        yield from moment_of(session, Manner()).cautions
        session.next()


class TestFind:
    async def test_a_piece_of_the_pile_is_taken_in_hand_and_filed(self, tmp_path):
        session = begun("harbour", tmp_path)
        session.pace_by(True)
        while len(session.state.pile) < 3 or session.state.mid_load:
            session.next()
        wanted = session.state.pile[0]
        item = session.plan.items[wanted]
        async with table(session) as (pilot, screen):
            await pilot.press("f")
            await type_in(pilot, item.name)
            assert item.name in text_of(pilot.app)
            await pilot.press("enter")
            await pilot.pause()
            assert session.plan.items[screen.chosen].name == item.name
            assert "In your hand:" in text_of(pilot.app)
            chosen = screen.chosen
            await pilot.press("space")
            assert session.state.where(chosen) >= 0

    async def test_what_is_filed_is_said_and_nothing_is_journalled(self, tmp_path):
        session = begun("harbour", tmp_path, 40)
        said = session.said
        async with table(session) as (pilot, _):
            await pilot.press("f")
            await type_in(pilot, "3 3/4 x 5 3/4 white")
            assert "white mat (3¾ × 5¾)" in text_of(pilot.app)
            await pilot.press("enter")
            await pilot.pause()
            assert "is filed in " in text_of(pilot.app)
        assert session.said == said

    @pytest.mark.parametrize("size", [(60, 20), (80, 24), (120, 40)])
    async def test_an_honest_none(self, tmp_path, size):
        session = begun("harbour", tmp_path)
        async with table(session, size) as (pilot, _):
            await pilot.press("f")
            assert "Type what your ruler says" in text_of(pilot.app)
            await type_in(pilot, "7 x 9 green")
            shown = text_of(pilot.app)
            assert "None is just so. The nearest:" in shown
            assert "1 in off, another colour" in shown
            await pilot.press("escape")
            await pilot.pause()
            assert "Find" not in text_of(pilot.app).splitlines()[0]

    async def test_this_is_not_it_leads_to_find(self, tmp_path):
        session = begun("harbour", tmp_path)
        until(session, "first wave")
        async with table(session) as (pilot, _):
            await pilot.press("i")
            await pilot.pause()
            assert "Not first wave (4 × 12)? Say what is in your hand" in text_of(pilot.app)


class TestLookAlikes:
    async def test_it_is_named_before_it_is_filed(self, tmp_path):
        session = begun("harbour", tmp_path)
        until(session, "first wave")
        async with table(session, (60, 20)) as (pilot, _):
            shown = " ".join(text_of(pilot.app).split())
            assert "Not the thin wave for 7·8: this one is 4 wide, that one 3½." in shown

    def test_it_is_named_before_it_is_taken_up_again(self, tmp_path):
        session = begun("harbour", tmp_path)
        told = 0
        while not session.state.due().over:
            step = session.state.due().step
            moment = moment_of(session, Manner())
            if step is not None and step.kind is StepKind.LOAD:
                told += any(text.startswith("Not the") for text in moment.cautions)
            session.next()
        assert told >= 1

    def test_few_are_named(self, tmp_path):
        session = begun("harbour", tmp_path)
        named = [text for text in sentences(session) if text.startswith("Not ")]
        assert 0 < len(named) <= 0.03 * session.said


class TestCount:
    async def test_a_right_count_marks_the_pocket(self, tmp_path):
        session = begun("postcard", tmp_path)
        while not session.state.due().over:
            session.next()
        async with table(session) as (pilot, _):
            await pilot.press("k")
            await pilot.pause()
            await pilot.press("c")
            await pilot.pause()
            assert "Count pocket" in text_of(pilot.app)
            await pilot.press("a", "enter")
            await pilot.pause()
            shown = text_of(pilot.app)
            assert "Counted, and right: 1·2." in shown
            assert "✓ counted" in shown
        assert 0 in session.state.checked

    async def test_what_is_missing_is_proposed_and_put_right_with_one_key(self, tmp_path):
        session = begun("harbour", tmp_path)
        while not session.state.due().over:
            session.next()
        async with table(session, (120, 40)) as (pilot, _):
            await pilot.press("k")
            await pilot.pause()
            await pilot.press("c")
            await pilot.pause()
            await pilot.press("a")
            await pilot.press("home", "space")  # the first row is not there after all
            await pilot.press("enter")
            await pilot.pause()
            assert "is not in 1·2." in text_of(pilot.app)
            await pilot.press("y")
            await pilot.pause()
            assert "Counted, and right: 1·2." in text_of(pilot.app)
        assert session.state.checked.keys() == {0}
        assert len(session.state.mistakes) == 1

    async def test_what_is_nowhere_is_missing(self, tmp_path):
        session = begun("postcard", tmp_path)
        while not session.state.due().over:
            session.next()
        async with table(session) as (pilot, _):
            await pilot.press("k")
            await pilot.pause()
            await pilot.press("c")
            await pilot.pause()
            await pilot.press("a")
            await pilot.press("home", "space", "enter")
            await pilot.pause()
            for _ in range(9):
                if "Pockets:" in text_of(pilot.app):
                    break
                await pilot.press("n")
                await pilot.pause()
            assert Spot.MISSING in session.state.place.values()
            assert "Not right yet; what is missing is listed with" in text_of(pilot.app)

    async def test_what_nobody_looks_for_now_is_not_said_to_be_listed(self, tmp_path):
        session = begun("harbour", tmp_path)
        while not session.state.due().over:
            session.next()
        async with table(session, (120, 40)) as (pilot, _):
            await pilot.press("k", "c", "a", "home", "space", "enter")
            await pilot.pause()
            assert "is not in 1·2." in text_of(pilot.app)
            await pilot.press("l")
            await pilot.pause()
            shown = text_of(pilot.app)
            assert "Something is still to be looked for: c counts the pocket again." in shown
            assert "warnings" not in shown.splitlines()[-2]
            assert "Not right yet" not in shown
        assert not session.state.warnings
        assert not session.state.checked

    async def test_one_missing_and_one_put_off_are_both_told(self, tmp_path):
        session = begun("harbour", tmp_path)
        while not session.state.due().over:
            session.next()
        async with table(session, (120, 40)) as (pilot, _):
            await pilot.press("k", "c", "a", "home", "space", "down", "space", "enter")
            await pilot.pause()
            first = session.state.lying_in(0)
            while not session.state.warnings:
                await pilot.press("n")
                await pilot.pause()
            await pilot.press("l")
            await pilot.pause()
            shown = " ".join(text_of(pilot.app).split())
            assert "Not right yet; what is missing is listed with the warnings." in shown
            assert "Something is still to be looked for: c counts the pocket again." in shown
        assert len(session.state.lying_in(0)) == len(first) - 1


class TestPuttingOff:
    async def test_d_and_t(self, tmp_path):
        session = begun("harbour", tmp_path)
        while (step := session.state.due().step) is None or step.kind is not StepKind.LOAD:
            session.next()
        async with table(session) as (pilot, _):
            await pilot.press("d")
            await pilot.pause()
            shown = text_of(pilot.app)
            assert "Sheet A is done last" in shown
            assert "sheet A (put off)" in shown
            assert session.state.step().sheet == "B"  # type: ignore[union-attr]
            await pilot.press("t")
            await pilot.pause()
            assert session.state.step().sheet == "A"  # type: ignore[union-attr]
            await pilot.press("t")
            await pilot.pause()
            assert "not put off" in text_of(pilot.app)

    async def test_only_when_a_sheet_is_about_to_be_loaded(self, tmp_path):
        session = begun("harbour", tmp_path, 3)
        async with table(session) as (pilot, _):
            await pilot.press("d")
            await pilot.pause()
            assert "about to be loaded" in text_of(pilot.app)
        assert session.state.deferred == {}
