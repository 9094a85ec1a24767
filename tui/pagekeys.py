"""A page number, typed digit by digit, until it means one pocket."""

from __future__ import annotations

from model.language.english.table import TablePhrases
from model.plan import Plan
from model.pocketkeys import key_runs


class PageKeys:
    """What was typed of a page number.

    Attributes:
        typed: The digits so far; empty when none are waiting.
    """

    def __init__(self, plan: Plan) -> None:
        """Nothing typed yet.

        Args:
            plan: The plan whose pockets are meant.
        """
        self._plan = plan
        self.typed = ""

    def press(self, digit: str) -> int | None:
        """Take a digit.

        Returns:
            The pocket's index, once it can mean one only; None while more is to come, or
            when no page begins so (then nothing is waiting any more).
        """
        self.typed += digit
        pocket = self._plan.keys.get(self.typed)
        if pocket is not None or not self._longer():
            self.typed = ""
        return pocket

    def enter(self) -> int | None:
        """End the number: the page of exactly these digits.

        Returns:
            Its pocket's index; None when there is no such page.
        """
        typed, self.typed = self.typed, ""
        found = self._plan.kit.pocket_of_page(int(typed)) if typed else None
        return found.index if found else None

    def clear(self) -> None:
        """Forget what was typed."""
        self.typed = ""

    def _longer(self) -> bool:
        return any(key.startswith(self.typed) for key in self._plan.keys)

    def hint(self, words: TablePhrases) -> str:
        """What can follow, in words; empty when nothing is waiting.

        Args:
            words: The words of the table.
        """
        if not self.typed:
            return ""
        at = len(self.typed)
        keys = self._plan.keys
        following = {key[at] for key in keys if key.startswith(self.typed) and len(key) > at}
        enter = self._plan.kit.pocket_of_page(int(self.typed)) is not None
        return words.page_so_far(self.typed, " ".join(key_runs(sorted(following))), enter)
