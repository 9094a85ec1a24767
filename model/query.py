"""Reading what a crafter types to find a piece: what the ruler says, colours, words.

``3 x 8 green``, ``3x8``, ``3 by 8``, ``8½ in``, ``7,5 cm``, ``hello``: sizes are read exactly,
by `model.length`; everything else is words. Nothing is refused: while someone types, half of
what stands there makes no sense yet.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from fractions import Fraction

from model.length import LengthError, Unit, parse_length

HALF_CM = Fraction(5)
"""Half a centimetre, in mm."""
MOST_TEXT = 200
"""Characters; what is typed beyond them is not looked at."""
_VULGAR = "½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅐⅛⅜⅝⅞⅑⅒"
_SLASH = r"[/⁄∕]"
_NUMBER = (
    rf"(?:[0-9]+(?:[ ]+|-)[0-9]+[ ]?{_SLASH}[ ]?[0-9]+|[0-9]+[ ]?{_SLASH}[ ]?[0-9]+"
    rf"|(?:[0-9]+[ -]?)?[{_VULGAR}]|[0-9]*[.,][0-9]+|[0-9]+)"
)
_UNIT = r"(?:inches|inch|in|cm|mm|\"|″|”)"
_LENGTH = rf"(?P<{{0}}>{_NUMBER})(?:[ ]*(?P<{{0}}_unit>{_UNIT})(?![a-wyz]))?\.?"
# A number ends where another sign of its own would go on with it: 1/2/3 and A4 are words.
_TOKEN = re.compile(
    rf"(?<![a-z0-9]){_LENGTH.format('a')}[ ]*(?:[x×*]|by(?![a-z]))[ ]*"
    rf"{_LENGTH.format('b')}(?![a-z0-9])"
    rf"|(?<![a-z0-9]){_LENGTH.format('c')}(?![a-z0-9])"
    r"|(?P<word>[^\W_][\w'’-]*)"
)
_MIXED = re.compile(rf"([0-9]+)[ ]+([0-9]+[ ]?{_SLASH}[ ]?[0-9]+)")
IDLE_WORDS = frozenset(
    ("a", "an", "and", "by", "in", "is", "it", "of", "on", "the", "this", "with", "x")
)
"""Words that say nothing of a piece."""


@dataclass(frozen=True, slots=True)
class Query:
    """What is looked for, in one reading.

    Attributes:
        sides: What the ruler says, in mm: none, one side or two.
        unit: The unit that they were read in, where none was written; None where one was.
        words: Everything else, in small letters.
        slack: By how much what was typed may be off for being rounded, in mm.
        given: How many lengths were typed; a piece has two sides, and more are left out.
    """

    sides: tuple[Fraction, ...]
    unit: Unit | None
    words: tuple[str, ...]
    slack: Fraction = field(default=Fraction(0), compare=False)
    given: int = field(default=0, compare=False)

    @property
    def empty(self) -> bool:
        """Whether nothing is looked for."""
        return not (self.sides or self.words)


def read_query(text: str, unit: Unit) -> tuple[Query, ...]:
    """Read what was typed.

    Args:
        text: What was typed.
        unit: The unit that this crafter measures in.

    Returns:
        Every reading that makes sense, the likeliest first. A number without a unit may be in
        inches, centimetres or millimetres, or belong to a name; ``3 1/2`` may be one length or
        two.
    """
    text = " ".join(text[:MOST_TEXT].casefold().replace("~", " ").split())
    lengths, words = _parts(text)
    found: dict[Query, None] = {}
    for numbers in _splits(lengths):
        said = any(own for _, own in numbers)
        for guess in dict.fromkeys((unit, *Unit)):
            sides = tuple(_sides(numbers, guess))
            if len(sides) == len(numbers):
                own = None if said or not sides else guess
                slack = _rounded(numbers, guess) if said or guess is unit else Fraction(0)
                found.setdefault(Query(sides, own, words, slack, len(lengths)))
            if said:
                break
    if words and len(lengths) == 1 and not lengths[0][1]:
        # A name may hold a number too, as in "strip 2".
        found.setdefault(Query((), None, (*words, lengths[0][0])))
    return tuple(found) or (Query((), None, words),)


def _rounded(numbers: _Lengths, unit: Unit) -> Fraction:
    """What rounding took away: whole centimetres are half a centimetre off at most.

    ``10 x 15 cm`` is said of 4 x 6 in, which is 10.16 x 15.24 cm. Inches and millimetres are
    read off a ruler, as is a centimetre with a decimal.
    """
    whole = all(number.isdigit() and (own or unit) in ("cm", Unit.CM) for number, own in numbers)
    return HALF_CM if numbers and whole else Fraction(0)


_Lengths = list[tuple[str, str]]
"""Numbers as written, each with its unit as written or an empty text."""


def _parts(text: str) -> tuple[_Lengths, tuple[str, ...]]:
    lengths: _Lengths = []
    words: list[str] = []
    for token in _TOKEN.finditer(text):
        if token["word"]:
            if token["word"] not in IDLE_WORDS:
                words.append(token["word"])
        elif token["c"]:
            lengths.append((token["c"], token["c_unit"] or ""))
        else:
            # One unit goes for both sides, wherever it stands.
            first, second = token["a_unit"] or "", token["b_unit"] or ""
            lengths += [(token["a"], first or second), (token["b"], second or first)]
    return lengths, tuple(dict.fromkeys(words))


def _splits(lengths: _Lengths) -> Iterator[_Lengths]:
    """The numbers, at most two; a lone ``3 1/2`` may also be a 3 and a 1/2."""
    yield lengths[:2]
    if len(lengths) == 1:
        mixed = _MIXED.fullmatch(lengths[0][0])
        if mixed:
            yield [(mixed[1], lengths[0][1]), (mixed[2], lengths[0][1])]


def _sides(lengths: _Lengths, unit: Unit) -> Iterator[Fraction]:
    for number, own in lengths:
        try:
            yield parse_length(f"{number.replace(',', '.')} {own}", unit)
        except LengthError:
            continue  # nothing, or far too long: no side of a piece
