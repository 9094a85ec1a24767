"""The first run of a two-page kit teaches the table by doing, and can be skipped."""

from __future__ import annotations

import re

import pytest

from model.folders import demo_kit
from model.lessons import Lesson, Lessons
from model.manner import Manner
from model.moment import moment_of
from model.settings import Settings, read_settings
from tests.screens import begun, text_of
from tui.app import DryfitApp


def app_on(kit: str, folder, settings: Settings | None = None) -> DryfitApp:  # type: ignore[no-untyped-def]
    return DryfitApp(settings or Settings(), folder / "settings.toml", demo_kit(kit), folder)


def shown(pilot) -> str:  # type: ignore[no-untyped-def]
    return " ".join(text_of(pilot.app).split())


@pytest.mark.parametrize("size", [(60, 20), (80, 24), (120, 40)])
async def test_all_of_it_is_learnt_by_doing_in_few_keys(tmp_path, size):
    app = app_on("postcard", tmp_path)
    async with app.run_test(size=size) as pilot:
        await pilot.pause()
        assert "1/8 Do what the sentence says" in shown(pilot)
        keys = 0
        screen = app.screen
        asked = {"Try u now": ["u"], "press s, as if": ["s", "p"], "Try f": ["f", "escape"]}
        numbers = []
        while screen.lessons is not None and keys < 60:
            numbers += [int(said) for said in re.findall(r" ([1-8])/8 ", shown(pilot))]
            press = next((k for mark, k in asked.items() if mark in shown(pilot)), ["space"])
            if "n  " in shown(pilot) and "Was it really" in shown(pilot):
                press = ["n"]
            for key in press:
                await pilot.press(key)
                await pilot.pause()
                keys += 1
        assert screen.lessons is None
        assert keys <= 40  # 3 s a key: under two minutes
        assert numbers == sorted(numbers)
        assert set(numbers) == set(range(1, 9))
    assert read_settings(tmp_path / "settings.toml")[0].taught


async def test_esc_ends_the_lessons_for_good(tmp_path):
    app = app_on("postcard", tmp_path)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        await pilot.press("escape")
        await pilot.pause()
        assert "No more lessons" in shown(pilot)
        assert "1/8" not in shown(pilot)
    settings, _ = read_settings(tmp_path / "settings.toml")
    assert settings.taught
    again = app_on("postcard", tmp_path, settings)
    async with again.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        assert "no lessons" not in shown(pilot)


async def test_a_larger_kit_teaches_nothing(tmp_path):
    app = app_on("harbour", tmp_path)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        assert "no lessons" not in shown(pilot)


def test_what_is_found_out_before_it_is_taught_is_learnt(tmp_path):
    session = begun("postcard", tmp_path)
    lessons = Lessons()
    assert lessons.now(moment_of(session, Manner()), session) is Lesson.SPACE
    lessons.did("undo")
    assert Lesson.UNDO in lessons.learnt
    assert Lesson.SPACE not in lessons.learnt
    lessons.did("did")
    assert Lesson.SPACE in lessons.learnt
    lessons.skip()
    assert lessons.over
    assert lessons.now(moment_of(session, Manner()), session) is None


def test_a_pedal_alone_learns_what_a_pedal_can_and_never_waits(tmp_path):
    session = begun("postcard", tmp_path)
    lessons = Lessons()
    shown: list[Lesson] = []
    while not session.state.due().over:
        lesson = lessons.now(moment_of(session, Manner()), session)
        if lesson is not None and lesson not in shown:
            shown.append(lesson)
        lessons.did("did")
        assert session.next().taken
    assert {Lesson.SPACE, Lesson.MARK, Lesson.FILE} <= lessons.learnt
    # What is passed over again and again is not shown for ever, and the last comes last.
    assert Lesson.UNDO in lessons.learnt
    assert len(shown) == len(Lesson)
    assert shown[-1] is Lesson.END
