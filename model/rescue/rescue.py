"""A rescue as a crafter looks at it: what is touched, the ways there are, and what each costs.

Looking costs nothing: a session is changed only by `Rescue.choose`, and undo takes that back.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from fractions import Fraction

from model.apart import Apart
from model.event import Event, Moved, Scrapped
from model.plan import Item, Plan, StepKind
from model.plan import Role as Part
from model.rescue.bench import Saving, bench_of
from model.rescue.loads_now import ends_of
from model.rescue.mending import CannotMend, Mending
from model.rescue.mendingtext import to_text
from model.rescue.mishap import Mishap, Names, What
from model.rescue.truth import truth_of
from model.rescue.ways import Found, ways
from model.session import Session
from model.spot import Spot
from model.told import Told

_ORDER = (
    Saving.NOTHING,
    Saving.SHIFT,
    Saving.SCRAP,
    Saving.SHEET,
    Saving.LATER,
    Saving.SMALL,
    Saving.NEST,
    Saving.PART,
    Saving.NONE,
)
_NAMES = Names()
_GONE = (What.RUINED, What.MISSING)
"""After these the thing that was named is no more."""


@dataclass(frozen=True, slots=True)
class Touched:
    """A thing that is not what it should be.

    Attributes:
        item: Its identity.
        meant: What it should have been, as the plan had it; None for what is left in the trimmer.
        width: Its width in truth, in its sheet's frame, in mm; None for what is no more.
        height: Its height.
        place: Where it is: a `Spot`, or a pocket's index.
        plays: What it is in truth, of the plan; None when it is nothing that is wanted.
        begun: It is in the trimmer.
    """

    item: str
    meant: Item | None
    width: Fraction | None
    height: Fraction | None
    place: int
    plays: Item | None
    begun: bool = False


@dataclass(frozen=True, slots=True)
class Cost:
    """What a way costs against going on as if nothing had happened.

    Attributes:
        cuts: Straight cuts more (or, below 0, fewer).
        loads: Loads more.
        scraps: Scraps more.
        sheets: Sheets, not begun yet, that are cut otherwise than the kit says, by name.
    """

    cuts: int
    loads: int
    scraps: int
    sheets: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Way:
    """A way to save what can be saved.

    Attributes:
        number: Stays the same when a better way of the same sort is found.
        saving: What it does.
        mending: What is cut instead.
        plan: The plan as it is then.
        missing: The pieces that stay lost: things of the plan that is in force now.
        cost: What it costs.
        fetch: Things to be taken out of a pocket or from the scraps, to be cut.
        discard: Things in pockets that are of no use any more.
        small: Things that are taken smaller than stated, by their identities.
        loads: The ids in `plan` of the loads that are new, or go on otherwise.
        proved: Whether nothing at hand for it loses less.
    """

    number: int
    saving: Saving
    mending: Mending
    plan: Plan
    missing: tuple[Item, ...]
    cost: Cost
    fetch: tuple[str, ...]
    discard: tuple[str, ...]
    small: tuple[str, ...]
    loads: tuple[str, ...]
    proved: bool


class Rescue:
    """What can be saved after a mishap, as it is found.

    Attributes:
        mishap: What went wrong.
        touched: What is not as it should be, in the order in which it came off.
        lost: What is lost unless a way saves it: things of the plan in force.
        ways: The ways, best first.
        refused: How many ways were found that could not be carried out; 0 unless something in
            dryfit itself is wrong.
    """

    def __init__(self, session: Session, mishap: Mishap, called: Names = _NAMES) -> None:
        """See what is so; the search begins with `search` or `begin`.

        Args:
            session: The session.
            mishap: What went wrong.
            called: What things are called that the kit does not know.

        Raises:
            CannotBe: It can't have been so.
        """
        self.mishap = mishap
        self.ways: list[Way] = []
        self.refused = 0
        self._session, self._plan = session, session.plan
        state, items = session.state, session.plan.items
        truth = truth_of(state, mishap)
        self._bench = bench_of(state, truth, called)
        ends = (end for id in truth.wanted for end in ends_of(session.plan, id, state.done))
        self.lost = tuple(items[id] for id in ends)
        touched = [
            Touched(
                loose.id, None if loose.begun else items.get(loose.id), loose.width, loose.height,
                loose.place, items.get(truth.plays.get(loose.id, "")), loose.begun,
            )
            for loose in truth.loose.values()
        ]  # fmt: skip
        # what was taken for another is not gone: it was cut as the other should have been
        gone = mishap.thing if mishap.what in _GONE and not truth.loose else ""
        if gone in items:
            touched.append(Touched(gone, items[gone], None, None, state.where(gone), None))
        self.touched = tuple(touched)
        self._made = {
            id for step in session.plan.steps if step.id in state.done for id in step.makes
        }
        self._apart: Apart[Found] | None = None

    # The search

    def search(self, deep: bool = True) -> None:
        """Find the ways here and now, and come back when all are found."""
        for found in ways(self._bench, deep):
            self.take(found)

    def begin(
        self,
        told: Callable[[Found], None] | None = None,
        ended: Callable[[str | None], None] | None = None,
    ) -> None:
        """Find them in a process of its own.

        Args:
            told: Called in another thread with each that is found: hand it to `take`, in the
                thread of the session. None where `poll` is used.
            ended: Called there once when no more will come.
        """
        self._apart = Apart(ways, self._bench, told=told, ended=ended)

    @property
    def searching(self) -> bool:
        """Whether more may still come."""
        return self._apart is not None and self._apart.running

    def poll(self) -> bool:
        """Take what was found since; whether that changes the ways."""
        found = self._apart.poll() if self._apart else []
        changed = [self.take(each) for each in found]  # each of them is taken
        return any(changed)

    def close(self) -> None:
        """Search no longer."""
        if self._apart is not None:
            self._apart.close()

    def take(self, found: Found) -> bool:
        """Take up what was found; whether that changes the ways."""
        way = self._way(found)
        if way is None:
            return False
        before = list(self.ways)
        others = [each for each in self.ways if each.number != way.number]
        self.ways = sorted([*others, way], key=_rank)
        self.ways = [each for each in self.ways if not any(_beats(o, each) for o in self.ways)]
        return self.ways != before

    def _way(self, found: Found) -> Way | None:
        session, plan = self._session, self._plan
        try:
            trial = session.story.trial(to_text(found.mending))
        except CannotMend:
            self.refused += 1
            return None
        state, new = session.state, trial.plan
        before, after = _figures(plan), _figures(new)
        more = [b - a for a, b in zip(before, after, strict=True)]
        fresh = [of for of in found.taken if state.where(of) in (Spot.STACK, Spot.ASIDE)]
        cost = Cost(more[0], more[1], more[2], (*fresh, *found.mending.idle))
        used = {id for id in found.taken if state.where(id) >= 0 or state.where(id) == Spot.SCRAPS}
        lost = [
            touched.item
            for touched in self.touched
            if touched.place >= 0 and touched.item not in used and _useless(new, touched.item)
        ]
        return Way(
            found.number,
            found.saving,
            found.mending,
            new,
            tuple(plan.items[end] for id in found.missing for end in ends_of(plan, id, state.done)),
            cost,
            tuple(sorted(used)),
            tuple(lost),
            found.mending.small,
            tuple(_new_loads(plan, new, trial.done)),
            found.proved,
        )

    # The choice

    def choose(self, way: Way) -> Told:
        """Go this way: its loads are written into the session, and undo takes all of it back.

        Args:
            way: One of `ways`.

        Returns:
            What came of it; not taken when the session has gone on since.
        """
        if self._session.plan is not self._plan:
            return Told("cannot mend")
        moves: list[Event] = [Moved(item, "") for item in way.fetch]
        moves += [Scrapped(item) for item in way.discard]
        mishap = self.mishap
        where = mishap.step or mishap.thing
        told = self._session.mend(way.mending, mishap.what.value, where, way.saving.value, moves)
        if told.taken:
            self.close()
        return told


def _rank(way: Way) -> tuple[int, int, int, int]:
    return len(way.missing), _ORDER.index(way.saving), way.cost.cuts, way.number


def _beats(one: Way, other: Way) -> bool:
    """Whether a way is better than another, or as good, in all that counts."""
    if one is other or _rank(one) > _rank(other) or other.saving in (Saving.PART, Saving.NONE):
        return False
    return (
        len(one.missing) <= len(other.missing)
        and one.cost.cuts <= other.cost.cuts
        and one.cost.scraps <= other.cost.scraps
        and bool(one.small) <= bool(other.small)
        and len(one.cost.sheets) <= len(other.cost.sheets)
    )


def _figures(plan: Plan) -> tuple[int, int, int]:
    cuts = sum(step.kind in (StepKind.CUT, StepKind.TEAR) for step in plan.steps)
    loads = sum(step.kind is StepKind.LOAD for step in plan.steps)
    return cuts, loads, len(plan.scraps)


def _useless(plan: Plan, id: str) -> bool:
    # What was packed ready made is no longer there at all, and is no scrap of any sheet.
    return id in plan.items and plan.items[id].role is Part.SCRAP


def _new_loads(plan: Plan, new: Plan, done: dict[str, bool]) -> Sequence[str]:
    """Loads with cuts to be made that the old plan does not make so."""
    loads: list[str] = []
    for load, cuts in new.loads.items():
        steps = [new.steps[index] for index in cuts]
        ahead = [step for step in steps if step.id not in done]
        if any(not _as_before(plan, new, step.id) for step in ahead):
            loads.append(load)
    return loads


def _as_before(plan: Plan, new: Plan, id: str) -> bool:
    index = plan.step_at.get(id)
    if index is None:
        return False
    was, now = plan.steps[index], new.steps[new.step_at[id]]
    same = (was.mark, was.lying, was.makes) == (now.mark, now.lying, now.makes)
    named = [plan.items[one].name for one in was.makes] == [
        new.items[one].name for one in now.makes
    ]
    return same and named and was.before == now.before
