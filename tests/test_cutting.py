"""The engine of cuts: one load, one tear."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from model.cutting import (
    CutError,
    Stock,
    in_hand,
    second_ruler,
    settle_marks,
    tear,
    to_loose_edge,
    trim,
    whole_sheet,
)
from model.geometry import SIDES, UPRIGHT, Measure, Orientation, Side, Sure
from model.kit import Mark

INCH = Fraction(127, 5)
QUARTER = UPRIGHT.turned(1)
lyings = st.builds(Orientation, st.integers(0, 3), st.booleans())


def inches(*numbers: str | int) -> list[Fraction]:
    return [sum((Fraction(part) for part in str(n).split()), Fraction(0)) * INCH for n in numbers]


def marks(*numbers: str | int) -> list[Mark]:
    return [Mark(at) for at in inches(*numbers)]


def size(stock: Stock) -> tuple[Fraction, Fraction]:
    return stock.width.value / INCH, stock.height.value / INCH


def sheet(w: str | int, h: str | int) -> Stock:
    width, height = inches(w, h)
    return whole_sheet(width, height)


@st.composite
def loads(draw: st.DrawFn) -> tuple[Stock, Orientation, list[Fraction]]:
    """A sheet as it lies, and widths of parts that fill it along the ruler."""
    lying = draw(lyings)
    widths = draw(st.lists(st.integers(1, 200).map(lambda n: Fraction(n, 8)), min_size=2))
    across = draw(st.integers(1, 2000).map(lambda n: Fraction(n, 8)))
    along = sum(widths, Fraction(0))
    w, h = (across, along) if lying.sideways else (along, across)
    return whole_sheet(w, h), lying, widths


def test_printed_lines_share_the_room_down_to_the_next_number() -> None:
    sheet_12 = Measure(12 * INCH)
    found = settle_marks(sheet_12, [Mark(None), Mark(None), *marks(3), Mark(None)])
    assert [mark.value / INCH for mark in found] == [9, 6, 3, Fraction(3, 2)]
    guessed = [Sure.PRINTED, Sure.PRINTED, Sure.EXACT, Sure.PRINTED]
    assert [mark.sure for mark in found] == guessed


# Facts of the trade (common practice, no source)


def test_a_strip_is_cut_into_three_squares_and_a_scrap() -> None:
    parts = trim(sheet("3 3/4", 12), QUARTER, marks("11 1/4", "7 1/2", "3 3/4"))
    eighths = Fraction(15, 4)
    assert [size(part) for part in parts] == [
        (eighths, Fraction(3, 4)),
        (eighths, eighths),
        (eighths, eighths),
        (eighths, eighths),
    ]


def test_a_half_sheet_turned_is_cut_into_three_mats() -> None:
    parts = trim(sheet(6, 12), QUARTER, marks(8, 4))
    assert [size(part) for part in parts] == [(Fraction(6), Fraction(4))] * 3


def test_a_strip_wider_than_the_ruler_needs_a_second_one() -> None:
    width, ruler, more = inches(4, 3, 1)
    assert second_ruler(width, ruler) == more
    assert second_ruler(ruler, ruler) == 0
    assert second_ruler(more, ruler) == 0


# Outside: ISO 216. Each size is half of the one before, cut across its long side, and rounded
# down to the whole millimetre: A4 210 x 297, A5 148 x 210, A6 105 x 148, A7 74 x 105 mm. The
# standard and its figures are given from memory.


def test_iso_a4_is_trimmed_down_its_halves() -> None:
    left = whole_sheet(Fraction(210), Fraction(297))
    sizes = []
    lying = QUARTER  # the long side along the ruler
    for _ in range(3):
        along = left.along(lying).value
        left = trim(left, lying, [Mark(Fraction(along // 2))])[-1]
        sizes.append((left.width.value, left.height.value))
        lying = lying.turned(1)
    short_first = [tuple(sorted(each)) for each in sizes]
    iso = [
        (Fraction(148), Fraction(210)),
        (Fraction(105), Fraction(148)),
        (Fraction(74), Fraction(105)),
    ]
    assert short_first == iso


# Properties


@given(loads())
def test_parts_are_as_wide_as_the_marks_say_and_keep_the_area(
    load: tuple[Stock, Orientation, list[Fraction]],
) -> None:
    stock, lying, widths = load
    left = sum(widths, Fraction(0))
    numbers = []
    for width in widths[:-1]:
        left -= width
        numbers.append(Mark(left))
    parts = trim(stock, lying, numbers)
    assert [part.along(lying).value for part in parts] == widths
    assert {part.across(lying) for part in parts} == {stock.across(lying)}
    assert sum(part.area for part in parts) == stock.area
    assert all(part.area == part.width.value * part.height.value for part in parts)
    assert all(part.measured for part in parts)
    # The held edge is the left of the bed: the rest is there, the first offcut opposite.
    held, loose = lying.side_of_paper("left"), lying.side_of_paper("right")
    assert _at(parts[-1], stock, held) and _at(parts[0], stock, loose)


def _at(part: Stock, whole: Stock, side: Side) -> bool:
    box, sheet_box = part.box, whole.box
    return {
        "left": box.x == 0,
        "top": box.y == 0,
        "right": box.x + box.w == sheet_box.w,
        "bottom": box.y + box.h == sheet_box.h,
    }[side]


@given(loads(), st.integers(0, 8))
def test_what_is_in_hand_is_what_has_not_come_off(
    load: tuple[Stock, Orientation, list[Fraction]], gone: int
) -> None:
    stock, lying, widths = load
    gone %= len(widths)
    left = sum(widths, Fraction(0))
    numbers = []
    for width in widths[:-1]:
        left -= width
        numbers.append(Mark(left))
    parts = trim(stock, lying, numbers)
    hand = in_hand(stock, lying, parts, gone, Sure.EXACT)
    assert hand.area == sum(part.area for part in parts[gone:])
    assert hand.along(lying).value == sum(widths[gone:])
    assert hand.across(lying) == stock.across(lying)
    assert hand.box.area == hand.width.value * hand.height.value


@given(loads(), st.sampled_from(SIDES))
def test_both_neighbours_of_a_tear_are_torn(
    load: tuple[Stock, Orientation, list[Fraction]], edge: Side
) -> None:
    stock, lying, _ = load
    turned = to_loose_edge(lying, edge)
    along = stock.along(turned).value
    widths = [along / 4, along / 2]
    parts = tear(stock, lying, edge, widths)
    loose, held = lying.side_of_paper(edge), turned.side_of_paper("left")
    assert turned.side_of_paper("right") == loose
    assert [part.along(turned).value for part in parts] == [along / 4, along / 2, along / 4]
    assert [part.torn for part in parts] == [{held}, {held, loose}, {loose}]
    assert _at(parts[0], stock, loose)
    assert sum(part.area for part in parts) == stock.area
    hand = in_hand(stock, turned, parts, 1, Sure.EXACT)
    assert hand.torn == {loose} and hand.along(turned).value == along * 3 / 4


def test_a_torn_edge_goes_with_the_part_that_has_it() -> None:
    torn = tear(sheet(12, 12), UPRIGHT, "right", inches(4))[-1]
    assert torn.torn == {"right"}
    first, rest = trim(torn, UPRIGHT, marks(3))
    assert first.torn == {"right"} and not rest.torn
    above, below = trim(torn, QUARTER, marks(5))
    assert above.torn == below.torn == {"right"}
    assert in_hand(torn, UPRIGHT, (first, rest), 1, Sure.EXACT).torn == frozenset()


def test_nothing_torn_goes_round_with_four_turns() -> None:
    parts = [tear(sheet(9, 5), UPRIGHT.turned(turns), "top", inches(1)) for turns in (0, 4)]
    assert parts[0] == parts[1]


# What can't be cut


@pytest.mark.parametrize(
    ("numbers", "code", "number"),
    [
        ((12,), "mark-outside", 0),
        ((13,), "mark-outside", 0),
        (("7 1/4", 10), "mark-order", 1),
        ((8, 8), "mark-order", 1),
        ((8, 4, 5), "mark-order", 2),
    ],
)
def test_a_mark_is_below_the_one_before(
    numbers: tuple[str | int, ...], code: str, number: int
) -> None:
    with pytest.raises(CutError) as caught:
        trim(sheet(12, 6), UPRIGHT, marks(*numbers))
    assert (caught.value.code, caught.value.number) == (code, number)
    before = 12 if number == 0 else numbers[number - 1]
    assert [caught.value.limit] == inches(before)


@pytest.mark.parametrize(("widths", "number", "limit"), [((12,), 0, 12), ((5, 7), 1, 7)])
def test_a_tear_leaves_something(widths: tuple[int, ...], number: int, limit: int) -> None:
    with pytest.raises(CutError) as caught:
        tear(sheet(12, 6), UPRIGHT, "left", inches(*widths))
    assert (caught.value.code, caught.value.number) == ("tear-outside", number)
    assert [caught.value.limit] == inches(limit)


def test_a_printed_line_between_numbers_lets_the_next_number_be_judged_by_the_last() -> None:
    with pytest.raises(CutError) as caught:
        trim(sheet(12, 6), UPRIGHT, [*marks(8), Mark(None), *marks("8 1/2")])
    assert (caught.value.code, caught.value.number) == ("mark-order", 2)


# Cuts without a number


def test_a_width_between_two_marks_is_as_sure_as_the_less_sure() -> None:
    about = Mark(inches(5)[0], about=True)
    parts = trim(sheet(12, 6), UPRIGHT, [*marks(8), about])
    assert [part.width.sure for part in parts] == [Sure.EXACT, Sure.ABOUT, Sure.ABOUT]
    assert all(part.height.sure is Sure.EXACT for part in parts)


def test_printed_lines_share_the_room_for_the_drawing() -> None:
    along = Measure(Fraction(120), Sure.PRINTED)
    settled = settle_marks(along, [Mark(None), Mark(None), Mark(None)])
    assert [mark.value for mark in settled] == [90, 60, 30]
    assert {mark.sure for mark in settled} == {Sure.PRINTED}


@given(
    st.lists(st.one_of(st.none(), st.integers(1, 3000).map(Fraction)), min_size=1, max_size=12),
    st.integers(1, 3000).map(Fraction),
)
def test_what_is_settled_falls_whatever_is_printed(
    numbers: list[Fraction | None], guess: Fraction
) -> None:
    known = sorted((n for n in numbers if n is not None), reverse=True)
    if len(set(known)) < len(known):
        return
    falling = [Mark(None if n is None else known.pop(0), about=True) for n in numbers]
    along = Measure(guess, Sure.PRINTED)
    settled = [mark.value for mark in settle_marks(along, falling)]
    for above, below in zip([guess, *settled], [*settled, Fraction(0)], strict=True):
        assert above > below


def test_a_number_beyond_a_guessed_size_is_no_error() -> None:
    guessed = whole_sheet(Fraction(100), Fraction(100), Sure.PRINTED)
    first, rest = trim(guessed, UPRIGHT, [Mark(Fraction(300))])
    assert first.width.sure is rest.width.sure is Sure.PRINTED
    assert first.area + rest.area == guessed.area
