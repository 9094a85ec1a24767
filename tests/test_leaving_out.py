"""An optional step takes with it what can't be done without it."""

from __future__ import annotations

import random

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from model.kit import Verb
from model.plan import Step
from model.reading import read_kit
from model.session import Session
from tests.kits import random_kit
from tests.oracle import check_all, check_left_out
from tests.tables import table, up_to

HEAD = """
dryfit = 1
title = "Boats"
page = "12 x 12"
pages = 2

[[sheet]]
name = "A"
face = "navy"

[[sheet]]
name = "B"
face = "teal"

[[step]]
trim = "A"
marks = [8, 4]
gives = ["left half", "right half"]
rest = { name = "card", to = 2 }

[[step]]
fussy_cut = "left half"
gives = [{ name = "boat", to = 1 }]
optional = true
"""
TRACE = """
[[step]]
trace = "B"
around = "boat"
gives = [{ name = "shadow", to = 1 }]
"""
OTHER = """
[[step]]
fussy_cut = "right half"
gives = [{ name = "%s", to = 2 }]
"""
AGAIN = """
[[step]]
punch = "shadow"
gives = [{ name = "dot", to = 2 }]
"""


def left_out(session: Session) -> set[str]:
    return {id for id, really in session.state.done.items() if not really}


def skip_all(session: Session, steps: int = 100) -> None:
    """Leave out so many optional steps, and do all the rest."""
    while not session.state.due().over:
        step = session.state.due().step
        if steps and step is not None and session.state.may_skip(step):
            assert session.skip().taken
            steps -= 1
        else:
            session.next()


def test_what_is_traced_around_a_missing_shape_is_left_out() -> None:
    session = table(HEAD + OTHER % "anchor" + TRACE + AGAIN)
    up_to(session, "A/1/fussy_cut")
    assert [step.id for step in session.state.hangs_on(step_due(session))] == [
        "A/1/fussy_cut", "B/trace", "B/1/punch",
    ]  # fmt: skip
    skip_all(session)
    assert left_out(session) == {"A/1/fussy_cut", "B/trace", "B/1/punch"}
    assert session.state.wanted(0) == session.state.held(0) == 2
    check_all(session)


def step_due(session: Session) -> Step:
    step = session.state.due().step
    assert step is not None
    return step


def test_one_copy_is_enough_to_trace_around() -> None:
    both = HEAD + OTHER % "boat" + "optional = true\n" + TRACE
    session = table(both)
    skip_all(session, 1)
    assert left_out(session) == {"A/1/fussy_cut"}
    check_all(session)
    session = table(both)
    skip_all(session)
    assert left_out(session) == {"A/1/fussy_cut", "A/2/fussy_cut", "B/trace"}
    check_all(session)


def test_undo_brings_the_trace_back() -> None:
    session = table(HEAD + OTHER % "anchor" + TRACE)
    up_to(session, "A/1/fussy_cut")
    before = session.state.snapshot()
    session.skip()
    assert session.state.done["B/trace"] is False
    session.undo()
    assert "B/trace" not in session.state.done
    assert session.state.snapshot() == before


def test_a_copy_that_comes_later_or_was_cut_up_is_no_pattern() -> None:
    late = HEAD + TRACE + OTHER % "boat"  # the second boat comes after the tracing
    session = table(late)
    skip_all(session)
    assert left_out(session) == {"A/1/fussy_cut", "B/trace"}
    gone = (
        HEAD + (OTHER % "boat").replace("to = 2", "to = 1") + '[[step]]\nfussy_cut = "boat"\n'
        'gives = [{ name = "sail", to = 2 }]\n' + TRACE
    )
    session = table(gone)
    skip_all(session)
    # The boat that is there is cut into a sail before the shadow is traced.
    assert left_out(session) == {"A/1/fussy_cut", "B/trace"}
    check_all(session)


def test_a_strip_may_be_traced_around_and_is_missed_as_a_piece_is() -> None:
    text = HEAD.replace('{ name = "boat", to = 1 }', '"boat"') + OTHER % "anchor" + TRACE
    text += '\n[[step]]\nfussy_cut = "boat"\ngives = [{ name = "sail", to = 2 }]\n'
    session = table(text)
    skip_all(session)
    assert left_out(session) == {"A/1/fussy_cut", "B/trace", "A/1/1/fussy_cut"}


@pytest.mark.parametrize(
    ("step", "out"),
    [
        ('slit = "B"\nfor = "boat"', True),
        ('do = "Glue the boat on"\nneeds = ["dots", "boat"]', True),
        ('do = "Glue the card on"\nneeds = ["dots", "card"]', False),
        ('do = "Glue the dots on"\nneeds = ["dots"]', False),
    ],
)
def test_what_needs_a_missing_piece_is_left_out(step: str, out: bool) -> None:
    aside = '[[set_aside]]\nname = "dots"\n'
    cut = '[[step]]\ntrim = "B"\nmarks = [6]\ngives = "scrap"\nrest = { name = "B2", to = 1 }\n'
    step = step.replace('"B"', '"B2"')
    session = table(HEAD + OTHER % "anchor" + aside + cut + f"[[step]]\n{step}\n")
    last = session.plan.steps[-1].id
    skip_all(session)
    assert (last in left_out(session)) is out
    check_all(session)


def test_a_load_that_needs_a_missing_piece_goes_whole() -> None:
    cut = '[[step]]\ntrim = "B"\nmarks = [6, 3]\ngives = "scrap"\nrest = "scrap"\nneeds = "boat"\n'
    session = table(HEAD + OTHER % "anchor" + cut)
    skip_all(session)
    assert left_out(session) == {"A/1/fussy_cut", "B/load", "B/1", "B/2"}
    assert session.state.scraps_expected == 0
    check_all(session)


@settings(suppress_health_check=[HealthCheck.too_slow], deadline=None, max_examples=60)
@given(st.randoms(use_true_random=False))
def test_in_any_kit_nothing_is_due_that_lacks_what_it_needs(rng: random.Random) -> None:
    """Whatever is left out, in whatever order."""
    text = random_kit(rng)
    # More of them may be left out than an author would say.
    text = "\n".join(
        line + "\noptional = true" if line.startswith("marks") and rng.random() < 0.4 else line
        for line in text.replace("\noptional = true", "").split("\n")
    )
    read = read_kit(text)
    assert read.plan is not None, read.findings
    session = Session.start(read, None, None)
    while not session.state.due().over:
        step = session.state.due().step
        if step is not None and session.state.may_skip(step) and rng.random() < 0.6:
            hangs = [each.id for each in session.state.hangs_on(step)]
            assert session.skip().taken
            assert all(session.state.done[id] is False for id in hangs)
            check_left_out(session.state)
        else:
            session.next()
    check_all(session)


def test_random_kits_hold_what_this_is_about() -> None:
    kits = [random_kit(random.Random(n)) for n in range(150)]
    plans = [plan for text in kits if (plan := read_kit(text).plan)]
    assert len(plans) == len(kits)
    traces = [s for plan in plans for s in plan.steps if s.work and s.work.verb is Verb.TRACE]
    assert len(traces) > 10
