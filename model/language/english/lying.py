"""Sentences on how paper is laid: by what is seen on it, never by how it was moved.

"A quarter turn" leaves open which way, and on a pile nobody knows how a strip lay before. So
what is told is where the top of the print, a landmark or a torn edge is seen; of plain paper,
which side runs along the ruler.
"""

from __future__ import annotations

from model.cutting import Stock
from model.geometry import Measure, Orientation, Sure
from model.kit import Verb
from model.language.english.grammar import listed
from model.language.english.pieces import PieceWords
from model.plan import Item, Role, Step
from model.signs import has_top, landmarks_on, on_bed, place_named, sides_alike

_TURNS = {
    0: "as it came off",
    1: "a quarter turn to the right",
    2: "a half turn",
    3: "a quarter turn to the left",
}


class LayWords(PieceWords):
    """Words on how paper is laid."""

    def lay(self, step: Step) -> str:
        """How the paper of a load is laid.

        With the blade at the left, everything is laid turned by half.

        Args:
            step: A step of kind `StepKind.LOAD`.
        """
        item = self.plan.items[step.takes[0]]
        lying = self.lying(step)
        alike = sides_alike(item.paper)
        side = "" if alike else "reverse up" if lying.reverse else "face up"
        sign = self._lay_of_author(step, item, lying) or self._sign(step, item, lying)
        where = self._loose(step, sign) if step.tears else sign or self._long_side(step)
        if not where and step.turned and item.role is not Role.SHEET:
            where = "either way round"
        if alike and where in ("", "either way round"):
            side = "either side up"
        text = ", ".join(part for part in (side, where) if part)
        return f"{text[:1].upper()}{text[1:]}."

    def lying(self, step: Step) -> Orientation:
        """How this crafter sees the paper of a load lie."""
        return step.lying.turned(2 if self.manner.left_handed else 0)

    def _lay_of_author(self, step: Step, item: Item, lying: Orientation) -> str:
        """What the author says, where it can be seen on the paper; else nothing."""
        work = step.work
        if work is None or work.lay is None or item.paper is None:
            return ""
        what = work.lay[0]
        named = place_named(item.paper, what)
        if named is None or not (named[1] or has_top(self.plan, item)):
            return ""
        advised = ", if you like" if work.advised else ""
        return f"{_at(what, on_bed(lying, named[0]), named[1] and lying.reverse)}{advised}"

    def _sign(self, step: Step, item: Item, lying: Orientation) -> str:
        """Where the top, a landmark or a torn edge is seen; nothing when there is none."""
        if has_top(self.plan, item):
            return _at("top edge", lying.up)
        for name, place in landmarks_on(self.plan, item, step.before):
            return _at(name, on_bed(lying, place), lying.reverse)
        torn = sorted(lying.side_on_bed(side) for side in step.before.torn) if step.before else []
        return _at(f"torn edge{'s' * (len(torn) > 1)}", listed(torn)) if torn else ""

    def _loose(self, step: Step, sign: str) -> str:
        """Which edge is loose, to be torn off."""
        at = "left" if self.manner.left_handed else "right"
        if sign:
            return f"{sign}, loose edge at the {at}"
        along, across = paper_sides(step.before, step.lying)
        if across is None or along is None or along.value == across.value:
            return f"loose edge at the {at}"
        return f"its {self._side(across)} loose at the {at}"

    def _long_side(self, step: Step) -> str:
        """Which side runs along the ruler; nothing for a square, which has no other."""
        along, across = paper_sides(step.before, step.lying)
        knife = step.verb is Verb.KNIFE
        if along is not None and across is not None and along.value == across.value:
            return ""
        if along is not None:
            return f"its {self._side(along)} {'from left to right' if knife else 'along the ruler'}"
        if across is not None:
            return f"its {self._side(across)} {'from top to bottom' if knife else 'at the blade'}"
        return _TURNS[step.turned]

    def _side(self, measure: Measure) -> str:
        """A side by its length: ``12 in side``."""
        length = self.manner.length(measure.value)
        return f"about {length} side" if measure.sure is Sure.ABOUT else f"{length} side"


def _at(what: str, where: str, underneath: bool = False) -> str:
    return f"{what} {'underneath, ' * underneath}at the {where}"


def paper_sides(stock: Stock | None, lying: Orientation) -> tuple[Measure | None, Measure | None]:
    """What a paper measures along the ruler and across it; None where only lines tell."""
    if stock is None:
        return None, None
    along, across = stock.along(lying), stock.across(lying)
    return (
        None if along.sure is Sure.PRINTED else along,
        None if across.sure is Sure.PRINTED else across,
    )
