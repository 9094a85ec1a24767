"""The first run at the table: the lesson of the moment, and what learns it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from model.language.english.words import English
from model.lessons import Lessons
from model.moment import Moment
from model.session import Session
from tui.commands import key_of
from tui.screens.base import AppScreen
from tui.table_commands import COMMANDS, USUAL_KEYS
from tui.widgets.panel import Row


class TeachingTable(AppScreen[None]):
    """Shows a lesson above the cautions; the table is one of these."""

    session: Session
    said: Row
    lessons: Lessons | None

    @property
    def words(self) -> English:
        """The sentences for this crafter."""
        return self.words_of(self.session)

    def look_again(self) -> None:
        """Work the moment out anew, and show it."""
        raise NotImplementedError

    def key_names(self) -> Mapping[str, str]:
        """The key that each command has now, as people say it."""
        keymap = self.dryfit.keymap
        if not keymap.own:
            return USUAL_KEYS
        return {
            each.id: key_of(keymap, "table", COMMANDS, each.id, self.ascii) for each in COMMANDS
        }

    def with_lesson(self, moment: Moment) -> Moment:
        """A moment, with the lesson that is to be learnt at it."""
        if self.lessons is None:
            return moment
        lesson = self.lessons.now(moment, self.session)
        if lesson is None:
            return moment
        said = self.words.lesson(lesson, self.lessons.number, self.key_names())
        return replace(moment, cautions=(said, *moment.cautions))

    def learn(self, command: str) -> None:
        """A command was used, which may be what a lesson teaches."""
        if self.lessons is not None:
            self.lessons.did(command)
            if self.lessons.over:
                self._no_more()

    def end_lessons(self) -> bool:
        """End the lessons, if there are any; True if there were."""
        if self.lessons is None:
            return False
        self._no_more()
        self.said = [(f" {self.words.lessons_over(self.key_names()['help'])}", "good")]
        self.look_again()
        return True

    def _no_more(self) -> None:
        self.lessons = None
        self.dryfit.change_setting("taught", True)
