"""How one crafter is told things: language, units, ruler, and hands."""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction

from model.cutting import Stock
from model.geometry import Measure, Sure
from model.language import USUAL, phrases_for
from model.language.english.phrases import Phrases
from model.length import Unit
from model.lengthtext import LengthStyle, write_length, write_size
from model.plan import Item, Plan, Step
from model.ruler import GRADUATIONS, Graduation, Reading, read_chain


@dataclass(frozen=True, slots=True)
class Manner:
    """One crafter's ways.

    Attributes:
        style: How lengths are written.
        ruler: What the trimmer's ruler reads to.
        tearing_ruler: The width of the ruler to tear against, in mm.
        left_handed: The trimmer is worked mirrored.
        phrases: What the program says of itself in the crafter's language; its code is that
            of the sentences too (`model.language.words_of`).
    """

    style: LengthStyle = field(default_factory=LengthStyle)
    ruler: Graduation = GRADUATIONS["1/16 in"]
    tearing_ruler: Fraction = Fraction(762, 10)
    left_handed: bool = False
    phrases: Phrases = field(default_factory=lambda: phrases_for(USUAL))

    @property
    def ascii(self) -> bool:
        """Whether only ASCII is written."""
        return self.style.ascii

    @property
    def ruler_unit(self) -> Unit:
        """The unit in which marks are read.

        On a ruler of its own unit the crafter's way of writing metric lengths is kept.
        """
        metric = self.ruler.unit is not Unit.IN and self.style.unit is not Unit.IN
        return self.style.unit if metric else self.ruler.unit

    def length(self, x: Fraction, unit: bool = True) -> str:
        """A length in words, such as ``9½ in``."""
        return write_length(x, self.style, with_unit=unit)

    def finely(self, x: Fraction) -> str:
        """A length that is to be measured by hand: metric ones to a tenth of a millimetre."""
        if self.style.unit is Unit.IN:
            return self.length(x)
        tenths = round(x * 10)  # a rational: no float decides a size
        led = "" if tenths == x * 10 else "~"
        return f"{led}{tenths // 10}.{tenths % 10} {Unit.MM}"

    def reading(self, plan: Plan, step: Step) -> Reading | None:
        """A cut's mark as this crafter's ruler shows it; None where no number tells it.

        It is read as one of its load's: two marks may fall on one line of the ruler.

        Args:
            plan: The plan.
            step: One of its cuts.
        """
        first, *_ = cuts = [plan.steps[index] for index in plan.loads[step.load]]
        known = [
            (cut.index, cut.mark.value)
            for cut in cuts
            if cut.mark is not None and cut.mark.sure is not Sure.PRINTED
        ]
        along = first.before.along(first.lying) if first.before else None
        edge = along.value if along and along.exact else None
        readings = read_chain([mark for _, mark in known], self.ruler, edge)
        of = dict(zip((index for index, _ in known), readings, strict=True))
        return of.get(step.index)

    def must_measure(self, plan: Plan, step: Step) -> bool:
        """Whether no line of the ruler serves for a cut, so that it is marked by hand."""
        if step.tears or step.mark is None or step.mark.sure is not Sure.EXACT:
            return False
        reading = self.reading(plan, step)
        return reading is not None and reading.unfit

    def measure(self, measure: Measure) -> str:
        """A measure in words, which says how surely it is known."""
        if measure.sure is Sure.PRINTED:
            return "?"
        text = write_length(measure.value, self.style)
        return self.phrases.measures.about(text) if measure.sure is Sure.ABOUT else text

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
