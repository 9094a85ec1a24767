"""Rows of text: widths in cells, whole words, and that only changed rows are painted again."""

from __future__ import annotations

from itertools import pairwise
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from rich.cells import cell_len
from rich.style import Style
from textual.app import App, ComposeResult
from textual.geometry import Region
from textual.strip import Strip

from tui.widgets.canvas import Canvas
from tui.widgets.lines import Lines, clean, strip_of, wrap, wrap_words

PLAIN, BOLD = Style(), Style(bold=True)
TEXTS = st.text(st.characters(), max_size=40) | st.text(
    st.sampled_from("ab ½×紙👩\u200d\ufe0f\u0301\t\n\x1b"), max_size=40
)


def line(*texts: str) -> Strip:
    return strip_of((text, PLAIN) for text in texts)


def text_of(rows: list[list[tuple[str, Style]]]) -> list[str]:
    return ["".join(text for text, _ in row) for row in rows]


@given(TEXTS)
def test_clean_text_measures_as_the_sum_of_its_characters(text: str) -> None:
    cleaned = clean(text)
    sizes = [cell_len(char) for char in cleaned]
    assert set(sizes) <= {1, 2}
    assert cell_len(cleaned) == sum(sizes)
    assert not any(char in cleaned for char in "\x1b\t\n\u200d\ufe0f")


def test_an_accent_stays_with_its_letter() -> None:
    assert clean("cafe\u0301") == "café"  # composed, as Unicode normal form C has it


@given(st.lists(st.tuples(TEXTS, st.sampled_from([PLAIN, BOLD])), max_size=5), st.integers(0, 30))
def test_no_line_is_wider_than_asked(spans: list[tuple[str, Style]], width: int) -> None:
    rows = wrap(spans, width)
    assert all(cell_len(text) <= width for text in text_of(rows))
    if width == 0:
        assert rows == []


WORDS = st.lists(st.text(st.sampled_from("abc½"), min_size=1, max_size=8), min_size=1, max_size=12)


@given(WORDS, st.integers(8, 30), st.integers(0, 20))
def test_words_stay_whole_and_in_order(words: list[str], width: int, cut: int) -> None:
    text = " ".join(words)
    rows = text_of(wrap([(text[:cut], PLAIN), (text[cut:], BOLD)], width))
    assert " ".join(rows).split() == words
    assert rows == wrap_words(text, width)
    for row, following in pairwise(rows):  # no line could take one word more
        assert cell_len(row) + 1 + cell_len(following.split()[0]) > width


def test_styles_stay_with_their_words() -> None:
    rows = wrap([("put the ", PLAIN), ("border", BOLD), (" strip away", PLAIN)], 14)
    assert rows == [[("put the ", PLAIN), ("border", BOLD)], [("strip away", PLAIN)]]


def test_a_word_that_is_too_wide_is_broken_by_wrap_and_refused_by_wrap_words() -> None:
    assert text_of(wrap([("abcdefgh ij", PLAIN)], 3)) == ["abc", "def", "gh", "ij"]
    assert wrap_words("abcdefgh ij", 3) is None


def test_a_newline_begins_a_line() -> None:
    assert text_of(wrap([("one\n\ntwo", PLAIN)], 9)) == ["one", "", "two"]


@given(TEXTS, st.integers(0, 20))
def test_a_strip_is_padded_or_cropped_to_its_width(text: str, width: int) -> None:
    strip = strip_of([(text, PLAIN), ("紙", BOLD)], width)
    assert sum(cell_len(segment.text) for segment in strip) == width == strip.cell_length


@given(
    st.integers(0, 12),
    st.integers(0, 3),
    st.lists(st.tuples(st.integers(-6, 14), st.integers(-1, 3), TEXTS), max_size=6),
    st.booleans(),
)
def test_a_canvas_never_changes_its_width(
    width: int, height: int, writes: list[tuple[int, int, str]], mirror: bool
) -> None:
    canvas = Canvas(width, height, PLAIN, mirror)
    for column, row, text in writes:
        canvas.put(column, row, text, BOLD)
        canvas.fill(column + 1, row, column + 3, row + 1, BOLD, ("./",))
    strips = canvas.strips()
    assert len(strips) == height
    assert all(sum(cell_len(segment.text) for segment in strip) == width for strip in strips)


def test_a_mirrored_canvas_mirrors_places_and_not_letters() -> None:
    canvas = Canvas(10, 1, PLAIN, True)
    canvas.put(1, 0, "ab")
    canvas.fill(5, 0, 7, 1, BOLD, ("x",))
    assert canvas.strips()[0].text == "   xx  ab "


class LinesApp(App[None]):
    CSS = """
    Lines { width: 10; height: 4; background: #102030; color: #ffffff; }
    Lines.other { background: #405060; }
    """

    def compose(self) -> ComposeResult:
        yield Lines([line("one"), line("two"), line("three")])


async def test_only_changed_rows_are_painted_again(monkeypatch: pytest.MonkeyPatch) -> None:
    app = LinesApp()
    async with app.run_test(size=(20, 6)) as pilot:
        await pilot.pause()
        widget = app.query_one(Lines)
        asked: list[tuple[Region, ...]] = []
        original = widget.refresh

        def spy(*regions: Region, **options: Any) -> Lines:
            assert not options
            asked.append(regions)
            return original(*regions)

        monkeypatch.setattr(widget, "refresh", spy)
        widget.set_lines([line("one"), line("two"), line("three")])
        assert asked == []  # nothing changed
        widget.set_lines([line("one"), line("2"), line("three")])
        assert asked.pop() == (Region(0, 1, 10, 1),)
        widget.set_lines([line("1"), line("2"), line("three"), line("four"), line("unseen")])
        assert asked.pop() == (Region(0, 0, 10, 1), Region(0, 3, 10, 1))
        widget.set_lines([line("1")])
        assert asked.pop() == (Region(0, 1, 10, 3),)
        widget.set_lines([line("1")] + [line("")] * 3 + [line("unseen")])
        assert asked == [] or asked.pop() == (Region(0, 1, 10, 3),)


async def test_rows_are_padded_cropped_and_on_the_widgets_background() -> None:
    app = LinesApp()
    async with app.run_test(size=(20, 6)) as pilot:
        await pilot.pause()
        widget = app.query_one(Lines)
        widget.set_lines([line("short"), line("much longer than ten"), line("紙" * 6)])
        rows = [widget.render_line(y) for y in range(4)]
        assert [row.text for row in rows] == ["short     ", "much longe", "紙" * 5, " " * 10]
        for row in rows:
            for segment in row:
                assert segment.style is not None
                assert segment.style.bgcolor is not None
                assert segment.style.bgcolor.get_truecolor().hex == "#102030"
        widget.add_class("other")
        await pilot.pause()
        await pilot.pause()
        style = next(iter(widget.render_line(0))).style
        assert style is not None and style.bgcolor is not None
        assert style.bgcolor.get_truecolor().hex == "#405060"


@pytest.mark.parametrize("size", [(0, 0), (1, 1), (3, 2), (200, 60)])
async def test_any_size_of_terminal(size: tuple[int, int]) -> None:
    app = LinesApp()
    async with app.run_test(size=(20, 6)) as pilot:
        await pilot.resize_terminal(*size)
        await pilot.pause()
        widget = app.query_one(Lines)
        widget.set_lines([line("a"), line("b")])
        await pilot.pause()
        assert widget.render_line(0).cell_length == widget.size.width
