"""Keeping a session on disk: one writer, one file, one record per action.

Each record is on the disk itself (written and synced) before `append` says so. What could not be
saved waits, and is written with the next action; what is already in the file is never touched.
This module knows nothing of what records mean.
"""

from __future__ import annotations

import contextlib
import os
from collections.abc import Callable, Iterable, Mapping, Sequence
from pathlib import Path
from typing import Protocol

from model.disk import Disk, SystemDisk, plain_reason, write_all, write_new
from model.journal_lock import JournalBusy, SessionLock
from model.journal_mend import free_name, mended_copy
from model.journal_read import JournalError, Reading, Trouble, read_journal
from model.journal_text import FORMAT, Record, Value, write_header, write_record
from model.journal_watch import Watcher

__all__ = [
    "Journal",
    "JournalBusy",
    "JournalError",
    "JournalStore",
    "MemoryJournal",
    "Reading",
    "Record",
    "Trouble",
    "Value",
    "Watcher",
    "mended_copy",
    "read_journal",
]


class JournalStore(Protocol):
    """What `Journal` and `MemoryJournal` have in common."""

    @property
    def path(self) -> Path:
        """The session's file."""

    @property
    def unsaved(self) -> int:
        """How many records are not on the disk."""

    def append(self, record: Record) -> str | None:
        """Keep a record; None, or why it is not on the disk."""

    def retry(self) -> str | None:
        """Try again to save what waits; None when nothing waits any more, or why it does."""

    def close(self) -> str | None:
        """Try once more to save what waits, and let go of the file."""


class _Unfit(OSError):
    """The file is not as this journal left it, so nothing may be written to it."""


class Journal:
    """The one writer of a session's file. Not to be used from two threads at once."""

    def __init__(
        self, path: Path, size: int, next_number: int, locks: Sequence[SessionLock], disk: Disk
    ) -> None:
        """Not for callers: use `create` or `resume`.

        Args:
            path: the file, which exists.
            size: its sound part in bytes; what lies beyond may be cut off.
            next_number: the number of the next record.
            locks: taken already; let go by `close`.
            disk: the calls to the disk.
        """
        self.path = path
        self._disk = disk
        self._locks = locks
        self._size = size
        self._number = next_number
        self._waiting: list[bytes] = []
        self._fd: int | None = None
        self._identity: tuple[int, int] | None = None
        self._beyond = 0  # bytes that may lie beyond the sound part and are to be cut off
        self._closed = False

    @classmethod
    def create(
        cls,
        path: Path,
        header: Mapping[str, Value],
        records: Iterable[Record] = (),
        *,
        disk: Disk | None = None,
    ) -> Journal:
        """Begin a session's file. It appears under its name whole or not at all.

        Args:
            path: the file, which must not exist; its folder is made when it does not.
            header: the keys of its `[session]` table.
            records: records it begins with, for a session that so far was kept in memory.
            disk: the calls to the disk, for tests.

        Raises:
            JournalBusy: another dryfit is creating it.
            JournalError: it exists, or its folder cannot be written; says which in plain words.
            TypeError, ValueError: the header or a record holds what cannot be kept.
        """
        return cls._create(path, header, records, "", (), disk or SystemDisk())

    @classmethod
    def resume(
        cls,
        path: Path,
        *,
        disk: Disk | None = None,
        complete: Callable[[Reading], Reading] | None = None,
    ) -> tuple[Journal, Reading]:
        """Go on with a session's file.

        A damaged file is never written to again: the journal that comes back is then a new file
        beside it, with all that was readable, and the reading's last trouble names it. A torn last
        record is cut off just before the next one is written.

        Args:
            path: the file.
            disk: the calls to the disk, for tests.
            complete: puts back what a damaged head has lost, before anything is written; what it
                raises is passed on. Without it a file whose head is damaged is refused.

        Raises:
            JournalBusy: another dryfit has it open.
            JournalError: there is no such file, its header is unreadable, a newer version wrote
                it, or its folder cannot be written. (`read_journal` may still be able to read it.)
        """
        disk = disk or SystemDisk()
        if not path.exists():
            raise JournalError(f"the file {path} is not there")
        lock = SessionLock(path)
        try:
            reading = read_journal(path)
            if reading.version != FORMAT:
                raise JournalError(
                    f"the file {path} was written by a newer dryfit; this one can read what it"
                    " knows of it, but must not write to it",
                    "a newer dryfit wrote the file, and this one must not write to it",
                )
            if complete is not None:
                reading = complete(reading)
            elif reading.head_damaged:
                raise JournalError(f"the head of {path} is damaged; it has been left as it is")
            if reading.damaged:
                return cls._mend(path, reading, lock, disk)
            journal = cls(path, reading.size, reading.next_number, (lock,), disk)
            try:
                mark = disk.look(path)
            except OSError as error:
                why = plain_reason(error)
                raise JournalError(f"{path} cannot be opened: {why}", why) from error
            journal._identity = mark.identity
            journal._beyond = max(0, mark.size - reading.size)
        except BaseException:
            lock.release()
            raise
        return journal, reading

    @classmethod
    def _mend(
        cls, path: Path, reading: Reading, lock: SessionLock, disk: Disk
    ) -> tuple[Journal, Reading]:
        """Go on in a new file beside a damaged one."""
        earlier = mended_copy(path)
        target = free_name(path)
        journal = cls._create(target, reading.header, reading.records, path.name, (lock,), disk)
        text = (
            f"The damaged file, {path.name}, has been left as it is. All that is readable of it"
            f" has been copied to {target.name}, and the session goes on there."
        )
        if earlier is not None:
            text += f" It has been mended before; what was done after that is in {earlier.name}."
        last = max(trouble.line for trouble in reading.troubles)
        return journal, Reading(
            reading.header,
            reading.records,
            (*reading.troubles, Trouble("damaged", last, text)),
            journal._size,
            len(reading.records) + 1,
            mended_from=path.name,
        )

    @classmethod
    def _create(
        cls,
        path: Path,
        header: Mapping[str, Value],
        records: Iterable[Record],
        mended_from: str,
        locks: Sequence[SessionLock],
        disk: Disk,
    ) -> Journal:
        texts = [write_record(record, number) for number, record in enumerate(records, 1)]
        data = write_header(header, mended_from) + b"".join(texts)
        lock: SessionLock | None = None
        try:
            disk.make_folder(path.parent)
            lock = SessionLock(path)
            # Only who holds the lock may create, so nothing can come between this and the rename.
            if os.path.lexists(path):
                raise JournalError(f"the file {path} exists already; it has been left as it is")
            mark = write_new(disk, path, data)
        except OSError as error:
            if lock:
                lock.release()
            raise JournalError(
                f"a session cannot be saved in {path.parent}: {plain_reason(error)}",
                plain_reason(error),
            ) from error
        except BaseException:
            if lock:
                lock.release()
            raise
        journal = cls(path, len(data), len(texts) + 1, (*locks, lock), disk)
        journal._identity = mark.identity
        return journal

    @property
    def unsaved(self) -> int:
        """How many records are not on the disk."""
        return len(self._waiting)

    def append(self, record: Record) -> str | None:
        """Add a record to the file.

        Returns:
            None when it, and all before it, lie on the disk itself; otherwise why not, in plain
            words. It is then kept, and written with the next append, retry or close.

        Raises:
            TypeError, ValueError: the record holds what cannot be kept (see `Record`), or the
                journal is closed. Never an OSError.
        """
        if self._closed:
            raise ValueError(f"{self.path} is closed")
        self._waiting.append(write_record(record, self._number))
        self._number += 1
        return self.retry()

    def retry(self) -> str | None:
        """Try again to save what waits.

        Returns:
            None when nothing waits any more; otherwise why not.
        """
        if not self._waiting:
            return None
        data = b"".join(self._waiting)
        try:
            fd = self._ready()
            # From here until the sync has succeeded, what lies beyond the sound part is not ours
            # to count on. (After a failed sync the system may forget what it could not write and
            # report success the next time; so it is cut off and written anew.)
            self._beyond = len(data)
            write_all(self._disk, fd, data)
            self._disk.sync(fd)
        except OSError as error:
            self._cut_back()
            return self._why(error)
        # In one statement, which no key press that interrupts the program can divide.
        self._size, self._beyond, self._waiting = self._size + len(data), 0, []
        return None

    def close(self) -> str | None:
        """Try once more to save what waits; let go of the file and the lock.

        Returns:
            None, or why something is still not saved.
        """
        if self._closed:
            return None
        reason = self.retry()
        self._closed = True
        self._let_go()
        for lock in self._locks:
            lock.release()
        return reason

    def _ready(self) -> int:
        """The open file, with nothing beyond its sound part.

        Raises:
            OSError: it cannot be opened or cut, or is not as this journal left it.
        """
        mark = self._disk.look(self.path)
        if self._fd is None or mark.identity != self._identity:
            self._let_go()
            self._fd = self._disk.open_append(self.path)
            self._identity = mark.identity
        if not self._size <= mark.size <= self._size + self._beyond:
            raise _Unfit("another program has changed the session's file")
        if mark.size > self._size:
            self._disk.cut(self._fd, self._size)
        self._beyond = 0
        return self._fd

    def _cut_back(self) -> None:
        """Take away what was written in part. When this fails too, the next try begins with it."""
        if self._beyond and self._fd is not None:
            try:
                self._disk.cut(self._fd, self._size)
            except OSError:
                return
            self._beyond = 0

    def _let_go(self) -> None:
        fd, self._fd = self._fd, None
        if fd is not None:
            with contextlib.suppress(OSError):
                self._disk.close(fd)

    def _why(self, error: OSError) -> str:
        return str(error) if isinstance(error, _Unfit) else plain_reason(error)


class MemoryJournal:
    """Stands in for a journal where none can be written: nothing is saved, and it says so.

    Attributes:
        path: where the session would be.
        header: its header.
        records: all that was appended.
        reason: why nothing is saved.
    """

    def __init__(
        self,
        path: Path,
        header: Mapping[str, Value],
        reason: str,
        records: Iterable[Record] = (),
        on_disk: int = 0,
    ) -> None:
        """Keep a session in memory.

        Args:
            path: where it would be.
            header: its header.
            reason: why it cannot be saved, in plain words.
            records: records it begins with.
            on_disk: how many of these lie in a file already.
        """
        self.path = path
        self.header = dict(header)
        self.reason = reason
        self.records: list[Record] = [dict(record) for record in records]
        self._on_disk = on_disk

    @property
    def unsaved(self) -> int:
        """How many records are not on the disk: all but those that were read from it."""
        return len(self.records) - self._on_disk

    def append(self, record: Record) -> str | None:
        """Keep a record in memory.

        Returns:
            Why it is not saved.

        Raises:
            TypeError, ValueError: the record holds what could not be kept in a file.
        """
        write_record(record, len(self.records) + 1)
        self.records.append(dict(record))
        return self.reason

    def retry(self) -> str | None:
        """Why nothing is saved."""
        return self.reason if self.unsaved else None

    def close(self) -> str | None:
        """Why nothing is saved."""
        return self.retry()

    def save_to(self, path: Path, *, disk: Disk | None = None) -> Journal:
        """Put all of it into a file after all, and go on there.

        Raises:
            JournalError: as `Journal.create`; this one can then still be used.
        """
        return Journal.create(path, self.header, self.records, disk=disk)
