"""Layouts of rectangles on a sheet: whether they overlap, come apart edge to edge, at what cost.

It is for layouts of others, and shares no code with the planner or its checker. A layout says where
each piece lies. It comes apart edge to edge when there is a line from one edge to the other that
passes through no piece, and both sides of it come apart in their turn.
"""

from __future__ import annotations

from functools import cache

Placed = tuple[int, int, int, int]
"""Left, bottom, right and top of a piece as it lies."""


def lies_well(layout: frozenset[Placed], pieces: int, width: int, height: int) -> bool:
    """Whether so many pieces lie on a sheet, none over its edge or over another."""
    placed = sorted(layout)
    return len(placed) == pieces and all(
        0 <= one[0] < one[2] <= width
        and 0 <= one[1] < one[3] <= height
        and all(_apart(one, other) for other in placed[number + 1 :])
        for number, one in enumerate(placed)
    )


def _apart(one: Placed, other: Placed) -> bool:
    return (
        one[2] <= other[0] or other[2] <= one[0] or one[3] <= other[1] or other[3] <= one[1]
    )  # fmt: skip


@cache
def comes_apart(layout: frozenset[Placed]) -> bool:
    """Whether the pieces come apart edge to edge, one from another.

    Any line that passes through no piece will do: what comes apart still does so on both sides.
    """
    if len(layout) < 2:
        return True
    for low in (0, 1):
        for at in {piece[low + 2] for piece in layout}:
            before = frozenset(piece for piece in layout if piece[low + 2] <= at)
            after = frozenset(piece for piece in layout if piece[low] >= at)
            if len(before) + len(after) == len(layout) and before and after:
                return comes_apart(before) and comes_apart(after)
    return False


def least_scraps(layout: frozenset[Placed], width: int, height: int) -> int | None:
    """The fewest scraps that are left when a layout is cut apart edge to edge as it lies.

    All orders of all cuts along the pieces' edges are gone through. Cuts elsewhere gain nothing:
    such a line can be slid along the scraps it passes through, to the next edge of a piece.

    Returns:
        The scraps; None where the layout does not come apart.
    """
    edges = [
        sorted({0, size, *(piece[low] for piece in layout), *(piece[low + 2] for piece in layout)})
        for low, size in ((0, width), (1, height))
    ]

    @cache
    def least(left: int, bottom: int, right: int, top: int) -> int | None:
        inside = [
            piece
            for piece in layout
            if piece[0] < right and piece[2] > left and piece[1] < top and piece[3] > bottom
        ]
        if not inside:
            return 1
        if inside == [(left, bottom, right, top)]:
            return 0
        best: int | None = None
        for low, (start, end) in enumerate(((left, right), (bottom, top))):
            for at in edges[low]:
                if not start < at < end:
                    continue
                if any(piece[low] < at < piece[low + 2] for piece in inside):
                    continue
                ends = ((left, bottom, at, top), (at, bottom, right, top))
                if low:
                    ends = ((left, bottom, right, at), (left, at, right, top))
                one, other = least(*ends[0]), least(*ends[1])
                if one is not None and other is not None and (best is None or one + other < best):
                    best = one + other
        return best

    return least(0, 0, width, height)
