"""Crafters who err: short ways to say right and wrong things in a session."""

from __future__ import annotations

import random
from pathlib import Path

from model.disk import SystemDisk
from model.event import Entry, Extra, from_record, number_of
from model.journal import read_journal
from model.plan import Plan
from model.reading import read_kit
from model.session import Session


class QuickDisk(SystemDisk):
    """The real disk, without waiting for it: for tests that pull no plug."""

    def sync(self, fd: int) -> None:
        """Do not wait."""

    def sync_folder(self, folder: Path) -> None:
        """Do not wait."""


def entries_of(path: Path) -> list[Entry]:
    """The entries of a session's file."""
    found: list[Entry] = []
    for record in read_journal(path).records:
        n = number_of(record, found[-1].n if found else 0)
        entry = from_record(n, record)
        assert entry is not None
        found.append(entry)
    return found


def plan_of_text(text: str) -> Plan:
    """The plan of a sound kit."""
    plan = read_kit(text).plan
    assert plan is not None
    return plan


def put_all_right(session: Session) -> None:
    """Answer every warning by putting it right."""
    while session.state.warnings:
        warning = next(iter(session.state.warnings.values()))
        assert session.put_right(warning).taken


def finish(session: Session) -> None:
    """Put right what is wrong, and do what is due until nothing is."""
    while not session.state.due().over or session.state.warnings:
        put_all_right(session)
        session.next()


def undo_as_asked(session: Session, rng: random.Random) -> None:
    """Undo; when it is asked whether the paper is cut, any of the answers."""
    answer = rng.choice(("not", "word", "made")) if session.undo_unmakes_cut() else "not"
    if answer == "not":
        session.undo()
    elif answer == "word":
        session.undo_word()


def muddle(session: Session, rng: random.Random, least: int = 0) -> None:
    """Say one thing; most often the right one.

    Args:
        session: The session.
        rng: Decides.
        least: How many wrong things in a hundred, about.
    """
    pockets = len(session.plan.kit.pockets)
    step = session.state.due().step
    if step is not None and step.optional and rng.random() < 0.5:
        session.skip()
    elif rng.randrange(100) >= least:
        session.next()
    else:
        doing = rng.randrange(15)
        warnings = list(session.state.warnings.values())
        if doing == 0:
            session.scrap()
        elif doing == 1:
            undo_as_asked(session, rng)
        elif doing == 2:
            session.redo()
        elif doing == 3 and warnings:
            session.put_right(rng.choice(warnings))
        elif doing == 4 and warnings:
            session.leave(rng.choice(warnings))
        elif doing == 5:
            session.pace_by(rng.random() < 0.5)
        elif doing == 6 and session.state.place:
            session.move(rng.choice(list(session.state.place)), rng.randrange(pockets))
        elif doing == 7 and session.state.pile:
            session.file_into(rng.randrange(pockets), rng.choice(session.state.pile))
        elif doing == 8 and warnings:
            session.answer(rng.choice(warnings), rng.randrange(pockets))
        elif doing == 9:
            session.say(Extra())
        elif doing == 10:
            session.defer(rng.choice(session.plan.kit.sheets).name)
        elif doing == 11 and session.state.deferred:
            session.take_up(rng.choice(list(session.state.deferred)))
        elif doing == 12 and session.state.place:
            session.missed(rng.choice(list(session.state.place)))
        elif doing == 13:
            session.checked(rng.randrange(pockets))
        else:
            session.file_into(rng.randrange(pockets))
