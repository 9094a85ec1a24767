"""The commands of the table: keys, names and help, declared once."""

from __future__ import annotations

from collections.abc import Sequence

from model.moment import Moment
from tui.commands import EVERYWHERE, Command

COMMANDS = (
    Command(
        "did", ("space", "enter"), "did", "",
        "Do as the sentence says, and say that it is done. One key, or a foot pedal, carries a "
        "run in which nothing goes wrong.", title="It is done",
    ),
    Command(
        "scrap", ("s",), "scrap", "scrap",
        "It went to the scraps; with nothing in hand, a scrap too many turned up.",
        title="It is a scrap",
    ),
    Command(
        "right", ("p",), "put_right", "", "Put right what the warning names.",
        title="Put right what the warning names",
    ),
    Command(
        "leave", ("l",), "leave_warning", "", "Leave the warning for now; it stays listed.",
        title="Leave the warning for now",
    ),
    Command(
        "find", ("f",), "find", "find",
        "What is this piece, and where does it go? Type its size, colour, or words on it.",
        title="Find a piece",
    ),
    Command(
        "not_it", ("i",), "not_it", "",
        "What is in your hand is not what is asked for: find out what it is.",
        title="This is not it",
    ),
    Command(
        "defer", ("d",), "defer", "", "Do this sheet last.", title="Do this sheet last",
    ),
    Command(
        "take_up", ("t",), "take_up", "", "Take up a sheet that was put off.",
        title="Take up a sheet that was put off",
    ),
    Command(
        "warnings", ("w",), "warnings", "", "All warnings that stand.", title="Warnings",
    ),
    Command(
        "undo", ("u",), "undo", "undo", "Take back what was said last.", title="Undo",
    ),
    Command("redo", ("r",), "redo", "", "Say again what was taken back.", title="Redo"),
    Command(
        "pockets", ("k",), "pockets", "pockets", "Every pocket with every piece.",
        title="Pockets",
    ),
    Command(
        "account", ("a",), "account", "scraps", "Scraps, sheets and warnings: the account.",
        title="Scraps and account",
    ),
    Command("read", ("n",), "read", "notes", "All that is said of this step, notes and cautions "
            "in full.", title="Notes on this step"),
    Command(
        "pace", ("c",), "pace", "", "File after each cut, or cut a whole load first.",
        title="File after each cut, or after each load",
    ),
    Command(
        "skip", ("o",), "skip", "", "Leave out an optional step.",
        title="Leave out this step",
    ),
    Command(
        "pile_down", ("down",), "choose(1)", "", "Take the next thing of the pile in hand.",
        title="Take the next thing of the pile in hand",
    ),
    Command(
        "pile_up", ("up",), "choose(-1)", "", "Take the thing before it in hand.",
        title="Take the thing of the pile before it in hand",
    ),
    Command(
        "clear", ("escape", "backspace"), "clear", "",
        "Forget a page number half typed; else put the cautions away until the next sitting.",
        title="Put the cautions away until the next sitting",
    ),
    Command(
        "settings", ("comma",), "app.settings", "", "Settings: units, ruler, hand, looks.",
        title="Settings",
    ),
    Command(
        "shelf", ("h",), "shelf", "", "Put this kit away for now, and go to the shelf.",
        title="To the shelf",
    ),
    *EVERYWHERE,
)  # fmt: skip
SHOWN = (
    COMMANDS[0],
    Command(
        "pocket", ("0-9",), "", "pocket",
        "What is in hand went into the pocket of that page; at a cut, what comes off did.", False,
    ),
    *COMMANDS[1:],
)  # fmt: skip
"""The commands as help and footer name them: all digits as one."""
USUAL_KEYS = {command.id: command.shown_key() for command in COMMANDS}
"""The key of each command, as people say it, unless others are chosen."""
DIGITS = tuple(
    Command(
        f"pocket_{digit}",
        (str(digit),),
        f"digit('{digit}')",
        "",
        "It went into the pocket of that page.",
        False,
    )
    for digit in range(10)
)


def on_the_table(moment: Moment) -> Sequence[Command]:
    """What the palette has beside these: each pocket, and each thing on the pile."""
    pockets = [
        Command(
            f"pocket:{pocket.index}", (" or ".join(pocket.keys),), f"pocket({pocket.index})", "",
            "What is in hand went into it.",
            title=f"File in pocket {pocket.label}",
        )
        for pocket in moment.pockets
    ]  # fmt: skip
    pile = [
        Command(
            f"take:{line.id}", (), f"take({line.id!r})", "",
            "Take this thing of the pile in hand.", title=f"Take from the pile: {line.text}",
        )
        for line in moment.pile
    ]  # fmt: skip
    return (*pockets, *pile)
