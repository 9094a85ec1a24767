"""The commands of all screens but the table, and what each of these screens is for."""

from __future__ import annotations

from model.language.said import Said

COMMANDS = {
    "shelf.open": Said(
        "open",
        "Go on with the session, or start the kit.",
    ),
    "shelf.path": Said(
        "file",
        "Open a kit or a session by its path.",
        "Open a file by its path",
    ),
    "shelf.again": Said(
        "refresh",
        "Look into the folders again.",
    ),
    "shelf.settings": Said(
        "settings",
        "Settings: units, ruler, hand, looks.",
    ),
    "pockets.back": Said(
        "back",
        "Back to the table.",
    ),
    "pockets.move": Said(
        "move a piece",
        "The piece of this row is really in another pocket: press that pocket's key next.",
    ),
    "pockets.count": Said(
        "count",
        "Count this pocket: tick what is really there.",
    ),
    "pockets.count_all": Said(
        "",
        "Count all pockets, one after another.",
        "Count all pockets",
    ),
    "pockets.next_pocket": Said(
        "next pocket",
        "To the next pocket.",
    ),
    "pockets.last_pocket": Said(
        "",
        "To the pocket before.",
        "Last pocket",
    ),
    "pockets.undo": Said(
        "",
        "Take back what was said last.",
        "Undo",
    ),
    "account.back": Said(
        "back",
        "Back to the table.",
    ),
    "account.save": Said(
        "save report",
        "Save the account as a text file.",
    ),
    "warnings.back": Said(
        "back",
        "Back to the table.",
        "Back",
    ),
    "warnings.right": Said(
        "put right",
        "Put right what this warning names.",
        "Put right",
    ),
    "warnings.leave": Said(
        "leave",
        "Leave this warning for later.",
        "Leave the warning",
    ),
    "count.tick": Said(
        "it is there",
        "All of this row are there, or none.",
    ),
    "count.fewer": Said(
        "fewer",
        "One fewer of this row is there.",
    ),
    "count.more": Said(
        "",
        "One more of this row is there.",
        "More",
    ),
    "count.all": Said(
        "all are there",
        "Everything listed is there.",
    ),
    "count.other": Said(
        "something else",
        "Something else is in this pocket: find it.",
    ),
    "count.counted": Said(
        "counted",
        "That is all that is in this pocket.",
    ),
    "count.back": Said(
        "back",
        "Back, without counting.",
    ),
    "find.take": Said(
        "take it in hand",
        "What is found is in your hand.",
    ),
    "find.up": Said(
        "",
        "To the match above.",
        "Up",
    ),
    "find.down": Said(
        "next",
        "To the match below.",
    ),
    "find.back": Said(
        "back",
        "Back.",
    ),
    "miscut.take": Said(
        "that is it",
        "That is what happened.",
        "That is what happened",
    ),
    "miscut.other": Said(
        "another cut",
        "It was another cut: choose which one.",
        "Another cut",
    ),
    "miscut.back": Said(
        "back",
        "Back to the table; nothing is changed.",
        "Back",
    ),
    "pick.take": Said(
        "this one",
        "The one that is marked is meant.",
        "This one",
    ),
    "pick.up": Said(
        "",
        "To the one above.",
        "Up",
    ),
    "pick.down": Said(
        "next",
        "To the one below.",
    ),
    "pick.back": Said(
        "back",
        "Back; nothing is changed.",
    ),
    "pick.help": Said("help", "What can be typed here."),
    "say.take": Said(
        "it was so",
        "It was so: show what can be saved.",
        "It was so",
    ),
    "say.other": Said(
        "",
        "Measure the other thing of this cut.",
        "Measure the other thing",
    ),
    "say.back": Said(
        "back",
        "Back; nothing is changed.",
    ),
    "say.help": Said("help", "What can be typed here."),
    "ways.take": Said(
        "go this way",
        "Go the way that is marked: the table follows it from then on. Undo takes it back.",
        "Go this way",
    ),
    "ways.next_step": Said(
        "show it",
        "Show what you would cut, step by step.",
        "Show the next step",
    ),
    "ways.last_step": Said(
        "",
        "The step before; before the first one, all ways.",
        "Show the step before",
    ),
    "ways.down": Said(
        "next",
        "To the next way.",
        "Next way",
    ),
    "ways.up": Said(
        "",
        "To the way before.",
        "Way before",
    ),
    "ways.back": Said(
        "back",
        "Back; nothing is changed.",
    ),
    "settings.change": Said(
        "change",
        "Change the setting of this row.",
    ),
    "settings.keys": Said(
        "keys",
        "All commands with their keys.",
    ),
    "settings.back": Said(
        "back",
        "Back.",
    ),
    "keys.change": Said(
        "change",
        "Change the key of this row: press the new one next.",
    ),
    "keys.add": Said(
        "one more",
        "Give this row one more key.",
    ),
    "keys.usual": Said(
        "usual key",
        "This row gets its usual keys back.",
    ),
    "keys.all": Said(
        "all usual",
        "All rows get their usual keys back.",
    ),
    "find.help": Said("help", "What can be typed here."),
    "keys.back": Said(
        "back",
        "Back.",
    ),
    "help.back": Said(
        "back",
        "Back.",
    ),
    "question.yes": Said("yes", "Answers yes: it is so, it was made, it is there."),
    "question.no": Said("no", "Answers no; goes back from notes."),
    "question.but": Said("but", "Answers yes, but something else is taken back; or goes back."),
    "question.leave": Said("later", "Leaves it for later; leaves dryfit though it is not saved."),
    "question.stay": Said("stay", "Stays, where leaving would lose something."),
    "question.watch": Said("look on", "Looks on at what another program has."),
    "question.old": Said("old kit", "Goes on with the kit as it was."),
    "question.changed": Said("changed kit", "Takes over the kit as it is now."),
    "question.go": Said("go on", "Goes on after something was told."),
}
ABOUT = {
    "shelf": (
        "Choose a session to go on where you stopped, or a kit to start it. Of the row that is"
        " marked more is told at the bottom. Kit files in the folder for your own kits stand "
        "here too; {path} opens one that lies anywhere else."
    ),
    "pockets": (
        "Each pocket with its pieces: filed, on the pile, still to come. A page number goes to"
        " that page's pocket."
    ),
    "account": ("Every sheet's area is its pieces and its scraps; every piece is in its pocket."),
    "warnings": ("What is not where it belongs, and has not been put right yet."),
    "count": (
        "Empty the pocket and tick what is really there. What is missing is looked for where "
        "it most likely is."
    ),
    "find": (
        "Type what your ruler says, a colour, or words on the piece, in any order. Either side"
        " first; one side alone will do. What you read may be 1/16 in off."
    ),
    "miscut": (
        "Say what really happened, in your own measure. The last cut is meant; {other} chooses an"
        " earlier one, and all that came of it since is worked out anew. Nothing is changed until"
        " you choose a way to save it."
    ),
    "pick": (
        "The likeliest stand first. Type a part of a name, a sheet, a size or a pocket to shorten"
        " the list."
    ),
    "say": (
        "Type the length as you read it. What can't have been so is told at once. Nothing is"
        " changed yet."
    ),
    "ways": (
        "The best way stands first; better ones may still come. {next_step} draws what you would"
        " cut, step by step. {take} goes the way that is marked, and undo takes all of it back."
    ),
    "settings": (
        "Each row is a setting, with what it does beneath. A change is seen and kept at once."
    ),
    "keys": (
        "Each row is a command with its keys. A star marks those that you chose. What a screen"
        " needs in any case, such as Space and Enter at the table, stays beside them. The "
        "digits are the pockets' keys."
    ),
}
"""What a screen is for; a command's name in braces stands for its key."""
