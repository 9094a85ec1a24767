"""A language for tests: English in letters of another alphabet, made by itself.

What a screen shows in Latin letters was not said by the language. (Brackets around each sentence
would not show that: a screen wraps and crops what it is told.)
"""

from __future__ import annotations

import string
from collections.abc import Callable, Mapping
from functools import cached_property, wraps
from typing import Any

_OTHERS = "абвгдежзийклмнопрстуфхцчшщ"
_LETTERS = str.maketrans(string.ascii_letters, _OTHERS + _OTHERS.upper())
_BACK = {other: letter for letter, other in _LETTERS.items()}
ENGLISH = "model.language.english"


def foreign(value: Any) -> Any:
    """A text in other letters; of what holds texts, each of them; anything else as it is."""
    if isinstance(value, str):
        return value.translate(_LETTERS)
    if isinstance(value, tuple):
        each = map(foreign, value)
        return type(value)(*each) if hasattr(value, "_fields") else tuple(each)
    if isinstance(value, list):
        return [foreign(each) for each in value]
    if isinstance(value, Mapping):
        return {key: foreign(each) for key, each in value.items()}
    return value


def latin(text: str) -> str:
    """A text in other letters, back in Latin ones."""
    return text.translate(_BACK)


def _wrapped(method: Callable[..., Any]) -> Callable[..., Any]:
    @wraps(method)
    def wrapper(*args: Any, **more: Any) -> Any:
        return foreign(method(*args, **more))

    return wrapper


def said_by(words: type) -> dict[str, Any]:
    """What a class of words says: its public methods and its parts, by their names."""
    return {
        name: value
        for each in reversed(words.__mro__)
        if each.__module__.startswith(ENGLISH)
        for name, value in vars(each).items()
        if not name.startswith("_")
    }


def translated(words: type) -> type:
    """The class in the language for tests."""
    made: dict[str, Any] = {}
    for name, value in said_by(words).items():
        if isinstance(value, cached_property):
            made[name] = _part(value.func)
        elif isinstance(value, staticmethod):
            made[name] = staticmethod(_wrapped(value.__func__))
        elif callable(value):
            made[name] = _wrapped(value)
    return type(f"Foreign{words.__name__}", (words,), made)


def _part(func: Callable[[Any], Any]) -> property:
    def part(self: Any) -> Any:
        name = f"_foreign_{func.__name__}"
        if name not in vars(self):
            vars(self)[name] = translated(type(func(self)))()
        return vars(self)[name]

    return property(part)
