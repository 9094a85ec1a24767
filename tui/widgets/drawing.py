"""The paper on the trimmer, painted to scale: what stays, where the cut runs, what comes off."""

from __future__ import annotations

from dataclasses import fields
from typing import ClassVar

from textual.strip import Strip

from model.scene import Scene
from tui.widgets.canvas import Canvas
from tui.widgets.labels import arrange
from tui.widgets.lines import Lines
from tui.widgets.paper import ASCII, FINE, paint_block, paint_words
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
    fit, blocks, outside = arrange(scene, width, height, glyphs)
    for placed in blocks:
        paint_block(canvas, placed, glyphs, scene.mirrored)
    paint_later(canvas, scene, fit, glyphs)
    for number, placed in enumerate(blocks):
        paint_words(canvas, placed, glyphs, scene.mirrored, outside.keys.get(number, ""))
    paint_fence(canvas, scene, fit, palette)
    if scene.ruler is not None and fit.header:
        paint_ruler(canvas, scene, fit, palette, scene.ruler, ascii)
    paint_cut(canvas, scene, fit, palette, glyphs, ascii)
    apart = [placed.rect for placed in blocks if placed.block.apart]
    off = (min(r.left for r in apart), max(r.right for r in apart)) if apart else None
    paint_captions(canvas, scene, fit, palette, off)
    paint_note(canvas, fit, palette)
    for label in outside.labels:
        style = palette.name if label.is_name else palette.note
        canvas.put(label.column, label.row, label.text, style)
    return canvas.strips()


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
