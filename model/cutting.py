"""The engine of cuts: what a load of marks, or a tear, makes of the paper in hand.

Pure and exact. A load with marks ``m1 > m2 > ...`` on paper that measures ``W`` along
the ruler gives offcuts ``W - m1``, ``m1 - m2``, ... and leaves the last mark on the bed
(common practice, no source). Sizes, faces, the way up and torn edges are carried in the
frame of the sheet, so a quarter turn changes nothing but how the paper lies.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from model.geometry import Box, Measure, Orientation, Side, Sure, least_sure
from model.kit import Mark

_OPPOSITE: dict[Side, Side] = {
    "left": "right",
    "right": "left",
    "top": "bottom",
    "bottom": "top",
}


class CutError(ValueError):
    """A cut that can't be made.

    Attributes:
        code: A short stable name: ``mark-order``, ``mark-outside``, ``tear-outside``.
        number: Which mark or width it is, from 0.
        at: The value in mm that does not fit.
        limit: The value in mm that it must stay below.
    """

    def __init__(self, code: str, number: int, at: Fraction, limit: Fraction) -> None:
        """Keep what is wrong; words are made where the crafter's style is known."""
        self.code, self.number, self.at, self.limit = code, number, at, limit
        super().__init__(f"{code}: number {number + 1}, {at} mm, limit {limit} mm")


@dataclass(frozen=True, slots=True)
class Stock:
    """A rectangle of paper, in the frame of the sheet it came from.

    Attributes:
        box: Its rectangle on the sheet in mm; where nothing was measured, a guess that
            serves the drawing alone.
        width: Its width, and how surely it is known.
        height: Its height, and how surely it is known.
        torn: Which of its edges are torn, in the sheet's frame.
    """

    box: Box
    width: Measure
    height: Measure
    torn: frozenset[Side] = frozenset()

    @property
    def measured(self) -> bool:
        """Whether both sides are known exactly."""
        return self.width.exact and self.height.exact

    @property
    def area(self) -> Fraction:
        """Its area in square millimetres (a guess unless measured)."""
        return self.box.area

    def along(self, lying: Orientation) -> Measure:
        """Its measure along the ruler."""
        return self.height if lying.sideways else self.width

    def across(self, lying: Orientation) -> Measure:
        """Its measure across the ruler."""
        return self.width if lying.sideways else self.height


def whole_sheet(width: Fraction, height: Fraction, sure: Sure = Sure.EXACT) -> Stock:
    """An untouched sheet.

    Args:
        width: Its width in mm.
        height: Its height in mm.
        sure: `Sure.PRINTED` for a sheet that nobody measured.
    """
    zero = Fraction(0)
    return Stock(Box(zero, zero, width, height), Measure(width, sure), Measure(height, sure))


def check_marks(along: Measure | None, marks: Sequence[Mark]) -> tuple[CutError, ...]:
    """All that is wrong with the marks of a load.

    Args:
        along: What the paper measures along the ruler; None when that is not known.
        marks: The marks in order.

    Returns:
        ``mark-outside`` for each mark that is not inside the paper, and ``mark-order`` for one
        that is not below the one before. Of marks that rise one after another only the first
        is told, since they are wrong for one reason.
    """
    bound = None if along is None or along.sure is Sure.PRINTED else along.value
    wrong: list[CutError] = []
    above: Fraction | None = None
    rising = False
    for number, mark in enumerate(marks):
        if mark.at is None:
            continue
        if bound is not None and mark.at >= bound:
            wrong.append(CutError("mark-outside", number, mark.at, bound))
        rose = above is not None and mark.at >= above
        if above is not None and rose and not rising:
            wrong.append(CutError("mark-order", number, mark.at, above))
        above, rising = mark.at, rose
    return tuple(wrong)


def check_widths(whole: Measure, widths: Sequence[Fraction]) -> tuple[CutError, ...]:
    """All widths that can't be torn off: by themselves, or after those before them.

    Args:
        whole: What the paper measures from its loose edge.
        widths: The widths in order.
    """
    wrong: list[CutError] = []
    reached, over = Fraction(0), False
    for number, width in enumerate(widths):
        left = whole.value - reached
        if width > 0 and (whole.sure is Sure.PRINTED or width < left):
            reached += width
        elif width >= whole.value or width <= 0 or not over:
            over |= 0 < width < whole.value
            wrong.append(CutError("tear-outside", number, width, left))
    return tuple(wrong)


def settle_marks(along: Measure, marks: Sequence[Mark]) -> tuple[Measure, ...]:
    """The marks as measures; printed lines without a number are spread for the drawing.

    Args:
        along: What the paper measures along the ruler.
        marks: The marks in order.

    Returns:
        As many measures, each below the one before. A number that the guessed size of an
        unmeasured paper has no room for is placed by guess too.

    Raises:
        CutError: A mark is not below the one before (``mark-order``), or not inside the
            paper (``mark-outside``).
    """
    settled: list[Measure] = []
    above = along
    bound = None if along.sure is Sure.PRINTED else along.value
    code = "mark-outside"
    for number, mark in enumerate(marks):
        if mark.at is None:
            above = _guess(above, marks, number)
        else:
            # A printed line is a guess; the last number above is what rules.
            if bound is not None and mark.at >= bound:
                raise CutError(code, number, mark.at, bound)
            bound, code = mark.at, "mark-order"
            if mark.at < above.value:
                above = Measure(mark.at, Sure.ABOUT if mark.about else Sure.EXACT)
            else:
                above = _guess(above, marks, number)
        settled.append(above)
    return tuple(settled)


def _guess(above: Measure, marks: Sequence[Mark], start: int) -> Measure:
    """A place for a cut that no number tells: lines in a row share the room evenly."""
    end = start + 1
    while end < len(marks) and marks[end].at is None:
        end += 1
    floor = marks[end].at if end < len(marks) else None
    low = floor if floor is not None and floor < above.value else Fraction(0)
    return Measure(above.value - (above.value - low) / (end - start + 1), Sure.PRINTED)


def trim(stock: Stock, lying: Orientation, marks: Sequence[Mark]) -> tuple[Stock, ...]:
    """Cut a load.

    Args:
        stock: The paper in hand.
        lying: How it lies on the bed; its left edge on the bed is held.
        marks: The marks in order, each smaller than the one before.

    Returns:
        The offcuts in the order in which they come off, then the piece left on the bed:
        one more than there are marks.

    Raises:
        CutError: A mark is not below the one before, or not inside the paper.
    """
    along = stock.along(lying)
    parts: list[Stock] = []
    above = along
    for mark in settle_marks(along, marks):
        width = Measure(above.value - mark.value, least_sure(above.sure, mark.sure))
        parts.append(_part(stock, lying, mark.value, width, first=False, last=above is along))
        above = mark
    parts.append(_part(stock, lying, Fraction(0), above, first=True, last=not marks))
    return tuple(parts)


def tear(
    stock: Stock, lying: Orientation, edge: Side, widths: Sequence[Fraction]
) -> tuple[Stock, ...]:
    """Tear strips from the loose edge, against a ruler.

    Args:
        stock: The paper in hand.
        lying: How it lies.
        edge: The loose edge, as the paper lies.
        widths: The strips' widths in mm, each from the edge that is then loose.

    Returns:
        The strips in order, then what is left. Both neighbours of a tear have a torn edge.

    Raises:
        CutError: The widths together reach past the paper (``tear-outside``).
    """
    turned = to_loose_edge(lying, edge)
    left = stock.along(turned)
    marks: list[Mark] = []
    reached = Fraction(0)
    for number, width in enumerate(widths):
        if width <= 0 or (reached + width >= left.value and left.sure is not Sure.PRINTED):
            raise CutError("tear-outside", number, width, left.value - reached)
        reached += width
        marks.append(Mark(left.value - reached if reached < left.value else None))
    loose = turned.side_of_paper("right")
    inner = _OPPOSITE[loose]
    torn: list[Stock] = []
    for number, part in enumerate(trim(stock, turned, marks)):
        edges = set(part.torn)
        if number < len(widths):
            edges.add(inner)
        if number > 0:
            edges.add(loose)
        torn.append(Stock(part.box, part.width, part.height, frozenset(edges)))
    return tuple(torn)


def to_loose_edge(lying: Orientation, edge: Side) -> Orientation:
    """The paper turned so that its loose edge is at the right.

    Then a width from the loose edge is a mark from the left, as on the trimmer.
    """
    return lying.turned({"right": 0, "top": 1, "left": 2, "bottom": 3}[edge])


def in_hand(
    stock: Stock, lying: Orientation, parts: Sequence[Stock], gone: int, sure: Sure
) -> Stock:
    """The paper in hand in the middle of a load.

    Args:
        stock: The paper before the load.
        lying: How it lies; for a tear, with its loose edge brought to the right.
        parts: What the load makes of it, in order.
        gone: How many parts have come off.
        sure: How surely the last cut is known.

    Returns:
        All that has not come off, as one paper.
    """
    if gone == 0:
        return stock
    left = parts[gone:]
    x, y = min(part.box.x for part in left), min(part.box.y for part in left)
    w = max(part.box.x + part.box.w for part in left) - x
    h = max(part.box.y + part.box.h for part in left) - y
    along = Measure(h if lying.sideways else w, sure)
    across = stock.across(lying)
    width, height = (across, along) if lying.sideways else (along, across)
    loose = lying.side_of_paper("right")
    torn = (stock.torn - {loose}) | (left[0].torn & {loose})
    return Stock(Box(x, y, w, h), width, height, frozenset(torn))


def _part(
    stock: Stock, lying: Orientation, start: Fraction, along: Measure, *, first: bool, last: bool
) -> Stock:
    """The part of the paper from ``start`` on the ruler, ``along`` wide."""
    whole = stock.across(lying)
    on_bed = Box(start, Fraction(0), along.value, whole.value)
    inside = lying.to_paper(on_bed, stock.box.w, stock.box.h)
    box = Box(stock.box.x + inside.x, stock.box.y + inside.y, inside.w, inside.h)
    lost: set[Side] = set()
    if not first:
        lost.add(lying.side_of_paper("left"))
    if not last:
        lost.add(lying.side_of_paper("right"))
    width, height = (whole, along) if lying.sideways else (along, whole)
    return Stock(box, width, height, frozenset(stock.torn - lost))


def second_ruler(width: Fraction, ruler: Fraction) -> Fraction:
    """How much of a second ruler must show beside the first to tear a strip.

    Args:
        width: The strip's width in mm.
        ruler: The tearing ruler's width in mm.

    Returns:
        The length in mm to add; 0 when the ruler is wide enough.
    """
    return max(Fraction(0), width - ruler)
