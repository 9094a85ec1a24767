"""Many sheets: as few as may be, and never a proof that is not had."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from model.planning.blocks import Kind
from model.planning.bounds import area_bound, sheets_for
from model.planning.filling import Room
from model.planning.sheets import fewest_sheets
from model.planning.work import Work


def least(kinds, rooms, work=1_000_000):
    *_, last = fewest_sheets(kinds, rooms, Work(work))
    return last


def test_five_by_seven_mats_come_three_to_a_sheet():
    # By area four would do; edge to edge a 12 x 12 yields three 5 x 7 (from memory; by hand:
    # four lie round a hole that no cut reaches).
    found = least([Kind(5, 7, 4, 35)], [Room(12, 12, 9)])
    assert (found.sheets, found.least) == (2, 2)
    assert area_bound([Kind(5, 7, 4, 35)], [Room(12, 12, 9)]) == 1


def test_an_offcut_costs_no_sheet():
    rooms = [Room(12, 12, 3), Room(6, 6, 1, free=True)]
    found = least([Kind(12, 12, 1, 1), Kind(5, 5, 1, 1)], rooms)
    assert (found.sheets, found.least) == (1, 1)


@pytest.mark.parametrize(
    ("total", "sheets"), [(0, 0), (10, 0), (11, 1), (30, 1), (31, 2), (45, 3), (50, 4)]
)
def test_boards_bring_what_they_bring(total, sheets):
    # An offcut brings 10, one sheet 20, and two sheets 5 each; with more there are not enough.
    rooms = [Room(1, 1, 1, free=True), Room(1, 1, 1), Room(1, 1, 2)]
    assert sheets_for(total, rooms, [10, 20, 5]) == (sheets if total <= 40 else 4)


sizes = st.tuples(st.integers(1, 8), st.integers(1, 8))


@settings(max_examples=40, deadline=None)
@given(st.lists(sizes, min_size=1, max_size=7), sizes)
def test_a_piece_more_never_lowers_a_proved_number_of_sheets(pieces, more):
    def kinds(these):
        return [Kind(*size, these.count(size), 1) for size in sorted(set(these))]

    rooms = [Room(8, 8, 12)]
    before, after = least(kinds(pieces), rooms), least(kinds([*pieces, more]), rooms)
    assert before.least <= before.sheets
    if before.sheets == before.least:
        assert after.sheets >= before.sheets
    if after.sheets == after.least:
        assert before.least <= after.sheets
