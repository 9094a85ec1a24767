"""Keys that bounce: a pedal, or a key held down, says the same more than once at once.

A cut that was said twice is a cut that was never made, so the same key counts as one press as
long as it comes again sooner than a hand would press it.
"""

from __future__ import annotations

from textual.events import Key

_GO_ON = frozenset(
    ("up", "down", "left", "right", "pageup", "pagedown", "tab", "shift+tab", "backspace", "delete")
)
"""Keys that are held down on purpose, to go through a list or a text."""


class Bounce:
    """Knows a key that comes again at once.

    Attributes:
        within: How soon it comes again that is still the same press, in seconds; 0 for never.
    """

    def __init__(self, within: float) -> None:
        """No key has come yet.

        Args:
            within: See the attribute.
        """
        self.within = within
        self._last: Key | None = None

    def again(self, event: Key) -> bool:
        """Whether a key is the one before, coming again at once.

        A key that is held down comes again and again: all of it is one press.

        Args:
            event: The key.
        """
        last, self._last = self._last, event
        if last is None or last is event:  # a key bubbles up, and is then seen once more
            return False
        soon = event.time - last.time < self.within
        return soon and event.key == last.key and event.key not in _GO_ON
