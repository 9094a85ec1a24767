"""All sentences on a kit and its run that a crafter is told.

Each method makes whole sentences from data, so that a translation is another class with
the same methods. Nothing here decides anything.
"""

from __future__ import annotations

from model.language.english.find import FindWords
from model.language.english.lessons import LessonWords
from model.language.english.lines import LineWords
from model.language.english.report import ReportWords
from model.language.english.rescue_lines import RescueLineWords


class English(ReportWords, FindWords, LessonWords, LineWords, RescueLineWords):
    """The sentences in English; see the classes that it builds on."""


WORDS = English
