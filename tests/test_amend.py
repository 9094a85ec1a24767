"""How a mending changes a plan."""

from __future__ import annotations

import random
from collections import Counter
from dataclasses import fields, replace
from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from model.geometry import Measure
from model.kit import Mark
from model.plan import Plan, Role, StepKind
from model.rescue.amend import CannotMend, amend
from model.rescue.mending import AddedKind, Fate, MendedLoad, Mending, Share, at_marks
from tests.hand_kits import KITS
from tests.kits import kit_texts
from tests.mendings import SCRAP, any_mending, as_written, exchanged, loads_of
from tests.muddle import plan_of_text

slowly = settings(
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much],
    deadline=None,
    max_examples=60,
)


def demo(name: str) -> Plan:
    return plan_of_text(Path(f"kits/{name}.toml").read_text(encoding="utf-8"))


DEMOS = ["cards", "harbour", "postcard"]


def said(plan: Plan) -> dict[str, object]:
    """All of a plan, without what only tells that it was worked out from single things."""
    values: dict[str, object] = {each.name: getattr(plan, each.name) for each in fields(plan)}
    values["kit"] = replace(plan.kit, work=(), scraps=None, scrap_sizes=())
    values["steps"] = [
        replace(step, work=step.work and replace(step.work, of="", times=1)) for step in plan.steps
    ]
    values["touched_by"] = {k: v for k, v in plan.touched_by.items() if v}
    values["items"] = list(plan.items.items())
    values["groups"] = list(plan.groups.items())
    return values


def check_holds_together(plan: Plan) -> None:
    """Nothing is made twice, taken twice or before it is made, or left without a place."""
    made = Counter(item for step in plan.steps for item in step.makes)
    taken = Counter(
        item for step in plan.steps for item in step.takes if step.kind is not StepKind.LOAD
    )
    assert set(made.values()) <= {1} and set(taken.values()) <= {1}
    assert [step.index for step in plan.steps] == list(range(len(plan.steps)))
    assert len(plan.step_at) == len(plan.steps)
    phases = [step.phase for step in plan.steps]
    assert phases == sorted(phases)
    for item in plan.items.values():
        unpacked = item.role in (Role.SHEET, Role.BASE) or item.partner
        assert (item.id in made) != bool(unpacked)
        if item.id in made and item.id in taken:
            assert plan.made_by[item.id] < plan.taken_by[item.id]
        for index in plan.touched_by.get(item.id, ()):
            assert plan.made_by.get(item.id, -1) < index <= plan.taken_by.get(item.id, index)
        if item.role is Role.STRIP:
            assert item.id in taken, "a strip that nothing takes"
        if item.role is Role.SCRAP:
            assert item.id not in taken
        if item.role is Role.PIECE and not item.partner:
            assert plan.groups[item.group].wanted or item.id in taken
    for group in plan.groups.values():
        copies = [i for i in plan.items.values() if i.group == group.key and not i.partner]
        assert len(copies) <= sum(group.wanted.values()) or not group.wanted
    assert plan.kit.scraps == len(plan.scraps)
    check_areas(plan)


def check_areas(plan: Plan) -> None:
    """Straight cuts keep the area of what they cut."""
    for load, cuts in plan.loads.items():
        taken = plan.items[plan.steps[plan.step_at[load]].takes[0]]
        parts = [plan.items[p] for n in cuts for p in plan.steps[n].makes]
        assert taken.stock is not None
        assert sum(p.stock.area for p in parts if p.stock) == taken.stock.area
        assert [p.id for p in parts] == [
            *(f"{taken.id}/{n}" for n in range(1, len(parts))),
            f"{taken.id}/r",
        ]


class TestNothingMended:
    @pytest.mark.parametrize("name", DEMOS)
    def test_demo_kits_stay_what_they_are(self, name: str) -> None:
        plan = demo(name)
        assert said(amend(plan, Mending())) == said(plan)

    @pytest.mark.parametrize("text", KITS)
    def test_kits_by_hand_stay_what_they_are(self, text: str) -> None:
        plan = plan_of_text(text)
        again = amend(plan, Mending())
        assert said(again) == said(plan)
        assert amend(again, Mending()) == again

    @slowly
    @given(kit_texts(), st.randoms(use_true_random=False))
    def test_random_kits_stay_what_they_are(self, text: str, rng: random.Random) -> None:
        plan = plan_of_text(text)
        at = rng.choice(plan.steps).id
        assert said(amend(plan, Mending(at))) == said(plan)

    @slowly
    @given(kit_texts())
    def test_loads_said_just_as_they_are_change_nothing(self, text: str) -> None:
        plan = plan_of_text(text)
        mending = Mending(loads=tuple(as_written(plan, load) for load in loads_of(plan)))
        assert said(amend(plan, mending)) == said(plan)


class TestAnything:
    @slowly
    @given(st.one_of(st.sampled_from(KITS), kit_texts()), st.randoms(use_true_random=False))
    def test_what_is_mended_holds_together(self, text: str, rng: random.Random) -> None:
        plan = plan_of_text(text)
        for _ in range(3):
            mending = any_mending(rng, plan)
            try:
                amended = amend(plan, mending)
            except CannotMend as error:
                assert error.code in ("impossible", "no such thing", "not made", "role twice")
                continue
            check_holds_together(amended)
            assert amend(plan, mending) == amended
            plan = amended

    @slowly
    @given(kit_texts(), st.randoms(use_true_random=False))
    def test_roles_handed_over_keep_every_piece(self, text: str, rng: random.Random) -> None:
        plan = plan_of_text(text)
        try:
            amended = amend(plan, Mending(loads=exchanged(rng, plan)))
        except CannotMend:
            return
        check_holds_together(amended)

    def test_most_random_mendings_make_sense(self) -> None:
        rng = random.Random(4)
        plans = [demo(name) for name in DEMOS]
        can = 0
        for _ in range(200):
            plan = rng.choice(plans)
            try:
                check_holds_together(amend(plan, any_mending(rng, plan)))
                can += 1
            except CannotMend:
                pass
        assert can > 120


KIT = """
dryfit = 1
title = "Worked"
page = "12 x 12"
pages = 2
scraps = 1

[[sheet]]
name = "A"
face = "navy"

[[sheet]]
name = "B"
face = "navy"

[[sheet]]
name = "C"
face = "teal"

[[precut]]
name = "white mat"
face = "white"
size = "3 x 3"
to = { "1·2" = 3 }

[[piece]]
name = "half"
to = "page 1"
size = "6 x 12"

[[piece]]
name = "border"
to = "1 to page 1, 1 to page 2"
size = "2 x 12"

[[piece]]
name = "square"
to = "1 to page 1, 1 to page 2"
size = "4 x 4"

[[step]]
trim = "A"
marks = [6, 4]
gives = ["half", "border"]
rest = "strip"

[[step]]
trim = "strip"
turn = "quarter"
marks = [8, 4]
gives = ["square", "square"]
rest = "scrap"

[[step]]
trim = "B"
marks = [10]
gives = "border"
rest = "base of B"

[[step]]
slit = "base of B"

[[step]]
fussy_cut = "base of B"
gives = ["sun", "moon"]

[[step]]
trim = "C"
marks = [5]
gives = "tall"
rest = "wide"

[[piece]]
name = "sun"
to = "page 1"

[[piece]]
name = "moon"
to = "page 2"

[[piece]]
name = "tall"
to = "page 1"

[[piece]]
name = "wide"
to = "page 2"
"""
IN = Fraction(254, 10)


def role(name: str) -> Share:
    return Share(Fate.ROLE, name)


def marks(*inches: float) -> tuple[Mark, ...]:
    return at_marks([Fraction(each) * IN for each in inches])


def names(plan: Plan) -> dict[str, str]:
    return {id: item.name for id, item in plan.items.items()}


def steps(plan: Plan) -> list[str]:
    return [step.id for step in plan.steps if step.work]


class TestWorked:
    plan = plan_of_text(KIT)

    def test_the_kit_is_as_it_is_thought_to_be(self) -> None:
        assert steps(self.plan) == [
            "A/load", "A/1", "A/2", "A/r/load", "A/r/1", "A/r/2", "B/load", "B/1", "B/r/slit",
            "B/r/fussy_cut", "C/load", "C/1",
        ]  # fmt: skip

    def test_marks_that_shift_give_true_sizes(self) -> None:
        load = MendedLoad("A", marks(5.5, 3.5), (SCRAP, role("A/2")), role("A/r"), as_written=True)
        plan = amend(self.plan, Mending(loads=(load,)))
        assert steps(plan) == steps(self.plan)
        assert plan.items["A/1"].role is Role.SCRAP and plan.kit.scraps == 2
        stock = plan.items["A/r/1"].stock
        assert stock and (stock.width, stock.height) == (Measure(7 * IN / 2), Measure(4 * IN))
        assert plan.wanted == self.plan.wanted, "the half is still wanted, and not there"

    def test_what_works_on_a_thing_follows_it_to_where_it_is(self) -> None:
        a = MendedLoad("A", marks(6, 4), (role("A/1"), role("A/2")), role("B/r"))
        b = MendedLoad("B", marks(4), (SCRAP,), role("A/r"))
        plan = amend(self.plan, Mending(loads=(a, b)))
        # The strip is not there when its turn comes; it is cut as soon as it is.
        assert steps(plan) == [
            "A/load", "A/1", "A/2", "B/load", "B/1", "B/r/load", "B/r/1", "B/r/2", "A/r/slit",
            "A/r/fussy_cut", "C/load", "C/1",
        ]  # fmt: skip
        assert names(plan)["A/r"] == "base of B" and names(plan)["A/r/2"] == "moon"
        assert names(plan)["B/r"] == "strip" and names(plan)["B/r/1"] == "square"

    def test_what_has_nothing_to_work_on_is_dropped(self) -> None:
        load = MendedLoad("B", marks(10), (role("B/1"),), SCRAP, as_written=True)
        plan = amend(self.plan, Mending(loads=(load,)))
        assert not {"B/r/slit", "B/r/fussy_cut"} & {*steps(plan)}
        assert not {"B/r/1", "B/r/2"} & {*plan.items}

    def test_a_strip_that_nothing_takes_becomes_a_scrap(self) -> None:
        a = MendedLoad("A", marks(6, 4), (role("A/1"), role("A/2")), Share(Fate.STRIP, "odd"))
        plan = amend(self.plan, Mending(loads=(a,)))
        assert plan.items["A/r"].role is Role.SCRAP

    def test_a_scrap_is_cut_before_the_step_that_is_due(self) -> None:
        lost = MendedLoad("C", marks(5), (SCRAP,), role("C/r"), as_written=True)
        added = AddedKind("patch", "tall", 0, 1, (2 * IN, 4 * IN), "half")
        scrap = MendedLoad("A/r/r", marks(2), (role("C/1"),), Share(Fate.STRIP, "end"), turn=1)
        end = MendedLoad("A/r/r/r", marks(1), (Share(Fate.MADE, "patch"),), SCRAP)
        mending = Mending("B/1", (lost, scrap, end), kinds=(added,))
        plan = amend(self.plan, mending)
        at = steps(plan).index("A/r/r/load")
        # B is in the trimmer: nothing comes between its cuts.
        assert steps(plan)[at - 1 : at + 4] == [
            "B/1", "A/r/r/load", "A/r/r/1", "A/r/r/r/load", "A/r/r/r/1",
        ]  # fmt: skip
        assert plan.items["A/r/r"].role is Role.STRIP
        assert plan.items["A/r/r/1"].name == "tall"
        assert plan.items["A/r/r/r/1"].kind == plan.kit.kinds["patch"]
        assert plan.groups["patch"].wanted == {0: 1}
        early = amend(self.plan, replace(mending, at="B/load"))
        assert steps(early).index("A/r/r/load") < steps(early).index("B/load")
        late = amend(self.plan, replace(mending, at=""))
        assert steps(late)[-1] == "A/r/r/r/1"

    def test_a_piece_that_is_cut_after_all_is_no_piece_any_more(self) -> None:
        load = MendedLoad("A/1", marks(4), (SCRAP,), role("C/1"))
        lost = MendedLoad("C", marks(5), (SCRAP,), role("C/r"), as_written=True)
        plan = amend(self.plan, Mending(loads=(load, lost)))
        assert plan.items["A/1"].role is Role.STRIP
        assert plan.items["A/1"].name not in plan.kit.kinds
        assert plan.wanted == self.plan.wanted

    def test_a_sheet_that_is_missing_takes_all_that_hangs_on_it(self) -> None:
        plan = amend(self.plan, Mending(gone=("A",)))
        assert not [id for id in plan.items if id.startswith("A")]
        assert "stack:A" not in plan.step_at and "A" not in plan.order
        assert plan.wanted == self.plan.wanted

    def test_lost_copies_leave_the_names_of_others(self) -> None:
        plan = amend(self.plan, Mending(spent=(("white mat", 0),)))
        assert [i for i in plan.items if "#" in i] == ["white mat#1", "white mat#2"]
        assert plan.wanted == self.plan.wanted, "the page misses it"
        again = amend(plan, Mending(spent=(("white mat", 0), ("white mat", 0))))
        assert not [i for i in again.items if "#" in i]
        assert "fill:white mat:1·2" not in again.step_at
        with pytest.raises(CannotMend, match="no such thing"):
            amend(again, Mending(spent=(("white mat", 0),)))

    def test_what_is_cut_instead_of_a_lost_copy_takes_its_place(self) -> None:
        added = AddedKind("white square", "white mat", 0, 1, (4 * IN, 4 * IN))
        load = MendedLoad("A/r/r", marks(1), (SCRAP,), Share(Fate.MADE, "white square"), 1)
        mending = Mending("", (load,), spent=(("white mat", 0),), kinds=(added,))
        plan = amend(self.plan, mending)
        assert plan.wanted == self.plan.wanted
        assert plan.groups["white mat"].wanted == {0: 2}
        assert [i for i in plan.items if "#" in i] == ["white mat#1", "white mat#2"]
        again = amend(plan, Mending(spent=(("white mat", 0),)))
        assert [i for i in again.items if "#" in i] == ["white mat#1"]
        assert again.wanted == plan.wanted

    @pytest.mark.parametrize("replaced", [True, False])
    def test_numbers_stay_whichever_way_they_are_lost(self, replaced: bool) -> None:
        text = KIT.replace("pages = 2\n", "pages = 4\n")
        plan = plan_of_text(text.replace('"1·2" = 3', '"1·2" = 2, "3·4" = 2'))
        kinds = [AddedKind("own", "white mat", 0, 1, (IN, IN))] * replaced
        plan = amend(plan, Mending(spent=(("white mat", 0),), kinds=tuple(kinds)))
        assert [i for i in plan.items if "#" in i] == [f"white mat#{n}" for n in (1, 3, 4)]
        plan = amend(plan, Mending(spent=(("white mat", 1),)))
        assert [i for i in plan.items if "#" in i] == [f"white mat#{n}" for n in (1, 3)]

    @pytest.mark.parametrize(
        ("code", "mending"),
        [
            ("no such step", Mending("nowhere")),
            ("no such thing", Mending(gone=("Z",))),
            ("not made", Mending(loads=(MendedLoad("Z", marks(1), (SCRAP,), SCRAP),))),
            ("parts", Mending(loads=(MendedLoad("A", marks(1), (), SCRAP),))),
            ("parts", Mending(loads=(MendedLoad("A", (), (), SCRAP),))),
            ("impossible", Mending(loads=(MendedLoad("A", marks(12), (SCRAP,), SCRAP),))),
            ("impossible", Mending(loads=(MendedLoad("A", marks(1, 2), (SCRAP,) * 2, SCRAP),))),
            ("impossible", Mending(loads=(MendedLoad("A", marks(0), (SCRAP,), SCRAP),))),
            ("impossible", Mending(kinds=(AddedKind("x", "", 0, None, (IN, 0 * IN)),))),
            ("no such thing", Mending(loads=(MendedLoad("A", marks(1), (role("Z"),), SCRAP),))),
            ("role twice", Mending(loads=(MendedLoad("A", marks(1), (role("C/1"),), SCRAP),))),
            (
                "role twice",
                Mending(loads=(MendedLoad("A", marks(1), (role("A/1"),), role("A/1")),)),
            ),
            ("taken twice", Mending(loads=(MendedLoad("A", marks(1), (SCRAP,), SCRAP),) * 2)),
            (
                "name taken",
                Mending(loads=(MendedLoad("A", marks(1), (Share(Fate.STRIP, "B"),), SCRAP),)),
            ),
            (
                "no such thing",
                Mending(loads=(MendedLoad("A", marks(1), (Share(Fate.MADE, "x"),), SCRAP),)),
            ),
            ("name taken", Mending(kinds=(AddedKind("half", "", 0, None, (IN, IN)),))),
            ("no such thing", Mending(kinds=(AddedKind("x", "", 9, None, (IN, IN)),))),
            (
                "ready made",
                Mending(loads=(MendedLoad("white mat#1", marks(1), (SCRAP,), SCRAP),)),
            ),
        ],
    )
    def test_what_makes_no_sense_is_refused(self, code: str, mending: Mending) -> None:
        with pytest.raises(CannotMend) as caught:
            amend(self.plan, mending)
        assert caught.value.code == code

    def test_a_later_cut_that_no_longer_fits_is_refused_by_name(self) -> None:
        a = MendedLoad("A", marks(6, 4), (role("A/1"), role("A/2")), SCRAP)
        b = MendedLoad("B", marks(7), (SCRAP,), Share(Fate.STRIP, "short"))
        short = MendedLoad("B/r", marks(7), (SCRAP,), role("A/r"), turn=1)
        with pytest.raises(CannotMend) as caught:
            amend(self.plan, Mending(loads=(a, b, short)))
        assert (caught.value.code, caught.value.things) == ("impossible", ("B/r/r",))
