"""How one session's records are written down as TOML text.

A record is flat: a few named values, written as one `[[did]]` table. Every value takes one line, so
no line inside a record can be mistaken for the head of the next. The record's number comes last and
ends it: a record without its number line was not finished. (A record cut off after any earlier line
would still be valid TOML, so the syntax alone cannot tell.)
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Mapping
from datetime import UTC, datetime, timedelta
from typing import Any, TypeAlias

Value: TypeAlias = "str | int | bool | datetime | list[str]"
Record: TypeAlias = "dict[str, Value]"

FORMAT = 1
"""The format of the file itself, kept as `journal` in its header."""

NUMBER = "n"
"""The key of a record's number; not for the caller's use. The header counts as number 0."""

OWN_KEYS = frozenset({"journal", "mended_from", NUMBER})
"""Keys of the header that belong to the file, not to the caller."""

BOM = b"\xef\xbb\xbf"
"""What some editors put in front of a text that they save."""
_BARE_KEY = re.compile(r"[A-Za-z0-9_-]+")
_HEAD = re.compile(rb"^\[\[did\]\]\r?$", re.MULTILINE)
_SURROGATE = re.compile("[\ud800-\udfff]")
# TOML 1.0, "String": what a basic string must escape is the quote, the backslash, and the control
# characters other than tab (U+0000 to U+0008, U+000A to U+001F, U+007F).
_ESCAPES = {code: f"\\u{code:04x}" for code in (*range(0x20), 0x7F) if code != 0x09} | {
    ord('"'): '\\"',
    ord("\\"): "\\\\",
    ord("\n"): "\\n",
    ord("\r"): "\\r",
}


def tame(value: Value) -> Value:
    """The value as TOML can hold it.

    Half a surrogate pair, which no UTF-8 file can hold, becomes U+FFFD. A time whose offset is not
    a whole number of minutes, which TOML cannot write, becomes the same moment in UTC.

    Raises:
        TypeError: the value is of none of the types a record may hold.
        ValueError: a whole number outside 64 bits, the range that TOML promises.
    """
    if isinstance(value, str):
        # str() also turns the member of a string enumeration into plain text.
        return _SURROGATE.sub("\ufffd", str(value)) if not value.isascii() else str(value)
    if isinstance(value, bool):
        return value
    if isinstance(value, int):
        if not -(2**63) <= value < 2**63:
            raise ValueError(f"{value} is too large a number for a session file")
        return int(value)
    if isinstance(value, datetime):
        offset = value.utcoffset()
        if offset is not None and offset % timedelta(minutes=1):
            return value.astimezone(UTC)
        return value
    if isinstance(value, list):
        if not all(isinstance(item, str) for item in value):
            raise TypeError("a list in a session file may hold text only")
        return [str(tame(item)) for item in value]
    raise TypeError(f"a session file cannot hold a {type(value).__name__}")


def write_string(text: str) -> str:
    """The text as a TOML basic string on one line, quotes included."""
    return f'"{text.translate(_ESCAPES)}"'


def write_key(key: str) -> str:
    """The key, bare when TOML allows it, quoted otherwise."""
    return key if _BARE_KEY.fullmatch(key) else write_string(str(tame(key)))


def write_value(value: Value) -> str:
    """The value as TOML, on one line.

    Raises:
        TypeError, ValueError: as `tame`.
    """
    value = tame(value)
    if isinstance(value, str):
        return write_string(value)
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, int):
        return str(value)
    if isinstance(value, datetime):
        return value.isoformat()
    return f"[{', '.join(map(write_string, value))}]"


def write_record(record: Mapping[str, Value], number: int) -> bytes:
    """One record as it is appended to the file: blank line, head, values, number.

    It starts with a line end, so that it stands apart even when somebody's editor has taken the
    last line end of the file away.

    Raises:
        TypeError, ValueError: a value that cannot be kept, or a key that is the file's own.
    """
    if NUMBER in record:
        raise ValueError(f"the key {NUMBER!r} of a record is the file's own")
    lines = [f"{write_key(key)} = {write_value(value)}\n" for key, value in record.items()]
    return f"\n[[did]]\n{''.join(lines)}{NUMBER} = {number}\n".encode()


def write_header(header: Mapping[str, Value], mended_from: str = "") -> bytes:
    """The head of the file: the `[session]` table, long text as multi-line strings.

    Like a record it ends with its number, so that a whole header can be told from a part of one.

    Args:
        header: the caller's keys and values.
        mended_from: the name of the damaged file that this one continues, if any.

    Raises:
        TypeError, ValueError: a value that cannot be kept, or a key that is the file's own.
    """
    import tomli_w

    taken = OWN_KEYS & header.keys()
    if taken:
        raise ValueError(f"the header's key {min(taken)!r} is the file's own")
    parts = [f"[session]\njournal = {FORMAT}\n"]
    if mended_from:
        parts.append(f"mended_from = {write_value(mended_from)}\n")
    for key, value in header.items():
        kept = tame(value)
        # In a multi-line string tomli_w turns CRLF into LF, and the kit's text would not be what
        # it was; such text is written on one line, where nothing changes.
        multiline = isinstance(kept, str) and "\r" not in kept
        parts.append(tomli_w.dumps({str(tame(key)): kept}, multiline_strings=multiline))
    parts.append(f"{NUMBER} = 0\n")
    return "".join(parts).encode()


def first_record(data: bytes) -> int:
    """Where the records begin: behind the kit's text, which may look like anything."""
    quotes, at = 0, 0
    for record in _HEAD.finditer(data):
        quotes += data.count(b'"""', at, record.start())
        at = record.start()
        if quotes % 2 == 0:
            return at
    return len(data)


def parse(raw: bytes) -> dict[str, Any] | None:
    """The bytes as TOML, or None when they are none."""
    try:
        return tomllib.loads(raw.removeprefix(BOM).decode())
    except (ValueError, RecursionError):  # bad TOML, bad UTF-8, absurd numbers or nesting
        return None
