"""The commands of the table: keys, names and help, declared once."""

from __future__ import annotations

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
    Command("pile_down", ("down",), "choose(1)", "", "Choose another thing on the pile.", False),
    Command("pile_up", ("up",), "choose(-1)", "", "Choose another thing on the pile.", False),
    Command(
        "clear", ("escape", "backspace"), "clear", "", "Forget a page number half typed.", False,
    ),
    Command(
        "settings", ("comma",), "app.settings", "", "Units, ruler, looks.", title="Settings",
    ),
    Command(
        "shelf", ("h",), "shelf", "", "Put this kit away for now, and go to the shelf.",
        title="To the shelf",
    ),
    *EVERYWHERE,
)  # fmt: skip
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
