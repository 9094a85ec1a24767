"""How many sheets are needed at least, by prices that no sheet can beat."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from model.planning.blocks import Kind
from model.planning.filling import Filled, Room, counts_of, priced
from model.planning.onesheet import most_value
from model.planning.prices import Programme
from model.planning.sharing import shared_out
from model.planning.work import Work

_MOST_KINDS = 60


def sheets_for(total: int, rooms: Sequence[Room], brings: Sequence[int]) -> int:
    """The fewest sheets that can bring a total; one more than there are where none can.

    Args:
        total: What must be brought, at some prices.
        rooms: The boards.
        brings: The most that one board of each room can bring at those prices.
    """
    total -= sum(room.count * most for room, most in zip(rooms, brings, strict=True) if room.free)
    sheets = 0
    paid = [(most, room.count) for room, most in zip(rooms, brings, strict=True) if not room.free]
    for most, count in sorted(paid, reverse=True):
        if total <= 0:
            return sheets
        need = -(-total // most) if most else count + 1
        if need <= count:
            return sheets + need
        sheets += count
        total -= count * most
    return sheets if total <= 0 else sheets + 1


def area_bound(kinds: Sequence[Kind], rooms: Sequence[Room]) -> int:
    """The fewest sheets by area.

    Args:
        kinds: The kinds, with their counts.
        rooms: The boards.
    """
    total = sum(kind.count * kind.width * kind.height for kind in kinds)
    return sheets_for(total, rooms, [room.area for room in rooms])


class Bounds:
    """A bound that grows with work.

    Attributes:
        least: The fewest sheets, as far as is proved.
        prices: The best prices so far: those at which all pieces weigh most against one sheet.
        brings: The most that one board of each room can bring at those prices.
        settled: Better prices will not be found.
    """

    def __init__(self, kinds: Sequence[Kind], rooms: Sequence[Room]) -> None:
        """A bound.

        Args:
            kinds: The kinds, with their counts.
            rooms: The boards.
        """
        self._kinds = kinds
        self._rooms = rooms
        self.least = area_bound(kinds, rooms)
        self.prices = [kind.width * kind.height for kind in kinds]
        self.brings = [room.area for room in rooms]
        self.settled = False
        self._programme = Programme([kind.count for kind in kinds], [2.0] * len(kinds))

    def learn(self, patterns: Iterable[tuple[int, ...]]) -> None:
        """Note what came out of sheets.

        Args:
            patterns: How many of each kind.
        """
        for pattern in patterns:
            self._programme.add(pattern)

    def raise_to(self, enough: int, each: int, steps: int, work: Work) -> None:
        """Look for better prices.

        Args:
            enough: The bound that is enough.
            each: How much may be looked at for one sheet.
            steps: How many prices may be tried.
            work: How much may be looked at in all.
        """
        counts = [kind.count for kind in self._kinds]
        if len(counts) > _MOST_KINDS:
            return  # the programme itself would take too long
        for _ in range(steps):
            if self.least >= enough or self.settled or work.over:
                return
            self._programme.solve()
            prices = self._programme.whole_prices()
            kinds = priced(self._kinds, counts, prices)
            total = sum(price * count for price, count in zip(prices, counts, strict=True))
            brings: list[int] = []
            learned = False
            sure = True
            for room in self._rooms:
                share = work.share(each)
                best = most_value(kinds, room.width, room.height, share)
                work.spend(share.spent + 500)
                brings.append(best.bound)
                sure &= best.proved
                if best.block is not None and best.value > _beaten(self._programme):
                    self._programme.add(tuple(counts_of(best.block, len(kinds))))
                    learned = True
            self.least = max(self.least, sheets_for(total, self._rooms, brings))
            known = sum(n * price for n, price in zip(counts, self.prices, strict=True))
            if total * max(*self.brings, 1) > known * max(*brings, 1):
                self.prices, self.brings = prices, brings
            if not learned:
                self.settled = sure
                return

    def share_out(self, sheets: int, work: Work, narrow: int = 0) -> list[Filled] | None:
        """All pieces out of so many sheets; where that is sure to be impossible, the bound rises.

        Args:
            sheets: How many sheets may be begun.
            work: How much may be looked at.
            narrow: No part that is cut again is narrower.
        """
        filled, none = shared_out(
            self._kinds, self._rooms, sheets, self.prices, self.brings, work, narrow
        )
        if none:
            self.least = max(self.least, sheets + 1)
        return filled


def _beaten(programme: Programme) -> int:
    # What a pattern must bring to be of use; a little more, since prices are rounded.
    return programme.scale + programme.scale // 10_000
