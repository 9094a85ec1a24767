"""All sentences on a kit and its run, in Dutch."""

from __future__ import annotations

from model.language.dutch.find import FindWords
from model.language.dutch.lessons import LessonWords
from model.language.dutch.lines import LineWords
from model.language.dutch.report import ReportWords
from model.language.dutch.rescue_lines import RescueLineWords
from model.language.english.words import English


class Dutch(ReportWords, FindWords, LessonWords, LineWords, RescueLineWords, English):
    """The sentences in Dutch; see the classes that it builds on."""


WORDS = Dutch
