"""What a way would have the crafter do, step by step, before it is chosen."""

from __future__ import annotations

from dataclasses import dataclass

from model.figure import Figure, figure_of_step
from model.language import words_of
from model.manner import Manner
from model.plan import Step
from model.rescue.rescue import Way
from model.scene import Scene
from model.scenes import scene_of_step
from model.spot import Spot
from model.state import State


@dataclass(frozen=True, slots=True)
class Shown:
    """One step of a way.

    Attributes:
        headline: What kind of step it is.
        sentence: What to do.
        figure: What stands in very large figures, or None.
        scene: The picture.
    """

    headline: str
    sentence: str
    figure: Figure | None
    scene: Scene | None


def steps_of(way: Way, state: State) -> tuple[Step, ...]:
    """The steps of a way that are new or otherwise, and still to be done, in order.

    Args:
        way: The way.
        state: The session, in which it was not chosen.
    """
    plan = way.plan
    steps = {
        plan.steps[index].id: plan.steps[index]
        for load in way.loads
        for index in (plan.step_at[load], *plan.loads.get(load, ()))
    }
    return tuple(step for step in steps.values() if not state.done.get(step.id))


def shown(way: Way, step: Step, state: State, manner: Manner) -> Shown:
    """A step of a way, as the table will tell it.

    Args:
        way: The way.
        step: One of its steps.
        state: The session, in which it was not chosen.
        manner: How the crafter is told things.
    """
    words = words_of(way.plan, manner)
    in_hand = (*step.takes, *step.touches)
    place = state.where(in_hand[0]) if in_hand else int(Spot.NOWHERE)
    if place == Spot.TAKEN:
        place = Spot.NOWHERE  # it is made anew
    return Shown(
        words.headline(step),
        words.sentence(step, place),
        figure_of_step(step, words),
        scene_of_step(way.plan, step, manner),
    )
