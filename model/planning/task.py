"""What a planner is asked, and what it answers, as data.

Lengths are exact, in mm. A plan is made of loads that the table can run as they are: a part lies in
the trimmer, held at the left; each mark is the width that stays on the bed; marks fall.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction


@dataclass(frozen=True, slots=True)
class Want:
    """Pieces that are wanted, all alike.

    Attributes:
        name: Their name.
        width: Along the ruler when the paper lies upright, in mm.
        height: Across it, in mm.
        count: How many.
        paper: The paper that they are cut from.
        turnable: Whether they may lie a quarter turn round; a directional print may not.
        value: What one of them is worth; None where it must be had.
        smaller_by: How much smaller each side may be, in mm.
    """

    name: str
    width: Fraction
    height: Fraction
    count: int = 1
    paper: str = ""
    turnable: bool = True
    value: int | None = None
    smaller_by: Fraction = Fraction(0)


@dataclass(frozen=True, slots=True)
class Board:
    """Paper at hand: whole sheets, offcuts or scraps, all alike.

    Attributes:
        name: Its name.
        width: Along the ruler when it lies upright, in mm.
        height: Across it, in mm.
        count: How many there are.
        paper: Its paper.
        left_over: It is an offcut or a scrap, and costs no sheet.
    """

    name: str
    width: Fraction
    height: Fraction
    count: int = 1
    paper: str = ""
    left_over: bool = False


@dataclass(frozen=True, slots=True)
class Task:
    """What is to be planned.

    Attributes:
        wants: The wanted pieces.
        boards: The paper at hand.
        graduation: Every mark is a whole number of these, in mm.
        narrowest: The narrowest strip worth holding, in mm: no mark or offcut that is cut again
            is narrower.
    """

    wants: tuple[Want, ...]
    boards: tuple[Board, ...]
    graduation: Fraction = Fraction(127, 80)
    narrowest: Fraction = Fraction(0)


@dataclass(frozen=True, slots=True)
class Part:
    """A sheet, or what comes off in a load, or is left of it.

    Attributes:
        width: Along the ruler as it came off (a sheet: upright), in mm.
        height: Across it, in mm.
        upright: It lies as its sheet lay upright, or half a turn round; else a quarter turn.
        want: The name of the wanted piece that it is; empty for none.
        scrap: It is thrown away.
    """

    width: Fraction
    height: Fraction
    upright: bool = True
    want: str = ""
    scrap: bool = False


@dataclass(frozen=True, slots=True)
class PlannedLoad:
    """One part in the trimmer, and the cuts across it.

    Attributes:
        takes: The part, by its number.
        turned: It is turned a quarter against how it came off.
        marks: What stays on the bed after each cut, falling, in mm.
        gives: What comes off at each mark, by number.
        rest: What is left on the bed, by number.
    """

    takes: int
    turned: bool
    marks: tuple[Fraction, ...]
    gives: tuple[int, ...]
    rest: int


@dataclass(frozen=True, slots=True)
class Figure:
    """One figure of a plan.

    Attributes:
        value: What the plan has.
        least: What no plan goes below (with all figures before this one as they are).
    """

    value: int
    least: int

    @property
    def proved(self) -> bool:
        """Whether it is proved least."""
        return self.value == self.least


@dataclass(frozen=True, slots=True)
class Figures:
    """The figures of a plan, in the order of their weight.

    Attributes:
        missing: The value of what could not be had (most value first: less is better).
        sheets: Whole sheets that are begun.
        scraps: Parts that are thrown away.
        reloads: Loads that take a part from the pile: neither a fresh sheet nor the rest of the
            load just before.
        turns: Loads that turn the rest of the load just before, which stays in hand.
        settings: Distinct marks to set.
    """

    missing: Figure
    sheets: Figure
    scraps: Figure
    reloads: Figure
    turns: Figure
    settings: Figure


@dataclass(frozen=True, slots=True)
class CutPlan:
    """An answer.

    Attributes:
        parts: Every part by its number.
        sheets: The number of each part that is a board, with the board's name, in the order in
            which they are begun.
        loads: In order of work.
        missing: Wanted pieces that could not be had, by name, with their number.
        figures: How good it is, and what is proved.
    """

    parts: Mapping[int, Part]
    sheets: tuple[tuple[int, str], ...]
    loads: tuple[PlannedLoad, ...]
    missing: Mapping[str, int] = field(default_factory=dict)
    figures: Figures | None = None
