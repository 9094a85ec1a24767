"""All sentences on a kit and its run, in Dutch."""

from __future__ import annotations

from model.language.dutch.steps import StepWords
from model.language.dutch.warnings import WarningWords
from model.language.english.words import English


class Dutch(WarningWords, StepWords, English):
    """The sentences in Dutch; see the classes that it builds on."""


WORDS = Dutch
