"""Says a moment in lines: the step once, and what stands beside it once."""

from __future__ import annotations

from dataclasses import replace

from model.language import words_of
from model.language.english.words import English
from model.lessons import Lesson, Lessons
from model.moment import Moment, moment_of
from model.session import Session
from tui.lines_choices import Choices
from tui.lines_voice import Voice


class Teller:
    """Says what the table says now, to one voice.

    Attributes:
        session: The session.
    """

    def __init__(
        self, session: Session, choices: Choices, voice: Voice, teach: bool = False
    ) -> None:
        """Prepare.

        Args:
            session: The session.
            choices: The crafter's settings.
            voice: Says it.
            teach: Teach what can be typed, by doing; see `model.lessons`.
        """
        self.session = session
        self.choices = choices
        self._voice = voice
        self._in_hand = ""
        self._told: Moment | None = None
        self._said: frozenset[str] = frozenset()  # what stood beside the step said last
        self._unsaved = ""
        self._lessons = Lessons() if teach else None
        self._taught: set[Lesson] = set()  # lessons that were said

    @property
    def words(self) -> English:
        """The sentences for this crafter."""
        settings = replace(self.choices.settings, ascii=False)  # the voice sees to that
        plan = self.session.plan
        return words_of(plan, settings.manner(plan.kit.unit))

    def look(self) -> Moment:
        """What the table says now."""
        return moment_of(self.session, self.words.manner, self._in_hand)

    def _say(self, text: str) -> None:
        if text:
            self._voice.say("said", text)

    def _object(self, text: str, exact: str = "") -> None:
        self._voice.say("objection", text, exact)

    def _object_to(self, code: str) -> None:
        """Why something was not taken in, by its code, and what to type."""
        words = self.words
        self._object(f"{words.objection(code)} {words.what_to_type(code)}".strip())

    # Lessons

    def _lesson(self, moment: Moment) -> None:
        """Say the lesson of the moment, once."""
        if self._lessons is None or self.session.watching:
            return
        lesson = self._lessons.now(moment, self.session)
        if lesson is not None and lesson not in self._taught:
            self._taught.add(lesson)
            self._voice.say("lesson", self.words.line_lesson(lesson, self._lessons.number))

    def _learn(self, command: str) -> None:
        """A command was used, which may be what a lesson teaches."""
        if self._lessons is not None:
            self._lessons.did(command)
            if self._lessons.over:
                self._lessons = None
                self._keep("taught", True)

    def _teach(self, _: str) -> None:
        self._lessons, self._taught = Lessons(), set()
        self._say(self.words.brief("lessons"))

    def _teach_no_more(self, _: str) -> None:
        self._lessons = None
        self._say(self.words.brief("no lessons"))
        self._keep("taught", True)

    def _keep(self, key: str, value: object) -> str:
        """Change a setting and keep it; gives back why it can't be."""
        why = self.choices.change(key, value)
        if not why and self.choices.trouble:
            trouble = self.choices.trouble
            self._voice.say("objection", self.words.not_kept(trouble), trouble)
        return why

    def tell(self, again: bool = False) -> None:
        """Say the step, if it is not the one that was said last.

        Args:
            again: Say it in any case.
        """
        self._tell_unsaved()
        moment, words = self.look(), self.words
        before, self._told = self._told, moment
        line = words.step_line(moment)
        if not again and before is not None and _same(before, moment):
            self._lesson(moment)
            return
        pressing = moment.pressing
        cautions = () if pressing else moment.cautions
        notes = () if pressing else moment.more
        self._voice.say(
            "warning" if pressing else "over" if moment.over else "step",
            line,
            headline=moment.headline,
            sentence=moment.sentence,
            mark=words.mark_said(moment.figure),
            goes=moment.goes_briefly,
            cautions=list(cautions),
            notes=list(notes),
            done=moment.progress.done,
            steps=moment.progress.steps,
            optional=moment.optional,
        )
        if self._voice.json:
            self._lesson(moment)
            return
        # What was said with the step before holds still, and need not be heard again.
        known = frozenset() if again else self._said
        self._said = frozenset(cautions)
        cautions = tuple(caution for caution in cautions if caution not in known)
        for caution in cautions:
            self._voice.say("caution", words.caution_line(caution))
        if notes:
            self._voice.say("note", words.notes_line(notes))
        self._lesson(moment)

    def _tell_unsaved(self) -> None:
        session, words = self.session, self.words
        if session.watching or session.unsaved == self._unsaved:
            return
        self._unsaved = session.unsaved
        if session.unsaved:
            said = words.not_saved(session.unsaved, session.waiting)
            self._voice.say("unsaved", f"{words.heading('warning')[0]}: {said}", session.unsaved)
        else:
            self._say(words.brief("saved again"))


def _same(one: Moment, other: Moment) -> bool:
    """Whether two moments say the same."""
    return (one.due, one.sentence, one.headline, one.goes, one.pressing) == (
        other.due,
        other.sentence,
        other.headline,
        other.goes,
        other.pressing,
    )
