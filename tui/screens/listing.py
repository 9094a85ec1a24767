"""A screen of one list: a title, rows to walk through, a hint, and the keys."""

from __future__ import annotations

from collections.abc import Sequence

from textual.app import ComposeResult
from textual.content import Content
from textual.widgets import OptionList, Static
from textual.widgets.option_list import Option

from tui import parts
from tui.screens.base import AppScreen, Result
from tui.widgets.panel import Panel

Line = tuple[str, str]
"""A style of the theme, such as ``$text-success`` or ``bold``, and a text."""


class ListScreen(AppScreen[Result]):
    """Base of the screens of one list."""

    AUTO_FOCUS = "#lines"

    def compose(self) -> ComposeResult:
        """Title, rows, hint, keys."""
        yield Panel(id="title")
        yield OptionList(id="lines", markup=False)
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
        rows: Sequence[tuple[str, Sequence[Line]]],
        hint: str = "",
        keep: bool = True,
    ) -> None:
        """Show rows.

        Args:
            title: The top line.
            rows: An id for each row, empty for rows that can't be chosen, and its parts.
            hint: A line or two beneath the list.
            keep: Whether the row that was highlighted stays so.
        """
        listing = self.query_one("#lines", OptionList)
        before = listing.highlighted
        options = [
            Option(
                Content.assemble(*((text, style) for style, text in parts_of)),
                id=id or None,
                disabled=not id,
            )
            for id, parts_of in rows
        ]
        listing.clear_options()
        listing.add_options(options)
        first = next((n for n, (id, _) in enumerate(rows) if id), None)
        wanted = before if keep and before is not None and before < len(rows) else first
        if wanted is not None and rows[wanted][0]:
            listing.highlighted = wanted
        elif first is not None:
            listing.highlighted = first
        self.query_one("#hint", Static).update(hint)
        ascii, commands = self.ascii, self.footer()
        self.query_one("#title", Panel).show(lambda w, h: [[(f" {title}", "strong")]])
        self.query_one("#keys", Panel).show(lambda w, h: parts.footer(commands, ascii, w))

    @property
    def chosen(self) -> str:
        """The id of the row that is highlighted; empty for none."""
        listing = self.query_one("#lines", OptionList)
        if listing.highlighted is None:
            return ""
        return listing.get_option_at_index(listing.highlighted).id or ""

    def hint(self, text: str) -> None:
        """Say something beneath the list."""
        self.query_one("#hint", Static).update(text)
