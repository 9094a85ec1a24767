"""What comes of reading a kit file."""

from __future__ import annotations

from dataclasses import dataclass

from model import limits
from model.finding import Finding
from model.plan import Plan


@dataclass(frozen=True, slots=True)
class Read:
    """What came of reading a kit file.

    Attributes:
        plan: The plan; None when something grave was found.
        findings: Everything found, in file order; remarks too.
        text: The text that was read.
    """

    plan: Plan | None
    findings: tuple[Finding, ...]
    text: str


def too_large() -> Finding:
    """What is said of a kit file that is larger than any kit need be."""
    most = limits.MOST_BYTES // 1024 // 1024
    return Finding(
        "too-large", (), f"this is larger than {most} MiB, the most for a kit file",
        "make several kits of it",
    )  # fmt: skip
