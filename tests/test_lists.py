"""The screens of one list: what is said there is whole, in people's words, and leads on."""

from __future__ import annotations

from pathlib import Path

import pytest
from textual.content import Content
from textual.style import Style
from textual.visual import RenderOptions

from model.account import account_of
from model.language.english.table import TablePhrases
from model.report import report_lines, report_text, save_report
from model.session import now
from model.settings import Settings
from tests.pictures import to_end
from tests.screens import begun, table, text_of
from tui.app import DryfitApp
from tui.greeting import greeting_row
from tui.screens.pockets import PocketsScreen
from tui.screens.shelf import ShelfScreen
from tui.themes import THEMES
from tui.widgets.hanging import Hanging


@pytest.fixture(autouse=True)
def own_home(tmp_path, monkeypatch):
    monkeypatch.setenv("DRYFIT_HOME", str(tmp_path / "home"))


def lines_of(text: str, indent: int, width: int) -> list[str]:
    row = Hanging(Content(text), indent)
    strips = row.render_strips(width, None, Style(), RenderOptions(lambda _: Style(), {}))
    assert row.get_height({}, width) == len(strips)
    return [strip.text.rstrip() for strip in strips]


class TestHanging:
    def test_later_lines_begin_beneath_the_words(self):
        assert lines_of("  ! one two three four", 4, 14) == ["  ! one two", "    three four"]

    def test_a_size_stays_whole(self):
        assert lines_of("- a mat (4½ × 12) here", 2, 14) == ["- a mat", "  (4½ × 12)", "  here"]
        assert lines_of("- a mat (4 x 12) here", 2, 13) == ["- a mat", "  (4 x 12)", "  here"]

    def test_nothing_is_lost_where_there_is_no_room(self):
        shown = "".join(lines_of("  ! one two", 4, 5)).replace(" ", "")
        assert shown == "!onetwo"


class TestGreeting:
    PARTS = ("Welcome back: 57/176 done", "waits: sheet M, sheet N", "1 on the pile")

    @pytest.mark.parametrize(("width", "parts"), [(80, 3), (60, 2), (40, 1)])
    def test_as_much_as_there_is_room_for(self, width: int, parts: int):
        shown = "".join(text for text, _ in greeting_row(self.PARTS, width, TablePhrases()))
        assert shown == f" {'; '.join(self.PARTS[:parts])}. n: more"
        assert len(shown) <= width

    def test_none(self):
        assert greeting_row((), 80, TablePhrases()) == []


async def shelf(app: DryfitApp, pilot, *keys: str) -> str:
    assert isinstance(app.screen, ShelfScreen)
    await pilot.press(*keys)
    for _ in range(60):  # the session is read beside the screen
        await pilot.pause(0.05)
        if app.screen.query_one("#hint").visual.plain:  # type: ignore[attr-defined]
            break
    await pilot.pause(0.05)
    return text_of(app)


async def test_the_shelf_tells_where_the_marked_session_stands(tmp_path):
    folder = tmp_path / "sessions"
    session = begun("harbour", folder, 60)
    while session.state.due().item is None:
        session.next()
    item = session.state.due().item
    session.file_into((session.state.belongs(item) + 1) % 5)
    session.leave(next(iter(session.state.warnings.values())))
    done, name = session.state.steps_done, session.plan.items[item].name
    session.close()
    assert session.path is not None
    before = session.path.read_bytes()
    app = DryfitApp(Settings(), None, None, folder)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        shown = await shelf(app, pilot)
        assert f"{done} of 176 steps are done" in shown
        assert "1 warning still open: filed in a wrong pocket" in shown
        assert name in shown
        assert "sheet M, sheet N" in shown
        await pilot.press("down")
        assert "An invented kit" in text_of(app)  # the author's note of a kit
    assert session.path.read_bytes() == before  # a look changes nothing


async def test_the_shelf_tells_what_is_wrong_with_a_file(tmp_path):
    kits = tmp_path / "home" / "kits"
    kits.mkdir(parents=True)
    (kits / "odd.toml").write_text('dryfit = 1\ntitle = "Odd\n', encoding="utf-8")
    app = DryfitApp(Settings(), None, None, tmp_path)
    async with app.run_test(size=(60, 20)) as pilot:
        await pilot.pause()
        shown = await shelf(app, pilot, "end")
        assert "odd  can't be used as it is" in shown
        assert "It can't be read: Illegal character" in shown
        assert "f file" in shown


async def test_moving_a_piece_names_it_and_says_what_came_of_it(tmp_path):
    session = begun("harbour", tmp_path, 20)
    async with table(session, (80, 24)) as (pilot, _):
        await pilot.press("k", "down", "m")
        screen = pilot.app.screen
        assert isinstance(screen, PocketsScreen)
        assert "white mat (3¾ × 5¾): press the key" in text_of(pilot.app)
        await pilot.press("2")  # where it is already
        assert "white mat is in 1·2." in text_of(pilot.app)
        await pilot.press("m", "3")
        assert "TOO MANY" in text_of(pilot.app) or "WRONG POCKET" in text_of(pilot.app)


async def test_what_lies_wrong_stands_first_in_its_pocket(tmp_path):
    session = begun("harbour", tmp_path, 60)
    session.file_into(3)
    async with table(session, (80, 24)) as (pilot, _):
        await pilot.press("k", "7")
        shown = text_of(pilot.app).splitlines()
        at = next(n for n, line in enumerate(shown) if "7·8  " in line)
        assert "! 7·8  " in shown[at]
        assert "rope mat" in shown[at + 1] and "does not belong here" in shown[at + 1]
        assert sum("! " in line for line in shown) == 2


async def test_a_hint_is_about_the_row_that_is_marked(tmp_path):
    session = begun("harbour", tmp_path)
    async with table(session, (80, 24)) as (pilot, _):
        for away in ("7", "right", "left", "down"):
            await pilot.press("k", "down", "m")
            assert "Nothing of this row is filed yet." in text_of(pilot.app)
            await pilot.press(away)
            await pilot.pause()
            assert "Nothing of this row is filed yet." not in text_of(pilot.app), away
            await pilot.press("escape")


async def test_settings_speak_as_people_do_and_keep_what_they_object_to_on_the_screen(tmp_path):
    session = begun("postcard", tmp_path)
    async with table(session, (60, 20)) as (pilot, _):
        await pilot.press("comma", "end", "up", "up")
        for look in ("dark", "light", "high contrast", "dark"):
            assert f"Looks{look:>{33 + len(look)}}" in text_of(pilot.app)
            assert not any(theme.name in text_of(pilot.app) for theme in THEMES)
            await pilot.press("end", "up", "up", "enter")
        await pilot.press("home", "down", "down", "enter")
        await pilot.press(*"x", "enter")
        await pilot.pause()
        assert "Not changed:" in text_of(pilot.app)


class TestReport:
    def test_its_name_says_which_kit_and_when(self, tmp_path: Path):
        at = now()
        path = save_report("text", tmp_path, "A Week at the Harbour", at)
        assert path.name == f"a-week-at-the-harbour-account-{at:%Y%m%d-%H%M%S}.txt"
        assert save_report("other", tmp_path, "A Week at the Harbour", at) != path
        assert path.read_text() == "text"

    def test_the_saved_one_lists_every_piece_in_its_pocket(self, tmp_path: Path):
        session = begun("harbour", tmp_path)
        to_end(session)
        manner = Settings().manner(session.plan.kit.unit)
        text = report_text(session, account_of(session), manner)
        shown = text[text.index("1·2: 23 of 23") : text.index("3·4: 35 of 35")]
        counts = [line.split()[0].partition("/") for line in shown.splitlines()[1:-1]]
        assert sum(int(there) for there, _, _ in counts) == 23
        assert all(there == wanted for there, _, wanted in counts)
        assert "1/1 red mat (5½ × 7½)" in shown
        session.close()

    def test_before_the_end_nothing_is_wrong_with_what_is_to_come(self, tmp_path: Path):
        session = begun("harbour", tmp_path, 60)
        manner = Settings().manner(session.plan.kit.unit)
        tones = {tone for tone, _ in report_lines(session, account_of(session), manner)}
        assert "bad" not in tones
        session.close()

    def test_at_the_end_what_is_missing_is_named(self, tmp_path: Path):
        session = begun("harbour", tmp_path)
        to_end(session)
        item = next(i.id for i in session.plan.items.values() if i.name == "red mat")
        session.move(item, 2)
        manner = Settings().manner(session.plan.kit.unit)
        lines = report_lines(session, account_of(session), manner)
        assert ("bad", "  0/1 red mat (5½ × 7½): 1 in another pocket") in lines
        session.close()


class TestLongDialogs:
    TEXT = "\n".join(f"line {n} of many" for n in range(60))

    async def test_text_is_read_from_its_beginning_and_the_answers_are_in_sight(self, tmp_path):
        app = DryfitApp(Settings(), None, None, tmp_path)
        async with app.run_test(size=(60, 20)) as pilot:
            app.ask(self.TEXT, lambda _: None, ("a", "a", "First answer"), ("b", "b", "Second"))
            await pilot.pause()
            shown = text_of(app)
            assert "line 0 of many" in shown and "line 59" not in shown
            assert "a  First answer" in shown and "b  Second" in shown
            for key, seen in (("pagedown", "line 16 "), ("pageup", "line 0 ")):
                await pilot.press(key)
                await pilot.pause()
                assert seen in text_of(app)
            await pilot.press("down", *["down"] * 50)  # past the last answer: on in the text
            await pilot.pause()
            assert "line 59" in text_of(app)
            assert "b  Second" in text_of(app)
            await pilot.resize_terminal(60, 8)
            await pilot.pause()
            assert "b  Second" in text_of(app)

    async def test_a_short_one_takes_no_more_room_than_it_needs(self, tmp_path):
        app = DryfitApp(Settings(), None, None, tmp_path)
        async with app.run_test(size=(60, 20)) as pilot:
            app.ask("Short.", lambda _: None, ("a", "a", "First"), ("b", "b", "Second"))
            await pilot.pause()
            assert sum(bool(row.strip()) for row in text_of(app).splitlines()) == 6
            await pilot.press("down", "down", "enter")  # from the last answer round to the first
            assert len(app.screen_stack) == 2
