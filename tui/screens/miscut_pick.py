"""A list of cuts or of things of which one is meant; what is typed shortens it."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import ClassVar, NamedTuple

from textual import on
from textual.app import ComposeResult
from textual.widgets import Input

from model.rescue.choices import narrowed
from tui import parts
from tui.commands import Command, bindings
from tui.screens.base import AppScreen, Result
from tui.screens.find import Asked
from tui.widgets.panel import Panel, Row, Tone, wrapped

COMMANDS = (
    Command("take", ("enter",), "take"),
    Command("up", ("up",), "move(-1)", False),
    Command("down", ("down",), "move(1)", False),
    Command("back", ("escape",), "back"),
    Command("help", ("f1",), "app.help"),
)


class Pick(NamedTuple):
    """Something to choose.

    Attributes:
        id: What is given back.
        name: What it is called.
        about: What tells it apart: where it is, what came of it.
    """

    id: str
    name: str
    about: str


class PickScreen(AppScreen[Result]):
    """One of many; what is done with it is said by whoever asks."""

    BINDINGS = bindings("pick", COMMANDS)
    PLACE = "pick"
    COMMANDS_SHOWN: ClassVar[tuple[Command, ...]] = COMMANDS
    AUTO_FOCUS = "#asked"

    def __init__(
        self,
        title: str,
        picks: Sequence[Pick],
        hints: tuple[str, str],
        take: Callable[[PickScreen[Result], str], str],
    ) -> None:
        """Prepare.

        Args:
            title: What is asked.
            picks: What there is to choose from, the likeliest first.
            hints: What stands in the line while it is empty, and what is said when nothing fits.
            take: Is told which one was chosen; it leaves the screen, or says why not.
        """
        super().__init__()
        self._title = title
        self._picks = tuple(picks)
        self._hint, self._none = hints
        self._take = take
        self._fit = self._picks
        self._at = 0
        self._said = ""
        self._row_of: list[int] = []

    def compose(self) -> ComposeResult:
        """What is typed, what fits, the keys."""
        yield Panel(id="title")
        yield Asked(self._narrow, self._hint)
        yield Panel(id="lines")
        yield Panel(id="keys")

    def on_mount(self) -> None:
        """Show all of them."""
        ascii, commands = self.ascii, self.shown_footer()
        self.query_one("#title", Panel).show(lambda w, h: [[(f" {self._title}", "strong")]])
        self.query_one("#keys", Panel).show(lambda w, h: parts.footer(commands, ascii, w))
        self.query_one("#lines", Panel).show(self._rows)

    def _narrow(self, text: str) -> None:
        self._fit = tuple(Pick(*row) for row in narrowed(self._picks, text))
        self._at, self._said = 0, ""
        self.query_one("#lines", Panel).show(self._rows)

    def _rows(self, width: int, height: int) -> list[Row]:
        """What fits; the one that is marked is in sight. Above it what was wrong with it."""
        said = self._said if self._fit else self._none
        tone: Tone = "warn" if self._fit else "muted"
        head: list[Row] = [[(" ", "plain"), *row] for row in _lines(said, tone, width - 2)]
        blocks = [self._block(number, width - 4) for number in range(len(self._fit))]
        first, room = 0, height - len(head)
        while sum(map(len, blocks[first : self._at + 1])) > room and first < self._at:
            first += 1
        self._row_of = [-1] * len(head)
        for number, block in enumerate(blocks[first:], first):
            head += block
            self._row_of += [number] * len(block)
        return head[:height]

    def _block(self, number: int, width: int) -> list[Row]:
        pick, chosen = self._fit[number], number == self._at
        mark = (">" if self.ascii else "▸") if chosen else " "
        tone: Tone = "chosen" if chosen else "strong"
        edge: Tone = "strong" if chosen else "plain"
        rows = wrapped([(pick.name, tone), ("  ", "plain"), (pick.about, "muted")], width)
        return [[(f" {mark if n == 0 else ' '} ", edge), *row] for n, row in enumerate(rows)]

    def action_move(self, by: int) -> None:
        """To another one."""
        if self._fit:
            self._at, self._said = (self._at + by) % len(self._fit), ""
            self.query_one("#lines", Panel).show(self._rows)

    @on(Input.Submitted, "#asked")
    def action_take(self) -> None:
        """What is marked is meant."""
        if self._fit:
            self._said = self._take(self, self._fit[self._at].id)
            self.query_one("#lines", Panel).show(self._rows)

    @on(Panel.RowClicked, "#lines")
    def _clicked(self, event: Panel.RowClicked) -> None:
        if event.row < len(self._row_of) and self._row_of[event.row] >= 0:
            self._at = self._row_of[event.row]
            self.action_take()

    def action_back(self) -> None:
        """Back, with nothing chosen."""
        self.leave()


def _lines(said: str, tone: Tone, width: int) -> list[Row]:
    return wrapped([(said, tone)], width) if said else []
