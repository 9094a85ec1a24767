"""The settings: what each is called, what it does, and its values, in Dutch."""

from __future__ import annotations

from model.language.english import settings as english
from model.language.said import Said

_ROWS = {
    "units": ("Lengtes in", "hoe afmetingen en maten worden geschreven"),
    "ruler": (
        "Liniaal van de snijder leest tot",
        "fijnste streepjes; als het pakket: 1/16 in of 1 mm",
    ),
    "tearing_ruler": (
        "Breedte van de scheurliniaal",
        "bij een bredere strook leg je er een tweede naast",
    ),
    "ascii": ("Alleen ASCII-tekens", "voor een terminal die breuken of pijlen fout toont"),
    "left_handed": ("Snijden met de linkerhand", "tekeningen en kanten worden gespiegeld"),
    "by_load": (
        "Hele lading snijden, dan opbergen",
        "hoe nieuwe sessies beginnen; {pace} wisselt aan tafel",
    ),
    "taught": (
        "De tafel is al uitgelegd",
        "nee: het volgende pakket van 2 pagina's legt het uit",
    ),
    "language": ("Taal", "van wat je leest; een pakket houdt zijn eigen woorden"),
    "keys": ("Toetsen", "elke opdracht met haar toets, om te wijzigen"),
    "theme": ("Uiterlijk", "kleuren van het scherm; papier houdt zijn eigen kleur"),
    "figures": ("Cijfers van de maat", "grotere nemen rijen van de tekening in"),
    "bell": ("Bel bij een waarschuwing", "die van de terminal zelf, één keer voor elke"),
    "bounce": ("Dezelfde toets telt weer na", "voor een pedaal dat stuitert of een hand die trilt"),
}
_VALUES = {
    "kit": "als het pakket",
    "no": "nee",
    "yes": "ja",
    "dark": "donker",
    "light": "licht",
    "contrast": "hoog contrast",
    "usual": "gewoon",
    "large": "groot",
    "largest": "grootst",
}


class SettingPhrases(english.SettingPhrases):
    """Words of the settings, in Dutch."""

    def title(self) -> str:
        """The title."""
        return "Instellingen"

    def row(self, key: str, pace: str) -> Said:
        """A setting: its name, and what it does; see the English one."""
        label, about = _ROWS[key]
        return Said(label, about.replace("{pace}", pace))

    def milliseconds(self, count: int) -> str:
        """A short time."""
        return f"{count} ms" if count else "geen pauze"

    def value(self, code: str) -> str:
        """A value by its code; what has no word, such as a unit, is its own."""
        return _VALUES.get(code, code)

    def as_system(self, language: str) -> str:
        """The language that the system says."""
        return f"als het systeem: {language}"

    def own_keys(self, count: int) -> str:
        """How many keys the crafter chose."""
        return f"{count} van jezelf" if count else "de gewone"

    def kept_in(self, path: str) -> str:
        """Where settings and keys are kept."""
        return f"Bewaard in {path}"

    def no_place(self) -> str:
        """That settings and keys can't be kept."""
        return "Er is geen plek om ze te bewaren."

    def ask(self, label: str) -> str:
        """Asks for the value of a setting."""
        return f"{label}:"

    def not_changed(self, why: str) -> str:
        """Why a value can't be used."""
        return f"Niet gewijzigd: {why}"
