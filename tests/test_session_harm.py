"""What harm can come to a session: a damaged file, a disk that fails."""

from __future__ import annotations

import os
import random
import re
from datetime import UTC, datetime
from pathlib import Path

import pytest

from model.event import Entry, Moved, Skipped
from model.folders import demo_folder
from model.journal import Journal, JournalError, read_journal
from model.journal_text import write_record
from model.reading import read_kit
from model.session import Session, SessionError
from model.state import State
from model.story import fold
from tests.hand_kits import CUT_AGAIN, KITS
from tests.kits import random_kit
from tests.muddle import QuickDisk, entries_of, finish, muddle, plan_of_text
from tests.oracle import check_places
from tests.tables import clock, only_warning, table, up_to
from tests.test_journal_disk import Fault, FaultyDisk

CLOCK = datetime(2026, 1, 2, 10, tzinfo=UTC)


def begin(folder: Path, text: str = CUT_AGAIN) -> Session:
    return Session.start(read_kit(text), None, folder, clock(), disk=QuickDisk())


def path_of(session: Session) -> Path:
    assert session.path is not None
    return session.path


class TestDamage:
    @pytest.mark.parametrize("seed", range(25))
    def test_a_journal_that_lost_entries_leaves_a_run_that_can_be_finished(
        self, seed: int, tmp_path: Path
    ) -> None:
        rng = random.Random(seed)
        text = rng.choice([*KITS, random_kit(rng), random_kit(rng)])
        session = begin(tmp_path, text)
        for _ in range(rng.randint(5, 200)):
            muddle(session, rng, least=30)
        session.close()
        path = path_of(session)
        whole = path.read_bytes()
        head, *records = re.split(rb"(?=\n\[\[did\]\]\n)", whole)
        for _ in range(rng.randint(1, 4)):
            if len(records) > 2:
                del records[rng.randrange(len(records) - 1)]
        damaged = head + b"".join(records)
        path.write_bytes(damaged)
        again = Session.resume(path, disk=QuickDisk())
        assert {trouble.kind for trouble in again.troubles} <= {"damaged"}
        check_places(again.state)
        finish(again)
        check_places(again.state)
        assert all(again.state.held(p) <= again.state.wanted(p) for p in range(len(
            again.plan.kit.pockets)))  # fmt: skip
        while again.undo().taken:
            check_places(again.state)
        while again.redo().taken:
            pass
        again.close()
        assert path.read_bytes() == damaged or not again.troubles

    def test_what_makes_no_sense_is_listed(self, tmp_path: Path) -> None:
        session = begin(tmp_path)
        session.next()
        session.close()
        records = [
            {"at": CLOCK, "did": "done", "step": "no such", "event": 3},
            {"at": CLOCK, "did": "filed", "item": "A/1", "pocket": "9·10", "event": 4},
            {"at": CLOCK, "did": "retracted", "of": 77, "event": 5},
            {"at": CLOCK, "did": "filed", "item": "A/1", "event": 6},
            {"at": CLOCK, "did": "settled", "warning": "x", "event": 7},
            {"at": CLOCK, "did": "sat", "event": 2},
        ]
        start = len(read_journal(path_of(session)).records) + 1
        with path_of(session).open("ab") as file:
            for number, record in enumerate(records, start):
                file.write(write_record(record, number))  # type: ignore[arg-type]
        again = Session.resume(path_of(session))
        assert again.state.ignored == [3, 4, 5, 6, 7, 2]
        assert again.state.snapshot() == session.state.snapshot()
        assert again.next().n == 9
        again.close()

    def test_a_copy_of_a_filling_that_was_lost_is_not_waited_for_again(self) -> None:
        """That mats were filed is lost from the journal; that one of them was moved is not."""
        state = State(plan_of_text(CUT_AGAIN))
        state.apply(Entry(1, CLOCK, Moved("white mat#1", "3·4")))
        (warning,) = state.warnings.values()
        place = state.belongs("white mat#1")
        assert (place, warning.items) == (0, ("white mat#1",))
        state.apply(Entry(2, CLOCK, Moved("white mat#1", "1·2")))
        assert not state.warnings
        assert not state.ignored

    def test_what_turned_up_can_be_moved_though_its_step_was_left_out(self) -> None:
        state = State(plan_of_text(CUT_AGAIN))
        state.apply(Entry(1, CLOCK, Moved("A/r/1/r", "3·4")))
        state.apply(Entry(2, CLOCK, Skipped("A/r/1/load")))
        state.apply(Entry(3, CLOCK, Moved("A/r/1/r", "5·6")))
        assert (state.where("A/r/1/r"), state.ignored) == (2, [])
        # Nothing turned up of this one, and nothing will.
        state.apply(Entry(4, CLOCK, Moved("A/r/1/1", "5·6")))
        assert state.ignored == [4]

    def test_a_copy_that_turns_up_makes_room_for_a_stray(self) -> None:
        """The mat that 1·2 waited for turns up in 3·4: the one that lies in 1·2 may stay."""
        state = State(plan_of_text(CUT_AGAIN))
        state.apply(Entry(1, CLOCK, Moved("white mat#2", "1·2")))
        assert [warning.items for warning in state.warnings.values()] == [("white mat#2",)]
        state.apply(Entry(2, CLOCK, Moved("white mat#1", "3·4")))
        assert not state.warnings
        assert (state.belongs("white mat#2"), state.belongs("white mat#1")) == (0, 1)

    def test_undo_passes_over_undoings_that_were_lost(self) -> None:
        """Entry 4 was taken back before entry 3 could be; the record of that is gone."""
        plan = plan_of_text(CUT_AGAIN)
        session = table()
        for _ in range(3):
            session.next()
        session.undo()
        session.undo()
        entries = _entries(session)
        lost = [entry for entry in entries if entry.n != 5]
        state = fold(plan, lost)
        assert state.ignored == []
        assert state.snapshot() == session.state.snapshot()

    def test_an_answer_whose_beginning_was_lost_is_undone_as_a_whole(self) -> None:
        session = table()
        up_to(session, "fill:white mat:3·4")
        session.file_into(2)
        told = session.put_right(only_warning(session))
        session.undo()
        entries = [entry for entry in _entries(session) if entry.n != told.n]
        state = fold(session.plan, entries)
        assert state.ignored == []
        assert state.snapshot() == session.state.snapshot()


def _entries(session: Session) -> list[Entry]:
    from model.event import from_record
    from model.journal import MemoryJournal

    journal = session._journal
    assert isinstance(journal, MemoryJournal)
    entries = [from_record(n, record) for n, record in enumerate(journal.records, 1)]
    return [entry for entry in entries if entry is not None]


class TestDisk:
    @pytest.mark.skipif(os.name == "nt", reason="folder permissions differ; not tried there")
    def test_failing_midway_is_said_and_heals_by_itself(self, tmp_path: Path) -> None:
        disk = FaultyDisk()
        session = Session.start(read_kit(CUT_AGAIN), None, tmp_path, clock(), disk=disk)
        assert session.unsaved == ""
        disk.faults = dict.fromkeys(range(len(disk.calls), len(disk.calls) + 40), "before")
        assert session.next().taken
        assert (session.unsaved, session.waiting) == ("the disk is full", 1)
        assert session.next().taken
        disk.faults = {}
        assert session.next().taken
        assert session.unsaved == ""
        assert fold(session.plan, entries_of(path_of(session))).snapshot() == (
            session.state.snapshot()
        )
        session.close()

    def test_what_lies_in_the_file_already_does_not_wait(self, tmp_path: Path) -> None:
        """A session in a folder that became read-only: only what is said now is not saved."""
        session = Session.start(read_kit(CUT_AGAIN), None, tmp_path, clock())
        for _ in range(4):
            assert session.next().taken
        path = path_of(session)
        session.close()
        disk = FaultyDisk()
        disk.faults = dict.fromkeys(range(1000), "before")
        again = Session.resume(path, disk=disk)
        assert again.unsaved
        assert again.waiting == 0
        assert again.next().taken
        assert again.waiting == 1
        again.close()

    def test_sitting_down_where_nothing_can_be_saved_loses_nothing(self) -> None:
        session = Session.start(read_kit(CUT_AGAIN), None, None, why_no_folder="there is no home")
        assert (session.unsaved, session.waiting) == ("there is no home", 0)
        assert session.next().taken
        assert session.waiting == 1

    def test_at_every_call_of_a_whole_run(self, tmp_path: Path) -> None:
        """Whichever write fails: what was acknowledged is there, and all is in the end."""
        text = (demo_folder() / "postcard.toml").read_text("utf-8")
        kit = read_kit(text)
        plan = plan_of_text(text)
        plain = FaultyDisk()
        _run(Session.start(kit, None, tmp_path / "plain", clock(), disk=plain), plan, True)
        faults: tuple[Fault, ...] = ("before", "after", "part", "short")
        for call, name in enumerate(plain.calls):
            if name == "look":
                continue
            for fault in faults if name == "write" else faults[:2]:
                folder = tmp_path / f"{call}-{fault}"
                disk = FaultyDisk({call: fault})
                session = Session.start(kit, None, folder, clock(), disk=disk)
                _run(session, plan, False)


def _run(session: Session, plan: object, look: bool) -> None:
    """A short run with a mistake in it; looked at on the disk after each thing said."""
    acknowledged = 0
    rng = random.Random(5)
    for _ in range(40):
        muddle(session, rng, least=25)
        if session.unsaved == "":
            acknowledged = session.said
            # On the disk now, not only later: somebody may pull the plug.
            assert b"\nevent = %d\n" % acknowledged in path_of(session).read_bytes()[-60:]
            if look:
                assert entries_of(path_of(session))[-1].n == acknowledged
    session.retry()
    assert session.close() == ""
    path = path_of(session)
    entries = entries_of(path)
    assert entries[-1].n == session.said >= acknowledged
    assert fold(session.plan, entries).snapshot() == session.state.snapshot()


class TestFolderThatCannotBeWritten:
    def test_a_session_there_goes_on_in_memory_and_says_why(self, tmp_path, monkeypatch):
        session = begin(tmp_path)
        for _ in range(4):
            session.next()
        before = session.state.snapshot()
        path = path_of(session)
        session.close()
        raw = path.read_bytes()

        def no_lock(*_: object, **__: object) -> None:
            raise JournalError("this folder can only be read")

        monkeypatch.setattr(Journal, "resume", no_lock)
        again = Session.resume(path, clock())
        assert again.state.snapshot() == before
        assert again.unsaved == "this folder can only be read"
        assert again.next().taken
        assert again.unsaved
        again.close()
        assert path.read_bytes() == raw

    def test_what_can_not_be_read_either_is_refused(self, tmp_path, monkeypatch):
        path = tmp_path / "x.toml"
        path.write_text("a = 1\n", encoding="utf-8")
        with pytest.raises(SessionError, match=r"x\.toml"):
            Session.resume(path, clock())
