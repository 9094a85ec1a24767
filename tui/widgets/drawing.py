"""The paper on the trimmer, painted to scale: what stays, where the cut runs, what comes off."""

from __future__ import annotations

from dataclasses import fields
from typing import ClassVar

from rich.style import Style
from textual.geometry import Region
from textual.strip import Strip

from model.scene import Scene
from tui.widgets.canvas import Canvas
from tui.widgets.labels import arrange
from tui.widgets.panel import Maker, Panel
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
    margin: int = 0,
) -> list[Strip]:
    """Paint a scene as large as a region allows.

    Args:
        scene: The paper in hand; None leaves the region empty.
        width: Columns of the region.
        height: Rows of the region.
        palette: The styles of all that is not paper.
        ascii: Whether only ASCII may be used for what is not a name or a size.
        margin: Columns to leave free on either side of the region.

    Returns:
        ``height`` rows, each exactly ``width`` cells wide, and the margin.
    """
    canvas = Canvas(width, height, palette.base, scene is not None and scene.mirrored)
    if scene is None or width <= 0 or height <= 0:
        return canvas.strips(margin)
    glyphs = ASCII if ascii else FINE
    fit, blocks, outside = arrange(scene, width, height, glyphs)
    keys = [outside.keys.get(number, "") for number in range(len(blocks))]
    for placed, key in zip(blocks, keys, strict=True):
        paint_block(canvas, placed, glyphs, scene.mirrored, key)
    paint_later(canvas, scene, fit, glyphs)
    for placed, key in zip(blocks, keys, strict=True):
        paint_words(canvas, placed, glyphs, scene.mirrored, key)
    paint_fence(canvas, scene, fit, palette)
    if scene.ruler is not None and fit.header:
        paint_ruler(canvas, scene, fit, palette, scene.ruler, ascii)
    paint_cut(canvas, scene, fit, palette, glyphs, ascii)
    apart = [placed.rect for placed in blocks if placed.block.apart]
    off = (min(r.left for r in apart), max(r.right for r in apart)) if apart else None
    paint_captions(canvas, scene, fit, palette, off)
    paint_note(canvas, scene, fit, palette)
    for label in outside.labels:
        style = palette.name if label.is_name else palette.note
        canvas.put(label.column, label.row, label.text, style)
    return canvas.strips(margin)


class Drawing(Panel):
    """A scene, beneath rows of text where there are any, painted once per change.

    Both are one widget because they share its rows: where the text needs fewer the scene is
    larger, and no layout is worked out anew for it, which would take longer than all else.
    """

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
        margin: int = 0,
        name: str | None = None,
        id: str | None = None,
        classes: str | None = None,
    ) -> None:
        """Begin empty.

        Args:
            ascii: Draw with ASCII only.
            margin: Columns to leave free on either side of the scene.
            name: Of the widget.
            id: Of the widget.
            classes: Of the widget.
        """
        super().__init__(name=name, id=id, classes=classes)
        self._ascii = ascii
        self._margin = margin
        self._scene: Scene | None = None
        self._palette: Palette | None = None
        self._painted: list[Strip] = []
        self._painted_for: tuple[int, int] | None = None

    def draw(self, scene: Scene | None, above: Maker | None = None) -> None:
        """Show a scene, or nothing.

        Args:
            scene: The scene; it gets the rows that the text leaves.
            above: Makes the rows of text above it.
        """
        if scene is not self._scene and scene != self._scene:
            self._scene, self._painted_for = scene, None
            if above is None:
                self.compose_lines()
        if above is not None:
            self.show(above)

    def set_ascii(self, ascii: bool) -> None:
        """Change between ASCII and line characters."""
        if ascii != self._ascii:
            self._ascii, self._painted_for = ascii, None
            self.compose_lines()

    @property
    def picture(self) -> Region:
        """Where the scene is, within the widget."""
        width, height = self.size
        above = height - len(self._painted)
        return Region(self._margin, above, max(0, width - 2 * self._margin), len(self._painted))

    @property
    def palette(self) -> Palette:
        """The styles in use, resolved once per change of the styles."""
        if self._palette is None:
            style = self.get_component_rich_style
            resolved = {name: style(f"drawing--{name}") for name in _STYLED}
            if self.app.no_color:  # without its ground nothing would be seen of these
                for name in ("mark", "held"):
                    resolved[name] += Style(reverse=True)
            self._palette = Palette(base=self.base, **resolved)
        return self._palette

    def styles_changed(self) -> bool:
        """Resolve the palette again."""
        before, self._palette = self._palette, None
        self._painted_for = None
        changed = super().styles_changed()
        return changed or before != self.palette

    def compose_lines(self) -> None:
        """Make the rows, and paint the scene in the room that they leave."""
        width, height = self.size
        if self.is_attached and width and height:
            rows = self._make(width, height)[:height] if self._make is not None else ()
            strips = [self._strip(row, width) for row in rows]
            self.set_lines([*strips, *self._paint(width, height - len(rows))])

    def _paint(self, width: int, height: int) -> list[Strip]:
        """The scene; painted anew where something of it changed."""
        if self._painted_for != (width, height):
            self._painted_for = width, height
            inner = width - 2 * self._margin
            scene = self._scene if inner > 0 else None
            self._painted = paint(scene, inner, height, self.palette, self._ascii, self._margin)
        return self._painted
