"""Miscut: what happened, and at which cut."""

from __future__ import annotations

from typing import ClassVar

from textual import on
from textual.widgets import OptionList

from model.rescue.choices import (
    Lot,
    Made,
    cuts_made,
    may_be_missing,
    may_be_ruined,
    may_be_taken,
    possible,
    taken,
)
from model.rescue.mishap import Mishap, What
from model.session import Session, now
from tui.commands import EVERYWHERE, Command, bindings
from tui.screens.listing import ListRow, ListScreen
from tui.screens.miscut_pick import Pick, PickScreen
from tui.screens.miscut_say import SayScreen
from tui.screens.miscut_ways import Chosen, look_for_ways

COMMANDS = (
    Command("take", ("enter",), "take"),
    Command("other", ("e",), "other"),
    Command("back", ("escape",), "back"),
    *EVERYWHERE,
)
_ALL = tuple(What)
_DIGITS = tuple(
    Command(f"what_{digit}", (str(digit),), f"what({digit})", False)
    for digit in range(1, len(_ALL) + 1)
)
_CUT = "cut"
"""The row that says which cut is meant."""


class MiscutScreen(ListScreen[Chosen]):
    """What went wrong; gives back the way that was chosen, if one was."""

    BINDINGS = bindings("miscut", (*COMMANDS, *_DIGITS))
    PLACE = "miscut"
    COMMANDS_SHOWN: ClassVar[tuple[Command, ...]] = COMMANDS

    def __init__(self, session: Session) -> None:
        """Ask.

        Args:
            session: The session; nothing is changed in it until a way is chosen.
        """
        super().__init__()
        self._session = session
        self._cuts: tuple[Made, ...] = cuts_made(session.state)
        self._cut: Made | None = self._cuts[0] if self._cuts else None

    @property
    def _newest(self) -> bool:
        return self._cut is None or self._cut == self._cuts[0]

    def fill(self) -> None:
        """List what can go wrong, each that can't be now with the reason."""
        words, state = self.words_of(self._session), self._session.state
        step = self._cut.step if self._cut else None
        meant = words.cut_meant(step, self._newest)
        rows = [ListRow("", [("not bold", meant)], 0)]
        if step is not None:
            came = words.cut_came(step, state)
            rows = [ListRow(_CUT, [("bold", meant), ("$text-muted", f"  {came}")], 2)]
        first = len(rows)
        why = possible(state, step)
        for number, what in enumerate(_ALL, 1):
            said = words.what_happened(what)
            if why[what]:
                told = words.why_not_said(why[what])
                rows.append(ListRow("", [("$text-muted not bold", f"   {said} ({told})")], 3))
            else:
                rows.append(
                    ListRow(what.value, [("$text-accent bold", f"{number}  "), ("", said)], 3)
                )
        hint = words.miscut_free()
        if step is not None:
            hint = f"{words.miscut_other(self.key('other'))} {hint}"
        self.show(words.miscut_title(), rows, hint, keep=False)
        listing = self.query_one("#lines", OptionList)
        ready = [n for n, row in enumerate(rows) if n >= first and row.id]
        if ready:
            listing.highlighted = ready[0]

    @on(OptionList.OptionSelected)
    def action_take(self) -> None:
        """The marked one is what happened."""
        if self.chosen == _CUT:
            self.action_other()
        elif self.chosen:
            self._say(What(self.chosen))

    def action_what(self, number: int) -> None:
        """One of them by its number."""
        step = self._cut.step if self._cut else None
        what = _ALL[number - 1]
        why = possible(self._session.state, step)[what]
        if why:
            words = self.words_of(self._session)
            self.hint(f"{words.what_happened(what)} ({words.why_not_said(why)})")
        else:
            self._say(what)

    def _say(self, what: What) -> None:
        """Ask how it really was."""
        state, step = self._session.state, self._cut.step if self._cut else None
        words = self.words_of(self._session)
        if what is What.RUINED:
            self._pick(what, words.which_one(what), may_be_ruined(state))
        elif what is What.MISSING:
            self._pick(what, words.which_one(what), may_be_missing(state))
        elif step is not None and what is What.PIECE:
            meant = self._session.plan.items[taken(step)]
            self._pick(what, words.which_one(what, meant), may_be_taken(state, step))
        elif step is not None:
            self.app.push_screen(SayScreen(self._session, step, self._newest, what), self._chosen)

    def _pick(self, what: What, title: str, lots: tuple[Lot, ...]) -> None:
        words, session = self.words_of(self._session), self._session
        at = self._cut.step.load if self._cut and what is What.PIECE else ""

        def take(screen: PickScreen[Chosen], id: str) -> str:
            def then(chosen: Chosen | None) -> None:
                if chosen is not None:
                    screen.leave_with(chosen)

            return look_for_ways(screen, session, Mishap(what, at, thing=id), then)

        picks = [Pick(lot.item.id, *words.lot_row(lot)) for lot in lots]
        hints = words.miscut_narrow(), words.miscut_none()
        self.app.push_screen(PickScreen(title, picks, hints, take), self._chosen)

    def action_other(self) -> None:
        """Choose another cut."""
        if not self._cuts:
            return
        words, session = self.words_of(self._session), self._session
        here = now()
        picks = [
            Pick(made.step.id, *words.cut_row(made, session.state, here)) for made in self._cuts
        ]

        def take(screen: PickScreen[str], id: str) -> str:
            screen.leave_with(id)
            return ""

        def then(id: str | None) -> None:
            if id is not None:
                self._cut = next(made for made in self._cuts if made.step.id == id)
            self.fill()

        hints = words.miscut_narrow(), words.miscut_none()
        self.app.push_screen(PickScreen(words.which_one(None), picks, hints, take), then)

    def _chosen(self, chosen: Chosen | None) -> None:
        if chosen is not None:
            self.leave_with(chosen)

    def action_back(self) -> None:
        """Back, with nothing changed."""
        self.leave()
