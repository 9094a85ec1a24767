"""The state of a session: a fold of its events over the plan in force.

Applying an event costs the same however long the journal is and however large the kit:
each change of a value is noted, so that taking an event back restores what was there.
Nothing here asks the clock, the disk or the screen; the same entries always give the same
state. What a damaged journal has lost is bridged where the sense is clear, and every entry
that can't be made sense of is listed.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from model.doing import Doing
from model.event import (
    Checked,
    Deferred,
    Done,
    Entry,
    Event,
    Filed,
    Foreign,
    Left,
    Mended,
    Missed,
    Moved,
    Paced,
    Restored,
    Retracted,
    Sat,
    Scrapped,
    Settled,
    Skipped,
    TakenUp,
    Withdrawn,
)
from model.ledger import Changes, take_back
from model.plan import Plan, StepKind
from model.spot import Due, Spot

__all__ = ["Due", "Spot", "State"]

_NOT_AT_HAND = {
    Spot.NOWHERE: "not made",
    Spot.TAKEN: "cut up",
    Spot.IN_HAND: "in hand",
    Spot.STACK: "not cut yet",
    Spot.ASIDE: "not cut yet",
}


@dataclass(slots=True)
class _Said:
    """An answer that stands: one entry, or several that are taken back as one."""

    n: int
    entries: list[Entry]
    changes: Changes


class State(Doing):
    """Where everything is, and what has been done.

    Attributes:
        ignored: Numbers of entries that could not be applied.
        foreign: How many events of later kinds were passed over.
        sittings: How often the program was started on the session.
    """

    def __init__(self, plan: Plan) -> None:
        """A session in which nothing has been said yet.

        Args:
            plan: The plan that the state is about.
        """
        super().__init__(plan)
        self.ignored: list[int] = []
        self.foreign = 0
        self.sittings = 0
        self._history: list[_Said] = []
        self._undone: list[_Said] = []

    # What a view asks for

    @property
    def last_answer(self) -> int:
        """The number of what undo would take back; 0 for nothing."""
        return self._history[-1].n if self._history else 0

    @property
    def last_taken_back(self) -> int:
        """The number of what redo would say again; 0 for nothing."""
        return self._undone[-1].n if self._undone else 0

    def last_undoable(self) -> Entry | None:
        """What undo would take back: the first entry of the last answer that stands."""
        return self._history[-1].entries[0] if self._history else None

    def last_said(self) -> Sequence[Entry]:
        """All entries of the last answer that stands."""
        return tuple(self._history[-1].entries) if self._history else ()

    def last_word(self) -> Entry | None:
        """What can be taken back though paper was cut since: the last word of where things are.

        A step stays done, and so does what was said of paper that is cut up by now.

        Returns:
            The first entry of the newest such answer; None when there is none.
        """
        for said in reversed(self._history):
            for entry in said.entries:
                if self._is_word(entry.event):
                    return entry
        return None

    def standing(self) -> list[Entry]:
        """The entries that stand, without those taken back."""
        return [entry for said in self._history for entry in said.entries]

    def remember(self, old: State) -> None:
        """Take over from a state on another plan what no plan decides: all but what stands.

        Args:
            old: That state; it is left as it is.
        """
        self.mistakes[:] = old.mistakes
        self._noted |= old._noted
        self.unaccounted |= old.unaccounted
        self.ignored[:] = old.ignored
        self.by_load, self.sittings, self.foreign = old.by_load, old.sittings, old.foreign

    def note_no_more(self, numbers: Iterable[int]) -> None:
        """Count none of some events as a mistake any more: what they were is known.

        Args:
            numbers: The numbers of their entries.
        """
        self._noted.update(numbers)

    # Why an event can't be said now

    def objection(self, event: Event) -> str:
        """Why an event can't be said now, in a word; empty when it can.

        The words are codes for `model.language.english.words`: ``not yet``, ``done already``,
        ``no such step``, ``no such thing``, ``no such pocket``, ``not made``, ``in hand``,
        ``cut up``, ``not cut yet``, ``filed with its piece``, ``not optional``, ``begun``,
        ``no such warning``, ``nothing to undo``, ``nothing to redo``, ``not filed``,
        ``not right yet``, ``finish the load``, ``last already``, ``not put off``.

        Args:
            event: The event.
        """
        if isinstance(event, (Done, Skipped)):
            return self._objection_to_step(event)
        if isinstance(event, (Filed, Scrapped, Moved)):
            return self._objection_to_place(event)
        if isinstance(event, Missed):
            return self._objection_to_missing(event)
        if isinstance(event, Checked):
            return self._objection_to_check(event)
        if isinstance(event, Deferred):
            return self.objection_to_deferring(event.sheet)
        if isinstance(event, TakenUp):
            if event.sheet not in self.deferred:
                return "not put off"
            return "finish the load" if self.mid_load else ""
        if isinstance(event, Left):
            return "" if event.warning in self.warnings else "no such warning"
        if isinstance(event, Settled):
            warning = self.warnings.get(event.warning)
            return "" if warning and warning.kind.settled_by_word else "no such warning"
        if isinstance(event, Retracted):
            fits = self._history and self._history[-1].n == event.of
            return "" if fits else "nothing to undo"
        if isinstance(event, Withdrawn):
            word = self.last_word()
            return "" if word is not None and word.n == event.of else "nothing to undo"
        if isinstance(event, Restored):
            fits = self._undone and self._undone[-1].n == event.of
            return "" if fits else "nothing to redo"
        return ""

    def _objection_to_step(self, event: Done | Skipped) -> str:
        index = self.plan.step_at.get(event.step)
        if index is None:
            return "no such step"
        if event.step in self.done:
            return "done already"
        if index != self.cursor:
            return "not yet"
        step = self.plan.steps[index]
        if isinstance(event, Done):
            return "no such pocket" if event.into and event.into not in self._pockets else ""
        if self.may_skip(step):
            return ""
        return "begun" if step.optional else "not optional"

    def _objection_to_place(self, event: Filed | Scrapped | Moved) -> str:
        thing = self.plan.items.get(event.item)
        if thing is None:
            return "no such thing"
        if thing.partner:
            return "filed with its piece"
        here = self.where(event.item)
        if here < 0 and here in _NOT_AT_HAND:
            return _NOT_AT_HAND[Spot(here)]
        if isinstance(event, Scrapped):
            return "done already" if here == Spot.SCRAPS else ""
        if isinstance(event, Moved) and not event.pocket:
            return "done already" if here == Spot.PILE else ""
        pocket = self._pockets.get(event.pocket)
        if pocket is None:
            return "no such pocket"
        return "done already" if isinstance(event, Moved) and here == pocket else ""

    def _objection_to_missing(self, event: Missed) -> str:
        thing = self.plan.items.get(event.item)
        if thing is None:
            return "no such thing"
        if thing.partner:
            return "filed with its piece"
        return "" if self.where(event.item) >= 0 else "not filed"

    def _objection_to_check(self, event: Checked) -> str:
        pocket = self._pockets.get(event.pocket)
        if pocket is None:
            return "no such pocket"
        wrong = any(warning.pocket == pocket for warning in self.warnings.values())
        return "not right yet" if wrong else ""

    # The fold

    def apply(self, entry: Entry) -> None:
        """Take one entry in. What makes no sense is noted in `ignored`, never raised.

        Args:
            entry: The entry; its number is larger than those of all before it.
        """
        event = entry.event
        self.raised = []
        if isinstance(event, Retracted):
            self._retract(event, entry.n)
        elif isinstance(event, Restored):
            self._restore(event, entry.n)
        elif isinstance(event, Withdrawn):
            self._withdraw(event, entry.n)
        elif isinstance(event, Paced):
            self.by_load = event.by_load
        elif isinstance(event, Sat):
            self.sittings += 1
        elif isinstance(event, Foreign):
            self.foreign += 1
        elif event.undoable and self._say(entry):
            self._undone.clear()

    def _say(self, entry: Entry) -> bool:
        self._n = entry.n
        if not self.at_hand(entry.event):
            self.unaccounted.add(entry.n)
        taken = self._take_in(entry.event)
        changes = self._ledger.take()
        if not taken:
            take_back(changes)
            self.ignored.append(entry.n)
            return False
        n = entry.part_of or entry.n
        if self._history and self._history[-1].n == n:
            self._history[-1].entries.append(entry)
            self._history[-1].changes.extend(changes)
        else:
            self._history.append(_Said(n, [entry], changes))
        return True

    def _retract(self, event: Retracted, n: int) -> None:
        # Numbers rise along the history. If what was taken back before this was lost from
        # the journal, what came after goes too: undo never passes anything over.
        at = bisect_left(self._history, event.of, key=lambda said: said.n)
        if at == len(self._history) or self._history[at].n != event.of:
            self.ignored.append(n)
            return
        self._undone += reversed(self._lift_answers(at))

    def _lift_answers(self, at: int) -> list[_Said]:
        """Take back the answers from this place of the history on; they are given in order."""
        lifted = self._history[at:]
        for said in reversed(lifted):
            take_back(said.changes)
        del self._history[at:]
        return lifted

    def _withdraw(self, event: Withdrawn, n: int) -> None:
        at = bisect_right(self._history, event.of, key=lambda said: said.n) - 1
        if at < 0 or all(entry.n != event.of for entry in self._history[at].entries):
            self.ignored.append(n)
            return
        # As in `_retract`: words that came after can only be lost ones, and go too.
        words: list[_Said] = []
        stays: list[Entry] = []
        for said in self._history[at:]:
            apart = [entry for entry in said.entries if self._is_word(entry.event)]
            stays += [entry for entry in said.entries if entry not in apart]
            if apart:
                words.append(_Said(apart[0].n, apart, []))
        self._lift_answers(at)
        self._say_again(stays)
        self._undone += reversed(words)

    def _is_word(self, event: Event) -> bool:
        """Whether an event says where something is that still is: the rest is cut, or laid."""
        gone = (Spot.TAKEN, Spot.IN_HAND)
        if isinstance(event, (Filed, Scrapped, Moved)):
            return self.where(event.item) not in gone
        if isinstance(event, Done):
            index = self.plan.step_at.get(event.step)
            step = None if index is None else self.plan.steps[index]
            return (
                step is not None
                and step.kind is StepKind.FILL
                and all(self.where(item) not in gone for item in step.makes)
            )
        return not isinstance(event, (Skipped, Mended))

    def _restore(self, event: Restored, n: int) -> None:
        if not any(said.n == event.of for said in reversed(self._undone)):
            self.ignored.append(n)
            return
        again = -1
        while again != event.of:
            said = self._undone.pop()
            again = said.n
            # What was taken back from beneath a cut goes back to where it was said.
            first = said.entries[0].n
            at = bisect_right(self._history, first, key=lambda other: other.n)
            later = self._lift_answers(at)
            self._say_again(entry for each in (said, *later) for entry in each.entries)

    def _say_again(self, entries: Iterable[Entry]) -> None:
        """Say what was said before; it warns of what stands at last."""
        for entry in entries:
            self._say(entry)
        self.raised = [each for each in self.raised if self.warnings.get(each.id) == each]
