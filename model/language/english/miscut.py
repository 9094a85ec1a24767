"""Sentences on what went wrong at the trimmer, and on what can be saved."""

from __future__ import annotations

from datetime import datetime, timedelta
from fractions import Fraction
from typing import TYPE_CHECKING

from model.language.english.grammar import counted
from model.language.english.steps import StepWords
from model.length import Unit
from model.lengthtext import LengthStyle, write_length
from model.plan import Item, Role, Step, StepKind
from model.spot import Spot

if TYPE_CHECKING:
    from model.rescue.choices import Lot, Made
    from model.rescue.mishap import CannotBe, Mishap, What
    from model.state import State

_WHAT = {
    "mark": "I cut at another mark",
    "measure": "My ruler says another size",
    "piece": "I took another piece than asked for",
    "turned": "The paper lay turned the wrong way",
    "face": "The wrong side was up",
    "ruined": "Something is ruined: torn, stained or lost",
    "missing": "A sheet is missing from the packet",
}
_WHY = {
    "no cut": "nothing is cut yet",
    "no numbers": "a printed line rules this cut, no number. Is the piece spoilt? Say that it is "
    "ruined",
    "nothing else": "nothing else lay there to be taken",
    "nothing there": "nothing is there yet",
    "all begun": "every sheet is begun",
    "not to turn": "this was not cut in the trimmer",
    "not cut": "nothing is cut of it yet: undo, and lay it anew",
    "by hand": "this was made by hand",
    "outside": "turned so, the paper is too short for these marks",
    "not falling": "turned so, these marks make no sense",
}
_CANNOT = {
    "no such step": "That cut can't be looked at any more. Choose another cut.",
    "not done": "That cut is not made yet. Choose one that is.",
    "no numbers": "No number is known of this cut or this paper. If the piece is spoilt, say that "
    "it is ruined.",
    "as it should be": "That is just as it should be, so nothing is wrong with it. Look at the "
    "number again.",
    "no such thing": "That can't be chosen here. Choose another one.",
    "not there": "That did not lie there. Choose what you really took.",
    "cut before": "That was cut up before. Choose another one.",
    "not cut": "It was laid there, but nothing is cut of it. Undo that, and lay the right one.",
    "not of the stack": "That is never cut here. Choose a sheet, a strip or a piece that is.",
    "by hand": "That was made by hand, so no cut can be planned for it. Make another one by hand, "
    "from paper that is left.",
    "not to turn": "This was not cut in the trimmer, so it can't have lain wrong there.",
    "turned": "Turned so, the paper is too short for these marks. Choose the load where it "
    "happened.",
}


class MiscutWords(StepWords):
    """Words on what went wrong."""

    # What is meant

    def cut_named(self, step: Step) -> str:
        """A cut by what it cut, and where: ``cut 2 of 4 of sheet B, at 8½``."""
        item = self.plan.items[(*step.takes, *step.touches)[0]]
        of = f"sheet {item.name}" if item.role is Role.SHEET else item.name
        if item.role is not Role.SHEET and item.sheet:
            of = f"{of} (sheet {item.sheet})"
        if step.kind is StepKind.TEAR:
            wide = self.manner.length(step.mark.value) if step.mark else ""
            return f"tear {step.number} of {step.of} of {of}, {wide} wide"
        reading = self.manner.reading(self.plan, step)
        at = "along a printed line" if reading is None else f"at {self.mark(step)}"
        return f"cut {step.number} of {step.of} of {of}, {at}"

    def cut_meant(self, step: Step | None, newest: bool) -> str:
        """Which cut is meant.

        Args:
            step: The cut; None when none is made yet.
            newest: Whether it is the last one that was made.
        """
        if step is None:
            return "Nothing is cut yet."
        return f"{'The last cut' if newest else 'An earlier cut'}: {self.cut_named(step)}."

    def cut_came(self, step: Step, state: State) -> str:
        """What came off at a cut, and where it is."""
        item = self.plan.items[step.makes[0]]
        place = state.where(item.id)
        where = "cut up since" if place == Spot.TAKEN else self.at_place(place)
        return f"{self.named(item)}, {where}"

    def cut_row(self, made: Made, state: State, now: datetime) -> tuple[str, str]:
        """A cut in a list: which, then what came of it and when.

        Args:
            made: The cut.
            state: The session.
            now: The time now.
        """
        named = self.cut_named(made.step)
        when = "" if made.at is None else f"; {self._ago(now - made.at)}"
        return f"{named[:1].upper()}{named[1:]}", f"{self.cut_came(made.step, state)}{when}"

    def _ago(self, ago: timedelta) -> str:
        minutes = int(ago.total_seconds() // 60)
        if ago.days:
            return f"{counted(ago.days, 'day')} ago"
        return "just now" if minutes < 1 else (
            f"{minutes} min ago" if minutes < 60 else f"{minutes // 60} h ago"
        )  # fmt: skip

    def lot_row(self, lot: Lot) -> tuple[str, str]:
        """A thing in a list: what it is, then where."""
        item = lot.item
        name = self._thing(item)
        where = "cut up since" if lot.place == Spot.TAKEN else self.at_place(lot.place)
        if lot.place == Spot.NOWHERE:
            where = "in the packet"
        if item.sheet and item.role not in (Role.SHEET, Role.BASE):
            where = f"{where}; of sheet {item.sheet}"
        return name, f"{where}; {lot.count} alike" if lot.count > 1 else where

    def miscut_narrow(self) -> str:
        """What stands in the line that narrows a list, while it is empty."""
        return "type to shorten the list: a name, a sheet, a size"

    def miscut_none(self) -> str:
        """That nothing in a list fits what was typed."""
        return "Nothing here has that in its name. Delete some of it."

    # What happened

    def miscut_title(self) -> str:
        """Stands above the list of what can go wrong."""
        return "Miscut: what happened?"

    def miscut_free(self) -> str:
        """That looking changes nothing."""
        return "Looking costs nothing: all stays as it is until you choose a way to save it."

    def miscut_other(self, key: str) -> str:
        """How another cut is chosen."""
        return f"Was it another cut? {key} lists them all."

    def what_happened(self, what: What) -> str:
        """One of the things that can go wrong, as a crafter says it."""
        return _WHAT[what]

    def why_not_said(self, code: str) -> str:
        """Why it can't be said now, by its code."""
        return f"not now: {_WHY.get(code, _WHY['outside'])}"

    def which_one(self, what: What | None, meant: Item | None = None) -> str:
        """Asks for a thing of a list.

        Args:
            what: What went wrong; None when a cut is asked for.
            meant: For a wrong piece what should have been taken.
        """
        if what == "piece" and meant is not None:
            return f"What did you take instead of {self._thing(meant)}?"
        if what == "ruined":
            return "What is ruined?"
        return "Which sheet is missing?" if what == "missing" else "At which cut was it?"

    def _thing(self, item: Item) -> str:
        if item.role not in (Role.SHEET, Role.BASE):
            return self.named(item)
        paper = item.paper.face.name if item.paper else item.name
        return f"sheet {item.name}" if paper in ("", item.name) else f"sheet {item.name} ({paper})"

    def ask_length(self, what: What, item: Item, off: bool) -> str:
        """Asks what a length really was.

        Args:
            what: A mark, or a measure.
            item: For a measure, what is measured.
            off: Whether that came off at the cut.
        """
        if what == "mark":
            return "At which mark did you really cut?"
        which = "that came off" if off else "that stayed"
        return f"How long is {item.name}, {which}, along the ruler?"

    def should_have_been(self) -> str:
        """What the large figures are: what a length should have been."""
        return "It should have been"

    def or_the_other(self, key: str, name: str, off: bool) -> str:
        """Which other thing of the cut can be measured, and the key for it."""
        return f"{key}: measure {name} instead, which {'came off' if off else 'stayed'}."

    def how_typed(self, unit: Unit) -> str:
        """How a length is typed."""
        if unit is Unit.IN:
            return "Type it as 9 1/4 or 9.25, or with a unit: 235 mm. Then Enter."
        number = "241" if unit is Unit.MM else "24.1"
        return f"Type it as {number}, or with a unit: 9 1/4 in. Then Enter."

    def no_length(self, text: str) -> str:
        """That what was typed is no length."""
        return f"{text} is no length."

    def confirm(self, what: What, item: Item) -> str:
        """Asks whether paper lay wrong."""
        thing = self._thing(item)
        if what == "turned":
            return f"Did {thing} lie a quarter turn wrong, and was it cut so?"
        return f"Did the wrong side of {thing} lie up, and was it cut so?"

    def as_drawn(self) -> str:
        """What the picture beside that question shows."""
        return "Drawn is how it should have lain."

    def yes_it_did(self, key: str) -> str:
        """How that is said."""
        return f"{key}: yes, show me what can be saved. Esc: no."

    def cannot_be(self, error: CannotBe, mishap: Mishap) -> str:
        """Why what was said can't have been so, and what to do.

        Args:
            error: Why.
            mishap: What was said.
        """
        turned = mishap.what in ("turned", "face")
        later = error.step and error.step not in (mishap.step, "")
        if error.code in ("outside", "not falling", "later cut") and not turned:
            if later and error.step in self.plan.step_at:
                return self._later(error)
            if error.code == "not falling":
                return "In one load each mark is less than the one before. Look at it again."
            limit = self.manner.length(error.length) if error.length else "that"
            return (
                f"Only {limit} of paper lay along the ruler, so it must be less than that. If it "
                "was not, an earlier cut was wrong: choose that one."
            )
        return (
            _CANNOT.get("turned" if turned and error.code not in _CANNOT else error.code, "")
            or (_CANNOT["no such thing"])
        )

    def _later(self, error: CannotBe) -> str:
        step = self.plan.steps[self.plan.step_at[error.step]]
        left = f": only {self.manner.length(error.length)} was left" if error.length else ""
        return (
            f"Then {self.cut_named(step)} could not have been made{left}. Choose the cut where "
            "it happened."
        )

    def differs(self, by: Fraction, unit: Unit) -> str:
        """By how much a length is not what it should have been, in mm."""
        far = write_length(abs(by), LengthStyle(unit, self.manner.ascii), with_unit=True)
        return f"That is {far} {'more' if by > 0 else 'less'} than it should be. Enter goes on."
