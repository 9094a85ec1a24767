"""Words beside a length: how surely it is known, and how far it is from a line of the ruler."""

from __future__ import annotations


class MeasurePhrases:
    """Words beside a length."""

    def about(self, length: str) -> str:
        """A length that is not known surely."""
        return f"about {length}"

    def off(self, how: str, over: bool) -> str:
        """How far the true mark is from the line of the ruler that is read.

        Args:
            how: ``half`` of the way to the next line, a ``hair``, or ``nearly`` half.
            over: Whether it is beyond the line, seen from the held edge.
        """
        far = {"half": "half a mark", "hair": "a hair", "nearly": "nearly half a mark"}[how]
        return f"{far} {'over' if over else 'under'}"
