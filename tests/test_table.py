"""The table by its keys: what a crafter presses, and what the session then knows."""

from __future__ import annotations

import pytest
from textual import events

from model.event import Done, Extra, Filed
from model.plan import Role, StepKind
from model.state import Spot
from model.warning import WarningKind
from tests.screens import begun, table, text_of
from tui.screens.account import AccountScreen
from tui.screens.dialog import Dialog
from tui.screens.pockets import PocketsScreen
from tui.screens.warnings import WarningsScreen


def goes_row(screen):
    """The row of the step that says where the piece goes."""
    return screen.room.head + screen.room.mark + screen.room.sentence


def advance(session, kind=None, *, filing=False, role=None):
    """Presses the one key until a step of a kind, or something to file, is due."""
    for _ in range(2000):
        due = session.state.due()
        if filing and due.item is not None:
            item = session.plan.items[due.item]
            if role is None or item.role is role:
                return due.item
        if not filing and due.step is not None and due.step.kind is kind:
            return due.step
        assert session.next().taken
    raise AssertionError("never due")


def about_to_file(session):
    """Goes on until a piece is to be filed: the piece, its pocket, and a wrong pocket."""
    item = advance(session, filing=True, role=Role.PIECE)
    right = session.state.belongs(item)
    return item, right, next(p for p in session.plan.kit.pockets if p.index != right)


@pytest.mark.parametrize("key", ["space", "enter"])
async def test_either_key_alone_carries_a_whole_run(tmp_path, key):
    session = begun("postcard", tmp_path)
    async with table(session) as (pilot, screen):
        presses = 0
        while not screen.moment.over:
            await pilot.press(key)
            presses += 1
            assert presses < 100
        assert not session.state.warnings
        assert all(p.held == p.wanted for p in screen.moment.pockets)
        await pilot.press(key)
        assert isinstance(pilot.app.screen, AccountScreen)
        assert "Everything is accounted for" in text_of(pilot.app)


async def test_a_digit_of_another_pair_warns_and_p_puts_it_right(tmp_path):
    session = begun("harbour", tmp_path)
    item, right, wrong = about_to_file(session)
    async with table(session) as (pilot, screen):
        await pilot.press(str(wrong.pages[0] % 10))
        assert session.state.where(item) == wrong.index
        shown = text_of(pilot.app)
        assert "WRONG POCKET" in shown
        assert session.plan.items[item].name in shown
        assert wrong.label in shown and session.label(right) in shown
        # The one key must not run over a warning.
        done = session.state.steps_done
        await pilot.press("space")
        assert session.state.steps_done == done
        assert screen.moment.pressing is not None
        await pilot.press("p")
        assert session.state.where(item) == right
        assert not session.state.warnings


async def test_a_warning_left_stays_listed_until_it_is_settled(tmp_path):
    session = begun("harbour", tmp_path)
    item, right, wrong = about_to_file(session)
    async with table(session) as (pilot, screen):
        await pilot.press(str(wrong.pages[0] % 10), "l")
        assert screen.moment.pressing is None
        assert "1 warning left open" in text_of(pilot.app)
        await pilot.press("space")
        assert "1 warning left open" in text_of(pilot.app)
        await pilot.press("p")  # a key that is held down must not settle what was left
        assert pilot.app.screen is screen
        assert "w lists those that were left" in text_of(pilot.app)
        await pilot.press("w")
        assert isinstance(pilot.app.screen, WarningsScreen)
        assert "WRONG POCKET" in text_of(pilot.app)
        await pilot.press("space", "enter")  # nor a pedal
        assert session.state.warnings
        assert "p puts this one right" in text_of(pilot.app)
        await pilot.press("p")
        assert session.state.where(item) == right
        await pilot.press("escape")
        await pilot.pause()
        assert "left open" not in text_of(pilot.app)


async def test_the_digit_of_the_right_pocket_answers_a_warning_too(tmp_path):
    session = begun("harbour", tmp_path)
    item = advance(session, filing=True, role=Role.PIECE)
    right = session.plan.kit.pockets[session.state.belongs(item)]
    wrong = next(p for p in session.plan.kit.pockets if p.index != right.index)
    async with table(session) as (pilot, _):
        await pilot.press(str(wrong.pages[0] % 10), str(right.pages[0] % 10))
        assert session.state.where(item) == right.index
        assert not session.state.warnings


async def test_any_page_of_the_pair_is_a_key_of_its_pocket(tmp_path):
    for number in (0, 1):
        session = begun("harbour", tmp_path / str(number))
        item = advance(session, filing=True, role=Role.PIECE)
        right = session.state.belongs(item)
        page = session.plan.kit.pockets[right].pages[number]
        async with table(session) as (pilot, _):
            await pilot.press(str(page % 10))
            assert session.state.where(item) == right
            assert not session.state.warnings


async def test_a_wanted_piece_called_a_scrap_warns(tmp_path):
    session = begun("harbour", tmp_path)
    item = advance(session, filing=True, role=Role.PIECE)
    async with table(session) as (pilot, _):
        await pilot.press("s")
        assert session.state.where(item) == Spot.SCRAPS
        assert "NOT A SCRAP" in text_of(pilot.app)
        await pilot.press("p")
        assert session.state.where(item) >= 0
        assert not session.state.warnings


async def test_a_scrap_filed_in_a_pocket_warns(tmp_path):
    session = begun("harbour", tmp_path)
    item = advance(session, filing=True, role=Role.SCRAP)
    async with table(session) as (pilot, _):
        await pilot.press("1")
        assert "SCRAP IN A POCKET" in text_of(pilot.app)
        await pilot.press("p")
        assert session.state.where(item) == Spot.SCRAPS


async def test_one_more_scrap_than_expected_warns(tmp_path):
    session = begun("harbour", tmp_path)
    advance(session, StepKind.LOAD)
    async with table(session) as (pilot, screen):
        await pilot.press("s")
        assert "A scrap that this kit" in text_of(pilot.app)
        assert screen.moment.pressing is not None
        await pilot.press("p")
        assert session.state.extra == 0


async def test_a_piece_filed_twice_warns(tmp_path):
    session = begun("harbour", tmp_path)
    while True:  # until something was filed, and nothing lies on the pile
        advance(session, StepKind.LOAD)
        said = session.state.last_said()[0].event
        if not session.state.pile and isinstance(said, Filed):
            break
        session.next()
    last = said.item
    page = session.plan.kit.pockets[session.state.where(last)].pages[0]
    async with table(session) as (pilot, _):
        await pilot.press(str(page % 10))
        kinds = [w.kind for w in session.state.warnings.values()]
        assert kinds == [WarningKind.TWICE]
        assert "FILED TWICE" in text_of(pilot.app)


async def test_a_digit_at_a_cut_says_that_it_was_cut_and_filed(tmp_path):
    session = begun("harbour", tmp_path)
    step = advance(session, StepKind.CUT)
    off = step.makes[0]
    right = session.state.belongs(off)
    wrong = next(p for p in session.plan.kit.pockets if p.index != right)
    async with table(session) as (pilot, _):
        await pilot.press(str(session.plan.kit.pockets[right].pages[0] % 10))
        assert session.state.where(off) == right
        assert not session.state.warnings
        await pilot.press("u", "n")
        assert session.state.due().step == step
        await pilot.press(str(wrong.pages[0] % 10))
        assert session.state.where(off) == wrong.index
        assert "WRONG POCKET" in text_of(pilot.app)


async def test_a_strip_filed_at_its_cut_is_too_early(tmp_path):
    session = begun("harbour", tmp_path)
    while session.plan.items[advance(session, StepKind.CUT).makes[0]].role is not Role.STRIP:
        session.next()
    step = session.state.due().step
    assert step is not None
    async with table(session) as (pilot, _):
        await pilot.press("1")
        assert session.state.done[step.id]
        assert "TOO EARLY" in text_of(pilot.app)
        await pilot.press("p")
        assert session.state.top == step.makes[0]
        assert not session.state.warnings


async def test_no_key_runs_over_one_scrap_too_many(tmp_path):
    """The screen shows the warning alone: what is due is not in sight."""
    session = begun("harbour", tmp_path)
    advance(session, StepKind.CUT)
    async with table(session) as (pilot, screen):
        session.say(Extra())
        screen.look_again()
        before = session.state.snapshot()
        await pilot.press("1", "s", "space")
        assert session.state.snapshot() == before
        assert "Answer the warning first" in text_of(pilot.app)
        await pilot.press("p", "space")
        assert session.state.extra == 0
        assert session.state.steps_done == before["facts"]["done"] + 1


async def test_scrap_at_a_cut_is_what_comes_off(tmp_path):
    session = begun("harbour", tmp_path)
    while True:
        step = advance(session, StepKind.CUT)
        if session.plan.items[step.makes[0]].role is Role.SCRAP:
            break
        session.next()
    pile = session.state.pile
    async with table(session) as (pilot, _):
        await pilot.press("s")
        assert session.state.where(step.makes[0]) == Spot.SCRAPS
        assert set(pile) <= set(session.state.pile)
        assert not session.state.warnings


async def test_a_question_is_answered_once_however_the_keys_bounce(tmp_path):
    session = begun("postcard", tmp_path, 2)
    async with table(session) as (pilot, screen):
        await pilot.press("n")
        for _ in range(5):
            pilot.app.post_message(events.Key("space", " "))
        await pilot.pause()
        await pilot.pause()
        assert pilot.app.screen is screen
        assert pilot.app.is_running


async def test_a_key_after_quitting_does_no_harm(tmp_path):
    for key in ("n", "k", "a", "question_mark", "comma"):
        session = begun("postcard", tmp_path / key, 2)
        async with table(session) as (pilot, _):
            pilot.app.post_message(events.Key("q", "q"))
            pilot.app.post_message(events.Key(key, key if len(key) == 1 else None))
            await pilot.pause()
            await pilot.pause()
        assert pilot.app.return_code == 0


async def test_the_answers_to_a_warning_can_be_clicked(tmp_path):
    session = begun("harbour", tmp_path)
    item, right, wrong = about_to_file(session)
    async with table(session) as (pilot, screen):
        await pilot.press(str(wrong.pages[0] % 10))
        await pilot.click("#step", offset=(2, goes_row(screen)))
        await pilot.pause()
        assert session.state.where(item) == right
        await pilot.press("u")
        await pilot.click("#side", offset=(4, 1 + right))
        await pilot.pause()
        assert session.state.where(item) == right
        assert screen.moment.pressing is None


async def test_a_pocket_and_a_thing_of_the_pile_can_be_clicked(tmp_path):
    session = begun("harbour", tmp_path)
    session.pace_by(True)
    step = advance(session, StepKind.CUT)
    for _ in range(step.of):
        session.next()
    async with table(session) as (pilot, screen):
        rows = len(session.plan.kit.pockets) + 2
        await pilot.click("#side", offset=(4, rows + 2))
        await pilot.pause()
        chosen = screen.moment.due.item
        assert chosen == session.state.pile[-2]
        await pilot.click("#side", offset=(4, 1))
        await pilot.pause()
        assert session.state.where(chosen) == 0


async def test_undo_of_a_cut_asks_whether_it_was_made(tmp_path):
    session = begun("postcard", tmp_path)
    advance(session, StepKind.CUT)
    async with table(session) as (pilot, _):
        await pilot.press("space")
        done = session.state.steps_done
        await pilot.press("u")
        assert isinstance(pilot.app.screen, Dialog)
        await pilot.press("y")
        assert session.state.steps_done == done
        await pilot.press("u", "n")
        assert session.state.steps_done == done - 1
        await pilot.press("r")
        assert session.state.steps_done == done


async def test_what_is_cut_stays_cut_and_where_it_went_is_taken_back(tmp_path):
    session = begun("harbour", tmp_path)
    advance(session, filing=True, role=Role.PIECE)
    async with table(session) as (pilot, screen):
        earlier = screen.moment.due.item
        assert earlier is not None
        await pilot.press("1")
        step = advance(session, StepKind.CUT)
        screen.look_again()
        await pilot.press("5", "u")
        shown = text_of(pilot.app)
        assert "Was it really cut?" in shown
        assert "b  It is cut: take back where it went," in shown
        await pilot.press("escape", "u", "b")
        assert session.state.done[step.id]
        assert screen.moment.due.item == step.makes[0]
        assert not session.state.warnings
        await pilot.press("u")
        assert "It is cut: take back what came before," in text_of(pilot.app)
        await pilot.press("b")
        assert session.state.done[step.id]
        assert session.state.where(earlier) == Spot.PILE
        await pilot.press("r", "r")
        assert session.state.where(step.makes[0]) == 2
        assert session.state.where(earlier) == 0


async def test_a_tear_is_asked_about_as_a_tear(tmp_path):
    session = begun("postcard", tmp_path)
    advance(session, StepKind.TEAR)
    async with table(session) as (pilot, _):
        await pilot.press("space", "u")
        shown = text_of(pilot.app)
        assert "Was it really torn? Paper that is torn stays torn." in shown
        assert "not torn yet" in shown
        await pilot.press("space")
        assert session.state.steps_done


async def test_cutting_a_whole_load_first_files_from_the_pile(tmp_path):
    session = begun("harbour", tmp_path)
    step = advance(session, StepKind.CUT)
    async with table(session) as (pilot, screen):
        await pilot.press("c")
        for _ in range(step.of):
            assert screen.moment.due.step is not None
            await pilot.press("space")
        assert len(session.state.pile) >= step.of
        top = session.state.due().item
        assert top is not None
        assert screen.moment.due.item == top
        await pilot.press("c")
        assert not session.state.by_load


async def test_another_thing_of_the_pile_can_be_taken_up(tmp_path):
    session = begun("harbour", tmp_path)
    session.pace_by(True)
    step = advance(session, StepKind.CUT)
    for _ in range(step.of):
        session.next()
    async with table(session) as (pilot, screen):
        first = screen.moment.due.item
        await pilot.press("down")
        assert screen.moment.due.item != first
        assert screen.moment.due.item in session.state.pile


async def test_pockets_show_every_piece_and_move_one(tmp_path):
    session = begun("harbour", tmp_path)
    advance(session, filing=True, role=Role.PIECE)
    async with table(session, (120, 40)) as (pilot, _):
        await pilot.press("k")
        assert isinstance(pilot.app.screen, PocketsScreen)
        shown = text_of(pilot.app)
        assert "to come" in shown and "on the pile" in shown
        await pilot.press("escape")
        assert not isinstance(pilot.app.screen, PocketsScreen)


@pytest.mark.parametrize("size", [(80, 24), (60, 20), (120, 40), (160, 50), (40, 12), (20, 5)])
async def test_each_size_shows_the_mark_and_the_sentence_first(tmp_path, size):
    session = begun("harbour", tmp_path)
    advance(session, StepKind.CUT)
    async with table(session, size) as (pilot, screen):
        shown = text_of(pilot.app)
        assert len(shown.split("\n")) <= size[1]
        if size[1] >= 12:
            assert "Hold it at" in shown
        if size[0] >= 60:
            assert "key" in shown
            assert screen.room.head == 1


async def test_few_widgets_and_few_style_sources(tmp_path):
    session = begun("harbour", tmp_path, 60)
    async with table(session) as (pilot, screen):
        assert len(list(screen.walk_children())) <= 60
        # Textual's cache of parsed styles holds 64 sources; past it each new class is slow.
        assert len(pilot.app.stylesheet.source) < 56


async def test_the_right_pocket_stands_beside_the_sentence(tmp_path):
    session = begun("harbour", tmp_path)
    item = advance(session, filing=True, role=Role.PIECE)
    async with table(session) as (pilot, _):
        assert f"pocket {session.label(session.state.belongs(item))}" in text_of(pilot.app)


async def test_a_filling_step_can_go_into_the_wrong_pocket(tmp_path):
    session = begun("harbour", tmp_path)
    step = advance(session, StepKind.FILL)
    wrong = next(p for p in session.plan.kit.pockets if p.index != step.pocket)
    async with table(session) as (pilot, _):
        await pilot.press(str(wrong.pages[0] % 10))
        assert "WRONG POCKET" in text_of(pilot.app)
        await pilot.press("p")
        assert not session.state.warnings
        assert all(session.state.where(i) == step.pocket for i in step.makes)


async def test_help_follows_the_screen(tmp_path):
    session = begun("postcard", tmp_path)
    async with table(session, (100, 40)) as (pilot, _):
        await pilot.press("question_mark")
        shown = text_of(pilot.app)
        assert "foot pedal" in shown
        await pilot.press("escape", "k", "question_mark")
        assert "really in another pocket" in text_of(pilot.app)


async def test_both_quit_keys_leave(tmp_path):
    for key in ("q", "ctrl+q"):
        session = begun("postcard", tmp_path / key)
        async with table(session) as (pilot, _):
            await pilot.press(key)
            await pilot.pause()
            assert not pilot.app.is_running


async def test_a_step_done_is_in_the_file_before_it_is_shown(tmp_path):
    session = begun("postcard", tmp_path)
    step = session.state.due().step
    assert step is not None and session.path is not None
    async with table(session) as (pilot, screen):
        seen: list[str] = []
        paint = screen.paint

        def watched() -> None:
            assert session.path is not None
            seen.append(session.path.read_text(encoding="utf-8"))
            paint()

        screen.paint = watched  # type: ignore[method-assign]
        await pilot.press("space")
        assert f'step = "{step.id}"' in seen[0]
        assert Done(step.id).did in seen[0]
