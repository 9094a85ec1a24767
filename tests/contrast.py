"""How well what is painted is seen: every screen, in every theme, with all, 256 and 16 colours.

``python -m tests.contrast`` prints the least ratio of each tone in each theme.

Ratios are those of WCAG 2.2, https://www.w3.org/TR/WCAG22/: 4.5:1 for text (1.4.3), 3:1 for
large figures (1.4.3) and for drawn shapes and lines that tell something (1.4.11).
"""

from __future__ import annotations

import asyncio
import sys
import tempfile
from collections.abc import AsyncIterator, Callable, Iterator, Sequence
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from rich.color import ColorSystem
from rich.style import Style
from textual.pilot import Pilot
from textual.screen import Screen

from model.colour import Rgb, contrast, ink_on
from model.find import Finder
from model.likeness import LookAlikes
from model.plan import Role, StepKind
from model.recount import Recount
from model.session import Session
from model.settings import Settings
from tests import settled
from tests.pictures import to_end, to_filing, to_step
from tests.screens import begun, table
from tui.app import DryfitApp
from tui.depth import legible, shown
from tui.screens.ask import Ask
from tui.screens.count import CountScreen
from tui.screens.find import FindScreen
from tui.screens.shelf import ShelfScreen
from tui.themes import THEMES
from tui.widgets.panel import _LOOKS

DEPTHS = {
    "all": ColorSystem.TRUECOLOR,
    "256": ColorSystem.EIGHT_BIT,
    "16": ColorSystem.STANDARD,
}
TEXT, SHAPE = 4.5, 3.0
LINES = frozenset("─│┌┐└┘├┤┬┴┼╭╮╯╰┃╎▼▌≈~/·│╷╵╻╹━╸╺|▁▂▃▄▅▆▇█▏▎▍▋▊▉▐▔▕■▀")
"""What is drawn and no text; a slash or a tilde is both, and is text where letters are near."""
BEHIND = "(behind)"
DECORATION = {
    "a screen behind a question, which is not active (1.4.3 and 1.4.11 except it)": (
        lambda text, widget: widget == BEHIND
    ),
    "the line between the step and the side": lambda text, widget: widget == "edge",
    "Textual's own border of the palette": lambda text, widget: (
        widget.startswith("--") and not any(map(str.isalnum, text))
    ),
}
"""What tells nothing: what it parts stands apart without it."""


def _step(kind: StepKind, number: int = 1) -> Callable[[Session], None]:
    return lambda session: to_step(session, kind, number)


def _filing(role: Role) -> Callable[[Session], None]:
    return lambda session: to_filing(session, role)


def _wrong(session: Session) -> None:
    to_filing(session, Role.PIECE)
    assert session.file_into(2).raised


def _left(session: Session) -> None:
    to_filing(session, Role.PIECE)
    for warning in session.file_into(2).raised:
        session.leave(warning)
    session.next()


def _find(session: Session) -> Screen[Any]:
    return FindScreen(session, Finder(session.plan), "Which one?")


def _count(session: Session) -> Screen[Any]:
    looks = LookAlikes(session.plan)
    recount = Recount(session.plan, session.state, looks)
    return CountScreen(session, recount, Finder(session.plan), 0)


PUSHED: dict[str, Callable[[Session], Screen[Any]]] = {
    "!find": _find,
    "!count": _count,
    "!ask": lambda session: Ask("Width of the ruler:", ("Enter takes it", "Esc goes back"), "3 in"),
    "!shelf": lambda session: ShelfScreen(),
}
"""Screens that are put up without a key of the table."""

# Kit, what is done before, and what is pressed; escape leads back to the table between two.
SCENES: list[tuple[str, str, Callable[[Session], object], list[list[str]]]] = [
    ("load", "harbour", _step(StepKind.LOAD), [[], ["question_mark"], ["comma"], ["ctrl+p"]]),
    (
        "cut",
        "harbour",
        _step(StepKind.CUT, 2),
        [[], ["!find"], ["!count"], ["!ask"], ["!shelf"], ["n"]],
    ),
    ("file", "harbour", _filing(Role.PIECE), [[], ["k"], ["a"]]),
    ("wrong", "harbour", _wrong, [[]]),
    ("left", "harbour", _left, [[], ["w"], ["k"], ["u"]]),
    ("scrap", "harbour", _filing(Role.SCRAP), [[]]),
    ("tear", "harbour", _step(StepKind.TEAR), [[]]),
    ("trace", "harbour", _step(StepKind.SHAPE, 2), [[]]),
    ("fill", "harbour", _step(StepKind.FILL), [[]]),
    ("end", "cards", to_end, [[], ["a"]]),
]


@dataclass(frozen=True)
class Seen:
    """A run of what is painted.

    Attributes:
        where: Theme, scene, keys and size.
        widget: The id or the class of the widget that painted it.
        text: What is written.
        style: In true colours.
    """

    where: tuple[str, str, str, str]
    widget: str
    text: str
    style: Style

    @property
    def kind(self) -> str:
        """``text``, ``shape``, or empty for what needs to be told from nothing."""
        style = self.style
        if not self.text.strip():
            return "shape" if style.reverse else ""  # a cell of a large figure
        if any(tells(self.text, self.widget) for tells in DECORATION.values()):
            return ""
        return "shape" if all(char in LINES or char == " " for char in self.text) else "text"

    def ratio(self, depth: str) -> float:
        """Ink against ground, as a terminal of so many colours shows them."""
        style = legible(self.style, DEPTHS[depth]) if depth != "all" else self.style
        ink, ground = pair(style, DEPTHS[depth])
        return contrast(ink, ground)


def pair(style: Style, system: ColorSystem) -> tuple[Rgb, Rgb]:
    """Ink and ground as they are seen: reversed or dimmed."""
    assert style.color is not None and style.bgcolor is not None, style
    ink, ground = shown(style.color, system), shown(style.bgcolor, system)
    if style.dim:  # terminals differ; Textual's own filter takes two thirds (DIM_FACTOR)
        red, green, blue = ((2 * a + b) // 3 for a, b in zip(ink, ground, strict=True))
        ink = red, green, blue
    return (ground, ink) if style.reverse else (ink, ground)


def seen_on(app: DryfitApp, where: tuple[str, str, str, str]) -> Iterator[Seen]:
    """Every run of every row that is on the screen."""
    for y, row in enumerate(app.screen._compositor.render_strips(app.size)):
        x = 0
        for segment in row:
            if segment.text and segment.style is not None:
                widget, _ = app.screen.get_widget_at(min(x, app.size.width - 1), y)
                name = widget.id or type(widget).__name__
                if widget is app.screen and app.screen.is_modal:
                    name = BEHIND
                yield Seen(where, name, segment.text, segment.style)
            x += segment.cell_length


async def every_screen(
    folder: Path,
    size: tuple[int, int],
    settings: Settings | None = None,
    themes: Sequence[str] = (THEMES[0].name,),
    only: Sequence[str] = (),
) -> AsyncIterator[tuple[Pilot[None], tuple[str, str, str, str]]]:
    """Each screen in turn in each theme, as it stands painted; theme, scene, keys and size."""
    for scene, kit, go, presses in SCENES:
        if only and scene not in only:
            continue
        session = begun(kit, folder)
        go(session)
        async with table(session, size, settings) as (pilot, screen):
            for theme in themes:
                pilot.app.theme = theme  # before a question is up, which would keep its looks
                await pilot.pause()
                for keys in presses:
                    if keys and keys[0] in PUSHED:
                        pilot.app.push_screen(PUSHED[keys[0]](session))
                        await pilot.press(*(["a"] if keys[0] == "!find" else []))
                    else:
                        await pilot.press(*keys)
                    await pilot.pause()
                    on_top = pilot.app.screen
                    assert (on_top is screen) is (not keys), (scene, keys)
                    yield pilot, (theme, scene, " ".join(keys), f"{size[0]}x{size[1]}")
                    if keys and keys[0] in PUSHED:
                        pilot.app.pop_screen()
                    elif on_top is not screen:
                        await pilot.press("escape")
                    await pilot.pause()


async def look(folder: Path, size: tuple[int, int]) -> list[Seen]:
    """All that is painted on all screens in all themes.

    Args:
        folder: Where the sessions are kept.
        size: The size at which it is measured.
    """
    found: dict[Seen, None] = {}
    names = [theme.name for theme in THEMES]
    async for pilot, where in every_screen(folder, size, themes=names):
        found.update(dict.fromkeys(seen_on(pilot.app, where)))
    return list(found)


def tone_of(seen: Seen, tones: dict[tuple[str, Style], str]) -> str:
    """The tone of a panel whose style it has, or what else it is."""
    style = seen.style
    assert style.bgcolor is not None
    ground = shown(style.bgcolor, ColorSystem.TRUECOLOR)
    look = Style(color=style.color, bold=style.bold, reverse=style.reverse)
    if (seen.where[0], look) in tones:
        return tones[seen.where[0], look]
    if style.color is not None and shown(style.color, ColorSystem.TRUECOLOR) == ink_on(ground):
        return "on paper"
    return "else"


def main() -> None:
    """Print the least ratios."""
    settled.install()
    least: dict[tuple[str, str, str], dict[str, float]] = {}
    with tempfile.TemporaryDirectory() as folder:
        for size in ((80, 24), (120, 40)):
            for seen in asyncio.run(look(Path(folder), size)):
                if seen.kind:
                    tone = tone_of(seen, _tones())
                    row = least.setdefault((seen.where[0], seen.kind, tone), {})
                    for depth in DEPTHS:
                        ratio = seen.ratio(depth)
                        row[depth] = min(ratio, row.get(depth, 21.0))
    print(f"{'theme':<18}{'kind':<7}{'tone':<12}" + "".join(f"{d:>7}" for d in DEPTHS))
    for (theme, kind, tone), row in sorted(least.items()):
        print(f"{theme:<18}{kind:<7}{tone:<12}" + "".join(f"{row[d]:7.1f}" for d in DEPTHS))


def _tones() -> dict[tuple[str, Style], str]:
    tones: dict[tuple[str, Style], str] = {}
    for theme in THEMES:
        variables = theme.to_color_system().generate() | theme.variables
        for tone, (variable, manner) in _LOOKS.items():
            value = variables.get(variable, "")
            if value.startswith("#"):
                style = Style.parse(f"{manner} {value.lower()}".strip())
                tones.setdefault((theme.name, style), tone)
    return tones


if __name__ == "__main__":
    with suppress(BrokenPipeError):
        main()
    sys.exit()
