"""Plain lines: the run by a real process, by hand-written scripts, and by anything at all."""

from __future__ import annotations

import io
import json
import os
import signal
import subprocess
import sys
import tempfile
from collections.abc import Sequence
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from model.account import account_of
from model.folders import demo_kit
from model.moment import moment_of
from model.pockets import pocket_said
from model.reading import load_kit
from model.session import Session
from model.settings import Settings
from model.wording import English
from tests.muddle import QuickDisk, entries_of
from tests.screens import begun
from tests.test_layering import loaded
from tui.lines_desk import Desk
from tui.lines_voice import Voice

ROOT = Path(__file__).resolve().parent.parent
DEMOS = ("postcard", "harbour", "cards")


def command(*args: str) -> list[str]:
    return [sys.executable, "-m", "tui.command", "lines", *args]


def surroundings(home: Path) -> dict[str, str]:
    return {"DRYFIT_HOME": str(home), "PATH": "/usr/bin:/bin", "LC_ALL": "C"}


def spoken(home: Path, said: str, *args: str) -> subprocess.CompletedProcess[str]:
    """What a real process answers to some lines."""
    return subprocess.run(
        command(*args), input=said, capture_output=True, text=True, encoding="utf-8",
        cwd=ROOT, check=False, env=surroundings(home),
    )  # fmt: skip


def session_in(home: Path) -> Path:
    (path,) = (home / "sessions").glob("*.toml")
    return path


class Sitting:
    """A desk within this process; `say` gives back what one line is answered with."""

    def __init__(self, session: Session, as_json: bool = False, ascii: bool = True) -> None:
        self.hears, self.says = io.StringIO(), io.StringIO()
        self.session = session
        chosen = Settings(ascii=ascii)
        self.desk = Desk(session, chosen, Voice(self.hears, self.says, as_json, ascii))
        self.desk.tell()

    def say(self, line: str, *then: str) -> str:
        """Say a line, with the answers to what it asks."""
        self.hears.seek(0)
        self.hears.truncate()
        self.hears.write("".join(f"{answer}\n" for answer in then))
        self.hears.seek(0)
        start = self.says.tell()
        self.desk.do(line)
        assert not then or not self.hears.read(), "an answer was not asked for"
        return self.says.getvalue()[start:]

    def until(self, sentence: str) -> None:
        """Go on faultlessly until a step says this."""
        while sentence not in self.desk.look().sentence:
            assert not self.desk.look().over, f"nothing says {sentence!r}"
            self.say("")


@pytest.fixture
def postcard(tmp_path: Path) -> Sitting:
    return Sitting(begun("postcard", tmp_path))


# A whole run


@pytest.mark.parametrize("kit", DEMOS)
def test_empty_lines_alone_carry_a_whole_faultless_run(kit: str, tmp_path: Path) -> None:
    path = demo_kit(kit)
    assert path is not None
    plan = load_kit(path).plan
    assert plan is not None
    # Every step is one line, and so is every thing filed; more lines than that do no harm.
    done = spoken(tmp_path, "\n" * (len(plan.steps) + len(plan.items) + 2), kit)
    assert done.returncode == 0 and done.stderr == ""
    assert "Everything is accounted for." in done.stdout
    session = Session.watch(session_in(tmp_path))
    assert account_of(session).closes
    # No colour, no cursor movement, no boxes; nothing that is not a sentence.
    assert "\x1b" not in done.stdout and "\r" not in done.stdout
    assert not any("\u2500" <= char <= "\u259f" for char in done.stdout)
    assert "Warning" not in done.stdout


def test_every_step_says_what_the_table_says(tmp_path: Path) -> None:
    sitting = Sitting(begun("harbour", tmp_path), ascii=False)
    session = sitting.session
    manner = Settings().manner(session.plan.kit.unit)
    steps = 0
    while not (moment := moment_of(session, manner)).over:
        said = sitting.say("again")
        assert moment.sentence in said
        figure = moment.figure
        if figure is not None and figure.tone == "cut":
            assert figure.text.lstrip("~") in said
        assert all(f"Caution: {caution}" in said for caution in moment.cautions)
        assert all(note in said for note in moment.more)
        sitting.say("done")
        steps += 1
    assert steps > len(session.plan.steps)


def test_a_cut_tells_its_mark_in_words_and_where_it_goes(postcard: Sitting) -> None:
    postcard.until("umbrella border (1 1/2 x 8) comes off")
    # By hand: the umbrellas are 8 x 8, and 1 1/2 comes off at 8 - 1 1/2.
    said = postcard.say("again").split("\n")[0]
    assert said.startswith("Cut 1 of 2, mark 6 1/2 in. ")
    assert said.endswith("It goes to pocket 1-2.")


def test_what_was_said_beside_the_last_step_is_not_said_again(postcard: Sitting) -> None:
    postcard.until("Take sheet umbrellas")
    assert "Caution: Lock the blade" in postcard.say("again")
    assert "Caution" not in postcard.say("")  # the cut, to which it applies as well
    assert "Caution: Lock the blade" in postcard.say("again")


# Mistakes of each kind


def in_wrong_pocket(sitting: Sitting) -> None:
    moment = sitting.desk.look()
    item = moment.due.item
    assert item is not None
    belongs = sitting.session.state.belongs(item)
    other = next(p for p in sitting.session.plan.kit.pockets if p.index != belongs)
    said = sitting.say(str(other.pages[0]))
    assert "Warning: WRONG POCKET" in said


def test_a_piece_in_a_wrong_pocket_is_told_and_put_right(tmp_path: Path) -> None:
    sitting = Sitting(begun("harbour", tmp_path))
    sitting.until("File rope border")
    in_wrong_pocket(sitting)
    assert sitting.say("").startswith("Answer the warning first")
    assert sitting.say("right").startswith("Put right: it is in ")
    assert not sitting.session.state.warnings


def test_a_warning_is_answered_with_the_pocket_that_the_piece_is_in_now(tmp_path: Path) -> None:
    sitting = Sitting(begun("harbour", tmp_path))
    sitting.until("File rope border")
    item = sitting.desk.look().due.item
    assert item is not None
    home = sitting.session.plan.kit.pockets[sitting.session.state.belongs(item)]
    in_wrong_pocket(sitting)
    sitting.say(home.label.replace("·", "-"))
    assert not sitting.session.state.warnings
    assert sitting.session.state.where(item) == home.index


def test_a_warning_that_is_left_stays_listed(tmp_path: Path) -> None:
    sitting = Sitting(begun("harbour", tmp_path))
    sitting.until("File rope border")
    in_wrong_pocket(sitting)
    assert sitting.say("leave").startswith("Left for now")
    assert sitting.say("warnings").startswith("Warning 1: WRONG POCKET")
    sitting.say("right 1")
    assert "No warning is open." in sitting.say("warnings")


def test_a_wanted_piece_called_a_scrap(postcard: Sitting) -> None:
    postcard.until("File umbrella border")
    assert "Warning: NOT A SCRAP" in postcard.say("scrap")
    postcard.say("right")
    assert not postcard.session.state.warnings


def test_a_scrap_filed_and_a_scrap_too_many(postcard: Sitting) -> None:
    postcard.until("with the scraps")
    assert "Warning: SCRAP IN A POCKET" in postcard.say("1")
    postcard.say("right")
    assert postcard.session.state.scraps == 1
    postcard.until("Take sheet puddle")
    assert "Warning: One more scrap" in postcard.say("scrap")
    assert "it was no scrap" in postcard.say("right")


def test_a_strip_filed_too_early_and_a_piece_filed_twice(postcard: Sitting) -> None:
    postcard.until("Take umbrella block")
    assert "Warning: TOO EARLY" in postcard.say("1")
    postcard.say("right")
    postcard.until("Take sheet mustard")
    assert "Warning: FILED TWICE" in postcard.say("1")
    postcard.say("right")
    assert not postcard.session.state.warnings


def test_a_cut_is_taken_back_only_when_it_was_not_made(postcard: Sitting) -> None:
    postcard.until("File umbrella border")
    done = postcard.session.state.steps_done
    said = postcard.say("undo", "perhaps", "yes")
    assert "Was it really cut?" in said and "nothing is taken back" in said
    assert postcard.session.state.steps_done == done
    assert "Cut 1 of 2" in postcard.say("undo", "no")
    assert postcard.session.state.steps_done == done - 1
    assert "File umbrella border" in postcard.say("redo")
    assert postcard.session.state.steps_done == done


def test_a_count_finds_what_is_missing(tmp_path: Path) -> None:
    sitting = Sitting(begun("postcard", tmp_path))
    sitting.until("Take sheet mustard")
    said = sitting.say("count 1", "yes", "1", "yes", "no", "no", "no")
    assert "MISSING: umbrella border" in said
    sitting.say("right")
    assert "is counted, and right" in sitting.say("count 1-2", "y", "y", "2", "no")
    assert sitting.session.state.checked


def test_a_count_that_is_stopped_says_nothing_of_the_pocket(postcard: Sitting) -> None:
    postcard.until("Take sheet mustard")
    before = postcard.session.said
    assert "Left as it was." in postcard.say("count 1", "no", "stop")
    assert postcard.session.said == before


def test_something_else_that_was_in_the_pocket_is_put_where_it_belongs(tmp_path: Path) -> None:
    sitting = Sitting(begun("harbour", tmp_path))
    sitting.until("Take sheet C")
    # A rope border, of which two go to each of several pockets, lies in the empty 9-10.
    lines = len(sitting.desk._counting or ())
    assert lines == 0
    answers = ["yes"] * len(sitting_lines(sitting, "9")) + ["rope border", "1", "no", "yes"]
    said = sitting.say("count 9", *answers)
    assert "rope border" in said and "was found in pocket 9-10" in said


def sitting_lines(sitting: Sitting, page: str) -> Sequence[object]:
    from model.likeness import LookAlikes
    from model.recount import Recount

    session = sitting.session
    pocket = pocket_said(session.plan.kit, page)
    assert pocket is not None
    return Recount(session.plan, session.state, LookAlikes(session.plan)).lines(pocket)


# The other words


def test_the_pile_and_what_was_found_are_taken_by_number(postcard: Sitting) -> None:
    postcard.say("pace")
    postcard.until("File umbrella")
    pile = postcard.say("pile").strip().split("\n")
    assert len(pile) == len(postcard.session.state.pile) > 1
    second = postcard.session.state.pile[::-1][1]
    postcard.say("take 2")
    assert postcard.desk.look().due.item == second
    assert "no such number" in postcard.say("take 99")
    found = postcard.say("find umbrella border")
    assert "1: umbrella border (1 1/2 x 8), pocket 1-2" in found
    postcard.say("take 1")
    item = postcard.desk.look().due.item
    assert item is not None and "border" in item
    postcard.say("1")
    assert postcard.session.state.where(item) == 0


def test_what_is_found_but_not_made_is_not_taken(postcard: Sitting) -> None:
    postcard.say("find story card")
    assert postcard.say("take 1").strip() == "That is not made yet."


def test_a_sheet_is_put_off_and_taken_up(postcard: Sitting) -> None:
    postcard.until("Take sheet umbrellas")
    assert "Take sheet mustard" in postcard.say("later")
    assert "Take sheet umbrellas" in postcard.say("take up Umbrellas")
    assert postcard.say("put off nothing").strip() == "Say which sheet."


def test_reading_out_says_no_step_again(postcard: Sitting) -> None:
    postcard.until("File umbrella border")
    for line in ("where", "pockets", "pocket 1", "pile", "account", "notes", "help", "warnings"):
        said = postcard.say(line)
        assert said and "File umbrella border (1 1/2 x 8) in pocket" not in said.replace(
            "First: File", ""
        )


def test_the_report_is_saved_beside_the_session(postcard: Sitting) -> None:
    said = postcard.say("save report")
    path = Path(said.strip().removeprefix("Saved: "))
    assert "dryfit account: A Wet Weekend" in path.read_text("utf-8")


@pytest.mark.parametrize("text", ["3", "page 3", "3-4", "3·4", "3 4", "4", " 3·4 "])
def test_a_pocket_is_meant_by_page_or_label(text: str) -> None:
    path = demo_kit("harbour")
    assert path is not None
    plan = load_kit(path).plan
    assert plan is not None
    assert pocket_said(plan.kit, text) == 1


@pytest.mark.parametrize("text", ["", "0", "11", "3-5", "x", "9" * 5000, "³"])
def test_what_names_no_pocket_names_none(text: str) -> None:
    path = demo_kit("harbour")
    assert path is not None
    plan = load_kit(path).plan
    assert plan is not None
    assert pocket_said(plan.kit, text) is None


# Ends and begins


def test_the_end_of_the_input_says_where_one_stands_and_how_to_go_on(tmp_path: Path) -> None:
    done = spoken(tmp_path, "\n\n", "postcard")
    assert done.returncode == 0
    path = session_in(tmp_path)
    last = done.stdout.strip().split("\n")[-1]
    assert last == f"Put away: 2 of 19 steps done. Go on with: dryfit lines {path}"
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
        assert "Put away: 3 of 19 steps done." in rest
    again = spoken(tmp_path, "", str(session_in(tmp_path)))
    assert again.returncode == 0
    assert "3 of 19 steps are done" in again.stdout and "Lay sheet mustard" in again.stdout


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
        "kind", "text", "headline", "sentence", "mark", "goes", "cautions", "notes", "alike",
        "done", "steps", "optional",
    },
    "start": {"kind", "text", "kit", "session", "new"},
    "pocket": {"kind", "text", "pocket", "held", "wanted", "wrong"},
    "question": {"kind", "text", "answers"},
    "match": {"kind", "text", "number", "item"},
    "pile": {"kind", "text", "number", "item"},
    "account": {"kind", "text", "tone"},
    "end": {"kind", "text", "done", "steps", "over", "session"},
}  # fmt: skip
KEYS["warning"] = KEYS["over"] = KEYS["step"]


def test_json_is_one_object_a_line_with_the_same_keys_always(tmp_path: Path) -> None:
    said = "\n" * 8 + "pile\nundo\nyes\nfind 4 x 6\npockets\nscrap\nright\n" + "\n" * 40
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
        desk = Desk(session, Settings(), Voice(hears, says, as_json, False))
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


def test_every_command_of_the_help_is_known(postcard: Sitting) -> None:
    words = English(postcard.session.plan, Settings().manner(postcard.session.plan.kit.unit))
    named = [part for line in words.lines_help() for part in line.partition(":")[0].split(", ")]
    assert len(named) > 15
    for command_ in named[4:]:
        if command_ != "quit":
            assert "is not known here" not in postcard.say(command_), command_
