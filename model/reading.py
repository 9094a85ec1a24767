"""Reading a kit from a file or a text; the reader itself is loaded when a kit is read.

It brings a library of models with it that takes a third of the time of a start. A program
that has a kit read elsewhere, see `model.ahead`, never needs it.
"""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from model import limits
from model.finding import Finding, KitError, clean
from model.read import Read, too_large

__all__ = ["Read", "Reader", "load_kit", "read_kit"]


def read_kit(text: str) -> Read:
    """Read the text of a kit file.

    Args:
        text: The whole text.

    Returns:
        The plan, or all that is wrong with it, with lines.
    """
    from model.kitreader import read_text

    return read_text(text)


Reader = Callable[[str], Read]
"""Reads the text of a kit file: `read_kit`, or something that has read it already."""


def load_kit(path: Path, read: Reader = read_kit) -> Read:
    """Read a kit file.

    Args:
        path: The file.
        read: Reads its text.

    Returns:
        What came of it.

    Raises:
        KitError: The file can't be opened or is too large, or is no text.
    """
    try:
        with path.open("rb") as file:
            raw = file.read(limits.MOST_BYTES + 1)
    except (OSError, ValueError) as error:
        why = getattr(error, "strerror", None) or error
        finding = Finding("unreadable", (), clean(f"can't be read ({why})"), "check the path")
        raise KitError([finding], str(path)) from None
    if len(raw) > limits.MOST_BYTES:
        raise KitError([too_large()], str(path))
    try:
        text = raw.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = raw[: error.start].count(b"\n") + 1
        finding = Finding("not-utf8", (), "this is not UTF-8 text", "save it as UTF-8", line)
        raise KitError([finding], str(path)) from None
    return read(text)
