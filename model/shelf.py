"""The shelf: kits at hand, and sessions that were begun.

A glance has to be quick with hundreds of sessions, so files are not read as TOML from end to
end: of a kit the head is read, of a session the head, and of its records the lines that tell
what was done. That the glance tells what the fold of the whole session would is held by
`tests/test_shelf.py`, over random runs. Where it can't tell, the session is folded after all:
when nothing but filing is left, and when a file was mended, so that its journal has holes.
"""

from __future__ import annotations

import hashlib
import re
import tomllib
from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from model.folders import demo_folder
from model.journal_text import first_record
from model.limits import MOST_BYTES


@dataclass(frozen=True, slots=True)
class KitOnShelf:
    """A kit file at hand, as its head says.

    Attributes:
        path: The file.
        title: Its title; the file's name when it can't be read.
        pages: How many pages, 0 when not known.
        note: The first line of the author's note.
        trouble: Why it can't be read; empty when its head can.
        demo: It came with dryfit.
    """

    path: Path
    title: str
    pages: int
    note: str
    trouble: str
    demo: bool


@dataclass(frozen=True, slots=True)
class SessionOnShelf:
    """A session that was begun.

    Attributes:
        path: Its file.
        title: Its kit's title.
        done: Steps done or left out.
        steps: Steps in all; 0 when not known.
        touched: When something was last said in it. (The time of its file is only that of a
            copy, when it was copied.)
        trouble: Why it can't be read; empty when it can.
        finished: Nothing is left to do: all steps are done and everything is filed.
        to_file: When all steps are done: how many things are still to be filed.
    """

    path: Path
    title: str
    done: int
    steps: int
    touched: datetime
    trouble: str
    finished: bool = False
    to_file: int = 0


def kits_at_hand(folders: Iterable[Path]) -> list[KitOnShelf]:
    """The demo kits, the one to begin with first, then those of other folders.

    Args:
        folders: Folders of the user's; one that is not there holds none.
    """
    demos = [_kit(path, True) for path in _toml_files(demo_folder())]
    found = sorted(demos, key=lambda kit: (bool(kit.trouble), kit.pages, kit.title))
    for folder in folders:
        found += [_kit(path, False) for path in _toml_files(folder)]
    return found


def sessions_in(folder: Path | None) -> list[SessionOnShelf]:
    """The sessions of a folder, the one touched last first.

    A damaged session that goes on in a mended file is shown as that one.

    Args:
        folder: Where sessions are kept; None, or one that is not there, holds none.
    """
    if folder is None:
        return []
    found: list[SessionOnShelf] = []
    mended: set[str] = set()
    for path in _toml_files(folder):
        session, continues = _session(path)
        found.append(session)
        mended.add(continues)
    shown = [session for session in found if session.path.name not in mended]
    return sorted(shown, key=lambda session: session.touched, reverse=True)


def _toml_files(folder: Path) -> list[Path]:
    try:
        return sorted(path for path in folder.iterdir() if _is_toml(path))
    except OSError:
        return []


def _is_toml(path: Path) -> bool:
    # Drafts that a stopped program left behind begin with a dot.
    return path.suffix == ".toml" and not path.name.startswith(".")


# Kits

_TABLE = re.compile(r"^[ \t]*\[", re.MULTILINE)


def _kit(path: Path, demo: bool) -> KitOnShelf:
    try:
        with path.open("rb") as file:
            text = file.read(MOST_BYTES).decode("utf-8-sig", errors="replace")
        head = _head_of_kit(text.replace("\r\n", "\n"))
    except (OSError, tomllib.TOMLDecodeError, RecursionError) as error:
        return KitOnShelf(path, path.stem, 0, "", str(error), demo)
    pages = head.get("pages", 0)
    return KitOnShelf(
        path,
        title=str(head.get("title", path.stem)),
        pages=pages if isinstance(pages, int) else 0,
        note=str(head.get("note", "")).strip().partition("\n")[0],
        trouble="" if "dryfit" in head else "this is no kit file",
        demo=demo,
    )


def _head_of_kit(text: str) -> dict[str, Any]:
    """The keys before the first table.

    Raises:
        tomllib.TOMLDecodeError: They can't be read.
    """
    # A line in a long text may look like a table; then the head ends later.
    tries = 0
    for table in _TABLE.finditer(text):
        try:
            return tomllib.loads(text[: table.start()])
        except tomllib.TOMLDecodeError:
            tries += 1
            if tries == 20:
                break
    return tomllib.loads(text)


# Sessions

_TOLD = re.compile(rb'^(did|of|event|steps|done|at|n) = "?([\w:.+-]+)"?\r?$', re.MULTILINE)
_STARTS_AGAIN = frozenset(
    b"done filed scrapped moved left settled skipped extra retracted withdrawn restored "
    b"adopted mended".split()
)
"""What may follow the end of a run and open it again."""


@dataclass(frozen=True, slots=True)
class _Glance:
    """What the records of a session tell at a glance.

    Attributes:
        done: Steps done or left out.
        steps: Steps in all.
        finished: Nothing is left to do.
        at: When something was last said; empty when nothing was.
        sure: Whether that can be told at a glance.
    """

    done: int
    steps: int
    finished: bool
    at: str
    sure: bool


def _session(path: Path) -> tuple[SessionOnShelf, str]:
    """A session, and the name of the damaged file that it continues, if any."""
    from model.journal_read import JournalError, load_bytes, read_journal

    touched = datetime.fromtimestamp(0, UTC)
    try:
        touched = datetime.fromtimestamp(path.stat().st_mtime, UTC)
        data = load_bytes(path)
        head, said = _head_of_session(data), ""
        sound = head is not None and "kit" in head and _keeps_its_kit(data, head)
        if head is None or not sound:
            reading = read_journal(path)
            head = {**reading.header, "mended_from": reading.mended_from}
            said = str(reading.records[-1].get("at", "")) if reading.records else ""
    except (JournalError, OSError) as error:
        return SessionOnShelf(path, path.stem, 0, 0, touched, str(error)), ""
    steps = head.get("steps", 0)
    glance = _glance(data, steps if isinstance(steps, int) else 0)
    title, mended = str(head.get("kit", path.stem)), str(head.get("mended_from", ""))
    touched = _time(said or glance.at) or _time(str(head.get("started", ""))) or touched
    seen = SessionOnShelf(path, title, glance.done, glance.steps, touched, "", glance.finished)
    if (
        not sound
        or mended
        or not glance.sure
        or (0 < glance.steps <= glance.done and not glance.finished)
    ):
        seen = _folded(seen)
    return seen, mended


def _folded(seen: SessionOnShelf) -> SessionOnShelf:
    """What the whole session says, read as when it is gone on with."""
    from model.session import Session, SessionError

    try:
        session = Session.watch(seen.path)
    except SessionError as error:
        return replace(seen, trouble=str(error))
    state, steps = session.state, len(session.plan.steps)
    over = state.due().over
    to_file = state.waiting if state.steps_done == steps else 0
    title = str(session.header.get("kit", session.plan.kit.title))
    return replace(
        seen, title=title, done=state.steps_done, steps=steps, finished=over, to_file=to_file
    )


def _time(text: str) -> datetime | None:
    try:
        at = datetime.fromisoformat(text)
    except ValueError:
        return None
    return at if at.tzinfo else at.replace(tzinfo=UTC)


def _head_of_session(data: bytes) -> dict[str, Any] | None:
    """The head without the kit's text, which comes last in it; None when it is not so."""
    end = data.find(b"\nkit_text = ")
    try:
        session = tomllib.loads(data[: max(end, 0)].decode()).get("session")
    except (ValueError, RecursionError):
        return None
    return session if isinstance(session, dict) else None


_KIT_TEXT = re.compile(rb'\nkit_text = """\n(.*?)"""\nn = 0\n', re.DOTALL)
_ESCAPED = re.compile(rb'\\(["\\])')


def _keeps_its_kit(data: bytes, head: dict[str, Any]) -> bool:
    """Whether the kit's text is the one whose digest the head notes; False when that's not sure."""
    kept = _KIT_TEXT.search(data.replace(b"\r\n", b"\n"))
    if kept is None:
        return False
    text = _ESCAPED.sub(rb"\1", kept[1])
    noted = head.get("digest")
    return noted is None or hashlib.sha256(text).hexdigest() == noted


def _glance(data: bytes, steps: int) -> _Glance:
    """What the records tell of how far a session is.

    Args:
        data: The session's file.
        steps: How many steps the kit has that the session began with.
    """
    standing: dict[bytes, int] = {}
    taken_back: dict[bytes, int] = {}
    # Mendings that stand: what was there before each, since a mending changes all of it.
    before: list[tuple[bytes, dict[bytes, int], int, int]] = []
    mended_again: dict[bytes, tuple[int, int]] = {}
    base = done = 0
    finished, sure = False, True
    last = at = did = of = event = b""
    count = 1
    for key, value in _TOLD.findall(data, first_record(data)):
        if key == b"at":
            at, did, of, event, count, done = value, b"", b"", b"", 1, 0
        elif key == b"did":
            did = value
        elif key == b"of":
            of = value
        elif key == b"steps":
            count = int(value) if value.isdigit() else 1
        elif key == b"done":
            done = int(value) if value.isdigit() else 0
        elif key == b"event":
            event = value
        else:  # the record's own number, which ends it
            last = at
            if did in (b"done", b"skipped"):
                standing[event] = count
            elif did == b"mended" or (did == b"restored" and of in mended_again):
                n = event if did == b"mended" else of
                before.append((n, standing, base, steps))
                new = (done, count) if did == b"mended" else mended_again.pop(of)
                standing, (base, steps) = {}, new
            elif did == b"retracted" and before and before[-1][0] == of:
                mended_again[of] = base, steps
                _, standing, base, steps = before.pop()
            elif any(of in each[1] for each in before) or (did == b"adopted" and before):
                sure = False  # what was said before a mending is not counted by what it is now
            elif did in (b"retracted", b"withdrawn") and of in standing:
                taken_back[of] = standing.pop(of)
            elif did == b"restored" and of in taken_back:
                standing[of] = taken_back.pop(of)
            elif did == b"adopted" and count > 1:
                steps = count
            if did == b"ended" or did in _STARTS_AGAIN:
                finished = did == b"ended"
    return _Glance(base + sum(standing.values()), steps, finished, last.decode(), sure)
