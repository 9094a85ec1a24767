"""A widget that shows rows made elsewhere, and the small tools that make such rows.

One ``render_line`` widget that refreshes only the rows that changed costs about a
hundredth of a widget per row, in time and in bytes sent to the terminal.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from functools import lru_cache
from typing import TypeAlias
from unicodedata import normalize

from rich.cells import cell_len, chop_cells, get_character_cell_size
from rich.segment import Segment
from rich.style import Style
from textual import events
from textual.color import Color
from textual.geometry import Region, Size
from textual.strip import Strip
from textual.widget import Widget

Span: TypeAlias = tuple[str, Style]
"""A run of text in one style."""


@lru_cache(maxsize=4096)
def clean(text: str) -> str:
    """Text that takes exactly one or two cells a character, on every terminal.

    Names come from files that anybody wrote: control characters would move the cursor,
    and characters of no width (joiners, selectors, lone accents) are drawn differently
    from one terminal to the next.

    Args:
        text: Any text.

    Returns:
        The text composed, with breaks and tabs as single spaces, and without the
        characters that have no width of their own. ``cell_len`` of it is the sum of the
        ``cell_len`` of its characters.
    """
    if text.isascii() and text.isprintable():
        return text
    kept: list[str] = []
    for char in normalize("NFC", text):
        if char.isspace():
            kept.append(" ")
        elif char.isprintable() and get_character_cell_size(char):
            kept.append(char)
    return "".join(kept)


def wrap(spans: Iterable[Span], width: int) -> list[list[Span]]:
    """Break styled text into lines of whole words.

    Args:
        spans: Runs of text; a newline in a run begins a new line.
        width: Cells a line may take. A word that is wider than this alone is broken.

    Returns:
        The lines, none of them wider than ``width`` cells; none at all when there is no
        width. Spaces at the ends of a line are dropped.
    """
    if width <= 0:
        return []
    lines: list[list[Span]] = [[]]
    used = 0
    pending: list[Span] = []  # the spaces before the next word
    word: list[Span] = []

    def end_word() -> None:
        nonlocal used, pending, word
        if not word:
            return
        size = sum(cell_len(text) for text, _ in word)
        space = sum(cell_len(text) for text, _ in pending)
        if lines[-1] and used + space + size > width:
            lines.append([])
            used = 0
        elif lines[-1]:
            lines[-1].extend(pending)
            used += space
        for text, style in word:
            for part in _chop(text, width):
                if used and used + cell_len(part) > width:
                    lines.append([])
                    used = 0
                lines[-1].append((part, style))
                used += cell_len(part)
        pending, word = [], []

    for text, style in spans:
        for number, row in enumerate(text.split("\n")):
            if number:
                end_word()
                lines.append([])
                used, pending = 0, []
            start = 0
            row = clean(row)
            for at, char in enumerate(row):
                if char == " ":
                    if at > start:
                        word.append((row[start:at], style))
                    end_word()
                    pending.append((" ", style))
                    start = at + 1
            if row[start:]:
                word.append((row[start:], style))
    end_word()
    return [_joined(line) for line in lines]


def _chop(text: str, width: int) -> list[str]:
    """Break a word that does not fit into parts that do; others are left whole."""
    if cell_len(text) <= width:
        return [text]
    return [part for part in chop_cells(text, width) if 0 < cell_len(part) <= width]


def _joined(line: list[Span]) -> list[Span]:
    """Neighbouring runs of one style made one."""
    joined: list[Span] = []
    for text, style in line:
        if joined and joined[-1][1] == style:
            joined[-1] = (joined[-1][0] + text, style)
        else:
            joined.append((text, style))
    return joined


def wrap_words(text: str, width: int) -> list[str] | None:
    """Break plain text into lines of whole words.

    Args:
        text: One paragraph, already clean.
        width: Cells a line may take.

    Returns:
        The lines; none for no words; None when a word is wider than ``width``.
    """
    lines: list[str] = []
    used = 0
    for word in text.split():
        size = cell_len(word)
        if size > width:
            return None
        if lines and used + 1 + size <= width:
            lines[-1] += f" {word}"
            used += 1 + size
        else:
            lines.append(word)
            used = size
    return lines


def strip_of(spans: Iterable[Span], width: int | None = None, fill: Style | None = None) -> Strip:
    """One row.

    Args:
        spans: Runs of text, laid one after the other.
        width: Cells that the row is padded or cropped to; None leaves it as it is.
        fill: The style of the padding.
    """
    segments: list[Segment] = []
    used = 0
    for text, style in spans:
        kept = clean(text)
        if not kept:
            continue
        if segments and segments[-1].style == style:
            segments[-1] = Segment(segments[-1].text + kept, style)
        else:
            segments.append(Segment(kept, style))
        used += cell_len(kept)
    if width is not None and used > max(0, width):
        return Strip(segments, used).crop(0, max(0, width))
    if width is not None and used < width:
        segments.append(Segment(" " * (width - used), fill))
        used = width
    # Making a strip is what costs most here, so it is made once and not adjusted after.
    return Strip(segments, used)


def _spaces_after(text: str) -> int:
    return len(text) - len(text.rstrip(" "))


def _changed_until(old: Strip | None, new: Strip | None, width: int) -> int:
    """The column from which on two rows are the same.

    What begins a row is always sent to the terminal; what ends it need not be, and rows often
    end in the same padding, or the same paper.

    Args:
        old: The row that is shown, or None.
        new: The row to come, or None.
        width: Of the widget, in cells.
    """
    if old is None or new is None or not old.cell_length == new.cell_length == width:
        return width
    end = width
    for one, other in zip(reversed(old), reversed(new), strict=False):
        if one == other:
            end -= one.cell_length
            continue
        if one.style == other.style:
            end -= min(_spaces_after(one.text), _spaces_after(other.text))
        break
    return end


class Lines(Widget):
    """Rows of text. What it shows is set from outside; its size comes from the styles.

    Subclasses that make their own rows override ``compose_lines``, which is called when
    the size or the styles change.
    """

    DEFAULT_CSS = """
    Lines { width: 1fr; height: 1fr; }
    """

    def __init__(
        self,
        lines: Iterable[Strip] = (),
        *,
        name: str | None = None,
        id: str | None = None,
        classes: str | None = None,
    ) -> None:
        """Begin with some rows, or none."""
        super().__init__(name=name, id=id, classes=classes)
        self._lines: list[Strip] = [line.simplify() for line in lines]
        self._base: Style | None = None
        self._bare: bool | None = None
        self._finished: dict[int, Strip] = {}
        self._made_for = Size(-1, -1)
        self._laying_out = False

    @property
    def lines(self) -> Sequence[Strip]:
        """The rows that are shown, before they are padded or cropped to the width."""
        return self._lines

    @property
    def base(self) -> Style:
        """The widget's own colours, resolved once per change of the styles."""
        if self._base is None:
            self._base = self.rich_style
        return self._base

    def themed(self, variable: str, manner: str = "") -> Style:
        """A style on the widget's own ground.

        Args:
            variable: The theme's variable for the colour, without ``$``; empty for the
                widget's own colour.
            manner: Such as ``bold``; may be empty.
        """
        style = self.base + Style.parse(manner)
        value = self.app.theme_variables[variable] if variable else ""
        if not value:
            return style
        ground = self.background_colors[1]
        kind, _, part = value.partition(" ")
        share = float(part.rstrip("%") or 100) / 100
        if kind == "auto":  # black or white, whichever is seen better
            colour = ground.get_contrast_text(share)
        else:
            colour = Color.parse(kind).multiply_alpha(share)
        return style + Style(color=(ground + colour).rich_color)

    def set_lines(self, lines: Iterable[Strip]) -> None:
        """Show these rows; what differs from what is shown is painted again."""
        before, after = self._lines, list(lines)
        self._lines = after
        width, height = self.size
        regions: list[Region] = []
        for y in range(max(len(before), len(after))):
            old = before[y] if y < len(before) else None
            new = after[y] if y < len(after) else None
            if old is new or old == new:
                continue
            self._finished.pop(y, None)
            end = _changed_until(old, new, width)
            if y >= height or not end:
                continue
            last = regions[-1] if regions else None
            if last is not None and last.bottom == y and last.width == end:
                regions[-1] = Region(0, last.y, end, last.height + 1)
            else:
                regions.append(Region(0, y, end, 1))
        # While it is laid out all of it is painted anyway; without a region refresh() would too.
        if regions and not self._laying_out:
            self.refresh(*regions)

    def compose_lines(self) -> None:
        """Make the rows again; for subclasses that paint their own."""

    def styles_changed(self) -> bool:
        """Forget resolved styles. Returns whether rows that hold them must be made again."""
        before, self._base = self._base, None
        self._finished.clear()
        return before != self.base

    def render_lines(self, crop: Region) -> list[Strip]:
        """The rows of a region as they are shown.

        Textual would dress every changed row again and filter all rows of each widget near a
        change, which took a third of a key's time. Rows here bring their colours, so that is
        done once a row; only where the styles put something around them is it left to Textual.
        """
        if self._bare is None:
            styles = self.styles
            self._bare = (
                not styles.gutter
                and styles.text_opacity == self.opacity == 1.0
                and not (styles.has_rule("outline_top") or styles.has_rule("tint"))
            )
        if not self._bare or crop.width != self.size.width:
            return super().render_lines(crop)
        finished = self._finished
        missing = [y for y in crop.line_range if y not in finished]
        if missing:
            width, filters = self.size.width, self.get_line_filters()
            ground = self.background_colors[1]
            for y in missing:
                line = self._dressed(y, width)
                for each in filters:
                    line = line.apply_filter(each, ground)
                finished[y] = line
        return [finished[y] for y in crop.line_range]

    def render_line(self, y: int) -> Strip:
        """One row, as wide as the widget and on its background."""
        return self._dressed(y, self.size.width)

    def _dressed(self, y: int, width: int) -> Strip:
        base = self.base
        if not 0 <= y < len(self._lines):
            return Strip.blank(width, base)
        line = self._lines[y]
        if line.cell_length != width:
            line = line.adjust_cell_length(width)
        # Rows whose runs all have a ground of their own need no other beneath them.
        if all(s.style is not None and s.style.bgcolor is not None for s in line):
            return line
        return line.apply_style(base)

    def get_content_width(self, container: Size, viewport: Size) -> int:
        """The widest row, should the styles say ``width: auto``."""
        return max((line.cell_length for line in self._lines), default=0)

    def get_content_height(self, container: Size, viewport: Size, width: int) -> int:
        """The number of rows, should the styles say ``height: auto``."""
        return len(self._lines)

    def notify_style_update(self) -> None:
        """Look at the styles again once they have settled."""
        super().notify_style_update()
        self._bare = None
        self._finished.clear()
        if self.is_attached:
            self.call_later(self._restyle)

    def _restyle(self) -> None:
        if self.is_attached and self.styles_changed():
            self.compose_lines()
            self.refresh()

    def _size_updated(
        self, size: Size, virtual_size: Size, container_size: Size, layout: bool = True
    ) -> bool:
        """Make the rows for a new size at once, before the layout is painted.

        Textual tells a widget of its size only after it was painted in it, so that each change
        of the layout would be sent twice: with the rows of the old size, then with the new.
        """
        # Nor is anything laid out again because of it: nothing in here is scrolled.
        changed = super()._size_updated(size, virtual_size, container_size, False)
        if self.size != self._made_for:
            self._laying_out = True
            self._make_for_size()
            self._laying_out = False
        return changed

    def _make_for_size(self) -> None:
        self._made_for = self.size
        self._finished.clear()
        self.compose_lines()

    def on_resize(self, event: events.Resize) -> None:
        """Make the rows again for the new size, unless that is done."""
        if self.size != self._made_for:
            self._make_for_size()
