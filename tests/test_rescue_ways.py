"""Every way out of a mistake, against a table of rectangles cut with plain arithmetic."""

from __future__ import annotations

import os
import random
from collections import Counter
from fractions import Fraction
from pathlib import Path

import pytest

from model.plan import Plan, Role, Step, StepKind
from model.reading import load_kit, read_kit
from model.rescue.amend import amend
from model.rescue.bench import Saving, bench_of
from model.rescue.mishap import CannotBe, Mishap, Names, What
from model.rescue.truth import truth_of
from model.rescue.ways import Found, ways
from model.session import Session
from tests.kits import random_kit
from tests.rescue_shadow import Impossible, Shadow, fits_kind, random_mishap

KITS = Path(__file__).parent.parent / "kits"
RUNS = int(os.environ.get("DRYFIT_RESCUES", "60"))


def far(name: str, rng: random.Random) -> Session:
    """A session somewhere on its way."""
    kit = load_kit(KITS / f"{name}.toml") if name else read_kit(random_kit(rng))
    session = Session.start(kit, None, None)
    for _ in range(rng.randrange(1, 2 * len(session.plan.steps))):
        session.next()
    return session


def check_way(session: Session, mishap: Mishap, found: Found) -> Plan:
    plan = session.plan
    done = {id for id, made in session.state.done.items() if made}
    real = Shadow(plan, done, mishap).lay_out()
    new = amend(plan, found.mending)
    for id, size in real.items():
        item = new.items.get(id)
        if item is None:
            assert id in found.mending.gone, id
            continue
        if item.stock is not None and item.stock.measured and id in new.made_by:
            assert (item.stock.width.value, item.stock.height.value) == size, id
    for id, item in new.items.items():
        if item.role is Role.PIECE:
            assert fits_kind(plan, new, id, found.mending.small), id
    missing = Counter(plan.items[end].name for id in found.missing for end in _ends(session, id))
    before, after = (Counter(_kept(p)) for p in (plan, new))
    added = Counter(kind.name for kind in found.mending.kinds)
    assert after == before - missing + added
    return new


def _kept(plan: Plan) -> list[str]:
    """The names of the pieces that are there in the end."""
    pieces = (i for i in plan.items.values() if i.role is Role.PIECE and not i.partner)
    return [item.name for item in pieces if item.id not in plan.taken_by]


def _ends(session: Session, id: str) -> list[str]:
    """The pieces that come of a thing in the end, without those that have come of it already."""
    plan, done = session.plan, session.state.done
    found: list[str] = []
    for step in plan.steps:
        if id in step.takes or (id in step.touches and not step.load and not done.get(step.id)):
            found += [end for part in _of(plan, step) for end in _ends(session, part)]
    if id not in plan.taken_by and plan.items[id].role is Role.PIECE:
        found.append(id)
    return found


def _of(plan: Plan, step: Step) -> tuple[str, ...]:
    if step.kind is StepKind.LOAD:
        return ()
    if step.load:  # the last cut of a load takes it up
        return tuple(part for n in plan.loads[step.load] for part in plan.steps[n].makes)
    return step.makes


def areas_close(plan: Plan) -> None:
    """No paper is lost or won, whatever it is cut into."""
    for name in plan.sheets:
        whole = plan.items[name].stock
        if whole is not None and whole.measured:
            assert _area(plan, name) == whole.area, name


def _area(plan: Plan, id: str) -> Fraction:
    cuts = plan.loads.get(f"{id}/load")
    if cuts is None:
        stock = plan.items[id].stock
        assert stock is not None
        return stock.area
    parts = (part for n in cuts for part in plan.steps[n].makes)
    return sum((_area(plan, part) for part in parts), Fraction(0))


KEPT = [("harbour", 62), ("harbour", 82), ("cards", 489), ("", 1249), ("", 1694), ("", 1925)]
"""Cases that found something once."""
CASES = [(name, seed) for name in ("harbour", "postcard", "cards", "") for seed in range(RUNS // 4)]


@pytest.mark.parametrize(("name", "seed"), [*CASES, *KEPT])
def test_a_way_is_as_the_paper_really_is(name: str, seed: int) -> None:
    rng = random.Random(f"{name} {seed}")
    session = far(name, rng)
    mishap = random_mishap(session, rng)
    if mishap is None:
        return
    done = {id for id, made in session.state.done.items() if made}
    try:
        Shadow(session.plan, done, mishap).lay_out()
        possible = True
    except Impossible:
        possible = False
    try:
        truth = truth_of(session.state, mishap)
    except CannotBe as error:
        assert not possible or error.code != "outside", (mishap, error)
        return
    assert possible, mishap
    every = list(ways(bench_of(session.state, truth, Names())))
    assert every
    if not truth.wanted:
        assert [found.saving for found in every] == [Saving.NOTHING]
    for found in every:
        new = check_way(session, mishap, found)
        areas_close(new)
    assert mishap.what is not What.FACE or not truth.wanted
