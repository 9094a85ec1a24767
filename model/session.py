"""A session: one crafter's run of one kit, from its journal.

What is said goes to the journal first and is then taken into the state, so that whatever
a view shows is already on the disk, or known not to be (`Session.unsaved`).
"""

from __future__ import annotations

import hashlib
import re
from collections.abc import Callable
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from model.event import (
    Adopted,
    Done,
    Entry,
    Event,
    Extra,
    Filed,
    Left,
    Moved,
    Paced,
    Restored,
    Retracted,
    Sat,
    Scrapped,
    Settled,
    Skipped,
    from_record,
    to_record,
)
from model.finding import KitError
from model.journal import (
    Journal,
    JournalError,
    JournalStore,
    MemoryJournal,
    Record,
    Trouble,
    Watcher,
    read_journal,
)
from model.kit import Verb
from model.kitchange import Change, compare
from model.pace import Pace
from model.plan import Plan, StepKind
from model.reading import Read, load_kit, read_kit
from model.state import Spot, State, refold
from model.warning import Warning, WarningKind

Clock = Callable[[], datetime]


def now() -> datetime:
    """The time, in UTC, to the millisecond."""
    at = datetime.now(UTC)
    return at.replace(microsecond=at.microsecond // 1000 * 1000)


class SessionError(Exception):
    """A session can't be opened; the message says why and what to do."""


@dataclass(frozen=True, slots=True)
class Told:
    """What came of saying something.

    Attributes:
        objection: Why it was not taken in, as a code of `State.objection`; empty when it was.
        raised: Warnings that it raised.
    """

    objection: str = ""
    raised: tuple[Warning, ...] = ()

    @property
    def taken(self) -> bool:
        """Whether it was taken in."""
        return not self.objection


class Session:
    """One run of one kit.

    Attributes:
        plan: The plan of the kit in force.
        state: Where everything is.
        pace: Time spent and what is left.
        header: What the session's file says of itself.
        troubles: What was wrong with the session's file when it was opened.
        watching: Another program has the session; this one only looks on.
        unsaved: Why the last words are not on the disk; empty when they are.
        cautioned: Which cautions were read in this sitting: ``blade``, ``knife``.
        sheet_numbers: The number of each sheet in the order in which it is cut, from 1.
    """

    def __init__(
        self,
        plan: Plan,
        header: dict[str, Any],
        journal: JournalStore | None,
        watcher: Watcher | None = None,
        clock: Clock = now,
    ) -> None:
        """Put a session together; use `start`, `resume` or `watch`."""
        self.plan = plan
        self.header = header
        self.state = State(plan)
        self.pace = Pace(plan)
        self.troubles: tuple[Trouble, ...] = ()
        self.unsaved = ""
        self.cautioned: set[str] = set()
        self.sheet_numbers = _numbered(plan)
        self._journal = journal
        self._watcher = watcher
        self._clock = clock
        self._said = 0
        self._text = str(header.get("kit_text", ""))

    # Opening and closing

    @classmethod
    def start(
        cls, kit: Read, source: Path | None, folder: Path | None, clock: Clock = now,
        why_no_folder: str = "",
    ) -> Session:
        """Begin a session of a kit.

        Args:
            kit: The kit, as read.
            source: The kit's file, to notice later that it was changed.
            folder: Where sessions are kept; None when there is no such place.
            clock: Tells the time.
            why_no_folder: Why there is none, in plain words.

        Returns:
            The session. When it can't be saved it runs in memory and `unsaved` says why.

        Raises:
            KitError: The kit has no plan.
        """
        if kit.plan is None:
            raise KitError([finding for finding in kit.findings if finding.grave])
        started = clock()
        header: dict[str, Any] = {
            "kit": kit.plan.kit.title,
            "edition": kit.plan.kit.edition,
            "source": str(source.resolve()) if source else "",
            "digest": digest(kit.text),
            "started": started,
            "steps": len(kit.plan.steps),
            "kit_text": kit.text,
        }
        header = {key: value for key, value in header.items() if value != ""}
        journal: JournalStore
        unsaved = ""
        name = file_name(kit.plan.kit.title, started)
        if folder is None:
            journal = MemoryJournal(Path(name), header, why_no_folder)
            unsaved = why_no_folder
        else:
            try:
                journal = Journal.create(_free(folder / name), header)
            except JournalError as error:
                journal = MemoryJournal(folder / name, header, str(error))
                unsaved = str(error)
        session = cls(kit.plan, header, journal, clock=clock)
        session.unsaved = unsaved
        session.say(Sat())
        return session

    @classmethod
    def resume(cls, path: Path, clock: Clock = now) -> Session:
        """Go on with a session.

        Raises:
            JournalBusy: Another program has it open; `watch` may look on.
            SessionError: It can't be read, or its kit can't.
        """
        try:
            journal, reading = Journal.resume(path)
        except JournalError as error:
            raise SessionError(str(error)) from None
        try:
            session = cls(_plan_of(reading.header, path), dict(reading.header), journal,
                          clock=clock)
        except SessionError:
            journal.close()
            raise
        session.troubles = reading.troubles
        session._take_in(reading.records)
        session.say(Sat())
        return session

    @classmethod
    def watch(cls, path: Path) -> Session:
        """Look on at a session that another program has open.

        Raises:
            SessionError: It can't be read, or its kit can't.
        """
        try:
            reading = read_journal(path)
            watcher = Watcher(path)
            records = watcher.poll()
        except JournalError as error:
            raise SessionError(str(error)) from None
        session = cls(_plan_of(reading.header, path), dict(reading.header), None, watcher)
        session._take_in(records)
        return session

    def poll(self) -> bool:
        """While watching: take in what the other program has said since; True if anything."""
        if self._watcher is None:
            return False
        records = self._watcher.poll()
        self._take_in(records)
        return bool(records)

    def close(self) -> None:
        """Let go of the session's file."""
        if self._journal is not None:
            self._journal.close()

    @property
    def watching(self) -> bool:
        """Whether another program has the session and this one only looks on."""
        return self._journal is None

    @property
    def path(self) -> Path | None:
        """The session's file."""
        return self._journal.path if self._journal else None

    # Saying things

    def say(self, event: Event) -> Told:
        """Say what was done.

        It is on the disk before this returns, or `unsaved` says why it is not.

        Args:
            event: What was done.

        Returns:
            What came of it.
        """
        if self._journal is None:
            return Told("watching")
        objection = self.state.objection(event)
        if objection:
            return Told(objection)
        self._said += 1
        entry = Entry(self._said, self._clock(), event)
        record = to_record(event, entry.at)
        record["event"] = entry.n
        self.unsaved = self._journal.append(record) or ""
        self._apply(entry)
        self._note_caution(event)
        raised = tuple(w for w in self.state.warnings.values() if w.since == entry.n)
        return Told(raised=raised)

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
            elif self.state.pile:
                item = self.state.pile[-1]
            else:
                item = self.state.last_filed
        if not item:
            return Told("nothing to file")
        return self.say(Filed(item, label))

    def scrap(self, item: str | None = None) -> Told:
        """The thing in hand was thrown to the scraps; with nothing in hand, a scrap too many."""
        if item is None:
            item = self.state.due().item or (self.state.pile[-1] if self.state.pile else None)
        return self.say(Scrapped(item) if item else Extra())

    def move(self, item: str, pocket: int) -> Told:
        """A thing filed or thrown away went into another pocket, now."""
        return self.say(Moved(item, self.label(pocket)))

    def put_right(self, warning: Warning) -> Told:
        """Answer a warning by putting what it names where it belongs."""
        if warning.kind in (WarningKind.TWICE, WarningKind.EXTRA_SCRAP):
            return self.say(Settled(warning.id))
        told = Told("no such warning")
        for item in warning.items:
            place = self.state.belongs(item)
            if place == Spot.SCRAPS:
                told = self.say(Scrapped(item))
            elif place >= 0:
                told = self.say(Moved(item, self.label(place)))
            else:
                told = self.say(Moved(item, ""))
        return told

    def leave(self, warning: Warning) -> Told:
        """Answer a warning by leaving it for later."""
        return self.say(Left(warning.id))

    def skip(self) -> Told:
        """Leave out the step that is due, if it is optional."""
        step = self.state.due().step
        return self.say(Skipped(step.id)) if step else Told("over")

    def undo(self) -> Told:
        """Take back what was said last."""
        last = self.state.last_undoable()
        return self.say(Retracted(last.n)) if last else Told("nothing to undo")

    def redo(self) -> Told:
        """Say again what was taken back last."""
        last = self.state.last_undone()
        return self.say(Restored(last.n)) if last else Told("nothing to redo")

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

    def _note_caution(self, event: Event) -> None:
        """After the first cut of a sitting its caution has been read."""
        if isinstance(event, Done):
            step = self.plan.steps[self.plan.step_at[event.step]]
            if step.kind is StepKind.CUT and step.blade:
                self.cautioned.add("blade")
            elif step.work is not None and step.work.verb in _KNIVES and step.makes:
                self.cautioned.add("knife")

    def label(self, pocket: int) -> str:
        """The label of a pocket."""
        return self.plan.kit.pockets[pocket].label

    # A kit file that was changed since

    def changed_kit(self) -> Change | None:
        """How the kit's file differs from the kit of the session.

        Returns:
            The change; None when the file is the same, or gone, or was never known.
        """
        source = self.header.get("source")
        if not source:
            return None
        try:
            read = load_kit(Path(str(source)))
        except KitError:
            return None
        if digest(read.text) == digest(self._text):
            return None
        return compare(self.plan, self.state, read)

    def adopt(self, change: Change) -> Told:
        """Take over a changed kit, if nothing that was done is touched."""
        if change.plan is None or change.blockers:
            return Told("kit touched")
        return self.say(Adopted(change.text))

    # Taking in

    def _take_in(self, records: tuple[Record, ...] | list[Record]) -> None:
        for record in records:
            number = record.get("event")
            n = number if isinstance(number, int) else self._said + 1
            entry = from_record(n, record)
            self._said = max(self._said, n)
            if entry is None:
                self.state.ignored.append(n)
            else:
                self._apply(entry)

    def _apply(self, entry: Entry) -> None:
        if isinstance(entry.event, Adopted):
            plan = read_kit(entry.event.kit_text).plan
            if plan is None:
                self.state.ignored.append(entry.n)
                return
            self.plan, self._text = plan, entry.event.kit_text
            self.sheet_numbers = _numbered(plan)
            self.state = refold(plan, self.state)
            self.pace = self.pace.on(plan)
        else:
            self.state.apply(entry)
        self.pace.take_in(entry)


_KNIVES = (Verb.KNIFE, Verb.SLIT, Verb.FUSSY_CUT, Verb.TRACE)


def _numbered(plan: Plan) -> dict[str, int]:
    sheets = dict.fromkeys(step.sheet for step in plan.steps if step.load)
    return {sheet: number for number, sheet in enumerate(sheets, 1)}


def digest(text: str) -> str:
    """The digest by which a kit's text is told from another: SHA-256, in hex."""
    return hashlib.sha256(text.encode()).hexdigest()


def file_name(title: str, started: datetime) -> str:
    """A session's file name, made of the kit's title and the time."""
    slug = re.sub(r"[^a-z0-9]+", "-", title.casefold()).strip("-")[:40] or "kit"
    return f"{slug}-{started:%Y%m%d-%H%M%S}.toml"


def _free(path: Path) -> Path:
    number = 2
    free = path
    while free.exists():
        free = path.with_stem(f"{path.stem}-{number}")
        number += 1
    return free


def _plan_of(header: dict[str, Any], path: Path) -> Plan:
    text = header.get("kit_text")
    if not isinstance(text, str):
        raise SessionError(f"{path} holds no kit; it can't be gone on with")
    read = read_kit(text)
    if read.plan is None:
        first = next(finding for finding in read.findings if finding.grave)
        raise SessionError(f"the kit kept in {path} can't be read any more: {first}")
    return read.plan
