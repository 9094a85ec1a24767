"""`dryfit plan`, run as an author or a script would run it."""

from __future__ import annotations

import json
import os
import pty
import re
import select
import signal
import subprocess
import sys
import time
import tomllib
from collections.abc import Sequence
from fractions import Fraction
from pathlib import Path

import pytest

from model.reading import read_kit

ROOT = Path(__file__).resolve().parent.parent
LIST = (
    '[[sheet]]\nname = "oak"\nsize = "12 x 12"\ncount = 2\n'
    '[[want]]\nname = "mat"\nsize = "4 x 6"\ncount = 4\n'
    '[[want]]\nname = "strip"\nsize = "1 x 12"\ncount = 2\n'
)
# Pieces of which nothing short can prove the fewest sheets: the search takes all its time.
HARD = '[[sheet]]\nname = "oak"\nsize = "12 x 12"\ncount = 60\n' + "".join(
    f'[[want]]\nname = "p{n}"\nsize = "{2 + n % 5} {n % 16}/16 x {2 + n * 7 % 6} {n * 3 % 16}/16"\n'
    "count = 3\n"
    for n in range(40)
)


def environment(home: Path, **more: str) -> dict[str, str]:
    return {"DRYFIT_HOME": str(home), "PATH": os.environ["PATH"], "PYTHONPATH": str(ROOT), **more}


def command(*args: str) -> list[str]:
    return [sys.executable, "-m", "tui.command", "plan", *args]


def dryfit(*args: str, home: Path, **more: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        command(*args), capture_output=True, encoding="utf-8", cwd=home, check=False,
        stdin=subprocess.DEVNULL, env=environment(home, **more), timeout=120,
    )  # fmt: skip


def written(folder: Path, text: str) -> str:
    path = folder / "list.toml"
    path.write_text(text, encoding="utf-8")
    return str(path)


def test_a_list_is_planned_as_a_table(tmp_path: Path) -> None:
    done = dryfit(written(tmp_path, LIST), home=tmp_path)
    assert (done.returncode, done.stderr) == (0, "")
    assert done.stdout.startswith("list: 6 pieces from 1 sheet; lengths in inches\n\nload ")
    assert re.search(r"^sheets +1  proved least$", done.stdout, re.MULTILINE)
    assert re.search(r"^scraps +1  proved least$", done.stdout, re.MULTILINE)
    assert re.search(r"^cuts +6  proved least$", done.stdout, re.MULTILINE)


def test_the_same_work_gives_the_same_plan(tmp_path: Path) -> None:
    path = written(tmp_path, HARD)
    one, two = (dryfit(path, "--work", "20000", "--json", home=tmp_path).stdout for _ in range(2))
    assert json.loads(one)["ended"] == "done"
    assert one == two


def test_toml_of_a_list_is_a_kit(tmp_path: Path) -> None:
    done = dryfit(written(tmp_path, LIST), "--toml", home=tmp_path)
    got = read_kit(done.stdout)
    assert got.plan is not None and got.findings == ()
    assert sum(got.plan.wanted) == 6


def test_json_has_lengths_exactly_in_both_ways(tmp_path: Path) -> None:
    done = dryfit(written(tmp_path, LIST), "--json", home=tmp_path)
    data = json.loads(done.stdout)
    assert list(data) == [
        "title", "unit", "graduation", "ended", "proved", "figures", "yours", "better", "missing",
        "sheets", "idle", "left_alone", "loads", "parts",
    ]  # fmt: skip
    assert data["graduation"] == {"text": "1/16", "mm": "127/80"}
    assert data["figures"]["sheets"] == {"value": 1, "least": 1, "proved": True}
    assert data["idle"] == ["oak"]
    parts = {part["part"]: part for part in data["parts"]}
    roles = [part["role"] for part in parts.values()]
    assert (roles.count("sheet"), roles.count("piece"), roles.count("scrap")) == (1, 6, 1)
    (sheet,) = data["sheets"]
    area = sum(
        Fraction(piece["width"]["mm"]) * Fraction(piece["height"]["mm"])
        for piece in sheet["pieces"]
    )
    assert area == Fraction(sheet["size"][0]["mm"]) * Fraction(sheet["size"][1]["mm"])
    for load in data["loads"]:
        assert len(load["gives"]) == len(load["marks"])
        for mark in load["marks"]:
            assert Fraction(mark["mm"]) == sum(map(Fraction, mark["text"].split())) * Fraction(
                127, 5
            )


@pytest.mark.parametrize("kit", ["postcard", "harbour", "cards"])
def test_demo_kits_are_compared_with_their_own_steps(kit: str, tmp_path: Path) -> None:
    done = dryfit(kit, "--time", "2", home=tmp_path)
    assert done.returncode == 0, done.stderr
    assert "Your steps: " in done.stdout and "; planned: " in done.stdout
    data = json.loads(dryfit(kit, "--work", "100000", "--json", home=tmp_path).stdout)
    assert data["yours"]["sheets"] == data["figures"]["sheets"]["value"]
    assert data["better"] in ("plan", "same", "yours")


def test_a_piece_that_cannot_be_had_is_named_with_its_page(tmp_path: Path) -> None:
    text = (
        'dryfit = 1\ntitle = "T"\npage = "12 x 12"\npages = 4\n'
        '[[sheet]]\nname = "A"\nface = "navy"\n'
        '[[piece]]\nname = "mat"\nsize = "7 x 7"\nto = "1 to page 1, 1 to 3·4"\n'
    )
    done = dryfit(written(tmp_path, text), home=tmp_path)
    assert done.returncode == 1
    assert "MISSING: 1 of 2 mat, for page 1 (1·2) or pocket 3·4" in done.stdout
    data = json.loads(dryfit(written(tmp_path, text), "--json", home=tmp_path).stdout)
    assert data["missing"] == [
        {"name": "mat", "count": 1, "wanted": 2, "must": True,
         "for": [{"pocket": "1·2", "page": 1}, {"pocket": "3·4", "page": None}]}
    ]  # fmt: skip


def test_a_piece_that_need_not_be_had_may_be_missing(tmp_path: Path) -> None:
    text = (
        '[[sheet]]\nname = "A"\nsize = "6 x 6"\n[[want]]\nname = "must"\nsize = "6 x 4"\n'
        '[[want]]\nname = "may"\nsize = "6 x 3"\nvalue = 9\n'
    )
    done = dryfit(written(tmp_path, text), home=tmp_path)
    assert done.returncode == 0
    assert "MISSING: 1 of 1 may" in done.stdout


def test_fewer_sheets_are_not_ruled_out_where_pieces_may_be_smaller(tmp_path: Path) -> None:
    """Two mats of 6 in come out of one sheet; they may be that small, and are planned larger."""
    text = '[[sheet]]\nname = "oak"\nsize = "12 x 12"\ncount = 2\n' + (
        '[[want]]\nname = "mat"\nsize = "6 1/8 x 12"\ncount = 2\n'
    )
    for more, least in (("", 2), ('smaller_by = "1/4"\n', 1)):
        done = dryfit(written(tmp_path, text + more), "--json", home=tmp_path)
        sheets = json.loads(done.stdout)["figures"]["sheets"]
        assert (sheets["least"], sheets["proved"]) == (least, sheets["value"] == least)


def test_what_is_wrong_is_told_and_the_exit_code_is_one(tmp_path: Path) -> None:
    path = written(tmp_path, LIST.replace("4 x 6", "4 x 16"))
    done = dryfit(path, home=tmp_path)
    assert (done.returncode, done.stdout) == (1, "")
    assert done.stderr.startswith(f'{path}: line 5: "mat" measures 4 x 16 in, more than any sheet')
    data = json.loads(dryfit(path, "--json", home=tmp_path).stdout)
    assert data["error"].endswith("can't be planned")
    assert [(f["code"], f["line"], f["grave"]) for f in data["findings"]] == [
        ("too-large", 5, True)
    ]


def test_a_session_is_no_kit(tmp_path: Path) -> None:
    path = written(tmp_path, "[session]\nversion = 1\n")
    done = dryfit(path, home=tmp_path)
    assert (done.returncode, done.stdout) == (1, "")
    assert done.stderr == f"{path}: this is a session; name the kit that it began with\n"


def test_what_is_no_file_of_dryfit_at_all(tmp_path: Path) -> None:
    for data in (b"\xff\xfe\x00", b"[[want", b"\x00" * 1000, b"a = " + b"[" * 5000):
        path = tmp_path / "odd.toml"
        path.write_bytes(data)
        done = dryfit(str(path), home=tmp_path)
        assert (done.returncode, done.stdout) == (1, "")
        assert done.stderr.startswith(f"{path}: line 1: ")


@pytest.mark.parametrize(
    ("args", "said"),
    [
        (["no-such-file"], "there is no kit or session 'no-such-file'"),
        (["LIST", "--graduation", "foo"], "--graduation: 'foo' has no number"),
        (["LIST", "--narrowest", "3 yards"], "--narrowest: "),
        (["LIST", "--time", "0"], "must be more than 0"),
        (["LIST", "--time", "soon"], "'soon' is no number of seconds"),
        (["LIST", "--time", "nan"], "must be more than 0"),
        (["LIST", "--work", "-3"], "is no whole number"),
        (["LIST", "--json", "--toml"], "not allowed with"),
        ([], "the following arguments are required"),
    ],
)
def test_arguments_that_are_wrong_are_told_and_the_exit_code_is_two(
    args: Sequence[str], said: str, tmp_path: Path
) -> None:
    path = written(tmp_path, LIST)
    done = dryfit(*(path if arg == "LIST" else arg for arg in args), home=tmp_path)
    assert (done.returncode, done.stdout) == (2, "")
    assert said in done.stderr


def test_options_go_before_the_file(tmp_path: Path) -> None:
    path = written(tmp_path, LIST.replace("4 x 6", "4 1/16 x 6"))
    assert dryfit(path, home=tmp_path).returncode == 0
    done = dryfit(path, "--graduation", "1/8", home=tmp_path)
    assert done.returncode == 1 and "not on the graduation of 1/8 in" in done.stderr
    metric = written(tmp_path, 'unit = "mm"\n[[sheet]]\nname = "a"\nsize = "210 x 297"\n'
                     '[[want]]\nname = "b"\nsize = "100 x 100.5"\n')  # fmt: skip
    assert dryfit(metric, home=tmp_path).returncode == 1
    assert dryfit(metric, "--graduation", "0.5", home=tmp_path).returncode == 0


def test_ascii_is_ascii_and_no_colour_is_ever_printed(tmp_path: Path) -> None:
    done = dryfit("harbour", "--ascii", "--draw", "--work", "50000", home=tmp_path)
    assert done.stdout.isascii() and "\x1b" not in done.stdout and "strip 1 (6 x 12)" in done.stdout
    fine = dryfit("harbour", "--draw", "--work", "50000", home=tmp_path, NO_COLOR="1")
    assert "\x1b" not in fine.stdout and "┌" in fine.stdout


@pytest.mark.parametrize("columns", [20, 60, 80, 120])
def test_no_row_is_wider_than_the_terminal(columns: int, tmp_path: Path) -> None:
    done = dryfit("harbour", "--draw", "--work", "50000", home=tmp_path, COLUMNS=str(columns))
    widest = max(done.stdout.split("\n"), key=len)
    assert len(widest) <= columns, widest


def test_it_speaks_dutch(tmp_path: Path) -> None:
    done = dryfit("postcard", "--draw", "--work", "50000", home=tmp_path, LANG="nl_NL.UTF-8")
    assert "Jouw stappen: 2 vellen, 7 sneden, 1 restje" in done.stdout
    assert "Vel umbrellas, 8 × 8 in" in done.stdout


def test_it_loads_no_textual(tmp_path: Path) -> None:
    code = (
        "import sys; from tui.command import main; main(['plan', 'postcard', '--draw'])\n"
        "print(sorted({m.split('.')[0] for m in sys.modules} & {'textual', 'rich'}))"
    )
    done = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, encoding="utf-8", cwd=ROOT,
        env=environment(tmp_path), check=False,
    )  # fmt: skip
    assert done.stdout.endswith("[]\n"), done.stderr


def test_the_time_is_kept(tmp_path: Path) -> None:
    path = written(tmp_path, HARD)
    start = time.monotonic()
    done = dryfit(path, "--time", "0.5", "--json", home=tmp_path)
    assert time.monotonic() - start < 10
    assert json.loads(done.stdout)["ended"] in ("time", "done")


# At a terminal


def read_until(fd: int, what: bytes, seconds: float = 30) -> bytes:
    seen, end = b"", time.monotonic() + seconds
    while what not in seen:
        assert time.monotonic() < end, seen
        if select.select([fd], [], [], 0.1)[0]:
            try:
                seen += os.read(fd, 65536)
            except OSError:
                break
    return seen


@pytest.mark.skipif(sys.platform == "win32", reason="no pseudo-terminals there")
def test_ctrl_c_takes_the_best_plan_so_far(tmp_path: Path) -> None:
    path = written(tmp_path, HARD)
    main, other = pty.openpty()
    out = tmp_path / "out"
    with out.open("wb") as file:
        process = subprocess.Popen(
            command(path, "--time", "60"), stdin=subprocess.DEVNULL, stdout=file, stderr=other,
            env=environment(tmp_path, COLUMNS="80"), cwd=tmp_path, start_new_session=True,
        )  # fmt: skip
        os.close(other)
        try:
            seen = read_until(main, b"Ctrl+C takes that")
            assert b"planning, 0 s: " in seen or b"planning, " in seen
            process.send_signal(signal.SIGINT)
            assert process.wait(20) == 0
        finally:
            process.kill()
            os.close(main)
    text = out.read_text(encoding="utf-8")
    assert text.startswith("list: 120 pieces from ")
    assert text.endswith("Stopped: this is the best plan so far.\n")


def test_nothing_of_progress_is_said_where_nobody_watches(tmp_path: Path) -> None:
    done = dryfit(written(tmp_path, HARD), "--time", "1.5", "--toml", home=tmp_path)
    assert done.stderr == ""
    tomllib.loads(done.stdout)
