"""A loose piece is found by what the ruler says, its colour, and words."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from model.find import COLOUR_SYNONYMS, Finder, colour_asked
from model.folders import demo_folder
from model.found import Found
from model.language.english.words import WORDS, English
from model.length import Unit
from model.manner import Manner
from model.plan import Role
from model.query import read_query
from model.reading import load_kit, read_kit
from model.session import Session
from model.sought import TOLERANCE
from model.spot import Spot
from model.state import State
from tests.find_queries import queries

INCH = Fraction(254, 10)
KIT = """
dryfit = 1
title = "Loose ends"
note = "Invented."
page = "12 x 12"
pages = 4
scraps = 0

[[paper]]
name = "fern stripe"
kind = "print"
face = { name = "fern stripe", colour = "seagreen" }
reverse = "ivory"

[[sheet]]
name = "A"
paper = "fern stripe"
size = "12 x 12"

[[precut]]
name = "photo mat"
face = "white"
size = "4 x 6"
to = { "1·2" = 2, "3·4" = 1 }

[[precut]]
name = "wide mat"
face = "white"
size = "4 1/4 x 6 1/4"
to = "3·4"

[[precut]]
name = "greeting"
face = "navy"
size = "2 x 3"
words = "hello friend"
to = "1·2"

[[ribbon]]
name = "twine"
colour = "tan"
length = "24"
to = { "1·2" = "10", "3·4" = "14" }

[[set_aside]]
name = "foam dots"
pages = [2, 3]

[[piece]]
name = "border"
to = "1·2"

[[piece]]
name = "block"
to = "3·4"

[[step]]
trim = "A"
marks = [9]
gives = "border"
rest = "block"
"""


@pytest.fixture
def session() -> Session:
    read = read_kit(KIT)
    assert read.plan is not None, read.findings
    return Session.start(read, None, None)


def names(session: Session, text: str, unit: Unit = Unit.IN) -> list[str]:
    found = Finder(session.plan).find(text, unit, session.state)
    return [match.sought.item.name for match in found.matches] if found.exact else []


class TestWhatFits:
    @pytest.mark.parametrize(
        "text",
        ["4 x 6", "6x4", "4 by 6", "6 4 white", "mat 4 x 6", "10.2 x 15.2 cm", "102 x 152 mm"],
    )
    def test_a_size_either_way_round(self, session, text):
        assert names(session, text)[0] == "photo mat"

    def test_a_metric_ruler_is_understood_without_a_unit(self, session):
        assert names(session, "102 x 152") == ["photo mat"]
        assert names(session, "10.2 x 15.2") == ["photo mat"]

    def test_within_a_sixteenth_and_no_more(self, session):
        assert names(session, "4 1/16 x 5 15/16") == ["photo mat"]
        assert names(session, "4 1/8 x 6 1/8") == []

    def test_one_side_alone(self, session):
        assert set(names(session, "4 1/4")) == {"wide mat"}
        assert set(names(session, "12")) == {"A", "border", "block"}

    def test_a_ribbon_by_its_length(self, session):
        assert names(session, "14 tan") == ["twine"]

    @pytest.mark.parametrize(
        ("text", "name"),
        [("hello", "greeting"), ("friend", "greeting"), ("greet", "greeting"), ("fern", "border")],
    )
    def test_words_on_it_or_its_names(self, session, text, name):
        assert name in names(session, text)

    def test_a_colour_in_ordinary_words(self, session):
        assert set(names(session, "green")) == {"A", "border", "block"}
        assert names(session, "dark blue 2 x 3") == ["greeting"]
        assert names(session, "navy") == ["greeting"]
        assert names(session, "blue") == ["greeting"]

    def test_the_reverse_counts_but_comes_later(self, session):
        assert names(session, "3 x 12 cream") == ["border"]

    def test_nothing_asked_finds_nothing(self, session):
        assert names(session, "") == []
        assert names(session, "x") == []


class TestNone:
    def test_an_honest_none_with_the_nearest_and_by_how_much(self, session):
        found = Finder(session.plan).find("4 1/8 x 6 1/8", Unit.IN, session.state)
        assert not found.exact
        nearest = found.matches[:2]
        assert {match.sought.item.name for match in nearest} == {"photo mat", "wide mat"}
        assert {match.off for match in nearest} == {INCH / 8}
        assert {match.misses for match in nearest} == {("size",)}

    def test_it_says_what_does_not_fit(self, session):
        found = Finder(session.plan).find("4 x 6 green", Unit.IN, session.state)
        assert not found.exact
        assert found.matches[0].sought.item.name == "photo mat"
        assert found.matches[0].misses == ("colour",)

    def test_a_slip_of_a_key_in_a_word(self, session):
        found = Finder(session.plan).find("gretting", Unit.IN, session.state)
        assert [match.sought.item.name for match in found.matches] == ["greeting"]


class TestWhichOne:
    def test_what_lies_on_the_pile_comes_before_what_is_filed(self, session):
        while session.state.top is None:
            session.next()
        session.next()  # the border is filed, the block is on the pile
        assert names(session, "12 green")[0] == "block"
        found = Finder(session.plan).find("12", Unit.IN, session.state)
        assert found.matches[0].place == Spot.PILE

    def test_where_it_is_and_where_it_belongs(self, session):
        state = session.state
        found = Finder(session.plan).find("4 1/4 x 6 1/4", Unit.IN, state)
        (match,) = found.matches
        assert (match.place, match.belongs) == (Spot.NOWHERE, 1)
        assert match.copy == "wide mat#1"


@pytest.mark.parametrize("path", sorted(demo_folder().glob("*.toml")), ids=lambda p: p.stem)
def test_misread_by_a_graduation_the_right_piece_comes_first(path):
    plan = read_kit(path.read_text("utf-8")).plan
    assert plan is not None
    finder, state = Finder(plan), State(plan)
    asked = list(queries(plan, 300, seed=7))
    decidable = [each for each in asked if each.decidable]
    first = 0
    for each in asked:
        found = finder.find(each.text, plan.kit.unit, state, most=50)
        assert each.sought in [match.sought for match in found.matches], each.text
        first += each.decidable and found.matches[0].sought == each.sought
    assert len(decidable) > 100
    assert first >= 0.95 * len(decidable)


@given(st.text(max_size=60))
def test_anything_may_be_typed(text):
    plan = read_kit(KIT).plan
    assert plan is not None
    found = Finder(plan).find(text, Unit.IN, State(plan), most=5)
    assert len(found.matches) <= 5
    if found.exact:
        assert all(not match.misses for match in found.matches)
        assert all(match.off <= 4 * TOLERANCE for match in found.matches)


@pytest.mark.parametrize(
    ("word", "colour"),
    [
        ("green", "green"), ("greenish", "green"), ("gray", "grey"), ("navy", "blue"),
        ("sage", "green"), ("reddish", "red"), ("bluish", "blue"), ("steelblue", "blue"),
        ("boat", ""), ("3", ""), ("", ""),
    ],
)  # fmt: skip
def test_ordinary_words_for_colours(word, colour):
    assert colour_asked(word) == colour


def test_every_synonym_means_a_colour_that_pieces_have():
    from model.colour import COLOUR_WORDS

    assert set(COLOUR_SYNONYMS.values()) <= set(COLOUR_WORDS)


def test_a_companion_goes_with_its_piece() -> None:
    """It was once told 'to be cut again', since it has no pocket of its own."""
    read = read_kit((demo_folder() / "harbour.toml").read_text("utf-8"))
    assert read.plan is not None
    session = Session.start(read, None, None)
    words = English(session.plan, Manner())
    found = Finder(session.plan).find("lifebuoy", Unit.IN, session.state)
    name, goes, _ = words.match(found.matches[0], session.state)
    assert (name, goes) == ("lifebuoy", "filed with boat band")


class TestWhatLiesAside:
    """Set-asides are no pieces: only their names are known, and the pages that call for them."""

    @pytest.mark.parametrize("text", ["foam", "dots", "foam dots", "FOAM d"])
    def test_it_is_told_by_its_name_which_pages_call_for_it(self, session, text):
        found = Finder(session.plan).find(text, Unit.IN, session.state)
        assert [aside.name for aside in found.asides] == ["foam dots"]
        said = English(session.plan, Manner()).found(found)
        assert said.startswith("Set aside: foam dots, for pages 2 and 3.")

    @pytest.mark.parametrize("text", ["foam 4 x 6", "green", "2", "", "dotsy"])
    def test_nothing_lies_aside_that_was_not_typed(self, session, text):
        assert not Finder(session.plan).find(text, Unit.IN, session.state).asides


class TestHarbourHalfWay:
    """What a crafter typed at the large kit, 83 steps in."""

    @pytest.fixture
    def half_way(self) -> Session:
        session = Session.start(load_kit(demo_folder() / "harbour.toml"), None, None)
        for _ in range(83):
            assert session.next().taken
        return session

    def found(self, session: Session, text: str) -> Found:
        return Finder(session.plan).find(text, Unit.IN, session.state)

    def test_off_on_one_side_is_nearer_than_on_both(self, half_way):
        found = self.found(half_way, "11 x 11")
        assert not found.exact
        named = [match.sought.item.name for match in found.matches]
        assert named[0] == "chart wide"  # 11 x 12

    def test_what_is_cut_up_comes_after_what_is_as_far_off_and_is_there(self, half_way):
        matches = self.found(half_way, "11 x 11").matches
        # Sheets of 12 x 12: all are as far off.
        gone = [m.place == Spot.TAKEN for m in matches if m.sought.item.role is Role.SHEET]
        assert any(gone)
        assert gone == sorted(gone)

    def test_a_whole_name_comes_first_whatever_lies_loose(self, half_way):
        first = self.found(half_way, "navy strip").matches[0]
        assert first.sought.item.name == "navy strip"
        assert first.place >= 0

    def test_what_is_named_so_comes_before_what_is_of_such_paper(self, half_way):
        named = [match.sought.item.name for match in self.found(half_way, "sand").matches]
        assert "sand square" in named[:5]
        assert all("sand" in name for name in named[:5])

    def test_whole_centimetres_are_rounded(self, half_way):
        named = [match.sought.item.name for match in self.found(half_way, "10cm").matches]
        assert {"sand row", "sand square", "rope mat"} <= set(named)
        assert "rope mat" in [
            match.sought.item.name for match in self.found(half_way, "10 x 15 cm").matches
        ]
        # A decimal was read off the ruler; 4 in is 10.16 cm.
        off = self.found(half_way, "10.0 x 15.0 cm")
        assert not off.exact


@pytest.mark.parametrize(
    ("text", "unit", "slack"),
    [
        ("10cm", Unit.IN, 5),
        ("10 x 15 cm", Unit.IN, 5),
        ("10 x 15", Unit.CM, 5),
        ("10 x 15.2 cm", Unit.IN, 0),
        ("10 x 15", Unit.IN, 0),
        ("100 mm", Unit.CM, 0),
        ("4 in", Unit.CM, 0),
        ("white", Unit.CM, 0),
    ],
)
def test_only_whole_centimetres_are_taken_for_rounded(text, unit, slack):
    assert read_query(text, unit)[0].slack == slack


@given(st.fractions(1, 30).filter(lambda x: x.denominator != 1))
def test_a_side_is_found_by_its_centimetres_rounded(cm):
    """Rounding to the nearest whole number is off by at most a half: never more than 5 mm."""
    assert abs(10 * cm - 10 * round(cm)) <= read_query(f"{round(cm)} cm", Unit.IN)[0].slack


def test_a_third_size_is_not_dropped_in_silence(session):
    finder = Finder(session.plan)
    words = WORDS(session.plan, Manner())
    three = words.found(finder.find("6 by 4 by 3", Unit.IN, session.state))
    assert three.startswith("Of 3 sizes only the first 2 are looked for. ")
    assert "sizes" not in words.found(finder.find("6 by 4", Unit.IN, session.state))
