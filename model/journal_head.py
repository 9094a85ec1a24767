"""The damaged head of a session's file: whatever of it can be read, line by line.

A head is a few values of one line each, and long texts between triple quotes. Inside such a text
every quote is written escaped, so three bare ones are always an edge of it. Nothing here knows what
the values mean, and nothing here ever writes.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Any

from model.journal_text import BOM, NUMBER, parse

_QUOTES = b'"""'
_ENDS = re.compile(rb"^n[ \t]*=[ \t]*0[ \t]*\r?(?:\n|\Z)", re.MULTILINE)
_FIRST = re.compile(rb"^n = 1[ \t]*\r?$", re.MULTILINE)
_OPENS = re.compile(rb'([A-Za-z0-9_-]+)[ \t]*=[ \t]*"""')
_TABLE = re.compile(rb"[ \t]*\[[ \t]*session[ \t]*\]")


@dataclass(frozen=True, slots=True)
class Rest:
    """What is left of a long text of the head that is not whole.

    Attributes:
        key: Its key; "" when that can't be read either.
        line: The line in the file where it is damaged, as far as that can be told; from 1.
        lines: Its lines in order, each None that can't be read.
    """

    key: str
    line: int
    lines: tuple[str | None, ...]


@dataclass(frozen=True, slots=True)
class Head:
    """What is left of a damaged head.

    Attributes:
        values: The keys that can be read, the file's own among them.
        rests: Long texts that are not whole.
        bad: The lines, from 1, that can't be read and belong to no long text.
        end: Where the head's text ends, in bytes.
    """

    values: dict[str, Any]
    rests: tuple[Rest, ...]
    bad: tuple[int, ...]
    end: int


def likely_ends(data: bytes, heads: Sequence[int]) -> list[int]:
    """Where the text of a sound head may end, the likeliest place first.

    Args:
        data: The file.
        heads: Where its `[[did]]` lines begin, those in long texts among them.
    """
    # A `[[did]]` line inside a multi-line string (a kit's text may hold anything) has an odd
    # number of triple quotes before it: quotes inside such strings are written escaped.
    whole, quotes, at = len(data), 0, 0
    for head in heads:
        quotes += data.count(_QUOTES, at, head)
        at = head
        if quotes % 2 == 0:
            whole = head
            break
    # In a header that somebody edited the count may mislead. Or the first record's own head line
    # is spoilt, or torn. Then the head's own last line may tell; more than a few try nobody's
    # patience, since each is parsed.
    own = [match.end() for match in _ENDS.finditer(data)]
    return list(dict.fromkeys([whole, *own[:4]]))


def recover(data: bytes, heads: Sequence[int]) -> Head | None:
    """What can be read of a head that is damaged.

    Args:
        data: The file.
        heads: Where its `[[did]]` lines begin, those in long texts among them.

    Returns:
        What is left; None when nothing shows that this is a session at all.
    """
    end = _end(data, heads)
    if not data[:end].strip():
        return None
    left = _Lines(data[:end])
    if not (
        end < len(data) or left.named or left.rests or {"journal", NUMBER} & left.values.keys()
    ):
        return None
    return Head(left.values, tuple(left.rests), tuple(left.bad), end)


def _end(data: bytes, heads: Sequence[int]) -> int:
    """Where a head ends whose own text can't be trusted to tell."""
    ends = [(match.start(), match.end()) for match in _ENDS.finditer(data)]
    chunks = list(pairwise([*heads, len(data)]))
    firsts = [start for start, stop in chunks if _FIRST.search(data, start, stop)]
    # The head's own number and the first record side by side are most to be trusted. The last
    # ones: a long text may hold what looks like them.
    sure = [
        end for _, end in ends for first in firsts if end <= first and not data[end:first].strip()
    ]
    if sure:
        return max(sure)
    closed = data.rfind(_QUOTES)
    later = [at for at in heads if at > closed] or list(heads)
    first = later[0] if later else len(data)
    return max((end for start, end in ends if closed < start < first), default=first)


class _Lines:
    """A head that is taken apart at its line ends."""

    def __init__(self, raw: bytes) -> None:
        self.values: dict[str, Any] = {}
        self.rests: list[Rest] = []
        self.bad: list[int] = []
        self.named = False  # whether it says [session]
        self._lines = raw.removeprefix(BOM).split(b"\n")
        if not self._lines[-1]:
            self._lines.pop()
        opens = [at for at, line in enumerate(self._lines) if _OPENS.match(line)]
        before = opens[0] if opens else len(self._lines)
        self._plain(0, before)
        for at, until in pairwise([*opens, len(self._lines)]):
            self._text(at, until)

    def _text(self, at: int, until: int) -> None:
        """Read a long text, and the values behind it."""
        closing = _closing(self._lines[at + 1 : until])
        stop = until if closing is None else at + 1 + closing
        found = None if closing is None else parse(b"\n".join(self._lines[at : stop + 1]))
        opening = _OPENS.match(self._lines[at])
        assert opening is not None
        if found is not None and len(found) == 1:
            key, value = next(iter(found.items()))
            self.values.setdefault(key, value)
        else:
            self._rest(opening[1].decode(), at + 1, stop)
        if closing is not None:
            self._plain(stop + 1, until)
        elif self._lines[-1].strip() == b"n = 0":
            self.values[NUMBER] = 0

    def _plain(self, start: int, stop: int) -> None:
        """Read lines that hold one value each, if no long text without a beginning is there."""
        closing = _closing(self._lines[start:stop])
        lost = None  # where that text began, if there is one
        keys = True
        for at in range(start, stop):
            line = self._lines[at].strip()
            if closing is not None and at >= start + closing:
                if lost is None:
                    lost = at
                if at == start + closing:
                    self._rest("", lost + 1, at)
                    keys = True
                    continue
            if not line or line.startswith(b"#"):
                continue
            if _TABLE.fullmatch(line):
                self.named = True
                continue
            found = parse(line)
            if found and len(found) == 1 and not isinstance(value := _only(found), (dict, list)):
                if keys:
                    self.values.setdefault(next(iter(found)), value)
                continue
            if closing is None or at > start + closing:
                self.bad.append(at + 1)
            elif lost is None:
                lost = at
                self.bad.append(at + 1)
            else:
                keys = False  # it is a line of that text, and no value of the head follows

    def _rest(self, key: str, start: int, stop: int) -> None:
        """Keep what is left of a text: its whole lines, and the last one up to the quotes."""
        lines = self._lines[start:stop]
        if stop < len(self._lines) and _QUOTES in self._lines[stop]:
            ending = self._lines[stop].rpartition(_QUOTES)[0]
            lines = [*lines, ending]
        elif lines and lines[-1].strip() == b"n = 0":
            lines = lines[:-1]
        read = tuple(_unescaped(line.removesuffix(b"\r")) for line in lines)
        first = read.index(None) if None in read else max(len(read) - 1, 0)
        self.rests.append(Rest(key, start + first + 1, read))


def _closing(lines: Sequence[bytes]) -> int | None:
    """The last line that holds three quotes: what is damaged before it may hold some too."""
    return max((at for at, line in enumerate(lines) if _QUOTES in line), default=None)


def _only(table: dict[str, Any]) -> object:
    return next(iter(table.values()))


def _unescaped(line: bytes) -> str | None:
    """A line of a long text as it was before it was written, or None."""
    found = parse(b'x = """\n' + line + _QUOTES)
    value = _only(found) if found and len(found) == 1 else None
    return value if isinstance(value, str) else None
