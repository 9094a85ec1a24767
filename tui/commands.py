"""One declaration per command: its keys, its name in the footer, its help.

Bindings, the palette, the footer and the help are all made from these, so that none of
them can say something else.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from textual.binding import Binding, BindingType

_SAID = {
    "space": "Space",
    "enter": "Enter",
    "question_mark": "?",
    "up": "↑",
    "down": "↓",
    "left": "←",
    "right": "→",
    "comma": ",",
    "escape": "Esc",
    "f1": "F1",
    "slash": "/",
    "tab": "Tab",
    "backspace": "Backspace",
    "ctrl+p": "Ctrl+P",
    "ctrl+q": "Ctrl+Q",
}
_SAID_ASCII = {"↑": "Up", "↓": "Down", "←": "Left", "→": "Right"}


@dataclass(frozen=True, slots=True)
class Command:
    """Something a key does.

    Attributes:
        id: Its name, by which its keys can be changed.
        keys: Its keys, the first is the one that is shown; none for what only the palette has.
        action: The action it calls.
        label: A word or two for the footer; empty keeps it out of the footer.
        help: One sentence.
        palette: Whether it is in the palette too.
        title: Its name in the palette; by default its label.
    """

    id: str
    keys: tuple[str, ...]
    action: str
    label: str
    help: str
    palette: bool = True
    title: str = ""

    def shown_key(self, ascii: bool = False) -> str:
        """Its first key, as people say it."""
        if not self.keys:
            return ""
        key = _SAID.get(self.keys[0], self.keys[0])
        return _SAID_ASCII.get(key, key) if ascii else key

    def all_keys(self, ascii: bool = False) -> str:
        """All its keys, as people say them."""
        said = [_SAID.get(key, key) for key in self.keys]
        return " or ".join(_SAID_ASCII.get(key, key) if ascii else key for key in said)


def bindings(commands: Iterable[Command]) -> list[BindingType]:
    """The bindings of commands."""
    return [
        Binding(
            ",".join(command.keys),
            command.action,
            command.label or command.help,
            show=bool(command.label),
            id=command.id,
            tooltip=command.help,
        )
        for command in commands
    ]


EVERYWHERE = (
    Command(
        "help",
        ("question_mark", "f1"),
        "app.help",
        "help",
        "What can be done here.",
        title="Help",
    ),
    Command(
        "quit",
        ("q", "ctrl+q"),
        "app.leave",
        "quit",
        "Leave dryfit; everything said so far is kept.",
    ),
)
