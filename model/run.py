"""A run of a kit: its journal and the state that follows from it, kept in step.

What is said goes to the journal first and is then taken into the state, so that whatever
a view shows is already on the disk, or known not to be (`Session.unsaved`).
"""

from __future__ import annotations

from collections.abc import Iterable
from functools import partial
from pathlib import Path
from typing import Self

from model.disk import Disk
from model.event import (
    Adopted,
    Done,
    Ended,
    Entry,
    Event,
    Foreign,
    Paced,
    Sat,
    from_record,
    number_of,
    to_record,
)
from model.finding import KitError
from model.garbage import kept
from model.journal import (
    Journal,
    JournalBusy,
    JournalError,
    JournalStore,
    MemoryJournal,
    Record,
    Trouble,
    Value,
    Watcher,
)
from model.kit_regained import with_kit
from model.pace import Pace
from model.plan import Plan, StepKind
from model.reading import Read, Reader, read_kit
from model.session_file import (
    Clock,
    SessionError,
    begin,
    free_path,
    header_of,
    in_memory,
    now,
    plan_of,
    reason_of,
)
from model.state import State
from model.story import Story
from model.told import Told


class Run:
    """One run of one kit; `model.session` adds what a crafter says in it.

    Attributes:
        plan: The plan in force: that of the kit, with what was mended.
        state: Where everything is.
        story: What both follow from.
        pace: Time spent and what is left.
        header: What the session's file says of itself.
        troubles: What was wrong with the session's file when it was opened; what of it makes
            no sense is in `State.ignored`.
        unsaved: Why the last words are not on the disk, as a clause without the file's path;
            empty when they are.
        cautioned: Which cautions were read in this sitting: ``blade``, ``knife``.
        sheet_numbers: The number of each sheet in the order in which it is cut, from 1.
        said: The number of the last event.
    """

    def __init__(
        self,
        plan: Plan,
        header: dict[str, Value],
        journal: JournalStore | None,
        watcher: Watcher | None = None,
        clock: Clock = now,
    ) -> None:
        """Put a session together; use `start`, `resume` or `watch`."""
        self.header = header
        self.troubles: tuple[Trouble, ...] = ()
        self.unsaved = ""
        self.cautioned: set[str] = set()
        self._journal = journal
        self._watcher = watcher
        self._clock = clock
        self._disk: Disk | None = None
        self._marks: list[int] = []  # numbers of entries that nobody said
        self._begin(plan)

    def _begin(self, plan: Plan) -> None:
        """Forget all that was said."""
        self.story = Story(plan, lambda text: read_kit(text).plan)
        self._use(plan)
        self.state: State = self.story.state
        self.pace = Pace(plan)
        self.said = 0
        self._ended = False
        self._closed = False
        self._text = str(self.header.get("kit_text", ""))

    def _use(self, plan: Plan) -> None:
        """Put a plan in force."""
        self.plan = plan
        sheets = dict.fromkeys(step.sheet for step in plan.steps if step.load)
        self.sheet_numbers = {sheet: number for number, sheet in enumerate(sheets, 1)}

    # Opening and closing

    @classmethod
    def start(
        cls,
        kit: Read,
        source: Path | None,
        folder: Path | None,
        clock: Clock = now,
        why_no_folder: str = "",
        disk: Disk | None = None,
    ) -> Self:
        """Begin a session of a kit.

        Args:
            kit: The kit, as read.
            source: The kit's file, to notice later that it was changed.
            folder: Where sessions are kept; None when there is no such place.
            clock: Tells the time.
            why_no_folder: Why there is none, in plain words.
            disk: The calls to the disk, for tests.

        Returns:
            The session. When it can't be saved it runs in memory and `unsaved` says why.

        Raises:
            KitError: The kit has no plan.
        """
        if kit.plan is None:
            raise KitError([finding for finding in kit.findings if finding.grave])
        header = header_of(kit, kit.plan, source, clock())
        journal, unsaved = begin(header, folder, why_no_folder, disk)
        session = cls(kit.plan, header, journal, clock=clock)
        session._disk = disk
        session.unsaved = unsaved
        session.say(Sat())
        return session

    @classmethod
    def resume(
        cls, path: Path, clock: Clock = now, disk: Disk | None = None, read: Reader = read_kit
    ) -> Self:
        """Go on with a session.

        Args:
            path: The session's file.
            clock: Tells the time.
            disk: The calls to the disk, for tests.
            read: Reads the kit that the session began with.

        Returns:
            The session. When it can be read but not written to (a read-only folder, say) it
            goes on in memory and `unsaved` says why.

        Raises:
            JournalBusy: Another program has it open; `watch` may look on.
            SessionError: It can't be read, or its kit can't.
        """
        journal: JournalStore
        unsaved = ""
        complete = partial(with_kit, path=path, read=read)
        try:
            journal, reading = Journal.resume(path, disk=disk, complete=complete)
        except JournalBusy:
            raise
        except JournalError as error:
            journal, reading = in_memory(path, error, complete)
            unsaved = error.why
        try:
            session = cls(plan_of(reading.header, path, read), reading.header, journal, clock=clock)
            session._disk = disk
            session.troubles = reading.troubles
            session._take_in(reading.records)
        except BaseException:
            journal.close()
            raise
        session.unsaved = unsaved
        session.say(Sat())
        return session

    @classmethod
    def watch(cls, path: Path, clock: Clock = now) -> Self:
        """Look on at a session that another program has open.

        Args:
            path: The session's file.
            clock: Tells the time.

        Raises:
            SessionError: It can't be read, or its kit can't.
        """
        try:
            watcher = Watcher(path)
        except JournalError as error:
            raise SessionError(str(error)) from None
        start = with_kit(watcher.start, path, read_kit)
        plan = plan_of(start.header, path, read_kit)
        session = cls(plan, start.header, None, watcher, clock)
        session.troubles = start.troubles
        session._take_in(watcher.poll())
        return session

    def poll(self) -> bool:
        """While watching: take in what the other program has said since; True if anything.

        Why it can't be seen, if it can't, is then in `unsaved`.
        """
        if self._watcher is None:
            return False
        records = self._watcher.poll()
        self.unsaved = self._watcher.trouble
        if self._watcher.stale:
            return self._watch_anew(self._watcher.path)
        self._take_in(records)
        return bool(records)

    def _watch_anew(self, path: Path) -> bool:
        """Read a file from its beginning that is no longer what it was."""
        try:
            watcher = Watcher(path)
            start = with_kit(watcher.start, path, read_kit)
            plan = plan_of(start.header, path, read_kit)
        except (JournalError, SessionError) as error:
            self.unsaved = str(error)
            return False
        self._watcher, self.header = watcher, start.header
        self.troubles, self.unsaved = start.troubles, ""
        self._begin(plan)
        self._take_in(watcher.poll())
        return True

    def retry(self) -> str:
        """Try again to save what waits; a session in memory gets its file after all.

        Returns:
            Why something is still not saved; empty when all is.
        """
        journal = self._journal
        if isinstance(journal, MemoryJournal) and journal.path.parent != Path():
            try:
                self._journal = journal.save_to(free_path(journal.path), disk=self._disk)
                self.unsaved = ""
            except (JournalError, OSError) as error:
                self.unsaved = reason_of(error)
        elif journal is not None:
            self.unsaved = journal.retry() or ""
        return self.unsaved

    def close(self) -> str:
        """Try once more to save what waits, and let go of the session's file.

        Returns:
            Why something is not saved; empty when all is.
        """
        if self._journal is not None and not self._closed:
            self.retry()
            self.unsaved = self._journal.close() or ""
        self._closed = True
        return self.unsaved

    @property
    def waiting(self) -> int:
        """How many things that were said are not on the disk yet; sitting down is none."""
        unsaved = self._journal.unsaved if self._journal is not None else 0
        return max(0, unsaved - sum(n > self.said - unsaved for n in self._marks))

    @property
    def watching(self) -> bool:
        """Whether another program has the session and this one only looks on."""
        return self._journal is None

    @property
    def path(self) -> Path | None:
        """The session's file."""
        if self._watcher is not None:
            return self._watcher.path
        return self._journal.path if self._journal else None

    # Saying things

    def say(self, event: Event, part_of: int = 0) -> Told:
        """Say what was done.

        It is on the disk before this returns, or `unsaved` says why it is not.

        Args:
            event: What was done.
            part_of: The number of the first event of the answer that it is part of.

        Returns:
            What came of it.
        """
        if self._journal is None:
            return Told("watching")
        if self._closed:
            return Told("closed")
        objection = self.story.objection(event)
        if objection:
            return Told(objection)
        entry = Entry(self.said + 1, self._clock(), event, part_of)
        self._write(self._journal, entry)
        self._note_caution(event)
        raised = tuple(self.state.raised)
        if not self._ended and self.state.due().over:
            self._write(self._journal, Entry(self.said + 1, entry.at, Ended()))
        return Told(raised=raised, n=entry.n)

    def _write(self, journal: JournalStore, entry: Entry) -> None:
        if isinstance(entry.event, (Sat, Ended)):
            self._marks.append(entry.n)
        self.unsaved = journal.append(to_record(entry)) or ""
        self.said = entry.n
        self._apply(entry)

    def _note_caution(self, event: Event) -> None:
        """After the first cut of a sitting its caution has been read."""
        if not isinstance(event, Done):
            return
        step = self.plan.steps[self.plan.step_at[event.step]]
        if step.work is not None and step.kind is not StepKind.LOAD:
            self.cautioned |= {step.work.verb.cuts_with} - {""}

    def label(self, pocket: int) -> str:
        """The label of a pocket."""
        return self.plan.kit.pockets[pocket].label

    # Taking in

    @kept()
    def _take_in(self, records: Iterable[Record]) -> None:
        """Take in what a journal holds."""
        for record in records:
            n = number_of(record, self.said)
            entry = from_record(n, record)
            if entry is None or n <= self.said:
                # Unreadable, or out of its order: what came later rests on what came before.
                self.state.ignored.append(n)
            else:
                self._apply(entry)
            self.said = max(self.said, n)

    def _apply(self, entry: Entry) -> None:
        event = entry.event
        base = self.story.base
        self.story.apply(entry)
        self.state = self.story.state
        if self.story.plan is not self.plan:
            self._use(self.story.plan)
            self.pace = self.pace.on(self.plan)
        if isinstance(event, Adopted) and self.story.base is not base:
            self._text = event.kit_text
        if not isinstance(event, (Sat, Paced, Foreign)):
            self._ended = isinstance(event, Ended)
        self.pace.take_in(entry)
