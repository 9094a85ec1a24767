"""What can be said against the claim that no plan goes below a figure.

A claim is refuted by a plan that goes below it. Where few pieces are wanted, all ways to cut them
are gone through; where there are more, the plan itself is done again in a better order.

`prove_small` works from the pieces upward: of which boxes can a set of pieces be put together, and
with how many scraps in them? Two boxes side by side make a larger one, and the shorter of them
needs a scrap beside it. That loses nothing: in any edge-to-edge cutting a part that has room to
spare in one direction can be shrunk by the least room that is in it, which takes away at least one
scrap, and given one strip beside it instead.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction

from model.planning.flaws import Flaw
from model.planning.task import CutPlan, Task, Want

MOST_PIECES = 7
"""Of more wanted pieces not all ways to cut them are gone through."""
MOST_WORK = 150_000
"""So many pairs of boxes are looked at before it is given up."""

_Box = tuple[int, int]
_Boxes = dict[_Box, int]


@dataclass(frozen=True, slots=True)
class Small:
    """What can be had of a small task.

    Attributes:
        reached: The fewest scraps by what is missing (its value) and the sheets begun.
    """

    reached: Mapping[tuple[int, int], int]

    def least_missing(self) -> int:
        """The least value that is missing in any plan."""
        return min(missing for missing, _ in self.reached)

    def least_sheets(self, missing: int) -> int | None:
        """The fewest sheets with so much missing; None where that can't be."""
        return min((sheets for value, sheets in self.reached if value == missing), default=None)

    def least_scraps(self, missing: int, sheets: int) -> int | None:
        """The fewest scraps with so much missing and so many sheets; None where that can't be."""
        return self.reached.get((missing, sheets))


def worth_of(task: Task, want: Want) -> int:
    """What it costs that one of a wanted piece is missing.

    What must be had weighs more than all that need not be, taken together.

    Args:
        task: The task that the piece belongs to.
        want: The piece.
    """
    if want.value is not None:
        return want.value
    return 1 + sum(each.value * each.count for each in task.wants if each.value is not None)


def prove_small(task: Task, most_work: int = MOST_WORK) -> Small | None:
    """Go through all ways to cut a small task.

    Args:
        task: The task.
        most_work: How many pairs of boxes may be looked at.

    Returns:
        What can be had; None where the task is too large, or has sides that are on no graduation or
        strips that are too narrow to hold.
    """
    pieces = [want for want in task.wants for _ in range(want.count)]
    unit = task.graduation
    sides = [side for each in task.wants for side in (each.width, each.height, each.smaller_by)]
    sides += [side for board in task.boards for side in (board.width, board.height)]
    if len(pieces) > MOST_PIECES or task.narrowest > 0 or unit <= 0:
        return None
    if any((side / unit).denominator != 1 for side in sides):
        return None
    search = _Upward(task, pieces, most_work)
    return search.run() if search.build() else None


def refuted_claims(task: Task, plan: CutPlan) -> tuple[Flaw, ...]:
    """Claims of a plan that are known to be false.

    Args:
        task: What was asked.
        plan: What was answered, right in all but its claims.

    Returns:
        ``false-proof`` for each claim below which a plan is known.
    """
    figures = plan.figures
    if figures is None:
        return ()
    flaws: list[Flaw] = []
    missing, sheets, scraps = figures.missing, figures.sheets, figures.scraps
    small = prove_small(task)
    if small:
        known = (
            ("missing", missing.least, small.least_missing()),
            ("sheets", sheets.least, small.least_sheets(missing.value)),
            ("scraps", scraps.least, small.least_scraps(missing.value, sheets.value)),
        )
        flaws += [
            Flaw("false-proof", None, (name, least, found))
            for name, least, found in known
            if found is not None and least > found
        ]
    reordered = _reordered(task, plan)
    if reordered:
        reloads, turns = reordered
        if figures.reloads.least > reloads:
            flaws.append(Flaw("false-proof", None, ("reloads", figures.reloads.least, reloads)))
        elif figures.reloads.value == reloads and figures.turns.least > turns:
            flaws.append(Flaw("false-proof", None, ("turns", figures.turns.least, turns)))
    return tuple(flaws)


def refuted_by(plan: CutPlan, other: CutPlan) -> tuple[Flaw, ...]:
    """The claim of a plan that another plan for the same task shows to be false.

    Args:
        plan: The plan that claims.
        other: One that was found right.

    Returns:
        At most one flaw: figures after the first that differs are not comparable.
    """
    if plan.figures is None or other.figures is None:
        return ()
    for name in ("missing", "sheets", "scraps", "reloads", "turns", "settings"):
        mine, theirs = getattr(plan.figures, name), getattr(other.figures, name)
        if theirs.value < mine.least:
            return (Flaw("false-proof", None, (name, mine.least, theirs.value)),)
        if theirs.value != mine.value:
            return ()
    return ()


def _reordered(task: Task, plan: CutPlan) -> tuple[int, int] | None:
    """Reloads and turns if the same cuts are made in a better order.

    Of what a load makes, one part that is cut again can be what stays on the bed, and be cut at
    once. None where that could bring a mark to where it may not be.
    """
    boards = {board.name: board for board in task.boards}
    used = [boards[name] for _, name in plan.sheets]
    if task.narrowest > 0 or any(
        (side / task.graduation).denominator != 1
        for board in used
        for side in (board.width, board.height)
    ):
        return None
    turned = {load.takes: load.turned for load in plan.loads}
    begun = {number for number, _ in plan.sheets}
    reloads = sum(load.takes not in begun for load in plan.loads)
    turns = 0
    for load in plan.loads:
        again = [turned[part] for part in (*load.gives, load.rest) if part in turned]
        reloads -= bool(again)
        turns += bool(again) and all(again)
    return reloads, turns


class _Upward:
    """Boxes of ever more pieces. A set of pieces is a number, one bit a piece; sides are counted
    in graduations.
    """

    def __init__(self, task: Task, pieces: list[Want], most_work: int) -> None:
        self.task, self.pieces, self.left = task, pieces, most_work
        self.full = (1 << len(pieces)) - 1
        self.boxes: dict[int, _Boxes] = {}

    def build(self) -> bool:
        """Find the boxes of every set of pieces; False when that is too much work."""
        for number, want in enumerate(self.pieces):
            self.boxes[1 << number] = dict.fromkeys(self._sizes(want), 0)
        for pieces in range(1, self.full + 1):
            if not pieces & (pieces - 1):
                continue
            found: _Boxes = {}
            for part in _parts(pieces):
                if not self._join(self.boxes[part], self.boxes[pieces ^ part], found):
                    return False
            self.boxes[pieces] = self._worth_keeping(pieces, found)
        return True

    def run(self) -> Small:
        """What comes of the boxes on the boards."""
        reached: dict[tuple[int, int], int] = {(0, 0): 0}  # by pieces had, and sheets
        for board in self.task.boards:
            cost = self._on_board(board.width, board.height, board.paper)
            for _ in range(min(board.count, len(self.pieces))):
                more = dict(reached)
                for (had, sheets), scraps in reached.items():
                    for pieces, own in cost.items():
                        if not pieces & had:
                            key = (had | pieces, sheets + (not board.left_over))
                            more[key] = min(more.get(key, scraps + own), scraps + own)
                reached = more
        values: dict[tuple[int, int], int] = {}
        for (had, sheets), scraps in reached.items():
            key = (self._missing(had), sheets)
            values[key] = min(values.get(key, scraps), scraps)
        return Small(values)

    def _sizes(self, want: Want) -> Iterator[_Box]:
        unit = self.task.graduation
        width, height, slack = (int(x / unit) for x in (want.width, want.height, want.smaller_by))
        for w in range(max(1, width - slack), width + 1):
            for h in range(max(1, height - slack), height + 1):
                yield w, h
                if want.turnable:
                    yield h, w

    def _join(self, some: _Boxes, others: _Boxes, found: _Boxes) -> bool:
        self.left -= len(some) * len(others)
        if self.left < 0:
            return False
        for (w, h), scraps in some.items():
            for (w2, h2), scraps2 in others.items():
                both = scraps + scraps2
                for box, padded in (
                    ((w + w2, max(h, h2)), h != h2),
                    ((max(w, w2), h + h2), w != w2),
                ):
                    found[box] = min(found.get(box, both + padded), both + padded)
        return True

    def _worth_keeping(self, pieces: int, found: _Boxes) -> _Boxes:
        """The boxes of pieces of one paper that fit on a board of it."""
        papers = {want.paper for n, want in enumerate(self.pieces) if pieces >> n & 1}
        if len(papers) > 1:
            return {}
        unit = self.task.graduation
        rooms = {
            (int(board.width / unit), int(board.height / unit))
            for board in self.task.boards
            if board.paper in papers
        }
        return {
            (w, h): scraps
            for (w, h), scraps in found.items()
            if any(w <= across and h <= up for across, up in rooms)
        }

    def _on_board(self, width: Fraction, height: Fraction, paper: str) -> dict[int, int]:
        """The fewest scraps with which each set of pieces comes out of a board."""
        across, up = int(width / self.task.graduation), int(height / self.task.graduation)
        cost: dict[int, int] = {}
        for pieces, boxes in self.boxes.items():
            fits = [n + (w < across) + (h < up) for (w, h), n in boxes.items()
                    if w <= across and h <= up]  # fmt: skip
            first = self.pieces[(pieces & -pieces).bit_length() - 1]
            if fits and first.paper == paper:
                cost[pieces] = min(fits)
        return cost

    def _missing(self, had: int) -> int:
        return sum(
            worth_of(self.task, want)
            for number, want in enumerate(self.pieces)
            if not had >> number & 1
        )


def _parts(pieces: int) -> Iterator[int]:
    """Each way to part a set in two, once: the part with its first piece."""
    first = pieces & -pieces
    part = pieces
    while part:
        part = (part - 1) & pieces
        if part & first:
            yield part
