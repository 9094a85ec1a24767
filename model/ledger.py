"""Values that can be put back to what they were.

Every change goes through a `Ledger`, which notes what was there before. Taking changes back
in the opposite order restores everything, at a cost that depends on the changes alone.
"""

from __future__ import annotations

from collections.abc import Hashable, Iterator, MutableMapping
from typing import Any, Final

Changes = list[Any]
"""What was changed, three entries for each: the mapping, the key, and the value before.

They lie flat, since a long session keeps very many of them.
"""

GONE: Final[Any] = object()
"""Stands for no value at all."""


class Ledger:
    """Notes changes until they are taken off it."""

    def __init__(self) -> None:
        """Begin with nothing noted."""
        self._changes: Changes = []

    def set(self, mapping: MutableMapping[Any, Any], key: Hashable, value: Any) -> None:
        """Change a value.

        Args:
            mapping: Where it is kept.
            key: Its key.
            value: The new value; `GONE` takes it away.
        """
        before = mapping.get(key, GONE)
        if before is value:
            return
        self._changes += (mapping, key, before)
        if value is GONE:
            del mapping[key]
        else:
            mapping[key] = value

    def take(self) -> Changes:
        """What was changed since this was asked last."""
        changes, self._changes = self._changes, []
        return changes


def take_back(changes: Changes) -> None:
    """Put everything back to what it was before the changes."""
    for at in range(len(changes) - 3, -1, -3):
        mapping, key, before = changes[at : at + 3]
        if before is GONE:
            mapping.pop(key, None)
        else:
            mapping[key] = before


class Chains:
    """Rows of names in the order in which they came, any of which can be taken out at once.

    A name is in one row at a time. Each change costs the same, however long the rows are.
    """

    def __init__(self, ledger: Ledger) -> None:
        """Begin with no rows.

        Args:
            ledger: Notes the changes.
        """
        self._ledger = ledger
        self._over: dict[str, str] = {}
        self._under: dict[str, str] = {}
        self._ends: dict[Hashable, tuple[str, str]] = {}

    def add(self, row: Hashable, name: str) -> None:
        """Put a name at the end (on top) of a row."""
        put = self._ledger.set
        ends = self._ends.get(row)
        if ends is None:
            put(self._ends, row, (name, name))
            return
        put(self._over, ends[1], name)
        put(self._under, name, ends[1])
        put(self._ends, row, (ends[0], name))

    def remove(self, row: Hashable, name: str) -> None:
        """Take a name out of its row."""
        put = self._ledger.set
        over, under = self._over.get(name), self._under.get(name)
        first, last = self._ends[row]
        if under is None:
            first = over or ""
        else:
            put(self._over, under, GONE if over is None else over)
        if over is None:
            last = under or ""
        else:
            put(self._under, over, GONE if under is None else under)
        put(self._over, name, GONE)
        put(self._under, name, GONE)
        put(self._ends, row, (first, last) if first else GONE)

    def first(self, row: Hashable) -> str | None:
        """The name that has been in a row longest."""
        ends = self._ends.get(row)
        return ends[0] if ends else None

    def last(self, row: Hashable) -> str | None:
        """The name that came to a row last."""
        ends = self._ends.get(row)
        return ends[1] if ends else None

    def names(self, row: Hashable) -> Iterator[str]:
        """The names of a row, the first first."""
        name = self.first(row)
        while name is not None:
            yield name
            name = self._over.get(name)

    def rows(self) -> dict[Hashable, tuple[str, ...]]:
        """All rows that hold something."""
        return {row: tuple(self.names(row)) for row in self._ends}
