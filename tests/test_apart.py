"""Work in a process of its own: what comes of it, and that nothing stays behind."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import threading
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from model import apart
from model.apart import Apart
from tests import apart_work as work

ROOT = Path(__file__).parent.parent
posix = pytest.mark.skipif(sys.platform == "win32", reason="processes are asked for otherwise")


def until(what: Callable[[], object], seconds: float = 20) -> None:
    end = time.monotonic() + seconds
    while not what():
        assert time.monotonic() < end, "it did not come"
        time.sleep(0.005)


def alive(pid: int) -> bool:
    """Whether a process is there, were it a zombie."""
    try:
        os.kill(pid, 0)
    except ProcessLookupError:
        return False
    return True


def pid_in(path: Path) -> int:
    until(lambda: path.exists() and path.read_text())
    return int(path.read_text())


class Heard:
    """What was told, and in what order."""

    def __init__(self) -> None:
        self.all: list[Any] = []
        self.end: list[str | None] = []
        self.threads: set[threading.Thread] = set()

    def told(self, value: Any) -> None:
        self.threads.add(threading.current_thread())
        self.all.append(value)

    def ended(self, why: str | None) -> None:
        self.end.append(why)


def test_values_come_in_order_and_then_the_end() -> None:
    heard = Heard()
    with Apart(work.counted, 1000, told=heard.told, ended=heard.ended) as one:
        until(lambda: heard.end)
        assert heard.all == list(range(1000))
        assert heard.end == [None]
        assert threading.current_thread() not in heard.threads and len(heard.threads) == 1
        assert not one.running and one.error is None


def test_values_may_be_asked_for_instead() -> None:
    with Apart(work.counted, 5) as one:
        assert one.wait(20)
        assert one.poll() == [0, 1, 2, 3, 4]
        assert one.poll() == []


def test_it_is_another_process_with_little_in_it() -> None:
    with Apart(work.who) as one:
        assert one.wait(20)
        ((pid, modules),) = one.poll()
    assert pid != os.getpid()
    assert not {"textual", "rich", "pydantic", "tree_sitter"} & set(modules)


def test_values_larger_than_a_pipe_holds() -> None:
    with Apart(work.huge, 5_000_000) as one:
        assert one.wait(30)
        assert [(len(value), value[0]) for value in one.poll()] == [
            (5_000_000, 0), (5_000_000, 1), (5_000_000, 2),
        ]  # fmt: skip


def test_arguments_larger_than_a_pipe_holds() -> None:
    with Apart(work.counted, 3, told=None) as one:
        assert one.wait(20)
    with Apart(sorted_lengths, ["x" * 3_000_000, "y"]) as two:
        assert two.wait(20)
        assert two.poll() == [1, 3_000_000]


def sorted_lengths(texts: list[str]):  # type: ignore[no-untyped-def]
    yield from sorted(map(len, texts))


def test_an_exception_comes_back_as_itself_after_what_came_before_it() -> None:
    heard = Heard()
    with Apart(work.failing, 2, told=heard.told, ended=heard.ended) as one:
        until(lambda: heard.end)
        assert heard.all == [0, 1]
        assert heard.end == ["no paper left"]
        assert type(one.error) is ValueError and one.error.args == ("no paper left",)


def test_an_exception_that_cannot_travel_comes_as_words() -> None:
    with Apart(work.failing_oddly) as one:
        assert one.wait(20)
        assert str(one.error) == "Odd: glue and scissors"


def test_a_value_that_cannot_travel_is_an_error() -> None:
    with Apart(work.unsendable) as one:
        assert one.wait(20)
        assert one.poll() == [] and "pickle" in str(one.error)


def test_a_process_that_dies_is_told() -> None:
    heard = Heard()
    with Apart(work.dying, told=heard.told, ended=heard.ended):
        until(lambda: heard.end)
        assert heard.all == [1]
        assert heard.end == ["it ended too early, with 7"]


def test_what_it_prints_and_reads_comes_from_nowhere(capfd: pytest.CaptureFixture[str]) -> None:
    with Apart(work.talking) as one:
        assert one.wait(20)
        assert one.poll() == [""]
    assert capfd.readouterr() == ("", "")


@posix
@pytest.mark.parametrize("function", [work.silent, work.busy])
def test_what_never_yields_is_ended_at_once_and_leaves_no_zombie(
    function: Any, tmp_path: Path
) -> None:
    heard = Heard()
    one = Apart(function, str(tmp_path / "pid"), told=heard.told, ended=heard.ended)
    pid = pid_in(tmp_path / "pid")
    assert alive(pid) and one.running
    start = time.monotonic()
    one.close()
    assert time.monotonic() - start < 0.5
    assert not alive(pid)
    assert not one.running
    one.close()
    time.sleep(0.05)
    assert heard.end == [] and heard.all == []


@posix
def test_nothing_stays_of_what_came_to_its_end() -> None:
    one = Apart(work.who)
    assert one.wait(20)
    ((pid, _),) = one.poll()
    assert not alive(pid)
    one.close()
    one.close()


def test_it_may_be_closed_from_where_it_is_told() -> None:
    heard = Heard()
    ready = threading.Event()

    def told(value: int) -> None:
        ready.wait()
        heard.told(value)
        time.sleep(0.2)  # meanwhile many more come, and lie in the pipe
        one.close()

    one = Apart(work.counted, 100_000, told=told, ended=heard.ended)
    ready.set()
    until(lambda: not one.running)
    one.wait(20)
    assert heard.all == [0] and heard.end == []


def test_closing_before_it_began() -> None:
    for _ in range(5):
        one = Apart(work.silent)
        one.close()
        assert not one.running


def test_an_error_of_the_listener_ends_the_work() -> None:
    heard = Heard()

    def told(value: int) -> None:
        raise RuntimeError("no room")

    with Apart(work.counted, 10**9, told=told, ended=heard.ended) as one:
        until(lambda: heard.end)
        assert heard.end == ["no room"] and not one.running


@posix
@pytest.mark.parametrize("function", ["silent", "busy"])
def test_it_goes_when_the_program_that_asked_is_killed(function: str, tmp_path: Path) -> None:
    told = tmp_path / "pid"
    script = (
        "import sys, time; from model.apart import Apart; from tests import apart_work as work;"
        f" one = Apart(work.{function}, sys.argv[1]); time.sleep(60)"
    )
    parent = subprocess.Popen([sys.executable, "-c", script, str(told)], cwd=ROOT)
    pid = pid_in(told)
    assert alive(pid)
    parent.send_signal(signal.SIGKILL)
    parent.wait()
    until(lambda: not alive(pid))


@posix
def test_it_goes_when_the_program_that_asked_ends_without_a_word(tmp_path: Path) -> None:
    told = tmp_path / "pid"
    script = (
        "import pathlib, sys, time; from model.apart import Apart;"
        " from tests import apart_work as work; one = Apart(work.silent, sys.argv[1])\n"
        "while not pathlib.Path(sys.argv[1]).exists(): time.sleep(0.01)"
    )
    done = subprocess.run([sys.executable, "-c", script, str(told)], cwd=ROOT, timeout=30)
    assert done.returncode == 0
    until(lambda: not alive(pid_in(told)))


@posix
def test_an_interrupt_at_the_terminal_is_not_for_it(tmp_path: Path) -> None:
    with Apart(work.silent, str(tmp_path / "pid")):
        assert os.getpgid(pid_in(tmp_path / "pid")) != os.getpgid(0)


@pytest.mark.parametrize("executable", ["", "/nowhere/python", sys.executable + "-not"])
def test_without_another_interpreter_a_thread_does_it(
    executable: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(apart.sys, "executable", executable)
    heard = Heard()
    with Apart(work.who, told=heard.told, ended=heard.ended) as one:
        until(lambda: heard.end)
        assert heard.end == [None] and one.error is None
        assert [pid for pid, _ in heard.all] == [os.getpid()]


@posix
def test_an_interpreter_that_does_not_work_is_done_without(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(apart.sys, "executable", "/bin/false")
    with Apart(work.failing, 2) as one:
        assert one.wait(20)
        assert one.poll() == [0, 1] and str(one.error) == "no paper left"


def test_a_program_of_one_file_is_not_started_again(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(apart.sys, "frozen", True, raising=False)
    with Apart(work.who) as one:
        assert one.wait(20)
        assert one.poll()[0][0] == os.getpid()


def test_a_thread_in_place_is_heard_no_more_when_closed(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(apart.sys, "executable", "")
    heard = Heard()
    one = Apart(work.counted, 10**9, told=heard.told, ended=heard.ended)
    until(lambda: heard.all)
    one.close()
    assert one.wait(20)
    count = len(heard.all)
    time.sleep(0.05)
    assert len(heard.all) == count and heard.end == []


def test_it_finds_its_modules_wherever_the_program_was_started(tmp_path: Path) -> None:
    script = (
        "import sys; sys.path.insert(0, sys.argv[1])\n"
        "from model.apart import Apart\nfrom tests import apart_work as work\n"
        "one = Apart(work.who); one.wait(20); print(one.poll()[0][0], one.error)"
    )
    environment = {key: value for key, value in os.environ.items() if key != "PYTHONPATH"}
    (tmp_path / "model").mkdir()  # a folder of the same name where one happens to be
    done = subprocess.run(
        [sys.executable, "-P", "-c", script, str(ROOT)],
        cwd=tmp_path, env=environment, capture_output=True, text=True, timeout=60,
    )  # fmt: skip
    pid, error = done.stdout.split()
    assert error == "None" and pid.isdigit(), done.stderr
