"""Dutch: what is typed, how sentences sound, and what is found, told and counted."""

from __future__ import annotations

import re
from collections.abc import Mapping
from datetime import timedelta
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from model.alerts import Alert
from model.find import Finder
from model.kit import Kit
from model.language.dutch.asking import COMMANDS, TypingWords, typed_as
from model.language.dutch.ear import spoken, written
from model.language.dutch.find import FindWords
from model.language.dutch.lessons import LessonWords
from model.language.dutch.lines import LineWords
from model.language.dutch.report import ReportWords
from model.length import Unit, parse_length
from model.lengthtext import LengthStyle, write_length, write_size
from model.lessons import Lesson
from model.pace import Left
from model.query import read_query
from model.settings import Settings
from tests.plain_lines import Sitting
from tests.screens import begun

SIGNS = frozenset(" .,:;?!'\"()-")
"""The signs that may occur: those of punctuation."""


class Words(ReportWords, FindWords, LessonWords, LineWords):
    """The sentences that are tested here."""


@pytest.fixture
def sitting(tmp_path: Path) -> Sitting:
    return Sitting(begun("harbour", tmp_path), ascii=False)


@pytest.fixture
def words(sitting: Sitting) -> Words:
    plan = sitting.session.plan
    return Words(plan, Settings().manner(plan.kit.unit))
