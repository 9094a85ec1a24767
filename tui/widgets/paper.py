"""Blocks of paper as cells: colour, texture, edges, and what is written on them."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise

from rich.cells import cell_len
from rich.color import Color
from rich.style import Style

from model.colour import Rgb, faint_on, ink_on
from model.geometry import SIDES, Side
from model.language.english.drawing import DrawingPhrases
from model.scene import Block
from tui.widgets.canvas import Canvas
from tui.widgets.frame import Rect
from tui.widgets.lines import clean, wrap_words

_ENGLISH = DrawingPhrases()


@dataclass(frozen=True, slots=True)
class Glyphs:
    """The characters of a picture; one set for every terminal, one for most."""

    box: str  # corners from the top left clockwise, then horizontal, vertical
    dot: str
    hatch: str
    torn: str  # alternating
    later: str
    cut: str
    under: str  # at the mark, over the cut
    off: str  # what comes off goes this way
    lead: str
    more: str
    arrows: dict[Side, str]


FINE = Glyphs(
    box="┌┐┘└─│",
    dot="·",
    hatch="/",
    torn="≈~",
    later="╎",
    cut="┃",
    under="▼",
    off="→",
    lead="─",
    more="…",
    arrows={"top": "↑", "right": "→", "bottom": "↓", "left": "←"},
)
ASCII = Glyphs(
    box="++++-|",
    dot=".",
    hatch="/",
    torn="~~",
    later=":",
    cut="#",
    under="v",
    off=">",
    lead="-",
    more="~",
    arrows={"top": "^", "right": ">", "bottom": "v", "left": "<"},
)


@dataclass(frozen=True, slots=True)
class Inks:
    """Styles on one colour of paper."""

    text: Style
    name: Style
    faint: Style


@lru_cache(maxsize=512)
def inks(rgb: Rgb) -> Inks:
    """The ink that stands out on a paper, and fainter marks of it."""
    paper, ink = Color.from_rgb(*rgb), ink_on(rgb)
    text = Style.from_color(Color.from_rgb(*ink), paper)
    return Inks(
        text=text,
        name=text + Style(bold=True),
        faint=Style.from_color(Color.from_rgb(*faint_on(rgb)), paper),
    )


@dataclass(frozen=True, slots=True)
class Placed:
    """A block where it is drawn.

    Attributes:
        block: The paper.
        rect: Its cells.
        label: The lines written on it, or None when they do not fit.
        inner: The cells that they may take.
        lines: The columns of lines that run down the paper.
        words: The words of the drawing.
    """

    block: Block
    rect: Rect
    label: tuple[str, ...] | None
    inner: Rect
    lines: tuple[int, ...] = ()
    words: DrawingPhrases = _ENGLISH


def place(
    block: Block, rect: Rect, lines: Collection[int] = (), words: DrawingPhrases = _ENGLISH
) -> Placed:
    """Find what can be written on a block that is drawn in these cells.

    Words never stand on its outline, nor on a line that runs down the paper.

    Args:
        block: The paper.
        rect: Its cells.
        lines: The columns of such lines.
        words: The words of the drawing.
    """
    left, top, right, bottom = rect
    boxed = rect.height >= 3
    flat = rect.height == 2  # no outline over and under it, but a torn edge is drawn
    top += boxed or (flat and "top" in block.torn)
    bottom -= boxed or (flat and "bottom" in block.torn)
    across = tuple(sorted(line for line in lines if left < line < right - 1))
    edges = (left, *across, right - 1)
    rooms = [Rect(one + 1, top, two, bottom) for one, two in pairwise(edges)]
    room = max(rooms, key=lambda each: each.width)
    return Placed(block, rect, _fitting(block, room, words), room, across, words)


def said(block: Block, words: DrawingPhrases = _ENGLISH) -> tuple[str, str, str]:
    """Name, size and role of a block, in words; each may be empty."""
    name, word = clean(block.name).strip(), words.role(block.role)
    return name, clean(block.size).strip(), "" if word in name.lower() else word


def _fitting(block: Block, room: Rect, words: DrawingPhrases) -> tuple[str, ...] | None:
    """The fullest label that fits whole; None when not even name and size do."""
    name, size, word = said(block, words)
    for text in ((name, size, word), (name, size)):
        parts = [part for part in text if part]
        lines = _stacked(parts, size, room.width)
        if lines is not None and len(lines) <= room.height:
            return tuple(lines)
        line = " ".join(parts)
        if room.height >= 1 and cell_len(line) <= room.width:
            return (line,)
    return None


def _stacked(parts: list[str], size: str, width: int) -> list[str] | None:
    """Each part on lines of its own, never broken inside a word or a size."""
    lines: list[str] = []
    for part in parts:
        broken = [part] if part == size else wrap_words(part, width)
        if broken is None or max(map(cell_len, broken), default=0) > width:
            return None
        lines += broken
    return lines


def paint_block(
    canvas: Canvas, placed: Placed, glyphs: Glyphs, mirrored: bool, key: str = ""
) -> None:
    """Paint the paper of one block: colour, texture, edges.

    Args:
        canvas: Where to.
        placed: The block and its cells.
        glyphs: The characters to use.
        mirrored: Whether the canvas is mirrored, for arrows and corners.
        key: The letter that will stand on it, if any.
    """
    block, rect, style = placed.block, placed.rect, inks(placed.block.rgb)
    kind = "scrap" if block.role == "scrap" else "print" if block.printed else ""
    up = seen(block.up, mirrored) if block.up else None
    canvas.fill(*rect, style.faint, _tile(kind, up, glyphs))
    _paint_edges(canvas, placed, glyphs, mirrored)
    if key and rect.width < 3:  # nothing lies within the edges: they are broken for the letter
        canvas.put(*_key_place(placed, key), " ")


def paint_words(
    canvas: Canvas, placed: Placed, glyphs: Glyphs, mirrored: bool, key: str = ""
) -> None:
    """Write on a block what fits: its label or key, and which side is the top of the print."""
    block, style, room = placed.block, inks(placed.block.rgb), placed.inner
    if placed.label is None:
        if key:
            canvas.put(*_key_place(placed, key), key, style.name)
        return
    label = placed.label
    tag = f"{glyphs.arrows[seen(block.up, mirrored)]} {placed.words.top()}" if block.up else ""
    top, bottom = room.top, room.bottom
    taken: list[Rect] = []
    if tag and cell_len(tag) <= room.width and len(label) < room.height:
        at, row = _tag_place(block.up, room, cell_len(tag))
        if block.up == "top" or (block.up != "bottom" and len(label) + 2 > room.height):
            row, top = room.top, room.top + 1
        elif block.up == "bottom":
            bottom -= 1
        else:
            widest = max(map(cell_len, label), default=0)
            if (room.width - widest) // 2 < cell_len(tag) + 1:
                row, top = room.top, room.top + 1
        canvas.put(at, row, tag, style.text)
        taken.append(Rect(at - 1, row, at + cell_len(tag) + 1, row + 1))
    row = top + (bottom - top - len(label)) // 2
    taken.append(Rect(room.left, row, room.right, row + len(label)))
    _paint_signs(canvas, placed, taken)
    names = len(wrap_words(said(block, placed.words)[0], room.width) or ())
    for number, line in enumerate(label):
        length = cell_len(line)
        column = room.left + (room.width - length) // 2
        if column + length < room.right:  # keep the texture off the letters
            line = f"{line} "
        if column > room.left:
            line, column = f" {line}", column - 1
        canvas.put(column, row + number, line, style.name if number < names else style.text)


def _key_place(placed: Placed, key: str) -> tuple[int, int]:
    """Column and row of the letter of a block."""
    rect, room = placed.rect, placed.inner if placed.inner.width > 0 else placed.rect
    # Letters on neighbouring strips stand on different rows, so as not to read as a word.
    row = 1 + ord(key) % 2 if rect.height >= 4 else (rect.height - 1) // 2
    return (room.left + room.right - 1) // 2, rect.top + row


def _paint_signs(canvas: Canvas, placed: Placed, taken: Sequence[Rect]) -> None:
    """Name the printed landmarks where they are seen, clear of the outline and other words.

    One in the middle steps aside for a line; one at an edge stays there, even if a line has to
    give way: which side is which matters more than a cell of a mark that is still to come.
    """
    rect = placed.rect
    for at, name in placed.block.signs:
        words = at.split()
        text = f" {clean(name).strip()} "
        length = cell_len(text)
        if rect.height < 5 or length + 2 > rect.width:
            continue
        left, row = rect.left + (rect.width - length) // 2, (rect.top + rect.bottom - 1) // 2
        if "top" in words:
            row = rect.top + 1
        elif "bottom" in words:
            row = rect.bottom - 2
        if "left" in words:
            left = rect.left + 1
        elif "right" in words:
            left = rect.right - 1 - length
        else:
            left = _aside(placed, left, length)
        free = all(
            not r.top <= row < r.bottom or left >= r.right or left + length <= r.left for r in taken
        )
        if free:
            canvas.put(left, row, text, inks(placed.block.rgb).text)


def _aside(placed: Placed, left: int, length: int) -> int:
    """Where words that would begin at a column cross no line, if there is such a place."""
    edges = (placed.rect.left, *placed.lines, placed.rect.right - 1)
    free = [
        min(max(left, one + 1), two - length)
        for one, two in pairwise(edges)
        if two - one - 1 >= length
    ]
    return min(free, key=lambda each: abs(each - left), default=left)


def _tag_place(up: Side | None, room: Rect, length: int) -> tuple[int, int]:
    """Where the word for the top of the print begins: at the middle of that edge."""
    centre = room.left + (room.width - length) // 2
    middle = room.top + (room.height - 1) // 2
    if up == "left":
        return room.left, middle
    if up == "right":
        return room.right - length, middle
    return centre, room.bottom - 1 if up == "bottom" else room.top


def _paint_edges(canvas: Canvas, placed: Placed, glyphs: Glyphs, mirrored: bool) -> None:
    """The outline, wavy where it is torn."""
    left, top, right, bottom = placed.rect
    style = inks(placed.block.rgb)
    first, second, third, fourth, across, down = tuple(glyphs.box)
    if mirrored:
        first, second, third, fourth = second, first, fourth, third
    wide, high = right - left, bottom - top
    boxed = wide >= 3 and high >= 3
    if boxed:
        for row in (top, bottom - 1):
            canvas.put(left, row, across * wide, style.faint)
    for column in {left, right - 1}:
        canvas.down(column, top, down * high, style.faint)
    if boxed:
        for column, row, corner in (
            (left, top, first),
            (right - 1, top, second),
            (right - 1, bottom - 1, third),
            (left, bottom - 1, fourth),
        ):
            canvas.put(column, row, corner, style.faint)
    widest = max(map(cell_len, placed.label or ()), default=0)
    for side in SIDES:
        if side not in placed.block.torn:
            continue
        if side in ("left", "right"):
            wave = (glyphs.torn * high)[:high]
            if widest + 2 <= placed.inner.width or not widest:
                wave = _torn_word(
                    wave, placed.words.torn()
                )  # where it would not run into the label
            canvas.down(left if side == "left" else right - 1, top, wave, style.text)
        elif high > 1:
            wave = (glyphs.torn * wide)[:wide]
            canvas.put(
                left,
                top if side == "top" else bottom - 1,
                _torn_word(wave, placed.words.torn()),
                style.text,
            )


def _torn_word(wave: str, word: str) -> str:
    """A torn edge says what it is, where it is long enough."""
    length = len(word)
    start = (len(wave) - length) // 2
    roomy = len(wave) >= length + 4
    return f"{wave[:start]}{word}{wave[start + length :]}" if roomy else wave


def _tile(kind: str, up: Side | None, glyphs: Glyphs) -> tuple[str, ...]:
    """The texture of a kind of paper, as rows to repeat."""
    if kind == "scrap":
        row = f"{glyphs.hatch}   "
        return tuple(row[number:] + row[:number] for number in range(4))
    if kind != "print":
        return (" ",)
    dot = glyphs.dot
    if up is None:
        return (f"{dot}     ", f"   {dot}  ")
    arrow = glyphs.arrows[up]
    plain = f"{dot}     {dot}     "
    return (plain, f"   {arrow}     {dot}  ", plain, f"   {dot}     {arrow}  ")


def seen(side: Side, mirrored: bool) -> Side:
    """Where a side is seen."""
    if mirrored and side == "left":
        return "right"
    if mirrored and side == "right":
        return "left"
    return side
