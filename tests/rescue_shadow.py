"""What a crafter really has on the table after a mistake: rectangles cut with plain arithmetic.

It uses neither the engine of cuts nor anything of the rescue, and serves as its oracle.
"""

from __future__ import annotations

import random
from dataclasses import dataclass, field
from fractions import Fraction

from model.alike import may_turn
from model.kit import Verb
from model.plan import Plan, Role, Step, StepKind
from model.rescue.mishap import Mishap, What
from model.session import Session
from model.spot import Spot

Size = tuple[Fraction, Fraction]


class Impossible(Exception):
    """It can't have been so: a cut would have been beside the paper."""


def load_steps(plan: Plan) -> list[Step]:
    return [step for step in plan.steps if step.kind is StepKind.LOAD]


def plain_load(plan: Plan, step: Step) -> bool:
    """A load whose cuts are at numbers, of measured paper."""
    work = step.work
    if work is None or step.before is None or not step.before.measured:
        return False
    return work.verb is Verb.TRIM and all(m.at is not None and not m.about for m in work.marks)


@dataclass
class Shadow:
    """The sizes of everything, in the sheet's frame, as a mistake has made them."""

    plan: Plan
    done: set[str]
    mishap: Mishap
    sizes: dict[str, Size] = field(default_factory=dict)
    aside: dict[str, bool] = field(default_factory=dict)
    """Whether a thing came off a quarter turn round."""

    def lay_out(self) -> dict[str, Size]:
        """The size of each thing that exists, by its identity.

        Raises:
            Impossible: A cut would have been beside the paper.
        """
        for id, item in self.plan.items.items():
            if item.role is Role.SHEET and item.stock is not None:
                self.sizes[id] = item.stock.width.value, item.stock.height.value
        # A load comes after the load that makes what it takes.
        for step in load_steps(self.plan):
            if step.id in self.done:
                self._cut(step)
        return self.sizes

    def _cut(self, step: Step) -> None:
        work, item = step.work, self.really(step.takes[0], taken=True)
        assert work is not None
        if item not in self.sizes:
            if self.mishap.step == step.id:
                raise Impossible
            return
        width, height = self.sizes[item]
        sideways = step.lying.sideways
        if work.lay is None:  # turned against how it came off, whatever that was
            turned = sideways != self.plan.items[step.takes[0]].lying.sideways
            sideways = self.aside.get(item, False) != turned
        if self.mishap.what is What.TURNED and self.mishap.step == step.id:
            sideways = not sideways
        along, across = (height, width) if sideways else (width, height)
        cuts = [self.plan.steps[n] for n in self.plan.loads[step.load]]
        if any(mark.at is None for mark in work.marks):
            return  # along printed lines, of which nobody knows the numbers
        if work.verb is Verb.TEAR:
            marks, left = [], along
            for torn in work.widths:
                left -= torn
                marks.append(left)
        else:
            marks = [mark.at or Fraction(0) for mark in work.marks]
        last = along
        for cut, mark in zip(cuts, marks, strict=True):
            if cut.id not in self.done:
                break
            at = mark
            if self.mishap.step == cut.id and self.mishap.what is What.MARK:
                at = self.mishap.length
            if self.mishap.step == cut.id and self.mishap.what is What.MEASURE:
                came_off = self.mishap.thing == cut.makes[0]
                at = last - self.mishap.length if came_off else self.mishap.length
            if not 0 < at < last:
                raise Impossible
            self._came_off(self.really(cut.makes[0]), last - at, across, sideways)
            last = at
        else:
            self._came_off(self.really(cuts[-1].makes[1]), last, across, sideways)

    def really(self, id: str, *, taken: bool = False) -> str:
        """What a thing of the plan is, where one was taken for another."""
        if self.mishap.what is What.PIECE:
            meant = self.mishap.step.removesuffix("/load")
            for one, other in ((meant, self.mishap.thing), (self.mishap.thing, meant)):
                if id == one and taken:
                    return other
                if id.startswith(f"{one}/"):
                    return other + id[len(one) :]
        return id

    def _came_off(self, id: str, along: Fraction, across: Fraction, sideways: bool) -> None:
        self.aside[id] = sideways
        self.sizes[id] = (across, along) if sideways else (along, across)


def fits_kind(plan: Plan, new: Plan, id: str, small: tuple[str, ...] = ()) -> bool:
    """Whether a piece of a mended plan is as large as its kind is in the plan before.

    Args:
        plan: The plan before.
        new: The mended plan.
        id: The piece, in the mended plan.
        small: Pieces that may be smaller: by what their kind allows, where they lie on nothing.
    """
    item = new.items[id]
    size = item.stock and (item.stock.width.value, item.stock.height.value)
    alike = [
        each.stock
        for each in plan.items.values()
        if each.role is Role.PIECE and each.name == item.name and each.stock is not None
    ]
    if size is None or not alike or item.kind is None:
        return True
    nested = any(kind.name not in plan.kit.kinds for kind in new.kit.kinds.values())
    less = max(size) if nested else item.kind.smaller_by
    ways = [size, size[::-1]] if may_turn(item.kind, item.paper) else [size]
    return any(
        all(
            0 <= want - have <= (less if id in small else 0)
            for have, want in zip(way, (s.width.value, s.height.value), strict=True)
        )
        for s in alike
        for way in ways
    )


def random_mishap(session: Session, rng: random.Random) -> Mishap | None:
    """Something that may have gone wrong by now; None where nothing can have."""
    plan, state = session.plan, session.state
    loads = [s for s in load_steps(plan) if state.done.get(s.id) and plain_load(plan, s)]
    what = rng.choice((What.MARK,) * 4 + tuple(What))
    step_of = {
        What.MARK: [
            plan.steps[n]
            for load in loads
            for n in plan.loads[load.load]
            if state.done.get(plan.steps[n].id)
        ],
        What.TURNED: loads,
        What.FACE: loads,
    }
    step_of[What.MEASURE] = step_of[What.MARK]
    step_of[What.PIECE] = loads
    if what in step_of:
        if not step_of[what]:
            return None
        step = rng.choice(step_of[what])
        length = Fraction(0)
        if what in (What.MARK, What.MEASURE):
            assert step.mark is not None
            unit = Fraction(127, 80) if rng.random() < 0.9 else Fraction(1)
            length = step.mark.value + rng.choice((-1, 1)) * rng.randint(1, 16) * unit
        if what is What.MEASURE:
            assert step.mark is not None and step.before is not None
            thing = rng.choice((*step.makes, *step.touches))
            came_off = thing == step.makes[0]
            along = step.before.along(step.lying).value
            length = along - length if came_off else length
            return Mishap(what, step.id, length, thing)
        if what is What.PIECE:
            others = [
                id
                for id, item in plan.items.items()
                if state.where(id) != Spot.NOWHERE and item.stock and item.stock.measured
            ]
            return Mishap(what, step.id, thing=rng.choice(others)) if others else None
        return Mishap(what, step.id, length)
    if what is What.MISSING:
        sheets = [s for s in plan.sheets if f"{s}/load" not in state.done]
        return Mishap(what, thing=rng.choice(sheets)) if sheets else None
    gone = (Spot.NOWHERE, Spot.TAKEN, Spot.MISSING)
    things = [
        id
        for id, item in plan.items.items()
        if state.where(id) not in gone and not item.partner and item.length is None
    ]
    return Mishap(What.RUINED, thing=rng.choice(things)) if things else None
