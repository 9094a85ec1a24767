"""Plain lines: a run by empty lines, by hand-written scripts, with mistakes of each kind."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

import pytest

from model.account import account_of
from model.folders import demo_kit
from model.language.english.ear import spoken as spoken_as
from model.language.english.words import English
from model.moment import moment_of
from model.pockets import pocket_said
from model.reading import load_kit
from model.session import Session
from model.settings import Settings
from tests.plain_lines import ROOT, Sitting, session_in, spoken
from tests.screens import begun

DEMOS = ("postcard", "harbour", "cards")


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
    assert "Warning:" not in done.stdout


def test_every_step_says_what_the_table_says(tmp_path: Path) -> None:
    sitting = Sitting(begun("harbour", tmp_path), ascii=False)
    session = sitting.session
    manner = Settings().manner(session.plan.kit.unit)
    steps = 0
    while not (moment := moment_of(session, manner)).over:
        said = sitting.say("again")
        assert spoken_as(moment.sentence) in said
        figure = moment.figure
        if figure is not None and figure.tone == "cut":
            assert spoken_as(figure.text.lstrip("~")) in said
        assert all(f"Caution: {spoken_as(caution)}" in said for caution in moment.cautions)
        assert all(spoken_as(note) in said for note in moment.more)
        sitting.say("done")
        steps += 1
    assert steps > len(session.plan.steps)


def test_a_cut_tells_its_mark_in_words_and_where_it_goes(postcard: Sitting) -> None:
    postcard.until("umbrella border (1½ × 8) comes off")
    # By hand: the umbrellas are 8 x 8, and 1 1/2 comes off at 8 - 1 1/2.
    said = postcard.say("again").split("\n")[0]
    assert said.startswith("Cut 1 of 2, mark 6 and a half inches. ")
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
    assert "Warning: Wrong pocket" in said


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
    assert sitting.say("warnings").startswith("Warning 1: Wrong pocket")
    sitting.say("right 1")
    assert "No warning is open." in sitting.say("warnings")


def test_a_wanted_piece_called_a_scrap(postcard: Sitting) -> None:
    postcard.until("File umbrella border")
    assert "Warning: Not a scrap" in postcard.say("scrap")
    postcard.say("right")
    assert not postcard.session.state.warnings


def test_a_scrap_filed_and_a_scrap_too_many(postcard: Sitting) -> None:
    postcard.until("with the scraps")
    assert "Warning: Scrap in a pocket" in postcard.say("1")
    postcard.say("right")
    assert postcard.session.state.scraps == 1
    postcard.until("Take sheet puddle")
    assert "Warning: A scrap that this kit does not expect" in postcard.say("scrap")
    assert "it was no scrap" in postcard.say("right")


def test_a_strip_filed_too_early_and_a_piece_filed_twice(postcard: Sitting) -> None:
    postcard.until("Take umbrella block")
    assert "Warning: Too early" in postcard.say("1")
    postcard.say("right")
    postcard.until("Take sheet mustard")
    assert "Warning: Filed twice" in postcard.say("1")
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
    said = sitting.say("count 1", "yes", "1", "yes", "no", "no")
    assert "Missing: umbrella border" in said
    sitting.say("right")
    assert "Counted, and right: 1-2." in sitting.say("count 1-2", "y", "y", "2", "no")
    assert sitting.session.state.checked


def test_a_count_that_is_stopped_says_nothing_of_the_pocket(postcard: Sitting) -> None:
    postcard.until("Take sheet mustard")
    before = postcard.session.said
    assert "Left as it was." in postcard.say("count 1", "no", "stop")
    assert postcard.session.said == before


def test_something_else_that_was_in_the_pocket_is_put_where_it_belongs(tmp_path: Path) -> None:
    sitting = Sitting(begun("harbour", tmp_path))
    sitting.until("Take sheet C")
    # The ribbon was filed in 1-2 at the opening; a count finds it in 9-10.
    answers = ["yes"] * len(sitting_lines(sitting, "9")) + ["striped ribbon", "1", "no", "yes"]
    said = sitting.say("count 9", *answers)
    assert "was found in pocket 9-10. Put it into 1-2." in said
    ribbons = sitting.session.plan.copies["striped ribbon"]
    assert not any(sitting.session.state.where(id) == 4 for id in ribbons)
    assert "striped ribbon" in sitting.say("pocket 1")


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
    assert "1: umbrella border (1 and a half by 8), pocket 1-2" in found
    postcard.say("take 1")
    item = postcard.desk.look().due.item
    assert item is not None and postcard.session.plan.items[item].name == "umbrella border"
    postcard.say("1")
    assert postcard.session.state.where(item) == 0


def test_what_is_found_but_not_made_is_not_taken(postcard: Sitting) -> None:
    postcard.say("find story card")
    assert (
        postcard.say("take 1").strip() == "That is not made yet. Type again to hear what is next."
    )


def test_a_sheet_is_put_off_and_taken_up(postcard: Sitting) -> None:
    postcard.until("Take sheet umbrellas")
    assert "Take sheet mustard" in postcard.say("later")
    assert "Take sheet umbrellas" in postcard.say("take up Umbrellas")
    assert postcard.say("put off nothing").strip() == "Say which sheet, such as later B."


def test_reading_out_says_no_step_again(postcard: Sitting) -> None:
    postcard.until("File umbrella border")
    for line in ("where", "pockets", "pocket 1", "pile", "account", "notes", "help", "warnings"):
        said = postcard.say(line)
        assert said and "File umbrella border (1 and a half by 8) in pocket" not in said.replace(
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


def test_the_example_of_the_readme_is_a_real_run(postcard: Sitting) -> None:
    readme = (ROOT / "README.md").read_text("utf-8")
    start = readme.index("```text\n", readme.index("### By plain lines")) + len("```text\n")
    block = readme[start : readme.index("```", start)].replace("\n  ", " ")
    first, *exchanges = block.split("\n>")
    postcard.until("Hold it at 5 and cut")
    assert first in postcard.say("again")
    assert len(exchanges) == 3
    for exchange in exchanges:
        typed, _, answer = exchange.partition("\n")
        said = postcard.say(typed.strip())
        assert said == f"{answer.rstrip()}\n"


def test_every_command_of_the_help_is_known(postcard: Sitting) -> None:
    words = English(postcard.session.plan, Settings().manner(postcard.session.plan.kit.unit))
    named = [
        part for line in words.lines_help(all=True) for part in line.partition(":")[0].split(", ")
    ]
    assert len(named) > 15
    for command_ in named[4:]:
        if command_ != "quit":
            assert "is not known here" not in postcard.say(command_), command_
