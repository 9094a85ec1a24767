"""What a crafter says went wrong, as data."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction


class What(StrEnum):
    """What went wrong."""

    MARK = "mark"
    """The cut was made at another mark."""
    MEASURE = "measure"
    """The ruler says something else of a thing than it should."""
    PIECE = "piece"
    """Another thing was taken than the step asks for."""
    TURNED = "turned"
    """The paper lay turned the wrong way."""
    FACE = "face"
    """The wrong face was up."""
    RUINED = "ruined"
    """A thing is of no use any more."""
    MISSING = "missing"
    """A sheet is not in the packet."""


@dataclass(frozen=True, slots=True)
class Mishap:
    """What went wrong, and where.

    Attributes:
        what: What went wrong.
        step: For a mark and a measure the id of the cut; for a wrong piece, turn or face that of
            the load; else empty.
        length: For a mark what was cut at, for a measure what the ruler says, in mm.
        thing: For a measure, what was measured: it came off at that cut, or stays after it. For a
            wrong piece what was taken in truth. What is ruined. The sheet that is missing.
    """

    what: What
    step: str = ""
    length: Fraction = Fraction(0)
    thing: str = ""


@dataclass(frozen=True, slots=True)
class Names:
    """What things are called that the kit does not know; in a crafter's language.

    Attributes:
        strip: A strip; a number follows.
        spare: A piece that is cut again, ``{}`` for its name.
        scrap: A scrap that is cut again; a number follows.
        backing: A backing, ``{}`` for what it backs.
    """

    strip: str = "new strip"
    spare: str = "miscut {}"
    scrap: str = "saved scrap"
    backing: str = "back of {}"


class CannotBe(Exception):
    """What was said cannot have been so.

    Attributes:
        code: Why, a code for the words of a language: ``no such step``, ``not done``,
            ``not cut`` (only laid in: it is simply laid anew), ``no numbers``, ``outside``,
            ``not falling``, ``as it should be``, ``no such thing``, ``not there``,
            ``cut before``, ``not to turn``, ``by hand`` (no straight cut makes another),
            ``not of the stack`` (a base, or something packed ready made). Of ``outside`` and
            ``not falling`` the step says which cut could not have been made so: the one that is
            spoken of, or a later one.
        step: The step that makes it impossible; empty for none.
        length: A length in mm that belongs to it: what the mark had to be below or above.
        thing: A thing that belongs to it.
    """

    def __init__(
        self, code: str, step: str = "", length: Fraction | None = None, thing: str = ""
    ) -> None:
        """Keep why; words are made where the crafter's language is known."""
        self.code, self.step, self.length, self.thing = code, step, length, thing
        super().__init__(f"{code}: {step} {length} {thing}")
