"""Reading a kit ahead in a process of its own gives what reading it in place gives."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
from pathlib import Path

import pytest

from model import ahead
from model.ahead import ReadAhead
from model.finding import KitError
from model.folders import demo_folder
from model.reading import load_kit, read_kit
from model.session import Session
from tests.big_kits import big_kit

DEMOS = sorted(demo_folder().glob("*.toml"))
needs_fork = pytest.mark.skipif(sys.platform == "win32", reason="no fork there")


@pytest.fixture
def never_here(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """What was read in this process after all."""
    here: list[str] = []

    def read(text: str):  # type: ignore[no-untyped-def]
        here.append(text)
        return read_kit(text)

    monkeypatch.setattr(ahead, "_processors", lambda: 2)
    monkeypatch.setattr(ahead, "read_kit", read)
    return here


@needs_fork
@pytest.mark.parametrize("path", DEMOS, ids=lambda path: path.stem)
def test_a_kit_comes_as_it_would_in_place(path: Path, never_here: list[str]) -> None:
    reader = ReadAhead(path)
    assert load_kit(path, reader.read) == load_kit(path)
    assert never_here == []


@needs_fork
def test_a_kit_larger_than_a_pipe_holds(tmp_path: Path, never_here: list[str]) -> None:
    path = tmp_path / "large.toml"
    path.write_text(big_kit(1_000), encoding="utf-8")
    got = load_kit(path, ReadAhead(path).read)
    assert never_here == []
    assert got == load_kit(path)


@needs_fork
def test_all_that_is_wrong_with_a_kit_comes_too(tmp_path: Path, never_here: list[str]) -> None:
    path = tmp_path / "broken.toml"
    path.write_bytes(b'dryfit = 1\r\ntitle = "Broken"\r\npages = "many"\r\n')
    got = load_kit(path, ReadAhead(path).read)
    assert never_here == []
    assert got.plan is None
    assert got == load_kit(path)


@needs_fork
def test_the_kit_of_a_session_is_read_from_the_session(
    tmp_path: Path, never_here: list[str]
) -> None:
    kit = DEMOS[0]
    session = Session.start(load_kit(kit), kit, tmp_path)
    while session.said < 20:
        session.next()
    path = session.path
    assert path is not None
    session.close()
    again = Session.resume(path, read=ReadAhead(path).read)
    assert never_here == []
    assert again.plan == session.plan
    assert again.state.done == session.state.done
    again.close()


@needs_fork
def test_another_text_is_read_in_place(never_here: list[str]) -> None:
    reader = ReadAhead(DEMOS[0])
    text = DEMOS[1].read_text("utf-8")
    assert reader.read(text) == read_kit(text)
    assert never_here == [text]
    reader.close()


@needs_fork
@pytest.mark.parametrize("name", ["nowhere.toml", "."])
def test_a_file_that_cannot_be_read_is_told_here(
    tmp_path: Path, name: str, never_here: list[str]
) -> None:
    with pytest.raises(KitError):
        load_kit(tmp_path / name, ReadAhead(tmp_path / name).read)


@needs_fork
def test_what_the_other_process_could_not_finish_is_read_in_place(
    tmp_path: Path, never_here: list[str]
) -> None:
    path = tmp_path / "large.toml"
    path.write_text(big_kit(3_000), encoding="utf-8")
    reader = ReadAhead(path)
    os.kill(reader._process, signal.SIGKILL)
    text = path.read_text("utf-8")
    got = reader.read(text)
    assert never_here == [text]
    assert got.plan is not None


@needs_fork
def test_closing_early_leaves_no_process(tmp_path: Path, never_here: list[str]) -> None:
    path = tmp_path / "large.toml"
    path.write_text(big_kit(3_000), encoding="utf-8")
    reader = ReadAhead(path)
    process = reader._process
    reader.close()
    with pytest.raises(ProcessLookupError):
        os.kill(process, 0)
    reader.close()


def test_with_one_processor_nothing_is_started(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(ahead, "_processors", lambda: 1)
    reader = ReadAhead(DEMOS[0])
    assert not reader._process
    text = DEMOS[0].read_text("utf-8")
    assert reader.read(text) == read_kit(text)


@needs_fork
def test_a_program_that_reads_ahead_loads_no_models_itself() -> None:
    code = (
        "import sys\nfrom pathlib import Path\nfrom model import ahead\n"
        "from model.reading import load_kit\nfrom model.session import Session\n"
        "ahead._processors = lambda: 2\n"
        f"path = Path({str(DEMOS[0])!r})\n"
        "read = load_kit(path, ahead.ReadAhead(path).read)\n"
        "assert Session.start(read, path, None).next().taken\n"
        "print('pydantic' in sys.modules)"
    )
    root = Path(__file__).resolve().parent.parent
    done = subprocess.run(
        [sys.executable, "-c", code], cwd=root, capture_output=True, text=True, check=True
    )
    assert done.stdout.strip() == "False"
