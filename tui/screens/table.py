"""The table: one cut at a time, and every piece to its pocket."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import ClassVar

from textual import on
from textual.app import ComposeResult

from model.lessons import Lessons
from model.moment import Moment, moment_of
from model.session import Session, Told
from tui import parts, parts_step
from tui.commands import Command, bindings
from tui.greeting import greeting_row
from tui.pagekeys import PageKeys
from tui.room import Room, share, side_width
from tui.screens.table_miscut import MiscutTable
from tui.table_commands import COMMANDS, DIGITS, SHOWN, on_the_table
from tui.tabletouch import touched
from tui.widgets.drawing import Drawing
from tui.widgets.panel import Panel, Row


class TableScreen(MiscutTable):
    """The work screen of one session."""

    BINDINGS = bindings("table", (*COMMANDS, *DIGITS))
    PLACE = "table"
    COMMANDS_SHOWN: ClassVar[tuple[Command, ...]] = SHOWN

    def __init__(self, session: Session, teach: bool = False) -> None:
        """Show a session.

        Args:
            session: The session; it is closed by whoever opened it.
            teach: Teach the table by doing.
        """
        super().__init__()
        self.session = session
        self.pages = PageKeys(session.plan)
        self.chosen = ""
        self.said: Row = []
        self._welcome: tuple[int, tuple[str, ...], str] = (0, (), "")
        self._panels: dict[str, Panel] = {}
        self.lessons = Lessons() if teach else None
        self.room = Room()
        self._arranged: tuple[int, ...] = ()
        self._footer: tuple[tuple[object, ...], list[Row]] | None = None
        self.moment: Moment = self._look()

    # What stands where

    def compose(self) -> ComposeResult:
        """One widget for each region."""
        # No containers: every layer beneath a changed row would be rendered again for it.
        yield Panel(id="side")
        yield Panel(id="edge")  # apart, so that it is not sent again with each row of the side
        yield Panel(id="bar")
        yield Drawing(id="step", ascii=self.ascii, margin=1)
        yield Panel(id="brief")
        yield Panel(id="said")
        yield Panel(id="keys")

    def on_mount(self) -> None:
        """Paint the first moment; look on when another program has the session."""
        self._panels = {panel.id or "": panel for panel in self.query(Panel)}
        self._step = self.query_one(Drawing)
        if self.session.watching:
            self.set_interval(1.0, self._poll)
        self.paint()

    def _look(self) -> Moment:
        manner = self.dryfit.manner_of(self.session)
        if self.chosen not in self.session.state.pile:
            self.chosen = ""
        return self.with_lesson(moment_of(self.session, manner, self.chosen))

    def paint(self) -> None:
        """Show the moment; each region repaints only the rows that differ."""
        moment, ascii, panels = self.moment, self.ascii, self._panels
        title, names = self.session.plan.kit.title, self.key_names()
        typed, status = self.pages.hint(moment.words), self._status()
        width, height = self.size
        side = side_width(width)
        figures = self.dryfit.settings.figures
        need = parts_step.need(moment, width - side, height, side, ascii, figures)
        self.room = room = share(height, replace(need, said=bool(status)))
        self._arrange(side)
        panels["bar"].show(lambda w, h: parts.bar(title, moment, w))
        self._step.set_ascii(ascii)
        self._step.draw(
            moment.scene,
            lambda w, h: parts_step.step(moment, typed, ascii, w, height, room, names, figures),
        )
        panels["side"].show(lambda w, h: parts.side(moment, w, h, self.chosen, ascii))
        panels["brief"].show(lambda w, h: parts.brief(moment, w, h, ascii))
        panels["said"].show(lambda w, h: [status])
        keys = [status] if status and not room.said else self._keys_row(width)
        panels["keys"].show(lambda w, h: keys)

    def _keys_row(self, width: int) -> list[Row]:
        """The footer, which changes only with the keys, the language and the width."""
        made_for = (width, self.ascii, self.dryfit.keymap, self.phrases)
        if self._footer is None or self._footer[0] != made_for:
            self._footer = made_for, parts.footer(self.shown_footer(), self.ascii, width)
        return self._footer[1]

    def _arrange(self, side: int) -> None:
        """Give each region its rows, and the side its columns.

        Set here and not by classes: where a class changes, all styles are looked up again,
        which takes longer than all else that a key does.
        """
        room = self.room
        wanted = (side, room.bar, room.brief, room.said, room.keys)
        if wanted == self._arranged:
            return
        self._arranged = wanted
        for id, rows in (
            ("bar", room.bar), ("brief", room.brief), ("said", room.said), ("keys", room.keys)
        ):  # fmt: skip
            self._panels[id].styles.height = rows
        panel = self._panels["side"]
        panel.display = side > 0
        panel.styles.width = max(0, side - 1)
        panel.styles.margin = (room.bar, 0, room.said + room.keys, 0)
        edge = self._panels["edge"]
        edge.display = side > 0
        edge.styles.margin = (room.bar, max(0, side - 1), room.said + room.keys, 0)
        edge.show(lambda w, h: [[("│", "edge")]] * h)
        # What is docked at one edge lies upon the other: room for both is left above them.
        self._panels["said"].styles.offset = (0, -room.keys)
        self._step.styles.margin = (0, 0, 0 if room.brief else room.said, 0)
        self._panels["brief"].styles.margin = (0, 0, room.said if room.brief else 0, 0)

    def on_resize(self) -> None:
        """Another size has room for something else."""
        self.paint()

    def greet(self, brief: tuple[str, ...], whole: str) -> None:
        """Say where one stands until something is said; `action_read` has the whole of it."""
        self._welcome = (self.session.said, brief, whole)
        if self._panels:
            self.paint()

    @property
    def greeted(self) -> bool:
        """Whether it is told where one stands, and nothing else."""
        return self._welcome[0] == self.session.said and not self.said and bool(self._welcome[1])

    def _status(self) -> Row:
        session, width = self.session, self.size.width
        if session.watching:
            return [(f" {self.words.looking_on(session.unsaved)}", "warn")]
        if session.unsaved:
            said = self.words.not_saved(session.unsaved, session.waiting)
            return parts.not_saved(said, str(session.path or ""), width)
        said_at, brief, _ = self._welcome
        parts_said = brief if said_at == session.said else ()
        return self.said or greeting_row(
            parts_said, width, self.phrases.table, self.key_names()["read"]
        )

    def footer(self) -> list[Command]:
        """The commands that the footer shows.

        Where it is short the digits give way to pockets and scraps, which no side shows there:
        which digit it is, is said above.
        """
        broad = side_width(self.size.width) > 0
        return [command for command in SHOWN if broad or command.id != "pocket"]

    def look_again(self) -> None:
        """Work the moment out anew, and show it."""
        self.moment = self._look()
        self.paint()

    def _poll(self) -> None:
        if self.session.poll():
            self.look_again()

    # Saying things

    def after(self, told: Told, said: str) -> None:
        """Show what came of saying something."""
        self.pages.clear()
        words = self.words
        if not told.taken:
            self.said = [(f" {words.objection(told.objection)}", "warn")]
        elif told.raised:
            self.said = []
            self.ring()
        else:
            self.said = [(f" {said}", "good")] if said else []
        self.chosen = ""
        self.look_again()

    def blocked(self) -> bool:
        """Whether a warning wants an answer before the one key goes on."""
        if self.moment.pressing is None:
            return False
        names = self.key_names()
        right, leave = names["right"], names["leave"]
        said = f" {self.phrases.table.answer_first(right, leave)}"
        self.said = [(said, "warn")]
        self.paint()
        return True

    def action_did(self) -> None:
        """The one key: what is due was done as it should be."""
        if self.pages.typed:
            self._into(self.pages.enter())
            return
        if self.blocked():
            return
        self.learn("did")
        moment = self.moment
        if moment.over:
            self.action_account()
            return
        item = moment.due.item
        if item is not None:
            said = self.words.filed(item, self.session.state.belongs(item))
            self.after(self.session.file_where_it_belongs(item), said)
        else:
            self.after(self.session.next(), "")

    def action_digit(self, digit: str) -> None:
        """A page number was typed: what is in hand went into that page's pocket."""
        pocket = self.pages.press(digit)
        if pocket is None and self.pages.typed:
            self.paint()
            return
        self._into(pocket)

    def action_pocket(self, index: int) -> None:
        """What is in hand went into a pocket that was chosen by its name."""
        self._into(index)

    def action_clear(self) -> None:
        """Forget what was typed of a page number; else put away what is taught or cautioned."""
        if not self.pages.typed:
            if self.end_lessons():
                return
            self.session.cautioned.update(self.moment.caution_codes)
        self.pages.clear()
        self.look_again()

    def _into(self, pocket: int | None) -> None:
        """What is in hand, or what a warning names, went into a pocket."""
        if pocket is None:
            self.said = [(f" {self.phrases.table.no_such_page()}", "warn")]
            self.paint()
            return
        self.learn("pocket")
        pressing = self.moment.pressing
        words = self.words
        if pressing is not None and pressing.warning.items:
            told = self.session.answer(pressing.warning, pocket)
            self.after(told, words.filed(pressing.warning.items[-1], pocket))
            return
        if self.blocked():
            return
        item = self.moment.due.item
        told = self.session.file_into(pocket, item)
        self.after(told, words.filed(item, pocket) if item else "")

    def action_scrap(self) -> None:
        """What is in hand, or what a warning names, was thrown to the scraps."""
        pressing = self.moment.pressing
        if pressing is not None and not pressing.warning.items and self.blocked():
            return
        item = self.moment.due.item
        self.after(self.session.scrap(item), self.words.scrapped(item) if item else "")

    def action_put_right(self) -> None:
        """Put right what the warning names."""
        alert = self.moment.pressing
        if alert is None:
            # No list is opened: a key that is held down would settle what was left on purpose.
            self.said = [
                (f" {self.phrases.table.none_before(self.key_names()['warnings'])}", "plain")
            ]
            self.paint()
            return
        self.learn("right")
        told = self.session.put_right(alert.warning)
        self.after(told, self.phrases.table.put_right(alert.remedy))

    def action_leave_warning(self) -> None:
        """Leave the newest warning for later."""
        alert = self.moment.pressing
        if alert is not None:
            self.after(self.session.leave(alert.warning), self.phrases.table.left_for_now())

    def action_pace(self) -> None:
        """Change between filing after each cut and after each load."""
        by_load = not self.session.state.by_load
        self.after(self.session.pace_by(by_load), self.phrases.table.pace(by_load))

    def action_skip(self) -> None:
        """Leave out an optional step."""
        if self.blocked():
            return
        self.after(self.session.skip(), self.words.left_out(self.session.state.last_said()))

    def action_choose(self, by: int) -> None:
        """Take another thing of the pile in hand."""
        ids = [line.id for line in self.moment.pile]
        if not ids or self.blocked():
            return
        here = ids.index(self.moment.due.item) if self.moment.due.item in ids else -1
        self.chosen = ids[(here + by) % len(ids)] if here >= 0 else ids[0]
        self.look_again()

    def action_take(self, id: str) -> None:
        """Take this thing of the pile in hand."""
        if self.blocked():
            return
        self.chosen = id
        self.look_again()

    def more_commands(self) -> Sequence[Command]:
        """What else the palette has: each pocket, and each thing on the pile."""
        return on_the_table(self.moment, self.phrases.table)

    # Other screens

    def action_warnings(self) -> None:
        """List all warnings that stand."""
        from tui.screens.warnings import WarningsScreen

        self.app.push_screen(WarningsScreen(self.session), lambda _: self.look_again())

    def action_pockets(self) -> None:
        """Open the pocket inventory."""
        from tui.screens.pockets import PocketsScreen

        self.app.push_screen(PocketsScreen(self.session), lambda _: self.look_again())

    def action_account(self) -> None:
        """Open the account."""
        from tui.screens.account import AccountScreen

        self.app.push_screen(AccountScreen(self.session), lambda _: self.look_again())

    def action_shelf(self) -> None:
        """Put the kit away and go to the shelf; the session is kept as it is."""
        self.dryfit.put_away(self.session)

    def action_read(self) -> None:
        """Show all that is said of this step."""
        from tui.screens.dialog import Choice, Dialog

        moment = self.moment
        said, _, whole = self._welcome
        greeting = whole if said == self.session.said else ""
        waits = moment.words.waits(moment.waits) if moment.waits else ""
        parts = (greeting, moment.sentence, *moment.cautions, *moment.more, waits)
        text = "\n\n".join(part for part in parts if part)
        self.app.push_screen(Dialog(text, (Choice("ok", "no", self.phrases.dialogs.back()),)))

    # The mouse, or a finger

    @on(Panel.RowClicked)
    def _touched(self, event: Panel.RowClicked) -> None:
        touched(self, event)
