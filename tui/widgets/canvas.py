"""A grid of terminal cells to paint on, which may be mirrored."""

from __future__ import annotations

from collections.abc import Sequence

from rich.cells import cell_len, set_cell_size
from rich.segment import Segment
from rich.style import Style
from textual.strip import Strip

from tui.widgets.lines import clean

_TILES = 4
"""Rows above in which the same row is looked for."""


class Canvas:
    """Cells with a character and a style each.

    Everything outside is clipped, so painting never fails at any size. When mirrored, the
    places are mirrored, never the letters: text that would begin at a column and run to
    the right ends at the mirrored column instead.
    """

    __slots__ = ("_base", "_chars", "_mirror", "_styles", "height", "width")

    def __init__(self, width: int, height: int, base: Style, mirror: bool = False) -> None:
        """An empty grid.

        Args:
            width: In cells; below zero counts as zero.
            height: In rows; below zero counts as zero.
            base: The style of a cell that nothing was painted on.
            mirror: Whether columns are counted from the right.
        """
        self.width, self.height = max(0, width), max(0, height)
        self._base = base
        self._mirror = mirror
        self._chars = [[" "] * self.width for _ in range(self.height)]
        self._styles = [[base] * self.width for _ in range(self.height)]

    def fill(
        self,
        left: int,
        top: int,
        right: int,
        bottom: int,
        style: Style,
        tile: Sequence[str] = (" ",),
    ) -> None:
        """Fill the cells of columns ``left`` to ``right`` and rows ``top`` to ``bottom``.

        Args:
            left: First column.
            top: First row.
            right: Column after the last.
            bottom: Row after the last.
            style: Of the cells.
            tile: Rows of equal length of one-cell characters, repeated over the whole
                grid, so that neighbouring areas share one texture; never mirrored.
        """
        if self._mirror:
            left, right = self.width - right, self.width - left
        left, right = max(0, left), min(self.width, right)
        count = right - left
        if count <= 0:
            return
        period = len(tile[0])
        offset = left % period
        times = count // period + 2
        for row in range(max(0, top), min(self.height, bottom)):
            text = (tile[row % len(tile)] * times)[offset : offset + count]
            self._part_wide(row, left, right)
            self._chars[row][left:right] = text
            self._styles[row][left:right] = [style] * count

    def put(self, column: int, row: int, text: str, style: Style | None = None) -> None:
        """Write a line of text.

        Args:
            column: Where it begins.
            row: Of the grid.
            text: Clipped where it leaves the grid.
            style: Of the text; None keeps what each cell has.
        """
        if not 0 <= row < self.height:
            return
        text = clean(text)
        length = cell_len(text)
        if self._mirror:
            column = self.width - column - length
        if column < 0:  # the part that is seen, a halved wide character as a space
            text = set_cell_size(text[::-1], length + column)[::-1]
            column, length = 0, cell_len(text)
        room = self.width - column
        if length > room:
            text = set_cell_size(text, room)
            length = cell_len(text)
        if not text:
            return
        end = column + length
        self._part_wide(row, column, end)
        chars = self._chars[row]
        if end - column == len(text):
            chars[column:end] = text
        else:
            at = column
            for char in text:
                chars[at] = char
                if cell_len(char) == 2:
                    chars[at + 1] = ""
                    at += 1
                at += 1
        if style is not None:
            self._styles[row][column:end] = [style] * (end - column)

    def down(self, column: int, top: int, text: str, style: Style | None = None) -> None:
        """Write text downwards, one character a row."""
        text = clean(text)
        if cell_len(text) != len(text):
            for row, char in enumerate(text, top):
                self.put(column, row, char, style)
            return
        if self._mirror:
            column = self.width - 1 - column
        if not 0 <= column < self.width:
            return
        for row in range(max(0, top), min(self.height, top + len(text))):
            self._part_wide(row, column, column + 1)
            self._chars[row][column] = text[row - top]
            if style is not None:
                self._styles[row][column] = style

    def strips(self, margin: int = 0) -> list[Strip]:
        """The rows, each exactly as wide as the grid, and a margin on either side.

        Args:
            margin: Columns to leave free on either side.
        """
        made: list[Strip] = []
        width = self.width
        edge = [Segment(" " * margin, self._base)] if margin else []
        for y, (chars, styles) in enumerate(zip(self._chars, self._styles, strict=True)):
            # Paper is tiled, so rows come up again soon; making a strip is what costs most here.
            like = next(
                (z for z in range(y - 1, max(-1, y - 1 - _TILES), -1)
                 if chars == self._chars[z] and styles == self._styles[z]),
                None,
            )  # fmt: skip
            if like is not None:
                made.append(made[like])
                continue
            segments = [*edge]
            start = 0
            while start < width:
                style = styles[start]
                end = start + 1
                while end < width and styles[end] is style:
                    end += 1
                segments.append(Segment("".join(chars[start:end]), style))
                start = end
            made.append(Strip(segments + edge, width + 2 * margin))
        return made

    def _part_wide(self, row: int, left: int, right: int) -> None:
        """Blank the other half of a wide character that is about to be painted over."""
        chars = self._chars[row]
        if 0 < left < self.width and chars[left] == "":
            chars[left - 1] = " "
        if 0 < right < self.width and chars[right] == "":
            chars[right] = " "
