"""So few sheets gone through whole: what comes of it is a way, or a proof that there is none."""

from __future__ import annotations

from hypothesis import given, settings
from hypothesis import strategies as st

from model.planning.blocks import Kind
from model.planning.filling import Room, counts_of, sheets_in
from model.planning.sharing import shared_out
from model.planning.small import exact_small
from model.planning.work import Work
from tests.planning_cases import laid

sizes = st.tuples(st.integers(1, 6), st.integers(1, 6))


@settings(max_examples=150, deadline=None)
@given(st.lists(sizes, min_size=1, max_size=7), st.integers(1, 3), st.booleans())
def test_it_finds_a_way_where_there_is_one_and_only_there(pieces, sheets, turnable):
    kinds = [Kind(*size, pieces.count(size), 1, turnable) for size in sorted(set(pieces))]
    rooms = [Room(6, 6, 3), Room(3, 4, 1, free=True)]
    areas = [kind.width * kind.height for kind in kinds]
    filled, none = shared_out(kinds, rooms, sheets, areas, [36, 12], Work(5_000_000))
    small = exact_small(kinds, rooms, 3, Work(5_000_000))
    assert small is not None
    cutting, missing, _ = small
    possible = not missing and cutting.sheets <= sheets
    assert (filled is not None, none) == (possible, not possible)
    if filled is not None:
        assert sheets_in(rooms, filled) <= sheets
        had = [counts_of(one.block, len(kinds)) for one in filled]
        assert [sum(column) for column in zip(*had, strict=True)] == [k.count for k in kinds]
        for one in filled:
            wide, high = laid(one.block, kinds)
            assert wide <= rooms[one.room].width and high <= rooms[one.room].height


def test_what_is_cut_short_proves_nothing():
    kinds = [Kind(2, 3, 4, 1), Kind(1, 5, 3, 1), Kind(4, 4, 2, 1)]
    areas = [kind.width * kind.height for kind in kinds]
    for work in (1, 5, 20):
        filled, none = shared_out(kinds, [Room(6, 6, 9)], 2, areas, [36], Work(work))
        assert filled is None and not none
