"""A kit file that is changed while its session goes on."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest

from model.event import Adopted
from model.kitchange import compare
from model.reading import load_kit, read_kit
from model.session import Session
from model.story import fold
from tests.hand_kits import CUT_AGAIN
from tests.muddle import QuickDisk, entries_of, plan_of_text
from tests.oracle import check_all
from tests.tables import P34, clock, only_warning, to_the_end, until_in_hand, up_to


@pytest.fixture
def source(tmp_path: Path) -> Path:
    path = tmp_path / "kit.toml"
    path.write_text(CUT_AGAIN, encoding="utf-8")
    return path


@pytest.fixture
def session(source: Path, tmp_path: Path) -> Session:
    return Session.start(load_kit(source), source, tmp_path / "sessions", clock(), disk=QuickDisk())


def change(source: Path, old: str, new: str) -> None:
    text = source.read_text("utf-8")
    assert text.count(old) == 1
    source.write_text(text.replace(old, new), encoding="utf-8")


LAST_LOAD = 'trim = "other"\nmarks = [3]'


class TestComparing:
    def test_the_same_file_is_no_change(self, session: Session, source: Path) -> None:
        assert session.changed_kit() is None
        source.write_bytes(b"\xef\xbb\xbf" + CUT_AGAIN.replace("\n", "\r\n").encode())
        assert session.changed_kit() is None  # only saved by another editor

    def test_a_file_that_is_gone_or_no_text_breaks_nothing(
        self, session: Session, source: Path
    ) -> None:
        source.write_bytes(b"\xff\xfe\x00")
        assert session.changed_kit() is None
        source.unlink()
        assert session.changed_kit() is None
        assert session.next().taken

    def test_a_file_with_errors_is_told_and_not_taken(self, session: Session, source: Path) -> None:
        change(source, LAST_LOAD, LAST_LOAD.replace("3", "13"))
        changed = session.changed_kit()
        assert changed is not None
        assert changed.plan is None
        assert "13" in changed.findings[0]
        assert session.adopt(changed).objection == "kit touched"

    def test_words_alone(self, session: Session, source: Path) -> None:
        change(source, 'title = "Cut again"', 'title = "Cut once more"')
        changed = session.changed_kit()
        assert changed is not None
        assert (changed.added, changed.dropped, changed.altered, changed.blockers) == (
            (), (), (), (),
        )  # fmt: skip

    def test_paper_of_another_size_is_another_step(self, session: Session, source: Path) -> None:
        """The marks are the same, and so is what they are called; the paper in hand is not."""
        change(source, 'name = "B"\nface = "teal"', 'name = "B"\nface = "teal"\nsize = "12 x 11"')
        changed = session.changed_kit()
        assert changed is not None
        assert {"B/load", "B/1"} <= set(changed.altered)
        assert not any(id.startswith("A") for id in changed.altered)

    def test_what_is_told(self, session: Session, source: Path) -> None:
        change(source, LAST_LOAD, LAST_LOAD.replace("3", "4"))
        change(source, '[[step]]\npunch = "half"\ngives = ["disc", "disc"]\noptional = true\n', "")
        change(source, '[[piece]]\nname = "disc"\nto = "1 to 1·2, 1 to 5·6"\n', "")
        source.write_text(
            source.read_text("utf-8") + '\n[[step]]\ndo = "Press it flat"\nwait = "after filing"\n',
            encoding="utf-8",
        )
        changed = session.changed_kit()
        assert changed is not None
        assert changed.added == ("do:Press it flat",)
        assert changed.dropped == ("B/1/punch",)
        assert "B/r/1" in changed.altered
        assert changed.blockers == ()

    def test_what_is_done_blocks(self, session: Session, source: Path) -> None:
        change(source, "marks = [9, 6, 3]", "marks = [10, 8, 6]")
        up_to(session, "A/load")
        changed = session.changed_kit()
        assert changed is not None
        assert changed.blockers == ()
        until_in_hand(session, "A/1")
        changed = session.changed_kit()
        assert changed is not None
        assert "A/1" in changed.blockers
        assert session.adopt(changed).objection == "kit touched"

    def test_more_may_be_done_while_the_change_is_looked_at(
        self, session: Session, source: Path
    ) -> None:
        change(source, LAST_LOAD, LAST_LOAD.replace("3", "4"))
        changed = session.changed_kit()
        assert changed is not None
        assert changed.blockers == ()
        to_the_end(session)
        assert session.adopt(changed).objection == "kit touched"

    def test_a_step_put_before_one_that_is_done_blocks(
        self, session: Session, source: Path
    ) -> None:
        change(
            source, '[[precut]]', '[[embellishment]]\nname = "bow"\ncolour = "red"\nto = "1·2"\n\n'
            '[[precut]]',
        )  # fmt: skip
        up_to(session, "fill:white mat:1·2")
        assert session.changed_kit() is not None
        up_to(session, "stack:A")
        changed = session.changed_kit()
        assert changed is not None
        assert any("bow" in blocker for blocker in changed.blockers)

    def test_a_pocket_in_use_that_is_gone_blocks(self, session: Session, source: Path) -> None:
        change(source, "pages = 6", 'pages = 6\npocket = [{ label = "1·2", pages = [1, 2] }, '
               '{ label = "34", pages = [3, 4] }, { label = "5·6", pages = [5, 6] }]')  # fmt: skip
        text = source.read_text("utf-8").replace("3·4", "34")
        source.write_text(text, encoding="utf-8")
        up_to(session, "fill:white mat:3·4")
        changed = session.changed_kit()
        assert changed is not None
        assert changed.plan is not None
        session.next()
        changed = session.changed_kit()
        assert changed is not None
        assert "fill:white mat:3·4" in changed.blockers

    def test_pockets_that_change_places_do_not_block(self, session: Session) -> None:
        other = CUT_AGAIN.replace(
            "pages = 6", 'pages = 6\npocket = [{ label = "5·6", pages = [5, 6] }, '
            '{ label = "3·4", pages = [3, 4] }, { label = "1·2", pages = [1, 2] }]',
        )  # fmt: skip
        until_in_hand(session, "A/1")
        changed = compare(session.story, read_kit(other))
        assert changed.blockers == ()


class TestAdopting:
    def test_it_goes_on_with_the_new_kit_and_can_undo_across_it(
        self, session: Session, source: Path
    ) -> None:
        until_in_hand(session, "A/1")
        session.file_into(P34)
        wrong = session.state.snapshot()
        session.leave(only_warning(session))
        session.undo()  # so that there is something that could be said again
        change(source, LAST_LOAD, LAST_LOAD.replace("3", "4"))
        changed = session.changed_kit()
        assert changed is not None
        assert session.adopt(changed).taken
        assert session.changed_kit() is None
        assert session.state.snapshot() == wrong
        assert session.redo().objection == "nothing to redo"
        check_all(session)
        assert session.undo().taken
        assert session.state.due().item == "A/1"
        assert session.redo().taken
        assert session.state.snapshot() == wrong
        session.put_right(only_warning(session))
        to_the_end(session)
        check_all(session)
        assert session.plan.items["B/r/r"].stock is not None
        assert session.plan.items["B/r/r"].stock.width.value == Fraction(508, 5)  # 4 in

    def test_resumed_and_watched_it_is_the_same(self, session: Session, source: Path) -> None:
        path = session.path
        assert path is not None
        until_in_hand(session, "A/1")
        looker = Session.watch(path)
        change(source, LAST_LOAD, LAST_LOAD.replace("3", "4"))
        changed = session.changed_kit()
        assert changed is not None
        session.adopt(changed)
        session.next()
        assert looker.poll()
        assert looker.plan.kit == session.plan.kit
        assert looker.state.snapshot() == session.state.snapshot()
        session.close()
        again = Session.resume(path)
        assert again.state.snapshot() == session.state.snapshot()
        assert again.changed_kit() is None
        again.undo()
        again.undo()
        assert again.state.snapshot() != session.state.snapshot()
        again.close()
        told_again = fold(plan_of_text(CUT_AGAIN), entries_of(path), plan_of_text)
        assert told_again.snapshot() == again.state.snapshot()

    def test_a_kit_that_cannot_be_read_any_more_is_passed_over(self, session: Session) -> None:
        session.say(Adopted("dryfit = 77"))
        assert session.state.ignored == [session.said]
        assert session.next().taken

    def test_mistakes_are_remembered_across_it(self, session: Session, source: Path) -> None:
        until_in_hand(session, "A/1")
        session.file_into(P34)
        session.put_right(only_warning(session))
        mistakes = list(session.state.mistakes)
        change(source, LAST_LOAD, LAST_LOAD.replace("3", "4"))
        changed = session.changed_kit()
        assert changed is not None
        session.adopt(changed)
        assert session.state.mistakes == mistakes
        session.undo()
        session.redo()
        assert session.state.mistakes == mistakes
