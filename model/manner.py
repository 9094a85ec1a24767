"""How one crafter is told things: units, ruler, and hands."""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction

from model.cutting import Stock
from model.geometry import Measure, Sure
from model.lengthtext import LengthStyle, write_length, write_size
from model.plan import Item
from model.ruler import GRADUATIONS, Graduation


@dataclass(frozen=True, slots=True)
class Manner:
    """One crafter's ways.

    Attributes:
        style: How lengths are written.
        ruler: What the trimmer's ruler reads to.
        tearing_ruler: The width of the ruler to tear against, in mm.
        left_handed: The trimmer is worked mirrored.
    """

    style: LengthStyle = field(default_factory=LengthStyle)
    ruler: Graduation = GRADUATIONS["1/16 in"]
    tearing_ruler: Fraction = Fraction(762, 10)
    left_handed: bool = False

    @property
    def ascii(self) -> bool:
        """Whether only ASCII is written."""
        return self.style.ascii

    def length(self, x: Fraction, unit: bool = True) -> str:
        """A length in words, such as ``9½ in``."""
        return write_length(x, self.style, with_unit=unit)

    def measure(self, measure: Measure) -> str:
        """A measure in words, which says how surely it is known."""
        if measure.sure is Sure.PRINTED:
            return "?"
        text = write_length(measure.value, self.style)
        return f"about {text}" if measure.sure is Sure.ABOUT else text

    def stock_size(self, stock: Stock, directional: bool) -> str:
        """A size in words: upright for a directional print, else short by long.

        Nothing is said of what only a printed line knows.
        """
        width, height = stock.width, stock.height
        if not directional and height.value < width.value:
            width, height = height, width
        if stock.measured:
            return write_size(width.value, height.value, self.style)
        if Sure.PRINTED in (width.sure, height.sure):
            return ""
        cross = "x" if self.ascii else "×"
        return f"{self.measure(width)} {cross} {self.measure(height)}"

    def size(self, item: Item) -> str:
        """A thing's size in words; empty when nobody measured it."""
        if item.length is not None:
            return self.length(item.length)
        directional = bool(item.paper and item.paper.directional)
        if item.kind and item.kind.size and (item.stock is None or not item.stock.measured):
            return write_size(*item.kind.size, self.style)
        return self.stock_size(item.stock, directional) if item.stock else ""
