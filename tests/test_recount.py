"""Counting a pocket: what is missing is looked for at the likeliest places first."""

from __future__ import annotations

import random

import pytest

from model.event import Filed, Moved, Scrapped
from model.folders import demo_folder
from model.likeness import LookAlikes
from model.plan import Phase, Plan
from model.reading import load_kit, read_kit
from model.recount import Count, Proposal, Recount
from model.session import Session
from model.sought import appearance
from model.spot import Spot
from model.story import fold
from model.tells import Reason
from model.warning import WarningKind
from tests.oracle import check_places
from tests.tables import clock

KIT = """
dryfit = 1
title = "Count me"
note = "Invented."
page = "12 x 12"
pages = 6
scraps = 0
[[precut]]
name = "photo mat"
face = "white"
size = "4 x 6"
to = "1·2"
[[precut]]
name = "wide mat"
face = "white"
size = "4 1/4 x 6 1/4"
to = "3·4"
[[precut]]
name = "tag"
face = "navy"
size = "2 x 3"
to = "1 to 1·2, 1 to 5·6"
[[sheet]]
name = "A"
face = "teal"
[[piece]]
name = "half"
to = "1 to 1·2, 1 to 5·6"
[[step]]
trim = "A"
marks = [6]
gives = "half"
rest = "half"
"""
P12, P34, P56 = 0, 1, 2


def done(text: str = KIT) -> Session:
    """A session in which everything is filed by the journal."""
    read = read_kit(text)
    assert read.plan is not None, read.findings
    session = Session.start(read, None, None, clock())
    while not session.state.due().over:
        assert session.next().taken
    return session


def recount(session: Session) -> Recount:
    return Recount(session.plan, session.state, LookAlikes(session.plan))


def test_a_pocket_lists_what_the_journal_has_in_it():
    session = done()
    lines = recount(session).lines(P12)
    assert [(line.item.name, len(line.copies)) for line in lines] == [
        ("photo mat", 1), ("tag", 1), ("half", 1),
    ]  # fmt: skip


def test_a_count_that_is_right_is_kept_until_something_goes_in_or_out():
    session = done()
    assert session.checked(P12).taken
    assert set(session.state.checked) == {P12}
    session.move("tag#1", P34)
    assert set(session.state.checked) == set()
    session.undo()
    assert set(session.state.checked) == {P12}


def test_a_pocket_with_a_warning_is_not_right():
    session = done()
    session.move("tag#1", P34)
    assert session.checked(P34).objection == "not right yet"


class TestWhereItIs:
    def test_exchanged_with_what_was_found_in_its_pocket(self):
        session = done()
        count = recount(session)
        count.counts[P12] = Count(P12, ("photo mat#1",), ("wide mat#1",))
        first = count.proposals("photo mat#1")[0]
        assert (first.place, first.reason, first.other) == (P34, Reason.EXCHANGED, "wide mat#1")
        assert first.likeness is not None
        assert first.events(session.plan) == (
            Moved("photo mat#1", "3·4"),
            Moved("wide mat#1", "1·2"),
            Moved("photo mat#1", "1·2"),
            Moved("wide mat#1", "3·4"),
        )

    def test_a_look_alike_filed_elsewhere_when_nothing_else_is_known(self):
        session = done()
        count = recount(session)
        count.counts[P12] = Count(P12, ("photo mat#1",))
        first = count.proposals("photo mat#1")[0]
        assert (first.place, first.reason, first.other) == (P34, Reason.LOOK_ALIKE, "")
        assert first.likeness is not None
        assert first.likeness.other.item.name == "wide mat"

    def test_not_where_a_count_was_right(self):
        session = done()
        count = recount(session)
        count.counts[P34] = Count(P34)
        count.counts[P12] = Count(P12, ("photo mat#1",))
        assert all(each.place != P34 for each in count.proposals("photo mat#1"))

    def test_not_where_it_was_looked_for_in_vain(self):
        session = done()
        count = recount(session)
        count.counts[P12] = Count(P12, ("photo mat#1",))
        count.denied.add(("photo mat#1", P34))
        assert all(each.place != P34 for each in count.proposals("photo mat#1"))

    def test_seen_elsewhere_is_certain(self):
        session = done()
        count = recount(session)
        count.counts[P56] = Count(P56, (), ("photo mat#1",))
        count.counts[P12] = Count(P12, ("photo mat#1",))
        first = count.proposals("photo mat#1")[0]
        assert (first.place, first.reason) == (P56, Reason.SEEN)

    def test_where_its_neighbours_were_filed(self):
        session = done()
        count = recount(session)
        count.counts[P12] = Count(P12, ("A/1",))
        session.move("tag#2", P34)
        count.denied.add(("A/1", P56))
        first = next(p for p in count.proposals("A/1") if p.place >= 0)
        assert (first.place, first.reason) == (P34, Reason.NEXT_FILED)

    def test_in_the_end_the_scraps_and_the_table(self):
        session = done()
        session.scrap()  # one that the kit does not expect
        count = recount(session)
        count.counts[P12] = Count(P12, ("tag#1",))
        assert [each.reason for each in count.proposals("tag#1")][-2:] == [
            Reason.SCRAPS, Reason.TABLE,
        ]  # fmt: skip

    def test_not_among_scraps_when_there_are_none(self):
        count = recount(done())
        count.counts[P12] = Count(P12, ("tag#1",))
        reasons = [each.reason for each in count.proposals("tag#1")]
        assert Reason.SCRAPS not in reasons
        assert reasons[-1] is Reason.TABLE

    def test_where_others_just_like_it_were_filed(self):
        count = recount(done())
        count.counts[P12] = Count(P12, ("tag#1",))
        first = count.proposals("tag#1")[0]
        assert (first.place, first.reason, first.other) == (P56, Reason.SAME_KIND, "")

    def test_of_its_own_kind_pockets_that_were_not_counted_come_first(self):
        session = done(KIT.replace("1 to 1·2, 1 to 5·6", "1 to 1·2, 1 to 3·4, 1 to 5·6", 1))
        assert session.checked(P34).taken
        count = recount(session)
        count.counts[P12] = Count(P12, ("tag#1",))
        kinds = [p.place for p in count.proposals("tag#1") if p.reason is Reason.SAME_KIND]
        assert kinds == [P56, P34]
        # What this very count has found right holds none too many.
        count.counts[P56] = Count(P56)
        assert P56 not in [p.place for p in count.proposals("tag#1")]

    def test_what_was_packed_ready_made_has_neighbours_too(self):
        count = recount(done())
        count.counts[P34] = Count(P34, ("wide mat#1",))
        near = [p.place for p in count.proposals("wide mat#1") if p.reason is Reason.NEXT_FILED]
        assert near == [P56]  # the photo mat's pocket is named for being like it
        assert count.proposals("wide mat#1")[0].reason is Reason.LOOK_ALIKE

    def test_a_mat_of_the_large_kit_is_sought_among_its_own_kind(self):
        session = Session.start(load_kit(demo_folder() / "harbour.toml"), None, None, clock())
        while session.state.due().step.phase is Phase.OPENING:  # type: ignore[union-attr]
            assert session.next().taken
        assert session.state.scraps == 0
        count = recount(session)
        count.counts[P12] = Count(P12, ("white mat#1",))
        alike = {
            session.state.where(id)
            for id, item in session.plan.items.items()
            if appearance(item) == appearance(session.plan.items["white mat#1"])
        }
        proposals = count.proposals("white mat#1")
        kinds = [each.place for each in proposals if each.reason is Reason.SAME_KIND]
        assert len(kinds) >= 4
        assert set(kinds) == alike - {P12}
        assert all(each.reason is not Reason.SCRAPS for each in proposals)
        assert [each.place for each in proposals[: len(kinds)]] == kinds


class TestAccepting:
    @pytest.mark.parametrize("place", [P34, Spot.SCRAPS, Spot.PILE])
    def test_it_is_one_answer_and_the_mistake_is_remembered(self, place):
        session = done()
        before = session.state.snapshot()
        count = recount(session)
        count.counts[P12] = Count(P12, ("photo mat#1",))
        proposals = {each.place: each for each in count.proposals("photo mat#1")}
        # This kit has no scraps to look among.
        scraps = Proposal("photo mat#1", P12, Spot.SCRAPS, Reason.SCRAPS)
        chosen = {Spot.SCRAPS: scraps, **proposals}[place]
        told = session.accept(chosen)
        assert told.taken
        assert told.raised == ()
        assert session.state.where("photo mat#1") == P12
        assert not session.state.warnings
        assert bool(session.state.mistakes) == (place != Spot.PILE)
        assert count.missing() == (("photo mat#1", P12),)  # the count itself is not changed
        session.undo()
        assert session.state.snapshot() == before

    def test_what_is_found_nowhere_is_missing_until_it_is_found(self):
        session = done()
        told = session.missed("tag#1")
        (warning,) = told.raised
        assert warning.kind is WarningKind.MISSING
        assert session.state.where("tag#1") == Spot.MISSING
        assert session.state.held(P12) == 2
        assert session.missed("tag#1").objection == "not filed"
        assert session.put_right(warning).taken
        assert session.state.where("tag#1") == P12
        assert not session.state.warnings

    def test_a_replay_gives_the_same(self):
        session = done()
        session.missed("tag#1")
        session.checked(P34)
        entries = session.state.standing()
        again = fold(session.plan, entries)
        assert again.checked.keys() == session.state.checked.keys()
        assert again.warnings.keys() == session.state.warnings.keys()
        check_places(session.state)


def physical(session: Session) -> dict[str, int]:
    """Where everything that is filed lies by the journal."""
    return {id: place for id, place in session.state.place.items() if place >= 0}


@pytest.mark.parametrize("path", sorted(demo_folder().glob("*.toml")), ids=lambda p: p.stem)
@pytest.mark.parametrize("seed", range(8))
def test_counting_everything_finds_every_exchange(path, seed):
    """Somebody pressed the right keys and put the paper elsewhere; counting all tells it all."""
    rng = random.Random(seed)
    session = done(path.read_text("utf-8"))
    plan: Plan = session.plan
    really = physical(session)
    movable = [id for id in really if not plan.items[id].partner]
    for _ in range(6):
        one, other = rng.sample(movable, 2)
        really[one], really[other] = really[other], really[one]
    count = recount(session)
    for pocket in range(len(plan.kit.pockets)):
        inside = [id for line in count.lines(pocket) for id in line.copies]
        missing = tuple(id for id in inside if really[id] != pocket)
        others = tuple(id for id in movable if really[id] == pocket and id not in inside)
        count.counts[pocket] = Count(pocket, missing, others)
    for item, _ in count.missing():
        first = count.proposals(item)[0]
        where_it_is = first.place
        alike = [id for id in movable if plan.items[id].group == plan.items[item].group]
        assert where_it_is in {really[id] for id in alike}, (item, first)
        assert isinstance(first.events(plan)[0], (Moved, Filed, Scrapped))
