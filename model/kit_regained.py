"""The kit of a session whose own copy of it is damaged, regained from a kit that is at hand.

A session notes the digest of its kit's text. A text with that digest is the very kit that the
session began with, wherever it was found. Without a digest nothing proves it, and a mark that
differs would cost paper. Such a kit is taken only when each line that is left of the session's own
copy stands in it, in order, when there is no second one like it, and when all that was said can be
said of it; and the crafter is told to compare. To refuse it would be no safer: no other kit could
ever be proved, and all that was done would be of no use.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import replace
from datetime import datetime
from pathlib import Path

from model.event import Entry, from_record, number_of
from model.folders import demo_folder, kept_in
from model.journal import JournalError, Reading, Record, Trouble, Value, read_journal
from model.journal_read import rest_trouble
from model.plan import Plan
from model.reading import Reader
from model.session_file import SessionError, digest, is_session, text_of
from model.story import fold

_KEYS = ("kit", "edition", "source", "digest", "started", "steps", "kit_text")
_DIGEST = re.compile(r"[0-9a-f]{64}")
_TITLE = re.compile(r'title = "([^"\\]+)"')
_GLANCE = 4096
"""Bytes at the beginning of a session's file in which its digest stands."""


def with_kit(reading: Reading, path: Path, read: Reader) -> Reading:
    """What a session's file holds, with the kit that it began with.

    Args:
        reading: The file, as read.
        path: The file.
        read: Reads a kit's text.

    Returns:
        The same when its kit is sound. Else with the kit from somewhere else, with all keys of
        the head that can be told from it, and with a word about it.

    Raises:
        SessionError: Its kit is damaged, and is nowhere at hand.
    """
    text, wanted = reading.header.get("kit_text"), _wanted(reading)
    if isinstance(text, str) and (not wanted or digest(text) == wanted):
        return _filled(reading, text, None, "", read) if reading.head_damaged else reading
    if wanted:
        for where, found in _kept_here(reading, path):
            if digest(found) == wanted:
                return _filled(reading, found, None, where, read)
        for file, found in _kits_at_hand(reading, path):
            if digest(found) == wanted:
                where = f"It was taken from {file}, which is that very kit: its digest is the same"
                return _filled(reading, found, file, where, read)
    if isinstance(text, str):
        if _accepts(text, reading.records, read):
            return _filled(reading, text, None, _DOUBTFUL, read)
    elif not wanted:
        agreeing = {
            found: file
            for file, found in _kits_at_hand(reading, path)
            if _agrees(found, reading) and _accepts(found, reading.records, read)
        }
        if len(agreeing) == 1:
            ((found, file),) = agreeing.items()
            return _filled(reading, found, file, _LIKELY.format(file=file), read)
    raise SessionError(_needed(reading, path))


_DOUBTFUL = (
    "It is used as it stands, since all that you did fits it; but its digest is not the one that"
    " was noted, so a word or a number of it may have changed. Compare each mark with your"
    " instruction sheet before you cut"
)
_LIKELY = (
    "It was taken from {file}, which agrees with every line that is left and with all that you"
    " did. No digest is left to prove it, so compare each mark with your instruction sheet before"
    " you cut"
)


def _wanted(reading: Reading) -> str:
    """The digest of the kit that is wanted; empty when none can be read."""
    noted = reading.header.get("digest")
    return noted if isinstance(noted, str) and _DIGEST.fullmatch(noted) else ""


def _kept_here(reading: Reading, path: Path) -> Iterator[tuple[str, str]]:
    """Texts that the file itself holds, or another session beside it."""
    for rest in reading.rests:
        lines = rest.lines
        for stop in range(len(lines), max(len(lines) - 3, 0), -1):
            kept = [line for line in lines[:stop] if line is not None]
            if len(kept) == stop:  # only the end of the text was spoilt
                yield "Its text could still be read as a whole", "\n".join(kept)
                yield "Its text could still be read as a whole", "\n".join([*kept, ""])
    wanted = _wanted(reading).encode()
    for file in _toml_files(path.parent):
        if file.name != path.name and wanted in _beginning(file):
            try:
                text = read_journal(file).header.get("kit_text")
            except JournalError:
                continue
            if isinstance(text, str):
                where = f"It was taken from another session, {file.name}, which keeps the same one"
                yield where, text


def _kits_at_hand(reading: Reading, path: Path) -> Iterator[tuple[Path, str]]:
    """Kit files: the session's own, the demo kits, the user's, those beside the session."""
    source = reading.header.get("source")
    files = [Path(source)] if isinstance(source, str) and "\0" not in source else []
    kits = kept_in()[1]
    for folder in (demo_folder(), *([kits] if kits else []), path.parent):
        files += _toml_files(folder)
    for file in files:
        if not is_session(file):
            text = text_of(file)
            if text is not None:
                yield file, text


def _toml_files(folder: Path) -> list[Path]:
    try:
        return sorted(file for file in folder.iterdir() if file.suffix == ".toml")
    except OSError:
        return []


def _beginning(file: Path) -> bytes:
    try:
        with file.open("rb") as opened:
            return opened.read(_GLANCE)
    except OSError:
        return b""


def _agrees(text: str, reading: Reading) -> bool:
    """Whether a kit's text holds all that is left of the damaged one, which is most of it."""
    lines = text.split("\n")
    steps = iter(lines)
    for rest in reading.rests:
        kept = [line for line in rest.lines if line is not None]
        if rest.key in ("kit_text", "") and 2 * len(kept) >= len(lines):
            # Each line is looked for behind the one before it.
            return all(line in steps for line in kept)
    return False


def _accepts(text: str, records: Sequence[Record], read: Reader) -> bool:
    """Whether all that was said can be said of this kit."""
    plan = read(text).plan
    if plan is None:
        return False
    entries: list[Entry] = []
    for record in records:
        last = entries[-1].n if entries else 0
        n = number_of(record, last)
        entry = from_record(n, record)
        if entry is None or n <= last:
            return False
        entries.append(entry)
    return not fold(plan, entries, lambda changed: read(changed).plan).ignored


def _filled(reading: Reading, text: str, file: Path | None, word: str, read: Reader) -> Reading:
    """The reading with this kit, and with what can be told from it of the rest of the head."""
    header: dict[str, Value] = dict(reading.header)
    plan = read(text).plan
    if reading.head_damaged:
        header = {key: value for key, value in header.items() if key in _KEYS}
        if plan is not None:
            header |= _told_by(plan, reading, file)
    header |= {"digest": digest(text), "kit_text": text}
    last = ("digest", "started", "steps", "kit_text")  # a glance need not read the kit's text
    ordered = {key: value for key, value in header.items() if key not in last}
    ordered |= {key: header[key] for key in last if key in header}
    troubles = reading.troubles
    if word:
        spoilt = [rest_trouble(rest) for rest in reading.rests]
        line = spoilt[0].line if spoilt else 1
        place = f"line {line}: the" if spoilt else "The"
        said = f"{place} session's own copy of the kit is damaged. {word}."
        others = (trouble for trouble in troubles if trouble not in spoilt)
        troubles = (*others, Trouble("damaged", line, said))
    return replace(reading, header=ordered, troubles=troubles)


def _told_by(plan: Plan, reading: Reading, file: Path | None) -> dict[str, Value]:
    """What a head says that can be told from the kit and from what was done."""
    told: dict[str, Value] = {"kit": plan.kit.title, "steps": len(plan.steps)}
    if plan.kit.edition:
        told["edition"] = plan.kit.edition
    if not isinstance(reading.header.get("source"), str) and file is not None:
        told["source"] = str(file.resolve())
    if not isinstance(reading.header.get("started"), datetime):
        first = next((record["at"] for record in reading.records if "at" in record), None)
        if isinstance(first, datetime):
            told["started"] = first
    return told


def _needed(reading: Reading, path: Path) -> str:
    """Which kit is needed, and what to do."""
    header = reading.header
    title, edition, source = (header.get(key) for key in ("kit", "edition", "source"))
    if not isinstance(title, str):
        lines = [line or "" for rest in reading.rests for line in rest.lines]
        title = next((found[1] for line in lines if (found := _TITLE.fullmatch(line))), None)
    name = title if isinstance(title, str) else "its title can't be read any more"
    if isinstance(edition, str):
        name += f", edition {edition}"
    if isinstance(source, str):
        name += f", file {Path(source).name}"
    kits = kept_in()[1]
    place = f"into the folder {kits}, or beside the session's file," if kits else "beside it"
    count = len(reading.records)
    entries = "its only entry" if count == 1 else f"all {count} entries that can be read"
    doubt = "" if _wanted(reading) else (
        " Its digest is lost too, so only a kit is taken that agrees with every line that is left."
    )  # fmt: skip
    return (
        f"the copy of the kit that {path} keeps is damaged, and no kit at hand is the same."
        f" Needed is the kit as it was when the session began: {name}. Put its file {place} and"
        f" open the session again.{doubt} The session's file has been left as it is, with"
        f" {entries}"
    )
