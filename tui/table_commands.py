"""The commands of the table, declared once."""

from __future__ import annotations

from collections.abc import Sequence

from model.language.english.table import TablePhrases
from model.language.said import Said
from model.moment import Moment
from tui.commands import EVERYWHERE, Command

COMMANDS = (
    Command("did", ("space", "enter"), "did"),
    Command("scrap", ("s",), "scrap"),
    Command("right", ("p",), "put_right"),
    Command("leave", ("l",), "leave_warning"),
    Command("find", ("f",), "find"),
    Command("not_it", ("i",), "not_it"),
    Command("defer", ("d",), "defer"),
    Command("take_up", ("t",), "take_up"),
    Command("warnings", ("w",), "warnings"),
    Command("undo", ("u",), "undo"),
    Command("redo", ("r",), "redo"),
    Command("pockets", ("k",), "pockets"),
    Command("miscut", ("m",), "miscut"),
    Command("account", ("a",), "account"),
    Command("read", ("n",), "read"),
    Command("pace", ("c",), "pace"),
    Command("skip", ("o",), "skip"),
    Command("pile_down", ("down",), "choose(1)"),
    Command("pile_up", ("up",), "choose(-1)"),
    Command("clear", ("escape", "backspace"), "clear"),
    Command("settings", ("comma",), "app.settings"),
    Command("shelf", ("h",), "shelf"),
    *EVERYWHERE,
)  # fmt: skip
SHOWN = (
    COMMANDS[0],
    Command("pocket", ("0-9",), "", False),
    *COMMANDS[1:],
)  # fmt: skip
"""The commands as help and footer name them: all digits as one."""
USUAL_KEYS = {command.id: command.shown_key() for command in COMMANDS}
"""The key of each command, as people say it, unless others are chosen."""
DIGITS = tuple(
    Command(f"pocket_{digit}", (str(digit),), f"digit('{digit}')", False) for digit in range(10)
)


def on_the_table(moment: Moment, words: TablePhrases) -> Sequence[Command]:
    """What the palette has beside these: each pocket, and each thing on the pile.

    Args:
        moment: What the table says.
        words: The words of the table.
    """
    pockets = [
        Command(
            f"pocket:{pocket.index}",
            (words.keys_or(pocket.keys),),
            f"pocket({pocket.index})",
            said=Said("", words.file_in_help(), words.file_in(pocket.label)),
        )
        for pocket in moment.pockets
    ]
    pile = [
        Command(
            f"take:{line.id}",
            (),
            f"take({line.id!r})",
            said=Said("", words.take_from_pile_help(), words.take_from_pile(line.text)),
        )
        for line in moment.pile
    ]
    return (*pockets, *pile)
