"""Says the same to the terminal in fewer bytes: a table over a slow line stays quick.

Textual gives every run of text its whole style and resets it after. Most neighbours share
their ground, if not more, so that only the difference need be sent: less than half.
"""

from __future__ import annotations

import re
from functools import lru_cache
from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from textual.driver import Driver

# ECMA-48 (5th ed., 1991), 8.3.117 SGR; 38 and 48 with 2 and 5 as ISO 8613-6, 90 to 107 as aixterm.
_SGR = re.compile(r"\x1b\[([0-9;]*)m")
_MOVES = re.compile(r"(?:\x1b\[[0-9]+;[0-9]+H|\n)*")
_LINE_ENDS = re.compile(r"\n+(?=\x1b\[[0-9]+;[0-9]+H)")  # the cursor is moved all the same
_HALF = re.compile(r"\x1b(?:\[[0-9;?]*)?\Z")
_OFF = {
    "1": "22",
    "2": "22",
    "3": "23",
    "4": "24",
    "21": "24",
    "5": "25",
    "6": "25",
    "7": "27",
    "8": "28",
    "9": "29",
    "53": "55",
}
_SEEN_ON_SPACES = frozenset(("4", "5", "6", "7", "9", "21", "53"))


class _Unknown(Exception):
    """A style that this module does not understand."""


class _Look(NamedTuple):
    """How text looks.

    Attributes:
        ink: The codes of its colour; empty for the terminal's own.
        ground: Those of its background.
        marks: Those of all else, such as bold.
    """

    ink: str = ""
    ground: str = ""
    marks: frozenset[str] = frozenset()


_BARE = _Look()


@lru_cache(maxsize=4096)
def _after(look: _Look, codes: str) -> _Look:
    """How text looks after a style is set on top of another."""
    ink, ground, marks = look
    rest = codes.split(";")
    while rest:
        code = rest.pop(0)
        if code in ("38", "48"):
            many = {"2": 4, "5": 2}.get(rest[0] if rest else "", 0)
            if not many or len(rest) < many:
                raise _Unknown
            colour = ";".join((code, *rest[:many]))
            del rest[:many]
            ink, ground = (colour, ground) if code == "38" else (ink, colour)
        elif code in ("", "0"):
            ink, ground, marks = _BARE
        elif code in _OFF:
            marks |= {code}
        elif code in _OFF.values():
            marks = frozenset(mark for mark in marks if _OFF[mark] != code)
        elif code in ("39", "49"):
            ink, ground = ("", ground) if code == "39" else (ink, "")
        elif re.fullmatch("[39][0-7]", code):
            ink = code
        elif re.fullmatch("4[0-7]|10[0-7]", code):
            ground = code
        else:
            raise _Unknown
    return _Look(ink, ground, marks)


@lru_cache(maxsize=8192)
def _change(old: _Look, new: _Look) -> str:
    """The shortest sequence that makes one look of another."""
    if old == new:
        return ""
    whole = ["0", *sorted(new.marks), *filter(None, (new.ink, new.ground))]
    off = {_OFF[mark] for mark in old.marks - new.marks}
    # One code ends both bold and dim, for example; what stays is set again.
    again = {mark for mark in new.marks if mark not in old.marks or _OFF[mark] in off}
    steps = [*sorted(off), *sorted(again)]
    if new.ink != old.ink:
        steps.append(new.ink or "39")
    if new.ground != old.ground:
        steps.append(new.ground or "49")
    return f"\x1b[{min(';'.join(whole), ';'.join(steps), key=len)}m"


@lru_cache(maxsize=8192)
def _for_spaces(old: _Look, new: _Look) -> _Look:
    """A look in which spaces are seen as in the new one, as near to the old one as can be."""
    if (old.marks | new.marks) & _SEEN_ON_SPACES:
        return new
    return _Look(old.ink, new.ground, old.marks)


def shorten(text: str) -> str:
    """The same picture in fewer bytes.

    Args:
        text: What would be sent to a terminal whose style is reset.

    Returns:
        What shows the same there and leaves its style as the text would; the text itself when
        there is something in it that is not understood.
    """
    parts = _SGR.split(text)
    if len(parts) < 3 or _HALF.search(text):
        return text
    sent: list[str] = []
    now = wanted = _BARE
    try:
        for number, part in enumerate(parts):
            if number % 2:
                wanted = _after(wanted, part)
            elif part and (now == wanted or _MOVES.fullmatch(part)):
                sent.append(_LINE_ENDS.sub("", part))
            elif part:
                target = wanted if part.strip(" ") else _for_spaces(now, wanted)
                sent += (_change(now, target), _LINE_ENDS.sub("", part))
                now = target
    except _Unknown:
        return text
    sent.append(_change(now, wanted))
    return "".join(sent)


def lean(driver: type[Driver]) -> type[Driver]:
    """A driver that sends the same as another in fewer bytes."""

    class Lean(driver):  # type: ignore[misc, valid-type]
        def write(self, data: str) -> None:
            super().write(shorten(data))

    return Lean
