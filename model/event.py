"""What a crafter said they did: the events of a session, and their form in the journal.

An event names things and steps by the plan's identities, and pockets by their labels, so
that it can be read by a person and outlives changes to the kit. In the journal an event is
one flat record: ``event`` is its number, ``did`` its kind, ``at`` when it was said.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import MISSING, dataclass, field, fields
from datetime import UTC, datetime
from typing import Any, ClassVar

Value = str | int | bool | datetime | list[str]


@dataclass(frozen=True, slots=True, repr=False, eq=False)
class Event:
    """Something that was said.

    What follows is written once, here: made anew for each of the events below it took as long
    as a quarter of all that dryfit itself does before its first picture.
    """

    did: ClassVar[str] = ""
    undoable: ClassVar[bool] = True

    def _names(self) -> tuple[str, ...]:
        return tuple(each.name for each in fields(self))

    def _values(self) -> tuple[object, ...]:
        return tuple(getattr(self, name) for name in self._names())

    def __eq__(self, other: object) -> bool:
        """Whether the same was said."""
        if type(other) is not type(self):
            return NotImplemented
        return self._values() == other._values()

    def __hash__(self) -> int:
        """By what was said."""
        return hash((type(self), self._values()))

    def __repr__(self) -> str:
        """As it would be made."""
        said = (f"{name}={getattr(self, name)!r}" for name in self._names())
        return f"{type(self).__name__}({', '.join(said)})"


@dataclass(frozen=True, slots=True, repr=False, eq=False)
class Done(Event):
    """A step was done. ``into``: the pocket, when a filling went into another one."""

    did: ClassVar[str] = "done"
    step: str
    into: str = ""


@dataclass(frozen=True, slots=True, repr=False, eq=False)
class Filed(Event):
    """A thing from the pile went into a pocket."""

    did: ClassVar[str] = "filed"
    item: str
    pocket: str


@dataclass(frozen=True, slots=True, repr=False, eq=False)
class Scrapped(Event):
    """A thing was thrown to the scraps."""

    did: ClassVar[str] = "scrapped"
    item: str


@dataclass(frozen=True, slots=True, repr=False, eq=False)
class Moved(Event):
    """A thing that was filed or thrown away went into another pocket.

    An empty pocket means back onto the pile.
    """

    did: ClassVar[str] = "moved"
    item: str
    pocket: str


@dataclass(frozen=True, slots=True, repr=False, eq=False)
class Left(Event):
    """A warning was read and left for later."""

    did: ClassVar[str] = "left"
    warning: str


@dataclass(frozen=True, slots=True, repr=False, eq=False)
class Settled(Event):
    """A warning was answered: nothing needs to move."""

    did: ClassVar[str] = "settled"
    warning: str


@dataclass(frozen=True, slots=True, repr=False, eq=False)
class Skipped(Event):
    """An optional step was left out.

    ``steps``: how many steps that leaves out, with those that hang on it; for a glance at
    the journal only, the fold counts for itself.
    """

    did: ClassVar[str] = "skipped"
    step: str
    steps: int = 1


@dataclass(frozen=True, slots=True, repr=False, eq=False)
class Extra(Event):
    """A scrap turned up that the kit does not expect."""

    did: ClassVar[str] = "extra"


@dataclass(frozen=True, slots=True, repr=False, eq=False)
class Deferred(Event):
    """A sheet is put off: it is trimmed after all others."""

    did: ClassVar[str] = "deferred"
    sheet: str


@dataclass(frozen=True, slots=True, repr=False, eq=False)
class TakenUp(Event):
    """A sheet that was put off is taken up again."""

    did: ClassVar[str] = "resumed"
    sheet: str


@dataclass(frozen=True, slots=True, repr=False, eq=False)
class Checked(Event):
    """A pocket was counted, and held what it should hold by then, and nothing else."""

    did: ClassVar[str] = "checked"
    pocket: str


@dataclass(frozen=True, slots=True, repr=False, eq=False)
class Missed(Event):
    """A thing that was filed was not in its pocket when that was counted, nor elsewhere."""

    did: ClassVar[str] = "missed"
    item: str


@dataclass(frozen=True, slots=True, repr=False, eq=False)
class Retracted(Event):
    """An earlier event was taken back (undo)."""

    did: ClassVar[str] = "retracted"
    undoable: ClassVar[bool] = False
    of: int


@dataclass(frozen=True, slots=True, repr=False, eq=False)
class Restored(Event):
    """A retracted event was said again (redo)."""

    did: ClassVar[str] = "restored"
    undoable: ClassVar[bool] = False
    of: int


@dataclass(frozen=True, slots=True, repr=False, eq=False)
class Withdrawn(Event):
    """Where something went was taken back, though paper that was cut since stays cut.

    ``of``: the number of the entry; what belongs to its answer is taken back with it, but
    for steps that were done.
    """

    did: ClassVar[str] = "withdrawn"
    undoable: ClassVar[bool] = False
    of: int


@dataclass(frozen=True, slots=True, repr=False, eq=False)
class Sat(Event):
    """A sitting began: the program was started on this session."""

    did: ClassVar[str] = "sat"
    undoable: ClassVar[bool] = False


@dataclass(frozen=True, slots=True, repr=False, eq=False)
class Paced(Event):
    """How pieces are filed was chosen: after each load, or after each cut."""

    did: ClassVar[str] = "paced"
    undoable: ClassVar[bool] = False
    by_load: bool


@dataclass(frozen=True, slots=True, repr=False, eq=False)
class Adopted(Event):
    """The kit file was changed, and the new text was taken over.

    ``steps``: how many steps the new kit has; for a glance at the journal only.
    """

    did: ClassVar[str] = "adopted"
    undoable: ClassVar[bool] = False
    kit_text: str
    steps: int = 0


@dataclass(frozen=True, slots=True, repr=False, eq=False)
class Mended(Event):
    """Something had gone wrong, and a way out was chosen: the work differs from the kit's.

    ``mending``: how, as text, see `model.rescue.mendingtext`. ``what``: a code of what had
    happened. ``step``: at which step. ``way``: a code of the way that was chosen. ``steps``:
    how many steps there are then, and ``done``, how many of them are done; for a glance at the
    journal only.
    """

    did: ClassVar[str] = "mended"
    mending: str
    what: str = ""
    step: str = ""
    way: str = ""
    steps: int = 0
    done: int = 0


@dataclass(frozen=True, slots=True, repr=False, eq=False)
class Ended(Event):
    """With the event before it, nothing is left to do; for a glance at the journal only."""

    did: ClassVar[str] = "ended"
    undoable: ClassVar[bool] = False


@dataclass(frozen=True, slots=True, repr=False, eq=False)
class Foreign(Event):
    """An event of a later kind: kept and passed over.

    Attributes:
        kind: Its name in the journal.
    """

    did: ClassVar[str] = ""
    undoable: ClassVar[bool] = False
    kind: str
    data: Mapping[str, Value] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Entry:
    """An event as it was said.

    Attributes:
        n: Its number; numbers only rise, and some may be missing from a damaged journal.
        at: When it was said; always with a time zone.
        event: The event.
        part_of: The number of the first event of the answer that it is part of; 0 when it
            stands alone. Undo and redo treat a whole answer as one.
    """

    n: int
    at: datetime
    event: Event
    part_of: int = 0


_KINDS: dict[str, type[Event]] = {
    kind.did: kind
    for kind in (
        Done,
        Filed,
        Scrapped,
        Moved,
        Left,
        Settled,
        Skipped,
        Extra,
        Deferred,
        TakenUp,
        Checked,
        Missed,
        Retracted,
        Restored,
        Withdrawn,
        Sat,
        Paced,
        Adopted,
        Mended,
        Ended,
    )
}
_TYPES: dict[object, type] = {"str": str, "int": int, "bool": bool}
_FIELDS: dict[type[Event], tuple[tuple[str, type, object], ...]] = {
    kind: tuple((f.name, _TYPES[f.type], f.default) for f in fields(kind))
    for kind in _KINDS.values()
}
_NUMBER, _PART = "event", "with"
_FRAME = frozenset({"n", _NUMBER, _PART, "at", "did"})


def to_record(entry: Entry) -> dict[str, Value]:
    """An entry as a flat record of the journal.

    Args:
        entry: The entry.

    Returns:
        Its keys and values, those that say nothing new left out.
    """
    event = entry.event
    said: dict[str, Value] = {}
    did = event.did
    if isinstance(event, Foreign):
        did = event.kind
        said.update(event.data)
    else:
        for name, _, default in _FIELDS[type(event)]:
            value = getattr(event, name)
            if value != default:
                said[name] = value
    record: dict[str, Value] = {"at": entry.at, "did": did, **said}
    if entry.part_of:
        record[_PART] = entry.part_of
    record[_NUMBER] = entry.n
    return record


def number_of(record: Mapping[str, Value], last: int) -> int:
    """The number of a record's event.

    Args:
        record: The record, as read.
        last: The number of the event before it, for a record that lost its own.
    """
    number = record.get(_NUMBER)
    return number if type(number) is int and number > 0 else last + 1


def from_record(n: int, record: Mapping[str, Value]) -> Entry | None:
    """An entry from a record of the journal.

    Args:
        n: Its number, see `number_of`.
        record: The record, as read.

    Returns:
        The entry; an event of an unknown kind becomes `Foreign`. None when it can't be an
        event, or a known kind lacks what it must say, or says it in another type.
    """
    at = record.get("at")
    did = record.get("did")
    if not isinstance(at, datetime) or not isinstance(did, str):
        return None
    if at.tzinfo is None:
        # Only a person's editor leaves the zone out, and times are kept in UTC.
        at = at.replace(tzinfo=UTC)
    part = record.get(_PART)
    part_of = part if type(part) is int and 0 < part < n else 0
    kind = _KINDS.get(did)
    if kind is None:
        data = {key: value for key, value in record.items() if key not in _FRAME}
        return Entry(n, at, Foreign(did, data), part_of)
    said: dict[str, Any] = {}
    for name, type_, default in _FIELDS[kind]:
        value = record.get(name)
        if value is None:
            if default is MISSING:
                return None
        elif type(value) is type_:
            said[name] = value
        else:
            return None
    return Entry(n, at, kind(**said), part_of)
