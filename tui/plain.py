"""ASCII only, whatever a widget draws: borders and bars of Textual's own, and names in kits."""

from __future__ import annotations

from functools import lru_cache

from rich.cells import cell_len
from rich.segment import Segment
from textual.color import Color
from textual.filter import LineFilter

from tui.asciitext import ascii_text


@lru_cache(maxsize=4096)
def plain(text: str) -> str:
    """Text in ASCII: accents left out, fractions written out, and ``?`` for what is neither."""
    return ascii_text(text, cell_len)


class AsciiOnly(LineFilter):
    """Puts rows into ASCII and keeps their width."""

    def apply(self, segments: list[Segment], background: Color) -> list[Segment]:
        """A row in ASCII.

        What is longer so takes its room from the spaces after it, where two or more stand
        side by side; where there are none the row is cut at its end.
        """
        if all(segment.text.isascii() for segment in segments):
            return segments
        width = sum(segment.cell_length for segment in segments)
        made: list[Segment] = []
        over = 0
        for text, style, control in segments:
            if control:
                made.append(Segment(text, style, control))
                continue
            short = plain(text)
            over += cell_len(short) - cell_len(text)
            if over < 0:
                short, over = short + " " * -over, 0
            while over and (at := short.rfind("  ")) >= 0:
                short, over = short[:at] + short[at + 1 :], over - 1
            made.append(Segment(short, style))
        return list(Segment.adjust_line_length(made, width)) if over else made


ASCII_ONLY = AsciiOnly()
"""The filter; it knows nothing, so one will do for all."""
