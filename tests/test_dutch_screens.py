"""Dutch on screens: all is said, nothing is cut, and the words are those that were meant."""

from __future__ import annotations

import re
import string
from collections.abc import Callable, Sequence
from datetime import timedelta
from pathlib import Path

import pytest
from rich.cells import cell_len

from model.keymap import Keymap
from model.language import LANGUAGES, phrases_for, words_for
from model.language.dutch import commands_lists as dutch_lists
from model.language.dutch import commands_table as dutch_table
from model.language.dutch import typed
from model.language.dutch.asking import COMMANDS as TYPED
from model.language.dutch.phrases import Phrases
from model.language.english import commands_lists, commands_table
from model.settings import Settings
from tests.plain_lines import Sitting
from tests.screens import begun, table, text_of
from tests.test_language import not_translated
from tui import parts, table_commands
from tui.commands import EVERYWHERE, Command, in_force
from tui.room import side_width
from tui.screens import (
    account,
    count,
    find,
    help,
    keys,
    miscut,
    miscut_pick,
    miscut_say,
    miscut_ways,
    pockets,
    settings,
    shelf,
    warnings,
)  # fmt: skip

DUTCH = Settings(language="nl")
NL: Phrases = phrases_for("nl")  # type: ignore[assignment]
ROOT = Path(__file__).resolve().parent.parent


@pytest.fixture(autouse=True)
def _home(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.setenv("DRYFIT_HOME", str(tmp_path / "home"))


def test_the_program_says_all_of_itself_in_dutch() -> None:
    sentences = f"{words_for('nl').__name__}."
    assert [each for each in not_translated("nl") if not each.startswith(sentences)] == []


@pytest.mark.parametrize(
    ("english", "dutch"),
    [
        (commands_table.COMMANDS, dutch_table.COMMANDS),
        (commands_lists.COMMANDS, dutch_lists.COMMANDS),
    ],
    ids=["table", "lists"],
)
def test_every_command_is_told_in_dutch(english, dutch) -> None:
    assert dutch.keys() == english.keys()
    for id, said in dutch.items():
        assert bool(said.label) == bool(english[id].label), id  # the same footers
        assert said.title or said.label, id
        assert re.fullmatch(r"[A-Z].*[^. ]\.", said.help) and said.help != english[id].help, id


def test_what_a_screen_is_for_names_the_same_keys() -> None:
    def fields(text: str) -> set[str | None]:
        return {name for _, name, _, _ in string.Formatter().parse(text) if name}

    assert dutch_lists.ABOUT.keys() == commands_lists.ABOUT.keys()
    for place, text in dutch_lists.ABOUT.items():
        assert fields(text) == fields(commands_lists.ABOUT[place]), place


# Room

FOOTERS: dict[str, Sequence[Command]] = {
    "table": table_commands.SHOWN,
    "narrow table": [each for each in table_commands.SHOWN if each.id != "pocket"],
    "shelf": shelf.COMMANDS,
    "pockets": pockets.COMMANDS,
    "account": account.COMMANDS,
    "warnings": warnings.COMMANDS,
    "count": count.COMMANDS,
    "find": find.COMMANDS,
    "settings": settings.COMMANDS,
    "miscut": miscut.COMMANDS,
    "pick": miscut_pick.COMMANDS,
    "say": miscut_say.COMMANDS,
    "ways": miscut_ways.COMMANDS,
    "keys": keys.COMMANDS,
    "help": help.COMMANDS,
}


@pytest.mark.parametrize("width", [60, 80, 120])
@pytest.mark.parametrize("place", FOOTERS)
def test_a_footer_has_room_for_as_much_as_in_english(place: str, width: int) -> None:
    def shown(code: str) -> tuple[list[str], str]:
        words = phrases_for(code).commands
        told = in_force(Keymap(), words, place.split()[-1], FOOTERS[place])
        (row,) = parts.footer(told, False, width)
        return [text.strip() for text, tone in row if tone == "key"], "".join(t for t, _ in row)

    keys_shown, text = shown("nl")
    assert set(shown("en")[0]) <= set(keys_shown)
    assert cell_len(text) <= width + 1  # the blank at the end may fall off


def _all_of(words: str, shown: str) -> bool:
    """Whether words stand in one row, and nothing is cut from them."""
    return any(re.search(rf"(?:^|\s){re.escape(words)}(?:\s|$)", row) for row in shown.split("\n"))


@pytest.mark.parametrize("size", [(80, 24), (60, 20)], ids=["80x24", "60x20"])
async def test_no_setting_is_cut(tmp_path, size) -> None:
    words = NL.settings
    async with table(begun("postcard", tmp_path), size, DUTCH) as (pilot, _):
        await pilot.press("comma")
        await pilot.pause()
        shown = text_of(pilot.app)
        await pilot.press("end")
        await pilot.pause()
        shown += "\n" + text_of(pilot.app)
    for key in settings._VALUES:
        label, about, _ = words.row(key, "c")
        assert cell_len(label) < 38, label  # where the value begins
        assert _all_of(label, shown) and _all_of(about, shown), key
    assert _all_of(words.no_place(), shown)


async def test_no_key_is_cut(tmp_path) -> None:
    async with table(begun("postcard", tmp_path), (80, 100), DUTCH) as (pilot, _):
        await pilot.press("comma", "k")
        await pilot.pause()
        shown = [text_of(pilot.app)]
        for _ in range(4):
            await pilot.press("pagedown")
            await pilot.pause()
            shown.append(text_of(pilot.app))
        keymap = pilot.app.whole_keymap()  # type: ignore[attr-defined]
    for act in keymap.acts.values():
        assert any(_all_of(act.said, each) for each in shown), act
    heads = [NL.keys.head(""), *(NL.keys.head(place.name) for place in keymap.places)]
    for head in heads:
        assert any(_all_of(head, each) for each in shown), head


@pytest.mark.parametrize("size", [(80, 24), (60, 20)], ids=["80x24", "60x20"])
@pytest.mark.parametrize(
    ("pressed", "title"),
    [
        ([], ""),
        (["k"], "Vakken: A Wet Weekend"),
        (["k", "c"], "Vak 1·2 tellen"),
        (["a"], "Stand tot nu toe: A Wet Weekend"),
        (["w"], "Waarschuwingen: 0"),
        (["f"], "Een stuk zoeken"),
        (["comma"], "Instellingen"),
        (["comma", "k"], "Toetsen"),
        (["question_mark"], "Hulp"),
        (["h"], "dryfit: de plank"),
    ],
    ids=lambda value: " ".join(value) if isinstance(value, list) else "",
)
async def test_no_label_of_a_footer_is_cut(tmp_path, size, pressed, title) -> None:
    async with table(begun("postcard", tmp_path), size, DUTCH) as (pilot, _):
        await pilot.press(*pressed)
        await pilot.pause()
        screen, shown = pilot.app.screen, text_of(pilot.app)
        (row,) = parts.footer(screen.shown_footer(), False, size[0])  # type: ignore[attr-defined]
        assert shown.split("\n")[-1] == "".join(text for text, _ in row).rstrip()
        assert not title or shown.split("\n")[0].strip() == title


def test_what_stands_at_the_side_fits() -> None:
    words, room = NL.table, side_width(80) - 2
    for title, what in (words.pockets_head(), words.pile_head(0), words.pile_head(99)):
        assert cell_len(f"{title}  {what}") <= room
    for text in (words.left_open(12), words.more_beneath(99), words.so_far(999)):
        assert cell_len(f"  {text}") <= room


# Word for word


@pytest.mark.parametrize(
    ("said", "wanted"),
    [
        (lambda: NL.table.left_open(1), "1 waarschuwing open"),
        (lambda: NL.table.left_open(2), "2 waarschuwingen open"),
        (
            lambda: NL.table.page_so_far("1", "0 - 2", True),
            "Pagina 1_: dan 0 - 2, of Enter; Backspace: nee.",
        ),
        (lambda: NL.table.page_so_far("1", "", True), "Pagina 1_: Enter; Backspace: nee."),
        (
            lambda: NL.table.answer_first("p", "l"),
            "Eerst de waarschuwing: p zet recht, l laat staan.",
        ),
        (lambda: NL.table.taken_back("r"), "Teruggenomen; r zegt het opnieuw."),
        (lambda: NL.table.taken_back("r", "x in 1·2"),
         "Teruggenomen: x in 1·2; r zegt het opnieuw."),
        (lambda: NL.table.pace(False), "Vanaf nu: berg na elke snede op."),
        (lambda: NL.shelf.how_far(0, 1, 0), "0 van 1 stap gedaan"),
        (lambda: NL.shelf.how_far(3, 9, 0), "3 van 9 stappen gedaan"),
        (lambda: NL.shelf.how_far(9, 9, 2), "alle 9 stappen gedaan, nog 2 op te bergen"),
        (lambda: NL.shelf.how_far(1, 1, 0), "de enige stap gedaan"),
        (lambda: NL.shelf.kit(1, False), "1 pagina"),
        (lambda: NL.shelf.kit(2, True), "2 pagina's, voorbeeld, verzonnen"),
        (lambda: NL.shelf.ago(timedelta(days=1)), "gisteren"),
        (lambda: NL.shelf.ago(timedelta(days=3)), "3 dagen geleden"),
        (lambda: NL.shelf.ago(timedelta(seconds=90)), "zojuist"),
        (lambda: NL.shelf.ago(timedelta(minutes=5)), "5 min geleden"),
        (lambda: NL.shelf.ago(timedelta(minutes=150)), "2 uur geleden"),
        (lambda: NL.lists.account_title(True, "X"), "Eindstaat: X"),
        (
            lambda: NL.lists.count_hint("Space", "f", "Enter"),
            "Space: het zit erin. f: er zit iets anders in. Enter: dat is alles.",
        ),
        (lambda: NL.measures.off("hair", True), "een haartje meer"),
        (lambda: NL.measures.off("nearly", False), "bijna een half streepje minder"),
        (lambda: NL.drawing.cut(True), "scheur"),
        (lambda: NL.settings.row("by_load", "c").help,
         "hoe nieuwe sessies beginnen; c wisselt aan tafel"),
        (lambda: NL.settings.value("yes"), "ja"),
        (lambda: NL.settings.value("1/16 in"), "1/16 in"),
        (lambda: NL.settings.milliseconds(0), "geen pauze"),
        (lambda: NL.keys.head("pockets"), "In de vakken"),
        (
            lambda: NL.keys.taken_by("s", "table", "Het is een restje"),
            's is aan tafel al in gebruik: "Het is een restje"',
        ),
        (
            lambda: NL.keys.stolen("ctrl+z"),
            "de terminal houdt die toets zelf: hij stuurt programma's naar de achtergrond",
        ),
        (lambda: NL.dialogs.entries_lost(1),
         "1 regel van de sessie was niet te begrijpen en telt niet mee."),
        (lambda: NL.dialogs.kit_unusable("a.toml", ["line 1: x"], 2),
         "a.toml is nog niet te gebruiken:\n\nline 1: x\n"
         "en nog 2; dryfit check noemt ze allemaal."),
    ],
)  # fmt: skip
def test_word_for_word(said: Callable[[], str], wanted: str) -> None:
    assert said() == wanted


@pytest.mark.parametrize("place", FOOTERS)
def test_keys_are_told_by_the_place_they_are_at(place: str) -> None:
    name = place.split()[-1]
    assert NL.keys.place(name) != phrases_for("en").keys.place(name)


# What is typed

HEARD = {"zoek": "find", "tel": "count", "tel alles": "count all", "terug": "undo",
         "stel in": "set", "ja": "yes", "restje": "scrap"}  # fmt: skip


@pytest.mark.parametrize(
    ("line", "wanted"),
    [
        ("", ""),
        ("terug", "undo"),
        ("Terug", "undo"),
        ("zoek 3 bij 8 Groen", "find 3 bij 8 Groen"),
        ("tel 3", "count 3"),
        ("TEL alles", "count all"),
        ("tel allesbehalve", "count allesbehalve"),
        ("zoeken 3", "zoeken 3"),
        ("restje blauw", "restje blauw"),  # a name that is looked for
        ("3", "3"),
        ("undo", "undo"),
        ("stel in by load ja", "set by load yes"),
        ("stel in units pakket", "set units kit"),
        ("stel in tearing ruler 3 in", "set tearing ruler 3 in"),
    ],
)
def test_a_line_is_heard(monkeypatch: pytest.MonkeyPatch, line: str, wanted: str) -> None:
    monkeypatch.setattr(typed, "COMMANDS", HEARD)
    assert NL.typed.heard(line) == wanted


def test_the_words_that_are_typed_mean_something(tmp_path) -> None:
    desk = Sitting(begun("postcard", tmp_path), language="nl").desk
    assert desk._with_words.keys() == typed.WITH_WORDS
    answers = {"yes", "no", "all", "back", "later", "stop", "cancel", "old", "new"}
    for dutch, english in TYPED.items():
        assert english in answers | desk._commands.keys() | desk._with_words.keys(), dutch
        assert dutch == " ".join(dutch.casefold().split()) != ""


def test_a_run_can_be_typed_in_dutch(tmp_path) -> None:
    sitting = Sitting(begun("postcard", tmp_path), language="nl")
    voice, hears = sitting.desk._voice, sitting.hears
    dutch = next(word for word, means in TYPED.items() if means == "undo")
    hears.write(f"\n{dutch}\n")
    hears.seek(0)
    done = len(sitting.session.state.done)
    sitting.desk.do(voice.hear() or "")
    assert len(sitting.session.state.done) == done + 1
    sitting.desk.do(voice.hear() or "")
    assert len(sitting.session.state.done) == done


# README


def test_readme_names_every_language() -> None:
    text = (ROOT / "README.md").read_text(encoding="utf-8")
    row = next(line for line in text.split("\n") if line.startswith("| Language |"))
    names = row.partition("one of: ")[2].partition(".")[0]
    assert names.split(", ") == [each.name for each in LANGUAGES.values()]
    for code in LANGUAGES:
        assert f"`set language {code}`" in text


def test_developers_lists_the_modules() -> None:
    text = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
    listed = text.partition("| files of `language/dutch/`")[2].partition("### `tui/`")[0]
    files = {path.name for path in (ROOT / "model/language/dutch").glob("*.py")}
    assert files - {"__init__.py"} <= set(re.findall(r"`(\w+\.py)`", listed))


def test_everywhere_has_its_words_from_the_table() -> None:
    told = in_force(Keymap(), NL.commands, "help", EVERYWHERE)
    assert [command.label for command in told] == ["hulp", "stop"]
