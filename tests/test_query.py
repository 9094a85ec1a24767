"""What a crafter types to find a piece is read as people write sizes, colours and words."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from model.length import Unit
from model.lengthtext import LengthStyle, write_length
from model.query import MOST_TEXT, Query, read_query

INCH = Fraction(254, 10)


def inches(*sides: str) -> tuple[Fraction, ...]:
    return tuple(Fraction(side) * INCH for side in sides)


@pytest.mark.parametrize(
    ("text", "sides", "words"),
    [
        ("3 x 8 green", ("3", "8"), ("green",)),
        ("3x8", ("3", "8"), ()),
        ("3 X 8", ("3", "8"), ()),
        ("3 by 8", ("3", "8"), ()),
        ("3 × 8", ("3", "8"), ()),
        ("3 * 8", ("3", "8"), ()),
        ("3 8", ("3", "8"), ()),
        ("8½", ("17/2",), ()),
        ("8 1/2", ("17/2",), ()),
        ("8-1/2", ("17/2",), ()),
        ("8 1⁄2", ("17/2",), ()),
        ("3½×5½", ("7/2", "11/2"), ()),
        ("3-1/2x5-1/2 kraft", ("7/2", "11/2"), ("kraft",)),
        (".5 x 3", ("1/2", "3"), ()),
        ("3,5 x 8", ("7/2", "8"), ()),
        ("8", ("8",), ()),
        ("3 x", ("3",), ()),
        ("Hello", (), ("hello",)),
        ("A4 card", (), ("a4", "card")),
        ("the box of 8", ("8",), ("box",)),
        ("x", (), ()),
        ("", (), ()),
        ("0", (), ()),
        ("3/0", (), ()),
        ("it's torn", (), ("it's", "torn")),
    ],
)
def test_without_a_unit_it_is_the_crafters(text, sides, words):
    first = read_query(text, Unit.IN)[0]
    assert first == Query(inches(*sides), Unit.IN if sides else None, words)


@pytest.mark.parametrize(
    ("text", "sides"),
    [
        ("7.5 cm", ("75",)),
        ("7,5cm", ("75",)),
        ("75 mm x 200 mm", ("75", "200")),
        ("75 x 200 mm", ("75", "200")),
        ("75mm x 200", ("75", "200")),
        ('3 x 8"', ("381/5", "1016/5")),
        ("3 in x 8 in", ("381/5", "1016/5")),
        ("3inx8in", ("381/5", "1016/5")),
        ("3 inches by 8 inches", ("381/5", "1016/5")),
    ],
)
def test_a_unit_that_is_written_is_followed(text, sides):
    for unit in Unit:
        readings = read_query(text, unit)
        assert readings[0] == Query(tuple(map(Fraction, sides)), None, ())


def test_other_readings_come_after_the_likeliest():
    sides = [query.sides for query in read_query("3 1/2", Unit.IN)]
    assert sides[0] == inches("7/2")
    assert inches("3", "1/2") in sides
    assert (Fraction(35),) in sides  # in centimetres


def test_millimetres_are_tried_where_inches_would_be_far_too_long():
    assert [q.unit for q in read_query("101 x 152", Unit.IN)] == [Unit.CM, Unit.MM]


def test_a_number_may_belong_to_a_name():
    assert Query((), None, ("strip", "2")) in read_query("strip 2", Unit.IN)


@given(st.text(max_size=3 * MOST_TEXT))
def test_nothing_is_refused(text):
    readings = read_query(text, Unit.IN)
    assert readings
    assert all(len(query.sides) <= 2 for query in readings)


eighths = st.integers(1, 12 * 8).map(lambda n: Fraction(n, 8) * INCH)


@given(eighths, eighths, st.sampled_from(["x", " x ", " by ", "×"]), st.booleans(), st.booleans())
def test_sizes_as_the_table_writes_them_are_read_back(a, b, cross, ascii, unit):
    style = LengthStyle(Unit.IN, ascii)
    text = cross.join(write_length(side, style, with_unit=unit) for side in (a, b))
    assert read_query(text, Unit.IN)[0].sides == (a, b)
