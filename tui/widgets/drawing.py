"""The paper on the trimmer, painted to scale: what stays, where the cut runs, what comes off."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import fields
from typing import ClassVar

from rich.cells import cell_len, set_cell_size
from textual.strip import Strip

from model.scene import Scene
from tui.widgets.canvas import Canvas
from tui.widgets.frame import Frame, frame
from tui.widgets.lines import Lines, wrap_words
from tui.widgets.paper import (
    ASCII,
    FINE,
    Glyphs,
    Placed,
    paint_block,
    paint_words,
    place,
    said,
    seen,
)
from tui.widgets.trimmer import (
    PLAIN,
    Palette,
    paint_captions,
    paint_cut,
    paint_fence,
    paint_later,
    paint_note,
    paint_ruler,
)

_KEYS = "abcdefghijklmnopqrstuvwxyz"
_STYLED = tuple(field.name for field in fields(Palette) if field.name != "base")


def paint(
    scene: Scene | None,
    width: int,
    height: int,
    palette: Palette = PLAIN,
    ascii: bool = False,
) -> list[Strip]:
    """Paint a scene as large as a region allows.

    Args:
        scene: The paper in hand; None leaves the region empty.
        width: Columns of the region.
        height: Rows of the region.
        palette: The styles of all that is not paper.
        ascii: Whether only ASCII may be used for what is not a name or a size.

    Returns:
        ``height`` rows, each exactly ``width`` cells wide.
    """
    canvas = Canvas(width, height, palette.base, scene is not None and scene.mirrored)
    if scene is None or width <= 0 or height <= 0:
        return canvas.strips()
    glyphs = ASCII if ascii else FINE
    fit, blocks = _arrange(scene, width, height, glyphs)
    outside = [placed for placed in blocks if _is_outside(placed)]
    # One label beside the last block needs no key: it stands next to its paper.
    alone = len(outside) == 1 and outside[0].rect.right == fit.right
    keys = {} if alone else {id(each): key for each, key in zip(outside, _KEYS, strict=False)}
    for placed in blocks:
        paint_block(canvas, placed, glyphs, scene.mirrored)
    paint_later(canvas, scene, fit, glyphs)
    for placed in blocks:
        paint_words(canvas, placed, glyphs, scene.mirrored, keys.get(id(placed), ""))
    paint_fence(canvas, scene, fit, palette)
    if scene.ruler is not None and fit.header:
        paint_ruler(canvas, scene, fit, palette, scene.ruler, ascii)
    paint_cut(canvas, scene, fit, palette, glyphs, ascii)
    apart = [placed.rect for placed in blocks if placed.block.apart]
    off = (min(r.left for r in apart), max(r.right for r in apart)) if apart else None
    paint_captions(canvas, scene, fit, palette, off)
    paint_note(canvas, fit, palette)
    _paint_outside(canvas, scene, fit, palette, glyphs, outside, keys)
    return canvas.strips()


def _is_outside(placed: Placed) -> bool:
    """Whether a block has words that do not fit on it."""
    return placed.label is None and any(said(placed.block))


def _arrange(scene: Scene, width: int, height: int, glyphs: Glyphs) -> tuple[Frame, list[Placed]]:
    """Fit the scene, leaving room for the labels that do not fit on their paper."""
    fit = frame(scene, width, height)
    blocks = _place(scene, fit)
    outside = [placed for placed in blocks if _is_outside(placed)]
    if not outside:
        return fit, blocks
    widest = max(
        max(map(cell_len, _beside(placed, glyphs, scene.mirrored)), default=0) for placed in outside
    )
    need = widest + 3
    under = _last_row(fit, height) - _foot(fit)
    if width - fit.right >= need or under >= len(outside):
        return fit, blocks
    # Wide, low paper gives up a few rows' worth of columns; other paper a side.
    spare = min(need, width * 2 // 5)
    sideways = frame(scene, width, height, beside=spare)
    below = frame(scene, width, height, below=min(len(outside), height // 3))
    chosen = sideways if sideways.scale <= below.scale else below
    if width < 12 or height < 4:
        return fit, blocks
    return chosen, _place(scene, chosen)


def _place(scene: Scene, fit: Frame) -> list[Placed]:
    """Every block in its cells, the largest first, so that thin ones stay on top."""
    order = sorted(scene.blocks, key=lambda block: (block.apart, -float(block.w * block.h)))
    return [place(block, fit.rect(block)) for block in order]


def _foot(fit: Frame) -> int:
    """The first row under the picture and its captions."""
    return fit.paper.bottom if fit.footer is None else fit.footer + 1


def _last_row(fit: Frame, height: int) -> int:
    """The row after the last that labels may take."""
    return height if fit.note is None else fit.note


def _beside(placed: Placed, glyphs: Glyphs, mirrored: bool) -> list[str]:
    """A label as lines, for beside the picture."""
    block = placed.block
    top = f"{glyphs.arrows[seen(block.up, mirrored)]} top" if block.up else ""
    return [line for line in (*said(block), top) if line]


def _paint_outside(
    canvas: Canvas,
    scene: Scene,
    fit: Frame,
    palette: Palette,
    glyphs: Glyphs,
    outside: Sequence[Placed],
    keys: Mapping[int, str],
) -> None:
    """Labels that do not fit on their paper: beside the picture, or under it."""
    if not outside:
        return
    room = canvas.width - fit.right - 3
    last_row = _last_row(fit, canvas.height)
    texts = [_beside(placed, glyphs, scene.mirrored) for placed in outside]
    widest = max(max(map(cell_len, text), default=0) for text in texts)
    if room < min(widest, 8) or (room < widest and last_row - _foot(fit) >= len(outside)):
        _paint_under(canvas, fit, palette, glyphs, outside, keys, texts, last_row)
        return
    row = fit.paper.top
    floor = fit.paper.bottom if last_row > fit.paper.bottom else last_row
    if not keys:
        rect = outside[0].rect
        row = max(row, (rect.top + rect.bottom - 1 - len(texts[0])) // 2)
    for placed, text in zip(outside, texts, strict=True):
        key = keys.get(id(placed), glyphs.lead)
        names = wrap_words(said(placed.block)[0], room) or [text[0]]
        lines = [*names, *text[1:]] if said(placed.block)[0] else text
        short = len(outside) > 1 and sum(map(len, texts)) > floor - row
        if short:
            lines, names = [" ".join(text)], [""]
        for number, line in enumerate(lines):
            if row >= floor:
                return
            if number == 0:
                canvas.put(fit.right + 1, row, key, palette.name)
            style = palette.name if number < len(names) else palette.note
            canvas.put(fit.right + 3, row, _cut_short(line, room, glyphs), style)
            row += 1


def _paint_under(
    canvas: Canvas,
    fit: Frame,
    palette: Palette,
    glyphs: Glyphs,
    outside: Sequence[Placed],
    keys: Mapping[int, str],
    texts: Sequence[list[str]],
    last_row: int,
) -> None:
    """One row a label, each begun under its paper where it can be."""
    for row, (placed, text) in enumerate(zip(outside, texts, strict=True), _foot(fit)):
        if row >= last_row:
            return
        key = keys.get(id(placed), "")
        line = _cut_short(f"{key} {' '.join(text)}".strip(), canvas.width, glyphs)
        column = max(0, min(placed.rect.left, canvas.width - cell_len(line)))
        canvas.put(column, row, line, palette.name)


def _cut_short(text: str, width: int, glyphs: Glyphs) -> str:
    """Crop text, and show that it was."""
    if cell_len(text) <= width:
        return text
    return set_cell_size(text, max(0, width - 1)) + glyphs.more if width > 0 else ""


class Drawing(Lines):
    """A scene in one widget, painted once per change."""

    COMPONENT_CLASSES: ClassVar[set[str]] = {f"drawing--{name}" for name in _STYLED}
    DEFAULT_CSS = """
    Drawing {
        & .drawing--ruler { background: $panel; color: $foreground; }
        & .drawing--cut { color: $text-error; text-style: bold; }
        & .drawing--mark { background: $error; color: $text; text-style: bold; }
        & .drawing--held { background: $primary; color: $text; }
        & .drawing--stays { color: $text-primary; text-style: bold; }
        & .drawing--off { color: $text-error; text-style: bold; }
        & .drawing--name { color: $foreground; text-style: bold; }
        & .drawing--note { color: $text-muted; }
    }
    """

    def __init__(
        self,
        *,
        ascii: bool = False,
        name: str | None = None,
        id: str | None = None,
        classes: str | None = None,
    ) -> None:
        """Begin empty.

        Args:
            ascii: Draw with ASCII only.
            name: Of the widget.
            id: Of the widget.
            classes: Of the widget.
        """
        super().__init__(name=name, id=id, classes=classes)
        self._ascii = ascii
        self._scene: Scene | None = None
        self._palette: Palette | None = None

    def show(self, scene: Scene | None) -> None:
        """Show a scene, or nothing."""
        if scene != self._scene:
            self._scene = scene
            self.compose_lines()

    def set_ascii(self, ascii: bool) -> None:
        """Change between ASCII and line characters."""
        if ascii != self._ascii:
            self._ascii = ascii
            self.compose_lines()

    @property
    def palette(self) -> Palette:
        """The styles in use, resolved once per change of the styles."""
        if self._palette is None:
            style = self.get_component_rich_style
            resolved = {name: style(f"drawing--{name}") for name in _STYLED}
            self._palette = Palette(base=self.base, **resolved)
        return self._palette

    def styles_changed(self) -> bool:
        """Resolve the palette again."""
        before, self._palette = self._palette, None
        changed = super().styles_changed()
        return changed or before != self.palette

    def compose_lines(self) -> None:
        """Paint the scene for the room there is."""
        if self.is_attached:
            width, height = self.size
            self.set_lines(paint(self._scene, width, height, self.palette, self._ascii))
