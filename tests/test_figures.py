"""The mark in large figures: that they fit, that they can be read back, and how they are set."""

from __future__ import annotations

from typing import get_args

import pytest
from hypothesis import given
from hypothesis import strategies as st
from rich.cells import cell_len
from textual.app import App, ComposeResult

from tui.widgets import figures
from tui.widgets.figures import INK, Ink, big_text, figure_rows
from tui.widgets.panel import Panel, Row

# Which segments of a seven-segment display light for a digit (the usual coding, as in the
# data sheets of BCD decoders; from memory). a top, b upper right, c lower right, d bottom,
# e lower left, f upper left, g middle. 1 is drawn with a foot and a flag, so it isn't here.
SEVEN_SEGMENTS = {
    "0": "abcdef",
    "2": "abdeg",
    "3": "abcdg",
    "4": "bcfg",
    "5": "acdfg",
    "6": "acdefg",
    "7": "abc",
    "8": "abcdefg",
    "9": "abcdfg",
}
SEGMENT_PIXELS = {  # column, row of the middle of each segment in 3 x 5 pixels
    "a": (1, 0),
    "b": (2, 1),
    "c": (2, 3),
    "d": (1, 4),
    "e": (0, 3),
    "f": (0, 1),
    "g": (1, 2),
}


@pytest.mark.parametrize("digit", SEVEN_SEGMENTS)
def test_digits_light_the_segments_that_everybody_knows(digit: str) -> None:
    rows = big_text(digit, 6, 5)
    lit = {
        segment for segment, (x, y) in SEGMENT_PIXELS.items() if rows[y][2 * x : 2 * x + 2] != "  "
    }
    assert lit == set(SEVEN_SEGMENTS[digit])


def test_every_character_of_the_font_is_sound_and_its_own() -> None:
    for font in (figures._FONT, figures._UNIT_FONT):
        for char, glyph in font.items():
            rows = glyph.split()
            assert len(rows) == figures.ROWS, char
            assert len({len(row) for row in rows}) == 1, char
            assert set(glyph) <= set("#. "), char
        assert len(set(font.values())) == len(font)


def test_a_whole_number_and_its_fraction() -> None:
    assert list(big_text("10 1/2", 60, 5, ascii=True)) == [
        "  ##    ######        ##          ##  ######",
        "####    ##  ##      ####        ##        ##",
        "  ##    ##  ##        ##        ##    ######",
        "  ##    ##  ##        ##      ##      ##    ",
        "######  ######      ######  ##        ######",
    ]


MARKS = st.sampled_from(
    ["10 1/2", "9½", "9 1⁄2", "11 15/16", "241", "24.1", "~11", "line", "mm", "in", "0", "3/8"]
)


@given(MARKS | st.text(max_size=12), st.integers(-1, 90), st.integers(-1, 30), st.booleans())
def test_it_always_fits(text: str, width: int, height: int, ascii: bool) -> None:
    rows = big_text(text, width, height, ascii)
    assert len(rows) <= max(0, height)
    assert len({cell_len(row) for row in rows}) <= 1
    assert all(cell_len(row) <= max(0, width) for row in rows)


@given(MARKS, st.integers(1, 90), st.integers(1, 30))
def test_more_room_never_makes_it_smaller(text: str, width: int, height: int) -> None:
    rows = len(big_text(text, width, height))
    assert rows >= 1
    assert len(big_text(text, width + 1, height)) >= rows
    assert len(big_text(text, width, height + 1)) >= rows


def read_back(rows: list[str], wide: int, high: int) -> str:
    """Read figures of one scale by looking each up in the font, blank columns apart."""
    pixels = [row[::wide] for row in rows[::high]]
    columns = ["".join(row[x] for row in pixels) for x in range(len(pixels[0]))]
    glyphs = {
        tuple("".join(row[x] for row in rows) for x in range(len(rows[0]))): char
        for char, glyph in figures._FONT.items()
        if (rows := glyph.replace("#", INK).replace(".", "_").split())
    }
    read, start = "", 0
    while start < len(columns):
        for end in range(len(columns), start, -1):
            part = tuple(column.replace(" ", "_") for column in columns[start:end])
            if part in glyphs:
                read += glyphs[part]
                start = end
                break
        else:
            start += 1
    return read


@given(
    st.text(st.sampled_from("0123456789/.~"), min_size=1, max_size=6).filter(
        lambda t: "~." not in t
    ),
    st.integers(1, 4),
)
def test_figures_can_be_read_back(text: str, scale: int) -> None:
    rows = big_text(text, 1000, 5 * scale)
    assert len(rows) == 5 * scale
    assert read_back(rows, 2 * scale, scale) == text


def test_the_fraction_is_smaller_when_the_room_is_short_but_stays_large() -> None:
    full = big_text("9 1/2", 200, 10)
    short = big_text("9 1/2", len(full[0]) - 1, 10)
    assert len(full) == len(short) == 10
    whole = slice(0, 12)  # three pixels of four cells
    assert [row[whole] for row in short] == [row[whole] for row in full]
    assert not any(row[12:].strip() for row in short[:5])  # the fraction is five rows high
    assert any(row[12:].strip() for row in short[5:])


def test_a_cell_a_pixel_then_plain_text_where_room_is_short() -> None:
    assert big_text("241", 11, 5, ascii=True)[0] == "### # #  # "
    assert big_text("241", 10, 5) == ("241",)
    assert big_text("10 1/2", 60, 4) == ("10 1/2",)
    assert big_text("10 1/2", 3, 1) == ("10 ",)
    assert big_text("", 9, 9) == big_text("9", 0, 9) == big_text("9", 9, 0) == ()


def test_what_the_font_lacks_is_plain_text() -> None:
    assert big_text("紙 9", 60, 5) == ("紙 9",)


def width_of(row: Row) -> int:
    return sum(cell_len(text) for text, _ in row)


def test_mark_and_unit_are_filled_cells() -> None:
    rows = figure_rows("241", "mm", "ink", 40, 7)
    assert len(rows) == 5
    assert rows[-1][-1] == (" mm", "muted")  # beside the foot
    filled = [sum(len(text) for text, tone in row if tone == "ink") for row in rows]
    # Pixels a row of 2, 4 and 1 together, two cells each.
    assert filled == [2 * 6, 2 * 5, 2 * 7, 2 * 3, 2 * 7]
    assert all(text.isspace() for row in rows for text, tone in row if tone == "ink")
    assert figure_rows("", "", "ink", 40, 7) == ()
    assert figure_rows("", "in", "ink", 40, 7) == ()


def test_a_large_unit_stands_on_the_same_foot() -> None:
    rows = figure_rows("9", "in", "ink-good", 80, 10)
    large = [any(tone == "ink-unit" for _, tone in row) for row in rows]
    assert large == [False] * 5 + [True] * 5


def test_in_ascii_no_cell_is_filled() -> None:
    rows = figure_rows("9", "in", "ink-warn", 40, 7, ascii=True)
    assert rows[0] == [("######", "warn")]
    assert not any(tone.startswith("ink") for row in rows for _, tone in row)


@pytest.mark.parametrize("size", [(0, 0), (1, 1), (2, 5), (9, 3), (100, 40)])
def test_figures_fit_any_size(size: tuple[int, int]) -> None:
    rows = figure_rows("10 1/2", "in", "ink-good", *size)
    assert len(rows) <= size[1]
    assert all(0 < width_of(row) <= size[0] for row in rows)
    assert bool(rows) == (size != (0, 0))


class MarkApp(App[None]):
    def compose(self) -> ComposeResult:
        yield Panel()


async def test_filled_cells_are_reversed_and_follow_the_theme() -> None:
    """They need no glyph then, and survive a lack of colour."""
    app = MarkApp()
    async with app.run_test(size=(60, 10)) as pilot:
        await pilot.pause()
        widget = app.query_one(Panel)
        for tone in get_args(Ink):
            widget.show(lambda width, height, tone=tone: figure_rows("8", "", tone, width, 5))
            await pilot.pause()
            app.theme = "textual-dark"
            await pilot.pause()
            await pilot.pause()
            before = widget.render_line(1)
            assert any(
                part.style is not None and part.style.reverse and part.text.isspace()
                for part in before
            )
            app.theme = "textual-light"
            await pilot.pause()
            await pilot.pause()
            after = widget.render_line(1)
            assert before.text == after.text
            assert [part.style for part in before] != [part.style for part in after]
