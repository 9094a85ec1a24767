"""Text in ASCII, without any library: for the screens and for plain lines."""

from __future__ import annotations

import unicodedata
from collections.abc import Callable

_DRAWN = str.maketrans(
    {
        **dict.fromkeys("▁▂▃", "_"),
        **dict.fromkeys("─━═▔╌╍┄┅┈┉–—−‐‑", "-"),
        **dict.fromkeys("│┃║▌▐▎▍▊▉▏▕▋╎╏┆┇┊┋", "|"),
        **dict.fromkeys("┌┐└┘├┤┬┴┼╭╮╯╰┏┓┗┛┣┫┳┻╋╔╗╚╝╠╣╦╩╬", "+"),
        **dict.fromkeys("▄▅▆▇▀█▓", "#"),
        **dict.fromkeys("·•", "-"),
        **dict.fromkeys("‘’‚′", "'"),
        **dict.fromkeys("“”„″«»", '"'),
        "×": "x",
        "→": ">",
        "←": "<",
        "↑": "^",
        "↓": "v",
        "▸": ">",
        "▶": ">",
        "▼": "v",
        "✓": "+",
        "⁄": "/",
        "ł": "l",
        "Ł": "L",
        "ß": "ss",
        "æ": "ae",
        "ø": "o",
        "œ": "oe",
        "Æ": "AE",
        "Ø": "O",
        "Œ": "OE",
        "🔎": "> ",  # before what is typed in the palette
    }
)


def ascii_text(text: str, width: Callable[[str], int] = len) -> str:
    """Text in ASCII: accents left out, fractions written out, and ``?`` for what is neither.

    Args:
        text: Any text.
        width: How many question marks stand for a character that is neither.
    """
    if text.isascii():
        return text
    made = ""
    for char in text:
        if char.isascii():
            made += char
            continue
        parts = unicodedata.normalize("NFKD", char.translate(_DRAWN)).translate(_DRAWN)
        kept = "".join(part for part in parts if part.isascii())
        if "/" in kept and made[-1:].isdigit():
            made += " "  # 1½ is no 11/2
        made += kept or "?" * width(char)
    return made
