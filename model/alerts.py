"""The warnings that stand, in words."""

from __future__ import annotations

from dataclasses import dataclass, replace

from model.language.english.words import English
from model.promise import homes
from model.state import Spot, State
from model.warning import Warning, WarningKind


@dataclass(frozen=True, slots=True)
class Alert:
    """A warning in words.

    Attributes:
        warning: The warning.
        text: What went wrong, where it belongs, why.
        remedy: What the crafter says by putting it right.
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
            words.warning(
                as_it_is(state, warning),
                places := places_of(state, warning),
                all(state.needless(item) for item in warning.items),
            ),
            words.remedy(warning, places),
            warning.id in state.left,
        )
        for warning in state.warnings.values()
    ]
    return tuple(sorted(alerts, key=lambda alert: (alert.left, -alert.warning.since)))


def as_it_is(state: State, warning: Warning) -> Warning:
    """A warning as it is true now: a pocket that is not full holds nothing too many."""
    if warning.kind is not WarningKind.TOO_MANY:
        return warning
    group = state.plan.groups[state.plan.items[warning.items[-1]].group]
    holds = state.right(group.key, warning.pocket)
    full = 0 < holds == group.wanted.get(warning.pocket, 0)
    return warning if full else replace(warning, kind=WarningKind.WRONG_POCKET)


def places_of(state: State, warning: Warning) -> tuple[int, ...]:
    """Where putting a warning right moves what it names, in order; the scraps for nothing."""
    found = homes(state, warning.items)
    return tuple(found[id] for id in warning.items) or (int(Spot.SCRAPS),)
