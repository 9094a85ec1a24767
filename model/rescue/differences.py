"""By how much a thing is not what it should be: one number where one is enough."""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from model.rescue.rescue import Touched


def off_by(touched: Touched) -> Fraction | None:
    """How much too large a thing is along one side, in mm; below 0 when it is too small.

    Args:
        touched: A thing that is not what it should be.

    Returns:
        None when both sides differ, or nobody knows what they should be.
    """
    meant = touched.meant.stock if touched.meant else None
    if meant is None or not meant.measured or touched.width is None or touched.height is None:
        return None
    by = touched.width - meant.width.value, touched.height - meant.height.value
    if all(by):
        return None
    return by[0] or by[1] or None


def off_in_width(touched: Touched) -> bool:
    """Whether the side that `off_by` tells of is the shorter one: too wide, not too long."""
    meant = touched.meant.stock if touched.meant else None
    if meant is None or touched.width is None or touched.height is None:
        return False
    shorter = min(touched.width, touched.height)
    return (touched.height if touched.width == meant.width.value else touched.width) == shorter
