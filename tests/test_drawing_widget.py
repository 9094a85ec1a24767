"""The drawing as a widget: once per change, for every size, in every theme."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import pytest
from textual.app import App, ComposeResult
from textual.strip import Strip

from model.ruler import GRADUATIONS
from model.scene import Block, Scene
from tui.widgets.drawing import Drawing, paint

INCH = Fraction(127, 5)
RED, TEAL = (200, 40, 40), (20, 130, 130)


def load(mark: Fraction | int) -> Scene:
    """A 12 x 12 in sheet at a mark: red paper stays, teal comes off."""
    side, cut = 12 * INCH, mark * INCH
    none: frozenset[Any] = frozenset()
    stays = Block(
        Fraction(0), Fraction(0), cut, side, "A", "", "rest", RED, False, None, none, False
    )
    off = Block(cut, Fraction(0), side - cut, side, "B", "", "piece", TEAL, False, None, none, True)
    ruler = GRADUATIONS["1/16 in"]
    return Scene(side, side, (stays, off), cut, (), ruler, False, False, "left")


def colours(strips: list[Strip]) -> set[tuple[int, ...]]:
    """Every background."""
    styles = [segment.style for strip in strips for segment in strip]
    return {tuple(s.bgcolor.get_truecolor()) for s in styles if s is not None and s.bgcolor}


class DrawingApp(App[None]):
    CSS = "Drawing { width: 1fr; height: 1fr; }"

    def compose(self) -> ComposeResult:
        yield Drawing()


def rendered(widget: Drawing) -> list[str]:
    return [widget.render_line(y).text for y in range(widget.size.height)]


@pytest.mark.parametrize("size", [(80, 24), (60, 20), (1, 1), (0, 0), (120, 40)])
async def test_the_widget_paints_for_its_size(size: tuple[int, int]) -> None:
    app = DrawingApp()
    async with app.run_test(size=(30, 10)) as pilot:
        await pilot.pause()
        widget = app.query_one(Drawing)
        scene = load(Fraction(21, 2))
        widget.draw(scene)
        await pilot.resize_terminal(*size)
        await pilot.pause()
        await pilot.pause()
        assert tuple(widget.size) == size or size == (0, 0)  # which Textual may well ignore
        assert rendered(widget) == [strip.text for strip in paint(scene, *widget.size)]
        widget.draw(None)
        assert not "".join(rendered(widget)).strip()


async def test_the_widget_paints_once_a_change_and_resolves_styles_once(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    app = DrawingApp()
    async with app.run_test(size=(60, 20)) as pilot:
        await pilot.pause()
        widget = app.query_one(Drawing)
        painted: list[Scene | None] = []

        def counted(scene: Scene | None, *rest: Any) -> list[Strip]:
            painted.append(scene)
            return paint(scene, *rest)

        monkeypatch.setattr("tui.widgets.drawing.paint", counted)
        palette = widget.palette
        first, second = load(10), load(8)
        widget.draw(first)
        widget.draw(first)
        widget.draw(second)
        await pilot.pause()
        assert painted == [first, second]
        assert widget.palette is palette
        widget.set_ascii(True)
        assert len(painted) == 3
        assert "#" in "".join(rendered(widget)) and "┃" not in "".join(rendered(widget))
        app.theme = "textual-light"
        await pilot.pause()
        await pilot.pause()
        assert widget.palette != palette
        assert len(painted) == 4


async def test_paper_keeps_its_own_colour_in_every_theme() -> None:
    app = DrawingApp()
    async with app.run_test(size=(60, 20)) as pilot:
        widget = app.query_one(Drawing)
        widget.draw(load(6))
        for theme in ("textual-dark", "textual-light", "nord"):
            app.theme = theme
            await pilot.pause()
            await pilot.pause()
            assert {RED, TEAL} <= colours([widget.render_line(y) for y in range(20)])


async def test_the_scene_gets_the_rows_that_the_text_leaves(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    app = DrawingApp()
    async with app.run_test(size=(60, 20)) as pilot:
        widget = app.query_one(Drawing)
        painted: list[int] = []

        def counted(scene: Scene | None, width: int, height: int, *rest: Any) -> list[Strip]:
            painted.append(height)
            return paint(scene, width, height, *rest)

        monkeypatch.setattr("tui.widgets.drawing.paint", counted)
        scene = load(6)
        widget.draw(scene, lambda width, height: [[("one", "plain")], [("two", "plain")]])
        await pilot.pause()
        assert [row.strip() for row in rendered(widget)[:2]] == ["one", "two"]
        assert rendered(widget)[2:] == [strip.text for strip in paint(scene, 60, 18)]
        assert tuple(widget.picture) == (0, 2, 60, 18)
        widget.draw(scene, lambda width, height: [[("one", "plain")], [("other", "plain")]])
        widget.draw(scene, lambda width, height: [[("one", "plain")]])
        assert painted == [18, 19]
