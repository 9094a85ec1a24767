"""What the table says at this moment: one value that every view shows.

The full-screen table, plain lines and, later, the class all show a `Moment`; none of them
works anything out again.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from model.alerts import Alert, alerts_of, places_of
from model.cautions import MAY_BE_PUT_AWAY, cautions_at
from model.figure import Figure, figure_of_place, figure_of_step, figure_of_warning
from model.kit import Verb
from model.language import words_of
from model.language.english.table import TablePhrases
from model.language.english.words import English
from model.manner import Manner
from model.notices import backing_of, notices_of
from model.outline import PileLine, PocketLine, Progress
from model.plan import Role, Step, StepKind
from model.pocketkeys import keys_of
from model.promise import filing_order, homes
from model.scene import Scene
from model.scenes import scene_of_item, scene_of_step
from model.session import Session
from model.state import Due, Spot
from model.waiting import waits_of
from model.warning import WarningKind

__all__ = [
    "Alert", "Figure", "Moment", "PileLine", "PocketLine", "Progress", "alerts_of", "moment_of",
]  # fmt: skip

_OF_SCRAPS = (WarningKind.WANTED_SCRAPPED, WarningKind.EXTRA_SCRAP)
_CUTS = (StepKind.CUT, StepKind.TEAR)


@dataclass(frozen=True, slots=True)
class Moment:
    """All that a view of the table shows.

    Attributes:
        due: What is due, as data.
        headline: What kind of step it is.
        figure: What stands in very large figures, or None.
        sentence: What to do, one plain sentence or two.
        more: What else helps: notes, ties, pages.
        goes: Where the piece goes, in words, and the key; empty where nothing goes anywhere.
        goes_briefly: The same without the key, for where there is little room.
        press: What to press when it was done as said, and what that says.
        scene: The picture.
        alerts: Warnings that want an answer first, then those left for later.
        cautions: Cautions that apply now, and what is easily taken for something else.
        caution_codes: Those that can be put away for this sitting, by their codes.
        pockets: The pockets in outline.
        pile: The pile, newest first.
        scraps: Scraps so far, and expected.
        scraps_wrong: A warning stands about what lies among the scraps, or one too many.
        waits: What is postponed and still waits.
        progress: How far the run is.
        optional: The step may be left out.
        over: All is done; only the account is left.
        words: The words that stand around it.
        pressing: The alert that wants an answer before the one key goes on.
    """

    due: Due
    headline: str
    figure: Figure | None
    sentence: str
    more: tuple[str, ...]
    goes: str
    goes_briefly: str
    press: str
    scene: Scene | None
    alerts: tuple[Alert, ...]
    cautions: tuple[str, ...]
    caution_codes: frozenset[str]
    pockets: tuple[PocketLine, ...]
    pile: tuple[PileLine, ...]
    scraps: tuple[int, int]
    scraps_wrong: bool
    waits: tuple[str, ...]
    progress: Progress
    optional: bool
    over: bool
    words: TablePhrases = field(default_factory=TablePhrases, compare=False)

    @property
    def pressing(self) -> Alert | None:
        """The newest warning that was neither put right nor left."""
        return next((alert for alert in self.alerts if not alert.left), None)


def moment_of(session: Session, manner: Manner, in_hand: str = "") -> Moment:
    """What the table says now.

    Args:
        session: The session.
        manner: How the crafter is told things.
        in_hand: A thing of the pile that the crafter took up out of turn, if any.
    """
    words = words_of(session.plan, manner)
    look = _Look(session, words, alerts_of(session.state, words))
    due = Due(None, in_hand) if in_hand else session.state.due()
    if look.alerts and not look.alerts[0].left:
        return _warned(look, look.alerts[0], due)
    if due.item is not None:
        return _filing(look, due.item, due)
    if due.step is not None:
        return _stepping(look, due.step, due)
    headline, press = words.heading("over")
    return look.moment(due, _Said(headline, words.over(), press), over=True)


@dataclass(frozen=True, slots=True)
class _Said:
    """What a moment says of the one thing that is due."""

    headline: str
    sentence: str
    press: str
    figure: Figure | None = None
    more: tuple[str, ...] = ()
    goes: str = ""
    goes_briefly: str = ""
    scene: Scene | None = None
    target: int = -1
    cautions: tuple[str, ...] = ()
    codes: tuple[str, ...] = ()
    optional: bool = False


@dataclass(slots=True)
class _Look:
    """What every moment is made of, looked up once."""

    session: Session
    words: English
    alerts: tuple[Alert, ...]
    _homes: dict[str, int] = field(default_factory=dict)

    def home(self, item: str) -> int:
        """Where a thing will be filed, or a `Spot`."""
        place = self._homes.get(item)
        return self.session.state.belongs(item) if place is None else place

    def promise(self, first: str = "") -> None:
        """Promise pockets in the order in which things will be filed."""
        state = self.session.state
        self._homes = homes(state, filing_order(state, state.step(), first))

    def may_go(self, item: str) -> tuple[int, ...]:
        """Where a thing that a cut makes may go, in the order of the kit.

        While a whole load is cut before it is filed, nobody knows which of its like will
        be taken from the pile first.
        """
        place = self.home(item)
        state, plan = self.session.state, self.session.plan
        if place < 0 or not state.by_load:
            return (place,)
        group = plan.items[item].group
        like = [home for id, home in self._homes.items() if plan.items[id].group == group]
        return tuple(sorted({place, *like}))

    def moment(self, due: Due, said: _Said, over: bool = False) -> Moment:
        """The moment, with all that stands beside the one thing that is due."""
        session, state = self.session, self.session.state
        if not self._homes:
            self.promise()
        return Moment(
            due=due,
            headline=said.headline,
            figure=said.figure,
            sentence=said.sentence,
            more=said.more,
            goes=said.goes,
            goes_briefly=said.goes_briefly,
            press=said.press,
            scene=said.scene,
            alerts=self.alerts,
            cautions=said.cautions,
            caution_codes=MAY_BE_PUT_AWAY.intersection(said.codes),
            pockets=self._pockets(said.target),
            pile=self._pile(due),
            scraps=(state.scraps, state.scraps_expected),
            scraps_wrong=any(alert.warning.kind in _OF_SCRAPS for alert in self.alerts),
            waits=waits_of(session, self.words),
            progress=self._progress(),
            optional=said.optional,
            over=over,
            words=self.words.manner.phrases.table,
        )

    def _pockets(self, target: int) -> tuple[PocketLine, ...]:
        plan, state = self.session.plan, self.session.state
        wrong: dict[int, int] = {}
        for warning in state.warnings.values():
            if warning.pocket >= 0:
                wrong[warning.pocket] = wrong.get(warning.pocket, 0) + len(warning.items)
        return tuple(
            PocketLine(
                pocket.index,
                self.words.dot(pocket.label),
                keys_of(plan, pocket.index),
                state.held(pocket.index),
                state.wanted(pocket.index),
                wrong.get(pocket.index, 0),
                pocket.index == target,
            )
            for pocket in plan.kit.pockets
        )

    def _pile(self, due: Due) -> tuple[PileLine, ...]:
        items, words = self.session.plan.items, self.words
        lines = []
        for id in reversed(self.session.state.pile):
            item, home = items[id], self.home(id)
            lines.append(
                PileLine(
                    id,
                    words.named(item),
                    words.goes(item, home),
                    id == due.item,
                    words.goes_in_short(item, home),
                )
            )
        return tuple(lines)

    def _progress(self) -> Progress:
        session, state, words = self.session, self.session.state, self.words
        order, due, steps = session.sheet_numbers, state.due(), len(session.plan.steps)
        if due.item is not None:
            sheet = session.plan.items[due.item].sheet
        else:
            sheet = due.step.sheet if due.step and due.step.load else ""
        return Progress(
            done=state.steps_done,
            steps=steps,
            step=words.at_step(state.steps_done + (due.step is not None), steps, due),
            sheet=words.at_sheet(order[sheet], len(order)) if sheet in order else "",
            spent=session.pace.spent,
            left=words.left(session.pace.left(state)),
        )


def _warned(look: _Look, alert: Alert, due: Due) -> Moment:
    """A warning stands before everything else until it is answered."""
    warning, words, plan = alert.warning, look.words, look.session.plan
    headline, press = words.heading("warning")
    item = plan.items[warning.items[-1]] if warning.items else None
    places: tuple[int, ...] = ()
    if item is not None and warning.kind is not WarningKind.TWICE:
        places = places_of(look.session.state, warning)
    said = _Said(
        headline,
        alert.text,
        press,
        figure=figure_of_warning(places, words),
        scene=scene_of_item(plan, item, words.manner) if item else None,
        target=places[0] if len(set(places)) == 1 else -1,
    )
    return look.moment(Due(None, item.id) if item else due, said)


def _filing(look: _Look, id: str, due: Due) -> Moment:
    words, item = look.words, look.session.plan.items[id]
    look.promise(id)
    place = look.home(id)
    scene = scene_of_item(look.session.plan, item, words.manner)
    if place == Spot.PILE:
        headline, press = words.heading("keep")
        return look.moment(due, _Said(headline, words.keep(item), press, scene=scene))
    headline, press = words.heading("scrap" if item.role is Role.SCRAP else "file")
    said = _Said(
        headline,
        words.file(item, place),
        press,
        figure=figure_of_place(place, words),
        more=(*words.about_piece(item, place), *backing_of(look.session, words, item)),
        goes=words.goes_with_key(item, (place,)),
        goes_briefly=words.goes_briefly(item, (place,)),
        scene=scene,
        target=place,
        cautions=notices_of(look.session, words, id),
    )
    return look.moment(due, said)


def _stepping(look: _Look, step: Step, due: Due) -> Moment:
    session, words = look.session, look.words
    plan, state = session.plan, session.state
    in_hand = (*step.takes, *step.touches)
    place_of = state.where(in_hand[0]) if in_hand else int(Spot.NOWHERE)
    more = words.more(step)
    targets: tuple[int, ...] = ()
    if step.kind is StepKind.FILL:
        targets = (step.pocket,)
    elif step.kind in _CUTS:
        look.promise()
        targets = look.may_go(step.makes[0])
        if len(step.makes) > 1:
            last = step.makes[1]
            more = (words.stays(plan.items[last], look.may_go(last)), *more)
    elif step.verb is Verb.TRACE:
        more = (*_pattern(look, step), *more)
    optional = state.may_skip(step)
    codes = cautions_at(session, step, words.manner)
    said = _Said(
        words.headline(step),
        words.sentence(step, place_of, optional),
        words.call_it(step),
        figure=figure_of_step(step, words),
        more=more,
        goes=words.goes_with_key(plan.items[step.makes[0]], targets) if targets else "",
        goes_briefly=words.goes_briefly(plan.items[step.makes[0]], targets) if targets else "",
        scene=scene_of_step(plan, step, words.manner),
        target=targets[0] if len(targets) == 1 else -1,
        cautions=(
            *(words.caution(code, step.mark.value if step.mark else None) for code in codes),
            *(notice for item in _taken_up(step) for notice in notices_of(session, words, item)),
        ),
        codes=codes,
        optional=optional,
    )
    return look.moment(due, said)


def _taken_up(step: Step) -> Sequence[str]:
    """What is taken up to be trimmed, or worked on by hand; it must not be another thing."""
    if step.kind in (StepKind.LOAD, StepKind.SHAPE):
        return step.takes[:1]
    return step.touches[:1] if step.kind is StepKind.MARK else ()


def _pattern(look: _Look, step: Step) -> Sequence[str]:
    """Where a copy is of what is traced around."""
    plan, state = look.session.plan, look.session.state
    copies = plan.copies.get(step.work.around, ()) if step.work else ()
    for id in copies:
        place = state.where(id)
        if place >= 0 or place == Spot.PILE:
            return (look.words.pattern(plan.items[id], place),)
    return ()
