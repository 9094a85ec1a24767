"""What is known of a kit's names while it is read, and what is known to be broken.

One mistake is told once: what hangs on a table that could not be read, or on a step that
can't be made, is excused, and what has been complained of is not complained of again.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field

from model.finding import Findings, Path
from model.kit import SCRAP, PieceKind

_NONE: frozenset[str] = frozenset()
WORKABLE = frozenset(
    {
        "up", "lay", "advised", "turn", "edge", "length", "optional", "wait", "tools", "needs",
        "caution", "note",
    }
)  # fmt: skip
"""Keys of a step without which it still tells what it takes and makes, if not how large."""
BLINDING = frozenset({"up", "turn", "edge"})
"""Those without which nothing is known of the size of what it makes."""


@dataclass(slots=True)
class Doubts:
    """What could not be read, so that nothing false is said of the rest.

    Attributes:
        names: Names that a broken table claims, takes or makes: whether there is such a
            thing, and how many, is not known.
        forgiven: Names of which something has been said; how they end is not judged.
        arrays: Arrays in which a table is broken.
        head: Keys at the top that could not be read.
        cuts: A step or a sheet is broken, so the cuts can't be added up.
        takes: A step, or what it takes, is not known, so neither is the order of work.
        nameless: A broken table does not tell its name, so any name that nothing bears may be
            its own.
        wordless: A broken step does not tell what it takes and makes, so that may be anything.
        taking: A broken step does not tell what it takes, so that may be anything that is left.
        making: A broken step does not tell all that it makes, so more may be there than is known.
        blind: Places of steps of which it is not known how the paper lies, so that nothing is
            known of the size of what they make.
        unphased: Whether something waits could not be read, so what comes before what is not
            known.
        unnamed: A step does not name all that it makes, so a name that nothing bears may be
            the name of that.
        excused: Something was not checked for one of these reasons, so that more may be found
            when what is broken has been mended.
        placeless: Names of which not all places are known, so that they are not counted.
        unsized: Names of which the size, or how far it is free, could not be read.
        unseen: Papers of which the landmarks could not be read.
        unlike: Papers of which it could not be read what tells them from others.
        broken: Names that stand in broken tables, by their array, ``base`` for a sheet that is
            one: what else in the kit is called nearly so may mean them.
        lost: For tables that were read in part, the keys that could not be read.
    """

    names: set[str] = field(default_factory=set)
    forgiven: set[str] = field(default_factory=set)
    arrays: set[str] = field(default_factory=set)
    head: set[str] = field(default_factory=set)
    cuts: bool = False
    takes: bool = False
    nameless: bool = False
    wordless: bool = False
    taking: bool = False
    making: bool = False
    blind: set[Path] = field(default_factory=set)
    unphased: bool = False
    unnamed: bool = False
    excused: bool = False
    placeless: set[str] = field(default_factory=set)
    unsized: set[str] = field(default_factory=set)
    unseen: set[str] = field(default_factory=set)
    unlike: set[str] = field(default_factory=set)
    broken: dict[str, list[str]] = field(default_factory=dict)
    lost: dict[Path, frozenset[str]] = field(default_factory=dict)

    def lost_of(self, where: Path) -> frozenset[str]:
        """The keys that could not be read of the table in which a place is."""
        return self.lost.get(where[:2], _NONE)

    def note_broken(self, array: str, names: Iterable[str]) -> None:
        """Remember what broken tables are called, or make."""
        named = (name for name in names if name.casefold() != SCRAP)
        self.broken.setdefault(array, []).extend(named)

    def broken_names(self, *arrays: str) -> list[str]:
        """What broken tables of some arrays are called, or make."""
        return [name for array in arrays for name in self.broken.get(array, ())]

    def silent(self, name: str) -> bool:
        """Whether nothing is said of how a name ends; noted when that is so."""
        return self._noted(self.wordless or name in self.names or name in self.forgiven)

    def may_be(self, name: str) -> bool:
        """Whether a broken table may be what a name means; noted when that is so."""
        return self._noted(self.nameless or self.wordless or name in self.names)

    def may_be_paper(self, name: str) -> bool:
        """Whether a broken table may be the paper that a name means; no step makes any."""
        return self._noted(self.nameless or name in self.names)

    def places_unknown(self, name: str) -> bool:
        """Whether nothing is said of how many there should be; noted when that is so."""
        return self._noted(name in self.placeless)

    def size_unknown(self, name: str) -> bool:
        """Whether nothing is said of the size of a thing; noted when that is so."""
        return self._noted(name in self.unsized)

    def landmarks_unknown(self, paper: str) -> bool:
        """Whether nothing is said of what is printed on a paper; noted when that is so."""
        return self._noted(paper in self.unseen)

    def looks_unknown(self, *papers: str) -> bool:
        """Whether papers can't be told from one another; noted when that is so."""
        return self._noted(any(paper in self.unlike for paper in papers))

    def may_be_taken(self) -> bool:
        """Whether a broken step may take what is left; noted when that is so."""
        return self._noted(self.taking)

    def may_be_more(self) -> bool:
        """Whether a broken step may make more of anything; noted when that is so."""
        return self._noted(self.making)

    def order_unknown(self) -> bool:
        """Whether nothing is said of what comes before what; noted when that is so."""
        return self._noted(self.unphased)

    def may_be_made(self) -> bool:
        """Whether a name that nothing bears may be that of an unnamed part; noted when so."""
        return self._noted(self.unnamed)

    def _noted(self, doubtful: bool) -> bool:
        self.excused |= doubtful
        return doubtful


KINDS = ("piece", "precut", "embellishment", "ribbon")
"""The arrays of which each table is a kind of piece."""


@dataclass(slots=True)
class Names:
    """The names of a kit; sheets, pieces, what is packed and set-asides share one set.

    Attributes:
        findings: Where errors go.
        doubts: What is broken.
        used: What each name stands for, such as ``a sheet``.
        kinds: All kinds of pieces, in file order.
    """

    findings: Findings
    doubts: Doubts
    used: dict[str, str] = field(default_factory=dict)
    kinds: dict[str, PieceKind] = field(default_factory=dict)

    def claim(self, name: str, where: Path, what: str) -> bool:
        """Claim a name; an error is noted when it can't be had.

        Args:
            name: The name.
            where: The place of what is to be called so.
            what: What is to be called so, such as ``a sheet``.

        Returns:
            Whether the name is now its own.
        """
        if not name:  # it could not be read, and that is told
            return False
        if name.casefold() == SCRAP:
            self.doubts.excused = True  # what has no name is not looked at any further
            self.doubts.nameless = True
            self.findings.grave(
                "name-reserved", where, f'{what} can\'t be called "scrap"', "choose another name"
            )
            return False
        if name in self.used:
            other = self.used[name]
            self.findings.grave(
                "name-twice",
                where,
                f'the name "{name}" is used twice, both times for {what}'
                if other == what
                else f'the name "{name}" is used for two kinds: {other} and {what}',
                "say all in one table, or give one of them another name"
                if other == what
                else "give one of them another name",
            )
            # Which of the two a step means can't be known; nor what one of them ought to be.
            self.doubts.names.add(name)
            self.doubts.unnamed = True
            return False
        self.used[name] = what
        return True

    def that_are(self, other_than: str, *whats: str) -> list[str]:
        """The names of all kinds, and of what is used for something else.

        Args:
            other_than: A name that is left out.
            whats: What else is looked for, such as ``a set-aside``.
        """
        return [
            name
            for name, what in self.used.items()
            if name != other_than and (name in self.kinds or what in whats)
        ]
