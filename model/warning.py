"""Warnings: what is not where it belongs, as data."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum


class WarningKind(StrEnum):
    """What went wrong."""

    WRONG_POCKET = "wrong pocket"
    TOO_MANY = "too many"
    """The pocket holds as many alike as it should already."""
    WANTED_SCRAPPED = "wanted scrapped"
    SCRAP_FILED = "scrap filed"
    STRIP_FILED = "strip filed"
    """What went into a pocket is still to be cut."""
    TWICE = "twice"
    EXTRA_SCRAP = "extra scrap"
    MISSING = "missing"
    """It was not in its pocket when that was counted."""

    @property
    def settled_by_word(self) -> bool:
        """Whether it is answered by a word; all others are answered by moving something."""
        return self in (WarningKind.TWICE, WarningKind.EXTRA_SCRAP)


@dataclass(frozen=True, slots=True)
class Warning:
    """One warning; it stands until what it names is put right, or settled.

    Attributes:
        id: Its name, which a replay of the journal gives it again.
        kind: What went wrong.
        items: The things it is about, all filed by one event; none for a scrap from nowhere.
        pocket: The index of the pocket they went into, or -1.
        since: The number of the event that raised it.
    """

    id: str
    kind: WarningKind
    items: tuple[str, ...]
    pocket: int
    since: int


@dataclass(frozen=True, slots=True)
class Mistake:
    """A mistake as it happened, for a report; undoing or mending it does not unmake it.

    Pockets are named by their labels, since a changed kit may count them otherwise.

    Attributes:
        n: The number of the event, by which the journal tells when it was.
        kind: What went wrong.
        items: The things it happened to; none for a scrap from nowhere.
        pocket: The pocket they went into; empty for none.
        belonged: The pocket they belonged in, ``scraps`` or ``pile``; empty when unknown.
    """

    n: int
    kind: WarningKind
    items: tuple[str, ...]
    pocket: str
    belonged: str
