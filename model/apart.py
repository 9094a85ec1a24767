"""A long search in a process of its own, so that an interface keeps its time for the crafter.

A thread would not do: the search is Python too, and would take turns with the interface. What it
finds comes back over a pipe of this program's own, so it can be trusted as much as the program.
A fresh interpreter is started rather than a copy of this one, since an interface has threads.
"""

from __future__ import annotations

import contextlib
import os
import pickle
import struct
import subprocess
import sys
import threading
from collections.abc import Callable, Iterator
from typing import IO, Any, Generic, NoReturn, TypeVar

T = TypeVar("T")

_START = (
    "import pickle, sys; sys.path[:] = pickle.load(sys.stdin.buffer);"
    " from model.apart import serve; serve()"
)
_LENGTH = struct.Struct(">Q")
_HERE, _VALUE, _RAISED, _DONE = b"h", b"v", b"r", b"d"
_NICE = 5  # where there is one processor only, the interface goes first


class Apart(Generic[T]):
    """A generator function at work in a process of its own.

    What it yields is handed on as it comes, either to `told` or by `poll`. Where no other process
    can be had, a thread of this one does the work.
    """

    def __init__(
        self,
        function: Callable[..., Iterator[T]],
        *arguments: object,
        told: Callable[[T], None] | None = None,
        ended: Callable[[str | None], None] | None = None,
    ) -> None:
        """Begin at once.

        Args:
            function: A generator function at the top level of a module that can be imported.
            arguments: Its arguments; they and what it yields must be such as can be pickled.
            told: Called with each value, in a thread of its own; None where `poll` is used.
            ended: Called once in that thread when all is done: with None, or with what went
                wrong, in words. After `close` it is not called any more.
        """
        self.error: Exception | None = None
        self._told, self._ended = told, ended
        self._function, self._arguments = function, arguments
        self._values: list[T] = []
        self._lock = threading.Lock()
        self._closed = threading.Event()
        self._over = threading.Event()
        paths = [path or os.getcwd() for path in sys.path]  # noqa: PTH109
        asked = pickle.dumps(paths) + pickle.dumps((function, arguments), pickle.HIGHEST_PROTOCOL)
        self._process = _started()
        self._thread = threading.Thread(
            target=self._listen, args=(asked,), name="dryfit apart", daemon=True
        )
        self._thread.start()

    @property
    def running(self) -> bool:
        """Whether more may still come."""
        return not (self._over.is_set() or self._closed.is_set())

    def poll(self) -> list[T]:
        """What came since the last time; only where nobody is `told`."""
        with self._lock:
            values, self._values = self._values, []
        return values

    def wait(self, seconds: float | None = None) -> bool:
        """Wait until all is done or the time is up.

        Returns:
            Whether all is done.
        """
        return self._over.wait(seconds)

    def close(self) -> None:
        """End the work at once, wherever it is; may be called at any time, and again.

        Nothing is handed on after it, but what another thread is being told just now. Work that
        had to be done by a thread of this process goes on, unheard, until it yields.
        """
        self._closed.set()
        if self._process is not None:
            with contextlib.suppress(OSError):
                self._process.kill()
            self._process.wait()
        if self._process is not None and threading.current_thread() is not self._thread:
            # With the process gone nothing holds it, unless it is just telling something.
            self._thread.join(0.05)

    def __enter__(self) -> Apart[T]:
        """Itself; closed in the end."""
        return self

    def __exit__(self, *_: object) -> None:
        """End the work."""
        self.close()

    # In the listening thread

    def _listen(self, asked: bytes) -> None:
        try:
            if self._process is None or not self._heard(self._process, asked):
                self._in_place()
        except Exception as error:
            self.error = error
        finally:
            if self._process is not None:
                self._process.kill()
                self._process.wait()
            self._over.set()
        if self._ended is not None and not self._closed.is_set():
            self._ended(None if self.error is None else _in_words(self.error))

    def _heard(self, process: subprocess.Popen[bytes], asked: bytes) -> bool:
        """Hand on what comes from the other process.

        Returns:
            Whether it could begin at all.
        """
        assert process.stdin is not None and process.stdout is not None
        begun = False
        try:
            with contextlib.suppress(OSError):
                process.stdin.write(asked)
                process.stdin.flush()
            while (got := _received(process.stdout)) is not None:
                begun = True
                kind, data = got
                if kind == _VALUE:
                    self._hand_on(pickle.loads(data))
                elif kind == _RAISED:
                    self.error = pickle.loads(data)
                    return True
                elif kind == _DONE:
                    return True
        finally:
            # Its input was open so long: that it closes tells the other that this process is gone.
            for pipe in (process.stdin, process.stdout):
                with contextlib.suppress(OSError):  # of what could not be sent any more
                    pipe.close()
        if begun and not self._closed.is_set():
            raise ChildProcessError(f"it ended too early, with {process.wait()}")
        return begun or self._closed.is_set()

    def _in_place(self) -> None:
        for value in self._function(*self._arguments):
            if self._closed.is_set():
                return
            self._hand_on(value)

    def _hand_on(self, value: T) -> None:
        if self._closed.is_set():
            return
        if self._told is not None:
            self._told(value)
            return
        with self._lock:
            self._values.append(value)


def _started() -> subprocess.Popen[bytes] | None:
    """Another interpreter, waiting for its task; None where none can be had."""
    # A program made of one file is no interpreter: it would start once more.
    if not sys.executable or getattr(sys, "frozen", False):
        return None
    pipe = subprocess.PIPE
    try:
        return subprocess.Popen(
            [sys.executable, "-P", "-c", _START],
            stdin=pipe,
            stdout=pipe,
            stderr=subprocess.DEVNULL,
            # Ctrl+C at the terminal is meant for this process alone.
            start_new_session=True,
        )
    except (OSError, ValueError):
        return None


def _received(pipe: IO[bytes]) -> tuple[bytes, bytes] | None:
    """One message; None when the pipe ended."""
    head = pipe.read(1 + _LENGTH.size)
    if len(head) < 1 + _LENGTH.size:
        return None
    (length,) = _LENGTH.unpack(head[1:])
    data = pipe.read(length)
    return (head[:1], data) if len(data) == length else None


def _in_words(error: Exception) -> str:
    return str(error) or type(error).__name__


# In the other process


def serve() -> NoReturn:
    """Do what is asked at the standard input, and end; what comes of it goes to the output."""
    try:
        asked = sys.stdin.buffer  # the reader that began to read: it may hold more already
        out = os.fdopen(os.dup(1), "wb")
        # Whatever prints or reads must not come between.
        sys.stdin = open(os.devnull, encoding="utf-8")  # noqa: PTH123, SIM115
        nowhere = os.open(os.devnull, os.O_WRONLY)
        os.dup2(nowhere, 1)
        if sys.platform != "win32":
            os.nice(_NICE)
        function, arguments = pickle.load(asked)
        threading.Thread(target=_end_with, args=(asked,), daemon=True).start()
        _send(out, _HERE)
        _work(function, arguments, out)
    finally:
        os._exit(0)


def _work(
    function: Callable[..., Iterator[Any]], arguments: tuple[Any, ...], out: IO[bytes]
) -> None:
    try:
        for value in function(*arguments):
            _send(out, _VALUE, pickle.dumps(value, pickle.HIGHEST_PROTOCOL))
    except Exception as error:
        _send(out, _RAISED, _sent(error))
    else:
        _send(out, _DONE)


def _send(out: IO[bytes], kind: bytes, data: bytes = b"") -> None:
    out.write(kind + _LENGTH.pack(len(data)) + data)
    out.flush()


def _sent(error: Exception) -> bytes:
    """The error itself, where it can make the journey; else its words."""
    try:
        data = pickle.dumps(error)
        pickle.loads(data)
    except Exception:
        return pickle.dumps(RuntimeError(f"{type(error).__name__}: {error}"))
    return data


def _end_with(asked: IO[bytes]) -> None:
    """End at once when the process that asked is gone, whatever is being done."""
    with contextlib.suppress(OSError):
        asked.read(1)
    os._exit(0)
