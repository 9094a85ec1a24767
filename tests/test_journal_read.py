"""Reading session files that are torn, damaged, newer, or no session at all."""

from __future__ import annotations

import os
import tempfile
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

import model.journal_read
from model.journal import Journal, JournalError, Reading, Record, mended_copy, read_journal
from model.journal_text import write_header, write_record

# The kit's text holds lines that look like the head of a record, as any text may.
KIT = 'title = "Two kites"\nnote = """\n[[did]]\nn = 1\n\n[[did]]\n"""\n'
HEADER: Record = {"title": "Two kites", "kit": KIT, "page": 12}
RECORDS: list[Record] = [
    {"what": "cut", "piece": f"mat {number} ½", "ok": True, "words": ["[[did]]", "x"]}
    for number in range(1, 12)
]
HEAD = write_header(HEADER)
PARTS = [write_record(record, number) for number, record in enumerate(RECORDS, 1)]
WHOLE = HEAD + b"".join(PARTS)


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return tmp_path / "s.toml"


def read(path: Path, data: bytes) -> Reading:
    path.write_bytes(data)
    return read_journal(path)


def kinds(reading: Reading) -> list[str]:
    return [trouble.kind for trouble in reading.troubles]


def whole_parts(size: int) -> int:
    """How many records lie wholly within this many bytes; the last line end may be missing."""
    ends = [len(HEAD) + len(b"".join(PARTS[:count])) for count in range(1, len(PARTS) + 1)]
    return sum(end - 1 <= size for end in ends)


class TestTorn:
    @pytest.mark.parametrize("nuls", [0, 1, 4096])
    def test_cut_at_any_byte_only_the_last_record_is_lost(self, path: Path, nuls: int) -> None:
        for size in range(len(HEAD), len(WHOLE)):
            reading = read(path, WHOLE[:size] + bytes(nuls))
            assert reading.header == HEADER
            assert list(reading.records) == RECORDS[: whole_parts(size)], size
            assert set(kinds(reading)) <= {"torn"}
            assert reading.next_number == whole_parts(size) + 1
            assert WHOLE[: reading.size].rstrip() == WHOLE[: reading.size].rstrip(b"\0").rstrip()

    def test_it_is_told_with_its_line(self, path: Path) -> None:
        reading = read(path, HEAD + PARTS[0] + PARTS[1][:-4])
        (trouble,) = reading.troubles
        assert trouble.line == (HEAD + PARTS[0]).count(b"\n") + 2
        assert trouble.text.startswith(f"line {trouble.line}: the last entry was not finished")

    @pytest.mark.parametrize("nuls", [0, 700])
    def test_the_tail_is_cut_off_before_the_next_append(self, path: Path, nuls: int) -> None:
        for size in range(len(HEAD) + len(PARTS[0]), len(HEAD + PARTS[0] + PARTS[1])):
            path.write_bytes(WHOLE[:size] + bytes(nuls))
            journal, reading = Journal.resume(path)
            assert path.read_bytes() == WHOLE[:size] + bytes(nuls)  # nothing yet
            assert journal.append({"what": "next"}) is None
            journal.close()
            after = read_journal(path)
            assert list(after.records) == [*reading.records, {"what": "next"}]
            assert after.troubles == ()
            assert path.read_bytes().startswith(WHOLE[: reading.size])


class TestDamaged:
    @given(st.integers(len(HEAD), len(WHOLE) - 1), st.sampled_from([b"\xff", b"\0", b"\x1b"]))
    def test_one_bad_byte_costs_one_record_and_the_file_is_kept(self, at: int, bad: bytes) -> None:
        data = WHOLE[:at] + bad + WHOLE[at + 1 :]
        hit = next(c for c in range(len(PARTS)) if at < len(HEAD + b"".join(PARTS[: c + 1])))
        left = RECORDS[:hit] + RECORDS[hit + 1 :]
        with tempfile.TemporaryDirectory() as folder:
            path = Path(folder) / "s.toml"
            reading = read(path, data)
            if at == len(WHOLE) - 1 and bad == b"\0":
                # Like a last line end that never reached the disk: nothing is lost.
                assert list(reading.records) == RECORDS
                return
            assert list(reading.records) == left
            assert "damaged" in kinds(reading)
            journal, resumed = Journal.resume(path)
            assert path.read_bytes() == data
            assert journal.path == path.with_name("s.mended.toml")
            assert list(resumed.records) == left
            assert "s.mended.toml" in resumed.troubles[-1].text
            assert journal.append({"what": "next"}) is None
            journal.close()
            assert path.read_bytes() == data
            mended = read_journal(journal.path)
            assert (mended.header, mended.troubles, mended.mended_from) == (HEADER, (), "s.toml")
            assert list(mended.records) == [*left, {"what": "next"}]

    @given(st.binary(min_size=1, max_size=80), st.integers(0, len(WHOLE)), st.integers(0, 400))
    def test_whatever_is_put_in_nothing_before_it_is_lost(
        self, junk: bytes, at: int, over: int
    ) -> None:
        data = WHOLE[:at] + junk + WHOLE[at + over :]
        with tempfile.TemporaryDirectory() as folder:
            path = Path(folder) / "s.toml"
            path.write_bytes(data)
            try:
                journal, reading = Journal.resume(path)
            except JournalError as error:
                assert at <= len(HEAD) + 1
                assert str(path) in str(error)
                assert path.read_bytes() == data
                return
            before = whole_parts(at - 1)  # junk may lengthen the number that ends the last one
            assert list(reading.records[:before]) == RECORDS[:before]
            assert path.read_bytes() == data
            assert journal.append({"what": "next"}) is None
            journal.close()
            if reading.damaged:
                assert path.read_bytes() == data
            assert read_journal(journal.path).records == (*reading.records, {"what": "next"})

    def test_each_unreadable_piece_is_told_with_its_line(self, path: Path) -> None:
        bad = {2: b"\n[[did]]\nwhat = cut\nn = 3\n", 6: b"\n[[did]]\n\xff\n"}
        parts = [bad.get(index, part) for index, part in enumerate(PARTS)]
        reading = read(path, HEAD + b"".join(parts))
        told = [t.line for t in reading.troubles if "cannot be read" in t.text]
        heads = [HEAD.count(b"\n") + b"".join(parts[:i]).count(b"\n") + 2 for i in bad]
        assert told == heads
        assert [r["piece"] for r in reading.records] == [
            r["piece"] for index, r in enumerate(RECORDS) if index not in bad
        ]
        assert sum("missing before this line" in t.text for t in reading.troubles) == 2

    @pytest.mark.parametrize(
        ("order", "kept", "word"),
        [
            ([0, 1, 3], [0, 1, 3], "entry 3 is missing"),
            ([0, 5], [0, 5], "entries 2 to 5 are missing"),
            ([1], [1], "entry 1 is missing"),
            ([0, 1, 1, 2], [0, 1, 2], "entry 2 stands here a second time"),
            ([0, 2, 1], [0, 2, 1], "the number 2, but 4 was due"),
        ],
    )
    def test_lost_and_doubled_records_are_noticed(
        self, path: Path, order: list[int], kept: list[int], word: str
    ) -> None:
        reading = read(path, HEAD + b"".join(PARTS[index] for index in order))
        assert list(reading.records) == [RECORDS[index] for index in kept]
        assert any(word in trouble.text for trouble in reading.troubles)
        assert reading.damaged

    def test_two_different_records_of_one_number_are_both_kept(self, path: Path) -> None:
        other = write_record({"what": "undo"}, 1)
        reading = read(path, HEAD + PARTS[0] + other)
        assert list(reading.records) == [RECORDS[0], {"what": "undo"}]
        assert kinds(reading) == ["damaged"]

    def test_mended_names_are_numbered_and_the_newest_is_found(self, path: Path) -> None:
        damaged = HEAD + PARTS[0] + PARTS[2]
        path.write_bytes(damaged)
        names = []
        for _ in range(3):
            journal, reading = Journal.resume(path)
            names.append(journal.path.name)
            journal.close()
        assert names == ["s.mended.toml", "s.mended-2.toml", "s.mended-3.toml"]
        assert "what was done after that is in s.mended-2.toml" in reading.troubles[-1].text
        assert mended_copy(path) == path.with_name("s.mended-3.toml")
        # A mended file that is damaged in its turn.
        (path.parent / names[0]).write_bytes(damaged)
        journal, _ = Journal.resume(path.parent / names[0])
        assert journal.path.name == "s.mended-4.toml"
        assert read_journal(journal.path).mended_from == names[0]
        journal.close()

    def test_both_files_are_held_while_a_mended_one_is_open(self, path: Path) -> None:
        path.write_bytes(HEAD + PARTS[1])
        journal, _ = Journal.resume(path)
        for held in (path, journal.path):
            with pytest.raises(JournalError, match="Another dryfit"):
                Journal.resume(held)
        journal.close()


class TestHeader:
    @pytest.mark.parametrize("data", [b"", b"\n \r\n", bytes(512)])
    def test_an_empty_file_is_named(self, path: Path, data: bytes) -> None:
        with pytest.raises(JournalError, match="is empty") as caught:
            read(path, data)
        assert str(path) in str(caught.value)

    @pytest.mark.parametrize("data", [b"a = 1\n", b"".join(PARTS), b"session = 1\n"])
    def test_a_missing_header_is_named(self, path: Path, data: bytes) -> None:
        with pytest.raises(JournalError, match=r"no \[session\] table") as caught:
            read(path, data)
        assert str(path) in str(caught.value)

    @pytest.mark.parametrize("at", range(0, len(HEAD), 7))
    def test_a_damaged_header_is_read_line_by_line(self, path: Path, at: int) -> None:
        data = WHOLE[:at] + b"\xff" + WHOLE[at + 1 :]
        path.write_bytes(data)
        reading = read_journal(path)
        assert list(reading.records) == RECORDS
        assert reading.head_damaged
        line = HEAD.count(b"\n", 0, at) + 1
        first = next(t.line for t in reading.troubles if t.kind == "damaged")
        assert first in (line, line - 1)
        own = {b'title = "Two kites"': "title", b"page = 12": "page"}
        hit = own.get(HEAD.split(b"\n")[line - 1])
        if hit is not None:
            assert reading.header == {k: v for k, v in HEADER.items() if k != hit}
        # Who doesn't say how to put back what is lost may not go on with it.
        with pytest.raises(JournalError, match=r"the head of .* is damaged"):
            Journal.resume(path)
        assert path.read_bytes() == data
        assert len(list(path.parent.glob("*.toml"))) == 1

    def test_what_looks_like_a_record_in_a_text_without_its_end_is_none(self, path: Path) -> None:
        data = WHOLE.replace(b'\n"""\npage', b"\npage", 1)
        assert data != WHOLE
        assert list(read(path, data).records) == RECORDS

    def test_what_is_no_file_is_said(self, path: Path, tmp_path: Path) -> None:
        with pytest.raises(JournalError, match="is not there"):
            read_journal(path)
        with pytest.raises(JournalError, match="is not a file"):
            read_journal(tmp_path)

    @pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="no named pipes on this system")
    def test_a_pipe_is_not_waited_for(self, path: Path) -> None:
        os.mkfifo(path)
        with pytest.raises(JournalError, match="is not a file"):
            read_journal(path)

    def test_a_huge_file_is_refused(self, path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
        path.write_bytes(WHOLE)
        with path.open("r+b") as file:
            file.truncate(model.journal_read.LARGEST + 1)  # sparse: takes no room
        with pytest.raises(JournalError, match="256 MB"):
            read_journal(path)

    def test_absurd_nesting_is_only_unreadable(self, path: Path) -> None:
        bad = b"\n[[did]]\nx = " + b"[" * 100_000 + b"\nn = 2\n"
        reading = read(path, HEAD + PARTS[0] + bad)
        assert (list(reading.records), kinds(reading)) == ([RECORDS[0]], ["damaged"])


class TestSavedByEditors:
    @pytest.mark.parametrize("extra", [b"", b"\n[[did]]\nwhat = 1"])
    def test_windows_line_ends_and_a_byte_order_mark(self, path: Path, extra: bytes) -> None:
        data = b"\xef\xbb\xbf" + (WHOLE + extra).replace(b"\n", b"\r\n")
        reading = read(path, data)
        assert (reading.header, list(reading.records)) == (HEADER, RECORDS)
        assert kinds(reading) == (["torn"] if extra else [])
        journal, _ = Journal.resume(path)
        assert journal.append({"what": "next"}) is None
        journal.close()
        assert list(read_journal(path).records) == [*RECORDS, {"what": "next"}]

    def test_comments_and_spaces(self, path: Path) -> None:
        data = WHOLE.replace(b"\n\n[[did]]\nwhat", b"\n# mine\n [[ did ]] # x\nwhat")
        assert data != WHOLE
        for tail, torn in ((b"", []), (b"\n[[did]]\nwh", ["torn"])):
            reading = read(path, data + tail)
            assert (list(reading.records), kinds(reading)) == (RECORDS, torn)

    def test_a_header_whose_quotes_mislead(self, path: Path) -> None:
        head = HEAD.replace(b"page = 12", b'page = 12 # mine: """')
        assert head != HEAD
        reading = read(path, head + b"".join(PARTS) + b"\n[[di")
        assert (reading.header, list(reading.records)) == (HEADER, RECORDS)
        assert kinds(reading) == ["torn"]


class TestNewer:
    @pytest.mark.parametrize(
        "text", ["x = 1.5", "x = { a = 1 }", "x = [1]", "x = 2031-01-01", "x = 10:00:00"]
    )
    def test_unknown_kinds_of_values_are_told_and_the_rest_kept(
        self, path: Path, text: str
    ) -> None:
        data = HEAD + PARTS[0] + f"\n[[did]]\nwhat = 'dry fit'\n{text}\nn = 2\n".encode() + PARTS[2]
        reading = read(path, data)
        assert list(reading.records) == [RECORDS[0], {"what": "dry fit"}, RECORDS[2]]
        assert [(t.kind, '"x"' in t.text) for t in reading.troubles] == [("newer", True)]
        journal, _ = Journal.resume(path)
        assert (journal.path, journal.append(RECORDS[3])) == (path, None)
        journal.close()
        assert path.read_bytes() == data + PARTS[3]

    def test_unknown_tables_are_told(self, path: Path) -> None:
        other = b"\n[[later]]\nx = 1\n"
        reading = read(path, HEAD + other + PARTS[0] + other + PARTS[1])
        assert list(reading.records) == RECORDS[:2]
        assert kinds(reading) == ["newer", "newer"]

    def test_a_newer_format_is_read_but_never_written(self, path: Path) -> None:
        data = WHOLE.replace(b"journal = 1", b"journal = 2")
        reading = read(path, data)
        assert (list(reading.records), kinds(reading)) == (RECORDS, ["newer"])
        with pytest.raises(JournalError, match="newer dryfit"):
            Journal.resume(path)
        assert path.read_bytes() == data
