"""What of a kit may lie loose on a table, and what can be seen and measured of it."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache

from model.colour import Rgb
from model.geometry import Sure
from model.kit import Tie
from model.plan import Item, Plan, Role

TOLERANCE = Fraction(127, 80)
"""1/16 in, in mm: what a ruler is misread by (common practice, no source)."""
TORN_TOLERANCE = 2 * TOLERANCE
"""1/8 in: a torn edge has no one place to measure at (common practice, no source)."""
ABOUT_TOLERANCE = 4 * TOLERANCE
"""1/4 in: a size that the author gives as 'about' (common practice, no source)."""

_WORD = re.compile(r"[^\W_][\w'’-]*")
_ROLE_WORDS: Mapping[Role, str] = {
    Role.SHEET: "sheet",
    Role.BASE: "base sheet",
    Role.STRIP: "strip",
    Role.PIECE: "",
    Role.SCRAP: "scrap",
}


@dataclass(frozen=True, slots=True)
class Sought:
    """Copies that look alike and go the same ways.

    Attributes:
        item: The first of them, to name and size them by.
        copies: All of them, in the order of the plan.
        sides: The short and the long side in mm; one for a ribbon; none when nobody knows.
        slack: By how much each of them may be misread, in mm.
        colours: The colours of both of its sides, the one that is seen on the page first.
        words: All that is written of it or on it, in small letters.
    """

    item: Item
    copies: tuple[str, ...]
    sides: tuple[Fraction, ...]
    slack: Fraction
    colours: tuple[Rgb, ...]
    words: frozenset[str]


def appearance(item: Item) -> tuple[object, ...]:
    """All that can be seen and measured of a thing: what is alike in this nothing tells apart.

    Args:
        item: The thing.
    """
    kind = item.kind
    sides = _sides_of(item)
    return (
        sides,
        frozenset(_colours_of(item)),
        item.paper.name if item.paper is not None and item.paper.printed else "",
        bool(item.stock and item.stock.torn),
        (kind.words, kind.picture) if kind is not None else "",
        # A shape has no sides to measure, but an outline of its own.
        "" if len(sides) == 2 else item.name,
    )


def sought_of(plan: Plan) -> Iterator[Sought]:
    """Everything that may lie loose, alike copies together, in the order of the plan.

    Args:
        plan: The plan.
    """
    alike: dict[tuple[object, ...], list[Item]] = {}
    for item in plan.items.values():
        # A group's copies are of one size, but for ribbons; strips and scraps need not be.
        alike_size = item.group and item.length is None
        own = None if alike_size else (_sides_of(item), item.sheet)
        key = (item.role, item.name, item.group, item.use, own)
        alike.setdefault(key, []).append(item)
    for items in alike.values():
        first = items[0]
        yield Sought(
            first,
            tuple(item.id for item in items),
            _sides_of(first),
            _slack_of(first),
            _colours_of(first),
            frozenset(_words_of(plan, first)),
        )


def _sides_of(item: Item) -> tuple[Fraction, ...]:
    if item.length is not None:
        return (item.length,)
    if item.stock is not None:
        measures = (item.stock.width, item.stock.height)
        known = [m.value for m in measures if m.sure is not Sure.PRINTED]
        if known:
            return tuple(sorted(known))
    if item.kind is not None and item.kind.size is not None:
        return tuple(sorted(item.kind.size))
    return ()


def _slack_of(item: Item) -> Fraction:
    stock = item.stock
    if stock is None:
        return TOLERANCE
    if Sure.ABOUT in (stock.width.sure, stock.height.sure):
        return ABOUT_TOLERANCE
    return TORN_TOLERANCE if stock.torn else TOLERANCE


def _colours_of(item: Item) -> tuple[Rgb, ...]:
    if item.paper is None:
        return ()
    seen = item.paper.side(item.use)
    other = item.paper.reverse if item.use == "face" else item.paper.face
    return tuple(dict.fromkeys((seen.rgb, other.rgb)))


@lru_cache(4096)
def words_in(text: str) -> tuple[str, ...]:
    """The words of a text in small letters; what is joined by hyphens apart too."""
    words = _WORD.findall(text.casefold())
    return tuple(dict.fromkeys((*words, *(part for word in words for part in word.split("-")))))


def _words_of(plan: Plan, item: Item) -> Iterable[str]:
    # Only names are told by their numbers; those in a note are about something else.
    yield from words_in(item.name)
    yield from words_in(item.sheet)
    texts = [item.note, _ROLE_WORDS[item.role]]
    if item.paper is not None:
        texts += [item.paper.name, item.paper.face.name, item.paper.reverse.name]
        texts.append("print" if item.paper.printed else "plain")
    if item.kind is not None:
        texts += [item.kind.words, item.kind.picture, item.kind.note, item.kind.source]
        ties = plan.related(item.kind.name)
        texts += [tie.other for tie in ties if tie.tie is Tie.FILED_WITH]
    if item.stock is not None and item.stock.torn:
        texts.append("torn")
    for text in texts:
        if text:
            yield from (word for word in words_in(text) if not word.isdigit())
