"""A question with a few answers; its text scrolls when the screen is small."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, ClassVar, cast

from textual import events
from textual.app import ComposeResult
from textual.containers import VerticalScroll
from textual.content import Content
from textual.screen import ModalScreen
from textual.widgets import OptionList, Static
from textual.widgets.option_list import Option

from model.keymap import Keymap
from model.keynames import say_key
from tui.commands import Command
from tui.widgets.hanging import Hanging

if TYPE_CHECKING:
    from tui.app import DryfitApp

PLACE = "question"
"""The name of all questions in the keymap."""
_WIDTH = 66
"""Cells that it is wide where there is room, as the styles say too."""


COMMANDS = (
    Command("yes", ("y",), "", False),
    Command("no", ("n",), "", False),
    Command("but", ("b",), "", False),
    Command("leave", ("l",), "", False),
    Command("stay", ("s",), "", False),
    Command("watch", ("w",), "", False),
    Command("old", ("o",), "", False),
    Command("changed", ("c",), "", False),
    Command("go", ("g",), "", False),
)
"""The sorts of answers, each with its key; a question has a few of them."""


@dataclass(frozen=True, slots=True)
class Choice:
    """An answer.

    Attributes:
        id: What it returns.
        sort: Which of `COMMANDS` its key is that of; else the key itself.
        label: Its words.
    """

    id: str
    sort: str
    label: str


class Answers(OptionList):
    """The answers of a dialog; past its ends, and by pages, one goes through the text."""

    @property
    def _words(self) -> VerticalScroll:
        return self.screen.query_one("#words", VerticalScroll)

    def action_cursor_down(self) -> None:
        """To the next answer, or on in the text."""
        last = self.highlighted in (None, self.option_count - 1)
        if last and self._words.max_scroll_y:
            self._words.scroll_down(animate=False)
        else:
            super().action_cursor_down()

    def action_cursor_up(self) -> None:
        """To the answer before, or back in the text."""
        if not self.highlighted and self._words.max_scroll_y:
            self._words.scroll_up(animate=False)
        else:
            super().action_cursor_up()

    def action_page_down(self) -> None:
        """On in the text by a page."""
        self._words.scroll_page_down(animate=False)

    def action_page_up(self) -> None:
        """Back in the text by a page."""
        self._words.scroll_page_up(animate=False)


class Dialog(ModalScreen[str | None]):
    """Asks, and returns the id of the answer; None when it was left without one.

    It answers once: keys that come before it is gone (a pedal that bounces, a key held
    down) say nothing more.
    """

    BINDINGS: ClassVar = [("escape,q", "cancel")]
    AUTO_FOCUS = "Answers"

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

    def _keys(self, choice: Choice) -> tuple[str, ...]:
        """The keys of an answer that are in force."""
        keymap: Keymap = cast("DryfitApp", self.app).keymap
        usual = next((each.keys for each in COMMANDS if each.id == choice.sort), (choice.sort,))
        return keymap.keys(f"{PLACE}.{choice.sort}", usual)

    def _lines(self) -> list[Content]:
        """Each answer with its key."""
        ascii = cast("DryfitApp", self.app).settings.ascii
        return [
            Content(f"{say_key(self._keys(choice)[0], ascii)}  {choice.label}")
            for choice in self._choices
        ]

    def compose(self) -> ComposeResult:
        """The text above, the answers beneath; both are seen however long the text is."""
        with VerticalScroll(id="box", can_focus=False):
            with VerticalScroll(id="words", can_focus=False):
                yield Static(Hanging(Content(self._text), 0), id="text")
            yield Answers(
                *(
                    Option(Hanging(line, 3), choice.id)
                    for line, choice in zip(self._lines(), self._choices, strict=True)
                ),
                markup=False,
            )

    def on_mount(self) -> None:
        """Fit it into the screen."""
        self._fit()

    def on_resize(self) -> None:
        """Fit it into the screen as it is now."""
        self._fit()

    def _fit(self) -> None:
        """Give the text what the answers leave: of what is longer the rest is scrolled to."""
        inner = min(_WIDTH, self.app.size.width) - 4  # less the border and a space at each side
        answers = sum(Hanging(line, 3).get_height({}, inner - 1) for line in self._lines())
        room = self.app.size.height - answers - 3  # the border, and a row between
        for words in self.query("#words"):  # none when the program ends just now
            words.styles.max_height = max(1, room)

    def on_option_list_option_selected(self, event: OptionList.OptionSelected) -> None:
        """An answer was chosen."""
        self._answer(event.option.id)

    def on_key(self, event: events.Key) -> None:
        """Each answer has a key of its own; Space chooses like Enter."""
        for choice in self._choices:
            if event.key in self._keys(choice):
                event.stop()
                self._answer(choice.id)
                return
        if event.key == "space":
            event.stop()
            chosen = self.query_one(Answers).highlighted
            self._answer(self._choices[chosen or 0].id)

    def action_cancel(self) -> None:
        """Leave without an answer."""
        self._answer(None)

    def _answer(self, answer: str | None) -> None:
        if not self._answered:
            self._answered = True
            self.dismiss(answer)
