"""Reading a session's file: all that is readable, and a word about all that is not.

A sound file is parsed in one go. Only when that fails, or when the numbers of its records do not
run on, is it taken apart at its `[[did]]` lines and read piece by piece. Nothing here ever writes.
"""

from __future__ import annotations

import re
import stat
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from itertools import pairwise
from pathlib import Path
from typing import TYPE_CHECKING, Any, Literal

from model.disk import plain_reason
from model.journal_text import FORMAT, NUMBER, OWN_KEYS, Record, Value, parse

if TYPE_CHECKING:
    from model.journal_head import Rest

LARGEST = 256 * 1024 * 1024
"""Bytes. A session of 100,000 actions is below 20 MB; what is larger than this is no session."""

_HEAD = re.compile(rb"^[ \t]*\[\[[ \t]*did[ \t]*\]\][ \t]*(?:#[^\n]*)?\r?$", re.MULTILINE)
_END = re.compile(rb"^n[ \t]*=[ \t]*\d+[ \t]*\r?(?:\n|\Z)", re.MULTILINE)
_PLAIN_TYPES = frozenset({str, int, bool, datetime})


class JournalError(Exception):
    """A session's file cannot be used; the message says which and why, in plain words.

    Attributes:
        why: The reason alone, without the path: 'the disk is full'.
    """

    def __init__(self, text: str, why: str = "") -> None:
        """Say what is wrong.

        Args:
            text: Which file, and why.
            why: The reason alone; empty when the text is all there is to say.
        """
        super().__init__(text)
        self.why = why or text


@dataclass(frozen=True, slots=True)
class Trouble:
    """Something in a session's file that is not as it should be.

    Attributes:
        kind: "torn": the last record was not finished, the program was stopped while it wrote;
            "damaged": something that once was saved cannot be read, is missing, or is there twice;
            "newer": something that a newer version wrote and this one does not know.
        line: the line in the file, from 1.
        text: one or two sentences for the user.
    """

    kind: Literal["torn", "damaged", "newer"]
    line: int
    text: str


@dataclass(frozen=True, slots=True)
class Reading:
    """What a session's file holds.

    Attributes:
        header: the caller's keys of `[session]`.
        records: all that could be read, in order, without their numbers.
        troubles: in the order of their lines; empty for a sound file.
        size: bytes up to the end of the last whole record; a torn tail lies beyond it.
        next_number: the number that the next record will have.
        version: the format the file says it has.
        mended_from: the name of the damaged file that this one continues; "" if none.
        rests: what is left of long texts of the head that are not whole.
        head_damaged: the head could not be read whole; keys of it may be missing.
    """

    header: dict[str, Value]
    records: tuple[Record, ...]
    troubles: tuple[Trouble, ...]
    size: int
    next_number: int
    version: int = FORMAT
    mended_from: str = ""
    rests: tuple[Rest, ...] = ()
    head_damaged: bool = False

    @property
    def damaged(self) -> bool:
        """Whether something that once was saved could not be read."""
        return any(trouble.kind == "damaged" for trouble in self.troubles)


def rest_trouble(rest: Rest) -> Trouble:
    """What is said of a long text of the head that is not whole."""
    what = f'the text "{rest.key}"' if rest.key else "a long text"
    text = f"line {rest.line}: {what} that the head of the session keeps is not whole."
    return Trouble("damaged", rest.line, text)


def read_journal(path: Path) -> Reading:
    """Read a session's file, whatever state it is in.

    Raises:
        JournalError: there is no such file, it cannot be opened, or nothing in it shows that it
            is a session. The file is left as it is.
    """
    data = load_bytes(path)
    if not data.strip(b"\0 \t\r\n"):
        raise JournalError(f"the file {path} is empty: it holds no session")
    return _read_whole(data) or _Pieces(data, path).reading()


def load_bytes(path: Path) -> bytes:
    """The file's bytes.

    Raises:
        JournalError: it cannot be opened, is no ordinary file, or is far too large.
    """
    try:
        found = path.stat()
        if not stat.S_ISREG(found.st_mode):
            raise JournalError(f"what is at {path} is not a file")
        if found.st_size > LARGEST:
            raise JournalError(
                f"the file {path} has {found.st_size // 1024**2} MB; no session is that large"
                f" (the limit is {LARGEST // 1024**2} MB)"
            )
        return path.read_bytes()
    except FileNotFoundError:
        raise JournalError(f"the file {path} is not there") from None
    except PermissionError:
        raise JournalError(f"there is no permission to read {path}") from None
    except OSError as error:
        raise JournalError(f"the file {path} cannot be read: {plain_reason(error)}") from error


def flat(table: Mapping[str, Any]) -> tuple[Record, list[str]]:
    """The values that a record may hold, and the keys of those that it may not."""
    kept = {key: value for key, value in table.items() if _is_value(value)}
    return kept, [key for key in table if key not in kept]


def _is_value(value: object) -> bool:
    kind = type(value)
    return kind in _PLAIN_TYPES or (
        isinstance(value, list) and all(type(item) is str for item in value)
    )


def _tables(document: Mapping[str, Any]) -> list[dict[str, Any]] | None:
    """The records of a document, or None when `did` is not a list of tables."""
    found = document.get("did", [])
    if isinstance(found, list) and all(isinstance(table, dict) for table in found):
        return found
    return None


def _read_whole(data: bytes) -> Reading | None:
    """The reading of a file with nothing to say about it, or None."""
    document = parse(data)
    if document is None or not document.keys() <= {"session", "did"}:
        return None
    session, tables = document.get("session"), _tables(document)
    if not isinstance(session, dict) or tables is None or session.get("journal", FORMAT) != FORMAT:
        return None
    expected = 0
    for table in tables:
        expected += 1
        if table.pop(NUMBER, None) != expected:
            return None
        for value in table.values():
            if type(value) not in _PLAIN_TYPES and not _is_value(value):
                return None
    header, strange = flat(session)
    if strange:
        return None
    mended_from = str(header.get("mended_from", ""))
    for key in OWN_KEYS:
        header.pop(key, None)
    return Reading(
        header, tuple(tables), (), len(data), expected + 1, FORMAT, mended_from=mended_from
    )


class _Pieces:
    """The reading of a file that cannot be taken whole."""

    def __init__(self, data: bytes, path: Path) -> None:
        # Power loss may leave a file longer than what was written, its rest filled with NULs.
        self._data = data.rstrip(b"\0")
        self._full_size = len(data)
        self._path = path
        self._records: list[Record] = []
        self._troubles: list[Trouble] = []
        self._numbered: dict[int, Record] = {}
        self._last = 0  # highest number so far
        self._size = 0
        self._rests: tuple[Rest, ...] = ()
        self._head_damaged = False
        self._counted = (0, 1)  # up to which byte the lines are counted, and the line there

    def reading(self) -> Reading:
        """The reading.

        Raises:
            JournalError: there is no header, nor anything left of one.
        """
        heads = [match.start() for match in _HEAD.finditer(self._data)]
        session, end = self._header(heads)
        self._size = end
        starts = [at for at in heads if at >= end]
        first = starts[0] if starts else len(self._data)
        if self._data[end:first].strip():
            self._unreadable(end, first)
        for start, stop in pairwise([*starts, len(self._data)]):
            self._chunk(start, stop)
        if len(self._data) < self._full_size and not self._troubles:
            self._torn(len(self._data))
        header, strange = flat(session)
        if strange:
            text = f"the session's head holds {_listed(strange)}, which this version does not know"
            self._say("newer", 0, text)
        version, mended_from = header.get("journal", FORMAT), header.get("mended_from", "")
        if not isinstance(version, int) or version != FORMAT:
            text = f"a newer version wrote this (format {version}; this one knows {FORMAT})"
            self._say("newer", 0, text)
        own = {key: value for key, value in header.items() if key not in OWN_KEYS}
        return Reading(
            own,
            tuple(self._records),
            tuple(sorted(self._troubles, key=lambda trouble: trouble.line)),
            self._full_size if any(t.kind == "damaged" for t in self._troubles) else self._size,
            self._last + 1,
            version if isinstance(version, int) else FORMAT + 1,
            str(mended_from),
            self._rests,
            self._head_damaged,
        )

    def _header(self, heads: list[int]) -> tuple[dict[str, Any], int]:
        """The `[session]` table and where its text ends."""
        from model.journal_head import likely_ends, recover  # a sound file has no need of it

        headless = False
        ends = likely_ends(self._data, heads)
        for end in ends:
            document = parse(self._data[:end])
            if document is None:
                continue
            session = document.get("session")
            if not isinstance(session, dict):
                headless = True
                continue
            if end != ends[0] or session.get(NUMBER) != 0:
                left = recover(self._data, heads)
                if left is not None and left.end > end:
                    break  # what looks like its end, or like a record, stands in the middle of it
            unknown = [key for key in document if key != "session"]
            if unknown:
                text = f"the file holds {_listed(unknown)}, which this version does not know"
                self._say("newer", 0, text)
            return session, end
        left = recover(self._data, heads)
        if left is None:
            why = "has no [session] table: it is no dryfit session"
            if not headless:
                why = "can't be read: nothing in it shows that it is a dryfit session"
            raise JournalError(f"the file {self._path} {why}; it has been left as it is")
        self._head_damaged, self._rests = True, left.rests
        if left.bad or not left.rests:
            line = left.bad[0] if left.bad else 1
            what = _some(left.bad) if len(left.bad) > 1 else "what stands here"
            text = f"{what}, in the head of the session, cannot be read and has been left out"
            self._troubles.append(Trouble("damaged", line, f"line {line}: {text}."))
        self._troubles += map(rest_trouble, left.rests)
        return left.values, left.end

    def _chunk(self, start: int, stop: int) -> None:
        """Read one piece, from its `[[did]]` line up to the next."""
        document = parse(self._data[start:stop])
        tables = _tables(document) if document is not None else None
        if document is not None and tables and len(tables) == 1 and NUMBER in tables[0]:
            if self._cut_short(tables[0][NUMBER], stop):
                self._torn(start)
                return
            unknown = [key for key in document if key != "did"]
            if unknown:
                text = f"here stands {_listed(unknown)}, which this version does not know"
                self._say("newer", start, text + "; it has been left out")
            self._take(tables[0], start)
            self._size = stop
            return
        ending = _END.search(self._data, start, stop)
        if ending and ending.end() < stop:
            # A record that is whole, with something unreadable behind it.
            whole = parse(self._data[start : ending.end()])
            found = _tables(whole) if whole is not None else None
            if found and len(found) == 1 and NUMBER in found[0]:
                self._take(found[0], start)
                self._size = ending.end()
                self._unreadable(ending.end(), stop)
                return
        self._unreadable(start, stop)

    def _cut_short(self, number: object, stop: int) -> bool:
        """Whether the file ends inside this record's number: "n = 1" of what was to be 12."""
        if stop < len(self._data) or self._data.endswith(b"\n"):
            return False
        expected = str(self._last + 1)
        return str(number) != expected and expected.startswith(str(number))

    def _unreadable(self, start: int, stop: int) -> None:
        """Say what is wrong with a stretch that holds no readable record."""
        if stop == len(self._data) and self._looks_torn(start):
            self._torn(start)
        else:
            text = "what stands here cannot be read and has been left out; all else is kept"
            self._say("damaged", self._text_start(start), text)

    def _looks_torn(self, start: int) -> bool:
        """Whether the file from here on is a record that was not finished.

        Such a record is a beginning of what would have been written: every whole line of it is
        sound, and it does not reach its number.
        """
        lines, _, unfinished = self._data[start:].rpartition(b"\n")
        document = parse(lines + b"\n")
        if document is None or not document.keys() <= {"did"} or b"\0" in unfinished:
            return False
        if unfinished.startswith(b"n = ") and not unfinished[4:].isdigit() and unfinished[4:]:
            return False  # a whole record whose last line end was spoilt
        tables = _tables(document)
        return tables is not None and len(tables) <= 1 and all(NUMBER not in t for t in tables)

    def _torn(self, start: int) -> None:
        text = (
            "the last entry was not finished: dryfit was stopped while it was being saved."
            " It has been left out; all before it is kept"
        )
        self._say("torn", self._text_start(start), text)

    def _take(self, table: dict[str, Any], start: int) -> None:
        """Keep a record, and see whether its number is the one that is due."""
        number = table.pop(NUMBER)
        record, strange = flat(table)
        if strange:
            text = f"this entry holds {_listed(strange)}, which this version does not know"
            self._say("newer", start, text)
        due = self._last + 1
        if type(number) is not int:
            self._say("damaged", start, f"this entry's number is {number!r}, not {due}")
        elif number > due:
            missing = (
                f"entry {due} is" if number == due + 1 else f"entries {due} to {number - 1} are"
            )
            self._say("damaged", start, f"{missing} missing before this line")
        elif number < due:
            if self._numbered.get(number) == record:
                text = f"entry {number} stands here a second time; it has been taken once"
                self._say("damaged", start, text)
                return
            self._say("damaged", start, f"this entry has the number {number}, but {due} was due")
        if type(number) is int:
            self._numbered[number] = record
            self._last = max(self._last, number)
        self._records.append(record)

    def _text_start(self, start: int) -> int:
        """The first byte from here on that is no line end, for a line number that points at it."""
        rest = self._data[start : start + 8]
        return start + len(rest) - len(rest.lstrip(b"\r\n"))

    def _say(self, kind: Literal["torn", "damaged", "newer"], at: int, text: str) -> None:
        counted, line = self._counted
        if at < counted:
            counted, line = 0, 1
        line += self._data.count(b"\n", counted, at)
        self._counted = (at, line)
        self._troubles.append(Trouble(kind, line, f"line {line}: {text}."))


def _listed(keys: list[str]) -> str:
    """The keys, the first few by name: '"shape" and 4 more'."""
    more = f" and {len(keys) - 1} more" if len(keys) > 1 else ""
    return f'"{keys[0]}"{more}'


def _some(lines: tuple[int, ...]) -> str:
    """Several lines: 'what stands here and in line 7', 'what stands here and in 4 lines more'."""
    more = f"line {lines[1]}" if len(lines) == 2 else f"{len(lines) - 1} lines more"
    return f"what stands here and in {more}"
