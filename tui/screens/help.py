"""Help that follows the screen it was called from."""

from __future__ import annotations

from collections.abc import Sequence
from typing import ClassVar

from tui.commands import Command, bindings
from tui.screens.listing import Line, ListScreen

COMMANDS = (Command("back", ("escape", "question_mark", "f1", "q"), "back", "back", "Back."),)


class HelpScreen(ListScreen[None]):
    """The keys of one screen, with what they do."""

    BINDINGS = bindings(COMMANDS)
    COMMANDS_SHOWN: ClassVar[tuple[Command, ...]] = COMMANDS

    def __init__(self, commands: Sequence[Command], text: str = "") -> None:
        """Help on some commands.

        Args:
            commands: The commands of the screen that was shown.
            text: What that screen is for.
        """
        super().__init__()
        self._commands = tuple(commands)
        self._text = text

    def fill(self) -> None:
        """List the keys."""
        ascii = self.ascii
        rows: list[tuple[str, list[Line]]] = []
        if self._text:
            rows += [("t", [("", self._text)]), ("", [("", "")])]
        for command in self._commands:
            keys = command.all_keys(ascii)
            rows.append(
                (f"c:{command.id}", [("$text-accent bold", f"{keys:<17}"), ("", command.help)])
            )
        rows.append(
            ("palette", [("$text-accent bold", f"{'Ctrl+P':<17}"), ("", "All commands by name.")])
        )
        self.show("Help", rows)

    def action_back(self) -> None:
        """Back."""
        self.leave()
