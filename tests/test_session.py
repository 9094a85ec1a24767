"""A session: what is said is kept, and comes back as it was said."""

from __future__ import annotations

import random
import re
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from model.event import Done, Entry, Foreign, to_record
from model.finding import KitError
from model.journal import Journal, JournalBusy, read_journal
from model.journal_text import write_record
from model.reading import read_kit
from model.session import Session, SessionError, file_name
from model.state import State
from model.story import fold
from tests.hand_kits import CUT_AGAIN
from tests.muddle import QuickDisk, entries_of, muddle
from tests.oracle import check_all
from tests.tables import P34, clock, only_warning, table, to_the_end, until_in_hand, up_to

CLOCK = datetime(2026, 1, 2, 10, tzinfo=UTC)


def begin(folder: Path, text: str = CUT_AGAIN) -> Session:
    return Session.start(read_kit(text), None, folder, clock(), disk=QuickDisk())


def path_of(session: Session) -> Path:
    assert session.path is not None
    return session.path


class TestStarting:
    def test_a_kit_with_errors_has_no_session(self, tmp_path: Path) -> None:
        with pytest.raises(KitError):
            Session.start(read_kit("dryfit = 1"), None, tmp_path)
        assert list(tmp_path.iterdir()) == []

    def test_the_file_keeps_the_kit_it_began_with(self, tmp_path: Path) -> None:
        session = begin(tmp_path)
        header = read_journal(path_of(session)).header
        assert header["kit_text"] == CUT_AGAIN
        assert header["kit"] == "Cut again"
        assert header["steps"] == 30
        session.close()

    def test_two_begun_in_one_second_have_files_of_their_own(self, tmp_path: Path) -> None:
        kit = read_kit(CUT_AGAIN)
        sessions = [Session.start(kit, None, tmp_path, lambda: CLOCK) for _ in range(3)]
        assert len({path_of(session) for session in sessions}) == 3
        for session in sessions:
            session.close()

    @pytest.mark.parametrize(
        ("title", "name"),
        [
            ("A Week at the Harbour", "a-week-at-the-harbour-20260102-100000.toml"),
            ("Ä/ö\\..", "kit-20260102-100000.toml"),
            ("CON: x" * 20, "con-xcon-xcon-xcon-xcon-xcon-xcon-xcon-x-20260102-100000.toml"),
        ],
    )
    def test_names_of_files_are_plain(self, title: str, name: str) -> None:
        assert re.fullmatch(r"[a-z0-9-]+\.toml", file_name(title, CLOCK))
        if "CON" not in title:
            assert file_name(title, CLOCK) == name

    def test_without_a_folder_it_runs_and_says_so(self) -> None:
        session = Session.start(read_kit(CUT_AGAIN), None, None, clock(), "there is no home")
        assert session.unsaved == "there is no home"
        assert session.next().taken
        assert session.unsaved == "there is no home"
        assert session.retry() == "there is no home"
        assert session.close() == "there is no home"

    def test_a_folder_that_is_none_can_be_mended_on_the_way(self, tmp_path: Path) -> None:
        blocked = tmp_path / "sessions"
        blocked.write_text("a file where the folder should be")
        session = begin(blocked)
        assert session.unsaved
        up_to(session, "A/load")
        blocked.unlink()
        assert session.unsaved
        assert session.retry() == session.unsaved == ""
        session.next()
        assert session.unsaved == ""
        session.close()
        again = Session.resume(path_of(session))
        assert again.state.snapshot() == session.state.snapshot()
        again.close()


class TestComingBack:
    def test_all_is_as_it_was(self, tmp_path: Path) -> None:
        session = begin(tmp_path)
        until_in_hand(session, "A/2")
        session.file_into(P34)
        session.undo()
        session.close()
        again = Session.resume(path_of(session), clock())
        assert again.state.snapshot() == session.state.snapshot()
        assert again.state.sittings == 2
        assert again.redo().taken  # redo outlives the sitting
        assert only_warning(again).items == ("A/2",)
        again.close()

    def test_the_second_program_is_told_and_may_watch(self, tmp_path: Path) -> None:
        session = begin(tmp_path)
        with pytest.raises(JournalBusy):
            Session.resume(path_of(session))
        looker = Session.watch(path_of(session))
        assert looker.watching
        assert looker.path == session.path
        assert looker.next().objection == "watching"
        for act in (session.next, session.next, session.undo, session.redo):
            act()
            assert looker.poll()
            assert looker.state.snapshot() == session.state.snapshot()
        assert not looker.poll()
        looker.close()
        session.close()

    def test_one_who_watches_sees_a_file_that_was_put_back(self, tmp_path: Path) -> None:
        session = begin(tmp_path)
        early = path_of(session).read_bytes()
        for _ in range(4):
            session.next()
        looker = Session.watch(path_of(session))
        session.close()
        path_of(session).write_bytes(early)
        assert looker.poll()
        assert looker.state.steps_done == 0
        path_of(session).unlink()
        assert not looker.poll()
        assert looker.unsaved

    @pytest.mark.parametrize(
        "content", ["", "nothing of ours", '[session]\njournal = 1\nkit = "x"\nn = 0\n',
                    '[session]\njournal = 1\nkit_text = "dryfit = 7"\nn = 0\n']
    )  # fmt: skip
    def test_what_is_no_session_is_said(self, content: str, tmp_path: Path) -> None:
        path = tmp_path / "x.toml"
        path.write_text(content)
        for open_it in (Session.resume, Session.watch):
            with pytest.raises(SessionError, match=re.escape(str(path))):
                open_it(path)
        with pytest.raises(SessionError):
            Session.resume(tmp_path / "not there.toml")
        # The lock was let go of.
        assert path.read_text() == content

    def test_a_closed_session_takes_nothing_in(self, tmp_path: Path) -> None:
        session = begin(tmp_path)
        assert session.close() == session.close() == ""
        assert session.next().objection == "closed"

    def test_events_of_later_kinds_are_kept_and_passed_over(self, tmp_path: Path) -> None:
        session = begin(tmp_path)
        session.next()
        session.close()
        later = to_record(Entry(3, CLOCK, Foreign("glued", {"page": 3})))
        number = len(read_journal(path_of(session)).records) + 1
        with path_of(session).open("ab") as file:
            file.write(write_record(later, number))
        again = Session.resume(path_of(session))
        assert again.troubles == ()
        assert again.state.foreign == 1
        assert again.state.ignored == []
        again.next()
        again.undo()
        again.close()
        assert later in read_journal(path_of(session)).records

    def test_a_clock_that_is_set_back_harms_nothing(self, tmp_path: Path) -> None:
        hours = iter(range(100, 0, -1))
        session = Session.start(
            read_kit(CUT_AGAIN), None, tmp_path, lambda: CLOCK + timedelta(hours=next(hours))
        )
        for _ in range(20):
            session.next()
        assert session.pace.spent == timedelta()
        session.close()
        again = Session.resume(path_of(session))
        assert again.state.snapshot() == session.state.snapshot()
        assert again.state.ignored == []
        again.close()

    def test_the_caution_is_back_at_the_next_sitting(self, tmp_path: Path) -> None:
        session = begin(tmp_path)
        up_to(session, "A/1")
        assert session.cautioned == set()  # loading is no cut
        session.next()
        assert session.cautioned == {"blade"}
        to_the_end(session)
        assert session.cautioned == {"blade", "knife"}
        session.close()
        again = Session.resume(path_of(session))
        assert again.cautioned == set()
        again.close()


class TestAnswers:
    def test_one_press_undoes_a_whole_answer_also_after_a_resume(self, tmp_path: Path) -> None:
        session = begin(tmp_path)
        up_to(session, "fill:white mat:3·4")
        session.file_into(2)
        wrong = session.state.snapshot()
        session.put_right(only_warning(session))
        right = session.state.snapshot()
        session.close()
        again = Session.resume(path_of(session))
        assert again.state.snapshot() == right
        again.undo()
        assert again.state.snapshot() == wrong
        again.close()
        once_more = Session.resume(path_of(session))
        once_more.redo()
        assert once_more.state.snapshot() == right
        once_more.close()

    def test_a_pocket_s_key_at_a_cut_means_that_the_cut_was_made_too(self) -> None:
        session = table()
        up_to(session, "A/2")
        before = session.state.snapshot()
        told = session.file_into(P34)
        assert only_warning(session).items == ("A/2",)
        assert told.raised == (only_warning(session),)
        assert session.undo_unmakes_cut()
        session.undo()  # both at once
        assert session.state.snapshot() == before
        session.scrap()
        assert session.state.done["A/2"]
        assert only_warning(session).items == ("A/2",)
        session.undo()
        assert session.state.snapshot() == before

    def test_a_warning_is_answered_with_the_pocket_where_the_things_are_now(self) -> None:
        session = table()
        up_to(session, "fill:white mat:3·4")
        session.file_into(2)
        warning = only_warning(session)
        before = session.state.snapshot()
        assert session.answer(warning, 0).taken  # not right either
        assert session.state.where("white mat#2") == session.state.where("white mat#3") == 0
        assert session.state.warnings
        assert session.answer(warning, 1).objection == "no such warning"
        session.undo()
        assert session.state.snapshot() == before
        session.answer(warning, 1)
        assert session.state.warnings == {}

    def test_undo_of_a_cut_is_asked_about(self, tmp_path: Path) -> None:
        session = begin(tmp_path)
        asked = {}
        while not session.state.due().over:
            due = session.state.due()
            session.next()
            asked[due.step.kind.value if due.step else "filed"] = session.undo_unmakes_cut()
        assert asked == {
            "open": False, "aside": False, "fill": False, "stack": False, "turn stack": False,
            "load": False, "filed": False, "cut": True, "mark": True, "shape": True,
            "away": False,
        }  # fmt: skip
        session.close()

    def test_keys_with_nothing_to_do_say_so(self) -> None:
        session = table()
        assert session.undo().objection == "nothing to undo"
        assert session.redo().objection == "nothing to redo"
        assert session.file_into(0).objection == "nothing to file"
        to_the_end(session)
        assert session.next().objection == "over"
        assert session.skip().objection == "over"
        assert session.state.last_undoable() is not None

    def test_a_stale_warning_is_not_answered(self) -> None:
        session = table()
        until_in_hand(session, "A/1")
        session.file_into(P34)
        warning = only_warning(session)
        session.undo()
        assert session.put_right(warning).objection == "no such warning"
        assert session.leave(warning).objection == "no such warning"

    def test_skipping_waits_for_the_pile(self) -> None:
        session = table()
        until_in_hand(session, "A/1")
        assert session.skip().objection == "file first"


def test_the_fold_is_the_same_as_the_live_state_at_every_moment(tmp_path: Path) -> None:
    rng = random.Random(11)
    session = begin(tmp_path)
    for _ in range(120):
        muddle(session, rng, least=35)
        entries = entries_of(path_of(session))
        assert fold(session.plan, entries).snapshot() == session.state.snapshot()
    check_all(session)
    session.close()


def test_a_run_is_marked_as_ended_when_nothing_is_left(tmp_path: Path) -> None:
    session = begin(tmp_path)
    to_the_end(session)
    kinds = [record["did"] for record in read_journal(path_of(session)).records]
    assert kinds.count("ended") == 1
    assert kinds[-1] == "ended"
    session.undo()
    session.redo()
    kinds = [record["did"] for record in read_journal(path_of(session)).records]
    assert kinds[-3:] == ["retracted", "restored", "ended"]
    assert session.undo().taken  # what is undone is the doing, not the mark
    assert not session.state.due().over
    session.close()


def test_a_lock_is_let_go_of_when_the_kit_cannot_be_read(tmp_path: Path) -> None:
    path = tmp_path / "x.toml"
    Journal.create(path, {"kit": "x", "kit_text": "dryfit = 1"}).close()
    for _ in range(2):
        with pytest.raises(SessionError, match="can't be read any more"):
            Session.resume(path)


def test_doing_a_step_that_is_not_due_is_harmless() -> None:
    session = table()
    before = session.state.snapshot()
    assert session.say(Done("A/1")).objection == "not yet"
    assert session.state.snapshot() == before == State(session.plan).snapshot()
