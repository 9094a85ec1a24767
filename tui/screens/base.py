"""What all screens of dryfit share: the program that they belong to, by its type."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, ClassVar, TypeVar, cast

from textual import on
from textual.screen import Screen

from tui import parts
from tui.commands import Command, in_force, key_of
from tui.widgets.panel import Panel

if TYPE_CHECKING:
    from model.language.english.phrases import Phrases
    from model.language.english.words import English
    from model.session import Session
    from tui.app import DryfitApp

Result = TypeVar("Result")


class AppScreen(Screen[Result]):
    """A screen of dryfit."""

    @property
    def dryfit(self) -> DryfitApp:
        """The program."""
        return cast("DryfitApp", self.app)

    COMMANDS_SHOWN: ClassVar[tuple[Command, ...]] = ()
    """What its footer, its help and the palette show."""
    PLACE: ClassVar[str] = ""
    """Its name in the keymap."""
    _left = False

    @property
    def ascii(self) -> bool:
        """Whether only ASCII is shown."""
        return self.dryfit.settings.ascii

    @property
    def phrases(self) -> Phrases:
        """What the program says of itself, in the crafter's language."""
        return self.dryfit.phrases

    def words_of(self, session: Session) -> English:
        """The sentences for this crafter, about a session's kit."""
        return self.dryfit.words(session)

    def ring(self) -> None:
        """Ring the terminal's bell for a warning that was raised, where the crafter wants it."""
        if self.dryfit.settings.bell:
            self.app.bell()

    def more_commands(self) -> Sequence[Command]:
        """What the palette has besides, made for this moment."""
        return ()

    def footer(self) -> Sequence[Command]:
        """The commands that the footer shows now."""
        return self.COMMANDS_SHOWN

    def shown_footer(self) -> Sequence[Command]:
        """The same, with the keys that they have now."""
        words = self.phrases.commands
        return in_force(self.dryfit.keymap, words, self.PLACE, self.footer())

    def key(self, id: str) -> str:
        """The key of one of its commands, as people say it."""
        return key_of(self.dryfit.keymap, self.PLACE, self.COMMANDS_SHOWN, id, self.ascii)

    def help_text(self) -> str:
        """What the screen is for, with the keys that its commands have now."""
        keys = {command.id: self.key(command.id) for command in self.COMMANDS_SHOWN}
        return self.phrases.commands.about(self.PLACE, keys)

    def leave(self) -> None:
        """Go back to the screen beneath; once, however often the key comes."""
        self.leave_with(None)

    def leave_with(self, result: Result | None) -> None:
        """Go back to the screen beneath with an answer; once, however often the key comes."""
        if not self._left:
            self._left = True
            self.dismiss(result)

    @on(Panel.RowClicked, "#keys")
    def _footer_clicked(self, event: Panel.RowClicked) -> None:
        commands = self.shown_footer()
        key = parts.footer_at(commands, self.ascii, event.panel.size.width, event.column)
        for command in commands:
            if command.shown_key(self.ascii) == key and command.action:
                self.call_later(self.run_action, command.action)
                return
