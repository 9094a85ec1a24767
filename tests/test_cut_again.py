"""Pieces that are taken up and cut again, and optional steps with all that hangs on them."""

from __future__ import annotations

import pytest

from model.alerts import alerts_of
from model.event import Done, Skipped
from model.language.english.words import English
from model.manner import Manner
from model.session import Session
from model.state import Spot
from model.warning import Warning, WarningKind
from tests.oracle import check_all
from tests.tables import (
    P12,
    P34,
    P56,
    counts,
    kinds,
    only_warning,
    table,
    to_the_end,
    until_in_hand,
    up_to,
)


@pytest.fixture
def session() -> Session:
    return table()


def put_right(session: Session) -> Warning:
    """Put the one warning right."""
    warning = only_warning(session)
    assert session.put_right(warning).taken
    check_all(session)
    return warning


class TestCutAgain:
    def test_pieces_that_are_taken_up_leave_their_pocket(self, session: Session) -> None:
        """Two plates are filed, one in each of two pockets, and cut again; neither counts."""
        until_in_hand(session, "A/r/1")
        before = counts(session)
        session.next()
        until_in_hand(session, "A/r/2")
        session.next()
        assert counts(session) == before
        up_to(session, "A/r/2/load")
        assert session.state.right("plate", P12) == session.state.right("plate", P34) == 1
        session.next()
        assert session.state.where("A/r/2") == Spot.IN_HAND
        check_all(session)

    def test_a_stray_that_is_taken_up_is_forgotten(self, session: Session) -> None:
        until_in_hand(session, "A/r/1")
        session.file_into(P56)
        session.leave(only_warning(session))
        until_in_hand(session, "A/r/2")
        session.next()
        up_to(session, "A/r/1/load")
        assert kinds(session) == [WarningKind.WRONG_POCKET]
        session.next()
        assert session.state.warnings == {}
        check_all(session)
        to_the_end(session)
        assert all(held == wanted for held, wanted in counts(session))

    def test_a_pocket_whose_own_copy_is_taken_up_holds_nothing_too_many(
        self, session: Session
    ) -> None:
        """Two plates in the pocket of one, and the right one is cut: the other is just wrong."""
        until_in_hand(session, "A/r/1")
        session.file_into(P34)
        until_in_hand(session, "A/r/2")
        session.file_into(P12)
        session.move("A/r/1", P12)
        words = English(session.plan, Manner())
        assert alerts_of(session.state, words)[0].text.startswith("TOO MANY: 1·2 holds its one")
        session.leave(only_warning(session))
        up_to(session, "A/r/2/load")
        session.next()
        assert alerts_of(session.state, words)[0].text == (
            "WRONG POCKET: plate (3 × 4) went into 1·2. It belongs in 3·4: it is used on page 3 "
            "or 4."
        )
        check_all(session)

    def test_the_slit_or_punched_piece_stays_where_it_is(self, session: Session) -> None:
        up_to(session, "B/1/punch")
        session.next()
        assert session.state.where("B/1") == P34
        assert session.state.pile == ("B/1/punch2", "B/1/punch1")


class TestLeavingOut:
    def test_only_optional_steps_that_are_not_begun(self, session: Session) -> None:
        assert session.skip().objection == "not optional"
        up_to(session, "A/r/2/load")
        session.next()
        assert session.state.due().step is not None
        assert session.skip().objection == "begun"

    def test_a_load_goes_with_all_its_cuts(self, session: Session) -> None:
        up_to(session, "A/r/2/load")
        session.skip()
        assert session.state.done["A/r/2/load"] is session.state.done["A/r/2/1"] is False
        assert session.state.due().step == session.plan.steps[19]
        assert session.state.scraps_expected == 3

    def test_a_strip_of_which_nothing_is_cut_is_not_still_to_be_cut(self, session: Session) -> None:
        up_to(session, "B/r/load")
        session.skip()
        words = English(session.plan, Manner())
        session.file_into(P34, "B/r")
        assert alerts_of(session.state, words)[0].text == (
            "NOT FOR A POCKET: other (6 × 12) went into 3·4. It belongs on the pile: what was to "
            "be cut of it was left out."
        )
        check_all(session)
        session.undo()
        session.scrap("B/r")
        assert alerts_of(session.state, words)[0].text == (
            "NOT A SCRAP: other (6 × 12) is not one of the kit's scraps. It belongs on the pile: "
            "what was to be cut of it was left out."
        )
        check_all(session)

    def test_the_piece_stays_in_its_pocket_for_good(self, session: Session) -> None:
        """A plate that is not cut again is wanted; its quarter no longer is."""
        up_to(session, "A/r/2/load")
        before = counts(session)
        home = session.state.where("A/r/2")
        session.skip()
        after = counts(session)
        held, wanted = before[home]
        assert after[home] == (held + 1, wanted + 1)
        assert after[P56] == (before[P56][0], before[P56][1] - 1)
        assert not session.state.cut_again("A/r/2")
        check_all(session)
        to_the_end(session)
        assert all(held == wanted for held, wanted in counts(session))
        check_all(session)

    def test_all_that_hangs_on_it_is_left_out(self, session: Session) -> None:
        while (due := session.state.due()).item or not (due.step and due.step.optional):
            session.next()
        while not session.state.due().over:
            told = session.skip()
            if not told.taken:
                session.next()
        left_out = {id for id, really in session.state.done.items() if not really}
        assert left_out == {
            "A/r/2/load", "A/r/2/1", "A/r/1/load", "A/r/1/1", "B/r/load", "B/r/1",
            "B/1/punch", "B/1/fussy_cut",
        }  # fmt: skip
        assert all(held == wanted for held, wanted in counts(session))
        check_all(session)

    def test_what_comes_of_what_is_left_out_is_left_out_too(self) -> None:
        text = """
            dryfit = 1
            title = "Chain"
            page = "12 x 12"
            pages = 2
            sheet = [{ name = "A", face = "navy" }]
            piece = [
              { name = "wide", to = 1 }, { name = "narrow", to = 1 }, { name = "last", to = 2 },
              { name = "dot", to = 2 },
            ]
            step = [
              { trim = "A", marks = [9], gives = "wide", rest = "strip" },
              { trim = "strip", marks = [6], gives = "narrow", rest = "end", optional = true },
              { trim = "end", marks = [3], gives = "scrap", rest = "last" },
              { punch = "last", gives = "dot" },
            ]
        """
        session = table(text)
        up_to(session, "A/r/load")
        assert session.state.wanted(0) == 4
        assert [step.id for step in session.state.hangs_on(session.plan.steps[5])] == [
            "A/r/load", "A/r/1", "A/r/r/load", "A/r/r/1", "A/r/r/r/punch",
        ]  # fmt: skip
        session.skip()
        assert session.state.wanted(0) == session.state.held(0) == 1
        assert session.state.scraps_expected == 0
        check_all(session)
        session.next()
        assert session.state.due().over
        session.undo()
        session.undo()
        assert session.state.wanted(0) == 4
        check_all(session)


def test_who_keeps_a_copy_keeps_the_first_pocket_for_it(session: Session) -> None:
    """Both plates lie on the pile; one is not cut again. The other one leaves the last pocket."""
    session.pace_by(True)
    for step in session.plan.steps:
        if step.id == "A/r/2/load":
            break
        session.say(Done(step.id))
    assert session.say(Skipped("A/r/2/load")).taken
    assert session.state.where("A/r/2") == Spot.PILE
    session.say(Done("A/r/1/load"))
    assert session.state.belongs("A/r/2") == P12
    assert [session.state.room("plate", pocket) for pocket in (P12, P34)] == [1, 0]
    check_all(session)


TORN = """
dryfit = 1
title = "Torn"
page = "12 x 12"
pages = 4

[[sheet]]
name = "B"
face = "navy"

[[step]]
tear = "B"
widths = [6]
gives = { name = "p", to = "1·2" }
rest = "scrap"
optional = true
"""


def test_an_optional_tear_that_is_begun_is_not_left_out() -> None:
    session = table(TORN)
    up_to(session, "B/load")
    assert session.state.may_skip(session.plan.steps[session.state.cursor])
    session.next()
    assert session.skip().objection == "begun"
