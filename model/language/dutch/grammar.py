"""Lists and numbers in Dutch sentences."""

from __future__ import annotations

from collections.abc import Sequence


def listed(words: Sequence[str], last: str = "en") -> str:
    """Words in a row: ``3``, ``3 en 7``, ``3, 5 en 7``."""
    if len(words) < 2:
        return "".join(words)
    return f"{', '.join(words[:-1])} {last} {words[-1]}"


def counted(number: int, one: str, many: str) -> str:
    """A number of something: ``1 restje``, ``3 restjes``; no rule gives every plural."""
    return f"{number} {one if number == 1 else many}"


def number_word(count: int) -> str:
    """A small number in letters, in ASCII as all that is said: ``een`` without its accents."""
    words = ("nul", "een", "twee", "drie", "vier", "vijf", "zes", "zeven", "acht", "negen", "tien")
    return words[count] if count < len(words) else str(count)


def some(words: Sequence[str], most: int, comma: str = ", ") -> str:
    """A list that does not grow without end: ``a, b, c en nog 4``."""
    if len(words) <= most:
        return comma.join(words)
    return f"{comma.join(words[:most])} en nog {len(words) - most}"


def of_it(count: int, name: str) -> str:
    """So many of what a kit has a name for: ``1 brad``, ``2 stuks brad``.

    The name stays as the kit writes it, so it is never put in the plural.
    """
    return f"1 {name}" if count == 1 else f"{count} stuks {name}"
