"""Why a mending makes no sense."""

from __future__ import annotations


class CannotMend(Exception):
    """A mending that makes no sense, or not on this plan.

    Attributes:
        code: A short stable word: ``damaged`` (its text), ``no such step``, ``no such thing``,
            ``not made`` (a thing that a load takes), ``taken twice``, ``role twice`` (one thing
            in two places), ``name taken``, ``ready made`` (a thing that can't be cut),
            ``parts`` (they are not one more than the marks), ``impossible`` (a cut),
            ``too many`` (things).
        things: The identities or names that it is about.
    """

    def __init__(self, code: str, *things: str) -> None:
        """Keep what is wrong."""
        self.code, self.things = code, things
        super().__init__(": ".join((code, ", ".join(things))) if things else code)
