"""What goes wrong in a simulated run, how often, and what came of it."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, field
from enum import StrEnum


class Slip(StrEnum):
    """What goes wrong."""

    WRONG_POCKET = "filed wrong"
    LOOK_ALIKE = "took a look-alike"
    MISSED = "missed a piece"
    SCRAPPED = "called a piece scrap"
    TAKEN = "took up a look-alike"
    """To be cut again, or to be worked on by hand."""


RATES = {
    Slip.WRONG_POCKET: 0.03,
    Slip.LOOK_ALIKE: 0.02,
    Slip.MISSED: 0.01,
    Slip.SCRAPPED: 0.005,
    Slip.TAKEN: 0.02,
}
"""How often each goes wrong, of all its opportunities.

Of all filings; but a look-alike is taken only where one was made already and lies loose or in
another pocket, and taken up only where one lies on the pile or in the same pocket.
"""


@dataclass(slots=True)
class Outcome:
    """What came of one run.

    Attributes:
        chances: How often each could have gone wrong.
        told: Slips that were told as they were done.
        warned: Of these, those that were warned of at once.
        served: Of those told, those with which nothing went wrong: a copy of its like was wanted.
        unaware: Slips that were made unaware.
        unseen: Of these, those after which no place lacks anything: nothing tells the things apart.
        astray: Things that lay wrong in truth when the counting began.
        found: Of these, those that lay right after it.
        astray_by: The same by what went wrong.
        lost: Those that did not.
        lost_by: The same by what went wrong.
        right_actions: Things said that were right.
        false_alarms: Warnings that were raised by them.
        notices: Look-alikes that were named at them.
        proposals: Places that were looked at while counting.
        keys: Keys of the run itself.
        spoilt: Things cut up or worked on in another's stead, unaware.
        short: Of these, those that a pocket lacked at the count.
        named: Of these, those that the count named as missing: they can't be found.
        unshown: Of those spoilt, those that leave every pocket with as many as it wants.
    """

    chances: Counter[Slip] = field(default_factory=Counter)
    told: Counter[Slip] = field(default_factory=Counter)
    warned: Counter[Slip] = field(default_factory=Counter)
    served: Counter[Slip] = field(default_factory=Counter)
    unaware: Counter[Slip] = field(default_factory=Counter)
    unseen: Counter[Slip] = field(default_factory=Counter)
    astray: int = 0
    found: int = 0
    astray_by: Counter[str] = field(default_factory=Counter)
    lost: list[str] = field(default_factory=list)
    lost_by: Counter[str] = field(default_factory=Counter)
    right_actions: int = 0
    false_alarms: int = 0
    notices: int = 0
    proposals: int = 0
    keys: int = 0
    spoilt: int = 0
    short: int = 0
    named: int = 0
    unshown: int = 0


def summary(outcomes: list[Outcome]) -> dict[str, float]:
    """The figures over many runs."""
    told = sum((o.told for o in outcomes), Counter())
    warned = sum((o.warned for o in outcomes), Counter())
    right = sum(o.right_actions for o in outcomes)
    astray = sum(o.astray for o in outcomes)
    return {
        "runs": len(outcomes),
        "told": sum(told.values()),
        "warned at once": sum(warned.values()) / max(1, sum(told.values())),
        "unaware": sum(sum(o.unaware.values()) for o in outcomes),
        "astray at the count": astray,
        "found by the count": sum(o.found for o in outcomes) / max(1, astray),
        "never found": sum(len(o.lost) for o in outcomes),
        "false alarms per hundred right": 100 * sum(o.false_alarms for o in outcomes) / right,
        "notices per hundred right": 100 * sum(o.notices for o in outcomes) / right,
        "places looked at per thing": sum(o.proposals for o in outcomes) / max(1, astray),
        "keys a run": sum(o.keys for o in outcomes) / len(outcomes),
    }
