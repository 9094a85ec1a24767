"""In ASCII mode nothing but ASCII reaches the terminal: not from names, bars or borders either."""

from __future__ import annotations

import pytest
from rich.cells import cell_len
from rich.segment import Segment
from textual.color import Color

from model.plan import Role, StepKind
from model.reading import load_kit
from model.session import Session
from model.settings import Settings
from tests.pictures import to_filing, to_step
from tests.screens import begun, table
from tui.app import DryfitApp
from tui.plain import AsciiOnly, plain
from tui.screens.warnings import WarningsScreen

SCREENS = {
    "table": [],
    "pockets": ["k"],
    "account": ["a"],
    "help": ["question_mark"],
    "settings": ["comma"],
    "notes": ["n"],
    "palette": ["ctrl+p"],
}
HARD_NAMES = """
dryfit = 1
title = "Fête d’été"
page = "12 x 12"
pages = 2
note = "Half a sheet is 12 × 6; 1½ in stays — that is all… 日本"
[[sheet]]
name = "crème"
face = { name = "crème brûlée", colour = "wheat" }
[[piece]]
name = "½ moon"
to = "2 to 1·2"
[[step]]
trim = "crème"
marks = [6]
gives = "½ moon"
rest = "½ moon"
note = "Łódź, ¼ turn."
"""


def painted(app: DryfitApp) -> str:
    """All characters that are on the screen."""
    rows = app.screen._compositor.render_strips(app.size)
    return "\n".join(row.text for row in rows)


def odd(app: DryfitApp) -> set[str]:
    return {char for char in painted(app) if not char.isascii()}


async def see(pilot, keys: list[str], what: object) -> None:
    """Press keys, look, and go back to the table."""
    app = pilot.app
    before = app.screen
    await pilot.press(*keys)
    await pilot.pause()
    await pilot.press(*["down"] * 3 if keys else [])
    await pilot.pause()
    assert not odd(app), (what, keys, odd(app))
    for _ in range(3):
        if app.screen is not before:
            await pilot.press("escape")
            await pilot.pause()
    assert app.screen is before


# Small ones have something to scroll on every screen.
@pytest.mark.parametrize("size", [(80, 24), (44, 11), (120, 40)], ids=str)
@pytest.mark.parametrize("steps", [0, 12, 57, 175])
async def test_every_screen_is_ascii(tmp_path, size, steps):
    session = begun("harbour", tmp_path, steps)
    async with table(session, size, Settings(ascii=True)) as (pilot, _):
        for name, keys in SCREENS.items():
            await see(pilot, keys, name)


@pytest.mark.parametrize("size", [(80, 24), (44, 11)], ids=str)
async def test_warnings_and_questions_are_ascii(tmp_path, size):
    session = begun("harbour", tmp_path)
    to_filing(session, Role.PIECE)
    async with table(session, size, Settings(ascii=True)) as (pilot, screen):
        for number in range(12):
            if screen.moment.due.item and not screen.moment.pressing:
                await pilot.press("9" if number % 2 else "5")
                assert screen.moment.pressing is None or not odd(pilot.app)
            await see(pilot, [], "warning")
            await pilot.press("l")
            session.next()
            screen.look_again()
        assert len(session.state.warnings) > 3
        await pilot.press("w")
        await pilot.pause()
        assert isinstance(pilot.app.screen, WarningsScreen)
        # A bar to scroll by is there, and is ASCII too.
        assert size[1] > 20 or pilot.app.screen.query_one("#lines").show_vertical_scrollbar
        assert not odd(pilot.app)
        await pilot.press("escape")
        to_step(session, StepKind.CUT)
        session.next()
        screen.look_again()
        await see(pilot, ["u"], "was it cut?")


async def test_the_shelf_and_the_line_for_a_path_are_ascii(tmp_path):
    app = DryfitApp(Settings(ascii=True), None, None, tmp_path)
    async with app.run_test(size=(60, 8), notifications=True) as pilot:
        await pilot.pause()
        await pilot.pause()
        assert "postcard" in painted(app).lower() or "Wet Weekend" in painted(app)
        assert not odd(app)
        await pilot.press("f")
        await pilot.pause()
        assert "Path of a kit" in painted(app)
        assert not odd(app)
        app.notify("Sheet “A” — 1½", title="Bar ▌")
        for _ in range(3):
            await pilot.pause(0.05)
        assert 'Sheet "A" - 1 1/2' in painted(app)
        assert not odd(app)


async def test_names_of_a_kit_are_put_into_ascii(tmp_path):
    kit = tmp_path / "kit.toml"
    kit.write_text(HARD_NAMES, encoding="utf-8")
    session = Session.start(load_kit(kit), kit, tmp_path / "sessions")
    async with table(session, (80, 24), Settings(ascii=True)) as (pilot, screen):
        assert "1 1/2 in stays" in painted(pilot.app)
        assert "Fete d'ete" in painted(pilot.app)
        while not screen.moment.over:
            for name, keys in SCREENS.items():
                await see(pilot, keys, (screen.moment.headline, name))
            session.next()
            screen.look_again()


async def test_the_mode_can_be_changed_and_changed_back(tmp_path):
    session = begun("harbour", tmp_path, 60)
    async with table(session, (120, 40)) as (pilot, _):
        before = painted(pilot.app)
        assert odd(pilot.app)
        pilot.app.change_setting("ascii", True)
        await pilot.pause()
        await pilot.pause()
        assert not odd(pilot.app)
        pilot.app.change_setting("ascii", False)
        await pilot.pause()
        await pilot.pause()
        assert painted(pilot.app) == before


def test_letters_and_fractions_are_written_out():
    assert plain("Crème brûlée") == "Creme brulee"
    assert plain("1½ in, ¾ in") == "1 1/2 in, 3/4 in"
    assert plain("4 × 6") == "4 x 6"
    assert plain("日") == "??"  # two cells wide, and so is what stands for it


@pytest.mark.parametrize(
    "texts",
    [["│", "a 1½ in strip   ", "│"], ["│", "½", "│"], ["日本", " ", "…"], ["plain"], ["1½", "   "]],
)
def test_a_row_keeps_its_width(texts: list[str]) -> None:
    row = AsciiOnly().apply([Segment(text) for text in texts], Color(0, 0, 0))
    text = "".join(segment.text for segment in row)
    assert text.isascii()
    assert cell_len(text) == sum(map(cell_len, texts))


def test_what_stands_after_spaces_stays_in_its_column() -> None:
    row = AsciiOnly().apply([Segment("1½ in    "), Segment("│")], Color(0, 0, 0))
    assert "".join(segment.text for segment in row)[-1] == "|"
