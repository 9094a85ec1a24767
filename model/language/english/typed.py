"""What is typed in plain lines."""

from __future__ import annotations


class TypedPhrases:
    """Words that a crafter types."""

    def heard(self, line: str) -> str:
        """A line that was typed, in the words that plain lines know.

        Another language puts its own words for commands and answers into these: ``done``,
        ``put off``, ``yes``, ``no``, ``stop``, ``quit`` and so on (`tui.lines_desk`); names,
        numbers and what is looked for stay as they were typed.

        Args:
            line: The line, with no space around it.
        """
        return line
