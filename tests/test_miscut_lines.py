"""Miscuts by lines: asked for what is lacking, the ways read, shown, gone or left."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from model.session import Session
from tests.plain_lines import Sitting
from tests.screens import begun


def journal(session: Session) -> bytes:
    assert session.path is not None
    return session.path.read_bytes()


@pytest.fixture
def session(tmp_path: Path) -> Session:
    return begun("harbour", tmp_path, 60)


def test_a_mark_alone_is_that_of_the_last_cut(session: Session) -> None:
    said = Sitting(session).say("miscut 3 3/4", "stop")
    assert said.startswith("Cut at 3 and 3 quarters instead of 4.\n")
    assert "Way 1: Save what can be saved of it" in said
    assert said.endswith("Left as it was.\n")


def test_it_can_be_typed_as_it_is_heard(session: Session) -> None:
    said = Sitting(session).say("miscut 3 and 3 quarters", "stop")
    assert said.startswith("Cut at 3 and 3 quarters instead of 4.\n")


def test_what_is_lacking_is_asked_line_by_line(session: Session) -> None:
    said = Sitting(session).say("miscut", "earlier", "2", "1", "7 3/4", "stop")
    lines = said.split("\n")
    assert lines[0].startswith("The last cut: cut 2 of 2 of rope half (sheet A), at 4.")
    assert "1: I cut at another mark." in lines
    assert any(line.startswith("An earlier cut: cut 1 of 2 of rope half") for line in lines)
    assert any(line.startswith("At which mark did you really cut?") for line in lines)
    assert any(line.startswith("Cut at 7 and 3 quarters instead of 8.") for line in lines)


def test_an_earlier_cut_is_typed_at_once(session: Session) -> None:
    said = Sitting(session).say("miscut cut 2 mark 7 3/4", "stop")
    assert said.startswith("Cut at 7 and 3 quarters instead of 8.\n")
    assert "can't be looked at any more" in Sitting(session).say("miscut cut 99 mark 7")


def test_what_cannot_be_is_told_and_asked_again(session: Session) -> None:
    said = Sitting(session).say("miscut 12", "4", "blah", "3 3/4", "stop")
    assert "Only 8 inches of paper lay along the ruler" in said
    assert "just as it should be" in said
    assert "blah is no length." in said
    assert "Cut at 3 and 3 quarters instead of 4." in said


def test_what_is_none_of_what_was_asked_for_is_told(session: Session) -> None:
    said = Sitting(session).say("miscut banana", "9", "stop")
    assert said.startswith('"banana" is none of these.\nThe last cut:')
    assert '"9" is none of these.' in said
    for length in ("99", "0", "-3", "3 4"):  # a length, only no possible one
        said = Sitting(session).say(f"miscut {length}", "stop")
        assert said.startswith(f"{length} is no length. Type it as 9 and a quarter")
        assert "At which mark did you really cut?" in said


def test_an_empty_line_is_asked_again_and_nothing_else(session: Session) -> None:
    for command in ("miscut", "miscut mark", "miscut ruined", "miscut 3 3/4"):
        said = Sitting(session).say(command, "", "", "stop").split("\n")
        assert said[-2] == "Left as it was."
        assert said[-5] == said[-4] == said[-3] != ""


def test_there_are_no_more_ways_than_were_read(session: Session) -> None:
    said = Sitting(session).say("miscut 3 3/4", "way 9", "show 9", "blah", "way 0", "stop")
    assert said.count("There is no way 9: there ") == 2
    assert '"blah" is none of these.' in said
    assert '"way 0" is none of these.' in said


def test_the_other_part_can_be_measured(session: Session) -> None:
    said = Sitting(session).say("miscut measure", "other", "3 3/4", "stop")
    assert "that came off" in said and "that stayed" in said
    assert "Measured: rope mat, 3 and 3 quarters" in said


def test_things_are_read_with_numbers_and_narrowed_by_typing(session: Session) -> None:
    said = Sitting(session).say("miscut ruined", "rope border", "1", "stop")
    assert "type a part of the name to hear those" in said
    assert "2: rope border (1 and a half by 12), in pocket 1-2; of sheet A; 2 alike." in said
    assert "Ruined: rope border (1 and a half by 12)." in said


def test_a_sheet_is_named_at_once(session: Session) -> None:
    said = Sitting(session).say("miscut missing b", "stop")
    assert said.startswith("Missing: sheet B (navy).\n")


def test_what_fits_nothing_is_told_and_all_is_read_again(session: Session) -> None:
    said = Sitting(session).say("miscut missing nothing", "stop")
    assert said.startswith("Nothing here has that in its name.")
    assert "1: sheet B (navy), on the stack." in said


def test_paper_that_lay_wrong_is_confirmed(session: Session) -> None:
    said = Sitting(session).say("miscut face", "yes", "stop")
    assert "Did the wrong side of rope half (6 by 12) lie up" in said
    assert "Nothing is lost: every piece still comes out." in said
    assert Sitting(session).say("miscut face", "no").endswith("Left as it was.\n")


def test_what_cannot_be_said_now_is_told_with_the_reason(session: Session) -> None:
    said = Sitting(session).say("miscut turned")
    assert "Not now: turned so, the paper is too short for these marks." in said


def test_before_any_cut(tmp_path: Path) -> None:
    said = Sitting(begun("postcard", tmp_path, 1)).say("miscut mark 3")
    assert "Nothing is cut yet" in said or "nothing is cut yet" in said


def test_the_steps_of_a_way_are_read(session: Session) -> None:
    said = Sitting(session).say("miscut 3 3/4", "show 1", "ways", "show 9", "stop")
    assert "Into the trimmer, step 1 of 2: Take miscut rope mat (4 and a quarter by 6)" in said
    assert said.count("Way 1: ") == 2


def test_a_way_is_gone_and_undo_takes_the_rescue_back(session: Session) -> None:
    before = session.state.snapshot()
    sitting = Sitting(session)
    said = sitting.say("miscut 3 3/4", "way 1")
    assert "Rescued: go on as you are told. Undo takes the rescue back." in said
    assert session.state.mendings
    said = sitting.say("undo")
    assert said.startswith("The rescue is taken back; redo says it again.\n")
    assert session.state.snapshot() == before
    sitting.say("redo")
    assert session.state.mendings


def test_what_is_to_be_fetched_is_told_first(tmp_path: Path) -> None:
    said = Sitting(begun("harbour", tmp_path, 100)).say("miscut 7 3/4", "1")
    assert "Rescued. First take boat band (12 by 4 and a quarter) out of pocket 5-6." in said


@pytest.mark.parametrize(
    "lines",
    [
        ["miscut", "stop"],
        ["miscut", "earlier", "stop", "stop"],
        ["miscut", "1", "stop"],
        ["miscut 3 3/4", "stop"],
        ["miscut 3 3/4", "show 1", "cancel"],
        ["miscut piece", "stop"],
        ["miscut ruined", "stop"],
        ["miscut missing", "1", "back"],
        ["miscut face", "stop"],
        ["miscut face", "yes", "stop"],
        ["miscut measure", "other", "stop"],
    ],
    ids=" / ".join,
)
def test_leaving_at_any_point_changes_nothing(session: Session, lines: list[str]) -> None:
    before, state = journal(session), session.state.snapshot()
    said = Sitting(session).say(*lines)
    assert said.endswith("Left as it was.\n")
    assert journal(session) == before and session.state.snapshot() == state


def test_the_end_of_the_input_ends_it_and_changes_nothing(session: Session) -> None:
    for line in ("miscut", "miscut 3 3/4", "miscut ruined", "miscut measure", "miscut 12"):
        before = journal(session)
        Sitting(session).say(line)
        assert journal(session) == before


def test_who_looks_on_is_told_so(session: Session) -> None:
    assert session.path is not None
    watching = Session.watch(session.path)
    assert "miscut" not in Sitting(watching).say("miscut 3 3/4")
    assert not session.state.mendings


def test_a_program_gets_all_of_it_as_values(session: Session) -> None:
    said = Sitting(session, as_json=True).say("miscut", "1", "3 3/4", "show 1", "way 1")
    lines = [json.loads(line) for line in said.strip().split("\n")]
    kinds = [line["kind"] for line in lines]
    for kind in ("cut", "choice", "question", "mishap", "touched", "lost", "way", "preview"):
        assert kind in kinds, kind
    choices = [line for line in lines if line["kind"] == "choice"]
    assert [line["number"] for line in choices] == [1, 2, 3, 4, 5, 6, 7]
    assert [line["possible"] for line in choices].count(False) == 1
    (way,) = (line for line in lines if line["kind"] == "way")
    assert way["way"] == "part" and way["number"] == 1
    assert len(way["missing"]) == 1 and way["cuts"] == 1 and way["scraps"] == 2
    (lost,) = (line for line in lines if line["kind"] == "lost")
    assert set(way["missing"]) < set(lost["items"])


def test_it_is_heard_and_said_in_dutch(session: Session) -> None:
    sitting = Sitting(session, language="nl")
    heard = sitting.desk._voice.words.heard("missnede snede 2 maat 7 3/4")
    assert heard == "miscut snede 2 maat 7 3/4"
    said = sitting.say(heard, "toon 1", "stop")
    assert said.startswith("Gesneden op 7 en drie kwart in plaats van 8.\n")
    assert "Manier 1: " in said and "stap 1 van" in said


def test_signs_are_words(session: Session) -> None:
    said = Sitting(session, ascii=False).say("miscut 3 3/4", "show 1", "stop")
    assert not set(said) & set("×·½¼¾~→"), said
