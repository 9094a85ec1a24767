"""Marks are read as a ruler shows them, each by itself."""

from __future__ import annotations

from fractions import Fraction
from itertools import accumulate, pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from model.length import Unit, parse_length, parse_size
from model.lengthtext import LengthStyle
from model.ruler import (
    GRADUATIONS,
    HAIR,
    Graduation,
    read_chain,
    read_mark,
    say_reading,
    ticks,
)

INCH = Fraction(254, 10)
MM = GRADUATIONS["1 mm"]
SIXTEENTH = GRADUATIONS["1/16 in"]
EIGHTH = GRADUATIONS["1/8 in"]
RULERS = st.sampled_from(list(GRADUATIONS.values()))
LENGTHS = st.fractions(0, 1990)  # so that what is read of them stays under 2 m


def chain(width: str, times: int) -> list[Fraction]:
    """The marks of so many pieces of one width, counted from the held edge."""
    return list(accumulate([parse_length(width, Unit.IN)] * times))


class TestOutsideFacts:
    @pytest.mark.parametrize(
        ("width", "times", "millimetres"),
        [
            # 1 in = 25.4 mm (1959 agreement), each mark to the nearest: 69.85, 139.7, 209.55, ...
            ("2 3/4", 4, [70, 140, 210, 279]),
            ("1/4", 8, [6, 13, 19, 25, 32, 38, 44, 51]),
        ],
    )
    def test_chains_in_millimetres(self, width: str, times: int, millimetres: list[int]) -> None:
        assert [r.shown for r in read_chain(chain(width, times), MM)] == millimetres

    def test_twelve_inches_end_at_305_mm(self) -> None:
        # 304.8 mm (1959 agreement). Twelve widths of 25 mm would have ended at 300.
        assert read_chain(chain("1", 12), MM)[-1].shown == 305

    @pytest.mark.parametrize(
        ("low", "high", "step", "read"),
        # NIST Handbook 44, Appendix A, section 10.3, its own examples (from memory): midway
        # between 471 and 472 is read 472; between 474 and 475, 474; between 470 and 475, 470.
        [(471, 472, 1, 472), (474, 475, 1, 474), (470, 475, 5, 470)],
    )
    def test_midway_the_even_graduation_is_read(
        self, low: int, high: int, step: int, read: int
    ) -> None:
        ruler = Graduation("scale", Fraction(step), Unit.MM)
        assert read_mark(Fraction(low + high, 2), ruler).shown == read

    def test_nearer_to_one_graduation_that_one_is_read(self) -> None:
        # NIST Handbook 44, Appendix A, section 10.3 (from memory): the closer graduation.
        a_little = Fraction(1, 1000)
        assert read_mark(Fraction(943, 2) - a_little, MM).shown == 471
        assert read_mark(Fraction(949, 2) + a_little, MM).shown == 475

    def test_midway_between_sixteenths_too(self) -> None:
        # The same rule counted in graduations: 1/32 lies between 0/16 and 1/16, 3/32 between
        # 1/16 and 2/16.
        assert read_mark(INCH / 32, SIXTEENTH).shown == 0
        assert read_mark(INCH * 3 / 32, SIXTEENTH).shown == INCH / 8
        assert read_mark(INCH * 5 / 32, SIXTEENTH).shown == INCH / 8

    @pytest.mark.parametrize(
        "sheets",
        [
            # ISO 216:2007, main A and B series, in mm; typed from memory and compared with a
            # public copy of the table (encyclopedia.kids.net.au/page/is/ISO_216).
            [
                "841 x 1189", "594 x 841", "420 x 594", "297 x 420", "210 x 297", "148 x 210",
                "105 x 148", "74 x 105", "52 x 74", "37 x 52", "26 x 37",
            ],
            [
                "1000 x 1414", "707 x 1000", "500 x 707", "353 x 500", "250 x 353", "176 x 250",
                "125 x 176", "88 x 125", "62 x 88", "44 x 62", "31 x 44",
            ],
        ],
    )  # fmt: skip
    def test_halving_a_sheet_at_the_trimmer_gives_the_iso_sizes(self, sheets: list[str]) -> None:
        # Halves are taken down to the millimetre: where the middle lies between two lines, the
        # smaller of the two pieces of paper is the next size.
        for whole, half in pairwise(sheets):
            short, long = parse_size(whole, Unit.MM)
            on_the_bed = read_mark(long / 2, MM).shown
            assert (min(on_the_bed, long - on_the_bed), short) == parse_size(half, Unit.MM)


class TestReading:
    def test_the_rulers_one_may_choose(self) -> None:
        assert set(GRADUATIONS) == {"1/16 in", "1/8 in", "1/32 in", "1 mm"}
        for name, ruler in GRADUATIONS.items():
            assert ruler.name == name
            assert ruler.step == parse_length(name, Unit.IN)

    def test_a_mark_on_the_ruler_has_no_error(self) -> None:
        reading = read_mark(INCH * Fraction(75, 8), SIXTEENTH)
        assert reading.shown == reading.exact
        assert reading.error == 0
        assert say_reading(reading, LengthStyle()) == "9⅜"

    @pytest.mark.parametrize(
        ("sixty_fourths", "ruler", "said"),
        [
            (9 * 64 + 25, SIXTEENTH, "9⅜, a hair over"),
            (9 * 64 + 23, SIXTEENTH, "9⅜, a hair under"),
            (9 * 64 + 26, SIXTEENTH, "9⅜, half a mark over"),
            (9 * 64 + 22, SIXTEENTH, "9⅜, half a mark under"),
            (9 * 64 + 26, EIGHTH, "9⅜, a hair over"),
            (9 * 64 + 27, EIGHTH, "9⅜, nearly half a mark over"),
            (9 * 64 + 21, EIGHTH, "9⅜, nearly half a mark under"),
            (9 * 64 + 28, EIGHTH, "9½, half a mark under"),
            (9 * 64 + 25, GRADUATIONS["1/32 in"], "9⅜, half a mark over"),
        ],
    )
    def test_the_error_is_said(self, sixty_fourths: int, ruler: Graduation, said: str) -> None:
        reading = read_mark(sixty_fourths * INCH / 64, ruler)
        assert say_reading(reading, LengthStyle()) == said
        plain = said.replace("⅜", " 3/8").replace("½", " 1/2")
        assert say_reading(reading, LengthStyle(ascii=True)) == plain

    def test_a_ruler_of_the_other_kind_is_read_in_its_own_unit(self) -> None:
        half = INCH * Fraction(19, 2)  # 241.3 mm
        assert say_reading(read_mark(half, MM), LengthStyle()) == "241 mm, a hair over"
        assert say_reading(read_mark(half, MM), LengthStyle(Unit.CM)) == "24.1 cm, a hair over"
        assert say_reading(read_mark(half, SIXTEENTH), LengthStyle(Unit.MM)) == "9½ in"
        assert say_reading(read_mark(half, SIXTEENTH), LengthStyle()) == "9½"

    @given(LENGTHS, RULERS)
    def test_the_nearest_graduation(self, x: Fraction, ruler: Graduation) -> None:
        reading = read_mark(x, ruler)
        count = reading.shown / ruler.step
        assert count.denominator == 1
        assert reading.exact == x == reading.shown + reading.error
        assert 2 * abs(reading.error) <= ruler.step
        if 2 * abs(reading.error) == ruler.step:
            assert count % 2 == 0

    @given(st.integers(0, 3000), RULERS)
    def test_every_tie_goes_to_the_even_graduation(self, count: int, ruler: Graduation) -> None:
        reading = read_mark((count + Fraction(1, 2)) * ruler.step, ruler)
        assert reading.shown == (count + count % 2) * ruler.step

    @given(st.integers(0, 3000), RULERS)
    def test_a_graduation_is_read_as_itself(self, count: int, ruler: Graduation) -> None:
        assert read_mark(count * ruler.step, ruler).error == 0

    @given(LENGTHS, RULERS, st.builds(LengthStyle, st.sampled_from(Unit), st.booleans()))
    def test_what_is_said_holds(self, x: Fraction, ruler: Graduation, style: LengthStyle) -> None:
        reading = read_mark(x, ruler)
        mark, _, how = say_reading(reading, style).partition(", ")
        assert parse_length(mark, style.unit, zero=True) == reading.shown
        assert bool(how) == (reading.error != 0)
        assert how.endswith("over") == (x > reading.shown)
        assert how.endswith("under") == (x < reading.shown)
        if how.startswith("a hair"):
            assert abs(reading.error) <= HAIR


class TestChains:
    @given(st.lists(st.fractions(Fraction(1, 10), 60), min_size=1, max_size=200), RULERS)
    def test_errors_never_add_up(self, widths: list[Fraction], ruler: Graduation) -> None:
        marks = list(accumulate(widths))
        readings = read_chain(marks, ruler)
        assert [reading.exact for reading in readings] == marks
        for reading in readings:
            assert 2 * abs(reading.error) <= ruler.step
        for (one, two), width in zip(pairwise(readings), widths[1:], strict=True):
            assert abs((two.shown - one.shown) - width) <= ruler.step

    @given(st.lists(LENGTHS, max_size=30), RULERS)
    def test_marks_stay_in_order(self, marks: list[Fraction], ruler: Graduation) -> None:
        shown = [reading.shown for reading in read_chain(sorted(marks, reverse=True), ruler)]
        assert shown == sorted(shown, reverse=True)

    def test_rounding_each_width_would_have_drifted(self) -> None:
        widths = [parse_length("1/4", Unit.IN)] * 8
        drifted = sum(read_mark(width, MM).shown for width in widths)
        assert drifted == 48
        assert read_chain(accumulate(widths), MM)[-1].shown == 51

    def test_no_marks_no_readings(self) -> None:
        assert read_chain([], MM) == ()


class TestUnfit:
    """Common practice, no source: a ruler's zero is at the held edge, and nothing is cut there."""

    @staticmethod
    def unfit(marks: list[str], edge: str = "12", ruler: Graduation = EIGHTH) -> list[bool]:
        at = [parse_length(mark, Unit.IN) for mark in marks]
        readings = read_chain(at, ruler, parse_length(edge, Unit.IN))
        return [reading.unfit for reading in readings]

    @pytest.mark.parametrize(
        ("marks", "unfit"),
        [
            (["9", "3"], [False, False]),
            (["9 1/16", "3"], [False, False]),  # far, but a line of its own
            (["1/16"], [True]),  # read as 0
            (["1/8", "1/16"], [False, True]),
            (["3/32"], [False]),  # read as 1/8
            (["3 1/16", "3"], [True, False]),  # the one that is on its line stays there
            (["3 1/32", "2 31/32"], [True, True]),
            (["11 31/32"], [True]),  # read as the paper's own edge
        ],
    )
    def test_marks_without_a_line_of_their_own(self, marks: list[str], unfit: list[bool]) -> None:
        assert self.unfit(marks) == unfit
        assert not any(self.unfit(marks, ruler=GRADUATIONS["1/32 in"]))

    def test_where_the_edge_is_not_known_it_is_not_asked(self) -> None:
        (reading,) = read_chain([parse_length("11 31/32", Unit.IN)], EIGHTH)
        assert not reading.unfit

    @pytest.mark.parametrize(
        ("mark", "far"), [("9 1/16", True), ("9 1/32", False), ("9 3/64", True), ("9", False)]
    )
    def test_more_than_a_hair(self, mark: str, far: bool) -> None:
        assert read_mark(parse_length(mark, Unit.IN), EIGHTH).far == far

    @given(LENGTHS, st.sampled_from([MM, SIXTEENTH, GRADUATIONS["1/32 in"]]))
    def test_finer_rulers_are_never_off_by_more(self, x: Fraction, ruler: Graduation) -> None:
        assert not read_mark(x, ruler).far


class TestTicks:
    def test_an_inch_in_eighths(self) -> None:
        found = ticks(EIGHTH, INCH)
        assert [tick.rank for tick in found] == [0, 3, 2, 3, 1, 3, 2, 3, 0]
        assert [tick.label for tick in found] == ["0", *[None] * 7, "1"]
        assert found[3].at == INCH * 3 / 8

    def test_finer_inches(self) -> None:
        sixteenths = [tick.rank for tick in ticks(SIXTEENTH, INCH / 4)]
        assert sixteenths == [0, 4, 3, 4, 2]
        assert [t.rank for t in ticks(GRADUATIONS["1/32 in"], INCH / 8)] == [0, 5, 4, 5, 3]

    def test_a_metric_ruler_is_numbered_in_its_unit(self) -> None:
        found = ticks(MM, Fraction(20))
        assert [tick.rank for tick in found] == [0, 2, 2, 2, 2, 1, 2, 2, 2, 2] * 2 + [0]
        assert [tick.label for tick in found if tick.label] == ["0", "10", "20"]
        in_cm = ticks(Graduation("1 mm", Fraction(1), Unit.CM), Fraction(20))
        assert [tick.label for tick in in_cm if tick.label] == ["0", "1", "2"]

    @given(RULERS, st.fractions(0, 400))
    def test_every_graduation_up_to_the_end_and_none_beyond(
        self, ruler: Graduation, upto: Fraction
    ) -> None:
        found = ticks(ruler, upto)
        assert [tick.at for tick in found] == [n * ruler.step for n in range(len(found))]
        assert found[-1].at <= upto < found[-1].at + ruler.step
        assert all((tick.label is not None) == (tick.rank == 0) for tick in found)

    def test_nothing_below_zero(self) -> None:
        assert ticks(MM, Fraction(-1)) == ()
