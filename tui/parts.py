"""The texts of the table as rows: pure functions of a moment and a size in cells."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TypeAlias

from rich.cells import cell_len, set_cell_size

from model.moment import Moment, PocketLine
from tui.commands import Command
from tui.widgets.panel import Row, Tone, fit, wrapped


def bar(title: str, moment: Moment, width: int) -> list[Row]:
    """The top row: how far the run is, and the kit.

    What changes stands first: a row is sent to the terminal only as far as it changed.
    """
    progress = moment.progress
    left = f" {progress.step}  {progress.sheet}".rstrip()
    name = fit(title, max(0, width - cell_len(left) - 3))
    gap = width - cell_len(left) - cell_len(name) - 1
    return [[(left, "plain"), (" " * max(1, gap), "plain"), (f"{name} ", "strong")]]


def head(moment: Moment, ascii: bool, width: int) -> list[Row]:
    """What kind of step it is, and what the large figures are of."""
    row: Row = [(f" {moment.headline}", "strong")]
    figure = moment.figure
    dot = "-" if ascii else "·"
    if figure is not None:
        if figure.caption:
            # A sheet's letter is said here too: where there is little room it is not set large.
            row.append((f" {dot} {figure.caption}", "muted"))
            if figure.tone == "plain":
                row.append((f" {figure.text}", "strong"))
        if figure.error:
            row.append((f" {dot} {figure.error}", "warn"))
    return [row] if width else []


def sentence(moment: Moment, width: int, height: int) -> list[Row]:
    """What to do, or the warning that wants an answer first."""
    if moment.pressing is not None:
        rows = wrapped([("!! ", "error"), (moment.sentence, "error")], width - 2)
    else:
        rows = wrapped([(moment.sentence, "strong")], width - 2)
    return _kept([[(" ", "plain"), *row] for row in rows], height, width)


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


def more(moment: Moment, width: int, height: int) -> list[Row]:
    """Cautions, then notes, as far as there is room."""
    rows: list[Row] = []
    for caution in moment.cautions:
        rows += wrapped([("! ", "warn"), (caution, "warn")], width - 2)
    for text in moment.more:
        rows += wrapped([(text, "plain")], width - 2)
    return _kept([[(" ", "plain"), *row] for row in rows], height, width)


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


def pocket_row(pocket: PocketLine, width: int, ascii: bool) -> Row:
    """One pocket in outline: label, keys, held and wanted, and whether something is wrong."""
    sign, tone = _sign(pocket, ascii)
    keys = f"[{' '.join(pocket.keys)}]" if pocket.keys else ""
    count = f"{pocket.held}/{pocket.wanted}"
    room = max(2, width - cell_len(keys) - max(6, cell_len(count)) - 4)
    label = fit(pocket.label, room)
    gap = max(1, width - 3 - cell_len(label) - cell_len(keys) - cell_len(count))
    key_at = max(1, min(gap - 1, 9 - cell_len(label)))
    line: Tone = "target" if pocket.target else tone
    return [
        (f"{sign} {label}{' ' * key_at}", line),
        (keys, line if pocket.target else "key"),
        (f"{' ' * max(1, gap - key_at)}{count}", line),
    ]


def _sign(pocket: PocketLine, ascii: bool) -> tuple[str, Tone]:
    if pocket.wrong:
        return "!", "error"
    if pocket.target:
        return (">" if ascii else "▸"), "target"
    if pocket.full:
        return ("+" if ascii else "✓"), "good"
    return " ", "plain"


def side(moment: Moment, width: int, height: int, chosen: str, ascii: bool) -> list[Row]:
    """Pockets in outline, then the pile, then scraps and time.

    What must shrink shrinks from the end: the time goes first, then the pile.
    """
    tally_rows = tally(moment, width)
    heights = _side_heights(moment, height, len(tally_rows))
    rows = [
        *_filled(pockets(moment, width, heights[0], ascii), heights[0]),
        *_filled(pile(moment, width, heights[1], chosen, ascii), heights[1]),
        *tally_rows[: heights[2]],
    ]
    return _filled(rows, height)


def _side_heights(moment: Moment, height: int, tally_height: int) -> tuple[int, int, int]:
    """How many rows pockets, pile and tally get of so many."""
    low = min(tally_height, max(1, height - 8))
    wanted = len(moment.pockets) + 2
    high = min(wanted, max(4, height - low - 4))
    return high, max(0, height - high - low), low


def _filled(rows: list[Row], height: int) -> list[Row]:
    blank: list[Row] = [[] for _ in range(height - len(rows))]
    return rows[:height] + blank


def _window(moment: Moment, room: int) -> tuple[PocketLine, ...]:
    """The pockets that are shown: around the one that matters when not all fit."""
    shown = moment.pockets
    if not len(shown) > room > 0:
        return shown
    target = next((p.index for p in shown if p.target), 0)
    first = min(max(0, target - room // 2), len(shown) - room)
    return shown[first : first + room]


def pockets(moment: Moment, width: int, height: int, ascii: bool) -> list[Row]:
    """The pockets in outline."""
    rows: list[Row] = [[("Pockets", "strong"), ("  filed / wanted", "muted")]]
    rows += [pocket_row(p, width, ascii) for p in _window(moment, height - 1)]
    return rows


def pocket_at(moment: Moment, height: int, row: int) -> int | None:
    """The pocket whose row of the side stands at a row; None for none."""
    high, _, _ = _side_heights(moment, height, len(tally(moment, 80)))
    shown = _window(moment, high - 1)
    return shown[row - 1].index if 0 < row <= min(len(shown), high - 1) else None


def pile(moment: Moment, width: int, height: int, chosen: str, ascii: bool) -> list[Row]:
    """The pile, newest on top, and where each thing goes as far as there is room."""
    count = len(moment.pile)
    word = f"  {count} cut, not filed" if count else "  nothing on it"
    rows: list[Row] = [[("Pile", "strong"), (word, "muted")]]
    shown = _pile_shown(moment, height)
    for line in moment.pile[:shown]:
        mine = line.id == chosen or (line.due and not chosen)
        mark = (">" if ascii else "▸") if mine else " "
        name = fit(f"{mark} {line.text}", width)
        room = width - cell_len(name) - 2
        where = line.goes.removeprefix("pocket ")
        row: Row = [(name, "strong" if mine else "plain")]
        if cell_len(where) <= room:
            row.append((f"  {where}", "muted"))
        rows.append(row)
    if count > shown:
        rows.append([(f"  and {count - shown} more beneath", "muted")])
    return rows


def _pile_shown(moment: Moment, height: int) -> int:
    """How many things of the pile are shown in so many rows."""
    count = len(moment.pile)
    return count if count < height else max(0, height - 2)


def pile_at(moment: Moment, height: int, row: int) -> str | None:
    """The thing on the pile whose row of the side stands at a row; None for none."""
    high, middle, _ = _side_heights(moment, height, len(tally(moment, 80)))
    number = row - high - 1
    return moment.pile[number].id if 0 <= number < _pile_shown(moment, middle) else None


def tally(moment: Moment, width: int) -> list[Row]:
    """Scraps, what waits, and the time."""
    have, want = moment.scraps
    scraps: Tone = "error" if have > want else "plain"
    rows: list[Row] = [[("Scraps ", "strong"), (f"{have}/{want}", scraps)]]
    left = sum(alert.left for alert in moment.alerts)
    if left:
        rows.append([(f"! {left} warning{'s' * (left > 1)} left open", "warn")])
    if moment.waits:
        rows.append([(fit(f"Waits: {', '.join(moment.waits)}", width), "muted")])
    spent = int(moment.progress.spent.total_seconds() // 60)
    rows.append([(fit(f"{spent} min so far", width), "muted")])
    rows.append([(fit(moment.progress.left, width), "muted")])
    return rows


def brief(moment: Moment, width: int, height: int, ascii: bool) -> list[Row]:
    """Pockets, pile and scraps in a line or two, for narrow screens."""
    row: Row = []
    for pocket in moment.pockets:
        sign, tone = _sign(pocket, ascii)
        row.append((f"{sign.strip()}{pocket.label}:{pocket.held}/{pocket.wanted}", tone))
        row.append(("  ", "plain"))
    have, want = moment.scraps
    row.append((f"pile:{len(moment.pile)} scraps:{have}/{want}", "muted"))
    left = sum(alert.left for alert in moment.alerts)
    if left:
        row.append((f"  ! {left} open", "warn"))
    return [[(" ", "plain"), *each] for each in wrapped(row, width - 1)[:height]]


def footer(commands: Sequence[Command], ascii: bool, width: int) -> list[Row]:
    """The keys that apply, as many as there is room for; the last are kept."""
    parts = [(command.shown_key(ascii), command.label) for command in commands if command.label]
    while parts and sum(cell_len(k) + cell_len(t) + 3 for k, t in parts) > width:
        if len(parts) <= 2:
            break
        parts.pop(-3)
    row: Row = []
    for key, label in parts:
        row += [(f" {key}", "key"), (f" {label} ", "muted")]
    return [row]


def footer_at(commands: Sequence[Command], ascii: bool, width: int, column: int) -> str:
    """The key of the footer that stands at a column; empty for none."""
    at = 0
    key = ""
    for text, tone in footer(commands, ascii, width)[0]:
        if tone == "key":
            key = text.strip()
        if at <= column < at + cell_len(text):
            return key
        at += cell_len(text)
    return ""
