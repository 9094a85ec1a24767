"""A task in whole units of the trimmer's graduation, and what is wrong with it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import floor

from model.planning.blocks import Kind
from model.planning.filling import Room
from model.planning.task import Board, Task, Want

MOST_KINDS = 200
MOST_PIECES = 2_000
MOST_UNITS = 20_000


class TaskError(Exception):
    """A task that cannot be planned; the message names the piece or the paper."""


@dataclass(frozen=True, slots=True)
class Whole:
    """The part of a task that one paper answers, in whole units.

    Attributes:
        paper: The paper.
        wants: The wanted pieces, one for each kind.
        kinds: Their sizes, counts and weights.
        boards: The boards, one for each room.
        rooms: Their sizes and counts.
        narrow: The narrowest part worth holding.
    """

    paper: str
    wants: tuple[Want, ...]
    kinds: tuple[Kind, ...]
    boards: tuple[Board, ...]
    rooms: tuple[Room, ...]
    narrow: int


def _size(width: Fraction, height: Fraction) -> str:
    return f"{_plain(width)} x {_plain(height)} mm"


def _plain(length: Fraction) -> str:
    return str(length) if length.denominator == 1 else f"{float(length):.2f}"


def _units(length: Fraction, graduation: Fraction, give: Fraction = Fraction(0)) -> int | None:
    # A length that may be a little smaller is read down to the graduation below it.
    units = floor(length / graduation)
    return units if units * graduation >= length - give else None


def _checked(task: Task) -> None:
    if task.graduation <= 0:
        raise TaskError("the graduation must be more than nothing")
    if task.narrowest < 0:
        raise TaskError("the narrowest strip must not be less than nothing")
    if len(task.wants) > MOST_KINDS:
        raise TaskError(
            f"{len(task.wants)} different pieces are wanted, from {task.wants[0].name} to"
            f" {task.wants[-1].name}; at most {MOST_KINDS} can be planned at once"
        )
    names: set[str] = set()
    for want in task.wants:
        if want.name in names:
            raise TaskError(f"two wanted pieces are named {want.name}; name each differently")
        if not want.name:
            raise TaskError("a wanted piece has no name; give it one")
        names.add(want.name)
        if want.count < 1:
            raise TaskError(f"{want.name}: the count is {want.count}; ask for one at least")
        if want.width <= 0 or want.height <= 0:
            raise TaskError(f"{want.name}: both sides must be more than nothing")
        if want.smaller_by < 0 or want.smaller_by >= min(want.width, want.height):
            raise TaskError(f"{want.name}: it cannot be smaller by that much")
        if want.value is not None and want.value < 1:
            # Worth nothing, it would be missing in a plan as good as one that has it.
            raise TaskError(f"{want.name}: the value must be more than nothing, or leave it out")
    if sum(want.count for want in task.wants) > MOST_PIECES:
        large = max(task.wants, key=lambda want: want.count)
        raise TaskError(
            f"{large.name}: {large.count} are wanted; at most {MOST_PIECES} pieces can be planned"
        )
    names = set()
    for board in task.boards:
        if board.name in names:
            raise TaskError(f"two papers at hand are named {board.name}; name each differently")
        names.add(board.name)
        if board.count < 0:
            raise TaskError(f"{board.name}: the count is {board.count}")
        if board.width <= 0 or board.height <= 0:
            raise TaskError(f"{board.name}: both sides must be more than nothing")


def _room(board: Board, task: Task) -> Room:
    sides = [_units(side, task.graduation) for side in (board.width, board.height)]
    exact = [_units(side, task.graduation, Fraction(0)) for side in (board.width, board.height)]
    if None in exact or None in sides:
        raise TaskError(
            f"{board.name}: {_size(board.width, board.height)} is not a whole number of"
            f" graduations of {_plain(task.graduation)} mm; choose a finer graduation"
        )
    wide, high = (side or 0 for side in sides)
    if max(wide, high) > MOST_UNITS:
        raise TaskError(f"{board.name}: it is too large for a graduation that fine")
    return Room(wide, high, board.count, board.left_over)


def weights(wants: Sequence[Want]) -> list[int]:
    """What one piece of each want weighs when not all can be had.

    One that must be had outweighs all that need not be, together.

    Args:
        wants: All wants of the task.
    """
    total = sum(want.count * want.value for want in wants if want.value is not None)
    return [total + 1 if want.value is None else want.value for want in wants]


def whole_tasks(task: Task) -> list[Whole]:
    """The task by paper, in whole units.

    Args:
        task: The task.

    Raises:
        TaskError: Something in it cannot be planned.
    """
    _checked(task)
    narrow = -(-task.narrowest // task.graduation)
    by_paper: dict[str, list[tuple[Want, Kind]]] = {}
    for want, weight in zip(task.wants, weights(task.wants), strict=True):
        wide = _units(want.width, task.graduation, want.smaller_by)
        high = _units(want.height, task.graduation, want.smaller_by)
        if not wide or not high:
            raise TaskError(
                f"{want.name}: {_size(want.width, want.height)} is not a whole number of"
                f" graduations of {_plain(task.graduation)} mm; choose a finer graduation, or let"
                " it be a little smaller"
            )
        kind = Kind(wide, high, want.count, weight, want.turnable)
        by_paper.setdefault(want.paper, []).append((want, kind))
    found: list[Whole] = []
    for paper, asked in by_paper.items():
        boards = tuple(b for b in task.boards if b.paper == paper and b.count)
        of_it = f" of {paper}" if paper else ""
        if not boards:
            raise TaskError(f"{asked[0][0].name}: there is no sheet{of_it} to cut it from")
        rooms = tuple(_room(board, task) for board in boards)
        for want, kind in asked:
            if not any(
                wide <= room.width and high <= room.height
                for wide, high, _ in kind.lies
                for room in rooms
            ):
                raise TaskError(
                    f"{want.name}: {_size(want.width, want.height)} is larger than any sheet{of_it}"
                )
            if all(
                max(room.width, room.height) < narrow and (room.width, room.height) not in sizes
                for room in rooms
                for sizes in [{(wide, high) for wide, high, _ in kind.lies}]
            ):
                raise TaskError(
                    f"{want.name}: every sheet{of_it} is narrower than the narrowest strip worth"
                    f" holding, {_plain(task.narrowest)} mm, so nothing can be cut from it"
                )
        wants, kinds = zip(*asked, strict=True)
        found.append(Whole(paper, tuple(wants), tuple(kinds), boards, rooms, int(narrow)))
    return found
