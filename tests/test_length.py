"""Lengths are read exactly, or refused with a reason."""

from __future__ import annotations

import tomllib
import unicodedata
from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from model.length import (
    CORD_LIMIT,
    LIMIT,
    LengthError,
    NumberText,
    Unit,
    parse_cord,
    parse_length,
    parse_size,
)

INCH = Fraction(254, 10)
UNITS = st.sampled_from(Unit)


def inches(whole: int, part: Fraction | int = 0) -> Fraction:
    return (whole + part) * INCH


class TestOutsideFacts:
    def test_an_inch_is_25_4_mm_exactly(self) -> None:
        # International yard and pound agreement, in force 1 July 1959 (US Federal Register of
        # that day: 1 yard = 0.9144 m); hence 1 in = 0.9144 m / 36.
        assert parse_length("1 in", Unit.MM) == Fraction(9144, 10) / 36 == Fraction(254, 10)
        assert parse_cord("1 yd", Unit.MM) == Fraction(9144, 10)
        assert parse_cord("1 ft", Unit.MM) == Fraction(3048, 10)

    def test_a_sixteenth_is_127_eightieths_mm(self) -> None:
        # Follows from the 1959 agreement: 25.4 / 16.
        assert parse_length("1/16", Unit.IN) == Fraction(127, 80)

    def test_only_5_and_10_in_of_the_sixteenths_up_to_12_in_are_whole_mm(self) -> None:
        # Arithmetic: k * 127/80 is whole only where 80 divides k, 127 being prime.
        whole = [
            k for k in range(1, 12 * 16 + 1) if parse_length(f"{k}/16", Unit.IN).denominator == 1
        ]
        assert whole == [5 * 16, 10 * 16]

    def test_metric_units_are_decimal(self) -> None:
        # SI: centi = 1/100, milli = 1/1000 of a metre.
        assert parse_cord("1 m", Unit.IN) == 1000
        assert parse_length("1 cm", Unit.IN) == 10
        assert parse_length("1 mm", Unit.IN) == 1


class TestReading:
    @pytest.mark.parametrize(
        "text",
        [
            "9 1/2", "9-1/2", "9½", "9 ½", "9-½", "9 1⁄2", "9 1∕2", "9\u00a01⁄2", "9\u20091/2",
            "9  1/2", "9 1 / 2", "9‑1/2", "9–1/2", "9.5", "09.50", "19/2", "9 8/16",
            '9 1/2"', "9½″", "9½”", "9 1/2 in", "9 1/2in", "9 1/2 in.", "9½ IN", "9.5 inches",
            "9.5 inch", "  9 1/2  ", "24.13 cm", "241.3 mm", "241 3/10mm",
        ],
    )  # fmt: skip
    def test_nine_and_a_half_inches(self, text: str) -> None:
        assert parse_length(text, Unit.IN) == Fraction(2413, 10)

    @pytest.mark.parametrize(
        ("text", "mm"),
        [("24.1 cm", 241), ("241 mm", 241), ("24½ cm", 245), (".5", Fraction(127, 10))],
    )
    def test_other_usual_forms(self, text: str, mm: Fraction) -> None:
        assert parse_length(text, Unit.IN) == mm

    @pytest.mark.parametrize(("unit", "mm"), [(Unit.IN, 12 * INCH), (Unit.CM, 120), (Unit.MM, 12)])
    def test_the_kits_unit_goes_where_none_is_written(self, unit: Unit, mm: Fraction) -> None:
        assert parse_length("12", unit) == mm
        assert parse_length(12, unit) == mm
        assert parse_length(Decimal(12), unit) == mm
        assert parse_length("12 mm", unit) == 12

    @pytest.mark.parametrize(
        ("text", "part"),
        [
            ("¼", "1/4"), ("½", "1/2"), ("¾", "3/4"), ("⅓", "1/3"), ("⅔", "2/3"), ("⅕", "1/5"),
            ("⅖", "2/5"), ("⅗", "3/5"), ("⅘", "4/5"), ("⅙", "1/6"), ("⅚", "5/6"), ("⅐", "1/7"),
            ("⅛", "1/8"), ("⅜", "3/8"), ("⅝", "5/8"), ("⅞", "7/8"), ("⅑", "1/9"), ("⅒", "1/10"),
        ],
    )  # fmt: skip
    def test_every_fraction_character(self, text: str, part: str) -> None:
        # The Unicode Character Database gives each its value (as a float in Python).
        assert unicodedata.numeric(text) == float(Fraction(part))
        assert parse_length(text, Unit.IN) == Fraction(part) * INCH
        assert parse_length("2" + text, Unit.MM) == 2 + Fraction(part)

    @pytest.mark.parametrize("text", ["2 3/4 inch", "2¾ inch", "2¾", "2 3⁄4"])
    def test_two_and_three_quarters_is_neither_1_5_nor_nearly_6(self, text: str) -> None:
        # Two traps seen in general-purpose libraries: '2 3/4 inch' evaluated as (2 * 3) / 4 = 1.5,
        # and NFKC turning '2¾' into '23⁄4' = 5.75.
        assert parse_length(text, Unit.IN) == inches(2, Fraction(3, 4))

    def test_toml_numbers_keep_their_digits(self) -> None:
        read = tomllib.loads("a = 9.1\nb = 12\nc = 3.0625", parse_float=NumberText)
        assert isinstance(read["a"], NumberText)
        assert parse_length(read["a"], Unit.MM) == Fraction(91, 10) != Fraction(9.1)
        assert parse_length(read["b"], Unit.IN) == inches(12)
        assert parse_length(read["c"], Unit.IN) == inches(3, Fraction(1, 16))

    def test_a_converted_number_from_a_pocket_calculator_reads(self) -> None:
        # ISO 216: A4 is 297 mm high.
        assert abs(parse_length("11.6929133858", Unit.IN) - 297) < Fraction(1, 10**8)

    def test_zero_only_where_it_will_do(self) -> None:
        assert parse_length("0", Unit.IN, zero=True) == 0
        assert parse_length(0, Unit.IN, zero=True) == 0
        assert parse_length(Decimal("-0"), Unit.IN, zero=True) == 0
        for raw in ("0", "0.0", "0/4", "0 mm", 0, Decimal(0)):
            with pytest.raises(LengthError, match="zero"):
                parse_length(raw, Unit.IN)


REFUSED = [
    ("", "no length"),
    ("   ", "no length"),
    ("-5", "negative"),
    ("−5", "negative"),
    ("- 1/2", "negative"),
    ("-½ in", "negative"),
    ("+5", "sign"),
    ("3/0", "divides by zero"),
    ("9 3/0", "divides by zero"),
    ("1e3", "exponent"),
    ("1E3", "exponent"),
    ("1.5e-3", "exponent"),
    ("1_000", "underscore"),
    ("1_0.5", "underscore"),
    ("nan", "not a number"),
    ("-NaN", "not a number"),
    ("inf", "not a number"),
    ("+inf", "not a number"),
    ("٣", "0 to 9"),
    ("９", "0 to 9"),
    ("9²", "0 to 9"),
    ("¹⁄₂", "0 to 9"),
    ("九", "0 to 9"),
    ("Ⅻ in", "0 to 9"),
    ("9 in cm", "two units"),
    ('9"mm', "two units"),
    ("9 cm 5 mm", "two units"),
    ("9 in 4", "one length"),
    ("2001 mm", "more than 2 m"),
    ("79 in", "more than 2 m"),
    ("1 yd", "ribbon and thread"),
    ("1 m", "ribbon and thread"),
    ("1'", "ribbon and thread"),
    ("9 miles", "unknown unit"),
    ("9 x", "unknown unit"),
    ("24,1 cm", "point for decimals"),
    ("1,200 mm", "point for decimals"),
    ("9 3/2", "less than 1"),
    ("9 2/2", "less than 1"),
    ("9.5 1/2", "one length"),
    ("9.5½", "one length"),
    ("9 1/2 1/4", "one length"),
    ("1/2/3", "one length"),
    ("½ 9", "one length"),
    ("9.", "one length"),
    ("9..5", "one length"),
    ("~9", "one length"),
    ("0x10", "not written in decimals"),
    ("0xB", "not written in decimals"),
    ("twelve", "no number"),
    ("in", "no number"),
    ("1/10000", "finer"),
    ("0." + "0" * 12 + "1", "finer"),
    ("9" * 41, "too long"),
]


class TestRefusing:
    @pytest.mark.parametrize(("text", "reason"), REFUSED)
    def test_says_what_was_read_and_what_would_be_right(self, text: str, reason: str) -> None:
        with pytest.raises(LengthError, match=reason) as refusal:
            parse_length(text, Unit.IN)
        error = refusal.value
        assert str(error) == f"{error.what}; {error.remedy}"
        if text.strip():
            assert text.strip()[:20] in error.what
        assert error.remedy

    @pytest.mark.parametrize("text", ["1e3", "nan", "inf", "-1.5", "1_0.5", "+2.5"])
    def test_toml_floats_that_are_no_plain_decimals(self, text: str) -> None:
        number = tomllib.loads(f"a = {text}", parse_float=NumberText)["a"]
        with pytest.raises(LengthError):
            parse_length(number, Unit.IN)

    @pytest.mark.parametrize(
        ("raw", "reason"),
        [
            (True, "true"),
            (False, "false"),
            (-3, "-3"),
            (1.5, "float"),
            (None, "NoneType"),
            ([9], "list"),
            (Decimal("NaN"), "NaN"),
            (Decimal("sNaN"), "NaN"),
            (Decimal("Infinity"), "Infinity"),
            (Decimal("-0.5"), "negative"),
            (Decimal("1E+999999"), "too long"),
            (Decimal("1E-999999"), "finer"),
        ],
    )
    def test_values_that_are_no_lengths(self, raw: object, reason: str) -> None:
        with pytest.raises(LengthError, match=reason) as refusal:
            parse_length(raw, Unit.IN)  # type: ignore[arg-type]
        assert len(str(refusal.value)) < 200

    @pytest.mark.parametrize("power", [12, 5000, 100_000])
    def test_huge_numbers_are_not_quoted_back(self, power: int) -> None:
        for raw in (10**power, -(10**power), Decimal("1" * power)):
            with pytest.raises(LengthError) as refusal:
                parse_length(raw, Unit.IN)
            assert len(str(refusal.value)) < 200

    def test_the_limit_itself_is_allowed(self) -> None:
        assert parse_length("200 cm", Unit.IN) == LIMIT
        assert parse_length(2000, Unit.MM) == LIMIT
        for raw in ("2000.001 mm", 2001, Decimal("2000.1")):
            with pytest.raises(LengthError, match="2 m"):
                parse_length(raw, Unit.MM)

    def test_a_million_characters_are_not_quoted_back(self) -> None:
        for read in (parse_length, parse_cord, parse_size):
            with pytest.raises(LengthError) as refusal:
                read("9 " * 500_000, Unit.IN)
            assert len(str(refusal.value)) < 200

    def test_what_a_terminal_would_obey_is_not_passed_on(self) -> None:
        for text in ("9\x1b[2J", "9 \u202e1/2", "9\x00", "\ud800"):
            with pytest.raises(LengthError) as refusal:
                parse_length(text, Unit.IN)
            assert str(refusal.value).isprintable()

    @given(st.text(max_size=60), UNITS, st.booleans())
    @example("9 1 /", Unit.IN, False)
    def test_no_text_does_more_than_be_refused(self, text: str, unit: Unit, zero: bool) -> None:
        try:
            assert 0 <= parse_length(text, unit, zero=zero) <= LIMIT
        except LengthError as error:
            assert str(error).isprintable()
        try:
            assert 0 < parse_cord(text, unit) <= CORD_LIMIT
        except LengthError as error:
            assert str(error).isprintable()
        try:
            assert all(0 < side <= LIMIT for side in parse_size(text, unit))
        except LengthError as error:
            assert str(error).isprintable()

    @given(st.text("0123456789 /.-½¾⁄\"'″xeinchmydft,_×by", max_size=14), UNITS)
    def test_nor_does_a_text_of_the_right_characters(self, text: str, unit: Unit) -> None:
        for read in (parse_length, parse_cord, parse_size):
            try:
                read(text, unit)
            except LengthError as error:
                assert str(error).isprintable()

    @given(st.integers() | st.decimals(), UNITS)
    def test_nor_does_a_number(self, number: int | Decimal, unit: Unit) -> None:
        try:
            length = parse_length(number, unit, zero=True)
        except LengthError as error:
            assert str(error).isprintable()
        else:
            one = parse_length(1, unit)
            assert length == Fraction(number) * one


class TestExactness:
    @given(
        st.integers(0, 70),
        st.integers(1, 64).flatmap(lambda d: st.tuples(st.integers(0, d - 1), st.just(d))),
        st.sampled_from(
            ["{w} {n}/{d}", "{w}-{n}/{d} in", '{w} {n}⁄{d}"', "{w}\u00a0{n}/{d} inches"]
        ),
    )
    def test_mixed_numbers(self, whole: int, part: tuple[int, int], form: str) -> None:
        n, d = part
        text = form.format(w=whole, n=n, d=d)
        assert parse_length(text, Unit.IN, zero=True) == inches(whole, Fraction(n, d))

    @given(st.decimals(min_value=0, max_value=78, places=6), UNITS)
    def test_decimals_are_read_alike_however_they_come(self, number: Decimal, unit: Unit) -> None:
        # Fraction reads decimal text exactly; Python's own documentation of fractions.Fraction.
        exact = Fraction(str(number)) * parse_length(1, unit)
        assert parse_length(f"{number:f}", unit, zero=True) == exact
        assert parse_length(NumberText(f"{number:f}"), unit, zero=True) == exact
        assert parse_length(number, unit, zero=True) == exact


class TestCord:
    @pytest.mark.parametrize(
        ("text", "mm"),
        [
            ("18", 18 * INCH),
            ("18 in", 18 * INCH),
            ("1 yd", 36 * INCH),
            ("1½ yards", 54 * INCH),
            ("1 yard", 36 * INCH),
            ("2 ft", 24 * INCH),
            ("2 1/2 feet", 30 * INCH),
            ("1 foot", 12 * INCH),
            ("2'", 24 * INCH),
            ("2′", 24 * INCH),
            ("1.5 m", 1500),
            ("100 m", 100_000),
            ("45 cm", 450),
        ],
    )
    def test_ribbon_comes_in_more_units(self, text: str, mm: Fraction) -> None:
        assert parse_cord(text, Unit.IN) == mm

    def test_numbers_are_in_the_kits_unit(self) -> None:
        assert parse_cord(45, Unit.CM) == parse_cord(NumberText("45.0"), Unit.CM) == 450

    @pytest.mark.parametrize(
        ("text", "reason"),
        [
            ("101 m", "more than 100 m"),
            ("0", "zero"),
            ("5' 6\"", "two units"),
            ("3 ft 6 in", "two units"),
            ("2 km", "write in, cm, mm, m, yd or ft"),
            ("-1 m", "negative"),
        ],
    )
    def test_its_own_limits(self, text: str, reason: str) -> None:
        with pytest.raises(LengthError, match=reason):
            parse_cord(text, Unit.IN)


class TestSize:
    @pytest.mark.parametrize(
        ("text", "size"),
        [
            ("12 x 12", (inches(12), inches(12))),
            ("12x12", (inches(12), inches(12))),
            ("12X12", (inches(12), inches(12))),
            ("8.5 × 11", (inches(8, Fraction(1, 2)), inches(11))),
            ("8½ by 11", (inches(8, Fraction(1, 2)), inches(11))),
            ("3 1/2 x 5 1/2 in", (inches(3, Fraction(1, 2)), inches(5, Fraction(1, 2)))),
            ('12" x 12"', (inches(12), inches(12))),
            ("12inx12in", (inches(12), inches(12))),
            ("12 in x 12", (inches(12), inches(12))),
            ("210 x 297 mm", (Fraction(210), Fraction(297))),
            ("21 x 29.7 cm", (Fraction(210), Fraction(297))),
            ("210 mm x 29.7 cm", (Fraction(210), Fraction(297))),
        ],
    )
    def test_the_usual_forms(self, text: str, size: tuple[Fraction, Fraction]) -> None:
        assert parse_size(text, Unit.IN) == size

    def test_the_kits_unit(self) -> None:
        assert parse_size("210 x 297", Unit.MM) == (Fraction(210), Fraction(297))

    @pytest.mark.parametrize(
        ("text", "reason"),
        [
            ("", "two lengths"),
            ("12", "two lengths"),
            ("12 x", "two lengths"),
            ("x 12", "two lengths"),
            ("12 x 12 x 1", "two lengths"),
            ("12 12", "two lengths"),
            ("12 x 0", "zero"),
            ("12 x -3", "negative"),
            ("3/0 x 12", "divides by zero"),
            ("12 x 12 ft", "ribbon and thread"),
            ("2 x 3000 mm", "more than 2 m"),
            ("30 cm x 12", "after its first length only"),
            ("1" * 200 + " x 12", "too long"),
        ],
    )
    def test_refusals(self, text: str, reason: str) -> None:
        with pytest.raises(LengthError, match=reason):
            parse_size(text, Unit.IN)

    @pytest.mark.parametrize("raw", [12, None, True, Decimal(3), ["12", "12"]])
    def test_no_text_is_no_size(self, raw: object) -> None:
        with pytest.raises(LengthError, match="no size"):
            parse_size(raw, Unit.IN)  # type: ignore[arg-type]
