"""What tells things apart, and why something is looked for at a place: words that views share."""

from __future__ import annotations

from enum import StrEnum


class Tell(StrEnum):
    """What tells two things apart."""

    PRINTED = "printed"
    """Words or a picture."""
    PATTERN = "pattern"
    """They are of two papers, at least one of them patterned."""
    TORN = "torn"
    """One has a torn edge, the other none."""
    LONG = "long"
    """Their long sides differ most."""
    SHORT = "short"
    """Their short sides differ most."""
    BACK = "back"
    """Only one of their two sides differs."""


class Reason(StrEnum):
    """Why something is looked for at a place."""

    SEEN = "seen"
    """It was found there by a count."""
    EXCHANGED = "exchanged"
    """What was found in its pocket should be there."""
    LOOK_ALIKE = "look-alike"
    """A look-alike of it was filed there."""
    SAME_KIND = "same kind"
    """Others just like it were filed there, and one too many may be."""
    NEXT_FILED = "next filed"
    """What was filed just before or after it went there."""
    STRAY = "stray"
    """It is missed nowhere, but was found in a pocket that the journal does not have it in."""
    SCRAPS = "scraps"
    TABLE = "table"
    """Nowhere else: on the table, on the trimmer's bed, on the floor."""
