"""The closing account: areas, pieces, scraps and warnings, at every moment and at the end."""

from __future__ import annotations

import random
from fractions import Fraction

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from model.account import Account, account_of
from model.event import Extra
from model.folders import demo_folder
from model.kit import Verb
from model.manner import Manner
from model.plan import Role, StepKind
from model.report import report_data, report_lines
from model.session import Session
from model.state import Spot
from model.warning import WarningKind
from tests.kits import random_kit
from tests.tables import P34, only_warning, table, to_the_end, until_in_hand, up_to

DEMOS = sorted(demo_folder().glob("*.toml"))
SQUARE_INCH = Fraction(254, 10) ** 2  # 1 in = 25.4 mm exactly (international agreement, 1959)


def closed(session: Session) -> Account:
    account = account_of(session)
    assert account.closes
    return account


@pytest.mark.parametrize("path", DEMOS, ids=lambda path: path.stem)
def test_a_faultless_run_of_a_demo_kit_closes(path) -> None:  # type: ignore[no-untyped-def]
    session = table(path.read_text("utf-8"))
    assert not account_of(session).closes
    to_the_end(session)
    account = closed(session)
    assert not (account.warnings or account.mistakes or account.left_out or account.adrift)
    assert all(place == Spot.STACK for _, _, place in account.bases)
    kit = session.plan.kit
    assert account.scraps_expected == len(account.scraps) == kit.scraps
    for sheet in account.sheets:
        if sheet.measured:
            stock = session.plan.items[sheet.name].stock
            assert stock is not None
            assert sheet.area == stock.area
            assert sheet.pieces + sheet.scraps + sheet.by_hand == sheet.area


@settings(max_examples=60, deadline=None, suppress_health_check=list(HealthCheck))
@given(st.randoms(use_true_random=False))
def test_cuts_are_pieces_and_scraps_less_sheets(rng: random.Random) -> None:
    """Each cut makes one more piece of paper (it follows from the definition of a cut)."""
    session = table(random_kit(rng))
    plan = session.plan
    to_the_end(session)
    account = closed(session)
    straight = [i for i in plan.items.values() if i.stock is not None and i.sheet and (
        i.id not in plan.made_by or plan.steps[plan.made_by[i.id]].kind
        in (StepKind.CUT, StepKind.TEAR))]  # fmt: skip
    # What a hand step takes up is one piece of paper for the cuts before it.
    parts = [
        i
        for i in straight
        if i.id not in plan.taken_by or plan.steps[plan.taken_by[i.id]].kind is StepKind.SHAPE
    ]
    sheets = [i for i in straight if i.role is Role.SHEET]
    bases = [i for i in straight if i.role is Role.BASE]
    assert account.cuts == len(parts) - len(bases) - len(sheets)


class TestAreas:
    def test_one_sheet_worked_out_by_hand(self) -> None:
        """12 x 12 = 144 square inches: three mats of 3 x 12, three blocks of 3 x 4."""
        session = table()
        sheet = account_of(session).sheets[0]
        assert (sheet.area, sheet.uncut) == (144 * SQUARE_INCH, 144 * SQUARE_INCH)
        until_in_hand(session, "A/2")
        sheet = account_of(session).sheets[0]
        assert sheet.pieces == 72 * SQUARE_INCH
        assert sheet.uncut == 72 * SQUARE_INCH
        to_the_end(session)
        sheet = account_of(session).sheets[0]
        # The blocks give a quarter and a scrap each: 4 x 1 and 4 x 2 of the 4 x 3,
        # by the marks 2 of 3 (and, for the last, 2 of 3).
        assert sheet.pieces + sheet.scraps == 144 * SQUARE_INCH
        assert sheet.uncut == 0

    def test_hand_work_is_booked_whole(self) -> None:
        """The shape and its trimmings together are what was taken up: 6 x 12."""
        session = table()
        to_the_end(session)
        sheet = account_of(session).sheets[1]
        assert sheet.by_hand == 72 * SQUARE_INCH
        assert sheet.piece_count == 4  # the quarter, two discs, the shape
        assert sheet.scrap_count == 1

    def test_what_stays_uncut_by_choice_is_no_gap(self) -> None:
        session = table()
        while not session.state.due().over:
            if not session.skip().taken:
                session.next()
        account = closed(session)
        sheet = account.sheets[1]
        assert sheet.left_out == sheet.uncut == 72 * SQUARE_INCH
        assert account.left_out[0] == "A/r/2/load"

    def test_a_cut_apart_is_counted_by_name(self) -> None:
        session = table((demo_folder() / "harbour.toml").read_text("utf-8"))
        to_the_end(session)
        sheet = next(s for s in account_of(session).sheets if s.name == "F")
        assert not sheet.measured
        assert sheet.piece_count == 14  # thirteen panels, of which one gave two boats
        assert sheet.closes


class TestWhatKeepsItOpen:
    def test_a_warning_that_was_left(self) -> None:
        session = table()
        until_in_hand(session, "A/1")
        session.file_into(P34)
        session.leave(only_warning(session))
        to_the_end(session)
        account = account_of(session)
        assert account.finished
        assert not account.closes
        assert [warning.kind for warning in account.warnings] == [WarningKind.WRONG_POCKET]
        lines = report_lines(session, account, Manner(), pieces=True)
        label = session.label(P34)
        assert "bad" in [tone for tone, line in lines if line.startswith(f"{label}:")]
        # With its companion, which was filed with it.
        assert [tone for tone, line in lines if "does not belong here" in line] == ["bad"] * 2
        (pocket,) = (p for p in report_data(session, account)["pockets"] if p["label"] == label)
        assert pocket["strays"][0] == "A/1"
        assert len(pocket["strays"]) == 2
        session.put_right(account.warnings[0])
        assert closed(session).mistakes == ((WarningKind.WRONG_POCKET, 1),)

    def test_a_wanted_piece_among_the_scraps_is_listed_there(self) -> None:
        session = table()
        until_in_hand(session, "A/1")
        session.scrap()
        to_the_end(session)
        account = account_of(session)
        assert not account.closes
        assert account.scraps[0] == "A/1"
        assert len(account.scraps) == account.scraps_expected + 1
        assert account.sheets[0].closes  # its paper is not lost

    def test_one_scrap_too_many(self) -> None:
        session = table()
        to_the_end(session)
        session.say(Extra())
        account = account_of(session)
        assert account.extra == 1
        assert not account.closes

    def test_a_piece_on_the_pile(self) -> None:
        session = table()
        to_the_end(session)
        session.undo()
        account = account_of(session)
        assert not account.finished
        assert not account.closes

    def test_hand_steps_alone_are_no_cuts(self) -> None:
        session = table()
        to_the_end(session)
        verbs = [step.work.verb for step in session.plan.steps if step.work]
        assert Verb.FUSSY_CUT in verbs
        assert account_of(session).cuts == 10  # 3 + 2 + 1 + 1 + 1 + 1 + 1 marks


def test_what_was_moved_long_after_it_was_filed_is_told() -> None:
    session = table()
    until_in_hand(session, "A/1")
    session.file_into(P34)
    session.leave(only_warning(session))
    for _ in range(6):
        assert session.next().taken
    later = session.state.steps_done
    home = session.state.belongs("A/1")
    assert session.move("A/1", home).taken
    assert session.state.steps_done == later  # nothing that came after is undone
    account = account_of(session)
    assert account.moved == (("A/1", session.label(P34), session.label(home)),)
    lines = [line for _, line in report_lines(session, account, Manner(), pieces=True)]
    assert [line for line in lines if line.startswith("moved: ")]
    assert session.undo().taken
    assert account_of(session).moved == ()


def test_a_packed_piece_that_was_moved_is_told_too() -> None:
    """It was counted into its pocket at the start, by a step and not by hand."""
    session = table()
    while not (packed := [id for id in session.plan.items if session.state.where(id) >= 0]):
        assert session.next().taken
    item = packed[0]
    was = session.state.where(item)
    now = next(p.index for p in session.plan.kit.pockets if p.index != was)
    assert session.move(item, now).taken
    assert account_of(session).moved == ((item, session.label(was), session.label(now)),)


def test_set_asides_and_ribbons_are_listed() -> None:
    session = table((demo_folder() / "harbour.toml").read_text("utf-8"))
    account = account_of(session)
    assert [(a.name, a.pages) for a in account.set_asides] == [
        ("foam dots", (5, 9)), ("glassine envelope", (4,)),
    ]  # fmt: skip
    # 1 yd = 36 in, of which 16 and 18 are used; 2 yd = 72 in, of which 24 and 36 are.
    inch = Fraction(254, 10)
    assert account.ribbons == (("striped ribbon", 2 * inch), ("twine", 12 * inch))


def test_a_run_can_be_looked_at_before_its_first_cut() -> None:
    session = table()
    up_to(session, "A/load")
    account = account_of(session)
    assert account.cuts == 0
    assert [p.held for p in account.pockets] == [2, 3, 2]
