"""Plain lines: how they begin and end, what programs read, and anything at all."""

from __future__ import annotations

import io
import json
import os
import signal
import subprocess
import sys
import tempfile
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from model.folders import demo_kit
from model.reading import load_kit
from model.session import Session
from model.settings import Settings
from tests.muddle import QuickDisk, entries_of
from tests.plain_lines import ROOT, command, session_in, spoken, surroundings
from tests.screens import begun
from tests.test_layering import loaded
from tui.lines_choices import Choices
from tui.lines_desk import Desk
from tui.lines_voice import Voice

# Ends and begins


def test_the_end_of_the_input_says_where_one_stands_and_how_to_go_on(tmp_path: Path) -> None:
    done = spoken(tmp_path, "\n\n", "postcard")
    assert done.returncode == 0
    path = session_in(tmp_path)
    last = done.stdout.strip().split("\n")[-1]
    assert last == f"Put away: 2 of 19 steps done. All is saved. Go on with: dryfit lines {path}"
    again = spoken(tmp_path, "", str(path))
    assert again.returncode == 0 and "2 of 19 steps are done" in again.stdout
    # Without a session's name: the newest that is not finished.
    resumed = spoken(tmp_path, "\nquit\n", "postcard", "--resume")
    assert "Put away: 3 of 19 steps done." in resumed.stdout
    session_in(tmp_path)  # still one only


@pytest.mark.skipif(sys.platform == "win32", reason="Windows has no SIGKILL; not tried there")
@pytest.mark.parametrize("how", [signal.SIGKILL, signal.SIGINT])
def test_killed_or_interrupted_it_has_kept_all_that_was_answered(
    how: signal.Signals, tmp_path: Path
) -> None:
    child = subprocess.Popen(
        command("postcard"), stdin=subprocess.PIPE, stdout=subprocess.PIPE, stderr=subprocess.PIPE,
        text=True, encoding="utf-8", cwd=ROOT, env=surroundings(tmp_path),
    )  # fmt: skip
    assert child.stdin is not None and child.stdout is not None and child.stderr is not None
    child.stdin.write("\n\n\n")
    child.stdin.flush()
    said = ""
    while "Lay sheet mustard" not in said:  # what three lines were answered with
        line = child.stdout.readline()
        assert line, said
        said += line
    os.kill(child.pid, how)
    rest, errors = child.communicate()
    assert "Traceback" not in errors
    if how is signal.SIGINT:
        assert child.returncode == 0
        assert "Stopped.\nPut away: 3 of 19 steps done. All is saved. Go on with: " in rest
    again = spoken(tmp_path, "", str(session_in(tmp_path)))
    assert again.returncode == 0
    assert "3 of 19 steps are done" in again.stdout and "Lay sheet mustard" in again.stdout


@pytest.mark.skipif(sys.platform == "win32", reason="Windows has no pseudo terminal")
@pytest.mark.parametrize("key", [b"\x03", b"\x04"])
def test_at_a_terminal_the_last_sentence_begins_a_line(key: bytes, tmp_path: Path) -> None:
    import pty

    pid, terminal = pty.fork()
    if pid == 0:
        os.chdir(ROOT)
        os.execve(sys.executable, command("harbour"), surroundings(tmp_path))
    said, sent = b"", False
    while True:
        try:
            more = os.read(terminal, 4096)
        except OSError:  # the other end is closed
            break
        if not more:
            break
        said += more
        if not sent and b"Note: " in said and said.endswith(b"\n"):
            sent = True
            os.write(terminal, key)
    assert os.waitstatus_to_exitcode(os.waitpid(pid, 0)[1]) == 0
    lines = said.decode().replace("\r", "").strip().split("\n")
    assert lines[-1].startswith("Put away: 0 of 176 steps done. All is saved. Go on with: ")
    assert ("Stopped." in lines) == (key == b"\x03")
    assert b"\x1b" not in said


def test_a_second_program_is_told_and_may_look_on(tmp_path: Path) -> None:
    session = begun("postcard", tmp_path, 2)
    assert session.path is not None
    told = spoken(tmp_path, "what\nwatch\n\nscrap\nquit\n", str(session.path))
    assert told.returncode == 0
    assert "Say watch to look on" in told.stdout
    assert "You are looking on" in told.stdout
    assert "Start the stack" in told.stdout and "Nothing new." in told.stdout
    assert spoken(tmp_path, "", str(session.path)).returncode == 0
    assert session.said == len(entries_of(session.path))
    session.close()


def test_a_file_that_is_no_kit_is_told(tmp_path: Path) -> None:
    assert spoken(tmp_path, "", "no such kit").returncode == 2
    kit = tmp_path / "kit.toml"
    kit.write_text('dryfit = 1\ntitle = "T"\n', encoding="utf-8")
    done = spoken(tmp_path, "", str(kit))
    assert done.returncode == 1 and "Traceback" not in done.stderr
    assert str(kit) in done.stdout


# For programs


KEYS = {
    "step": {
        "kind", "text", "headline", "sentence", "mark", "goes", "cautions", "notes",
        "done", "steps", "optional",
    },
    "start": {"kind", "text", "kit", "session", "new"},
    "pocket": {"kind", "text", "pocket", "held", "wanted", "wrong"},
    "question": {"kind", "text", "answers"},
    "match": {"kind", "text", "number", "item"},
    "piece": {"kind", "text", "number", "item"},
    "pile": {"kind", "text", "number", "item"},
    "account": {"kind", "text", "tone"},
    "end": {"kind", "text", "done", "steps", "over", "session"},
}  # fmt: skip
KEYS["warning"] = KEYS["over"] = KEYS["step"]


def test_json_is_one_object_a_line_with_the_same_keys_always(tmp_path: Path) -> None:
    said = (
        "\n" * 8
        + "pile\nundo\nyes\nfind 4 x 6\npockets\npocket 1\nsettings\nhelp\nscrap\nright\n"
        + "\n" * 40
    )
    done = spoken(tmp_path, said, "postcard", "--json")
    assert done.returncode == 0
    rows: list[dict[str, Any]] = [json.loads(line) for line in done.stdout.splitlines()]
    assert {row["kind"] for row in rows} >= set(KEYS)
    for row in rows:
        assert isinstance(row["text"], str) and row["text"]
        assert set(row) == KEYS.get(row["kind"], {"kind", "text"})
    assert rows[0]["kind"] == "start" and rows[-1]["kind"] == "end" and rows[-1]["over"]


def test_ascii_only_is_ascii_only(tmp_path: Path) -> None:
    done = spoken(tmp_path, "\n" * 20 + "pockets\naccount\nhelp\n", "harbour", "--ascii")
    assert done.returncode == 0 and done.stdout.isascii()
    assert spoken(tmp_path, "\n" * 9, "postcard", "--json", "--ascii").stdout.isascii()


def test_plain_lines_load_no_screen(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.setenv("DRYFIT_HOME", str(tmp_path))
    code = "import io, sys\nsys.stdin = io.StringIO('\\nfind 4 x 6\\ncount 1\\nno\\naccount')\n"
    found = loaded(f"{code}from tui.command import main\nmain(['lines', 'postcard'])")
    assert not found & {"textual", "rich"}
    (path,) = (tmp_path / "sessions").glob("*.toml")
    assert len(entries_of(path)) > 1


# What goes wrong around it


def test_a_changed_kit_is_told_and_may_be_taken_over(tmp_path: Path) -> None:
    kit = tmp_path / "kit.toml"
    path = demo_kit("postcard")
    assert path is not None
    text = path.read_text("utf-8")
    kit.write_text(text, encoding="utf-8")
    spoken(tmp_path, "\n\n", str(kit))
    kit.write_text(text.replace('title = "A Wet Weekend"', 'title = "Rain"'), encoding="utf-8")
    session = str(session_in(tmp_path))
    old = spoken(tmp_path, "old\nquit\n", session)
    assert "Say old to go on" in old.stdout and "Open" not in old.stdout
    spoken(tmp_path, "new\nquit\n", session)
    after = spoken(tmp_path, "quit\n", session)
    assert "Say old" not in after.stdout and after.stdout.startswith("Rain. ")


def test_what_is_not_on_the_disk_is_told(tmp_path: Path) -> None:
    (tmp_path / "sessions").write_text("no folder", encoding="utf-8")
    done = spoken(tmp_path, "\n\n", "postcard")
    assert done.returncode == 1 and done.stderr == ""
    assert done.stdout.count("Warning: NOT SAVED") == 1
    assert done.stdout.strip().split("\n")[-1].startswith("NOT SAVED")


def test_a_reader_that_went_away_ends_it_quietly(tmp_path: Path) -> None:
    run = f"yes '' | {sys.executable} -m tui.command lines harbour | head -c 10"
    done = subprocess.run(
        ["/bin/bash", "-c", run],
        capture_output=True, text=True, cwd=ROOT, check=False, env=surroundings(tmp_path),
    )  # fmt: skip
    assert len(done.stdout) == 10
    assert done.stderr == ""


@pytest.mark.parametrize("ascii", [False, True])
def test_nothing_that_is_said_steers_a_terminal(ascii: bool) -> None:
    says = io.StringIO()
    voice = Voice(io.StringIO(), says, False, ascii)
    voice.say("said", "a\x1b[2Jb\nc\x07\u202ed \u00bd", "c\x07\u202ed")
    wrong = "?" if ascii else "\ufffd"
    assert says.getvalue() == f"a (2Jb c{wrong}{wrong}d a half\n"


# Anything at all


WORDS = st.sampled_from(
    (
        "", "done", "scrap", "right", "leave", "undo", "redo", "again", "notes", "where", "pile",
        "pockets", "warnings", "account", "skip", "pace", "later", "take up", "take", "pocket",
        "find", "count", "page", "put off", "yes", "no", "stop", "back", "watch", "1", "2", "3·4",
        "9", "99999999", "3 x 8 green", "take 1", "take 2", "right 1", "leave 1", "count 1",
        "find 3", "pocket 1", "take up umbrellas", "later puddle", "help",
    )
)  # fmt: skip
LINES = st.lists(
    st.one_of(
        WORDS,
        st.builds(" ".join, st.lists(WORDS, min_size=2, max_size=3)),
        st.text(st.characters(exclude_characters="\n\r"), max_size=30),
    ),
    max_size=40,
)


@settings(max_examples=60, deadline=None)
@given(said=LINES, done=st.integers(0, 19), as_json=st.booleans())
def test_whatever_is_said_is_answered(said: list[str], done: int, as_json: bool) -> None:
    path = demo_kit("postcard")
    assert path is not None
    with tempfile.TemporaryDirectory() as folder:
        session = Session.start(load_kit(path), path, Path(folder), disk=QuickDisk())
        for _ in range(done):
            session.next()
        hears = io.StringIO("".join(f"{line}\n" for line in said))
        says = io.StringIO()
        desk = Desk(session, Choices(Settings()), Voice(hears, says, as_json, False))
        desk.run()
        kept = session.path
        assert kept is not None
        assert session.close() == ""
        lines = says.getvalue().split("\n")
        assert lines.pop() == "" and all(lines)
        assert all(line.isprintable() for line in lines)
        if as_json:
            assert all({"kind", "text"} <= set(json.loads(line)) for line in lines)
        # What was said is on the disk, and says the same again.
        again = Session.resume(kept)
        assert again.state.snapshot()["place"] == session.state.snapshot()["place"]
        assert again.state.ignored == []
        again.close()
