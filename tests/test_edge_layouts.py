"""The test of others' layouts, which the benchmark of plans relies on."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from tests.edge_layouts import Placed, comes_apart, least_scraps, lies_well

# Four 2 x 3 around a 1 x 1 in 5 x 5: no line from edge to edge misses them all. From memory.
PINWHEEL = frozenset({(0, 0, 2, 3), (2, 0, 5, 2), (3, 2, 5, 5), (0, 3, 3, 5), (2, 2, 3, 3)})


def test_a_pinwheel_does_not_come_apart():
    assert lies_well(PINWHEEL, 5, 5, 5)
    assert not comes_apart(PINWHEEL)
    assert least_scraps(PINWHEEL, 5, 5) is None
    assert comes_apart(PINWHEEL - {(0, 3, 3, 5)})


def test_pieces_over_one_another_or_over_the_edge_do_not_lie_well():
    assert lies_well(frozenset({(0, 0, 2, 2), (2, 0, 4, 2)}), 2, 4, 2)
    assert not lies_well(frozenset({(0, 0, 2, 2), (1, 1, 3, 3)}), 2, 4, 4)
    assert not lies_well(frozenset({(0, 0, 5, 2)}), 1, 4, 4)
    assert not lies_well(frozenset({(0, -1, 2, 2)}), 1, 4, 4)
    assert not lies_well(frozenset({(0, 0, 2, 2)}), 2, 4, 4)  # two lie on one another


def test_scraps_are_counted_as_they_fall():
    assert least_scraps(frozenset({(0, 0, 4, 4)}), 4, 4) == 0
    assert least_scraps(frozenset({(0, 0, 2, 4)}), 4, 4) == 1
    assert least_scraps(frozenset({(0, 0, 2, 2)}), 4, 4) == 2
    assert least_scraps(frozenset({(1, 1, 2, 2)}), 4, 4) == 4
    # Side by side at the foot: one strip above both, if it is cut first.
    assert least_scraps(frozenset({(0, 0, 2, 2), (2, 0, 4, 2)}), 4, 4) == 1
    # Apart at the foot: what is above them, and what is between.
    assert least_scraps(frozenset({(0, 0, 1, 2), (3, 0, 4, 2)}), 4, 4) == 2


@st.composite
def partitions(draw) -> tuple[frozenset[Placed], int]:
    """A sheet of 16 x 16 cut edge to edge; some of what comes off is scrap."""
    parts = [(0, 0, 16, 16)]
    for _ in range(draw(st.integers(0, 7))):
        left, bottom, right, top = parts.pop(draw(st.integers(0, len(parts) - 1)))
        if draw(st.booleans()) and right - left > 1:
            at = draw(st.integers(left + 1, right - 1))
            parts += [(left, bottom, at, top), (at, bottom, right, top)]
        elif top - bottom > 1:
            at = draw(st.integers(bottom + 1, top - 1))
            parts += [(left, bottom, right, at), (left, at, right, top)]
        else:
            parts.append((left, bottom, right, top))
    scraps = draw(st.integers(0, len(parts) - 1))
    return frozenset(parts[scraps:]), scraps


@given(partitions())
def test_what_was_cut_edge_to_edge_comes_apart_with_no_more_scraps(case):
    layout, scraps = case
    assert lies_well(layout, len(layout), 16, 16)
    assert comes_apart(layout)
    found = least_scraps(layout, 16, 16)
    assert found is not None and found <= scraps
    assert (found == 0) == (scraps == 0)
