"""The settings: what each is called, what it does, and its values."""

from __future__ import annotations

from model.language.said import Said

_ROWS = {
    "units": ("Lengths in", "how sizes and marks are written"),
    "ruler": ("The trimmer's ruler reads to", "its finest lines; as the kit: 1/16 in, or 1 mm"),
    "tearing_ruler": (
        "Width of the ruler to tear against",
        "for a wider strip you are told to add a second one",
    ),
    "ascii": ("Only ASCII characters", "for a terminal that shows fractions or arrows wrongly"),
    "left_handed": ("Trimmer worked with the left hand", "drawings and sides are mirrored"),
    "by_load": (
        "Cut a whole load, then file",
        "how new sessions begin; {pace} changes it at the table",
    ),
    "taught": (
        "The table is taught already",
        "no: the next new run of a two-page kit teaches it",
    ),
    "language": ("Language", "of all that is said to you; a kit keeps its own words"),
    "keys": ("Keys", "every command with its key, to be changed"),
    "theme": ("Looks", "colours of the screen; paper keeps its own"),
    "figures": ("Figures of the mark", "larger ones take their rows from the drawing"),
    "bell": ("Bell at a warning", "the terminal's own, once for each"),
    "bounce": (
        "The same key again counts after",
        "for a pedal that bounces, or a hand that shakes",
    ),
}
_VALUES = {
    "kit": "as the kit",
    "no": "no",
    "yes": "yes",
    "dark": "dark",
    "light": "light",
    "contrast": "high contrast",
    "usual": "usual",
    "large": "large",
    "largest": "largest",
}


class SettingPhrases:
    """Words of the settings."""

    def title(self) -> str:
        """The title."""
        return "Settings"

    def row(self, key: str, pace: str) -> Said:
        """A setting: its name, and what it does.

        Args:
            key: The setting.
            pace: The key that changes when pieces are filed.
        """
        label, about = _ROWS[key]
        return Said(label, about.replace("{pace}", pace))

    def milliseconds(self, count: int) -> str:
        """A short time."""
        return f"{count} ms" if count else "no time"

    def value(self, code: str) -> str:
        """A value by its code; what has no word, such as a unit, is its own."""
        return _VALUES.get(code, code)

    def as_system(self, language: str) -> str:
        """The language that the system says."""
        return f"as the system: {language}"

    def own_keys(self, count: int) -> str:
        """How many keys the crafter chose."""
        return f"{count} of your own" if count else "the usual ones"

    def kept_in(self, path: str) -> str:
        """Where settings and keys are kept."""
        return f"Kept in {path}"

    def no_place(self) -> str:
        """That settings and keys can't be kept."""
        return "There is no place to keep them."

    def ask(self, label: str) -> str:
        """Asks for the value of a setting."""
        return f"{label}:"

    def not_changed(self, why: str) -> str:
        """Why a value can't be used."""
        return f"Not changed: {why}"
