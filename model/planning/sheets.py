"""Many sheets: the fewest that give all pieces, and how few there must be at least."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from model.planning.blocks import Kind
from model.planning.bounds import Bounds
from model.planning.filling import Filled, Room, Rounds, sheets_in
from model.planning.loads import holds
from model.planning.placing import Placing
from model.planning.refilling import Refilling
from model.planning.work import Work

_STAGES = (
    (3, 60_000, 30, 8),
    (0, 300_000, 30, 60),
    (2, 2_000_000, 60, 300),
    (30, 6_000_000, 100, 1_000),
    (60, 6_000_000, 100, 5_000),
)
_MOST_AT_ONCE = 600
_FEW = 40  # of more pieces a way, or that there is none, is seldom found by going through all


@dataclass(frozen=True, slots=True)
class Cutting:
    """Boards and what is cut from them.

    Attributes:
        filled: The boards that are cut, each with its pieces.
        left: How many of each kind could not be had.
        sheets: How many sheets are begun.
        least: No cutting that yields the same begins fewer.
    """

    filled: tuple[Filled, ...]
    left: tuple[int, ...]
    sheets: int
    least: int


def fewest_sheets(
    kinds: Sequence[Kind],
    rooms: Sequence[Room],
    work: Work,
    narrow: int = 0,
    known: Cutting | None = None,
) -> Iterator[Cutting]:
    """Better and better cuttings that yield every piece, as far as any is found.

    Args:
        kinds: The kinds, with their counts.
        rooms: The boards.
        work: How much may be looked at.
        narrow: No part that is cut again is narrower.
        known: A cutting that yields every piece, if one is known.

    Yields:
        A cutting for each step forward: fewer sheets, or a better bound.
    """
    bounds = Bounds(kinds, rooms)
    rounds = Rounds(kinds, rooms, narrow)
    most = sum(room.count for room in rooms if not room.free)
    best = None if known is None else replace(known, least=bounds.least)
    for placed in _at_once(kinds, rooms, narrow):
        if best is None or sheets_in(rooms, placed) < best.sheets:
            best = Cutting(placed, (0,) * len(kinds), sheets_in(rooms, placed), bounds.least)
    if best is not None:
        yield best
    few = sum(kind.count for kind in kinds) <= _FEW
    refilling = Refilling(kinds, rooms, most, narrow)
    for number, each, steps, tries in _STAGES:
        limit = most if best is None else best.sheets - 1
        while limit >= bounds.least:
            for filled, left in rounds.run(number, limit, work):
                if not any(left) and _hold(rooms, filled, narrow):
                    sheets = sheets_in(rooms, filled)
                    best = Cutting(tuple(filled), tuple(left), sheets, bounds.least)
                    yield best
                    limit = sheets - 1
                    break
            else:
                break
        if best is not None and best.sheets <= bounds.least:
            return
        bounds.learn(rounds.patterns)
        before = bounds.least
        bounds.raise_to(most + 1 if best is None else best.sheets, each, steps, work)
        limit = most if best is None else best.sheets - 1
        while limit >= bounds.least:
            if refilling.most != limit:
                refilling = Refilling(kinds, rooms, limit, narrow)
            # No better bound is to come of prices that are settled; of many pieces, no way either.
            times = tries // 4 if not bounds.settled else tries if few else tries * 6
            full = refilling.run(times, work)
            bounds.learn(refilling.patterns)
            refilling.patterns.clear()
            if full is None or not _hold(rooms, full, narrow):
                break
            best = Cutting(tuple(full), (0,) * len(kinds), sheets_in(rooms, full), bounds.least)
            yield best
            limit = best.sheets - 1
        if best is not None and bounds.least > before:
            before = bounds.least
            best = replace(best, least=before)
            yield best
        if best is not None and best.sheets <= bounds.least:
            return
        while bounds.least <= (most if best is None else best.sheets - 1) and not work.over:
            sheets, share = bounds.least, work.share(each * (5 if bounds.settled and few else 1))
            shared = bounds.share_out(sheets, share, narrow)
            work.spend(share.spent)
            if shared is not None and _hold(rooms, shared, narrow):
                nothing = (0,) * len(kinds)
                yield Cutting(tuple(shared), nothing, sheets_in(rooms, shared), sheets)
                return
            if bounds.least == sheets:
                break
        if best is not None and bounds.least > before:
            best = replace(best, least=bounds.least)
            yield best
        if work.over or (best is not None and best.sheets <= bounds.least):
            return
        if best is None and bounds.least > most:
            return  # no cutting yields every piece


def _hold(rooms: Sequence[Room], filled: Sequence[Filled], narrow: int) -> bool:
    return all(
        holds(one.block, rooms[one.room].width, rooms[one.room].height, narrow) for one in filled
    )


def _at_once(
    kinds: Sequence[Kind], rooms: Sequence[Room], narrow: int
) -> Iterator[tuple[Filled, ...]]:
    pieces = sum(kind.count for kind in kinds)
    if pieces > _MOST_AT_ONCE:
        return
    boards = [
        n
        for n in sorted(range(len(rooms)), key=lambda n: (not rooms[n].free, -rooms[n].area))
        for _ in range(min(rooms[n].count, pieces))
    ]
    placed = Placing(kinds, rooms, boards).at_once()
    if placed is not None and _hold(rooms, placed, narrow):
        yield placed
