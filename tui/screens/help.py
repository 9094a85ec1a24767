"""Help that follows the screen it was called from."""

from __future__ import annotations

from collections.abc import Sequence
from typing import ClassVar

from tui.commands import Command, bindings
from tui.screens.listing import ListRow, ListScreen

COMMANDS = (Command("back", ("escape", "question_mark", "f1", "q"), "back", "back", "Back."),)
_PALETTE = Command("palette", ("ctrl+p",), "", "", "All commands by name.")


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
        self._commands = (*commands, _PALETTE)
        self._text = text

    def fill(self) -> None:
        """List the keys."""
        ascii = self.ascii
        rows: list[ListRow] = []
        if self._text:
            rows += [ListRow("t", [("", self._text)], 0), ListRow("", [("", "")])]
        keys = [command.all_keys(ascii) for command in self._commands]
        wide = max(map(len, keys)) + 2
        for command, said in zip(self._commands, keys, strict=True):
            key = ("$text-accent bold", f"{said:<{wide}}")
            rows.append(ListRow(f"c:{command.id}", [key, ("", command.help)], wide))
        self.show("Help", rows)

    def action_back(self) -> None:
        """Back."""
        self.leave()
