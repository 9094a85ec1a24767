"""The shelf: what a glance says of kits and sessions is what is true of them."""

from __future__ import annotations

import os
import random
import shutil
from datetime import UTC, datetime
from pathlib import Path

import pytest

from model.folders import demo_folder, demo_kit
from model.journal import Journal
from model.reading import load_kit, read_kit
from model.session import Session
from model.shelf import kits_at_hand, sessions_in
from model.story import fold
from tests.hand_kits import CUT_AGAIN, KITS
from tests.kits import random_kit
from tests.muddle import QuickDisk, entries_of, muddle, plan_of_text
from tests.tables import clock, to_the_end, up_to


def begin(folder: Path, text: str = CUT_AGAIN) -> Session:
    return Session.start(read_kit(text), None, folder, clock(), disk=QuickDisk())


class TestKits:
    def test_the_demo_kits_come_first(self, tmp_path: Path) -> None:
        (tmp_path / "own.toml").write_text(CUT_AGAIN, encoding="utf-8")
        found = kits_at_hand([tmp_path, tmp_path / "not there"])
        assert [(kit.path.stem, kit.demo) for kit in found] == [
            ("postcard", True), ("cards", True), ("harbour", True), ("own", False),
        ]  # fmt: skip
        for kit in found:
            read = load_kit(kit.path)
            assert read.plan is not None
            assert (kit.title, kit.pages) == (read.plan.kit.title, read.plan.kit.pages)
            assert kit.note == read.plan.kit.note.strip().partition("\n")[0]
            assert kit.trouble == ""
        assert all("invented" in kit.note for kit in found if kit.demo)

    def test_a_line_in_a_note_that_looks_like_a_table(self, tmp_path: Path) -> None:
        text = CUT_AGAIN.replace("pages = 6", 'pages = 6\nnote = """\n[[sheet]]\n[x]\n"""')
        (tmp_path / "kit.toml").write_text(text, encoding="utf-8")
        (kit,) = [kit for kit in kits_at_hand([tmp_path]) if not kit.demo]
        assert (kit.title, kit.note, kit.trouble) == ("Cut again", "[[sheet]]", "")

    @pytest.mark.parametrize(
        ("content", "trouble"),
        [(b"title = ", "Invalid value"), (b"", "no kit file"), (b"\xff\xfe", "Invalid"),
         (b'title = "Notes"\n', "no kit file")],
    )  # fmt: skip
    def test_what_is_no_kit_is_shown_with_its_trouble(
        self, content: bytes, trouble: str, tmp_path: Path
    ) -> None:
        (tmp_path / "odd.toml").write_bytes(content)
        (kit,) = [kit for kit in kits_at_hand([tmp_path]) if not kit.demo]
        assert trouble in kit.trouble

    def test_a_demo_kit_by_its_name(self) -> None:
        assert demo_kit("harbour") == demo_folder() / "harbour.toml"
        assert demo_kit("nothing") is None


class TestSessions:
    def test_no_folder_holds_none(self, tmp_path: Path) -> None:
        assert sessions_in(None) == []
        assert sessions_in(tmp_path / "not there") == []
        (tmp_path / "file").write_text("")
        assert sessions_in(tmp_path / "file") == []

    @pytest.mark.parametrize("text", [*KITS, *(random_kit(random.Random(n)) for n in range(12))])
    @pytest.mark.parametrize("seed", range(2))
    def test_a_glance_tells_what_the_fold_does(self, seed: int, text: str, tmp_path: Path) -> None:
        """Over random runs with mistakes, undo, redo and changed kits, of the file as it is."""
        rng = random.Random(seed)
        source, folder = tmp_path / "kit.toml", tmp_path / "sessions"
        source.write_text(text, encoding="utf-8")
        read = load_kit(source)
        assert read.plan is not None
        session = Session.start(read, source, folder, clock(), disk=QuickDisk())
        while not session.state.due().over:
            for _ in range(5):
                muddle(session, rng, least=40)
            if rng.random() < 0.02:
                more = f'\n[[step]]\ndo = "Look at it {rng.random()}"\nwait = "after filing"\n'
                source.write_text(source.read_text(encoding="utf-8") + more, encoding="utf-8")
                changed = session.changed_kit()
                assert changed is not None
                session.adopt(changed)
            assert session.path is not None
            entries = entries_of(session.path)
            state = fold(read.plan, entries, plan_of_text)
            steps = len(state.plan.steps)
            (seen,) = sessions_in(folder)
            assert (seen.done, seen.steps, seen.finished, seen.touched, seen.to_file) == (
                state.steps_done,
                steps,
                state.due().over,
                entries[-1].at,
                state.waiting if state.steps_done == steps else 0,
            )
            assert (seen.path, seen.title, seen.trouble) == (session.path, read.plan.kit.title, "")
        session.close()

    def test_what_is_taken_back_is_not_finished(self, tmp_path: Path) -> None:
        session = begin(tmp_path)
        to_the_end(session)
        assert sessions_in(tmp_path)[0].finished
        session.undo()
        assert not sessions_in(tmp_path)[0].finished
        session.redo()
        assert sessions_in(tmp_path)[0].finished
        session.close()
        Session.resume(sessions_in(tmp_path)[0].path).close()  # only looked at again
        assert sessions_in(tmp_path)[0].finished

    def test_pieces_on_the_pile_are_left_to_do(self, tmp_path: Path) -> None:
        """All steps are done, but the last shape is not filed."""
        session = begin(tmp_path)
        to_the_end(session)
        session.undo()
        (seen,) = sessions_in(tmp_path)
        assert (seen.done, seen.steps, seen.finished, seen.to_file) == (30, 30, False, 1)
        session.close()

    def test_a_kit_whose_text_looks_like_a_session(self, tmp_path: Path) -> None:
        fake = '[[did]]\ndid = "done"\nevent = 9\nkit_text = 3\n[session]\n'
        text = CUT_AGAIN.replace("pages = 6", f"pages = 6\nnote = '''\n{fake}'''")
        session = begin(tmp_path, text)
        up_to(session, "A/load")
        (seen,) = sessions_in(tmp_path)
        assert seen.done == session.state.steps_done == 10
        session.close()

    def test_a_title_with_anything_in_it(self, tmp_path: Path) -> None:
        title = 'kit_text = "x" [session] \\\\ ½'
        session = begin(tmp_path, CUT_AGAIN.replace("Cut again", title.replace('"', '\\"')))
        (seen,) = sessions_in(tmp_path)
        assert seen.title == session.plan.kit.title
        assert seen.steps == 30
        session.close()

    def test_a_changed_kit_counts_its_own_steps(self, tmp_path: Path) -> None:
        source = tmp_path / "kit.toml"
        source.write_text(CUT_AGAIN, encoding="utf-8")
        folder = tmp_path / "sessions"
        session = Session.start(load_kit(source), source, folder, clock(), disk=QuickDisk())
        up_to(session, "A/load")
        more = '\n[[step]]\ndo = "Press it flat"\nwait = "after filing"\n'
        source.write_text(CUT_AGAIN + more, encoding="utf-8")
        changed = session.changed_kit()
        assert changed is not None
        session.adopt(changed)
        assert [(seen.done, seen.steps) for seen in sessions_in(folder)] == [(10, 31)]
        to_the_end(session)
        assert sessions_in(folder)[0].finished
        session.close()

    def test_the_one_touched_last_comes_first(self, tmp_path: Path) -> None:
        """By what was last said: a copied file is younger than what is in it."""
        for day in (5, 25, 15):
            at = datetime(2026, 3, day, 12, 30, 5, 250_000, tzinfo=UTC)
            session = Session.start(read_kit(CUT_AGAIN), None, tmp_path, lambda at=at: at)
            session.next()
            session.close()
            assert session.path is not None
            os.utime(session.path, (2_000_000_000 - day,) * 2)
        seen = sessions_in(tmp_path)
        assert [s.touched.day for s in seen] == [25, 15, 5]
        assert seen[0].touched == datetime(2026, 3, 25, 12, 30, 5, 250_000, tzinfo=UTC)

    def test_when_nothing_was_said_it_is_as_old_as_its_beginning(self, tmp_path: Path) -> None:
        begun = datetime(2026, 3, 5, tzinfo=UTC)
        header = {"kit": "x", "started": begun, "steps": 3, "kit_text": ""}
        Journal.create(tmp_path / "a.toml", header).close()
        assert sessions_in(tmp_path)[0].touched == begun
        Journal.create(tmp_path / "b.toml", {"kit": "x", "kit_text": ""}).close()
        os.utime(tmp_path / "b.toml", (1_000_000_000,) * 2)
        assert sessions_in(tmp_path)[-1].touched.timestamp() == 1_000_000_000

    def test_a_record_that_was_not_finished_counts_for_nothing(self, tmp_path: Path) -> None:
        session = begin(tmp_path)
        up_to(session, "A/load")
        session.close()
        assert session.path is not None
        before = sessions_in(tmp_path)
        torn = b'\n[[did]]\nat = 2026-09-09T09:09:09Z\ndid = "done"\nstep = "A/load"\nevent = 99\n'
        with session.path.open("ab") as file:
            file.write(torn)
        assert sessions_in(tmp_path) == before

    def test_a_damaged_session_is_shown_as_the_one_that_goes_on(self, tmp_path: Path) -> None:
        session = begin(tmp_path)
        up_to(session, "A/load")
        session.close()
        path = session.path
        assert path is not None
        path.write_bytes(path.read_bytes().replace(b'did = "done"', b"did = done", 1))
        again = Session.resume(path)
        assert again.path != path
        (seen,) = sessions_in(tmp_path)
        assert (seen.path, seen.done) == (again.path, again.state.steps_done)
        again.undo()  # what was lost goes with what is taken back
        assert [s.done for s in sessions_in(tmp_path)] == [again.state.steps_done]
        again.close()

    def test_of_a_mended_session_what_was_lost_is_not_guessed(self, tmp_path: Path) -> None:
        """The word that a step was taken back is lost; what came before it goes with it."""
        session = begin(tmp_path)
        for _ in range(5):
            session.next()
        session.undo()
        session.undo()
        session.close()
        assert session.path is not None
        data = session.path.read_bytes()
        session.path.write_bytes(data.replace(b'did = "retracted"', b"did = retracted", 1))
        again = Session.resume(session.path)
        (seen,) = sessions_in(tmp_path)
        assert seen.done == again.state.steps_done == 3
        again.close()

    def test_what_is_no_session_is_shown_with_its_trouble(self, tmp_path: Path) -> None:
        (tmp_path / "a.toml").write_text("nothing")
        (tmp_path / "b.toml").write_text('[session]\nkit = "Half a')
        (tmp_path / ".draft.toml").write_text("")
        (tmp_path / "c.toml").mkdir()
        Journal.create(tmp_path / "d.toml", {"kit": "No kit inside"}).close()
        seen = {s.path.name: s for s in sessions_in(tmp_path)}
        assert seen.keys() == {"a.toml", "b.toml", "c.toml", "d.toml"}
        assert all(seen[name].trouble for name in ("a.toml", "b.toml", "c.toml"))
        assert (seen["d.toml"].title, seen["d.toml"].steps) == ("No kit inside", 0)
        assert not seen["d.toml"].finished

    def test_a_glance_writes_nothing(self, tmp_path: Path) -> None:
        session = begin(tmp_path)
        session.close()
        copy = tmp_path / "copy"
        shutil.copytree(tmp_path, copy, ignore=shutil.ignore_patterns("copy"))
        before = {path: path.read_bytes() for path in copy.iterdir()}
        sessions_in(copy)
        assert {path: path.read_bytes() for path in copy.iterdir()} == before
