"""The table can say at any time that something went wrong, and go a way that saves it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tui.screens.table_undo import UndoingTable

if TYPE_CHECKING:
    from tui.screens.miscut_ways import Chosen


class MiscutTable(UndoingTable):
    """Rescues what was cut wrongly; the table is one of these."""

    def greet(self, brief: tuple[str, ...], whole: str) -> None:
        """Say where one stands until something is said."""
        raise NotImplementedError

    def action_miscut(self) -> None:
        """Something went wrong: say what, and see what can be saved."""
        if self.session.watching:
            self.said = [(f" {self.words.objection('watching')}", "warn")]
            self.paint()
            return
        from tui.screens.miscut import MiscutScreen

        self.app.push_screen(MiscutScreen(self.session), self._rescued)

    def _rescued(self, chosen: Chosen | None) -> None:
        """Back at the table: all of it follows the plan in force."""
        if chosen is None:
            self.look_again()
            return
        said = self.words.rescued(chosen.first, self.key_names()["undo"])
        self.after(chosen.told, "")
        self.greet(said, f"{'; '.join(said)}.")
