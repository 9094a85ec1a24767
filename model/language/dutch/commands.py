"""The names of commands, and what they do; what a screen is for; in Dutch."""

from __future__ import annotations

from collections.abc import Mapping

from model.language.dutch.commands_table import COMMANDS
from model.language.english import commands as english
from model.language.said import Said


class CommandPhrases(english.CommandPhrases):
    """Words of commands, in Dutch."""

    def command(self, id: str) -> Said:
        """What is said of a command; see the English one."""
        found = COMMANDS.get(id)
        if found is not None:
            return found
        from model.language.dutch import commands_lists

        return commands_lists.COMMANDS[id]

    def about(self, place: str, keys: Mapping[str, str]) -> str:
        """What a screen is for; see the English one."""
        from model.language.dutch import commands_lists

        return commands_lists.ABOUT.get(place, "").format_map(keys)
