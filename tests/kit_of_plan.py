"""A plan of cuts made into a kit, and run by the engine that the table runs on."""

from __future__ import annotations

from collections import Counter
from fractions import Fraction

from model.length import Unit
from model.plan import Plan, Role
from model.planning.kitlines import kit_text
from model.planning.task import CutPlan, Task
from model.reading import read_kit

_Size = tuple[Fraction, ...]


def read_plan(task: Task, plan: CutPlan, unit: Unit = Unit.IN, **more) -> Plan:
    """The kit of a plan; nothing may be found wrong with it."""
    text = kit_text(task, plan, unit=unit, **more)
    read = read_kit(text)
    assert not read.findings, (read.findings, text)
    assert read.plan is not None
    return read.plan


def replays_on_the_engine(task: Task, plan: CutPlan, unit: Unit = Unit.IN) -> bool:
    """Whether the engine of cuts makes the same pieces and scraps."""
    kit = read_plan(task, plan, unit)
    made = [item for item in kit.items.values() if item.stock]
    scraps = [_short_first(_size(item)) for item in made if item.role is Role.SCRAP]
    pieces = [_size(item) for item in made if item.kind is not None]
    planned = [each for each in plan.parts.values() if each.want]
    return Counter(scraps) == Counter(
        _short_first((each.width, each.height)) for each in plan.parts.values() if each.scrap
    ) and Counter(pieces) == Counter(
        (each.width, each.height) if each.upright else (each.height, each.width) for each in planned
    )


def _size(item) -> _Size:
    return item.stock.width.value, item.stock.height.value


def _short_first(size: _Size) -> _Size:
    return tuple(sorted(size))
