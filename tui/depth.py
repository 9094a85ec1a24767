"""Rows for a terminal of few colours, or of none: what is written stays legible on its ground.

Themes and paper are in true colour. Where a terminal has 256 or 16, each colour is sent as the
nearest it has, and ink and paper may then come to lie side by side.
"""

from __future__ import annotations

from collections.abc import MutableMapping, Sequence
from functools import lru_cache

from rich.color import Color as RichColor
from rich.color import ColorSystem
from rich.console import Console
from rich.segment import Segment
from rich.style import Style
from textual.color import Color
from textual.filter import LineFilter, Monochrome, NoColor

from model.colour import BLACK, WHITE, Rgb, contrast

# The colours of xterm, as in its XTerm-col.ad; from memory. Terminals differ in the other
# fourteen, but black and bright white, in which we write where in doubt, are near this in all.
XTERM: tuple[Rgb, ...] = (
    (0, 0, 0), (205, 0, 0), (0, 205, 0), (205, 205, 0),
    (0, 0, 238), (205, 0, 205), (0, 205, 205), (229, 229, 229),
    (127, 127, 127), (255, 0, 0), (0, 255, 0), (255, 255, 0),
    (92, 92, 255), (255, 0, 255), (0, 255, 255), (255, 255, 255),
)  # fmt: skip
_FEW = {
    "256": ColorSystem.EIGHT_BIT,
    "standard": ColorSystem.STANDARD,
    "windows": ColorSystem.WINDOWS,
}


def shown(colour: RichColor, system: ColorSystem) -> Rgb:
    """The colour that a terminal shows for a colour."""
    sent = colour if system is ColorSystem.TRUECOLOR else colour.downgrade(system)
    if sent.number is not None and sent.number < len(XTERM):
        return XTERM[sent.number]
    red, green, blue = sent.get_truecolor()
    return red, green, blue


@lru_cache(maxsize=2048)
def legible(style: Style, system: ColorSystem) -> Style:
    """A style that is as legible with few colours as WCAG 2.2 wants it, if it was so with all.

    Args:
        style: A style of true colours.
        system: The colours that the terminal has.

    Returns:
        The style, or one with black or white for its colour.
    """
    colour, ground = style.color, style.bgcolor
    if colour is None or ground is None or colour.is_default or ground.is_default:
        return style
    true = contrast(shown(colour, ColorSystem.TRUECOLOR), shown(ground, ColorSystem.TRUECOLOR))
    wanted = next((least for least in (4.5, 3.0) if true >= least), 0.0)
    there = shown(ground, system)
    if contrast(shown(colour, system), there) >= wanted:
        return style
    ink = max((BLACK, WHITE), key=lambda each: contrast(each, there))
    return style + Style(color=RichColor.from_rgb(*ink))


class Legible(LineFilter):
    """Keeps rows legible with few colours."""

    def __init__(self, system: ColorSystem) -> None:
        """Say how many colours there are."""
        super().__init__()
        self.system = system

    def apply(self, segments: list[Segment], background: Color) -> list[Segment]:
        """A row in colours that stay apart."""
        return [
            Segment(text, style and legible(style, self.system), control)
            for text, style, control in segments
        ]


def depth_filters(filters: Sequence[LineFilter], console: Console) -> Sequence[LineFilter]:
    """Textual's filters, and those of a terminal of few colours.

    Textual turns colours into greys where NO_COLOR is set; https://no-color.org asks for none.
    """
    made = [NoColor() if isinstance(each, Monochrome) else each for each in filters]
    system = _FEW.get(console.color_system or "")
    return [*made, Legible(system)] if system is not None else made


def no_colour_wanted(environ: MutableMapping[str, str]) -> None:
    """Forget a NO_COLOR that is empty, which Textual would count.

    https://no-color.org counts it only "when present and not an empty string".
    """
    if not environ.get("NO_COLOR", "-"):
        del environ["NO_COLOR"]
