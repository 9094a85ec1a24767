"""Questions and their answers, and what is told so that it is not overlooked, in Dutch."""

from __future__ import annotations

from collections.abc import Sequence

from model.language.english import dialogs as english


class DialogPhrases(english.DialogPhrases):
    """Words of dialogs and of what the program tells at once, in Dutch."""

    def go_on(self) -> str:
        """The answer to what is only told."""
        return "Verder"

    def back(self) -> str:
        """The answer that leads back."""
        return "Terug"

    def kit_unusable(self, file: str, findings: Sequence[str], more: int) -> str:
        """That a kit can't be used yet; see the English one."""
        lines = list(findings)
        if more:
            lines.append(f"en nog {more}; dryfit check noemt ze allemaal.")
        said = "\n".join(lines)
        return f"{file} is nog niet te gebruiken:\n\n{said}"

    def not_put_away(self, why: str) -> str:
        """Why a session can't be put away."""
        return f"De sessie kan nog niet worden weggelegd: {why}"

    def look_on(self) -> str:
        """The answer that looks on at a session of another program."""
        return "Meekijken, zonder iets te zeggen"

    def entries_lost(self, count: int) -> str:
        """That entries of a session make no sense."""
        if count == 1:
            return "1 regel van de sessie was niet te begrijpen en telt niet mee."
        return f"{count} regels van de sessie waren niet te begrijpen en tellen niet mee."

    def old_kit(self) -> str:
        """The answer that keeps the kit of the session."""
        return "Verdergaan met het pakket zoals het was"

    def new_kit(self) -> str:
        """The answer that takes over the changed kit."""
        return "Het gewijzigde pakket overnemen"

    def leave_unsaved(self, why: str) -> str:
        """Asks whether to leave though not everything is saved."""
        return f"Niet alles is bewaard: {why}\nToch stoppen?"

    def stay(self) -> str:
        """The answer that stays."""
        return "Blijven"

    def leave_and_lose(self) -> str:
        """The answer that leaves all the same."""
        return "Stoppen; het gaat verloren"

    def setting_not_kept(self, why: str) -> str:
        """That a setting is in force, but could not be kept."""
        return f"niet bewaard: {why}"

    def line_keys(self) -> tuple[str, str]:
        """Beside a line to be typed: what takes it, and what goes back."""
        return "Enter neemt het over", "Esc gaat terug"

    def search_commands(self) -> str:
        """Stands in the line of the palette while nothing is typed."""
        return "Zoek een opdracht…"
