"""The few calls by which a session reaches the disk, and what their failures mean in plain words.

They stand behind one small protocol so that tests can make any single one of them fail. Writing is
unbuffered (a file descriptor), so a write is either with the system or it is not: no buffer can
hold something back and lose it.
"""

from __future__ import annotations

import contextlib
import errno
import os
import sys
from dataclasses import dataclass
from pathlib import Path
from typing import Protocol

_WORDS = {
    "ENOSPC": "the disk is full",
    "EDQUOT": "the disk space allotted to you is used up",
    "EFBIG": "the file is as large as this system allows",
    "EROFS": "the folder is read-only",
    "EACCES": "there is no permission to write there",
    "EPERM": "there is no permission to write there",
    "ENOENT": "the folder or the file is gone",
    "ESTALE": "the folder or the file is gone",
    "ENOTDIR": "there can be no folder there; set DRYFIT_HOME to one",
    "EISDIR": "it is a folder, not a file",
    "ENAMETOOLONG": "its name is too long",
    "ELOOP": "its name leads in a circle",
    "EIO": "the disk reports an error",
    "EMFILE": "too many files are open",
    "ENFILE": "too many files are open",
}
# By name, because no system knows all of them.
_PLAIN: dict[int, str] = {
    getattr(errno, name): words for name, words in _WORDS.items() if hasattr(errno, name)
}
_NOT_SUPPORTED: frozenset[int] = frozenset(
    getattr(errno, name)
    for name in ("EINVAL", "ENOSYS", "ENOTSUP", "EOPNOTSUPP", "EBADF")
    if hasattr(errno, name)
)


def plain_reason(error: OSError) -> str:
    """Why the call failed, as a clause in plain words: 'the disk is full'."""
    known = _PLAIN.get(error.errno or 0)
    return known or (error.strerror or str(error) or type(error).__name__).lower()


@dataclass(frozen=True, slots=True)
class Mark:
    """What a path leads to at this moment.

    Attributes:
        size: bytes.
        identity: device and file number; another pair means another file under the same name.
    """

    size: int
    identity: tuple[int, int]


class Disk(Protocol):
    """The calls; every one may raise OSError. `fd` is an open file's descriptor."""

    def make_folder(self, folder: Path) -> None:
        """Make the folder, and those above it, unless they exist."""

    def open_new(self, path: Path) -> int:
        """Open a file that must not exist yet, for writing."""

    def open_append(self, path: Path) -> int:
        """Open a file that must exist; whatever is written goes to its end."""

    def write(self, fd: int, data: bytes) -> int:
        """Write, perhaps only a part; returns how many bytes."""

    def sync(self, fd: int) -> None:
        """Return when what was written lies on the disk itself."""

    def cut(self, fd: int, size: int) -> None:
        """Cut the file back to this many bytes."""

    def close(self, fd: int) -> None:
        """Close the file."""

    def rename(self, old: Path, new: Path) -> None:
        """Give the file its name."""

    def sync_folder(self, folder: Path) -> None:
        """Return when the folder's list of names lies on the disk itself."""

    def remove(self, path: Path) -> None:
        """Remove the file."""

    def look(self, path: Path) -> Mark:
        """What the path leads to now."""


class SystemDisk:
    """The real disk."""

    def make_folder(self, folder: Path) -> None:
        """See `Disk`; the names of new folders are put on the disk too."""
        made: list[Path] = []
        step = folder
        while not step.exists() and step != step.parent:
            made.append(step)
            step = step.parent
        folder.mkdir(parents=True, exist_ok=True)
        for new in reversed(made):
            self.sync_folder(new.parent)

    def open_new(self, path: Path) -> int:
        """See `Disk`."""
        return os.open(path, os.O_WRONLY | os.O_CREAT | os.O_EXCL | _BINARY, 0o666)

    def open_append(self, path: Path) -> int:
        """See `Disk`."""
        return os.open(path, os.O_WRONLY | os.O_APPEND | _BINARY)

    def write(self, fd: int, data: bytes) -> int:
        """See `Disk`."""
        return os.write(fd, data)

    def sync(self, fd: int) -> None:
        """See `Disk`."""
        if sys.platform == "darwin":
            # There fsync leaves the data in the drive's own cache (fsync(2) of macOS says so and
            # names F_FULLFSYNC); not every file system knows the stronger call.
            import fcntl

            with contextlib.suppress(OSError):
                fcntl.fcntl(fd, fcntl.F_FULLFSYNC)
                return
        os.fsync(fd)

    def cut(self, fd: int, size: int) -> None:
        """See `Disk`."""
        os.ftruncate(fd, size)

    def close(self, fd: int) -> None:
        """See `Disk`."""
        os.close(fd)

    def rename(self, old: Path, new: Path) -> None:
        """See `Disk`."""
        old.rename(new)

    def sync_folder(self, folder: Path) -> None:
        """See `Disk`; does nothing where a folder cannot be synced (Windows, some shares)."""
        if sys.platform == "win32":
            return
        fd = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(fd)
        except OSError as error:
            if error.errno not in _NOT_SUPPORTED:
                raise
        finally:
            os.close(fd)

    def remove(self, path: Path) -> None:
        """See `Disk`."""
        path.unlink()

    def look(self, path: Path) -> Mark:
        """See `Disk`."""
        found = path.stat()
        return Mark(found.st_size, (found.st_dev, found.st_ino))


_BINARY: int = getattr(os, "O_BINARY", 0)  # Windows would otherwise write CRLF for LF


def write_all(disk: Disk, fd: int, data: bytes) -> None:
    """Write all of it, in as many calls as it takes.

    Raises:
        OSError: it could not be done; a part may have been written.
    """
    view = memoryview(data)
    while view:
        written = disk.write(fd, bytes(view))
        if written <= 0:
            raise OSError("the disk takes no more")
        view = view[written:]


def write_new(disk: Disk, path: Path, data: bytes) -> Mark:
    """Put a whole file on the disk, under a name that does not exist yet, or nothing at all.

    Raises:
        OSError: it could not be done; nothing is left behind, as far as the disk allows.
    """
    draft = path.with_name(f".{path.name}.{os.getpid()}.tmp")
    with contextlib.suppress(OSError):
        disk.remove(draft)  # of a process that died here and had the same number
    present: Path | None = None
    try:
        fd = disk.open_new(draft)
        present = draft
        try:
            write_all(disk, fd, data)
            disk.sync(fd)
        finally:
            disk.close(fd)
        disk.rename(draft, path)
        present = path
        disk.sync_folder(path.parent)
        return disk.look(path)
    except BaseException:
        if present is not None:
            with contextlib.suppress(OSError):
                disk.remove(present)
        raise
