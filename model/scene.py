"""A picture of paper on the trimmer as data: what a terminal widget and an SVG both draw.

All measures are exact millimetres; x runs right along the ruler, y down, and the origin
is the top left corner of the paper in hand. Nothing here knows of cells or pixels.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from model.geometry import Side
from model.language.english.drawing import DrawingPhrases
from model.ruler import Graduation

_ENGLISH = DrawingPhrases()
Role = Literal["whole", "piece", "strip", "scrap", "rest", "shape"]
"""What a block is: ``strip`` is trimmed again, ``rest`` stays on the bed at this cut."""


@dataclass(frozen=True, slots=True)
class Block:
    """A rectangle of paper as it lies.

    Attributes:
        x: Left edge in mm.
        y: Top edge in mm.
        w: Width in mm, along the ruler.
        h: Height in mm, across the ruler.
        name: What it is called; may be empty.
        size: Its size, already written in the crafter's style; may be empty.
        role: What becomes of it.
        rgb: The colour of the side that is seen, 0 to 255 each.
        printed: Whether that side is a print.
        up: The side at which the paper has its top, or None when it has no up.
        torn: The sides that are torn.
        apart: It comes off at this cut, so it is drawn set apart by a gap.
        signs: Printed landmarks: where each is seen (a side such as ``left``, or a corner
            such as ``top left``), and its name.
    """

    x: Fraction
    y: Fraction
    w: Fraction
    h: Fraction
    name: str
    size: str
    role: Role
    rgb: tuple[int, int, int]
    printed: bool
    up: Side | None
    torn: frozenset[Side]
    apart: bool
    signs: tuple[tuple[str, str], ...] = ()


@dataclass(frozen=True, slots=True)
class Scene:
    """Paper in hand, the cut to make now and those to come.

    Attributes:
        width: Extent along the ruler in mm.
        height: Extent across the ruler in mm.
        blocks: The paper, in any order.
        cut: Where the cut runs now, in mm from the held edge, or None.
        later: Marks still to come in this load, in mm, drawn faintly.
        ruler: What the trimmer's ruler reads to; drawn along the top edge with numbers
            in its unit and its zero at the held edge. None: no ruler.
        schematic: The sizes are not measured; the picture must say so.
        mirrored: Places are drawn mirrored in x, for a trimmer worked with the left hand.
            The paper itself is turned by half, as no paper can be mirrored; the scene has
            its top and bottom changed already, so that mirroring does the rest.
        held: The side at which the held edge is (before it is mirrored).
        words: The few words of a drawing, in the crafter's language.
    """

    width: Fraction
    height: Fraction
    blocks: tuple[Block, ...]
    cut: Fraction | None
    later: tuple[Fraction, ...]
    ruler: Graduation | None
    schematic: bool
    mirrored: bool
    held: Side
    words: DrawingPhrases = _ENGLISH
