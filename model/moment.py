"""What the table says at this moment: one value that every view shows.

The full-screen table, plain lines and, later, the class all show a `Moment`; none of them
works anything out again.
"""

from __future__ import annotations

from bisect import bisect_right
from dataclasses import dataclass
from datetime import timedelta
from fractions import Fraction
from itertools import islice
from typing import Literal

from model.geometry import Sure
from model.kit import Verb
from model.length import Unit
from model.lengthtext import LengthStyle, write_length
from model.manner import Manner
from model.plan import Item, Phase, Plan, Role, Step, StepKind
from model.ruler import read_mark
from model.scene import Scene
from model.scenes import scene_of_item, scene_of_step
from model.session import Session
from model.state import Due, Spot, State
from model.warning import Warning, WarningKind
from model.wording import English

SLIVER = Fraction(1905, 100)
"""3/4 in: strips narrower than this are not held by hand at the blade (common practice)."""

_MOST_WAITING = 8

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


@dataclass(frozen=True, slots=True)
class Alert:
    """A warning in words.

    Attributes:
        warning: The warning.
        text: What went wrong, where it belongs, why.
        remedy: What putting it right does.
        left: It was left for later.
    """

    warning: Warning
    text: str
    remedy: str
    left: bool


@dataclass(frozen=True, slots=True)
class PocketLine:
    """One pocket in outline.

    Attributes:
        index: Its index.
        label: Its label.
        keys: What is pressed to file into it.
        held: How many pieces it rightly holds.
        wanted: How many it holds in the end.
        wrong: How many things are in it that do not belong there.
        target: The thing in hand goes there.
    """

    index: int
    label: str
    keys: tuple[str, ...]
    held: int
    wanted: int
    wrong: int
    target: bool

    @property
    def full(self) -> bool:
        """Whether it holds all, and nothing else."""
        return self.held >= self.wanted and not self.wrong


@dataclass(frozen=True, slots=True)
class PileLine:
    """One thing on the pile.

    Attributes:
        id: The thing.
        text: Its name and size.
        goes: Where it goes.
        due: It is what is to be filed now.
    """

    id: str
    text: str
    goes: str
    due: bool


@dataclass(frozen=True, slots=True)
class Progress:
    """How far the run is."""

    done: int
    steps: int
    sheet: int
    sheets: int
    cut: int
    cuts: int
    spent: timedelta
    left: str


@dataclass(frozen=True, slots=True)
class Moment:
    """All that a view of the table shows.

    Attributes:
        due: What is due, as data.
        headline: What kind of step it is.
        figure: What stands in very large figures, or None.
        sentence: What to do, one plain sentence or two.
        more: What else helps: notes, ties, pages.
        goes: Where the piece goes, in words; empty where nothing goes anywhere.
        press: What to press when it was done as said, and what that says.
        scene: The picture.
        alerts: Warnings that want an answer first, then those left for later.
        cautions: Cautions that apply now.
        pockets: The pockets in outline.
        pile: The pile, newest first.
        scraps: Scraps so far, and expected.
        waits: What is postponed and still waits.
        progress: How far the run is.
        optional: The step may be left out.
        over: All is done; only the account is left.
        pressing: The alert that wants an answer before the one key goes on.
    """

    due: Due
    headline: str
    figure: Figure | None
    sentence: str
    more: tuple[str, ...]
    goes: str
    press: str
    scene: Scene | None
    alerts: tuple[Alert, ...]
    cautions: tuple[str, ...]
    pockets: tuple[PocketLine, ...]
    pile: tuple[PileLine, ...]
    scraps: tuple[int, int]
    waits: tuple[str, ...]
    progress: Progress
    optional: bool
    over: bool

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
    plan, state = session.plan, session.state
    words = English(plan, manner)
    due = Due(None, in_hand) if in_hand else state.due()
    alerts = alerts_of(state, words)
    if alerts and not alerts[0].left:
        return _warned(session, manner, words, alerts[0], due)
    if due.item is not None:
        return _filing(session, manner, words, plan.items[due.item], due)
    if due.step is None:
        return _build(
            session,
            words,
            due,
            headline="All is done",
            figure=None,
            sentence="Every step is done. Look through the closing account.",
            press="the account",
            over=True,
        )
    return _stepping(session, manner, words, due.step, due)


def _warned(session: Session, manner: Manner, words: English, alert: Alert, due: Due) -> Moment:
    """A warning stands before everything else until it is answered."""
    warning = alert.warning
    item = session.plan.items[warning.items[-1]] if warning.items else None
    figure = Figure("?", tone="warn", caption="look again")
    target = -1
    if item is not None and warning.kind is not WarningKind.TWICE:
        place = session.state.belongs(item.id)
        if place == Spot.SCRAPS:
            figure = Figure("scrap", tone="warn", caption="it belongs with the scraps")
        elif place >= 0 and place != warning.pocket:
            target = place
            figure = Figure(_ascii(session.label(place)), tone="warn", caption="it belongs in")
    return _build(
        session,
        words,
        due,
        headline="Warning",
        figure=figure,
        sentence=alert.text,
        press="",
        scene=scene_of_item(item, manner) if item else None,
        target=target,
    )


def _filing(session: Session, manner: Manner, words: English, item: Item, due: Due) -> Moment:
    place = session.state.belongs(item.id)
    scrap = item.role is Role.SCRAP
    figure = (
        Figure("scrap", tone="scrap", caption="goes to")
        if scrap
        else Figure(
            _ascii(session.label(place)) if place >= 0 else "pile", tone="file", caption="pocket"
        )
    )
    if item.role is Role.STRIP:
        return _build(
            session,
            words,
            due,
            headline="On the pile",
            figure=None,
            sentence=f"{words.named(item)} stays on the pile: it is still to be cut.",
            press="nothing to do",
            scene=scene_of_item(item, manner),
        )
    return _build(
        session,
        words,
        due,
        headline="Scrap" if scrap else "File",
        figure=figure,
        sentence=words.file(item, place),
        more=words.about_piece(item),
        goes=_goes(words, item, place),
        press="in the scraps" if scrap else "filed there",
        scene=scene_of_item(item, manner),
        target=place,
    )


def _stepping(session: Session, manner: Manner, words: English, step: Step, due: Due) -> Moment:
    plan, state = session.plan, session.state
    in_hand = (*step.takes, *step.touches)
    place_of = state.where(in_hand[0]) if in_hand else Spot.NOWHERE
    goes, target, more = "", -1, words.more(step)
    if step.kind is StepKind.FILL:
        target = step.pocket
        goes = _goes(words, plan.items[step.makes[0]], target)
    elif step.kind in (StepKind.CUT, StepKind.TEAR):
        off = plan.items[step.makes[0]]
        place = state.belongs(off.id)
        target = place if place >= 0 else -1
        goes = _goes(words, off, place)
        if len(step.makes) > 1:
            last = plan.items[step.makes[1]]
            stays = words.goes(last, state.belongs(last.id)).removeprefix("to ")
            more = (f"What stays: {words.named(last)}, to {stays}.", *more)
    return _build(
        session,
        words,
        due,
        headline=words.headline(step),
        figure=_figure(plan, step, manner, words),
        sentence=words.sentence(step, place_of),
        more=more,
        goes=goes,
        press=words.call_it(step),
        scene=scene_of_step(plan, step, manner),
        target=target,
        cautions=_cautions(session, step, words),
        optional=step.optional,
    )


def _goes(words: English, item: Item, place: int) -> str:
    goes = words.goes(item, place)
    return f"{goes}, key {words.press(place)}" if place >= 0 else goes


def _figure(plan: Plan, step: Step, manner: Manner, words: English) -> Figure | None:
    mark = step.mark
    if step.kind is StepKind.FILL:
        label = _ascii(plan.kit.pockets[step.pocket].label)
        return Figure(label, tone="file", caption=f"{len(step.makes)} into pocket")
    if mark is None:
        word = words.large(step)
        return Figure(word, caption="sheet" if word == step.sheet else "") if word else None
    tone: Tone = "cut"
    if mark.sure is Sure.PRINTED:
        return Figure("line", tone=tone, caption="next printed")
    if step.kind is StepKind.TEAR:
        text, unit = _number(mark.value, manner.style)
        return Figure(text, unit, tone, "wide")
    reading = read_mark(mark.value, manner.ruler)
    style = LengthStyle(manner.ruler.unit, ascii=True)
    # On a ruler of its own unit the crafter's way of writing metric lengths is kept.
    if manner.ruler.unit is not Unit.IN and manner.style.unit is not Unit.IN:
        style = LengthStyle(manner.style.unit, ascii=True)
    text, unit = _number(reading.shown, style)
    about = mark.sure is Sure.ABOUT
    error = ""
    if reading.error and not about:
        side = "over" if reading.error > 0 else "under"
        error = (
            f"a hair {side}"
            if 2 * abs(reading.error) < manner.ruler.step
            else (f"half a mark {side}")
        )
    return Figure(f"~{text}" if about else text, unit, tone, "about" if about else "mark", error)


def _number(x: Fraction, style: LengthStyle) -> tuple[str, str]:
    """A length's digits in ASCII, and its unit."""
    text = write_length(x, LengthStyle(style.unit, ascii=True), with_unit=True)
    number, _, unit = text.rpartition(" ")
    return number.lstrip("~"), unit


def _ascii(label: str) -> str:
    return label.replace("·", "-")


def _cautions(session: Session, step: Step, words: English) -> tuple[str, ...]:
    codes: list[str] = []
    work = step.work
    trims = work is not None and work.verb is Verb.TRIM
    if trims and "blade" not in session.cautioned:
        codes.append("blade")
    if step.kind is StepKind.CUT and trims:
        parts = [session.plan.items[id].stock for id in step.makes]
        mark = step.mark.value if step.mark else SLIVER
        narrow = min(
            (min(s.width.value, s.height.value) for s in parts if s is not None), default=SLIVER
        )
        if min(narrow, mark) < SLIVER:
            codes.append("sliver")
    by_knife = work is not None and work.verb in (Verb.KNIFE, Verb.SLIT, Verb.FUSSY_CUT, Verb.TRACE)
    if by_knife and "knife" not in session.cautioned:
        codes.append("knife")
    if step.kind is StepKind.FILL:
        kind = session.plan.items[step.makes[0]].kind
        if kind is not None and kind.small:
            codes.append("small")
    return tuple(words.caution(code) for code in codes)


def _build(
    session: Session,
    words: English,
    due: Due,
    *,
    headline: str,
    figure: Figure | None,
    sentence: str,
    press: str,
    more: tuple[str, ...] = (),
    goes: str = "",
    scene: Scene | None = None,
    target: int = -1,
    cautions: tuple[str, ...] = (),
    optional: bool = False,
    over: bool = False,
) -> Moment:
    state = session.state
    return Moment(
        due=due,
        headline=headline,
        figure=figure,
        sentence=sentence,
        more=more,
        goes=goes,
        press=press,
        scene=scene,
        alerts=alerts_of(state, words),
        cautions=cautions,
        pockets=_pockets(session, words, target),
        pile=_pile(session, words, due),
        scraps=(state.scraps, state.scraps_expected),
        waits=waits_of(session),
        progress=_progress(session, words),
        optional=optional,
        over=over,
    )


def alerts_of(state: State, words: English) -> tuple[Alert, ...]:
    """All warnings in words: those that want an answer first, the newest on top."""
    alerts = []
    for warning in state.warnings.values():
        belongs = state.belongs(warning.items[-1]) if warning.items else int(Spot.SCRAPS)
        alerts.append(
            Alert(
                warning,
                words.warning(warning, belongs),
                words.remedy(warning, belongs),
                warning.id in state.left,
            )
        )
    return tuple(sorted(alerts, key=lambda alert: (alert.left, -alert.warning.since)))


def _pockets(session: Session, words: English, target: int) -> tuple[PocketLine, ...]:
    state = session.state
    wrong: dict[int, int] = {}
    for warning in state.warnings.values():
        if warning.pocket >= 0:
            wrong[warning.pocket] = wrong.get(warning.pocket, 0) + len(warning.items)
    return tuple(
        PocketLine(
            pocket.index,
            words.dot(pocket.label),
            session.plan.keys_of[pocket.index],
            state.held(pocket.index),
            state.wanted(pocket.index),
            wrong.get(pocket.index, 0),
            pocket.index == target,
        )
        for pocket in session.plan.kit.pockets
    )


def _pile(session: Session, words: English, due: Due) -> tuple[PileLine, ...]:
    items = session.plan.items
    return tuple(
        PileLine(
            id,
            words.named(items[id]),
            words.goes(items[id], session.state.belongs(id)),
            id == due.item,
        )
        for id in reversed(session.state.pile)
    )


def waits_of(session: Session) -> tuple[str, ...]:
    """What is postponed and still waits, by the names of what it is done to; a few of them."""
    plan, state = session.plan, session.state
    step = state.step()
    phase = max(Phase.TRIMMING, step.phase) if step else Phase.AFTER_FILING
    # Steps stand in the order of their phases, so those that wait are the last ones.
    first = bisect_right(plan.steps, phase, key=lambda each: each.phase)
    waiting = (
        later.work.take
        for later in islice(plan.steps, first, None)
        if later.work is not None and later.id not in state.done
    )
    return tuple(dict.fromkeys(islice(waiting, _MOST_WAITING)))


def _progress(session: Session, words: English) -> Progress:
    plan, state = session.plan, session.state
    step = state.step()
    order = session.sheet_numbers
    return Progress(
        done=state.steps_done,
        steps=len(plan.steps),
        sheet=order.get(step.sheet, 0) if step and step.load else 0,
        sheets=len(order),
        cut=step.number if step and step.load and step.kind is not StepKind.LOAD else 0,
        cuts=step.of if step and step.load else 0,
        spent=session.pace.spent,
        left=words.left(session.pace.left(state)),
    )
