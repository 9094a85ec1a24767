"""What the program says of itself, in Dutch."""

from __future__ import annotations

from functools import cached_property

from model.language.english import phrases as english
from model.language.english.measures import MeasurePhrases


class _Measures(MeasurePhrases):
    """Words beside a length."""

    def about(self, length: str) -> str:
        """A length that is not known surely."""
        return f"ongeveer {length}"

    def off(self, how: str, over: bool) -> str:
        """How far the true mark is from the line of the ruler that is read."""
        far = {"half": "een half streepje", "hair": "een haartje", "nearly": "bijna een half"}[how]
        return f"{far} {'meer' if over else 'minder'}"


class Phrases(english.Phrases):
    """All that the program says of itself, in Dutch."""

    code = "nl"

    @cached_property
    def measures(self) -> MeasurePhrases:
        """Words beside a length."""
        return _Measures()


PHRASES = Phrases
