"""Scraps and what is missing: two searches against going through every cut."""

from __future__ import annotations

from functools import cache
from itertools import combinations
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from model.planning.blocks import Kind
from model.planning.filling import Room
from model.planning.small import exact_small
from model.planning.tidying import fewest_scraps, scraps_of
from model.planning.work import Work
from model.planning.yields import best_yield

NEVER = 99


@cache
def every_cut(width, height, pieces, turnable):
    """The fewest scraps over every cut at every whole number; NEVER where they do not come out."""
    if not pieces:
        return 1
    if sum(wide * high for wide, high in pieces) > width * height:
        return NEVER
    best = NEVER
    if len(pieces) == 1:
        ((wide, high),) = pieces
        if (width, height) == (wide, high) or (turnable and (width, height) == (high, wide)):
            return 0
    splits = {
        (
            tuple(pieces[n] for n in chosen),
            tuple(piece for n, piece in enumerate(pieces) if n not in chosen),
        )
        for size in range(len(pieces) + 1)
        for chosen in combinations(range(len(pieces)), size)
    }
    for some, others in splits:
        for cut in range(1, width):
            one = every_cut(cut, height, some, turnable)
            if one < best:
                best = min(best, one + every_cut(width - cut, height, others, turnable))
        for cut in range(1, height):
            one = every_cut(width, cut, some, turnable)
            if one < best:
                best = min(best, one + every_cut(width, height - cut, others, turnable))
    return best


small_pieces = st.lists(
    st.tuples(st.integers(1, 4), st.integers(1, 4)), min_size=1, max_size=4
).map(lambda pieces: tuple(sorted(pieces)))


@settings(max_examples=80, deadline=None)
@given(st.integers(2, 6), st.integers(2, 6), small_pieces, st.booleans())
def test_scraps_are_as_few_as_going_through_every_cut_finds(width, height, pieces, turnable):
    kinds = [Kind(*size, pieces.count(size), 1, turnable) for size in sorted(set(pieces))]
    least = every_cut(width, height, pieces, turnable)
    block, proved = fewest_scraps(kinds, width, height, Work(5_000_000), 20)
    small = exact_small(kinds, [Room(width, height, 1)], 1, Work(5_000_000))
    assert small is not None
    cutting, missing, scraps = small
    if least == NEVER:
        assert block is None
        assert missing
        return
    assert block is not None
    assert scraps_of(block, width, height) == proved == least
    assert (missing, cutting.sheets, scraps) == (0, 1, least)


def test_a_board_that_differs_needs_no_second_scrap():
    # Two blocks of the same pieces: the larger one, with its scrap inside, may be the better.
    kinds = [Kind(2, 2, 1, 1, False), Kind(1, 3, 1, 1, False), Kind(3, 1, 1, 1, False)]
    pieces = ((1, 3), (2, 2), (3, 1))
    for width, height in ((3, 4), (3, 5), (4, 4), (6, 3)):
        small = exact_small(kinds, [Room(width, height, 1)], 1, Work(1_000_000))
        assert small is not None
        assert small[2] == every_cut(width, height, pieces, False)


def test_what_must_be_missing_is_bounded():
    # Two sheets yield four halves; the fifth is missing whatever one does.
    cutting, least = best_yield([Kind(6, 12, 5, 7)], [Room(12, 12, 2)], Work(100_000))
    assert cutting.left == (1,)
    assert least == 7


def test_no_block_is_dropped_for_one_that_leaves_more_scraps():
    """A smaller block of the same pieces may be the worse one; none is left to chance.

    Each goes wrong for some of them when a smaller block counts as better whatever its scraps, or
    when it is not padded before it is compared.
    """
    for width, height, pieces in tight():
        kinds = [Kind(*size, pieces.count(size), 1, False) for size in sorted(set(pieces))]
        least = every_cut(width, height, pieces, False)
        block, proved = fewest_scraps(kinds, width, height, Work(5_000_000), 20)
        small = exact_small(kinds, [Room(width, height, 1)], 1, Work(5_000_000))
        assert small is not None
        if least == NEVER:
            assert block is None and small[1]
        else:
            assert block is not None
            assert scraps_of(block, width, height) == proved == small[2] == least


def tight():
    random = Random(4)
    for _ in range(400):
        width, height = random.randint(4, 7), random.randint(4, 7)
        pieces = [(random.randint(1, 4), random.randint(1, 4)) for _ in range(random.randint(3, 5))]
        if sum(wide * high for wide, high in pieces) <= width * height:
            yield width, height, tuple(sorted(pieces))


@pytest.mark.parametrize(
    ("width", "height", "pieces", "scraps"),
    [
        # Found by breaking the search: a smaller block taken for better, scraps beside it or not.
        (7, 5, ((1, 2), (1, 2), (2, 5), (4, 1), (5, 1)), 1),
        (6, 7, ((1, 2), (1, 3), (1, 3), (2, 1), (2, 5), (2, 5), (4, 2)), 1),
        (8, 8, ((1, 1), (1, 1), (1, 3), (1, 4), (3, 1), (5, 4)), 2),
        (5, 8, ((1, 4), (3, 2), (3, 5), (4, 1)), 2),
    ],
)
def test_a_larger_block_with_its_scrap_inside_is_kept(width, height, pieces, scraps):
    kinds = [Kind(*size, pieces.count(size), 1, False) for size in sorted(set(pieces))]
    block, proved = fewest_scraps(kinds, width, height, Work(5_000_000), 20)
    small = exact_small(kinds, [Room(width, height, 1)], 1, Work(5_000_000))
    assert block is not None and small is not None
    assert scraps_of(block, width, height) == proved == small[2] == scraps
    if len(pieces) < 6:
        assert every_cut(width, height, pieces, False) == scraps
