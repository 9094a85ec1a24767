"""Sentences of the first run, which teaches the table by doing, in Dutch."""

from __future__ import annotations

from collections.abc import Mapping

from model.language.dutch.pieces import PieceWords
from model.language.english import lessons as english
from model.lessons import Lesson

_LESSONS = {
    Lesson.SPACE: "Doe wat de zin zegt en druk dan op {did}: zo zeg je dat het gedaan is.",
    Lesson.POCKET: "{did} bergt het op waar het hoort. Ligt het elders, druk dan op een "
    "paginanummer.",
    Lesson.MARK: "Het grote getal is de maat: houd het papier daar, snijd, en dan {did}.",
    Lesson.FILE: "Het stuk dat eraf kwam, gaat in het vak dat hier staat. Leg het erin, dan {did}.",
    Lesson.UNDO: "Iets te vroeg gezegd? {undo} neemt het terug, {redo} zegt het opnieuw. "
    "Probeer nu {undo}.",
    Lesson.WARNING: "Probeer een fout: druk op {scrap}, alsof dit een restje is. "
    "Daarna zet {right} het recht.",
    Lesson.FIND: "Waar hoort een stuk? {find} zoekt het op: typ de afmetingen of de kleur. "
    "Probeer {find}, dan Esc.",
    Lesson.END: "Meer hoef je niet te weten. {pockets} toont de vakken, "
    "{help} alle toetsen; {quit} bewaart alles.",
}


class LessonWords(PieceWords, english.LessonWords):
    """Words of the first run."""

    def lesson(self, lesson: Lesson, number: int, keys: Mapping[str, str]) -> str:
        """What is taught, and how to be rid of it."""
        return f"{number}/{len(Lesson)} {_LESSONS[lesson].format_map(keys)} (Esc: geen lessen)"

    def lessons_over(self, help: str) -> str:
        """That the lessons were ended, and the key of the help."""
        return f"Geen lessen meer; {help} noemt alle toetsen."
