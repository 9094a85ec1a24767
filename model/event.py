"""What a crafter said they did: the events of a session, and their form in the journal.

An event names things and steps by the plan's identities, and pockets by their labels, so
that it can be read by a person and outlives changes to the kit.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, fields
from datetime import datetime
from typing import ClassVar

Value = str | int | bool | datetime | list[str]


@dataclass(frozen=True, slots=True)
class Event:
    """Something that was said."""

    did: ClassVar[str] = ""
    undoable: ClassVar[bool] = True


@dataclass(frozen=True, slots=True)
class Done(Event):
    """A step was done. ``into``: the pocket, when a filling went into another one."""

    did: ClassVar[str] = "done"
    step: str
    into: str = ""


@dataclass(frozen=True, slots=True)
class Filed(Event):
    """A thing from the pile went into a pocket."""

    did: ClassVar[str] = "filed"
    item: str
    pocket: str


@dataclass(frozen=True, slots=True)
class Scrapped(Event):
    """A thing was thrown to the scraps."""

    did: ClassVar[str] = "scrapped"
    item: str


@dataclass(frozen=True, slots=True)
class Moved(Event):
    """A thing that was filed or thrown away went into another pocket.

    An empty pocket means back onto the pile.
    """

    did: ClassVar[str] = "moved"
    item: str
    pocket: str


@dataclass(frozen=True, slots=True)
class Left(Event):
    """A warning was read and left for later."""

    did: ClassVar[str] = "left"
    warning: str


@dataclass(frozen=True, slots=True)
class Settled(Event):
    """A warning was answered: nothing needs to move."""

    did: ClassVar[str] = "settled"
    warning: str


@dataclass(frozen=True, slots=True)
class Skipped(Event):
    """An optional step was left out."""

    did: ClassVar[str] = "skipped"
    step: str


@dataclass(frozen=True, slots=True)
class Extra(Event):
    """A scrap turned up that the kit does not expect."""

    did: ClassVar[str] = "extra"


@dataclass(frozen=True, slots=True)
class Retracted(Event):
    """An earlier event was taken back (undo)."""

    did: ClassVar[str] = "retracted"
    undoable: ClassVar[bool] = False
    of: int


@dataclass(frozen=True, slots=True)
class Restored(Event):
    """A retracted event was said again (redo)."""

    did: ClassVar[str] = "restored"
    undoable: ClassVar[bool] = False
    of: int


@dataclass(frozen=True, slots=True)
class Sat(Event):
    """A sitting began: the program was started on this session."""

    did: ClassVar[str] = "sat"
    undoable: ClassVar[bool] = False


@dataclass(frozen=True, slots=True)
class Paced(Event):
    """How pieces are filed was chosen: after each load, or after each cut."""

    did: ClassVar[str] = "paced"
    undoable: ClassVar[bool] = False
    by_load: bool


@dataclass(frozen=True, slots=True)
class Adopted(Event):
    """The kit file was changed, and the new text was taken over."""

    did: ClassVar[str] = "adopted"
    undoable: ClassVar[bool] = False
    kit_text: str


@dataclass(frozen=True, slots=True)
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
    """An event with its number in the journal and when it was said (UTC)."""

    n: int
    at: datetime
    event: Event


_KINDS: dict[str, type[Event]] = {
    kind.did: kind
    for kind in (
        Done, Filed, Scrapped, Moved, Left, Settled, Skipped, Extra,
        Retracted, Restored, Sat, Paced, Adopted,
    )
}
_FIELDS = {kind: tuple((f.name, f.type, f.default) for f in fields(kind))
           for kind in _KINDS.values()}
_TYPES: dict[object, type] = {"str": str, "int": int, "bool": bool}


def to_record(event: Event, at: datetime) -> dict[str, Value]:
    """The event as a flat record of the journal, without its number."""
    record: dict[str, Value] = {"at": at, "did": event.did}
    if isinstance(event, Foreign):
        return {**event.data, "at": at, "did": event.kind}
    for name, _, default in _FIELDS[type(event)]:
        value = getattr(event, name)
        if value != default:
            record[name] = value
    return record


def from_record(n: int, record: Mapping[str, Value]) -> Entry | None:
    """An event from a record of the journal.

    Args:
        n: Its number.
        record: The record, as read.

    Returns:
        The entry; an event of an unknown kind becomes `Foreign`. None when a known kind
        lacks what it must say, or says it in another type.
    """
    at = record.get("at")
    did = record.get("did")
    if not isinstance(at, datetime) or not isinstance(did, str):
        return None
    kind = _KINDS.get(did)
    if kind is None:
        return Entry(n, at, Foreign(did, {k: v for k, v in record.items() if k != "n"}))
    said: dict[str, Value] = {}
    for name, type_name, _ in _FIELDS[kind]:
        value = record.get(name)
        if value is None:
            continue
        if type(value) is not _TYPES[type_name]:
            return None
        said[name] = value
    try:
        return Entry(n, at, kind(**said))
    except TypeError:
        return None
