"""How paper lies: sides, turns and faces, and the sizes that are known of it.

A piece of paper is described in the frame of the sheet it came from: x to the
right, y down, the sheet's top edge up and its face seen. On the trimmer it may
be turned and lie reverse up; an `Orientation` leads from one frame to the other.
Lengths are exact, in millimetres.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction
from typing import Literal

Side = Literal["top", "right", "bottom", "left"]
SIDES: tuple[Side, ...] = ("top", "right", "bottom", "left")
CORNERS: tuple[str, ...] = ("top left", "top right", "bottom right", "bottom left")
PaperSide = Literal["face", "reverse"]

_FLIPPED: dict[Side, Side] = {"top": "top", "right": "left", "bottom": "bottom", "left": "right"}


class Sure(StrEnum):
    """How surely a measure is known."""

    EXACT = "exact"
    ABOUT = "about"
    PRINTED = "printed"
    """Only the printed line knows: there is no number, the value serves a schematic."""


_ORDER = (Sure.EXACT, Sure.ABOUT, Sure.PRINTED)


def least_sure(*sures: Sure) -> Sure:
    """The least sure of several: a width is as sure as the less sure of its two marks."""
    return max(sures, key=_ORDER.index)


@dataclass(frozen=True, slots=True)
class Measure:
    """A length in mm and how surely it is known."""

    value: Fraction
    sure: Sure = Sure.EXACT

    @property
    def exact(self) -> bool:
        """Whether the value may decide a size."""
        return self.sure is Sure.EXACT


@dataclass(frozen=True, slots=True)
class Box:
    """A rectangle in a frame: x to the right, y down, lengths in mm."""

    x: Fraction
    y: Fraction
    w: Fraction
    h: Fraction

    @property
    def area(self) -> Fraction:
        """Width times height, in square millimetres."""
        return self.w * self.h


@dataclass(frozen=True, slots=True)
class Orientation:
    """How a piece lies on the bed, against its sheet's frame.

    Attributes:
        quarter: Quarter turns clockwise as seen from above, 0 to 3.
        reverse: Whether the reverse is up (turned over like a book's page, then turned).
    """

    quarter: int = 0
    reverse: bool = False

    def turned(self, quarters: int) -> Orientation:
        """The same after more quarter turns clockwise."""
        return Orientation((self.quarter + quarters) % 4, self.reverse)

    def showing(self, reverse: bool) -> Orientation:
        """The same with the wanted side up.

        It is turned over on the bed like a book's page, so left and right change places.
        """
        return self if self.reverse == reverse else Orientation(-self.quarter % 4, reverse)

    def side_on_bed(self, side: Side) -> Side:
        """Where a side of the paper lies on the bed."""
        seen = _FLIPPED[side] if self.reverse else side
        return SIDES[(SIDES.index(seen) + self.quarter) % 4]

    def side_of_paper(self, side: Side) -> Side:
        """Which side of the paper lies at a side of the bed."""
        seen = SIDES[(SIDES.index(side) - self.quarter) % 4]
        return _FLIPPED[seen] if self.reverse else seen

    def corner_on_bed(self, corner: str) -> str:
        """Where a corner of the paper, such as ``top left``, lies on the bed."""
        first, second = corner.split()
        sides = {self.side_on_bed(_side(first)), self.side_on_bed(_side(second))}
        vertical = "top" if "top" in sides else "bottom"
        return f"{vertical} {'left' if 'left' in sides else 'right'}"

    @property
    def up(self) -> Side:
        """Where the paper's top edge lies on the bed."""
        return self.side_on_bed("top")

    @property
    def sideways(self) -> bool:
        """Whether width and height change places."""
        return self.quarter % 2 == 1

    def size_on_bed(self, w: Fraction, h: Fraction) -> tuple[Fraction, Fraction]:
        """Length along the ruler and across it, for a paper w wide and h high."""
        return (h, w) if self.sideways else (w, h)

    def to_paper(self, box: Box, w: Fraction, h: Fraction) -> Box:
        """A rectangle on the bed, seen in the frame of the paper that lies there.

        Args:
            box: The rectangle on the bed, in mm, from the top left of the paper as it lies.
            w: The paper's width in its own frame.
            h: The paper's height in its own frame.

        Returns:
            The same rectangle in the paper's frame.
        """
        x, y, bw, bh = box.x, box.y, box.w, box.h
        width, height = self.size_on_bed(w, h)
        for _ in range(self.quarter):  # undo one clockwise quarter turn at a time
            x, y, bw, bh = y, width - x - bw, bh, bw
            width, height = height, width
        if self.reverse:
            x = width - x - bw
        return Box(x, y, bw, bh)


UPRIGHT = Orientation()
"""Face up, top edge at the top."""


def _side(word: str) -> Side:
    for side in SIDES:
        if side == word:
            return side
    raise ValueError(f"no side is called {word!r}")


def orientation_for(seen: str, at: str, *, reverse: bool) -> Orientation | None:
    """The turn that brings a side or corner of the paper to a place on the bed.

    Args:
        seen: A side or corner of the paper, such as ``top`` or ``bottom left``.
        at: Where it is seen on the bed; a side for a side, a corner for a corner.
        reverse: Whether the reverse is up.

    Returns:
        The orientation, or None when no turn does it (a side can't come to a corner).
    """
    for quarter in range(4):
        lying = Orientation(quarter, reverse)
        try:
            place = lying.corner_on_bed(seen) if " " in seen else lying.side_on_bed(_side(seen))
        except ValueError:
            return None
        if place == at:
            return lying
    return None
