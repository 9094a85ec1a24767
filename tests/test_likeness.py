"""Look-alikes: what could be mistaken for what, and what tells them apart."""

from __future__ import annotations

import random
from fractions import Fraction

import pytest

from model.folders import demo_folder
from model.likeness import NEAR_COLOUR, NEAR_SIDE, LookAlikes, tell_apart
from model.plan import Plan, Role
from model.reading import read_kit
from model.session import Session
from model.sought import Sought, sought_of
from model.spot import Spot
from model.state import State
from model.tells import Tell
from tests.kits import random_kit

INCH = Fraction(254, 10)
HEAD = 'dryfit = 1\ntitle = "Alike"\nnote = "Invented."\npages = 4\npage = "12 x 12"\nscraps = 0\n'


def mat(name: str, size: str, to: str, more: str = 'face = "white"') -> str:
    return f'[[precut]]\nname = "{name}"\nsize = "{size}"\nto = "{to}"\n{more}\n'


REST = '[[sheet]]\nname = "Z"\nface = "black"\n[[piece]]\nname = "half"\nto = "2 to 3·4"\n' + (
    '[[step]]\ntrim = "Z"\nmarks = [6]\ngives = "half"\nrest = "half"\n'
)


def plan_of(*mats: str) -> Plan:
    read = read_kit(HEAD + "".join(mats) + REST)
    assert read.plan is not None, read.findings
    return read.plan


def pairs(plan: Plan) -> dict[tuple[str, str], Tell]:
    looks = LookAlikes(plan)
    return {
        (item.name, each.other.item.name): each.tell
        for item in plan.items.values()
        for each in looks.of(item.id)
    }


class TestWhatIsAlike:
    def test_nearly_one_size_and_one_colour_for_other_pockets(self):
        plan = plan_of(mat("a", "4 x 6", "1·2"), mat("b", "4 1/4 x 6 1/4", "3·4"))
        assert pairs(plan) == {("a", "b"): Tell.LONG, ("b", "a"): Tell.LONG}

    def test_turned_they_are_alike_too(self):
        plan = plan_of(mat("a", "4 x 6", "1·2"), mat("b", "6 1/2 x 4", "3·4"))
        assert pairs(plan)["a", "b"] is Tell.LONG

    def test_up_to_an_inch_and_no_more(self):
        assert pairs(plan_of(mat("a", "4 x 6", "1·2"), mat("b", "5 x 6", "3·4")))
        assert not pairs(plan_of(mat("a", "4 x 6", "1·2"), mat("b", "5 1/16 x 6", "3·4")))

    def test_another_colour_is_not_alike(self):
        navy = 'face = "navy"'
        assert not pairs(plan_of(mat("a", "4 x 6", "1·2"), mat("b", "4 x 5", "3·4", navy)))

    def test_the_reverse_may_be_up(self):
        other = 'face = "navy"\nreverse = "white"'
        assert pairs(plan_of(mat("a", "4 x 6", "1·2"), mat("b", "4 x 5", "3·4", other)))

    def test_where_mixing_up_is_harmless_nothing_is_said(self):
        assert not pairs(plan_of(mat("a", "4 x 6", "1·2"), mat("b", "4 x 5", "1·2")))

    def test_another_page_of_the_pocket_matters(self):
        assert pairs(plan_of(mat("a", "4 x 6", "page 1"), mat("b", "4 x 5", "page 2")))

    def test_what_nothing_tells_apart_may_serve_for_the_other(self):
        assert not pairs(plan_of(mat("a", "4 x 6", "1·2"), mat("b", "6 x 4", "3·4")))


class TestWhatTells:
    @pytest.mark.parametrize(
        ("more", "tell"),
        [
            ('face = "white"\nwords = "hello"', Tell.PRINTED),
            ('face = "white"\npicture = "a kite"', Tell.PRINTED),
            ('kind = "print"\nface = { name = "dots", colour = "white" }', Tell.PATTERN),
            ('face = "white"\nreverse = "navy"', Tell.BACK),
        ],
    )
    def test_a_glance_goes_before_a_ruler(self, more, tell):
        plan = plan_of(mat("a", "4 x 6", "1·2"), mat("b", "4 x 6", "3·4", more))
        assert pairs(plan)["a", "b"] is tell

    def test_the_side_that_differs_most(self):
        plan = plan_of(mat("a", "4 x 6", "1·2"), mat("b", "4 1/2 x 6 1/4", "3·4"))
        assert pairs(plan)["a", "b"] is Tell.SHORT

    def test_the_likest_comes_first(self):
        plan = plan_of(
            mat("a", "4 x 6", "1·2"),
            mat("far", "4 x 6 3/4", "3·4"),
            mat("near", "4 x 6 1/8", "3·4"),
            mat("told", "4 x 6", "3·4", 'face = "white"\nwords = "hi"'),
        )
        looks = LookAlikes(plan).of("a#1")
        assert [each.other.item.name for each in looks] == ["near", "far", "told"]


def like(a: Sought, b: Sought) -> bool:
    """The definition, without any sorting by size."""
    from model.colour import difference

    return (
        all(abs(x - y) <= NEAR_SIDE for x, y in zip(a.sides, b.sides, strict=True))
        and any(difference(x, y) <= NEAR_COLOUR for x in a.colours for y in b.colours)
        and tell_apart(a, b) is not None
    )


@pytest.mark.parametrize("seed", range(30))
def test_none_is_overlooked(seed):
    plan = read_kit(random_kit(random.Random(seed))).plan
    assert plan is not None
    looks = LookAlikes(plan)
    things = [
        each
        for each in sought_of(plan)
        if each.item.role in (Role.PIECE, Role.STRIP, Role.SCRAP)
        and len(each.sides) == 2
        and each.colours
    ]
    for one in things:
        found = {each.other.item.id for each in looks.of(one.item.id)}
        could = {each.item.id for each in things if each is not one and like(one, each)}
        assert found <= could
        for other in could - found:  # left out only where it would be harmless
            groups = [plan.groups.get(plan.items[id].group) for id in (one.item.id, other)]
            goes = [{(to.pocket, to.page) for to in group.to} if group else {} for group in groups]
            assert goes[0] == goes[1]
            assert plan.items[other].role is one.item.role


class TestWhen:
    def test_only_what_lies_about_together_is_told(self):
        plan = plan_of(mat("a", "4 x 6", "1·2"), mat("b", "4 x 5", "3·4"))
        looks, state = LookAlikes(plan), State(plan)
        assert [each.other.item.name for each in looks.about(state, "a#1")] == ["b"]
        assert looks.of("half") == ()

    def test_what_is_filed_elsewhere_is_no_danger(self):
        text = HEAD + mat("a", "4 x 6", "1·2") + mat("b", "4 x 5", "3·4") + REST
        session = Session.start(read_kit(text), None, None)
        looks = LookAlikes(session.plan)
        while session.state.where("b#1") == Spot.NOWHERE:
            session.next()
        assert looks.about(session.state, "a#1") == ()

    @pytest.mark.parametrize("path", sorted(demo_folder().glob("*.toml")), ids=lambda p: p.stem)
    def test_it_is_told_sparingly(self, path):
        session = Session.start(read_kit(path.read_text("utf-8")), None, None)
        looks, told, said = LookAlikes(session.plan), 0, 0
        while not (due := session.state.due()).over:
            said += 1
            told += bool(due.item and looks.about(session.state, due.item))
            session.next()
        assert told <= 0.1 * said
