"""Where a scene comes to lie in a region of terminal cells, to scale."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import NamedTuple

from model.scene import Block, Scene

ASPECT = 2
"""A cell is about twice as high as it is wide."""


class Rect(NamedTuple):
    """Cells from ``left`` and ``top`` up to, not including, ``right`` and ``bottom``."""

    left: int
    top: int
    right: int
    bottom: int

    @property
    def width(self) -> int:
        """In cells."""
        return self.right - self.left

    @property
    def height(self) -> int:
        """In rows."""
        return self.bottom - self.top


@dataclass(frozen=True, slots=True)
class Frame:
    """How millimetres become cells.

    Attributes:
        scale: Millimetres a column; a row is twice that.
        paper: The cells of the paper in hand, without the gap.
        gap: Columns between what stays and what comes off; the cut runs in the first.
        split: Where that gap is, in mm, or None.
        header: Rows of the ruler, over the paper: 2 numbers and lines, 1 numbers, or 0.
        footer: Row of the captions, or None.
        note: Row that says that it is no true scale, or None.
        fence: Whether the held edge has cells of its own.
    """

    scale: float
    paper: Rect
    gap: int
    split: float | None
    header: int
    footer: int | None
    note: int | None
    fence: bool

    @property
    def right(self) -> int:
        """The column after the picture."""
        return self.paper.right + self.gap

    def columns(self, x: float) -> int:
        """Columns from the held edge to ``x`` mm, without the gap."""
        return min(max(round(x / self.scale), 0), self.paper.width)

    @property
    def split_columns(self) -> int:
        """Columns up to the gap; at least one is left on either side of it."""
        if self.split is None:
            return self.paper.width
        return min(max(self.columns(self.split), 1), max(1, self.paper.width - 1))

    def column(self, x: float) -> int:
        """The column that begins at ``x`` mm; past the cut, beyond the gap."""
        past = self.gap if self.split is not None and x > self.split else 0
        return self.paper.left + self.columns(x) + past

    def rect(self, block: Block) -> Rect:
        """The cells of a block: to scale, and at least one each way, so it stays visible."""
        left, right = self._span(block.x, block.w, self.scale, self.paper.width)
        top, bottom = self._span(block.y, block.h, self.scale * ASPECT, self.paper.height)
        if self.split is not None and block.apart and float(block.x) >= self.split:
            left = max(left, min(self.split_columns, self.paper.width - 1))
            right = max(right, left + 1)
        elif self.split is not None and float(block.x + block.w) <= self.split:
            right = max(left + 1, min(right, self.split_columns))
        x = self.paper.left + (self.gap if block.apart else 0)
        y = self.paper.top
        return Rect(x + left, y + top, x + right, y + bottom)

    @staticmethod
    def _span(start: Fraction, length: Fraction, scale: float, limit: int) -> tuple[int, int]:
        """From one cell to another, within ``limit``, never empty."""
        first = float(start) / scale
        low = min(max(round(first), 0), limit - 1)
        high = min(round(first + float(length) / scale), limit)
        return low, max(high, low + 1)


def frame(scene: Scene, width: int, height: int, beside: int = 0, below: int = 0) -> Frame:
    """Fit a scene into a region, as large as it goes.

    Args:
        scene: What is drawn.
        width: Columns of the region, at least 1.
        height: Rows of the region, at least 1.
        beside: Columns to leave free at the loose side.
        below: Rows to leave free under the picture.

    Returns:
        A frame whose paper has at least one cell. What is least needed goes first when
        there is little room: the held edge, the captions, the ruler's lines, its numbers.
    """
    note = scene.schematic and height >= 2
    has_mark = scene.cut is not None and height >= 4
    header = (2 if height >= 8 else 1 if height >= 4 else 0) if scene.ruler else int(has_mark)
    footer = scene.cut is not None and height >= 6
    split = _split(scene)
    gap = 0
    if any(block.apart for block in scene.blocks):
        gap = 4 if width >= 32 else 3 if width >= 24 else 2 if width >= 12 else int(width >= 6)
    # Paper that merely lies there, to be filed, is held by nothing.
    in_trimmer = scene.ruler is not None or scene.cut is not None
    fence = in_trimmer and width >= 8 and height >= 7
    across = int(fence and scene.held in ("left", "right"))
    along = int(fence and scene.held in ("top", "bottom"))
    free_width = max(1, width - gap - across - beside)
    free_height = max(1, height - header - int(footer) - int(note) - along - below)
    wide, high = float(scene.width), float(scene.height)
    scale = max(wide / free_width, high / ASPECT / free_height)
    if not scale > 0:
        scale = 1.0
    least = 1 if split is None else 2  # what stays and what comes off are both to be seen
    columns = min(max(least, round(wide / scale)), free_width)
    rows = min(max(1, round(high / scale / ASPECT)), free_height)
    left = int(across and scene.held == "left")
    top = header + int(along and scene.held == "top")
    paper = Rect(left, top, left + columns, top + rows)
    under = paper.bottom + int(along and scene.held == "bottom")
    return Frame(
        scale=scale,
        paper=paper,
        gap=gap,
        split=split,
        header=header,
        footer=under if footer else None,
        note=height - 1 if note else None,
        fence=fence,
    )


def later_columns(scene: Scene, fit: Frame) -> list[int]:
    """Where the marks that are still to come are drawn down the paper.

    A mark so near the far edge that it would be written over the outline moves inside it.
    """
    edge = fit.paper.left + fit.split_columns - 1
    columns = (min(fit.column(float(mark)), edge - 1) for mark in scene.later)
    return [column for column in columns if fit.paper.left < column]


def _split(scene: Scene) -> float | None:
    """Where what comes off begins."""
    if scene.cut is not None:
        return float(scene.cut)
    return min((float(block.x) for block in scene.blocks if block.apart), default=None)
