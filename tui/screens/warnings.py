"""All warnings that stand, each to be put right or left."""

from __future__ import annotations

from collections.abc import Sequence
from typing import ClassVar

from textual import on
from textual.widgets import OptionList

from model.moment import Alert, alerts_of
from model.session import Session, Told
from tui.commands import EVERYWHERE, Command, bindings
from tui.screens.listing import ListRow, ListScreen

COMMANDS = (
    Command("back", ("w", "escape"), "back"),
    Command("right", ("p",), "put_right"),
    Command("leave", ("l",), "leave_it"),
    *EVERYWHERE,
)  # fmt: skip


class WarningsScreen(ListScreen[None]):
    """The warnings of a session."""

    BINDINGS = bindings("warnings", COMMANDS)
    PLACE = "warnings"
    COMMANDS_SHOWN: ClassVar[tuple[Command, ...]] = COMMANDS

    def __init__(self, session: Session) -> None:
        """Show a session's warnings."""
        super().__init__()
        self._session = session
        self._alerts: dict[str, Alert] = {}

    def fill(self) -> None:
        """List them."""
        alerts = alerts_of(self._session.state, self.words_of(self._session))
        self._alerts = {alert.warning.id: alert for alert in alerts}
        key, lists = self.key("right"), self.phrases.lists
        rows: list[ListRow] = []
        for alert in alerts:
            said = [
                ("$text-error", f"! {alert.text}"),
                ("$text-accent", f"\n{key}: {alert.remedy}"),
                ("$text-muted", f"  {lists.left_for_later()}" if alert.left else ""),
            ]
            rows.append(ListRow(alert.warning.id, said, 2))
        if not rows:
            rows = [ListRow("none", [("$text-success", lists.no_warning())])]
        self.show(lists.warnings_title(len(alerts)), rows)

    def footer(self) -> Sequence[Command]:
        """With no warning there is nothing to put right or to leave."""
        if self._alerts:
            return COMMANDS
        return [command for command in COMMANDS if command.id not in ("right", "leave")]

    def row_touched(self) -> bool:
        """A row that is touched is marked; what is done about it the footer has."""
        return True

    @on(OptionList.OptionSelected)
    def _selected(self) -> None:
        # The one key never runs over a warning: a pedal that is pressed on settles nothing.
        if self._alerts:
            self.hint(self.phrases.lists.answer_with(self.key("right"), self.key("leave")))

    def action_put_right(self) -> None:
        """Put right what the chosen warning names."""
        alert = self._alerts.get(self.chosen)
        if alert is not None:
            told = self._session.put_right(alert.warning)
            self.fill()
            self.hint(self._said(told, self.phrases.lists.put_right(alert.remedy)))

    def _said(self, told: Told, said: str) -> str:
        """What came of saying something."""
        return said if told.taken else self.words_of(self._session).objection(told.objection)

    def action_leave_it(self) -> None:
        """Leave the chosen warning for later."""
        alert = self._alerts.get(self.chosen)
        if alert is not None and not alert.left:
            told = self._session.leave(alert.warning)
            self.fill()
            self.hint(self._said(told, self.phrases.lists.left()))

    def action_back(self) -> None:
        """Back to the table."""
        self.leave()
