"""What is said of a command, in any language."""

from __future__ import annotations

from typing import NamedTuple


class Said(NamedTuple):
    """The words of a command.

    Attributes:
        label: A word or two for the footer; empty keeps it out of the footer.
        help: One sentence.
        title: Its name in the palette; by default its label.
    """

    label: str
    help: str
    title: str = ""
