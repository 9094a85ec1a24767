"""Whatever unit a kit is written in, its lengths are told in the crafter's own."""

from __future__ import annotations

import re
from fractions import Fraction

import pytest

from model.folders import demo_kit
from model.length import parse_length
from model.moment import Moment, moment_of
from model.plan import StepKind
from model.reading import load_kit
from model.ruler import GRADUATIONS
from model.session import Session
from model.settings import Settings
from tests.pictures import to_step
from tests.screens import begun, table, text_of

INCHES = re.compile(r"\d\s?in\b|\d/\d|[½¼¾⅛⅜⅝⅞]")
METRIC = re.compile(r"\d\s?(mm|cm)\b")


def told(moment: Moment) -> list[str]:
    """All of a moment in which a length may stand."""
    figure, scene = moment.figure, moment.scene
    made = [moment.headline, moment.sentence, *moment.cautions, *moment.more, moment.goes]
    if figure is not None:
        made += [figure.caption, f"{figure.text} {figure.unit}", figure.error]
    if scene is not None:
        made += [text for block in scene.blocks for text in (block.name, block.size)]
    return [*made, *(line.text for line in moment.pile)]


@pytest.mark.parametrize(
    ("kit", "units", "alien"),
    [
        ("harbour", "mm", INCHES), ("harbour", "cm", INCHES), ("postcard", "cm", INCHES),
        ("cards", "in", METRIC),
    ],
)  # fmt: skip
def test_no_length_is_told_in_another_unit(kit: str, units: str, alien: re.Pattern[str]) -> None:
    path = demo_kit(kit)
    assert path is not None
    author = " ".join(path.read_text(encoding="utf-8").split())
    session = Session.start(load_kit(path), None, None, why_no_folder="this is a test")
    manner = Settings(units=units).manner(session.plan.kit.unit)
    own = 0
    while not session.state.due().over:
        for text in told(moment_of(session, manner)):
            if alien.search(text):  # the author's own words are left as they are
                said = " ".join(text.removeprefix("Tools: ").split()).rstrip(".")
                assert all(part in author for part in said.split(", ")), text
            own += bool(re.search(rf"\d\s?{units}\b", text))
        assert session.next().taken
    assert own > 5


@pytest.mark.parametrize(
    ("kit", "units", "ruler"), [("harbour", "mm", "1 mm"), ("cards", "in", "1/16 in")]
)
def test_each_mark_is_rounded_by_itself_to_the_ruler(kit: str, units: str, ruler: str) -> None:
    path = demo_kit(kit)
    assert path is not None
    session = Session.start(load_kit(path), None, None, why_no_folder="this is a test")
    manner = Settings(units=units).manner(session.plan.kit.unit)
    finest = GRADUATIONS[ruler]
    assert manner.ruler == finest
    step = Fraction(1) if ruler == "1 mm" else Fraction(254, 160)  # 25.4 mm / 16
    marks = 0
    while not session.state.due().over:
        moment = moment_of(session, manner)
        plan_step = moment.due.step
        if plan_step is not None and plan_step.kind is StepKind.CUT and moment.scene is not None:
            figure, cut = moment.figure, moment.scene.cut
            assert figure is not None and cut is not None
            if not figure.unit:  # a line that is printed, and no mark
                assert not re.search(r"\d", figure.text)
                assert session.next().taken
                continue
            assert figure.unit == units
            shown = parse_length(f"{figure.text.lstrip('~')} {units}", manner.style.unit)
            assert shown % step == 0
            # Never further off than half a line: errors of marks before it do not add up.
            assert abs(shown - cut) <= step / 2
            if shown == cut or figure.text.startswith("~"):
                assert not figure.error
            else:
                assert figure.error.endswith(" under" if cut < shown else " over"), figure
            marks += 1
        assert session.next().taken
    assert marks > 5


async def test_the_screen_has_the_crafter_s_unit_on_the_ruler_too(tmp_path) -> None:
    session = begun("harbour", tmp_path)
    to_step(session, StepKind.CUT, 2)
    async with table(session, (120, 40), Settings(units="mm")) as (pilot, _):
        assert not re.search(r"\d in\b", text_of(pilot.app))
        assert " mm" in text_of(pilot.app)
