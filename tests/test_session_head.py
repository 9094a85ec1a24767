"""A session whose head is damaged: its actions are kept, and its kit is found again.

That the kit with the noted digest is the very kit holds by what a digest is (FIPS 180-4).
"""

from __future__ import annotations

import io
import json
import random
import re
import shutil
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from functools import cache
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

import model.kit_regained
from model.folders import demo_folder
from model.journal import JournalError, Record, read_journal
from model.language.sentences import sentence
from model.reading import load_kit, read_kit
from model.session import Session, SessionError
from model.session_file import is_session
from model.shelf import sessions_in
from tests.muddle import QuickDisk, finish, muddle
from tests.tables import clock
from tui.command import main

DEMOS = ("postcard", "harbour", "cards")
SLOW = settings(
    max_examples=20, deadline=None, suppress_health_check=[HealthCheck.too_slow]
)  # each example reads a whole kit


@cache
def whole(name: str) -> bytes:
    """A real session file of a demo kit, with mistakes, undo and redo in it."""
    kit = demo_folder() / f"{name}.toml"
    rng = random.Random(name)
    with tempfile.TemporaryDirectory() as folder:
        session = Session.start(load_kit(kit), kit, Path(folder), clock(), disk=QuickDisk())
        for _ in range(40):
            muddle(session, rng, least=30)
        session.close()
        assert session.path is not None
        return session.path.read_bytes()


@cache
def size(name: str) -> int:
    """How many bytes of it are the head."""
    found = re.search(rb"^n = 0\n", whole(name), re.MULTILINE)
    assert found is not None
    return found.end()


@cache
def records(name: str) -> tuple[Record, ...]:
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "s.toml"
        path.write_bytes(whole(name))
        reading = read_journal(path)
        assert not reading.troubles
        return reading.records


@cache
def header(name: str) -> Record:
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "s.toml"
        path.write_bytes(whole(name))
        return read_journal(path).header


@contextmanager
def put(data: bytes) -> Iterator[Path]:
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "dam2.toml"
        path.write_bytes(data)
        yield path


def without_demos(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    """No kit is at hand."""
    monkeypatch.setattr(model.kit_regained, "demo_folder", lambda: tmp_path / "none")
    monkeypatch.setattr(model.kit_regained, "kept_in", lambda: (None, tmp_path / "kits", ""))


def resumed(path: Path) -> Session:
    return Session.resume(path, clock(), disk=QuickDisk())


def kit_line(name: str, containing: bytes = b"marks = [") -> int:
    """The number of a line of the kit's text, from 0, in the middle of the head."""
    lines = whole(name)[: size(name)].split(b"\n")
    return next(at for at, line in enumerate(lines) if at > 30 and containing in line)


def spoil(name: str, at: int, by: bytes) -> bytes:
    lines = whole(name).split(b"\n")
    lines[at] = by
    return b"\n".join(lines)


@pytest.mark.parametrize("name", DEMOS)
class TestEveryLine:
    """Reading alone, which is quick: each line of each head."""

    @pytest.mark.parametrize("how", ["nul", "gone", "junk", "cut"])
    def test_every_record_and_every_other_key_is_read(
        self, name: str, how: str, tmp_path: Path
    ) -> None:
        path = tmp_path / "s.toml"
        lines = whole(name).split(b"\n")
        count = whole(name)[: size(name)].count(b"\n")
        opens = next(at for at, line in enumerate(lines) if line.startswith(b"kit_text"))
        own = {line.partition(b" ")[0].decode(): at for at, line in enumerate(lines[:opens])}
        by = {"nul": b"\0", "junk": b"\xff\xfe = [[", "gone": None, "cut": b"x"}[how]
        for at in (*range(9), *range(9, count, 1 if how == "nul" else 5), count - 2, count - 1):
            bad = [*lines[:at], *([] if by is None else [by]), *lines[at + 1 :]]
            if how == "cut":
                bad = [*lines[:at], lines[at][: len(lines[at]) // 2], *lines[at + 1 :]]
            path.write_bytes(b"\n".join(bad))
            reading = read_journal(path)
            assert reading.records == records(name), at
            for key, stands in own.items():
                if stands not in (at, 0, 1):
                    assert reading.header[key] == header(name)[key], (at, key)
            for rest in reading.rests:
                text = str(header(name)["kit_text"]).split("\n")
                if opens < at < count - 2 and how != "cut":  # inside the kit's text
                    left = [line for line in rest.lines if line is not None]
                    assert len(left) == len(text) - 1
                    assert set(left) <= set(text)


@pytest.mark.parametrize("name", DEMOS)
class TestProperty:
    @SLOW
    @given(data=st.data())
    def test_any_range_of_the_head(self, name: str, data: st.DataObject) -> None:
        """No traceback, no action lost, the file as it was; the kit is the one it began with."""
        start = data.draw(st.integers(0, size(name) - 1))
        over = data.draw(st.one_of(st.integers(1, 40), st.integers(1, size(name))))
        junk = data.draw(st.one_of(st.binary(max_size=12), st.just(bytes(over))))
        stop = min(start + over, size(name))
        damaged = whole(name)[:start] + junk + whole(name)[stop:]
        self.check(name, damaged, len(records(name)))

    @SLOW
    @given(data=st.data())
    def test_any_line_of_the_head(self, name: str, data: st.DataObject) -> None:
        lines = whole(name)[: size(name)].count(b"\n")
        at = data.draw(st.one_of(st.integers(0, 8), st.integers(0, lines - 1)))
        by = data.draw(st.sampled_from([b"", b"\0", b"\xff", b'"""', b"[[did]]", b"n = 0", b"a ="]))
        self.check(name, spoil(name, at, by), len(records(name)))

    @SLOW
    @given(data=st.data())
    def test_damaged_and_torn_together(self, name: str, data: st.DataObject) -> None:
        ends = [match.end() for match in re.finditer(rb"^n = \d+\n", whole(name), re.MULTILINE)]
        torn = data.draw(st.integers(size(name) + 1, len(whole(name)) - 1))
        kept = sum(end - 1 <= torn for end in ends) - 1  # the head has a number too
        lines = whole(name)[: size(name)].count(b"\n")
        at = data.draw(st.integers(0, lines - 1))
        self.check(name, _torn(name, at, torn), kept)

    def check(self, name: str, damaged: bytes, count: int) -> None:
        with put(damaged) as path:
            try:
                session = resumed(path)
            except SessionError as error:
                assert path.read_bytes() == damaged
                assert [file.name for file in path.parent.glob("*.toml")] == ["dam2.toml"]
                assert sentence(str(error)).isprintable()
                reading = _read(path)
                if reading is not None:
                    assert reading[:count] == records(name)[:count]
                return
            session.close()
            assert session.path is not None
            if session.path == path:  # a line was hit that nothing hangs on, and none is lost
                assert path.read_bytes().startswith(damaged)
            else:
                assert path.read_bytes() == damaged
            goes_on = read_journal(session.path)
            assert goes_on.records[:count] == records(name)[:count]
            assert goes_on.records[count]["did"] == "sat"
            assert goes_on.troubles == ()
            if session.path == path:
                assert goes_on.header["kit_text"] == header(name)["kit_text"]
            elif _digest_left(damaged, name):
                assert goes_on.header["kit_text"] == header(name)["kit_text"]
                assert goes_on.header["steps"] == header(name)["steps"]
                assert goes_on.header["kit"] == header(name)["kit"]


def _torn(name: str, at: int, torn: int) -> bytes:
    """The file up to this byte, with a line of its head spoilt."""
    head, rest = whole(name)[: size(name)], whole(name)[size(name) : torn]
    lines = head.split(b"\n")
    lines[at] = b"\xff\0"
    return b"\n".join(lines) + rest


def _digest_left(damaged: bytes, name: str) -> bool:
    return f'\ndigest = "{header(name)["digest"]}"\n'.encode() in damaged


def _read(path: Path) -> tuple[Record, ...] | None:
    try:
        return read_journal(path).records
    except JournalError:
        return None


class TestKit:
    """Where the kit comes from."""

    def damaged(self, folder: Path, name: str = "harbour", source: str = "") -> Path:
        folder.mkdir(exist_ok=True)
        path = folder / "dam2.toml"
        data = spoil(name, kit_line(name), b'marks = ["1\0')
        if source is not None:
            data = re.sub(
                rb'(?m)^source = "[^"]*"$', b'source = "%b"' % source.encode(), data, count=1
            )
        path.write_bytes(data)
        return path

    def check(self, path: Path, name: str = "harbour") -> tuple[Session, str]:
        before = path.read_bytes()
        session = resumed(path)
        assert session.path == path.with_name("dam2.mended.toml")
        assert path.read_bytes() == before
        assert read_journal(session.path).header["kit_text"] == header(name)["kit_text"]
        assert read_journal(session.path).mended_from == "dam2.toml"
        session.close()
        return session, "\n".join(sentence(trouble.text) for trouble in session.troubles)

    def test_from_a_demo_kit(self, tmp_path: Path) -> None:
        path = self.damaged(tmp_path / "s")
        line = kit_line("harbour") + 1
        _, told = self.check(path)
        assert f"Line {line}: the session's own copy of the kit is damaged. It was" in told
        assert "kit_text" not in told
        assert f"taken from {demo_folder() / 'harbour.toml'}, which is that very kit" in told
        assert "dam2.mended.toml" in told

    def test_from_where_it_was(self, monkeypatch, tmp_path: Path) -> None:
        without_demos(monkeypatch, tmp_path)
        kit = tmp_path / "mine.toml"
        shutil.copy(demo_folder() / "harbour.toml", kit)
        _, told = self.check(self.damaged(tmp_path / "s", source=str(kit)))
        assert f"taken from {kit}," in told

    def test_from_the_kits_folder_and_from_beside_it(self, monkeypatch, tmp_path: Path) -> None:
        without_demos(monkeypatch, tmp_path)
        for folder in ("kits", "s"):
            path = self.damaged(tmp_path / "s")
            (tmp_path / folder).mkdir(exist_ok=True)
            kit = tmp_path / folder / "any name.toml"
            shutil.copy(demo_folder() / "harbour.toml", kit)
            _, told = self.check(path)
            assert f"taken from {kit}," in told
            kit.unlink()
            (tmp_path / "s" / "dam2.mended.toml").unlink()

    def test_from_another_session_of_it(self, monkeypatch, tmp_path: Path) -> None:
        without_demos(monkeypatch, tmp_path)
        path = self.damaged(tmp_path / "s")
        (tmp_path / "s" / "other.toml").write_bytes(whole("harbour"))
        _, told = self.check(path)
        assert "from another session, other.toml" in told

    def test_from_the_file_itself_when_only_the_edge_of_the_text_is_gone(
        self, monkeypatch, tmp_path: Path
    ) -> None:
        without_demos(monkeypatch, tmp_path)
        path = tmp_path / "dam2.toml"
        for edge in (b"", b"\0\0"):
            path.write_bytes(whole("harbour").replace(b'\n"""\nn = 0\n', b"\n%b\nn = 0\n" % edge))
            _, told = self.check(path)
            assert "could still be read as a whole" in told
            (tmp_path / "dam2.mended.toml").unlink()

    def test_a_kit_that_was_changed_since_is_not_taken(self, monkeypatch, tmp_path: Path) -> None:
        without_demos(monkeypatch, tmp_path)
        kit = tmp_path / "harbour.toml"
        text = (demo_folder() / "harbour.toml").read_text("utf-8")
        kit.write_text(text + "\n# mine\n", encoding="utf-8")
        path = self.damaged(tmp_path / "s", source=str(kit))
        before = path.read_bytes()
        with pytest.raises(SessionError) as caught:
            resumed(path)
        said = sentence(str(caught.value))
        assert "A Week at the Harbour" in said
        assert "file harbour.toml" in said
        assert f"folder {tmp_path / 'kits'}, or beside the session's file" in said
        assert f"all {len(records('harbour'))} entries" in said
        assert path.read_bytes() == before
        assert [file.name for file in path.parent.glob("*.toml")] == ["dam2.toml"]
        with pytest.raises(SessionError, match="A Week at the Harbour"):
            Session.watch(path)
        # What the message says helps.
        shutil.copy(demo_folder() / "harbour.toml", path.parent)
        self.check(path)

    def test_a_letter_that_changed_without_a_trace_is_noticed(self, tmp_path: Path) -> None:
        """The file is sound TOML; only the digest tells that a mark is not what it was."""
        at = kit_line("harbour")
        line = whole("harbour").split(b"\n")[at]
        path = tmp_path / "dam2.toml"
        path.write_bytes(
            spoil(
                "harbour",
                at,
                re.sub(rb"\d", lambda one: b"%d" % (int(one[0]) % 9 + 1), line, count=1),
            )
        )
        assert path.read_bytes() != whole("harbour")
        assert read_journal(path).troubles == ()
        _, told = self.check(path)
        assert "own copy of the kit is damaged" in told

    def test_a_changed_word_without_the_kit_is_told(self, monkeypatch, tmp_path: Path) -> None:
        without_demos(monkeypatch, tmp_path)
        path = tmp_path / "dam2.toml"
        data = whole("postcard").replace(b"title = ", b"title =  ", 1)
        assert data != whole("postcard")
        path.write_bytes(re.sub(rb"(?m)^source = .*\n", b"", data, count=1))
        session = resumed(path)
        session.close()
        assert path.read_bytes() != whole("postcard")
        assert "its digest is not the one that was noted" in session.troubles[0].text
        assert session.path == tmp_path / "dam2.mended.toml"


class TestNoDigest:
    """Older files, or its line is damaged too."""

    @pytest.fixture
    def path(self, monkeypatch, tmp_path: Path) -> Path:
        without_demos(monkeypatch, tmp_path)
        data = spoil("harbour", kit_line("harbour"), b'marks = ["1\0')
        data = re.sub(rb"(?m)^(digest|source) = .*\n", b"", data, count=2)
        (tmp_path / "kits").mkdir()
        path = tmp_path / "dam2.toml"
        path.write_bytes(data)
        return path

    def text(self) -> str:
        return (demo_folder() / "harbour.toml").read_text("utf-8")

    def test_a_kit_that_agrees_is_taken_with_a_word(self, path: Path) -> None:
        kit = path.parent / "kits" / "a.toml"
        kit.write_text(self.text(), encoding="utf-8")
        before = path.read_bytes()
        session = resumed(path)
        session.close()
        told = "\n".join(trouble.text for trouble in session.troubles)
        assert f"taken from {kit}, which agrees with every line that is left" in told
        assert "compare each mark" in told
        assert path.read_bytes() == before
        assert not session.state.ignored

    def test_one_that_differs_where_it_can_be_seen_is_not(self, path: Path) -> None:
        kit = path.parent / "kits" / "a.toml"
        kit.write_text(self.text().replace("title", "title ", 1), encoding="utf-8")
        with pytest.raises(SessionError, match="digest is lost too"):
            resumed(path)

    def test_of_two_that_agree_none_is_taken(self, path: Path) -> None:
        """They differ just where the damage is: nobody can tell which it was."""
        line = whole("harbour").split(b"\n")[kit_line("harbour")].decode().replace('\\"', '"')
        for name, end in (("a", ""), ("b", "  # mine")):
            text = self.text().replace(line, line + end, 1)
            assert read_kit(text).plan is not None
            (path.parent / "kits" / f"{name}.toml").write_text(text, encoding="utf-8")
        with pytest.raises(SessionError, match="no kit at hand is the same"):
            resumed(path)

    def test_nor_one_of_which_too_little_is_left(self, path: Path) -> None:
        (path.parent / "kits" / "a.toml").write_text(self.text(), encoding="utf-8")
        head = path.read_bytes()
        start, stop = head.index(b"kit_text") + 60, head.index(b'\n"""\nn = 0')
        path.write_bytes(head[:start] + b"\0" + head[stop:])
        with pytest.raises(SessionError, match="Needed is"):
            resumed(path)

    def test_nor_one_that_does_not_take_what_was_said(self, path: Path) -> None:
        (path.parent / "kits" / "a.toml").write_text(self.text(), encoding="utf-8")
        data = path.read_bytes()
        path.write_bytes(re.sub(rb'(?m)^step = "fill:', b'step = "fall:', data))
        assert path.read_bytes() != data
        with pytest.raises(SessionError, match="Needed is"):
            resumed(path)

    def test_an_old_file_that_is_sound_is_as_it_was(self, path: Path) -> None:
        data = re.sub(rb"(?m)^digest = .*\n", b"", whole("harbour"), count=1)
        path.write_bytes(data)
        session = resumed(path)
        session.close()
        assert session.troubles == ()
        assert session.path == path


class TestEverywhere:
    """The shelf, and the commands that need no screen."""

    @pytest.fixture
    def path(self, monkeypatch, tmp_path: Path) -> Path:
        monkeypatch.setenv("DRYFIT_HOME", str(tmp_path))
        (tmp_path / "sessions").mkdir()
        return tmp_path / "sessions" / "dam2.toml"

    @pytest.mark.parametrize("line", [0, 1, 2, 5, 7, 8, 60, -1])
    def test_the_shelf_lists_it_as_it_is(self, line: int, path: Path) -> None:
        path.write_bytes(whole("harbour"))
        (sound,) = sessions_in(path.parent)
        lines = whole("harbour")[: size("harbour")].count(b"\n")
        path.write_bytes(spoil("harbour", line % lines, b"\0"))
        assert is_session(path)
        (seen,) = sessions_in(path.parent)
        assert seen == sound
        session = resumed(path)
        session.close()
        (after,) = sessions_in(path.parent)
        assert (after.path, after.done, after.trouble) == (session.path, seen.done, "")

    def test_a_lost_end_of_the_text_hides_no_step(self, path: Path) -> None:
        path.write_bytes(whole("harbour"))
        (sound,) = sessions_in(path.parent)
        path.write_bytes(whole("harbour").replace(b'\n"""\nn = 0\n', b"\nn = 0\n"))
        assert sessions_in(path.parent) == [sound]

    def test_without_its_kit_it_is_listed_with_what_is_needed(
        self, monkeypatch, path: Path, tmp_path: Path
    ) -> None:
        without_demos(monkeypatch, tmp_path)
        data = spoil("harbour", kit_line("harbour"), b"\0")
        path.write_bytes(re.sub(rb"(?m)^source = .*\n", b"", data, count=1))
        (seen,) = sessions_in(path.parent)
        assert seen.title == "A Week at the Harbour"
        assert "Needed is the kit as it was" in seen.trouble

    def test_sessions_report_and_lines(self, path: Path, capsys, monkeypatch) -> None:
        path.write_bytes(spoil("postcard", kit_line("postcard"), b"\0"))
        before = path.read_bytes()
        assert main(["sessions", "--json"]) == 0
        (row,) = json.loads(capsys.readouterr().out)
        assert (row["kit"], row["trouble"], row["path"]) == (
            header("postcard")["kit"], "", str(path),
        )  # fmt: skip
        assert main(["report", str(path)]) in (0, 1)
        assert str(header("postcard")["kit"]) in capsys.readouterr().out
        monkeypatch.setattr("sys.stdin", io.StringIO(""))
        assert main(["lines", str(path)]) == 0
        said = capsys.readouterr().out
        assert "own copy of the kit is damaged" in said
        assert "Dam2.toml" not in said
        assert path.read_bytes() == before

    def test_a_refusal_is_a_sentence_everywhere(
        self, path: Path, capsys, monkeypatch, tmp_path: Path
    ) -> None:
        without_demos(monkeypatch, tmp_path)
        data = spoil("harbour", kit_line("harbour"), b"\0")
        path.write_bytes(re.sub(rb"(?m)^source = .*\n", b"", data, count=1))
        for command in ("report", "lines"):
            assert main([command, str(path)]) == 1
            assert "A Week at the Harbour" in "".join(capsys.readouterr())


class TestWords:
    """No sentence begins with the name of a file, which would then get a capital."""

    def test_of_any_damage(self, monkeypatch, tmp_path: Path) -> None:
        monkeypatch.chdir(tmp_path)
        name, here = "postcard", Path("dam2.toml")
        spoilt = whole(name).replace(b'did = "done"', b"did = done", 1)
        for data in (spoilt, spoil(name, 3, b"\0"), spoil(name, kit_line(name), b"\0")):
            for _ in range(2):
                here.write_bytes(data)
                session = resumed(here)
                session.close()
                for trouble in session.troubles:
                    assert "Dam2" not in sentence(trouble.text)
        assert "mended before" in session.troubles[-1].text

    @pytest.mark.parametrize("data", [b"", b"a = 1\n", b"\0\xff\n", None])
    def test_of_what_is_refused(self, data: bytes | None, monkeypatch, tmp_path: Path) -> None:
        monkeypatch.chdir(tmp_path)
        here = Path("dam2.toml")
        if data is not None:
            here.write_bytes(data)
        for opening in (Session.resume, Session.watch):
            with pytest.raises(SessionError, match="dam2") as caught:
                opening(here, clock())
            assert "Dam2" not in sentence(str(caught.value))

    def test_it_can_be_finished(self, tmp_path: Path) -> None:
        path = tmp_path / "dam2.toml"
        path.write_bytes(spoil("postcard", kit_line("postcard"), b"\0"))
        session = resumed(path)
        finish(session)
        session.close()
        assert session.path is not None
        assert sessions_in(tmp_path)[0].finished
