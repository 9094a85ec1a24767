"""Nothing is said by colour alone: signs and words say it too, and NO_COLOR takes nothing away."""

from __future__ import annotations

import os
import re
from dataclasses import replace
from itertools import combinations

import pytest

from model.colour import WHITE, difference, parse_colour
from model.moment import Moment
from model.plan import Role, StepKind
from model.settings import Settings
from tests.contrast import every_screen
from tests.pictures import to_filing, to_step
from tests.screens import begun, table
from tests.test_room import moment
from tests.vision import MATRICES, as_seen
from tui import parts, parts_step
from tui.depth import no_colour_wanted
from tui.room import Room
from tui.themes import THEMES
from tui.widgets.panel import Row

STATES = {"good": "text-success", "warn": "text-warning", "error": "text-error"}
"""Tones that stand side by side with nothing but their hue between them: the chosen and the
target are set in reverse, the keys in brackets or at the foot."""
APART = 0.05
"""In OKLab; two to three times what is just noticed (about 0.02; from memory, CSS Color 4)."""


@pytest.mark.parametrize("kind", MATRICES)
def test_the_simulation_leaves_white_and_greys_as_they_are(kind: str) -> None:
    for level in (0, 90, 255):
        assert as_seen((level, level, level), kind) == pytest.approx((level,) * 3, abs=1)
    red, green = as_seen((200, 0, 0), kind), as_seen((0, 128, 0), kind)
    far = difference((200, 0, 0), (0, 128, 0))
    assert (difference(red, green) < far / 1.5) is (kind != "tritan")


@pytest.mark.parametrize("kind", MATRICES)
@pytest.mark.parametrize("theme", THEMES, ids=lambda theme: theme.name)
def test_states_stay_apart_with_a_colour_vision_deficiency(theme, kind) -> None:
    tones = {name: parse_colour(theme.variables[value]) for name, value in STATES.items()}
    tones["plain"] = parse_colour(theme.foreground)
    for one, other in combinations(tones, 2):
        seen = difference(as_seen(tones[one], kind), as_seen(tones[other], kind))
        assert seen >= APART, (one, other, seen)
    assert difference(as_seen(WHITE, kind), WHITE) < 0.01


def bare(rows: list[Row]) -> str:
    """Rows without their tones."""
    return "\n".join("".join(text for text, _ in row) for row in rows)


@pytest.mark.parametrize("ascii", [False, True])
def test_every_state_of_a_pocket_is_a_sign(ascii: bool) -> None:
    line = replace(moment("cut").pockets[0], held=2, wanted=3, target=False, wrong=0)
    states = {
        "plain": line,
        "full": replace(line, held=3),
        "target": replace(line, target=True),
        "wrong": replace(line, wrong=1),
        "wrong target": replace(line, target=True, wrong=1),
    }
    for show in (
        lambda pocket: [parts.pocket_row(pocket, 27, ascii)],
        lambda pocket: parts.brief(replace(moment("cut"), pockets=(pocket,)), 60, 2, ascii),
    ):
        # Without the numbers, which would have to be read and compared.
        signs = {re.sub(r"[/\d·]", "", bare(show(pocket))) for pocket in states.values()}
        assert len(signs) == len(states)


@pytest.mark.parametrize("ascii", [False, True])
def test_what_is_chosen_and_what_is_open_are_said(tmp_path, ascii: bool) -> None:
    session = begun("harbour", tmp_path, 60)
    session.pace_by(True)
    to_step(session, StepKind.CUT)
    while len(session.state.pile) < 2:
        session.next()
    shown = moment_with(session)
    rows = {
        bare(parts.pile(shown, 30, 9, line.id, ascii)) for line in shown.pile[:2]
    }  # either of two things is in hand: the rows differ in signs
    assert len(rows) == 2
    few, many = replace(shown, scraps=(1, 2)), replace(shown, scraps=(3, 2))
    assert "1/2" in bare(parts.tally(few, 30)) and "3/2" in bare(parts.tally(many, 30))
    left = replace(shown, alerts=(replace(moment("wrong").alerts[0], left=True),))
    assert "! 1 warning left open" in bare(parts.tally(left, 30))
    session.close()


def moment_with(session) -> Moment:
    from model.moment import moment_of

    return moment_of(session, Settings().manner(session.plan.kit.unit))


def test_each_tone_of_the_figures_is_a_word_as_well() -> None:
    room = Room(head=1, mark=5, sentence=3, goes=1)
    said = {
        name: bare(parts_step.step(moment(name), "", False, 80, 24, room))
        for name in ("cut", "file", "wrong", "load")
    }
    assert len({text.split("\n")[0] for text in said.values()}) == len(said)
    assert "!! " in said["wrong"] and not any("!!" in said[n] for n in said if n != "wrong")
    assert "→ pocket" in said["file"]


async def test_with_no_color_no_screen_has_any(tmp_path, monkeypatch) -> None:
    number = 0
    monkeypatch.setenv("NO_COLOR", "1")
    async for pilot, where in every_screen(tmp_path, (80, 24), only=("cut", "file", "left")):
        monkeypatch.setenv("NO_COLOR", "1")  # Textual takes it out when it starts
        app = pilot.app
        assert app.no_color
        rows = app.screen._compositor.render_strips(app.size)
        for row in rows:
            for segment in row:
                for colour in (segment.style.color, segment.style.bgcolor):
                    assert colour is None or colour.is_default, (where, segment)
        number += 1
    assert number == 13


async def test_without_colour_what_is_chosen_is_in_reverse_or_underlined(
    tmp_path, monkeypatch
) -> None:
    monkeypatch.setenv("NO_COLOR", "1")
    session = begun("harbour", tmp_path)
    to_step(session, StepKind.CUT, 2)
    async with table(session) as (pilot, _):

        def reversed_texts() -> list[str]:
            rows = pilot.app.screen._compositor.render_strips(pilot.app.size)
            return [s.text for row in rows for s in row if s.style and s.style.reverse]

        # The held edge is a bar with its name on it, a letter a row; the mark stands on the ruler.
        texts = reversed_texts()
        assert {"h", "e", "l", "d"} <= set(texts)
        scene = pilot.app.screen.moment.scene
        assert scene is not None and scene.cut is not None
        assert any(text.strip().startswith("cut ") for text in texts)
        for keys in ("k", "comma", "question_mark", "ctrl+p"):
            await pilot.press(keys)
            await pilot.pause()
            rows = pilot.app.screen._compositor.render_strips(pilot.app.size)
            marked = [s.text for row in rows for s in row if s.style and s.style.underline]
            assert any(text.strip() for text in marked), keys
            await pilot.press("escape")
            await pilot.pause()
        to_filing(session, Role.PIECE)
        pilot.app.screen.look_again()
        await pilot.pause()
        assert any("▸" in text for text in reversed_texts())  # the pocket that is meant


@pytest.mark.parametrize(("value", "kept"), [("", False), ("0", True), ("1", True)])
def test_an_empty_no_color_is_none(value: str, kept: bool) -> None:
    environ = {"NO_COLOR": value, "TERM": "xterm"}
    no_colour_wanted(environ)
    assert ("NO_COLOR" in environ) is kept
    assert environ["TERM"] == "xterm"
    empty = dict(os.environ)
    empty.pop("NO_COLOR", None)
    no_colour_wanted(empty)
    assert "NO_COLOR" not in empty
