"""What a pocket's key says at every kind of step, with and without something on the pile.

That a key names what is in hand is the table's own rule (no source).
"""

from __future__ import annotations

import pytest

from model.event import Done, Event, Filed, Moved
from model.plan import StepKind
from model.session import Session
from model.warning import WarningKind
from tests.hand_kits import CUT_AGAIN
from tests.oracle import check_all
from tests.tables import (
    P12,
    P34,
    P56,
    kinds,
    only_warning,
    table,
    to_the_end,
    until_in_hand,
    up_to,
)

KIT = """
dryfit = 1
title = "Every step"
page = "12 x 12"
pages = 6

[[sheet]]
name = "A"
face = "navy"

[[sheet]]
name = "B"
face = "teal"

[[sheet]]
name = "T"
face = "plum"
size = "6 x 12"
wait = "trimmer away"

[[set_aside]]
name = "foam dots"
pages = [1]

[[precut]]
name = "white mat"
face = "white"
size = "3 x 3"
to = { "3·4" = 2 }

[[piece]]
name = "mat"
to = "1·2"

[[piece]]
name = "half"
to = "3·4"

[[piece]]
name = "panel"
to = "3·4"

[[piece]]
name = "disc"
to = "3·4"

[[piece]]
name = "boat"
to = "2 to 3·4"

[[piece]]
name = "star"
to = "3·4"

[[piece]]
name = "near"
to = "3·4"

[[piece]]
name = "far"
to = "1·2"

[[step]]
trim = "A"
marks = [9, 6]
gives = ["strip", "mat"]
rest = "block"

[[step]]
trim = "B"
marks = [6]
gives = "panel"
rest = "sky"

[[step]]
trim = "strip"
turn = "quarter"
marks = [6]
gives = "half"
rest = "foot"

[[step]]
slit = "mat"

[[step]]
punch = "panel"
gives = "disc"

[[step]]
fussy_cut = "block"
gives = ["boat", "boat"]

[[step]]
fussy_cut = "foot"
gives = [{ name = "ship", to = "3·4" }]

[[step]]
trace = "sky"
around = "boat"
gives = ["star"]

[[step]]
do = "Rest your eyes"

[[step]]
tear = "T"
widths = [2]
gives = "near"
rest = "far"
"""

STEPS: list[tuple[str, StepKind, str, list[Event]]] = [
    # The step, its kind, what lies on the pile; and what the key of 5·6 then says.
    ("open", StepKind.OPEN, "", []),
    ("aside:foam dots", StepKind.ASIDE, "", []),
    ("aside:T", StepKind.ASIDE, "", []),
    ("fill:white mat:3·4", StepKind.FILL, "", [Done("fill:white mat:3·4", "5·6")]),
    ("stack:A", StepKind.STACK, "", []),
    ("turn stack", StepKind.TURN_STACK, "", []),
    ("A/load", StepKind.LOAD, "", []),
    # A strip that comes off is said to be filed as anything else is: too early.
    ("A/1", StepKind.CUT, "", [Done("A/1"), Filed("A/1", "5·6")]),
    ("A/2", StepKind.CUT, "A/1", [Done("A/2"), Filed("A/2", "5·6")]),
    # Another sheet is loaded: what nobody has filed is the newest strip on the pile.
    ("B/load", StepKind.LOAD, "A/1 A/r", [Filed("A/r", "5·6")]),
    ("B/1", StepKind.CUT, "A/1 A/r", [Done("B/1"), Filed("B/1", "5·6")]),
    # The strip that is loaded itself is in hand, wherever on the pile it lies.
    ("A/1/load", StepKind.LOAD, "A/1 A/r B/r", [Filed("A/1", "5·6")]),
    ("A/1/1", StepKind.CUT, "A/r B/r", [Done("A/1/1"), Filed("A/1/1", "5·6")]),
    # After a slit or a punch the piece itself is put back, though it makes a piece too.
    ("A/2/slit", StepKind.MARK, "A/r B/r A/1/r", [Done("A/2/slit"), Moved("A/2", "5·6")]),
    ("B/1/punch", StepKind.MARK, "A/r B/r A/1/r", [Done("B/1/punch"), Moved("B/1", "5·6")]),
    ("A/r/fussy_cut", StepKind.SHAPE, "A/r B/r A/1/r",
     [Done("A/r/fussy_cut"), Filed("A/r/1", "5·6")]),
    ("B/r/trace", StepKind.SHAPE, "B/r", [Done("B/r/trace"), Filed("B/r/1", "5·6")]),
    # Right after a filing the key says that it was filed once more.
    ("do:Rest your eyes", StepKind.DO, "", [Filed("B/r/1", "5·6")]),
    ("away", StepKind.AWAY, "", []),
    ("T/load", StepKind.LOAD, "", []),
    ("T/1", StepKind.TEAR, "", [Done("T/1"), Filed("T/1", "5·6")]),
]  # fmt: skip


def said(session: Session, since: int) -> list[Event]:
    """The events that stand and were said after this number."""
    return [entry.event for entry in session.state.standing() if entry.n > since]


def test_the_table_names_every_kind_of_step() -> None:
    assert {kind for _, kind, _, _ in STEPS} == set(StepKind)


@pytest.mark.parametrize("by_load", [False, True])
@pytest.mark.parametrize(("step", "kind", "pile", "events"), STEPS, ids=[s[0] for s in STEPS])
def test_a_pocket_s_key_says_what_is_in_hand(
    step: str, kind: StepKind, pile: str, events: list[Event], by_load: bool
) -> None:
    session = table(KIT)
    session.pace_by(by_load)
    assert session.plan.steps[session.plan.step_at[step]].kind is kind
    up_to(session, step)
    assert session.state.due().item is None
    assert set(session.state.pile) == set(pile.split())
    before, since = session.state.snapshot(), session.said
    told = session.file_into(P56)
    assert said(session, since) == events
    assert told.taken is bool(events)
    check_all(session)
    if events:
        assert len(session.state.warnings) == 1  # nothing of this kit belongs in 5·6
        session.undo()
    assert session.state.snapshot() == before


@pytest.mark.parametrize(
    ("step", "objection"),
    [
        ("open", "nothing to file"), ("aside:foam dots", "nothing to file"),
        ("aside:T", "not cut yet"), ("stack:A", "not cut yet"),
        ("turn stack", "nothing to file"), ("A/load", "nothing to file"),
        ("away", "nothing to file"),
    ],
)  # fmt: skip
def test_where_nothing_can_be_filed_it_is_said_why(step: str, objection: str) -> None:
    session = table(KIT)
    up_to(session, step)
    assert session.file_into(P56).objection == objection


def test_what_is_due_is_what_is_meant_in_either_pace() -> None:
    session = table(KIT)
    up_to(session, "A/2")
    session.next()
    assert session.state.due().item == "A/2"
    session.pace_by(True)
    since = session.said
    session.file_into(P12)
    assert said(session, since) == [Filed("A/2", "1·2")]
    session.pace_by(True)
    up_to(session, "T/1")
    session.next()
    # Both are on the pile; the newest is what is due.
    assert session.state.pile == ("T/r", "T/1")
    since = session.said
    session.file_into(P34)
    session.file_into(P12)
    assert said(session, since) == [Filed("T/1", "3·4"), Filed("T/r", "1·2")]
    since = session.said
    session.file_into(P12)  # all is done
    assert said(session, since) == [Filed("T/r", "1·2")]
    assert kinds(session) == [WarningKind.TWICE]


def test_in_the_middle_of_a_load_what_comes_off_is_meant_though_the_pile_waits() -> None:
    session = table(CUT_AGAIN)
    session.pace_by(True)
    up_to(session, "A/2")
    assert session.state.pile == ("A/1",)
    since = session.said
    session.file_into(P12)
    assert said(session, since) == [Done("A/2"), Filed("A/2", "1·2")]
    assert session.state.pile == ("A/1",)


def test_a_piece_that_goes_back_where_it_was_makes_no_fuss() -> None:
    session = table(KIT)
    up_to(session, "A/2/slit")
    since = session.said
    session.file_into(P12)
    assert said(session, since) == [Done("A/2/slit")]
    up_to(session, "B/1/punch")
    since = session.said
    session.file_into(P34)
    assert said(session, since) == [Done("B/1/punch")]
    assert session.state.due().item == "B/1/punch1"
    assert not session.state.warnings


def test_a_piece_that_was_thrown_away_is_put_back_after_its_slit() -> None:
    session = table(KIT)
    up_to(session, "A/2/slit")
    session.scrap("A/2")
    session.leave(only_warning(session))
    session.file_into(P12)
    assert not session.state.warnings
    assert session.state.done["A/2/slit"]


def test_a_strip_filed_at_its_cut_is_told_as_too_early_and_goes_back() -> None:
    session = table(KIT)
    up_to(session, "A/1")
    told = session.file_into(P34)
    (warning,) = told.raised
    assert (warning.kind, warning.items) == (WarningKind.STRIP_FILED, ("A/1",))
    assert session.state.done["A/1"]
    session.put_right(warning)
    assert session.state.pile == ("A/1",)
    check_all(session)
    to_the_end(session)
    assert not session.state.warnings


def test_filed_together_with_its_cut_it_is_filed_twice_by_the_same_key() -> None:
    session = table(KIT)
    up_to(session, "B/r/trace")
    session.file_into(P34)
    assert session.state.where("B/r/1") == P34
    session.file_into(P34)
    assert (only_warning(session).kind, only_warning(session).items) == (
        WarningKind.TWICE, ("B/r/1",),
    )  # fmt: skip


def test_the_key_of_the_pocket_it_is_in_settles_what_was_filed_twice() -> None:
    session = table(KIT)
    to_the_end(session)
    session.file_into(P56)
    warning = only_warning(session)
    assert warning.kind is WarningKind.TWICE
    before = dict(session.state.place)
    assert session.answer(warning, session.state.where(warning.items[0])).taken
    assert not session.state.warnings
    assert session.state.place == before


def test_a_piece_that_was_thrown_away_is_moved_when_it_is_put_back_after_a_punch() -> None:
    session = table()
    until_in_hand(session, "B/1")
    session.scrap()
    session.leave(only_warning(session))
    up_to(session, "B/1/punch")
    assert session.file_into(P34).taken
    events = [entry.event for entry in session.state.last_said()]
    assert events == [Done("B/1/punch"), Moved("B/1", "3·4")]
