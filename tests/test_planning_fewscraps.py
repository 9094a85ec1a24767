"""The fewest scraps of several sheets: as other searches find them, and never too bold a bound."""

from __future__ import annotations

from collections import Counter

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from test_planning_scraps import NEVER, every_cut, tight

from model.planning.blocks import Block, Kind, Packing
from model.planning.fewscraps import FewScraps
from model.planning.filling import Room, counts_of
from model.planning.small import exact_small
from model.planning.tidying import scraps_of
from model.planning.tidysets import tidy_sets
from model.planning.unlimited import surroundings
from model.planning.work import Work

sides = st.integers(1, 4)
drawn = st.lists(st.tuples(sides, sides), min_size=1, max_size=4).map(
    lambda pieces: tuple(sorted(pieces))
)


def kinds_of(pieces, turnable=True):
    return [
        Kind(wide, high, count, wide * high, turnable)
        for (wide, high), count in sorted(Counter(pieces).items())
    ]


@settings(max_examples=60, deadline=None)
@given(st.integers(2, 6), st.integers(2, 6), drawn, st.booleans(), st.integers(0, 3))
def test_the_tidy_sets_are_those_that_every_cut_finds(width, height, pieces, turnable, allowed):
    kinds = kinds_of(pieces, turnable)
    packing = Packing([kind.count for kind in kinds])
    around, _ = surroundings(kinds, width, height, sum(k.count * k.value for k in kinds))
    found = tidy_sets(kinds, Room(width, height, 1), allowed, 1, around, Work(10**7))
    every = {}
    sizes = sorted(set(pieces))
    for number in range(1, 1 << len(pieces)):
        some = tuple(sorted(p for n, p in enumerate(pieces) if number >> n & 1))
        key = packing.packed([some.count(size) for size in sizes])
        scraps = every_cut(width, height, some, turnable)
        if scraps <= allowed and scraps != NEVER:
            every[key] = scraps
    assert {key: scraps for key, (scraps, _) in found.items()} == every
    for key, (scraps, block) in found.items():
        assert tuple(counts_of(block, len(kinds))) == packing.unpacked(key)
        assert scraps_of(block, width, height) == scraps


many = st.lists(st.tuples(st.integers(1, 5), st.integers(1, 5)), min_size=2, max_size=8)


def searched(kinds, width, height, sheets, known, work):
    """The search to its end: the bound, and the fewest scraps of what it found."""
    rooms = [Room(width, height, sheets)]
    few = FewScraps(kinds, rooms, 0, sheets, known)
    best = known
    while not few.done and not work.over:
        filled = few.deepen(work)
        if filled is not None:
            assert len(filled) == sheets
            counts = [counts_of(one.block, len(kinds)) for one in filled]
            assert [sum(of) for of in zip(*counts, strict=True)] == [kind.count for kind in kinds]
            scraps = sum(scraps_of(one.block, width, height) for one in filled)
            assert scraps < best
            best = scraps
    return few.least, best


@settings(max_examples=80, deadline=None)
@given(many, st.integers(5, 7), st.integers(5, 8), st.integers(1, 2_000))
def test_it_ends_with_the_fewest_and_stopped_early_claims_no_more(pieces, width, height, work):
    kinds = kinds_of(pieces)
    small = exact_small(kinds, [Room(width, height, 9)], 9, Work(10**8))
    assert small is not None
    cutting, missing, scraps = small
    assert not missing
    sheets = cutting.sheets
    assert searched(kinds, width, height, sheets, scraps + 2, Work(10**8)) == (scraps, scraps)
    bound, best = searched(kinds, width, height, sheets, scraps + 2, Work(work))
    assert bound <= scraps <= best


def test_it_knows_more_sheets_than_two_at_a_time():
    """Drawn; a trade of pieces between any two sheets ends at more scraps."""
    sizes = (
        (2, 48, 1), (4, 48, 2), (6, 48, 2), (8, 8, 1), (9, 13, 1), (10, 14, 3), (14, 20, 1),
        (15, 23, 4), (20, 28, 3), (24, 48, 2), (32, 40, 1),
    )  # fmt: skip
    kinds = [Kind(wide, high, count, wide * high) for wide, high, count in sizes]
    assert searched(kinds, 48, 48, 4, 8, Work(10**8)) == (5, 5)


def test_sheets_come_by_elsewhere_are_mixed_in():
    kinds = kinds_of([(2, 4)] * 4)
    few = FewScraps(kinds, [Room(4, 4, 2)], 0, 2, 3)
    half = Block(2, 4, 0, 8, kind=0)
    full = Block(4, 4, 0, 16, across=True, first=half, second=half)
    filled = few.mix({(2,): (0, full)}, Work(10_000))
    assert filled is not None
    assert few.done and few.least == 0
    assert few.mix({(2,): (0, full)}, Work(10_000)) is None


@pytest.mark.parametrize("known", [0, 1])
def test_there_is_nothing_to_do_where_the_fewest_are_known(known):
    few = FewScraps(kinds_of([(2, 2 + known)]), [Room(2, 3, 1)], 0, 1, 1 - known)
    assert few.done


def test_no_tidy_set_is_lost_to_a_block_that_leaves_more_scraps():
    for width, height, pieces in tight():
        kinds = kinds_of(pieces, turnable=False)
        least = every_cut(width, height, pieces, False)
        around, _ = surroundings(kinds, width, height, sum(k.count * k.value for k in kinds))
        found = tidy_sets(kinds, Room(width, height, 1), 3, 1, around, Work(10**7))
        whole = found.get(Packing([kind.count for kind in kinds]).whole)
        assert (whole[0] if whole else NEVER) == (least if least <= 3 else NEVER)
