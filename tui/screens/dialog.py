"""A question with a few answers; its text scrolls when the screen is small."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import ClassVar

from textual import events
from textual.app import ComposeResult
from textual.containers import VerticalScroll
from textual.content import Content
from textual.screen import ModalScreen
from textual.widgets import OptionList, Static
from textual.widgets.option_list import Option

from tui.widgets.hanging import Hanging


@dataclass(frozen=True, slots=True)
class Choice:
    """An answer: what it returns, its key, and its words."""

    id: str
    key: str
    label: str


class Dialog(ModalScreen[str | None]):
    """Asks, and returns the id of the answer; None when it was left without one.

    It answers once: keys that come before it is gone (a pedal that bounces, a key held
    down) say nothing more.
    """

    BINDINGS: ClassVar = [("escape,q", "cancel", "Back")]
    AUTO_FOCUS = "OptionList"

    def __init__(self, text: str, choices: Sequence[Choice]) -> None:
        """Ask a question.

        Args:
            text: What is asked; plain text.
            choices: The answers; the first one is taken by Enter and Space, so it is the
                one that does no harm.
        """
        super().__init__()
        self._text = text
        self._choices = tuple(choices)
        self._answered = False

    def compose(self) -> ComposeResult:
        """The text above, the answers beneath."""
        with VerticalScroll(id="box", can_focus=False):
            yield Static(Hanging(Content(self._text), 0), id="text")
            yield OptionList(
                *(Option(f"{c.key}  {c.label}", id=c.id) for c in self._choices), markup=False
            )

    def on_option_list_option_selected(self, event: OptionList.OptionSelected) -> None:
        """An answer was chosen."""
        self._answer(event.option.id)

    def on_key(self, event: events.Key) -> None:
        """Each answer has a key of its own; Space chooses like Enter."""
        for choice in self._choices:
            if event.character == choice.key:
                event.stop()
                self._answer(choice.id)
                return
        if event.key == "space":
            event.stop()
            chosen = self.query_one(OptionList).highlighted
            self._answer(self._choices[chosen or 0].id)

    def action_cancel(self) -> None:
        """Leave without an answer."""
        self._answer(None)

    def _answer(self, answer: str | None) -> None:
        if not self._answered:
            self._answered = True
            self.dismiss(answer)
