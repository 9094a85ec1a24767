"""Every text and every shape is seen on its ground: in each theme, with many colours and few."""

from __future__ import annotations

import asyncio
from datetime import UTC, datetime
from pathlib import Path

import pytest
from hypothesis import example, given
from hypothesis import strategies as st
from rich.color import Color, ColorSystem
from rich.console import Console
from rich.segment import Segment
from rich.style import Style
from textual.color import Color as Ground
from textual.filter import Monochrome, NoColor

from model.colour import Rgb, contrast, faint_on, ink_on
from tests.contrast import DEPTHS, SHAPE, TEXT, Seen, look, pair
from tui.depth import Legible, depth_filters, legible, shown
from tui.themes import THEMES
from tui.widgets.paper import inks

colours = st.tuples(*[st.integers(0, 255)] * 3)


@pytest.fixture(scope="module")
def seen(tmp_path_factory: pytest.TempPathFactory) -> list[Seen]:
    """What is painted on all screens in all themes."""
    folder: Path = tmp_path_factory.mktemp("sessions")
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("DRYFIT_HOME", str(folder))
        patch.setattr("model.run.now", lambda: datetime(2026, 1, 5, 10, 0, tzinfo=UTC))
        return asyncio.run(look(folder, (80, 24)))


@pytest.mark.parametrize("depth", DEPTHS)
def test_every_text_and_shape_stands_out(seen: list[Seen], depth: str) -> None:
    low = {
        (run.where, run.widget, run.text, str(run.style), round(run.ratio(depth), 2))
        for run in seen
        if run.kind and run.ratio(depth) < (TEXT if run.kind == "text" else SHAPE)
    }
    assert not low


def test_what_is_measured_is_what_there_is(seen: list[Seen]) -> None:
    assert {run.where[0] for run in seen} == {theme.name for theme in THEMES}
    for theme in THEMES:
        mine = [run for run in seen if run.where[0] == theme.name]
        # 24 screens; the text of most is long. Paper, figures and lines are among them.
        assert len({run.where for run in mine}) == 24
        assert sum(run.kind == "text" for run in mine) > 500
        assert any(run.kind == "shape" and run.style.reverse for run in mine)
        assert any(run.kind == "shape" and "┃" in run.text for run in mine)
        assert any(run.kind == "" and run.widget == "edge" for run in mine)
        grounds = {str(run.style.bgcolor) for run in mine if run.widget == "step"}
        assert len(grounds) > 6


@given(colours)
@example((118, 118, 118))
@example((255, 0, 0))
def test_words_and_outlines_are_seen_on_paper_of_any_colour(paper: Rgb) -> None:
    assert contrast(ink_on(paper), paper) >= TEXT
    assert contrast(faint_on(paper), paper) >= SHAPE
    styles = inks(paper)
    for style, least in ((styles.text, TEXT), (styles.name, TEXT), (styles.faint, SHAPE)):
        for depth, system in DEPTHS.items():
            kept = legible(style, system) if depth != "all" else style
            assert contrast(*pair(kept, system)) >= least, (paper, depth)


@given(colours, colours, st.sampled_from([ColorSystem.EIGHT_BIT, ColorSystem.STANDARD]))
def test_what_was_legible_stays_so_with_few_colours(
    ink: Rgb, ground: Rgb, system: ColorSystem
) -> None:
    style = Style(color=Color.from_rgb(*ink), bgcolor=Color.from_rgb(*ground), bold=True)
    kept = legible(style, system)
    assert kept.bold and kept.bgcolor == style.bgcolor
    ratio = contrast(ink, ground)
    assert contrast(*pair(kept, system)) >= (TEXT if ratio >= TEXT else SHAPE if ratio >= 3 else 1)


def test_without_it_words_on_paper_would_be_lost() -> None:
    brown = inks((0xA5, 0x2A, 0x2A)).text  # CSS "brown": white ink in true colour
    assert contrast(*pair(brown, ColorSystem.TRUECOLOR)) >= TEXT
    ink, ground = pair(inks((0x46, 0x82, 0xB4)).text, ColorSystem.STANDARD)  # CSS "steelblue"
    kept = legible(inks((0x46, 0x82, 0xB4)).text, ColorSystem.STANDARD)
    assert contrast(*pair(kept, ColorSystem.STANDARD)) >= max(TEXT, contrast(ink, ground))


def test_the_colours_that_a_terminal_shows() -> None:
    # The 6 x 6 x 6 cube of xterm-256color has the steps 0, 95, 135, 175, 215, 255 (256colres.pl
    # of xterm; from memory).
    steps = {0, 95, 135, 175, 215, 255}
    for rgb in ((200, 30, 30), (10, 200, 120), (250, 250, 10)):
        assert set(shown(Color.from_rgb(*rgb), ColorSystem.EIGHT_BIT)) <= steps
    assert shown(Color.from_rgb(1, 2, 3), ColorSystem.TRUECOLOR) == (1, 2, 3)
    assert shown(Color.from_rgb(0, 0, 0), ColorSystem.STANDARD) == (0, 0, 0)


@pytest.mark.parametrize(
    ("system", "made"), [("truecolor", 0), ("256", 1), ("standard", 1), ("windows", 1), (None, 0)]
)
def test_rows_are_changed_only_where_colours_are_few(system: str | None, made: int) -> None:
    console = Console(color_system=system, force_terminal=True)  # type: ignore[arg-type]
    filters = depth_filters([], console)
    assert [type(each) for each in filters] == [Legible] * made


def test_no_colour_means_none() -> None:
    # https://no-color.org: "prevents the addition of ANSI color".
    (filter,) = depth_filters([Monochrome()], Console(color_system="truecolor"))
    assert isinstance(filter, NoColor)
    (row,) = filter.apply([Segment("mat", Style.parse("bold red on blue"))], Ground(0, 0, 0))
    assert row.style is not None and row.style.bold
    assert row.style.color is not None and row.style.color.is_default
    assert row.style.bgcolor is not None and row.style.bgcolor.is_default
