"""Sentences of the first run, which teaches the table by doing."""

from __future__ import annotations

from model.lessons import Lesson
from model.wording_pieces import PieceWords

_LESSONS = {
    Lesson.SPACE: "Do what the sentence says, then press Space: that says you did it.",
    Lesson.POCKET: "Space files it where it belongs. If it went elsewhere, press a page number.",
    Lesson.MARK: "The large figure is the mark: hold the paper there, cut, then Space.",
    Lesson.FILE: "The piece that came off goes into the pocket named here. Put it in, then Space.",
    Lesson.UNDO: "Said something too early? u takes it back, r says it again. Try u now.",
    Lesson.WARNING: "Try a mistake: press s, as if it were a scrap. Then p puts it right.",
    Lesson.FIND: "A piece you can't place? f finds it: type its size or colour. Try f, then Esc.",
    Lesson.END: "That is all you need. k shows the pockets, ? all keys; q keeps everything.",
}


class LessonWords(PieceWords):
    """Words of the first run."""

    def lesson(self, lesson: Lesson) -> str:
        """What is taught, and how to be rid of it."""
        number = list(Lesson).index(lesson) + 1
        return f"{number}/{len(Lesson)} {_LESSONS[lesson]} (Esc: no lessons)"

    def lessons_over(self) -> str:
        """That the lessons were ended."""
        return "No more lessons; ? names all keys."
