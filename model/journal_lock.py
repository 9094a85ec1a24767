"""Only one program at a time may write a session."""

from __future__ import annotations

import contextlib
import os
from pathlib import Path

from model.disk import plain_reason
from model.journal_read import JournalError, read_journal


class JournalBusy(JournalError):
    """Another running dryfit has the session open; it can be watched with `Watcher`."""


class SessionLock:
    """The right to write a session, held until it is let go or the process dies."""

    def __init__(self, path: Path) -> None:
        """Take it.

        Raises:
            JournalBusy: another dryfit has it.
            JournalError: the folder cannot be written.
        """
        from filelock import FileLock, Timeout

        # Another name of the same file is the same session.
        real = Path(os.path.realpath(path))
        # Where the disk knows no locks, a lock made of a mere file would outlive a process that
        # died, and the session could never be opened again: so no such fallback.
        self._lock = FileLock(
            real.with_name(real.name + ".lock"), thread_local=False, fallback_to_soft=False
        )
        try:
            self._lock.acquire(blocking=False)
        except Timeout:
            raise JournalBusy(
                f"Another dryfit has this session of {_title_of(real)} open. You may look on here;"
                " only the other one can say things."
            ) from None
        except NotImplementedError as error:
            raise JournalError(
                f"the folder {path.parent} lies on a disk that knows no locks",
                "that disk knows no locks",
            ) from error
        except OSError as error:
            raise JournalError(
                f"a session cannot be saved in {path.parent}: {plain_reason(error)}",
                plain_reason(error),
            ) from error

    def release(self) -> None:
        """Let it go."""
        with contextlib.suppress(OSError):
            self._lock.release()


def _title_of(path: Path) -> str:
    """The title of a session's kit, by which a crafter knows it; else the file's name."""
    try:
        title = read_journal(path).header.get("kit")
    except JournalError:  # it has no line yet: the other one is just beginning it
        title = None
    return title if isinstance(title, str) and title.isprintable() else path.name
