"""One declaration per command: its keys, its name in the footer, its help.

Bindings, the palette, the footer and the help are all made from these, so that none of
them can say something else.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace

from textual.binding import Binding, BindingType

from model.keymap import Keymap
from model.keynames import say_key


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
        return say_key(self.keys[0], ascii) if self.keys else ""

    def all_keys(self, ascii: bool = False) -> str:
        """All its keys, as people say them."""
        return " or ".join(say_key(key, ascii) for key in self.keys)

    def named(self) -> str:
        """What it is called in lists of commands."""
        return self.title or (self.label or self.id).capitalize()


def bindings(place: str, commands: Iterable[Command]) -> list[BindingType]:
    """The bindings of commands.

    Args:
        place: The name of their screen, with which their ids begin.
        commands: The commands.
    """
    return [
        Binding(
            ",".join(command.keys),
            command.action,
            command.label or command.help,
            show=bool(command.label),
            id=whole_id(place, command),
            tooltip=command.help,
        )
        for command in commands
    ]


def whole_id(place: str, command: Command) -> str:
    """The name by which the keys of a command of a screen can be changed."""
    shared = command in EVERYWHERE or command == PALETTE
    return f"{'everywhere' if shared else place}.{command.id}"


def in_force(keymap: Keymap, place: str, commands: Iterable[Command]) -> tuple[Command, ...]:
    """The commands of a screen with the keys that they have now."""
    if not keymap.own:
        return tuple(commands)
    return tuple(
        replace(command, keys=keymap.keys(whole_id(place, command), command.keys))
        for command in commands
    )


def key_of(
    keymap: Keymap, place: str, commands: Iterable[Command], id: str, ascii: bool = False
) -> str:
    """The key that a command of a screen has now, as people say it."""
    command = next(each for each in commands if each.id == id)
    return in_force(keymap, place, [command])[0].shown_key(ascii)


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
PALETTE = Command("palette", ("ctrl+p",), "app.command_palette", "", "All commands by name.")
"""The list of all commands; it is the app's own."""
