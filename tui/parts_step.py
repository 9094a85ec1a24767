"""What is said of the step that is due, as rows: functions of a moment and a size in cells."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TypeAlias

from rich.cells import cell_len, set_cell_size

from model.moment import Moment
from tui.parts import brief, filled
from tui.room import ROOMY, Need, Room, mark_height
from tui.table_commands import USUAL_KEYS
from tui.widgets.figures import Ink, figure_rows
from tui.widgets.panel import Row, Tone, fit, wrapped

_ALL = " n"


def need(
    moment: Moment, width: int, height: int, side: int, ascii: bool, figures: str = "usual"
) -> Need:
    """How many rows the texts of a moment need.

    Args:
        moment: The moment.
        width: Columns of the texts.
        height: Rows of the terminal.
        side: Columns of the side; with none the same is shown in a line or two.
        ascii: Whether only ASCII is shown.
        figures: How large the crafter wants the mark.
    """
    large = len(mark(moment, width, height, ascii, figures))
    if large and figures == "usual":  # the frame stays, whatever the figures need
        large = mark_height(height)
    more = [len(wrapped(row, width - 2)) for row in _more(moment)]
    cautions = len(moment.cautions)
    return Need(
        sentence=len(_sentence(moment, width)),
        mark=large,
        picture=moment.scene is not None,
        cautions=sum(more[:cautions]),
        notes=sum(more[cautions:]),
        brief=0 if side else len(brief(moment, width, 2, ascii)),
    )


def step(
    moment: Moment,
    typed: str,
    ascii: bool,
    width: int,
    height: int,
    room: Room,
    keys: Mapping[str, str] = USUAL_KEYS,
    figures: str = "usual",
) -> list[Row]:
    """All that is said of what is due, above the drawing.

    Args:
        moment: The moment.
        typed: What is typed of a page number, in words.
        ascii: Whether only ASCII is shown.
        width: Columns of the texts.
        height: Rows of the terminal.
        room: How many rows each of them gets.
        keys: The key of each command, as people say it.
        figures: How large the crafter wants the mark.
    """
    rows = head(moment, not room.mark, ascii, width)[: room.head]
    if room.mark:
        large = mark(moment, width, height, ascii, figures)
        above = (room.mark - len(large)) // 2
        rows += filled([*([[]] * above), *large], room.mark)
    rows += filled(sentence(moment, width, room.sentence), room.sentence)
    rows += goes(moment, typed, ascii, width, keys)[: room.goes]
    rows += filled(more(moment, width, room.more), room.more)
    return rows


def mark(
    moment: Moment, width: int, height: int, ascii: bool, figures: str = "usual"
) -> tuple[Row, ...]:
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
        figure.text,
        figure.unit,
        _INKS[figure.tone],
        width - 2,
        mark_height(height, figures),
        ascii,
        tall=figures != "usual",
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


def goes(
    moment: Moment, typed: str, ascii: bool, width: int, keys: Mapping[str, str] = USUAL_KEYS
) -> list[Row]:
    """Where the piece goes, and the one key; or how to answer a warning."""
    if not width:
        return []
    if typed:
        return [[(f" {fit(typed, width - 1)}", "key")]]
    return [[(text, tone) for text, tone, _ in _goes_keys(moment, ascii, width, keys)]]


def goes_at(
    moment: Moment,
    typed: str,
    ascii: bool,
    width: int,
    column: int,
    keys: Mapping[str, str] = USUAL_KEYS,
) -> str:
    """What stands at a column of that row: ``p``, ``l``, ``o`` or ``space``.

    Its usual key is its name here, whatever key it has now.
    """
    if typed:
        return "space"
    at = 0
    for text, _, key in _goes_keys(moment, ascii, width, keys):
        at += cell_len(text)
        if column < min(at, width):
            return key
    return "space"


_Keyed: TypeAlias = list[tuple[str, Tone, str]]
"""Runs of text with the key that each of them stands for."""


def _goes_keys(moment: Moment, ascii: bool, width: int, keys: Mapping[str, str]) -> _Keyed:
    """Where it goes, as fully as there is room beside the keys, which are always seen."""
    pressing = moment.pressing
    if pressing is not None:
        right = f" {keys['right']} "
        tail: _Keyed = [
            (f" {keys['leave']} ", "chosen", "l"),
            (f" {moment.words.leave_it()}", "strong", "l"),
        ]
        room = width - sum(cell_len(text) for text, *_ in tail)
        remedy = fit(pressing.remedy, max(0, room - 4 - cell_len(right)))
        return [
            (" ", "plain", "p"), (right, "chosen", "p"), (f" {remedy}  ", "strong", "p"), *tail
        ]  # fmt: skip
    tail = [(keys["did"], "key", "space"), (f": {moment.press}", "muted", "space")]
    if moment.optional:
        tail += [
            ("   ", "plain", "o"),
            (keys["skip"], "key", "o"),
            (f": {moment.words.leave_it_out()}", "muted", "o"),
        ]
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
