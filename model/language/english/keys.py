"""Keys: the list of them, where they are, and why one can't be had."""

from __future__ import annotations

from collections.abc import Sequence

_PLACES = {
    "table": "at the table",
    "shelf": "on the shelf",
    "pockets": "in the pockets",
    "account": "in the account",
    "warnings": "among the warnings",
    "count": "in a count",
    "find": "where a piece is looked for",
    "miscut": "where it is said what went wrong",
    "pick": "where one of a list is meant",
    "say": "where a length is asked",
    "ways": "among the ways to save something",
    "settings": "in the settings",
    "keys": "in the list of keys",
    "help": "in the help",
    "question": "where something is asked",
}
_STOLEN = {
    "ctrl+c": "interrupts programs",
    "ctrl+z": "sends programs to the background",
    "ctrl+s": "stops the output of many terminals",
    "ctrl+backslash": "ends programs",
    "ctrl+\\": "ends programs",
}


class KeyPhrases:
    """Words on keys."""

    # The list

    def title(self) -> str:
        """The title of the list."""
        return "Keys"

    def head(self, place: str) -> str:
        """The heading of a screen's keys; empty for what can be done everywhere."""
        return self.place(place).capitalize() if place else "Everywhere"

    def place(self, name: str) -> str:
        """Where a screen is: ``at the table``."""
        return _PLACES[name]

    def press(self, command: str, more: bool) -> str:
        """Asks for the new key of a command, or for one more."""
        return f"Press {'one more key' if more else 'the new key'} for: {command}"

    def press_back(self) -> str:
        """How nothing is changed."""
        return "Esc  Back, nothing is changed"

    def refused(self, why: str) -> str:
        """Why a key was not taken, and what to do."""
        return f"Not changed: {why}. Press another one."

    def changed(self, command: str, key: str) -> str:
        """The new key of a command."""
        return f"{command}: {key}"

    def usual_again(self, command: str) -> str:
        """That a command has its usual key again."""
        return f"{command}: the usual key again."

    def ask_all_usual(self) -> tuple[str, str, str]:
        """Asks whether all commands get their usual keys; the answers no and yes."""
        return (
            "Give every command its usual keys again?",
            "Leave them as they are",
            "The usual keys for all",
        )

    def all_usual(self) -> str:
        """That all commands have their usual keys."""
        return "All commands have their usual keys again."

    # Why not

    def no_name(self) -> str:
        """A key was named by nothing."""
        return "there is no key without a name"

    def digits(self) -> str:
        """Digits are taken."""
        return "the digits are the pockets' keys"

    def no_key(self, text: str) -> str:
        """There is no such key."""
        return f"there is no key {text!r}"

    def same_as(self, key: str) -> str:
        """It reaches a program as another key does."""
        return f"a terminal can't tell it from {key}"

    def stolen(self, key: str) -> str:
        """The terminal keeps it for itself."""
        return f"the terminal takes it: it {_STOLEN[key]}"

    def esc_before(self) -> str:
        """It reaches a program as Esc and another key do."""
        return "a terminal can't tell it from Esc and the key after it"

    def not_everywhere(self) -> str:
        """Only some terminals know it."""
        return "not every terminal can tell it from the key alone"

    def no_command(self) -> str:
        """There is no such command."""
        return "there is no such command"

    def taken_by_list(self, key: str, place: str, what: str) -> str:
        """A list or a line takes it: ``list``, ``row``, ``typed``."""
        does = {
            "list": "goes through the list",
            "row": "takes the row",
            "typed": "is for the line that is typed",
        }[what]
        return f"{key} is taken {self.place(place)}: {does}"

    def typed_as_text(self, key: str, place: str) -> str:
        """Text is typed there."""
        return f"{key} is typed as text {self.place(place)}"

    def taken_by(self, key: str, place: str, command: str) -> str:
        """Another command has it."""
        return f'{key} is taken {self.place(place)}: "{command}"'

    def no_such_key(self, text: str, why: str) -> str:
        """Why something in the settings is no key."""
        return f"{text!r} can't be a key: {why}"

    # The settings file

    def unknown_command(self, id: str) -> str:
        """A command of the settings file that is not there."""
        return f"keys: {id}: there is no such command; the screen Keys lists all"

    def no_list(self) -> str:
        """What stands in the settings file is neither a key nor a list of keys."""
        return 'must be a key, such as "u", or a list of keys'

    def names_none(self) -> str:
        """A list of keys is empty."""
        return "names no key"

    def trouble(self, id: str, why: str) -> str:
        """Why a key of the settings file can't be used."""
        return f"keys: {id}: {why}; the usual key is used. Write another one there."

    def alternatives(self, keys: Sequence[str]) -> str:
        """Keys of which any one will do."""
        return " or ".join(keys)
