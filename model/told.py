"""What comes back when something is said in a session."""

from __future__ import annotations

from dataclasses import dataclass

from model.warning import Warning


@dataclass(frozen=True, slots=True)
class Told:
    """What came of saying something.

    Attributes:
        objection: Why it was not taken in, as a code of `State.objection`; empty when it was.
        raised: Warnings that it raised.
        n: The number of the event; 0 when it was not taken in.
    """

    objection: str = ""
    raised: tuple[Warning, ...] = ()
    n: int = 0

    @property
    def taken(self) -> bool:
        """Whether it was taken in."""
        return not self.objection
