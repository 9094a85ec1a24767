"""The left hand: trimmer, ruler and tearing mirrored in every sentence and every drawing.

A trimmer for the left hand is the mirror image of the other; paper can't be mirrored, so a
crafter turns it by half instead (geometry, no source).
"""

from __future__ import annotations

import re
from functools import cache

import pytest

from model.folders import demo_kit
from model.moment import Moment, moment_of
from model.reading import load_kit
from model.session import Session
from model.settings import Settings
from tui.widgets.drawing import paint
from tui.widgets.paper import FINE

KITS = ("harbour", "cards", "postcard")
SIDES = re.compile(r"\b(left|right|top|bottom)\b")
LEFT = re.compile(r"\b(left|right)\b")
PLACE = re.compile(r"\bat the (top|bottom|left|right)( (left|right))?\b")
OTHER = {"left": "right", "right": "left", "top": "bottom", "bottom": "top"}
FOR_THE_RIGHT = "(For the right hand:) "


@cache
def both(kit: str) -> tuple[tuple[Moment, Moment], ...]:
    """Each moment of a kit as it is told to the right hand and to the left."""
    path = demo_kit(kit)
    assert path is not None
    session = Session.start(load_kit(path), None, None, why_no_folder="this is a test")
    unit = session.plan.kit.unit
    right, left = Settings().manner(unit), Settings(left_handed=True).manner(unit)
    found = []
    while not session.state.due().over:
        found.append((moment_of(session, right), moment_of(session, left)))
        assert session.next().taken
    return tuple(found)


def told(moment: Moment) -> list[str]:
    caption = moment.figure.caption if moment.figure else ""
    return [
        moment.headline, caption, moment.sentence, *moment.cautions, *moment.more, moment.goes,
        moment.press,
    ]  # fmt: skip


def mirrored(text: str) -> str:
    """What is said of the bed, for the other hand."""
    return LEFT.sub(lambda found: OTHER[found[0]], text)


def turned(text: str) -> str:
    """Where something of the paper is seen, when it was turned by half."""
    return PLACE.sub(lambda found: SIDES.sub(lambda side: OTHER[side[0]], found[0]), text)


@pytest.mark.parametrize("kit", KITS)
def test_every_sentence_with_a_side_is_mirrored_or_said_to_be_for_the_right_hand(kit: str) -> None:
    path = demo_kit(kit)
    assert path is not None
    author = " ".join(path.read_text(encoding="utf-8").split())
    changed = 0
    for right, left in both(kit):
        assert len(told(right)) == len(told(left))
        for one, other in zip(told(right), told(left), strict=True):
            if not LEFT.search((one + other).replace("from left to right", "")):
                assert other in (one, turned(one)), (one, other)
                continue
            if all(
                b in (a, mirrored(a), turned(a)) and (a != b or not LEFT.search(a))
                for a, b in zip(one.split(". "), other.split(". "), strict=True)
            ):
                changed += 1
                continue
            # The author's own words stand as they are: beside the trimmer they are marked,
            # and on an album page left is left.
            plain = other.removeprefix(FOR_THE_RIGHT)
            assert plain == one and plain.rstrip(".") in author, (one, other)
            assert other != one or right.scene is None or right.scene.cut is None, one
    assert changed


@pytest.mark.parametrize("kit", KITS)
def test_every_drawing_of_a_trimmer_or_a_tear_is_mirrored(kit: str) -> None:
    cuts = 0
    for right, left in both(kit):
        one, other = right.scene, left.scene
        assert (one is None) is (other is None)
        if one is None or other is None:
            continue
        assert not one.mirrored
        assert (one.width, one.height, one.cut, one.later, one.ruler, one.held) == (
            other.width, other.height, other.cut, other.later, other.ruler, other.held,
        )  # fmt: skip
        on_the_bed = one.cut is not None or one.ruler is not None
        assert other.mirrored is on_the_bed or other.mirrored
        if one.cut is None:
            continue
        cuts += 1
        # Turned by half and mirrored, the paper has its sides where they were from the held
        # edge, and top and bottom the other way round.
        for block, turned in zip(
            sorted(one.blocks, key=lambda b: (b.x, b.y)),
            sorted(other.blocks, key=lambda b: (b.x, one.height - b.y - b.h)),
            strict=True,
        ):
            assert (block.x, block.w, block.h, block.name) == (
                turned.x, turned.w, turned.h, turned.name,
            )  # fmt: skip
    assert cuts > 5


def column_of(scene, width: int) -> int:
    """The column in which the line of the cut is painted; -1 for none."""
    for strip in reversed(paint(scene, width, 18)):
        if FINE.cut in strip.text:
            return strip.text.index(FINE.cut)
    return -1


@pytest.mark.parametrize("kit", KITS)
def test_the_painted_cut_is_on_the_other_side(kit: str) -> None:
    seen = 0
    for right, left in both(kit):
        if right.scene is None or right.scene.cut is None:
            continue
        one, other = column_of(right.scene, 51), column_of(left.scene, 51)
        assert one == 50 - other or one == other == -1, right.sentence
        seen += one >= 0
    assert seen > 5
