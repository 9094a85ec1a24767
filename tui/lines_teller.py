"""Says a moment in lines: the step once, and what stands beside it once."""

from __future__ import annotations

from model.find import Finder
from model.language import words_of
from model.language.english.words import English
from model.likeness import LookAlikes
from model.moment import Moment, moment_of
from model.plan import Plan
from model.session import Session
from model.settings import Settings
from tui.lines_voice import Voice


class Teller:
    """Says what the table says now, to one voice.

    Attributes:
        session: The session.
    """

    def __init__(self, session: Session, settings: Settings, voice: Voice) -> None:
        """Prepare.

        Args:
            session: The session.
            settings: The crafter's settings.
            voice: Says it.
        """
        self.session = session
        self._settings = settings
        self._voice = voice
        self._in_hand = ""
        self._told: Moment | None = None
        self._said: frozenset[str] = frozenset()  # what stood beside the step said last
        self._unsaved = ""
        self._tools: tuple[Plan, Finder, LookAlikes] | None = None

    @property
    def words(self) -> English:
        """The sentences for this crafter."""
        plan = self.session.plan
        return words_of(plan, self._settings.manner(plan.kit.unit))

    def look(self) -> Moment:
        """What the table says now."""
        return moment_of(self.session, self.words.manner, self._in_hand)

    def _say(self, text: str) -> None:
        if text:
            self._voice.say("said", text)

    def _object(self, text: str) -> None:
        self._voice.say("objection", text)

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
            return
        # What was said with the step before holds still, and need not be heard again.
        known = frozenset() if again else self._said
        self._said = frozenset(cautions)
        cautions = tuple(caution for caution in cautions if caution not in known)
        for caution in cautions:
            self._voice.say("caution", words.caution_line(caution))
        if notes:
            self._voice.say("note", words.notes_line(notes))

    def _tell_unsaved(self) -> None:
        session, words = self.session, self.words
        if session.watching or session.unsaved == self._unsaved:
            return
        self._unsaved = session.unsaved
        if session.unsaved:
            said = words.not_saved(session.unsaved, session.waiting)
            self._voice.say("unsaved", f"{words.heading('warning')[0]}: {said}")
        else:
            self._say(words.brief("saved again"))

    def _finding(self) -> tuple[Plan, Finder, LookAlikes]:
        """What finds things of the plan in force."""
        plan = self.session.plan
        if self._tools is None or self._tools[0] is not plan:
            self._tools = plan, Finder(plan), LookAlikes(plan)
        return self._tools


def _same(one: Moment, other: Moment) -> bool:
    """Whether two moments say the same."""
    return (one.due, one.sentence, one.headline, one.goes, one.pressing) == (
        other.due,
        other.sentence,
        other.headline,
        other.goes,
        other.pressing,
    )
