"""Keys that bounce: a pedal, or a key held down, says the same more than once at once.

A cut that was said twice is a cut that was never made, so the same key counts as one press as
long as it comes again sooner than a hand would press it.
"""

from __future__ import annotations

from textual.app import App
from textual.events import Event, Key

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
        if last is None:
            return False
        soon = event.time - last.time < self.within
        return soon and event.key == last.key and event.key not in _GO_ON


class SteadyApp(App[None]):
    """A program in which a key that comes again at once is heard once.

    Attributes:
        bounce: Knows such keys. Without a terminal nobody's pedal bounces, and tests are quicker
            than hands: there it holds nothing back, unless it is told to.
    """

    def __init__(self) -> None:
        """Hold nothing back yet."""
        super().__init__()
        self.bounce = Bounce(0)

    def hold_back(self, milliseconds: int) -> None:
        """Take a key for the same press so long, where there is a terminal to press it at."""
        if not self.is_headless:
            self.bounce.within = milliseconds / 1000

    async def on_event(self, event: Event) -> None:
        """Pass a key on, unless it comes again at once and is not typed into a line."""
        # A key that its screen has no use for comes back here to be looked up, and maybe after the
        # next one: only what comes from the terminal is looked at.
        if isinstance(event, Key) and not event.is_forwarded and self.bounce.again(event):
            typed_in = self.focused
            if typed_in is None or not typed_in.check_consume_key(event.key, event.character):
                return
        await super().on_event(event)
