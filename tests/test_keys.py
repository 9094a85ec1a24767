"""A crafter's own keys on the screens, and what a mouse or a finger does there."""

from __future__ import annotations

import importlib
import pkgutil
import tomllib
from contextlib import asynccontextmanager
from pathlib import Path

import pytest

import tui.screens
from model.keymap import Keymap, read_keymap
from model.language.english.commands import CommandPhrases
from model.settings import Settings, read_settings
from tests.screens import begun, table, text_of
from tui.app import DryfitApp
from tui.keys import places
from tui.screens.base import AppScreen
from tui.screens.dialog import Dialog
from tui.screens.keys import KeysScreen, PressKey
from tui.screens.pockets import PocketsScreen
from tui.screens.table import TableScreen

OWN = Settings(keys={"table": {"undo": "z", "redo": "f2", "did": "j", "right": "+", "leave": "-"}})


@asynccontextmanager
async def own_table(tmp_path, keys, size=(80, 24), steps=0):
    """The table of an app whose settings have keys, and a file."""
    session = begun("harbour", tmp_path / "sessions", steps)
    path = tmp_path / "settings.toml"
    app = DryfitApp(Settings(keys=keys), path, None, session.path.parent)
    async with app.run_test(size=size) as pilot:
        app.show_session(session)
        await pilot.pause()
        yield pilot, app.screen
    session.close()


def at(app, text: str, nth: int = 0) -> tuple[int, int]:
    """Where a text stands on the screen."""
    found = [(y, row.find(text)) for y, row in enumerate(text_of(app).split("\n")) if text in row]
    y, x = found[nth]
    return x, y


def test_every_screen_with_commands_is_among_the_places_and_usual_keys_get_on() -> None:
    for module in pkgutil.iter_modules(tui.screens.__path__):
        importlib.import_module(f"tui.screens.{module.name}")
    named = {place.name for place in places(CommandPhrases())}
    todo, screens = [AppScreen], set()
    while todo:
        one = todo.pop()
        todo += one.__subclasses__()
        screens |= {one.PLACE} if one.COMMANDS_SHOWN else set()
    assert screens == named - {"question"}
    assert list(Keymap(places(CommandPhrases()))._clashes()) == []


async def test_a_key_of_the_file_does_it_and_is_shown_everywhere(tmp_path):
    async with own_table(tmp_path, OWN.keys) as (pilot, screen):
        session = screen.session
        shown = text_of(pilot.app)
        assert "z undo" in shown and "u undo" not in shown
        assert "j:" in shown and "Space:" not in shown
        await pilot.press("j")
        assert session.state.steps_done == 1
        await pilot.press("u")
        assert session.state.steps_done == 1  # it is nobody's key now
        await pilot.press("z")
        await pilot.pause()
        assert session.state.steps_done == 0
        assert "F2 says it again" in text_of(pilot.app)
        await pilot.press("f2")
        assert session.state.steps_done == 1
        await pilot.press("space")
        assert session.state.steps_done == 2  # the one key stays beside one's own
        titles = [each.title for each in pilot.app.get_system_commands(screen)]
        assert "Undo  (z)" in titles and "Undo  (u)" not in titles
        await pilot.press("question_mark")
        await pilot.pause()
        assert "j or Space or Enter" in text_of(pilot.app)


async def test_a_warning_is_answered_with_the_keys_in_force(tmp_path):
    async with own_table(tmp_path, OWN.keys) as (pilot, screen):
        while screen.session.state.due().item is None:
            await pilot.press("j")
        wrong = next(p for p in screen.moment.pockets if not p.target)
        screen.action_pocket(wrong.index)
        await pilot.press("j")
        await pilot.pause()
        assert "+ puts it right, - leaves it" in text_of(pilot.app)
        await pilot.press("plus")
        assert screen.moment.pressing is None


async def test_what_the_file_says_wrong_is_told_and_the_usual_key_works(tmp_path):
    async with own_table(tmp_path, {"table": {"undo": "r"}}) as (pilot, screen):
        told = [each._text for each in pilot.app.screen_stack if isinstance(each, Dialog)]
        assert any("table.undo: r is taken at the table" in each for each in told)
        await pilot.press("space", "u")
        await pilot.pause()
        assert screen.session.state.steps_done == 0


async def test_keys_are_changed_on_their_screen_and_kept(tmp_path):
    async with own_table(tmp_path, {}) as (pilot, screen):
        app = pilot.app
        await pilot.press("comma", "k")
        await pilot.pause()
        assert isinstance(app.screen, KeysScreen)
        lines = app.screen.query_one("#lines")
        lines.highlighted = lines.get_option_index("table.undo")
        for key, why in [
            ("r", 'r is taken at the table: "Redo"'),
            ("5", "digits are the pockets' keys"),
            ("ctrl+j", "can't tell it from Enter"),
            ("tab", ""),
        ]:
            if not isinstance(app.screen, PressKey):
                await pilot.press("enter")
            await pilot.press(key)
            await pilot.pause()
            if why:
                assert why in " ".join(text_of(app).replace("│", " ").split()), key
                assert app.keymap.own == {}
        assert app.keymap.own == {"table.undo": ("tab",)}
        assert "* Tab" in text_of(app)
        await pilot.press("a", "z")
        await pilot.pause()
        settings, _ = read_settings(tmp_path / "settings.toml")
        assert settings.keys == {"table": {"undo": ["tab", "z"]}}
        await pilot.press("escape", "escape", "space", "z")
        await pilot.pause()
        assert app.screen is screen and screen.session.state.steps_done == 0
        assert "Tab undo" in text_of(app)
        await pilot.press("comma", "k")
        await pilot.pause()
        lines = app.screen.query_one("#lines")
        lines.highlighted = lines.get_option_index("table.undo")
        await pilot.press("u")
        await pilot.pause()
        assert app.keymap.own == {}
        assert "keys" not in (tmp_path / "settings.toml").read_text(encoding="utf-8")


async def test_all_usual_keys_come_back_when_that_is_meant(tmp_path):
    async with own_table(tmp_path, OWN.keys) as (pilot, _):
        await pilot.press("comma", "k", "x", "s")
        await pilot.pause()
        assert len(pilot.app.keymap.own) == 5
        await pilot.press("x", "x")
        await pilot.pause()
        assert pilot.app.keymap.own == {}
        await pilot.press("escape", "escape")
        await pilot.pause()
        assert "u undo" in text_of(pilot.app)


async def test_esc_in_the_capture_changes_nothing_and_so_does_its_row(tmp_path):
    async with own_table(tmp_path, {}) as (pilot, _):
        await pilot.press("comma", "k", "enter", "escape")
        await pilot.pause()
        assert isinstance(pilot.app.screen, KeysScreen)
        await pilot.press("enter")
        await pilot.pause()
        await pilot.click(offset=at(pilot.app, "Esc  Back"))
        await pilot.pause()
        assert isinstance(pilot.app.screen, KeysScreen)
        assert pilot.app.keymap.own == {}


def test_the_keys_that_readme_shows_can_be_chosen() -> None:
    readme = (Path(__file__).parent.parent / "README.md").read_text(encoding="utf-8")
    shown = tomllib.loads(readme[readme.index("[keys.table]") :].split("```")[0])
    keymap, troubles = read_keymap(places(CommandPhrases()), shown["keys"])
    assert troubles == ()
    assert keymap.keys("table.redo") == ("f2", "ctrl+r")


# Touch


async def test_a_row_of_the_help_does_what_it_tells_of(tmp_path):
    session = begun("harbour", tmp_path, 3)
    async with table(session, (100, 40)) as (pilot, screen):
        await pilot.click(offset=at(pilot.app, "? help"))
        await pilot.pause()
        await pilot.click(offset=at(pilot.app, "Every pocket with every piece"))
        await pilot.pause()
        await pilot.pause()
        assert isinstance(pilot.app.screen, PocketsScreen)
        await pilot.click(offset=at(pilot.app, "k back"))
        await pilot.pause()
        assert pilot.app.screen is screen


async def test_a_pocket_of_a_narrow_table_can_be_touched(tmp_path):
    session = begun("harbour", tmp_path)
    while session.state.due().item is None:
        assert session.next().taken
    item = session.state.due().item
    async with table(session, (48, 24)) as (pilot, screen):
        assert isinstance(screen, TableScreen)
        target = next(p for p in screen.moment.pockets if p.target)
        said = f"{target.label}:{target.held}/{target.wanted}"
        await pilot.click(offset=at(pilot.app, said))
        await pilot.pause()
        assert session.state.where(item) == target.index


async def test_a_warning_that_is_touched_is_marked_and_put_right_below(tmp_path):
    session = begun("harbour", tmp_path)
    while session.state.due().item is None:
        assert session.next().taken
    async with table(session) as (pilot, screen):
        wrong = next(p for p in screen.moment.pockets if not p.target)
        screen.action_pocket(wrong.index)
        await pilot.press("l")
        await pilot.pause()
        await pilot.click(offset=at(pilot.app, "left open"))
        await pilot.pause()
        await pilot.click(offset=(8, 1))
        await pilot.pause()
        assert "Warnings: 1" in text_of(pilot.app)
        await pilot.click(offset=at(pilot.app, "put right", -1))
        await pilot.pause()
        assert "No warning is open" in text_of(pilot.app)


async def test_a_line_that_is_typed_can_be_taken_and_left_by_touch(tmp_path):
    app = DryfitApp(Settings(), None, None, tmp_path)
    async with app.run_test(size=(80, 24)) as pilot:
        given = []
        from tui.screens.ask import Ask

        for text in ("Enter takes it", "Esc goes back"):
            app.push_screen(Ask("Name?", ("Enter takes it", "Esc goes back"), "blue"), given.append)
            await pilot.pause()
            await pilot.click(offset=at(app, text))
            await pilot.pause()
        assert given == ["blue", None]


@pytest.mark.parametrize("key", ["enter", "click"])
async def test_enter_ends_a_count_and_a_touch_ticks(tmp_path, key):
    from model.find import Finder
    from model.likeness import LookAlikes
    from model.recount import Recount
    from tui.screens.count import CountScreen

    session = begun("harbour", tmp_path, 60)
    pocket = next(i for i in range(20) if session.state.held(i))
    async with table(session) as (pilot, _):
        recount = Recount(session.plan, session.state, LookAlikes(session.plan))
        screen = CountScreen(session, recount, Finder(session.plan), pocket)
        pilot.app.push_screen(screen)
        await pilot.pause()
        if key == "click":
            await pilot.click(offset=(8, 1))
            await pilot.pause()
            assert pilot.app.screen is screen and sum(screen._seen) > 0
        else:
            await pilot.press("enter")
            await pilot.pause()
            assert pocket in recount.counts


async def test_a_piece_is_moved_to_the_pocket_that_is_touched(tmp_path):
    session = begun("harbour", tmp_path, 60)
    async with table(session, (100, 50)) as (pilot, _):
        await pilot.press("k")
        await pilot.pause()
        app = pilot.app
        screen = app.screen
        assert isinstance(screen, PocketsScreen)
        lines = screen.query_one("#lines")
        id, each = next((id, row) for id, row in screen._rows.items() if row.copies)
        lines.highlighted = lines.get_option_index(id)
        moved = each.copies[-1]
        await pilot.click(offset=at(app, "move a piece"))
        await pilot.pause()
        other = next(i for i in range(3) if i != session.state.where(moved))
        y = next(
            y
            for y, line in enumerate(text_of(app).split("\n"))
            if line.strip().startswith(screen._words.pocket(other))
        )
        await pilot.click(offset=(3, y))
        await pilot.pause()
        assert session.state.where(moved) == other


async def test_where_one_stood_is_told_in_full_when_it_is_touched(tmp_path):
    session = begun("harbour", tmp_path, 5)
    async with table(session) as (pilot, screen):
        screen.greet(("5 of many done",), "All of what was done.")
        await pilot.pause()
        await pilot.click(offset=at(pilot.app, ": more"))
        await pilot.pause()
        assert "All of what was done." in text_of(pilot.app)


async def test_where_nothing_can_be_kept_the_key_is_in_force_and_that_is_told(tmp_path):
    session = begun("harbour", tmp_path)
    async with table(session) as (pilot, _):
        await pilot.press("comma", "k")
        await pilot.pause()
        screen = pilot.app.screen
        lines = screen.query_one("#lines")
        lines.highlighted = lines.get_option_index("table.undo")
        await pilot.press("enter", "z")
        await pilot.pause()
        assert pilot.app.screen is screen
        assert pilot.app.keymap.keys("table.undo") == ("z",)
        assert "not kept: there is no folder" in text_of(pilot.app)
        await pilot.press("u")
        await pilot.pause()
        assert pilot.app.keymap.own == {}
        assert "Not changed" not in text_of(pilot.app)


async def test_the_keys_of_answers_can_be_chosen_too(tmp_path):
    own = {"question": {"yes": ["f2"], "no": "x"}}
    async with own_table(tmp_path, own) as (pilot, screen):
        session = screen.session
        while session.undo_unmakes() is None:
            await pilot.press("space")
        made = session.state.steps_done
        await pilot.press("u")
        assert "F2  " in text_of(pilot.app) and "x  " in text_of(pilot.app)
        await pilot.press("y", "n")  # nobody's keys now
        assert isinstance(pilot.app.screen, Dialog)
        await pilot.press("x")
        assert session.state.steps_done == made - 1


def test_two_answers_cannot_have_one_key() -> None:
    keymap, troubles = read_keymap(places(CommandPhrases()), {"question": {"yes": "n"}})
    assert len(troubles) == 1 and "n is taken" in troubles[0]
    assert keymap.keys("question.yes", ("y",)) == ("y",)
