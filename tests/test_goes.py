"""The line that says where a piece goes: the keys it names, and what is clicked or typed."""

from __future__ import annotations

import pytest

from model.language.english.table import TablePhrases
from model.language.english.words import English
from model.manner import Manner
from model.moment import moment_of
from model.plan import StepKind
from model.pocketkeys import key_runs, keys_of
from model.reading import read_kit
from model.session import Session
from tests.pictures import to_step
from tests.screens import begun, table, text_of
from tui import parts_step
from tui.pagekeys import PageKeys
from tui.screens.warnings import WarningsScreen


def kit_of(pages: int, pockets: str = "", optional: bool = False) -> str:
    """One sheet in two halves, both for page 1's pocket."""
    return f"""
dryfit = 1
title = "Many pages"
page = "12 x 12"
pages = {pages}
{pockets}
[[sheet]]
name = "A"
face = "navy"
[[piece]]
name = "half of the harbour at night"
to = {{ "page 1" = 2 }}
[[step]]
trim = "A"
marks = [6]
gives = "half of the harbour at night"
rest = "half of the harbour at night"
optional = {"true" if optional else "false"}
"""


def pockets_of(*pages: tuple[int, ...]) -> str:
    return "\n".join(f'[[pocket]]\nlabel = "p{p[0]}"\npages = {list(p)}\n' for p in pages)


SINGLE = pockets_of(*((page,) for page in range(1, 13)))
FOURS = pockets_of((1, 2, 3, 4), (5, 6, 7, 8), (9, 10, 11, 12))
TENTH = pockets_of((1, 2, 3), (4, 5, 6), (7, 8, 9, 10))


def test_three_keys_in_a_row_are_one_run():
    assert key_runs(["1", "2"]) == ("1", "2")
    assert key_runs(["1", "2", "3", "4"]) == ("1-4",)
    assert key_runs(["1", "3", "4", "5", "9"]) == ("1", "3-5", "9")
    assert key_runs([]) == ()


@pytest.mark.parametrize(
    ("text", "keys"),
    [
        (kit_of(10), ["1 or 2", "3 or 4", "5 or 6", "7 or 8", "9 or 0"]),
        (kit_of(10, TENTH), ["1-3", "4-6", "7-9 or 0"]),
        # 1 begins 10, 11 and 12 as well, 2 begins nothing else.
        (kit_of(12), ["2", "3 or 4", "5 or 6", "7 or 8", "9", "11 or 12"]),
        (kit_of(12, FOURS), ["2-4", "5-8", "9"]),
        (kit_of(12, SINGLE), ["1, Enter", *map(str, range(2, 13))]),
    ],
)
def test_the_shortest_keys_are_named_and_none_with_zeros_before_it(text, keys):
    plan = read_kit(text).plan
    assert plan is not None
    words = English(plan, Manner())
    assert [words.press(pocket.index) for pocket in plan.kit.pockets] == keys


@pytest.mark.parametrize("pages", [10, 12, 40, 120])
def test_what_is_named_files_there(pages):
    """Typed as it is said, each key of each pocket means that pocket."""
    plan = read_kit(kit_of(pages)).plan
    assert plan is not None
    words = English(plan, Manner())
    for pocket in plan.kit.pockets:
        keys = keys_of(words.plan, pocket.index)
        enter = keys[-1] == "Enter"
        for key in keys[: -1 if enter else None]:
            typed = PageKeys(plan)
            found = [typed.press(digit) for digit in key]
            assert found[:-1] == [None] * (len(key) - 1)
            assert (typed.enter() if enter else found[-1]) == pocket.index, key


def test_what_can_follow_is_said():
    plan = read_kit(kit_of(12)).plan
    assert plan is not None
    typed = PageKeys(plan)
    assert typed.hint(TablePhrases()) == ""
    typed.press("1")
    assert typed.hint(TablePhrases()) == "Page 1_: then 0-2, or Enter; Backspace: no."
    typed.clear()
    # 0 begins the pages that are written with two digits: 01 is page 1 at once.
    typed.press("0")
    assert typed.hint(TablePhrases()) == "Page 0_: then 1-9; Backspace: no."
    assert typed.press("1") == 0


def test_whatever_is_hinted_at_goes_on():
    plan = read_kit(kit_of(120)).plan
    assert plan is not None
    for first in "0123456789":
        typed = PageKeys(plan)
        if typed.press(first) is not None:
            continue
        hint = typed.hint(TablePhrases())
        for digit in "0123456789":
            again = PageKeys(plan)
            again.press(first)
            goes_on = again.press(digit) is not None or again.typed != ""
            runs = hint.partition("then ")[2].split(",")[0].split(";")[0].split()
            hinted = any(run[0] <= digit <= run[-1] for run in runs)
            assert goes_on == hinted, (hint, digit)


def at_cut(text: str):
    session = Session.start(read_kit(text), None, None, why_no_folder="this is a test")
    to_step(session, StepKind.CUT)
    return session


@pytest.mark.parametrize("width", [90, 70, 60, 51, 45, 40])
@pytest.mark.parametrize("pockets", ["", FOURS, SINGLE])
def test_the_keys_stay_in_sight_and_can_be_clicked(width, pockets):
    session = at_cut(kit_of(12, pockets, optional=True))
    moment = moment_of(session, Manner())
    if not moment.optional:  # it is the load that may be left out
        session = Session.start(
            read_kit(kit_of(12, pockets, True)), None, None, why_no_folder="a test"
        )
        to_step(session, StepKind.LOAD)
        moment = moment_of(session, Manner())
    assert moment.optional
    row = "".join(text for text, _ in parts_step.goes(moment, "", False, width)[0])
    assert len(row) <= width
    assert "Space" in row and "o: leave it out" in row
    where = row.index("o: leave")
    assert parts_step.goes_at(moment, "", False, width, where) == "o"
    assert parts_step.goes_at(moment, "", False, width, row.index("Space")) == "space"
    assert parts_step.goes_at(moment, "", False, width, 1) == "space"
    assert parts_step.goes_at(moment, "Page 1_", False, width, where) == "space"


@pytest.mark.parametrize("width", [90, 60, 51, 40])
def test_both_answers_to_a_warning_stay_in_sight(width):
    session = at_cut(kit_of(12, pockets_of((1, 2), *((p,) for p in range(3, 13)))))
    session.next()
    assert session.state.due().item is not None
    session.file_into(5)
    moment = moment_of(session, Manner())
    assert moment.pressing is not None
    row = "".join(text for text, _ in parts_step.goes(moment, "", False, width)[0])
    assert " p " in row and " l  leave it" in row
    assert len(row) <= width
    assert parts_step.goes_at(moment, "", False, width, row.index(" l ") + 1) == "l"
    assert parts_step.goes_at(moment, "", False, width, row.index(" p ") + 1) == "p"


@pytest.mark.parametrize("size", [(80, 24), (60, 20), (120, 40)])
async def test_a_step_is_left_out_by_a_click(tmp_path, size):
    session = begun("harbour", tmp_path)
    to_step(session, StepKind.DO)
    async with table(session, size) as (pilot, screen):
        assert screen.moment.optional
        rows = text_of(pilot.app).split("\n")
        y, row = next((y, r) for y, r in enumerate(rows) if "o: leave it out" in r)
        await pilot.click(offset=(row.index("o: leave it out") + 4, y))
        await pilot.pause()
        assert screen.moment.over
        assert False in session.state.done.values()


async def test_the_list_of_warnings_offers_only_what_there_is(tmp_path):
    session = begun("harbour", tmp_path)
    async with table(session) as (pilot, _):
        await pilot.press("w")
        await pilot.pause()
        assert isinstance(pilot.app.screen, WarningsScreen)
        last = text_of(pilot.app).split("\n")[-1]
        assert "back" in last and "put right" not in last and "leave" not in last
        await pilot.press("escape")
        while (item := session.state.due().item) is None or session.state.belongs(item) in (-1, 2):
            session.next()
        session.file_into(2)
        await pilot.press("w")
        await pilot.pause()
        assert "put right" in text_of(pilot.app).split("\n")[-1]
        await pilot.press("p")
        await pilot.pause()
        assert "put right" not in text_of(pilot.app).split("\n")[-1]
