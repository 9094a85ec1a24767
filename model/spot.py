"""Where things are, and what is to be done next: the words that state and views share."""

from __future__ import annotations

from dataclasses import dataclass
from enum import IntEnum

from model.plan import Step


class Spot(IntEnum):
    """Where a thing is, when it is in no pocket; pockets are their indexes, from 0."""

    MISSING = -8
    """It was filed, but not there when its pocket was counted."""
    TAKEN = -7
    """Used up: cut into other things."""
    SCRAPS = -6
    PILE = -5
    IN_HAND = -4
    """In the trimmer, or being torn."""
    STACK = -3
    ASIDE = -2
    NOWHERE = -1
    """Not made yet, or still in the packet."""


@dataclass(frozen=True, slots=True)
class Due:
    """What is to be done next.

    Attributes:
        step: The step, unless something is to be filed first.
        item: The thing on the pile that is to be filed or thrown away.
    """

    step: Step | None
    item: str | None

    @property
    def over(self) -> bool:
        """Whether nothing is left to do."""
        return self.step is None and self.item is None
