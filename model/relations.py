"""How the things of a kit belong together, findable from both ends."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass

from model.kit import Kit, Tie, Verb


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
