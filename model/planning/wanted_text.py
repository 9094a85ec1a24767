"""Lengths of a plan as text: exact, in one unit."""

from __future__ import annotations

from fractions import Fraction

from model.length import Unit

MM = {Unit.IN: Fraction(127, 5), Unit.CM: Fraction(10), Unit.MM: Fraction(1)}
"""Millimetres in one of each unit."""
FINEST = 9999
"""The largest denominator that a length of a kit may be written with."""


def exact(length: Fraction, unit: Unit) -> str:
    """A length in a unit, without its word: ``9 1/2``, ``24.1``; a fraction where it must be.

    Args:
        length: In mm.
        unit: The unit.
    """
    value = length / MM[unit]
    whole, part = divmod(value, 1)
    said = str(whole) if whole or not part else ""
    if not part:
        return said
    if unit is not Unit.IN and 1000 % part.denominator == 0:
        return f"{said or '0'}.{int(part * 1000):03}".rstrip("0")
    return f"{said} {part}".lstrip()
