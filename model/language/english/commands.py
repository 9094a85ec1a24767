"""The names of commands, and what they do; what a screen is for."""

from __future__ import annotations

from collections.abc import Mapping

from model.language.english.commands_table import COMMANDS
from model.language.said import Said


class CommandPhrases:
    """Words of commands."""

    def command(self, id: str) -> Said:
        """What is said of a command.

        Args:
            id: Its whole name, such as ``table.undo`` or ``everywhere.help``.
        """
        found = COMMANDS.get(id)
        if found is not None:
            return found
        from model.language.english import commands_lists

        return commands_lists.COMMANDS[id]

    def about(self, place: str, keys: Mapping[str, str]) -> str:
        """What a screen is for; empty where its commands say enough.

        Args:
            place: The screen.
            keys: The key of each of its commands, as people say it.
        """
        from model.language.english import commands_lists

        return commands_lists.ABOUT.get(place, "").format_map(keys)
