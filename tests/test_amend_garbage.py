"""Mendings that make no sense at all are refused, whatever is in them; nothing breaks."""

from __future__ import annotations

from fractions import Fraction

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from model.kit import Mark
from model.plan import Plan
from model.rescue.amend import CannotMend, amend
from model.rescue.mending import AddedKind, Fate, MendedLoad, Mending, Share
from tests.hand_kits import KITS
from tests.muddle import plan_of_text
from tests.test_amend import KIT, check_areas

PLANS = [plan_of_text(text) for text in (*KITS, KIT)]
CODES = {
    "no such step", "no such thing", "not made", "taken twice", "role twice", "name taken",
    "ready made", "parts", "impossible", "too many",
}  # fmt: skip


def mendings(plan: Plan) -> st.SearchStrategy[Mending]:
    """Mendings of things of this plan, put together without any sense."""
    ids = st.sampled_from([*plan.items, *(f"{id}/r" for id in plan.items), "A/9", ""])
    names = st.sampled_from([*plan.kit.kinds, *plan.sheets, "scrap", "new", "newer", ""])
    lengths = st.integers(-10, 3000).map(lambda n: Fraction(n, 8))
    shares = st.one_of(
        st.builds(Share, st.just(Fate.ROLE), ids),
        st.builds(Share, st.sampled_from(Fate), names),
    )
    falling = st.lists(lengths, max_size=3, unique=True).map(lambda some: sorted(some)[::-1])
    loads = falling.flatmap(
        lambda marks: st.builds(
            MendedLoad,
            ids,
            st.just(tuple(Mark(mark) for mark in marks)),
            st.lists(shares, min_size=len(marks), max_size=len(marks)).map(tuple),
            shares,
            st.integers(-5, 5),
            st.sampled_from((None, "face", "reverse")),
            st.booleans(),
            st.booleans(),
        )
    )
    kinds = st.builds(
        AddedKind, names, names, st.integers(-2, 3), st.none() | st.integers(0, 9),
        st.tuples(lengths, lengths), names,
    )  # fmt: skip
    few = {"max_size": 2}
    return st.builds(
        Mending,
        at=st.sampled_from(["", "nowhere", *(step.id for step in plan.steps)]),
        loads=st.lists(loads, max_size=3).map(tuple),
        gone=st.lists(names, **few).map(tuple),
        idle=st.lists(names, **few).map(tuple),
        spent=st.lists(st.tuples(names, st.integers(-1, 3)), **few).map(tuple),
        kinds=st.lists(kinds, **few).map(tuple),
    )


@settings(deadline=None, max_examples=300, suppress_health_check=list(HealthCheck))
@given(st.sampled_from(PLANS).flatmap(lambda plan: st.tuples(st.just(plan), mendings(plan))))
def test_it_is_refused_or_gives_a_plan(drawn: tuple[Plan, Mending]) -> None:
    plan, mending = drawn
    try:
        amended = amend(plan, mending)
    except CannotMend as error:
        assert error.code in CODES
        return
    check_areas(amended)
