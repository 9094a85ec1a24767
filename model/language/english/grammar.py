"""Lists and numbers in English sentences."""

from __future__ import annotations

from collections.abc import Sequence


def listed(words: Sequence[str], last: str = "and") -> str:
    """Words in a row: ``3``, ``3 and 7``, ``3, 5 and 7``."""
    if len(words) < 2:
        return "".join(words)
    return f"{', '.join(words[:-1])} {last} {words[-1]}"


def counted(number: int, one: str, many: str = "") -> str:
    """A number of something: ``1 scrap``, ``3 scraps``."""
    return f"{number} {one if number == 1 else many or one + 's'}"


def number_word(count: int) -> str:
    """A small number in letters."""
    words = ("none", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten")
    return words[count] if count < len(words) else str(count)


def some(words: Sequence[str], most: int, comma: str = ", ") -> str:
    """A list that does not grow without end: ``a, b, c and 4 more``."""
    if len(words) <= most:
        return comma.join(words)
    return f"{comma.join(words[:most])} and {len(words) - most} more"
