"""What each command prints for programs: JSON with the keys that README names, always."""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Any

import pytest

from tests.screens import begun
from tests.test_command import ROOT, dryfit
from tui.command import _SUBCOMMANDS

README = (ROOT / "README.md").read_text("utf-8")
TABLE = README[README.index("| command | what is printed with `--json`") :].split("\n\n")[0]
BROKEN = 'dryfit = 1\ntitle = "T"\npage = "12 x 12"\npages = 2\n[[sheet]]\nname = "A"\n'


def documented(command: str, part: int = 0) -> set[str]:
    """The keys that README names for a command; of a part after the word `each`."""
    row = next(line for line in TABLE.split("\n") if line.startswith(f"| `{command}` |"))
    parts = row.split("|")[2].split("each has")
    return set(re.findall(r"`(\w+)`", parts[part]))


def printed(*args: str, home: Path) -> tuple[int, Any]:
    done = dryfit(*args, "--json", home=home)
    assert "Traceback" not in done.stderr
    return done.returncode, json.loads(done.stdout)


def test_each_command_is_documented() -> None:
    assert set(re.findall(r"^\| `(\w+)` \|", TABLE, re.MULTILINE)) == set(_SUBCOMMANDS)


def test_kits(tmp_path: Path) -> None:
    (tmp_path / "kits").mkdir()
    (tmp_path / "kits" / "odd.toml").write_text("no kit", encoding="utf-8")
    code, kits = printed("kits", home=tmp_path)
    assert code == 0 and {kit["name"] for kit in kits} >= {"postcard", "harbour", "cards"}
    assert all(set(kit) == documented("kits", 1) for kit in kits)
    assert [kit["trouble"] != "" for kit in kits if not kit["demo"]] == [True]
    assert all(dryfit("check", kit["name"], home=tmp_path).returncode == 0
               for kit in kits if kit["demo"])  # fmt: skip


@pytest.mark.parametrize("sound", [True, False])
def test_check(sound: bool, tmp_path: Path) -> None:
    kit = tmp_path / "kit.toml"
    kit.write_text(BROKEN, encoding="utf-8")
    code, found = printed("check", "postcard" if sound else str(kit), home=tmp_path)
    assert set(found) == documented("check")
    assert (code, found["usable"]) == ((0, True) if sound else (1, False))
    if not sound:
        assert found["findings"]
        assert all(set(each) == documented("check", 1) for each in found["findings"])


def test_sessions_and_report(tmp_path: Path) -> None:
    assert printed("sessions", home=tmp_path) == (0, [])
    reports = []
    for keys in (0, 5, 100):
        folder = tmp_path / "sessions"
        folder.mkdir(exist_ok=True)
        session = begun("postcard", folder, min(keys, 5))
        while keys == 100 and not session.state.due().over:
            session.next()
        session.close()
        code, report = printed("report", str(session.path), home=tmp_path)
        assert set(report) == documented("report")
        assert code == (0 if keys == 100 else 1)
        reports.append(report)
    assert [report["finished"] for report in reports] == [False, False, True]
    code, sessions = printed("sessions", home=tmp_path)
    assert code == 0 and len(sessions) == 3
    assert all(set(session) == documented("sessions", 1) for session in sessions)


def test_the_schema_is_the_same_with_and_without_it(tmp_path: Path) -> None:
    code, schema = printed("schema", home=tmp_path)
    assert code == 0 and schema == json.loads(dryfit("schema", home=tmp_path).stdout)
    assert "$defs" in schema


@pytest.mark.parametrize(
    ("args", "code"), [(("check", "no such"), 2), (("report", "no such.toml"), 1)]
)
def test_what_nothing_came_of_is_an_object_with_the_error(
    args: tuple[str, ...], code: int, tmp_path: Path
) -> None:
    got, said = printed(*args, home=tmp_path)
    assert got == code and set(said) == {"error"} and said["error"]


def test_lines_that_can_not_begin_are_an_object_too(tmp_path: Path) -> None:
    code, said = printed("lines", "no such", home=tmp_path)
    assert code == 2 and set(said) == {"kind", "text"} and said["kind"] == "trouble"
