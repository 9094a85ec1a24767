"""Whole numbers that stand for lengths, as they were typed.

`tomllib` hands out floats as text, but whole numbers only as what they are worth: ``0x6``,
``1_0`` and ``6`` look alike. A length is a decimal that a ruler shows, so the other ways to write
a number are put back as text, and refused where lengths are read (`model.length`).
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Any

from model.finding import Path
from model.length import NumberText
from model.toml_lines import TomlLines

# A value has a blank, a bracket, a comma or = before it. So where this is nowhere in a file, no
# whole number in it has a prefix, a sign or an underscore (TOML 1.0.0, "Integer"); where it is,
# it may be a part of a text, and the source is looked at more closely.
_UNUSUAL = re.compile(r"[\s=\[,{](?:[+-][0-9]|0[xob][0-9A-Fa-f]|[0-9]+_[0-9])")
_PLAIN = re.compile("-?[0-9]+")
_LENGTHS = {
    "ribbon": ("length", "to"),
    "precut": ("smaller_by",),
    "embellishment": ("smaller_by",),
    "piece": ("smaller_by",),
    "want": ("smaller_by",),
    "step": ("marks", "widths", "length"),
}


def put_back(raw: dict[str, Any], text: str, lines: TomlLines) -> None:
    """Put lengths that are not typed as plain decimals back as they were typed.

    Args:
        raw: What `tomllib` made of the text; changed in place.
        text: The text of the kit file.
        lines: The same text, by its places.
    """
    if not _UNUSUAL.search(text):
        return
    for holder, key, path in _whole_numbers(raw):
        typed = lines.text_of(path)
        if typed and not _PLAIN.fullmatch(typed):
            holder[key] = NumberText(typed)


def _whole_numbers(raw: dict[str, Any]) -> Iterator[tuple[Any, Any, Path]]:
    """Each whole number that stands for a length: where it is held, its key and its place."""
    for key in ("ruler", "graduation", "narrowest"):
        yield from _in(raw, key, ())
    for array, keys in _LENGTHS.items():
        tables = raw.get(array)
        for index, table in enumerate(tables if isinstance(tables, list) else ()):
            if isinstance(table, dict):
                for key in keys:
                    yield from _in(table, key, (array, index))


def _in(holder: Any, key: str | int, path: Path) -> Iterator[tuple[Any, Any, Path]]:
    if isinstance(holder, dict) and key not in holder:
        return
    value, here = holder[key], (*path, key)
    if isinstance(value, int) and not isinstance(value, bool):
        yield holder, key, here
    elif isinstance(value, list):
        for number in range(len(value)):
            yield from _in(value, number, here)
    elif isinstance(value, dict):
        for inner in value:
            yield from _in(value, inner, here)
