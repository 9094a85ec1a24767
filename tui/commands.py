"""One declaration per command: its keys and its action.

Bindings, the palette, the footer and the help are all made from these, so that none of
them can say something else. What a command is called and what it does is said by the language
in force (`model.language`), by the command's whole name.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field, replace
from functools import lru_cache

from textual.binding import Binding, BindingType

from model.keymap import Keymap
from model.keynames import say_key
from model.language.english.commands import CommandPhrases
from model.language.said import Said


@dataclass(frozen=True, slots=True)
class Command:
    """Something a key does.

    Attributes:
        id: Its name, by which its keys can be changed.
        keys: Its keys, the first is the one that is shown; none for what only the palette has.
        action: The action it calls.
        palette: Whether it is in the palette too.
        said: Its words, once they were looked up; see `in_force`.
    """

    id: str
    keys: tuple[str, ...]
    action: str
    palette: bool = True
    said: Said = field(default=Said("", ""), compare=False)

    @property
    def label(self) -> str:
        """A word or two for the footer; empty keeps it out of the footer."""
        return self.said.label

    @property
    def help(self) -> str:
        """One sentence."""
        return self.said.help

    def shown_key(self, ascii: bool = False) -> str:
        """Its first key, as people say it."""
        return say_key(self.keys[0], ascii) if self.keys else ""

    def all_keys(self, ascii: bool = False) -> tuple[str, ...]:
        """All its keys, as people say them."""
        return tuple(say_key(key, ascii) for key in self.keys)

    def named(self) -> str:
        """What it is called in lists of commands."""
        return self.said.title or self.label[:1].upper() + self.label[1:]


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
            id=whole_id(place, command),
            show=False,  # the footer is our own: what is shown is made when it is shown
        )
        for command in commands
    ]


def whole_id(place: str, command: Command) -> str:
    """The name by which the keys of a command of a screen can be changed."""
    shared = command in EVERYWHERE or command == PALETTE
    return f"{'everywhere' if shared else place}.{command.id}"


@lru_cache(maxsize=512)
def _told(words: CommandPhrases, place: str, command: Command) -> Command:
    """A command with its words."""
    return replace(command, said=words.command(whole_id(place, command)))


def in_force(
    keymap: Keymap, words: CommandPhrases, place: str, commands: Iterable[Command]
) -> tuple[Command, ...]:
    """The commands of a screen in words, with the keys that they have now."""
    told = tuple(_told(words, place, command) for command in commands)
    if not keymap.own:
        return told
    return tuple(
        replace(command, keys=keymap.keys(whole_id(place, command), command.keys))
        for command in told
    )


def key_of(
    keymap: Keymap, place: str, commands: Iterable[Command], id: str, ascii: bool = False
) -> str:
    """The key that a command of a screen has now, as people say it."""
    command = next(each for each in commands if each.id == id)
    return say_key(keymap.keys(whole_id(place, command), command.keys)[0], ascii)


EVERYWHERE = (
    Command("help", ("question_mark", "f1"), "app.help"),
    Command("quit", ("q", "ctrl+q"), "app.leave"),
)
PALETTE = Command("palette", ("ctrl+p",), "app.command_palette")
"""The list of all commands; it is the app's own."""
