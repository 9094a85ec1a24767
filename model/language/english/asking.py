"""Sentences of plain lines on what can be typed: help, lessons, settings, objections."""

from __future__ import annotations

from collections.abc import Mapping

from model.language.english.pieces import PieceWords
from model.lessons import Lesson

_HELP = (
    "An empty line: it was done as the sentence says.",
    "A page number, such as 3: it went into the pocket of that page. scrap: to the scraps.",
    "undo: take back what was said last. again: read the step once more.",
    "find and what a piece is like, such as find 3 by 8 green: what it is, and where it goes.",
    "right, leave: what to do about a warning. where: how far the run is.",
    "quit: put the kit away; all is saved. help all: every command.",
)
_HELP_ALL = (
    "An empty line, or done: it was done as the sentence says.",
    "A page number or a pocket's label, such as 3 or 3-4: it went into that pocket.",
    "scrap: it went to the scraps. With nothing in hand: a scrap too many turned up.",
    "right: put right what the warning names. leave: leave it for later. With a number: that one "
    "of the warnings, such as right 2.",
    "warnings: all that stand, with their numbers.",
    "undo, redo: take back what was said last; say it again.",
    "again: read the step once more. notes: all that is said of it, cautions too.",
    "where: how far the run is, and what waits.",
    "pile: what is cut and not filed, with numbers. take 2: take the second of what was read "
    "last in hand; the next page number says where it went.",
    "file all: all on the pile that can be filed is in its pocket now.",
    "pockets: every pocket. pocket 3: what is in the pocket of page 3, with numbers. To move a "
    "piece that is filed: take and its number, then the page number.",
    "find 3 by 8 green: what a loose piece may be. not it: what is in your hand is not what is "
    "asked for.",
    "count 3: count the pocket of page 3. count all: one pocket after another.",
    "later: put off the sheet that is next. later B: put off sheet B. take up: a sheet that was "
    "put off is next; with several, say which, such as take up B.",
    "miscut: something went wrong at the trimmer, now or earlier; you hear what can be saved. "
    "miscut 9 1/4: the last cut was made at that mark. miscut cut 2 mark 9 1/4: the one before.",
    "skip: leave out an optional step. pace: file after each cut, or after each load.",
    "account: where all the paper is. save report: the same as a text file.",
    "settings: what is set. set units mm: change one of them.",
    "no cautions: none are read until the next sitting.",
    "lessons: be taught again. no lessons: no more of them.",
    "help: the most used commands. quit: put the kit away; all is saved.",
)

_LESSONS: Mapping[Lesson, str] = {
    Lesson.SPACE: "Do what the sentence says, then press Enter on an empty line. That says you "
    "did it.",
    Lesson.POCKET: "An empty line says that it is in the pocket named. If it went elsewhere, type "
    "a page number of that pocket.",
    Lesson.MARK: "The mark is a number on the trimmer's ruler: hold the paper there, cut, then "
    "an empty line.",
    Lesson.FILE: "The piece that came off goes into the pocket named. Put it in, then an empty "
    "line.",
    Lesson.UNDO: "Said something too early? Undo takes it back, and redo says it again. Type undo "
    "now.",
    Lesson.WARNING: "Try a mistake: type scrap, as if this were a scrap. Then type right, which "
    "puts it right.",
    Lesson.FIND: "A piece you can't place? Type find and its size or colour, such as find 3 by 8.",
    Lesson.END: "That is all you need. Pockets reads the pockets, help tells what can be typed, "
    "quit keeps everything.",
}

_TRY: Mapping[str, str] = {
    "watching": "Type quit to end.",
    "over": "Type account to hear it, or quit.",
    "not yet": "Type again to hear what is next.",
    "done already": "Type again to hear what is next.",
    "not optional": "Type later to put its sheet off instead.",
    "begun": "Type again to hear what is next.",
    "file first": "Type pile to hear what it is.",
    "stays on the pile": "Type again to hear what is next.",
    "nothing to file": "Type again to hear what is next.",
    "nothing to redo": "Type again to hear what is next.",
    "nothing to undo": "Type again to hear what is next.",
    "not made": "Type again to hear what is next.",
    "in hand": "Type again to hear what is next.",
    "finish the load": "Type again to hear what is next.",
    "no such pocket": "Type pockets to hear them.",
    "no such warning": "Type warnings to hear those that stand.",
    "not right yet": "Type warnings to hear it.",
    "not put off": "Type where to hear what waits.",
    "last already": "Type again to hear what is next.",
    "not cut yet": "Type again to hear what is next.",
}
"""What can be typed after an objection, by its code; the others say it themselves."""

_SET: Mapping[str, tuple[str, str]] = {
    "units": ("Lengths in", "kit, in, cm or mm"),
    "ruler": ("The trimmer's ruler reads to", "kit, or its finest lines, such as 1/16 in or 1 mm"),
    "tearing_ruler": ("Width of the ruler to tear against", "a length, such as 3 in"),
    "left_handed": ("Trimmer worked with the left hand", "yes or no"),
    "by_load": ("New kits: cut a whole load, then file", "yes or no"),
    "ascii": ("Only plain letters, without accents", "yes or no"),
    "language": ("Language", "a code, such as en"),
    "taught": ("The lessons were heard", "yes or no"),
}
"""The settings that plain lines know, and what each may be."""
_SET_HOW = "Type set, a setting and its value, such as set units mm. Settings reads them."


class TypingWords(PieceWords):
    """Words on what can be typed."""

    def lines_help(self, all: bool = False) -> tuple[str, ...]:
        """What can be said: the most used, or all of it."""
        return _HELP_ALL if all else _HELP

    def what_to_type(self, objection: str) -> str:
        """What can be typed after an objection, by its code; empty where it says so itself."""
        return _TRY.get(objection, "")

    def set_how(self) -> str:
        """How a setting is changed."""
        return _SET_HOW

    # Lessons

    def line_lesson(self, lesson: Lesson, number: int) -> str:
        """A lesson of the first run, for plain lines.

        Args:
            lesson: The lesson.
            number: The how manieth it is; they come as their moments do.
        """
        said = f"Lesson {number} of {len(Lesson)}: {_LESSONS[lesson]}"
        return f"{said} No lessons ends them." if number == 1 else said

    # Settings

    @staticmethod
    def setting_named(text: str) -> tuple[str, str]:
        """The setting that a line begins with, and the rest of it; empty for none."""
        low = text.casefold().replace("_", " ")
        for key in _SET:
            name = key.replace("_", " ")
            if low == name or low.startswith(f"{name} "):
                return key, text[len(name) :].strip()
        return "", text

    def settings_lines(self, values: Mapping[str, object]) -> tuple[str, ...]:
        """What is set, and how it is changed.

        Args:
            values: The value of each setting, by its key.
        """
        said = [self.setting_line(key, values[key]) for key in _SET]
        return (*said, _SET_HOW)

    def setting_line(self, key: str, value: object) -> str:
        """One setting, with its value and what it may be."""
        name, may = _SET[key]
        shown = {True: "yes", False: "no"}.get(value, value) if isinstance(value, bool) else value
        shown = "as the kit" if shown == "kit" else shown
        if key == "language" and not value:
            shown = "as the system"
        return f"{name}: {shown}. Set {key.replace('_', ' ')} may be: {may}."

    def not_set(self, key: str, why: str) -> str:
        """That a setting was not changed, and what it may be."""
        return f"Not changed: {why}. Set {key.replace('_', ' ')} may be: {_SET[key][1]}."

    def not_kept(self, why: str) -> str:
        """That a setting holds only until the end."""
        return f"It holds for now, but is not kept: {why}."
