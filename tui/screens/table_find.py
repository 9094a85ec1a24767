"""What the table can do about things that nobody knows the place of, and sheets put off."""

from __future__ import annotations

from model.plan import StepKind
from model.session import Told
from model.state import Spot
from tui.screens.table_lessons import TeachingTable


class FindingTable(TeachingTable):
    """Finding pieces, and putting sheets off; the table is one of these."""

    chosen: str

    def after(self, told: Told, said: str) -> None:
        """Show what came of saying something."""
        raise NotImplementedError

    def blocked(self) -> bool:
        """Whether a warning wants an answer before anything goes on."""
        raise NotImplementedError

    # Find

    def action_find(self) -> None:
        """What is this piece, and where does it go?"""
        self.learn("find")
        self._find("")

    def action_not_it(self) -> None:
        """What is in hand is not what is asked for: find out what it is."""
        due = self.session.state.due()
        wanted = due.item
        if wanted is None and due.step is not None:
            wanted = next(iter((*due.step.takes, *due.step.touches, *due.step.makes)), None)
        self._find(wanted or "")

    def _find(self, wanted: str) -> None:
        from tui.screens.find import FindScreen

        title = self.words.not_it(wanted) if wanted else ""
        self.app.push_screen(
            FindScreen(self.session, self.session.known.finder, title), self._found
        )

    def _found(self, item: str | None) -> None:
        """Take what was found in hand, if it lies about; say where it is otherwise."""
        if item is None:
            self.look_again()
            return
        state, words = self.session.state, self.words
        place = state.where(item)
        if place == Spot.PILE:
            self.chosen = item
            self.said = [(f" {words.taken_in_hand(item)}", "good")]
        elif place == Spot.MISSING:
            self.after(self.session.file_where_it_belongs(item), words.found_again(item))
            return
        else:
            self.said = [
                (f" {words.is_by_the_journal(item, place, self.key_names()['pockets'])}", "warn")
            ]
        self.look_again()

    # Sheets put off

    def action_defer(self) -> None:
        """Do this sheet last."""
        if self.blocked():
            return
        step = self.session.state.due().step
        if step is None or step.kind is not StepKind.LOAD:
            self.said = [(f" {self.words.defer_when()}", "warn")]
            self.look_again()
            return
        self.after(
            self.session.defer(step.sheet),
            self.words.deferred(step.sheet, self.key_names()["take_up"]),
        )

    def action_take_up(self) -> None:
        """Take up a sheet that was put off; ask which, where there are several."""
        if self.blocked():
            return
        sheets = tuple(self.session.state.deferred)
        if len(sheets) < 2:
            sheet = sheets[0] if sheets else ""
            self.after(self.session.take_up(sheet), self.words.taken_up(sheet))
            return
        from tui.screens.dialog import Choice, Dialog

        def answer(sheet: str | None) -> None:
            if sheet is not None:
                self.after(self.session.take_up(sheet), self.words.taken_up(sheet))

        choices = [Choice(sheet, str(n), sheet) for n, sheet in enumerate(sheets[:9], 1)]
        self.app.push_screen(Dialog(self.words.which_sheet(), choices), answer)
