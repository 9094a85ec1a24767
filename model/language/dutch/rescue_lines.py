"""What plain lines say and hear of a miscut, beside what the screens say, in Dutch."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from typing import TYPE_CHECKING

from model.language.dutch.rescue import RescueWords
from model.language.english import rescue_lines as english
from model.lengthtext import LengthStyle, write_length
from model.plan import Item

if TYPE_CHECKING:
    from model.rescue.mishap import What

_WAY_WORDS = {"manier": "way", "toon": "show", "manieren": "ways"}
_WHAT_WORDS = {
    "maat": "mark", "gemeten": "measure", "stuk": "piece", "gedraaid": "turned",
    "kant": "face", "bedorven": "ruined", "ontbreekt": "missing",
}  # fmt: skip


class RescueLineWords(RescueWords, english.RescueLineWords):
    """Words of plain lines on a miscut."""

    def what_line(self, number: int, what: What, why: str) -> str:
        """One of the things that can go wrong, numbered; see the English one."""
        said = self.what_happened(what)
        return f"{said}. {self._not_now(why)}." if why else f"{number}: {said}."

    def ask_what(self, earlier: bool) -> str:
        """Asks what went wrong; see the English one."""
        other = " Eerder: het was een andere snede." if earlier else ""
        return f"Wat gebeurde er? Typ het nummer.{other} Stop: alles blijft zoals het is."

    def ask_one(self) -> str:
        """Asks for one of what was read out."""
        return "Welk? Typ het nummer, of een deel van de naam om er minder te horen. Of typ stop."

    def one_line(self, number: int, name: str, about: str) -> str:
        """One of a numbered list."""
        return f"{number}: {name}, {about}."  # both are in Dutch

    def more_of_them(self, count: int) -> str:
        """How many were not read out."""
        return f"En nog {count}: typ een deel van de naam om die te horen."

    def yes_or_no(self) -> str:
        """What can be answered."""
        return "Ja of nee?"

    def length_line(self, what: What, item: Item, off: bool, should: Fraction) -> str:
        """Asks for a length, and says what it should have been; see the English one."""
        unit = self.manner.ruler_unit if what == "mark" else self.manner.style.unit
        length = write_length(should, LengthStyle(unit, self.manner.ascii), with_unit=True)
        other = " Andere: meet het andere deel." if what == "measure" else ""
        return f"{self.ask_length(what, item, off)} Het moest {length} zijn.{other} Of typ stop."

    def way_line(self, number: int, said: Sequence[str]) -> str:
        """A way, numbered; see the English one."""
        return f"Manier {number}: {said[0]}. {' '.join(part for part in said[1:] if part)}".strip()

    def ask_way(self) -> str:
        """Asks which way is gone."""
        return (
            "Typ manier 1 om het zo te doen, toon 1 om te horen wat je zou snijden, manieren om "
            "ze nog eens te horen. Stop: alles blijft zoals het is."
        )

    def not_of_these(self, text: str) -> str:
        """That what was typed is none of what was read out."""
        return f'"{text}" hoort hier niet bij.'

    def no_such_way(self, number: int, ways: int) -> str:
        """That there is no way of a number; there are so many."""
        return f"Er is geen manier {number}: er {'is' if ways == 1 else 'zijn'} er {ways}."

    def heard_way(self, text: str) -> tuple[str, int]:
        """What was typed of ways; see the English one."""
        return english.word_and_number(text, _WAY_WORDS)

    def heard_what(self, text: str) -> tuple[What | None, str]:
        """What went wrong, as the first word says, and the rest of what was typed."""
        return english.what_and_rest(text, _WHAT_WORDS)

    def heard_cut(self, text: str) -> tuple[int, str]:
        """The number of a cut, counted from the last one, and the rest; 0 for none."""
        return english.cut_and_rest(text, "snede")

    def heard_answer(self, text: str) -> str:
        """What was typed in answer; see the English one."""
        said = text.casefold()
        return {"eerder": "earlier", "eerdere": "earlier", "andere": "other"}.get(said, said)

    def rescued_line(self, first: Sequence[str]) -> str:
        """That a way was chosen, what to do first, and how it is taken back."""
        said = f"Gered. {'; '.join(first)}." if first else "Gered: ga door zoals gezegd wordt."
        return f"{said} Terugnemen neemt de redding terug."
