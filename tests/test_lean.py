"""The shortened text shows on a terminal what the long one shows."""

from __future__ import annotations

import random
import re
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from rich.cells import cell_len
from rich.console import Console
from textual._compositor import CompositorUpdate, LayoutUpdate

from tests.screens import begun, table
from tui.lean import shorten

STYLES = (
    "1", "2", "3", "4", "7", "1;2", "1;31", "2;38;2;1;2;3", "38;2;200;40;40;48;2;18;18;18",
    "38;2;90;90;90;48;2;18;18;18", "7;38;2;200;40;40", "48;5;17", "97;104", "0;1", "22", "9;53",
    "48;2;18;18;18", "39;4", "27;49",
)  # fmt: skip
TEXTS = st.sampled_from(("", " ", "    ", "mat", " 9½ in ", "紙", "a  "))


class Screen:
    """A terminal of the plainest kind: cells with what is seen in them.

    Written after ECMA-48, 8.3.117 (SGR) and 8.3.21 (CUP), one code at a time.
    """

    def __init__(self) -> None:
        self.cells: dict[tuple[int, int], tuple[object, ...]] = {}
        self.row = self.column = 1
        self.look: dict[str, str] = {}

    def show(self, text: str) -> Screen:
        for escape, codes, end, char in re.findall(r"(\x1b\[)([0-9;]*)([A-Za-z])|([^\x1b])", text):
            if end == "m":
                self.style(codes.split(";"))
            elif end == "H":
                self.row, self.column = map(int, codes.split(";"))
            elif char == "\n":
                self.row, self.column = self.row + 1, 1
            else:
                assert char and not escape
                self.put(char)
        return self

    def style(self, codes: list[str]) -> None:
        look = self.look
        offs = {"22": "bold dim", "23": "3", "24": "4", "27": "7", "29": "9", "55": "53"}
        while codes:
            code = codes.pop(0)
            number = int(code or 0)
            if number == 0:
                look.clear()
            elif number in (38, 48):
                many = 4 if codes[0] == "2" else 2
                look["ink" if number == 38 else "ground"] = ";".join(codes[:many])
                del codes[:many]
            elif number in (39, 49):
                look.pop("ink" if number == 39 else "ground", None)
            elif code in offs:
                for name in offs[code].split():
                    look.pop(name, None)
            elif number < 30 or number == 53:
                look[{"1": "bold", "2": "dim"}.get(code, code)] = "on"
            else:
                look["ink" if number // 10 in (3, 9) else "ground"] = code

    def put(self, char: str) -> None:
        look = dict(self.look)
        if char == " " and not {"4", "7", "9", "53"} & look.keys():
            look = {name: look[name] for name in ("ground",) if name in look}
        self.cells[self.row, self.column] = (char, *sorted(look.items()))
        if cell_len(char) == 2:
            self.cells[self.row, self.column + 1] = ()
        self.column += cell_len(char)


@st.composite
def frames(draw: st.DrawFn) -> str:
    """Runs of styled text at places, each reset after or not."""
    parts = []
    for _ in range(draw(st.integers(0, 12))):
        if draw(st.booleans()):
            parts.append(f"\x1b[{draw(st.integers(1, 9))};{draw(st.integers(1, 40))}H")
        parts.append(f"\x1b[{draw(st.sampled_from(STYLES))}m{draw(TEXTS)}")
        if draw(st.booleans()):
            parts.append("\x1b[0m")
        parts.append(draw(st.sampled_from(("", "\n", "plain"))))
    return "".join(parts)


@given(frames())
def test_the_same_is_seen_and_left_behind_in_no_more_bytes(text: str) -> None:
    long, short = Screen().show(text), Screen().show(shorten(text))
    assert short.cells == long.cells
    assert short.look == long.look
    assert (short.row, short.column) == (long.row, long.column)
    # A style that is set on top of another may be dearer than it was by the reset before it.
    assert len(shorten(text)) <= len(text) + 8


def test_neighbours_on_one_ground_send_it_once() -> None:
    ground = "48;2;18;18;18"
    text = "".join(f"\x1b[{style};{ground}m{word}\x1b[0m" for style, word in (
        ("38;2;9;9;9", "mat"), ("1;38;2;9;9;9", "3·4"), ("38;2;1;1;1", "   "),
    ))  # fmt: skip
    assert shorten(text) == f"\x1b[38;2;9;9;9;{ground}mmat\x1b[1m3·4   \x1b[0m"


@pytest.mark.parametrize(
    "text",
    [
        "", "plain", "\x1b[?2026h", "\x1b[1mcut\x1b[0", "\x1b[1mcut\x1b[0m\x1b",
        "\x1b[58;5;1mcut\x1b[0m", "\x1b[38mcut\x1b[0m",
    ],
)  # fmt: skip
def test_what_is_not_understood_is_left_as_it_is(text: str) -> None:
    assert shorten(text) == text


async def test_what_is_sent_bit_by_bit_adds_up_to_the_whole_picture(tmp_path: Path) -> None:
    chance = random.Random(7)
    console = Console(color_system="truecolor", force_terminal=True)
    keys = ["space"] * 10 + ["u", "r", "3", "5", "p", "l", "s", "c", "k", "escape", "a", "n"]
    async with table(begun("harbour", tmp_path, 40)) as (pilot, _):
        app = pilot.app
        sent = Screen()

        def display(screen: object, update: object) -> None:
            if isinstance(update, CompositorUpdate):
                sent.show(shorten(update.render_segments(console)))

        app._display = display  # type: ignore[method-assign, assignment]
        app.screen.refresh()
        for _ in range(40):
            await pilot.pause()
            strips = app.screen._compositor.render_strips(app.size)
            whole = LayoutUpdate([[strip] for strip in strips], app.size.region)
            assert sent.cells == Screen().show(whole.render_segments(console)).cells
            await pilot.press(chance.choice(keys))
