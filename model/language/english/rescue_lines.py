"""What plain lines say and hear of a miscut, beside what the screens say."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from fractions import Fraction
from typing import TYPE_CHECKING

from model.language.english.rescue import RescueWords
from model.lengthtext import LengthStyle, write_length
from model.plan import Item

if TYPE_CHECKING:
    from model.rescue.mishap import What

_WAY_WORDS = {"way": "way", "show": "show", "ways": "ways"}
_WHAT_WORDS = {
    word: word for word in ("mark", "measure", "piece", "turned", "face", "ruined", "missing")
}


def word_and_number(text: str, words: Mapping[str, str]) -> tuple[str, int]:
    """A word that is known, and the number after it; a number alone means a way."""
    first, _, rest = text.casefold().partition(" ")
    if first.isascii() and first.isdigit() and not rest:
        return "way", int(first[:6])
    number = int(rest[:6]) if rest.isascii() and rest.isdigit() else 0
    return words.get(first, ""), number


def what_and_rest(text: str, words: Mapping[str, str]) -> tuple[What | None, str]:
    """What the first word of a text says went wrong, and the rest of it."""
    from model.rescue.mishap import What  # no start needs it

    first, _, rest = text.partition(" ")
    what = words.get(first.casefold())
    return (What(what), rest.strip()) if what else (None, text)


def cut_and_rest(text: str, word: str) -> tuple[int, str]:
    """The number after the word for a cut, and the rest of a text; 0 without."""
    first, _, rest = text.partition(" ")
    number, _, more = rest.partition(" ")
    if first.casefold() == word and number.isascii() and number.isdigit():
        return int(number[:6]), more.strip()
    return 0, text


class RescueLineWords(RescueWords):
    """Words of plain lines on a miscut."""

    def what_line(self, number: int, what: What, why: str) -> str:
        """One of the things that can go wrong, numbered; or why it can't be said now."""
        said = self.what_happened(what)
        return f"{said}. {self._not_now(why)}." if why else f"{number}: {said}."

    def _not_now(self, code: str) -> str:
        why = self.why_not_said(code)
        return f"{why[:1].upper()}{why[1:]}"

    def ask_what(self, earlier: bool) -> str:
        """Asks what went wrong.

        Args:
            earlier: Whether there are several cuts to choose from.
        """
        other = " Earlier: it was another cut." if earlier else ""
        return f"What happened? Type its number.{other} Stop: all stays as it is."

    def ask_one(self) -> str:
        """Asks for one of what was read out."""
        return "Which one? Type its number, or a part of its name to hear fewer. Stop leaves it."

    def one_line(self, number: int, name: str, about: str) -> str:
        """One of a numbered list."""
        return f"{number}: {name}, {about}."

    def more_of_them(self, count: int) -> str:
        """How many were not read out."""
        return f"And {count} more: type a part of the name to hear those."

    def yes_or_no(self) -> str:
        """What can be answered."""
        return "Yes or no?"

    def length_line(self, what: What, item: Item, off: bool, should: Fraction) -> str:
        """Asks for a length, and says what it should have been.

        Args:
            what: A mark, or a measure.
            item: For a measure, what is measured.
            off: Whether that came off at the cut.
            should: What it should have been, in mm.
        """
        unit = self.manner.ruler_unit if what == "mark" else self.manner.style.unit
        length = write_length(should, LengthStyle(unit, self.manner.ascii), with_unit=True)
        other = " Other: measure the other part." if what == "measure" else ""
        return (
            f"{self.ask_length(what, item, off)} It should have been {length}.{other} Stop "
            "leaves it."
        )

    def way_line(self, number: int, said: Sequence[str]) -> str:
        """A way, numbered.

        Args:
            number: Its number.
            said: What it does, saves and costs.
        """
        return f"Way {number}: {said[0]}. {' '.join(part for part in said[1:] if part)}".strip()

    def ask_way(self) -> str:
        """Asks which way is gone."""
        return (
            "Type way 1 to go that way, show 1 to hear what you would cut, ways to hear them "
            "again. Stop: all stays as it is."
        )

    def not_of_these(self, text: str) -> str:
        """That what was typed is none of what was read out."""
        return f'"{text}" is none of these.'

    def no_such_way(self, number: int, ways: int) -> str:
        """That there is no way of a number; there are so many."""
        return f"There is no way {number}: there {'is' if ways == 1 else 'are'} {ways}."

    def heard_way(self, text: str) -> tuple[str, int]:
        """What was typed of ways: ``way``, ``show``, ``ways`` or nothing, and a number."""
        return word_and_number(text, _WAY_WORDS)

    def heard_what(self, text: str) -> tuple[What | None, str]:
        """What went wrong, as the first word says, and the rest of what was typed."""
        return what_and_rest(text, _WHAT_WORDS)

    def heard_cut(self, text: str) -> tuple[int, str]:
        """The number of a cut, counted from the last one, and the rest; 0 for none."""
        return cut_and_rest(text, "cut")

    def heard_answer(self, text: str) -> str:
        """What was typed in answer, as ``earlier``, ``other``, or as it is."""
        return text.casefold()

    def rescued_line(self, first: Sequence[str]) -> str:
        """That a way was chosen, what to do first, and how it is taken back."""
        said = f"Rescued. {'; '.join(first)}." if first else "Rescued: go on as you are told."
        return f"{said} Undo takes the rescue back."
