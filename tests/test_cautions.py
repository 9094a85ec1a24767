"""Cautions: where a kit or a step calls for one, until it is put away, and back next sitting."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest

from model.length import Unit
from model.lengthtext import LengthStyle
from model.manner import Manner
from model.moment import Moment, moment_of
from model.reading import read_kit
from model.ruler import GRADUATIONS
from model.session import Session
from tests.screens import table, text_of

KIT = """
dryfit = 1
title = "Careful"
note = "Invented."
page = "12 x 12"
pages = 2
scraps = 0

[[sheet]]
name = "A"
face = "teal"

[[step]]
trim = "A"
marks = ["11 3/4", "11 1/2"]
gives = { name = "thread strip", to = "1·2" }
rest = { name = "block", to = "1·2" }

[[step]]
do = "Glue the tags with the solvent glue."
caution = "solvent"

[[step]]
do = "Seal the edge with a hot tool, beads ready."
caution = ["heat", "small", "solvent"]
"""


def begun(path: Path | None) -> Session:
    read = read_kit(KIT)
    assert read.plan is not None, read.findings
    return Session.start(read, None, path)


def moments(session: Session) -> list[Moment]:
    found = []
    while not session.state.due().over:
        found.append(moment_of(session, Manner()))
        assert session.next().taken
    return found


def test_a_step_asks_for_the_care_that_the_kit_says(tmp_path: Path) -> None:
    *_, glue, seal = moments(begun(tmp_path))
    assert [caution.split(":")[0] for caution in glue.cautions] == ["Solvent"]
    assert [caution.split(":")[0] for caution in seal.cautions] == ["Hot", "Small parts", "Solvent"]
    assert all("Local rules" in caution for caution in glue.cautions)


@pytest.mark.parametrize(
    ("wrong", "says"),
    [('caution = "fire"', "knife"), ("caution = 3", "caution"), ('caution = ["x"]', "solvent")],
)
def test_an_unknown_caution_is_told_with_those_there_are(wrong: str, says: str) -> None:
    (finding, *_) = read_kit(KIT.replace('caution = "solvent"', wrong)).findings
    assert finding.line == 21
    assert says in f"{finding.what} {finding.remedy}"


async def test_escape_puts_cautions_away_until_the_next_sitting(tmp_path: Path) -> None:
    session = begun(tmp_path)
    while "sliver" not in moment_of(session, Manner()).caution_codes:
        session.next()
    async with table(session) as (pilot, screen):
        assert "Narrow:" in text_of(pilot.app)
        await pilot.press("escape")
        assert "Narrow:" not in text_of(pilot.app)
        await pilot.press("space", "space")
        assert screen.moment.due.step is not None
        assert "sliver" not in screen.moment.caution_codes
        assert not screen.moment.caution_codes
    assert session.path is not None
    again = Session.resume(session.path)
    assert "sliver" in moment_of(again, Manner()).caution_codes
    again.close()


def test_what_cannot_be_measured_is_said_whatever_was_put_away(tmp_path: Path) -> None:
    """That a mark is off by more than a hair is no caution that one reads once."""
    read = read_kit(KIT.replace('["11 3/4", "11 1/2"]', '["11.44"]'))
    assert read.plan is not None, read.findings
    coarse = Manner(ruler=GRADUATIONS["1/8 in"])
    session = Session.start(read, None, tmp_path)
    session.cautioned.update(("blade", "sliver", "unfit", "far"))
    while session.state.due().step is None or not moment_of(session, coarse).cautions:
        assert session.next().taken
    (said,) = moment_of(session, coarse).cautions
    assert "measure" in said
    assert not moment_of(session, coarse).caution_codes


@pytest.mark.parametrize(
    ("mark", "unit", "said"),
    [
        (Fraction(254, 640), Unit.MM, "~0.4 mm"),  # 1/64 in
        (Fraction(254, 640), Unit.CM, "~0.4 mm"),
        (Fraction(254, 640), Unit.IN, "1/64 in"),
        (Fraction(127, 10), Unit.MM, "12.7 mm"),
        (Fraction(1000), Unit.CM, "1000.0 mm"),
    ],
)
def test_what_is_measured_by_hand_is_said_finely(mark: Fraction, unit: Unit, said: str) -> None:
    assert Manner(LengthStyle(unit, ascii=True)).finely(mark) == said
