"""The state of a session: a fold of its events over the plan.

Applying an event costs the same however long the journal is: each change of a value is
noted, so that taking an event back restores what was there. Nothing here asks the clock,
the disk or the screen; the same entries always give the same state.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, MutableMapping
from dataclasses import dataclass
from enum import IntEnum
from typing import Any

from model.event import (
    Adopted,
    Done,
    Entry,
    Event,
    Extra,
    Filed,
    Foreign,
    Left,
    Moved,
    Paced,
    Restored,
    Retracted,
    Sat,
    Scrapped,
    Settled,
    Skipped,
)
from model.plan import Plan, Role, Step, StepKind
from model.warning import Mistake, Warning, WarningKind


class Spot(IntEnum):
    """Where a thing is, when it is in no pocket; pockets are their indexes, from 0."""

    TAKEN = -7
    """Used up: cut into other things."""
    SCRAPS = -6
    PILE = -5
    IN_HAND = -4
    """In the trimmer, or being torn."""
    STACK = -3
    ASIDE = -2
    NOWHERE = -1
    """Not made yet, or still in the packet."""


_GONE: Any = object()
_Change = tuple[MutableMapping[Any, Any], Any, Any]


@dataclass(frozen=True, slots=True)
class Due:
    """What is to be done next.

    Attributes:
        step: The step, unless something is to be filed first.
        item: The thing on the pile that is to be filed or thrown away.
    """

    step: Step | None
    item: str | None

    @property
    def over(self) -> bool:
        """Whether nothing is left to do."""
        return self.step is None and self.item is None


@dataclass(slots=True)
class _Said:
    entry: Entry
    changes: list[_Change]


class State:
    """Where everything is, and what has been done.

    Attributes:
        plan: The plan that the state is about.
        place: Where each thing is: a `Spot`, or a pocket's index. Things not named here
            are nowhere yet.
        done: Steps that were done (True) or left out (False), by id.
        filed: What is in each pocket, by group and pocket, in the order of filing.
        right: How many pieces each pocket rightly holds for good, by its index.
        warnings: Warnings that stand, by id.
        left: Ids of warnings that were read and left for later.
        waived: How many pieces no longer come for each pocket, since a step was left out.
        mistakes: Every mistake as it happened.
        ignored: Numbers of entries that could not be applied.
        foreign: How many events of later kinds were passed over.
    """

    def __init__(self, plan: Plan) -> None:
        """A session in which nothing has been said yet."""
        self.plan = plan
        self.place: dict[str, int] = {}
        self.done: dict[str, bool] = {}
        self.filed: dict[tuple[str, int], tuple[str, ...]] = {}
        self.right: dict[int, int] = {}
        self.warnings: dict[str, Warning] = {}
        self.left: dict[str, bool] = {}
        self.waived: dict[int, int] = {}
        self.mistakes: list[Mistake] = []
        self.ignored: list[int] = []
        self.foreign = 0
        self.by_load = False
        self.sittings = 0
        self._facts: dict[str, Any] = {
            "cursor": 0, "pile": (), "scraps": 0, "extra": 0, "waived scraps": 0, "done": 0,
            "last filed": "",
        }
        self._history: list[_Said] = []
        self._undone: list[Entry] = []
        self._changes: list[_Change] = []
        self._n = 0

    # What a view asks for

    @property
    def pile(self) -> tuple[str, ...]:
        """What is cut but not yet filed, newest last."""
        pile: tuple[str, ...] = self._facts["pile"]
        return pile

    @property
    def cursor(self) -> int:
        """The index of the first step that is neither done nor left out."""
        return int(self._facts["cursor"])

    @property
    def scraps(self) -> int:
        """How many things are among the scraps, unexpected ones included."""
        return int(self._facts["scraps"]) + int(self._facts["extra"])

    @property
    def extra(self) -> int:
        """How many scraps turned up that the kit knows nothing of."""
        return int(self._facts["extra"])

    @property
    def scraps_expected(self) -> int:
        """How many scraps the cuts make, less those of steps left out."""
        return len(self.plan.scraps) - int(self._facts["waived scraps"])

    @property
    def steps_done(self) -> int:
        """How many steps are done or left out."""
        return int(self._facts["done"])

    @property
    def last_filed(self) -> str:
        """The thing that was filed last; empty at first."""
        return str(self._facts["last filed"])

    def where(self, item: str) -> int:
        """Where a thing is: a `Spot`, or a pocket's index."""
        return self.place.get(item, Spot.NOWHERE)

    def wanted(self, pocket: int) -> int:
        """How many pieces a pocket holds in the end."""
        return self.plan.wanted[pocket] - self.waived.get(pocket, 0)

    def held(self, pocket: int) -> int:
        """How many of them are in it."""
        return self.right.get(pocket, 0)

    def step(self) -> Step | None:
        """The next step; None when all are done."""
        steps = self.plan.steps
        return steps[self.cursor] if self.cursor < len(steps) else None

    def due(self) -> Due:
        """What is to be done next: file what is on the pile, or take the next step."""
        step = self.step()
        top = next(
            (item for item in reversed(self.pile) if self.plan.items[item].fileable), None
        )
        if top is None:
            return Due(step, None)
        mid_load = step is not None and step.kind in (StepKind.CUT, StepKind.TEAR)
        if self.by_load and mid_load:
            return Due(step, None)
        return Due(None, top)

    def belongs(self, item: str) -> int:
        """Where a thing belongs now: a pocket's index, the scraps, or the pile.

        Of alike copies, the first pocket in the author's order that still lacks one; when
        none lacks one, the first pocket of all.
        """
        thing = self.plan.items[item]
        if thing.role is Role.SCRAP:
            return Spot.SCRAPS
        if thing.role is not Role.PIECE:
            return Spot.PILE
        if thing.partner:
            return self.belongs(thing.partner)
        wanted = self.plan.groups[thing.group].wanted
        for pocket, count in wanted.items():
            got = self.filed.get((thing.group, pocket), ())
            if len(got) < count or item in got[:count]:
                return pocket
        return next(iter(wanted), Spot.PILE)

    def last_undoable(self) -> Entry | None:
        """What undo would take back."""
        return self._history[-1].entry if self._history else None

    def last_undone(self) -> Entry | None:
        """What redo would say again."""
        return self._undone[-1] if self._undone else None

    def standing(self) -> list[Entry]:
        """The entries that stand, without those taken back."""
        return [said.entry for said in self._history]

    # Why an event can't be said now

    def objection(self, event: Event) -> str:
        """Why an event can't be said now, in a word; empty when it can.

        The words are codes for `model.wording`: ``not yet``, ``done already``,
        ``no such step``, ``no such thing``, ``no such pocket``, ``not made``,
        ``not optional``, ``no such warning``, ``nothing to undo``, ``nothing to redo``.
        """
        plan = self.plan
        if isinstance(event, (Done, Skipped)):
            index = plan.step_at.get(event.step)
            if index is None:
                return "no such step"
            if event.step in self.done:
                return "done already"
            if index != self.cursor:
                return "not yet"
            if isinstance(event, Skipped):
                return "" if plan.steps[index].optional else "not optional"
            return "no such pocket" if event.into and self._pocket(event.into) is None else ""
        if isinstance(event, (Filed, Scrapped, Moved)):
            if event.item not in plan.items:
                return "no such thing"
            if self.where(event.item) in (Spot.NOWHERE, Spot.TAKEN, Spot.IN_HAND):
                return "not made"
            if not isinstance(event, Scrapped):
                back = isinstance(event, Moved) and not event.pocket
                if not back and self._pocket(event.pocket) is None:
                    return "no such pocket"
            return ""
        if isinstance(event, (Left, Settled)):
            return "" if event.warning in self.warnings else "no such warning"
        if isinstance(event, Retracted):
            last = self.last_undoable()
            return "" if last and last.n == event.of else "nothing to undo"
        if isinstance(event, Restored):
            next_one = self.last_undone()
            return "" if next_one and next_one.n == event.of else "nothing to redo"
        return ""

    # The fold

    def apply(self, entry: Entry) -> None:
        """Take one entry in. What makes no sense is noted in `ignored`, never raised."""
        event = entry.event
        self._n = entry.n
        if isinstance(event, Retracted):
            self._retract(event, entry)
        elif isinstance(event, Restored):
            again = self.last_undone()
            if again is None or again.n != event.of:
                self.ignored.append(entry.n)
                return
            self._undone.pop()
            self._n = again.n
            self._say(again)
        elif isinstance(event, Paced):
            self.by_load = event.by_load
        elif isinstance(event, Sat):
            self.sittings += 1
        elif isinstance(event, Foreign):
            self.foreign += 1
        elif isinstance(event, Adopted):
            pass  # the fold starts anew on the new plan, see `fold`
        else:
            self._undone.clear()
            self._say(entry)

    def _retract(self, event: Retracted, entry: Entry) -> None:
        if not self._history or self._history[-1].entry.n != event.of:
            self.ignored.append(entry.n)
            return
        said = self._history.pop()
        for mapping, key, before in reversed(said.changes):
            if before is _GONE:
                mapping.pop(key, None)
            else:
                mapping[key] = before
        self._undone.append(said.entry)

    def _say(self, entry: Entry) -> None:
        self._changes = []
        event = entry.event
        if not self._take_in(event):
            self.ignored.append(entry.n)
        self._history.append(_Said(entry, self._changes))

    def _take_in(self, event: Event) -> bool:
        if isinstance(event, Done):
            return self._do(event)
        if isinstance(event, (Filed, Moved)):
            return self._file(event)
        if isinstance(event, Scrapped):
            return self._scrap(event.item)
        if isinstance(event, Skipped):
            return self._skip(event.step)
        if isinstance(event, Extra):
            self._fact_set("extra", self.extra + 1)
            self._warn(f"extra:{self._n}", WarningKind.EXTRA_SCRAP, (), -1)
            return True
        if isinstance(event, Left) and event.warning in self.warnings:
            self._set(self.left, event.warning, True)
            return True
        if isinstance(event, Settled) and event.warning in self.warnings:
            if self.warnings[event.warning].kind is WarningKind.EXTRA_SCRAP:
                self._fact_set("extra", self.extra - 1)
            self._unwarn(event.warning)
            return True
        return False

    def _do(self, event: Done) -> bool:
        index = self.plan.step_at.get(event.step)
        if index is None or event.step in self.done:
            return False
        step = self.plan.steps[index]
        if step.kind is StepKind.FILL:
            into = self._pocket(event.into) if event.into else step.pocket
            if into is None:
                return False
            for item in step.makes:
                self._into(item, into)
        else:
            spot = Spot.IN_HAND if step.kind is StepKind.LOAD else Spot.TAKEN
            for item in step.takes:
                self._lift(item)
                self._set(self.place, item, int(spot))
            if step.kind in (StepKind.STACK, StepKind.ASIDE):
                to = Spot.STACK if step.kind is StepKind.STACK else Spot.ASIDE
                for item in step.touches:
                    self._set(self.place, item, int(to))
            if step.makes:
                for item in step.makes:
                    self._set(self.place, item, int(Spot.PILE))
                # What comes off is in hand, what stays on the bed is taken up after it.
                self._fact_set("pile", (*self.pile, *reversed(step.makes)))
        self._mark_done(step, True)
        return True

    def _mark_done(self, step: Step, really: bool) -> None:
        self._set(self.done, step.id, really)
        self._fact_set("done", self.steps_done + 1)
        cursor = self.cursor
        steps = self.plan.steps
        while cursor < len(steps) and steps[cursor].id in self.done:
            cursor += 1
        self._fact_set("cursor", cursor)

    def _file(self, event: Filed | Moved) -> bool:
        item = event.item
        if item not in self.plan.items:
            return False
        if isinstance(event, Moved) and not event.pocket:
            self._lift(item)
            self._set(self.place, item, int(Spot.PILE))
            self._fact_set("pile", (*self.pile, item))
            return True
        pocket = self._pocket(event.pocket)
        if pocket is None:
            return False
        if isinstance(event, Filed) and self.where(item) >= 0:
            self._warn(f"twice:{item}", WarningKind.TWICE, (item,), pocket)
            return True
        self._lift(item)
        self._into(item, pocket)
        self._fact_set("last filed", item)
        self._unwarn(f"twice:{item}")
        return True

    def _scrap(self, item: str) -> bool:
        if item not in self.plan.items:
            return False
        self._lift(item)
        self._set(self.place, item, int(Spot.SCRAPS))
        self._fact_set("scraps", self._facts["scraps"] + 1)
        if self.plan.items[item].role is not Role.SCRAP:
            self._warn(f"scrapped:{item}", WarningKind.WANTED_SCRAPPED, (item,), -1)
        return True

    def _skip(self, step_id: str) -> bool:
        index = self.plan.step_at.get(step_id)
        if index is None or step_id in self.done:
            return False
        missing: set[str] = set()
        first = self.plan.steps[index]
        for step in self.plan.steps[index:]:
            same_load = bool(step.load) and step.load == first.load
            waits = any(item in missing for item in (*step.takes, *step.touches))
            if step is not first and not same_load and not waits:
                continue
            if step.id in self.done:
                continue
            missing.update(step.makes)
            self._mark_done(step, False)
        for item in missing:
            self._waive(item)
        return True

    def _waive(self, item: str) -> None:
        """A thing that won't come: its pocket, or the scraps, no longer wait for it."""
        thing = self.plan.items[item]
        if thing.role is Role.SCRAP:
            self._fact_set("waived scraps", self._facts["waived scraps"] + 1)
        elif thing.role is Role.PIECE and not self.plan.transient(item):
            pocket = self.belongs(item)
            if pocket >= 0:
                count = 1 + len(self.plan.companions.get(item, ()))
                self._set(self.waived, pocket, self.waived.get(pocket, 0) + count)

    # Moving things, and judging where they are

    def _into(self, item: str, pocket: int) -> None:
        self._set(self.place, item, pocket)
        for companion in self.plan.companions.get(item, ()):
            self._set(self.place, companion, pocket)
        thing = self.plan.items[item]
        key = (thing.group or item, pocket)
        self._refile(key, (*self.filed.get(key, ()), item))
        if thing.role is Role.SCRAP:
            self._warn(f"scrap filed:{item}", WarningKind.SCRAP_FILED, (item,), pocket)
        elif thing.role is not Role.PIECE:
            self._warn(f"strip filed:{item}", WarningKind.STRIP_FILED, (item,), pocket)

    def _lift(self, item: str) -> None:
        """Take a thing from where it is."""
        here = self.where(item)
        if here >= 0:
            thing = self.plan.items[item]
            key = (thing.group or item, here)
            self._refile(key, tuple(i for i in self.filed.get(key, ()) if i != item))
            for companion in self.plan.companions.get(item, ()):
                self._set(self.place, companion, int(Spot.ASIDE))
            self._unwarn(f"scrap filed:{item}")
            self._unwarn(f"strip filed:{item}")
        elif here == Spot.PILE:
            self._fact_set("pile", tuple(i for i in self.pile if i != item))
        elif here == Spot.SCRAPS:
            self._fact_set("scraps", self._facts["scraps"] - 1)
            self._unwarn(f"scrapped:{item}")

    def _refile(self, key: tuple[str, int], items: tuple[str, ...]) -> None:
        """Change what a pocket holds of a group, and judge it."""
        name, pocket = key
        before = self.filed.get(key, ())
        self._set(self.filed, key, items)
        group = self.plan.groups.get(name)
        if group is None:
            return
        wanted = group.wanted.get(pocket, 0)
        gain = self._for_good(items, wanted) - self._for_good(before, wanted)
        if gain:
            self._set(self.right, pocket, self.held(pocket) + gain)
        id = f"pocket:{name}:{self.plan.kit.pockets[pocket].label}"
        surplus = items[wanted:]
        if surplus:
            kind = WarningKind.TOO_MANY if wanted else WarningKind.WRONG_POCKET
            self._warn(id, kind, surplus, pocket, again=len(items) > len(before))
        else:
            self._unwarn(id)

    def _for_good(self, items: tuple[str, ...], wanted: int) -> int:
        return sum(
            1 + len(self.plan.companions.get(item, ()))
            for item in items[:wanted]
            if not self.plan.transient(item)
        )

    def _warn(
        self, id: str, kind: WarningKind, items: tuple[str, ...], pocket: int, again: bool = True
    ) -> None:
        old = self.warnings.get(id)
        since = self._n if again or old is None else old.since
        self._set(self.warnings, id, Warning(id, kind, items, pocket, since))
        if again:
            if id in self.left:
                self._set(self.left, id, _GONE)
            self.mistakes.append(Mistake(self._n, kind, items[-1] if items else "", pocket))

    def _unwarn(self, id: str) -> None:
        if id in self.warnings:
            self._set(self.warnings, id, _GONE)
        if id in self.left:
            self._set(self.left, id, _GONE)

    # Values, with what they were before

    def _pocket(self, label: str) -> int | None:
        return self._labels.get(label)

    @property
    def _labels(self) -> dict[str, int]:
        labels: dict[str, int] | None = self.__dict__.get("_label_index")
        if labels is None:
            labels = {pocket.label: pocket.index for pocket in self.plan.kit.pockets}
            self.__dict__["_label_index"] = labels
        return labels

    def _fact_set(self, name: str, value: Any) -> None:
        self._set(self._facts, name, value)

    def _set(self, mapping: MutableMapping[Any, Any], key: Any, value: Any) -> None:
        self._changes.append((mapping, key, mapping.get(key, _GONE)))
        if value is _GONE:
            mapping.pop(key, None)
        else:
            mapping[key] = value

    def snapshot(self) -> dict[str, Any]:
        """All values that two equal states share; for comparing, not for views."""
        return {
            "place": dict(self.place),
            "done": dict(self.done),
            "filed": {key: items for key, items in self.filed.items() if items},
            "right": {key: count for key, count in self.right.items() if count},
            "warnings": {key: (w.kind, w.items, w.pocket) for key, w in self.warnings.items()},
            "left": set(self.left),
            "waived": {key: count for key, count in self.waived.items() if count},
            "facts": dict(self._facts),
            "by load": self.by_load,
        }


def fold(
    plan: Plan, entries: Iterable[Entry], read: Callable[[str], Plan | None] | None = None
) -> State:
    """The state after all entries.

    Args:
        plan: The plan that the session began with.
        entries: The journal's entries, in order.
        read: Makes a plan of a kit's text, for sessions in which a changed kit was taken
            over; None when it can't be read.

    Returns:
        The state.
    """
    state = State(plan)
    for entry in entries:
        if isinstance(entry.event, Adopted):
            new = read(entry.event.kit_text) if read else None
            if new is None:
                state.ignored.append(entry.n)
            else:
                state = refold(new, state)
        else:
            state.apply(entry)
    return state


def refold(plan: Plan, old: State) -> State:
    """What stands of a state, on another plan; what was taken back is forgotten."""
    state = State(plan)
    for entry in old.standing():
        state.apply(entry)
    state.by_load, state.sittings, state.foreign = old.by_load, old.sittings, old.foreign
    state.mistakes[:] = old.mistakes
    state.ignored.extend(old.ignored)
    return state
