"""A mending as text, as it stands in a session's file: a small TOML document.

Lengths are whole numbers of millimetres or fractions of them, such as ``4699/20``, so that
nothing is rounded. What a part becomes is a word and a name: ``role A/1``, ``strip end``,
``made patch``, ``scrap``.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterator, Mapping
from fractions import Fraction
from typing import Any, TypeVar

from model.geometry import PaperSide
from model.journal_text import write_string
from model.kit import Mark
from model.rescue.mending import AddedKind, CannotMend, Fate, MendedLoad, Mending, Share

T = TypeVar("T")
_LENGTH = re.compile(r"-?[0-9]{1,40}(/[0-9]{1,40})?", re.ASCII)
_LINE, _ABOUT = "line", "about "
_UP: dict[str, PaperSide | None] = {"": None, "face": "face", "reverse": "reverse"}
_TOP = ("at", "since", "gone", "idle", "unloaded", "small", "swapped", "spent", "kind", "load")
_LOAD = ("of", "marks", "gives", "rest", "turn", "up", "as_written", "torn")
_KIND = ("name", "like", "pocket", "page", "size", "backs")
_STRING = r'"(?:[^"\\]|\\.)*"'
_LISTED = rf"\[(?:{_STRING}(?:, {_STRING})*)?\]"
_PLAIN = re.compile(
    rf"\[\[[a-z]+\]\]|[a-z_]+ = (?:{_STRING}|-?[0-9]{{1,18}}|true|false|{_LISTED}"
    rf"|\[{_LISTED}(?:, {_LISTED})*\])"
)
"""A line as `to_text` writes it: no other TOML is let in, some of which takes very long to read."""


def to_text(mending: Mending) -> str:
    """A mending as text; what is as it would be anyway is left out."""
    return "".join(f"{line}\n" for line in _lines(mending))


def _lines(mending: Mending) -> Iterator[str]:
    yield from _some("at", mending.at)
    yield from _some("since", mending.since)
    yield from _some("gone", mending.gone)
    yield from _some("idle", mending.idle)
    yield from _some("unloaded", mending.unloaded)
    yield from _some("small", mending.small)
    if mending.swapped:
        yield f"swapped = [{', '.join(_value(pair) for pair in mending.swapped)}]"
    for name, pocket in mending.spent:
        yield "[[spent]]"
        yield f"kind = {_value(name)}"
        yield f"pocket = {pocket}"
    for kind in mending.kinds:
        yield "[[kind]]"
        yield f"name = {_value(kind.name)}"
        yield from _some("like", kind.like)
        yield f"pocket = {kind.pocket}"
        if kind.page is not None:
            yield f"page = {kind.page}"
        yield f"size = {_value(tuple(str(length) for length in kind.size))}"
        yield from _some("backs", kind.backs)
    for load in mending.loads:
        yield "[[load]]"
        yield f"of = {_value(load.of)}"
        yield f"marks = {_value(tuple(_mark(mark) for mark in load.marks))}"
        yield f"gives = {_value(tuple(_share(share) for share in load.gives))}"
        yield f"rest = {_value(_share(load.rest))}"
        yield from _some("turn", load.turn)
        yield from _some("up", load.up or "")
        yield from _some("as_written", load.as_written)
        yield from _some("torn", load.torn)


def _some(key: str, value: str | int | bool | tuple[str, ...]) -> Iterator[str]:
    if value:
        yield f"{key} = {_value(value)}"


def _value(value: str | int | bool | tuple[str, ...]) -> str:
    if isinstance(value, tuple):
        return f"[{', '.join(write_string(each) for each in value)}]"
    if isinstance(value, str):
        return write_string(value)
    return str(value).lower()


def _mark(mark: Mark) -> str:
    return _ABOUT * mark.about + (_LINE if mark.at is None else str(mark.at))


def _share(share: Share) -> str:
    return f"{share.fate} {share.name}" if share.name else str(share.fate)


# Reading


def from_text(text: str) -> Mending:
    """A mending from its text.

    Args:
        text: What `to_text` wrote.

    Raises:
        CannotMend: It is no mending, or was damaged: ``damaged``.
    """
    try:
        if not all(_PLAIN.fullmatch(line) for line in text.split("\n") if line):
            raise ValueError(text)
        return _mending(tomllib.loads(text))
    except (ValueError, TypeError, KeyError, RecursionError, ZeroDivisionError):
        raise CannotMend("damaged") from None


def _mending(table: Mapping[str, Any]) -> Mending:
    _only(table, _TOP)
    spent = [_only(each, ("kind", "pocket")) for each in _list(table.get("spent", []))]
    return Mending(
        at=_is(str, table.get("at", "")),
        since=_is(int, table.get("since", 0)),
        gone=_texts(table.get("gone", [])),
        idle=_texts(table.get("idle", [])),
        unloaded=_texts(table.get("unloaded", [])),
        small=_texts(table.get("small", [])),
        swapped=tuple(_pair(each) for each in _list(table.get("swapped", []))),
        spent=tuple((_is(str, each["kind"]), _is(int, each["pocket"])) for each in spent),
        kinds=tuple(_kind(each) for each in _list(table.get("kind", []))),
        loads=tuple(_load(each) for each in _list(table.get("load", []))),
    )


def _kind(table: Mapping[str, Any]) -> AddedKind:
    _only(table, _KIND)
    page = table.get("page")
    width, height = _pair(table["size"])
    return AddedKind(
        _is(str, table["name"]),
        _is(str, table.get("like", "")),
        _is(int, table["pocket"]),
        None if page is None else _is(int, page),
        (_length(width), _length(height)),
        _is(str, table.get("backs", "")),
    )


def _load(table: Mapping[str, Any]) -> MendedLoad:
    _only(table, _LOAD)
    return MendedLoad(
        _is(str, table["of"]),
        tuple(_read_mark(mark) for mark in _texts(table["marks"])),
        tuple(_read_share(share) for share in _texts(table["gives"])),
        _read_share(_is(str, table["rest"])),
        _is(int, table.get("turn", 0)),
        _UP[_is(str, table.get("up", ""))],
        _is(bool, table.get("as_written", False)),
        _is(bool, table.get("torn", False)),
    )


def _read_mark(text: str) -> Mark:
    at = text.removeprefix(_ABOUT)
    return Mark(None if at == _LINE else _length(at), at != text)


def _read_share(text: str) -> Share:
    fate, _, name = text.partition(" ")
    return Share(Fate(fate), name)


def _length(text: str) -> Fraction:
    if not _LENGTH.fullmatch(text):
        raise ValueError(text)
    return Fraction(text)


def _only(table: Any, keys: tuple[str, ...]) -> Mapping[str, Any]:
    """A table with no other keys: those of a later version may change its sense."""
    if not isinstance(table, dict) or not table.keys() <= {*keys}:
        raise ValueError(table)
    return table


def _list(value: Any) -> list[Any]:
    return _is(list, value)


def _texts(value: Any) -> tuple[str, ...]:
    return tuple(_is(str, each) for each in _list(value))


def _pair(value: Any) -> tuple[str, str]:
    one, other = _texts(value)
    return one, other


def _is(type_: type[T], value: Any) -> T:
    if type(value) is not type_:  # a truth value is no number
        raise TypeError(value)
    return value
