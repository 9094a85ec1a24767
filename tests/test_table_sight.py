"""The table: what it shows and keeps in sight; what its keys say is in `test_table`."""

from __future__ import annotations

import pytest

from model.event import Extra
from model.plan import StepKind
from model.reading import read_kit
from model.session import Session
from tests.screens import begun, table, text_of
from tests.test_table import about_to_file, advance


async def test_while_a_warning_stands_nothing_else_is_taken_in_hand_or_left_out(tmp_path):
    session = begun("harbour", tmp_path)
    session.pace_by(True)
    _, _, wrong = about_to_file(session)
    session.file_into(wrong.index)
    async with table(session) as (pilot, screen):
        for key in ("down", "up", "o"):
            before = screen.moment
            await pilot.press(key)
            assert "Answer the warning first" in text_of(pilot.app)
            assert (screen.chosen, screen.moment) == ("", before)


@pytest.mark.parametrize("size", [(80, 24), (60, 20)])
async def test_a_scrap_too_many_shows_by_the_count_before_the_count_is_over(tmp_path, size):
    session = begun("harbour", tmp_path)
    advance(session, StepKind.LOAD)
    async with table(session, size) as (pilot, screen):
        assert "!" not in "".join(row for row in text_of(pilot.app).splitlines() if "craps" in row)
        session.say(Extra())
        screen.look_again()
        await pilot.pause()
        assert screen.moment.scraps[0] <= screen.moment.scraps[1]
        row = next(row for row in text_of(pilot.app).splitlines() if "craps" in row and "1/" in row)
        assert "!" in row


async def test_a_short_footer_keeps_pockets_and_scraps(tmp_path):
    session = begun("postcard", tmp_path)
    async with table(session, (60, 20)) as (pilot, _):
        keys = text_of(pilot.app).splitlines()[-1]
        assert "k pockets" in keys
        assert "q quit" in keys


async def test_what_is_taken_back_is_named(tmp_path):
    session = begun("harbour", tmp_path)
    item, _, _ = about_to_file(session)
    async with table(session, (120, 40)) as (pilot, _):
        await pilot.press("space", "u")
        assert f"Taken back: {session.plan.items[item].name} in 1·2" in text_of(pilot.app)


async def test_a_pocket_in_which_something_is_wrong_is_never_out_of_sight(tmp_path):
    """With more pockets than rows, one that is far from the target gives way to it."""
    text = (
        'dryfit = 1\ntitle = "Many"\npage = "12 x 12"\npages = 60\n'
        '[[sheet]]\nname = "A"\nface = "navy"\n'
        '[[step]]\ntrim = "A"\nmarks = [8, 4]\n'
        'gives = { name = "mat", to = "1 to 1·2, 1 to 3·4" }\nrest = { name = "end", to = "5·6" }\n'
    )
    read = read_kit(text)
    assert read.plan is not None, read.findings
    session = Session.start(read, None, tmp_path)
    advance(session, filing=True)
    session.file_into(27)
    async with table(session) as (pilot, _):
        await pilot.press("l")
        rows = text_of(pilot.app).splitlines()
        assert any("! 55·56" in row for row in rows)
        assert len([row for row in rows if "·" in row and "/" in row]) > 5
        await pilot.press("space")
        assert any("! 55·56" in row for row in text_of(pilot.app).splitlines())
        await pilot.press("w", "p")
        await pilot.press("escape")
        assert not any("55·56" in row for row in text_of(pilot.app).splitlines())
