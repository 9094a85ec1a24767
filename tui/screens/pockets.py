"""The pocket inventory: every pocket with every piece."""

from __future__ import annotations

from typing import ClassVar

from textual.widgets import OptionList

from model.alerts import alerts_of
from model.inventory import Holding, Inventory, Row
from model.language.english.words import English
from model.likeness import LookAlikes
from model.recount import Recount
from model.session import Session
from model.settlement import Settlement
from tui import table_commands
from tui.commands import EVERYWHERE, Command, bindings, key_of
from tui.pagekeys import PageKeys
from tui.screens.count import CountScreen
from tui.screens.listing import Line, ListRow, ListScreen
from tui.screens.settling import Settling

COMMANDS = (
    Command("back", ("k", "escape"), "back"),
    Command("move", ("m",), "move"),
    Command("count", ("c",), "count"),
    Command("count_all", ("g",), "count_all"),
    Command("next_pocket", ("right", "tab"), "jump(1)"),
    Command("last_pocket", ("left",), "jump(-1)"),
    Command("undo", ("u",), "undo"),
    *EVERYWHERE,
)
_DIGITS = tuple(
    Command(f"to_{digit}", (str(digit),), f"digit('{digit}')", False) for digit in range(10)
)


class PocketsScreen(ListScreen[None]):
    """What each pocket holds and waits for."""

    BINDINGS = bindings("pockets", (*COMMANDS, *_DIGITS))
    PLACE = "pockets"
    COMMANDS_SHOWN: ClassVar[tuple[Command, ...]] = COMMANDS

    def __init__(self, session: Session) -> None:
        """Show a session's pockets."""
        super().__init__()
        self._session = session
        self._made_for = session.plan
        self._inventory = Inventory(session.plan)
        self._pages = PageKeys(session.plan)
        self._moving = ""
        self._told_of = ""  # the row that was marked when the hint was given
        self._starts: list[int] = []
        self._rows: dict[str, Row] = {}

    @property
    def _words(self) -> English:
        return self.words_of(self._session)

    def fill(self) -> None:
        """List all pockets."""
        rows: list[ListRow] = []
        self._starts, self._rows = [], {}
        words, state = self._words, self._session.state
        if self._made_for is not self._session.plan:  # undo took a rescue back
            self._made_for = self._session.plan
            self._inventory = Inventory(self._made_for)
        for pocket in self._session.plan.kit.pockets:
            self._starts.append(len(rows))
            holding = self._inventory.holding(state, pocket.index)
            held = self.phrases.lists.so_many_of(
                state.held(pocket.index), state.wanted(pocket.index)
            )
            head = f"{words.pocket(pocket.index)}  {held}"
            keys = words.press(pocket.index)
            said = [("bold", head), ("$text-accent", f"  [{keys}]")]
            if holding.strays:
                said.insert(0, ("$text-error bold", "! "))
            elif pocket.index in state.checked:
                said.append(("$text-success", f"  {'+' if self.ascii else '✓'} {words.checked()}"))
            rows.append(ListRow(f"p:{pocket.index}", said, 0))
            rows += self._pieces(holding, words)
        title = self.phrases.lists.pockets_title(self._session.plan.kit.title)
        self.show(title, rows, self._standing_hint())

    def _standing_hint(self) -> str:
        """What is said beneath the list while nothing else is."""
        if not self._moving:
            return self.phrases.lists.pockets_hint(self.key("move"))
        piece = self._words.named(self._session.plan.items[self._moving])
        return self.phrases.lists.moving_hint(piece)

    def _pieces(self, holding: Holding, words: English) -> list[ListRow]:
        rows: list[ListRow] = []
        items = self._session.plan.items
        for stray in holding.strays:
            goes = words.goes(items[stray], self._session.state.belongs(stray))
            said = [
                ("$text-error bold", f"  !     {words.named(items[stray])}"),
                ("$text-error", f"  {words.stray_in_list(goes)}"),
            ]
            rows.append(ListRow(f"x:{stray}", said, 8))
        for number, row in enumerate(holding.rows):
            id = f"r:{holding.pocket}:{number}"
            self._rows[id] = row
            rows.append(ListRow(id, words_of_row(row, words, self.ascii), 8))
        for sheet, place in holding.bases:
            base = f"        {words.base_in_list(sheet.name, sheet.base or 0, place)}"
            rows.append(ListRow(f"b:{sheet.name}", [("$text-muted", base)], 8))
        return rows

    def action_back(self) -> None:
        """Back to the table."""
        if self._moving:
            self._moving = ""
            self.fill()
        else:
            self.leave()

    def action_jump(self, by: int) -> None:
        """To another pocket."""
        listing = self._listing
        here = listing.highlighted or 0
        before = [n for n, start in enumerate(self._starts) if start <= here]
        number = ((before[-1] if before else 0) + by) % len(self._starts)
        self._go(self._starts[number])

    def _go(self, row: int) -> None:
        """To a row, which comes to the top."""
        self._listing.highlighted = row
        self._listing.scroll_to_highlight(top=True)
        self.hint(self._standing_hint())

    def hint(self, text: str) -> None:
        """Say something beneath the list, of the row that is marked."""
        self._told_of = self.chosen
        super().hint(text)

    def on_option_list_option_highlighted(self) -> None:
        """What was said of another row is said no more."""
        if self.chosen != self._told_of:
            self.hint(self._standing_hint())

    @property
    def _listing(self) -> OptionList:
        return self.query_one("#lines", OptionList)

    def action_digit(self, digit: str) -> None:
        """To the pocket of a page; or the pocket that the moved piece is in."""
        self._to(self._pages.press(digit))

    def row_touched(self) -> bool:
        """With a piece to move, the pocket that is touched is the one it is really in."""
        if self._moving:
            here = self._listing.highlighted or 0
            self._move_to(sum(start <= here for start in self._starts) - 1)
        return True

    def on_option_list_option_selected(self) -> None:
        """Enter ends a page number that others begin with."""
        if self._pages.typed:
            self._to(self._pages.enter())

    def _to(self, pocket: int | None) -> None:
        if pocket is None:
            self.hint(self._pages.hint(self.phrases.table) or self.phrases.lists.no_such_page())
            return
        if self._moving:
            self._move_to(pocket)
            return
        self._go(self._starts[pocket])

    # Counting

    def action_count(self) -> None:
        """Count the pocket that is shown."""
        here = self._listing.highlighted or 0
        pocket = len([start for start in self._starts if start <= here]) - 1
        self._count([pocket], Recount(self._session.plan, self._session.state, self._looks))

    def action_count_all(self) -> None:
        """Count all pockets; what is missing is looked for when all are counted."""
        pockets = list(range(len(self._session.plan.kit.pockets)))
        self._count(pockets, Recount(self._session.plan, self._session.state, self._looks))

    @property
    def _looks(self) -> LookAlikes:
        return self._session.known.looks

    def _count(self, pockets: list[int], recount: Recount) -> None:
        """Count the first of some pockets, then the others."""

        def counted(really: bool | None) -> None:
            if really and pockets[1:]:
                self._count(pockets[1:], recount)
            elif really:
                Settling(self, self._session, recount, self._told).ask()
            else:
                self.fill()

        finder = self._session.known.finder
        self.app.push_screen(CountScreen(self._session, recount, finder, pockets[0]), counted)

    def _told(self, settlement: Settlement) -> None:
        """Show the pockets again, and say which of the counted ones are right."""
        self.fill()
        said = []
        if settlement.tells_of_pockets():
            right, counted, warned = settlement.right(), settlement.counted, settlement.warned()
            said.append(self._words.counted(right, counted, warned))
        if settlement.put_off():
            said.append(self._words.count_put_off(self.key("count")))
        self.hint(" ".join(said))

    def action_move(self) -> None:
        """Begin to move the piece of the row."""
        row = self._rows.get(self.chosen)
        if self.chosen.startswith("x:"):
            self._moving = self.chosen.removeprefix("x:")
        elif row is not None and row.copies:
            self._moving = row.copies[-1]
        else:
            self.hint(self.phrases.lists.nothing_to_move())
            return
        self.fill()

    def _move_to(self, pocket: int) -> None:
        item, self._moving = self._moving, ""
        told, words, state = self._session.move(item, pocket), self._words, self._session.state
        self.fill()
        if told.raised:
            self.ring()
            alerts = alerts_of(state, words)
            self.hint(next(a.text for a in alerts if a.warning.id == told.raised[0].id))
        elif state.where(item) == pocket:
            # Also where it was there before: what was to be so is so.
            self.hint(words.filed(item, pocket))
        else:
            self.hint(words.objection(told.objection))

    def action_undo(self) -> None:
        """Take back what was said last, unless that was a cut."""
        if self._session.undo_unmakes_cut():
            self.hint(self.phrases.lists.cut_at_table())
            return
        told = self._session.undo()
        keymap = self.dryfit.keymap
        redo = key_of(keymap, "table", table_commands.COMMANDS, "redo", self.ascii)
        self.fill()
        self.hint(
            self.phrases.lists.taken_back(redo)
            if told.taken
            else self._words.objection(told.objection)
        )


def words_of_row(row: Row, words: English, ascii: bool) -> list[Line]:
    """One row of the inventory: counts, name, size, paper, page, source, ties."""
    full = row.filed >= row.wanted
    sign = ("+" if ascii else "✓") if full else " "
    tone = "$text-success" if full else ""
    count = f"{row.filed}/{row.wanted}"
    parts: list[Line] = [(tone, f"  {sign} {count:<3} {words.named(row.item)}")]
    where = words.elsewhere(row)
    if where:
        odd = row.elsewhere or row.scrapped
        parts.append(("$text-error" if odd else "$text-accent", f"  {', '.join(where)}"))
    parts.append(("$text-muted", f"  {words.about_row(row)}"))
    return parts
