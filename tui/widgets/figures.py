"""The mark in very large figures, readable from a metre away.

A small bitmap font of our own, five pixels high, scaled by whole numbers. A terminal cell
is about twice as high as it is wide, so a square pixel is two cells wide and one row high.
A row of a terminal measures some 4 to 5 mm, so the smallest figures are about 2 cm high.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Iterator, Sequence
from functools import lru_cache
from typing import Literal, TypeAlias

from rich.cells import cell_len, set_cell_size

from tui.widgets.lines import clean
from tui.widgets.panel import Row, Tone

Ink: TypeAlias = Literal["ink", "ink-good", "ink-warn", "ink-unit"]
"""The tones of a panel in which figures are filled."""
_WORDS: dict[Ink, Tone] = {
    "ink": "strong", "ink-good": "good", "ink-warn": "warn", "ink-unit": "muted"
}  # fmt: skip
"""The tones of all in a figure that is not filled, such as ``#``, or plain text."""
Pixel: TypeAlias = tuple[int, int]
"""How wide (cells) and how high (rows) one pixel of the font is drawn."""

INK = "█"
"""A cell that is filled; it is painted as a reversed space."""
HASH = "#"
"""A cell that is filled, where only ASCII may be used."""

ROWS = 5
_FONT = {
    "0": "### #.# #.# #.# ###",
    "1": ".#. ##. .#. .#. ###",
    "2": "### ..# ### #.. ###",
    "3": "### ..# ### ..# ###",
    "4": "#.# #.# ### ..# ..#",
    "5": "### #.. ### ..# ###",
    "6": "### #.. ### #.# ###",
    "7": "### ..# ..# ..# ..#",
    "8": "### #.# ### #.# ###",
    "9": "### #.# ### ..# ###",
    "/": "...# ..#. ..#. .#.. #...",
    ".": ". . . . #",
    ",": ". . . # #",
    "~": ".... .#.# #.#. .... ....",
    "-": "... ... ### ... ...",
    "+": "... .#. ### .#. ...",
    "?": "### ..# .## ... .#.",
    "A": "### #.# ### #.# #.#",
    "B": "##. #.# ##. #.# ##.",
    "C": "### #.. #.. #.. ###",
    "D": "##. #.# #.# #.# ##.",
    "E": "### #.. ##. #.. ###",
    "F": "### #.. ##. #.. #..",
    "G": "#### #... #.## #..# ####",
    "H": "#.# #.# ### #.# #.#",
    "I": "# # # # #",
    "J": "..# ..# ..# #.# ###",
    "K": "#..# #.#. ##.. #.#. #..#",
    "L": "#.. #.. #.. #.. ###",
    "M": "#...# ##.## #.#.# #...# #...#",
    "N": "#..# ##.# #.## #..# #..#",
    "O": "#### #..# #..# #..# ####",
    "P": "### #.# ### #.. #..",
    "Q": "#### #..# #..# #.## ####",
    "R": "##. #.# ##. #.# #.#",
    "S": ".## #.. .#. ..# ##.",
    "T": "### .#. .#. .#. .#.",
    "U": "#.# #.# #.# #.# ###",
    "V": "#.# #.# #.# #.# .#.",
    "W": "#...# #...# #.#.# ##.## #...#",
    "X": "#.# #.# .#. #.# #.#",
    "Y": "#.# #.# .#. .#. .#.",
    "Z": "### ..# .#. #.. ###",
}
_UNIT_FONT = {  # units are written small: MM would be another unit
    "c": "... ### #.. #.. ###",
    "i": "# . # # #",
    "m": "..... ####. #.#.# #.#.# #.#.#",
    "n": "... ##. #.# #.# #.#",
}
_UNITS = ("in", "cm", "mm")

_GAP = 1  # pixels between two characters
_SPACE = 3  # pixels between two words, or a whole number and its fraction


@lru_cache(maxsize=256)
def big_text(
    text: str, width: int, height: int, ascii: bool = False, tall: bool = False
) -> tuple[str, ...]:
    """Text in the largest figures that fit.

    A fraction that does not fit beside its whole number at the same scale is set one scale
    smaller, on the same foot.

    Args:
        text: Such as ``10 1/2``, ``~11``, ``241``, ``24.1``, ``line``, ``mm``; ``9½`` too.
        width: Cells there are.
        height: Rows there are.
        ascii: Fill pixels with ``#``; otherwise with ``INK``.
        tall: Figures may be narrower than usual, where they are higher so.

    Returns:
        Rows of equal width, within ``width`` and ``height``, of spaces and filled cells.
        Where no figures fit, or the font lacks a character, one row of plain text that is
        cropped to the width. No row where there is no room or no text.
    """
    words = _spell(text).split()
    if width <= 0 or height <= 0 or not words:
        return ()
    if all(_drawable(word) for word in words):
        for whole, part in _pixel_sizes(width, height, tall):
            sizes = [part if _is_fraction(word, words) else whole for word in words]
            if _measure(words, sizes) <= width:
                return tuple(_draw(words, sizes, HASH if ascii else INK))
    plain = clean(text).strip()
    return (set_cell_size(plain, min(width, cell_len(plain))),) if plain else ()


def _spell(text: str) -> str:
    """Fraction characters written out: ``9½`` becomes ``9 1/2``."""
    spelled = []
    for char in text:
        parts = unicodedata.normalize("NFKC", char)
        if "⁄" in parts and parts != "⁄":
            spelled.append(f" {parts.replace('⁄', '/')} ")
        else:
            spelled.append(parts.replace("⁄", "/"))
    return "".join(spelled)


def _glyphs(word: str) -> Sequence[str] | None:
    """The font's rows of each character, or None when one is missing."""
    if word in _UNITS:
        return [_UNIT_FONT[char] for char in word]
    found = [_FONT.get(char.upper()) for char in word]
    return None if None in found else [glyph for glyph in found if glyph]


def _drawable(word: str) -> bool:
    return _glyphs(word) is not None


def _is_fraction(word: str, words: Sequence[str]) -> bool:
    """Whether it is the fraction of a mixed number, and so may be set smaller."""
    return "/" in word and len(words) > 1


def _pixel_sizes(width: int, height: int, tall: bool = False) -> Iterator[tuple[Pixel, Pixel]]:
    """Pixels of whole numbers and of fractions to try, the largest first."""
    largest = min(height // ROWS, width // 2)
    pixels = [(2 * scale, scale) for scale in range(largest, 0, -1)]
    if height >= ROWS:
        pixels.append((1, 1))
    if tall:  # down to half of the usual width
        pixels = [
            (wide, high)
            for high in range(height // ROWS, 0, -1)
            for wide in range(2 * high, high - 1, -1)
        ]
    for number, whole in enumerate(pixels):
        yield whole, whole
        if number + 1 < len(pixels):
            yield whole, pixels[number + 1]


def _word_width(word: str) -> int:
    """Width in pixels."""
    glyphs = _glyphs(word) or ()
    return sum(glyph.index(" ") for glyph in glyphs) + _GAP * (len(glyphs) - 1)


def _measure(words: Sequence[str], sizes: Sequence[Pixel]) -> int:
    """Width in cells."""
    spaces = sum(_SPACE * wide for wide, _ in sizes[:-1])
    return spaces + sum(
        _word_width(word) * wide for word, (wide, _) in zip(words, sizes, strict=True)
    )


def _draw(words: Sequence[str], sizes: Sequence[Pixel], fill: str) -> list[str]:
    """The rows, words side by side on one foot."""
    height = max(high for _, high in sizes) * ROWS
    rows = [""] * height
    for number, (word, (wide, high)) in enumerate(zip(words, sizes, strict=True)):
        lead = " " * (_SPACE * sizes[number - 1][0]) if number else ""
        blank = " " * (_word_width(word) * wide)
        top = height - ROWS * high
        pixels = [glyph.split() for glyph in _glyphs(word) or ()]
        for y in range(height):
            if y < top:
                rows[y] += lead + blank
                continue
            line = ("." * _GAP).join(glyph[(y - top) // high] for glyph in pixels)
            rows[y] += lead + "".join((fill if dot == "#" else " ") * wide for dot in line)
    return rows


@lru_cache(maxsize=256)
def figure_rows(
    text: str,
    unit: str,
    tone: Ink,
    width: int,
    height: int,
    ascii: bool = False,
    tall: bool = False,
) -> tuple[Row, ...]:
    """A mark as large as a region allows, with its unit beside it, as rows of a panel.

    Args:
        text: As for `big_text`.
        unit: Written smaller after it; may be empty.
        tone: What the colour says; it says nothing that words beside it do not.
        width: Cells there are.
        height: Rows there are.
        ascii: Fill pixels with ``#`` instead of reversed spaces.
        tall: As for `big_text`.

    Returns:
        At most ``height`` rows; one of plain text where no figures fit, none for no text.
    """
    beside = cell_len(unit) + 1 if unit and text else 0
    figures = big_text(text, max(1, width - beside), height, ascii, tall) if width > 0 else ()
    rows = [_painted(row, tone) for row in figures]
    return tuple(_with_unit(rows, unit, width, ascii, tall) if rows and unit else rows)


def _painted(row: str, tone: Ink) -> Row:
    """Filled cells as reversed spaces: they need no glyph and survive a lack of colour."""
    spans: Row = []
    start = 0
    for at in range(1, len(row) + 1):
        if at == len(row) or (row[at] == INK) != (row[start] == INK):
            run = row[start:at]
            spans.append((" " * len(run) if row[start] == INK else run, tone))
            if row[start] != INK:
                spans[-1] = (run, _WORDS[tone])
            start = at
    return spans


def _with_unit(
    rows: list[Row], unit: str, width: int, ascii: bool, tall: bool = False
) -> list[Row]:
    """The unit on the foot of the figures: large where there is room, else as a word."""
    used = max(sum(cell_len(text) for text, _ in row) for row in rows)
    if len(rows) > 1:
        big = big_text(unit, width - used - 4, len(rows) // 2, ascii, tall)
        if len(big) > 1:
            top = len(rows) - len(big)
            return [
                row if y < top else [*row, ("    ", "plain"), *_painted(big[y - top], "ink-unit")]
                for y, row in enumerate(rows)
            ]
    word = clean(unit)
    if word and used + 1 + cell_len(word) <= width:  # half a unit would be another unit
        rows = [*rows[:-1], [*rows[-1], (f" {word}", "muted")]]
    return rows
