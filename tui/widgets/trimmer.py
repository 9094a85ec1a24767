"""What surrounds the paper in a drawing: ruler, held edge, the cut, and the words under it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache

from rich.cells import cell_len
from rich.style import Style

from model.length import Unit
from model.lengthtext import LengthStyle, write_length
from model.ruler import Graduation, read_mark, ticks
from model.scene import Scene
from tui.widgets.canvas import Canvas
from tui.widgets.frame import Frame, later_columns
from tui.widgets.paper import Glyphs

_STRIDES = {Unit.IN: (1, 2, 3, 6, 12, 24), Unit.CM: (1, 2, 5, 10, 20), Unit.MM: (1, 2, 5, 10, 20)}


@dataclass(frozen=True, slots=True)
class Palette:
    """The styles of all that is not paper.

    Attributes:
        base: Where nothing is.
        ruler: The trimmer's ruler.
        cut: The line of the cut.
        mark: The mark's place on the ruler.
        held: The held edge.
        stays: The words under what stays on the bed.
        off: The words under what comes off.
        name: A name beside the paper.
        note: Other words beside the paper.
    """

    base: Style
    ruler: Style
    cut: Style
    mark: Style
    held: Style
    stays: Style
    off: Style
    name: Style
    note: Style


_BOLD = Style(bold=True)
PLAIN = Palette(
    base=Style(),
    ruler=Style(dim=True),
    cut=_BOLD,
    mark=Style(bold=True, reverse=True),
    held=Style(reverse=True),
    stays=_BOLD,
    off=_BOLD,
    name=_BOLD,
    note=Style(),
)
"""Without any colour but that of the paper."""


def paint_later(canvas: Canvas, scene: Scene, fit: Frame, glyphs: Glyphs) -> None:
    """The marks still to come in this load, as faint dashes on the paper."""
    for column in later_columns(scene, fit):
        canvas.down(column, fit.paper.top, glyphs.later * fit.paper.height)


def paint_fence(canvas: Canvas, scene: Scene, fit: Frame, palette: Palette) -> None:
    """The edge that is held against the trimmer, with its name on it."""
    if not fit.fence:
        return
    paper = fit.paper
    if scene.held in ("left", "right"):
        column = paper.left - 1 if scene.held == "left" else fit.right
        canvas.down(column, paper.top, _centred(scene.words.held(), paper.height), palette.held)
    else:
        row = paper.top - 1 if scene.held == "top" else paper.bottom
        wide = fit.right - paper.left
        canvas.put(paper.left, row, _centred(scene.words.held(), wide), palette.held)


def _centred(word: str, room: int) -> str:
    """A word in so many cells, or only the cells."""
    return word.center(room) if room >= len(word) else " " * room


def paint_cut(
    canvas: Canvas, scene: Scene, fit: Frame, palette: Palette, glyphs: Glyphs, ascii: bool
) -> None:
    """The line to cut along, from its mark on the ruler to the foot of the picture."""
    if scene.cut is None:
        return
    column = min(fit.paper.left + fit.split_columns, canvas.width - 1)
    foot = fit.paper.bottom if fit.footer is None else fit.footer + 1
    top = fit.paper.top
    # Where there is no room for a gap, the line is written on the paper and does not hide it.
    style = palette.cut if canvas.width >= 6 else None
    canvas.down(column, top, glyphs.cut * (foot - top), style)
    if fit.gap >= 3:
        canvas.put(column + 1, (top + fit.paper.bottom - 1) // 2, glyphs.off, palette.cut)
    if fit.header >= 2:
        canvas.put(column, fit.header - 1, glyphs.under, palette.cut)
    if fit.header:
        label = cut_label(scene, ascii)
        canvas.put(_label_start(column, label, canvas.width), 0, label, palette.mark)


def cut_label(scene: Scene, ascii: bool) -> str:
    """What stands over the cut: the mark as the ruler reads it, where there is one."""
    if scene.cut is None:
        return ""
    torn = any(b.apart and b.x == scene.cut and "left" in b.torn for b in scene.blocks)
    verb = scene.words.cut(torn)
    if scene.ruler is None or scene.schematic:
        return f" {verb} "
    shown = read_mark(scene.cut, scene.ruler).shown
    return f" {verb} {write_length(shown, LengthStyle(scene.ruler.unit, ascii))} "


def _label_start(column: int, label: str, width: int) -> int:
    return max(0, min(column - cell_len(label) // 2, width - cell_len(label)))


def paint_ruler(
    canvas: Canvas, scene: Scene, fit: Frame, palette: Palette, ruler: Graduation, ascii: bool
) -> None:
    """Numbers, and under them lines as fine as there is room for.

    The part over what comes off is moved with it, so that every edge can be read.
    """
    left = fit.paper.left
    edge = fit.right if fit.split is None else left + fit.split_columns
    beyond = edge + fit.gap if fit.split is not None else fit.right
    for row in range(fit.header):
        canvas.put(left, row, " " * (edge - left), palette.ruler)
        canvas.put(beyond, row, " " * (fit.right - beyond), palette.ruler)
    marks = _marks(ruler, scene.width)
    if fit.header >= 2:
        lines = "|:." if ascii else "│╷."
        finest = _finest(marks, fit.scale)
        stride = _stride(ruler, scene, fit)
        if finest < 0:  # not even the whole ones: those that have a number
            marks = tuple(mark for mark in marks if mark[2] is not None)[::stride]
            finest = 0
        for at, rank, _ in marks:
            if rank <= finest and (column := fit.column(at)) < fit.right:
                canvas.put(column, 1, lines[min(rank, 2)])
    _paint_numbers(canvas, scene, fit, palette, ruler, ascii)


def _paint_numbers(
    canvas: Canvas, scene: Scene, fit: Frame, palette: Palette, ruler: Graduation, ascii: bool
) -> None:
    """The ruler's numbers, as many as can be told apart, clear of the mark."""
    numbers = [(at, label) for at, _, label in _marks(ruler, scene.width) if label is not None]
    stride = _stride(ruler, scene, fit)
    label = cut_label(scene, ascii)
    start = stop = -1
    if label and scene.cut is not None:
        start = _label_start(fit.paper.left + fit.split_columns, label, canvas.width)
        stop = start + cell_len(label)
    unit = f" {ruler.unit}"
    says_unit = fit.right + len(unit) + 2 <= canvas.width and stop < fit.right + 2
    room = canvas.width - len(unit) * says_unit
    last = stop
    for at, number in numbers[::stride]:
        column = fit.column(at)
        end = column + len(number)
        if column < fit.right and end <= room and (end < start or column > stop):
            canvas.put(column, 0, number, palette.ruler)
            last = max(last, end)
    if says_unit:  # the last number may reach beyond the paper
        canvas.put(max(fit.right + 2, last + 1), 0, unit.strip(), palette.note)


def _stride(ruler: Graduation, scene: Scene, fit: Frame) -> int:
    """Which numbers there is room for: every one, every second, ..."""
    numbers = [(at, label) for at, _, label in _marks(ruler, scene.width) if label is not None]
    longest = max((len(label) for _, label in numbers), default=1)
    apart = numbers[1][0] / fit.scale if len(numbers) > 1 else float(longest)
    strides = _STRIDES[ruler.unit]
    return next((each for each in strides if each * apart >= longest + 1), strides[-1])


@lru_cache(maxsize=32)
def _marks(ruler: Graduation, upto: Fraction) -> tuple[tuple[float, int, str | None], ...]:
    """The ruler's lines with their places as floats, which are far quicker to scale."""
    return tuple((float(tick.at), tick.rank, tick.label) for tick in ticks(ruler, upto))


def _finest(marks: Sequence[tuple[float, int, str | None]], scale: float) -> int:
    """The finest rank of lines that are still two columns apart; -1 for none."""
    finest = -1
    for rank in range(6):
        first = next((at for at, each, _ in marks if at and each <= rank), 0.0)
        if first / scale >= 1.999:  # less than 2 by rounding only
            finest = rank
    return finest


def paint_captions(
    canvas: Canvas, scene: Scene, fit: Frame, palette: Palette, off: tuple[int, int] | None
) -> None:
    """What stays and what comes off, in words under each.

    Args:
        canvas: Where to.
        scene: What is drawn.
        fit: Where it is drawn.
        palette: The styles.
        off: The columns of what comes off, or None.
    """
    if fit.footer is None or scene.cut is None:
        return
    column = fit.paper.left + fit.split_columns
    start = 0
    for words in scene.words.stays():
        if cell_len(words) <= column - start:
            middle = start + (column - start - cell_len(words)) // 2
            canvas.put(middle, fit.footer, words, palette.stays)
            break
    if off is not None:
        left, right = off
        for words in scene.words.comes_off():
            begin = max(column + 2, left + (right - left - cell_len(words)) // 2)
            if begin + cell_len(words) <= canvas.width:
                canvas.put(begin, fit.footer, words, palette.off)
                break


def paint_note(canvas: Canvas, scene: Scene, fit: Frame, palette: Palette) -> None:
    """Say that the sizes are not measured, as fully as there is room."""
    if fit.note is None:
        return
    for words in scene.words.schematic():
        if cell_len(words) <= canvas.width:
            canvas.put(0, fit.note, words, palette.note)
            break
