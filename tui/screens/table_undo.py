"""The table takes back what was said, and says it again."""

from __future__ import annotations

from tui.screens.table_find import FindingTable


class UndoingTable(FindingTable):
    """Takes back; the table is one of these."""

    def paint(self) -> None:
        """Show the moment."""
        raise NotImplementedError

    def action_undo(self) -> None:
        """Take back what was said last; a cut only if it was not really made."""
        self.learn("undo")
        step = self.session.undo_unmakes()
        table, redo = self.phrases.table, self.key_names()["redo"]
        if self.session.watching or step is None:
            event = self.session.undo_names()
            what = "" if event is None else self.words.said(event)
            self.after(self.session.undo(), table.taken_back(redo, what))
            return
        from tui.screens.dialog import Choice, Dialog

        words, state = self.words, self.session.state

        def answer(choice: str | None) -> None:
            if choice == "not":
                self.after(self.session.undo(), table.step_taken_back())
            elif choice == "word":
                told = self.session.undo_word()
                self.after(told, table.word_taken_back(redo))
            elif choice == "made":
                self.said = [(f" {table.nothing_taken_back()}", "plain")]
                self.paint()

        choices = [Choice("made", "y", words.it_is_cut(step))]
        word = state.last_word()
        if word is not None:
            same = word in state.last_said()
            choices.append(Choice("word", "b", words.cut_but_take_back(step, word.event, same)))
        choices.append(Choice("not", "n", words.it_is_not_cut(step)))
        self.app.push_screen(Dialog(words.was_it_cut(step), choices), answer)

    def action_redo(self) -> None:
        """Say again what was taken back last."""
        self.after(self.session.redo(), self.phrases.table.said_again())
