"""A session's file: writing it, going on with it, following it, and who may write."""

from __future__ import annotations

import os
import subprocess
import sys
import tempfile
import tomllib
from datetime import UTC, datetime, timedelta, timezone
from enum import StrEnum
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import model.journal
from model.journal import (
    Journal,
    JournalBusy,
    JournalError,
    JournalStore,
    MemoryJournal,
    Record,
    Watcher,
    mended_copy,
    read_journal,
)
from model.journal_text import write_header, write_record

ROOT = Path(model.journal.__file__).parent.parent
KIT = 'dryfit = 1\ntitle = "Two kites"\n\n[[did]]\nnote = """a\nb"""\n\n[[did]]\n'
BEGUN = datetime(2031, 5, 4, 9, 30, tzinfo=UTC)
HEADER: Record = {"kit": "Two kites", "kit_text": KIT, "begun": BEGUN}

# Whole minutes: RFC 3339, on which TOML 1.0's "Offset Date-Time" rests, writes offsets as hh:mm.
zones = st.integers(-23 * 60, 23 * 60).map(lambda m: timezone(timedelta(minutes=m)))
times = st.datetimes() | st.datetimes(datetime(2, 1, 1), datetime(9998, 1, 1), timezones=zones)
texts = st.text(st.characters(exclude_categories=["Cs"]), max_size=40) | st.sampled_from(
    ["[[did]]", "\n[[did]]\nn = 7\n", '"""', "'''", "\\", '\\"', "\r\n", "\0", "\x7f", "\x85\u2028"]
)
values = texts | st.integers(-(2**63), 2**63 - 1) | st.booleans() | times | st.lists(texts)
tables = st.dictionaries(
    texts.filter(lambda key: key not in {"n", "journal", "mended_from"}), values
)


def action(number: int) -> Record:
    return {"what": "cut", "piece": f"mat {number} ½ “”\n[[did]]", "marks": ["10 1/2", "8"]}


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return tmp_path / "two kites.toml"


def start(path: Path, count: int = 5) -> Journal:
    journal = Journal.create(path, HEADER)
    for number in range(1, count + 1):
        assert journal.append(action(number)) is None
    return journal


class TestText:
    # Outside check: the standard library's TOML reader, which implements TOML 1.0.
    @given(tables, st.integers(1, 10**9))
    def test_any_record_comes_back(self, record: Record, number: int) -> None:
        text = write_record(record, number).decode()
        assert tomllib.loads(text) == {"did": [{**record, "n": number}]}

    @given(tables)
    def test_a_record_shows_one_head_and_ends_with_its_number(self, record: Record) -> None:
        lines = write_record(record, 12).split(b"\n")
        assert lines.count(b"[[did]]") == 1
        assert lines[:2] == [b"", b"[[did]]"]
        assert lines[-2:] == [b"n = 12", b""]

    @given(tables, texts.filter(bool))
    def test_any_header_comes_back(self, header: Record, damaged: str) -> None:
        session = tomllib.loads(write_header(header, damaged).decode())["session"]
        assert session == {**header, "journal": 1, "mended_from": damaged, "n": 0}

    def test_the_kit_is_readable_in_the_file(self) -> None:
        assert '"""\ndryfit = 1\ntitle = ' in write_header({"kit": KIT}).decode()

    def test_half_a_surrogate_pair_is_replaced(self) -> None:
        assert tomllib.loads(write_record({"w\ud800": "a\udfffb"}, 1).decode())["did"] == [
            {"w\ufffd": "a\ufffdb", "n": 1}
        ]
        kept = tomllib.loads(write_header({"w": ["\ud800"]}).decode())
        assert kept["session"]["w"] == ["\ufffd"]

    def test_an_offset_with_seconds_keeps_its_moment(self) -> None:
        # From memory: Amsterdam's time before 1937 was 19 min 32 s ahead of UTC.
        moment = datetime(1936, 1, 1, 12, tzinfo=timezone(timedelta(minutes=19, seconds=32)))
        assert tomllib.loads(write_record({"at": moment}, 1).decode())["did"][0]["at"] == moment

    def test_members_of_enumerations_are_plain_text(self) -> None:
        class What(StrEnum):
            CUT = "cut"

        assert b'what = "cut"\n' in write_record({"what": What.CUT}, 1)

    @pytest.mark.parametrize("value", [1.5, None, {"a": 1}, [1], b"x", datetime.max.date()])
    def test_what_a_record_cannot_hold_is_refused(self, value: object) -> None:
        with pytest.raises(TypeError):
            write_record({"key": value}, 1)  # type: ignore[dict-item]

    @pytest.mark.parametrize("value", [2**63, -(2**63) - 1])
    def test_numbers_beyond_64_bits_are_refused(self, value: int) -> None:
        with pytest.raises(ValueError, match="too large"):
            write_record({"key": value}, 1)

    def test_the_files_own_keys_are_refused(self) -> None:
        with pytest.raises(ValueError, match="'n'"):
            write_record({"n": 1}, 1)
        with pytest.raises(ValueError, match="'journal'"):
            write_header({"journal": 1})


class TestWriting:
    def test_what_was_appended_is_read(self, path: Path) -> None:
        journal = start(path)
        reading = read_journal(path)
        assert reading.header == HEADER
        assert list(reading.records) == [action(number) for number in range(1, 6)]
        assert reading.troubles == ()
        assert reading.size == path.stat().st_size
        assert (journal.unsaved, journal.path) == (0, path)

    @settings(max_examples=40)
    @given(tables, st.lists(tables, max_size=5), st.lists(tables, max_size=3))
    def test_any_session_survives_being_left(
        self, header: Record, first: list[Record], then: list[Record]
    ) -> None:
        with tempfile.TemporaryDirectory() as folder:
            path = Path(folder) / "s.toml"
            journal = Journal.create(path, header)
            assert [journal.append(record) for record in first] == [None] * len(first)
            assert journal.close() is None
            journal, reading = Journal.resume(path)
            assert (reading.header, list(reading.records)) == (header, first)
            assert [journal.append(record) for record in then] == [None] * len(then)
            journal.close()
            reading = read_journal(path)
            assert list(reading.records) == first + then
            assert reading.troubles == ()

    def test_folders_are_made(self, tmp_path: Path) -> None:
        path = tmp_path / "a" / "b" / "s.toml"
        start(path).close()
        assert len(read_journal(path).records) == 5

    def test_nothing_else_is_left_in_the_folder(self, path: Path) -> None:
        start(path).close()
        assert {p.name for p in path.parent.iterdir()} == {path.name, path.name + ".lock"}

    def test_a_file_that_exists_is_not_overwritten(self, path: Path) -> None:
        path.write_text("mine")
        with pytest.raises(JournalError, match="exists already"):
            Journal.create(path, HEADER)
        assert path.read_text() == "mine"

    def test_a_session_can_begin_with_records(self, path: Path) -> None:
        journal = Journal.create(path, HEADER, [action(1), action(2)])
        assert journal.append(action(3)) is None
        assert list(read_journal(path).records) == [action(1), action(2), action(3)]

    def test_a_lost_line_end_does_no_harm(self, path: Path) -> None:
        start(path).close()
        path.write_bytes(path.read_bytes().rstrip(b"\n"))
        journal, reading = Journal.resume(path)
        assert (len(reading.records), reading.troubles) == (5, ())
        assert journal.append(action(6)) is None
        assert len(read_journal(path).records) == 6

    def test_a_closed_journal_takes_nothing(self, path: Path) -> None:
        journal = start(path)
        assert journal.close() is None
        assert journal.close() is None
        with pytest.raises(ValueError, match="closed"):
            journal.append(action(6))


class TestOneWriter:
    def test_the_second_is_told_and_may_come_later(self, path: Path) -> None:
        journal = start(path)
        with pytest.raises(
            JournalBusy, match=r"^Another dryfit has this session of Two kites open\. .*\.$"
        ):
            Journal.resume(path)
        journal.close()
        Journal.resume(path)[0].close()

    @pytest.mark.skipif(os.name == "nt", reason="links need a right there that users lack")
    def test_another_name_is_the_same_session(self, path: Path) -> None:
        journal = start(path)
        (path.parent / "link.toml").symlink_to(path)
        with pytest.raises(JournalBusy):
            Journal.resume(path.parent / "link.toml")
        journal.close()

    def test_a_process_that_is_killed_lets_go(self, path: Path) -> None:
        start(path).close()
        hold = (
            "import sys, time; from pathlib import Path; from model.journal import Journal;"
            "held = Journal.resume(Path(sys.argv[1])); print('held', flush=True); time.sleep(60)"
        )
        child = subprocess.Popen(
            [sys.executable, "-c", hold, str(path)], stdout=subprocess.PIPE, cwd=ROOT
        )
        try:
            assert child.stdout is not None
            assert child.stdout.readline().strip() == b"held"
            with pytest.raises(JournalBusy):
                Journal.resume(path)
        finally:
            child.kill()
            child.communicate()
        Journal.resume(path)[0].close()

    def test_a_failed_resume_lets_go(self, path: Path) -> None:
        path.write_text("no session here")
        for _ in range(2):
            with pytest.raises(JournalError) as caught:
                Journal.resume(path)
            assert not isinstance(caught.value, JournalBusy)

    def test_resuming_nothing_leaves_nothing(self, path: Path) -> None:
        with pytest.raises(JournalError, match="not there"):
            Journal.resume(path)
        assert list(path.parent.iterdir()) == []


class TestWatching:
    def test_new_records_come_once(self, path: Path) -> None:
        journal = start(path, 2)
        watcher = Watcher(path)
        assert watcher.start.header == HEADER
        assert watcher.poll() == [action(1), action(2)]
        assert watcher.poll() == []
        for number in (3, 4, 5):
            journal.append(action(number))
        assert watcher.poll() == [action(3), action(4), action(5)]
        assert (watcher.poll(), watcher.trouble, watcher.stale) == ([], "", False)

    def test_a_record_is_never_seen_in_part(self, path: Path) -> None:
        start(path, 1).close()
        watcher = Watcher(path)
        watcher.poll()
        text = write_record(action(2), 2)
        seen: list[int] = []
        for byte in text:
            with path.open("ab") as file:
                file.write(bytes([byte]))
            seen.append(len(watcher.poll()))
        assert seen == [0] * (len(text) - 1) + [1]

    def test_a_number_that_grows_is_not_taken_too_early(self, path: Path) -> None:
        start(path, 11).close()
        watcher = Watcher(path)
        watcher.poll()
        text = write_record(action(12), 12)
        with path.open("ab") as file:
            file.write(text[:-2])  # "n = 1" so far
        assert watcher.poll() == []
        with path.open("ab") as file:
            file.write(text[-2:])
        assert watcher.poll() == [action(12)]

    def test_what_is_taken_back_is_noticed(self, path: Path) -> None:
        start(path, 3).close()
        watcher = Watcher(path)
        assert len(watcher.poll()) == 3
        whole = path.read_bytes()
        kept = len(whole) - len(write_record(action(3), 3))
        path.write_bytes(whole[:kept] + write_record({"what": "another thing altogether"}, 3))
        assert watcher.poll() == []
        assert watcher.stale
        assert "read again" in watcher.trouble

    def test_a_file_that_goes_away_is_told_and_may_come_back(self, path: Path) -> None:
        start(path, 3).close()
        watcher = Watcher(path)
        assert len(watcher.poll()) == 3
        path.rename(path.with_suffix(".away"))
        assert watcher.poll() == []
        assert "cannot be read now" in watcher.trouble
        path.with_suffix(".away").rename(path)
        assert (watcher.poll(), watcher.trouble) == ([], "")

    def test_watching_takes_no_lock(self, path: Path) -> None:
        start(path, 1).close()
        watcher = Watcher(path)
        journal, _ = Journal.resume(path)
        assert len(watcher.poll()) == 1
        journal.close()


class TestInMemory:
    def test_it_says_each_time_that_nothing_is_saved(self, path: Path) -> None:
        journal: JournalStore = MemoryJournal(path, HEADER, "the folder is read-only")
        assert journal.retry() is None
        assert journal.append(action(1)) == "the folder is read-only"
        assert journal.append(action(2)) == "the folder is read-only"
        assert (journal.unsaved, journal.path) == (2, path)
        assert journal.close() == "the folder is read-only"
        assert not path.exists()

    def test_it_can_be_saved_after_all(self, path: Path) -> None:
        memory = MemoryJournal(path, HEADER, "no folder", [action(1)])
        memory.append(action(2))
        journal: JournalStore = memory.save_to(path)
        assert journal.append(action(3)) is None
        assert list(read_journal(path).records) == [action(1), action(2), action(3)]

    def test_it_refuses_what_a_file_would_refuse(self, path: Path) -> None:
        memory = MemoryJournal(path, HEADER, "no folder")
        with pytest.raises(TypeError):
            memory.append({"key": 1.5})  # type: ignore[dict-item]
        assert memory.unsaved == 0


def test_mended_copy_names_only_files_that_continue_this_one(path: Path) -> None:
    start(path).close()
    assert mended_copy(path) is None
    Journal.create(path.with_name("two kites.mended.toml"), HEADER).close()
    assert mended_copy(path) is None
