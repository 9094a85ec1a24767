"""What a session keeps in its file besides its events: the kit it began with, and its name."""

from __future__ import annotations

import hashlib
import re
from collections.abc import Callable, Mapping
from datetime import UTC, datetime
from pathlib import Path

from model.disk import Disk, plain_reason
from model.journal import (
    Journal,
    JournalError,
    JournalStore,
    MemoryJournal,
    Reading,
    Value,
    read_journal,
)
from model.journal_text import FORMAT
from model.limits import MOST_BYTES
from model.plan import Plan
from model.reading import Read, Reader

_LAST_RECORD = re.compile(rb"^event = \d+\r?\nn = \d+\r?$", re.MULTILINE)
Clock = Callable[[], datetime]


class SessionError(Exception):
    """A session can't be opened; the message says why and what to do."""


def now() -> datetime:
    """The time, in UTC, to the millisecond."""
    at = datetime.now(UTC)
    return at.replace(microsecond=at.microsecond // 1000 * 1000)


def digest(text: str) -> str:
    """The digest by which a kit's text is told from another: SHA-256, in hex."""
    return hashlib.sha256(text.encode(errors="surrogatepass")).hexdigest()


def file_name(title: str, started: datetime) -> str:
    """A session's file name, made of the kit's title and the time."""
    return f"{slug(title)}-{started:%Y%m%d-%H%M%S}.toml"


def slug(title: str) -> str:
    """A kit's title as it stands in the names of files; ``kit`` where nothing is left of it."""
    return re.sub(r"[^a-z0-9]+", "-", title.casefold())[:40].strip("-") or "kit"


def free_path(path: Path) -> Path:
    """The path itself, or the same with a number when something is there already."""
    number = 2
    free = path
    while free.exists():
        free = path.with_stem(f"{path.stem}-{number}")
        number += 1
    return free


def header_of(kit: Read, plan: Plan, source: Path | None, started: datetime) -> dict[str, Value]:
    """What a new session's file says of itself.

    Args:
        kit: The kit, as read.
        plan: Its plan.
        source: The kit's file, when it has one.
        started: When the session began.

    Returns:
        The keys of its head; the kit's text comes last, so that a glance need not read it.
    """
    header: dict[str, Value] = {
        "kit": plan.kit.title,
        "edition": plan.kit.edition,
        "source": str(source.resolve()) if source else "",
        "digest": digest(kit.text),
        "started": started,
        "steps": len(plan.steps),
        "kit_text": kit.text,
    }
    return {key: value for key, value in header.items() if value != ""}


def begin(
    header: Mapping[str, Value], folder: Path | None, why_no_folder: str, disk: Disk | None
) -> tuple[JournalStore, str]:
    """Begin a session's file, or keep the session in memory when there can be none.

    Args:
        header: What the file says of itself.
        folder: Where sessions are kept; None when there is no such place.
        why_no_folder: Why there is none, in plain words.
        disk: The calls to the disk, for tests.

    Returns:
        The journal, and why nothing is saved; empty when it is.
    """
    started = header["started"]
    assert isinstance(started, datetime)
    name = file_name(str(header["kit"]), started)
    if folder is None:
        return MemoryJournal(Path(name), header, why_no_folder), why_no_folder
    try:
        return Journal.create(free_path(folder / name), header, disk=disk), ""
    except (JournalError, OSError) as error:
        why = reason_of(error)
        return MemoryJournal(folder / name, header, why), why


def reason_of(error: JournalError | OSError) -> str:
    """Why a session's file can't be written, as a clause without its path."""
    return error.why if isinstance(error, JournalError) else plain_reason(error)


def is_session(path: Path) -> bool:
    """Whether a file is a session, by its beginning; by its end where that is damaged."""
    try:
        with path.open("rb") as file:
            if b"[session]" in file.read(4096):
                return True
            file.seek(max(0, path.stat().st_size - 4096))
            return _LAST_RECORD.search(file.read(4096)) is not None
    except OSError:
        return False


def plan_of(header: Mapping[str, Value], path: Path, read: Reader) -> Plan:
    """The plan of the kit that a session keeps.

    Args:
        header: What the session's file says of itself.
        path: The file.
        read: Reads the kit's text.

    Raises:
        SessionError: There is none, or it can't be read any more.
    """
    text = header.get("kit_text")
    if not isinstance(text, str):
        raise SessionError(f"the file {path} holds no kit; it can't be gone on with")
    got = read(text)
    if got.plan is None:
        first = next(finding for finding in got.findings if finding.grave)
        raise SessionError(f"the kit kept in {path} can't be read any more: {first}")
    return got.plan


def text_of(source: Path) -> str | None:
    """The text of a kit file, as it would be read; None when it is not there or no text."""
    try:
        if source.stat().st_size > MOST_BYTES:
            return None
        return source.read_bytes().decode("utf-8-sig").replace("\r\n", "\n")
    except (OSError, UnicodeDecodeError):
        return None


def in_memory(
    path: Path, why: JournalError, complete: Callable[[Reading], Reading]
) -> tuple[MemoryJournal, Reading]:
    """What a session's file holds, gone on with in memory, since it can't be written to.

    Args:
        path: The session's file.
        why: Why it can't be written to.
        complete: Puts back what a damaged head has lost.

    Returns:
        The journal in memory, and what was read.

    Raises:
        SessionError: It can't be read either, or a newer version wrote it.
    """
    try:
        reading = read_journal(path)
    except JournalError:
        raise SessionError(str(why)) from None
    if reading.version != FORMAT:
        raise SessionError(str(why)) from None
    records = reading.records
    return MemoryJournal(path, reading.header, why.why, records, len(records)), reading
