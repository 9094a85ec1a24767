"""One sheet: published best values are found and proved."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from planning_cases import published, value_of

from model.planning.blocks import Kind, Packing
from model.planning.filling import whole_set
from model.planning.onesheet import most_value
from model.planning.tidying import fewest_scraps, scraps_of
from model.planning.unlimited import Unlimited
from model.planning.work import Work

WORK = 5_000_000


def test_cgcut1_is_proved():
    # Christofides and Whitlock 1977; 244 is published, 260 was computed by an exact search.
    sizes = [
        (8, 4, 2, 66), (3, 7, 1, 35), (8, 2, 3, 24), (3, 4, 5, 17),
        (3, 3, 2, 11), (3, 2, 2, 8), (2, 1, 1, 2),
    ]  # fmt: skip
    for turnable, best in ((False, 244), (True, 260)):
        kinds = [Kind(*size, turnable) for size in sizes]
        found = most_value(kinds, 15, 10, Work(WORK))
        assert found.block is not None
        assert found.proved
        assert (found.value, value_of(found.block, kinds, 15, 10)) == (best, best)


def test_a_perfect_area_does_not_make_ten_pieces_fit():
    # E00N10 of Clautiaux, Jouglet, Carlier and Moukrim 2007: no waste, and no way.
    sizes = [
        (1, 13), (4, 5), (5, 7), (7, 7), (7, 8), (2, 13), (8, 4), (1, 11), (4, 14), (17, 6),
    ]  # fmt: skip
    assert sum(wide * high for wide, high in sizes) == 20 * 20
    work = Work(WORK)
    kinds = [Kind(wide, high, 1, 0) for wide, high in sizes]
    assert whole_set(kinds, 20, 20, work) is None
    assert not work.over  # so it is proved


def test_e10n10_fits_only_when_pieces_are_turned():
    # The same source: 40 of 400 are over.
    sizes = [
        (6, 11), (4, 7), (1, 14), (5, 3), (1, 8), (1, 11), (1, 5), (1, 13), (13, 5), (15, 9),
    ]  # fmt: skip
    for turnable in (False, True):
        kinds = [Kind(wide, high, 1, 1, turnable) for wide, high in sizes]
        work = Work(WORK)
        block = whole_set(kinds, 20, 20, work)
        assert not work.over
        assert (block is not None) == turnable
        if block is not None:
            assert value_of(block, kinds, 20, 20) == 10


@pytest.mark.parametrize("turnable", [False, True])
def test_every_published_value(turnable):
    cases = published()
    if cases is None:
        pytest.skip("DRYFIT_CASES is not set")
    for case in cases["constrained_value"]:
        kinds = [
            Kind(p["length"], p["width"], p["at_most"], p["value"], turnable)
            for p in case["pieces"]
        ]
        found = most_value(kinds, *case["sheet"], Work(WORK))
        best = case["optimum_turned_computed" if turnable else "optimum_fixed"]
        assert found.block is not None, case["name"]
        assert (found.value, found.bound) == (best, best), case["name"]
        assert value_of(found.block, kinds, *case["sheet"]) == best, case["name"]
    for case in cases["unlimited_value"]:
        kinds = [Kind(p["length"], p["width"], 1, p["value"], turnable) for p in case["pieces"]]
        best = case["optimum_turned" if turnable else "optimum_fixed"]
        assert Unlimited(kinds, *case["sheet"]).best == best, case["name"]
    for case in cases["do_all_fit"]:
        kinds = [Kind(p["length"], p["width"], p["count"], 1, turnable) for p in case["pieces"]]
        work = Work(WORK)
        block = whole_set(kinds, *case["sheet"], work)
        fits = case["edge_to_edge_turned" if turnable else "edge_to_edge_fixed"]
        assert not work.over, case["name"]
        assert (block is not None) == fits, case["name"]
        if block is not None:
            assert value_of(block, kinds, *case["sheet"]) == sum(k.count for k in kinds)


@st.composite
def partitions(draw, most=10):
    """A sheet cut edge to edge at random, all of it pieces."""
    width, height = draw(st.integers(6, 40)), draw(st.integers(6, 40))
    parts = [(width, height)]
    for _ in range(draw(st.integers(0, most - 1))):
        wide, high = parts.pop(draw(st.integers(0, len(parts) - 1)))
        across = draw(st.booleans()) if min(wide, high) > 1 else wide > 1
        side = wide if across else high
        if side < 2:
            parts.append((wide, high))
            continue
        cut = draw(st.integers(1, side - 1))
        if across:
            parts += [(cut, high), (wide - cut, high)]
        else:
            parts += [(wide, cut), (wide, high - cut)]
    return width, height, parts


@settings(max_examples=60, deadline=None)
@given(partitions(14), st.booleans())
def test_what_was_cut_edge_to_edge_is_found_again_with_no_scrap(case, turnable):
    width, height, parts = case
    kinds = [Kind(wide, high, parts.count((wide, high)), 1, turnable) for wide, high in set(parts)]
    block, least = fewest_scraps(kinds, width, height, Work(20_000_000), 1)
    assert block is not None
    assert value_of(block, kinds, width, height) == len(parts)
    assert (least, scraps_of(block, width, height)) == (0, 0)


def _brute(kinds, width, height):
    # Every way to halve every multiset: another way to the same answer, for a few pieces only.
    packing = Packing([kind.count for kind in kinds])
    sizes: dict[int, set[tuple[int, int]]] = {}
    for number, kind in enumerate(kinds):
        lies = {(wide, high) for wide, high, _ in kind.lies}
        sizes[1 << packing.shifts[number]] = {
            (wide, high) for wide, high in lies if wide <= width and high <= height
        }
    grown = True
    while grown:
        grown = False
        for a in list(sizes):
            for b in list(sizes):
                if not packing.fits(a + b):
                    continue
                for x, y in list(sizes[a]):
                    for u, v in list(sizes[b]):
                        for size in ((x + u, max(y, v)), (max(x, u), y + v)):
                            if size[0] <= width and size[1] <= height:
                                into = sizes.setdefault(a + b, set())
                                grown |= size not in into
                                into.add(size)
    values = [kind.value for kind in kinds]
    return max(
        (
            sum(n * v for n, v in zip(packing.unpacked(key), values, strict=True))
            for key, found in sizes.items()
            if found
        ),
        default=0,
    )


small_kinds = st.lists(
    st.builds(
        Kind, st.integers(1, 6), st.integers(1, 6), st.integers(1, 2), st.integers(1, 9),
        st.booleans(),
    ),
    min_size=1,
    max_size=3,
)  # fmt: skip


@settings(max_examples=100, deadline=None)
@given(small_kinds, st.integers(2, 9), st.integers(2, 9))
def test_the_most_value_is_what_going_through_everything_finds(kinds, width, height):
    found = most_value(kinds, width, height, Work(WORK))
    assert found.proved
    assert found.value == _brute(kinds, width, height)
    if found.block is not None:
        assert value_of(found.block, kinds, width, height) == found.value


@settings(max_examples=60, deadline=None)
@given(small_kinds, st.integers(2, 9), st.integers(2, 9), st.integers(1, 40))
def test_stopped_early_it_claims_no_more_than_it_knows(kinds, width, height, work):
    found = most_value(kinds, width, height, Work(work))
    best = _brute(kinds, width, height)
    assert found.value <= best <= found.bound
