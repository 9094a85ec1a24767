"""Mendings drawn at random, sensible or not, with no help from what works them out."""

from __future__ import annotations

import random
from collections.abc import Sequence
from fractions import Fraction

from model.kit import Mark, Source, Verb
from model.plan import Plan, Role, Step, StepKind
from model.rescue.mending import AddedKind, Fate, MendedLoad, Mending, Share

SCRAP = Share(Fate.SCRAP)


def loads_of(plan: Plan) -> list[Step]:
    """The steps that load something."""
    return [step for step in plan.steps if step.kind is StepKind.LOAD]


def parts_of(plan: Plan, load: Step) -> list[str]:
    """What comes of a load, what stays on the bed last."""
    return [part for n in plan.loads[load.load] for part in plan.steps[n].makes]


def share_of(plan: Plan, id: str) -> Share:
    """What a part is by the plan."""
    return SCRAP if plan.items[id].role is Role.SCRAP else Share(Fate.ROLE, id)


def as_written(plan: Plan, load: Step) -> MendedLoad:
    """A load just as the plan has it."""
    work = load.work
    assert work is not None
    marks = tuple(Mark(w) for w in work.widths) if work.verb is Verb.TEAR else work.marks
    shares = [share_of(plan, part) for part in parts_of(plan, load)]
    return MendedLoad(load.takes[0], marks, tuple(shares[:-1]), shares[-1], as_written=True)


def shifted(rng: random.Random, plan: Plan, load: Step) -> MendedLoad:
    """A load with some of its marks elsewhere, and other fates of some of its parts."""
    same = as_written(plan, load)
    marks = list(same.marks)
    for n, mark in enumerate(marks):
        if mark.at is not None and rng.random() < 0.5:
            marks[n] = Mark(mark.at + Fraction(rng.randint(-24, 24), 4), mark.about)
    shares = list(same.shares)
    for n, _ in enumerate(shares):
        fate = rng.randrange(6)
        if fate == 0:
            shares[n] = SCRAP
        elif fate == 1:
            shares[n] = Share(Fate.STRIP, f"strip of {load.takes[0]} {n}")
    return MendedLoad(same.of, tuple(marks), tuple(shares[:-1]), shares[-1], as_written=True)


def cut_up(rng: random.Random, plan: Plan, of: str, shares: Sequence[Share]) -> MendedLoad | None:
    """A thing at hand cut at marks that fall, into as many parts as there are shares."""
    stock = plan.items[of].stock
    if stock is None or not stock.measured or len(shares) < 2:
        return None
    turn = rng.randrange(4)
    along = stock.along(plan.items[of].lying.turned(turn)).value
    marks = tuple(Mark(along * n / len(shares)) for n in range(len(shares) - 1, 0, -1))
    return MendedLoad(of, marks, tuple(shares[:-1]), shares[-1], turn)


def exchanged(rng: random.Random, plan: Plan) -> tuple[MendedLoad, ...]:
    """Loads of which two parts are what the other should be."""
    loads = [as_written(plan, load) for load in loads_of(plan)]
    at = [
        (n, k)
        for n, load in enumerate(loads)
        for k, share in enumerate(load.shares)
        if share.fate is Fate.ROLE
    ]
    if len(at) < 2:
        return ()
    (n, k), (m, j) = rng.sample(at, 2)
    shares = [list(load.shares) for load in loads]
    shares[n][k], shares[m][j] = shares[m][j], shares[n][k]
    return tuple(
        MendedLoad(
            loads[i].of, loads[i].marks, tuple(shares[i][:-1]), shares[i][-1], as_written=True
        )
        for i in sorted({n, m})
    )


def any_mending(rng: random.Random, plan: Plan, at: str | None = None) -> Mending:
    """A mending of a plan; whether it makes sense is for others to say."""
    loads = loads_of(plan)
    found: dict[str, MendedLoad] = {}
    kinds: list[AddedKind] = []
    gone: tuple[str, ...] = ()
    spent: tuple[tuple[str, int], ...] = ()
    where = rng.choice(["", *(step.id for step in plan.steps)]) if at is None else at
    lost: list[str] = []
    if loads and rng.random() < 0.7:
        for load in rng.sample(loads, min(len(loads), rng.randint(1, 2))):
            found[load.takes[0]] = mended = shifted(rng, plan, load)
            kept = {share.name for share in mended.shares}
            lost += [p for p in parts_of(plan, load) if p not in kept and _wanted(plan, p)]
    elif rng.random() < 0.5:
        found = {load.of: load for load in exchanged(rng, plan)}
    scraps = [i for i in plan.scraps if i.rpartition("/")[0] not in found]
    if scraps and rng.random() < 0.6:
        scrap = rng.choice(scraps)
        shares = [Share(Fate.ROLE, lost.pop()) if lost else SCRAP, SCRAP]
        if rng.random() < 0.5:
            name = f"added {len(plan.kit.kinds)}"
            stock = plan.items[scrap].stock
            assert stock is not None
            size = stock.width.value, stock.height.value
            pocket = rng.randrange(len(plan.kit.pockets))
            kinds.append(AddedKind(name, "", pocket, None, size))
            shares.append(Share(Fate.MADE, name))
        rng.shuffle(shares)
        load = cut_up(rng, plan, scrap, shares)
        if load is None:
            kinds = []
        else:
            found[scrap] = load
    if plan.kit.sheets and rng.random() < 0.1:
        gone = (rng.choice(plan.kit.sheets).name,)
    packed = [
        (kind.name, to.pocket)
        for kind in plan.kit.kinds.values()
        for to in kind.to
        if kind.source is not Source.CUT and to.count
    ]
    if packed and rng.random() < 0.1:
        spent = (rng.choice(packed),)
    return Mending(where, tuple(found.values()), gone, spent=spent, kinds=tuple(kinds))


def _wanted(plan: Plan, id: str) -> bool:
    return plan.items[id].role is not Role.SCRAP
