"""Whatever can go wrong is told, in each language, and its ways can be gone."""

from __future__ import annotations

import random
from collections.abc import Iterator
from pathlib import Path

import pytest

from model.account import account_of
from model.language import words_of
from model.length import parse_length
from model.moment import moment_of
from model.plan import Step
from model.report import report_text
from model.rescue.choices import (
    cuts_made,
    may_be_missing,
    may_be_ruined,
    may_be_taken,
    possible,
    should_be,
    sides_of,
)
from model.rescue.mishap import CannotBe, Mishap, What
from model.rescue.preview import shown, steps_of
from model.rescue.rescue import Rescue
from model.session import Session
from model.settings import Settings
from tests.screens import begun

LOOKS = [Settings(), Settings(language="nl", units="mm", ruler="1 mm", ascii=True)]


def mishaps(session: Session, chance: random.Random) -> Iterator[Mishap]:
    """One of each sort that can be said now, at a cut of any time."""
    state, cuts = session.state, cuts_made(session.state)
    step: Step | None = chance.choice(cuts).step if cuts else None
    by = parse_length(chance.choice(["1/8 in", "1/4 in", "1 in", "3 mm"]), session.plan.kit.unit)
    for what, why in possible(state, step).items():
        if why:
            continue
        if what in (What.RUINED, What.MISSING):
            lots = may_be_ruined(state) if what is What.RUINED else may_be_missing(state)
            yield Mishap(what, thing=chance.choice(lots).item.id)
            continue
        assert step is not None
        if what is What.PIECE:
            yield Mishap(what, step.load, thing=chance.choice(may_be_taken(state, step)).item.id)
        elif what in (What.MARK, What.MEASURE):
            thing = chance.choice(sides_of(step)) if what is What.MEASURE else ""
            should = should_be(step, what, thing)
            assert should is not None
            yield Mishap(what, step.id, should + chance.choice([by, -by]), thing)
        else:
            yield Mishap(what, step.load)


def told(session: Session, mishap: Mishap) -> Rescue | None:
    """Say all that is said of a mishap, in each look; its ways, where it can have been so."""
    each = [words_of(session.plan, look.manner(session.plan.kit.unit)) for look in LOOKS]
    try:
        rescue = Rescue(session, mishap)
    except CannotBe as error:
        assert all(words.cannot_be(error, mishap).endswith(".") for words in each)
        return None
    rescue.search(deep=False)
    lost = len(rescue.lost)
    for words in each:
        said = [words.mishap_said(mishap), *(words.touched(one) for one in rescue.touched)]
        said.append(words.lost(rescue.lost) if lost else words.nothing_lost())
        for way in rescue.ways:
            said += [words.way_does(way), words.way_costs(way, rescue.touched, session.state)]
            saves = words.way_saves(way, lost)
            assert bool(saves) == bool(lost or way.missing)
            for step in steps_of(way, session.state):
                said.append(shown(way, step, session.state, words.manner).sentence)
            words.first_do(way, rescue.touched, session.state)
        assert all(said), mishap
    return rescue


@pytest.mark.parametrize("kit", ["postcard", "cards", "harbour"])
@pytest.mark.parametrize("seed", range(3))
def test_whatever_goes_wrong_is_told_and_can_be_gone_on_with(
    kit: str, seed: int, tmp_path: Path
) -> None:
    chance = random.Random(f"{kit} {seed}")
    session = begun(kit, tmp_path)
    gone = 0
    while session.next().taken:
        if chance.random() > 0.06:
            continue
        before, said = session.state.snapshot(), session.said
        rescues = [told(session, mishap) for mishap in mishaps(session, chance)]
        assert (session.state.snapshot(), session.said) == (before, said)
        rescue = chance.choice(rescues) if rescues else None
        if rescue is not None and rescue.ways and gone < 2:
            gone += rescue.choose(chance.choice(rescue.ways)).taken
    account = account_of(session)
    assert account.finished and len(account.mended) == gone
    for look in LOOKS:
        manner = look.manner(session.plan.kit.unit)
        assert report_text(session, account, manner)
        assert moment_of(session, manner).over
