"""What a mending does in a session, worked through by hand."""

from __future__ import annotations

from pathlib import Path

import pytest

from model.account import account_of
from model.event import Adopted, Done, Entry, Filed, Foreign, Mended, Moved, Scrapped
from model.journal import read_journal
from model.plan import Role
from model.reading import read_kit
from model.rescue.mending import Fate, MendedLoad, Mending, Share
from model.rescue.mendingtext import to_text
from model.session import Session
from model.shelf import sessions_in
from model.state import Spot
from model.story import fold
from model.warning import WarningKind
from tests.muddle import QuickDisk, entries_of, plan_of_text
from tests.oracle import check_all
from tests.tables import clock, to_the_end, up_to
from tests.test_amend import IN, KIT, marks, role

SCRAP = Share(Fate.SCRAP)
NARROW = MendedLoad("A", marks(6, 4), (SCRAP, role("A/2")), role("A/r"), as_written=True)
HALF_OF_B = MendedLoad("B", marks(6), (role("B/1"),), role("A/1"), as_written=True)
SHIFT = Mending(loads=(NARROW, HALF_OF_B))
"""The half of A is spoilt, and cut from B instead; then nothing is left of B for the shapes."""


@pytest.fixture
def session(tmp_path: Path) -> Session:
    return Session.start(read_kit(KIT), None, tmp_path, clock(), disk=QuickDisk())


def path_of(session: Session) -> Path:
    assert session.path is not None
    return session.path


def mend(session: Session, mending: Mending = SHIFT, *moves: Moved | Scrapped) -> int:
    told = session.mend(mending, "mark", "A/1", "sheet", moves)
    assert told.taken
    return told.n


class TestSaying:
    def test_what_was_filed_is_told_anew_and_undo_takes_it_back(self, session: Session) -> None:
        up_to(session, "A/r/load")
        assert session.state.where("A/1") == 0
        numbers = session.sheet_numbers
        before, plan = session.state.snapshot(), session.plan
        told = session.mend(SHIFT, "mark", "A/1", "sheet", [Scrapped("A/1")])
        assert told.taken
        assert session.plan.items["A/1"].role is Role.SCRAP
        assert session.state.where("A/1") == Spot.SCRAPS
        assert session.state.warnings == {}
        assert session.known.plan is session.plan
        assert session.state.last_answer == told.n
        session.undo()
        assert (session.plan, session.state.snapshot()) == (plan, before)
        assert session.sheet_numbers == numbers
        session.redo()
        assert session.state.where("A/1") == Spot.SCRAPS

    def test_what_newly_stands_is_told_once(self, session: Session) -> None:
        up_to(session, "A/r/load")
        told = session.mend(SHIFT, "mark", "A/1", "sheet")
        assert [each.kind for each in told.raised] == [WarningKind.SCRAP_FILED]
        assert session.state.raised == list(told.raised)
        assert session.state.mistakes == [], "it was filed rightly when it was filed"
        undone = session.undo()
        assert undone.raised == ()
        assert [each.kind for each in session.redo().raised] == [WarningKind.SCRAP_FILED]
        session.next()
        assert session.state.raised == []

    def test_moves_are_part_of_the_answer_and_those_that_were_made_are_passed_over(
        self, session: Session
    ) -> None:
        up_to(session, "A/r/load")
        n = mend(session, SHIFT, Scrapped("A/1"), Scrapped("A/1"), Moved("A/2", ""))
        entries = entries_of(path_of(session))
        assert [type(entry.event) for entry in entries if entry.part_of == n] == [Scrapped, Moved]
        assert session.state.top == "A/2"

    def test_what_makes_no_sense_is_refused_and_not_written(self, session: Session) -> None:
        before, said = session.state.snapshot(), session.said
        told = session.mend(Mending("nowhere"), "mark", "", "")
        assert (told.objection, told.n) == ("cannot mend", 0)
        assert session.say(Mended("nonsense")).objection == "cannot mend"
        assert (session.state.snapshot(), session.said) == (before, said)

    def test_the_rest_of_the_run_follows_and_its_account_is_true(self, session: Session) -> None:
        up_to(session, "A/r/load")
        mend(session, SHIFT, Scrapped("A/1"))
        to_the_end(session)
        account = account_of(session)
        assert account.scraps_expected == len(account.scraps) == 2
        lacking = {pocket.pocket: pocket.wanted - pocket.held for pocket in account.pockets}
        assert lacking == {0: 2}, "sun and moon had to be cut from what is left of B"
        assert not account.closes
        assert session.undo().taken

    def test_a_run_that_was_rescued_closes(self, session: Session) -> None:
        up_to(session, "A/r/load")
        exchange = Mending(
            session.state.due().step.id,  # type: ignore[union-attr]
            (
                MendedLoad("A", marks(6, 4), (role("A/1"), role("B/1")), role("A/r")),
                MendedLoad("B", marks(10), (role("A/2"),), role("B/r")),
            ),
        )
        mend(session, exchange)
        check_all(session)
        to_the_end(session)
        check_all(session)
        assert account_of(session).closes

    def test_an_end_that_was_reached_is_opened_again(self, session: Session) -> None:
        to_the_end(session)
        again = MendedLoad("A/r/r", marks(2), (SCRAP,), SCRAP, turn=1)
        mend(session, Mending(loads=(again,)), Moved("A/r/r", ""))
        assert not session.state.due().over
        assert session.state.warnings == {}
        (seen,) = sessions_in(path_of(session).parent)
        assert not seen.finished
        to_the_end(session)
        assert account_of(session).closes
        (seen,) = sessions_in(path_of(session).parent)
        assert seen.finished


class TestSwapped:
    def test_what_was_said_of_one_was_done_to_the_other(self, session: Session) -> None:
        up_to(session, "B/load")
        since = next(
            entry.n for entry in entries_of(path_of(session)) if entry.event == Done("A/load")
        )
        # B was in the trimmer, and cut as A should have been; so was what came of it.
        loads = (
            MendedLoad("B", marks(6, 4), (role("A/1"), role("A/2")), role("A/r")),
            MendedLoad("A", marks(10), (role("B/1"),), role("B/r")),
        )
        filed = {i: session.state.where(i) for i in session.state.place if i.startswith("A/")}
        mend(session, Mending(loads=loads, swapped=(("A", "B"),), since=since))
        state = session.state
        assert {i: state.where(i.replace("A", "B", 1)) for i in filed} == filed
        assert not [i for i in state.place if i.startswith("A/")]
        assert state.where("A") == Spot.STACK
        assert "stack:A" in state.done
        assert state.done.keys() >= {"B/load", "B/1", "B/2", "B/r/load"}
        due = state.due().step
        assert due is not None and due.id == "A/load"
        check_all(session)
        to_the_end(session)
        check_all(session)
        assert account_of(session).closes
        # What is said from then on is said of the things themselves.
        assert state is session.state or session.state.where("A/1") == 0

    def test_the_step_called_as_a_thing_is_a_cut_of_what_it_comes_from(
        self, session: Session
    ) -> None:
        up_to(session, "B/1")
        session.say(Moved("A/1", ""))
        mend(session, Mending(swapped=(("A/1", "A/r/1"),), since=1))
        assert "A/1" in session.state.done and "A/r/1" in session.state.done
        assert (session.state.where("A/1"), session.state.where("A/r/1")) == (0, Spot.PILE)

    def test_what_was_said_before_is_left_as_it_is(self, session: Session) -> None:
        up_to(session, "B/1")
        session.say(Moved("A/1", ""))
        mend(session, Mending(swapped=(("A/1", "A/r/1"),), since=session.said + 1))
        assert (session.state.where("A/1"), session.state.where("A/r/1")) == (Spot.PILE, 0)
        mend(session, Mending(swapped=(("A/1", "A/r/1"),), since=session.said - 1))
        assert (session.state.where("A/1"), session.state.where("A/r/1")) == (0, Spot.PILE)


class TestUnloaded:
    def test_what_was_laid_in_lies_where_it_lay(self, session: Session) -> None:
        up_to(session, "A/r/load")
        where = session.state.where("A/r")
        session.next()
        assert session.state.where("A/r") == Spot.IN_HAND
        mend(session, Mending("A/r/1", unloaded=("A/r",)))
        assert session.state.where("A/r") == where == Spot.PILE
        step = session.state.due().step
        assert step is not None and step.id == "A/r/load"
        session.next()  # laying it in again counts
        assert session.state.where("A/r") == Spot.IN_HAND
        session.undo()
        session.undo()
        assert session.state.where("A/r") == Spot.IN_HAND


class TestTheFile:
    def test_it_is_read_again_as_it_was(self, session: Session) -> None:
        up_to(session, "A/r/load")
        mend(session, SHIFT, Scrapped("A/1"))
        session.next()
        session.close()
        again = Session.resume(path_of(session), disk=QuickDisk())
        assert again.troubles == () and again.state.ignored == []
        assert again.plan == session.plan
        assert again.state.snapshot() == session.state.snapshot()
        again.undo()
        again.undo()
        assert again.plan == plan_of_text(KIT)

    def test_who_looks_on_follows(self, session: Session) -> None:
        looker = Session.watch(path_of(session))
        for _ in range(2):
            session.next()
            looker.poll()
        mend(session)
        assert looker.poll()
        assert looker.plan == session.plan
        session.undo()
        looker.poll()
        assert looker.plan == session.plan == plan_of_text(KIT)
        assert looker.state.snapshot() == session.state.snapshot()

    def test_a_text_that_was_damaged_is_passed_over_and_told(self, session: Session) -> None:
        up_to(session, "A/r/load")
        n = mend(session)
        session.next()
        session.close()
        path = path_of(session)
        data = path.read_bytes()
        assert data.count(b"as_written") == 2
        path.write_bytes(data.replace(b"as_written", b"as_writ?en"))
        again = Session.resume(path, disk=QuickDisk())
        assert again.state.ignored == [n]
        assert again.plan == plan_of_text(KIT)
        assert again.state.where("A/1") == 0
        to_the_end(again)
        assert account_of(again).adrift == (n,)

    @pytest.mark.parametrize("lost", ["mended", "retracted", "restored"])
    def test_a_journal_with_a_hole_goes_on(self, session: Session, lost: str) -> None:
        up_to(session, "A/r/load")
        mend(session)
        session.undo()
        session.redo()
        mend(session, Mending(gone=("C",)))
        session.next()
        entries = entries_of(path_of(session))
        kept = [entry for entry in entries if entry.event.did != lost]
        assert len(kept) < len(entries)
        state = fold(plan_of_text(KIT), kept)
        assert state.plan.items  # it tells something, whatever it is
        assert fold(plan_of_text(KIT), kept).snapshot() == state.snapshot()

    def test_an_older_program_passes_it_over(self, session: Session) -> None:
        up_to(session, "A/r/load")
        mend(session)
        records = read_journal(path_of(session)).records
        older = [
            Entry(e.n, e.at, Foreign("mended") if isinstance(e.event, Mended) else e.event)
            for e in entries_of(path_of(session))
        ]
        assert [r["did"] for r in records][-1] == "mended"
        state = fold(plan_of_text(KIT), older)
        assert (state.foreign, state.where("A/1")) == (1, 0)

    def test_a_glance_counts_right(self, session: Session) -> None:
        def seen() -> tuple[int, int]:
            (on_shelf,) = sessions_in(path_of(session).parent)
            return on_shelf.done, on_shelf.steps

        def true() -> tuple[int, int]:
            return session.state.steps_done, len(session.plan.steps)

        up_to(session, "B/load")
        mend(session, Mending(loads=(MendedLoad("A", marks(6), (role("A/1"),), SCRAP),)))
        assert seen() == true()
        assert true() != (0, len(plan_of_text(KIT).steps))
        for _ in range(3):
            session.next()
            assert seen() == true()
        mend(session, Mending(gone=("C",)))
        assert seen() == true()
        for undone in range(9):
            session.undo()
            assert seen() == true(), undone
        for _ in range(9):
            session.redo()
            assert seen() == true()
        assert session.undo_word().taken
        assert seen() == true()
        session.close()

    def test_the_text_is_what_stands_in_the_file(self, session: Session) -> None:
        mend(session)
        (said,) = [e.event for e in entries_of(path_of(session)) if isinstance(e.event, Mended)]
        assert said.mending == to_text(SHIFT)
        assert (said.what, said.step, said.way) == ("mark", "A/1", "sheet")
        assert said.steps == len(session.plan.steps)


class TestAnotherKit:
    @pytest.fixture
    def source(self, tmp_path: Path) -> Path:
        path = tmp_path / "kits" / "kit.toml"
        path.parent.mkdir()
        path.write_text(KIT, encoding="utf-8")
        return path

    @pytest.fixture
    def session(self, source: Path, tmp_path: Path) -> Session:
        kit = read_kit(source.read_text(encoding="utf-8"))
        return Session.start(kit, source, tmp_path / "sessions", clock(), disk=QuickDisk())

    def test_what_was_mended_stays_mended(self, session: Session, source: Path) -> None:
        up_to(session, "A/r/load")
        mend(session, SHIFT, Scrapped("A/1"))
        source.write_text(KIT.replace("marks = [5]", "marks = [7]"), encoding="utf-8")
        change = session.changed_kit()
        assert change is not None and change.blockers == ()
        assert {*change.altered} == {"C/1"}
        assert session.adopt(change).taken
        assert session.plan.items["A/1"].role is Role.SCRAP
        stock = session.plan.items["C/r"].stock
        assert stock is not None and stock.width.value == 7 * IN
        assert session.state.where("A/1") == Spot.SCRAPS
        assert session.state.ignored == []
        (seen,) = sessions_in(path_of(session).parent)
        assert (seen.done, seen.steps) == (session.state.steps_done, len(session.plan.steps))
        before = session.state.snapshot()
        again = Session.watch(path_of(session))
        assert (again.plan, again.state.snapshot()) == (session.plan, before)
        session.undo()
        assert session.plan.items["A/1"].role is Role.PIECE
        assert session.state.where("A/1") == 0
        (seen,) = sessions_in(path_of(session).parent)
        assert (seen.done, seen.steps) == (session.state.steps_done, len(session.plan.steps))
        session.redo()
        assert session.state.snapshot() == before

    def test_a_kit_in_which_it_makes_no_sense_is_not_taken_over(
        self, session: Session, source: Path
    ) -> None:
        up_to(session, "A/r/load")
        n = mend(session, Mending(loads=(NARROW,), gone=("C",)))
        text = KIT[: KIT.index('[[sheet]]\nname = "C"')] + KIT[KIT.index("[[precut]]") :]
        text = text.replace('trim = "C"\nmarks = [5]', 'trim = "white mat"\nmarks = [1]')
        text = text.replace('{ "1·2" = 3 }', '{ "1·2" = 1 }')
        source.write_text(text, encoding="utf-8")
        change = session.changed_kit()
        assert change is not None and change.plan is not None
        assert f"entry {n}" in change.blockers
        assert session.adopt(change).objection == "kit touched"
        # A journal that says so all the same is read: what can't be mended is told.
        entries = [
            *entries_of(path_of(session)),
            Entry(session.said + 1, entries_of(path_of(session))[-1].at, Adopted(text)),
        ]
        state = fold(plan_of_text(KIT), entries, plan_of_text)
        assert n in state.ignored and state.mendings == {}
        assert state.where("A/1") == 0

    def test_swaps_are_told_anew_on_the_other_kit(self, session: Session, source: Path) -> None:
        up_to(session, "A/r/load")
        loads = (MendedLoad("A", marks(6, 4), (role("A/2"), role("A/1")), role("A/r")),)
        session.say(Moved("A/1", "")), session.say(Filed("A/1", "1·2"))
        mend(session, Mending(loads=loads, swapped=(("A/1", "A/2"),), since=1))
        source.write_text(KIT.replace("marks = [5]", "marks = [7]"), encoding="utf-8")
        change = session.changed_kit()
        assert change is not None and change.blockers == ()
        before = session.state.snapshot()
        assert session.adopt(change).taken
        assert session.state.snapshot()["place"] == before["place"]
        mend(session, Mending(gone=("C",)))
        session.undo()
        assert session.state.snapshot()["place"] == before["place"]
