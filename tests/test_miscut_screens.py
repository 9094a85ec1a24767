"""Miscuts at the table, with real keys: what happened, what can be saved, drawn, chosen or left."""

from __future__ import annotations

from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from pathlib import Path

import pytest
from textual.pilot import Pilot

from model.account import account_of
from model.event import Mended
from model.rescue.rescue import Rescue
from model.session import Session
from model.settings import Settings
from tests.pictures import to_end
from tests.screens import begun, table, text_of
from tui.screens.miscut import MiscutScreen
from tui.screens.miscut_pick import PickScreen
from tui.screens.miscut_say import SayScreen
from tui.screens.miscut_ways import WaysScreen
from tui.screens.table import TableScreen

SIZES = [(60, 20), (80, 24), (120, 40)]


@pytest.fixture(autouse=True)
def _at_once(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    """Ways are looked for here and now, so that a test need not wait for another process."""
    monkeypatch.setenv("DRYFIT_HOME", str(tmp_path / "home"))
    monkeypatch.setattr(Rescue, "begin", lambda self: self.search(deep=False))


@asynccontextmanager
async def at(
    session: Session, *keys: str, size: tuple[int, int] = (80, 24), settings: Settings | None = None
) -> AsyncIterator[Pilot[None]]:
    async with table(session, size, settings) as (pilot, _):
        await pilot.press("m", *keys)
        await pilot.pause()
        yield pilot


def shown(pilot: Pilot[None]) -> str:
    return text_of(pilot.app)  # type: ignore[arg-type]


def top(pilot: Pilot[None]) -> type:
    return type(pilot.app.screen)


def journal(session: Session) -> bytes:
    assert session.path is not None
    return session.path.read_bytes()


MARK = ["1", *"3 3/4"]
"""After 60 keys of harbour the second cut of the rope half was at 4."""


class TestWhatHappened:
    async def test_the_last_cut_is_meant_and_all_seven_are_listed(self, tmp_path: Path) -> None:
        async with at(begun("harbour", tmp_path, 50)) as pilot:
            said = shown(pilot)
            assert "The last cut: cut 1 of 4 of sheet A, at 10½." in said
            assert [row[1] for row in said.split("\n") if row[1:2].isdigit()] == list("1234567")
            assert "Looking costs nothing" in said

    async def test_before_any_cut_only_what_can_be_is_offered(self, tmp_path: Path) -> None:
        async with at(begun("harbour", tmp_path, 20)) as pilot:
            said = shown(pilot)
            assert "Nothing is cut yet." in said
            assert [row[1] for row in said.split("\n") if row[1:2].isdigit()] == ["6", "7"]
            await pilot.press("1")
            await pilot.pause()
            assert top(pilot) is MiscutScreen and "nothing is cut yet" in shown(pilot)
            await pilot.press("e")
            await pilot.pause()
            assert top(pilot) is MiscutScreen

    async def test_an_earlier_cut_is_chosen_from_the_list(self, tmp_path: Path) -> None:
        async with at(begun("harbour", tmp_path, 60), "e") as pilot:
            assert top(pilot) is PickScreen
            await pilot.press(*"9", "enter")
            await pilot.pause()
            assert "An earlier cut: cut 2 of 4 of sheet A, at 9." in shown(pilot)
            await pilot.press("1")
            await pilot.pause()
            assert "An earlier cut: cut 2 of 4 of sheet A, at 9." in shown(pilot)

    async def test_who_looks_on_is_told_so(self, tmp_path: Path) -> None:
        session = begun("postcard", tmp_path, 20)
        assert session.path is not None
        watching = Session.watch(session.path)
        async with at(watching) as pilot:
            assert top(pilot) is TableScreen


class TestLength:
    async def test_it_stands_beside_what_it_should_have_been(self, tmp_path: Path) -> None:
        async with at(begun("harbour", tmp_path, 60), *MARK) as pilot:
            said = shown(pilot)
            assert "It should have been" in said and "█" in said
            assert "That is ¼ in less than it should be." in said

    @pytest.mark.parametrize(
        ("typed", "said"),
        [
            ("4", "just as it should be"),
            ("12", "Only 8 in of paper lay along the ruler"),
            ("9 1/", "is no length"),
            ("x", "is no length"),
        ],
    )
    async def test_what_cannot_be_is_told_at_each_letter(
        self, tmp_path: Path, typed: str, said: str
    ) -> None:
        async with at(begun("harbour", tmp_path, 60), "1", *typed) as pilot:
            assert said in shown(pilot)
            await pilot.press("enter")
            await pilot.pause()
            assert top(pilot) is SayScreen and said in shown(pilot)

    async def test_a_later_cut_that_could_not_be_is_named(self, tmp_path: Path) -> None:
        async with at(begun("harbour", tmp_path, 60), "e", "down", "enter", "1", *"3") as pilot:
            assert "cut 2 of 2 of rope half (sheet A), at 4 could not have been made" in " ".join(
                shown(pilot).split()
            )

    async def test_either_thing_of_a_cut_is_measured(self, tmp_path: Path) -> None:
        async with at(begun("cards", tmp_path, 60), "2") as pilot:
            assert "How long is kite front, that came off" in shown(pilot)
            await pilot.press("down", *"195")
            await pilot.pause()
            assert "How long is kite sky, that stayed" in shown(pilot)
            assert "That is 3 mm less than it should be." in shown(pilot)

    async def test_inches_are_understood_in_a_metric_kit(self, tmp_path: Path) -> None:
        async with at(begun("cards", tmp_path, 60), "1", *"7 3/4 in") as pilot:
            assert "less than it should be" in shown(pilot)


class TestWays:
    async def test_what_is_so_what_is_lost_and_the_ways(self, tmp_path: Path) -> None:
        async with at(begun("harbour", tmp_path, 60), *MARK, "enter") as pilot:
            said = " ".join(shown(pilot).split())
            assert said.startswith("Cut at 3¾ instead of 4 rope mat (4 × 6), on the pile: came out")
            assert "Lost, unless you choose a way: 2 of rope mat (4 × 6)" in said
            assert "Saves 1 of 2." in said and "1 cut more; 2 scraps more." in said
            assert "Nothing is changed until then." in said

    async def test_nothing_lost_is_said_plainly(self, tmp_path: Path) -> None:
        async with at(begun("harbour", tmp_path, 60), "5", "enter") as pilot:
            assert top(pilot) is WaysScreen
            assert "Nothing is lost: every piece still comes out." in shown(pilot)

    async def test_the_steps_are_drawn_one_by_one(self, tmp_path: Path) -> None:
        async with at(begun("harbour", tmp_path, 60), *MARK, "enter", "right") as pilot:
            assert "step 1 of 2" in shown(pilot) and "Take miscut rope mat (4¼ × 6)" in shown(pilot)
            await pilot.press("right")
            await pilot.pause()
            assert "step 2 of 2" in shown(pilot) and "██████" in shown(pilot)
            await pilot.press("right")
            await pilot.pause()
            assert "step 2 of 2" in shown(pilot)  # there is no third one
            await pilot.press("left", "left", "left")
            await pilot.pause()
            assert "Lost, unless you choose a way" in shown(pilot)

    async def test_another_way_is_marked_by_arrow_or_number(self, tmp_path: Path) -> None:
        async with at(begun("harbour", tmp_path, 50), "7", "enter") as pilot:
            assert "▸1 Cut it from a later sheet" in shown(pilot)
            await pilot.press("down")
            await pilot.pause()
            assert "▸2 Go on without" in shown(pilot)
            await pilot.press("1")
            await pilot.pause()
            assert "▸1 Cut it from a later sheet" in shown(pilot)
            await pilot.press("9")  # there is none
            await pilot.pause()
            assert "▸1 Cut it from a later sheet" in shown(pilot)

    @pytest.mark.parametrize("size", SIZES)
    async def test_the_marked_way_is_in_sight_at_every_size(
        self, tmp_path: Path, size: tuple[int, int]
    ) -> None:
        async with at(begun("harbour", tmp_path, 50), "7", "enter", "down", size=size) as pilot:
            assert "▸2 Go on without" in shown(pilot)

    async def test_they_come_live_from_another_process(
        self, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
    ) -> None:
        monkeypatch.undo()
        monkeypatch.setenv("DRYFIT_HOME", str(tmp_path / "home"))
        async with at(begun("harbour", tmp_path, 60), *MARK, "enter") as pilot:
            screen = pilot.app.screen
            assert isinstance(screen, WaysScreen)
            for _ in range(300):
                if "Nothing better was found." in shown(pilot):
                    break
                await pilot.pause(0.05)
            assert "Saves 1 of 2." in shown(pilot)
            assert not screen._rescue.searching
            await pilot.press("escape")
        assert not screen._rescue.searching

    @pytest.mark.parametrize("keys", [["escape"], ["enter"]])
    async def test_the_search_ends_with_the_screen(
        self, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, keys: list[str]
    ) -> None:
        closed: list[Rescue] = []
        monkeypatch.setattr(Rescue, "close", lambda self: closed.append(self))
        async with at(begun("harbour", tmp_path, 60), *MARK, "enter", *keys) as pilot:
            assert top(pilot) is not WaysScreen
            assert closed


class TestChoosing:
    async def test_the_table_goes_on_as_the_way_has_it_and_undo_takes_it_back(
        self, tmp_path: Path
    ) -> None:
        session = begun("harbour", tmp_path, 60)
        plan, before = session.plan, session.state.snapshot()
        async with at(session, *MARK, "enter", "enter") as pilot:
            assert top(pilot) is TableScreen
            assert session.plan is not plan
            assert "Rescued: go on as is said here; u takes it back." in shown(pilot)
            await pilot.press("u")
            await pilot.pause()
            assert "Taken back: the rescue; r says it again." in shown(pilot)
            assert session.state.snapshot() == before
            await pilot.press("r")
            await pilot.pause()
            assert session.state.snapshot() != before

    async def test_the_new_load_is_on_the_table(self, tmp_path: Path) -> None:
        async with at(begun("harbour", tmp_path, 50), "4", "enter", "enter") as pilot:
            assert "Cut 2 of 4" in shown(pilot) and "Hold it at 9 and cut" in shown(pilot)

    async def test_what_must_be_fetched_is_told_first(self, tmp_path: Path) -> None:
        session = begun("harbour", tmp_path, 100)
        async with at(session, "1", *"7 3/4", "enter", "enter") as pilot:
            assert "First take boat band (12 × 4¼) out of pocket 5·6; u takes it back." in shown(
                pilot
            )
            assert "D/1" in session.state.pile
            await pilot.press("n")
            await pilot.pause()
            assert "First take boat band (12 × 4¼) out of pocket 5·6;" in shown(pilot)

    async def test_a_small_screen_shows_the_rest_with_n(self, tmp_path: Path) -> None:
        session = begun("harbour", tmp_path, 90)
        async with at(session, "1", *"4 1/4", "enter", "enter", size=(60, 20)) as pilot:
            row = shown(pilot).split("\n")[-2]
            assert (
                row.startswith(" First take sand square (4 × 4¼) out of pocket")
                and "n: more" in row
            )
            await pilot.press("n")
            await pilot.pause()
            said = " ".join(shown(pilot).replace("│", " ").split())
            assert "throw away sand square (3¾ × 4)" in said

    async def test_a_second_mistake_is_rescued_on_top_of_the_first(self, tmp_path: Path) -> None:
        session = begun("harbour", tmp_path, 50)
        async with at(session, "4", "enter", "enter", "m", "7", "enter", "enter") as pilot:
            assert top(pilot) is TableScreen
            assert len(session.state.mendings) == 2
            await pilot.press("u", "u")
            await pilot.pause()
            assert not session.state.mendings

    async def test_a_held_key_chooses_once(self, tmp_path: Path) -> None:
        session = begun("harbour", tmp_path, 50)
        async with at(session, "4", "enter"):
            pass
        session = begun("harbour", tmp_path / "other", 50)
        async with at(session, "4", "enter") as pilot:
            screen = pilot.app.screen
            assert isinstance(screen, WaysScreen)
            screen.action_take()
            screen.action_take()
            await pilot.pause()
            mended = [e for e in session.state.standing() if isinstance(e.event, Mended)]
            assert len(mended) == 1

    @pytest.mark.parametrize(
        ("kit", "steps", "keys"),
        [
            ("postcard", 12, ["1", *"5 1/4"]),
            ("cards", 60, ["1", *"201"]),
            ("harbour", 90, ["1", *"4 1/4"]),
            ("harbour", 120, ["7"]),
            ("cards", 20, ["7"]),
        ],
    )
    async def test_a_rescued_run_ends_with_all_but_what_was_lost(
        self, tmp_path: Path, kit: str, steps: int, keys: list[str]
    ) -> None:
        session = begun(kit, tmp_path, steps)
        async with at(session, *keys, "enter", "enter") as pilot:
            assert top(pilot) is TableScreen, shown(pilot)
            to_end(session)
            account = account_of(session)
            assert account.finished and (account.closes or account.lost_only)
            assert len(account.mended) == 1
            await pilot.press("a", "end")
            await pilot.pause()
            said = shown(pilot)
            assert account.closes or "was lost" in said or "accounted for" in said

    async def test_when_all_is_done_a_mistake_found_late_can_still_be_told(
        self, tmp_path: Path
    ) -> None:
        session = begun("postcard", tmp_path)
        to_end(session)
        async with at(session, "6", "enter") as pilot:
            assert top(pilot) is WaysScreen
            await pilot.press("enter")
            await pilot.pause()
            assert top(pilot) is TableScreen and session.state.mendings

    async def test_a_session_that_was_rescued_is_taken_up_again(self, tmp_path: Path) -> None:
        session = begun("harbour", tmp_path, 60)
        async with at(session, *MARK, "enter", "enter"):
            kept = session.state.snapshot()
            path = session.path
        assert path is not None
        again = Session.resume(path)
        assert again.state.snapshot() == kept
        again.close()

    async def test_pockets_follow_an_undo_made_there(self, tmp_path: Path) -> None:
        session = begun("harbour", tmp_path, 60)
        async with at(session, *MARK, "enter", "enter", "k", "u") as pilot:
            assert not session.state.mendings
            assert "Pockets: A Week at the Harbour" in shown(pilot)


LEAVING = [
    [], ["e"], ["e", *"rope"], ["1"], [*MARK], [*MARK, "enter"], [*MARK, "enter", "right"],
    ["2"], ["2", "down", *"3"], ["3"], ["5"], ["5", "enter"], ["6"], ["6", "enter"],
    ["6", *"rope", "down", "enter"], ["7"], ["7", "enter", "down", "right", "right"],
]  # fmt: skip


@pytest.mark.parametrize("keys", LEAVING, ids=" ".join)
async def test_leaving_at_any_point_changes_nothing(tmp_path: Path, keys: list[str]) -> None:
    session = begun("harbour", tmp_path, 60)
    before, state, plan = journal(session), session.state.snapshot(), session.plan
    async with at(session, *keys) as pilot:
        for _ in range(6):
            if top(pilot) is TableScreen:
                break
            await pilot.press("escape")
            await pilot.pause()
        assert top(pilot) is TableScreen
        assert journal(session) == before
        assert session.state.snapshot() == state and session.plan is plan


LOOKS = [
    Settings(), Settings(language="nl"), Settings(ascii=True), Settings(left_handed=True),
    Settings(units="mm", ruler="1 mm"), Settings(figures="largest"),
]  # fmt: skip


@pytest.mark.parametrize("size", SIZES, ids=lambda size: f"{size[0]}x{size[1]}")
@pytest.mark.parametrize("settings", LOOKS, ids=["usual", "nl", "ascii", "left", "mm", "largest"])
async def test_every_screen_stands_at_every_size(
    tmp_path: Path, size: tuple[int, int], settings: Settings
) -> None:
    """Nothing is wider than the screen, and the keys stand in the last row."""
    walk = ["e", "escape", "2", "down", "escape", "1", *"95 mm", "enter", "right", "right"]
    session = begun("harbour", tmp_path, 60)
    async with at(session, size=size, settings=settings) as pilot:
        for key in ["", *walk]:
            if key:
                await pilot.press(key)
            await pilot.pause()
            rows = shown(pilot).split("\n")
            assert len(rows) == size[1] and max(map(len, rows)) <= size[0]
            assert "Esc" in rows[-1], key
            if settings.ascii:
                assert all(char.isascii() for char in shown(pilot).replace("█", ""))
        assert top(pilot) is WaysScreen
