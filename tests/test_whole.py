"""What the table must show whole at every size: the sentence, and where the piece goes."""

from __future__ import annotations

import pytest
from rich.cells import cell_len
from textual.screen import Screen

from model.moment import moment_of
from model.plan import StepKind
from model.settings import Settings
from tests.pictures import to_step
from tests.screens import begun, table, text_of
from tui import parts_step
from tui.screens.table import TableScreen
from tui.widgets.drawing import Drawing

KITS = ["postcard", "harbour", "cards"]
SIZES = [(80, 24), (60, 20), (120, 40)]


def shown(screen: TableScreen, id: str) -> str:
    """What is seen of one of the texts of a step, as one line: only what nothing covers."""
    room = screen.room
    region = screen.query_one(Drawing).region
    names = ("head", "mark", "sentence", "goes", "more")
    first = region.y + sum(getattr(room, name) for name in names[: names.index(id)])
    screen_rows = screen._compositor.render_strips(screen.size)
    rows = []
    for y in range(first, min(first + getattr(room, id), region.bottom, screen.size.height)):
        row = screen_rows[y].crop(region.x, region.right)
        rows.append(row.text.strip())
    return " ".join(" ".join(rows).split())


@pytest.mark.parametrize("size", SIZES, ids=lambda size: f"{size[0]}x{size[1]}")
@pytest.mark.parametrize("kit", KITS)
async def test_no_sentence_is_cut_short(tmp_path, kit, size):
    """Each step of each demo kit, as it is laid out and painted."""
    session = begun(kit, tmp_path)
    async with table(session, size) as (pilot, screen):
        while True:
            await pilot.pause()
            moment = screen.moment
            assert shown(screen, "sentence") == " ".join(moment.sentence.split())
            goes = shown(screen, "goes")
            assert f"Space: {moment.press}" in goes, goes
            assert not moment.goes or moment.goes in goes or moment.goes_briefly in goes, goes
            assert ".." not in goes
            if moment.over:
                break
            assert session.next().taken
            screen.look_again()


@pytest.mark.parametrize("kit", KITS)
async def test_what_a_piece_belongs_with_is_shown_where_it_is_filed(tmp_path, kit):
    """At 80 x 24 whole; smaller terminals may end it, naming the key that shows the rest."""
    session = begun(kit, tmp_path)
    told = 0
    async with table(session, (80, 24)) as (pilot, screen):
        while not session.state.due().over:
            item = session.state.due().item
            kind = session.plan.items[item].kind if item else None
            if item is not None and kind is not None:
                await pilot.pause()
                said = shown(screen, "more")
                names = [session.plan.items[c].name for c in session.plan.companions.get(item, ())]
                ties = screen.words.ties(kind)
                assert all(tie in said for tie in ties), said
                assert all(name in said for name in names), said
                told += bool(ties or names)
            assert session.next().taken
            screen.look_again()
    assert told or kit == "cards"


async def test_notes_that_are_cut_short_name_the_key_that_shows_all(tmp_path):
    session = begun("harbour", tmp_path)
    async with table(session, (60, 20)) as (pilot, screen):
        ended = 0
        while not session.state.due().over:
            said = shown(screen, "more")
            if "..." in said:
                ended += 1
                assert said.endswith("... n")
            session.next()
            screen.look_again()
            await pilot.pause()
    assert ended


@pytest.mark.parametrize("kit", KITS)
async def test_where_it_goes_is_whole_while_loads_are_cut_first(tmp_path, kit):
    """Then several pockets may be named at once."""
    widths = []
    for size in SIZES:
        async with table(begun(kit, tmp_path / f"{size[0]}"), size) as (_, screen):
            widths.append(screen.query_one(Drawing).size.width)
    session = begun(kit, tmp_path / "run")
    session.pace_by(True)
    manner = Settings().manner(session.plan.kit.unit)
    longest = 0
    while not (moment := moment_of(session, manner)).over:
        for width in widths:
            row = "".join(text for text, _ in parts_step.goes(moment, "", False, width)[0])
            longest = max(longest, cell_len(row))
            assert cell_len(row) <= width
            assert f"Space: {moment.press}" in row
            assert moment.goes_briefly in row
        assert session.next().taken
    assert longest > 40


async def test_a_word_makes_room_for_the_drawing_and_a_number_does_not(tmp_path):
    session = begun("harbour", tmp_path)
    to_step(session, StepKind.LOAD)
    async with table(session, (60, 20)) as (pilot, screen):
        drawing = screen.query_one(Drawing)
        assert not screen.room.mark and drawing.picture.height >= 8
        assert "sheet A" in text_of(pilot.app)
        await pilot.resize_terminal(120, 40)
        await pilot.pause()
        assert screen.room.mark == 12  # a blank row above and beneath
        await pilot.resize_terminal(80, 24)
        await pilot.pause()
        assert not screen.room.mark and drawing.picture.height >= 14
        await pilot.press("space")
        await pilot.pause()
        assert screen.moment.headline.startswith("Cut")
        assert screen.room.mark == 5
        assert "████" in text_of(pilot.app)


@pytest.mark.parametrize("kit", KITS)
async def test_pictures_of_loads_are_high_enough_on_a_small_terminal(tmp_path, kit):
    session = begun(kit, tmp_path)
    loads = 0
    async with table(session, (60, 20)) as (_, screen):
        while not screen.moment.over:
            step = screen.moment.due.step
            if step is not None and step.load:
                loads += 1
                assert screen.room.mark or screen.room.picture >= 6
            assert session.next().taken
            screen.look_again()
    assert loads


@pytest.mark.parametrize("kit", KITS)
async def test_cautions_are_whole_on_a_small_terminal(tmp_path, kit):
    session = begun(kit, tmp_path)
    cautioned = 0
    async with table(session, (60, 20)) as (pilot, screen):
        while not screen.moment.over:
            if screen.moment.cautions:
                cautioned += 1
                await pilot.pause()
                said = shown(screen, "more")
                assert all(caution in said for caution in screen.moment.cautions), said
            assert session.next().taken
            screen.look_again()
    assert cautioned


async def test_words_take_the_room_where_nothing_is_drawn(tmp_path):
    session = begun("harbour", tmp_path)
    async with table(session, (60, 20)) as (_, screen):
        said = shown(screen, "more")
        assert all(text in said for text in map(" ".join, map(str.split, screen.moment.more)))


async def test_a_key_that_moves_everything_is_painted_once(tmp_path, monkeypatch):
    """Each further frame would be sent to the terminal as well."""
    session = begun("harbour", tmp_path)
    to_step(session, StepKind.LOAD, 2)
    frames = []
    paint = Screen._compositor_refresh
    async with table(session, (80, 24)) as (pilot, screen):
        await pilot.pause(0.1)
        monkeypatch.setattr(
            Screen, "_compositor_refresh", lambda self: (frames.append(1), paint(self))[1]
        )
        before = screen.query_one(Drawing).picture
        await pilot.press("space")
        await pilot.pause(0.1)
        assert screen.query_one(Drawing).picture != before
        assert len(frames) == 1
