"""A region of styled rows that are made anew for its size: the texts of all screens."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import lru_cache
from typing import Literal, TypeAlias

from rich.style import Style
from textual import events
from textual.geometry import Size
from textual.message import Message
from textual.strip import Strip

from tui.widgets.lines import Lines, strip_of, wrap

Tone: TypeAlias = Literal[
    "plain",
    "strong",
    "muted",
    "good",
    "warn",
    "error",
    "key",
    "target",
    "chosen",
    "edge",
    "ink",
    "ink-good",
    "ink-warn",
    "ink-unit",
]
"""What a run of text is; the styles say how it looks."""
Row: TypeAlias = list[tuple[str, Tone]]
Maker: TypeAlias = Callable[[int, int], Sequence[Row]]
"""Makes the rows for a width and a height in cells."""

_LOOKS: dict[Tone, tuple[str, str]] = {
    "plain": ("foreground", ""),
    "strong": ("foreground", "bold"),
    "muted": ("text-muted", ""),
    "good": ("text-success", ""),
    "warn": ("text-warning", "bold"),
    "error": ("text-error", "bold"),
    "key": ("text-accent", "bold"),
    "target": ("text-primary", "bold reverse"),
    "chosen": ("", "bold reverse"),
    "edge": ("panel-lighten-2", ""),
    "ink": ("foreground", "bold reverse"),
    "ink-good": ("text-success", "bold reverse"),
    "ink-warn": ("text-warning", "bold reverse"),
    "ink-unit": ("text-muted", "bold reverse"),
}
"""Of each tone the theme's variable for its colour, and its manner. Not component classes: each
panel would have ten styles resolved at each change of the styles, which took longer than all else.
"""
_KEPT = 200
"""Rows that are kept once made."""
_MOST = 100
"""Rows that a panel may ask for."""


class Panel(Lines):
    """Rows made by a function of the size; see `show`."""

    class RowClicked(Message):
        """A row was clicked or touched.

        Attributes:
            panel: The panel.
            row: Which row, from 0.
            column: Which column, from 0.
        """

        def __init__(self, panel: Panel, row: int, column: int) -> None:
            """Say where."""
            super().__init__()
            self.panel = panel
            self.row = row
            self.column = column

        @property
        def control(self) -> Panel:
            """The panel, for ``@on`` selectors."""
            return self.panel

    def __init__(
        self, *, name: str | None = None, id: str | None = None, classes: str | None = None
    ) -> None:
        """Begin empty."""
        super().__init__(name=name, id=id, classes=classes)
        self._make: Maker | None = None
        self._rows: Sequence[Row] = ()
        self._made_width = -1
        self._styles_of: dict[str, Style] = {}
        self._strips: dict[tuple[int, tuple[tuple[str, Tone], ...]], Strip] = {}

    def show(self, make: Maker) -> None:
        """Show what a function makes, now and whenever the size or the styles change.

        Where the styles say ``height: auto`` it gets as many rows as it needs, between the
        ``min-height`` and the ``max-height`` of the styles.
        """
        self._make = make
        self.compose_lines()

    def _clamped(self, rows: int) -> int:
        """As many rows as the styles allow."""
        least, most = self.styles.min_height, self.styles.max_height
        rows = rows if most is None else min(rows, int(most.value))
        return rows if least is None else max(rows, int(least.value))

    def get_content_height(self, container: Size, viewport: Size, width: int) -> int:
        """The rows it needs, for ``height: auto``."""
        return len(self._make(width, _MOST)) if self._make is not None else 0

    def style_of(self, tone: Tone) -> Style:
        """The style of a tone, looked up once per change of the styles."""
        if tone not in self._styles_of:
            variable, manner = _LOOKS[tone]
            self._styles_of[tone] = self.themed(variable, manner)
        return self._styles_of[tone]

    def styles_changed(self) -> bool:
        """Look the tones up again."""
        before, self._styles_of = self._styles_of, {}
        self._made_width = -1
        self._strips.clear()
        changed = super().styles_changed()
        return changed or any(self.style_of(tone) != old for tone, old in before.items())  # type: ignore[arg-type]

    def compose_lines(self) -> None:
        """Make the rows for the room there is."""
        width, height = self.size
        if self._make is None or not (width and height and self.is_attached):
            return
        auto = self.styles.is_auto_height
        before, after = self._rows, self._make(width, _MOST if auto else height)
        if auto and self._clamped(len(after)) != height:
            self.refresh(layout=True)
        if len(after) > height:
            after = self._make(width, height)  # which says that there is more
        kept = len(before) if self._made_width == width else 0
        if kept and before == after:
            return
        old = self.lines
        self._rows, self._made_width = after, width
        self.set_lines(
            old[y] if y < kept and before[y] == row else self._strip(row, width)
            for y, row in enumerate(after)
        )

    def _strip(self, row: Row, width: int) -> Strip:
        """A row; those of a kit come up again and again."""
        key = (width, tuple(row))
        if key not in self._strips:
            if len(self._strips) >= _KEPT:
                self._strips.clear()
            spans = [(text, self.style_of(tone)) for text, tone in row]
            self._strips[key] = strip_of(spans, width, self.base)
        return self._strips[key]

    def on_click(self, event: events.Click) -> None:
        """Say which row was clicked."""
        self.post_message(self.RowClicked(self, event.y, event.x))


def wrapped(spans: Row, width: int) -> list[Row]:
    """Styled text as rows of whole words."""
    return list(_wrapped(tuple(spans), width))


@lru_cache(maxsize=256)
def _wrapped(spans: tuple[tuple[str, Tone], ...], width: int) -> tuple[Row, ...]:
    """Kept, because texts are wrapped to see how many rows they need, and again to show them."""
    null = Style.null()
    tones: dict[Style, Tone] = {}
    coded = []
    for number, (text, tone) in enumerate(spans):
        style = Style(meta={"n": number}) if number else null
        tones[style] = tone
        coded.append((text, style))
    return tuple([(text, tones[style]) for text, style in line] for line in wrap(coded, width))


def fit(text: str, width: int) -> str:
    """Text cut to a width, with dots where something is left out."""
    from rich.cells import cell_len, set_cell_size

    if cell_len(text) <= width:
        return text
    if width <= 1:
        return set_cell_size(text, max(0, width))
    return set_cell_size(text, width - 2).rstrip() + ".."


def fit_middle(text: str, width: int) -> str:
    """Text cut to a width in its middle: a path is known by its beginning and its end."""
    from rich.cells import cell_len, set_cell_size

    if cell_len(text) <= width or width < 8:
        return fit(text, width)
    end = (width - 2) * 2 // 3
    kept = text
    while cell_len(kept) > end:
        kept = kept[1:]
    return f"{set_cell_size(text, width - 2 - cell_len(kept))}..{kept}"
