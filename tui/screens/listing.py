"""A screen of one list: a title, rows to walk through, a hint, and the keys."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from textual import events
from textual.app import ComposeResult
from textual.content import Content
from textual.widgets import OptionList, Static
from textual.widgets.option_list import Option

from tui import parts
from tui.screens.base import AppScreen, Result
from tui.widgets.hanging import Hanging
from tui.widgets.panel import Panel

Line = tuple[str, str]
"""A style of the theme, such as ``$text-success`` or ``bold``, and a text."""


class ListRow(NamedTuple):
    """A row of a list.

    Attributes:
        id: Its id; empty for a row that can't be chosen.
        words: What stands in it.
        hang: How many cells stand before its words: where it takes several lines, those
            after the first begin beneath the words.
    """

    id: str
    words: Sequence[Line]
    hang: int = 4


def head_row(text: str) -> ListRow:
    """A heading among the rows."""
    return ListRow("", [("bold", text)], 0)


class Lines(OptionList):
    """The rows; whether one was chosen with a key or by touching it is known.

    Attributes:
        touched: The row was touched.
    """

    touched = False

    async def _on_click(self, event: events.Click) -> None:
        """A row that is touched is marked, and taken."""
        self.touched = True
        await super()._on_click(event)
        event.prevent_default()  # or it would be handled a second time

    def action_select(self) -> None:
        """The row that is marked is taken."""
        touched, self.touched = self.touched, False
        option = self.highlighted_option
        if touched and option is not None and option.id is not None:
            screen = self.screen
            if isinstance(screen, ListScreen) and screen.row_touched():
                return
        super().action_select()


class ListScreen(AppScreen[Result]):
    """Base of the screens of one list."""

    AUTO_FOCUS = "#lines"

    def compose(self) -> ComposeResult:
        """Title, rows, hint, keys."""
        yield Panel(id="title")
        yield Lines(id="lines", markup=False)
        yield Static(id="hint", markup=False)
        yield Panel(id="keys")

    def on_mount(self) -> None:
        """Fill it, unless the program ends before it is shown."""
        if self.query("#lines"):
            self.fill()

    def fill(self) -> None:
        """Put in title, rows and hint; subclasses call `show`."""
        raise NotImplementedError

    def show(
        self,
        title: str,
        rows: Sequence[ListRow],
        hint: str = "",
        keep: bool = True,
    ) -> None:
        """Show rows.

        Args:
            title: The top line.
            rows: The rows.
            hint: A line or two beneath the list.
            keep: Whether the row that was highlighted stays so.
        """
        listing = self.query_one("#lines", OptionList)
        before = listing.highlighted
        options = [
            Option(
                Hanging(Content.assemble(*((text, style) for style, text in row.words)), row.hang),
                id=row.id or None,
                disabled=not row.id,
            )
            for row in rows
        ]
        listing.clear_options()
        listing.add_options(options)
        first = next((n for n, row in enumerate(rows) if row.id), None)
        wanted = before if keep and before is not None and before < len(rows) else first
        if wanted is not None and rows[wanted].id:
            listing.highlighted = wanted
        elif first is not None:
            listing.highlighted = first
        self.query_one("#hint", Static).update(hint)
        ascii, commands = self.ascii, self.shown_footer()
        self.query_one("#title", Panel).show(lambda w, h: [[(f" {title}", "strong")]])
        self.query_one("#keys", Panel).show(lambda w, h: parts.footer(commands, ascii, w))

    @property
    def chosen(self) -> str:
        """The id of the row that is highlighted; empty for none."""
        listing = self.query_one("#lines", OptionList)
        if listing.highlighted is None:
            return ""
        return listing.get_option_at_index(listing.highlighted).id or ""

    def row_touched(self) -> bool:
        """A row was touched; True when that is not the same here as Enter upon it."""
        return False

    def hint(self, text: str) -> None:
        """Say something beneath the list."""
        self.query_one("#hint", Static).update(text)
