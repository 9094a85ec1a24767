"""Sentences on how paper is laid: by what is seen on it, never by how it was moved."""

from __future__ import annotations

from model.geometry import Measure, Orientation, Sure
from model.kit import Verb
from model.language.dutch.grammar import listed
from model.language.dutch.pieces import PieceWords
from model.language.english import lying as english
from model.language.english.lying import paper_sides
from model.plan import Item, Role, Step
from model.signs import has_top, landmarks_on, on_bed, place_named, sides_alike

_TURNS = {
    0: "zoals het eraf kwam",
    1: "een kwartslag naar rechts",
    2: "een halve slag gedraaid",
    3: "een kwartslag naar links",
}
_WHERE = {
    "top": "bovenaan",
    "bottom": "onderaan",
    "left": "links",
    "right": "rechts",
    "top left": "linksboven",
    "top right": "rechtsboven",
    "bottom left": "linksonder",
    "bottom right": "rechtsonder",
}
"""Where something is seen; alone, ``onder`` would be beneath."""
_EDGES = {
    "top": "bovenrand",
    "bottom": "onderrand",
    "left": "linkerrand",
    "right": "rechterrand",
    "top left": "linkerbovenhoek",
    "top right": "rechterbovenhoek",
    "bottom left": "linkeronderhoek",
    "bottom right": "rechteronderhoek",
}
_ANY_WAY = "in elke richting"


class LayWords(PieceWords, english.LayWords):
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
        side = "" if alike else "achterkant boven" if lying.reverse else "voorkant boven"
        sign = self._lay_of_author(step, item, lying) or self._sign(step, item, lying)
        where = self._loose(step, sign) if step.tears else sign or self._long_side(step)
        if not where and step.turned and item.role is not Role.SHEET:
            where = _ANY_WAY
        if alike and where in ("", _ANY_WAY):
            side = "elke kant mag boven"
        text = ", ".join(part for part in (side, where) if part)
        return f"{text[:1].upper()}{text[1:]}."

    def _lay_of_author(self, step: Step, item: Item, lying: Orientation) -> str:
        """What the author says, where it can be seen on the paper; else nothing."""
        work = step.work
        if work is None or work.lay is None or item.paper is None:
            return ""
        what = work.lay[0]
        named = place_named(item.paper, what)
        if named is None or not (named[1] or has_top(self.plan, item)):
            return ""
        place, landmark = named
        advised = ", als je wilt" if work.advised else ""
        what = what if landmark else _EDGES[place]
        return f"{_at(what, on_bed(lying, place), landmark and lying.reverse)}{advised}"

    def _sign(self, step: Step, item: Item, lying: Orientation) -> str:
        """Where the top, a landmark or a torn edge is seen; nothing when there is none."""
        if has_top(self.plan, item):
            return _at(_EDGES["top"], lying.up)
        for name, place in landmarks_on(self.plan, item, step.before):
            return _at(name, on_bed(lying, place), lying.reverse)
        torn = sorted(lying.side_on_bed(side) for side in step.before.torn) if step.before else []
        if not torn:
            return ""
        edges = "gescheurde randen" if len(torn) > 1 else "gescheurde rand"
        return f"{edges} {listed([_WHERE[side] for side in torn])}"

    def _loose(self, step: Step, sign: str) -> str:
        """Which edge is loose, to be torn off."""
        loose = f"losse rand {_WHERE['left' if self.manner.left_handed else 'right']}"
        if sign:
            return f"{sign}, {loose}"
        along, across = paper_sides(step.before, step.lying)
        if across is None or along is None or along.value == across.value:
            return loose
        return f"{loose}: {self._side(across)}"

    def _long_side(self, step: Step) -> str:
        """Which side runs along the ruler; nothing for a square, which has no other."""
        along, across = paper_sides(step.before, step.lying)
        knife = step.verb is Verb.KNIFE
        if along is not None and across is not None and along.value == across.value:
            return ""
        if along is not None:
            where = "van links naar rechts" if knife else "langs de liniaal"
            return f"{self._side(along)} {where}"
        if across is not None:
            return f"{self._side(across)} {'van boven naar onder' if knife else 'bij het mes'}"
        return _TURNS[step.turned]

    def _side(self, measure: Measure) -> str:
        """A side by its length: ``de zijde van 12 in``."""
        length = self.manner.length(measure.value)
        about = self.manner.phrases.measures.about(length)
        return f"de zijde van {about if measure.sure is Sure.ABOUT else length}"


def _at(what: str, where: str, underneath: bool = False) -> str:
    return f"{what} {'aan de onderzijde, ' * underneath}{_WHERE[where]}"
