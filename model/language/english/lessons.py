"""Sentences of the first run, which teaches the table by doing."""

from __future__ import annotations

from collections.abc import Mapping

from model.language.english.pieces import PieceWords
from model.lessons import Lesson

_LESSONS = {
    Lesson.SPACE: "Do what the sentence says, then press {did}: that says you did it.",
    Lesson.POCKET: "{did} files it where it belongs. If it went elsewhere, press a page number.",
    Lesson.MARK: "The large figure is the mark: hold the paper there, cut, then {did}.",
    Lesson.FILE: "The piece that came off goes into the pocket named here. Put it in, then {did}.",
    Lesson.UNDO: "Said something too early? {undo} takes it back, {redo} says it again. "
    "Try {undo} now.",
    Lesson.WARNING: "Try a mistake: press {scrap}, as if it were a scrap. "
    "Then {right} puts it right.",
    Lesson.FIND: "A piece you can't place? {find} finds it: type its size or colour. "
    "Try {find}, then Esc.",
    Lesson.END: "That is all you need. {pockets} shows the pockets, "
    "{help} all keys; {quit} keeps everything.",
}


class LessonWords(PieceWords):
    """Words of the first run."""

    def lesson(self, lesson: Lesson, number: int, keys: Mapping[str, str]) -> str:
        """What is taught, and how to be rid of it.

        Args:
            lesson: The lesson.
            number: The how manieth it is; they come as their moments do.
            keys: The key of each command of the table, as people say it.
        """
        return f"{number}/{len(Lesson)} {_LESSONS[lesson].format_map(keys)} (Esc: no lessons)"

    def lessons_over(self, help: str) -> str:
        """That the lessons were ended, and the key of the help."""
        return f"No more lessons; {help} names all keys."
