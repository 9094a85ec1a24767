"""Names of keys: as people write them, as they are kept, as they are said; and what can be no key.

A key is a plain string. It is kept by its long name: ``question_mark`` for ``?``, ``ctrl+r``.
"""

from __future__ import annotations

import unicodedata

from model.language.english.keys import KeyPhrases

_NAMED = {
    "space", "enter", "tab", "backspace", "escape", "delete", "insert",
    "home", "end", "pageup", "pagedown", "up", "down", "left", "right",
    *(f"f{number}" for number in range(1, 13)),
}  # fmt: skip
_ALSO = {
    "esc": "escape", "return": "enter", "spacebar": "space", "del": "delete", "ins": "insert",
    "pgup": "pageup", "page_up": "pageup", "pgdn": "pagedown", "page_down": "pagedown",
}  # fmt: skip
_SHORT = {
    "solidus": "slash",
    "reverse_solidus": "backslash",
    "commercial_at": "at",
    "hyphen_minus": "minus",
    "plus_sign": "plus",
    "low_line": "underscore",
}
"""Signs that terminals' programs call by another name than Unicode does."""
_SAID = {
    "space": "Space",
    "enter": "Enter",
    "tab": "Tab",
    "backspace": "Backspace",
    "escape": "Esc",
    "delete": "Del",
    "insert": "Ins",
    "home": "Home",
    "end": "End",
    "pageup": "PgUp",
    "pagedown": "PgDn",
    "up": "↑",
    "down": "↓",
    "left": "←",
    "right": "→",
}
_ARROWS = {"↑": "Up", "↓": "Down", "←": "Left", "→": "Right"}
_SAME = {
    "ctrl+h": "Backspace",
    "ctrl+i": "Tab",
    "ctrl+j": "Enter",
    "ctrl+m": "Enter",
    "ctrl+[": "Esc",
    "ctrl+left_square_bracket": "Esc",
}
"""Keys that reach a program as another key does.

They send the same control characters: BS, HT, LF, CR and ESC (ASCII, ECMA-48).
"""
_STOLEN = {"ctrl+c", "ctrl+z", "ctrl+s", "ctrl+backslash", "ctrl+\\"}
_ENGLISH = KeyPhrases()
_CONTROLLED = "abcdefghijklmnopqrstuvwxyz"


_PICTURES = 0x2E80
"""Where the signs end that keyboards have: pictures have names as well, such as fruit."""


def name_of_sign(sign: str) -> str:
    """The long name of a key of one sign; letters and digits are their own."""
    if sign == " ":
        return "space"
    if sign.isalnum():
        return sign
    name = unicodedata.name(sign, "").lower().replace("-", "_").replace(" ", "_")
    return _SHORT.get(name, name)


def _sign_named(name: str) -> str:
    """The sign of a long name; empty for none."""
    if name in _SIGNS:
        return _SIGNS[name]
    try:
        sign = unicodedata.lookup(name.replace("_", " "))
    except KeyError:
        return ""
    known = ord(sign) < _PICTURES and sign.isprintable()
    return sign if known and name_of_sign(sign) == name else ""


_SIGNS = {name_of_sign(chr(code)): chr(code) for code in range(0x21, 0x7F)}


def read_key(written: str, words: KeyPhrases = _ENGLISH) -> tuple[str, str]:
    """A key as someone wrote or pressed it.

    Args:
        written: Such as ``u``, ``U``, ``+``, ``space``, ``F2``, ``Ctrl+R``.
        words: Words on keys.

    Returns:
        Its long name and an empty text; or an empty name and why it can be no key here.
    """
    text = written if len(written) == 1 else written.strip()
    if not text:
        return "", words.no_name()
    if len(text) == 1:
        if text.isdigit():
            return "", words.digits()
        name = name_of_sign(text)
        if not text.isprintable() or not (text.isalnum() or _sign_named(name)):
            return "", words.no_key(text)
        return name, ""
    lower = text.lower()
    name = _ALSO.get(lower, lower)
    if name in _NAMED or _sign_named(name):
        return name, ""
    *held, last = lower.split("+")
    if lower in _SAME:
        return "", words.same_as(_SAME[lower])
    if lower in _STOLEN:
        return "", words.stolen(lower)
    if {"alt", "meta", "super", "hyper", "cmd"} & set(held):
        return "", words.esc_before()
    last = _ALSO.get(last, last)
    if held == ["ctrl"] and len(last) == 1 and last in _CONTROLLED:
        return f"ctrl+{last}", ""
    if held == ["shift"] and len(last) == 1 and last in _CONTROLLED:
        return last.upper(), ""
    if held == ["shift"] and last in (_NAMED - {"space", "enter", "escape", "backspace"}):
        return f"shift+{last}", ""
    if held and set(held) <= {"ctrl", "shift"} and (last in _NAMED or len(last) == 1):
        return "", words.not_everywhere()
    return "", words.no_key(text)


def say_key(key: str, ascii: bool = False) -> str:
    """A key as people say it: ``Space``, ``?``, ``Ctrl+R``, ``F2``."""
    *held, last = key.split("+")
    said = _SAID.get(last) or _sign_named(last) or last
    if last[:1] == "f" and last[1:].isdigit():
        said = last.upper()
    if held and len(said) == 1 and said.isalpha():
        said = said.upper()
    if ascii:
        said = _ARROWS.get(said, said)
    return "+".join((*(each.capitalize() for each in held), said))
