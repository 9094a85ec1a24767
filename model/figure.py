"""What stands in very large figures: the mark, a pocket, or a word."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from model.geometry import Sure
from model.language.english.words import English
from model.lengthtext import LengthStyle, write_length
from model.plan import Step, StepKind
from model.state import Spot

Tone = Literal["cut", "file", "scrap", "warn", "plain"]


@dataclass(frozen=True, slots=True)
class Figure:
    """What is shown in very large figures.

    Attributes:
        text: ASCII, such as ``10 1/2``, ``~11``, ``line`` or a pocket's ``3-4``.
        unit: ``in``, ``cm`` or ``mm``; empty when it is no length.
        tone: What it is a figure of.
        caption: One word above it: ``mark``, ``pocket``, ``count``.
        error: How far the true mark is from the one shown; empty when it is on it.
    """

    text: str
    unit: str = ""
    tone: Tone = "plain"
    caption: str = ""
    error: str = ""


def figure_of_step(step: Step, words: English) -> Figure | None:
    """What stands large at a step; None for nothing.

    Args:
        step: The step.
        words: The sentences for this crafter.
    """
    mark, manner = step.mark, words.manner
    if step.kind is StepKind.FILL:
        return Figure(_label(words, step.pocket), "", "file", words.into_pocket(len(step.makes)))
    if mark is None:
        word = words.large(step)
        caption = words.caption("sheet") if word == step.sheet else ""
        return Figure(word, caption=caption) if word else None
    if mark.sure is Sure.PRINTED:
        return Figure(words.figure("line"), "", "cut", words.caption("line"))
    if step.kind is StepKind.TEAR:
        text, unit = _number(mark.value, manner.style)
        return Figure(text, unit, "cut", words.caption("width"))
    style = LengthStyle(manner.ruler_unit)
    if manner.must_measure(words.plan, step):
        return Figure(*_number(mark.value, manner.style), "cut", words.caption("by hand"))
    reading = manner.reading(words.plan, step)
    assert reading is not None
    text, unit = _number(reading.shown, style)
    if mark.sure is Sure.ABOUT:
        return Figure(f"~{text}", unit, "cut", words.caption("about"))
    return Figure(text, unit, "cut", words.caption("mark"), words.mark_error(step))


def figure_of_length(length: Fraction, words: English, on_ruler: bool) -> Figure:
    """A length that something should have.

    Args:
        length: The length in mm.
        words: The sentences for this crafter.
        on_ruler: Whether it is a mark of the trimmer's ruler; otherwise it is measured.
    """
    manner = words.manner
    unit = manner.ruler_unit if on_ruler else manner.style.unit
    return Figure(*_number(length, LengthStyle(unit)), "cut")


def figure_of_place(place: int, words: English) -> Figure:
    """What stands large when something is to be filed, or thrown to the scraps."""
    if place == Spot.SCRAPS:
        return Figure(words.figure("scrap"), "", "scrap", words.caption("scrap"))
    return Figure(_label(words, place), "", "file", words.caption("pocket"))


def figure_of_warning(places: tuple[int, ...], words: English) -> Figure:
    """What stands large when something is not where it belongs.

    Args:
        places: Where it belongs; several when copies belong in several places, none when
            nobody can tell.
        words: The sentences for this crafter.
    """
    place = places[0] if len(set(places)) == 1 else int(Spot.PILE)
    if place == Spot.SCRAPS:
        return Figure(words.figure("scrap"), "", "warn", words.caption("belongs scrap"))
    if place < 0:
        return Figure("?", "", "warn", words.caption("look again"))
    return Figure(_label(words, place), "", "warn", words.caption("belongs"))


def _label(words: English, pocket: int) -> str:
    return words.plan.kit.pockets[pocket].label.replace("·", "-")


def _number(x: Fraction, style: LengthStyle) -> tuple[str, str]:
    """A length's digits in ASCII, and its unit."""
    text = write_length(x, LengthStyle(style.unit, ascii=True), with_unit=True)
    number, _, unit = text.rpartition(" ")
    return number.lstrip("~"), unit
