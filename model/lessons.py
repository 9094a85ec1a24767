"""The first run teaches the table by doing: one thing at a time, when its moment comes.

A lesson is shown while its moment lasts, and is learnt when the crafter does it. Lessons wait
for nobody: what is done without them is learnt too, one that is passed over a few times is not
shown again, and Esc ends them all. The words are in `model.language.english.lessons`.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

from model.plan import Phase, StepKind

if TYPE_CHECKING:
    from model.moment import Moment
    from model.session import Session


class Lesson(StrEnum):
    """What is taught, in the order in which it is taught."""

    SPACE = "space"
    """Do as the sentence says, then Space."""
    POCKET = "pocket"
    """A pocket has keys of its own; Space files rightly."""
    MARK = "mark"
    """The large figure is the mark."""
    FILE = "file"
    """What came off goes into its pocket."""
    UNDO = "undo"
    """Take back what was said, and say it again."""
    WARNING = "warning"
    """Something said wrongly is warned of, and put right."""
    FIND = "find"
    """What is this piece?"""
    END = "end"
    """Where the rest is."""


@dataclass(frozen=True, slots=True)
class _Taught:
    """When a lesson is shown, and what learns it."""

    lesson: Lesson
    when: Callable[[Moment, Session], bool]
    by: tuple[str, ...]


def _kind(*kinds: StepKind) -> Callable[[Moment, Session], bool]:
    def due(moment: Moment, session: Session) -> bool:
        step = moment.due.step
        return moment.due.item is None and step is not None and step.kind in kinds

    return due


def _filing(moment: Moment, session: Session) -> bool:
    return moment.due.item is not None and moment.pressing is None


def _trimming(moment: Moment, session: Session) -> bool:
    step = session.state.step()
    return step is not None and step.phase >= Phase.TRIMMING and moment.pressing is None


_LESSONS = (
    _Taught(Lesson.SPACE, lambda m, s: not m.over, ("did",)),
    _Taught(Lesson.POCKET, _kind(StepKind.FILL), ("did", "pocket")),
    _Taught(Lesson.MARK, _kind(StepKind.CUT), ("did", "pocket")),
    _Taught(Lesson.FILE, _filing, ("did", "pocket")),
    _Taught(Lesson.UNDO, _trimming, ("undo",)),
    _Taught(Lesson.WARNING, _filing, ("right",)),
    _Taught(Lesson.FIND, _trimming, ("find",)),
    _Taught(Lesson.END, lambda m, s: m.over, ("did", "pocket", "help")),
)
_PATIENCE = 3
"""How often a lesson may be passed over by going on with the kit."""
_GOING_ON = ("did", "pocket")


class Lessons:
    """The lessons of one run.

    Attributes:
        learnt: What was done by now, or passed over.
    """

    def __init__(self) -> None:
        """Nothing is learnt yet."""
        self.learnt: set[Lesson] = set()
        self._shown: Lesson | None = None
        self._passed: dict[Lesson, int] = {}

    @property
    def number(self) -> int:
        """The how manieth the lesson is that is shown; they come as their moments do."""
        return len(Lesson) if self._shown is Lesson.END else len(self.learnt) + 1

    @property
    def over(self) -> bool:
        """Whether all is learnt, or nobody wants more of it."""
        return len(self.learnt) == len(_LESSONS)

    def now(self, moment: Moment, session: Session) -> Lesson | None:
        """The lesson to show at a moment; None when there is none for it.

        Args:
            moment: What the table says.
            session: The session.
        """
        self._shown = None
        last = len(self.learnt) == len(_LESSONS) - 1
        for taught in _LESSONS:
            if taught.lesson in self.learnt:
                continue
            if taught.when(moment, session) or (last and taught.lesson is Lesson.END):
                self._shown = taught.lesson
                return taught.lesson
        return None

    def did(self, command: str) -> None:
        """A command was used: what it teaches is learnt, if it was shown.

        Args:
            command: Its name: ``did``, ``pocket``, ``undo``, ``right``, ``find``, ``help``.
        """
        for taught in _LESSONS:
            if taught.lesson is self._shown and command in taught.by:
                self.learnt.add(taught.lesson)
            elif command in taught.by and len(taught.by) == 1:
                self.learnt.add(taught.lesson)  # found out before it was taught
            elif taught.lesson is self._shown and command in _GOING_ON:
                times = self._passed[taught.lesson] = self._passed.get(taught.lesson, 0) + 1
                if times == _PATIENCE:
                    self.learnt.add(taught.lesson)

    def skip(self) -> None:
        """Nobody wants more of it."""
        self.learnt |= set(Lesson)
