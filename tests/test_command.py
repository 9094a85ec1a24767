"""The command line, run as a person or a script would run it."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

from tests.screens import begun

ROOT = Path(__file__).resolve().parent.parent


def dryfit(*args: str, home: Path) -> subprocess.CompletedProcess[str]:
    """Runs the command without a terminal."""
    return subprocess.run(
        [sys.executable, "-m", "tui.command", *args],
        capture_output=True,
        text=True,
        encoding="utf-8",
        cwd=ROOT,
        check=False,
        stdin=subprocess.DEVNULL,
        env={"DRYFIT_HOME": str(home), "PATH": "/usr/bin:/bin", "LC_ALL": "C"},
    )


def test_the_version_is_said(tmp_path):
    done = dryfit("--version", home=tmp_path)
    assert done.returncode == 0
    assert done.stdout.startswith("dryfit ")


@pytest.mark.parametrize("kit", ["postcard", "harbour", "cards"])
def test_the_demo_kits_are_sound(tmp_path, kit):
    done = dryfit("check", kit, home=tmp_path)
    assert done.returncode == 0, done.stdout
    assert "steps" in done.stdout and "scrap" in done.stdout


def test_a_broken_kit_is_told_with_line_and_remedy(tmp_path):
    kit = tmp_path / "kit.toml"
    kit.write_text(
        'dryfit = 1\ntitle = "T"\npage = "12 x 12"\npages = 2\n\n[[sheet]]\nname = "A"\n'
        'face = "navy"\n\n[[step]]\ntrim = "A"\nmarks = ["7 1/4", 10]\n'
        'gives = ["scrap", "scrap"]\nrest = "scrap"\n',
        encoding="utf-8",
    )
    done = dryfit("check", str(kit), home=tmp_path)
    assert done.returncode == 1
    assert "line 12: mark 10 in comes after 7" in done.stdout
    assert "marks go down in one load" in done.stdout
    assert "Traceback" not in done.stdout + done.stderr


def test_findings_can_be_read_by_a_program(tmp_path):
    kit = tmp_path / "kit.toml"
    kit.write_text("dryfit = 1\ntitle = \n", encoding="utf-8")
    done = dryfit("check", str(kit), "--json", home=tmp_path)
    assert done.returncode == 1
    data = json.loads(done.stdout)
    assert data["usable"] is False
    assert data["findings"][0]["line"] == 2


def test_a_kit_that_is_not_there(tmp_path):
    done = dryfit("no-such-kit", home=tmp_path)
    assert done.returncode == 2
    assert "no-such-kit" in done.stderr


def test_without_a_terminal_the_table_says_so(tmp_path):
    done = dryfit("postcard", home=tmp_path)
    assert done.returncode == 2
    assert "terminal" in done.stderr


def test_sessions_and_their_report(tmp_path):
    session = begun("postcard", tmp_path / "sessions", 9)
    path = session.path
    session.close()
    assert path is not None
    listed = dryfit("sessions", "--json", home=tmp_path)
    rows = json.loads(listed.stdout)
    assert [row["kit"] for row in rows] == ["A Wet Weekend"]
    assert 0 < rows[0]["done"] < rows[0]["steps"]
    report = dryfit("report", str(path), home=tmp_path)
    assert report.returncode == 1  # not finished yet
    assert "The run is not finished yet." in report.stdout
    data = json.loads(dryfit("report", str(path), "--json", home=tmp_path).stdout)
    assert data["finished"] is False
    assert data["scraps"]["expected"] == 1


def test_a_session_that_is_no_session(tmp_path):
    path = tmp_path / "x.toml"
    path.write_text("a = 1\n", encoding="utf-8")
    done = dryfit("report", str(path), home=tmp_path)
    assert done.returncode == 1
    assert "Traceback" not in done.stderr
    assert str(path) in done.stderr


@pytest.mark.parametrize(
    "args",
    [["schema"], ["check", "harbour"], ["check", "cards", "--json"], ["sessions", "--json"],
     ["report", "SESSION"], ["report", "SESSION", "--json"], ["--version"], ["--help"],
     ["check", "--help"]],
)  # fmt: skip
@pytest.mark.parametrize("unbuffered", ["", "1"])
def test_a_reader_that_goes_away_ends_it_quietly(tmp_path, args, unbuffered):
    session = begun("postcard", tmp_path / "sessions", 9)
    session.close()
    reader, writer = os.pipe()
    os.close(reader)  # as with "| head", which ends once it has its lines
    try:
        done = subprocess.run(
            [sys.executable, "-m", "tui.command",
             *(str(session.path) if arg == "SESSION" else arg for arg in args)],
            stdout=writer,
            stderr=subprocess.PIPE,
            stdin=subprocess.DEVNULL,
            cwd=ROOT,
            check=False,
            env={"DRYFIT_HOME": str(tmp_path), "PATH": "/usr/bin:/bin", "LC_ALL": "C",
                 "PYTHONUNBUFFERED": unbuffered},
        )  # fmt: skip
    finally:
        os.close(writer)
    assert done.stderr == b""
    # What a shell says of SIGPIPE, number 13 (POSIX); argparse itself forgives unwritten help.
    assert done.returncode in ((141, 0) if "--help" in args else (141,))


def test_a_complaint_that_nobody_reads_ends_it_quietly(tmp_path):
    reader, writer = os.pipe()
    os.close(reader)
    try:
        done = subprocess.run(
            [sys.executable, "-m", "tui.command", "no-such-kit"],
            stdout=subprocess.PIPE,
            stderr=writer,
            stdin=subprocess.DEVNULL,
            cwd=ROOT,
            check=False,
            env={"DRYFIT_HOME": str(tmp_path), "PATH": "/usr/bin:/bin"},
        )
    finally:
        os.close(writer)
    assert (done.stdout, done.returncode) == (b"", 141)


def test_the_schema_is_printed(tmp_path):
    done = dryfit("schema", home=tmp_path)
    assert done.returncode == 0
    schema = json.loads(done.stdout)
    assert "step" in schema["properties"]
