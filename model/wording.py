"""All sentences that a crafter is told.

Each method makes whole sentences from data, so that a translation is another class with
the same methods. Nothing here decides anything.
"""

from __future__ import annotations

from model.wording_find import FindWords
from model.wording_lessons import LessonWords
from model.wording_lines import LineWords
from model.wording_report import ReportWords


class English(ReportWords, FindWords, LessonWords, LineWords):
    """The sentences in English; see the classes that it builds on."""
