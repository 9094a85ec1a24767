"""What is wrong with a plan of cuts, as data.

It is told to those who work on the search, and to its tests; a crafter is never shown such a plan.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from model.lengthtext import LengthStyle, write_length

_SAID = {
    "no-name": "a wanted piece has no name",
    "name-twice": 'the name "{}" stands twice in the task',
    "no-graduation": "the graduation is {}, and must be more than nothing",
    "unknown-board": 'no paper at hand is called "{}"',
    "too-many-boards": '"{}" is begun {} times, and {} are at hand',
    "idle-board": '"{}" is begun, and nothing that is wanted comes of it',
    "boards-order": 'sheet "{}" is not cut in the order in which sheets are said to be begun',
    "unknown-part": "part {} is spoken of, and not described",
    "never-made": "part {} is described, and no load makes it",
    "made-twice": "part {} comes into being twice",
    "not-there": "part {} is taken, and does not exist yet",
    "taken-twice": "part {} is taken a second time",
    "no-marks": "part {} is laid in, and not cut",
    "gives-count": "{} marks make as many offcuts, and {} are named",
    "off-graduation": "mark {} is on no graduation",
    "outside": "mark {} is not inside the part, which measures {}",
    "not-falling": "mark {} comes after {}",
    "narrow-mark": "mark {} is narrower than the narrowest strip worth holding, {}",
    "narrow-offcut": "part {} is cut again, and is only {} wide",
    "size-differs": "part {} is said to be {} x {}, and comes out {} x {}",
    "upright-differs": "which way part {} lies against its sheet is said wrongly",
    "cut-again": "part {} is cut again, and said to be done with",
    "loose": "part {} is no wanted piece, no scrap, and not cut again",
    "two-ends": "part {} is a scrap and a wanted piece at once",
    "unknown-want": 'nothing that is wanted is called "{}"',
    "wrong-paper": 'part {} is to be "{}", and is of another paper: "{}"',
    "wrong-size": 'part {} is to be "{}", and measures {} x {}',
    "turned-wrong": 'part {} is to be "{}", and would lie sideways',
    "count-differs": '"{}" is wanted {} times; {} come out and {} are said to be missing',
    "area-differs": "the parts do not add up to the paper that was begun",
    "cuts-differ": "there are {} cuts, and pieces + scraps - boards make {}",
    "figure-differs": "{} is said to be {}, and is {}",
    "least-above": "{} is {}, and no plan is said to go below {}",
    "least-below-zero": "{} is said to go below nothing: {}",
    "false-proof": "no plan is said to go below {1} for {0}, and one with {2} is known",
}
CODES = frozenset(_SAID)
"""Every code that a flaw may have."""


@dataclass(frozen=True, slots=True)
class Flaw:
    """One thing that is wrong with a plan.

    Attributes:
        code: A short stable name, one of `CODES`.
        load: The load it is found in, from 0; None where it is of no one load.
        things: What is named: numbers of parts, names, counts, and lengths in mm.
    """

    code: str
    load: int | None = None
    things: tuple[int | str | Fraction, ...] = ()

    def text(self, style: LengthStyle | None = None) -> str:
        """What is wrong, as one line.

        Args:
            style: How lengths are written; in inches when left out.
        """
        style = style or LengthStyle(ascii=True)
        said = _SAID[self.code].format(
            *(write_length(x, style) if isinstance(x, Fraction) else x for x in self.things)
        )
        return said if self.load is None else f"load {self.load + 1}: {said}"
