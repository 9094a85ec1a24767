"""The settings: units, ruler, looks; each row is changed by choosing it."""

from __future__ import annotations

from typing import ClassVar

from textual import on
from textual.widgets import OptionList

from model.language import LANGUAGES
from model.ruler import GRADUATIONS
from model.settings import BOUNCES, FIGURES, UNITS
from tui import table_commands
from tui.commands import EVERYWHERE, Command, bindings, key_of
from tui.screens.listing import ListRow, ListScreen
from tui.themes import CONTRAST, DARK, LIGHT, THEMES

COMMANDS = (
    Command("change", ("enter", "space"), "change"),
    Command("keys", ("k",), "keys"),
    Command("back", ("escape", "comma"), "back"),
    *EVERYWHERE,
)
_YES_NO = (False, True)
_VALUES: dict[str, tuple[object, ...]] = {
    "units": UNITS,
    "ruler": ("kit", *GRADUATIONS),
    "tearing_ruler": (),
    "ascii": _YES_NO,
    "left_handed": _YES_NO,
    "by_load": _YES_NO,
    "bounce": BOUNCES,
    "taught": _YES_NO,
    "language": (),
    "keys": (),
    "theme": tuple(theme.name for theme in THEMES),
    "figures": FIGURES,
    "bell": _YES_NO,
}
"""The settings in the order of their rows, with their values; of those with none one is typed, or
there is a screen for it."""
_CODES: dict[object, str] = {
    False: "no",
    True: "yes",
    "": "dark",
    DARK.name: "dark",
    LIGHT.name: "light",
    CONTRAST.name: "contrast",
}


class SettingsScreen(ListScreen[None]):
    """The crafter's choices."""

    BINDINGS = bindings("settings", COMMANDS)
    PLACE = "settings"
    COMMANDS_SHOWN: ClassVar[tuple[Command, ...]] = COMMANDS

    def fill(self) -> None:
        """List the settings."""
        settings = self.dryfit.settings
        pace = key_of(self.dryfit.keymap, "table", table_commands.COMMANDS, "pace", self.ascii)
        words = self.phrases.settings
        rows: list[ListRow] = []
        for key in _VALUES:
            label, about, _ = words.row(key, pace)
            said = [("", f"{label:<38}"), ("bold", self._value(key, getattr(settings, key)))]
            rows.append(ListRow(key, [*said, ("$text-muted not bold", f"\n{about}")], 2))
        path = self.dryfit.settings_path
        self.show(words.title(), rows, words.kept_in(str(path)) if path else words.no_place())

    def _value(self, key: str, value: object) -> str:
        """What is chosen, in words."""
        words = self.phrases.settings
        if key == "keys":
            return words.own_keys(len(self.dryfit.keymap.own))
        if key == "language":
            name = LANGUAGES[self.phrases.code].name
            return name if value else words.as_system(name)
        if key == "tearing_ruler":
            return str(value)
        if isinstance(value, int) and not isinstance(value, bool):
            return words.milliseconds(value)
        return words.value(_CODES.get(value, str(value)))

    def action_change(self) -> None:
        """Change the setting of this row to its next value."""
        key = self.chosen
        if key == "keys":
            self.action_keys()
            return
        values = ("", *LANGUAGES) if key == "language" else _VALUES.get(key)
        if values is None:
            return
        now = getattr(self.dryfit.settings, key)
        if not values:
            from tui.screens.ask import Ask

            words, beside = self.phrases.settings, self.phrases.dialogs.line_keys()
            question = words.ask(words.row(key, "").label)
            self.app.push_screen(Ask(question, beside, str(now)), self._given)
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
            refused = getattr(self.dryfit.settings, key) != value
            self.hint(self.phrases.settings.not_changed(why) if refused else why)

    @on(OptionList.OptionSelected)
    def _selected(self) -> None:
        self.action_change()

    def action_back(self) -> None:
        """Back."""
        self.leave()
