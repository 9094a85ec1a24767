"""Random kits hold together: nothing is lost, made twice, or left without a place."""

from __future__ import annotations

from collections import Counter

from hypothesis import HealthCheck, given, settings

from model.plan import Item, Plan, Role, StepKind
from model.reading import read_kit
from tests.kits import big_kit, kit_texts

slowly = settings(suppress_health_check=[HealthCheck.too_slow], deadline=None, max_examples=60)


def whole_plan(text: str) -> Plan:
    got = read_kit(text)
    assert got.plan is not None and not got.findings, [str(f) for f in got.findings]
    return got.plan


@slowly
@given(kit_texts())
def test_everything_is_made_once_and_taken_at_most_once(text: str) -> None:
    plan = whole_plan(text)
    made = Counter(item for step in plan.steps for item in step.makes)
    taken = Counter(
        item for step in plan.steps for item in step.takes if step.kind is not StepKind.LOAD
    )
    assert set(made.values()) <= {1} and set(taken.values()) <= {1}
    for item in plan.items.values():
        unpacked = item.role in (Role.SHEET, Role.BASE) or item.partner
        assert (item.id in made) != bool(unpacked)
        if item.id in made and item.id in taken:
            assert plan.made_by[item.id] < plan.taken_by[item.id]
    assert dict(plan.taken_by) == {
        item: step.index
        for step in plan.steps
        for item in step.takes
        if step.kind is not StepKind.LOAD
    }
    assert [step.index for step in plan.steps] == list(range(len(plan.steps)))
    assert len({step.id for step in plan.steps}) == len(plan.steps)


@slowly
@given(kit_texts())
def test_straight_cuts_keep_the_area_of_each_sheet_and_count_up(text: str) -> None:
    plan = whole_plan(text)
    parts: dict[str, list[Item]] = {}
    loads: dict[str, str] = {}
    for step in plan.steps:
        if step.kind is StepKind.LOAD:
            loads[step.load] = step.takes[0]
        if step.kind in (StepKind.CUT, StepKind.TEAR):
            parts.setdefault(step.load, []).extend(plan.items[i] for i in step.makes)
    assert loads.keys() == parts.keys() == plan.loads.keys()
    ends: dict[str, list[Item]] = {}
    cuts: Counter[str] = Counter()
    for load, made in parts.items():
        taken = plan.items[loads[load]]
        assert taken.stock is not None
        assert sum(part.stock.area for part in made if part.stock) == taken.stock.area
        assert len(made) == len(plan.loads[load]) + 1
        cuts[taken.sheet] += len(plan.loads[load])
        for part in made:
            if f"{part.id}/load" not in loads:
                ends.setdefault(taken.sheet, []).append(part)
    for sheet, left in ends.items():
        whole = plan.items[sheet].stock
        assert whole is not None
        assert sum(part.stock.area for part in left if part.stock) == whole.area
        assert cuts[sheet] == len(left) - 1  # each cut makes one more piece of paper


@slowly
@given(kit_texts())
def test_every_piece_has_a_place_and_every_place_a_piece(text: str) -> None:
    plan = whole_plan(text)
    by_group = Counter(
        item.group for item in plan.items.values() if item.role is Role.PIECE and item.group
    )
    for key, group in plan.groups.items():
        places = sum(to.count for to in group.to)
        assert by_group.get(key, 0) == (places if group.to else by_group.get(key, 0))
        assert sum(group.wanted.values()) == places
    strips = [item for item in plan.items.values() if item.role is Role.STRIP]
    assert all(item.id in plan.taken_by for item in strips)
    filed = [
        item
        for item in plan.items.values()
        if item.role is Role.PIECE and item.id not in plan.taken_by
    ]
    assert sum(plan.wanted) == len(filed)


@slowly
@given(kit_texts())
def test_phases_come_in_order_and_nothing_is_taken_before_it_is_there(text: str) -> None:
    plan = whole_plan(text)
    phases = [step.phase for step in plan.steps]
    assert phases == sorted(phases)
    blades = [step.index for step in plan.steps if step.blade]
    away = [step.index for step in plan.steps if step.kind is StepKind.AWAY]
    assert len(away) <= 1 and (not blades or not away or max(blades) < away[0])
    for step in plan.steps:
        for item in (*step.takes, *step.touches):
            assert plan.made_by.get(item, -1) < step.index


@slowly
@given(kit_texts())
def test_the_same_text_gives_the_same_plan(text: str) -> None:
    assert read_kit(text).plan == read_kit(text.replace("\n", "\r\n")).plan


def test_a_large_kit_has_as_many_pieces_as_asked_for() -> None:
    for pieces in (2, 35, 36, 37, 100, 1000):
        plan = whole_plan(big_kit(pieces))
        assert sum(item.role is Role.PIECE for item in plan.items.values()) == pieces
        assert sum(plan.wanted) == pieces
