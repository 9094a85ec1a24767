"""Asks for one line of text."""

from __future__ import annotations

from typing import ClassVar

from textual.app import ComposeResult
from textual.containers import VerticalScroll
from textual.content import Content
from textual.screen import ModalScreen
from textual.widgets import Input, Static


class Ask(ModalScreen[str | None]):
    """One line of text; None when it was left with Esc."""

    BINDINGS: ClassVar = [("escape", "cancel")]

    def __init__(self, question: str, beside: tuple[str, str], value: str = "") -> None:
        """Ask.

        Args:
            question: What is asked.
            beside: What stands beside it: what takes the line, and what goes back.
            value: What stands there at first.
        """
        super().__init__()
        self._question = question
        self._take, self._back = beside
        self._value = value
        self._answered = False

    def compose(self) -> ComposeResult:
        """The question above, the line beneath."""
        with VerticalScroll(id="box", can_focus=False):
            words = Content.from_markup(
                "$question  ([@click=screen.take]$take[/], [@click=screen.cancel]$back[/])",
                question=self._question,
                take=self._take,
                back=self._back,
            )
            yield Static(words)
            yield Input(self._value)

    def on_input_submitted(self, event: Input.Submitted) -> None:
        """The line was given."""
        self._answer(event.value)

    def action_take(self) -> None:
        """The line is as it should be; Enter says so too."""
        self._answer(self.query_one(Input).value)

    def action_cancel(self) -> None:
        """Leave without an answer."""
        self._answer(None)

    def _answer(self, answer: str | None) -> None:
        if not self._answered:
            self._answered = True
            self.dismiss(answer)
