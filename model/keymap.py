"""Which key does what: the usual keys, a crafter's own, and whether the two get on.

A command is called ``place.name``, such as ``table.undo``; what can be done in several places
with the same key is called ``everywhere.name``. The settings keep a crafter's own keys as a
table of them; see `read_keymap`.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from model.keynames import read_key, say_key
from model.language.english.keys import KeyPhrases

_ENGLISH = KeyPhrases()


@dataclass(frozen=True, slots=True)
class Act:
    """A command, as far as its keys go.

    Attributes:
        id: Its name.
        said: What people call it.
        usual: The keys that it has unless others are chosen.
        always: Those of them that it keeps in any case.
    """

    id: str
    said: str
    usual: tuple[str, ...]
    always: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Place:
    """A screen, as far as its keys go.

    Attributes:
        name: Its name, with which its commands begin.
        acts: What can be done there, what can be done everywhere included.
        taken: Keys that something else there takes, and what: ``list``, ``row``, ``typed``.
        typed: Whether text is typed there, so that no sign can be a command's key.
    """

    name: str
    acts: tuple[Act, ...]
    taken: Mapping[str, str] = field(default_factory=dict)
    typed: bool = False


class Keymap:
    """The keys in force."""

    def __init__(
        self,
        places: Sequence[Place] = (),
        own: Mapping[str, tuple[str, ...]] | None = None,
        words: KeyPhrases = _ENGLISH,
    ) -> None:
        """Take the crafter's own keys, which were checked already.

        Args:
            places: All places.
            own: Command ids with the keys chosen for them.
            words: Words on keys.
        """
        self.words = words
        self.places = tuple(places)
        self.own: dict[str, tuple[str, ...]] = dict(own or {})
        self.acts = {act.id: act for place in self.places for act in place.acts}

    def keys(self, id: str, usual: tuple[str, ...] = ()) -> tuple[str, ...]:
        """The keys of a command, the first is the one that is shown.

        Args:
            id: The command.
            usual: Its usual keys, where it is not among those of the places.
        """
        act = self.acts.get(id)
        if act is None:
            return usual
        own = self.own.get(id)
        return act.usual if own is None else tuple(dict.fromkeys((*own, *act.always)))

    def in_force(self) -> dict[str, tuple[str, ...]]:
        """The commands whose keys are not the usual ones, with their keys."""
        return {id: self.keys(id) for id in self.own}

    def tried(self, id: str, written: Sequence[str]) -> tuple[Keymap, str]:
        """The keymap with other keys for a command.

        Args:
            id: The command.
            written: Its keys; none for the usual ones.

        Returns:
            The new keymap and an empty text; or the old one and why it can't be.
        """
        if id not in self.acts:
            return self, self.words.no_command()
        own, why = _keys_of(written, self.words)
        if why:
            return self, why
        changed = {key: keys for key, keys in self.own.items() if key != id}
        if own and own != self.acts[id].usual:
            changed[id] = own
        made = Keymap(self.places, changed, self.words)
        why = made._refusal(id) or next((said for _, said in made._clashes(id)), "")
        return (self, why) if why else (made, "")

    def _refusal(self, id: str) -> str:
        """Why a command can't have one of its keys, whatever the others have."""
        act = self.acts[id]
        for place in self.places:
            if act not in place.acts:
                continue
            for key in self.keys(id):
                if key in act.usual:
                    continue
                if key in place.taken:
                    taken = place.taken[key]
                    return self.words.taken_by_list(say_key(key, True), place.name, taken)
                if place.typed and len(say_key(key, True)) == 1:
                    return self.words.typed_as_text(say_key(key, True), place.name)
        return ""

    def _clashes(self, wanted: str = "") -> Iterator[tuple[str, str]]:
        """Own keys that another command of the same place has: whose, and what to say."""
        order = list(self.own)
        for place in self.places:
            having: dict[str, Act] = {}
            for act in place.acts:
                for key in self.keys(act.id):
                    other = having.setdefault(key, act)
                    if other is act:
                        continue
                    its, mine = sorted((act, other), key=lambda each: _rank(order, each, key))
                    if wanted in (mine.id, its.id):
                        mine, its = (act, other) if act.id == wanted else (other, act)
                    said = say_key(key, True)
                    yield mine.id, self.words.taken_by(said, place.name, its.said)


def _rank(order: list[str], act: Act, key: str) -> int:
    """Usual keys go before own ones, and those before what is chosen after them."""
    return order.index(act.id) if act.id in order and key not in act.always else -1


def _keys_of(written: Sequence[str], words: KeyPhrases) -> tuple[tuple[str, ...], str]:
    keys: list[str] = []
    for each in written:
        key, why = read_key(each, words)
        if why:
            return (), words.no_such_key(each, why) if each else why
        keys.append(key)
    return tuple(dict.fromkeys(keys)), ""


def flat(table: Mapping[str, Any]) -> dict[str, Any]:
    """The table of keys with each command by its whole name, however the file groups them."""
    found: dict[str, Any] = {}
    for name, value in table.items():
        if isinstance(value, Mapping):
            found.update({f"{name}.{inner}": each for inner, each in value.items()})
        else:
            found[name] = value
    return found


def read_keymap(
    places: Sequence[Place], table: Mapping[str, Any], words: KeyPhrases = _ENGLISH
) -> tuple[Keymap, tuple[str, ...]]:
    """The keys in force by a table of the settings.

    Args:
        places: All places.
        table: Commands, each with a key or a list of keys.
        words: Words on keys.

    Returns:
        The keymap, and a line for each entry that can't be used: that command keeps its
        usual keys.
    """
    keymap = Keymap(places, words=words)
    troubles: list[str] = []
    own: dict[str, tuple[str, ...]] = {}
    for id, value in flat(table).items():
        written = [value] if isinstance(value, str) else value
        if id not in keymap.acts:
            troubles.append(words.unknown_command(id))
            continue
        if not isinstance(written, list) or not all(isinstance(key, str) for key in written):
            why = words.no_list()
        elif not written:
            why = words.names_none()
        else:
            own[id], why = _keys_of(written, words)
            if not why:
                why = Keymap(places, own, words)._refusal(id)
            if why:
                del own[id]
        if why:
            troubles.append(words.trouble(id, why))
    while True:
        # One at a time: with one of them gone others may get on.
        clash = next(Keymap(places, own, words)._clashes(), None)
        if clash is None or clash[0] not in own:
            break
        del own[clash[0]]
        troubles.append(words.trouble(*clash))
    return Keymap(places, own, words), tuple(troubles)


def kept(table: Mapping[str, Any], keymap: Keymap) -> dict[str, Any]:
    """The table of the settings for a keymap; what it does not know stays as it was.

    Args:
        table: The table before.
        keymap: The keys in force now.
    """
    values = {id: value for id, value in flat(table).items() if id not in keymap.acts}
    for id, keys in keymap.own.items():
        values[id] = keys[0] if len(keys) == 1 else list(keys)
    made: dict[str, Any] = {}
    for id, value in values.items():
        place, dot, name = id.partition(".")
        if dot and isinstance(made.get(place, {}), dict):
            made.setdefault(place, {})[name] = value
        else:
            made[id] = value
    return made
