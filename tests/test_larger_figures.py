"""Larger figures for who wants them, and a bell at a warning."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from model.plan import Role, StepKind
from model.settings import FIGURES, Settings, read_settings, save_settings, with_value
from tests.pictures import to_filing, to_step
from tests.screens import begun, table, text_of
from tests.test_room import moment
from tui import parts_step
from tui.app import DryfitApp
from tui.room import mark_height, share
from tui.widgets.figures import big_text


@given(st.integers(8, 70))
def test_each_setting_is_at_least_as_large_as_the_one_before(height: int) -> None:
    sizes = [mark_height(height, figures) for figures in FIGURES]
    assert sizes == sorted(sizes)
    assert all(size % 5 == 0 and size >= 5 for size in sizes)
    assert sizes[0] == mark_height(height)
    if height >= 24:
        assert sizes[0] < sizes[1] < sizes[2] or sizes[2] > height - 14


@given(st.text("0123456789 /", min_size=1), st.integers(1, 90), st.integers(1, 30))
def test_tall_figures_stay_in_their_room_and_are_never_lower(text, width, height) -> None:
    usual, tall = (big_text(text, width, height, tall=tall) for tall in (False, True))
    assert len(tall) <= height
    assert len({len(row) for row in tall}) <= 1
    assert all(len(row) <= width for row in tall)
    assert len(tall) >= len(usual)


@pytest.mark.parametrize("name", ["cut", "file", "wrong"])
@pytest.mark.parametrize("size", [(80, 24), (60, 20), (120, 40), (160, 50), (40, 12)])
def test_the_texts_keep_their_rows_beside_larger_figures(name, size) -> None:
    width, height = size
    for figures in FIGURES:
        need = parts_step.need(moment(name), width, height, 0, False, figures)
        room = share(height, need)
        assert room.sentence >= need.sentence and room.goes and room.head
        assert room.picture >= 3 or not need.picture or height < 20
        large = parts_step.mark(moment(name), width, height, False, figures)
        assert not room.mark or len(large) <= room.mark
    rows = [len(parts_step.mark(moment(name), width, height, False, f)) for f in FIGURES]
    assert rows == sorted(rows)
    assert rows[0] < rows[2] or height < 20


@pytest.mark.parametrize("figures", FIGURES)
async def test_the_table_shows_the_size_that_was_chosen(tmp_path, figures) -> None:
    session = begun("harbour", tmp_path)
    to_step(session, StepKind.CUT, 2)
    async with table(session, (80, 24), Settings(figures=figures)) as (pilot, screen):
        high = sum("██" in row[:51] for row in text_of(pilot.app).split("\n"))
        assert high == len(parts_step.mark(screen.moment, 51, 24, False, figures))
        assert (high > 5) is (figures != "usual")
        assert (
            screen.moment.sentence in " ".join(text_of(pilot.app).split()) or screen.room.sentence
        )


@pytest.mark.parametrize("bell", [False, True])
async def test_the_bell_rings_once_for_a_warning_and_only_if_it_is_wanted(
    tmp_path, monkeypatch, bell
) -> None:
    rung: list[int] = []
    monkeypatch.setattr(DryfitApp, "bell", lambda self: rung.append(1))
    session = begun("harbour", tmp_path)
    to_filing(session, Role.PIECE)
    async with table(session, (80, 24), Settings(bell=bell)) as (pilot, screen):
        await pilot.press("5")
        await pilot.pause()
        assert screen.moment.pressing is not None
        await pilot.press("space", "question_mark", "escape")  # the same warning still stands
        await pilot.pause()
        assert len(rung) == int(bell)
        await pilot.press("p", "space")
        await pilot.pause()
        assert len(rung) == int(bell)


def test_both_are_kept_and_are_off_at_first(tmp_path) -> None:
    assert (Settings().figures, Settings().bell) == ("usual", False)
    path = tmp_path / "settings.toml"
    assert save_settings(Settings(figures="largest", bell=True), path) == ""
    assert read_settings(path) == (Settings(figures="largest", bell=True), ())
    path.write_text('figures = "huge"\nbell = "yes"\n', encoding="utf-8")
    settings, troubles = read_settings(path)
    assert settings == Settings() and len(troubles) == 2
    assert "must be one of usual, large, largest" in with_value(Settings(), "figures", "x")[1]


async def test_the_settings_screen_changes_both(tmp_path) -> None:
    session = begun("postcard", tmp_path)
    async with table(session) as (pilot, _):
        await pilot.press("comma")
        await pilot.pause()
        await pilot.press("end", "space", "up", "space")
        await pilot.pause()
        settings = pilot.app.settings
        assert (settings.bell, settings.figures) == (True, "large")
