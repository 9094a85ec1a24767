"""Only one program at a time may write a session."""

from __future__ import annotations

import contextlib
import os
from pathlib import Path

from model.disk import plain_reason
from model.journal_read import JournalError


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
                f"another dryfit has {path.name} open; it can be watched here, but only one can"
                " write to it"
            ) from None
        except NotImplementedError as error:
            raise JournalError(f"{path.parent} lies on a disk that knows no locks") from error
        except OSError as error:
            raise JournalError(
                f"a session cannot be saved in {path.parent}: {plain_reason(error)}"
            ) from error

    def release(self) -> None:
        """Let it go."""
        with contextlib.suppress(OSError):
            self._lock.release()
