"""What an event filed, and where: by hand, moved later, or counted in at the start."""

from __future__ import annotations

from model.event import Done, Event, Filed, Moved
from model.plan import Plan, StepKind


def filing_of(plan: Plan, event: Event) -> tuple[tuple[str, ...], str]:
    """The things that an event put into a pocket, and the pocket's label.

    Args:
        plan: The plan.
        event: What was said.

    Returns:
        Nothing, and an empty label, when it put nothing into a pocket.
    """
    if isinstance(event, (Filed, Moved)) and event.pocket:
        return (event.item,), event.pocket
    if isinstance(event, Done) and event.step in plan.step_at:
        step = plan.steps[plan.step_at[event.step]]
        if step.kind is StepKind.FILL:
            return step.makes, event.into or plan.kit.pockets[step.pocket].label
    return (), ""
