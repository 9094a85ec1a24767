"""Every screen in every look, at several sizes, against what was looked at and found good.

The texts are kept to be read; of the styles there is a digest for each look. After a change that
is meant: ``DRYFIT_SNAPSHOTS=write python -m pytest tests/test_snapshots.py``, then look at the
difference, and at the screens whose digests changed as pictures (see DEVELOPERS.md).
"""

from __future__ import annotations

import os
import re
from pathlib import Path

import pytest

from tests.pictures import (
    FOLDER,
    LOOKS,
    NAMES,
    PLAIN,
    SIZES,
    Shot,
    take_all,
)

DIGESTS = FOLDER / "looks.txt"
WRITE = os.environ.get("DRYFIT_SNAPSHOTS") == "write"
Pictures = dict[Shot, tuple[str, str]]


@pytest.fixture(scope="module")
def pictures(tmp_path_factory: pytest.TempPathFactory) -> Pictures:
    """Text and digest of each."""
    found = take_all(tmp_path_factory.mktemp("pictures"))
    if WRITE:
        FOLDER.mkdir(exist_ok=True)
        for name in NAMES:
            for size in SIZES:
                _file(name, size).write_text(found[name, LOOKS[0], size][0] + "\n", "utf-8")
        DIGESTS.write_text("".join(f"{line}\n" for line in _lines(found)), "utf-8")
    return found


def _file(name: str, size: tuple[int, int]) -> Path:
    return FOLDER / f"{name}-{size[0]}x{size[1]}.txt"


def _lines(found: Pictures) -> list[str]:
    return [
        f"{name} {size[0]}x{size[1]} "
        + " ".join(f"{look}:{found[name, look, size][1]}" for look in LOOKS)
        for name in sorted(NAMES)
        for size in SIZES
    ]


@pytest.mark.parametrize("size", SIZES, ids=lambda size: f"{size[0]}x{size[1]}")
@pytest.mark.parametrize("name", NAMES)
def test_the_screen_is_as_it_was(pictures: Pictures, name: str, size: tuple[int, int]) -> None:
    shown = pictures[name, LOOKS[0], size][0] + "\n"
    assert shown == _file(name, size).read_text(encoding="utf-8")


def test_every_style_of_every_look_is_as_it_was(pictures: Pictures) -> None:
    kept = DIGESTS.read_text(encoding="utf-8").splitlines()
    changed = [line for line in _lines(pictures) if line not in set(kept)]
    assert not changed
    assert len(kept) == len(NAMES) * len(SIZES)


@pytest.mark.parametrize("look", LOOKS[1:-1])
def test_a_theme_changes_no_word(pictures: Pictures, look: str) -> None:
    for name in NAMES:
        for size in SIZES:
            assert pictures[name, look, size][0] == pictures[name, LOOKS[0], size][0], (name, size)


def test_the_plain_look_is_ascii(pictures: Pictures) -> None:
    for (name, look, size), (text, _) in pictures.items():
        if look == PLAIN:
            # Cells in reverse, which `text_of` shows as blocks, are blanks.
            odd = {char for char in text.replace("█", "") if not char.isascii()}
            assert not odd, (name, size, odd)


def test_each_picture_is_of_another_screen(pictures: Pictures) -> None:
    for size in SIZES:
        shown = [pictures[name, LOOKS[0], size][0] for name in NAMES]
        assert len(set(shown)) == len(NAMES)
        for name, text in zip(NAMES, shown, strict=True):
            rows = text.split("\n")
            assert len(rows) == size[1] and max(map(len, rows)) <= size[0], (name, size)


def test_there_are_no_pictures_of_screens_that_are_gone() -> None:
    kept = {re.sub(r"-\d+x\d+$", "", path.stem) for path in FOLDER.glob("*x*.txt")}
    assert kept == set(NAMES)
