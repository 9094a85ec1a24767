"""What the table makes of what a crafter does: mistakes, and how they are put right.

What counts as a mistake, and how it is answered, is common practice (no source).
"""

from __future__ import annotations

import pytest

from model.event import Done, Extra, Filed, Left, Moved, Scrapped, Settled, Skipped
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
    objected,
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


class TestWrongPocket:
    def test_it_is_warned_of_at_once_and_put_right_with_one_key(self, session: Session) -> None:
        until_in_hand(session, "A/1")
        told = session.file_into(P34)  # no mat goes there
        warning = only_warning(session)
        assert told.raised == (warning,)
        assert (warning.kind, warning.items, warning.pocket) == (
            WarningKind.WRONG_POCKET, ("A/1",), P34,
        )  # fmt: skip
        assert session.state.belongs("A/1") == P12
        assert session.state.held(P34) == 3  # what is wrong does not count
        put_right(session)
        assert session.state.where("A/1") == P12
        assert session.state.warnings == {}

    def test_companions_follow_their_piece(self, session: Session) -> None:
        until_in_hand(session, "A/1")
        session.file_into(P34)
        assert session.state.where("brass star#1") == P34
        put_right(session)
        assert session.state.where("brass star#1") == P12
        session.say(Moved("A/1", ""))
        assert session.state.where("brass star#1") == Spot.ASIDE
        session.scrap()
        assert session.state.where("brass star#1") == Spot.ASIDE

    def test_it_is_no_mistake_to_take_alike_copies_in_another_order(self, session: Session) -> None:
        """One mat goes to 1·2 and two to 5·6: the first may as well be one of the two."""
        until_in_hand(session, "A/1")
        session.file_into(P56)
        until_in_hand(session, "A/2")
        assert session.state.belongs("A/2") == P12
        session.file_into(P56)
        until_in_hand(session, "A/3")
        assert session.state.belongs("A/3") == P12
        assert session.state.warnings == {}
        session.next()
        assert session.state.where("A/3") == P12

    def test_left_for_later_it_stands_and_comes_back_fresh_when_made_again(
        self, session: Session
    ) -> None:
        until_in_hand(session, "A/1")
        session.file_into(P34)
        first = only_warning(session)
        session.leave(first)
        assert first.id in session.state.left
        until_in_hand(session, "A/2")
        told = session.file_into(P34)
        (second,) = told.raised
        assert second.id != first.id
        assert second.items == ("A/2",)
        assert session.state.left.keys() == {first.id}
        session.put_right(second)
        assert only_warning(session) == first

    def test_leaving_is_taken_back_too(self, session: Session) -> None:
        until_in_hand(session, "A/1")
        session.file_into(P34)
        session.leave(only_warning(session))
        session.undo()
        assert session.state.left == {}
        session.undo()
        assert session.state.warnings == {}
        session.redo()
        session.redo()
        assert session.state.left.keys() == session.state.warnings.keys()

    def test_an_hour_old_mistake_is_moved_without_undoing_what_came_after(
        self, session: Session
    ) -> None:
        until_in_hand(session, "A/1")
        session.file_into(P34)
        session.leave(only_warning(session))
        to_the_end(session)
        assert session.move("A/1", session.state.belongs("A/1")).taken
        assert session.state.warnings == {}
        assert all(held == wanted for held, wanted in counts(session))


class TestTooMany:
    def test_the_copy_filed_last_is_named(self, session: Session) -> None:
        until_in_hand(session, "A/1")
        session.file_into(P12)
        until_in_hand(session, "A/2")
        session.file_into(P12)
        warning = only_warning(session)
        assert (warning.kind, warning.items) == (WarningKind.TOO_MANY, ("A/2",))
        assert session.state.belongs("A/2") == P56

    def test_when_the_first_is_moved_the_second_is_right_where_it_lies(
        self, session: Session
    ) -> None:
        until_in_hand(session, "A/1")
        session.file_into(P12)
        until_in_hand(session, "A/2")
        session.file_into(P12)
        session.move("A/1", P56)
        assert session.state.warnings == {}
        assert session.state.belongs("A/2") == P12
        session.undo()
        assert only_warning(session).items == ("A/2",)

    def test_there_is_always_room_to_put_right(self, session: Session) -> None:
        """All three in the pocket that wants one: each of the others has its place."""
        for item in ("A/1", "A/2", "A/3"):
            until_in_hand(session, item)
            session.file_into(P12)
        assert kinds(session) == [WarningKind.TOO_MANY] * 2
        for warning in list(session.state.warnings.values()):
            session.put_right(warning)
        assert session.state.right("mat", P12) == 1
        assert session.state.right("mat", P56) == 2


class TestScraps:
    def test_a_wanted_piece_called_a_scrap(self, session: Session) -> None:
        until_in_hand(session, "A/2")
        session.scrap()
        warning = only_warning(session)
        assert (warning.kind, warning.items) == (WarningKind.WANTED_SCRAPPED, ("A/2",))
        assert session.state.scraps == 1
        put_right(session)
        assert session.state.where("A/2") == session.state.belongs("A/2") == P56
        assert session.state.scraps == 0

    def test_a_strip_called_a_scrap_goes_back_to_the_pile(self, session: Session) -> None:
        up_to(session, "A/r/load")
        session.scrap("A/r")
        assert only_warning(session).items == ("A/r",)
        put_right(session)
        assert session.state.pile == ("A/r",)

    def test_a_strip_called_a_scrap_is_forgiven_when_it_is_cut_after_all(
        self, session: Session
    ) -> None:
        up_to(session, "A/r/load")
        session.scrap("A/r")
        session.next()
        assert session.state.where("A/r") == Spot.IN_HAND
        assert session.state.warnings == {}
        assert session.state.scraps == 0

    def test_a_scrap_in_a_pocket(self, session: Session) -> None:
        until_in_hand(session, "A/r/2/1")
        session.file_into(P34)
        assert kinds(session) == [WarningKind.SCRAP_FILED]
        put_right(session)
        assert session.state.where("A/r/2/1") == Spot.SCRAPS

    def test_one_more_scrap_than_expected(self, session: Session) -> None:
        told = session.scrap()  # with nothing in hand
        assert [warning.kind for warning in told.raised] == [WarningKind.EXTRA_SCRAP]
        assert session.state.scraps == session.state.extra == 1
        put_right(session)  # it was no scrap
        assert session.state.scraps == 0

    def test_each_scrap_too_many_is_a_warning_of_its_own(self, session: Session) -> None:
        session.say(Extra())
        session.say(Extra())
        first, second = session.state.warnings.values()
        session.put_right(first)
        assert only_warning(session) == second
        assert session.state.extra == 1

    def test_a_scrap_too_many_asks_of_scraps_alone_again(self, session: Session) -> None:
        until_in_hand(session, "A/1")
        session.file_into(P34)
        session.leave(only_warning(session))
        session.say(Extra())
        extra = list(session.state.warnings.values())[-1]
        session.leave(extra)
        raised = []
        while not session.state.due().over:
            raised += session.next().raised
        assert raised == [extra]

    def test_the_scrap_that_pushes_the_count_over_asks_again(self, session: Session) -> None:
        session.say(Extra())
        warning = only_warning(session)
        session.leave(warning)
        scraps = 0
        while not session.state.due().over:
            scrap = session.state.due().item
            told = session.next()
            if scrap is not None and session.plan.items[scrap].name == "scrap":
                scraps += 1
                over = scraps == session.state.scraps_expected
                assert told.raised == ((warning,) if over else ())
        assert scraps == 4
        assert session.state.left == {}

    def test_a_scrap_is_thrown_once(self, session: Session) -> None:
        until_in_hand(session, "A/r/2/1")
        session.next()
        assert objected(session, Scrapped("A/r/2/1")) == "done already"


class TestTwice:
    def test_a_piece_filed_twice_stays_where_it_is(self, session: Session) -> None:
        until_in_hand(session, "A/3")
        session.next()
        assert session.say(Filed("A/3", "3·4")).taken  # and once more
        warning = only_warning(session)
        assert (warning.kind, warning.items, warning.pocket) == (
            WarningKind.TWICE, ("A/3",), P34,
        )  # fmt: skip
        assert session.state.where("A/3") == P56
        put_right(session)
        assert session.state.where("A/3") == P56

    def test_with_an_empty_pile_the_last_thing_is_filed_twice(self, session: Session) -> None:
        to_the_end(session)
        (last,) = (e.event.item for e in session.state.last_said() if isinstance(e.event, Filed))
        session.file_into(P12)
        assert only_warning(session).items == (last,)

    def test_it_may_have_gone_into_a_third_pocket(self, session: Session) -> None:
        until_in_hand(session, "A/2")
        session.say(Filed("A/1", "5·6"))
        here = session.state.where("A/1")
        other = next(pocket for pocket in (P12, P34, P56) if pocket != here)
        assert session.answer(only_warning(session), other).taken
        assert session.state.where("A/1") == other

    def test_moving_it_answers_it(self, session: Session) -> None:
        until_in_hand(session, "A/2")
        session.say(Filed("A/1", "5·6"))
        session.move("A/1", P56)
        assert session.state.warnings == {}


class TestStrips:
    def test_a_strip_in_a_pocket_is_too_early(self, session: Session) -> None:
        up_to(session, "A/r/load")
        session.file_into(P34, "A/r")
        assert only_warning(session).kind is WarningKind.STRIP_FILED
        assert session.state.belongs("A/r") == Spot.PILE
        session.next()  # it is taken from there
        assert session.state.warnings == {}

    def test_a_piece_without_a_pocket_waits_on_the_pile(self, session: Session) -> None:
        """It has a name of its own but is only cut again: it is never asked to be filed."""
        up_to(session, "A/r/r/load")
        assert session.state.pile == ("A/r/r", "B/r")
        assert session.state.waiting == 0
        assert session.state.belongs("A/r/r") == Spot.PILE


class TestByLoad:
    def test_a_whole_load_is_cut_before_its_pieces_are_filed(self, session: Session) -> None:
        session.pace_by(True)
        up_to(session, "A/1")
        for step in ("A/1", "A/2", "A/3"):
            due = session.state.due()
            assert due.step is not None
            assert due.step.id == step
            session.next()
        assert session.state.pile == ("A/1", "A/2", "A/r", "A/3")
        filed = []
        while (item := session.state.due().item) is not None:
            filed.append(item)
            session.next()
        assert filed == ["A/3", "A/2", "A/1"]  # from the top
        assert list(session.state.pile) == ["A/r"]

    def test_it_can_be_switched_at_any_time(self, session: Session) -> None:
        session.pace_by(True)
        up_to(session, "A/2")
        assert session.state.due().item is None
        session.pace_by(False)
        assert session.state.due().item == "A/1"
        session.undo()  # how pieces are filed is not what undo takes back
        assert not session.state.by_load


class TestObjections:
    def test_the_things_that_cannot_be_done_now(self, session: Session) -> None:
        assert objected(session, Done("A/1")) == "not yet"
        assert objected(session, Done("Z/1")) == "no such step"
        assert objected(session, Skipped("open")) == "not optional"
        assert objected(session, Filed("A/1", "1·2")) == "not made"
        assert objected(session, Filed("Z/1", "1·2")) == "no such thing"
        assert objected(session, Filed("brass star#1", "1·2")) == "filed with its piece"
        assert objected(session, Left("pocket:3")) == "no such warning"
        session.next()
        assert objected(session, Done("open")) == "done already"
        up_to(session, "fill:white mat:1·2")
        assert objected(session, Done("fill:white mat:1·2", "7·8")) == "no such pocket"
        up_to(session, "A/load")
        assert objected(session, Filed("A", "1·2")) == "not cut yet"
        session.next()
        assert objected(session, Filed("A", "1·2")) == "in hand"
        until_in_hand(session, "A/1")
        assert objected(session, Filed("A/1", "7·8")) == "no such pocket"
        assert objected(session, Moved("A/1", "")) == "done already"
        session.next()
        assert objected(session, Moved("A/1", "1·2")) == "done already"
        up_to(session, "A/r/load")
        assert objected(session, Scrapped("A")) == "cut up"

    def test_a_misfiled_piece_is_not_settled_by_a_word(self, session: Session) -> None:
        until_in_hand(session, "A/1")
        session.file_into(P34)
        assert objected(session, Settled(only_warning(session).id)) == "no such warning"


class TestUndo:
    def test_undo_goes_back_over_steps_and_filings(self, session: Session) -> None:
        until_in_hand(session, "A/2")
        before = session.state.snapshot()
        session.next()
        session.next()
        session.undo()
        session.undo()
        assert session.state.snapshot() == before

    def test_a_new_answer_ends_redo(self, session: Session) -> None:
        until_in_hand(session, "A/2")
        session.next()
        session.undo()
        session.file_into(P34)
        assert session.redo().objection == "nothing to redo"

    def test_a_mistake_is_remembered_once_however_it_was_answered(self, session: Session) -> None:
        until_in_hand(session, "A/1")
        session.file_into(P34)
        for _ in range(3):
            session.undo()
            session.redo()
        session.put_right(only_warning(session))
        until_in_hand(session, "A/2")
        session.scrap()
        session.say(Extra())
        told = [(m.kind, m.items, m.pocket, m.belonged) for m in session.state.mistakes]
        assert told == [
            (WarningKind.WRONG_POCKET, ("A/1",), "3·4", "1·2"),
            (WarningKind.WANTED_SCRAPPED, ("A/2",), "", "5·6"),
            (WarningKind.EXTRA_SCRAP, (), "", ""),
        ]
