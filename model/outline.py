"""What stands beside the step in outline: pockets, pile, progress; parts of a moment."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import timedelta


@dataclass(frozen=True, slots=True)
class PocketLine:
    """One pocket in outline.

    Attributes:
        index: Its index.
        label: Its label.
        keys: What is pressed to file into it, any of these; ``1-4`` stands for a run.
        held: How many pieces it rightly holds.
        wanted: How many it holds in the end.
        wrong: How many things are in it that do not belong there.
        target: The thing in hand goes there.
    """

    index: int
    label: str
    keys: tuple[str, ...]
    held: int
    wanted: int
    wrong: int
    target: bool

    @property
    def full(self) -> bool:
        """Whether it holds all, and nothing else."""
        return self.held >= self.wanted and not self.wrong


@dataclass(frozen=True, slots=True)
class PileLine:
    """One thing on the pile.

    Attributes:
        id: The thing.
        text: Its name and size.
        goes: Where it goes.
        due: It is what is to be filed now.
        goes_briefly: The same as short as can be: of a pocket, its label.
    """

    id: str
    text: str
    goes: str
    due: bool
    goes_briefly: str = ""


@dataclass(frozen=True, slots=True)
class Progress:
    """How far the run is.

    Attributes:
        done: Steps that are done or left out.
        steps: All steps.
        step: The step that is worked on, in words. What is filed belongs to the step that
            was done last, and the next one begins when it is filed.
        sheet: The sheet that is worked on, or that what is filed is of, in words.
        spent: Time at the table.
        left: The estimate of what is left, in words.
    """

    done: int
    steps: int
    step: str
    sheet: str
    spent: timedelta
    left: str
