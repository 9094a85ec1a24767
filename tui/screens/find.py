"""Find: what is this piece, and where does it go?"""

from __future__ import annotations

from typing import ClassVar

from textual import on
from textual.app import ComposeResult
from textual.content import Content
from textual.widgets import Input, OptionList, Static
from textual.widgets.option_list import Option

from model.find import Finder, Found
from model.session import Session
from tui import parts
from tui.commands import Command, bindings
from tui.screens.base import AppScreen
from tui.widgets.panel import Panel

COMMANDS = (
    Command("take", ("enter",), "take"),
    Command("up", ("up",), "move(-1)", False),
    Command("down", ("down",), "move(1)", False),
    Command("back", ("escape",), "back"),
)


class FindScreen(AppScreen[str | None]):
    """Finds a loose piece by what is typed; gives back the copy that was chosen."""

    BINDINGS = bindings("find", COMMANDS)
    PLACE = "find"
    COMMANDS_SHOWN: ClassVar[tuple[Command, ...]] = COMMANDS
    AUTO_FOCUS = "#asked"

    def __init__(self, session: Session, finder: Finder, about: str = "") -> None:
        """Look for something.

        Args:
            session: The session.
            finder: Finds things of its plan.
            about: What stands above, when it is not a loose piece in general.
        """
        super().__init__()
        self._session = session
        self._finder = finder
        self._about = about
        self._found: Found | None = None

    def compose(self) -> ComposeResult:
        """What is asked, what is found, the keys."""
        yield Panel(id="title")
        yield Input(id="asked", placeholder=self.words_of(self._session).find_hint())
        yield Static(id="told", markup=False)
        yield OptionList(id="lines", markup=False)
        yield Panel(id="keys")

    def on_mount(self) -> None:
        """Show that nothing is asked yet."""
        title = self._about or self.phrases.lists.find_title()
        ascii, commands = self.ascii, self.shown_footer()
        self.query_one("#title", Panel).show(lambda w, h: [[(f" {title}", "strong")]])
        self.query_one("#keys", Panel).show(lambda w, h: parts.footer(commands, ascii, w))
        self.query_one("#lines", OptionList).can_focus = False
        self._show("")

    @on(Input.Changed, "#asked")
    def _changed(self, event: Input.Changed) -> None:
        self._show(event.value)

    def _show(self, text: str) -> None:
        words, state = self.words_of(self._session), self._session.state
        found = self._finder.find(text, words.manner.style.unit, state)
        self._found = found
        self.query_one("#told", Static).update(words.found(found))
        options: list[Option] = []
        for match in found.matches:
            name, goes, standing = words.match(match, state)
            tone = "$text-primary bold" if found.exact else "$text-muted"
            content = Content.assemble((name, "bold"), "  ", (goes, tone), f"\n    {standing}")
            options.append(Option(content))
        listing = self.query_one("#lines", OptionList)
        listing.clear_options()
        listing.add_options(options)
        listing.highlighted = 0 if options else None

    @property
    def _chosen(self) -> str | None:
        at = self.query_one("#lines", OptionList).highlighted
        if at is None or self._found is None or at >= len(self._found.matches):
            return None
        return self._found.matches[at].copy

    def action_move(self, by: int) -> None:
        """To another match."""
        listing = self.query_one("#lines", OptionList)
        if listing.option_count:
            listing.highlighted = ((listing.highlighted or 0) + by) % listing.option_count

    @on(Input.Submitted, "#asked")
    def action_take(self) -> None:
        """What is highlighted is in hand."""
        chosen = self._chosen
        if chosen is not None:
            self.leave_with(chosen)

    @on(OptionList.OptionSelected, "#lines")
    def _clicked(self, event: OptionList.OptionSelected) -> None:
        if self._found is not None:
            self.leave_with(self._found.matches[event.option_index].copy)

    def action_back(self) -> None:
        """Back, with nothing chosen."""
        self.leave()
