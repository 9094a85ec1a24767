"""A session: one crafter's run of one kit, and what they can say in it."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from model.event import (
    Adopted,
    Checked,
    Deferred,
    Done,
    Event,
    Extra,
    Filed,
    Left,
    Mended,
    Missed,
    Moved,
    Paced,
    Restored,
    Retracted,
    Scrapped,
    Settled,
    Skipped,
    TakenUp,
    Withdrawn,
)
from model.plan import Step, StepKind
from model.reading import Read, read_kit
from model.rescue.cannot import CannotMend
from model.run import Run
from model.session_file import Clock, SessionError, digest, file_name, now, text_of
from model.state import Spot
from model.told import Told
from model.warning import Warning, WarningKind

if TYPE_CHECKING:
    from model.kitchange import Change
    from model.known import Known
    from model.recount import Proposal
    from model.rescue.mending import Mending

__all__ = ["Clock", "Session", "SessionError", "Told", "digest", "file_name", "now"]

_CUTS = (StepKind.CUT, StepKind.TEAR)
_MAKERS = (StepKind.CUT, StepKind.TEAR, StepKind.SHAPE)
_PAPER_KEEPS = (*_MAKERS, StepKind.MARK)


class Session(Run):
    """One run of one kit: every key of the table is one of these words.

    Each says what was done, see `Run.say`, and returns what came of it.
    """

    _known: Known | None = None

    @property
    def known(self) -> Known:
        """What tells the things of the plan in force apart; worked out when first asked for."""
        if self._known is None or self._known.plan is not self.plan:
            from model.known import Known  # no start needs it

            self._known = Known(self.plan)
        return self._known

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
            item: The thing. By default it is, the first that there is of these:

                - what is due to be filed;
                - at a filling step, its whole count;
                - at a cut, a tear or where shapes are cut out, the first thing that comes of
                  it: that was done, and it was filed;
                - at a slit or a punch, the piece that it is done to: that was done, and the
                  piece was put back;
                - at a load, the strip that is to be loaded, if it lies on the pile;
                - the newest thing on the pile;
                - what was filed last, once more (which is told as filed twice).
        """
        label = self.label(pocket)
        due = self.state.due()
        item = item or due.item
        if item is not None:
            return self.say(Filed(item, label))
        step = due.step
        if step is not None:
            if step.kind is StepKind.FILL:
                return self.say(Done(step.id, "" if pocket == step.pocket else label))
            if step.kind in _MAKERS and step.makes:
                return self._did_and(step, Filed(step.makes[0], label))
            if step.kind is StepKind.MARK:
                return self._put_back(step, pocket)
            if step.kind in (StepKind.STACK, StepKind.ASIDE) and step.touches:
                return Told("not cut yet")
        item = self._unfiled(step) or self._filed_last()
        return self.say(Filed(item, label)) if item else Told("nothing to file")

    def _put_back(self, step: Step, pocket: int) -> Told:
        """A slit or a punch was done, and its piece went into a pocket."""
        item = step.touches[0]
        here = self.state.where(item)
        if here == pocket:
            return self.say(Done(step.id))
        lay_put = here >= 0 or here == Spot.SCRAPS
        label = self.label(pocket)
        event = Moved(item, label) if lay_put else Filed(item, label)
        objection = self.state.objection(event)
        return Told(objection) if objection else self._did_and(step, event)

    def _unfiled(self, step: Step | None) -> str | None:
        """What lies on the pile, where nothing on it is to be filed: what is loaded, or the top.

        Something that nobody has filed is named rather than what is filed already: if it
        was no more than a key that bounced, it is on the pile still, and easily put right.
        """
        if step is not None and step.kind is StepKind.LOAD:
            for item in step.takes:
                if self.state.where(item) == Spot.PILE:
                    return item
        return self.state.top

    def _filed_last(self) -> str | None:
        """What the last answer put into a pocket, by itself."""
        for entry in reversed(self.state.last_said()):
            event = entry.event
            if isinstance(event, (Filed, Moved)):
                return event.item
        return None

    def scrap(self, item: str | None = None) -> Told:
        """The thing in hand was thrown to the scraps.

        Args:
            item: The thing. By default what is due to be filed; at a cut, the cut was made
                and what came off was thrown away; otherwise a scrap too many turned up.
        """
        due = self.state.due()
        item = item or due.item
        if item is not None:
            return self.say(Scrapped(item))
        if due.step is not None and due.step.kind in _CUTS:
            return self._did_and(due.step, Scrapped(due.step.makes[0]))
        return self.say(Extra())

    def _did_and(self, step: Step, event: Event) -> Told:
        """A step was done and something of it put away: one answer, for undo too."""
        done = self.say(Done(step.id))
        if not done.taken:
            return done
        told = self.say(event, done.n)
        return Told(told.objection, told.raised, done.n)

    def answer(self, warning: Warning, pocket: int) -> Told:
        """Answer a warning: all that it names is in a pocket now. One answer for undo."""
        if (
            warning.kind is WarningKind.TWICE
            and warning.id in self.state.warnings
            and all(self.state.where(item) == pocket for item in warning.items)
        ):
            return self.say(Settled(warning.id))  # it is where it was
        return self._move_all(warning, lambda item: Moved(item, self.label(pocket)))

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
        return self._move_all(standing, self._home_of)

    def _home_of(self, item: str) -> Event:
        """What is said when a thing is put where it belongs."""
        place = self.state.belongs(item)
        if place == Spot.SCRAPS:
            return Scrapped(item)
        return Moved(item, self.label(place) if place >= 0 else "")

    def _move_all(self, warning: Warning, where: Callable[[str], Event]) -> Told:
        """Say something of each thing that a warning names, as one answer."""
        if warning.id not in self.state.warnings:
            return Told("no such warning")
        first = 0
        raised: list[Warning] = []
        told = Told("no such warning")
        for item in warning.items:
            told = self.say(where(item), first)
            raised += told.raised
            first = first or told.n
        return Told("" if first else told.objection, tuple(raised), first)

    def defer(self, sheet: str = "") -> Told:
        """Put a sheet off, to be trimmed after all others.

        Args:
            sheet: Its name; by default the sheet that is to be cut next.
        """
        step = self.state.step()
        return self.say(Deferred(sheet or (step.sheet if step else "")))

    def take_up(self, sheet: str) -> Told:
        """Take up a sheet that was put off."""
        return self.say(TakenUp(sheet))

    def checked(self, pocket: int) -> Told:
        """A pocket was counted: it holds just what it should by now."""
        return self.say(Checked(self.label(pocket)))

    def missed(self, item: str) -> Told:
        """A thing is not in the pocket that it was filed in, and was not found elsewhere."""
        return self.say(Missed(item))

    def accept(self, proposal: Proposal) -> Told:
        """A proposal was looked at and is true: what it says was found so, and put right.

        Undo takes all of it back at once.
        """
        first = 0
        raised: list[Warning] = []
        told = Told("nothing to file")
        for event in proposal.events(self.plan):
            told = self.say(event, first)
            if not told.taken:
                break
            first = first or told.n
            raised = [*told.raised] if told.raised else raised
        standing = tuple(each for each in raised if each.id in self.state.warnings)
        return Told(told.objection, standing, first)

    def leave(self, warning: Warning) -> Told:
        """Answer a warning by leaving it for later."""
        return self.say(Left(warning.id))

    def skip(self) -> Told:
        """Leave out the step that is due, if it is optional."""
        step = self.state.due().step
        if step is None:
            return Told("file first" if self.state.due().item else "over")
        return self.say(Skipped(step.id, len(self.state.hangs_on(step))))

    def mend(
        self, mending: Mending, what: str, step: str, way: str, moves: Sequence[Event] = ()
    ) -> Told:
        """Something had gone wrong, and a way out was chosen.

        Args:
            mending: How the work differs from now on, and differed in truth.
            what: What had happened, as a code.
            step: The step at which it had.
            way: The way that was chosen, as a code.
            moves: What is put elsewhere with it; what lies there already is passed over. Undo
                takes all of it back at once.
        """
        from model.rescue.mendingtext import to_text  # seldom wanted

        text = to_text(mending)
        try:
            trial = self.story.trial(text)
        except CannotMend:
            return Told("cannot mend")
        steps, done = len(trial.plan.steps), trial.steps_done
        told = self.say(Mended(text, what, step, way, steps, done))
        if not told.taken:
            return told
        raised = [*told.raised]
        for event in moves:
            raised += self.say(event, told.n).raised
        standing = {each.id: each for each in raised if each.id in self.state.warnings}
        return Told("", tuple(standing.values()), told.n)

    def undo(self) -> Told:
        """Take back the last answer."""
        of = self.state.last_answer
        return self.say(Retracted(of)) if of else Told("nothing to undo")

    def undo_names(self) -> Event | None:
        """The word of where something is that `undo` takes back; None when it is something else."""
        said = self.state.last_said()
        event = said[0].event if said else None
        return event if isinstance(event, (Filed, Moved, Scrapped, Extra, Mended)) else None

    def redo(self) -> Told:
        """Say again the answer that was taken back last."""
        of = self.state.last_taken_back
        return self.say(Restored(of)) if of else Told("nothing to redo")

    def pace_by(self, by_load: bool) -> Told:
        """Choose when pieces are filed: after each load, or after each cut."""
        return self.say(Paced(by_load))

    def undo_word(self) -> Told:
        """Take back the last word of where something went; what was cut since stays cut.

        Said again and again it goes back to the first one.
        """
        word = self.state.last_word()
        return self.say(Withdrawn(word.n)) if word else Told("nothing to undo")

    def undo_unmakes_cut(self) -> bool:
        """Whether undo would take back a cut, a tear, a shape, a slit: paper stays cut."""
        return self.undo_unmakes() is not None

    def undo_unmakes(self) -> Step | None:
        """What undo would take back that was done to paper; None when it is nothing such."""
        last = self.state.last_undoable()
        if last is None or not isinstance(last.event, Done):
            return None
        step = self.plan.steps[self.plan.step_at[last.event.step]]
        return step if step.kind in _PAPER_KEEPS else None

    # A kit file that was changed since

    def changed_kit(self) -> Change | None:
        """How the kit's file differs from the kit of the session.

        Returns:
            The change; None when the file is the same, or gone, or was never known. A file
            that is the same costs no more than reading it.
        """
        source = self.header.get("source")
        text = text_of(Path(source)) if isinstance(source, str) else None
        if text is None or digest(text) == digest(self._text):
            return None
        return _compare(self, read_kit(text))

    def adopt(self, change: Change) -> Told:
        """Take over a changed kit, if nothing that was done is touched."""
        if change.plan is not None:
            # More may have been done since the change was looked at.
            change = _compare(self, Read(change.plan, (), change.text))
        if change.plan is None or change.blockers:
            return Told("kit touched")
        return self.say(Adopted(change.text, change.steps))


def _compare(session: Session, read: Read) -> Change:
    from model.kitchange import compare  # seldom wanted, and never before the first picture

    return compare(session.story, read)
