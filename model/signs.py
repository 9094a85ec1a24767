"""What on a piece of paper tells how it lies: the top of its print, landmarks, torn edges.

Places are sides or corners, such as ``left`` or ``top left``. On paper they are in the frame
of the sheet, seen face up; on the bed they are as the crafter sees them.
"""

from __future__ import annotations

from model.cutting import Stock
from model.geometry import CORNERS, SIDES, Box, Orientation, Side
from model.kit import Paper
from model.plan import Item, Plan

_SIDES: dict[str, Side] = {side: side for side in SIDES}


def has_top(plan: Plan, item: Item) -> bool:
    """Whether anyone can see which edge of a thing is its top.

    What is printed on a cut-apart has an up too, whether its author says so or not.
    """
    if item.paper is None:
        return False
    sheet = plan.sheets.get(item.sheet)
    return item.paper.directional or (sheet is not None and sheet.cut_apart and item.paper.printed)


def landmarks_on(plan: Plan, item: Item, stock: Stock | None) -> tuple[tuple[str, str], ...]:
    """The landmarks of the paper that are still on a part of it.

    A kit says only in which corner or at which side a landmark is. It is taken to be where
    the middle of that quarter of the sheet is, so that a narrow strip cut off the edge does
    not take it along.

    Args:
        plan: The plan.
        item: The thing.
        stock: What there is of it now.

    Returns:
        Names and places, in the author's order.
    """
    paper, whole = item.paper, plan.items.get(item.sheet)
    if paper is None or not paper.landmarks or stock is None or whole is None:
        return ()
    if whole.stock is None:
        return ()
    box = whole.stock.box
    return tuple((n, at) for n, at in paper.landmarks.items() if holds(stock.box, box, at))


def holds(box: Box, whole: Box, place: str) -> bool:
    """Whether a part of a sheet holds what is printed at a side or in a corner of it."""
    words = place.split()
    across = 1 if "left" in words else 3 if "right" in words else 2
    down = 1 if "top" in words else 3 if "bottom" in words else 2
    x, y = whole.w * across / 4, whole.h * down / 4
    return box.x <= x <= box.x + box.w and box.y <= y <= box.y + box.h


def reaches(box: Box, whole: Box, place: str) -> bool:
    """Whether a part of a sheet reaches to a side or a corner of it."""
    reached: dict[Side, bool] = {
        "top": box.y == 0,
        "left": box.x == 0,
        "right": box.x + box.w == whole.w,
        "bottom": box.y + box.h == whole.h,
    }
    return all(reach for side, reach in reached.items() if side in place.split())


def place_named(paper: Paper, name: str) -> tuple[str, bool] | None:
    """The place that an author's `lay` speaks of.

    Args:
        paper: The paper.
        name: A landmark's name, or an edge or a corner such as ``top edge``.

    Returns:
        The place, and whether it is a landmark's; None when the name is neither.
    """
    if name in paper.landmarks:
        return paper.landmarks[name], True
    plain = name.casefold()
    for landmark, place in paper.landmarks.items():
        if landmark.casefold() == plain:
            return place, True
    edge = plain.removesuffix(" edge").removesuffix(" corner")
    return (edge, False) if edge in SIDES or edge in CORNERS else None


def on_bed(lying: Orientation, place: str) -> str:
    """Where a side or a corner of the paper is seen."""
    return lying.side_on_bed(_SIDES[place]) if place in _SIDES else lying.corner_on_bed(place)


def sides_alike(paper: Paper | None) -> bool:
    """Whether nobody can tell the face from the reverse."""
    return paper is not None and not paper.printed and paper.face == paper.reverse
