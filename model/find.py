"""Finding a loose piece: what the ruler says, its colour, the words on it.

A `Finder` knows what of a kit may lie loose on a table, as `Sought`: copies that look alike are
one of them. Sizes are compared exactly, either way round, within a reading error of 1/16 in.
What fits everything asked for is a match; when nothing does, the nearest are told as such.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from difflib import get_close_matches
from fractions import Fraction
from functools import cache
from heapq import nsmallest
from math import ceil, floor, lcm

from model.colour import COLOUR_WORDS, ColourError, colour_word, parse_colour
from model.found import Found, Match
from model.kit import SetAside
from model.length import Unit
from model.plan import Plan
from model.query import IDLE_WORDS, Query, read_query
from model.sought import TOLERANCE, sought_of, words_in
from model.spot import Spot
from model.state import State

MOST_MATCHES = 12
_MANY = 200
_SIXTEENTH = float(TOLERANCE)
_NAMED = 10.0
"""More than where a thing lies can weigh: who types a whole name means it."""
_UNKNOWN = 10**12
"""Stands for a difference that nobody knows, larger than any that is."""

# Ordinary words that are no CSS names, or whose CSS colour is not what people mean.
COLOUR_SYNONYMS: Mapping[str, str] = {
    "gray": "grey", "golden": "yellow", "mustard": "yellow", "lemon": "yellow", "rust": "orange",
    "rose": "pink", "wine": "red", "burgundy": "red", "scarlet": "red", "cherry": "red",
    "sage": "green", "mint": "green", "moss": "green", "aqua": "teal", "cyan": "teal",
    "kraft": "brown", "buff": "cream", "sand": "cream", "ecru": "cream", "lilac": "purple",
    "charcoal": "grey", "offwhite": "cream", "off-white": "cream", "denim": "blue",
}  # fmt: skip
_SHADES = frozenset(("bright", "dark", "deep", "dull", "light", "pale"))
# Words for colours that one person calls so and the next one otherwise.
_NEAR: Mapping[str, str] = {
    "red": "pink orange brown", "orange": "red yellow brown", "yellow": "orange cream green",
    "green": "teal yellow", "teal": "green blue", "blue": "teal purple grey",
    "purple": "blue pink", "pink": "red purple", "brown": "orange red cream",
    "black": "grey", "grey": "black white blue", "white": "cream grey",
    "cream": "white yellow brown",
}  # fmt: skip


class Finder:
    """Finds the pieces of a plan; made once for it."""

    def __init__(self, plan: Plan) -> None:
        """Sort everything that may lie loose by its sides, its colours and its words.

        Args:
            plan: The plan.
        """
        self._plan = plan
        self._all = tuple(sought_of(plan))
        self._number = {id: n for n, each in enumerate(self._all) for id in each.copies}
        sizes = {side for each in self._all for side in (*each.sides, each.slack)}
        # Whole numbers of this unit are exact, and quicker to compare than fractions.
        self._unit = lcm(*{size.denominator for size in sizes}, TOLERANCE.denominator)
        # Many things are of one size, which is looked at once.
        shapes: dict[tuple[tuple[Fraction, ...], Fraction], int] = {}
        self._shape = [shapes.setdefault((e.sides, e.slack), len(shapes)) for e in self._all]
        self._sides = [[int(side * self._unit) for side in sides] for sides, _ in shapes]
        self._slack = [int(slack * self._unit) for _, slack in shapes]
        self._most_slack = max(self._slack, default=0)
        self._by_side = sorted(
            (side, shape) for shape, sides in enumerate(self._sides) for side in set(sides)
        )
        self._of_shape: list[set[int]] = [set() for _ in shapes]
        for number, shape in enumerate(self._shape):
            self._of_shape[shape].add(number)
        self._name_words = [frozenset(words_in(each.item.name)) - IDLE_WORDS for each in self._all]
        self._seen = [colour_word(each.colours[0]) if each.colours else "" for each in self._all]
        self._by_colour: dict[str, set[int]] = defaultdict(set)
        by_word: dict[str, list[int]] = defaultdict(list)
        for number, each in enumerate(self._all):
            for rgb in each.colours:
                self._by_colour[colour_word(rgb)].add(number)
            for word in each.words:
                by_word[word].append(number)
        self._by_word = dict(by_word)
        self._vocabulary = sorted(self._by_word)

    def find(self, text: str, unit: Unit, state: State, most: int = MOST_MATCHES) -> Found:
        """Find what was typed.

        Args:
            text: What was typed.
            unit: The unit that this crafter measures in.
            state: Where everything is; of the plan that this was made for.
            most: How many matches at most.

        Returns:
            What fits in the likeliest reading that anything fits; otherwise the nearest.
        """
        readings = read_query(text, unit)
        if readings[0].empty:
            return Found(readings[0], (), False)
        for query in readings:
            asked = self._asked(query)
            fitting = self._fitting(asked)
            if fitting:
                numbers = self._likeliest(asked, fitting, state)
                matches = self._matches(asked, numbers, state, most)
                more = len(fitting) - len(matches)
                return Found(query, matches, True, more, self._lying_aside(query))
        asked = self._asked(readings[0])
        nearest = self._matches(asked, self._nearest(asked, most), state, most)
        return Found(asked.query, nearest, False, asides=self._lying_aside(asked.query))

    def _lying_aside(self, query: Query) -> tuple[SetAside, ...]:
        """Set-asides with all that was typed in their names; nobody knows how large they are."""
        if query.sides or not query.words:
            return ()
        return tuple(
            aside
            for aside in self._plan.kit.set_asides
            if all(any(has.startswith(w) for has in words_in(aside.name)) for w in query.words)
        )

    # What fits

    def _fitting(self, asked: _Asked) -> set[int]:
        """Everything that all of a query fits, by number."""
        wanted = self._of_size(asked) if asked.sides else None
        for having in asked.having.values():
            wanted = having if wanted is None else wanted & having
        return wanted or set()

    def _asked(self, query: Query) -> _Asked:
        return _Asked(
            query,
            sorted(side * self._unit for side in query.sides),
            {word: self._having(word) for word in query.words},
            query.slack * self._unit,
            frozenset(part for word in query.words for part in words_in(word)),
        )

    def _of_size(self, asked: _Asked) -> set[int]:
        """Everything with such a side, or with two such sides."""
        # What is within the largest slack of one side; the rest is looked at one by one.
        longest, most = asked.sides[-1], max(Fraction(self._most_slack), asked.slack)
        low = bisect_left(self._by_side, (ceil(longest - most), -1))
        high = bisect_right(self._by_side, (floor(longest + most), len(self._sides)))
        near = {shape for _, shape in self._by_side[low:high]}
        fits = [self._of_shape[n] for n in near if self._fits(asked, n)]
        return set().union(*fits)

    def _fits(self, asked: _Asked, shape: int) -> bool:
        off = self._off(asked, shape)
        return off <= self._slack[shape] or off <= asked.slack

    def _off(self, asked: _Asked, shape: int) -> Fraction | int:
        """By how much the side that fits least differs, in the finder's unit."""
        off = asked.off.get(shape)
        if off is None:
            off = asked.off[shape] = self._difference(self._sides[shape], asked.sides)
        return off

    def _apart(self, asked: _Asked, shape: int) -> Fraction | int:
        """By how much both sides differ together, in the finder's unit."""
        has = self._sides[shape]
        if len(has) != 2 or len(asked.sides) != 2:
            return self._off(asked, shape)
        return sum(abs(a - b) for a, b in zip(has, asked.sides, strict=True))

    @staticmethod
    def _difference(has: list[int], sides: list[Fraction]) -> Fraction | int:
        if not sides:
            return 0
        if not has:
            return _UNKNOWN
        if len(sides) == 1:
            return min(abs(side - sides[0]) for side in has)
        if len(has) == 1:
            # A ribbon's width, or a side that only a printed line knows, can't be compared.
            return min(abs(has[0] - side) for side in sides)
        return max(abs(has[0] - sides[0]), abs(has[1] - sides[1]))

    def _having(self, word: str) -> set[int]:
        """Everything that a word says something true of."""
        found = self._worded(word) | self._by_colour.get(colour_asked(word), set())
        if found:
            return found
        if word in _SHADES:
            return set(range(len(self._all)))  # nobody is sure of a shade
        return self._slipped(word)

    def _worded(self, word: str) -> set[int]:
        """Everything with a word that begins so; with its singular too."""
        for begin in dict.fromkeys((word, word.removesuffix("s"), word.removesuffix("es"))):
            if len(begin) < min(2, len(word)):
                continue
            at = bisect_left(self._vocabulary, begin)
            numbers: set[int] = set()
            while at < len(self._vocabulary) and self._vocabulary[at].startswith(begin):
                numbers.update(self._by_word[self._vocabulary[at]])
                at += 1
            if numbers:
                return numbers
        return set()

    def _slipped(self, word: str) -> set[int]:
        """Everything with a word that is a slip of a key away."""
        low = bisect_left(self._vocabulary, word[:1])
        high = bisect_left(self._vocabulary, chr(ord(word[0]) + 1))
        like = [w for w in self._vocabulary[low:high] if abs(len(w) - len(word)) <= 1]
        close = get_close_matches(word, like[:_MANY], n=1, cutoff=0.8) if len(word) > 3 else []
        return set(self._by_word[close[0]]) if close else set()

    # Ranking

    def _likeliest(self, asked: _Asked, fitting: set[int], state: State) -> set[int]:
        """Of very many that fit those that may come first; what lies about is among them."""
        if len(fitting) <= _MANY:
            return fitting
        loose = {self._number[id] for id in state.pile} & fitting
        if not asked.query.words:
            # Nothing but the size tells them apart: the first of each size will do.
            shapes = sorted({self._shape[n] for n in fitting}, key=lambda n: self._off(asked, n))
            return loose.union(*(nsmallest(_MANY, self._of_shape[n]) for n in shapes[:3]))
        best = nsmallest(_MANY, fitting, key=lambda n: (self._cost(asked, n), n))
        return loose | set(best)

    def _nearest(self, asked: _Asked, most: int) -> set[int]:
        """The few that differ least: in what is asked for, then in size."""
        having = list(asked.having.values())
        some: set[int] = set().union(*having)

        def by_misses(number: int) -> tuple[int, Fraction | int, Fraction | int, int]:
            misses = sum(number not in each for each in having)
            shape = self._shape[number]
            return misses, self._off(asked, shape), self._apart(asked, shape), number

        if not asked.sides:
            return set(nsmallest(most, some, key=by_misses))
        shapes = nsmallest(
            most,
            range(len(self._sides)),
            key=lambda n: (self._off(asked, n), self._apart(asked, n), n),
        )
        near = [n for shape in shapes for n in nsmallest(most, self._of_shape[shape])]
        fewest = nsmallest(most, some, key=by_misses) if len(some) <= _MANY else ()
        return {*near[:most], *nsmallest(most, near, key=by_misses), *fewest}

    def _matches(
        self, asked: _Asked, numbers: Iterable[int], state: State, most: int
    ) -> tuple[Match, ...]:
        """The likeliest of some, in order."""
        ranked: list[tuple[float, int, str]] = []
        for number in numbers:
            copies = self._all[number].copies
            copy = min(copies, key=lambda id: _loose(state.where(id)))
            cost = self._cost(asked, number) + _loose(state.where(copy))
            ranked.append((cost, number, copy))
        return tuple(
            self._match(asked, number, copy, state) for _, number, copy in nsmallest(most, ranked)
        )

    def _match(self, asked: _Asked, number: int, copy: str, state: State) -> Match:
        shape = self._shape[number]
        off = self._off(asked, shape)
        misses = [] if self._fits(asked, shape) else ["size"]
        for word in asked.query.words:
            if number not in asked.having[word]:
                misses.append("colour" if colour_asked(word) else word)
        return Match(
            self._all[number],
            copy,
            state.where(copy),
            state.belongs(copy),
            Fraction(off, self._unit) if off != _UNKNOWN else Fraction(0),
            tuple(misses),
        )

    def _cost(self, asked: _Asked, number: int) -> float:
        """How unlikely something is. It only ranks: what fits was decided exactly."""
        shape = self._shape[number]
        cost = asked.cost.get(shape)
        if cost is None:
            off = self._off(asked, shape)
            cost = min(float(off) / self._unit / _SIXTEENTH, 40.0)
            if not self._fits(asked, shape):
                # Of two that are as far off, the one that is so on one side only.
                cost += 4.0 + 0.25 * min(
                    float(self._apart(asked, shape)) / self._unit / _SIXTEENTH, 80.0
                )
            asked.cost[shape] = cost
        if asked.query.words:
            # Of two names that begin alike the one that says no more than was typed.
            unsaid = self._name_words[number] - set(asked.query.words)
            cost += 0.05 * len(unsaid)
            if asked.name and asked.name == self._name_words[number]:
                cost -= _NAMED
        for word in asked.query.words:
            if number not in asked.having[word]:
                cost += 4.0
                continue
            if word in self._name_words[number]:
                continue  # a name says more than a colour, and than what is written elsewhere
            cost += 0.3
            if colour_asked(word):
                seen, colour = self._seen[number], colour_asked(word)
                if seen != colour:  # it may lie reverse up
                    cost += 0.5 if colour in _NEAR.get(seen, "").split() else 1.0
            elif word not in self._all[number].words:
                cost += 0.25  # it only begins so
        return cost


@dataclass(frozen=True, slots=True)
class _Asked:
    """A query, made ready.

    Attributes:
        query: The query.
        sides: Its sides in the finder's unit, the shorter first.
        having: What each of its words says something true of.
        slack: By how much its sides may be off for being rounded.
        name: Its words, for comparing with a whole name.
        off: By how much each shape differs, as far as it was looked at.
        cost: What that adds to the cost.
    """

    query: Query
    sides: list[Fraction]
    having: dict[str, set[int]]
    slack: Fraction
    name: frozenset[str]
    off: dict[int, Fraction | int] = field(default_factory=dict)
    cost: dict[int, float] = field(default_factory=dict)


@cache
def colour_asked(word: str) -> str:
    """The plain colour word that an ordinary word means; empty when it is no colour.

    Args:
        word: In small letters: ``green``, ``greenish``, ``gray``, ``navy``.
    """
    for each in (word, word.removesuffix("ish"), word.removesuffix("dish"), f"{word[:-3]}e"):
        if each in COLOUR_WORDS:
            return each
        if each in COLOUR_SYNONYMS:
            return COLOUR_SYNONYMS[each]
    try:
        return colour_word(parse_colour(word)) if word.isalpha() else ""
    except ColourError:
        return ""


def _loose(place: int) -> float:
    """How unlikely it is that a thing is the loose one, by where the journal has it."""
    if place >= 0:
        return 0.6  # it is filed; it may have fallen out
    return _LOOSE.get(place, 0.8)


_LOOSE: Mapping[int, float] = {
    Spot.PILE: 0.0,
    Spot.SCRAPS: 0.2,
    Spot.ASIDE: 0.3,
    Spot.MISSING: 0.0,
    # What exists ranks before what is cut up by now, or is not made yet.
    Spot.NOWHERE: 1.5,
    Spot.TAKEN: 1.6,
}
