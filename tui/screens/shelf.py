"""The shelf: unfinished sessions first, then the kits at hand."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import ClassVar

from textual import on
from textual.message import Message
from textual.timer import Timer
from textual.widgets import OptionList

from model.folders import kept_in
from model.language.sentences import sentence
from model.session import Session, SessionError
from model.session_file import is_session
from model.shelf import KitOnShelf, SessionOnShelf, kits_at_hand, sessions_in
from model.waiting import waits_of
from tui.commands import EVERYWHERE, Command, bindings
from tui.screens.listing import Line, ListRow, ListScreen, head_row

COMMANDS = (
    Command("open", ("enter", "space"), "open"),
    Command("path", ("f", "slash"), "path"),
    Command("again", ("r",), "again"),
    Command("settings", ("comma",), "app.settings"),
    *EVERYWHERE,
)  # fmt: skip
_PAUSE = 0.2
"""Seconds on one row before its session is read: who runs past a row waits for nothing."""


class ShelfScreen(ListScreen[None]):
    """Kits at hand, and sessions that were begun."""

    class SummedUp(Message):
        """A session was read; tells where it stands."""

        def __init__(self, path: Path, version: tuple[int, int], text: str) -> None:
            """Keep what was found.

            Args:
                path: The session's file.
                version: When it was written, and its size, as it was read.
                text: Where it stands.
            """
            super().__init__()
            self.path = path
            self.version = version
            self.text = text

    BINDINGS = bindings("shelf", COMMANDS)
    PLACE = "shelf"
    COMMANDS_SHOWN: ClassVar[tuple[Command, ...]] = COMMANDS

    def __init__(self) -> None:
        """Begin with nothing read."""
        super().__init__()
        self._sessions: dict[str, SessionOnShelf] = {}
        self._kits: dict[str, KitOnShelf] = {}
        self._summaries: dict[Path, tuple[tuple[int, int], str]] = {}
        self._pause: Timer | None = None

    def fill(self) -> None:
        """List what there is."""
        _, kits_folder, why = kept_in()
        sessions = sessions_in(self.dryfit.sessions)
        kits = kits_at_hand([kits_folder] if kits_folder else [])
        self._sessions = {f"s:{session.path}": session for session in sessions}
        self._kits = {f"k:{kit.path}": kit for kit in kits}
        words = self.phrases.shelf
        rows: list[ListRow] = []
        unfinished = [s for s in sessions if not s.finished and not s.trouble]
        if unfinished:
            rows.append(head_row(words.head("unfinished")))
        for session in unfinished:
            far = words.how_far(session.done, session.steps, session.to_file)
            about = words.unfinished(far, words.ago(since(session.touched)))
            rows.append(_row(f"s:{session.path}", session.title, about, True))
        rows.append(head_row(words.head("kits")))
        for kit in kits:
            about = words.kit(kit.pages, kit.demo)
            said = words.unusable() if kit.trouble else f"{about}  {kit.path.stem}"
            rows.append(_row(f"k:{kit.path}", kit.title, said, not kit.trouble))
        place = words.own_kits(str(kits_folder)) if kits_folder else words.nothing_kept(why)
        rows.append(ListRow("", [("$text-muted not bold", f"  {place}")]))
        finished = [s for s in sessions if s.finished or s.trouble]
        if finished:
            rows.append(head_row(words.head("finished")))
        for session in finished[:50]:
            ago = words.ago(since(session.touched))
            said = words.unreadable() if session.trouble else words.finished(ago)
            rows.append(_row(f"s:{session.path}", session.title, said, False))
        if len(finished) > 50:
            more = f"  {words.more_sessions(len(finished) - 50)}"
            rows.append(ListRow("", [("$text-muted not bold", more)]))
        self.show(words.title(), rows)
        self._tell()

    @on(OptionList.OptionHighlighted)
    def _tell(self) -> None:
        """Tell more of the row that is marked; a session is read when one stays there."""
        self._stop_reading()
        session, kit = self._sessions.get(self.chosen), self._kits.get(self.chosen)
        if kit is not None:
            trouble = self.phrases.shelf.why_unreadable(kit.trouble)
            self.hint(sentence(trouble) if kit.trouble else kit.note)
        elif session is not None and session.trouble:
            self.hint(sentence(session.trouble))
        elif session is not None:
            version, text = self._summaries.get(session.path, (None, ""))
            self.hint(text)
            if self.is_current and version != _version(session.path):
                self._pause = self.set_timer(_PAUSE, lambda: self._read(session.path))
        else:
            self.hint("")

    def _read(self, path: Path) -> None:
        """Read a session beside the screen: a long one takes its time."""

        def read() -> None:
            version = _version(path)
            try:
                session = Session.watch(path)
                lines = [trouble.text for trouble in session.troubles]
                words = self.dryfit.words(session)
                lines += words.standing(session.state, waits_of(session, words))
            except (SessionError, OSError) as error:
                lines = [str(error)]
            self.post_message(self.SummedUp(path, version, "\n".join(map(sentence, lines))))

        self.run_worker(read, thread=True, exclusive=True, exit_on_error=False)

    @on(SummedUp)
    def _summed_up(self, event: SummedUp) -> None:
        """A session was read; it is told if its row is still the one that is marked."""
        self._summaries[event.path] = event.version, event.text
        if self.is_current and self.chosen == f"s:{event.path}":
            self.hint(event.text)

    def _stop_reading(self) -> None:
        """Begin to read no more."""
        if self._pause is not None:
            self._pause.stop()

    def on_screen_suspend(self) -> None:
        """What lies over the shelf has the machine to itself."""
        self._stop_reading()

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

        beside = self.phrases.dialogs.line_keys()
        self.app.push_screen(Ask(self.phrases.shelf.ask_path(), beside), answer)

    @on(OptionList.OptionSelected)
    def _selected(self, event: OptionList.OptionSelected) -> None:
        self.action_open()


def _row(id: str, title: str, about: str, usable: bool) -> ListRow:
    """A kit or a session."""
    words: list[Line] = [("bold" if usable else "", f"  {title}"), ("$text-muted", f"  {about}")]
    return ListRow(id, words)


def _version(path: Path) -> tuple[int, int]:
    """What tells a file that was written to from the same one before."""
    try:
        found = path.stat()
    except OSError:
        return 0, 0
    return found.st_mtime_ns, found.st_size


def since(then: datetime, now: datetime | None = None) -> timedelta:
    """How long ago that was."""
    return (now or datetime.now(UTC)) - then
