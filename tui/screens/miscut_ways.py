"""What is so after a mishap, what can be saved, and how: looked at, drawn, chosen or left."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import ClassVar

from textual import on
from textual.app import ComposeResult

from model.plan import Step
from model.rescue.mishap import CannotBe, Mishap
from model.rescue.preview import Shown, shown, steps_of
from model.rescue.rescue import Rescue, Way
from model.session import Session, Told
from tui import parts
from tui.commands import EVERYWHERE, Command, bindings
from tui.room import mark_height
from tui.screens.base import AppScreen, Result
from tui.widgets.drawing import Drawing
from tui.widgets.figures import figure_rows
from tui.widgets.panel import Panel, Row, Tone, wrapped

COMMANDS = (
    Command("take", ("enter",), "take"),
    Command("next_step", ("right", "space"), "step(1)"),
    Command("last_step", ("left",), "step(-1)"),
    Command("down", ("down",), "move(1)", False),
    Command("up", ("up",), "move(-1)", False),
    Command("back", ("escape",), "back"),
    EVERYWHERE[0],
)
_DIGITS = tuple(
    Command(f"way_{digit}", (str(digit),), f"way({digit})", False) for digit in range(1, 10)
)
_EVERY = 0.1
"""Seconds after which it is asked again what was found."""
_BROAD = 100
"""Columns from which on the picture has a side of its own."""
_LEAST_PICTURE = 12
"""Rows from which on something is drawn beneath the ways."""
_MOST_TOUCHED = 4
"""Things of which it is told what they are, before the rest is counted."""


@dataclass(frozen=True, slots=True)
class Chosen:
    """A way that was chosen.

    Attributes:
        told: What came of it.
        first: What is to be done first, in words, thing by thing.
    """

    told: Told
    first: tuple[str, ...]


def look_for_ways(
    screen: AppScreen[Result],
    session: Session,
    mishap: Mishap,
    then: Callable[[Chosen | None], None],
) -> str:
    """Show what can be saved.

    Args:
        screen: The screen that asks.
        session: The session.
        mishap: What went wrong.
        then: Is told which way was chosen, or None.

    Returns:
        Why it can't have been so; empty when it is shown.
    """
    words = screen.words_of(session)
    try:
        rescue = Rescue(session, mishap, words.new_names())
    except CannotBe as error:
        return words.cannot_be(error, mishap)
    screen.app.push_screen(WaysScreen(session, rescue), then)
    return ""


class WaysScreen(AppScreen[Chosen]):
    """The ways there are, as they are found; nothing is changed until one is taken."""

    BINDINGS = bindings("ways", (*COMMANDS, *_DIGITS))
    PLACE = "ways"
    COMMANDS_SHOWN: ClassVar[tuple[Command, ...]] = COMMANDS

    def __init__(self, session: Session, rescue: Rescue) -> None:
        """Begin to look.

        Args:
            session: The session.
            rescue: What can be saved.
        """
        super().__init__()
        self._session = session
        self._rescue = rescue
        self._marked = -1  # the way that is marked, by its number; the best until one is chosen
        self._own = False  # whether the crafter marked it
        self._step = -1  # which of its steps is shown; below 0 all of the ways are
        self._row_of: list[int] = []
        self._said = ""
        self._was_searching = True

    def compose(self) -> ComposeResult:
        """What is so and the ways; a step of the marked one; the keys."""
        yield Panel(id="title")
        yield Panel(id="lines")
        yield Drawing(id="picture", ascii=self.ascii, margin=1)
        yield Panel(id="told")
        yield Panel(id="keys")

    def on_mount(self) -> None:
        """Show what is so at once; the ways come as they are found."""
        self._rescue.begin()
        self.set_interval(_EVERY, self._poll)
        self._paint()

    def on_unmount(self) -> None:
        """Look no longer."""
        self._rescue.close()

    def _poll(self) -> None:
        searching = self._rescue.searching
        if self._rescue.poll() or searching != self._was_searching:
            self._was_searching = searching
            self._paint()

    # What is shown

    @property
    def _way(self) -> Way | None:
        ways = self._rescue.ways
        return next((way for way in ways if way.number == self._marked), ways[0] if ways else None)

    @property
    def _steps(self) -> tuple[Step, ...]:
        return steps_of(self._way, self._session.state) if self._way else ()

    def _paint(self) -> None:
        if not self.query("#lines"):
            return  # it is just being left
        words, rescue = self.words_of(self._session), self._rescue
        width, height = self.size
        broad = width >= _BROAD
        ways, steps = rescue.ways, self._steps
        if not self._own and ways:
            self._marked = ways[0].number
        self._step = min(self._step, len(steps) - 1)
        title = words.mishap_said(rescue.mishap)
        hint = words.choose_hint(self.key("take"), self.key("next_step"), len(steps))
        looking = words.looking() if rescue.searching else words.all_found(len(ways))
        said = self._said or (f"{looking} {hint}" if ways else looking)
        tone: Tone = "warn" if self._said else "plain"
        mine = (width // 2 if broad else width) - 2
        room = height - 2 - len(wrapped([(said, tone)], mine))
        lines = self._lines(mine)
        drawn = bool(steps) and (
            broad or self._step >= 0 or room - len(lines) >= _LEAST_PICTURE
        )  # fmt: skip
        self.query_one("#title", Panel).show(lambda w, h: [[(f" {title}", "strong")]])
        self._arrange(drawn, broad, room, len(lines))
        self.query_one("#lines", Panel).show(self._rows)
        self.query_one("#told", Panel).show(
            lambda w, h: [[(" ", "plain"), *row] for row in wrapped([(said, tone)], w - 2)]
        )
        ascii, commands = self.ascii, self.shown_footer()
        self.query_one("#keys", Panel).show(lambda w, h: parts.footer(commands, ascii, w))
        self._draw(drawn)

    def _arrange(self, drawn: bool, broad: bool, room: int, needed: int) -> None:
        """Give the picture a side, or rows beneath, or all of it."""
        picture, lines = self.query_one(Drawing), self.query_one("#lines", Panel)
        picture.display = drawn
        lines.display = broad or not drawn or self._step < 0
        picture.styles.dock = "right" if broad else "none"
        picture.styles.width = "50%" if broad else "100%"
        picture.styles.margin = (1, 0, 1, 0) if broad else (0, 0, 0, 0)
        if broad:
            picture.styles.height = self.size.height - 2
        else:
            picture.styles.height = room if self._step >= 0 else max(0, room - needed)

    def _draw(self, drawn: bool) -> None:
        way, steps = self._way, self._steps
        picture = self.query_one(Drawing)
        if not drawn or way is None or not steps:
            picture.draw(None, lambda w, h: [])
            return
        at = max(0, self._step)
        manner = self.dryfit.manner_of(self._session)
        it = shown(way, steps[at], self._session.state, manner)
        picture.draw(it.scene, lambda w, h: self._above(it, at + 1, len(steps), w, h))

    def _above(self, it: Shown, number: int, of: int, width: int, height: int) -> list[Row]:
        """What a step says, above its drawing: its kind, the mark large, what to do."""
        words = self.words_of(self._session)
        head: list[Row] = [
            [(f" {it.headline}", "strong"), (f"  {words.step_of(number, of)}", "muted")]
        ]
        said = [
            [(" ", "plain"), *row] for row in wrapped([(it.sentence, "plain")], width - 2)
        ]  # fmt: skip
        figure = it.figure
        if figure is None or (figure.tone == "plain" and height < _TALL):
            return [*head, *said]
        most = mark_height(self.size.height, self.dryfit.settings.figures)
        if height < most + len(said) + _LEAST_DRAWN:
            most = _SMALLEST
        rows = figure_rows(figure.text, figure.unit, "ink", width - 2, most, self.ascii)
        if len(rows) <= 1 or height < most + len(said) + 1:
            head[0][:0] = [(f" {figure.text} {figure.unit}".rstrip(), "strong"), (" ", "plain")]
            return [*head, *said]
        return [*head, *([(" ", "plain"), *row] for row in rows), *said]

    def _lines(self, width: int) -> list[Row]:
        """What is so, what is lost, and the ways."""
        words, rescue, state = self.words_of(self._session), self._rescue, self._session.state
        rows: list[Row] = []
        touched = [words.touched(each) for each in rescue.touched]
        more = len(touched) - _MOST_TOUCHED
        for text in touched[:_MOST_TOUCHED] + [words.touched_more(more)] * (more > 0):
            rows += wrapped([(text, "plain")], width)
        lost = len(rescue.lost)
        said = words.lost(rescue.lost) if lost else words.nothing_lost()
        rows += [*wrapped([(said, "warn" if lost else "good")], width), []]
        self._row_of = [-1] * len(rows)
        for number, way in enumerate(rescue.ways):
            chosen = way is self._way
            sign = (">" if self.ascii else "▸") if chosen else " "
            tone: Tone = "chosen" if chosen else "strong"
            begin = f"{sign}{number + 1} "
            block = wrapped([(words.way_does(way), tone)], width - 3)
            saves = words.way_saves(way, lost)
            saved: Tone = "warn" if way.missing else "good"
            more_of = [(saves, saved), (words.way_costs(way, rescue.touched, state), "muted")]
            told: list[Row] = []
            for text, its in [*more_of, (words.way_proved(way), "muted")]:
                told += wrapped([(text, its)], width - 3) if text else []
            block = [
                [(begin if n == 0 else "   ", "strong" if chosen else "plain"), *row]
                for n, row in enumerate([*block, *told])
            ]
            rows += block
            self._row_of += [number] * len(block)
        return rows

    def _rows(self, width: int, height: int) -> list[Row]:
        """The lines, the marked way in sight."""
        rows = [[(" ", "plain"), *row] for row in self._lines(width - 2)]
        ways = self._rescue.ways
        mine = [n for n, way in enumerate(self._row_of) if way >= 0 and ways[way] is self._way]
        first = max(0, mine[-1] - height + 1) if mine else 0
        self._row_of = self._row_of[first:]
        return rows[first : first + height]

    def on_resize(self) -> None:
        """Another size has room for something else."""
        self._paint()

    # What is done

    def action_move(self, by: int) -> None:
        """Mark another way."""
        ways = self._rescue.ways
        if ways:
            at = next((n for n, way in enumerate(ways) if way is self._way), 0)
            self._mark((at + by) % len(ways))

    def action_way(self, number: int) -> None:
        """Mark a way by its number."""
        if number <= len(self._rescue.ways):
            self._mark(number - 1)

    def _mark(self, at: int) -> None:
        self._own, self._said = True, ""
        self._marked = self._rescue.ways[at].number
        self._step = min(self._step, 0)
        self._paint()

    def action_step(self, by: int) -> None:
        """Show another step of the marked way; before the first one all ways are shown."""
        self._own = True
        first = 0 if self.size.width >= _BROAD else -1  # there all ways stand beside it
        self._step = min(len(self._steps) - 1, max(first, max(first, self._step) + by))
        self._paint()

    def action_take(self) -> None:
        """Go the marked way."""
        way = self._way
        if way is None or self._left:
            return
        words = self.words_of(self._session)
        first = words.first_do(way, self._rescue.touched, self._session.state)
        told = self._rescue.choose(way)
        if told.taken:
            self.leave_with(Chosen(told, first))
            return
        self._said = words.objection(told.objection)
        self._paint()

    @on(Panel.RowClicked, "#lines")
    def _touched(self, event: Panel.RowClicked) -> None:
        """A way that is touched is marked; touched again it is taken."""
        at = self._row_of[event.row] if event.row < len(self._row_of) else -1
        if at < 0:
            return
        if self._own and self._rescue.ways[at] is self._way:
            self.action_take()
        else:
            self._mark(at)

    def action_back(self) -> None:
        """From a step to all ways; from there back, with nothing changed."""
        if self._step >= 0 and self.size.width < _BROAD:
            self._step = -1
            self._paint()
        else:
            self.leave()


_TALL = 30
"""Rows from which on words are set large too, beside marks."""
_LEAST_DRAWN = 8
"""Rows that head and drawing keep beneath large figures."""
_SMALLEST = 5
"""Rows of the smallest large figures."""
