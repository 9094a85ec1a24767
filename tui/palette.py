"""What the palette lists: every command of the screen beneath it."""

from __future__ import annotations

from collections.abc import Awaitable, Callable, Iterable
from typing import TYPE_CHECKING

from textual.app import SystemCommand
from textual.screen import Screen

from tui.commands import in_force
from tui.screens.base import AppScreen

if TYPE_CHECKING:
    from tui.app import DryfitApp


def entries(app: DryfitApp, screen: Screen[object]) -> Iterable[SystemCommand]:
    """The commands of a screen, each with its key.

    Args:
        app: The program.
        screen: The screen.
    """
    if not isinstance(screen, AppScreen):
        return
    ascii, words = app.settings.ascii, app.phrases.commands
    shown = in_force(app.keymap, words, screen.PLACE, screen.COMMANDS_SHOWN)
    for command in (*shown, *screen.more_commands()):
        if command.palette:
            title = command.named()
            key = command.shown_key(ascii)
            yield SystemCommand(
                f"{title}  ({key})" if key else title,
                command.help,
                _runner(screen, command.action),
            )


def _runner(screen: Screen[object], action: str) -> Callable[[], Awaitable[None]]:
    async def run() -> None:
        await screen.run_action(action)

    return run
