"""How little the paper must be handled at least: reloads, turns and marks.

Let a piece be long if it is as long as a side of some sheet. Whatever comes off in the first load
of a sheet is as long as the sheet, so it is a long piece, a scrap, or is cut again.

1. A sheet in which all cuts are parallel gives long pieces and scraps only. In any other sheet some
   load is the first to cut across. Its part came off in an earlier load of that sheet: either it is
   the rest of the load just before, and is turned, or it comes from the pile. So each sheet that
   gives a piece that is not long has a turn or a reload. There are at least as many such sheets as
   the area of those pieces needs, and as there are sheets more than long pieces (no sheet is begun
   for nothing: one that gives no piece would be one sheet too many).
2. In a sheet without a reload each load but the first takes the rest of the one just before. So
   whatever else came off in the first load is not cut again: there is a long piece or a scrap in
   that sheet. Sheets more than there are long pieces and scraps have a reload each.
3. Marks fall within a load, and go on falling where its rest is cut on unturned. So all marks
   between two fresh sheets, reloads or turns differ, and on the average there are as many as cuts
   divided by those.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from model.planning.task import Board, Task, Want


@dataclass(frozen=True, slots=True)
class Handling:
    """What holds of every plan with as many sheets and scraps.

    Attributes:
        reloads: The fewest reloads.
        turns: The fewest turns with the given reloads.
        settings: The fewest marks with the given reloads and turns.
    """

    reloads: int = 0
    turns: int = 0
    settings: int = 0


def _is_long(want: Want, boards: Sequence[Board]) -> bool:
    return any(
        piece - want.smaller_by <= side <= piece
        for piece in (want.width, want.height)
        for board in boards
        if board.paper == want.paper
        for side in (board.width, board.height)
    )


def least_handling(
    task: Task, sheets: int, scraps: int, cuts: int, reloads: int, turns: int
) -> Handling:
    """Bounds for a plan in which no piece is missing, with sheets and scraps proved fewest.

    Args:
        task: The task.
        sheets: Its sheets.
        scraps: Its scraps.
        cuts: Its cuts.
        reloads: Its reloads.
        turns: Its turns.
    """
    if any(board.left_over for board in task.boards):
        return Handling()  # others may begin more or fewer of these
    long = 0
    short: dict[str, Fraction] = {}
    for want in task.wants:
        if _is_long(want, task.boards):
            long += want.count
        else:
            area = (want.width - want.smaller_by) * (want.height - want.smaller_by) * want.count
            short[want.paper] = short.get(want.paper, Fraction(0)) + area
    crossed = 0
    for paper, area in short.items():
        largest = max(b.width * b.height for b in task.boards if b.paper == paper and b.count)
        crossed += -(-area // largest)
    crossed = max(crossed, sheets - long)
    least = max(sheets - long - scraps, 0)
    settings = -(-cuts // max(sheets + reloads + turns, 1))
    return Handling(min(least, reloads), max(crossed - reloads, 0), settings)
