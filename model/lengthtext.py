"""Writing lengths the way the trade does: ``9½``, ``9 7/16``, ``241 mm``, ``24.1 cm``."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import gcd
from typing import Final

from model.length import Unit

FINEST: Final = 64
"""Inches are written to this part of an inch; metric lengths to the millimetre."""

# Halves, quarters and eighths, which every common font has, in eighths.
_EIGHTHS = ("", "⅛", "¼", "⅜", "½", "⅝", "¾", "⅞")


@dataclass(frozen=True, slots=True)
class LengthStyle:
    """How one person wants lengths written.

    Attributes:
        unit: Inches with fractions, centimetres with one decimal, or whole millimetres.
        ascii: Whether to write ``9 1/2`` and ``x`` instead of ``9½`` and ``×``.
    """

    unit: Unit = Unit.IN
    ascii: bool = False


def write_length(x: Fraction, style: LengthStyle, *, with_unit: bool = False) -> str:
    """Write a length.

    Args:
        x: Millimetres.
        style: How to write it.
        with_unit: Whether inches carry their unit too; metric lengths always do.

    Returns:
        ``9½``, ``9½ in``, ``24.1 cm``, ``241 mm``; led by ``~`` when it is only the nearest
        sixty-fourth of an inch, or the nearest millimetre.
    """
    number = _number(x, style)
    return f"{number} {style.unit}" if with_unit or style.unit is not Unit.IN else number


def write_size(
    width: Fraction, height: Fraction, style: LengthStyle, *, with_unit: bool = False
) -> str:
    """Write a size, its unit once: ``3½ × 5½``, ``210 × 297 mm``.

    Args:
        width: Millimetres; written first.
        height: Millimetres; written second.
        style: How to write both.
        with_unit: Whether inches carry their unit too; metric sizes always do.

    Returns:
        One line.
    """
    times = "x" if style.ascii else "×"
    return f"{_number(width, style)} {times} {write_length(height, style, with_unit=with_unit)}"


def _number(x: Fraction, style: LengthStyle) -> str:
    """A length without its unit word."""
    inches = style.unit is Unit.IN
    fine = x * FINEST * 5 / 127 if inches else x
    n = round(fine)
    led = "" if n == fine else "~"
    if n < 0:  # no paper is that long, but an error of reading may be
        led, n = led + "-", -n
    if inches:
        return led + _inches(n, style)
    return f"{led}{n // 10}.{n % 10}" if style.unit is Unit.CM else f"{led}{n}"


def _inches(n: int, style: LengthStyle) -> str:
    """So many sixty-fourths, as a mixed number."""
    whole, part = divmod(n, FINEST)
    if not part:
        return str(whole)
    lead = str(whole) if whole else ""
    if not style.ascii and part % 8 == 0:
        return lead + _EIGHTHS[part // 8]
    common = gcd(part, FINEST)
    return f"{lead} {part // common}/{FINEST // common}".lstrip()
