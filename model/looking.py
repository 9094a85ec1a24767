"""Looking for a piece in a crafter's own words, and in those that Find knows."""

from __future__ import annotations

from model.find import Finder
from model.found import Found
from model.language.english.words import English
from model.state import State


def look_for(finder: Finder, text: str, words: English, state: State) -> Found:
    """Find what was typed.

    The words of a kit go first, in whatever language its author wrote it; where none of them is
    just what was typed, that is taken as said in the crafter's language.

    Args:
        finder: Finds things of the plan.
        text: What was typed.
        words: The sentences for this crafter.
        state: Where everything is.
    """
    unit = words.manner.style.unit
    found = finder.find(text, unit, state)
    asked = words.asked(text)
    if asked == text or (found.exact and _word_for_word(found)):
        return found
    other = finder.find(asked, unit, state)
    return other if other.exact or not found.matches else found


def _word_for_word(found: Found) -> bool:
    """Whether the first match has the words that were typed, and not only their beginnings."""
    return all(word in found.matches[0].sought.words for word in found.query.words)
