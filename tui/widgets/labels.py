"""Words that do not fit on their paper: written beside the picture, or under it."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from rich.cells import cell_len, set_cell_size

from model.scene import Scene
from tui.widgets.frame import Frame, frame, later_columns
from tui.widgets.lines import wrap_words
from tui.widgets.paper import Glyphs, Placed, place, said, seen

_KEYS = "abcdefghijklmnopqrstuvwxyz"
_MARGIN = 3  # columns from the picture to the words: the key or a line stands there
_LEAST_WIDTH, _LEAST_HEIGHT = 12, 5  # of a region in which such words are of use


class Label(NamedTuple):
    """A line of text in the grid."""

    column: int
    row: int
    text: str
    is_name: bool


class Outside(NamedTuple):
    """Labels and, by the number of the block, the letters that stand for them on the paper."""

    labels: list[Label]
    keys: dict[int, str]


def arrange(
    scene: Scene, width: int, height: int, glyphs: Glyphs
) -> tuple[Frame, list[Placed], Outside]:
    """Fit a scene, leaving room for the words that do not fit on their paper.

    Args:
        scene: What is drawn.
        width: Columns of the region, at least 1.
        height: Rows of the region, at least 1.
        glyphs: The characters to use.

    Returns:
        The frame; the blocks in the order in which they are painted; the words outside.
    """
    fit = frame(scene, width, height)
    blocks = _place(scene, fit)
    texts = _texts(blocks, glyphs, scene.mirrored)
    if not texts or width < _LEAST_WIDTH or height < _LEAST_HEIGHT:
        return fit, blocks, Outside([], {})
    need = _widest(texts) + _MARGIN
    if width - fit.right < need and _last_row(fit, height) - _foot(fit) < len(texts):
        # The picture gives up columns or rows, whichever leaves it larger.
        beside = frame(scene, width, height, beside=min(need, width * 2 // 5))
        below = frame(scene, width, height, below=min(len(texts), height // 3))
        fit = beside if beside.scale <= below.scale else below
        blocks = _place(scene, fit)
        texts = _texts(blocks, glyphs, scene.mirrored)
    return fit, blocks, _outside(fit, blocks, texts, width, height, glyphs)


def cut_short(text: str, width: int, glyphs: Glyphs) -> str:
    """Crop text to a width in cells, and show that it was."""
    if cell_len(text) <= width:
        return text
    return set_cell_size(text, width - 1) + glyphs.more if width > 0 else ""


def _place(scene: Scene, fit: Frame) -> list[Placed]:
    """Every block in its cells, the largest first, so that thin ones stay on top."""
    order = sorted(scene.blocks, key=lambda block: (block.apart, -float(block.w * block.h)))
    lines = later_columns(scene, fit)
    return [place(block, fit.rect(block), lines, scene.words) for block in order]


def _texts(blocks: Sequence[Placed], glyphs: Glyphs, mirrored: bool) -> dict[int, list[str]]:
    """The lines of each label that is to be written outside, what comes off first."""

    def order(number: int) -> tuple[bool, float, float]:
        block = blocks[number].block
        return not block.apart, float(block.x), float(block.y)

    texts: dict[int, list[str]] = {}
    for number in sorted(range(len(blocks)), key=order):
        block = blocks[number].block
        words = blocks[number].words
        if blocks[number].label is None and any(said(block, words)):
            top = f"{glyphs.arrows[seen(block.up, mirrored)]} {words.top()}" if block.up else ""
            # Its caption may not fit either.
            stays = words.stays()[-1] if block.role == "rest" else ""
            texts[number] = [line for line in (*said(block, words), stays, top) if line]
    return texts


def _widest(texts: dict[int, list[str]]) -> int:
    return max((cell_len(line) for text in texts.values() for line in text), default=0)


def _foot(fit: Frame) -> int:
    """The first row under the picture and its captions."""
    return max(fit.paper.bottom, -1 if fit.footer is None else fit.footer + 1)


def _last_row(fit: Frame, height: int) -> int:
    """The row after the last that words may take."""
    return height if fit.note is None else fit.note


def _outside(
    fit: Frame,
    blocks: Sequence[Placed],
    texts: dict[int, list[str]],
    width: int,
    height: int,
    glyphs: Glyphs,
) -> Outside:
    """Choose between beside and under, and lay the words out."""
    room = width - fit.right - _MARGIN
    widest = _widest(texts)
    rows = range(_foot(fit), _last_row(fit, height))
    if room < min(widest, 8) or (room < widest and len(rows) >= len(texts)):
        return _under(fit, blocks, texts, width, rows, glyphs)
    return _beside(fit, blocks, texts, room, _last_row(fit, height), glyphs)


def _keys(fit: Frame, blocks: Sequence[Placed], texts: dict[int, list[str]]) -> dict[int, str]:
    """A letter each; none for one label that stands next to its paper anyway."""
    if len(texts) == 1 and all(blocks[number].rect.right == fit.right for number in texts):
        return {}
    return dict(zip(texts, _KEYS, strict=False))


def _beside(
    fit: Frame,
    blocks: Sequence[Placed],
    texts: dict[int, list[str]],
    room: int,
    last_row: int,
    glyphs: Glyphs,
) -> Outside:
    """Name, size and the rest on lines of their own; on one line each when they are many."""
    keys = _keys(fit, blocks, texts)
    floor = min(fit.paper.bottom, last_row)
    row = fit.paper.top
    if not keys:
        for number, text in texts.items():
            rect = blocks[number].rect
            row = max(row, (rect.top + rect.bottom - 1 - len(text)) // 2)
    crowded = len(texts) > 1 and sum(map(len, texts.values())) > floor - row
    labels: list[Label] = []
    for number, text in texts.items():
        name = said(blocks[number].block, blocks[number].words)[0]
        names = (wrap_words(name, room) or [name]) if name else []
        lines = [" ".join(text)] if crowded else [*names, *text[1 if name else 0 :]]
        if row < floor:
            labels.append(Label(fit.right + 1, row, keys.get(number, glyphs.lead), True))
        else:
            keys.pop(number, None)
        for place_in, line in enumerate(lines[: max(0, floor - row)]):
            short = cut_short(line, room, glyphs)
            labels.append(Label(fit.right + _MARGIN, row + place_in, short, place_in < len(names)))
        row += len(lines)
    return Outside(labels, keys)


def _under(
    fit: Frame,
    blocks: Sequence[Placed],
    texts: dict[int, list[str]],
    width: int,
    rows: range,
    glyphs: Glyphs,
) -> Outside:
    """One row a label, begun under its paper where it can be, with as much as fits."""
    keys = _keys(fit, blocks, texts)
    labels: list[Label] = []
    for row, (number, text) in zip(rows, texts.items(), strict=False):
        name, size, _ = said(blocks[number].block, blocks[number].words)
        choices = [
            f"{keys.get(number, '')} {' '.join(filter(None, words))}".strip()
            for words in (text, text[:-1], (name, size), (name or size,))
        ]
        line = next((each for each in choices if cell_len(each) <= width), choices[-1])
        line = cut_short(line, width, glyphs)
        column = max(0, min(blocks[number].rect.left, width - cell_len(line)))
        labels.append(Label(column, row, line, True))
    shown = set(list(texts)[: len(rows)])
    return Outside(labels, {number: key for number, key in keys.items() if number in shown})
