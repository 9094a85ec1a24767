"""What is typed in plain lines, and how they sound."""

from __future__ import annotations

from model.language.english.ear import spoken, written


class TypedPhrases:
    """Words that a crafter types and hears."""

    def heard(self, line: str) -> str:
        """A line that was typed, in the words that plain lines know.

        Another language puts its own words for commands and answers into these: ``done``,
        ``put off``, ``yes``, ``no``, ``stop``, ``quit`` and so on (`tui.lines_desk`); names,
        numbers and what is looked for stay as they were typed.

        Args:
            line: The line, with no space around it.
        """
        return line

    def spoken(self, text: str, exact: str = "") -> str:
        """A sentence as it is heard: signs that a voice skips or spells become words.

        Args:
            text: One sentence or several.
            exact: A part of it that is kept as it stands: a path, or what somebody typed.
        """
        return spoken(text, exact)

    def written(self, text: str) -> str:
        """What somebody typed as it was heard, in figures.

        Args:
            text: What was typed; what is no measure stays.
        """
        return written(text)
