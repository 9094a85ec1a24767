"""Counting a pocket: what should be in it, what is missing, and where that most likely is.

The journal says what went into a pocket; a count says what is really there. What differs is
looked for, the likeliest place first, and each place with its reason: where others just like it
were filed, or a look-alike, where the things filed just before and after it went, the scraps,
the table.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from model.event import Event, Filed, Moved, Scrapped
from model.filings import filing_of
from model.likeness import Likeness, LookAlikes
from model.plan import Item, Plan
from model.sought import appearance
from model.spot import Spot
from model.state import State
from model.tells import Reason


@dataclass(frozen=True, slots=True)
class Line:
    """Alike things that the journal has in a pocket.

    Attributes:
        item: One of them, to name and size them by.
        copies: All of them, the one filed last at the end.
        stray: They do not belong there, and a warning says so.
        companions: What lies with them, by name.
    """

    item: Item
    copies: tuple[str, ...]
    stray: bool
    companions: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Count:
    """What somebody found in a pocket.

    Attributes:
        pocket: Its index.
        missing: What the journal has in it and is not there.
        others: What is there and the journal has elsewhere.
    """

    pocket: int
    missing: tuple[str, ...] = ()
    others: tuple[str, ...] = ()

    @property
    def right(self) -> bool:
        """Whether the journal is right about it."""
        return not (self.missing or self.others)


@dataclass(frozen=True, slots=True)
class Proposal:
    """Where a thing most likely is, and what would be put right.

    Attributes:
        item: The thing.
        home: The pocket that the journal has it in, by index.
        place: Where it most likely is: a pocket's index, or a `Spot`.
        reason: Why.
        other: What most likely lies in its stead, where the two were exchanged; empty for none.
        likeness: What it is like, for `Reason.LOOK_ALIKE`; or the two that were exchanged.
    """

    item: str
    home: int
    place: int
    reason: Reason
    other: str = ""
    likeness: Likeness | None = None

    def events(self, plan: Plan) -> tuple[Event, ...]:
        """What is said when it proves true: where each thing was found, then where it is put.

        Args:
            plan: The plan.
        """
        home = plan.kit.pockets[self.home].label
        back: Event = Moved(self.item, home)
        if self.place == Spot.SCRAPS:
            return Scrapped(self.item), back
        if self.place == Spot.PILE:
            return Moved(self.item, ""), Filed(self.item, home)
        there = plan.kit.pockets[self.place].label
        if not self.other:
            found: Event = Moved(self.item, there)
            return (found,) if self.place == self.home else (found, back)
        return Moved(self.item, there), Moved(self.other, home), back, Moved(self.other, there)


@dataclass(slots=True)
class Recount:
    """Counts pockets of a state, and looks for what is missing.

    Attributes:
        plan: The plan.
        state: Where everything is by the journal; it is only read.
        looks: The plan's look-alikes.
        counts: The last count of each pocket that was counted.
        denied: Places that were looked at in vain, with what was looked for there.
        settled: What was missed or found by a count and is put right by now, with the pocket.
    """

    plan: Plan
    state: State
    looks: LookAlikes
    counts: dict[int, Count] = field(default_factory=dict)
    denied: set[tuple[str, int]] = field(default_factory=set)
    settled: set[tuple[str, int]] = field(default_factory=set)
    _seen: dict[str, tuple[object, ...]] = field(default_factory=dict, repr=False)

    def lines(self, pocket: int) -> tuple[Line, ...]:
        """What the journal has in a pocket, alike things together, in the order of the plan.

        Args:
            pocket: Its index.
        """
        found: dict[tuple[str, str, bool], list[str]] = {}
        for id in self.state.lying_in(pocket):
            item = self.plan.items[id]
            if not item.partner:
                found.setdefault((item.name, item.group, self._stray(id)), []).append(id)
        order = {id: number for number, id in enumerate(self.plan.items)}
        lines = [
            Line(
                self.plan.items[copies[0]],
                tuple(copies),
                stray,
                tuple(self.plan.items[c].name for c in self.plan.companions.get(copies[0], ())),
            )
            for (_, _, stray), copies in found.items()
        ]
        return tuple(sorted(lines, key=lambda line: order[line.item.id]))

    def _stray(self, id: str) -> bool:
        return any(id in warning.items for warning in self.state.warnings.values())

    def seen_in(self, pocket: int, item: str, others: Sequence[str] = ()) -> str:
        """Which copy it most likely is that was found in a pocket and should not be there.

        Args:
            pocket: The pocket that is counted.
            item: What was found, or anything that looks just like it.
            others: What else was found there already.

        Returns:
            One that was missed by a count, else one that the journal has elsewhere; the thing
            itself when there is none.
        """
        alike = [id for id in self.plan.items if id not in others and self._one_kind(id, item)]
        missed = {id for id, home in self.missing() if home != pocket}
        elsewhere = [id for id in alike if self.state.where(id) != pocket]

        def unlikely(id: str) -> tuple[bool, bool]:
            place = self.state.where(id)
            return id not in missed, not (place >= 0 or place == Spot.PILE)

        return min(elsewhere, key=unlikely, default=item)

    def missing(self) -> tuple[tuple[str, int], ...]:
        """What was not in its pocket by the counts, and the pocket; what is settled is not."""
        return tuple(
            (item, count.pocket)
            for count in self.counts.values()
            for item in count.missing
            if self.state.where(item) == count.pocket and (item, count.pocket) not in self.settled
        )

    def others(self) -> tuple[tuple[str, int], ...]:
        """What was found in a pocket and is elsewhere by the journal; what is settled is not."""
        return tuple(
            (item, count.pocket)
            for count in self.counts.values()
            for item in count.others
            if self.state.where(item) != count.pocket and (item, count.pocket) not in self.settled
        )

    def right(self) -> tuple[int, ...]:
        """The pockets that were counted, and are right by now."""
        open_ = {pocket for _, pocket in (*self.missing(), *self.others())}
        return tuple(pocket for pocket in self.counts if pocket not in open_)

    def accept(self, proposal: Proposal) -> None:
        """A proposal was looked at, is true, and was put right."""
        self.settled.add((proposal.item, proposal.home))
        if proposal.other:
            self.settled.add((proposal.other, proposal.home))
        for item, pocket in self.others():
            if pocket == proposal.place and self._one_kind(item, proposal.item):
                self.settled.add((item, pocket))
                return

    def deny(self, proposal: Proposal) -> None:
        """A proposal was looked at, and is not true."""
        self.denied.add((proposal.item, proposal.place))

    def give_up(self, item: str, pocket: int) -> None:
        """Something is not found anywhere for now."""
        self.settled.add((item, pocket))

    def returns(self) -> tuple[Proposal, ...]:
        """What was found in a pocket and is missed nowhere: where it is to be put.

        What by the journal is not made yet, or is cut up, can't be: it is left out.
        """
        found: list[Proposal] = []
        for item, pocket in self.others():
            home = self.state.belongs(item)
            at_hand = self.state.where(item) >= 0 or self.state.where(item) == Spot.PILE
            if at_hand and home >= 0:
                found.append(Proposal(item, home, pocket, Reason.STRAY))
        return tuple(found)

    def proposals(self, item: str) -> tuple[Proposal, ...]:
        """Where a missing thing most likely is, the likeliest place first.

        Args:
            item: What was missed by a count.
        """
        home = self.state.where(item)
        seen: set[int] = set()
        found: list[Proposal] = []
        for each in self._likely(item, home):
            if each.place not in seen and (item, each.place) not in self.denied:
                seen.add(each.place)
                found.append(each)
        return tuple(found)

    def _likely(self, item: str, home: int) -> Iterator[Proposal]:
        alike = self.looks.of(item)
        like = {id: each for each in alike for id in each.other.copies}
        for other, pocket in self.others():
            if self._one_kind(other, item) and pocket != home:
                yield Proposal(item, home, pocket, Reason.SEEN)
        here = [other for other, pocket in self.others() if pocket == home]
        for other in sorted(here, key=lambda id: id not in like):
            place = self.state.where(other)
            if place >= 0 and place != home and self._may_be_in(item, place):
                yield Proposal(item, home, place, Reason.EXCHANGED, other, like.get(other))
        for place in self._its_like(item):
            if place != home and self._may_be_in(item, place):
                yield Proposal(item, home, place, Reason.SAME_KIND)
        if not here:
            for each in alike:
                for other in each.other.copies:
                    place = self.state.where(other)
                    if place >= 0 and place != home and self._may_be_in(item, place):
                        # Nothing else was in its pocket, so the two were not exchanged.
                        yield Proposal(item, home, place, Reason.LOOK_ALIKE, likeness=each)
        for place in self._filed_beside(item):
            if place != home and self._may_be_in(item, place):
                yield Proposal(item, home, place, Reason.NEXT_FILED)
        if self.state.scraps:
            yield Proposal(item, home, Spot.SCRAPS, Reason.SCRAPS)
        yield Proposal(item, home, Spot.PILE, Reason.TABLE)

    def _may_be_in(self, item: str, pocket: int) -> bool:
        """Whether a pocket may hold a thing unknown: it was not counted, or it was seen there."""
        count = self.counts.get(pocket)
        return count is None or any(self._one_kind(other, item) for other in count.others)

    def _one_kind(self, one: str, other: str) -> bool:
        return self._looks_of(one) == self._looks_of(other)

    def _looks_of(self, item: str) -> tuple[object, ...]:
        if item not in self._seen:
            self._seen[item] = appearance(self.plan.items[item])
        return self._seen[item]

    def _its_like(self, item: str) -> Sequence[int]:
        """The pockets that hold what nothing tells apart from a thing; those counted come last."""
        filed = {
            place
            for id, place in self.state.place.items()
            if place >= 0 and id != item and self._one_kind(id, item)
        }
        return sorted(filed, key=lambda pocket: (pocket in self.state.checked, pocket))

    def _filed_beside(self, item: str) -> Sequence[int]:
        """The pockets that what was filed just before and after a thing went into."""
        told = (filing_of(self.plan, entry.event) for entry in self.state.standing())
        filed = [each for each in told if each[0]]
        at = [number for number, (items, _) in enumerate(filed) if item in items]
        labels: Mapping[str, int] = {p.label: p.index for p in self.plan.kit.pockets}
        near: dict[int, None] = {}
        for number in reversed(at):
            for distance in (1, 2):
                for beside in (number - distance, number + distance):
                    if 0 <= beside < len(filed):
                        near[labels[filed[beside][1]]] = None
        return list(near)
