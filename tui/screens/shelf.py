"""The shelf: unfinished sessions first, then the kits at hand."""

from __future__ import annotations

from datetime import UTC, datetime
from pathlib import Path
from typing import ClassVar

from textual import on
from textual.widgets import OptionList

from model.session_file import is_session
from model.shelf import kits_at_hand, sessions_in
from model.wording import English
from tui.app import folders
from tui.commands import EVERYWHERE, Command, bindings
from tui.screens.listing import Line, ListScreen

COMMANDS = (
    Command("open", ("enter", "space"), "open", "open", "Resume the session, or start the kit."),
    Command("path", ("slash", "f"), "path", "", "Open a kit or a session by its path."),
    Command("again", ("r",), "again", "look again", "Look into the folders again."),
    Command("settings", ("comma",), "app.settings", "settings", "Units, ruler, looks."),
    *EVERYWHERE,
)


class ShelfScreen(ListScreen[None]):
    """Kits at hand, and sessions that were begun."""

    BINDINGS = bindings(COMMANDS)
    COMMANDS_SHOWN: ClassVar[tuple[Command, ...]] = COMMANDS
    HELP_TEXT = (
        "Choose a kit to start it, or a session to go on where you stopped. Put your own kit "
        "files into the folder named at the bottom, or give a path on the command line."
    )

    def fill(self) -> None:
        """List what there is."""
        _, kits_folder, why = folders()
        rows: list[tuple[str, list[Line]]] = []
        sessions = sessions_in(self.dryfit.sessions)
        unfinished = [s for s in sessions if not s.finished and not s.trouble]
        if unfinished:
            rows.append(("", [("bold", "Go on with")]))
        for session in unfinished:
            far = English.how_far(session.done, session.steps, session.to_file)
            rows.append(
                (
                    f"s:{session.path}",
                    [
                        ("bold", f"  {session.title}"),
                        (
                            "$text-muted",
                            f"  {far}, {ago(session.touched)}",
                        ),
                    ],
                )
            )
        rows.append(("", [("bold", "Start a kit")]))
        own = [kits_folder] if kits_folder else []
        for kit in kits_at_hand(own):
            if kit.trouble:
                rows.append(
                    (
                        f"k:{kit.path}",
                        [("", f"  {kit.title}"), ("$text-error", f"  {kit.trouble[:60]}")],
                    )
                )
                continue
            about = f"{kit.pages} pages" + (", demo, invented" if kit.demo else "")
            rows.append(
                (f"k:{kit.path}", [("bold", f"  {kit.title}"), ("$text-muted", f"  {about}")])
            )
        finished = [s for s in sessions if s.finished or s.trouble]
        if finished:
            rows.append(("", [("bold", "Finished, or not readable")]))
        for session in finished[:50]:
            rest = session.trouble[:70] or f"finished, {ago(session.touched)}"
            rows.append(
                (f"s:{session.path}", [("", f"  {session.title}"), ("$text-muted", f"  {rest}")])
            )
        place = f"Your own kits: {kits_folder}" if kits_folder else f"Nothing can be kept: {why}"
        self.show("dryfit: the shelf", rows, place)

    def on_screen_resume(self) -> None:
        """Look again when one comes back."""
        if self.is_mounted:
            self.fill()

    def action_again(self) -> None:
        """Look into the folders again."""
        self.fill()

    def action_open(self) -> None:
        """Resume the session, or start the kit."""
        kind, _, path = self.chosen.partition(":")
        if kind == "s":
            self.dryfit.open_session(Path(path))
        elif kind == "k":
            self.dryfit.start_kit(Path(path))

    def action_path(self) -> None:
        """Ask for a path."""
        from tui.screens.ask import Ask

        def answer(text: str | None) -> None:
            if not text:
                return
            path = Path(text.strip().strip("'\"")).expanduser()
            if is_session(path):
                self.dryfit.open_session(path)
            else:
                self.dryfit.start_kit(path)

        self.app.push_screen(Ask("Path of a kit or a session:"), answer)

    @on(OptionList.OptionSelected)
    def _selected(self, event: OptionList.OptionSelected) -> None:
        self.action_open()


def ago(then: datetime, now: datetime | None = None) -> str:
    """How long ago, in words."""
    days = ((now or datetime.now(UTC)) - then).days
    if days <= 0:
        minutes = int(((now or datetime.now(UTC)) - then).total_seconds() // 60)
        if minutes < 2:
            return "just now"
        return f"{minutes} min ago" if minutes < 60 else f"{minutes // 60} h ago"
    return "yesterday" if days == 1 else f"{days} days ago"
