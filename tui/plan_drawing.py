"""The sheets of a plan drawn in characters, to scale, each piece with its name.

No library is needed for it, as for all that commands without a screen print, and no colour.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise

from model.geometry import Box
from model.planning.wanted_told import Told, ToldSheet
from tui.plan_table import Pen, shown_size
from tui.plan_text import cells, cropped, free, held, padded, wrapped

_UP, _DOWN, _LEFT, _RIGHT = 1, 2, 4, 8
_LINES = {
    0: " ", _UP: "│", _DOWN: "│", _UP | _DOWN: "│", _LEFT: "─", _RIGHT: "─", _LEFT | _RIGHT: "─",
    _DOWN | _RIGHT: "┌", _DOWN | _LEFT: "┐", _UP | _RIGHT: "└", _UP | _LEFT: "┘",
    _UP | _DOWN | _RIGHT: "├", _UP | _DOWN | _LEFT: "┤", _LEFT | _RIGHT | _DOWN: "┬",
    _LEFT | _RIGHT | _UP: "┴", _UP | _DOWN | _LEFT | _RIGHT: "┼",
}  # fmt: skip
_KEYS = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ"
_ASPECT = 2  # a cell is about twice as high as it is wide
_BESIDE = 20  # columns that a legend beside the sheet needs at least
_HATCH = "/"


@dataclass(frozen=True, slots=True)
class _End:
    """A piece or a scrap on a sheet."""

    box: Box
    name: str
    size: str
    scrap: bool


def draw_sheets(told: Told, pen: Pen, height: int) -> str:
    """All sheets, one beneath the other; those that are cut alike once.

    Args:
        told: The plan.
        pen: How it is written.
        height: Rows that the drawing of one sheet may take; more where pieces are thin.
    """
    blocks: list[str] = []
    for sheets in _alike(told, pen):
        first = sheets[0]
        size = pen.full_size(first.board.width, first.board.height)
        title = pen.words.drawn([sheet.name for sheet in sheets], size, first.board.left_over)
        rows = draw_sheet(
            first.board.width, first.board.height, _ends(told, pen, first), pen, height
        )
        heads = wrapped(title, pen.width, 2)
        blocks.append("\n".join(pen.text(row) for row in (*heads, *rows)))
    return "\n\n".join(blocks)


def _ends(told: Told, pen: Pen, sheet: ToldSheet) -> list[_End]:
    ends: list[_End] = []
    for number, box in sheet.ends.items():
        scrap = told.plan.parts[number].scrap
        name = pen.words.scrap() if scrap else told.names.called.get(number, sheet.name)
        ends.append(_End(box, name, pen.size(*shown_size(told, number)), scrap))
    return ends


def _alike(told: Told, pen: Pen) -> list[list[ToldSheet]]:
    """The sheets, those together that look the same."""
    found: dict[tuple[object, ...], list[ToldSheet]] = {}
    for sheet in told.sheets:
        ends = tuple(
            sorted((e.box.x, e.box.y, e.box.w, e.box.h, e.name) for e in _ends(told, pen, sheet))
        )
        key = (sheet.board.width, sheet.board.height, sheet.board.paper, ends)
        found.setdefault(key, []).append(sheet)
    return list(found.values())


def draw_sheet(
    width: Fraction, height: Fraction, ends: Sequence[_End], pen: Pen, rows: int
) -> list[str]:
    """One sheet, with a legend for what does not fit on its paper.

    Args:
        width: Of the sheet, in mm.
        height: Of it.
        ends: All that is cut from it.
        pen: How it is written.
        rows: That the sheet may take.
    """
    room = max(12, pen.width)
    across = min(room, max(12, round(float(width / height) * (rows - 1) * _ASPECT) + 1))
    scale = float(width) / (across - 1)
    xs = _lines_at([(e.box.x, e.box.x + e.box.w) for e in ends], width, scale, room - 1)
    ys = _lines_at([(e.box.y, e.box.y + e.box.h) for e in ends], height, scale * _ASPECT, None)
    grid = _Grid(xs[width] + 1, ys[height] + 1)
    beside = room - grid.width - 2 >= _BESIDE
    for end in ends:
        box = end.box
        grid.outline(xs[box.x], ys[box.y], xs[box.x + box.w], ys[box.y + box.h])
    chars = grid.characters()
    keys = iter(_KEYS)
    legend: list[str] = []
    known: dict[tuple[str, str], str] = {}
    for end in sorted(ends, key=lambda e: (e.box.y, e.box.x)):
        _write(chars, end, xs, ys, keys, known, legend)
    drawn = ["".join(row).rstrip() for row in chars]
    if not legend:
        return drawn
    if beside:
        told = _rows_of(legend, room - grid.width - 2)
        return [
            f"{padded(left, grid.width)}  {right}".rstrip()
            for left, right in _together(drawn, told)
        ]
    return [*drawn, *_rows_of(legend, room)]


def _rows_of(legend: Sequence[str], width: int) -> list[str]:
    return [free(row) for line in legend for row in wrapped(line, width, 3)]


def _together(one: Sequence[str], two: Sequence[str]) -> Iterator[tuple[str, str]]:
    for at in range(max(len(one), len(two))):
        yield one[at] if at < len(one) else "", two[at] if at < len(two) else ""


def _lines_at(
    spans: Sequence[tuple[Fraction, Fraction]], whole: Fraction, scale: float, most: int | None
) -> dict[Fraction, int]:
    """The cell of each line between pieces: to scale, if it can be with a cell inside of each.

    Args:
        spans: Where each piece begins and ends.
        whole: The extent of the sheet.
        scale: Millimetres a cell.
        most: The last cell that there is; None for as many as it takes.
    """
    begins: dict[Fraction, list[Fraction]] = {}
    for start, end in spans:
        begins.setdefault(end, []).append(start)
    places = sorted({Fraction(0), whole, *begins, *(start for start, _ in spans)})
    for inside, shrink in ((2, 100), (2, 80), (2, 60), (2, 40), (1, 100), (1, 60), (0, 100)):
        at = {places[0]: 0}
        for before, place in pairwise(places):
            wished = round(float(place) / scale * shrink / 100)
            least = max((at[start] + inside for start in begins.get(place, ())), default=0)
            at[place] = max(wished, least, at[before])
        if most is None or at[whole] <= most:
            return at
    return {place: min(cell, most or cell) for place, cell in at.items()}


class _Grid:
    """Cells, each with the lines that lead from its middle."""

    def __init__(self, width: int, height: int) -> None:
        self.width = width
        self.cells = [[0] * width for _ in range(height)]

    def outline(self, left: int, top: int, right: int, bottom: int) -> None:
        for column in range(left, right):
            for row in (top, bottom):
                self.cells[row][column] |= _RIGHT
                self.cells[row][column + 1] |= _LEFT
        for row in range(top, bottom):
            for column in (left, right):
                self.cells[row][column] |= _DOWN
                self.cells[row + 1][column] |= _UP

    def characters(self) -> list[list[str]]:
        return [[_LINES[cell] for cell in row] for row in self.cells]


def _write(
    chars: list[list[str]], end: _End, xs: Mapping[Fraction, int], ys: Mapping[Fraction, int],
    keys: Iterator[str], known: dict[tuple[str, str], str], legend: list[str],
) -> None:  # fmt: skip
    """Write on a piece what fits: its name and size, else a letter that the legend explains."""
    box = end.box
    left, right = xs[box.x] + 1, xs[box.x + box.w]
    top, bottom = ys[box.y] + 1, ys[box.y + box.h]
    if end.scrap:
        for row in range(top, bottom):
            for column in range(left, right):
                chars[row][column] = _HATCH if (row + column) % 3 == 0 else " "
    width, height = right - left, bottom - top
    lines = _label(end, width, height)
    if lines is None:
        what = (end.name, end.size)
        if what not in known:
            known[what] = next(keys, "*")
            legend.append(f"{known[what]}  {end.name} ({held(end.size)})")
        if width < 1 or height < 1:
            return
        lines = [known[what]]
    row = top + (height - len(lines)) // 2
    for line in lines:
        column = left + (width - cells(line)) // 2
        _put(chars[row], column, line)
        row += 1


def _put(row: list[str], column: int, text: str) -> None:
    for char in text:
        wide = cells(char)
        if not wide:  # it is put over the one before
            row[column - 1] += char
            continue
        row[column] = char
        if wide == 2:
            row[column + 1] = ""
        column += wide


def _label(end: _End, width: int, height: int) -> list[str] | None:
    if width < 1 or height < 1:
        return None
    line = f"{end.name} {end.size}"
    choices = [[end.name, end.size], [line], [*wrapped(end.name, max(1, width)), end.size]]
    for lines in choices:
        whole = all(cells(part) <= width for part in lines)
        broken = any(cropped(word, width) != word for word in end.name.split(" "))
        if whole and not broken and len(lines) <= height:
            return lines
    return None
