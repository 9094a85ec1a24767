"""The commands of the table, and those of every screen."""

from __future__ import annotations

from model.language.said import Said

COMMANDS = {
    "everywhere.help": Said(
        "help",
        "What can be done here.",
        "Help",
    ),
    "everywhere.quit": Said(
        "quit",
        "Leave dryfit; everything said so far is kept.",
    ),
    "everywhere.palette": Said(
        "",
        "All commands by name.",
        "Palette",
    ),
    "table.did": Said(
        "",
        "Do as the sentence says, and say that it is done. One key, or a foot pedal, carries a"
        " run in which nothing goes wrong.",
        "It is done",
    ),
    "table.pocket": Said(
        "pocket",
        "What is in hand went into the pocket of that page; at a cut, what comes off did.",
    ),
    "table.scrap": Said(
        "scrap",
        "It went to the scraps; with nothing in hand, a scrap too many turned up.",
        "It is a scrap",
    ),
    "table.right": Said(
        "",
        "Put right what the warning names.",
        "Put right what the warning names",
    ),
    "table.leave": Said(
        "",
        "Leave the warning for now; it stays listed.",
        "Leave the warning for now",
    ),
    "table.find": Said(
        "find",
        "What is this piece, and where does it go? Type its size, colour, or words on it.",
        "Find a piece",
    ),
    "table.not_it": Said(
        "",
        "What is in your hand is not what is asked for: find out what it is.",
        "This is not it",
    ),
    "table.miscut": Said(
        "miscut",
        "Something went wrong at the trimmer, now or earlier: say what, and see what can be saved."
        " Looking costs nothing.",
        "Miscut",
    ),
    "table.defer": Said(
        "",
        "Do this sheet last.",
        "Do this sheet last",
    ),
    "table.take_up": Said(
        "",
        "Take up a sheet that was put off.",
        "Take up a sheet that was put off",
    ),
    "table.warnings": Said(
        "",
        "All warnings that stand.",
        "Warnings",
    ),
    "table.undo": Said(
        "undo",
        "Take back what was said last.",
        "Undo",
    ),
    "table.redo": Said(
        "",
        "Say again what was taken back.",
        "Redo",
    ),
    "table.pockets": Said(
        "pockets",
        "Every pocket with every piece.",
        "Pockets",
    ),
    "table.account": Said(
        "account",
        "Scraps, sheets and warnings: the account.",
        "Scraps and account",
    ),
    "table.read": Said(
        "notes",
        "All that is said of this step, notes and cautions in full.",
        "Notes on this step",
    ),
    "table.pace": Said(
        "",
        "File after each cut, or cut a whole load first.",
        "File after each cut, or after each load",
    ),
    "table.skip": Said(
        "",
        "Leave out an optional step.",
        "Leave out this step",
    ),
    "table.pile_down": Said(
        "",
        "Take the next thing of the pile in hand.",
        "Take the next thing of the pile in hand",
    ),
    "table.pile_up": Said(
        "",
        "Take the thing before it in hand.",
        "Take the thing of the pile before it in hand",
    ),
    "table.clear": Said(
        "",
        "Forget a page number half typed; else put the cautions away until the next sitting.",
        "Put the cautions away until the next sitting",
    ),
    "table.settings": Said(
        "",
        "Settings: units, ruler, hand, looks.",
        "Settings",
    ),
    "table.shelf": Said(
        "",
        "Put this kit away for now, and go to the shelf.",
        "To the shelf",
    ),
}
