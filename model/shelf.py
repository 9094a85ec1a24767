"""The shelf: kits at hand, and sessions that were begun."""

from __future__ import annotations

import tomllib
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import UTC, datetime
from importlib.resources import files
from pathlib import Path


@dataclass(frozen=True, slots=True)
class KitOnShelf:
    """A kit file at hand, as its head says.

    Attributes:
        path: The file.
        title: Its title; the file's name when it can't be read.
        pages: How many pages, 0 when not known.
        note: The first line of the author's note.
        trouble: Why it can't be read; empty when it can.
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
        done: Steps done, about.
        steps: Steps in all.
        touched: When it was last touched.
        trouble: Why it can't be read; empty when it can.
    """

    path: Path
    title: str
    done: int
    steps: int
    touched: datetime
    trouble: str

    @property
    def finished(self) -> bool:
        """Whether all steps are done."""
        return bool(self.steps) and self.done >= self.steps


def demo_folder() -> Path:
    """The folder of the demo kits: in the wheel, or in the checkout."""
    inside = Path(str(files("model"))) / "kits"
    return inside if inside.is_dir() else Path(__file__).resolve().parent.parent / "kits"


def demo_kit(name: str) -> Path | None:
    """A demo kit by its short name; None when there is none."""
    path = demo_folder() / f"{name}.toml"
    return path if path.is_file() else None


def kits_at_hand(folders: Iterable[Path]) -> list[KitOnShelf]:
    """The demo kits, then those of other folders.

    Args:
        folders: Folders of the user's; one that is not there holds none.
    """
    found = [_kit(path, True) for path in sorted(demo_folder().glob("*.toml"))]
    for folder in folders:
        if folder.is_dir():
            found += [_kit(path, False) for path in sorted(folder.glob("*.toml"))]
    return found


def _kit(path: Path, demo: bool) -> KitOnShelf:
    try:
        with path.open("rb") as file:
            head = tomllib.load(file)
        title = str(head.get("title", path.stem))
        pages = head.get("pages", 0)
        note = str(head.get("note", "")).strip().partition("\n")[0]
        trouble = "" if "dryfit" in head else "this is no kit file"
        return KitOnShelf(path, title, pages if isinstance(pages, int) else 0, note, trouble, demo)
    except (OSError, UnicodeDecodeError, tomllib.TOMLDecodeError, RecursionError) as error:
        return KitOnShelf(path, path.stem, 0, "", str(error), demo)


def sessions_in(folder: Path | None) -> list[SessionOnShelf]:
    """The sessions of a folder, the one touched last first.

    How far one is comes from a quick look: the whole session is read when it is opened.

    Args:
        folder: Where sessions are kept; None, or one that is not there, holds none.
    """
    if folder is None or not folder.is_dir():
        return []
    found = [_session(path) for path in folder.glob("*.toml")]
    return sorted(found, key=lambda session: session.touched, reverse=True)


def _session(path: Path) -> SessionOnShelf:
    from model.journal import JournalError, read_journal

    touched = datetime.fromtimestamp(0, UTC)
    try:
        touched = datetime.fromtimestamp(path.stat().st_mtime, UTC)
        reading = read_journal(path)
    except (JournalError, OSError) as error:
        return SessionOnShelf(path, path.stem, 0, 0, touched, str(error))
    title = str(reading.header.get("kit", path.stem))
    steps = reading.header.get("steps", 0)
    standing: dict[object, str] = {}
    for record in reading.records:
        number, did = record.get("event"), str(record.get("did"))
        if did in ("done", "skipped"):
            standing[number] = did
        elif did == "retracted":
            standing.pop(record.get("of"), None)
        elif did == "restored":
            standing[record.get("of")] = "done"
    return SessionOnShelf(
        path, title, len(standing), steps if isinstance(steps, int) else 0, touched, ""
    )
