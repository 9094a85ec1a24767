"""The same pieces from as many sheets with fewer and fewer scraps."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from model.planning.blocks import Block, Kind
from model.planning.filling import Filled, Room, Rounds, counts_of, priced, sheets_in
from model.planning.loads import holds
from model.planning.placing import Placing
from model.planning.tidying import fewest_scraps, scraps_of
from model.planning.trading import Trade
from model.planning.work import Work

_TIDY = 100_000
_AGAIN = 10_000
_BATCH = 150
_PAUSE = 30
_BATCHES = 30


class Sparing:
    """A search for fewer scraps.

    Attributes:
        filled: The best boards so far.
        scraps: The scraps that they leave.
        least: The fewest scraps, as far as is proved, if the given sheets are the only ones.
    """

    def __init__(
        self, kinds: Sequence[Kind], rooms: Sequence[Room], filled: Sequence[Filled], narrow: int
    ) -> None:
        """A search.

        Args:
            kinds: The kinds, with their counts.
            rooms: The boards that there are.
            filled: Boards that yield every piece.
            narrow: No part that is cut again is narrower.
        """
        self._kinds, self._rooms, self._narrow = kinds, rooms, narrow
        self._tidy: dict[tuple[int, tuple[int, ...]], tuple[Block, int]] = {}
        self._seen: set[tuple[tuple[int, tuple[int, ...]], ...]] = set()
        self._trade = Trade(kinds, rooms, narrow)
        self.filled = tuple(filled)
        self.scraps = sum(map(self._of, filled))
        self.least = 0
        self._paid = sheets_in(rooms, filled)

    def _of(self, one: Filled) -> int:
        room = self._rooms[one.room]
        return scraps_of(one.block, room.width, room.height)

    def _tidied(self, one: Filled, most: int, work: Work) -> Filled:
        counts = tuple(counts_of(one.block, len(self._kinds)))
        key = (one.room, counts)
        has = self._of(one)
        known = self._tidy.get(key)
        if known is None or (most > _AGAIN and known[1] < has):
            room = self._rooms[one.room]
            share = work.share(min(most, work.left // 4))
            kinds = priced(self._kinds, counts, counts)
            better, self.least = fewest_scraps(
                kinds, room.width, room.height, share, has, self._narrow
            )
            work.spend(share.spent + 500)
            block = one.block if better is None else better
            known = self._tidy[key] = (block, has if better is None else self.least)
        return one if has <= known[1] else Filled(one.room, known[0])

    def tidy(self, work: Work) -> None:
        """Each sheet by itself.

        Args:
            work: How much may be looked at.
        """
        self._keep([self._tidied(one, _TIDY, work) for one in self.filled])

    def _keep(self, filled: Sequence[Filled]) -> None:
        scraps = sum(map(self._of, filled))
        if scraps < self.scraps and all(self._holds(one) for one in filled):
            self.filled, self.scraps = tuple(filled), scraps

    def _holds(self, one: Filled) -> bool:
        room = self._rooms[one.room]
        return holds(one.block, room.width, room.height, self._narrow)

    def take(self, filled: Sequence[Filled]) -> None:
        """Boards that were found elsewhere.

        Args:
            filled: They yield every piece from as many sheets.
        """
        self._keep(filled)

    def sets(self, room: int) -> dict[tuple[int, ...], tuple[int, Block]]:
        """The sheets that were come by.

        Args:
            room: Those of one room.

        Returns:
            By the pieces of each kind: the scraps of a sheet, and how it is cut.
        """
        return {
            counts: (scraps, block)
            for (number, counts), (block, scraps) in self._tidy.items()
            if number == room
        }

    def run(self, work: Work) -> Iterator[None]:
        """Trade pieces between sheets, and share them out anew in many ways.

        Args:
            work: How much may be looked at.

        Yields:
            After some tries each.
        """
        self._traded(self.filled, work)
        yield
        boards = [one.room for one in self.filled]
        placing = Placing(self._kinds, self._rooms, boards)
        rounds = Rounds(self._kinds, self._rooms, self._narrow)
        pieces = sum(kind.count for kind in self._kinds)
        idle = 0
        while idle < _BATCHES and not work.over:
            idle += 1
            if idle > 1:
                placing.anew()
            before = self.scraps
            for tried in range(_BATCH):
                if tried % _PAUSE == _PAUSE - 1:
                    yield
                if work.over:
                    return
                work.spend(pieces * 8)
                filled = placing.attempt()
                if filled is not None:
                    self._tried(filled, work)
            for filled_so, left in rounds.run(1, self._paid, work):
                if not any(left) and sheets_in(self._rooms, filled_so) <= self._paid:
                    self._tried(filled_so, work)
            if self.scraps < before:
                idle = 0
            yield

    def _tried(self, filled: Sequence[Filled], work: Work) -> None:
        size = len(self._kinds)
        key = tuple(sorted((one.room, tuple(counts_of(one.block, size))) for one in filled))
        if key in self._seen:
            return
        self._seen.add(key)
        now = [self._tidied(one, _AGAIN, work) for one in filled]
        self._keep(now)
        if sum(map(self._of, now)) <= self.scraps + 1:
            self._traded(now, work)

    def _traded(self, filled: Sequence[Filled], work: Work) -> None:
        for now in self._trade.run(filled, work):
            self._keep(now)
