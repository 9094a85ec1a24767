"""What lies about uncut, and the loads that have been cut, in truth: shared words of a rescue.

All of it is plain data, so that the search for ways runs in a process of its own.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction

from model.geometry import PaperSide
from model.kit import Mark
from model.rescue.mending import Fate, MendedLoad, Share

SCRAPPED = Share(Fate.SCRAP)


@dataclass(frozen=True, slots=True)
class Loose:
    """A thing that is there, uncut.

    Attributes:
        id: Its identity; of what is left in the trimmer in the middle of a load, that of the
            thing which the load takes.
        width: In its sheet's frame, in mm.
        height: In its sheet's frame, in mm.
        paper: The name of its paper.
        sheet: The sheet it was cut from, or is.
        sideways: It came off, or lies in the trimmer, a quarter turn round.
        off: It came off a quarter turn round, however it lies now.
        begun: It is in the trimmer, some cuts made.
        whole: It is a sheet that nobody has begun.
        place: Where it is: a `model.spot.Spot`, or a pocket's index.
        wrong: It is not what it should have been.
        torn: It has a torn edge.
        name: What it is called, or was to be; empty where the plan knows nothing like it.
        scrap: It is a scrap.
        spoilt: What becomes of it when it is of no use; a scrap, and what it was when holes
            were punched in it, where they were: then nothing is cut of it.
    """

    id: str
    width: Fraction
    height: Fraction
    paper: str
    sheet: str
    sideways: bool = False
    off: bool = False
    begun: bool = False
    whole: bool = False
    place: int = 0
    wrong: bool = False
    torn: bool = False
    name: str = ""
    scrap: bool = False
    spoilt: Share = SCRAPPED


@dataclass(frozen=True, slots=True)
class Role:
    """A piece, or a strip that only the author's own steps can work on, and that is wanted.

    Attributes:
        id: Its identity in the plan.
        width: In its sheet's frame, in mm.
        height: In its sheet's frame, in mm.
        paper: The name of its paper.
        turnable: It may lie a quarter turn round.
        smaller_by: How much smaller than stated it may be, in mm.
        pocket: The index of the pocket it goes to; below 0 for none.
        page: The page it is for, when known.
        kind: The name of its kind or strip.
        small: It is wanted smaller than stated.
        stuck: It can't be cut anew with straight cuts alone: it has a torn edge, say.
    """

    id: str
    width: Fraction
    height: Fraction
    paper: str
    turnable: bool
    smaller_by: Fraction = Fraction(0)
    pocket: int = -1
    page: int | None = None
    kind: str = ""
    small: bool = False
    stuck: bool = False

    def fits(self, width: Fraction, height: Fraction, slack: Fraction = Fraction(0)) -> bool:
        """Whether a thing of this size is what is wanted.

        Args:
            width: Its width in its sheet's frame, in mm.
            height: Its height.
            slack: How much smaller each side may be, in mm.
        """
        ways = [(width, height), (height, width)] if self.turnable else [(width, height)]
        return any(
            self.width - slack <= w <= self.width and self.height - slack <= h <= self.height
            for w, h in ways
        )


@dataclass(frozen=True, slots=True)
class LoadNow:
    """A load that is cut, or begun.

    Attributes:
        of: What it takes.
        marks: The marks that were cut at, in truth.
        gives: What has come off, in order.
        rest: What stayed on the bed; None while cuts are still to be made.
        turn: Quarter turns clockwise against how it came off.
        up: The side that lies up; None where it stays as it came off.
        as_written: All else is as the author's step has it.
        torn: Without that: it is torn, and its marks are widths.
        left: The marks that are still to be cut, by the plan.
        left_shares: What they make, by the plan, with what stays on the bed.
        changed: Something of it is not as the plan has it.
    """

    of: str
    marks: tuple[Mark, ...]
    gives: tuple[Share, ...]
    rest: Share | None
    turn: int = 0
    up: PaperSide | None = None
    as_written: bool = True
    torn: bool = False
    left: tuple[Mark, ...] = ()
    left_shares: tuple[Share, ...] = ()
    changed: bool = False

    def part(self, number: str) -> Share | None:
        """What becomes of a part; None for what is still in the trimmer.

        Args:
            number: Which part, as in its identity: from 1, or ``r`` for what stays on the bed.
        """
        return self.rest if number == "r" else self.gives[int(number) - 1]

    def sharing(self, number: str, share: Share) -> LoadNow:
        """The same load, with another fate for one of its parts.

        Args:
            number: Which part, see `part`.
            share: What becomes of it.
        """
        if number == "r":
            return replace(self, rest=share, changed=True)
        at = int(number) - 1
        gives = (*self.gives[:at], share, *self.gives[at + 1 :])
        return replace(self, gives=gives, changed=True)

    def whole(self) -> MendedLoad:
        """The load to its end, as the plan goes on with it."""
        if self.rest is not None:
            gives, rest = self.gives, self.rest
        else:
            gives, rest = (*self.gives, *self.left_shares[:-1]), self.left_shares[-1]
        marks = (*self.marks, *self.left)
        return MendedLoad(
            self.of, marks, gives, rest, self.turn, self.up, self.as_written, torn=self.torn
        )


def played(role: str) -> Share:
    """The share of a part that is what a thing of the plan was to be."""
    return Share(Fate.ROLE, role)
