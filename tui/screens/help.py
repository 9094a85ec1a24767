"""Help that follows the screen it was called from."""

from __future__ import annotations

from collections.abc import Sequence
from typing import ClassVar

from textual import on
from textual.widgets import OptionList

from tui.commands import Command, bindings
from tui.screens.listing import ListRow, ListScreen

COMMANDS = (Command("back", ("escape", "question_mark", "f1", "q"), "back"),)


class HelpScreen(ListScreen[str]):
    """The keys of one screen, with what they do; gives back the action that was chosen."""

    BINDINGS = bindings("help", COMMANDS)
    PLACE = "help"
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
        rows: list[ListRow] = []
        if self._text:
            rows += [ListRow("t", [("", self._text)], 0), ListRow("", [("", "")])]
        words = self.phrases
        keys = [words.keys.alternatives(each.all_keys(ascii)) for each in self._commands]
        wide = max(map(len, keys)) + 2
        for command, said in zip(self._commands, keys, strict=True):
            key = ("$text-accent bold", f"{said:<{wide}}")
            rows.append(ListRow(f"c:{command.id}", [key, ("", command.help)], wide))
        self.show(words.lists.help_title(), rows)

    @on(OptionList.OptionSelected)
    def _selected(self) -> None:
        """A row was chosen: what it tells of is done, so that a finger reaches all of it."""
        for command in self._commands:
            if self.chosen == f"c:{command.id}" and command.action:
                self.leave_with(command.action)
                return

    def action_back(self) -> None:
        """Back."""
        self.leave()
