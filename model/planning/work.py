"""A limit on work, so that a search always ends, and ends alike for the same limit."""

from __future__ import annotations

from collections.abc import Callable


class Work:
    """Nodes that a search may look at, and a word to stop it.

    Attributes:
        left: Nodes that may still be looked at.
        spent: Nodes that have been looked at.
        stop: Says that it is enough; None where only the nodes count.
    """

    def __init__(self, left: int, stop: Callable[[], bool] | None = None) -> None:
        """A limit.

        Args:
            left: How many nodes may be looked at.
            stop: Says that it is enough, whatever is left.
        """
        self.left = left
        self.spent = 0
        self.stop = stop

    def spend(self, nodes: int = 1) -> None:
        """Note that nodes were looked at.

        Args:
            nodes: How many.
        """
        self.left -= nodes
        self.spent += nodes

    @property
    def over(self) -> bool:
        """Whether nothing may be looked at any more."""
        return self.left <= 0 or (self.stop is not None and self.stop())

    def share(self, most: int) -> Work:
        """A smaller limit within this one; `spend` what it spent when it is done with.

        Args:
            most: How many nodes at most.
        """
        return Work(min(most, self.left), self.stop)
