"""What changed between the kit of a session and the kit file as it is now."""

from __future__ import annotations

from dataclasses import dataclass

from model.plan import Item, Plan, Step
from model.reading import Read
from model.state import Spot, State


@dataclass(frozen=True, slots=True)
class Change:
    """How a kit file differs from the kit of a session.

    Attributes:
        text: The new text.
        plan: Its plan; None when it can't be read.
        added: Ids of steps that are new.
        dropped: Ids of steps that are gone.
        altered: Ids of steps that ask for something else.
        blockers: What was done already and would be touched; the new kit can be taken
            over only when there is none.
        findings: What is wrong with the new text, as lines.
    """

    text: str
    plan: Plan | None
    added: tuple[str, ...] = ()
    dropped: tuple[str, ...] = ()
    altered: tuple[str, ...] = ()
    blockers: tuple[str, ...] = ()
    findings: tuple[str, ...] = ()


def compare(old: Plan, state: State, new: Read) -> Change:
    """Compare a session's plan with a kit that was read anew.

    Args:
        old: The session's plan.
        state: What was done in it.
        new: The kit file as it is now.

    Returns:
        The change.
    """
    if new.plan is None:
        lines = tuple(str(finding) for finding in new.findings if finding.grave)
        return Change(new.text, None, findings=lines)
    plan = new.plan
    before = {step.id: step for step in old.steps}
    after = {step.id: step for step in plan.steps}
    altered = tuple(
        id for id, step in before.items()
        if id in after and _asks(step) != _asks(after[id])
    )
    dropped = tuple(id for id in before if id not in after)
    blockers = [id for id in (*altered, *dropped) if id in state.done]
    blockers += [
        id for id, place in state.place.items()
        if place != Spot.NOWHERE and not _same_thing(old, plan, id)
    ]
    labels = {pocket.label for pocket in plan.kit.pockets}
    blockers += [
        old.kit.pockets[place].label for place in set(state.place.values())
        if place >= 0 and old.kit.pockets[place].label not in labels
    ]
    # A new step before one that was done would have to be done out of its place.
    last_done = max((plan.step_at[id] for id in state.done if id in after), default=-1)
    blockers += [id for id in after if id not in before and plan.step_at[id] < last_done]
    return Change(
        new.text, plan,
        added=tuple(id for id in after if id not in before),
        dropped=dropped, altered=altered, blockers=tuple(dict.fromkeys(blockers)),
    )


def _asks(step: Step) -> tuple[object, ...]:
    """What a step asks for, without what only says where it stands in the file."""
    return (
        step.kind, step.phase, step.takes, step.makes, step.touches, step.lying, step.mark,
        step.before, step.pocket, step.number, step.of,
    )


def _same_thing(old: Plan, new: Plan, id: str) -> bool:
    if id not in new.items:
        return False
    return _is(old, old.items[id]) == _is(new, new.items[id])


def _is(plan: Plan, item: Item) -> tuple[object, ...]:
    group = plan.groups.get(item.group)
    wanted = (
        {plan.kit.pockets[pocket].label: count for pocket, count in group.wanted.items()}
        if group else {}
    )
    return (item.name, item.role, item.stock, item.use, item.length, item.partner, wanted)
