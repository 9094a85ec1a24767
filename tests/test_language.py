"""Everything that a crafter sees comes from one place, and in the crafter's language."""

from __future__ import annotations

import inspect
import re
from collections.abc import Iterator
from functools import cached_property
from pathlib import Path

import pytest

from model.journal import JournalBusy
from model.language import (
    LANGUAGES,
    USUAL,
    Language,
    code_in_force,
    phrases_for,
    words_for,
)
from model.language.english.phrases import Phrases
from model.language.english.words import English
from model.moment import moment_of
from model.plan import Role, StepKind
from model.reading import load_kit
from model.recount import Recount
from model.rescue.rescue import Rescue
from model.session import Session
from model.settings import Settings
from model.shelf import kits_at_hand
from tests.foreign import foreign, said_by
from tests.foreign.kits import foreign_kit, foreign_session
from tests.pictures import to_end, to_filing, to_step
from tests.plain_lines import Sitting
from tests.screens import table, text_of
from tui.app import DryfitApp
from tui.screens.account import AccountScreen
from tui.screens.base import AppScreen

KEYS = {
    "Space", "Enter", "Esc", "Backspace", "Tab", "Del", "Ins", "Home", "End", "PgUp", "PgDn",
    "Ctrl", "Up", "Down", "Left", "Right", "Shift", "F1",
}  # fmt: skip
UNITS = {"in", "cm", "mm"}
WORDS = re.compile(r"[A-Za-z]{2,}")
SIZES = [(80, 24), (120, 40)]


@pytest.fixture(autouse=True)
def _foreign(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> Iterator[None]:
    monkeypatch.setenv("DRYFIT_HOME", str(tmp_path / "home"))
    monkeypatch.setitem(LANGUAGES, "xx", Language("Чужой", "tests.foreign"))
    monkeypatch.setattr(Rescue, "begin", lambda self: self.search(deep=False))
    yield
    phrases_for.cache_clear()


def untold(text: str, *more: str) -> list[str]:
    """The words of a text that no language said."""
    known = KEYS | UNITS | {word for each in more for word in WORDS.findall(each)}
    # What is cut short at an edge is known by its beginning.
    return [
        word for word in WORDS.findall(text) if not any(each.startswith(word) for each in known)
    ]


def downwards(text: str) -> list[str]:
    """The words that stand one letter beneath the other, by themselves."""
    rows = [f" {row} " for row in text.splitlines()]
    wide = max(map(len, rows))
    rows = [row.ljust(wide) for row in rows]
    columns = (
        "".join(
            row[at] if not (row[at - 1] + row[at + 1]).strip(" │┃|").isalnum() else " "
            for row in rows
        )
        for at in range(1, wide - 1)
    )
    return [word for column in columns for word in re.findall("[a-z]{3,}", column)]


FOREIGN = Settings(language="xx")


def _unfiled(session: Session) -> None:
    session.pace_by(True)
    to_step(session, StepKind.CUT, 4)


def _cut_some(session: Session) -> None:
    for _ in range(60):
        assert session.next().taken


SCREENS = {
    "miscut": ("harbour", _cut_some, ["m"]),
    "miscut before any cut": ("harbour", lambda s: None, ["m"]),
    "miscut cuts": ("harbour", _cut_some, ["m", "e"]),
    "miscut cuts none": ("harbour", _cut_some, ["m", "e", *"999"]),
    "miscut mark": ("harbour", _cut_some, ["m", "1", *"3 3/4"]),
    "miscut no length": ("harbour", _cut_some, ["m", "1", *"9/"]),
    "miscut too long": ("harbour", _cut_some, ["m", "1", *"12"]),
    "miscut measure": ("harbour", _cut_some, ["m", "2", "down"]),
    "miscut face": ("harbour", _cut_some, ["m", "5"]),
    "miscut ruined": ("harbour", _cut_some, ["m", "6"]),
    "miscut nothing lost": ("harbour", _cut_some, ["m", "5", "enter"]),
    "miscut ways": ("harbour", _cut_some, ["m", "1", *"3 3/4", "enter"]),
    "miscut step": ("harbour", _cut_some, ["m", "1", *"3 3/4", "enter", "right", "right"]),
    "miscut rescued": ("harbour", _cut_some, ["m", "1", *"3 3/4", "enter", "enter"]),
    "miscut undone": ("harbour", _cut_some, ["m", "1", *"3 3/4", "enter", "enter", "u"]),
    "miscut account": ("harbour", _cut_some, ["m", "1", *"3 3/4", "enter", "enter", "a", "end"]),
    "open": ("harbour", lambda s: None, []),
    "fill": ("harbour", lambda s: to_step(s, StepKind.FILL), []),
    "stack": ("harbour", lambda s: to_step(s, StepKind.STACK, 3), []),
    "load": ("harbour", lambda s: to_step(s, StepKind.LOAD), []),
    "cut": ("harbour", lambda s: to_step(s, StepKind.CUT, 2), []),
    "metric": ("cards", lambda s: to_step(s, StepKind.CUT, 3), []),
    "file": ("harbour", lambda s: to_filing(s, Role.PIECE), []),
    "scrap": ("harbour", lambda s: to_filing(s, Role.SCRAP), []),
    "warning": ("harbour", lambda s: to_filing(s, Role.PIECE), ["5"]),
    "tear": ("harbour", lambda s: to_step(s, StepKind.TEAR), []),
    "trace": ("harbour", lambda s: to_step(s, StepKind.SHAPE, 2), []),
    "pockets": ("harbour", lambda s: to_filing(s, Role.PIECE), ["k"]),
    "account": ("harbour", to_end, ["a"]),
    "help": ("postcard", lambda s: None, ["question_mark"]),
    "settings": ("postcard", lambda s: None, ["comma"]),
    "question": ("postcard", lambda s: (to_step(s, StepKind.CUT), s.next()), ["u"]),
    "load first": ("harbour", _unfiled, []),
    "pile in the palette": ("harbour", _unfiled, ["ctrl+p"]),
    "find": ("harbour", _unfiled, ["f", "3"]),
    "find nothing": ("harbour", _unfiled, ["f", *"9x9"]),
    "not it": ("harbour", _unfiled, ["i"]),
    "not deferred": ("harbour", _unfiled, ["d"]),
    "deferred": ("harbour", lambda s: to_step(s, StepKind.LOAD), ["d"]),
    "account so far": ("harbour", _unfiled, ["a"]),
    "count": ("harbour", to_end, ["k", "c"]),
    "count other": ("harbour", to_end, ["k", "c", "f"]),
    "counted": ("harbour", to_end, ["k", "c", "enter"]),
    "count all": ("harbour", to_end, ["k", "c", "a", "enter"]),
    "move": ("harbour", to_end, ["k", "down", "m"]),
    "moved": ("harbour", to_end, ["k", "down", "m", "5"]),
    "moved back": ("harbour", to_end, ["k", "down", "m", "5", "u"]),
    "warnings": ("harbour", lambda s: to_step(s, StepKind.CUT, 2), ["1", "l", "w"]),
    "no warnings": ("harbour", _unfiled, ["w"]),
    "left": ("harbour", lambda s: to_step(s, StepKind.CUT, 2), ["9", "l"]),
    "answer first": ("harbour", lambda s: to_step(s, StepKind.CUT, 2), ["9", "space"]),
    "put right": ("harbour", lambda s: to_step(s, StepKind.CUT, 2), ["9", "p"]),
    "undo of a cut there": ("harbour", lambda s: (to_step(s, StepKind.CUT), s.next()), ["k", "u"]),
    "undo": ("harbour", lambda s: to_filing(s, Role.PIECE), ["1", "p", "u"]),
    "redo": ("harbour", lambda s: to_step(s, StepKind.LOAD), ["u", "r"]),
    "pace": ("harbour", lambda s: to_step(s, StepKind.LOAD), ["c"]),
    "notes": ("harbour", lambda s: to_step(s, StepKind.LOAD), ["n"]),
    "page begun": ("harbour", lambda s: to_step(s, StepKind.CUT), ["0"]),
    "nothing to skip": ("harbour", lambda s: to_step(s, StepKind.CUT), ["o"]),
    "lower settings": ("postcard", lambda s: None, ["comma", "end"]),
    "ruler": ("postcard", lambda s: None, ["comma", "down", "down", "enter"]),
    "keys": ("postcard", lambda s: None, ["comma", "k"]),
    "lower keys": ("postcard", lambda s: None, ["comma", "k", "end"]),
    "press a key": ("postcard", lambda s: None, ["comma", "k", "down", "enter"]),
    "a key that is refused": ("postcard", lambda s: None, ["comma", "k", "down", "enter", "s"]),
    "all keys": ("postcard", lambda s: None, ["comma", "k", "x"]),
    "help of the pockets": ("harbour", to_end, ["k", "question_mark"]),
    "help of the account": ("harbour", to_end, ["a", "question_mark"]),
    "help of the settings": ("harbour", to_end, ["comma", "question_mark"]),
    "palette": ("postcard", lambda s: None, ["ctrl+p"]),
    "palette of the pockets": ("harbour", to_end, ["k", "ctrl+p"]),
    "shelf": ("postcard", lambda s: None, ["h"]),
    "help of the shelf": ("postcard", lambda s: None, ["h", "question_mark"]),
    "path": ("postcard", lambda s: None, ["h", "f"]),
}


@pytest.mark.parametrize("size", SIZES, ids=lambda size: f"{size[0]}x{size[1]}")
@pytest.mark.parametrize("name", SCREENS)
async def test_no_screen_says_anything_of_its_own(tmp_path, name, size) -> None:
    kit, go, keys = SCREENS[name]
    session = foreign_session(kit, tmp_path)
    go(session)
    async with table(session, size, FOREIGN) as (pilot, _):
        await pilot.press(*keys)
        await pilot.pause()
        shown = text_of(pilot.app)
        demo = (
            [f"{kit.title} {kit.note} {kit.path.stem}" for kit in kits_at_hand([])]
            if "h" in keys
            else []
        )
        assert untold(shown, str(tmp_path), *demo) == []


@pytest.mark.parametrize("hand", [False, True], ids=["right", "left"])
@pytest.mark.parametrize("kit", ["postcard", "harbour", "cards"])
async def test_a_whole_run_says_nothing_of_its_own(tmp_path, kit, hand) -> None:
    session = foreign_session(kit, tmp_path)
    session.pace_by(kit == "cards")
    settings = Settings(language="xx", left_handed=hand)
    manner = settings.manner(session.plan.kit.unit)
    async with table(session, (100, 36), settings) as (pilot, screen):
        at = 0
        while not session.state.due().over:
            assert session.next().taken
            at += 1
            now = moment_of(session, manner)
            figure = now.figure.text if now.figure else ""  # drawn, not written
            said = (figure, now.headline, now.sentence, now.goes, now.press, *now.more)
            assert untold(" ".join((*said, *now.cautions, *now.waits))) == []
            if at % 5 and not (session.state.due().step and at % 2):
                continue
            screen.look_again()
            await pilot.pause()
            shown = text_of(pilot.app)
            assert untold(shown) == [] and downwards(shown) == []


async def test_the_lessons_say_nothing_of_their_own(tmp_path) -> None:
    session = foreign_session("postcard", tmp_path)
    app = DryfitApp(FOREIGN, None, None, tmp_path)
    async with app.run_test(size=(80, 30)) as pilot:
        app.show_session(session, teach=True)
        await pilot.pause()
        for keys in ["space"] * 12 + ["u", "r", "s", "p", "f", "escape", "space", "escape"]:
            await pilot.press(keys)
            await pilot.pause()
            assert untold(text_of(app)) == []
    session.close()


async def test_what_is_asked_and_told_on_opening_is_in_the_language(tmp_path) -> None:
    kit = tmp_path / "kit.toml"
    kit.write_text(foreign_kit("harbour"), encoding="utf-8")
    session = Session.start(load_kit(kit), kit, tmp_path)
    to_step(session, StepKind.CUT, 3)
    path = session.path
    assert path is not None
    app = DryfitApp(FOREIGN, None, None, tmp_path)
    async with app.run_test(size=(90, 30)) as pilot:
        app.show_session(session)
        app.open_session(path)  # it is open already: one may look on
        await pilot.pause()
        assert "ш" in text_of(app)
        # Why a file can't be had is told in English, as all that is told of files.
        with pytest.raises(JournalBusy) as busy:
            Session.resume(path)
        assert untold(text_of(app), str(path), str(busy.value)) == []
        await pilot.press("b")
        session.close()
        text = kit.read_text(encoding="utf-8").replace(foreign("Harbour"), foreign("Haven"))
        kit.write_text(text, encoding="utf-8")
        app.open_session(path)
        await pilot.pause()
        assert untold(text_of(app)) == []
        await pilot.press("o")
        await pilot.pause()
        assert untold(text_of(app)) == []  # and welcome back
        kit.write_text("nonsense", encoding="utf-8")
        app.start_kit(kit)
        await pilot.pause()
        assert untold(text_of(app)) == []


@pytest.mark.parametrize("kit", ["postcard", "cards"])
def test_plain_lines_say_nothing_of_their_own(tmp_path, kit) -> None:
    sitting = Sitting(foreign_session(kit, tmp_path), ascii=False, language="xx")
    asked = ("again", "notes", "where", "pile", "pockets", "pocket 1", "warnings", "account",
             "help", "find 3", "find zzz", "nonsense", "undo", "redo", "pace", "pace", "skip",
             "put off", "take 9", "later", "count 99")  # fmt: skip
    for line in asked:
        assert untold(sitting.say(line, *asks(sitting, line)), line) == []
    while not sitting.desk.look().over:
        said = sitting.say("")
        assert untold(said) == []
    for line in (*asked, "count 1", "find 3", "take 1"):
        assert untold(sitting.say(line, *asks(sitting, line)), line) == []


def test_plain_lines_hear_the_words_of_the_language(tmp_path) -> None:
    sitting = Sitting(foreign_session("postcard", tmp_path), ascii=False, language="xx")
    voice, hears = sitting.desk._voice, sitting.hears
    hears.write(foreign("put off\nfind 3\nquit\n"))
    hears.seek(0)
    assert [voice.hear() for _ in range(3)] == ["put off", "find 3", "quit"]


def asks(sitting: Sitting, line: str) -> list[str]:
    """The answers to what a line is answered with."""
    if line == "undo" and sitting.session.undo_unmakes() is not None:
        return [foreign("no")]
    if line.startswith("count ") and "99" not in line:
        rows = Recount(sitting.session.plan, sitting.session.state, sitting.session.known.looks)
        return [foreign(said) for said in ("maybe", *["yes"] * len(rows.lines(0)), "no")]
    return []


def test_a_word_of_no_language_is_found() -> None:
    assert untold("Ф No person has that Space 12") == ["No", "person", "has", "that"]


async def test_a_screen_with_a_word_of_its_own_is_found(tmp_path, monkeypatch) -> None:
    fill = AccountScreen.fill

    def says_something(screen: AccountScreen) -> None:
        fill(screen)
        screen.hint("Everything is here.")

    monkeypatch.setattr(AccountScreen, "fill", says_something)
    session = foreign_session("postcard", tmp_path)
    async with table(session, (80, 24), FOREIGN) as (pilot, _):
        await pilot.press("a")
        await pilot.pause()
        assert "Everything" in untold(text_of(pilot.app))


# The choice


@pytest.mark.parametrize(
    ("chosen", "environment", "code"),
    [
        ("", {}, USUAL),
        ("", {"LANG": "xx_YY.UTF-8"}, "xx"),
        ("", {"LANG": "XX"}, "xx"),
        ("", {"LANG": "en_GB.UTF-8", "LC_MESSAGES": "xx@euro"}, "xx"),
        ("", {"LANG": "xx", "LC_ALL": "C"}, USUAL),
        ("", {"LANG": "xx", "LC_ALL": ""}, "xx"),
        ("", {"LANG": "qq_QQ"}, USUAL),
        ("en", {"LANG": "xx"}, "en"),
        ("xx", {"LANG": "en"}, "xx"),
        ("gone", {"LANG": "xx"}, "xx"),
    ],
)
def test_the_language_in_force(chosen: str, environment: dict[str, str], code: str) -> None:
    assert code_in_force(chosen, environment) == code


async def test_a_change_of_language_is_seen_at_once_and_loses_nothing(tmp_path) -> None:
    session = foreign_session("harbour", tmp_path)
    to_step(session, StepKind.CUT, 2)
    async with table(session, (80, 40), Settings(language="en")) as (pilot, _):
        app = pilot.app
        assert isinstance(app, DryfitApp)
        before, did = text_of(app), len(session.state.done)
        await pilot.press("comma")
        screen_now = app.screen
        assert isinstance(screen_now, AppScreen)
        for _ in range(40):
            if getattr(screen_now, "chosen", "") == "language":
                break
            await pilot.press("down")
        await pilot.press("enter", "enter")  # en, then xx: the order of the languages
        for _ in range(3):
            if app.settings.language != "xx":
                await pilot.press("enter")
        assert app.settings.language == "xx"
        assert untold(text_of(app), str(tmp_path)) == []
        await pilot.press("escape")
        await pilot.pause()
        assert untold(text_of(app)) == []
        assert len(session.state.done) == did
        app.change_setting("language", "en")
        await pilot.pause()
        assert text_of(app) == before


# A translation


def parts() -> list[type]:
    """All classes of words that a language has."""
    made = Phrases()
    found = [English, Phrases]
    for name, value in said_by(Phrases).items():
        if isinstance(value, cached_property):
            found.append(type(getattr(made, name)))
    return found


def gives_text(method: object) -> bool:
    try:
        gives = str(inspect.signature(method).return_annotation)  # type: ignore[arg-type]
    except (TypeError, ValueError):
        return False
    return "str" in gives or "Said" in gives


def not_translated(code: str) -> list[str]:
    """What a language has not said in its own words."""
    made = phrases_for(code)
    theirs: list[type] = [words_for(code)]
    missing = []
    for name, value in said_by(Phrases).items():
        if isinstance(value, cached_property):
            part = type(getattr(made, name))
            theirs.append(part)
            if part.__module__.startswith("model.language.english"):
                missing.append(name)
    for each in theirs:
        for name, value in said_by(each).items():
            method = value.__func__ if isinstance(value, staticmethod) else value
            if gives_text(method) and getattr(each, name) is getattr(
                next(e for e in each.__mro__ if e.__module__.startswith("model.language.english")),
                name,
            ):
                missing.append(f"{each.__name__}.{name}")
    return missing


@pytest.mark.parametrize("code", [*LANGUAGES, "xx"])
def test_a_language_says_everything_in_its_own_words(code: str) -> None:
    if code != USUAL:
        assert not_translated(code) == []
