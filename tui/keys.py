"""The keys in force: what each screen declares, the crafter's own, and where both are kept."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from functools import partial
from typing import TYPE_CHECKING

from textual.binding import Binding
from textual.widgets import Input, OptionList

from model.keymap import Act, Keymap, Place, kept, read_keymap
from model.language.english.commands import CommandPhrases
from tui.commands import PALETTE, Command, whole_id

if TYPE_CHECKING:
    from tui.app import DryfitApp

_ALWAYS = {
    "table.did": ("space", "enter"),
    "table.clear": ("escape", "backspace"),
    "everywhere.quit": ("ctrl+q",),
}
"""What must be in reach whatever was chosen: the one key, and a way out."""


def places(words: CommandPhrases) -> tuple[Place, ...]:
    """Every screen with its commands; this loads all screens.

    Args:
        words: The words of commands.
    """
    from tui import table_commands
    from tui.screens import (
        account,
        count,
        dialog,
        find,
        help,
        keys,
        miscut,
        miscut_pick,
        miscut_say,
        miscut_ways,
        pockets,
        settings,
        shelf,
        warnings,
    )  # fmt: skip

    listed = dict.fromkeys(_keys_of(OptionList), "list")
    listed["enter"] = "row"
    typed = dict.fromkeys(_keys_of(Input), "typed")
    place = partial(_place, words)
    return (
        place("table", table_commands.COMMANDS),
        place("shelf", shelf.COMMANDS, listed),
        place("pockets", pockets.COMMANDS, listed),
        place("account", account.COMMANDS, listed),
        place("warnings", warnings.COMMANDS, listed),
        place("count", count.COMMANDS, listed),
        place("find", find.COMMANDS, typed, True),
        place("miscut", miscut.COMMANDS, listed),
        place("pick", miscut_pick.COMMANDS, typed, True),
        place("say", miscut_say.COMMANDS, typed, True),
        place("ways", miscut_ways.COMMANDS),
        place("settings", settings.COMMANDS, listed),
        place("keys", keys.COMMANDS, listed),
        place("help", help.COMMANDS, listed),
        place(dialog.PLACE, dialog.COMMANDS, {**listed, "escape": "list", "q": "list"}),
    )


def _keys_of(widget: type[OptionList] | type[Input]) -> set[str]:
    """The keys that a widget takes before its screen sees them."""
    return {binding.key for binding in Binding.make_bindings(widget.BINDINGS)}


def _place(
    words: CommandPhrases,
    name: str,
    commands: Iterable[Command],
    taken: dict[str, str] | None = None,
    typed: bool = False,
) -> Place:
    acts = []
    for command in (*commands, PALETTE):
        id = whole_id(name, command)
        always = _ALWAYS.get(id, ())
        if taken is not None:  # what the list or the line takes stays what it is
            fixed = {"escape"} if command.id == "back" else set()
            always = tuple(key for key in command.keys if key in {*taken, *fixed}) or always
            if typed:
                always = command.keys if command is not PALETTE else always
        named = replace(command, said=words.command(id)).named()
        acts.append(Act(id, named, command.keys, always))
    return Place(name, tuple(acts), taken or {}, typed)


def take(app: DryfitApp) -> tuple[str, ...]:
    """Put the keys of the settings in force; returns what can't be used of them."""
    if not app.settings.keys:
        return ()  # the screens are loaded when they are wanted
    keymap, troubles = read_keymap(
        places(app.phrases.commands), app.settings.keys, app.phrases.keys
    )
    _use(app, keymap)
    return tuple(f"{app.settings_path}: {line}" for line in troubles)


def change(app: DryfitApp, id: str, keys: tuple[str, ...]) -> str:
    """Give a command other keys, or its usual ones with none; returns why it can't be."""
    made, why = whole(app).tried(id, keys)
    return why or _keep(app, made)


def usual_again(app: DryfitApp) -> str:
    """Give every command its usual keys; returns why that can't be kept."""
    return _keep(app, _usual(app))


def whole(app: DryfitApp) -> Keymap:
    """The keymap with all commands, also those that have their usual keys."""
    return app.keymap if app.keymap.places else _usual(app)


def _usual(app: DryfitApp) -> Keymap:
    return Keymap(places(app.phrases.commands), words=app.phrases.keys)


def _keep(app: DryfitApp, keymap: Keymap) -> str:
    _use(app, keymap)
    return app.change_setting("keys", kept(app.settings.keys, keymap))


def _use(app: DryfitApp, keymap: Keymap) -> None:
    app.keymap = keymap
    app.set_keymap({id: ",".join(keys) for id, keys in keymap.in_force().items()})
