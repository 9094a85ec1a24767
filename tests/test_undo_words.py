"""Undo where paper was cut: it stays cut, and what was said of where things are is taken back."""

from __future__ import annotations

from pathlib import Path

import pytest

from model.event import Done, Entry, Filed, Left, Withdrawn
from model.reading import read_kit
from model.session import Session
from model.shelf import sessions_in
from model.state import Spot, State
from model.story import fold
from model.warning import WarningKind
from tests.hand_kits import CUT_AGAIN
from tests.muddle import QuickDisk, entries_of, finish
from tests.oracle import check_all
from tests.tables import (
    P12,
    P34,
    P56,
    clock,
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


class TestCutAndFiled:
    def test_the_cut_stays_and_the_piece_is_back_on_the_pile(self, session: Session) -> None:
        up_to(session, "A/2")
        session.next()
        bare = session.state.snapshot()
        session.undo()
        session.file_into(P34)
        filed = session.state.snapshot()
        word = session.state.last_word()
        assert word is not None and word.event == Filed("A/2", "3·4")
        assert word in session.state.last_said()
        assert session.undo_word().taken
        assert session.state.snapshot() == bare
        assert session.state.due().item == "A/2"
        assert session.redo().taken  # one answer, said again as one
        assert session.state.snapshot() == filed
        assert session.redo().objection == "nothing to redo"

    def test_then_the_cut_too_can_be_taken_back_and_both_said_again(self, session: Session) -> None:
        up_to(session, "A/2")
        before = session.state.snapshot()
        session.file_into(P34)
        filed = session.state.snapshot()
        session.undo_word()
        session.undo()
        assert session.state.snapshot() == before
        session.redo()
        session.redo()
        assert session.state.snapshot() == filed
        session.undo()  # they are one answer again
        assert session.state.snapshot() == before

    def test_filed_anew_there_is_nothing_left_to_say_again(self, session: Session) -> None:
        up_to(session, "A/2")
        session.file_into(P34)
        session.undo_word()
        session.file_into(P56)
        assert session.state.where("A/2") == P56
        assert session.redo().objection == "nothing to redo"
        assert [m.kind for m in session.state.mistakes] == [WarningKind.WRONG_POCKET]


class TestBeneathACut:
    def test_it_goes_on_to_what_was_said_before_without_end(self, session: Session) -> None:
        """The filing before the cut, then the one before that, to the first of all."""
        until_in_hand(session, "A/1")
        session.file_into(P34)  # wrong, and seen too late
        session.leave(only_warning(session))
        up_to(session, "A/2")
        session.file_into(P56)
        up_to(session, "A/3")
        session.next()
        assert session.undo_unmakes_cut()
        seen = [session.state.snapshot()]
        words = []
        while (word := session.state.last_word()) is not None:
            words.append(word.event)
            assert session.undo_word().taken
            seen.append(session.state.snapshot())
            check_all(session)
            assert session.undo_unmakes_cut()  # it is still there to be asked about
        assert words[0] == Filed("A/2", "5·6")
        assert isinstance(words[1], Left)
        assert words[2] == Filed("A/1", "3·4")
        assert {type(word).did for word in words[3:]} == {"done"}  # what was packed ready made
        assert session.undo_word().objection == "nothing to undo"
        assert all(place < 0 for place in session.state.place.values())
        assert {"A/load", "A/1", "A/2", "A/3"} <= session.state.done.keys()
        for before in reversed(seen[:-1]):
            assert session.redo().taken
            assert session.state.snapshot() == before

    def test_what_was_wrong_is_filed_rightly_and_the_run_goes_on(self, session: Session) -> None:
        until_in_hand(session, "A/1")
        session.file_into(P34)
        session.leave(only_warning(session))
        up_to(session, "A/2")
        session.next()
        session.undo_word()
        session.undo_word()
        assert session.state.warnings == {}
        assert session.state.pile == ("A/1", "A/2")
        to_the_end(session)
        check_all(session)
        assert not session.state.warnings

    def test_a_count_that_was_taken_back_is_asked_for_again(self, session: Session) -> None:
        up_to(session, "fill:white mat:5·6")
        session.file_into(P12)
        session.leave(only_warning(session))
        up_to(session, "A/1")
        session.next()
        while session.undo_word().taken and session.state.warnings:
            pass
        session.next()
        due = session.state.due()
        assert due.step is not None and due.step.id == "fill:white mat:5·6"
        finish(session)
        check_all(session)

    def test_a_piece_that_is_cut_up_is_passed_over(self, session: Session) -> None:
        up_to(session, "A/r/2/1")
        session.next()
        taken = {id for id, place in session.state.place.items() if place == Spot.TAKEN}
        assert "A/r/2" in taken
        while (word := session.state.last_word()) is not None:
            assert getattr(word.event, "item", "") not in taken
            session.undo_word()
            check_all(session)

    def test_steps_and_what_was_left_out_stay(self, session: Session) -> None:
        up_to(session, "A/r/2/load")
        session.skip()
        up_to(session, "B/1")
        session.next()
        done = {id: really for id, really in session.state.done.items() if "fill" not in id}
        while session.undo_word().taken:
            check_all(session)
        assert {i: d for i, d in session.state.done.items() if "fill" not in i} == done

    def test_only_the_last_word_is_withdrawn(self, session: Session) -> None:
        until_in_hand(session, "A/2")
        first = session.state.standing()[0].n
        assert objected(session, Withdrawn(first)) == "nothing to undo"
        assert objected(session, Withdrawn(999)) == "nothing to undo"


def test_it_is_in_the_journal_and_comes_back_as_it_was(tmp_path: Path) -> None:
    session = Session.start(read_kit(CUT_AGAIN), None, tmp_path, clock(), disk=QuickDisk())
    up_to(session, "A/2")
    session.file_into(P34)
    session.undo_word()
    session.undo_word()
    path = session.path
    assert path is not None
    assert [type(entry.event).did for entry in entries_of(path)][-2:] == ["withdrawn"] * 2
    (seen,) = sessions_in(tmp_path)
    assert seen.done == session.state.steps_done  # also when a count packed ready made is asked
    session.undo_word()
    assert sessions_in(tmp_path)[0].done == session.state.steps_done
    session.redo()
    assert sessions_in(tmp_path)[0].done == session.state.steps_done
    state = fold(session.plan, entries_of(path))
    assert state.snapshot() == session.state.snapshot()
    assert state.ignored == [] and state.mistakes == session.state.mistakes
    session.close()
    again = Session.resume(path, clock())
    again.redo()
    again.redo()
    assert kinds(again) == [WarningKind.WRONG_POCKET]
    again.close()


def test_each_question_answered_with_not_cut_leads_back_to_the_start(session: Session) -> None:
    up_to(session, "B/1")
    session.file_into(P12)
    for _ in range(5):
        session.undo_word()
    while session.undo().taken:
        check_all(session)
    assert session.state.snapshot() == State(session.plan).snapshot()


def test_a_word_that_the_journal_lost_is_not_taken_back() -> None:
    plan = table().plan
    state = State(plan)
    at = clock()()
    state.apply(Entry(3, at, Withdrawn(2)))
    assert state.ignored == [3]


PACKED = """
dryfit = 1
title = "Packed"
page = "12 x 12"
pages = 2

[[precut]]
name = "card"
face = "tan"
size = "4 x 4"
to = "1·2"

[[step]]
trim = "card"
marks = [2]
gives = { name = "left", to = "1·2" }
rest = "scrap"
"""


def test_where_a_packed_piece_went_is_no_word_once_it_is_cut_up() -> None:
    session = table(PACKED)
    up_to(session, "card#1/load")
    word = session.state.last_word()
    assert word is not None
    assert word.event == Done("fill:card:1·2")
    session.next()
    assert session.state.last_word() is None  # the card is in the trimmer
