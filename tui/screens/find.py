"""Find: what is this piece, and where does it go?"""

from __future__ import annotations

from collections.abc import Callable
from typing import ClassVar

from textual import on
from textual.app import ComposeResult
from textual.widgets import Input

from model.find import Finder
from model.found import Found
from model.looking import look_for
from model.session import Session
from tui import parts
from tui.commands import Command, bindings
from tui.screens.base import AppScreen
from tui.widgets.panel import Panel, Row, Tone, wrapped

COMMANDS = (
    Command("take", ("enter",), "take"),
    Command("up", ("up",), "move(-1)", False),
    Command("down", ("down",), "move(1)", False),
    Command("back", ("escape",), "back"),
    Command("help", ("f1",), "app.help"),
)


class Asked(Input):
    """What is asked; each letter is answered before it is painted, so that one frame has both.

    The message that a line was changed comes after its frame is begun: what it brings about is
    painted a frame later.
    """

    def __init__(self, answer: Callable[[str], None], hint: str) -> None:
        """Ask.

        Args:
            answer: Shows what is found for what stands in the line.
            hint: Stands in the line while it is empty.
        """
        self._answer: Callable[[str], None] | None = None
        super().__init__(id="asked", placeholder=hint)
        self._answer = answer

    def watch_value(self, value: str) -> None:
        """What stands in the line was changed."""
        if self._answer is not None and self.is_mounted:
            self._answer(value)


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
        self._said: list[tuple[str, str, str]] = []  # of each match what is told of it
        self._at = 0
        self._row_of: list[int] = []  # the match that stands in each row of the list, or -1

    def compose(self) -> ComposeResult:
        """What is asked, what is found, the keys."""
        yield Panel(id="title")
        yield Asked(self._show, self.words_of(self._session).find_hint())
        yield Panel(id="lines")
        yield Panel(id="keys")

    def on_mount(self) -> None:
        """Show that nothing is asked yet."""
        title = self._about or self.phrases.lists.find_title()
        ascii, commands = self.ascii, self.shown_footer()
        self.query_one("#title", Panel).show(lambda w, h: [[(f" {title}", "strong")]])
        self.query_one("#keys", Panel).show(lambda w, h: parts.footer(commands, ascii, w))
        self._show("")

    def _show(self, text: str) -> None:
        words, state = self.words_of(self._session), self._session.state
        found = look_for(self._finder, text, words, state)
        self._found = found
        self._said = [words.match(match, state) for match in found.matches]
        self._at = 0
        # The field itself says what can be typed while it is empty.
        told = "" if found.query.empty else words.found(found)
        self._list(told)

    def _list(self, told: str) -> None:
        self.query_one("#lines", Panel).show(lambda w, h: self._rows(told, w, h))

    def _rows(self, told: str, width: int, height: int) -> list[Row]:
        """How much was found, then each match; the one that is marked is in sight."""
        head: list[Row] = [
            [(" ", "plain"), *row] for row in wrapped([(told, "muted")], width - 2) if told
        ]
        blocks = [self._match(number, width - 4) for number in range(len(self._said))]
        first, room = 0, height - len(head)
        while sum(map(len, blocks[first : self._at + 1])) > room and first < self._at:
            first += 1
        self._row_of = [-1] * len(head)
        for number, block in enumerate(blocks[first:], first):
            head += block
            self._row_of += [number] * len(block)
        return head[:height]

    def _match(self, number: int, width: int) -> list[Row]:
        """A match: what it is and where it goes, then how it differs or where it is now."""
        name, goes, standing = self._said[number]
        exact = self._found is not None and self._found.exact
        chosen = number == self._at
        mark = (">" if self.ascii else "▸") if chosen else " "
        tone: Tone = "chosen" if chosen else "strong"
        edge: Tone = "strong" if chosen else "plain"
        goes_tone: Tone = "good" if exact else "muted"
        rows = wrapped([(name, tone), ("  ", "plain"), (goes, goes_tone)], width)
        said = wrapped([(standing, "muted")], width - 2)
        return [
            *([(f" {mark if n == 0 else ' '} ", edge), *row] for n, row in enumerate(rows)),
            *([("     ", "plain"), *row] for row in said),
        ]

    def action_move(self, by: int) -> None:
        """To another match."""
        if self._said:
            self._at = (self._at + by) % len(self._said)
            self.query_one("#lines", Panel).compose_lines()

    @on(Input.Submitted, "#asked")
    def action_take(self) -> None:
        """What is marked is in hand."""
        self._take(self._at)

    @on(Panel.RowClicked, "#lines")
    def _clicked(self, event: Panel.RowClicked) -> None:
        if event.row < len(self._row_of) and self._row_of[event.row] >= 0:
            self._take(self._row_of[event.row])

    def _take(self, number: int) -> None:
        if self._found is not None and number < len(self._found.matches):
            self.leave_with(self._found.matches[number].copy)

    def action_back(self) -> None:
        """Back, with nothing chosen."""
        self.leave()
