"""What stands around the step at the Table, as rows: functions of a moment and a size in cells."""

from __future__ import annotations

from collections.abc import Sequence

from rich.cells import cell_len, set_cell_size

from model.moment import Moment, PocketLine
from tui.commands import Command
from tui.widgets.panel import Row, Tone, fit, fit_middle, wrapped


def bar(title: str, moment: Moment, width: int) -> list[Row]:
    """The top row: how far the run is, and the kit.

    What changes stands first: a row is sent to the terminal only as far as it changed.
    """
    progress = moment.progress
    left = f" {progress.step}  {progress.sheet}".rstrip()
    name = fit(title, max(0, width - cell_len(left) - 3))
    gap = width - cell_len(left) - cell_len(name) - 1
    return [[(left, "plain"), (" " * max(1, gap), "plain"), (f"{name} ", "strong")]]


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
        (f"{set_cell_size(sign, 2)}{label}{' ' * key_at}", line),
        (keys, line if pocket.target else "key"),
        (f"{' ' * max(1, gap - key_at)}{count}", line),
    ]


def _sign(pocket: PocketLine, ascii: bool) -> tuple[str, Tone]:
    """What stands before a pocket: that it is meant, and that something in it is wrong."""
    here = (">" if ascii else "▸") if pocket.target else ""
    if pocket.wrong:
        return f"{here}!", "error"
    if pocket.target:
        return here, "target"
    if pocket.full:
        return ("+" if ascii else "✓"), "good"
    return "", "plain"


def side(moment: Moment, width: int, height: int, chosen: str, ascii: bool) -> list[Row]:
    """Pockets in outline, then the pile, then scraps and time.

    What must shrink shrinks from the end: the time goes first, then the pile.
    """
    width = max(0, width - 2)
    tally_rows = tally(moment, width)
    heights = _side_heights(moment, height, len(tally_rows))
    rows = [
        *filled(pockets(moment, width, heights[0], ascii), heights[0]),
        *filled(pile(moment, width, heights[1], chosen, ascii), heights[1]),
        *tally_rows[: heights[2]],
    ]
    return [[(" ", "plain"), *row] for row in filled(rows, height)]


def _side_heights(moment: Moment, height: int, tally_height: int) -> tuple[int, int, int]:
    """How many rows pockets, pile and tally get of so many."""
    low = min(tally_height, max(1, height - 8))
    wanted = len(moment.pockets) + 2
    high = min(wanted, max(4, height - low - 4))
    return high, max(0, height - high - low), low


def filled(rows: list[Row], height: int) -> list[Row]:
    """So many rows, blank ones after those there are."""
    blank: list[Row] = [[] for _ in range(height - len(rows))]
    return rows[:height] + blank


def _window(moment: Moment, room: int) -> tuple[PocketLine, ...]:
    """The pockets that are shown: around the one that matters when not all fit."""
    shown = moment.pockets
    if not len(shown) > room > 0:
        return shown
    target = next((p.index for p in shown if p.target), 0)
    first = min(max(0, target - room // 2), len(shown) - room)
    near = shown[first : first + room]
    # One in which something is wrong is never out of sight: it takes the place of one far off.
    wrong = [p for p in shown if p.wrong and p not in near][: max(0, room - 3)]
    far = sorted(near, key=lambda p: (not (p.target or p.wrong), abs(p.index - target)))
    kept = far[: len(near) - len(wrong)]
    return tuple(sorted((*kept, *wrong), key=lambda p: p.index))


def pockets(moment: Moment, width: int, height: int, ascii: bool) -> list[Row]:
    """The pockets in outline."""
    title, what = moment.words.pockets_head()
    rows: list[Row] = [[(title, "strong"), (f"  {what}", "muted")]]
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
    title, what = moment.words.pile_head(count)
    rows: list[Row] = [[(title, "strong"), (f"  {what}", "muted")]]
    shown = _pile_shown(moment, height)
    for line in moment.pile[:shown]:
        mine = line.id == chosen or (line.due and not chosen)
        mark = (">" if ascii else "▸") if mine else " "
        whole = f"{mark} {line.text}"
        # A name that is whole says more than the half of a size.
        name = fit(whole if cell_len(whole) <= width else whole.partition(" (")[0], width)
        room = width - cell_len(name) - 2
        where = line.goes_briefly
        row: Row = [(name, "strong" if mine else "plain")]
        if cell_len(where) <= room:
            row.append((f"  {where}", "muted"))
        rows.append(row)
    if count > shown:
        rows.append([(f"  {moment.words.more_beneath(count - shown)}", "muted")])
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


def left_open_at(moment: Moment, height: int, row: int) -> bool:
    """Whether a row of the side tells of warnings that were left."""
    high, middle, _ = _side_heights(moment, height, len(tally(moment, 80)))
    return row == high + middle and any(alert.left for alert in moment.alerts)


def tally(moment: Moment, width: int) -> list[Row]:
    """Warnings that were left, scraps, what waits, and the time."""
    words = moment.words
    rows: list[Row] = []
    left = sum(alert.left for alert in moment.alerts)
    if left:
        rows.append([(f"! {words.left_open(left)}", "warn")])
    have, want = moment.scraps
    wrong = moment.scraps_wrong or have > want
    scraps: Tone = "error" if wrong else "plain"
    rows.append([(f"{words.scraps_head()} ", "strong"), (f"{have}/{want}{' !' * wrong}", scraps)])
    if moment.waits:
        waits = words.waits(moment.waits)
        told = wrapped([(waits, "muted")], width)
        rows += told[:_MOST_WAITS]
        if len(told) > _MOST_WAITS:
            rest = " ".join("".join(text for text, _ in row) for row in told[_MOST_WAITS - 1 :])
            rows[-1] = [(fit(rest, width), "muted")]
    spent = int(moment.progress.spent.total_seconds() // 60)
    rows.append([(fit(words.so_far(spent), width), "muted")])
    rows.append([(fit(moment.progress.left, width), "muted")])
    return rows


def brief(moment: Moment, width: int, height: int, ascii: bool) -> list[Row]:
    """Warnings that were left, pockets, pile and scraps in a line or two, for narrow screens.

    Where not all pockets fit, those before the one that matters give way.
    """
    have, want = moment.scraps
    wrong = moment.scraps_wrong or have > want
    words = moment.words
    left = sum(alert.left for alert in moment.alerts)
    first: Row = [(f"! {words.left_open_briefly(left)}", "warn"), ("  ", "plain")] if left else []
    last: Row = [
        (f"{words.pile_briefly(len(moment.pile))} ", "muted"),
        (f"{'!' * wrong}{words.scraps_briefly(have, want)}", "error" if wrong else "muted"),
    ]
    target = next((n for n, pocket in enumerate(moment.pockets) if pocket.target), 0)
    rows: list[Row] = []
    for start in range(target + 1):
        row = [*first]
        for pocket in moment.pockets[start:]:
            sign, tone = _sign(pocket, ascii)
            row += [(f"{sign}{pocket.label}:{pocket.held}/{pocket.wanted}", tone), ("  ", "plain")]
        rows = wrapped([*row, *last], width - 1)
        if len(rows) <= height:
            break
    return [[(" ", "plain"), *each] for each in rows[:height]]


def brief_at(
    moment: Moment, width: int, height: int, ascii: bool, at: tuple[int, int]
) -> int | None:
    """The pocket that stands at a row and a column of the brief; None for none."""
    rows = brief(moment, width, height, ascii)
    row, column = at
    if not 0 <= row < len(rows):
        return None
    text = "".join(part for part, _ in rows[row])
    for pocket in moment.pockets:
        said = f"{pocket.label}:{pocket.held}/{pocket.wanted}"
        start = f"{text} ".find(f"{said} ")
        if start >= 0 and cell_len(text[:start]) - 2 <= column < cell_len(text[:start] + said):
            return pocket.index
    return None


def not_saved(said: str, path: str, width: int) -> Row:
    """Why nothing is saved, then where it should be, as far as there is room."""
    room = width - cell_len(said) - 3
    row: Row = [(f" {said}", "error")]
    if path and room >= _LEAST_PATH:
        row.append((f"  {fit_middle(path, room)}", "muted"))
    return row


_MOST_WAITS = 4
"""Rows in which what waits is told."""
_LEAST_PATH = 16
"""Columns in which something of a path can still be told."""


def footer(commands: Sequence[Command], ascii: bool, width: int) -> list[Row]:
    """The keys that apply, as many as there is room for; the last are kept."""
    parts = [(command.shown_key(ascii), command.label) for command in commands if command.label]
    while parts and sum(cell_len(k) + cell_len(t) + 3 for k, t in parts) - 1 > width:
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
