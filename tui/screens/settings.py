"""The settings: units, ruler, looks; each row is changed by choosing it."""

from __future__ import annotations

from typing import ClassVar

from textual import on
from textual.widgets import OptionList

from model.ruler import GRADUATIONS
from model.settings import FIGURES, UNITS
from tui import table_commands
from tui.commands import EVERYWHERE, Command, bindings, key_of
from tui.screens.listing import ListRow, ListScreen
from tui.themes import CONTRAST, DARK, LIGHT, THEMES

COMMANDS = (
    Command("change", ("enter", "space"), "change", "change", "Change the setting of this row."),
    Command("keys", ("k",), "keys", "keys", "All commands with their keys."),
    Command("back", ("escape", "comma"), "back", "back", "Back."),
    *EVERYWHERE,
)
_ROWS = (
    ("units", "Lengths in", UNITS, "how sizes and marks are written"),
    (
        "ruler",
        "The trimmer's ruler reads to",
        ("kit", *GRADUATIONS),
        "its finest lines; as the kit: 1/16 in, or 1 mm",
    ),
    (
        "tearing_ruler",
        "Width of the ruler to tear against",
        (),
        "for a wider strip you are told to add a second one",
    ),
    (
        "ascii",
        "Only ASCII characters",
        (False, True),
        "for a terminal that shows fractions or arrows wrongly",
    ),
    (
        "left_handed",
        "Trimmer worked with the left hand",
        (False, True),
        "drawings and sides are mirrored",
    ),
    (
        "by_load",
        "Cut a whole load, then file",
        (False, True),
        "how new sessions begin; {pace} changes it at the table",
    ),
    (
        "taught",
        "The table is taught already",
        (False, True),
        "no: the next new run of a two-page kit teaches it",
    ),
    (
        "theme",
        "Looks",
        tuple(theme.name for theme in THEMES),
        "colours of the screen; paper keeps its own",
    ),
    (
        "figures",
        "Figures of the mark",
        FIGURES,
        "larger ones take their rows from the drawing",
    ),
    (
        "bell",
        "Bell at a warning",
        (False, True),
        "the terminal's own, once for each",
    ),
)
_SAID = {
    "kit": "as the kit",
    False: "no",
    True: "yes",
    "": "dark",
    DARK.name: "dark",
    LIGHT.name: "light",
    CONTRAST.name: "high contrast",
}


class SettingsScreen(ListScreen[None]):
    """The crafter's choices."""

    BINDINGS = bindings("settings", COMMANDS)
    PLACE = "settings"
    COMMANDS_SHOWN: ClassVar[tuple[Command, ...]] = COMMANDS
    HELP_TEXT = (
        "Each row is a setting, with what it does beneath. A change is seen and kept at once."
    )

    def fill(self) -> None:
        """List the settings."""
        settings = self.dryfit.settings
        pace = key_of(self.dryfit.keymap, "table", table_commands.COMMANDS, "pace", self.ascii)
        rows: list[ListRow] = []
        for key, label, _, about in _ROWS:
            value = getattr(settings, key)
            said = [("", f"{label:<38}"), ("bold", str(_SAID.get(value, value)))]
            about = about.replace("{pace}", pace)
            rows.append(ListRow(key, [*said, ("$text-muted not bold", f"\n{about}")], 2))
        own = len(self.dryfit.keymap.own)
        said = [("", f"{'Keys':<38}"), ("bold", f"{own} of your own" if own else "the usual ones")]
        about = "every command with its key, to be changed"
        # Before the looks and what belongs with them, which stand last.
        looks = next(number for number, row in enumerate(rows) if row.id == "theme")
        rows.insert(looks, ListRow("keys", [*said, ("$text-muted not bold", f"\n{about}")], 2))
        path = self.dryfit.settings_path
        self.show(
            "Settings", rows, f"Kept in {path}" if path else "There is no place to keep them."
        )

    def action_change(self) -> None:
        """Change the setting of this row to its next value."""
        key = self.chosen
        if key == "keys":
            self.action_keys()
            return
        found = next((row for row in _ROWS if row[0] == key), None)
        if found is None:
            return
        _, label, values, _ = found
        now = getattr(self.dryfit.settings, key)
        if not values:
            from tui.screens.ask import Ask

            self.app.push_screen(Ask(f"{label}:", str(now)), self._given)
            return
        here = values.index(now) if now in values else 0
        self._set(key, values[(here + 1) % len(values)])

    def action_keys(self) -> None:
        """Open the list of all keys."""
        from tui.screens.keys import KeysScreen

        self.app.push_screen(KeysScreen(), lambda _: self.fill())

    def _given(self, text: str | None) -> None:
        if text:
            self._set("tearing_ruler", text)

    def _set(self, key: str, value: object) -> None:
        why = self.dryfit.change_setting(key, value)
        self.fill()
        if why:
            self.hint(f"Not changed: {why}" if getattr(self.dryfit.settings, key) != value else why)

    @on(OptionList.OptionSelected)
    def _selected(self) -> None:
        self.action_change()

    def action_back(self) -> None:
        """Back."""
        self.leave()
