"""The full-screen program: the shelf, the table, and what all screens share."""

from __future__ import annotations

import gc
import os
import sys
from collections.abc import Callable, Iterable, Sequence
from pathlib import Path
from typing import ClassVar, cast

from textual.app import App, SystemCommand
from textual.binding import Binding
from textual.command import CommandPalette
from textual.filter import LineFilter
from textual.screen import Screen
from textual.widget import Widget

from model.finding import KitError
from model.journal import JournalBusy
from model.keymap import Keymap
from model.language import words_of
from model.language.english.phrases import Phrases
from model.language.english.words import English
from model.language.sentences import sentence
from model.manner import Manner
from model.reading import Reader, load_kit, read_kit
from model.session import Session, SessionError
from model.session_file import is_session
from model.settings import Settings, save_settings, with_value
from model.waiting import waits_of
from tui.bounce import SteadyApp
from tui.commands import PALETTE, in_force
from tui.depth import depth_filters, no_colour_wanted
from tui.lean import lean
from tui.palette import entries
from tui.plain import ASCII_ONLY
from tui.screens.base import AppScreen
from tui.themes import THEMES

_MOST_FINDINGS = 40
"""Mistakes of a kit that are told at once."""


class DryfitApp(SteadyApp):
    """dryfit in full screen."""

    TITLE = "dryfit"
    CSS_PATH: ClassVar = ["styles/table.tcss", "styles/lists.tcss"]
    ENABLE_COMMAND_PALETTE = True
    BINDINGS: ClassVar = [
        Binding(
            PALETTE.keys[0], "command_palette", show=False, priority=True,
            id=f"everywhere.{PALETTE.id}",
        ),
    ]  # fmt: skip

    def __init__(
        self,
        settings: Settings,
        settings_path: Path | None = None,
        start: Path | None = None,
        sessions: Path | None = None,
        why_no_sessions: str = "",
        read: Reader = read_kit,
    ) -> None:
        """Prepare the program.

        Args:
            settings: The crafter's settings.
            settings_path: Where they are kept; None when there is no such place.
            start: A kit or a session to open at once; None opens the shelf.
            sessions: The folder of the sessions; None when there is no such place.
            why_no_sessions: Why there is none.
            read: Reads the text of a kit.
        """
        no_colour_wanted(os.environ)
        super().__init__()
        if sys.platform != "win32":  # there Textual cuts what it sends into pieces
            self.driver_class = lean(self.driver_class)
        for theme in THEMES:
            self.register_theme(theme)
        known = {theme.name for theme in THEMES}
        # Before anything is styled, or all of it would be styled twice.
        self.theme = settings.theme if settings.theme in known else THEMES[0].name
        self.settings = settings
        self.settings_path = settings_path
        self.keymap = Keymap()
        self.sessions = sessions
        self.why_no_sessions = why_no_sessions
        self.troubles: tuple[str, ...] = ()
        self._start = start
        self._read = read
        self._open: list[Session] = []
        self._asked_to_leave = False

    def on_ready(self) -> None:
        """Look for garbage from now on, but not in what was loaded (see `tui.command`)."""
        if not gc.isenabled():
            gc.freeze()
            gc.enable()

    def on_mount(self) -> None:
        """Put on the looks, and open what was asked for."""
        self.hold_back(self.settings.bounce)
        self.set_class(self.settings.ascii, "-ascii")
        troubles = self.troubles
        if self.settings.keys:
            from tui import keys

            troubles = (*troubles, *keys.take(self))
        if self._start is None:
            self.show_shelf()
        elif is_session(self._start):
            self.open_session(self._start)
        else:
            self.start_kit(self._start)
        if troubles:  # in one place, and until it was read
            self.call_later(self.tell, "\n\n".join(troubles))

    # Opening

    def show_shelf(self) -> None:
        """Show the shelf."""
        from tui.screens.shelf import ShelfScreen

        self.push_screen(ShelfScreen())

    def start_kit(self, path: Path) -> None:
        """Begin a session of a kit."""
        try:
            read = load_kit(path, self._read)
            session = Session.start(read, path, self.sessions, why_no_folder=self.why_no_sessions)
        except KitError as error:
            lines = [str(finding) for finding in error.findings[:_MOST_FINDINGS]]
            more = len(error.findings) - len(lines)
            self.tell(self.phrases.dialogs.kit_unusable(path.name, lines, more), back_to_shelf=True)
            return
        if self.settings.by_load:
            session.pace_by(True)
        self.show_session(session, teach=session.plan.kit.pages <= 2 and not self.settings.taught)

    def open_session(self, path: Path) -> None:
        """Go on with a session; look on when another program has it."""
        try:
            session = Session.resume(path, read=self._read)
        except JournalBusy as busy:
            self._offer_watching(path, str(busy))
            return
        except SessionError as error:
            self.tell(sentence(str(error)), back_to_shelf=True)
            return
        self.show_session(session)
        if not self._offer_changed_kit(session):
            self._greet(session)

    def show_session(self, session: Session, teach: bool = False) -> None:
        """Put a session on the table.

        Args:
            session: The session.
            teach: Teach the table by doing; see `model.lessons`.
        """
        from tui.screens.table import TableScreen

        self._open.append(session)
        self.push_screen(TableScreen(session, teach))

    def put_away(self, session: Session) -> None:
        """Close a session and go to the shelf."""
        if session.unsaved:
            self.tell(self.phrases.dialogs.not_put_away(session.unsaved))
            return
        session.close()
        self._open.remove(session)
        self.pop_screen()
        self._to_shelf()

    def _offer_watching(self, path: Path, why: str) -> None:
        def answer(choice: str | None) -> None:
            if choice != "watch":
                self._to_shelf()
                return
            try:
                self.show_session(Session.watch(path))
            except SessionError as error:
                self.tell(sentence(str(error)), back_to_shelf=True)

        self.ask(
            sentence(why),
            answer,
            ("watch", "watch", self.phrases.dialogs.look_on()),
            ("back", "but", self.phrases.dialogs.back()),
        )

    def _greet(self, session: Session) -> None:
        """Tell where one stands, and what was wrong with the session's file.

        Only the latter asks for a key; there is nothing to decide about the former.
        """
        from tui.screens.table import TableScreen

        words = self.words(session)
        waits = waits_of(session, words)
        for screen in self.screen_stack:
            if isinstance(screen, TableScreen) and session.state.steps_done:
                brief = words.welcome_briefly(session.state, waits)
                screen.greet(brief, words.welcome_back(session.state, waits))
        self._say_troubles(session)

    def _say_troubles(self, session: Session) -> None:
        lines = [sentence(trouble.text) for trouble in session.troubles]
        lost = len(session.state.ignored)
        if lost:
            lines.append(self.phrases.dialogs.entries_lost(lost))
        if lines:
            self.tell("\n".join(lines))

    def _offer_changed_kit(self, session: Session) -> bool:
        """Tell how the kit's file was changed since, if it was; True when it was."""
        change = session.changed_kit()
        if change is None:
            return False
        words = self.words(session)
        choices = [("old", "old", self.phrases.dialogs.old_kit())]
        if change.plan is not None and not change.blockers:
            choices.append(("new", "changed", self.phrases.dialogs.new_kit()))

        def answer(choice: str | None) -> None:
            if choice == "new":
                session.adopt(change)
                self._repaint()
            self._greet(session)

        self.ask(words.kit_changed(change), answer, *choices)
        return True

    def _repaint(self) -> None:
        from tui.screens.table import TableScreen

        for screen in self.screen_stack:
            if isinstance(screen, TableScreen):
                screen.look_again()

    def tell(self, text: str, back_to_shelf: bool = False) -> None:
        """Tell something that must not be overlooked."""
        on = self.phrases.dialogs.go_on()
        self.ask(text, lambda _: self._to_shelf() if back_to_shelf else None, ("ok", "go", on))

    def ask(
        self, text: str, then: Callable[[str | None], None], *choices: tuple[str, str, str]
    ) -> None:
        """Ask a question; its screen is imported when the first one is asked.

        Args:
            text: What is asked.
            then: Is told the answer's id, or None.
            choices: Id, sort and words of each answer; the first one does no harm.
        """
        from tui.screens.dialog import Choice, Dialog

        self.push_screen(Dialog(text, [Choice(*choice) for choice in choices]), then)

    def _to_shelf(self) -> None:
        from tui.screens.shelf import ShelfScreen

        if not any(isinstance(screen, ShelfScreen) for screen in self.screen_stack):
            self.show_shelf()  # it looks into its folders when it is shown again

    # What all screens share

    @property
    def phrases(self) -> Phrases:
        """What the program says of itself, in the crafter's language."""
        return self.settings.phrases

    def manner_of(self, session: Session) -> Manner:
        """How this crafter is told things of a session's kit."""
        return self.settings.manner(session.plan.kit.unit)

    def words(self, session: Session) -> English:
        """The sentences for this crafter."""
        return words_of(session.plan, self.manner_of(session))

    def whole_keymap(self) -> Keymap:
        """Every command of every screen with its keys; this loads all screens."""
        from tui import keys

        return keys.whole(self)

    def change_key(self, id: str, to: tuple[str, ...]) -> str:
        """Give a command other keys, or its usual ones with none; returns why it can't be."""
        from tui import keys

        return keys.change(self, id, to)

    def usual_keys(self) -> str:
        """Give every command its usual keys; returns why that can't be kept."""
        from tui import keys

        return keys.usual_again(self)

    def change_setting(self, key: str, value: object) -> str:
        """Change a setting, keep it, and show it; returns why it can't be, or nothing."""
        changed, why = with_value(self.settings, key, value)
        if why:
            return why
        self.settings = changed
        self.hold_back(changed.bounce)
        if key == "language" and self.keymap.places:
            from tui import keys

            keys.take(self)  # it has the names of commands
        if key == "theme":
            self.theme = str(value)
        self.set_class(changed.ascii, "-ascii")
        if key == "ascii":  # rows that were made already did not pass the filter
            for screen in self.screen_stack:
                for widget in screen.walk_children(Widget):
                    widget.notify_style_update()
                    widget.refresh()
        why = save_settings(changed, self.settings_path)
        self._repaint()
        return self.phrases.dialogs.setting_not_kept(why) if why else ""

    def action_command_palette(self) -> None:
        """Show the palette, with our words in its line."""
        if not CommandPalette.is_open(cast("App[object]", self)):
            said = self.phrases.dialogs.search_commands()
            self.push_screen(CommandPalette(placeholder=said, id="--command-palette"))

    def action_help(self) -> None:
        """Show what can be done on the screen that is shown."""
        from tui.screens.help import HelpScreen

        screen = self.screen
        if not isinstance(screen, AppScreen):
            return

        def chosen(action: str | None) -> None:
            if action:
                screen.call_later(screen.run_action, action)

        words, shown = self.phrases.commands, (*screen.COMMANDS_SHOWN, PALETTE)
        commands = in_force(self.keymap, words, screen.PLACE, shown)
        self.push_screen(HelpScreen(commands, screen.help_text()), chosen)

    def action_settings(self) -> None:
        """Open the settings."""
        from tui.screens.settings import SettingsScreen

        self.push_screen(SettingsScreen())

    async def action_quit(self) -> None:
        """Leave dryfit; Textual's own key for it asks the same question."""
        self.action_leave()

    def action_leave(self) -> None:
        """Leave dryfit; asks first when not everything is saved."""
        if self._asked_to_leave:
            return  # the question stands already
        mine = self._open
        unsaved = [each for each in mine if each.unsaved and each.retry() and each.waiting]
        if not unsaved:
            self.exit()
            return
        self._asked_to_leave = True

        def answer(choice: str | None) -> None:
            self._asked_to_leave = False
            if choice == "leave":
                self.exit()

        self.ask(
            self.phrases.dialogs.leave_unsaved(unsaved[0].unsaved),
            answer,
            ("stay", "stay", self.phrases.dialogs.stay()),
            ("leave", "leave", self.phrases.dialogs.leave_and_lose()),
        )

    def get_line_filters(self) -> Sequence[LineFilter]:
        """What a row goes through before it is sent: few colours or none, and ASCII only."""
        filters = depth_filters(super().get_line_filters(), self.console)
        return (*filters, ASCII_ONLY) if self.settings.ascii else filters

    def get_system_commands(self, screen: Screen[object]) -> Iterable[SystemCommand]:
        """Every command of the screen is in the palette."""
        return entries(self, screen)

    def close_sessions(self) -> None:
        """Let go of all sessions."""
        for session in self._open:
            session.close()
