"""A program in a real terminal of our own, watched with a stopwatch: for the benchmark.

The terminal says that it can take a picture whole (mode 2026, "synchronized output"), so a
Textual app marks the end of each frame, and a frame can be timed to its last byte.
"""

from __future__ import annotations

import fcntl
import os
import pty
import re
import select
import struct
import subprocess
import sys
import termios
import time
from collections.abc import Sequence
from dataclasses import dataclass, field
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
FRAME_END = b"\x1b[?2026l"
_ASKED = b"\x1b[?2026$p"
_ANSWER = b"\x1b[?2026;2$y"  # known, and off
_LONGEST = 60.0  # seconds until we give a program up


@dataclass(frozen=True, slots=True)
class Answer:
    """What came of a key.

    Attributes:
        seconds: From the key to the last byte of the last frame.
        frames: How many frames.
        size: Bytes in all.
    """

    seconds: float
    frames: int
    size: int


@dataclass(slots=True)
class Terminal:
    """A program in a terminal; `close` ends it.

    Attributes:
        size: Columns and rows.
        began: When the program was started.
        output: All that it wrote so far.
    """

    size: tuple[int, int]
    began: float
    output: bytearray
    _process: subprocess.Popen[bytes]
    _master: int
    _answered: bool = field(default=False)

    @classmethod
    def start(cls, command: Sequence[str], size: tuple[int, int], home: Path) -> Terminal:
        """Start a program.

        Args:
            command: Arguments to this Python.
            size: Columns and rows.
            home: A folder for all that dryfit keeps.
        """
        settings = home / "dryfit" / "settings.toml"
        settings.parent.mkdir(parents=True, exist_ok=True)
        if not settings.exists():  # keys come quicker here than from any hand
            settings.write_text("bounce = 0\ntaught = true\n", encoding="utf-8")
        master, slave = pty.openpty()
        fcntl.ioctl(slave, termios.TIOCSWINSZ, struct.pack("HHHH", size[1], size[0], 0, 0))
        names = ("PATH", "LANG", "VIRTUAL_ENV")
        env = {name: os.environ[name] for name in names if name in os.environ}
        env |= {
            "HOME": str(home),
            "DRYFIT_HOME": str(home / "dryfit"),
            "PYTHONPATH": str(ROOT),
            "TERM": "xterm-256color",
            "COLORTERM": "truecolor",
        }
        began = time.perf_counter()
        process = subprocess.Popen(
            [sys.executable, *command],
            stdin=slave,
            stdout=slave,
            stderr=slave,
            env=env,
            cwd=home,
            start_new_session=True,
        )
        os.close(slave)
        return cls(size, began, bytearray(), process, master)

    def read(self, wait: float) -> bytes:
        """What comes within a time, or nothing; answers what the program asks of a terminal."""
        if not select.select([self._master], [], [], wait)[0]:
            return b""
        try:
            data = os.read(self._master, 1 << 16)
        except OSError:  # the program ended
            return b""
        self.output += data
        if not self._answered and _ASKED in self.output:
            self._answered = True
            os.write(self._master, _ANSWER)
        return data

    def until(self, needle: re.Pattern[bytes]) -> float:
        """Read until something was written; returns the seconds since the start."""
        end = time.monotonic() + _LONGEST
        while not needle.search(self.output):
            if not self.read(1.0) and (time.monotonic() > end or self._process.poll() is not None):
                tail = bytes(self.output[-1500:]).decode(errors="replace")
                raise RuntimeError(f"{needle.pattern!r} was never written; the end was {tail!r}")
        return time.perf_counter() - self.began

    def settle(self, quiet: float = 0.25) -> float:
        """Read until nothing comes any more; seconds from the start to the last byte."""
        last = time.perf_counter()
        while self.read(quiet):
            last = time.perf_counter()
        return last - self.began

    def press(self, key: bytes, quiet: float = 0.03) -> Answer:
        """Press a key and wait for all that comes of it; no frame at all counts as 0 bytes."""
        at = len(self.output)
        begin = last = time.perf_counter()
        os.write(self._master, key)
        end = begin + 2.0
        while FRAME_END not in self.output[at:] and time.perf_counter() < end:
            if self.read(0.2):
                last = time.perf_counter()
        while self.read(quiet):
            last = time.perf_counter()
        new = self.output[at:]
        return Answer(last - begin, new.count(FRAME_END), len(new))

    def send(self, data: bytes) -> None:
        """Press keys without waiting."""
        os.write(self._master, data)

    def peak_memory(self) -> float:
        """The most memory that the program has had so far, in MiB.

        Read from /proc (Linux): what a child's resource usage says would begin with the size
        of the process that started it.
        """
        text = Path(f"/proc/{self._process.pid}/status").read_text(encoding="utf-8")
        found = re.search(r"VmHWM:\s+(\d+) kB", text)
        if found is None:
            raise RuntimeError("this system does not tell a process's peak memory")
        return int(found[1]) / 1024

    def processor_time(self) -> float:
        """Seconds that the program has kept a processor busy so far, in all its threads (Linux)."""
        tasks = Path(f"/proc/{self._process.pid}/task")
        texts = [(task / "schedstat").read_text(encoding="ascii") for task in tasks.iterdir()]
        return sum(int(text.split()[0]) for text in texts) / 1e9

    def close(self) -> None:
        """End the program."""
        self._process.kill()
        self._process.wait()
        os.close(self._master)
