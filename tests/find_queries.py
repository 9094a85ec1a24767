"""Queries as a crafter would type them for real pieces, misread and half remembered; seeded."""

from __future__ import annotations

import random
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from model.colour import colour_word
from model.length import Unit
from model.lengthtext import LengthStyle, write_length
from model.plan import Plan
from model.ruler import GRADUATIONS, read_mark
from model.sought import Sought, sought_of

_CROSSES = ("x", " x ", " by ", "×")


@dataclass(frozen=True, slots=True)
class Asked:
    """A query for one thing.

    Attributes:
        sought: What is looked for.
        text: What is typed.
        decidable: Nothing else of the kit fits what was typed as well, whoever reads it.
    """

    sought: Sought
    text: str
    decidable: bool


def queries(plan: Plan, count: int, seed: int) -> Iterator[Asked]:
    """Queries for pieces of a plan: misread by a graduation, sides swapped, the colour left out.

    Args:
        plan: The plan.
        count: How many.
        seed: Of the random choices.
    """
    chance = random.Random(seed)
    unit = plan.kit.unit
    ruler = GRADUATIONS["1/16 in" if unit is Unit.IN else "1 mm"]
    everything = list(sought_of(plan))
    sized = [each for each in everything if len(each.sides) == 2 and each.item.group]
    for _ in range(count):
        sought = chance.choice(sized)
        read = [
            read_mark(side, ruler).shown + chance.choice((-1, 0, 0, 1)) * ruler.step
            for side in sought.sides
        ]
        shown = list(read)
        if chance.random() < 0.5:
            shown.reverse()
        style = LengthStyle(unit, ascii=chance.random() < 0.5)
        text = chance.choice(_CROSSES).join(write_length(side, style) for side in shown)
        colour = colour_word(sought.colours[0]) if sought.colours else ""
        if colour and chance.random() < 0.5:
            text += f" {colour}"
        else:
            colour = ""
        yield Asked(sought, text, not _others(everything, sought, read, colour))


def _others(
    everything: list[Sought], sought: Sought, read: list[Fraction], colour: str
) -> list[Sought]:
    """What else fits as well as the thing itself; worked out without the finder."""
    own = max(abs(a - b) for a, b in zip(sought.sides, read, strict=True))
    return [
        each
        for each in everything
        if each is not sought
        and len(each.sides) == 2
        and max(abs(a - b) for a, b in zip(each.sides, read, strict=True)) <= own
        and (not colour or colour in map(colour_word, each.colours))
    ]
