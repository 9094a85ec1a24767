"""The table under a mouse or a finger: what is touched does what its key does."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tui import parts, parts_step
from tui.widgets.panel import Panel

if TYPE_CHECKING:
    from tui.screens.table import TableScreen


def touched(screen: TableScreen, event: Panel.RowClicked) -> None:
    """A row of one of the table's regions was touched; the footer is every screen's own."""
    regions = {"step": _step, "side": _side, "brief": _brief, "said": _said}
    region = regions.get(event.panel.id or "")
    if region is not None:
        region(screen, event)


def _step(screen: TableScreen, event: Panel.RowClicked) -> None:
    room = screen.room
    if event.row != room.head + room.mark + room.sentence or not room.goes:
        return
    width, typed = event.panel.size.width, screen.pages.hint(screen.phrases.table)
    key = parts_step.goes_at(
        screen.moment, typed, screen.ascii, width, event.column, screen.key_names()
    )
    actions = {
        "p": screen.action_put_right,
        "l": screen.action_leave_warning,
        "o": screen.action_skip,
    }
    actions.get(key, screen.action_did)()


def _side(screen: TableScreen, event: Panel.RowClicked) -> None:
    moment, height = screen.moment, event.panel.size.height
    pocket = parts.pocket_at(moment, height, event.row)
    if pocket is not None:
        screen.action_pocket(pocket)
    elif parts.left_open_at(moment, height, event.row):
        screen.action_warnings()
    else:
        screen.action_take(parts.pile_at(moment, height, event.row) or screen.chosen)


def _brief(screen: TableScreen, event: Panel.RowClicked) -> None:
    width, height = event.panel.size
    at = event.row, event.column
    pocket = parts.brief_at(screen.moment, width, height, screen.ascii, at)
    if pocket is not None:
        screen.action_pocket(pocket)


def _said(screen: TableScreen, event: Panel.RowClicked) -> None:
    if screen.greeted:
        screen.action_read()
