"""What README prints is true: its kits can be cut, its commands and keys are there."""

from __future__ import annotations

import re
import shlex
import subprocess
import sys
import tomllib
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

import tui.screens.account
import tui.screens.miscut
import tui.screens.pockets
import tui.screens.settings
import tui.screens.shelf
import tui.screens.warnings
from model.kit import Verb
from model.kitfile import VERBS
from model.kitschema import kit_schema
from model.reading import read_kit
from model.settings import Settings
from tests.screens import begun, table, text_of
from tui import table_commands
from tui.commands import EVERYWHERE, Command

ROOT = Path(__file__).resolve().parent.parent
README = (ROOT / "README.md").read_text(encoding="utf-8")
SCHEMA = kit_schema()
_REFERENCE = README[README.index("## Writing a kit") : README.index("### Limits")]


def blocks(language: str) -> list[str]:
    """The blocks of code in a language."""
    return re.findall(rf"^```{language}\n(.*?)^```$", README, re.MULTILINE | re.DOTALL)


def rows(text: str) -> list[list[str]]:
    """The rows of all tables in a text, cell by cell, without the headings."""
    found: list[list[str]] = []
    lines = text.split("\n")
    for number, line in enumerate(lines):
        if line.startswith("|") and not line.startswith("| ---"):
            if number + 1 < len(lines) and lines[number + 1].startswith("| ---"):
                continue  # a heading
            found.append([cell.strip() for cell in line.strip("|").split(" | ")])
    return found


def section(title: str) -> str:
    """What stands under a heading, up to the next one."""
    start = README.index(f"{title}\n")
    end = re.compile(r"^#{2,3} ", re.MULTILINE).search(README, start + len(title))
    return README[start : end.start() if end else len(README)]


def ticked(cell: str) -> list[str]:
    return re.findall(r"`([^`]+)`", cell)


# The kits


KITS = [block for block in blocks("toml") if "[[step]]" in block]


def test_there_is_a_whole_kit_to_begin_with() -> None:
    assert KITS and all("dryfit = 1" in kit for kit in KITS)


@pytest.mark.parametrize("text", KITS)
def test_a_kit_that_is_printed_can_be_cut(text: str) -> None:
    got = read_kit(text)
    assert got.plan is not None and got.findings == (), [str(f) for f in got.findings]


@pytest.mark.parametrize("text", blocks("toml"))
def test_all_toml_that_is_printed_is_toml(text: str) -> None:
    tomllib.loads(text)


def test_what_check_says_of_a_broken_kit_is_what_it_says() -> None:
    """The findings printed as an example are those of such a kit, but for their lines."""
    (example,) = (block for block in blocks("text") if block.startswith("night-train.toml: "))
    text = """
        dryfit = 1
        title = "T"
        page = "12 x 12"
        pages = 2
        sheet = [
          { name = "A", face = "slatgray" },
          { name = "B", face = "navy" },
          { name = "C", face = "navy" },
        ]
        peice = [{ name = "x", to = 1 }]
        precut = [{ name = "m", face = "white", to = "page 3" }]
        [[step]]
        trim = "B"
        marks = ["7 1/2", 10]
        gives = "scrap"
        rest = "scrap"
        [[step]]
        trim = "C"
        marks = [6]
        gives = "scrap"
        rest = "scrap"
    """
    said = {str(f.at(0)) if f.grave else f"(remark) {f.at(0)}" for f in read_kit(text).findings}
    for line in example.strip().split("\n"):
        told = re.sub(r"^night-train\.toml: (?:line \d+: )?", "", line)
        assert told in said, said


# The reference


def _keys(name: str) -> set[str]:
    """The keys of a table of the schema."""
    table: dict[str, Any] = SCHEMA["$defs"][name]
    if "properties" not in table:
        (table,) = (each for each in table["anyOf"] if each.get("type") == "object")
    return set(table["properties"])


def _named(title: str) -> set[str]:
    """The keys that the tables of a section name in their first column."""
    return {key for row in rows(section(title)) for key in ticked(row[0])}


_ARRAYS = {key for key, form in SCHEMA["properties"].items() if form.get("type") == "array"}


def test_the_reference_names_every_array_and_no_other() -> None:
    headings = re.findall(r"^### .*", _REFERENCE, re.MULTILINE)
    assert {name for line in headings for name in re.findall(r"\[\[(\w+)\]\]", line)} == _ARRAYS


def test_the_reference_names_every_key_at_the_top_and_no_other() -> None:
    assert _named("### The top of the file") == set(SCHEMA["properties"]) - _ARRAYS


@pytest.mark.parametrize(
    ("title", "name"),
    [
        ("### `[[pocket]]`: compartments", "PocketTable"),
        ("### `[[paper]]`: a paper that several things share", "PaperTable"),
        ("### `[[sheet]]`: a sheet as packed", "SheetTable"),
        ("### `[[piece]]`: a kind of piece cut from the sheets", "PieceTable"),
        ("### `[[ribbon]]`: ribbon or thread", "RibbonTable"),
        ("### `[[set_aside]]`: called for later", "SetAsideTable"),
    ],
)
def test_the_reference_names_every_key_of_a_table_and_no_other(title: str, name: str) -> None:
    keys = _keys(name)
    assert _named(title) == keys


def test_the_reference_of_what_is_packed_adds_to_that_of_pieces_and_paper() -> None:
    """Its text says that it takes their keys too."""
    own = _named("### `[[precut]]` and `[[embellishment]]`: packed ready made")
    pieces = _named("### `[[piece]]`: a kind of piece cut from the sheets")
    assert own | pieces == _keys("PackedTable")


def test_the_reference_of_a_step_names_every_verb_key_and_part_and_no_other() -> None:
    tables = re.split(r"\n\n", section("### `[[step]]`: one load, or one thing done by hand"))
    verbs, keys, parts = (
        {key for row in rows(each) for key in ticked(row[0])}
        for each in tables
        if each.startswith("|")
    )
    assert verbs == {*VERBS} == {verb.value for verb in Verb}
    assert verbs | keys == _keys("StepTable")
    assert parts == _keys("GiveTable")


def test_the_keys_of_each_verb_are_those_that_it_takes() -> None:
    """A step with a key that its verb does not take is refused, and says which it takes."""
    taken = {row[0].strip("`"): ticked(row[2]) for row in _verb_rows()}
    taken["knife"] = taken["trim"]  # the row says "the same"
    said = re.compile("it takes (.+)$")
    for verb, keys in taken.items():
        head = 'dryfit = 1\ntitle = "T"\npage = "12 x 12"\npages = 2\n'
        wrong = "edge" if verb != "tear" else "around"
        value = '"left"' if wrong == "edge" else '"x"'
        text = f'{head}[[step]]\n{verb} = "x"\n{wrong} = {value}\n'
        found = [said.search(f.remedy) for f in read_kit(text).findings]
        (listed,) = (match[1].split(", ") for match in found if match)
        assert listed[: len(keys)] == keys
        assert listed[len(keys) :] == ["optional", "wait", "tools", "needs", "caution", "note"]


def _verb_rows() -> Iterator[list[str]]:
    return (
        row
        for row in rows(section("### `[[step]]`: one load, or one thing done by hand"))
        if len(row) == 3 and row[0].strip("`") in VERBS
    )


def test_words_that_can_be_written_are_those_of_the_schema() -> None:
    """Where the second column lists words, the schema knows these and no others."""
    tables = {
        "### The top of the file": SCHEMA,
        "### `[[paper]]`: a paper that several things share": SCHEMA["$defs"]["PaperTable"],
        "### `[[sheet]]`: a sheet as packed": SCHEMA["$defs"]["SheetTable"],
        "### `[[piece]]`: a kind of piece cut from the sheets": SCHEMA["$defs"]["PieceTable"],
    }
    checked = 0
    for title, form in tables.items():
        for row in rows(section(title)):
            keys = ticked(row[0])
            words = form["properties"][keys[0]].get("enum", [])
            if words and len(keys) == 1:
                assert ticked(row[1]) == words, keys
                checked += 1
    assert checked >= 5


# The commands


def test_every_command_that_is_printed_exists(tmp_path: Path) -> None:
    listed = [each for row in rows(section("## Other commands")) for each in ticked(row[0])]
    printed = [line for block in blocks("sh") for line in block.strip().split("\n")]
    inline = re.findall(r"`((?:\.venv/bin/)?dryfit[^`]*)`", README)
    commands = set()
    for line in (*listed, *printed, *inline):
        for part in re.split(r"&&|>", line):
            words = shlex.split(part)
            if words and words[0].removeprefix(".venv/bin/") == "dryfit":
                commands.add(words[1] if len(words) > 1 else "")
    places = {"", "KIT", "SESSION", "night-train.toml", "postcard"}
    assert {"check", "sessions", "report", "schema", "--version"} <= commands
    for command in sorted(commands - places - {"="}):  # "dryfit = 1" is a line of a kit
        args = [command] if command.startswith("-") else [command, "--help"]
        done = _dryfit(*args, home=tmp_path)
        assert done.returncode == 0, (command, done.stderr)


def test_the_options_that_are_printed_exist(tmp_path: Path) -> None:
    assert "--ascii" in _dryfit("--help", home=tmp_path).stdout
    for command in ("check", "sessions", "report", "lines"):
        assert "--json" in _dryfit(command, "--help", home=tmp_path).stdout


def test_the_demo_kits_that_are_named_are_there() -> None:
    named = {row[0].strip("`") for row in rows(section("## Start"))}
    assert named == {path.stem for path in (ROOT / "kits").glob("*.toml")}


def _dryfit(*args: str, home: Path) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-m", "tui.command", *args],
        capture_output=True,
        text=True,
        encoding="utf-8",
        cwd=ROOT,
        check=False,
        stdin=subprocess.DEVNULL,
        env={"DRYFIT_HOME": str(home), "PATH": "/usr/bin:/bin", "COLUMNS": "200"},
    )


# The keys

_WRITTEN = {
    "escape": "Esc",
            "space": "Space", "enter": "Enter", "comma": ",", "question_mark": "?", "f1": "F1",
            "ctrl+q": "Ctrl+Q", "backspace": "Backspace"}  # fmt: skip


def test_the_table_of_keys_names_those_of_the_table_screen_and_no_other() -> None:
    named: set[str] = set()
    for row in rows(section("### Keys")):
        named |= {*re.split(r", | or | \.\.\. ", row[0])} if row[0] != "," else {","}
    digits = {"1", "9", "0"}
    assert digits <= named
    palette = {"Ctrl+P"}
    # Backspace clears a half typed number too, which the row of digits says.
    keys = {key for command in table_commands.COMMANDS for key in command.keys}
    keys -= {"backspace"}
    assert named - digits - palette == {_WRITTEN.get(key, key) for key in keys}
    assert "Backspace" in section("### Keys")


@pytest.mark.parametrize(
    ("commands", "title", "ids"),
    [
        (tui.screens.pockets.COMMANDS, "### Pockets and account", {"move", "count", "count_all"}),
        (tui.screens.account.COMMANDS, "### Pockets and account", {"save"}),
        (tui.screens.warnings.COMMANDS, "### Warnings", {"right", "leave"}),
        (
            tui.screens.miscut.COMMANDS,
            "### Something went wrong at the trimmer",
            {"take", "other"},
        ),
        (tui.screens.shelf.COMMANDS, "## Sessions", {"open", "path", "again"}),
        (tui.screens.settings.COMMANDS, "## Settings", {"change", "keys"}),
    ],
)
def test_the_keys_of_other_screens_are_named_where_they_are_told(
    commands: tuple[Command, ...], title: str, ids: set[str]
) -> None:
    """Each command of its own is named by one of its keys; the rest are those of every screen."""
    text = section(title)
    said = {*ticked(text), *re.findall(r"\b(?:Enter|Space)\b", text)}
    own = {command.id: command for command in commands}
    for name in ids:
        assert said & {_WRITTEN.get(key, key) for key in own[name].keys}, name
    everywhere = {command.id for command in EVERYWHERE}
    others = {"back", "settings", "undo", "next_pocket", "last_pocket"}
    assert own.keys() - ids <= everywhere | others


# The picture


async def test_the_table_that_is_shown_is_what_the_program_shows(tmp_path, monkeypatch) -> None:
    """The middle of ``harbour`` after 108 presses of one key, ten seconds each."""
    monkeypatch.setenv("DRYFIT_HOME", str(tmp_path))
    (shown,) = (block for block in blocks("text") if "filed / wanted" in block)
    session = begun("harbour", tmp_path, 108)
    async with table(session, (80, 24), Settings()) as (pilot, _):
        assert shown.rstrip("\n") == text_of(pilot.app).rstrip("\n")
