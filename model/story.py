"""The story of a session: its entries, told on the plan in force.

Most entries change the state alone. Two kinds change the plan: a kit that is taken over
(`Adopted`), and a mistake that is mended (`Mended`). A mending holds for what was said before
it too: so whenever other mendings stand than before, also by undo and redo, the plan is made
anew, and all that was said is told again on it. What then makes no sense is passed over.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

from model.event import (
    Adopted,
    Done,
    Entry,
    Event,
    Filed,
    Left,
    Mended,
    Missed,
    Moved,
    Restored,
    Scrapped,
    Settled,
    Skipped,
)
from model.plan import Plan
from model.rescue.cannot import CannotMend
from model.state import State

if TYPE_CHECKING:
    from model.rescue.mending import Mending

_SAY = (Mended, Restored)
"""Events after which it is told what newly stands."""


class Story:
    """All that was said, and what follows from it.

    Attributes:
        base: The plan of the kit itself.
        plan: The plan in force: that of the kit, with all mendings that stand.
        state: Where everything is.
    """

    def __init__(self, plan: Plan, read: Callable[[str], Plan | None]) -> None:
        """Nothing said yet.

        Args:
            plan: The plan of the kit.
            read: Makes a plan of a kit's text, for kits that are taken over; None when it
                can't be read.
        """
        self.base = self.plan = plan
        self.state = State(plan)
        self._read = read
        self._entries: list[Entry] = []  # as they were said, on whatever plan was in force
        self._made_of: tuple[int, ...] = ()  # the mendings that the plan was made anew for
        self._mendings: dict[int, Mending] = {}  # those that it is made with
        self._tried: tuple[Plan, str, Mending, Plan] | None = None

    def apply(self, entry: Entry) -> None:
        """Take one entry in; what makes no sense is noted in `State.ignored`.

        Args:
            entry: The entry; its number is larger than those of all before it.
        """
        event = entry.event
        if isinstance(event, Adopted):
            self._adopt(event, entry.n)
            return
        if isinstance(event, Mended) and not self._can(event):
            self.state.raised = []
            self.state.ignored.append(entry.n)
            return
        self._entries.append(entry)
        self.state.apply(entry)
        if (self.state.mendings or self._made_of) and self._made_of != self._standing:
            self._tell_anew(isinstance(event, _SAY))

    def objection(self, event: Event) -> str:
        """Why an event can't be said now, as a code; see `State.objection`.

        Of its own this knows ``cannot mend``.

        Args:
            event: The event.
        """
        if isinstance(event, Mended):
            return "" if self._can(event) else "cannot mend"
        return self.state.objection(event)

    def trial(self, text: str) -> State:
        """The state as it would be after a mending; the story goes on as it is.

        Args:
            text: The mending, as text.

        Raises:
            CannotMend: It makes no sense now.
        """
        mending, plan = self._try(text)
        number = self._entries[-1].n + 1 if self._entries else 1
        return self._retold(plan, {**self._mendings, number: mending})

    # Mendings

    @property
    def _standing(self) -> tuple[int, ...]:
        """The numbers of the mendings that stand."""
        return tuple(sorted(self.state.mendings))

    def _can(self, event: Mended) -> bool:
        try:
            self._try(event.mending)
        except CannotMend:
            return False
        return True

    def _try(self, text: str) -> tuple[Mending, Plan]:
        """A mending, and the plan in force with it."""
        from model.rescue.amend import amend  # most sessions never need it
        from model.rescue.mendingtext import from_text

        if self._tried is None or self._tried[0] is not self.plan or self._tried[1] != text:
            mending = from_text(text)
            self._tried = self.plan, text, mending, amend(self.plan, mending)
        return self._tried[2:]

    def _tell_anew(self, say: bool) -> None:
        """Make the plan anew, and tell all that was said on it."""
        before = self.state
        self._make_plan()
        self.state = self._retold(self.plan, self._mendings)
        if say:
            warnings = self.state.warnings.items()
            self.state.raised = [
                each
                for id, each in warnings
                if id not in before.warnings and id not in self.state.left
            ]

    def _make_plan(self) -> None:
        """The plan with the mendings that stand, those left out that make no sense on it."""
        standing = self._standing
        known = len(self._made_of)
        if standing[:known] == self._made_of and known == len(self._mendings):
            more = standing[known:]  # only newer ones came
        else:
            self.plan, self._mendings, more = self.base, {}, standing
        for number in more:
            try:
                mending, self.plan = self._try(self.state.mendings[number])
                self._mendings[number] = mending
            except CannotMend:
                self.state.ignored.append(number)
        self._made_of = standing

    def _retold(self, plan: Plan, mendings: dict[int, Mending], strict: bool = False) -> State:
        """All that was said, told on a plan.

        Args:
            plan: The plan.
            mendings: The mendings that it is made with, by the number of their entry.
            strict: What makes no sense on it is noted.
        """
        old = self.state
        state = State(plan)
        state.remember(old)
        if not strict:
            state.note_no_more(entry.n for entry in self._entries)
        corrections = [
            (n, each) for n, each in sorted(mendings.items()) if each.swapped or each.unloaded
        ]
        for entry in self._entries:
            said = _in_truth(entry, corrections) if corrections else entry
            # What there is no more can't have been put anywhere, nor cut.
            if said is None:
                continue
            if strict or entry.n in old.unaccounted or state.at_hand(said.event):
                state.apply(said)
        if strict:
            state.by_load, state.sittings, state.foreign = old.by_load, old.sittings, old.foreign
        else:
            state.remember(old)
        state.raised = []
        return state

    # A kit that is taken over

    def _adopt(self, event: Adopted, n: int) -> None:
        plan = self._read(event.kit_text)
        if plan is None:
            self.state.ignored.append(n)
            return
        new = self.on(plan)
        self.base, self.plan, self.state = new.base, new.plan, new.state
        self._entries, self._made_of = new._entries, new._made_of
        self._mendings = new._mendings

    def on(self, plan: Plan) -> Story:
        """The story on another kit: what stands of it; what was taken back is forgotten.

        Mendings that make no sense on it, and entries that do not, are noted in
        `State.ignored`.

        Args:
            plan: The other kit's plan.

        Returns:
            A new story; this one is left as it is.
        """
        new = Story(plan, self._read)
        stand = {entry.n for entry in self.state.standing()}
        new._entries = [entry for entry in self._entries if entry.n in stand]
        new.state.remember(self.state)
        new.state.mendings.update(self.state.mendings)
        new._make_plan()
        new._entries = [entry for entry in new._entries if not new._dropped(entry)]
        new.state = new._retold(new.plan, new._mendings, strict=True)
        new._made_of = new._standing
        return new

    def _dropped(self, entry: Entry) -> bool:
        return isinstance(entry.event, Mended) and entry.n not in self._mendings


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
    story = Story(plan, read or (lambda _: None))
    for entry in entries:
        story.apply(entry)
    return story.state


# What was so in truth


def _in_truth(entry: Entry, corrections: Sequence[tuple[int, Mending]]) -> Entry | None:
    """What an entry says in truth: some things were taken for one another then.

    Args:
        entry: As it was said.
        corrections: Mendings that speak of what was said before, with their numbers, in order.

    Returns:
        The same entry where none speaks of it; None for what counts no more.
    """
    event = entry.event
    for number, mending in corrections:
        if entry.n >= number:
            continue
        if mending.since <= entry.n:
            for pair in mending.swapped:
                event = _exchanged(event, pair)
        if isinstance(event, Done) and event.step in {f"{id}/load" for id in mending.unloaded}:
            return None
    return entry if event is entry.event else replace(entry, event=event)


def _exchanged(event: Event, pair: tuple[str, str]) -> Event:
    if isinstance(event, (Done, Skipped)):
        # The step A/1 is a cut of A: of the thing A/1 only speaks what is beneath it.
        step = _other(event.step, pair, beneath=True)
        return event if step == event.step else replace(event, step=step)
    if isinstance(event, (Filed, Scrapped, Moved, Missed)):
        item = _other(event.item, pair)
        return event if item == event.item else replace(event, item=item)
    if isinstance(event, (Left, Settled)):
        kind, _, item = event.warning.partition(":")
        warning = f"{kind}:{_other(item, pair)}"
        return event if warning == event.warning else replace(event, warning=warning)
    return event


def _other(id: str, pair: tuple[str, str], beneath: bool = False) -> str:
    for one, other in (pair, pair[::-1]):
        if id.startswith(f"{one}/") or (id == one and not beneath):
            return other + id.removeprefix(one)
    return id
