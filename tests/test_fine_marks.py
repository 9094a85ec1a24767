"""What the table says of a mark that the crafter's ruler has no line for."""

from __future__ import annotations

import pytest

from model.folders import demo_folder
from model.length import Unit
from model.lengthtext import LengthStyle
from model.manner import Manner
from model.moment import Moment, moment_of
from model.plan import StepKind
from model.ruler import GRADUATIONS
from tests.hand_kits import KITS
from tests.tables import table

FINE = """
dryfit = 1
title = "Fine"
page = "12 x 12"
pages = 2

[[sheet]]
name = "A"
face = "navy"

[[piece]]
name = "thread"
to = "1·2"

[[piece]]
name = "wide"
to = "1·2"

[[step]]
VERB = "A"
marks = ["11 31/32", "9 1/16", "3 1/16", 3, "1/16"]
gives = ["scrap", "wide", { name = "b", to = "1·2" }, { name = "c", to = "1·2" }, "scrap"]
rest = "thread"
"""


ONE = """
dryfit = 1
title = "One cut"
page = "12 x 12"
pages = 2

[[sheet]]
name = "A"
face = "navy"

[[step]]
trim = "A"
marks = ["MARK"]
gives = "scrap"
rest = { name = "thread", to = "1·2" }
"""


def cuts(text: str, ruler: str, unit: Unit = Unit.IN) -> list[Moment]:
    """The moments at which a cut is due."""
    session = table(text)
    manner = Manner(LengthStyle(unit), GRADUATIONS[ruler])
    told = []
    while not session.state.due().over:
        step = session.state.due().step
        if step is not None and step.kind is StepKind.CUT:
            told.append(moment_of(session, manner))
        session.next()
    return told


def figures(told: list[Moment]) -> list[tuple[str, str]]:
    return [(m.figure.text, m.figure.caption) for m in told if m.figure is not None]


@pytest.mark.parametrize("verb", ["trim", "knife"])
def test_a_mark_without_a_line_is_measured_by_hand(verb: str) -> None:
    told = cuts(FINE.replace("VERB", verb), "1/8 in")
    how = " with ruler and knife" if verb == "knife" else ""
    by_hand = "Measure {} in from the held edge, mark it by hand, and cut" + how + " there"
    starts = [m.sentence.partition(":")[0] for m in told]
    assert starts[0] == by_hand.format("11 31/32")
    assert starts[2] == by_hand.format("3 1/16")
    assert starts[4] == by_hand.format("1/16")
    assert starts[1].endswith("at 9, half a mark over" + ", and cut" * (verb == "trim"))
    assert starts[3].endswith("at 3" + " and cut" * (verb == "trim"))
    assert figures(told) == [
        ("11 31/32", "measure"), ("9", "mark"), ("3 1/16", "measure"), ("3", "mark"),
        ("1/16", "measure"),
    ]  # fmt: skip
    rulers = [m.scene.ruler is not None for m in told if m.scene is not None]
    assert rulers == [False, True, False, True, False]
    unfit = [any("No line of your ruler" in text for text in m.cautions) for m in told]
    assert unfit == [True, False, True, False, True]
    far = [[text for text in m.cautions if "more than a hair" in text] for m in told]
    assert [len(texts) for texts in far] == [0, 1, 0, 0, 0]
    assert "measure 9 1/16 in and mark it by hand" in far[1][0]


def test_on_a_fine_ruler_each_mark_is_held() -> None:
    told = cuts(FINE.replace("VERB", "trim"), "1/32 in")
    assert all(m.sentence.startswith("Hold it at ") for m in told)
    assert not any("ruler" in text for m in told for text in m.cautions)


DEMOS = [path.read_text("utf-8") for path in demo_folder().glob("*.toml")]


@pytest.mark.parametrize("text", [*DEMOS, *KITS])
def test_on_the_usual_ruler_a_kit_needs_no_finer_one(text: str) -> None:
    for moment in cuts(text, "1/16 in"):
        assert not any("finer ruler" in text for text in moment.cautions)


@pytest.mark.parametrize(
    ("unit", "ruler", "figure"),
    [
        (Unit.CM, "1 mm", ("15.2", "cm")),
        (Unit.MM, "1 mm", ("152", "mm")),
        (Unit.IN, "1 mm", ("152", "mm")),
        (Unit.CM, "1/16 in", ("6", "in")),
        (Unit.IN, "1/16 in", ("6", "in")),
    ],
)
def test_the_large_figure_is_of_the_rulers_kind(
    unit: Unit, ruler: str, figure: tuple[str, str]
) -> None:
    """On a metric ruler a crafter's way of writing metric lengths is kept."""
    (moment,) = cuts(ONE.replace("MARK", "6"), ruler, unit)
    assert moment.figure is not None
    assert (moment.figure.text, moment.figure.unit) == figure


@pytest.mark.parametrize(("mark", "told"), [("11 1/4", False), ("11 5/16", True), ("3/4", False)])
def test_a_strip_as_wide_as_may_be_held_is_no_sliver(mark: str, told: bool) -> None:
    """Narrower than 3/4 in is (common practice, no source)."""
    (moment,) = cuts(ONE.replace("MARK", mark), "1/16 in")
    assert any("Narrow" in text for text in moment.cautions) == told
