"""A rescue in a session: what it writes, what undo takes back, and whether the account closes."""

from __future__ import annotations

import os
import random
from pathlib import Path

import pytest

from model.account import account_of
from model.reading import load_kit, read_kit
from model.rescue.bench import Saving
from model.rescue.mishap import CannotBe, Mishap, What
from model.rescue.rescue import Rescue, Way
from model.session import Session
from model.spot import Spot
from model.story import fold
from tests.kits import random_kit
from tests.muddle import QuickDisk, entries_of
from tests.rescue_shadow import random_mishap
from tests.tables import clock, up_to

KITS = Path(__file__).parent.parent / "kits"
RUNS = int(os.environ.get("DRYFIT_RESCUES", "60"))


def rescued(name: str, seed: int, folder: Path) -> tuple[Session, Rescue] | None:
    """A session on its way in which something went wrong; None where nothing can have."""
    rng = random.Random(f"session {name} {seed}")
    kit = load_kit(KITS / f"{name}.toml") if name else read_kit(random_kit(rng))
    session = Session.start(kit, None, folder, disk=QuickDisk())
    for _ in range(rng.randrange(1, 2 * len(session.plan.steps))):
        session.next()
    mishap = random_mishap(session, rng)
    if mishap is None:
        return None
    try:
        rescue = Rescue(session, mishap)
    except CannotBe:
        return None
    rescue.search(deep=False)
    return session, rescue


def to_the_end(session: Session) -> None:
    """Do all that is left, and put right what is warned of."""
    for _ in range(20_000):
        for warning in list(session.state.warnings.values()):
            session.put_right(warning)
        if not session.next().taken:
            break
    for warning in list(session.state.warnings.values()):
        session.put_right(warning)


KEPT = [
    ("postcard", 41),
    ("postcard", 59),
    ("cards", 94),
    ("postcard", 104),
    ("cards", 18),
    ("harbour", 67),
    ("cards", 97),
    ("", 133),
    ("harbour", 25),
]
"""Cases that found something once, or speak of what others seldom do."""
CASES = [(name, seed) for name in ("harbour", "postcard", "cards", "") for seed in range(RUNS // 4)]


@pytest.mark.parametrize(("name", "seed"), [*CASES, *KEPT])
def test_a_rescue_is_written_undone_and_closes(name: str, seed: int, tmp_path: Path) -> None:
    got = rescued(name, seed, tmp_path)
    if got is None:
        return
    session, rescue = got
    assert rescue.ways and not rescue.refused
    before, plan = session.state.snapshot(), session.plan
    way = random.Random(seed).choice(rescue.ways)
    kit = session.header["kit_text"]
    told = rescue.choose(way)
    assert told.taken, told
    assert session.plan is not plan and session.plan.steps == way.plan.steps
    after = session.state.snapshot()
    check_told(session, way)
    # Undo takes the whole of it back, redo says it again, and the kit is what it was.
    assert session.undo().taken
    assert session.state.snapshot() == before and session.plan.steps == plan.steps
    assert session.redo().taken
    assert session.state.snapshot() == after
    assert session.header["kit_text"] == kit
    to_the_end(session)
    assert session.state.due().over
    check_account(session, way)
    assert not session.state.ignored
    path = session.path
    assert path is not None
    again = fold(read_kit(str(kit)).plan or plan, entries_of(path))
    assert again.snapshot() == session.state.snapshot()
    session.close()


def check_told(session: Session, way: Way) -> None:
    """What a way says of itself is so when it is taken."""
    state = session.state
    assert state.mendings
    for item in way.fetch:
        assert state.where(item) in (Spot.PILE, Spot.TAKEN), item
    for item in way.discard:
        assert state.where(item) == Spot.SCRAPS, item
    for thing in way.mending.unloaded:
        assert f"{thing}/load" not in state.done, thing
    for sheet in way.mending.idle:
        assert sheet not in session.plan.taken_by, sheet
    for load in way.loads:
        assert any(session.plan.steps[n].id not in state.done for n in session.plan.loads[load])


def check_account(session: Session, way: Way) -> None:
    """A rescued run closes; where pieces stay lost, it lacks just these."""
    account = account_of(session)
    assert not account.warnings, account.warnings
    assert len(account.scraps) == account.scraps_expected
    for sheet in account.sheets:
        assert sheet.closes, sheet
    short = sum(pocket.wanted - pocket.held for pocket in account.pockets)
    if not way.missing:
        assert account.closes, account
    else:
        kept = [item for item in way.missing if item.kind is not None and item.kind.to]
        assert short >= 0 and (short > 0 or not kept)


def test_looking_costs_nothing(tmp_path: Path) -> None:
    got = next(g for n in range(50) if (g := rescued("harbour", n, tmp_path)) and g[1].lost)
    session, rescue = got
    path = session.path
    assert path is not None
    written = path.read_bytes()
    state = session.state.snapshot()
    rescue.begin()
    while rescue.searching:
        rescue.poll()
    rescue.poll()
    rescue.close()
    assert rescue.ways
    assert path.read_bytes() == written and session.state.snapshot() == state


def test_a_way_is_not_taken_once_the_plan_has_changed(tmp_path: Path) -> None:
    got = next(g for n in range(50) if (g := rescued("harbour", n, tmp_path)) and g[1].lost)
    rescue = got[1]
    assert rescue.choose(rescue.ways[0]).taken
    told = rescue.choose(rescue.ways[0])
    assert told.objection == "cannot mend"


def test_nothing_is_lost_when_the_wrong_face_was_up(tmp_path: Path) -> None:
    session = Session.start(load_kit(KITS / "harbour.toml"), None, tmp_path, disk=QuickDisk())
    while "A/4" not in session.state.done:
        session.next()
    rescue = Rescue(session, Mishap(What.FACE, "A/load"))
    rescue.search()
    assert [way.saving for way in rescue.ways] == [Saving.NOTHING]
    assert not rescue.lost and not rescue.touched


def test_what_lies_in_the_trimmer_is_cut_before_anything_else_is_laid_in(tmp_path: Path) -> None:
    """A scrap of an earlier sheet is cut again; the sheet that was laid in is not said again."""
    session = Session.start(read_kit(LAID_IN), None, None, clock(), "this is a test")
    up_to(session, "A/1")
    rescue = Rescue(session, Mishap(What.RUINED, thing="B/r"))
    rescue.search()
    way = next(way for way in rescue.ways if way.saving is Saving.SCRAP)
    assert rescue.choose(way).taken
    said = []
    while (step := session.state.step()) is not None:
        said.append(step.id)
        assert session.next().taken
    cuts = [id for id in dict.fromkeys(said) if id.partition("/")[0] in "AB"]
    assert cuts == ["A/1", "B/1/load", "B/1/1"]


LAID_IN = """
dryfit = 1
title = "Laid in"
page = "12 x 12"
pages = 2

[[paper]]
name = "green"
face = "green"

[[sheet]]
name = "B"
paper = "green"

[[sheet]]
name = "A"
paper = "green"

[[piece]]
name = "half"
to = "page 1"

[[piece]]
name = "other half"
to = "2 to 1·2"

[[step]]
trim = "B"
marks = [5]
gives = "scrap"
rest = "half"

[[step]]
trim = "A"
marks = [6]
gives = "other half"
rest = "other half"
"""
