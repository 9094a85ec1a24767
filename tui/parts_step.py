"""What is said of the step that is due, as rows: functions of a moment and a size in cells."""

from __future__ import annotations

from typing import TypeAlias

from rich.cells import cell_len, set_cell_size

from model.moment import Moment
from tui.parts import brief, filled
from tui.room import ROOMY, Need, Room, mark_height
from tui.widgets.figures import Ink, figure_rows
from tui.widgets.panel import Row, Tone, fit, wrapped

_ALL = " n"


def need(moment: Moment, width: int, height: int, side: int, ascii: bool) -> Need:
    """How many rows the texts of a moment need.

    Args:
        moment: The moment.
        width: Columns of the texts.
        height: Rows of the terminal.
        side: Columns of the side; with none the same is shown in a line or two.
        ascii: Whether only ASCII is shown.
    """
    more = [len(wrapped(row, width - 2)) for row in _more(moment)]
    cautions = len(moment.cautions)
    return Need(
        sentence=len(_sentence(moment, width)),
        mark=mark_height(height) if mark(moment, width, height, ascii) else 0,
        picture=moment.scene is not None,
        cautions=sum(more[:cautions]),
        notes=sum(more[cautions:]),
        brief=0 if side else len(brief(moment, width, 2, ascii)),
    )


def step(moment: Moment, typed: str, ascii: bool, width: int, height: int, room: Room) -> list[Row]:
    """All that is said of what is due, above the drawing.

    Args:
        moment: The moment.
        typed: What is typed of a page number, in words.
        ascii: Whether only ASCII is shown.
        width: Columns of the texts.
        height: Rows of the terminal.
        room: How many rows each of them gets.
    """
    rows = head(moment, not room.mark, ascii, width)[: room.head]
    if room.mark:
        figures = mark(moment, width, height, ascii)
        above = (room.mark - len(figures)) // 2
        rows += filled([*([[]] * above), *figures], room.mark)
    rows += filled(sentence(moment, width, room.sentence), room.sentence)
    rows += goes(moment, typed, ascii, width)[: room.goes]
    rows += filled(more(moment, width, room.more), room.more)
    return rows


def mark(moment: Moment, width: int, height: int, ascii: bool) -> tuple[Row, ...]:
    """The mark in large figures; no row where it is not set large.

    What is no number and no place is said by head and sentence as well, and where there is
    little room the drawing has more use for it.
    """
    figure = moment.figure
    if figure is None:
        return ()
    if figure.tone == "plain" and moment.scene is not None and height < ROOMY:
        return ()
    rows = figure_rows(
        figure.text, figure.unit, _INKS[figure.tone], width - 2, mark_height(height), ascii
    )
    return tuple([(" ", "plain"), *row] for row in rows) if len(rows) > 1 else ()


_INKS: dict[str, Ink] = {
    "cut": "ink",
    "file": "ink-good",
    "scrap": "ink-warn",
    "warn": "ink-warn",
    "plain": "ink",
}


def head(moment: Moment, small: bool, ascii: bool, width: int) -> list[Row]:
    """What kind of step it is, and what the large figures are of.

    Args:
        moment: The moment.
        small: There are no large figures: they are said here, and first.
        ascii: Whether only ASCII is shown.
        width: Columns.
    """
    figure = moment.figure
    dot = "-" if ascii else "·"
    row: Row = [(f" {moment.headline}", "strong")]
    if figure is None:
        return [row] if width else []
    if figure.caption:
        row.append((f" {dot} {figure.caption}", "muted"))
    if small or figure.tone == "plain":
        said = f" {figure.text} {figure.unit}".rstrip()
        if figure.tone == "plain":
            if figure.caption:  # such as a sheet's letter
                row.append((said, "strong"))
        else:
            row = [(said, "chosen"), (" ", "plain"), *row]
    if figure.error:
        row.append((f" {dot} {figure.error}", "warn"))
    return [row] if width else []


def _sentence(moment: Moment, width: int) -> list[Row]:
    if moment.pressing is None:
        rows = wrapped([(moment.sentence, "strong")], width - 2)
        return [[(" ", "plain"), *row] for row in rows]
    rows = wrapped([("!! ", "error"), (moment.sentence, "error")], width - 3)
    return [[("▌", "error"), (" ", "plain"), *row] for row in rows]


def sentence(moment: Moment, width: int, height: int) -> list[Row]:
    """What to do, or the warning that wants an answer first."""
    return _kept(_sentence(moment, width), height, width)


def goes(moment: Moment, typed: str, ascii: bool, width: int) -> list[Row]:
    """Where the piece goes, and the one key; or how to answer a warning."""
    if not width:
        return []
    if typed:
        return [[(f" {fit(typed, width - 1)}", "key")]]
    return [[(text, tone) for text, tone, _ in _goes_keys(moment, ascii, width)]]


def goes_at(moment: Moment, typed: str, ascii: bool, width: int, column: int) -> str:
    """The key that stands at a column of that row: ``p``, ``l``, ``o`` or ``space``."""
    if typed:
        return "space"
    at = 0
    for text, _, key in _goes_keys(moment, ascii, width):
        at += cell_len(text)
        if column < min(at, width):
            return key
    return "space"


_Keyed: TypeAlias = list[tuple[str, Tone, str]]
"""Runs of text with the key that each of them stands for."""


def _goes_keys(moment: Moment, ascii: bool, width: int) -> _Keyed:
    """Where it goes, as fully as there is room beside the keys, which are always seen."""
    pressing = moment.pressing
    if pressing is not None:
        tail: _Keyed = [(" l ", "chosen", "l"), (" leave it for now", "strong", "l")]
        room = width - sum(cell_len(text) for text, *_ in tail)
        remedy = fit(pressing.remedy, max(0, room - 7))
        return [
            (" ", "plain", "p"), (" p ", "chosen", "p"), (f" {remedy}  ", "strong", "p"), *tail
        ]  # fmt: skip
    tail = [("Space", "key", "space"), (f": {moment.press}", "muted", "space")]
    if moment.optional:
        tail += [("   ", "plain", "o"), ("o", "key", "o"), (": leave it out", "muted", "o")]
    if not moment.goes:
        return [(" ", "plain", "space"), *tail]
    arrow = "->" if ascii else "→"
    room = width - sum(cell_len(text) for text, *_ in tail) - len(arrow) - 5
    if cell_len(moment.goes_briefly) > room:  # what the key says may go before the place does
        room += cell_len(tail[1][0])
        del tail[1]
    said = moment.goes if cell_len(moment.goes) <= room else fit(moment.goes_briefly, room)
    return [(f" {arrow} {said} ", "target", "space"), ("  ", "plain", "space"), *tail]


def _more(moment: Moment) -> list[Row]:
    """Cautions, then notes."""
    cautions: list[Row] = [[("! ", "warn"), (text, "warn")] for text in moment.cautions]
    # Beside a drawing rows are dear: notes run on as one paragraph.
    texts = moment.more if moment.scene is None else (" ".join(moment.more),) * bool(moment.more)
    notes: list[Row] = [[(text, "plain")] for text in texts]
    return [*cautions, *notes]


def more(moment: Moment, width: int, height: int) -> list[Row]:
    """Cautions, then notes, as far as there is room."""
    rows = [row for each in _more(moment) for row in wrapped(each, width - 2)]
    kept = _kept([[(" ", "plain"), *row] for row in rows], height, width - len(_ALL))
    if len(rows) > height > 0:
        kept[-1] = [*kept[-1], (_ALL, "key")]  # the key that shows the rest
    return kept


def _kept(rows: list[Row], height: int, width: int) -> list[Row]:
    """So many rows; the last says so when there is more."""
    if len(rows) <= height or not height:
        return rows[:height]
    last = rows[height - 1]
    text = "".join(part for part, _ in last)
    room = max(0, width - 5)
    if cell_len(text) > room:
        text = set_cell_size(text, room)
    return [*rows[: height - 1], [(f"{text.rstrip()} ...", last[-1][1])]]
