"""Findings: what is wrong with a kit file, as data."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Sequence
from dataclasses import dataclass, field, replace
from difflib import get_close_matches
from itertools import chain, islice

from model.meant import meant

Path = tuple[str | int, ...]
"""Where in a kit file: keys and indexes from the top, such as ``("step", 3, "marks", 0)``."""

_LONGEST = 600
_LONGEST_WORD = 60
# Looking for near names costs time for each name that is known. A large kit with thousands
# of wrong names still gets all of its findings, only without a guess for the last ones.
_GUESSES = 200_000
_LISTED = 8


def clean(text: str) -> str:
    """A text that a terminal can show: printable, on one line, of bearable length."""
    shown = text if len(text) <= _LONGEST else text[: _LONGEST - 3] + "..."
    if shown.isprintable():
        return shown
    return "".join(c if c.isprintable() else " " if c.isspace() else "\ufffd" for c in shown)


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
        also: Other places of the very same fault, which is told once.
    """

    code: str
    where: Path
    what: str
    remedy: str = ""
    line: int = 0
    grave: bool = True
    also: tuple[Path, ...] = ()

    def at(self, line: int, *others: int) -> Finding:
        """The same finding with its line known, and those of the other places."""
        lines = sorted({line, *others})
        if len(lines) == 1:
            return replace(self, line=line)
        return replace(self, line=lines[0], what=clean(f"{self.what} ({_lines(lines)})"))

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
    _guesses: int = _GUESSES
    _once: dict[tuple[str, str], int] = field(default_factory=dict)

    def grave(
        self, code: str, where: Path, what: str, remedy: str = "", also: Iterable[Path] = ()
    ) -> None:
        """Note an error; ``also`` are further places of the very same one."""
        self.all.append(Finding(code, where, clean(what), clean(remedy), also=tuple(also)))

    def once(
        self, key: tuple[str, str], code: str, where: Path, what: str, remedy: Callable[[], str]
    ) -> None:
        """Note an error of which one mistake may show in several places: it is told once.

        Args:
            key: What it is the mistake of, such as a sort of name and the name.
            code: As for `grave`.
            where: One of the places.
            what: What is wrong at the first place.
            remedy: Makes the remedy; asked for the first place only.
        """
        number = self._once.setdefault(key, len(self.all))
        if number == len(self.all):
            self.grave(code, where, what, remedy())
        else:
            first = self.all[number]
            self.all[number] = replace(first, also=(*first.also, where))

    def remark(self, code: str, where: Path, what: str, remedy: str = "") -> None:
        """Note something worth a look that does not stop the kit."""
        self.all.append(Finding(code, where, clean(what), clean(remedy), grave=False))

    @property
    def stop(self) -> bool:
        """Whether any finding is grave."""
        return any(finding.grave for finding in self.all)

    def near(self, word: str, *known: Collection[str]) -> str:
        """The known word that was probably meant; empty when none is near.

        Args:
            word: What was written.
            known: What could have been written; passed as it is, since it is only walked
                through while there is time for guesses.
        """
        self._guesses -= sum(map(len, known))
        return _nearest(word, chain(*known)) if self._guesses >= 0 else ""

    def did_you_mean(self, word: str, *known: Collection[str]) -> str:
        """A remedy that names the nearest known word, or lists a few of them.

        Args:
            word: What was written.
            known: What could have been written.

        Returns:
            A clause such as ``did you mean "pocket"?``; empty when nothing is known.
        """
        near = self.near(word, *known)
        return f'did you mean "{near}"?' if near else _listed(chain(*known))


def _lines(lines: Sequence[int]) -> str:
    """The lines of one mistake, in words; of very many the first ones."""
    if len(lines) > _LISTED:
        return f"lines {', '.join(map(str, lines[:_LISTED]))} and {len(lines) - _LISTED} more"
    return f"lines {', '.join(map(str, lines[:-1]))} and {lines[-1]}"


def nearest(word: str, known: Sequence[str]) -> str:
    """The known word that was probably meant, by its letters or its sense; empty when unclear."""
    return meant(word, known) or _nearest(word, known)


def did_you_mean(word: str, known: Sequence[str]) -> str:
    """The same remedy as `Findings.did_you_mean`, for a short list; other words are known too."""
    near = nearest(word, known)
    return f'did you mean "{near}"?' if near else _listed(known)


def _nearest(word: str, known: Iterable[str]) -> str:
    plain: dict[str, str] = {}
    for name in known:
        plain.setdefault(name.casefold(), name)
    wanted = word[:_LONGEST_WORD].casefold()
    if wanted in plain:
        return plain[wanted]
    near = get_close_matches(wanted, plain, n=1, cutoff=0.6)
    return plain[near[0]] if near else ""


def _listed(known: Iterable[str]) -> str:
    first = list(islice(dict.fromkeys(islice(known, 4 * _LISTED)), _LISTED + 1))
    if not first:
        return ""
    names = ", ".join(f'"{name}"' for name in first[:_LISTED])
    return f"known here: {names}" + (", ..." if len(first) > _LISTED else "")
