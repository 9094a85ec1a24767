"""A question with a few answers; its text scrolls when the screen is small."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import ClassVar

from textual import events
from textual.app import ComposeResult
from textual.containers import VerticalScroll
from textual.screen import ModalScreen
from textual.widgets import OptionList, Static
from textual.widgets.option_list import Option


@dataclass(frozen=True, slots=True)
class Choice:
    """An answer: what it returns, its key, and its words."""

    id: str
    key: str
    label: str


class Dialog(ModalScreen[str | None]):
    """Asks, and returns the id of the answer; None when it was left with Esc."""

    BINDINGS: ClassVar = [("escape", "cancel", "Back")]

    def __init__(self, text: str, choices: Sequence[Choice]) -> None:
        """Ask a question.

        Args:
            text: What is asked; plain text.
            choices: The answers, the usual one first.
        """
        super().__init__()
        self._text = text
        self._choices = tuple(choices)

    def compose(self) -> ComposeResult:
        """The text above, the answers beneath."""
        with VerticalScroll(id="box", can_focus=False):
            yield Static(self._text, id="text", markup=False)
            yield OptionList(
                *(Option(f"{c.key}  {c.label}", id=c.id) for c in self._choices), markup=False
            )

    def on_mount(self) -> None:
        """The answers take the keys."""
        self.query_one(OptionList).focus()

    def on_option_list_option_selected(self, event: OptionList.OptionSelected) -> None:
        """An answer was chosen."""
        self.dismiss(event.option.id)

    def on_key(self, event: events.Key) -> None:
        """Each answer has a key of its own; Space chooses like Enter."""
        for choice in self._choices:
            if event.character == choice.key:
                event.stop()
                self.dismiss(choice.id)
                return
        if event.key == "space":
            event.stop()
            self.query_one(OptionList).action_select()

    def action_cancel(self) -> None:
        """Leave without an answer."""
        self.dismiss(None)
