"""All that the keys of the screens do can be done by plain lines, or a reason says why not."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path

import pytest

import tui.screens.account
import tui.screens.count
import tui.screens.find
import tui.screens.miscut
import tui.screens.miscut_pick
import tui.screens.miscut_say
import tui.screens.miscut_ways
import tui.screens.pockets
import tui.screens.settings
import tui.screens.warnings
from tests.plain_lines import Sitting
from tests.screens import begun
from tui import table_commands
from tui.commands import EVERYWHERE, Command

LINES = {
    "table": {
        "did": "", "scrap": "scrap", "right": "right", "leave": "leave", "find": "find",
        "not_it": "not it", "defer": "later", "take_up": "take up", "warnings": "warnings",
        "undo": "undo", "redo": "redo", "pockets": "pockets", "account": "account",
        "read": "notes", "pace": "pace", "skip": "skip", "pile_down": "pile",
        "miscut": "miscut", "pile_up": "take 1", "clear": "no cautions", "settings": "settings",
        "pocket": "1",
    },
    "everywhere": {"help": "help all", "quit": "quit"},
    "pockets": {"move": "take 1", "count": "count 1", "count_all": "count all", "undo": "undo",
                "next_pocket": "pocket 1", "last_pocket": "pocket 1"},
    "count": {"tick": "yes", "fewer": "1", "more": "1", "all": "all", "other": "rain boot",
              "counted": "no", "back": "stop"},
    "warnings": {"right": "right 1", "leave": "leave 1"},
    "account": {"save": "save report"},
    "find": {"take": "take 1"},
    "settings": {"change": "set units mm"},
    "miscut": {"take": "miscut turned", "other": "miscut cut 1 turned"},
    "pick": {"take": "miscut missing nothing"},
    "say": {"take": "miscut 1", "other": "miscut measure 1"},
    "ways": {"take": "miscut 1"},
}  # fmt: skip
"""What is typed for each command of a screen. Of a count it is typed as an answer."""
REASONS = {
    "table.shelf": "quit ends; dryfit sessions and dryfit kits list what is at hand",
    "pockets.back": "a list that is read out is over", "warnings.back": "as pockets.back",
    "account.back": "as pockets.back", "find.back": "as pockets.back",
    "settings.back": "as pockets.back", "miscut.back": "as pockets.back",
    "pick.back": "as pockets.back", "say.back": "as pockets.back", "ways.back": "as pockets.back",
    "pick.up": "every one has its number", "pick.down": "every one has its number",
    "pick.help": "help all tells it", "say.help": "help all tells it",
    "ways.up": "every way has its number",
    "ways.down": "every way has its number", "ways.next_step": "show 1 reads all steps of a way",
    "ways.last_step": "as ways.next_step",
    "find.up": "every match has its number", "find.down": "every match has its number",
    "find.help": "help all tells it", "settings.keys": "there are no keys",
}  # fmt: skip
"""Why a command of a screen has none."""
SCREENS: dict[str, Iterable[Command]] = {
    "table": table_commands.SHOWN,
    "everywhere": EVERYWHERE,
    "pockets": tui.screens.pockets.COMMANDS,
    "count": tui.screens.count.COMMANDS,
    "warnings": tui.screens.warnings.COMMANDS,
    "account": tui.screens.account.COMMANDS,
    "find": tui.screens.find.COMMANDS,
    "settings": tui.screens.settings.COMMANDS,
    "miscut": tui.screens.miscut.COMMANDS,
    "pick": tui.screens.miscut_pick.COMMANDS,
    "say": tui.screens.miscut_say.COMMANDS,
    "ways": tui.screens.miscut_ways.COMMANDS,
}


@pytest.mark.parametrize("place", SCREENS)
def test_each_command_of_a_screen_has_a_line_or_a_reason(place: str) -> None:
    own = [c.id for c in SCREENS[place] if place == "everywhere" or c not in EVERYWHERE]
    reasons = [name.partition(".")[2] for name in REASONS if name.startswith(f"{place}.")]
    assert sorted(own) == sorted([*LINES[place], *reasons])
    assert all(REASONS.values())


@pytest.mark.parametrize(
    "line",
    sorted({line for place, of in LINES.items() if place != "count" for line in of.values()}),
)
def test_each_of_these_lines_is_known(line: str, tmp_path: Path) -> None:
    sitting = Sitting(begun("postcard", tmp_path, 8))
    assert "is not known here" in sitting.say("no such command")
    assert "is not known here" not in sitting.say(line)


@pytest.mark.parametrize("answer", sorted(set(LINES["count"].values()) - {"rain boot", "no"}))
def test_each_answer_of_a_count_is_taken(answer: str, tmp_path: Path) -> None:
    sitting = Sitting(begun("postcard", tmp_path, 8))
    asked = sitting.say("count 1", "perhaps", "stop")
    question = asked.split("\n")[1]
    assert asked.count(question) == 2  # what is no answer is asked again
    then = () if answer == "stop" else ("stop",)
    assert sitting.say("count 1", answer, *then).count(question) == 1


def test_something_else_in_a_pocket_is_found_while_it_is_counted(tmp_path: Path) -> None:
    sitting = Sitting(begun("postcard", tmp_path, 8))
    assert "Which one is it?" in sitting.say("count 1", "all", "rain boot", "no", "no")
