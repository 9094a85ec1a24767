"""Reading a kit ahead, in a process of its own, while the program is still being loaded.

Reading takes a library and a tenth of a second, loading an interface takes as long: with two
processors both are done at once. What was read comes back through a pipe of this program's
own, so it can be trusted as much as the program itself. Wherever that can't be done, and
whatever goes wrong with it, the kit is simply read in place.
"""

from __future__ import annotations

import contextlib
import os
import pickle
import signal
import sys
import tomllib
from pathlib import Path
from typing import NoReturn

from model.journal_text import first_record
from model.read import Read
from model.reading import load_kit, read_kit
from model.session_file import is_session


class ReadAhead:
    """A kit that is being read in a process of its own; `read` is a `model.reading.Reader`."""

    def __init__(self, path: Path | None) -> None:
        """Begin to read, where the system can do it; call it before there are any threads.

        Args:
            path: A kit's file, or a session's: then the kit that it began with is read.
                None when it is not known yet.
        """
        self._pipe = -1
        self._process = 0
        self._got: Read | None = None
        if path is not None and sys.platform != "win32" and _processors() > 1:
            self._begin(path)

    def read(self, text: str) -> Read:
        """Read the text of a kit file; the one that was read ahead costs only its transport."""
        self._fetch()
        if self._got is not None and self._got.text == text.replace("\r\n", "\n"):
            return self._got
        return read_kit(text)

    def close(self) -> None:
        """Let go of the other process, whether it has ended or not."""
        if self._pipe >= 0:
            os.close(self._pipe)
            self._pipe = -1
        if self._process:
            # It has nothing to put away, and may be far from done with a large kit.
            with contextlib.suppress(ProcessLookupError, ChildProcessError):
                os.kill(self._process, signal.SIGKILL)
                os.waitpid(self._process, 0)
            self._process = 0

    def _fetch(self) -> None:
        if self._pipe < 0:
            return
        with contextlib.suppress(OSError, EOFError, pickle.UnpicklingError):
            with open(self._pipe, "rb", closefd=False) as pipe:
                got = pickle.load(pipe)
            if isinstance(got, Read):
                self._got = got
        self.close()

    if sys.platform != "win32":

        def _begin(self, path: Path) -> None:
            try:
                here, there = os.pipe()
            except OSError:
                return
            try:
                process = os.fork()
            except OSError:
                os.close(here)
                os.close(there)
                return
            if not process:
                os.close(here)
                _read_for_another(path, there)
            os.close(there)
            self._pipe, self._process = here, process


def _read_for_another(path: Path, pipe: int) -> NoReturn:
    """Read a kit, send it through a pipe, and end, whatever happens."""
    try:
        # The terminal is the other's; and what fails here is said there, where it is read again.
        nowhere = os.open(os.devnull, os.O_RDWR)
        for stream in range(3):
            os.dup2(nowhere, stream)
        got = read_kit(_kit_in_session(path)) if is_session(path) else load_kit(path)
        with open(pipe, "wb") as there:
            pickle.dump(got, there, pickle.HIGHEST_PROTOCOL)
    finally:
        os._exit(0)


def _kit_in_session(path: Path) -> str:
    """The text of the kit that a session's file keeps; raises whatever is in its way."""
    data = path.read_bytes()
    return str(tomllib.loads(data[: first_record(data)].decode())["session"]["kit_text"])


def _processors() -> int:
    """How many processors this program may use."""
    if sys.platform == "linux":
        return len(os.sched_getaffinity(0))
    return os.cpu_count() or 1
