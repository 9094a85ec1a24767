"""Following a session that another program is writing: reading only, and only what is new."""

from __future__ import annotations

import re
from pathlib import Path

from model.disk import plain_reason
from model.journal_read import Reading, flat, read_journal
from model.journal_text import NUMBER, Record, parse

_LAST = re.compile(rb"(?:^|\n)n = \d+\r?\n")
_PROOF = 256
"""Bytes before the place reached that are compared to see that the file is still the same."""


class Watcher:
    """Reads a session's file as it grows. Takes no lock and never writes.

    Attributes:
        path: the file.
        start: the reading at the beginning: header, troubles, and the records so far.
        trouble: why the last `poll` could not see the file as it is now, in plain words; "" when
            it could.
        stale: whether the file no longer begins with what was handed out (its writer took back
            what it could not save, or the file was replaced). Begin again with a new Watcher.
    """

    def __init__(self, path: Path) -> None:
        """Begin to follow the file.

        Raises:
            JournalError: as `read_journal`.
        """
        self.path = path
        self.start: Reading = read_journal(path)
        self.trouble = ""
        self.stale = False
        self._first: list[Record] = list(self.start.records)
        self._at = self.start.size
        self._due = self.start.next_number
        self._proof = b""
        try:
            with path.open("rb") as file:
                file.seek(max(0, self._at - _PROOF))
                self._proof = file.read(min(_PROOF, self._at))
        except OSError as error:
            self.trouble = f"the file {path} cannot be read now: {plain_reason(error)}"

    def poll(self) -> list[Record]:
        """The records that are new since the last poll; the first time, all there are.

        Only whole records are taken; what its writer is just writing comes with the next poll.
        """
        first, self._first = self._first, []
        return first + self._new()

    def _new(self) -> list[Record]:
        if self.stale:
            return []
        try:
            with self.path.open("rb") as file:
                file.seek(self._at - len(self._proof))
                data = file.read()
        except OSError as error:
            self.trouble = f"the file {self.path} cannot be read now: {plain_reason(error)}"
            return []
        self.trouble = ""
        if not data.startswith(self._proof):
            self.stale = True
            self.trouble = "the session's file is not what it was; it has to be read again"
            return []
        end = max((match.end() for match in _LAST.finditer(data)), default=0)
        fresh = data[len(self._proof) : end]
        if not fresh:
            return []
        document = parse(fresh)
        found = document.get("did") if document is not None else None
        if not isinstance(found, list):
            self.trouble = "what was written last cannot be read"
            return []
        numbers = [table.pop(NUMBER, None) for table in found if isinstance(table, dict)]
        if numbers != list(range(self._due, self._due + len(found))):
            self.stale = True
            self.trouble = "the session's entries do not run on; it has to be read again"
            return []
        self._due += len(found)
        self._at += len(fresh)
        self._proof = (self._proof + fresh)[-_PROOF:]
        return [flat(table)[0] for table in found]
