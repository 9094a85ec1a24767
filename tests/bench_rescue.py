"""The part of the benchmark that cuts wrongly: what can be saved, how soon, and if it is so."""

from __future__ import annotations

import random
import time
from collections import Counter
from collections.abc import Iterator
from fractions import Fraction
from statistics import median

from model.apart import Apart
from model.plan import Plan, Role
from model.planning.planner import plan_cuts
from model.planning.task import Board, CutPlan, Task, Want
from model.reading import load_kit
from model.rescue.mishap import CannotBe, Mishap, What
from model.rescue.rescue import Rescue, Way
from model.session import Session
from tests.bench_parts import WARM, Row, at_first_cut, at_most, by_turns, home
from tests.bench_terminal import ROOT
from tests.rescue_shadow import Shadow, fits_kind, load_steps, plain_load

KITS = ("harbour", "postcard", "cards")
_EIGHTH = Fraction(127, 40)
_SEED = 4


def rescue(count: int) -> list[Row]:
    """Miscuts on the demo kits: half noticed at once, half up to forty presses later."""
    rng = random.Random(_SEED)
    sessions = {name: load_kit(ROOT / "kits" / f"{name}.toml") for name in KITS}
    saved: Counter[str] = Counter()
    first: list[float] = []
    done = wrong = refused = impossible = harmless = 0
    lost_pieces = kept_pieces = 0
    while done < count:
        session = Session.start(sessions[rng.choice(KITS)], None, None)
        mishap = _miscut(session, rng)
        begin = time.perf_counter()
        try:
            found = Rescue(session, mishap)
        except CannotBe:
            impossible += 1  # a later cut could not have been made then: it was noticed before
            continue
        found.begin()
        while found.searching and not found.ways:
            found.poll()
            time.sleep(0.001)
        found.poll()
        first.append(time.perf_counter() - begin)
        while found.searching:
            time.sleep(0.001)
        found.poll()
        found.close()
        done += 1
        refused += found.refused
        wrong += sum(not _as_it_is(session, mishap, way) for way in found.ways)
        best = found.ways[0]
        harmless += not found.lost
        lost_pieces += len(found.lost)
        kept_pieces += len(found.lost) - min(len(found.lost), len(best.missing))
        saved[best.saving.value if not best.missing else "not whole"] += 1
    whole = done - saved["not whole"]
    ways = ", ".join(f"{n} {way}" for way, n in saved.most_common())
    return [
        Row("miscuts after which no piece is lost", f"{whole / done:.1%} of {done} ({ways})"),
        Row("pieces saved of those touched", f"{kept_pieces / max(lost_pieces, 1):.1%}"),
        at_most("median time to the first way", median(first), 0.3, "s", f"most {max(first):.2f}"),
        Row(
            "ways that the checker or plain arithmetic refuses", str(refused + wrong), "0",
            not refused + wrong,
        ),
        Row("miscuts that later cuts rule out, drawn again", str(impossible)),
    ]  # fmt: skip


def beside(keys: int) -> list[Row]:
    """The key's time on the table while a search works in its own process, and without one."""
    rows: list[Row] = []
    took: list[float] = []
    for busy in (False, True):
        with home() as folder:
            session, left = at_first_cut(ROOT / "kits" / "harbour.toml", folder, keys + WARM)
            search = Apart(on_and_on, told=lambda _: None) if busy else None
            try:
                name = f"harbour, 120x40, {'while' if busy else 'without'} planning"
                table = by_turns(name, session, (120, 40), folder, left - WARM)
                if search is not None and not search.running:
                    raise RuntimeError("the search ended before the keys did")
            finally:
                if search is not None:
                    search.close()
            rows += table[:1]
            took.append(float(table[0].value.split()[0]))
    return [
        *rows,
        at_most("the key's time while planning, to without", took[1] / took[0], 1.15, "x"),
    ]


def on_and_on() -> Iterator[CutPlan]:
    """Plan without an end, in a process of its own."""
    while True:
        yield from plan_cuts(_long_task())


def _long_task() -> Task:
    """A task that takes longer than anybody presses keys."""
    inch = Fraction(127, 5)
    wants = tuple(
        Want(f"{n}", (1 + n % 9) * inch + n % 16 * inch / 16, (1 + n * 7 % 10) * inch, 3)
        for n in range(60)
    )
    return Task(wants, (Board("sheet", 12 * inch, 12 * inch, 200),))


def _miscut(session: Session, rng: random.Random) -> Mishap:
    """A cut made at a wrong mark, in a session that has gone on to when it is noticed."""
    plan = session.plan
    loads = [step for step in load_steps(plan) if plain_load(plan, step)]
    cuts = [plan.steps[n] for load in loads for n in plan.loads[load.load]]
    while True:
        cut = rng.choice(cuts)
        assert cut.mark is not None and cut.before is not None
        length = cut.mark.value + rng.choice((-1, 1)) * rng.randint(1, 4) * _EIGHTH
        if 0 < length < cut.before.along(cut.lying).value:
            break
    while cut.id not in session.state.done:
        session.next()
    for _ in range(0 if rng.random() < 0.5 else rng.randint(1, 40)):
        session.next()
    return Mishap(What.MARK, cut.id, length)


def _as_it_is(session: Session, mishap: Mishap, way: Way) -> bool:
    """Whether a way speaks of the paper that is really there, and makes what it says."""
    plan = session.plan
    done = {id for id, made in session.state.done.items() if made}
    real = Shadow(plan, done, mishap).lay_out()
    for id, size in real.items():
        item = way.plan.items.get(id)
        stock = item.stock if item and id in way.plan.made_by else None
        measured = stock is not None and stock.measured
        if stock and measured and (stock.width.value, stock.height.value) != size:
            return False
    pieces = [id for id, item in way.plan.items.items() if item.role is Role.PIECE]
    return all(fits_kind(plan, way.plan, id, way.small) for id in pieces) and _closes(way.plan)


def _closes(plan: Plan) -> bool:
    for name in plan.sheets:
        whole = plan.items[name].stock
        if whole is not None and whole.measured and _area(plan, name) != whole.area:
            return False
    return True


def _area(plan: Plan, id: str) -> Fraction:
    cuts = plan.loads.get(f"{id}/load", ())
    if not cuts:
        stock = plan.items[id].stock
        return stock.area if stock else Fraction(0)
    parts = (part for n in cuts for part in plan.steps[n].makes)
    return sum((_area(plan, part) for part in parts), Fraction(0))
