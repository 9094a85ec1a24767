"""Words beside a length, in Dutch."""

from __future__ import annotations

from model.language.english import measures as english


class MeasurePhrases(english.MeasurePhrases):
    """Words beside a length, in Dutch."""

    def about(self, length: str) -> str:
        """A length that is not known surely."""
        return f"ongeveer {length}"

    def off(self, how: str, over: bool) -> str:
        """How far the true mark is from the line of the ruler; see the English one."""
        far = {
            "half": "een half streepje",
            "hair": "een haartje",
            "nearly": "bijna een half streepje",
        }[how]
        return f"{far} {'meer' if over else 'minder'}"
