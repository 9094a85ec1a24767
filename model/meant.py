"""What a crafter probably meant by words that a kit file does not know.

Near spellings are for `model.finding`. This is for other words for the same thing, such as
foot for bottom, and for words in another order. Which words people use is common practice.
"""

from __future__ import annotations

import re
from collections.abc import Collection, Mapping

from model.geometry import CORNERS, SIDES

_OTHER_WORDS: Mapping[str, tuple[str, ...]] = {
    "bottom": ("foot", "below", "lower", "south", "base", "near"),
    "top": ("head", "above", "upper", "north", "far", "up"),
    "left": (
        "west", "l", "counterclockwise", "anticlockwise", "counter clockwise", "anti clockwise",
        "ccw", "270", "-90",
    ),
    "right": ("east", "r"),
    "quarter": ("90", "clockwise", "cw", "1/4", "one quarter", "once", "+90"),
    "half": ("180", "-180", "upside down", "1/2", "twice", "around", "over"),
    "face up": ("upwards", "upward", "faceup", "top up", "right side up", "print up"),
    "face down": ("downwards", "downward", "facedown", "upside down", "print down"),
    "face": (
        "front", "right side", "top", "printed side", "printed", "obverse", "recto", "colour",
        "color",
    ),
    "reverse": ("back", "wrong side", "backside", "rear", "other side", "verso"),
    "print": ("pattern", "patterned", "printed", "design"),
    "plain": ("solid", "solid colour", "cardstock", "card", "unprinted", "blank"),
    "in": ("inch", "inches", '"', "imperial"),
    "cm": ("centimetre", "centimetres", "centimeter", "centimeters"),
    "mm": ("millimetre", "millimetres", "millimeter", "millimeters", "metric"),
    "scrap": ("waste", "rubbish", "offcut", "trash", "leftover", "scraps", "bin", "throw away"),
    "trimmer away": ("without trimmer", "no trimmer", "after trimming"),
    "after filing": ("filed", "last", "at the end", "later", "end"),
}  # fmt: skip
_NUMBERS = (
    "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven",
    "twelve", "thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen",
    "twenty",
)  # fmt: skip
_ORDINALS = (
    "first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth", "tenth",
    "eleventh", "twelfth",
)  # fmt: skip
_AND = re.compile(r"\s*(?:;|\+|&|\b(?:and|plus|then)\b)\s*", re.IGNORECASE)
_COUNTED = re.compile(
    r"([0-9]{1,6}|[a-z]+)\s+(?:copies\s+|copy\s+|each\s+|of\s+them\s+)?"
    r"(?:to|on|onto|in|into|for|at)\s+(.+)",
    re.IGNORECASE,
)
_PLACES = (*CORNERS, *SIDES)  # the longer ones first
_TURNED_CORNERS = {" ".join(reversed(corner.split())): corner for corner in CORNERS}
_JOINS = re.compile(
    r"[\s,:;=-]+(?:is|lies|lying|facing|faces|near|on|to|in|by|toward|towards|at|the|,)$"
)


def meant(word: str, known: Collection[str]) -> str:
    """The known word that says the same as another word.

    Args:
        word: What was written.
        known: What can be written there.

    Returns:
        The known word; empty when none clearly says the same.
    """
    plain = " ".join(word[:60].casefold().replace("_", " ").replace("-", " ").split())
    if re.fullmatch(r"[+-]?[0-9]+ ?(?:°|deg|degrees)?", word.strip().casefold()):
        plain = re.sub(r"[^0-9+-]", "", word)
    for one in known:
        if plain == one or plain in _OTHER_WORDS.get(one, ()):
            return one
    said = set(plain.split())
    within = [one for one in known if said and said <= set(one.split())]
    around = [one for one in known if set(one.split()) <= said]
    for some in (within, around):
        if len(some) == 1:
            return some[0]
    return ""


def meant_lay(text: str) -> str:
    """A lay in the words of whoever wrote it, put as the format has it.

    Args:
        text: What was written, such as ``top edge left``.

    Returns:
        Such as ``top edge at left``; empty when it does not end in a side or a corner.
    """
    plain = " ".join(text[:200].split()).rstrip(".")
    shown, at, end = plain.casefold().rpartition(" at ")
    if at:
        place = meant_place(end.removeprefix("the "))
        return f"{plain[: len(shown)]} at {place}" if place and shown else ""
    low = re.sub(r" (?:edge|side|corner|hand side|hand)$", "", plain.casefold())
    for end in (*_TURNED_CORNERS, *_PLACES):
        place = _TURNED_CORNERS.get(end, end)
        if low.endswith(f" {end}"):
            what = plain[: len(low) - len(end) - 1]
            while (shorter := _JOINS.sub("", what)) != what:
                what = shorter
            what = what.strip(" ,:;=-")
            what += " edge" * (what.casefold() in SIDES)
            return f"{what} at {place}" if what else ""
    return ""


def meant_place(text: str) -> str:
    """The side or corner that other words say, such as ``left top`` or ``foot``; else empty."""
    plain = " ".join(text[:60].casefold().replace("-", " ").split())
    plain = re.sub(r" (?:edge|side|corner|hand side|hand)$", "", plain)
    plain = _TURNED_CORNERS.get(plain, plain)
    return plain if plain in _PLACES else meant(plain, SIDES)


def meant_page(text: str) -> int:
    """The page that is named in letters or in another way, such as ``page four`` or ``p. 4``.

    Returns:
        Its number; 0 when it is none.
    """
    plain = re.sub(r"^(?:(?:on|to|the)\s+)+", "", text[:60].casefold().strip())
    plain = re.sub(r"^(?:pages?|pg|p)\b[. ]*|^p(?=[0-9])", "", plain)
    plain = re.sub(r" page$", "", plain.strip(" ."))
    plain = re.sub(r"(?<=[0-9])(?:st|nd|rd|th)$", "", plain)
    for words in (_NUMBERS, _ORDINALS):
        if plain in words:
            return words.index(plain) + 1
    return int(plain) if re.fullmatch(r"[0-9]{1,3}", plain) and plain.isascii() else 0


def meant_places(text: str, count: int) -> list[tuple[str, int]]:
    """Places that are joined by a word instead of a comma, or counted in words.

    Args:
        text: The place as it was read, such as ``page 1 and 2 to page 4``.
        count: The count that was read before it, 1 if none.

    Returns:
        The places with their counts; empty when it is one that is not counted in it.
    """
    parts = [part for part in _AND.split(text[:200]) if part]
    places = [_place(part, 1 if number else count) for number, part in enumerate(parts)]
    return places if len(parts) > 1 or (parts and places[0] != (parts[0], count)) else []


def _place(part: str, count: int) -> tuple[str, int]:
    """A place and its count, where that is said as in ``two on page 3``."""
    found = _COUNTED.fullmatch(part)
    said = found[1].casefold() if found else ""
    if found and said in ("a", "an"):
        return found[2], 1
    if found and said in _NUMBERS:
        return found[2], _NUMBERS.index(said) + 1
    return (found[2], int(said)) if found and said.isdigit() else (part, count)
