"""Lengths are written as the trade writes them, and read back as they were."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from model.length import Unit, parse_length, parse_size
from model.lengthtext import LengthStyle, write_length, write_size

INCH = Fraction(254, 10)
PRETTY = LengthStyle()
ASCII = LengthStyle(ascii=True)
CM = LengthStyle(Unit.CM)
MM = LengthStyle(Unit.MM)
STYLES = st.builds(LengthStyle, st.sampled_from(Unit), st.booleans())
SIXTY_FOURTHS = st.integers(0, 78 * 64).map(lambda n: n * INCH / 64)
MILLIMETRES = st.integers(0, 2000).map(Fraction)
ANY = st.fractions(0, 1990)  # so that what is written of them stays under 2 m


# How fractions of an inch are printed on instruction sheets: common practice, no source.
@pytest.mark.parametrize(
    ("inches", "pretty", "plain"),
    [
        ("19/2", "9½", "9 1/2"),
        ("12", "12", "12"),
        ("0", "0", "0"),
        ("3/4", "¾", "3/4"),
        ("1/4", "¼", "1/4"),
        ("9/8", "1⅛", "1 1/8"),
        ("75/8", "9⅜", "9 3/8"),
        ("5/8", "⅝", "5/8"),
        ("7/8", "⅞", "7/8"),
        ("151/16", "9 7/16", "9 7/16"),
        ("7/16", "7/16", "7/16"),
        ("1/64", "1/64", "1/64"),
        ("35/32", "1 3/32", "1 3/32"),
    ],
)
def test_inches(inches: str, pretty: str, plain: str) -> None:
    x = Fraction(inches) * INCH
    assert write_length(x, PRETTY) == pretty
    assert write_length(x, ASCII) == plain
    assert write_length(x, PRETTY, with_unit=True) == f"{pretty} in"
    assert write_length(x, ASCII, with_unit=True) == f"{plain} in"


def test_metric_is_whole_mm_or_cm_with_one_decimal() -> None:
    assert write_length(Fraction(241), MM) == "241 mm"
    assert write_length(Fraction(241), CM) == "24.1 cm"
    assert write_length(Fraction(240), CM, with_unit=True) == "24.0 cm"
    assert write_length(Fraction(5), CM) == "0.5 cm"
    assert write_length(Fraction(0), MM) == "0 mm"


def test_what_is_not_exact_says_so() -> None:
    # 9 1/2 in = 241.3 mm (1959 agreement: 1 in = 25.4 mm).
    assert write_length(Fraction(2413, 10), MM) == "~241 mm"
    assert write_length(Fraction(2413, 10), CM) == "~24.1 cm"
    # 241 mm = 9.48819 in; 607/64 = 9.48438.
    assert write_length(Fraction(241), PRETTY) == "~9 31/64"
    assert write_length(INCH / 3, PRETTY) == "~21/64"
    assert write_length(INCH / 1000, PRETTY) == "~0"
    # Midway between two sixty-fourths, or two millimetres: the even one.
    assert write_length(INCH * Fraction(33, 128), PRETTY) == "~¼"
    assert write_length(INCH * Fraction(31, 128), PRETTY) == "~¼"
    assert write_length(Fraction(3, 2), MM) == write_length(Fraction(5, 2), MM) == "~2 mm"


def test_below_zero_keeps_its_sign() -> None:
    assert write_length(-INCH / 2, ASCII) == "-1/2"
    assert write_length(Fraction(-13, 2), CM) == "~-0.6 cm"


def test_sizes() -> None:
    mat = (Fraction(7, 2) * INCH, Fraction(11, 2) * INCH)
    assert write_size(*mat, PRETTY) == "3½ × 5½"
    assert write_size(*mat, PRETTY, with_unit=True) == "3½ × 5½ in"
    assert write_size(*mat, ASCII) == "3 1/2 x 5 1/2"
    # ISO 216: A4 is 210 x 297 mm.
    assert write_size(Fraction(210), Fraction(297), MM) == "210 × 297 mm"
    assert write_size(Fraction(210), Fraction(297), CM) == "21.0 × 29.7 cm"
    assert write_size(mat[0], Fraction(127), LengthStyle(Unit.MM, ascii=True)) == "~89 x 127 mm"


@given(SIXTY_FOURTHS, st.booleans(), st.booleans(), st.sampled_from(Unit))
def test_sixty_fourths_read_back(x: Fraction, plain: bool, with_unit: bool, kit: Unit) -> None:
    text = write_length(x, LengthStyle(ascii=plain), with_unit=with_unit)
    assert parse_length(text, kit if with_unit else Unit.IN, zero=True) == x


@given(MILLIMETRES, st.sampled_from([CM, MM]), st.sampled_from(Unit))
def test_millimetres_read_back_whatever_the_kits_unit(
    x: Fraction, style: LengthStyle, kit: Unit
) -> None:
    assert parse_length(write_length(x, style), kit, zero=True) == x


@given(SIXTY_FOURTHS.filter(bool), SIXTY_FOURTHS.filter(bool), st.booleans(), st.booleans())
def test_sizes_in_inches_read_back(w: Fraction, h: Fraction, plain: bool, named: bool) -> None:
    text = write_size(w, h, LengthStyle(ascii=plain), with_unit=named)
    assert parse_size(text, Unit.MM if named else Unit.IN) == (w, h)


@given(MILLIMETRES.filter(bool), MILLIMETRES.filter(bool), STYLES)
def test_metric_sizes_read_back(w: Fraction, h: Fraction, style: LengthStyle) -> None:
    if style.unit is not Unit.IN:
        assert parse_size(write_size(w, h, style), Unit.IN) == (w, h)


@given(ANY, STYLES, st.booleans())
def test_the_nearest_is_written_and_marked(x: Fraction, style: LengthStyle, named: bool) -> None:
    text = write_length(x, style, with_unit=named)
    written = parse_length(text.removeprefix("~"), style.unit, zero=True)
    finest = INCH / 64 if style.unit is Unit.IN else Fraction(1)
    assert abs(written - x) <= finest / 2
    assert text.startswith("~") == (written != x)
    if style.ascii:
        assert text.isascii()
        assert write_size(x, x, style, with_unit=named).isascii()


@given(ANY, STYLES)
def test_only_characters_of_the_trade(x: Fraction, style: LengthStyle) -> None:
    # No emoji and no variation selectors: their width on a terminal is anybody's guess.
    assert set(write_size(x, x, style, with_unit=True)) <= set("0123456789 ./~½¼¾⅛⅜⅝⅞×xincm")
