"""Plain lines as a conversation: lessons, settings, counting, moving, what to type next."""

from __future__ import annotations

from pathlib import Path

import pytest

from model.lessons import Lesson
from model.settings import Settings, read_settings
from model.spot import Spot
from tests.plain_lines import Sitting, session_in, spoken
from tests.screens import begun


@pytest.fixture
def postcard(tmp_path: Path) -> Sitting:
    return Sitting(begun("postcard", tmp_path))


@pytest.fixture
def harbour(tmp_path: Path) -> Sitting:
    """All is filed up to sheet J."""
    sitting = Sitting(begun("harbour", tmp_path))
    sitting.until("Take sheet J")
    return sitting


# Lessons


def test_all_lessons_are_said_once_in_a_run_that_does_what_they_say(tmp_path: Path) -> None:
    kept = tmp_path / "settings.toml"
    sitting = Sitting(begun("postcard", tmp_path), teach=True, settings=kept)
    said, heard = sitting.says.getvalue(), ""
    todo = {"Type undo now": ("undo", "redo"), "type scrap": ("scrap", "right"),
            "Type find": ("find 3 by 8",)}  # fmt: skip
    for _ in range(40):
        lines = next((lines for sign, lines in todo.items() if sign in said), ("",))
        heard += said
        said = "".join(sitting.say(line) for line in lines)
    lessons = [line for line in heard.split("\n") if line.startswith("Lesson ")]
    assert [line.split(":")[0] for line in lessons] == [f"Lesson {n} of 8" for n in range(1, 9)]
    assert len({line.partition(": ")[2] for line in lessons}) == len(Lesson)
    assert "That is all you need" in lessons[-1]
    assert read_settings(kept)[0].taught


def test_lessons_wait_for_nobody_and_are_said_no_more(tmp_path: Path) -> None:
    kept = tmp_path / "settings.toml"
    sitting = Sitting(begun("postcard", tmp_path), teach=True, settings=kept)
    assert "No lessons ends them." in sitting.says.getvalue()
    assert "No more lessons" in sitting.say("no lessons")
    assert read_settings(kept)[0].taught
    for _ in range(10):
        assert "Lesson" not in sitting.say("")
    assert "Lesson 1 of 8" in sitting.say("lessons")


def test_a_small_kit_teaches_once_and_a_large_one_never(tmp_path: Path) -> None:
    assert "Lesson" not in spoken(tmp_path, "\n\n", "harbour").stdout
    assert "Lesson 1 of 8" in spoken(tmp_path, "no lessons\n", "postcard").stdout
    assert "Lesson" not in spoken(tmp_path, "\n\n", "postcard").stdout
    # A program is taught nothing, and going on with a session neither.
    other = tmp_path / "other"
    assert "lesson" not in spoken(other, "\n\n", "postcard", "--json").stdout
    assert "Lesson" not in spoken(other, "\n\n", str(session_in(other))).stdout


# Settings


def test_settings_are_read_changed_and_kept(tmp_path: Path) -> None:
    kept = tmp_path / "settings.toml"
    sitting = Sitting(begun("postcard", tmp_path), settings=kept, ascii=False)
    assert "Lengths in: as the kit." in sitting.say("settings")
    sitting.until("Hold it at 5 and cut")
    assert "Lengths in: mm." in sitting.say("set units mm")
    assert "mark 127 millimetres" in sitting.say("again")
    assert "left hand: yes" in sitting.say("set left handed yes")
    assert "an eighth of an inch" in sitting.say("set ruler an eighth of an inch")
    sitting.say("set tearing ruler 25 millimetres")
    now = read_settings(kept)[0]
    assert now == Settings(units="mm", left_handed=True, ruler="1/8 in", tearing_ruler="25 mm")


@pytest.mark.parametrize(
    ("line", "told"),
    [
        ("set", "Type set, a setting and its value"),
        ("set units", "Type set, a setting and its value"),
        ("set colour red", "Type set, a setting and its value"),
        ("set units feet", "Not changed: must be one of kit, in, cm, mm."),
        ("set left handed perhaps", "Set left handed may be: yes or no."),
        ("set tearing ruler long", "Set tearing ruler may be: a length"),
    ],
)
def test_a_setting_that_can_not_be_is_told_with_what_can(
    postcard: Sitting, line: str, told: str
) -> None:
    before = postcard.choices.settings
    said = postcard.say(line)
    assert told in said and said.count("\n") == 1
    assert postcard.choices.settings == before


def test_ascii_for_this_once_is_not_kept(tmp_path: Path) -> None:
    spoken(tmp_path, "set units mm\n", "harbour", "--ascii")
    kept = read_settings(tmp_path / "settings.toml")[0]
    assert kept == Settings(units="mm")


# Counting


def rows(sitting: Sitting, pocket: str, **there: str) -> list[str]:
    """The answers to a count: yes to each row but for those named."""
    answers: list[str] = []
    while True:
        asked = sitting.say(f"count {pocket}", *answers, "stop").split("\n")
        question = next(line for line in asked[len(answers) + 1 :] if line.endswith("."))
        if question.startswith("Is anything else"):
            return answers
        names = [name for name in there if name.replace("_", " ") in question]
        answers.append(there[names[0]] if names else "yes")


def test_a_swap_is_proposed_with_its_reason_and_made_with_one_answer(harbour: Sitting) -> None:
    state = harbour.session.state
    assert not state.checked
    answers = rows(harbour, "3", red_panel="no")
    assert "no" in answers
    said = harbour.say("count 3", *answers, "red mat", "1", "no", "yes")
    assert "most likely the two were exchanged" in said
    assert "Say yes (they were exchanged: each is in its own pocket now)" in said
    assert said.endswith("Counted, and right: 3-4.\n")
    assert list(state.checked) == [1] and not state.warnings
    assert "Pocket 3-4 is counted, and right." in harbour.say("pocket 3")
    moved = [entry.event.did for entry in state.last_said()]
    assert moved == ["checked"]
    harbour.say("undo")
    assert not state.checked
    assert [entry.event.did for entry in state.last_said()] == ["moved"] * 4  # one answer
    harbour.say("undo")
    assert state.last_said()[-1].event.did != "moved"


def test_what_nobody_looked_for_is_not_counted_as_right(postcard: Sitting) -> None:
    postcard.until("Take sheet mustard")
    said = postcard.say("count 1", "yes", "1", "yes", "no", "later")
    assert said.endswith("Something is still to be looked for. Type count and its page to count "
                         "again.\n")  # fmt: skip
    assert not postcard.session.state.checked
    assert "Look " in postcard.say("count 1", "yes", "1", "yes", "no", "later")
    assert "Counted, and right: 1-2." in postcard.say("count 1", "all", "no")
    assert list(postcard.session.state.checked) == [0]


def test_a_count_may_go_back_a_row(postcard: Sitting) -> None:
    postcard.until("Take sheet mustard")
    said = postcard.say("count 1", "no", "back", "yes", "2", "yes", "no")
    assert said.endswith("Counted, and right: 1-2.\n")
    assert "Left as it was." in postcard.say("count 1", "back", "stop")


def test_all_pockets_are_counted_before_anything_is_looked_for(tmp_path: Path) -> None:
    sitting = Sitting(begun("harbour", tmp_path))
    sitting.until("Start the stack")
    said = sitting.say("count all", "all", "no", "all", "no", "all", "no", "all", "no", "all", "no")
    assert said.count("Empty pocket") == 5
    assert said.endswith("Counted, and right: 1-2, 3-4, 5-6, 7-8 and 9-10.\n")
    assert sorted(sitting.session.state.checked) == [0, 1, 2, 3, 4]


def test_what_is_found_again_is_in_its_pocket(postcard: Sitting) -> None:
    postcard.until("Take sheet mustard")
    # There are no scraps yet: where it is not on the table either, it is missing.
    postcard.say("count 1", "0", "2", "2", "no", *["no"] * 2)  # on the table
    assert len(postcard.session.state.warnings) == 2
    postcard.say("leave")
    postcard.say("leave")
    assert "1: rain boot" in postcard.say("find rain boot")
    assert "is found, and in its pocket" in postcard.say("take 1")
    assert len(postcard.session.state.warnings) == 1


def test_a_caution_is_back_in_the_next_sitting_and_not_before(tmp_path: Path) -> None:
    lock, cuts = "Caution: Lock the blade", "\n" * 12
    assert spoken(tmp_path, f"no lessons\n{cuts}", "postcard").stdout.count(lock) == 1
    again = spoken(tmp_path, "\n" * 4, "postcard", "--resume").stdout
    assert again.count(lock) == 1
    assert lock in spoken(tmp_path, "again\n", "postcard", "--resume").stdout


def test_cautions_are_put_away_until_the_next_sitting(tmp_path: Path) -> None:
    sitting = Sitting(begun("postcard", tmp_path))
    sitting.until("Take sheet umbrellas")
    assert "Caution: Lock" in sitting.say("again")
    assert "until the next sitting" in sitting.say("no cautions")
    while not sitting.desk.look().over:
        assert "Caution: Lock" not in sitting.say("again")
        sitting.say("")


# Moving, filing, putting off


def test_what_was_filed_long_ago_is_moved_by_its_number(harbour: Sitting) -> None:
    listed = harbour.say("pocket 1").split("\n")
    numbers = [line.partition(":")[0] for line in listed if line.partition(":")[0].isdigit()]
    assert numbers == [str(number) for number in range(1, len(numbers) + 1)]
    assert any(line.startswith("0 of ") for line in listed)  # what is not there has none
    line = next(line for line in listed if "red mat" in line)
    number = line.partition(":")[0]
    assert number.isdigit()
    said = harbour.say(f"take {number}")
    assert "In your hand: red mat" in said and "until now it was in pocket 1-2" in said
    item = next(i for i in harbour.session.state.lying_in(0) if "red mat" in i or
                harbour.session.plan.items[i].name == "red mat")  # fmt: skip
    assert "Warning: Wrong pocket" in harbour.say("3")
    assert harbour.session.state.where(item) == 1
    assert harbour.say("right").startswith("Put right: it is in 1-2 now.")
    assert harbour.session.state.where(item) == 0


def test_the_pile_is_filed_at_once_and_each_thing_is_told(harbour: Sitting) -> None:
    assert "Nothing on the pile can be filed" in harbour.say("file all")
    harbour.say("pace")
    harbour.until("File")
    to_file = sum(harbour.session.state.belongs(i) >= 0 for i in harbour.session.state.pile)
    said = harbour.say("file all").split("\n")
    assert sum(" is in " in line for line in said) == to_file > 1
    assert not any(harbour.session.state.belongs(i) >= 0 for i in harbour.session.state.pile)


def test_of_several_sheets_that_were_put_off_one_is_named(postcard: Sitting) -> None:
    postcard.until("Take sheet umbrellas")
    assert "That sheet is not put off. Type where" in postcard.say("take up")
    postcard.say("later")
    assert "Take sheet umbrellas" in postcard.say("take up")
    postcard.say("later")
    postcard.say("later")
    assert postcard.say("take up") == "Say which sheet: take up umbrellas or take up mustard.\n"


def test_what_is_not_it_is_looked_for(harbour: Sitting) -> None:
    said = harbour.say("not it", "red mat")
    assert "Say what is in your hand" in said and "1: red mat" in said
    assert "Left as it was." in harbour.say("not it", "no")
    assert "1: red mat" in harbour.say("not it red mat")


def test_the_nearest_are_few_enough_to_be_heard(harbour: Sitting) -> None:
    said = harbour.say("find 3 by 9 and a half puce").split("\n")
    assert said[0].startswith("None is just so")
    assert sum(line[:1].isdigit() for line in said) == 4


# What to type


@pytest.mark.parametrize(
    "line",
    ["what", "99", "count x", "take 9", "right 7", "right", "later Z", "take up Z", "skip", "redo",
     "set x", "pocket 77", "page 0", "file all"],
)  # fmt: skip
def test_an_error_is_one_line_that_says_what_to_type(postcard: Sitting, line: str) -> None:
    said = postcard.say(line)
    assert said.count("\n") == 1
    assert "Type " in said or "Say " in said or said == "No warning is open.\n"


def test_a_warning_that_waits_says_what_can_be_answered(postcard: Sitting) -> None:
    postcard.until("File umbrella border")
    postcard.say("scrap")
    said = postcard.say("")
    assert said == "Answer the warning first. Say right: it is in 1-2 now. Or leave, for later.\n"


def test_a_path_with_blanks_can_be_typed_as_it_is_said(tmp_path: Path) -> None:
    home = tmp_path / "my  kits"
    last = spoken(home, "\n", "postcard").stdout.strip().split("\n")[-1]
    assert last.endswith(f"Go on with: dryfit lines '{session_in(home)}'")
    assert "All is saved." in last


def test_help_is_short_and_help_all_is_complete(postcard: Sitting) -> None:
    short, whole = postcard.say("help").split("\n"), postcard.say("help all").split("\n")
    assert len(short) < 8 < len(whole)
    assert "help all" in " ".join(short)


def test_a_piece_among_the_scraps_is_taken_out_again(postcard: Sitting) -> None:
    postcard.until("File umbrella border")
    item = postcard.desk.look().due.item
    assert item is not None
    postcard.say("scrap")
    postcard.say("leave")
    assert postcard.session.state.where(item) == Spot.SCRAPS
    postcard.say("find umbrella border")
    postcard.say("take 1")
    postcard.say("1")
    assert sum(id in postcard.session.state.lying_in(0) for id in
               postcard.session.plan.copies["umbrella border"]) == 1  # fmt: skip
