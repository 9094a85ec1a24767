"""A plan of cuts as text: its loads in order, what is missing, its figures."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import groupby

from model.language.english.planning import PlanningPhrases
from model.length import Unit
from model.lengthtext import LengthStyle, write_length, write_size
from model.planning.checking import FIGURES
from model.planning.task import PlannedLoad
from model.planning.wanted import Place
from model.planning.wanted_text import exact
from model.planning.wanted_told import Missing, Told, only_musts
from tui.asciitext import ascii_text
from tui.plan_text import cells, columns, free, held, padded, wrapped

_SHOWN = ("missing", "sheets", "scraps", "cuts", "reloads", "turns", "settings")
NARROW = 40  # no table is made for less


@dataclass(frozen=True, slots=True)
class Pen:
    """How a plan is written.

    Attributes:
        words: The words.
        unit: The unit of lengths.
        ascii: Only ASCII is written.
        width: Columns of the terminal.
    """

    words: PlanningPhrases
    unit: Unit
    ascii: bool
    width: int

    @property
    def style(self) -> LengthStyle:
        """How lengths are written."""
        return LengthStyle(self.unit, self.ascii)

    def length(self, x: Fraction) -> str:
        """A length without its unit, exactly."""
        said = write_length(x, self.style).removesuffix(f" {self.unit}")
        return exact(x, self.unit) if said.startswith("~") else said

    def size(self, width: Fraction, height: Fraction) -> str:
        """A size without its unit, exactly."""
        times = "x" if self.ascii else "×"
        return f"{self.length(width)} {times} {self.length(height)}"

    def full_size(self, width: Fraction, height: Fraction) -> str:
        """A size with its unit."""
        said = write_size(width, height, self.style, with_unit=True)
        return f"{self.size(width, height)} {self.unit}" if "~" in said else said

    def text(self, text: str) -> str:
        """Any text in the characters that may be written."""
        return ascii_text(text) if self.ascii else text


def plan_text(told: Told, pen: Pen) -> str:
    """The whole plan as text, without a drawing.

    Args:
        told: The plan.
        pen: How it is written.
    """
    words, plan = pen.words, told.plan
    pieces = sum(bool(part.want) for part in plan.parts.values())
    sheets = sum(not sheet.board.left_over for sheet in told.sheets)
    head = words.heading(told.wanted.title, pieces, sheets, len(told.sheets) - sheets)
    blocks = [[f"{head}; {words.lengths(str(pen.unit))}"]]
    table = _table(told, pen)
    if table:
        blocks.append(table)
    blocks.append([*_notes(told, pen)])
    blocks.append(_figures(told, pen))
    if told.better is not None:
        blocks.append([words.compared(told.better, *_three(told), _differs(told, pen))])
    lines: list[str] = []
    for block in blocks:
        shown = [pen.text(line) for line in block]
        rows = [
            row
            for line in shown
            for row in (wrapped(line, pen.width, 2) if cells(line) > pen.width else [line])
        ]
        if rows:
            lines += [*([""] if lines else []), *rows]
    return "\n".join(lines)


def _table(told: Told, pen: Pen) -> list[str]:
    """The loads, a row each; where there is no room for columns, a few lines each."""
    rows = [*_rows(told, pen)]
    if not rows:
        return []
    heads = pen.words.columns()
    # No size, no heading, is broken at its end: a hard blank holds it together.
    cells_of = [[held(head) for head in heads], *rows]
    made = columns(cells_of, pen.width, right=(0,)) if pen.width >= NARROW else None
    if made is not None:
        made.insert(1, ("-" if pen.ascii else "─") * max(map(cells, made)))
        return [free(line) for line in made]
    lines: list[str] = []
    for number, take, *others in rows:
        lines += wrapped(f"{number}. {take}", pen.width, 3)
        for head, cell in zip(heads[2:], others, strict=True):
            lines += wrapped(f"   {head}: {cell}", pen.width, 5)
    return [free(line) for line in lines]


def _rows(told: Told, pen: Pen) -> Iterator[tuple[str, str, str, str, str]]:
    sheets = {sheet.number: sheet for sheet in told.sheets}
    in_hand: int | None = None
    at = 0
    for run in told.names.runs:
        load = run[0]
        number = f"{at + 1}" if len(run) == 1 else f"{at + 1}-{at + len(run)}"
        at += len(run)
        sheet = sheets.get(load.takes)
        words = pen.words
        if sheet is not None:
            size = held(pen.size(sheet.board.width, sheet.board.height))
            fresh = words.offcut if sheet.board.left_over else words.sheet
            take = [fresh(sheet.name, size)]
            if load.turned and sheet.board.width == sheet.board.height:
                take.append(words.turned_sheet())
            elif load.turned:
                take.append(words.along(held(pen.length(sheet.board.height))))
        else:
            take = [_part(told, pen, load.takes)]
            take += [words.in_hand()] if load.takes == in_hand and len(run) == 1 else []
            take += [words.turned()] if load.turned else []
            take += [words.times(len(run))] if len(run) > 1 else []
        marks = ", ".join(held(pen.length(mark)) for mark in load.marks)
        yield number, ", ".join(take), marks, _gives(told, pen, load), _part(told, pen, load.rest)
        in_hand = run[-1].rest


def _gives(told: Told, pen: Pen, load: PlannedLoad) -> str:
    """What comes off, alike things told once."""
    said: list[str] = []
    for part, alike in groupby(_part(told, pen, number) for number in load.gives):
        count = len(list(alike))
        named = pen.words.counted_name(count, part)
        said.append(held(named, 1) if count > 1 else named)
    return ", ".join(said)


def _part(told: Told, pen: Pen, number: int) -> str:
    """A part with its size: a wanted piece as it is wanted, anything else upright."""
    part = told.plan.parts[number]
    name = pen.words.scrap() if part.scrap else told.names.called[number]
    if number in told.names.strips:
        name = held(name)
    return f"{name} ({held(pen.size(*shown_size(told, number)))})"


def shown_size(told: Told, number: int) -> tuple[Fraction, Fraction]:
    """The size of a part as one speaks of it."""
    part = told.plan.parts[number]
    width, height = (part.width, part.height) if part.upright else (part.height, part.width)
    want = next((want for want in told.wanted.task.wants if want.name == part.want), None)
    if want is not None and (want.width >= want.height) != (width >= height):
        return height, width
    return width, height


def _notes(told: Told, pen: Pen) -> Iterator[str]:
    words = pen.words
    for sheet in told.sheets:
        want = told.plan.parts[sheet.number].want
        if want:
            yield words.whole(sheet.name, told.wanted.called[want])
    for missing in told.missing:
        yield _missing(missing, words)
    if told.wanted.kit and told.idle:
        yield words.idle(told.idle)
    whys = dict.fromkeys(alone.why for alone in told.wanted.alone)
    for why in whys:
        yield words.alone([a.sheet for a in told.wanted.alone if a.why == why], why)


def _missing(missing: Missing, words: PlanningPhrases) -> str:
    places = dict.fromkeys(place_text(place, words) for place in missing.places)
    return words.missing(missing.name, missing.count, missing.wanted, [*places])


def place_text(place: Place, words: PlanningPhrases) -> str:
    """Where a copy is for, in words."""
    if place.page is None:
        return words.pocket(place.pocket)
    return words.page(place.page, place.pocket)


def _three(told: Told) -> tuple[Sequence[int], Sequence[int]]:
    yours = told.wanted.yours
    assert yours is not None and yours.figures is not None  # told.better says so
    own = yours.figures
    cuts = sum(len(load.marks) for load in yours.loads)
    return (
        (own.sheets.value, cuts, own.scraps.value),
        (told.figures.sheets.value, told.cuts.value, told.figures.scraps.value),
    )


def _differs(told: Told, pen: Pen) -> str:
    """The first figure in which the plan and the author's steps differ; empty for none."""
    yours = told.wanted.yours
    assert yours is not None and yours.figures is not None  # told.better says so
    for name in FIGURES:
        own, new = getattr(yours.figures, name).value, getattr(told.figures, name).value
        if own != new:
            return pen.words.differs(pen.words.figure(name), own, new)
    return ""


def _figures(told: Told, pen: Pen) -> list[str]:
    words = pen.words
    yours = told.wanted.yours
    rows: list[list[str]] = []
    for name in _SHOWN:
        figure = told.cuts if name == "cuts" else getattr(told.figures, name)
        if name == "missing" and not figure.value:
            continue
        value = sum(told.plan.missing.values()) if name == "missing" else figure.value
        proof = ""
        if name == "missing" and not only_musts(told.wanted.task, told.plan):
            # The number of pieces is shown, and what is proved is their value.
            proof = words.most_value() if figure.proved else ""
        elif figure.proved:
            proof = words.proved()
        elif figure.least and name != "missing":
            proof = words.at_least(figure.least)
        row = [words.figure(name), str(value), proof]
        if yours is not None and yours.figures is not None:
            own = (
                sum(len(load.marks) for load in yours.loads)
                if name == "cuts"
                else getattr(yours.figures, name).value
            )
            row.append(str(own))
        rows.append(row)
    head = ["", words.planned(), "", words.yours()][: len(rows[0])]
    widths = [max(cells(row[at]) for row in (head, *rows)) for at in range(len(rows[0]))]
    lines = [
        "  ".join(
            " " * (widths[at] - cells(cell)) + cell if at in (1, 3) else padded(cell, widths[at])
            for at, cell in enumerate(row)
        ).rstrip()
        for row in (head, *rows)
    ]
    if max(map(cells, lines)) > pen.width:  # no room for columns
        return [
            f"{name}: {', '.join(filter(None, (value, proof)))}"
            + "".join(f"; {words.yours()}: {own}" for own in others)
            for name, value, proof, *others in rows
        ]
    return lines if yours is not None else lines[1:]


assert set(FIGURES) <= set(_SHOWN)
