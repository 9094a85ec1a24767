"""A plan taken apart into its units: one for each thing that a step of the author is done to."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from model.kit import Give, Verb, Work
from model.plan import Phase, Plan, StepKind
from model.taking import KEPT

LOADED = (Verb.TRIM, Verb.KNIFE, Verb.TEAR)
"""Verbs that cut a thing along straight lines."""


@dataclass(frozen=True, slots=True)
class Unit:
    """One load, one shape, one slit or punch, one thing to do.

    Attributes:
        work: The author's step, for this one thing.
        phase: When it is done.
        index: The index of its first step.
        item: What it is done to; empty for what is done to no paper.
        parts: What comes of it, by identity, in the order of `things_of`.
    """

    work: Work
    phase: Phase
    index: int
    item: str
    parts: tuple[str, ...] = ()

    @property
    def takes(self) -> bool:
        """Whether it uses up what it is done to."""
        return bool(self.item) and self.work.verb not in KEPT


def units_of(plan: Plan) -> list[Unit]:
    """The units of a plan, in the order in which they are done."""
    units: list[Unit] = []
    for step in plan.steps:
        if step.work is None or step.kind in (StepKind.CUT, StepKind.TEAR):
            continue
        parts = step.makes
        if step.kind is StepKind.LOAD:
            cuts = plan.loads.get(step.load, ())
            parts = tuple(part for index in cuts for part in plan.steps[index].makes)
        item = next(iter((*step.takes, *step.touches)), "")
        work = replace(step.work, times=1, of=item)
        units.append(Unit(work, step.phase, step.index, item, parts))
    return units


def things_of(work: Work) -> tuple[Give, ...]:
    """Those of a step's parts that become things: hand work leaves trimmings."""
    if work.verb in LOADED:
        return work.parts
    given = work.gives if work.verb in KEPT else work.parts
    return tuple(give for give in given if not give.scrap)


def names_of_parts(work: Work, item: str, twin: int) -> tuple[str, ...]:
    """The identities of what comes of a step, in the order of `things_of`.

    They are made of where things come from, as `model.loads` and `model.handwork` have it.

    Args:
        work: The step.
        item: What it is done to.
        twin: Which step of this verb it is that is done to it, from 1; for slits and punches.
    """
    if work.verb in KEPT:
        id = f"{item}/{work.verb}" + (f"#{twin}" if twin > 1 else "")
        return tuple(f"{id}{n}" for n, give in enumerate(work.gives, 1) if not give.scrap)
    return tuple(_numbered(item, things_of(work), work.rest))


def _numbered(item: str, gives: Sequence[Give], rest: Give | None) -> Iterator[str]:
    for number, give in enumerate(gives, 1):
        yield f"{item}/{'r' if give is rest else number}"


def with_things(work: Work, things: Sequence[Give]) -> Work:
    """A step whose parts are called otherwise.

    Args:
        work: The step.
        things: What comes of it, in the order of `things_of`.
    """
    left = iter(things)
    keeps = work.verb in LOADED
    gives = tuple(next(left) if keeps or not give.scrap else give for give in work.gives)
    rest = work.rest
    if rest is not None and work.verb not in KEPT and (keeps or not rest.scrap):
        rest = next(left)
    return replace(work, gives=gives, rest=rest)
