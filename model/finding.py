"""Findings: what is wrong with a kit file, as data."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from difflib import get_close_matches

Path = tuple[str | int, ...]
"""Where in a kit file: keys and indexes from the top, such as ``("step", 3, "marks", 0)``."""


@dataclass(frozen=True, slots=True)
class Finding:
    """One thing that is wrong, or worth a look, in a kit file.

    Attributes:
        code: A short stable name, such as ``mark-order``.
        where: The place in the file, as keys and indexes.
        what: What is wrong, one sentence without a full stop at its end.
        remedy: What would be right; may be empty.
        line: The line in the file, from 1; 0 until the reader has looked it up.
        grave: Whether the kit can't be used with it.
    """

    code: str
    where: Path
    what: str
    remedy: str = ""
    line: int = 0
    grave: bool = True

    def at(self, line: int) -> Finding:
        """The same finding with its line known."""
        return replace(self, line=line)

    def __str__(self) -> str:
        """One line for people: where, what, remedy."""
        place = f"line {self.line}: " if self.line else ""
        return place + self.what + (f"; {self.remedy}" if self.remedy else "")


class KitError(Exception):
    """A kit file can't be used.

    Attributes:
        findings: Everything that is wrong, in file order.
        source: The file's name, for the message.
    """

    def __init__(self, findings: Sequence[Finding], source: str = "") -> None:
        """Keep the findings, and make the message of them."""
        self.findings = tuple(findings)
        self.source = source
        super().__init__("\n".join(f"{source}: {f}" if source else str(f) for f in findings))


@dataclass(slots=True)
class Findings:
    """Collects findings, so that all errors of meaning are told in one go."""

    all: list[Finding] = field(default_factory=list)

    def grave(self, code: str, where: Path, what: str, remedy: str = "") -> None:
        """Note an error."""
        self.all.append(Finding(code, where, what, remedy))

    def remark(self, code: str, where: Path, what: str, remedy: str = "") -> None:
        """Note something worth a look that does not stop the kit."""
        self.all.append(Finding(code, where, what, remedy, grave=False))

    @property
    def stop(self) -> bool:
        """Whether any finding is grave."""
        return any(finding.grave for finding in self.all)


def did_you_mean(word: str, known: Sequence[str]) -> str:
    """A remedy that names the nearest known word, or lists a few of them.

    Args:
        word: What was written.
        known: What could have been written.

    Returns:
        A clause such as ``did you mean "pocket"?``; empty when nothing is known.
    """
    near = get_close_matches(word.casefold(), [k.casefold() for k in known], n=1, cutoff=0.6)
    if near:
        return f'did you mean "{next(k for k in known if k.casefold() == near[0])}"?'
    if not known:
        return ""
    return "known here: " + ", ".join(f'"{k}"' for k in known[:8]) + (
        ", ..." if len(known) > 8 else ""
    )
