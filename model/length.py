"""Reading lengths: what a crafter writes becomes an exact number of millimetres.

A length is a `Fraction` of millimetres, always, so that nothing is ever lost on the way:
1 in = 25.4 mm exactly (international yard and pound agreement, 1959), 1/16 in = 127/80 mm.

The text is matched as it stands. It is never put through Unicode normalisation: NFKC
would turn ``2¾`` into ``23⁄4``, which is nearly six inches instead of two and three quarters.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from decimal import Decimal
from enum import StrEnum
from fractions import Fraction

Length = Fraction
"""Millimetres."""


class LengthError(ValueError):
    """A length that can't be read.

    Attributes:
        what: What was read and what is wrong with it, without a full stop.
        remedy: What would be right.
    """

    def __init__(self, what: str, remedy: str) -> None:
        """Join both halves into one message for people."""
        super().__init__(f"{what}; {remedy}")
        self.what = what
        self.remedy = remedy


class Unit(StrEnum):
    """The unit of a kit, used where a length is written without one."""

    IN = "in"
    CM = "cm"
    MM = "mm"


class NumberText(str):
    """A TOML float as it was typed; give this class to `tomllib` as ``parse_float``.

    So ``9.1`` stays 91/10 and never becomes the float next to it.
    """

    __slots__ = ()


LIMIT = Fraction(2000)
"""The longest length of paper, in mm: 2 m."""
CORD_LIMIT = Fraction(100_000)
"""The longest ribbon or thread, in mm: 100 m."""

# Longer texts are refused unread, so that no text, however long, costs time.
_MAX_TEXT = 40
_MAX_SIZE_TEXT = 2 * _MAX_TEXT + 8
# Finer than any ruler, yet a converted 11.6929133858 in still reads.
_MAX_PLACES = 12
_MAX_DENOMINATOR = 9999

_Factor = tuple[int, int]  # millimetres in one unit, as numerator and denominator
_INCH: _Factor = (127, 5)
_FOOT: _Factor = (1524, 5)
_YARD: _Factor = (4572, 5)

# ″ is the double prime; ” is what a word processor makes of a typed inch mark. ' likewise.
_PAPER: Mapping[str, _Factor] = {
    **dict.fromkeys(("in", "inch", "inches", '"', "″", "”"), _INCH),
    "cm": (10, 1),
    "mm": (1, 1),
}
_CORD: Mapping[str, _Factor] = {
    **_PAPER,
    "m": (1000, 1),
    **dict.fromkeys(("yd", "yard", "yards"), _YARD),
    **dict.fromkeys(("ft", "foot", "feet", "'", "′", "’"), _FOOT),
}
_EXAMPLE: Mapping[str, str] = {"in": "9 1/2", "cm": "24.1", "mm": "241"}

_VULGAR: Mapping[str, tuple[int, int]] = {
    "½": (1, 2), "⅓": (1, 3), "⅔": (2, 3), "¼": (1, 4), "¾": (3, 4),
    "⅕": (1, 5), "⅖": (2, 5), "⅗": (3, 5), "⅘": (4, 5), "⅙": (1, 6), "⅚": (5, 6),
    "⅐": (1, 7), "⅛": (1, 8), "⅜": (3, 8), "⅝": (5, 8), "⅞": (7, 8), "⅑": (1, 9), "⅒": (1, 10),
}  # fmt: skip

_SPACE = r"[ \t\u00a0\u2009\u202f]"  # the plain ones and those that typesetters use
_SLASH = r"[/\u2044\u2215]"  # /, fraction slash, division slash
_HYPHEN = r"[-\u2010\u2011\u2013]"
_MARKS = "\"″”'′’"
_SHAPE = re.compile(
    rf"""
    (?: ([0-9]*\.[0-9]+)                                                       # 9.5
      | (?: ([0-9]+) (?:{_SPACE}+|{_HYPHEN}) )?
        ([0-9]+) {_SPACE}? {_SLASH} {_SPACE}? ([0-9]+)                         # 9 1/2, 9-1/2, 1/2
      | (?: ([0-9]+) (?:{_SPACE}*|{_HYPHEN}) )? ([{"".join(_VULGAR)}])         # 9½, ½
      | ([0-9]+)                                                               # 9
    )
    (?: {_SPACE}* ([A-Za-z]+|[{_MARKS}]) \.? )?
    """,
    re.VERBOSE,
)
_BY = re.compile(rf"{_SPACE}*(?:[xX×]|\b[bB][yY]\b){_SPACE}*")
_WORD = re.compile(rf"[A-Za-z]+|[{_MARKS}]")
_EXPONENT = re.compile(r"[0-9.][eE][-+]?[0-9]")
_PREFIXED = re.compile("[+-]?0[xob][0-9A-Fa-f_]+")  # what TOML knows besides decimals
_COMMA = re.compile(r"[0-9],[0-9]")

_Number = tuple[int, int]


def parse_length(
    raw: str | int | Decimal | NumberText, unit: Unit, *, zero: bool = False
) -> Fraction:
    """Read a length of paper.

    Args:
        raw: ``9 1/2``, ``9-1/2``, ``9½``, ``9.5``, ``9 1/2 in``, ``24.1 cm``, ``241 mm``, or a
            number.
        unit: The unit when none is written.
        zero: Whether zero will do.

    Returns:
        Millimetres, at most 2 m.

    Raises:
        LengthError: If it can't be read as one length, for whatever reason.
    """
    return _parse(raw, unit, _PAPER, LIMIT, zero=zero)


def parse_cord(raw: str | int | Decimal | NumberText, unit: Unit) -> Fraction:
    """Read a length of ribbon or thread, which may also be in m, yd or ft.

    Args:
        raw: As for `parse_length`; also ``1 yd``, ``2 1/2 ft``, ``1.5 m``.
        unit: The unit when none is written.

    Returns:
        Millimetres, above zero and at most 100 m.

    Raises:
        LengthError: If it can't be read as one length, for whatever reason.
    """
    return _parse(raw, unit, _CORD, CORD_LIMIT, zero=False)


def parse_size(raw: str, unit: Unit) -> tuple[Fraction, Fraction]:
    """Read a size: two lengths with ``x``, ``×`` or ``by`` between them.

    A unit after the second alone goes for both, as in ``3 1/2 x 5 1/2 in``.

    Args:
        raw: ``12 x 12``, ``210 x 297 mm``, ``8.5 in by 11 in``.
        unit: The unit when none is written.

    Returns:
        Both lengths in the order written, in millimetres.

    Raises:
        LengthError: If it can't be read as a size, for whatever reason.
    """
    example = _EXAMPLE[unit]
    right = f"write two lengths, such as {example} x {example}"
    if not isinstance(raw, str):
        raise LengthError(f"{_plain(raw)} is no size", right)
    if len(raw) > _MAX_SIZE_TEXT:
        raise LengthError(f"{_quote(raw)} is too long a text for a size", right)
    sides = _BY.split(raw.strip())
    if len(sides) != 2 or not all(sides):
        raise LengthError(f"{_quote(raw)} is no size", right)
    first, second = sides
    first_number, first_word = _read(first, unit, _PAPER)
    second_number, second_word = _read(second, unit, _PAPER)
    own = _PAPER[unit]
    if second_word is None and first_word is not None and first_word != own:
        # '12 cm x 12' in an inch kit: a guess either way would cost a sheet of paper.
        raise LengthError(
            f"{_quote(raw)} has a unit after its first length only",
            "write the unit after the second, for both, or after each",
        )
    width = _to_mm(first, first_number, first_word or second_word or own, unit, LIMIT, zero=False)
    height = _to_mm(second, second_number, second_word or own, unit, LIMIT, zero=False)
    return width, height


def _parse(
    raw: str | int | Decimal,
    unit: Unit,
    units: Mapping[str, _Factor],
    limit: Fraction,
    *,
    zero: bool,
) -> Fraction:
    """Read text or a number; see `parse_length`."""
    if isinstance(raw, str):
        number, word = _read(raw, unit, units)
        return _to_mm(raw, number, word or units[unit], unit, limit, zero=zero)
    return _to_mm(raw, _value(raw, unit), units[unit], unit, limit, zero=zero)


def _read(raw: str, unit: Unit, units: Mapping[str, _Factor]) -> tuple[_Number, _Factor | None]:
    """The number in a text, and its unit if one is written."""
    if len(raw) > _MAX_TEXT:
        raise LengthError(
            f"{_quote(raw)} is too long a text for a length",
            f"write one length, such as {_EXAMPLE[unit]}",
        )
    text = raw.strip()
    match = _SHAPE.fullmatch(text)
    if match is None:
        raise _why_not(text, unit, units)
    decimal, mixed, top, bottom, before, vulgar, whole, word = match.groups()
    factor = None
    if word is not None:
        factor = units.get(word.lower())
        if factor is None:
            raise _unknown_unit(text, word, units)
    if whole is not None:
        return (int(whole), 1), factor
    if decimal is not None:
        digits, _, places = decimal.partition(".")
        if len(places) > _MAX_PLACES:
            raise _too_fine(_quote(text))
        return (int(digits + places), 10 ** len(places)), factor
    if vulgar is not None:
        n, d = _VULGAR[vulgar]
        return ((int(before) * d + n if before else n), d), factor
    n, d = int(top), int(bottom)
    if d == 0:
        raise LengthError(f"{_quote(text)} divides by zero", "write a fraction such as 3/4")
    if d > _MAX_DENOMINATOR:
        raise _too_fine(_quote(text))
    if mixed is not None:
        if n >= d:
            raise LengthError(
                f"{_quote(text)} has {top}/{bottom} after a whole number",
                "the fraction there must be less than 1, as in 9 1/2",
            )
        n += int(mixed) * d
    return (n, d), factor


def _value(raw: int | Decimal, unit: Unit) -> _Number:
    """The exact value of a number, as numerator and denominator."""
    if isinstance(raw, int) and not isinstance(raw, bool):
        return raw, 1
    if isinstance(raw, Decimal) and raw.is_finite():
        # Asked before the ratio is made: 1E+999999999 would fill the memory.
        _, digits, exponent = raw.as_tuple()
        if isinstance(exponent, int) and exponent >= -_MAX_PLACES:
            if len(digits) + exponent <= _MAX_TEXT:
                return raw.as_integer_ratio()
            raise LengthError(f"{_plain(raw)} is far too long", "check the number")
        raise _too_fine(_plain(raw))
    raise LengthError(
        f"{_plain(raw)} is no length", f"write text or a number, such as {_EXAMPLE[unit]}"
    )


def _to_mm(
    raw: object, number: _Number, factor: _Factor, unit: Unit, limit: Fraction, *, zero: bool
) -> Fraction:
    """Turn a number of units into millimetres, within its bounds."""
    n, d = number[0] * factor[0], number[1] * factor[1]
    if n <= 0 and not (zero and n == 0):
        what = "negative" if n < 0 else "zero"
        right = "a length here is zero or more" if zero else "a length here is more than zero"
        raise LengthError(f"{_plain(raw)} is {what}", right)
    if n > limit.numerator * d:
        raise LengthError(
            f"{_plain(raw)} is more than {limit.numerator // 1000} m, which is the limit",
            f"check the number and its unit (without one it is read as {unit})",
        )
    return Fraction(n, d)


def _quote(text: str) -> str:
    """A text for a message: short, in quotes, with nothing in it that a terminal would obey."""
    return repr(text if len(text) <= _MAX_TEXT else text[:20] + "...")


def _plain(raw: object) -> str:
    """Anything for a message, whatever its size."""
    if isinstance(raw, str):
        return _quote(raw.strip())
    if isinstance(raw, bool):
        return str(raw).lower()  # as TOML writes it
    if isinstance(raw, int):
        return str(raw) if abs(raw) < 10**12 else "a number of more than 12 digits"
    if isinstance(raw, Decimal):
        text = str(raw)
        return text if len(text) <= _MAX_TEXT else text[:20] + "..."
    return f"a value of type {type(raw).__name__}"


def _too_fine(shown: str) -> LengthError:
    return LengthError(
        f"{shown} is finer than any ruler",
        f"write at most {_MAX_PLACES} decimals, or a fraction over at most {_MAX_DENOMINATOR}",
    )


def _not_decimal(shown: str) -> LengthError:
    return LengthError(f"{shown} is not written in decimals", "write the digits 0 to 9 alone")


def _unknown_unit(text: str, word: str, units: Mapping[str, _Factor]) -> LengthError:
    if _PREFIXED.fullmatch(text):
        return _not_decimal(_quote(text))
    if word.lower() in _CORD:
        return LengthError(
            f"{_quote(text)} has the unit {_quote(word)}, which is for ribbon and thread",
            "write in, cm or mm",
        )
    known = "in, cm, mm, m, yd or ft" if units is _CORD else "in, cm or mm"
    return LengthError(f"{_quote(text)} has an unknown unit, {_quote(word)}", f"write {known}")


def _why_not(text: str, unit: Unit, units: Mapping[str, _Factor]) -> LengthError:
    """Say why a text is no length, and what would be right."""
    example = _EXAMPLE[unit]
    shown = _quote(text)
    strange = next((c for c in text if c.isnumeric() and not c.isascii() and c not in _VULGAR), "")
    words = [word.lower() for word in _WORD.findall(text)]
    numberless = not any(c.isnumeric() for c in text)
    if not text:
        return LengthError("there is no length", f"write one, such as {example}")
    if text.lstrip("+-−").lower() in ("nan", "inf"):
        return LengthError(f"{shown} is not a number", f"write a length, such as {example}")
    if strange:
        return LengthError(
            f"{shown} has the character {_quote(strange)} for a number",
            f"use the digits 0 to 9, and fractions as in {_EXAMPLE['in']} or 9½",
        )
    if text[0] in "-−‐‑–—" and not numberless:
        return LengthError(f"{shown} is negative", f"write it without a sign, such as {example}")
    if text[0] == "+":
        return LengthError(f"{shown} has a sign", f"write it without one, such as {example}")
    if _PREFIXED.fullmatch(text):
        return _not_decimal(shown)
    if "_" in text and not numberless:
        return LengthError(f"{shown} has an underscore", "write the digits alone, such as 1000")
    if _COMMA.search(text):
        return LengthError(
            f"{shown} has a comma in its number",
            "write a point for decimals, such as 24.1, and nothing between thousands",
        )
    if _EXPONENT.search(text):
        return LengthError(
            f"{shown} is written with an exponent", "write the digits in full, such as 1000"
        )
    if not numberless and sum(word in _CORD for word in words) > 1:
        return LengthError(
            f"{shown} has two units", f"write one length in one unit, such as {example} {unit}"
        )
    if numberless:
        return LengthError(f"{shown} has no number", f"write a length, such as {example}")
    return LengthError(
        f"{shown} can't be read as one length",
        f"write it as {example}, or with a unit: 9 1/2 in, 24.1 cm, 241 mm",
    )
