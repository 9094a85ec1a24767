"""The warnings that stand, in words."""

from __future__ import annotations

from dataclasses import dataclass

from model.promise import homes
from model.state import Spot, State
from model.warning import Warning
from model.wording import English


@dataclass(frozen=True, slots=True)
class Alert:
    """A warning in words.

    Attributes:
        warning: The warning.
        text: What went wrong, where it belongs, why.
        remedy: What putting it right does.
        left: It was left for later.
    """

    warning: Warning
    text: str
    remedy: str
    left: bool


def alerts_of(state: State, words: English) -> tuple[Alert, ...]:
    """All warnings in words: those that want an answer first, the newest on top.

    Args:
        state: The state.
        words: The sentences for this crafter.
    """
    alerts = [
        Alert(
            warning,
            words.warning(warning, places := places_of(state, warning)),
            words.remedy(warning, places),
            warning.id in state.left,
        )
        for warning in state.warnings.values()
    ]
    return tuple(sorted(alerts, key=lambda alert: (alert.left, -alert.warning.since)))


def places_of(state: State, warning: Warning) -> tuple[int, ...]:
    """Where putting a warning right moves what it names, in order; the scraps for nothing."""
    found = homes(state, warning.items)
    return tuple(found[id] for id in warning.items) or (int(Spot.SCRAPS),)
