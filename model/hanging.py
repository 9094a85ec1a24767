"""What hangs on a step: all that can't be done, or makes no sense, when it is left out."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from model.kit import Verb
from model.plan import Plan, Step


def hanging_on(plan: Plan, done: Mapping[str, bool], step: Step) -> list[Step]:
    """What is left out with a step: itself, its load, and all that needs what they make.

    That is what cuts it up or works on it; what is traced around it, what has a slit for it
    and what calls for it, unless another copy of it is there by then.

    Args:
        plan: The plan.
        done: Steps that were done (True) or left out (False), by id.
        step: The step.

    Returns:
        The steps that are neither done nor left out yet, in order.
    """
    found: set[int] = set()
    wave = set(_load_of(plan, step.index))
    while wave:
        while wave:
            index = wave.pop()
            if index in found or plan.steps[index].id in done:
                continue
            found.add(index)
            for item in plan.steps[index].makes:
                wave.update(_users_of(plan, item))
        wave.update(_lacking(plan, done, found))
    return [plan.steps[index] for index in sorted(found)]


def _users_of(plan: Plan, item: str) -> Iterator[int]:
    """The indexes of the steps that use a thing up, with their whole load, or work on it."""
    yield from plan.touched_by.get(item, ())
    taker = plan.taken_by.get(item)
    if taker is not None:
        yield from _load_of(plan, taker)


def _load_of(plan: Plan, index: int) -> Iterator[int]:
    """A step, and all others of its load."""
    yield index
    load = plan.steps[index].load
    if load in plan.step_at:
        yield plan.step_at[load]
    yield from plan.loads.get(load, ())


def _lacking(plan: Plan, done: Mapping[str, bool], found: set[int]) -> Iterator[int]:
    """The indexes of further steps that speak of something of which no copy will be there."""
    lost = {plan.items[item].name for index in found for item in plan.steps[index].makes}
    copies: dict[str, list[str]] = {name: [] for name in lost}
    for item in plan.items.values():
        if item.name in lost:
            copies[item.name].append(item.id)
    for step in plan.steps[min(found, default=len(plan.steps)) :]:
        if step.work is None or step.index in found or step.id in done:
            continue
        named = {step.work.around, *step.work.needs} & lost
        if any(not _any_there(plan, done, found, step, copies[name]) for name in named):
            yield from _load_of(plan, step.index)


def _any_there(
    plan: Plan, done: Mapping[str, bool], found: set[int], step: Step, copies: Iterable[str]
) -> bool:
    """Whether any of some copies is there for a step that works with it."""

    def out(index: int) -> bool:
        return index in found or done.get(plan.steps[index].id) is False

    for item in copies:
        maker, taker = plan.made_by.get(item, -1), plan.taken_by.get(item, len(plan.steps))
        if maker >= 0 and out(maker):
            continue
        if step.verb is Verb.SLIT:  # what goes through a slit may be cut after it
            return True
        if maker < step.index and (taker > step.index or out(taker)):
            return True
    return False
