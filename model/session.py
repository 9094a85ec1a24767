"""A session: one crafter's run of one kit, and what they can say in it."""

from __future__ import annotations

from model.event import (
    Done,
    Event,
    Extra,
    Filed,
    Left,
    Moved,
    Paced,
    Restored,
    Retracted,
    Scrapped,
    Settled,
    Skipped,
)
from model.plan import StepKind
from model.run import Run, Told
from model.session_file import Clock, SessionError, digest, file_name, now
from model.state import Spot
from model.warning import Warning

__all__ = ["Clock", "Session", "SessionError", "Told", "digest", "file_name", "now"]


class Session(Run):
    """One run of one kit: every key of the table is one of these words.

    Each says what was done, see `Run.say`, and returns what came of it.
    """

    def next(self) -> Told:
        """The one key: do what is due, as it should be done."""
        due = self.state.due()
        if due.item is not None:
            return self.file_where_it_belongs(due.item)
        if due.step is not None:
            return self.say(Done(due.step.id))
        return Told("over")

    def file_where_it_belongs(self, item: str) -> Told:
        """File a thing into the pocket that waits for it, or throw a scrap away."""
        place = self.state.belongs(item)
        if place == Spot.SCRAPS:
            return self.say(Scrapped(item))
        if place < 0:
            return Told("stays on the pile")
        return self.say(Filed(item, self.label(place)))

    def file_into(self, pocket: int, item: str | None = None) -> Told:
        """The thing in hand went into a pocket.

        Args:
            pocket: The pocket's index.
            item: The thing; by default what is due, or the whole count of a filling step,
                or else what was filed last (which is then told as filed twice).
        """
        label = self.label(pocket)
        if item is None:
            due = self.state.due()
            if due.item is not None:
                item = due.item
            elif due.step is not None and due.step.kind is StepKind.FILL:
                return self.say(Done(due.step.id, "" if pocket == due.step.pocket else label))
            else:
                item = self.state.top or self.state.last_filed
        if not item:
            return Told("nothing to file")
        return self.say(Filed(item, label))

    def scrap(self, item: str | None = None) -> Told:
        """The thing in hand was thrown to the scraps; with nothing in hand, a scrap too many."""
        if item is None:
            item = self.state.due().item or self.state.top
        return self.say(Scrapped(item) if item else Extra())

    def move(self, item: str, pocket: int) -> Told:
        """A thing filed or thrown away, however long ago, went into another pocket now."""
        return self.say(Moved(item, self.label(pocket)))

    def put_right(self, warning: Warning) -> Told:
        """Answer a warning by putting all that it names where it belongs.

        Undo takes the whole answer back at once.
        """
        standing = self.state.warnings.get(warning.id)
        if standing is None:
            return Told("no such warning")
        if standing.kind.settled_by_word:
            return self.say(Settled(standing.id))
        first = 0
        raised: list[Warning] = []
        told = Told("no such warning")
        for item in standing.items:
            place = self.state.belongs(item)
            event: Event = Moved(item, self.label(place) if place >= 0 else "")
            if place == Spot.SCRAPS:
                event = Scrapped(item)
            told = self.say(event, first)
            if not told.taken:
                break
            raised += told.raised
            first = first or told.n
        return Told(told.objection, tuple(raised), first)

    def leave(self, warning: Warning) -> Told:
        """Answer a warning by leaving it for later."""
        return self.say(Left(warning.id))

    def skip(self) -> Told:
        """Leave out the step that is due, if it is optional."""
        step = self.state.due().step
        if step is None:
            return Told("file first" if self.state.due().item else "over")
        return self.say(Skipped(step.id, len(self.state.hangs_on(step))))

    def undo(self) -> Told:
        """Take back the last answer."""
        of = self.state.last_answer
        return self.say(Retracted(of)) if of else Told("nothing to undo")

    def redo(self) -> Told:
        """Say again the answer that was taken back last."""
        of = self.state.last_taken_back
        return self.say(Restored(of)) if of else Told("nothing to redo")

    def pace_by(self, by_load: bool) -> Told:
        """Choose when pieces are filed: after each load, or after each cut."""
        return self.say(Paced(by_load))

    def undo_unmakes_cut(self) -> bool:
        """Whether undo would take back a cut, a tear or a shape: paper stays cut."""
        last = self.state.last_undoable()
        if last is None or not isinstance(last.event, Done):
            return False
        step = self.plan.steps[self.plan.step_at[last.event.step]]
        return step.kind in (StepKind.CUT, StepKind.TEAR, StepKind.SHAPE, StepKind.MARK)
