"""Finding in a crafter's own words; thin strips that the kit has spoken for; help, waiting."""

from __future__ import annotations

import pytest

from model.find import Finder
from model.folders import demo_kit
from model.language import phrases_for, words_for
from model.looking import look_for
from model.manner import Manner
from model.plan import Role, StepKind
from model.reading import load_kit
from model.session import Session
from model.thin import ThinStrips, is_thin
from tests.pictures import to_end, to_step
from tests.screens import begun, table, text_of


def dutch(session: Session):
    return words_for("nl")(session.plan, Manner(phrases=phrases_for("nl")))


@pytest.mark.parametrize(
    ("said", "english"),
    [
        ("1 1/2 bij 12", "1 1/2 by 12"), ("rood", "red"), ("het blauwe vel", "blue sheet"),
        ("een strook van 12", "strip 12"), ("wit", "white"),
    ],
)  # fmt: skip
def test_colours_in_dutch_find_what_they_find_in_english(said, english, tmp_path) -> None:
    session = begun("harbour", tmp_path, 83)
    finder, words = Finder(session.plan), dutch(session)
    mine = look_for(finder, said, words, session.state)
    assert mine.exact
    theirs = finder.find(english, words.manner.style.unit, session.state)
    assert [m.copy for m in mine.matches] == [m.copy for m in theirs.matches]
    session.close()


def test_the_words_of_the_kit_go_first(tmp_path) -> None:
    """A kit may call a piece by a word that means a colour in the crafter's language."""
    session = begun("harbour", tmp_path)
    finder, words = Finder(session.plan), dutch(session)
    for item in session.plan.items.values():
        if item.role is Role.PIECE:
            found = look_for(finder, item.name, words, session.state)
            assert found.exact
            assert item.name in [match.sought.item.name for match in found.matches]
    session.close()


@pytest.mark.parametrize("kit", ["postcard", "harbour", "cards"])
def test_a_strip_is_not_said_to_back_what_the_kit_backs_otherwise(kit) -> None:
    """The torn strip of the first-run kit was once told to back a border that has its backing."""
    path = demo_kit(kit)
    assert path is not None
    plan = load_kit(path).plan
    assert plan is not None
    thin = ThinStrips(plan)
    for item in plan.items.values():
        for backing in thin.backs(item) if is_thin(item) else ():
            if backing.stated is None:
                assert not [t for t in plan.related(backing.other) if t.tie == "backs" and t.back]
                assert not (item.stock and item.stock.torn)


async def test_help_is_there_where_one_counts_and_finds(tmp_path) -> None:
    session = begun("harbour", tmp_path)
    to_end(session)
    async with table(session) as (pilot, _):
        await pilot.press("k", "c", "question_mark")
        assert "All of this row are there" in text_of(pilot.app) or "Help" in text_of(pilot.app)
        await pilot.press("escape", "escape", "escape", "f", "f1")
        assert text_of(pilot.app).lstrip().startswith("Help")


async def test_no_sheet_is_put_off_behind_a_warning(tmp_path) -> None:
    session = begun("harbour", tmp_path)
    to_step(session, StepKind.LOAD, 2)
    assert session.scrap().taken  # a scrap from nowhere: it is warned of
    async with table(session) as (pilot, screen):
        assert screen.moment.pressing is not None
        await pilot.press("d")
        assert not session.state.deferred
        assert "Answer the warning first" in text_of(pilot.app)


async def test_all_that_waits_is_told(tmp_path) -> None:
    session = begun("harbour", tmp_path)
    to_step(session, StepKind.LOAD)
    async with table(session) as (pilot, screen):
        await pilot.press("d", "d")
        shown = " ".join(row[53:].strip() for row in text_of(pilot.app).splitlines())
        assert len(screen.moment.waits) == 4
        assert all(name in " ".join(shown.split()) for name in screen.moment.waits)
    session = begun("harbour", tmp_path / "narrow")
    to_step(session, StepKind.CUT, 2)
    async with table(session, (60, 20)) as (pilot, screen):  # where no side has room for it
        await pilot.press("n")
        shown = " ".join(text_of(pilot.app).replace("│", " ").split())
        assert screen.moment.waits
        assert all(name in shown for name in screen.moment.waits)


async def test_what_is_typed_is_answered_before_its_own_frame(tmp_path) -> None:
    """As soon as the line holds it, and not with a message that comes a frame later."""
    session = begun("harbour", tmp_path)
    async with table(session) as (pilot, _):
        await pilot.press("f")
        pilot.app.screen.query_one("#asked").value = "4 x 6"
        assert "rope mat" in [m.sought.item.name for m in pilot.app.screen._found.matches]
