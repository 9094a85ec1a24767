"""Where each thing will go when its turn comes: alike copies fill the pockets one by one."""

from __future__ import annotations

from collections.abc import Iterable

from model.plan import Step, StepKind
from model.state import State

_CUTS = (StepKind.CUT, StepKind.TEAR)


def filing_order(state: State, step: Step | None, first: str = "") -> list[str]:
    """What will be filed before the next load, in order, if nothing is taken out of turn.

    Args:
        state: The state.
        step: The step that is due, or that follows what is to be filed.
        first: What the crafter took in hand out of turn.

    Returns:
        What is filed now, then what this load still makes, then the pile from the top.
    """
    coming: list[str] = []
    if step is not None and step.kind in _CUTS:
        # What comes off lies on what stays, and each later cut on both.
        steps = state.plan.loads[step.load] if state.by_load else (step.index,)
        for index in reversed(steps):
            if index >= step.index:
                coming += state.plan.steps[index].makes
    order = [*coming, *reversed(state.pile)]
    return [first, *(id for id in order if id != first)] if first else order


def homes(state: State, order: Iterable[str]) -> dict[str, int]:
    """Where things will belong, if they are filed in this order.

    Args:
        state: The state.
        order: The things, the first to be filed first.

    Returns:
        For each of them a pocket's index, or a `Spot`.
    """
    before: dict[str, int] = {}
    found: dict[str, int] = {}
    for id in order:
        place = state.belongs(id)
        item = state.plan.items[id]
        if place >= 0 and state.home(id) is None and not item.partner:
            warned = state.warned(item.group)
            if id not in warned:
                # What a warning names has its pocket already, before all that is filed.
                number = before.get(item.group, 0)
                before[item.group] = number + 1
                if number:
                    group = state.plan.groups[item.group]
                    place = state.promised(group, len(warned) + number)
        found[id] = place
    return found
