"""After a rescue every list follows: account, pockets, report, find, who comes back."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from model.account import account_of
from model.inventory import Inventory
from model.language import words_of
from model.report import report_data, report_lines, report_text
from model.rescue.bench import Saving
from model.rescue.choices import cuts_made, should_be
from model.rescue.mishap import Mishap, What
from model.rescue.rescue import Rescue
from model.session import Session
from model.settings import Settings
from model.shelf import sessions_in
from tests.pictures import to_end
from tests.screens import begun, table, text_of
from tui.app import DryfitApp

MANNER = Settings().manner


def rescued(session: Session, mishap: Mishap, saving: Saving | None = None) -> None:
    """Go the best way, or the one of a sort."""
    rescue = Rescue(session, mishap)
    rescue.search(deep=False)
    way = next(way for way in rescue.ways if saving in (None, way.saving))
    assert rescue.choose(way).taken


def missing(session: Session, sheet: str = "B", saving: Saving | None = Saving.NONE) -> None:
    rescued(session, Mishap(What.MISSING, thing=sheet), saving)


@pytest.fixture
def session(tmp_path: Path) -> Session:
    return begun("harbour", tmp_path, 60)


def test_what_went_wrong_is_listed_with_what_was_done(session: Session) -> None:
    (made, *_) = cuts_made(session.state)
    length = should_be(made.step, What.MARK)
    assert length is not None
    missing(session)
    rescued(session, Mishap(What.MARK, made.step.id, length - 6))
    account = account_of(session)
    assert account.mended == (("missing", "B", "none"), ("mark", made.step.id, "part"))
    lines = report_lines(session, account, MANNER(session.plan.kit.unit))
    at = lines.index(("head", "What went wrong at the trimmer"))
    assert lines[at + 1][1].startswith("sheet B (navy): missing from the packet; gone on without")
    assert lines[at + 2][1].startswith("cut 2 of 2 of rope half (sheet A), at 4: cut at another")


def test_nothing_is_listed_where_nothing_went_wrong_or_it_was_taken_back(session: Session) -> None:
    missing(session)
    assert session.undo().taken
    account = account_of(session)
    assert account.mended == () and account.lost == ()
    text = report_text(session, account, MANNER(session.plan.kit.unit))
    assert "What went wrong" not in text and "lost" not in text


def test_what_pages_go_without_is_listed_and_all_else_is_accounted_for(session: Session) -> None:
    missing(session)
    to_end(session)
    account = account_of(session)
    assert not account.closes and account.lost_only
    assert sorted(account.lost) == [
        ("navy mat", 4, 1), ("navy square", 4, 1), ("navy strip", 0, 2), ("navy strip", 4, 2),
    ]  # fmt: skip
    assert all(pocket.held + pocket.lost == pocket.wanted for pocket in account.pockets)
    text = report_text(session, account, MANNER(session.plan.kit.unit))
    assert "All but what was lost is accounted for." in text
    assert "1·2 misses 2 of navy strip, which was lost" in text


def test_a_piece_that_lies_in_the_wrong_pocket_is_not_excused_by_a_loss(session: Session) -> None:
    missing(session)
    while session.state.due().item is None:
        session.next()
    session.file_into(2)
    for warning in list(session.state.warnings.values()):
        session.leave(warning)
    to_end(session)
    assert not account_of(session).lost_only


@pytest.mark.parametrize(("code", "said"), [("en", "lost"), ("nl", "verloren")])
def test_a_pocket_that_misses_what_was_lost_is_not_ticked(
    session: Session, code: str, said: str
) -> None:
    missing(session)
    to_end(session)
    account = account_of(session)
    manner = Settings(language=code).manner(session.plan.kit.unit)
    lines = report_lines(session, account, manner)
    for pocket in account.pockets:
        label = words_of(session.plan, manner).pocket(pocket.pocket)
        at = next(n for n, (_, line) in enumerate(lines) if line.startswith(f"{label}: "))
        tone, line = lines[at]
        assert tone == ("bad" if pocket.lost else "good")
        assert line.endswith(f", {pocket.lost} {said}") == bool(pocket.lost)
        listed = lines[at + 1][1].startswith("  ")  # what of it is lost stands beneath
        assert listed == bool(pocket.lost)
    assert any(pocket.lost for pocket in account.pockets)


def test_pockets_say_that_a_piece_is_lost_and_not_to_come(session: Session) -> None:
    missing(session)
    rows = Inventory(session.plan).holding(session.state, 0).rows
    row = next(row for row in rows if row.item.name == "navy strip")
    assert (row.wanted, row.to_come, row.lost) == (2, 0, 2)
    words = words_of(session.plan, MANNER(session.plan.kit.unit))
    assert words.elsewhere(row) == ("2 lost",)


def test_some_of_a_kind_are_lost_the_last_pocket_goes_without(session: Session) -> None:
    lot = next(i for i in session.plan.items.values() if i.name == "rope border")
    rescued(session, Mishap(What.RUINED, thing=lot.id))
    kept = [
        row
        for pocket in session.plan.kit.pockets
        for row in Inventory(session.plan).holding(session.state, pocket.index).rows
        if row.item.name == "rope border"
    ]
    assert [row.lost for row in kept].count(1) == 1 and sum(row.lost for row in kept) == 1
    for row in kept:
        parts = row.filed, row.on_pile, row.to_come, row.scrapped, row.elsewhere, row.lost
        assert row.wanted == sum(parts)


def test_of_copies_that_are_still_to_come_no_more_are_lost_than_are(tmp_path: Path) -> None:
    """One square is spoilt as soon as it is cut: the last pocket of its like goes without."""
    session = begun("harbour", tmp_path)
    while (item := session.state.due().item) is None or (
        session.plan.items[item].name != "sand square"
    ):
        assert session.next().taken
    rescued(session, Mishap(What.RUINED, thing=item), Saving.NONE)
    lost = {
        pocket.index: row.lost
        for pocket in session.plan.kit.pockets
        for row in Inventory(session.plan).holding(session.state, pocket.index).rows
        if row.item.name == "sand square"
    }
    assert lost == {1: 0, 3: 1, 4: 0}, "that of page 10 is cut by another step: it is not alike"


def test_a_program_gets_it_as_values(session: Session) -> None:
    missing(session)
    data = json.loads(json.dumps(report_data(session, account_of(session))))
    assert data["mended"] == [{"what": "missing", "where": "B", "way": "none"}]
    assert {"name": "navy mat", "pocket": "9·10", "count": 1} in data["lost"]


def test_scraps_to_expect_follow(session: Session) -> None:
    before = account_of(session).scraps_expected
    (made, *_) = cuts_made(session.state)
    length = should_be(made.step, What.MARK)
    assert length is not None
    rescued(session, Mishap(What.MARK, made.step.id, length - 6))
    assert account_of(session).scraps_expected == before + 2
    to_end(session)
    account = account_of(session)
    assert len(account.scraps) == account.scraps_expected


def test_the_shelf_counts_the_new_steps(session: Session) -> None:
    missing(session)
    assert session.path is not None
    (seen,) = sessions_in(session.path.parent)
    assert (seen.done, seen.steps) == (session.state.steps_done, len(session.plan.steps))


async def test_every_list_opens_after_a_rescue(
    session: Session, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    monkeypatch.setenv("DRYFIT_HOME", str(tmp_path / "home"))
    async with table(session) as (pilot, screen):
        (made, *_) = cuts_made(session.state)
        length = should_be(made.step, What.MARK)
        assert length is not None
        rescued(session, Mishap(What.MARK, made.step.id, length - 6))
        screen.look_again()
        for keys in (["f", *"rope"], ["k"], ["w"], ["a"], ["n"], ["question_mark"], ["i"], ["m"]):
            await pilot.press(*keys)
            await pilot.pause()
            assert pilot.app.screen is not screen, keys
            while pilot.app.screen is not screen:
                await pilot.press("escape")
                await pilot.pause()
        await pilot.press("f", *"miscut rope")
        await pilot.pause()
        assert "miscut rope mat" in text_of(pilot.app)


async def test_who_comes_back_is_told_on_the_new_plan(
    session: Session, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    monkeypatch.setenv("DRYFIT_HOME", str(tmp_path / "home"))
    missing(session)
    steps, path = len(session.plan.steps), session.path
    session.close()
    assert path is not None
    app = DryfitApp(Settings(), None, None, path.parent)
    async with app.run_test(size=(80, 24)) as pilot:
        app.open_session(path)
        await pilot.pause()
        assert f"/{steps}" in text_of(app)
        app.close_sessions()
