"""How it really was: a length that is typed, or a yes, beside the picture of how it should be."""

from __future__ import annotations

from typing import ClassVar

from textual import on
from textual.app import ComposeResult
from textual.widgets import Input

from model.figure import figure_of_length
from model.length import LengthError, parse_length
from model.plan import Step
from model.rescue.choices import should_be, sides_of, taken, unit_typed
from model.rescue.mishap import CannotBe, Mishap, What
from model.rescue.truth import truth_of
from model.scenes import scene_of_step
from model.session import Session
from tui import parts
from tui.commands import Command, bindings
from tui.room import mark_height
from tui.screens.base import AppScreen
from tui.screens.find import Asked
from tui.screens.miscut_ways import Chosen, look_for_ways
from tui.widgets.drawing import Drawing
from tui.widgets.figures import figure_rows
from tui.widgets.panel import Panel, Row, wrapped

COMMANDS = (
    Command("take", ("enter",), "take"),
    Command("other", ("up", "down"), "other", False),
    Command("back", ("escape",), "back"),
    Command("help", ("f1",), "app.help"),
)


class SayScreen(AppScreen[Chosen]):
    """Asks for a length, or whether paper lay wrong; gives back the way that was chosen."""

    BINDINGS = bindings("say", COMMANDS)
    PLACE = "say"
    COMMANDS_SHOWN: ClassVar[tuple[Command, ...]] = COMMANDS

    def __init__(self, session: Session, step: Step, newest: bool, what: What) -> None:
        """Ask.

        Args:
            session: The session.
            step: The cut that is meant.
            newest: Whether it is the last one that was made.
            what: What went wrong with it.
        """
        super().__init__()
        self._newest = newest
        self._session = session
        self._step = step
        self._what = what
        self._off = True  # of a measure: what came off
        self._said: Row = []

    @property
    def _typed(self) -> bool:
        return self._what in (What.MARK, What.MEASURE)

    @property
    def _thing(self) -> str:
        if self._what is not What.MEASURE:
            return ""
        return sides_of(self._step)[0 if self._off else 1]

    def compose(self) -> ComposeResult:
        """What is asked, the line for it, what is wrong with it, the picture, the keys."""
        yield Panel(id="title")
        yield Panel(id="ask")
        if self._typed:
            yield Asked(self._changed, "")
        yield Panel(id="told")
        yield Drawing(id="picture", ascii=self.ascii, margin=1)
        yield Panel(id="keys")

    def on_mount(self) -> None:
        """Show what is asked; the keys go to the line where there is one."""
        ascii, commands = self.ascii, self.shown_footer()
        words = self.words_of(self._session)
        self.query_one("#title", Panel).show(
            lambda w, h: [[(f" {words.what_happened(self._what)}", "strong")]]
        )
        self.query_one("#keys", Panel).show(lambda w, h: parts.footer(commands, ascii, w))
        if self._typed:
            self.query_one("#asked").focus()
        self._show()

    def _show(self) -> None:
        words, step, plan = self.words_of(self._session), self._step, self._session.plan
        manner = self.dryfit.manner_of(self._session)
        lines: list[Row] = [[(words.cut_meant(step, self._newest), "muted")]]
        if self._typed:
            item = plan.items[self._thing or taken(step)]
            lines.append([(words.ask_length(self._what, item, self._off), "strong")])
            unit = unit_typed(self.dryfit.manner_of(self._session), self._what)
            lines.append([(words.how_typed(unit), "muted")])
            if self._what is What.MEASURE:
                other = plan.items[sides_of(step)[1 if self._off else 0]]
                said = words.or_the_other(self.key("other"), other.name, not self._off)
                lines.append([(said, "muted")])
            scene = scene_of_step(plan, step, manner)
        else:
            load = plan.steps[plan.step_at[step.load]]
            lines.append([(words.confirm(self._what, plan.items[taken(step)]), "strong")])
            lines.append([(f"{words.as_drawn()} {words.yes_it_did(self.key('take'))}", "muted")])
            scene = scene_of_step(plan, load, manner)
        self.query_one("#ask", Panel).show(
            lambda w, h: [[(" ", "plain"), *row] for line in lines for row in wrapped(line, w - 2)]
        )
        self.query_one(Drawing).draw(scene, self._figures)
        self._tell(self._said)

    def _figures(self, width: int, height: int) -> list[Row]:
        """What the length should have been, in large figures."""
        should = should_be(self._step, self._what, self._thing) if self._typed else None
        if should is None:
            return []
        words = self.words_of(self._session)
        figure = figure_of_length(should, words, self._what is What.MARK)
        most = mark_height(self.size.height, self.dryfit.settings.figures)
        if height < most + _LEAST_PICTURE:
            most = _SMALLEST if height > _SMALLEST else 0
        rows = figure_rows(figure.text, figure.unit, "ink", width - 2, most, self.ascii)
        head: list[Row] = [[(f" {words.should_have_been()}", "strong")]]
        if len(rows) <= 1:
            return [[*head[0], (f" {figure.text} {figure.unit}", "strong")]]
        return [*head, *([(" ", "plain"), *row] for row in rows), []]

    def _changed(self, text: str) -> None:
        """Each letter is looked at: what is wrong is told at once."""
        self._tell(self._judged(text)[1] if text.strip() else [])

    def _judged(self, text: str) -> tuple[Mishap | None, Row]:
        """What was typed as a mishap, and what is said of it."""
        words = self.words_of(self._session)
        unit = unit_typed(self.dryfit.manner_of(self._session), self._what)
        try:
            length = parse_length(text, unit)
        except LengthError:
            return None, [(words.no_length(text.strip()), "warn")]
        mishap = Mishap(self._what, self._step.id, length, self._thing)
        try:
            truth_of(self._session.state, mishap)
        except CannotBe as error:
            return None, [(words.cannot_be(error, mishap), "warn")]
        should = should_be(self._step, self._what, self._thing)
        differs = words.differs(length - should, unit) if should is not None else ""
        return mishap, [(differs, "good")]

    def _tell(self, said: Row) -> None:
        self._said = said
        self.query_one("#told", Panel).show(
            lambda w, h: [[(" ", "plain"), *row] for row in wrapped(said, w - 2)] if said else [[]]
        )

    def action_other(self) -> None:
        """Measure the other thing of the cut."""
        if self._what is What.MEASURE:
            self._off = not self._off
            text = self.query_one("#asked", Input).value
            self._said = self._judged(text)[1] if text.strip() else []
            self._show()

    @on(Input.Submitted, "#asked")
    def action_take(self) -> None:
        """It was so: look for ways to save what can be saved."""
        if self._typed:
            mishap, said = self._judged(self.query_one("#asked", Input).value)
            if mishap is None:
                self._tell(said)
                return
        else:
            mishap = Mishap(self._what, self._step.load)
        why = look_for_ways(self, self._session, mishap, self._chosen)
        if why:
            self._tell([(why, "warn")])

    def _chosen(self, chosen: Chosen | None) -> None:
        if chosen is not None:
            self.leave_with(chosen)

    def on_resize(self) -> None:
        """Another size has room for other figures."""
        if self.query("#ask"):
            self._show()

    def action_back(self) -> None:
        """Back, with nothing changed."""
        self.leave()


_LEAST_PICTURE = 6
"""Rows that a picture keeps beneath large figures."""
_SMALLEST = 5
"""Rows of the smallest large figures."""
