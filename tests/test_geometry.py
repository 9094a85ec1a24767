"""How paper lies: sides, turns, faces."""

from __future__ import annotations

from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st

from model.geometry import (
    CORNERS,
    SIDES,
    UPRIGHT,
    Box,
    Orientation,
    Sure,
    least_sure,
    orientation_for,
)

lyings = st.builds(Orientation, st.integers(0, 3), st.booleans())
lengths = st.integers(1, 4000).map(lambda n: Fraction(n, 8))


@st.composite
def boxes_on(draw: st.DrawFn) -> tuple[Orientation, Fraction, Fraction, Box]:
    """A paper as it lies, and a rectangle on it as seen on the bed."""
    lying, w, h = draw(lyings), draw(lengths), draw(lengths)
    width, height = lying.size_on_bed(w, h)
    part = st.integers(0, 16).map(lambda n: Fraction(n, 16))
    x, y = draw(part) * width, draw(part) * height
    return lying, w, h, Box(x, y, draw(part) * (width - x), draw(part) * (height - y))


@given(lyings)
def test_four_quarter_turns_change_nothing(lying: Orientation) -> None:
    turned = lying
    for _ in range(4):
        turned = turned.turned(1)
    assert turned == lying
    assert lying.turned(4) == lying.turned(0) == lying


@given(lyings)
def test_turning_over_twice_changes_nothing(lying: Orientation) -> None:
    over = lying.showing(not lying.reverse)
    assert over.reverse != lying.reverse
    assert over.showing(lying.reverse) == lying
    assert lying.showing(lying.reverse) == lying


@given(lyings)
def test_turning_over_swaps_left_and_right_as_a_page_of_a_book_does(lying: Orientation) -> None:
    over = lying.showing(not lying.reverse)
    for side in SIDES:
        before, after = lying.side_on_bed(side), over.side_on_bed(side)
        swapped = {"left": "right", "right": "left"}.get(before, before)
        assert after == swapped


@given(lyings, st.sampled_from(SIDES))
def test_a_side_is_found_again(lying: Orientation, side: str) -> None:
    for each in SIDES:
        assert lying.side_of_paper(lying.side_on_bed(each)) == each
    assert {lying.side_on_bed(each) for each in SIDES} == set(SIDES)
    assert lying.up == lying.side_on_bed("top")


def test_a_quarter_turn_is_clockwise() -> None:
    # Clockwise as seen from above: what was at the top comes to the right.
    assert UPRIGHT.turned(1).side_on_bed("top") == "right"
    assert UPRIGHT.turned(1).corner_on_bed("top left") == "top right"
    assert UPRIGHT.turned(3).side_on_bed("top") == "left"


def test_the_reverse_is_mirrored() -> None:
    assert UPRIGHT.showing(True).side_on_bed("left") == "right"
    assert UPRIGHT.showing(True).side_on_bed("top") == "top"


@given(boxes_on())
def test_a_rectangle_keeps_its_area_and_stays_inside(
    seen: tuple[Orientation, Fraction, Fraction, Box],
) -> None:
    lying, w, h, box = seen
    inside = lying.to_paper(box, w, h)
    assert inside.area == box.area
    assert inside.x >= 0 and inside.x + inside.w <= w
    assert inside.y >= 0 and inside.y + inside.h <= h


@given(boxes_on())
def test_a_rectangle_at_a_side_of_the_bed_is_at_that_side_of_the_paper(
    seen: tuple[Orientation, Fraction, Fraction, Box],
) -> None:
    lying, w, h, box = seen
    width, height = lying.size_on_bed(w, h)
    inside = lying.to_paper(box, w, h)
    on_bed = {
        "left": box.x,
        "top": box.y,
        "right": width - box.x - box.w,
        "bottom": height - box.y - box.h,
    }
    on_paper = {
        "left": inside.x,
        "top": inside.y,
        "right": w - inside.x - inside.w,
        "bottom": h - inside.y - inside.h,
    }
    for side in SIDES:
        assert on_bed[lying.side_on_bed(side)] == on_paper[side]


@given(st.sampled_from([*SIDES, *CORNERS]), st.sampled_from([*SIDES, *CORNERS]), st.booleans())
def test_a_landmark_is_brought_to_where_it_should_be_seen(
    seen: str, at: str, reverse: bool
) -> None:
    lying = orientation_for(seen, at, reverse=reverse)
    corner, wanted_corner = " " in seen, " " in at
    assert (lying is None) == (corner != wanted_corner)
    if lying is not None:
        assert lying.reverse == reverse
        if corner:
            assert lying.corner_on_bed(seen) == at
        else:
            assert lying.side_on_bed(next(s for s in SIDES if s == seen)) == at


def test_no_such_place() -> None:
    assert orientation_for("middle", "left", reverse=False) is None


def test_a_width_is_as_sure_as_its_less_sure_mark() -> None:
    assert least_sure(Sure.EXACT, Sure.EXACT) is Sure.EXACT
    assert least_sure(Sure.EXACT, Sure.ABOUT) is Sure.ABOUT
    assert least_sure(Sure.PRINTED, Sure.ABOUT) is Sure.PRINTED
