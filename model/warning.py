"""Warnings: what is not where it belongs, as data."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum


class WarningKind(StrEnum):
    """What went wrong."""

    WRONG_POCKET = "wrong pocket"
    TOO_MANY = "too many"
    WANTED_SCRAPPED = "wanted scrapped"
    SCRAP_FILED = "scrap filed"
    STRIP_FILED = "strip filed"
    TWICE = "twice"
    EXTRA_SCRAP = "extra scrap"


@dataclass(frozen=True, slots=True)
class Warning:
    """One warning; it stands until what it names is put right, or settled.

    Attributes:
        id: Its name, made of what it is about.
        kind: What went wrong.
        items: The things it is about; the last filed comes last.
        pocket: The index of the pocket they are in, or -1.
        since: The number of the event that raised it.
    """

    id: str
    kind: WarningKind
    items: tuple[str, ...]
    pocket: int
    since: int


@dataclass(frozen=True, slots=True)
class Mistake:
    """A mistake as it happened, for the report; undoing it does not unmake it.

    Attributes:
        n: The number of the event.
        kind: What went wrong.
        item: What it happened to; empty for a scrap from nowhere.
        pocket: The pocket it went into, or -1.
    """

    n: int
    kind: WarningKind
    item: str
    pocket: int
