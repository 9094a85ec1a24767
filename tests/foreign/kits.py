"""The demo kits with their names in other letters, so that no name hides a word of a screen."""

from __future__ import annotations

import re
from pathlib import Path

from model.folders import demo_kit
from model.plan import Plan
from model.reading import read_kit
from model.session import Session
from tests.foreign import foreign
from tests.screens import Clock

_LATIN = re.compile(r"[A-Za-z]{2,}")
_STRING = re.compile(r'((?:face|reverse|colour|lay)\s*=\s*)?"([^"\n]*)"')


def names_of(plan: Plan) -> set[str]:
    """The names that a kit gives: its title, and those of papers, things and landmarks."""
    kit = plan.kit
    names = {kit.title, *kit.kinds, *(each.name for each in kit.set_asides)}
    for item in plan.items.values():
        names |= {item.name, item.sheet}
        if item.paper is not None:
            names |= {item.paper.face.name, item.paper.reverse.name, *item.paper.landmarks}
    # The bases of several pages are called by one name and the page.
    return (names | {name.rstrip("0123456789 ") for name in names}) - {"scrap"}


def foreign_kit(kit: str) -> str:
    """A demo kit whose names are in other letters; its colours, which are read, are not."""
    path = demo_kit(kit)
    assert path is not None
    text = path.read_text(encoding="utf-8")
    plan = read_kit(text).plan
    assert plan is not None
    names = {name for name in names_of(plan) if _LATIN.search(name)}
    marks = {mark for i in plan.items.values() if i.paper for mark in i.paper.landmarks}

    def put(found: re.Match[str]) -> str:
        key, said = found[1] or "", found[2]
        if key.startswith("lay"):
            for mark in marks:
                said = said.replace(mark, foreign(mark))
        elif not key and said in names:
            said = foreign(said)
        return f'{key}"{said}"'

    return _STRING.sub(put, text)


def foreign_session(kit: str, folder: Path) -> Session:
    """A session of such a kit."""
    path = folder / "kits" / f"{kit}.toml"
    path.parent.mkdir(exist_ok=True)
    path.write_text(foreign_kit(kit), encoding="utf-8")
    return Session.start(read_kit(foreign_kit(kit)), path, folder, clock=Clock())
