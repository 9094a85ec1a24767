"""Sentences for the ear: no sign that a voice skips or spells, and what is heard is understood."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from model.language.english.ear import spoken, written
from model.length import Unit, parse_length
from model.lengthtext import LengthStyle, write_length, write_size
from model.query import read_query
from model.settings import Settings
from tests.plain_lines import Sitting
from tests.screens import begun

SIGNS = frozenset(" .,:;?!'\"()-")
"""The signs that may occur: those of punctuation."""


def odd(text: str) -> set[str]:
    """What stands in a text that is no letter, digit or sign of punctuation."""
    return {char for char in text if not (char.isalpha() or char.isdecimal() or char in SIGNS)}


# By hand, from what each sign means.
@pytest.mark.parametrize(
    ("shown", "heard"),
    [
        ("rope border (1½ × 12)", "rope border (1 and a half by 12)"),
        ("4 x 6 and 4x6", "4 by 6 and 4 by 6"),
        ("mark 10 1/2 in. Hold it at 10½", "mark 10 and a half inches. Hold it at 10 and a half"),
        ("16 in of ribbon, 1 in of it", "16 inches of ribbon, 1 inch of it"),
        ("showing ⅛ in on either side", "showing an eighth of an inch on either side"),
        ("its 8 in side along", "its 8 inch side along"),
        ("½ in", "half an inch"),
        ("9 7/16", "9 and 7 sixteenths"),
        ("~1/32 in off", "about a thirty-second of an inch off"),
        ("~57 × ~203 mm", "about 57 by about 203 millimetres"),
        ("1 mm, 24.1 cm", "1 millimetre, 24.1 centimetres"),
        ("1 h 05 min left", "1 hour 5 minutes left"),
        ("4 sq in = 1 sq in + scraps", "4 square inches is 1 square inch plus scraps"),
        ("File 1 mat in 3·4.", "File 1 mat in 3-4."),
        ("Count 2 in 7", "Count 2 in 7"),
        ("2 × too many, 1 × a scrap", "2 times: too many, 1 time: a scrap"),
        ('reads "1984", 9 1/2" long', 'reads "1984", 9 and a half inches long'),
        ("up ↑ → ▸ ✓ [x]", "up to (x)"),
        ("pens & and/or paper", "pens and or paper"),
        ("2/7", "2 over 7"),
    ],
)  # fmt: skip
def test_signs_that_bear_meaning_are_words(shown: str, heard: str) -> None:
    assert spoken(shown) == heard


def test_what_is_exact_is_kept() -> None:
    path = "/home/a b/1/2/x·y  é=3.toml"
    assert spoken(f"It is 1/2, in {path}, ½.", path) == f"It is a half, in {path}, a half."
    assert spoken("no such thing", path) == "no such thing"


@given(st.text(max_size=60))
def test_nothing_but_letters_digits_and_punctuation_is_left(text: str) -> None:
    heard = spoken(text.replace("\ue000", ""))
    assert not {char for char in heard if not (char.isalnum() or char in SIGNS)}
    assert heard == " ".join(heard.split())


SIXTY_FOURTHS = st.integers(1, 64 * 30).map(lambda n: Fraction(n, 64) * Fraction(254, 10))


@given(SIXTY_FOURTHS, st.booleans())
def test_a_length_that_was_heard_can_be_typed(x: Fraction, unit: bool) -> None:
    heard = spoken(write_length(x, LengthStyle(Unit.IN), with_unit=unit))
    assert not odd(heard)
    typed = written(heard).replace("inches", "in").replace("inch", "in")
    assert parse_length(typed, Unit.IN) == x


@given(SIXTY_FOURTHS, SIXTY_FOURTHS, st.sampled_from(Unit))
def test_a_size_that_was_heard_finds_what_it_is_of(x: Fraction, y: Fraction, unit: Unit) -> None:
    style = LengthStyle(unit)
    shown, heard = write_size(x, y, style), spoken(write_size(x, y, style))
    assert not odd(heard)
    assert read_query(written(heard), unit)[0] == read_query(shown, unit)[0]


@pytest.mark.parametrize(
    "words", ["half moon", "teal half", "a quarter turn to 3", "the sixth strip", "3 x 8"]
)
def test_words_that_are_no_measure_stay(words: str) -> None:
    assert written(words) == words


@pytest.mark.parametrize("kit", ["postcard", "harbour", "cards"])
@pytest.mark.parametrize("units", ["kit", "mm", "in"])
def test_a_whole_run_has_no_sign_that_a_voice_spells(kit: str, units: str, tmp_path: Path) -> None:
    sitting = Sitting(begun(kit, tmp_path), ascii=False, teach=True)
    sitting.choices.change("units", units)
    sitting.choices.change("left_handed", units == "mm")
    lists = ("help", "help all", "settings", "pockets", "pocket 1", "where", "pile", "account")
    for number in range(400):
        if sitting.desk.look().over:
            break
        sitting.say("")
        if number % 12 == 0:
            for line in (*lists, "find 4 x 6", "scrap", "warnings", "right"):
                sitting.say(line)
    assert sitting.desk.look().over
    sitting.say("account")
    heard = sitting.says.getvalue().replace("\n", " ")
    assert odd(heard) == set()
    assert Settings().units == "kit"  # nothing was changed for others


def test_a_path_is_the_only_thing_that_is_no_sentence(tmp_path: Path) -> None:
    sitting = Sitting(begun("postcard", tmp_path), ascii=False)
    said = sitting.say("save report")
    path = said.removeprefix("Saved: ").strip()
    assert Path(path).is_file()
    assert not odd(said.replace(path, "").replace("\n", ""))
