"""From what a crafter says went wrong to what is so in truth.

Everything since is derived anew: what was cut of a thing that is not what it was taken for is
not what it should be either. Sizes come from the engine of cuts, exactly.
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from model.kit import Mark, Source, Verb
from model.plan import Item, Step, StepKind
from model.plan import Role as Part
from model.rescue.following import Truth, Walker
from model.rescue.loads_now import cuts_of, load_of, marks_of
from model.rescue.loose import SCRAPPED
from model.rescue.mishap import CannotBe, Mishap, What
from model.spot import Spot
from model.state import State

__all__ = ["Truth", "truth_of"]


def truth_of(state: State, mishap: Mishap) -> Truth:
    """What is so in truth.

    Args:
        state: The session as it was told.
        mishap: What went wrong.

    Returns:
        The truth; with nothing in `wanted` nothing is lost.

    Raises:
        CannotBe: It can't have been so.
    """
    return _Teller(state, mishap).told()


class _Teller(Walker):
    """Works out the truth."""

    def told(self) -> Truth:
        told = {
            What.MARK: self._mark,
            What.MEASURE: self._measure,
            What.PIECE: self._piece,
            What.TURNED: self._turned,
            What.FACE: self._face,
            What.RUINED: self._ruined,
            What.MISSING: self._missing,
        }
        told[self.mishap.what]()
        self._match()
        self.truth.wanted = list(self._wanted)
        return self.truth

    # What was said

    def _cut(self) -> Step:
        index = self.plan.step_at.get(self.mishap.step)
        step = None if index is None else self.plan.steps[index]
        if step is None or not step.load:
            raise CannotBe("no such step")
        if not self.state.done.get(step.id):
            raise CannotBe("not done", step.id)
        return step

    def _load(self) -> Step:
        """A load of which a cut is made at least: before, it is only to be laid anew."""
        load = self._cut()
        if load.kind is not StepKind.LOAD:
            raise CannotBe("no such step", load.id)
        if not any(self.state.done.get(cut.id) for cut in cuts_of(self.plan, load.takes[0])):
            raise CannotBe("not cut", load.id)
        return load

    def _mark(self) -> None:
        step = self._cut()
        self._recut(step, self.mishap.length)

    def _measure(self) -> None:
        step = self._cut()
        thing = self.mishap.thing
        item = (step.takes or step.touches)[0]
        if thing not in step.makes and not (step.touches and thing == item):
            raise CannotBe("no such thing", step.id, thing=thing)
        came_off = thing == step.makes[0]
        torn = step.work is not None and step.work.verb is Verb.TEAR
        # A mark is what stays on the bed; a tear is what comes off.
        said = self.mishap.length
        self._recut(step, said if came_off == torn else self._along(step) - said)

    def _along(self, step: Step) -> Fraction:
        """What was on the bed before a cut."""
        if step.before is None or not step.before.along(step.lying).exact:
            raise CannotBe("no numbers", step.id)
        return step.before.along(step.lying).value

    def _recut(self, step: Step, at: Fraction) -> None:
        """A cut was made at another mark."""
        work, item = step.work, (step.takes or step.touches)[0]
        assert work is not None
        marks = list(marks_of(work))
        was = marks[step.number - 1]
        along = self._along(step)
        if was.at is None:
            raise CannotBe("no numbers", step.id)
        if at == was.at:
            raise CannotBe("as it should be", step.id)
        if not 0 < at < along:
            raise CannotBe("outside", step.id, along)
        marks[step.number - 1] = Mark(at)
        thing = self.plan.items[item]
        assert thing.stock is not None
        self._walk(item, thing.stock, thing.lying, item, marks=marks)

    def _piece(self) -> None:
        load = self._load()
        meant, taken = load.takes[0], self.mishap.thing
        things = self.plan.items
        if taken == meant:
            raise CannotBe("as it should be", load.id)
        other = load_of(self.plan, taken)
        if taken not in things or self.state.where(taken) == Spot.NOWHERE:
            raise CannotBe("not there", load.id, thing=taken)
        kind, stock = things[taken].kind, things[taken].stock
        if things[taken].role is Part.BASE or (kind is not None and kind.source is not Source.CUT):
            raise CannotBe("not of the stack", load.id, thing=taken)
        if (taken in self.plan.sheets) != (meant in self.plan.sheets):
            raise CannotBe("not of the stack", load.id, thing=taken)
        if stock is None or not stock.measured:
            raise CannotBe("no numbers", load.id, thing=taken)
        since = self._said_at(load)
        maker = self.plan.made_by.get(taken)
        if maker is not None and not 0 < self._said_at(self.plan.steps[maker]) < since:
            raise CannotBe("not there", load.id, thing=taken)
        if other is not None and self.state.done.get(other.id) and self._said_at(other) < since:
            raise CannotBe("cut before", other.id, thing=taken)
        if any(self._spoilt(id).name for id in (meant, taken)):
            raise CannotBe("by hand", load.id, thing=taken)
        self.truth.swapped, self.truth.since = ((meant, taken),), since
        mine = things[meant].stock
        assert mine is not None
        self._share(taken, self._walk(taken, stock, things[taken].lying, meant, other=True))
        self._share(meant, self._walk(meant, mine, things[meant].lying, taken, other=True))

    def _said_at(self, step: Step) -> int:
        for entry in self.state.standing():
            if getattr(entry.event, "step", None) == step.id:
                return entry.n
        return 0

    def _turned(self) -> None:
        self._laid_so(turned=1)

    def _face(self) -> None:
        self._laid_so(over=True)

    def _laid_so(self, *, turned: int = 0, over: bool = False) -> None:
        load = self._load()
        if load.work is None or load.work.verb is not Verb.TRIM:
            raise CannotBe("not to turn", load.id)
        thing = self.plan.items[load.takes[0]]
        if thing.stock is None or not thing.stock.measured:
            raise CannotBe("no numbers", load.id)
        self._walk(thing.id, thing.stock, thing.lying, thing.id, turned=turned, over=over)

    def _ruined(self) -> None:
        id = self.mishap.thing
        thing = self.plan.items.get(id)
        here = self.state.where(id)
        if thing is None or thing.partner or thing.length is not None:
            raise CannotBe("no such thing", thing=id)
        if here in (Spot.NOWHERE, Spot.TAKEN, Spot.MISSING):
            raise CannotBe("not there", thing=id)
        if thing.role in (Part.SHEET, Part.BASE) and here != Spot.IN_HAND:
            self._lose_sheet(thing)
        elif thing.kind is not None and thing.kind.source is not Source.CUT:
            pocket = here if here >= 0 else self.state.belongs(id)
            self.truth.spent = ((thing.name, pocket),)
            self._wanted[id] = None
        elif here == Spot.IN_HAND:
            self._spoil_load(id)
        else:
            self._spoil(id)

    def _spoil(self, id: str) -> None:
        """A thing is thrown away, and all that was to come of it must come of something else."""
        parent, _, number = id.rpartition("/")
        if load_of(self.plan, parent) is None:
            raise CannotBe("by hand", thing=id)
        self.truth.loads[parent] = self.now(parent).sharing(number, self._spoilt(id))
        self._want(id)

    def _spoil_load(self, id: str) -> None:
        """What is left in the trimmer is thrown away."""
        now = self.now(id)
        if not now.marks:
            if id in self.plan.sheets:
                self._lose_sheet(self.plan.items[id])
            else:
                self._spoil(id)
            return
        # The last cut that was made ends the load.
        self.truth.loads[id] = replace(now, rest=SCRAPPED, left=(), left_shares=(), changed=True)
        for share in now.left_shares:
            if share.name:
                self._want(share.name)

    def _missing(self) -> None:
        thing = self.plan.items.get(self.mishap.thing)
        if thing is None or thing.role not in (Part.SHEET, Part.BASE):
            raise CannotBe("no such thing", thing=self.mishap.thing)
        load = load_of(self.plan, thing.id)
        if load is not None and self.state.done.get(load.id):
            raise CannotBe("cut before", load.id, thing=thing.id)
        self._lose_sheet(thing)

    def _lose_sheet(self, thing: Item) -> None:
        self.truth.gone = (thing.id,)
        if thing.role is Part.SHEET:
            self._want(thing.id)
