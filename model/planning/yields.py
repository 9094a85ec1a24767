"""The most value where not every piece can be had."""

from __future__ import annotations

from collections.abc import Sequence

from model.planning.blocks import Kind
from model.planning.bounds import sheets_for
from model.planning.filling import Room, one_round, sheets_in
from model.planning.onesheet import most_value
from model.planning.sheets import Cutting
from model.planning.work import Work

_EACH = 2_000_000


def best_yield(
    kinds: Sequence[Kind], rooms: Sequence[Room], work: Work, narrow: int = 0
) -> tuple[Cutting, int]:
    """A cutting of the most value, and a bound on what is missing.

    Args:
        kinds: The kinds, with their counts and what each weighs.
        rooms: The boards.
        work: How much may be looked at.
        narrow: No part that is cut again is narrower.

    Returns:
        The cutting, and the least weight of pieces that must be missing.
    """
    weights = [kind.value for kind in kinds]
    total = sum(kind.count * kind.value for kind in kinds)
    sheets = sum(room.count for room in rooms if not room.free)
    best: Cutting | None = None
    least_missing = total + 1
    areas = [kind.width * kind.height for kind in kinds]
    tries = [
        [weight * 1000 + 1 for weight in weights],
        *(
            [
                round(weight * 1000 * area**power) + 1
                for weight, area in zip(weights, areas, strict=True)
            ]
            for power in (0.1, 0.25, -0.1, -0.25, -0.5, 0.5)
        ),
    ]
    single = sum(room.count for room in rooms) == 1
    for prices in tries:
        each = _EACH if single else 3_000
        filled, left = one_round(kinds, rooms, prices, sheets, work, narrow, each)
        missing = sum(count * weight for count, weight in zip(left, weights, strict=True))
        used = sheets_in(rooms, filled)
        if (missing, used) < (least_missing, best.sheets if best else 0):
            best = Cutting(tuple(filled), tuple(left), used, 0)
            least_missing = missing
        if single or work.over:
            break
    assert best is not None  # the first try always gives one
    brings: list[int] = []
    for room in rooms:
        share = work.share(_EACH)
        brings.append(most_value(kinds, room.width, room.height, share).bound)
        work.spend(share.spent)
    most = sum(room.count * bring for room, bring in zip(rooms, brings, strict=True))
    least = sheets_for(total - least_missing, rooms, brings)
    cutting = Cutting(best.filled, best.left, best.sheets, min(least, best.sheets))
    return cutting, max(total - most, 0)
