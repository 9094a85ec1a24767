"""Asks for one line of text."""

from __future__ import annotations

from typing import ClassVar

from textual.app import ComposeResult
from textual.containers import VerticalScroll
from textual.screen import ModalScreen
from textual.widgets import Input, Static


class Ask(ModalScreen[str | None]):
    """One line of text; None when it was left with Esc."""

    BINDINGS: ClassVar = [("escape", "cancel", "Back")]

    def __init__(self, question: str, value: str = "") -> None:
        """Ask.

        Args:
            question: What is asked.
            value: What stands there at first.
        """
        super().__init__()
        self._question = question
        self._value = value
        self._answered = False

    def compose(self) -> ComposeResult:
        """The question above, the line beneath."""
        with VerticalScroll(id="box", can_focus=False):
            yield Static(f"{self._question}  (Enter takes it, Esc goes back)", markup=False)
            yield Input(self._value)

    def on_input_submitted(self, event: Input.Submitted) -> None:
        """The line was given."""
        self._answer(event.value)

    def action_cancel(self) -> None:
        """Leave without an answer."""
        self._answer(None)

    def _answer(self, answer: str | None) -> None:
        if not self._answered:
            self._answered = True
            self.dismiss(answer)
