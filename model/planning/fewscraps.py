"""The fewest scraps of several sheets that are all alike: a bound that grows, and how it is met.

All sets of pieces that one sheet gives with up to so many scraps are found, at first none, then one
and so on. Any other sheet leaves one scrap more at least. So what the sheets leave together is at
least what the best choice of such sets leaves, each other sheet counted with one scrap more than
was looked for: of the other sheets only their area is asked to do. That is the bound. Where all
sheets but one are such sets, the last one's pieces are known, and it is tried whether they come out
of it: that is how fewer scraps are found.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from operator import mul

from model.planning.blocks import Block, Kind, Packing
from model.planning.filling import Filled, Room, priced
from model.planning.tidying import within
from model.planning.tidysets import tidy_sets
from model.planning.unlimited import surroundings
from model.planning.work import Work

_LAST = 6_000
_LASTS = 80
_EASY = 300_000

_Set = tuple[int, int, int, Block]  # scraps, packed counts, area, block


class FewScraps:
    """A search on sheets that are all alike and give every piece.

    Attributes:
        least: The fewest scraps, as far as is proved.
        level: Sheets with fewer scraps than this have all been looked at.
        done: It has said all that it can.
    """

    def __init__(
        self, kinds: Sequence[Kind], rooms: Sequence[Room], number: int, sheets: int, known: int
    ) -> None:
        """A search.

        Args:
            kinds: The kinds, with their counts.
            rooms: The boards.
            number: The room that all the sheets are from.
            sheets: How many are begun, neither more nor fewer.
            known: Scraps that are known to do.
        """
        areas = [kind.width * kind.height for kind in kinds]
        self._kinds = priced(kinds, [kind.count for kind in kinds], areas)
        self._room, self._number, self._sheets = rooms[number], number, sheets
        total = sum(kind.count * kind.value for kind in self._kinds)
        # What the other sheets cannot hold, each sheet must.
        self._each = max(total - (sheets - 1) * self._room.area, 1)
        self._around, _ = surroundings(self._kinds, self._room.width, self._room.height, total)
        self._known = known
        self._sets: dict[int, tuple[int, Block]] = {}
        self._complete = -1  # so many scraps a sheet, and all sets with them are known
        self.level = 0
        self.least = int(total < sheets * self._room.area)
        self.done = self.least >= known

    def lower(self, known: int) -> None:
        """Fewer scraps may have become known.

        Args:
            known: So many do.
        """
        self._known = min(self._known, known)
        self.done |= self.least >= self._known

    def deepen(self, work: Work) -> tuple[Filled, ...] | None:
        """Look for sheets with one scrap more than before, and see what follows.

        Args:
            work: How much may be looked at. Where it ends before, nothing follows.

        Returns:
            Sheets with fewer scraps than were known, if any are found.
        """
        if self._complete < self.level:
            sets = tidy_sets(self._kinds, self._room, self.level, self._each, self._around, work)
            self._sets |= sets
            if work.over:
                return None
            self._complete = self.level
        sets = {key: one for key, one in self._sets.items() if one[0] <= self.level}
        # What is easily found comes before what is proved.
        share = work.share(_EASY)
        best = self._best(self._choice(sets, self.level, share), share)
        work.spend(share.spent)
        choice = self._choice(sets, self.level, work)
        while self.least < self._known and not choice.fits(self.least) and not work.over:
            self.least += 1
        best = self._best(choice, work) or best
        if not work.over:
            self.level += 1
        self.done = self.least >= self._known
        return best

    def mix(
        self, sets: Mapping[tuple[int, ...], tuple[int, Block]], work: Work
    ) -> tuple[Filled, ...] | None:
        """Mix sheets that were come by elsewhere with those that were found here.

        Args:
            sets: By the pieces of each kind: the scraps of a sheet, and how it is cut.
            work: How much may be looked at.

        Returns:
            Sheets with fewer scraps than were known, if any are found.
        """
        every = dict(self._sets)
        packing = Packing([kind.count for kind in self._kinds])
        for counts, (scraps, block) in sets.items():
            key = packing.packed(counts)
            if scraps < self._known and (key not in every or scraps < every[key][0]):
                area = sum(n * kind.value for n, kind in zip(counts, self._kinds, strict=True))
                block = Block(
                    block.width, block.height, key, area, block.scraps, block.across,
                    block.first, block.second, block.kind, block.turned,
                )  # fmt: skip
                every[key] = (scraps, block)
        best = self._best(self._choice(every, max(self.level - 1, 0), work), work)
        self.done = self.least >= self._known
        return best

    def _choice(self, sets: dict[int, tuple[int, Block]], level: int, work: Work) -> _Choice:
        return _Choice(self._kinds, self._room, self._sheets, level, sets, self._around, work)

    def _best(self, choice: _Choice, work: Work) -> tuple[Filled, ...] | None:
        best: list[Block] | None = None
        while self.least < self._known and not work.over:
            found = choice.found(self._known - 1)
            if found is None:
                break
            best = found
            self._known -= 1
        return None if best is None else tuple(Filled(self._number, block) for block in best)


class _Choice:
    """Sets chosen so that few scraps are left."""

    def __init__(
        self,
        kinds: Sequence[Kind],
        room: Room,
        sheets: int,
        level: int,
        sets: dict[int, tuple[int, Block]],
        around: dict[int, dict[int, int]],
        work: Work,
    ) -> None:
        self._kinds, self._room, self._sheets, self._level = kinds, room, sheets, level
        self._space = room.area
        self._around, self._work = around, work
        self._areas = [kind.value for kind in kinds]
        self._packing = Packing([kind.count for kind in kinds])
        self._by_area = sorted(range(len(kinds)), key=lambda n: -self._areas[n])
        self._with: list[list[_Set]] = [[] for _ in kinds]
        for key, (scraps, block) in sets.items():
            for kind, count in enumerate(self._packing.unpacked(key)):
                if count:
                    self._with[kind].append((scraps, key, block.worth, block))
        for entries in self._with:
            entries.sort(key=lambda entry: (entry[0], -entry[2], entry[1]))
        self._fewest = min((scraps for scraps, _ in sets.values()), default=0)
        self._vain: set[tuple[int, int, int, int]] = set()
        self._lasts: dict[int, tuple[int, Block | None]] = {}
        self._end = False

    def fits(self, most: int) -> bool:
        """Whether so many scraps are not ruled out.

        Args:
            most: Scraps that all sheets may leave together.
        """
        for others in range(min(self._sheets, most // (self._level + 1)) + 1):
            self._vain.clear()
            self._end = False
            budget = most - others * (self._level + 1)
            if self._chosen(self._packing.whole, 0, self._sheets - others, budget, others, []):
                return True
            if self._work.over:
                return True
        return False

    def found(self, most: int) -> list[Block] | None:
        """Sheets with so many scraps; nothing found proves nothing.

        Args:
            most: Scraps that all sheets may leave together.
        """
        for others in range(min(self._sheets, most // (self._level + 1), 1) + 1):
            self._vain.clear()
            self._end = bool(others)
            budget = most - others * (self._level + 1)
            chosen: list[Block] = []
            if self._chosen(self._packing.whole, 0, self._sheets - others, budget, others, chosen):
                return None if self._work.over else chosen
        return None

    def _area(self, counts: Sequence[int]) -> int:
        return sum(map(mul, counts, self._areas))

    def _chosen(
        self, left: int, out: int, sheets: int, budget: int, others: int, chosen: list[Block]
    ) -> bool:
        """Choose sets for so many sheets.

        Args:
            left: Pieces that may be in a set, packed.
            out: Pieces that are in none.
            sheets: Sheets that still need a set.
            budget: Scraps that these may leave.
            others: Sheets that hold the pieces that are in no set.
            chosen: Where the sets are noted.
        """
        if not sheets:
            rest = left + out
            if self._area(self._packing.unpacked(rest)) > others * self._space:
                return False
            return not self._end or self._comes_out(rest, budget + self._level + 1, chosen)
        state = (left, out, sheets, budget)
        if state in self._vain:
            return False
        self._vain.add(state)
        counts = self._packing.unpacked(left)
        loose = others * self._space - self._area(self._packing.unpacked(out))
        spare = sheets * self._space + loose - self._area(counts)
        pivot = next((kind for kind in self._by_area if counts[kind]), -1)
        if spare < 0 or pivot < 0:
            return False
        self._work.spend(len(self._with[pivot]) // 4 + 2)
        guards = self._packing.guards
        for scraps, key, area, block in self._with[pivot]:
            if scraps + (sheets - 1) * self._fewest > budget:
                break
            if self._space - area > spare or ((left | guards) - key) & guards != guards:
                continue
            if self._work.over:
                return True
            if self._chosen(left - key, out, sheets - 1, budget - scraps, others, chosen):
                chosen.append(block)
                return True
        # Else all that are left of its kind are in no set.
        if counts[pivot] * self._areas[pivot] > loose:
            return False
        those = counts[pivot] << self._packing.shifts[pivot]
        return self._chosen(left - those, out + those, sheets, budget, others, chosen)

    def _comes_out(self, rest: int, allowed: int, chosen: list[Block]) -> bool:
        known = self._lasts.get(rest)
        if known is None or (known[1] is None and known[0] < allowed):
            if len(self._lasts) >= _LASTS:
                return False
            kinds = priced(self._kinds, self._packing.unpacked(rest), self._areas)
            total = self._area([kind.count for kind in kinds])
            share = self._work.share(_LAST)
            room = self._room
            block = within(kinds, room.width, room.height, share, allowed, 0, self._around, total)
            self._work.spend(share.spent)
            known = self._lasts[rest] = (allowed, block)
        if known[1] is None or known[0] > allowed:
            return False
        chosen.append(known[1])
        return True
