"""What changed between the kit of a session and the kit file as it is now."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from model.finding import Finding
from model.plan import Item, Plan, Step
from model.reading import Read
from model.state import State
from model.story import Story

_MOST_LINES = 8


@dataclass(frozen=True, slots=True)
class Change:
    """How a kit file differs from the kit of a session.

    When nothing is added, dropped or altered, only words changed.

    Attributes:
        text: The new text.
        plan: Its plan; None when it can't be read.
        steps: How many steps there are with it, and with what was mended.
        added: Ids of steps that are new.
        dropped: Ids of steps that are gone.
        altered: Ids of steps that ask for something else.
        blockers: What was done already and would be touched: ids of steps and things, and
            labels of pockets. The new kit can be taken over only when there is none.
        findings: What is wrong with the new text, each thing once, with the lines where it is.
    """

    text: str
    plan: Plan | None
    steps: int = 0
    added: tuple[str, ...] = ()
    dropped: tuple[str, ...] = ()
    altered: tuple[str, ...] = ()
    blockers: tuple[str, ...] = ()
    findings: tuple[str, ...] = ()


def compare(story: Story, new: Read) -> Change:
    """Compare a session's plan with a kit that was read anew, both as they are mended.

    Args:
        story: What was done in the session.
        new: The kit file as it is now.

    Returns:
        The change.
    """
    if new.plan is None:
        return Change(new.text, None, findings=tuple(_told(new.findings)))
    old, state = story.plan, story.state
    tried = story.on(new.plan)
    plan = tried.plan
    before = {step.id: step for step in old.steps}
    after = {step.id: step for step in plan.steps}
    altered = tuple(
        id
        for id, step in before.items()
        if id in after and _asks(old, step) != _asks(plan, after[id])
    )
    dropped = tuple(id for id in before if id not in after)
    blockers = [id for id in (*altered, *dropped) if id in state.done]
    blockers += [id for id in state.place if not _same_thing(old, plan, id)]
    # What now comes before a step that was done would have to be done out of its place.
    last_done = max((plan.step_at[id] for id in state.done if id in after), default=-1)
    blockers += [step.id for step in plan.steps[: last_done + 1] if step.id not in state.done]
    blockers += [f"entry {n}" for n in state.mendings if n not in tried.state.mendings]
    if not blockers:
        blockers += _moved(tried.state, state)
    return Change(
        new.text,
        new.plan,
        steps=len(plan.steps),
        added=tuple(id for id in after if id not in before),
        dropped=dropped,
        altered=altered,
        blockers=tuple(dict.fromkeys(blockers)),
    )


def _told(findings: Iterable[Finding]) -> Iterator[str]:
    """What is wrong, each thing once, with all lines on which it is."""
    lines: dict[str, list[int]] = {}
    for finding in findings:
        if finding.grave:
            lines.setdefault(str(finding.at(0)), []).append(finding.line)
    for said, at in lines.items():
        numbers = [str(line) for line in dict.fromkeys(at) if line]
        first = ", ".join(numbers[:_MOST_LINES]) + ", ..." * (len(numbers) > _MOST_LINES)
        place = f"line{'s' * (len(numbers) > 1)} {first}: " if numbers else ""
        yield place + said


def _moved(tried: State, state: State) -> list[str]:
    """What would be somewhere else if all that was said were said of another plan."""
    now, then = _lying(state), _lying(tried)
    moved = [id for id in now.keys() | then.keys() if now.get(id) != then.get(id)]
    lost = [f"entry {n}" for n in tried.ignored[len(state.ignored) :]]
    undone = [id for id in state.done if tried.done.get(id) != state.done[id]]
    return [*sorted(moved), *lost, *undone]


def _lying(state: State) -> dict[str, int | str]:
    """Where each thing is, pockets by their labels."""
    pockets = state.plan.kit.pockets
    return {id: pockets[place].label if place >= 0 else place for id, place in state.place.items()}


def _asks(plan: Plan, step: Step) -> tuple[object, ...]:
    """What a step asks for, without what only says where it stands in the file."""
    pocket = plan.kit.pockets[step.pocket].label if step.pocket >= 0 else ""
    return (
        step.kind,
        step.phase,
        step.takes,
        step.makes,
        step.touches,
        step.lying,
        step.mark,
        step.before,
        pocket,
        step.number,
        step.of,
    )


def _same_thing(old: Plan, new: Plan, id: str) -> bool:
    return id in new.items and _is(old, old.items[id]) == _is(new, new.items[id])


def _is(plan: Plan, item: Item) -> tuple[object, ...]:
    group = plan.groups.get(item.group)
    wanted = (
        {plan.kit.pockets[pocket].label: count for pocket, count in group.wanted.items()}
        if group
        else {}
    )
    paper = item.paper and (item.paper.face, item.paper.reverse)
    return (item.name, item.role, item.stock, item.use, item.length, item.partner, paper, wanted)
