"""The account: scraps, sheets, pockets and warnings; at the end, the closing account."""

from __future__ import annotations

from typing import ClassVar

from model.account import account_of
from model.report import report_lines, report_text, save_report
from model.session import Session, now
from tui.commands import EVERYWHERE, Command, bindings
from tui.screens.listing import ListRow, ListScreen, head_row

COMMANDS = (
    Command("back", ("a", "escape"), "back"),
    Command("save", ("s",), "save"),
    *EVERYWHERE,
)
_TONES = {"good": "$text-success", "bad": "$text-error bold", "plain": ""}


class AccountScreen(ListScreen[None]):
    """Where all the paper is."""

    BINDINGS = bindings("account", COMMANDS)
    PLACE = "account"
    COMMANDS_SHOWN: ClassVar[tuple[Command, ...]] = COMMANDS

    def __init__(self, session: Session) -> None:
        """Show a session's account."""
        super().__init__()
        self._session = session

    def fill(self) -> None:
        """Draw it up."""
        ascii = self.ascii
        signs = {"good": "+" if ascii else "✓", "bad": "!", "plain": " "}
        account = account_of(self._session)
        manner = self.dryfit.manner_of(self._session)
        rows: list[ListRow] = []
        for number, (tone, line) in enumerate(report_lines(self._session, account, manner)):
            if tone == "head":
                rows.append(head_row(line))
            else:
                said = (_TONES[tone], f"  {signs[tone]} {line}")
                rows.append(ListRow(f"l{number}", [said]))
        kit = self._session.plan.kit.title
        self.show(self.phrases.lists.account_title(account.finished, kit), rows)

    def action_back(self) -> None:
        """Back to the table."""
        self.leave()

    def action_save(self) -> None:
        """Save the account as a text file beside the session."""
        words = self.phrases.lists
        account = account_of(self._session)
        manner = self.dryfit.manner_of(self._session)
        title, path = self._session.plan.kit.title, self._session.path
        folder = path.parent if path is not None else None
        if folder is None:
            self.hint(words.no_folder())
            return
        try:
            saved = save_report(report_text(self._session, account, manner), folder, title, now())
        except OSError as error:
            self.hint(words.not_saved(str(error.strerror or error)))
            return
        self.hint(words.saved(str(saved)))
