"""Who gets the rows of the Table, in the order of weight, down to the smallest terminals."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import pytest
from hypothesis import given
from hypothesis import strategies as st

from model.folders import demo_kit
from model.moment import Moment, moment_of
from model.plan import Role, StepKind
from model.reading import load_kit
from model.session import Session
from model.settings import Settings
from tests.pictures import to_filing, to_step
from tests.screens import begun, table, text_of
from tui import parts, parts_step
from tui.room import Need, Room, share, side_width

WIDTHS, HEIGHTS = range(30, 61), range(8, 21)
ROWS = st.integers(0, 9)
NEEDS = st.builds(
    Need,
    sentence=st.integers(1, 9),
    mark=st.sampled_from((0, 5, 10)),
    picture=st.booleans(),
    cautions=ROWS,
    notes=ROWS,
    brief=st.integers(0, 2),
    said=st.booleans(),
)


def session_of(name: str) -> Session:
    path = demo_kit("harbour")
    assert path is not None
    session = Session.start(load_kit(path), None, None, why_no_folder="this is a test")
    go, kind = {
        "cut": (to_step, StepKind.CUT),
        "load": (to_step, StepKind.LOAD),
        "tear": (to_step, StepKind.TEAR),
        "file": (to_filing, Role.PIECE),
        "wrong": (to_filing, Role.PIECE),
    }[name]
    go(session, kind)
    if name == "wrong":
        session.file_into(2)
    return session


@cache
def moment(name: str) -> Moment:
    session = session_of(name)
    return moment_of(session, Settings().manner(session.plan.kit.unit))


def total(room: Room) -> int:
    return sum(getattr(room, name) for name in Room.__slots__)


def in_order(need: Need, room: Room) -> None:
    """Nothing has a row while what weighs more lacks what it needs."""
    whole = [
        ("head", room.head == 1),
        ("sentence", room.sentence >= need.sentence),
        ("goes", room.goes == 1),
        ("picture", not need.picture or room.picture >= 3),
        ("more", room.more >= need.cautions),
        ("brief", room.brief == need.brief),
        ("bar", room.bar == 1),
    ]
    for number, (_, enough) in enumerate(whole):
        if not enough:
            lighter = [name for name, _ in whole[number + 1 :]]
            assert all(getattr(room, name) == 0 for name in lighter), (whole[number], room)
            return


@given(st.integers(0, 60), NEEDS)
def test_all_rows_are_given_away_in_the_order_of_weight(height, need):
    room = share(height, need)
    assert total(room) == height
    assert all(getattr(room, name) >= 0 for name in Room.__slots__)
    in_order(need, room)
    assert room.picture == 0 or need.picture
    assert not (need.said and height > need.sentence + 2) or room.keys == 1


@pytest.mark.parametrize("name", ["cut", "load", "tear", "file", "wrong"])
@pytest.mark.parametrize("width", WIDTHS)
def test_the_order_holds_for_what_a_kit_says(name, width):
    for height in HEIGHTS:
        need = parts_step.need(moment(name), width, height, 0, False)
        room = share(height, need)
        in_order(need, room)
        rows = parts_step.step(moment(name), "", False, width, height, room)
        assert len(rows) == height - sum((room.bar, room.picture, room.brief, room.said, room.keys))
        # The mark is said in any case: large, or first of all in words.
        figure = moment(name).figure
        if figure is not None and figure.tone != "plain" and not room.mark:
            assert "".join(text for text, _ in rows[0]).startswith(f" {figure.text}")


@pytest.mark.parametrize("name", ["cut", "file", "wrong"])
def test_neither_pockets_nor_progress_take_the_room_of_the_drawing(name):
    for width in WIDTHS:
        for height in HEIGHTS:
            room = share(height, parts_step.need(moment(name), width, height, 0, False))
            assert room.picture >= 5 or not (room.brief or room.bar)


@pytest.mark.parametrize(
    "size",
    [(60, 12), (40, 10), (60, 16), (30, 8), (30, 20), (45, 14), (60, 20), (80, 24), (120, 40)],
)
@pytest.mark.parametrize("name", ["cut", "file", "load"])
async def test_a_small_terminal_shows_what_weighs_most(tmp_path, name, size):
    session = session_of(name)
    async with table(session, size) as (pilot, screen):
        rows = text_of(pilot.app).split("\n")
        assert len(rows) == size[1]
        beside = size[0] - side_width(size[0])
        said = " ".join(" ".join(row[:beside] for row in rows).split())
        assert screen.moment.sentence in said
        assert "Space" in said
        if screen.moment.goes:
            assert f"→ {screen.moment.goes_briefly}" in said
        assert total(screen.room) == size[1]
        assert (
            sum(
                widget.size.height
                for widget in screen.children
                if widget.id not in ("side", "edge")
            )
            == (size[1])
        )


async def test_the_frame_stays_from_key_to_key(tmp_path):
    """Where a region moved, all of it would be laid out and sent to the terminal anew."""
    session = begun("harbour", tmp_path, 40)
    async with table(session, (80, 24)) as (pilot, screen):
        seen = set()
        kinds = set()
        for _ in range(60):
            kinds.add(screen.moment.headline)
            seen.add(tuple(widget.region for widget in screen.children))
            await pilot.press("space")
        assert len(kinds) > 4
        assert len(seen) == 1


async def test_what_is_answered_takes_the_row_of_the_keys_where_it_has_none(tmp_path):
    session = begun("harbour", tmp_path, 50)
    async with table(session, (60, 12)) as (pilot, screen):
        assert "help" in text_of(pilot.app).split("\n")[-1]
        session.unsaved = "the disk is full"
        screen.look_again()
        await pilot.pause()
        assert text_of(pilot.app).split("\n")[-1].startswith(" NOT SAVED: the disk is full")


@pytest.mark.parametrize("width", [40, 60, 80, 120])
async def test_why_nothing_is_saved_comes_before_where(tmp_path, width):
    session = begun("harbour", tmp_path, 50)
    async with table(session, (width, 24)) as (pilot, screen):
        session.unsaved = "the disk is full"
        screen.look_again()
        await pilot.pause()
        (row,) = (r for r in text_of(pilot.app).split("\n") if "NOT SAVED" in r)
        assert row.startswith(" NOT SAVED: the disk is full.")
        assert len(row) <= width
        assert row.endswith(".toml") == (width >= 60)
        assert ".." in row or width != 60  # of the path is left out what is in its middle


def test_a_pocket_that_is_meant_and_holds_a_wrong_thing_shows_both():
    lines = {line.label: line for line in moment("wrong").pockets}
    meant = replace(lines["1·2"], target=True, wrong=0)
    for ascii, arrow in ((False, "▸"), (True, ">")):
        for width in (24, 26, 37):
            shown = [
                "".join(text for text, _ in parts.pocket_row(line, width, ascii))
                for line in (meant, replace(meant, wrong=1), replace(meant, wrong=1, target=False))
            ]
            assert shown[0].startswith(f"{arrow} 1·2 ")
            assert shown[1].startswith(f"{arrow}!1·2 ")
            assert shown[2].startswith("! 1·2 ")
            assert len({len(row) for row in shown}) == 1
        both = replace(moment("wrong"), pockets=(replace(meant, wrong=1),))
        rows = parts.brief(both, 60, 2, ascii)
        assert "".join(text for row in rows for text, _ in row).startswith(f" {arrow}!1·2:")


def test_where_not_all_pockets_fit_the_one_that_is_meant_is_seen():
    line = moment("cut").pockets[0]
    many = tuple(
        replace(line, index=n, label=f"{2 * n + 1}·{2 * n + 2}", target=n == 17) for n in range(20)
    )
    rows = parts.brief(replace(moment("cut"), pockets=many), 60, 2, False)
    text = " ".join("".join(part for part, _ in row) for row in rows)
    assert len(rows) == 2 and "▸35·36:" in text and "scraps:" in text


def test_the_side_is_there_where_columns_allow():
    assert [side_width(width) for width in (60, 73, 74, 109, 110)] == [0, 0, 29, 29, 40]
