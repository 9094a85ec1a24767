"""The program around the table: the shelf, coming back, looking on, and bad news."""

from __future__ import annotations

from pathlib import Path

import pytest

from model.folders import demo_kit
from model.language.english.phrases import PHRASES
from model.session import Session
from model.settings import Settings
from tests.screens import begun, table, text_of
from tui.app import DryfitApp
from tui.commands import whole_id
from tui.screens.dialog import Dialog
from tui.screens.shelf import ShelfScreen
from tui.screens.table import TableScreen


@pytest.fixture(autouse=True)
def own_home(tmp_path, monkeypatch):
    monkeypatch.setenv("DRYFIT_HOME", str(tmp_path / "home"))
    return tmp_path


def app_with(start: Path | None, home: Path, **settings: object) -> DryfitApp:
    return DryfitApp(Settings(**settings), home / "settings.toml", start, home / "sessions")  # type: ignore[arg-type]


async def settle(pilot) -> None:
    for _ in range(3):
        await pilot.pause()


async def test_the_shelf_shows_the_demo_kits_and_starts_one(tmp_path):
    app = app_with(None, tmp_path)
    async with app.run_test(size=(80, 24)) as pilot:
        await settle(pilot)
        assert isinstance(app.screen, ShelfScreen)
        shown = text_of(app)
        for title in ("A Wet Weekend", "A Week at the Harbour", "Kite Day Cards"):
            assert title in shown
        assert "invented" in shown
        await pilot.press("enter")
        await settle(pilot)
        assert isinstance(app.screen, TableScreen)
    app.close_sessions()


async def test_an_unfinished_session_stands_first_and_resumes_with_one_key(tmp_path):
    session = begun("harbour", tmp_path / "sessions", 60)
    done = session.state.steps_done
    session.close()
    app = app_with(None, tmp_path)
    async with app.run_test(size=(80, 24)) as pilot:
        await settle(pilot)
        shown = text_of(app)
        assert shown.index("Go on with") < shown.index("Start a kit")
        assert f"{done} of 176 steps done" in shown
        await pilot.press("enter")
        await settle(pilot)
        assert isinstance(app.screen, TableScreen)
        assert f"Welcome back: {done}/176 done; waits: sheet M, sheet N" in text_of(app)
        await pilot.press("n")  # the whole of it
        await settle(pilot)
        assert isinstance(app.screen, Dialog)
        assert f"{done} of 176 steps are done" in text_of(app)
        await pilot.press("n")
        screen = app.screen
        assert isinstance(screen, TableScreen)
        said = screen.session.said
        await pilot.press("space")
        assert screen.session.said == said + 1
        assert "Welcome back" not in text_of(app)
    app.close_sessions()


async def test_a_broken_kit_tells_all_its_errors(tmp_path):
    kit = tmp_path / "broken.toml"
    kit.write_text(
        'dryfit = 1\ntitle = "T"\npage = "12 x 12"\npages = 2\ncolour = "red"\n[[sheet]]\n'
        'name = "A"\nface = "nvy"\n[[step]]\ntrim = "A"\nmarks = [3]\ngives = ["x"]\nrest = "y"\n',
        encoding="utf-8",
    )
    app = app_with(kit, tmp_path)
    async with app.run_test(size=(80, 24)) as pilot:
        await settle(pilot)
        shown = text_of(app)
        assert "line 5" in shown and "colour" in shown
        assert "line 8" in shown and "navy" in shown
        await pilot.press("enter")
        await settle(pilot)
        assert isinstance(app.screen, ShelfScreen)
    app.close_sessions()


async def test_the_second_program_may_only_look_on(tmp_path):
    session = begun("postcard", tmp_path / "sessions", 3)
    assert session.path is not None
    app = app_with(session.path, tmp_path)
    async with app.run_test(size=(80, 24)) as pilot:
        await settle(pilot)
        assert isinstance(app.screen, Dialog)
        await pilot.press("w")
        await settle(pilot)
        screen = app.screen
        assert isinstance(screen, TableScreen)
        assert "looking on" in text_of(app)
        before = screen.session.state.steps_done
        await pilot.press("space")
        assert screen.session.state.steps_done == before
        session.next()
        screen._poll()
        assert screen.session.state.steps_done == before + 1
    app.close_sessions()
    session.close()


async def test_a_changed_kit_is_told_and_can_be_taken_over(tmp_path):
    demo = demo_kit("postcard")
    assert demo is not None
    kit = tmp_path / "kit.toml"
    text = demo.read_text(encoding="utf-8").replace("#:schema ./kit.schema.json\n", "")
    kit.write_text(text, encoding="utf-8")
    from model.reading import load_kit

    session = Session.start(load_kit(kit), kit, tmp_path / "sessions")
    session.next()
    path = session.path
    session.close()
    kit.write_text(text.replace("A Wet Weekend", "A Dry Weekend"), encoding="utf-8")
    app = app_with(path, tmp_path)
    async with app.run_test(size=(80, 24)) as pilot:
        await settle(pilot)
        assert "kit's file was changed" in text_of(app)
        await pilot.press("c")
        await settle(pilot)
        await pilot.press("enter")
        await settle(pilot)
        assert "A Dry Weekend" in text_of(app)
    app.close_sessions()


async def test_a_torn_end_of_the_file_is_told(tmp_path):
    session = begun("postcard", tmp_path / "sessions", 4)
    path = session.path
    session.close()
    assert path is not None
    path.write_bytes(path.read_bytes() + b"[[did]]\nat = 2026-01-05T10")
    app = app_with(path, tmp_path)
    async with app.run_test(size=(80, 24)) as pilot:
        await settle(pilot)
        told = ""
        for _ in range(3):
            told += text_of(app)
            if isinstance(app.screen, TableScreen):
                break
            await pilot.press("enter")
            await settle(pilot)
        assert "not finished" in told or "dropped" in told
        assert isinstance(app.screen, TableScreen)
    app.close_sessions()


async def test_a_run_that_cannot_be_saved_says_so_and_goes_on(tmp_path):
    (tmp_path / "sessions").write_text("a file where a folder should be", encoding="utf-8")
    app = app_with(demo_kit("postcard"), tmp_path)
    async with app.run_test(size=(80, 24)) as pilot:
        await settle(pilot)
        screen = app.screen
        assert isinstance(screen, TableScreen)
        assert "NOT SAVED" in text_of(app)
        await pilot.press("space", "space")
        assert screen.session.state.steps_done == 2
        await pilot.press("q")
        await settle(pilot)
        assert isinstance(app.screen, Dialog)
        assert "Leave all the same?" in text_of(app)
        await pilot.press("ctrl+q")  # asked once, not twice
        await settle(pilot)
        assert sum(isinstance(screen, Dialog) for screen in app.screen_stack) == 1
        await pilot.press("s")
        assert isinstance(app.screen, TableScreen)
    app.close_sessions()


async def test_settings_are_changed_and_kept(tmp_path):
    app = app_with(demo_kit("postcard"), tmp_path)
    async with app.run_test(size=(80, 24)) as pilot:
        await settle(pilot)
        await pilot.press("comma")
        await settle(pilot)
        await pilot.press("enter")
        assert app.settings.units == "in"
        await pilot.press("escape")
    app.close_sessions()
    assert 'units = "in"' in (tmp_path / "settings.toml").read_text(encoding="utf-8")


async def test_every_command_of_the_table_is_in_the_palette(tmp_path):
    session = begun("postcard", tmp_path / "sessions")
    async with table(session) as (pilot, screen):
        titles = [c.help for c in pilot.app.get_system_commands(screen)]
        for command in screen.COMMANDS_SHOWN:
            help = PHRASES().commands.command(whole_id("table", command)).help
            assert not command.palette or help in titles


async def test_the_palette_files_into_each_pocket_and_takes_from_the_pile(tmp_path):
    session = begun("postcard", tmp_path / "sessions")
    session.pace_by(True)
    while len(session.state.pile) < 2 or session.state.due().item is None:
        assert session.next().taken
    async with table(session) as (pilot, screen):
        found = {c.title: c.callback for c in pilot.app.get_system_commands(screen)}
        beneath = screen.moment.pile[-1]
        assert beneath.id != session.state.due().item
        await found[f"Take from the pile: {beneath.text}"]()
        assert screen.moment.due.item == beneath.id
        pocket = screen.moment.pockets[0]
        await found[f"File in pocket {pocket.label}  ({' or '.join(pocket.keys)})"]()
        assert session.state.where(beneath.id) == pocket.index


async def test_the_screen_may_shrink_to_nothing_and_grow_again(tmp_path):
    session = begun("harbour", tmp_path / "sessions", 60)
    async with table(session) as (pilot, _):
        for size in ((60, 20), (20, 6), (3, 2), (1, 1), (160, 50), (80, 24)):
            await pilot.resize_terminal(*size)
            await pilot.pause()
        assert "Pockets" in text_of(pilot.app)


async def test_a_kit_of_more_than_nine_pages_takes_two_presses(tmp_path):
    kit = tmp_path / "kit.toml"
    kit.write_text(
        'dryfit = 1\ntitle = "Twelve pages"\npage = "12 x 12"\npages = 12\n'
        '[[sheet]]\nname = "A"\nface = "navy"\n'
        '[[piece]]\nname = "half"\nto = { "1·2" = 1, "11·12" = 1 }\n'
        '[[step]]\ntrim = "A"\nmarks = [6]\ngives = ["half"]\nrest = "half"\n',
        encoding="utf-8",
    )
    from model.reading import load_kit

    session = Session.start(load_kit(kit), kit, tmp_path / "sessions")
    while session.state.due().item is None:
        session.next()
    item = session.state.due().item
    async with table(session) as (pilot, screen):
        await pilot.press("1")
        assert session.state.due().item == item
        assert "Page 1_" in text_of(pilot.app)
        await pilot.press("backspace")
        assert "Page 1_" not in text_of(pilot.app)
        await pilot.press("1")
        await pilot.press("1")
        assert session.state.where(item) == 5
        await pilot.press("2")
        assert screen.moment.pressing is not None or not session.state.pile


async def test_a_kit_can_be_put_away_and_taken_up_again(tmp_path):
    app = app_with(demo_kit("postcard"), tmp_path)
    async with app.run_test(size=(80, 24)) as pilot:
        await settle(pilot)
        await pilot.press("space", "space", "h")
        await settle(pilot)
        assert isinstance(app.screen, ShelfScreen)
        assert "2 of 19 steps done" in text_of(app)
        await pilot.press("enter")
        await settle(pilot)
        assert "Welcome back" in text_of(app)
    app.close_sessions()
