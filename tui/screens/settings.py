"""The settings: units, ruler, looks; each row is changed by choosing it."""

from __future__ import annotations

from typing import ClassVar

from textual import on
from textual.widgets import OptionList

from model.ruler import GRADUATIONS
from model.settings import UNITS
from tui.commands import Command, bindings
from tui.screens.listing import Line, ListScreen
from tui.themes import THEMES

COMMANDS = (
    Command("change", ("enter", "space"), "change", "change", "Change the setting of this row."),
    Command("back", ("escape", "comma"), "back", "back", "Back."),
)
_ROWS = (
    ("units", "Lengths in", UNITS),
    ("ruler", "The trimmer's ruler reads to", ("kit", *GRADUATIONS)),
    ("tearing_ruler", "Width of the ruler to tear against", ()),
    ("ascii", "Only ASCII characters", (False, True)),
    ("left_handed", "Trimmer worked with the left hand", (False, True)),
    ("by_load", "Cut a whole load, then file (new sessions)", (False, True)),
    ("theme", "Looks", tuple(theme.name for theme in THEMES)),
)
_SAID = {"kit": "as the kit", False: "no", True: "yes", "": THEMES[0].name}


class SettingsScreen(ListScreen[None]):
    """The crafter's choices."""

    BINDINGS = bindings(COMMANDS)
    COMMANDS_SHOWN: ClassVar[tuple[Command, ...]] = COMMANDS

    def fill(self) -> None:
        """List the settings."""
        settings = self.dryfit.settings
        rows: list[tuple[str, list[Line]]] = []
        for key, label, _ in _ROWS:
            value = getattr(settings, key)
            rows.append((key, [("", f"{label:<44}"), ("bold", str(_SAID.get(value, value)))]))
        path = self.dryfit.settings_path
        self.show(
            "Settings", rows, f"Kept in {path}" if path else "There is no place to keep them."
        )

    def action_change(self) -> None:
        """Change the setting of this row to its next value."""
        key = self.chosen
        found = next((row for row in _ROWS if row[0] == key), None)
        if found is None:
            return
        _, label, values = found
        now = getattr(self.dryfit.settings, key)
        if not values:
            from tui.screens.ask import Ask

            self.app.push_screen(Ask(f"{label}:", str(now)), self._given)
            return
        here = values.index(now) if now in values else 0
        self._set(key, values[(here + 1) % len(values)])

    def _given(self, text: str | None) -> None:
        if text:
            self._set("tearing_ruler", text)

    def _set(self, key: str, value: object) -> None:
        why = self.dryfit.change_setting(key, value)
        if why:
            self.hint(why)
        self.fill()

    @on(OptionList.OptionSelected)
    def _selected(self) -> None:
        self.action_change()

    def action_back(self) -> None:
        """Back."""
        self.leave()
