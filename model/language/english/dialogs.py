"""Questions and their answers, and what is told so that it is not overlooked."""

from __future__ import annotations

from collections.abc import Sequence


class DialogPhrases:
    """Words of dialogs and of what the program tells at once."""

    def go_on(self) -> str:
        """The answer to what is only told."""
        return "Go on"

    def back(self) -> str:
        """The answer that leads back."""
        return "Back"

    def kit_unusable(self, file: str, findings: Sequence[str], more: int) -> str:
        """That a kit can't be used yet.

        Args:
            file: The name of its file.
            findings: What is wrong, as the author of the kit is told it.
            more: How many findings are not among these.
        """
        lines = list(findings)
        if more:
            lines.append(f"and {more} more; dryfit check tells all of them.")
        said = "\n".join(lines)
        return f"{file} can't be used yet:\n\n{said}"

    def not_put_away(self, why: str) -> str:
        """Why a session can't be put away."""
        return f"It can't be put away yet: {why}"

    def look_on(self) -> str:
        """The answer that looks on at a session of another program."""
        return "Look on, without saying anything"

    def entries_lost(self, count: int) -> str:
        """That entries of a session make no sense."""
        return f"{count} entries of the session could not be taken in."

    def old_kit(self) -> str:
        """The answer that keeps the kit of the session."""
        return "Go on with the kit as it was"

    def new_kit(self) -> str:
        """The answer that takes over the changed kit."""
        return "Take over the changed kit"

    def leave_unsaved(self, why: str) -> str:
        """Asks whether to leave though not everything is saved."""
        return f"Not everything is saved: {why}\nLeave all the same?"

    def stay(self) -> str:
        """The answer that stays."""
        return "Stay"

    def leave_and_lose(self) -> str:
        """The answer that leaves all the same."""
        return "Leave, and lose it"

    def setting_not_kept(self, why: str) -> str:
        """That a setting is in force, but could not be kept."""
        return f"not kept: {why}"

    def line_keys(self) -> tuple[str, str]:
        """Beside a line to be typed: what takes it, and what goes back."""
        return "Enter takes it", "Esc goes back"

    def search_commands(self) -> str:
        """Stands in the line of the palette while nothing is typed."""
        return "Search for commands…"
