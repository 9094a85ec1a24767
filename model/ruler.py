"""Reading a mark on a trimmer's ruler, which shows its graduations and nothing between them.

A mark is read as the nearest graduation; midway between two, as the even one (NIST Handbook 44,
section 10.3). Each mark of a chain is read by itself, from zero: rounding each width instead
would let the pieces drift.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import lru_cache
from typing import Final

from model.language.english.measures import MeasurePhrases
from model.length import Unit
from model.lengthtext import LengthStyle, write_length

_ENGLISH: Final = MeasurePhrases()
_INCH = Fraction(127, 5)
_CENTIMETRE = Fraction(10)
# Rank by the denominator of a place counted in inches or centimetres; fifths and tenths of a
# centimetre are millimetres alike.
_RANK: Final = {1: 0, 2: 1, 4: 2, 8: 3, 16: 4, 32: 5, 5: 2, 10: 2}

HAIR: Final = _INCH / 32
"""What a home trimmer is good to, about (mm); common practice, no source."""


@dataclass(frozen=True, slots=True)
class Graduation:
    """The finest lines of a ruler.

    Attributes:
        name: As in the settings, such as ``1/16 in``.
        step: From one line to the next, in mm.
        unit: What the ruler is numbered in.
    """

    name: str
    step: Fraction
    unit: Unit


GRADUATIONS: Final[dict[str, Graduation]] = {
    graduation.name: graduation
    for graduation in (
        Graduation("1/16 in", _INCH / 16, Unit.IN),
        Graduation("1/8 in", _INCH / 8, Unit.IN),
        Graduation("1/32 in", _INCH / 32, Unit.IN),
        Graduation("1 mm", Fraction(1), Unit.MM),
    )
}
"""The rulers one may choose from, by name, the usual one first."""


@dataclass(frozen=True, slots=True)
class Reading:
    """One mark as a ruler shows it; all in mm.

    Attributes:
        exact: Where the mark truly is.
        shown: The graduation that is read.
        error: ``exact - shown``; above zero when the true mark is over the one shown.
        graduation: The ruler.
        unfit: The line that is read is no place to cut: the ruler's zero, the edge of the
            paper, or where another cut of the load is.
    """

    exact: Fraction
    shown: Fraction
    error: Fraction
    graduation: Graduation
    unfit: bool = False

    @property
    def far(self) -> bool:
        """Whether the true mark is off by more than a hair: only on a ruler of eighths."""
        return abs(self.error) > HAIR


@dataclass(frozen=True, slots=True)
class Tick:
    """One line of a ruler, for a drawing.

    Attributes:
        at: Distance from zero, in mm.
        rank: 0 a whole inch or centimetre, 1 a half, then finer: quarters 2, eighths 3,
            sixteenths 4, thirty-seconds 5; single millimetres 2.
        label: The number at a line of rank 0, in the ruler's unit; else None.
    """

    at: Fraction
    rank: int
    label: str | None


def read_mark(x: Fraction, graduation: Graduation) -> Reading:
    """Read a mark.

    Args:
        x: Where the mark is, in mm from the ruler's zero.
        graduation: The ruler.

    Returns:
        The nearest graduation and the error, which is at most half a step.
    """
    # Graduations are counted from zero, and round() takes the even count at a midpoint.
    shown = round(x / graduation.step) * graduation.step
    return Reading(x, shown, x - shown, graduation)


def read_chain(
    marks: Iterable[Fraction], graduation: Graduation, edge: Fraction | None = None
) -> tuple[Reading, ...]:
    """Read the marks of one load, each by itself.

    Args:
        marks: In mm from the ruler's zero, in any order.
        graduation: The ruler.
        edge: How far the paper reaches, in mm, when that is measured.

    Returns:
        One reading a mark, in the same order; no error adds to the next. A mark that is on
        its line stays there, and another that would be read as the same one is unfit.
    """
    return _chain(tuple(marks), graduation, edge)


@lru_cache(maxsize=1024)
def _chain(
    marks: tuple[Fraction, ...], graduation: Graduation, edge: Fraction | None
) -> tuple[Reading, ...]:
    """Kept, because what is said of a step asks for the marks of its load several times."""
    readings = [read_mark(mark, graduation) for mark in marks]
    lines = Counter(reading.shown for reading in readings)
    return tuple(
        replace(reading, unfit=True)
        if reading.error
        and (
            not reading.shown
            or lines[reading.shown] > 1
            or (edge is not None and reading.shown >= edge)
        )
        else reading
        for reading in readings
    )


def say_reading(reading: Reading, style: LengthStyle, words: MeasurePhrases = _ENGLISH) -> str:
    """Say what to set: ``9⅜``, or ``9⅜, a hair over``.

    The mark is written as the ruler has it: on a ruler of the other kind than the style's, in
    that ruler's unit, which is then named.

    Args:
        reading: The mark.
        style: How this person wants lengths written.
        words: Words beside a length.

    Returns:
        The graduation, and on which side of it the true mark is when it isn't on it.
    """
    unit = reading.graduation.unit
    foreign = (unit is Unit.IN) != (style.unit is Unit.IN)
    own = replace(style, unit=unit) if foreign else style
    mark = write_length(reading.shown, own, with_unit=foreign)
    error = abs(reading.error)
    if not error:
        return mark
    if 2 * error == reading.graduation.step:
        how = "half"
    elif error <= HAIR:
        how = "hair"
    else:  # only on a ruler coarser than sixteenths
        how = "nearly"
    return f"{mark}, {words.off(how, reading.error > 0)}"


@lru_cache(maxsize=32)
def ticks(graduation: Graduation, upto: Fraction) -> tuple[Tick, ...]:
    """The lines of a ruler from zero up to a length.

    Args:
        graduation: The ruler.
        upto: The last place that may have a line, in mm.

    Returns:
        From left to right; empty when ``upto`` is below zero.
    """
    whole = _INCH if graduation.unit is Unit.IN else _CENTIMETRE
    numbered = 10 if graduation.unit is Unit.MM else 1
    found = []
    for count in range(upto // graduation.step + 1):
        at = count * graduation.step
        number = at / whole
        label = str(number.numerator * numbered) if number.denominator == 1 else None
        found.append(Tick(at, _RANK[number.denominator], label))
    return tuple(found)
