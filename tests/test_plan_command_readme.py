"""What README prints of planning is what the command prints."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from model.planning.wanted import Choices
from model.planning.wanted_file import ListHead, SheetTable, WantTable
from model.planning.wanted_reading import read_wanted
from tests.test_json import printed
from tests.test_plan_command import dryfit

README = (Path(__file__).parent.parent / "README.md").read_text(encoding="utf-8")
SECTION = README[README.index("\n## Planning cuts\n") : README.index("\n## Cautions\n")]


def blocks(language: str) -> list[str]:
    return re.findall(rf"^```{language}\n(.*?)^```$", SECTION, re.MULTILINE | re.DOTALL)


def tables(part: str) -> list[set[str]]:
    """What the first columns of the tables under a heading name."""
    start = SECTION.index(f"\n### {part}\n")
    found: list[set[str]] = []
    for block in SECTION[start : SECTION.find("\n### ", start + 5)].split("\n\n"):
        if block.startswith("| "):
            rows = block.strip().split("\n")[2:]
            found.append(
                {key for row in rows for key in re.findall("`([^`]+)`", row.split("|")[1])}
            )
    return found


def test_the_example_is_what_the_command_prints(tmp_path: Path) -> None:
    """Where the search finds another plan that is as good, print that."""
    (example,) = blocks("toml")
    (shown,) = blocks("text")
    (tmp_path / "garden.toml").write_text(example, encoding="utf-8")
    done = dryfit("garden.toml", "--draw", home=tmp_path, COLUMNS="80")
    assert done.stdout == shown


def test_the_example_is_proved_in_what_weighs_most() -> None:
    (shown,) = blocks("text")
    for figure in ("sheets", "scraps", "cuts"):
        assert re.search(rf"^{figure} +\d+  proved least$", shown, re.MULTILINE)


def test_the_keys_of_a_wanted_list_are_all_named_and_no_other() -> None:
    head, sheet, want = tables("A wanted list")
    assert head == set(ListHead.model_fields)
    assert sheet == set(SheetTable.model_fields)
    assert want == set(WantTable.model_fields)


def test_a_list_is_read_where_a_key_is_left_out_as_is_said() -> None:
    (example,) = blocks("toml")
    wanted, findings = read_wanted(example, "garden", Choices())
    assert wanted is not None and findings == ()
    assert all(w.turnable and w.value is None and not w.smaller_by for w in wanted.task.wants)


def test_the_options_are_those_of_the_command(tmp_path: Path) -> None:
    (named,) = tables("Options")
    said = dryfit("--help", home=tmp_path, COLUMNS="200").stdout
    assert {each.split()[0] for each in named} == set(re.findall(r"--\w+", said)) - {"--help"}


@pytest.mark.parametrize("args", [["plan", "postcard", "--work", "1000"]])
def test_the_keys_of_json_are_all_named(args: list[str], tmp_path: Path) -> None:
    _, data = printed(*args, home=tmp_path)
    row = next(line for line in README.split("\n") if line.startswith("| `plan` |"))
    assert re.findall(r"`(\w+)`", row)[1:] == list(data)
    text = SECTION[SECTION.index("With `--json` a length") :]
    for key in (*data["figures"], "value", "least", "x", "y", "role", "findings"):
        assert f"`{key}`" in text
