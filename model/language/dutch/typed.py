"""What is typed in plain lines, and how they sound, in Dutch."""

from __future__ import annotations

from model.language.dutch.asking import COMMANDS
from model.language.dutch.ear import spoken, written
from model.language.english import typed as english

WITH_WORDS = frozenset(
    {"take up", "put off", "later", "take", "pocket", "find", "count", "right", "leave", "page",
     "not it", "set", "miscut"}
)  # fmt: skip
"""The commands after which more is typed (`tui.lines_desk`); what begins with the word for
another one is no command, such as a name that is looked for."""
_VALUES = {"ja": "yes", "nee": "no", "aan": "on", "uit": "off", "pakket": "kit"}
"""What a setting can be set to."""


class TypedPhrases(english.TypedPhrases):
    """Words that a crafter types and hears, in Dutch."""

    def heard(self, line: str) -> str:
        """A line that was typed, in the words that plain lines know; see the English one.

        The longest of the phrases with which it begins counts.
        """
        words = line.split()
        for count in range(len(words), 0, -1):
            command = COMMANDS.get(" ".join(words[:count]).casefold())
            if command is None:
                continue
            if count == len(words):
                return command
            if command in WITH_WORDS:
                rest = words[count:]
                if command == "set":
                    rest[-1] = _VALUES.get(rest[-1].casefold(), rest[-1])
                return " ".join([command, *rest])
        return line

    def spoken(self, text: str, exact: str = "") -> str:
        """A sentence as it is heard; see the English one."""
        return spoken(text, exact)

    def written(self, text: str) -> str:
        """What somebody typed as it was heard, in figures; see the English one."""
        return written(text)
