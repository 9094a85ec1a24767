"""What was found: the likeliest things, how each differs from what was asked for, and the rest."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from model.kit import SetAside
from model.query import Query
from model.sought import Sought


@dataclass(frozen=True, slots=True)
class Match:
    """Something that may be what is looked for.

    Attributes:
        sought: What it is.
        copy: The copy that it most likely is: one that lies about rather than one that is filed.
        place: Where that copy is by the journal: a `Spot`, or a pocket's index.
        belongs: Where it belongs: a `Spot`, or a pocket's index.
        off: By how much the side that fits least differs from what was read, in mm; 0 when no
            size was asked for.
        misses: What was asked for and does not fit: ``size``, ``colour``, or a word.
    """

    sought: Sought
    copy: str
    place: int
    belongs: int
    off: Fraction
    misses: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Found:
    """What was found.

    Attributes:
        query: The reading of what was typed that it answers.
        matches: The likeliest first, a few at most.
        exact: All that was asked for fits; otherwise these are only the nearest.
        more: How many more fit as well.
        asides: What was set aside, is no piece, and is called so.
    """

    query: Query
    matches: tuple[Match, ...]
    exact: bool
    more: int = 0
    asides: tuple[SetAside, ...] = ()
