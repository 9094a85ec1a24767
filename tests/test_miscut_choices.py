"""What can be chosen when something went wrong: cuts, things, sheets, and what can be said."""

from __future__ import annotations

from fractions import Fraction

import pytest

from model.length import parse_length
from model.plan import StepKind
from model.rescue.choices import (
    cuts_made,
    may_be_missing,
    may_be_ruined,
    may_be_taken,
    narrowed,
    possible,
    should_be,
    sides_of,
    taken,
)
from model.rescue.mishap import CannotBe, Mishap, What
from model.rescue.rescue import Rescue
from model.rescue.truth import truth_of
from model.session import Session
from model.spot import Spot
from tests.pictures import to_end
from tests.screens import begun
from tests.tables import P12, table, until_in_hand, up_to

INCH = Fraction(254, 10)


@pytest.fixture
def session() -> Session:
    return table()


class TestCuts:
    def test_there_is_none_at_first(self, session: Session) -> None:
        assert cuts_made(session.state) == ()

    def test_the_newest_comes_first_with_the_time_at_which_it_was_said(
        self, session: Session
    ) -> None:
        up_to(session, "A/3")
        made = cuts_made(session.state)
        assert [each.step.id for each in made] == ["A/2", "A/1"]
        first, second = (each.at for each in made)
        assert first is not None and second is not None and first > second

    def test_what_was_taken_back_is_none(self, session: Session) -> None:
        up_to(session, "A/2")
        session.undo()
        session.undo()
        assert cuts_made(session.state) == ()

    def test_tears_are_among_them(self, tmp_path) -> None:
        session = begun("postcard", tmp_path)
        to_end(session)
        kinds = {each.step.kind for each in cuts_made(session.state)}
        assert kinds == {StepKind.CUT, StepKind.TEAR}


class TestLengths:
    def test_a_mark_is_what_stays_and_what_comes_off_is_the_rest(self, session: Session) -> None:
        up_to(session, "A/2")
        (made,) = cuts_made(session.state)
        off, stays = sides_of(made.step)
        mark = should_be(made.step, What.MARK)
        assert mark is not None
        assert should_be(made.step, What.MEASURE, stays) == mark
        assert should_be(made.step, What.MEASURE, off) == 12 * INCH - mark

    @pytest.mark.parametrize("side", [0, 1])
    def test_a_measure_that_is_as_it_should_be_is_no_mishap(
        self, session: Session, side: int
    ) -> None:
        """The engine agrees on what it should be: saying just that is refused."""
        up_to(session, "A/2")
        (made,) = cuts_made(session.state)
        thing = sides_of(made.step)[side]
        length = should_be(made.step, What.MEASURE, thing)
        assert length is not None
        with pytest.raises(CannotBe) as refused:
            truth_of(session.state, Mishap(What.MEASURE, made.step.id, length, thing))
        assert refused.value.code == "as it should be"

    def test_of_a_tear_the_width_comes_off(self, tmp_path) -> None:
        session = begun("postcard", tmp_path)
        to_end(session)
        tear = next(e.step for e in cuts_made(session.state) if e.step.kind is StepKind.TEAR)
        off, stays = sides_of(tear)
        assert tear.mark is not None and tear.before is not None
        along = tear.before.along(tear.lying).value
        assert should_be(tear, What.MEASURE, off) == tear.mark.value == should_be(tear, What.MARK)
        assert should_be(tear, What.MEASURE, stays) == along - tear.mark.value

    def test_a_printed_line_has_no_length(self, tmp_path) -> None:
        session = begun("harbour", tmp_path)
        to_end(session)
        printed = [e.step for e in cuts_made(session.state) if e.step.sheet == "F"]
        assert any(should_be(step, What.MARK) is None for step in printed)


class TestPossible:
    def test_before_the_first_cut_only_things_and_sheets_can_be_meant(
        self, session: Session
    ) -> None:
        up_to(session, "A/load")
        why = possible(session.state, None)
        assert [what for what in What if not why[what]] == [What.RUINED, What.MISSING]
        assert {why[what] for what in What if why[what]} == {"no cut"}

    def test_a_printed_line_says_why_no_length_can_be_said(self, tmp_path) -> None:
        session = begun("harbour", tmp_path)
        to_end(session)
        step = next(e.step for e in cuts_made(session.state) if e.step.sheet == "F")
        assert possible(session.state, step)[What.MARK] == "no numbers"

    def test_what_was_torn_did_not_lie_wrong_in_the_trimmer(self, tmp_path) -> None:
        session = begun("postcard", tmp_path)
        to_end(session)
        tear = next(e.step for e in cuts_made(session.state) if e.step.kind is StepKind.TEAR)
        why = possible(session.state, tear)
        assert why[What.TURNED] == why[What.FACE] == "not to turn"

    def test_when_all_is_begun_no_sheet_can_be_missing(self, tmp_path) -> None:
        session = begun("postcard", tmp_path)
        to_end(session)
        assert possible(session.state, None)[What.MISSING] == "all begun"

    @pytest.mark.parametrize("kit", ["postcard", "harbour", "cards"])
    def test_whatever_is_possible_is_not_refused(self, kit: str, tmp_path) -> None:
        """At every tenth step of a run; lengths are a little less than they should be."""
        session, n = begun(kit, tmp_path), 0
        while session.next().taken:
            n += 1
            made = cuts_made(session.state)
            if n % 10 or not made:
                continue
            step = made[0].step
            for what, why in possible(session.state, step).items():
                if why:
                    continue
                if what is What.MARK:
                    length = should_be(step, what)
                    assert length is not None
                    mishaps = [Mishap(what, step.id, length - Fraction(1, 10))]
                elif what in (What.MEASURE, What.PIECE):
                    continue  # what is refused of these is told when it is chosen
                elif what is What.RUINED:
                    mishaps = [
                        Mishap(what, thing=lot.item.id) for lot in may_be_ruined(session.state)
                    ]
                elif what is What.MISSING:
                    mishaps = [
                        Mishap(what, thing=lot.item.id) for lot in may_be_missing(session.state)
                    ]
                else:
                    mishaps = [Mishap(what, step.load)]
                for mishap in mishaps:
                    try:
                        truth_of(session.state, mishap)
                    except CannotBe as error:
                        assert error.code == "by hand", mishap


class TestThings:
    def test_the_newest_thing_may_be_ruined_first_and_sheets_last(self, session: Session) -> None:
        until_in_hand(session, "A/2")
        lots = may_be_ruined(session.state)
        assert [lot.item.id for lot in lots[:3]] == ["A", "A/2", "A/1"]
        assert lots[0].place == Spot.IN_HAND
        assert lots[2].place == P12
        assert lots[-1].item.id == "B"

    def test_alike_things_in_one_pocket_are_one_row(self, tmp_path) -> None:
        session = begun("harbour", tmp_path, 60)
        lots = may_be_ruined(session.state)
        brads = [lot for lot in lots if lot.item.name == "brass brad"]
        assert sorted(lot.count for lot in brads) == [2, 4]

    def test_no_scrap_nor_ribbon_nor_what_is_cut_up_is_among_them(self, tmp_path) -> None:
        session = begun("harbour", tmp_path)
        to_end(session)
        for lot in may_be_ruined(session.state):
            assert lot.item.length is None and lot.item.name != "scrap"
            assert lot.place not in (Spot.TAKEN, Spot.NOWHERE)

    def test_what_lay_there_may_have_been_taken_a_sheet_for_a_sheet_first(
        self, session: Session
    ) -> None:
        up_to(session, "A/2")
        (made,) = cuts_made(session.state)
        lots = may_be_taken(session.state, made.step)
        assert [lot.item.id for lot in lots] == ["B"]

    def test_what_came_into_being_later_was_not_there(self, tmp_path) -> None:
        session = begun("harbour", tmp_path)
        to_end(session)
        first = cuts_made(session.state)[-1].step
        assert first.sheet == "A"
        lots = may_be_taken(session.state, first)
        assert {lot.item.id for lot in lots} <= set(session.plan.sheets)
        last = cuts_made(session.state)[0].step
        assert taken(last) not in {lot.item.id for lot in may_be_taken(session.state, last)}

    def test_only_sheets_that_nobody_has_begun_can_be_missing(self, session: Session) -> None:
        assert [lot.item.id for lot in may_be_missing(session.state)] == ["A", "B"]
        up_to(session, "A/1")
        assert [lot.item.id for lot in may_be_missing(session.state)] == ["B"]


class TestNarrowing:
    ROWS = (
        ("B", "sheet B (navy)", "on the stack"),
        ("2", "Cut 2 of 4 of sheet E, at 8½", "strip (2 × 6), in pocket 1·2"),
        ("x", "boat band (12 × 4)", "in pocket 5·6; of sheet D"),
        ("y", "rope mat (4 × 6)", "on the pile; of sheet A"),
    )

    @pytest.mark.parametrize(
        ("text", "ids"),
        [
            ("", "B2xy"), ("b", "B"), ("bo", "x"), ("sheet", "B2"), ("mat pile", "y"),
            ("sheet e", "2"), ("sheet e, at", "2"),
            ("4x6", ""), ("4 x 6", "y"), ("12 × 4", "x"), ("nothing", ""),
        ],
    )  # fmt: skip
    def test_all_words_must_be_there_whole_ones_first(self, text: str, ids: str) -> None:
        assert "".join(row[0] for row in narrowed(self.ROWS, text)) == ids


def test_looking_changes_nothing(session: Session) -> None:
    up_to(session, "A/2")
    before, said = session.state.snapshot(), session.said
    (made,) = cuts_made(session.state)
    length = should_be(made.step, What.MARK)
    assert length is not None
    mishap = Mishap(What.MARK, made.step.id, length - parse_length("1/4 in", session.plan.kit.unit))
    rescue = Rescue(session, mishap)
    rescue.search()
    assert rescue.ways
    assert (session.state.snapshot(), session.said) == (before, said)
