"""What an author wants planned: the task, and what must be known to tell of its plan."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from typing import NamedTuple

from model.finding import Path
from model.length import Unit
from model.planning.task import CutPlan, Task


@dataclass(frozen=True, slots=True)
class Choices:
    """What is chosen for one plan, over what a file says.

    Attributes:
        graduation: What the trimmer's ruler reads to, in mm; None as the file says.
        narrowest: The narrowest strip worth holding, in mm; None as the file says.
        turnable: Every piece may be turned.
    """

    graduation: Fraction | None = None
    narrowest: Fraction | None = None
    turnable: bool = False


class Place(NamedTuple):
    """Where one copy is for: a pocket's label, and its page where that is known."""

    pocket: str
    page: int | None


@dataclass(frozen=True, slots=True)
class Alone:
    """A sheet that is left as it is.

    Attributes:
        sheet: Its name.
        why: ``printed lines``, ``by hand``, ``pictures``, or ``no size``.
    """

    sheet: str
    why: str


@dataclass(frozen=True, slots=True)
class Wanted:
    """What is to be planned.

    Attributes:
        task: What the planner is asked. Papers and sheets that are alike are one board.
        unit: The unit of the file.
        title: What the file is called, or the kit in it.
        sheets: The names of the sheets that each board stands for, by the board's name.
        called: What the file calls each wanted piece, by its name in the task.
        places: Where the copies of a piece are for, each copy once, by its name in the task.
        alone: Sheets that are not planned.
        kit: It comes from a kit, and its loads belong into one.
        used: All names that something in the kit has.
        yours: The author's own loads; None where there are none.
        replaced: The steps of the kit that cut each sheet so far, by their places.
        on_the_spot: Pieces that the kit declares only in its steps, by their names in the task,
            with their places as a kit says them.
        own_copies: Pieces of which a copy has something said of itself in a step.
        freed: Pieces that may not be turned by the kit's word, and may by choice.
        scraps_beside: How many scraps the kit's other steps make; None where it states none.
    """

    task: Task
    unit: Unit
    title: str
    sheets: Mapping[str, tuple[str, ...]]
    called: Mapping[str, str]
    places: Mapping[str, tuple[Place, ...]] = field(default_factory=dict)
    alone: tuple[Alone, ...] = ()
    kit: bool = False
    used: frozenset[str] = frozenset()
    yours: CutPlan | None = None
    replaced: Mapping[str, tuple[Path, ...]] = field(default_factory=dict)
    on_the_spot: Mapping[str, str] = field(default_factory=dict)
    own_copies: tuple[str, ...] = ()
    freed: tuple[str, ...] = ()
    scraps_beside: int | None = None

    def lacks(self, plan: CutPlan) -> bool:
        """Whether a plan lacks a piece that must be had."""
        must = {want.name for want in self.task.wants if want.value is None}
        return any(name in must and count for name, count in plan.missing.items())


def usual_graduation(unit: Unit) -> Fraction:
    """What a ruler of a unit reads to: 1/16 in, or 1 mm (common practice, no source)."""
    return Fraction(127, 80) if unit is Unit.IN else Fraction(1)
