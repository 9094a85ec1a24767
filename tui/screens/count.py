"""Counting a pocket: tick what is really there; what is missing is looked for."""

from __future__ import annotations

from typing import ClassVar

from textual import on
from textual.widgets import OptionList

from model.find import Finder
from model.recount import Count, Recount
from model.session import Session
from tui.commands import EVERYWHERE, Command, bindings
from tui.screens.listing import Line, ListRow, ListScreen

COMMANDS = (
    Command("tick", ("space",), "tick"),
    Command("fewer", ("left", "minus"), "by(-1)"),
    Command("more", ("right", "plus"), "by(1)"),
    Command("all", ("a",), "all"),
    Command("other", ("f",), "other"),
    Command("counted", ("enter",), "counted"),
    Command("back", ("escape",), "back"),
    EVERYWHERE[0],
)


class CountScreen(ListScreen[bool]):
    """One pocket, to be ticked off; gives back whether it was counted."""

    BINDINGS = bindings("count", COMMANDS)
    PLACE = "count"
    COMMANDS_SHOWN: ClassVar[tuple[Command, ...]] = COMMANDS

    def __init__(self, session: Session, recount: Recount, finder: Finder, pocket: int) -> None:
        """Count a pocket.

        Args:
            session: The session.
            recount: What was counted so far.
            finder: Finds things of the plan.
            pocket: The pocket's index.
        """
        super().__init__()
        self._session = session
        self._recount = recount
        self._finder = finder
        self._pocket = pocket
        self._lines = recount.lines(pocket)
        self._seen = [0] * len(self._lines)
        self._others: list[str] = []

    def fill(self) -> None:
        """List what should be in it."""
        words, lists = self.words_of(self._session), self.phrases.lists
        rows: list[ListRow] = []
        for number, (line, seen) in enumerate(zip(self._lines, self._seen, strict=True)):
            want = len(line.copies)
            box = "[x]" if seen == want else "[ ]" if not seen else "[-]"
            tone = "$text-success bold" if seen == want else "bold"
            count = f"  {lists.so_many_of(seen, want)}" if want > 1 else ""
            parts: list[Line] = [(tone, f"{box} "), ("", words.count_line(line)), (tone, count)]
            if line.stray:
                parts.append(("$text-error", f"  {lists.not_here()}"))
            rows.append(ListRow(str(number), parts))
        items = self._session.plan.items
        for id in self._others:
            rows.append(
                ListRow(f"x:{id}", [("$text-warning bold", "[+] "), ("", words.named(items[id]))])
            )
        if not rows:
            rows.append(ListRow("none", [("$text-muted", lists.empty())]))
        label = words.pocket(self._pocket)
        tick, other, counted = self.key("tick"), self.key("other"), self.key("counted")
        self.show(lists.count_title(label), rows, lists.count_hint(tick, other, counted))

    @property
    def _row(self) -> int | None:
        return int(self.chosen) if self.chosen.isdigit() else None

    def action_tick(self) -> None:
        """All of this row are there; or none, if all were."""
        row = self._row
        if row is None:
            if self.chosen.startswith("x:"):
                self._others.remove(self.chosen.removeprefix("x:"))
                self.fill()
            return
        want = len(self._lines[row].copies)
        self._seen[row] = 0 if self._seen[row] == want else want
        self.fill()
        if self._seen[row]:
            self.query_one("#lines", OptionList).action_cursor_down()

    def action_by(self, by: int) -> None:
        """One more or fewer of this row is there."""
        row = self._row
        if row is not None:
            self._seen[row] = max(0, min(len(self._lines[row].copies), self._seen[row] + by))
            self.fill()

    def action_all(self) -> None:
        """Everything listed is there."""
        self._seen = [len(line.copies) for line in self._lines]
        self.fill()

    def action_other(self) -> None:
        """Something else is in it: find out what."""
        from tui.screens.find import FindScreen

        def found(item: str | None) -> None:
            if item is not None:
                self._others.append(self._recount.seen_in(self._pocket, item, self._others))
            self.fill()

        words = self.words_of(self._session)
        title = self.phrases.lists.what_else(words.pocket(self._pocket))
        self.app.push_screen(FindScreen(self._session, self._finder, title), found)

    def row_touched(self) -> bool:
        """A row that is touched is ticked; only Enter, or the footer, ends the count."""
        self.action_tick()
        return True

    @on(OptionList.OptionSelected)
    def action_counted(self) -> None:
        """That is all that is in it."""
        missing = [
            copy
            for line, seen in zip(self._lines, self._seen, strict=True)
            for copy in line.copies[seen:]
        ]
        count = Count(self._pocket, tuple(missing), tuple(self._others))
        self._recount.counts[self._pocket] = count
        self.leave_with(True)

    def action_back(self) -> None:
        """Back, without counting."""
        self.leave_with(False)
