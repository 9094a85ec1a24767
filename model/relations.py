"""How the things of a kit belong together, findable from both ends."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass

from model.kit import Kit, Tie, Verb

_FORWARD: dict[Tie, str] = {
    Tie.GOES_WITH: "goes with",
    Tie.BACKS: "backs",
    Tie.COMPLETES: "completes",
    Tie.TRACED_FROM: "is traced from",
    Tie.FILED_WITH: "is filed with",
    Tie.SLIT_FOR: "has a slit for",
}
_BACK: dict[Tie, str] = {
    Tie.GOES_WITH: "goes with",
    Tie.BACKS: "is backed by",
    Tie.COMPLETES: "is completed by",
    Tie.TRACED_FROM: "is later traced around for",
    Tie.FILED_WITH: "is filed with",
    Tie.SLIT_FOR: "is threaded through",
}


@dataclass(frozen=True, slots=True)
class Related:
    """One tie of a thing, as seen from it.

    Attributes:
        tie: What ties them.
        other: The other thing's name.
        back: Seen from the far end: the other one backs it, completes it, ...
    """

    tie: Tie
    other: str
    back: bool = False

    @property
    def words(self) -> str:
        """The tie in plain words, such as ``is backed by``; the other's name follows."""
        return (_BACK if self.back else _FORWARD)[self.tie]


def relate(kit: Kit) -> dict[str, tuple[Related, ...]]:
    """All ties of a kit, by the name of each end.

    Args:
        kit: The kit.

    Returns:
        For each name its ties, those that it states first; kinds, sheets, strips and
        set-asides alike. Names without ties are left out.
    """
    ahead: dict[str, dict[Related, None]] = defaultdict(dict)
    behind: dict[str, dict[Related, None]] = defaultdict(dict)
    for name, tie, other in _stated(kit):
        mutual = tie is Tie.GOES_WITH
        ahead[name][Related(tie, other)] = None
        behind[other][Related(tie, name, back=not mutual)] = None
    return {
        name: tuple(dict.fromkeys((*ahead.get(name, ()), *behind.get(name, ()))))
        for name in dict.fromkeys((*ahead, *behind))
    }


def _stated(kit: Kit) -> Iterator[tuple[str, Tie, str]]:
    for kind in kit.kinds.values():
        for relation in kind.relations:
            yield kind.name, relation.tie, relation.other
        if kind.companion_of:
            yield kind.name, Tie.FILED_WITH, kind.companion_of
    for work in kit.work:
        if not work.around:
            continue
        if work.verb is Verb.TRACE:
            for give in work.gives:
                yield give.name, Tie.TRACED_FROM, work.around
        else:
            yield work.take, Tie.SLIT_FOR, work.around
