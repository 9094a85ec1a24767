"""Rows of text for a terminal without any library: width in cells, wrapping, columns."""

from __future__ import annotations

import unicodedata
from collections.abc import Sequence


def cells(text: str) -> int:
    """How many cells a text takes: two for wide characters, none for what is put over another."""
    return sum(
        0 if unicodedata.combining(char) else 1 + (unicodedata.east_asian_width(char) in "WF")
        for char in text
    )


def padded(text: str, width: int) -> str:
    """A text with blanks after it."""
    return text + " " * max(0, width - cells(text))


def cropped(text: str, width: int) -> str:
    """A text cut off at a width."""
    while cells(text) > width:
        text = text[:-1]
    return text


def held(text: str, count: int = -1) -> str:
    """A text that is not broken: with hard blanks, all of them or the first ones."""
    return text.replace(" ", "\u00a0", count)


def free(text: str) -> str:
    """A text with usual blanks again."""
    return text.replace("\u00a0", " ")


def wrapped(text: str, width: int, hang: int = 0) -> list[str]:
    """A text in rows, broken between words, and inside of them only where one is too long.

    Args:
        text: One line.
        width: Of the rows.
        hang: By how much all rows but the first are set in.
    """
    if cells(text) <= width:
        return [text]
    rows = [" " * (len(text) - len(text.lstrip(" ")))]
    for word in text.lstrip(" ").split(" "):
        lead = " " * hang if len(rows) > 1 else ""
        joined = f"{rows[-1]} {word}" if rows[-1].strip() else f"{rows[-1]}{word}"
        if cells(joined) <= width:
            rows[-1] = joined
            continue
        if rows[-1].strip():
            rows.append(lead := " " * hang)
            rows[-1] += word
        else:
            rows[-1] += word
        while cells(rows[-1]) > width > len(lead) + 1:
            head = cropped(rows[-1], width)
            tail = rows[-1][len(head) :]
            rows[-1] = head
            rows.append(" " * hang + tail)
    return rows


def columns(
    rows: Sequence[Sequence[str]], width: int, right: Sequence[int] = (), gap: int = 2
) -> list[str] | None:
    """Cells side by side, those that are long in several rows; the first row is the heading.

    Args:
        rows: The cells.
        width: Of the whole.
        right: Columns that are set to the right.
        gap: Blanks between columns.

    Returns:
        The rows; None where a word would have to be broken.
    """
    count = len(rows[0])
    most = [max(cells(row[at]) for row in rows) for at in range(count)]
    least = [max(cells(w) for row in rows for w in row[at].split(" ")) for at in range(count)]
    room = width - gap * (count - 1)
    if sum(least) > room:
        return None
    widths = list(most)
    while sum(widths) > room:
        widest = max((at for at in range(count) if widths[at] > least[at]), key=lambda a: widths[a])
        widths[widest] -= 1
    made: list[str] = []
    for row in rows:
        parts = [wrapped(cell, wide) for cell, wide in zip(row, widths, strict=True)]
        for at in range(max(map(len, parts))):
            line = [part[at] if at < len(part) else "" for part in parts]
            shown = [
                " " * (widths[n] - cells(text)) + text if n in right else padded(text, widths[n])
                for n, text in enumerate(line)
            ]
            made.append((" " * gap).join(shown).rstrip())
    return made
