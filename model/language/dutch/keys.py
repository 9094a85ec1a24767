"""Keys: the list of them, where they are, and why one can't be had, in Dutch."""

from __future__ import annotations

from collections.abc import Sequence

from model.language.english import keys as english

_PLACES = {
    "table": "aan tafel",
    "shelf": "op de plank",
    "pockets": "in de vakken",
    "account": "in de eindstaat",
    "warnings": "bij de waarschuwingen",
    "count": "bij het tellen",
    "find": "bij het zoeken",
    "miscut": "waar je zegt wat er misging",
    "pick": "waar je er een van een lijst kiest",
    "say": "waar naar een maat gevraagd wordt",
    "ways": "bij de manieren om iets te redden",
    "settings": "in de instellingen",
    "keys": "in de lijst van toetsen",
    "help": "in de hulp",
    "question": "bij een vraag",
}
_STOLEN = {
    "ctrl+c": "onderbreekt programma's",
    "ctrl+z": "stuurt programma's naar de achtergrond",
    "ctrl+s": "zet in veel terminals de uitvoer stil",
    "ctrl+backslash": "beëindigt programma's",
    "ctrl+\\": "beëindigt programma's",
}


class KeyPhrases(english.KeyPhrases):
    """Words on keys, in Dutch."""

    # The list

    def title(self) -> str:
        """The title of the list."""
        return "Toetsen"

    def head(self, place: str) -> str:
        """The heading of a screen's keys; empty for what can be done everywhere."""
        return self.place(place).capitalize() if place else "Overal"

    def place(self, name: str) -> str:
        """Where a screen is: ``at the table``."""
        return _PLACES[name]

    def press(self, command: str, more: bool) -> str:
        """Asks for the new key of a command, or for one more."""
        return f"Druk op {'nog een toets' if more else 'de nieuwe toets'} voor: {command}"

    def press_back(self) -> str:
        """How nothing is changed."""
        return "Esc  Terug, er wijzigt niets"

    def refused(self, why: str) -> str:
        """Why a key was not taken, and what to do."""
        return f"Niet gewijzigd: {why}. Druk op een andere."

    def changed(self, command: str, key: str) -> str:
        """The new key of a command."""
        return f"{command}: {key}"

    def usual_again(self, command: str) -> str:
        """That a command has its usual key again."""
        return f"{command}: weer de gewone toets."

    def ask_all_usual(self) -> tuple[str, str, str]:
        """Asks whether all commands get their usual keys; the answers no and yes."""
        return (
            "Elke opdracht weer haar gewone toetsen geven?",
            "Zo laten als ze zijn",
            "Overal de gewone toetsen",
        )

    def all_usual(self) -> str:
        """That all commands have their usual keys."""
        return "Alle opdrachten hebben weer hun gewone toetsen."

    # Why not

    def no_name(self) -> str:
        """A key was named by nothing."""
        return "een toets zonder naam is er niet"

    def digits(self) -> str:
        """Digits are taken."""
        return "de cijfers zijn de toetsen van de vakken"

    def no_key(self, text: str) -> str:
        """There is no such key."""
        return f"een toets {text!r} is er niet"

    def same_as(self, key: str) -> str:
        """It reaches a program as another key does."""
        return f"een terminal ziet geen verschil met {key}"

    def stolen(self, key: str) -> str:
        """The terminal keeps it for itself."""
        return f"de terminal houdt die toets zelf: hij {_STOLEN[key]}"

    def esc_before(self) -> str:
        """It reaches a program as Esc and another key do."""
        return "een terminal ziet geen verschil met Esc en daarna de toets"

    def not_everywhere(self) -> str:
        """Only some terminals know it."""
        return "niet elke terminal ziet het verschil met de toets alleen"

    def no_command(self) -> str:
        """There is no such command."""
        return "zo'n opdracht is er niet"

    def taken_by_list(self, key: str, place: str, what: str) -> str:
        """A list or a line takes it: ``list``, ``row``, ``typed``."""
        does = {
            "list": "gaat door de lijst",
            "row": "neemt de rij",
            "typed": "is voor de regel die wordt getypt",
        }[what]
        return f"{key} is {self.place(place)} al in gebruik: {does}"

    def typed_as_text(self, key: str, place: str) -> str:
        """Text is typed there."""
        return f"{key} wordt {self.place(place)} als tekst getypt"

    def taken_by(self, key: str, place: str, command: str) -> str:
        """Another command has it."""
        return f'{key} is {self.place(place)} al in gebruik: "{command}"'

    def no_such_key(self, text: str, why: str) -> str:
        """Why something in the settings is no key."""
        return f"{text!r} kan geen toets zijn: {why}"

    # The settings file

    def unknown_command(self, id: str) -> str:
        """A command of the settings file that is not there."""
        return f"keys: {id}: zo'n opdracht is er niet; het scherm Toetsen noemt ze allemaal"

    def no_list(self) -> str:
        """What stands in the settings file is neither a key nor a list of keys."""
        return 'moet een toets zijn, zoals "u", of een lijst van toetsen'

    def names_none(self) -> str:
        """A list of keys is empty."""
        return "noemt geen toets"

    def trouble(self, id: str, why: str) -> str:
        """Why a key of the settings file can't be used."""
        return f"keys: {id}: {why}; nu geldt de gewone toets. Schrijf er een andere."

    def alternatives(self, keys: Sequence[str]) -> str:
        """Keys of which any one will do."""
        return " of ".join(keys)
