"""A mending: how the work of a plan differs after a mistake, as data.

The kit is never changed. A mending names things by their identities in the plan that it
mends, and says of single things what is cut of them instead, in truth or from now on. What
it does not speak of stays as the plan has it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from enum import StrEnum
from fractions import Fraction

from model.geometry import PaperSide
from model.kit import Mark, Size
from model.rescue.cannot import CannotMend

__all__ = ["AddedKind", "CannotMend", "Fate", "MendedLoad", "Mending", "Share", "at_marks"]


class Fate(StrEnum):
    """What becomes of a part that a mended load makes."""

    ROLE = "role"
    """It is in truth, or will be, what another thing of the plan was to be."""
    STRIP = "strip"
    """A later load of the mending takes it."""
    SCRAP = "scrap"
    """It is thrown away."""
    MADE = "made"
    """A piece of a kind that the mending adds."""


@dataclass(frozen=True, slots=True)
class Share:
    """One part of a mended load.

    Attributes:
        fate: What becomes of it.
        name: For `Fate.ROLE` the identity, in the plan that is mended, of the piece or strip
            that it is; for `Fate.STRIP` a new name; for `Fate.MADE` the name of the added
            kind; for `Fate.SCRAP` the identity of the piece that it was when it was slit or
            punched, where that was done: what came of that is there. Else empty.
    """

    fate: Fate
    name: str = ""


@dataclass(frozen=True, slots=True)
class MendedLoad:
    """What is cut of one thing, instead of what the plan has for it.

    Attributes:
        of: The identity of the thing: one of the plan that is mended, or one that a load of
            the mending makes (such as ``C/r/2``: parts are numbered as they come off).
        marks: The marks, falling; for a tear the widths.
        gives: What comes off, in order.
        rest: What stays on the bed.
        turn: Quarter turns clockwise against how it came off.
        up: The side that lies up; None where it stays as it came off.
        as_written: All else is as the author's step for this very thing has it: its verb,
            landmark, notes, wait. Then `turn` and `up` count only where they are said (not 0,
            not None) and differ from it; the landmark no longer rules how it lies then.
        torn: It is torn, and the marks are widths from the right edge; for what is not as the
            author's step has it.
    """

    of: str
    marks: tuple[Mark, ...]
    gives: tuple[Share, ...]
    rest: Share
    turn: int = 0
    up: PaperSide | None = None
    as_written: bool = False
    torn: bool = False

    @property
    def shares(self) -> tuple[Share, ...]:
        """All parts, in the order in which they come off; what stays on the bed last."""
        return (*self.gives, self.rest)


@dataclass(frozen=True, slots=True)
class AddedKind:
    """A kind of piece that the kit does not have: a backing, or a copy cut anew.

    Attributes:
        name: Its name.
        like: The kind whose use, notes and turning it shares; empty for none.
        pocket: The pocket that one copy goes to, by its index.
        page: The page it is for, when known.
        size: Width and height in mm, upright.
        backs: The kind that it backs; empty for none.
    """

    name: str
    like: str
    pocket: int
    page: int | None
    size: Size
    backs: str = ""


@dataclass(frozen=True, slots=True)
class Mending:
    """How the work differs.

    Attributes:
        at: The id of the step that is due when the mending is said, in the plan that is
            mended; empty when all steps are done. Loads of things that are at hand already
            come just before it.
        loads: What is cut instead, in order of work. A load of a thing that the plan cuts too
            replaces it, in its place.
        gone: Sheets that are not there at all, by name.
        idle: Sheets of which nothing is cut after all, by name: they stay whole.
        unloaded: Things that were laid into the trimmer and not cut, and are taken out again: what
            was said of laying them in counts no more.
        spent: Ready-made copies that are lost, by kind and pocket index, one for each. Their
            pockets want them still, unless a kind is added that is like them, and no backing.
        kinds: Kinds that are added.
        swapped: Pairs of things that were taken for one another: what was said, from entry
            `since` on, of the one and what comes of it was done to the other.
        since: The number of the first entry that `swapped` speaks of.
        small: Identities of things that are smaller than stated, and taken as they are.
    """

    at: str = ""
    loads: tuple[MendedLoad, ...] = ()
    gone: tuple[str, ...] = ()
    idle: tuple[str, ...] = ()
    unloaded: tuple[str, ...] = ()
    spent: tuple[tuple[str, int], ...] = ()
    kinds: tuple[AddedKind, ...] = ()
    swapped: tuple[tuple[str, str], ...] = ()
    since: int = 0
    small: tuple[str, ...] = field(default=())


def at_marks(marks: Sequence[Fraction]) -> tuple[Mark, ...]:
    """Marks at ruler numbers, in mm."""
    return tuple(Mark(mark) for mark in marks)
