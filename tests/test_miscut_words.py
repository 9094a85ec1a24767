"""Why something can't have been so is told in words, for every reason that the engine gives."""

from __future__ import annotations

import re
from collections.abc import Callable
from fractions import Fraction
from pathlib import Path

import pytest

from model.language import words_of
from model.language.english.words import English
from model.length import Unit
from model.lengthtext import LengthStyle
from model.manner import Manner
from model.plan import StepKind
from model.reading import read_kit
from model.rescue.choices import cuts_made, should_be, sides_of, unit_typed
from model.rescue.mishap import CannotBe, Mishap, What
from model.rescue.rescue import Rescue
from model.rescue.truth import truth_of
from model.ruler import GRADUATIONS
from model.session import Session
from tests.hand_kits import CUT_AGAIN
from tests.pictures import to_end
from tests.screens import begun
from tests.tables import clock, up_to

INCH = Fraction(254, 10)
ROOT = Path(__file__).resolve().parent.parent


@pytest.fixture
def session(tmp_path: Path) -> Session:
    return Session.start(read_kit(CUT_AGAIN), None, None, clock(), "this is a test")


def words(session: Session, code: str = "en") -> English:
    from model.settings import Settings

    return words_of(session.plan, Settings(language=code).manner(session.plan.kit.unit))


def refused(session: Session, mishap: Mishap) -> CannotBe:
    with pytest.raises(CannotBe) as error:
        truth_of(session.state, mishap)
    return error.value


# Each code with a session in which it comes about.


def _at(step: str) -> Callable[[Session], None]:
    return lambda session: up_to(session, step)


CASES: dict[str, tuple[Callable[[Session], None], Mishap]] = {
    "no such step": (_at("A/2"), Mishap(What.MARK, "Z/1", INCH)),
    "not done": (_at("A/2"), Mishap(What.MARK, "A/3", INCH)),
    "not cut": (_at("A/1"), Mishap(What.TURNED, "A/load")),
    "outside": (_at("A/2"), Mishap(What.MARK, "A/1", 13 * INCH)),
    "not falling": (_at("A/3"), Mishap(What.MARK, "A/1", 5 * INCH)),
    "as it should be": (_at("A/2"), Mishap(What.MARK, "A/1", 9 * INCH)),
    "no such thing": (_at("A/2"), Mishap(What.RUINED, thing="nothing")),
    "not there": (_at("A/2"), Mishap(What.PIECE, "A/load", thing="B/1")),
    "cut before": (_at("A/2"), Mishap(What.MISSING, thing="A")),
    "not of the stack": (_at("A/r/2"), Mishap(What.PIECE, "A/r/load", thing="B")),
}


@pytest.mark.parametrize("code", CASES)
@pytest.mark.parametrize("language", ["en", "nl"])
def test_each_reason_is_told(session: Session, code: str, language: str) -> None:
    go, mishap = CASES[code]
    go(session)
    error = refused(session, mishap)
    assert error.code == code
    said = words(session, language).cannot_be(error, mishap)
    assert len(said) > 20 and said.endswith(".")
    other = CannotBe("a code that nobody knows")
    if code != "no such thing":
        assert said != words(session, language).cannot_be(other, mishap)


class TestReasonsOfDemoKits:
    def test_a_printed_line(self, tmp_path: Path) -> None:
        session = begun("harbour", tmp_path)
        to_end(session)
        step = next(e.step for e in cuts_made(session.state) if e.step.sheet == "F")
        mishap = Mishap(What.MARK, step.id, INCH)
        error = refused(session, mishap)
        assert error.code == "no numbers"
        assert "ruined" in words(session).cannot_be(error, mishap)

    def test_a_tear(self, tmp_path: Path) -> None:
        session = begun("postcard", tmp_path)
        to_end(session)
        tear = next(e.step for e in cuts_made(session.state) if e.step.kind is StepKind.TEAR)
        mishap = Mishap(What.FACE, tear.load)
        error = refused(session, mishap)
        assert error.code == "not to turn"
        assert "not cut in the trimmer" in words(session).cannot_be(error, mishap)

    def test_what_was_punched(self, tmp_path: Path) -> None:
        session = begun("harbour", tmp_path)
        to_end(session)
        mishap = Mishap(What.RUINED, thing="N/r/r/punch1")
        error = refused(session, mishap)
        assert error.code == "by hand"
        assert "by hand" in words(session).cannot_be(error, mishap)


def test_no_reason_of_the_engine_is_left_out() -> None:
    source = "".join(path.read_text("utf-8") for path in (ROOT / "model/rescue").glob("*.py"))
    codes = set(re.findall(r'CannotBe\(\s*"([a-z ]+)"', source)) | {"not falling", "outside"}
    assert codes == {*CASES, "no numbers", "not to turn", "by hand"}


def test_a_later_cut_that_could_not_have_been_made_is_named_with_what_was_left(
    session: Session,
) -> None:
    """Of 12 in cut at 2 only 2 are left: the cut at 6 had nothing to come off."""
    up_to(session, "A/r/load")
    mishap = Mishap(What.MARK, "A/1", 2 * INCH)
    error = refused(session, mishap)
    said = words(session).cannot_be(error, mishap)
    assert said.startswith("Then cut 2 of 3 of sheet A, at 6 could not have been made")
    assert said.endswith("Choose the cut where it happened.")
    assert "only 2 in was left" in said


def test_too_much_names_what_there_was(session: Session) -> None:
    up_to(session, "A/2")
    mishap = Mishap(What.MARK, "A/1", 13 * INCH)
    said = words(session).cannot_be(refused(session, mishap), mishap)
    assert "Only 12 in of paper lay along the ruler" in said


# What is typed and read


def test_a_mark_is_in_the_units_of_the_ruler_and_a_measure_in_those_of_the_crafter() -> None:
    manner = Manner(LengthStyle(Unit.CM), GRADUATIONS["1/16 in"])
    assert unit_typed(manner, What.MARK) is Unit.IN
    assert unit_typed(manner, What.MEASURE) is Unit.CM
    metric = Manner(LengthStyle(Unit.CM), GRADUATIONS["1 mm"])
    assert unit_typed(metric, What.MARK) is Unit.CM


@pytest.mark.parametrize(
    ("text", "answer"),
    [("2", ("way", 2)), ("way 2", ("way", 2)), ("Show 1", ("show", 1)), ("ways", ("ways", 0)),
     ("blah 2", ("", 2)), ("way x", ("way", 0)), ("", ("", 0))],
)  # fmt: skip
def test_what_is_typed_of_ways(session: Session, text: str, answer: tuple[str, int]) -> None:
    assert words(session).heard_way(text) == answer


def test_what_is_typed_of_ways_in_dutch(session: Session) -> None:
    dutch = words(session, "nl")
    assert dutch.heard_way("manier 2") == ("way", 2)
    assert dutch.heard_way("toon 1") == ("show", 1)
    assert dutch.heard_what("ontbreekt B") == (What.MISSING, "B")
    assert dutch.heard_cut("snede 2 maat 9") == (2, "maat 9")


def test_a_cut_and_what_went_wrong_are_heard_at_once(session: Session) -> None:
    english = words(session)
    assert english.heard_cut("cut 2 mark 9 1/4") == (2, "mark 9 1/4")
    assert english.heard_what("mark 9 1/4") == (What.MARK, "9 1/4")
    assert english.heard_what("9 1/4") == (None, "9 1/4")


# What is so


def test_a_thing_is_told_by_its_true_size_and_how_much_it_is_off(session: Session) -> None:
    up_to(session, "A/2")
    rescue = Rescue(session, Mishap(What.MARK, "A/1", 9 * INCH - INCH / 4))
    said = [words(session).touched(each) for each in rescue.touched]
    assert said[0] == (
        "mat (3 × 12), in pocket 1·2: came out 3¼ × 12, ¼ in too wide. It fits nothing as it is."
    )
    assert said[1] == "What is in the trimmer is 8¾ × 12 now."


def test_a_side_is_too_long_or_too_wide_as_one_sees_it(session: Session) -> None:
    up_to(session, "A/2")
    said = {}
    for code in ("en", "nl"):
        rescue = Rescue(session, Mishap(What.MARK, "A/1", INCH * 3 / 2))
        first = words(session, code).touched(rescue.touched[0])
        rescue = Rescue(session, Mishap(What.MARK, "A/1", 10 * INCH))
        said[code] = first, words(session, code).touched(rescue.touched[0])
    assert "10½ × 12, 7½ in too wide." in said["en"][0]
    assert "2 × 12, 1 in too narrow." in said["en"][1]
    assert "10½ × 12, 7½ in te breed." in said["nl"][0]
    assert "2 × 12, 1 in te smal." in said["nl"][1]


def test_no_scrap_is_said_to_fit_nothing(session: Session) -> None:
    to_end(session)
    rescue = Rescue(session, Mishap(What.MARK, "A/r/r/1", INCH * 5 / 2))
    for code, ended in (("en", "too narrow."), ("nl", "te smal.")):
        scrap, quarter = (words(session, code).touched(each) for each in rescue.touched)
        assert scrap.endswith(ended)
        assert not quarter.endswith(("too wide.", "te breed."))  # that it fits nothing follows


def test_what_was_taken_for_one_just_like_it_is_not_gone(session: Session) -> None:
    to_end(session)
    rescue = Rescue(session, Mishap(What.PIECE, "A/r/2/load", thing="A/r/1"))
    assert (rescue.touched, rescue.lost) == ((), ())


def test_what_should_have_been_is_what_the_sentence_of_the_step_said(session: Session) -> None:
    up_to(session, "A/2")
    (made,) = cuts_made(session.state)
    assert words(session).cut_named(made.step) == "cut 1 of 3 of sheet A, at 9"
    off, stays = sides_of(made.step)
    assert should_be(made.step, What.MEASURE, off) == 3 * INCH
    assert should_be(made.step, What.MEASURE, stays) == 9 * INCH
