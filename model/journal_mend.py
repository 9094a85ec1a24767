"""The names of the files in which a damaged session goes on."""

from __future__ import annotations

import contextlib
import os
import re
from collections.abc import Iterable
from pathlib import Path

from model.journal_read import JournalError, read_journal

_MENDED = re.compile(r"(.+)\.mended(?:-\d+)?")


def mended_copy(path: Path) -> Path | None:
    """The newest file that says it continues the damaged file at this path, or None.

    Who lists sessions shows that one in its place.
    """
    newest: Path | None = None
    for candidate in _mended_names(path):
        if not candidate.exists():
            return newest
        with contextlib.suppress(JournalError):
            if read_journal(candidate).mended_from == path.name:
                newest = candidate
    return newest


def _mended_names(path: Path) -> Iterable[Path]:
    """`tin.toml`: tin.mended.toml, tin.mended-2.toml, tin.mended-3.toml ..."""
    known = _MENDED.fullmatch(path.stem)
    stem = known.group(1) if known else path.stem
    yield path.with_name(f"{stem}.mended{path.suffix}")
    for count in range(2, 10_000):
        yield path.with_name(f"{stem}.mended-{count}{path.suffix}")


def free_name(path: Path) -> Path:
    """The first name for a mended file that nothing has yet."""
    for candidate in _mended_names(path):
        if not os.path.lexists(candidate):
            return candidate
    raise JournalError(f"the file {path} has been mended too often")
