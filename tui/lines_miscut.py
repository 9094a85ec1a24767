"""Miscuts in plain lines: what happened, asked line by line, then the ways, one to be typed."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from model.language.english.words import English
from model.length import LengthError, parse_length
from model.plan import Step
from model.rescue.choices import (
    Lot,
    Made,
    Row,
    cuts_made,
    may_be_missing,
    may_be_ruined,
    may_be_taken,
    narrowed,
    possible,
    should_be,
    sides_of,
    taken,
    unit_typed,
)
from model.rescue.mishap import CannotBe, Mishap, What
from model.rescue.preview import shown, steps_of
from model.rescue.rescue import Rescue, Way
from model.session import Session, Told, now
from tui.lines_voice import Voice

_READ = 9
"""Things of a list that are read out at once."""
_ALL = tuple(What)
_LENGTHS = (What.MARK, What.MEASURE)
_SHOWN = 40
"""Signs of what was typed that are said again."""


class Rescuing:
    """Asks for what is lacking, reads the ways, and goes one of them or none.

    Attributes:
        first: What is to be done first after a way was chosen, in words.
    """

    def __init__(self, voice: Voice, session: Session, words: English) -> None:
        """Prepare.

        Args:
            voice: Asks and says.
            session: The session; it is changed only when a way was chosen.
            words: The sentences for this crafter.
        """
        self._voice = voice
        self._session = session
        self._words = words
        self._cuts: tuple[Made, ...] = cuts_made(session.state)
        self._at = 0
        self.first: tuple[str, ...] = ()

    def run(self, text: str) -> Told | None:
        """Go from what was typed to a way.

        Args:
            text: What was typed after the command; may be empty.

        Returns:
            What came of the way that was chosen; None when none was.
        """
        words = self._words
        number, text = words.heard_cut(text)
        if number:
            if number > len(self._cuts):
                self._object(words.cannot_be(CannotBe("no such step"), Mishap(What.MARK)))
                return None
            self._at = number - 1
        what, rest = words.heard_what(text)
        if what is None and rest and self._meant_as_length(rest):
            what = What.MARK
        if what is None:
            if rest:
                self._object(words.not_of_these(rest[:_SHOWN]))
            what, rest = self._ask_what(), ""
        if what is None:
            return None
        why = possible(self._session.state, self._step)[what]
        if why:
            self._object(words.what_line(0, what, why))
            return None
        rescue = self._how(what, rest)
        return None if rescue is None else self._ways(rescue)

    @property
    def _step(self) -> Step | None:
        return self._cuts[self._at].step if self._cuts else None

    def _object(self, text: str) -> None:
        self._voice.say("objection", text)

    def _heard(self, question: str) -> str | None:
        """Ask, until something is typed; None when it was left."""
        heard: str | None = ""
        while heard == "":
            self._voice.say("question", question)
            heard = self._voice.hear()
        return None if heard is None or self._voice.left(heard.casefold()) else heard

    # What happened

    def _ask_what(self) -> What | None:
        words = self._words
        while True:
            self._read_what()
            heard = self._heard(words.ask_what(len(self._cuts) > 1))
            if heard is None:
                return None
            if words.heard_answer(heard) == "earlier" and self._cuts:
                self._ask_cut()
                if self._voice.ended:
                    return None
                continue
            what, _ = words.heard_what(heard)
            if what is None and heard.isascii() and heard.isdigit() and len(heard) < 3:
                number = int(heard)
                what = _ALL[number - 1] if 0 < number <= len(_ALL) else None
            if what is not None:
                return what
            self._object(words.not_of_these(heard[:_SHOWN]))

    def _read_what(self) -> None:
        words, voice, step = self._words, self._voice, self._step
        said = words.cut_meant(step, self._at == 0)
        came = f" {words.cut_came(step, self._session.state)}." if step else ""
        voice.say("cut", f"{said}{came} {words.miscut_free()}", step=step.id if step else "")
        why = possible(self._session.state, step)
        for number, what in enumerate(_ALL, 1):
            line = words.what_line(number, what, why[what])
            voice.say("choice", line, number=number, what=what.value, possible=not why[what])

    def _ask_cut(self) -> None:
        words, state, here = self._words, self._session.state, now()
        rows = [(made.step.id, *words.cut_row(made, state, here)) for made in self._cuts]
        chosen = self._one_of(rows, "")
        if chosen is not None:
            self._at = next(n for n, made in enumerate(self._cuts) if made.step.id == chosen)

    def _one_of(self, rows: Sequence[Row], text: str) -> str | None:
        """Which of some things; None when it was left."""
        words, voice = self._words, self._voice
        fit = narrowed(rows, text)
        while len(fit) != 1 or not text:
            if not fit:
                self._object(words.miscut_none())
                fit = tuple(rows)
            for number, (id, name, about) in enumerate(fit[:_READ], 1):
                line = words.one_line(number, name, about)
                voice.say("thing", line, number=number, item=id)
            if len(fit) > _READ:
                voice.say("said", words.more_of_them(len(fit) - _READ))
            heard = self._heard(words.ask_one())
            if heard is None:
                return None
            text = heard
            if heard.isascii() and heard.isdigit() and 0 < int(heard[:6]) <= min(_READ, len(fit)):
                return fit[int(heard) - 1][0]
            fit = narrowed(rows, voice.words.written(heard))
        return fit[0][0]

    def _how(self, what: What, text: str) -> Rescue | None:
        """How it really was; None when it was left, or can't have been."""
        step, state = self._step, self._session.state
        if what is What.RUINED:
            return self._of_thing(what, "", may_be_ruined(state), text)
        if what is What.MISSING:
            return self._of_thing(what, "", may_be_missing(state), text)
        assert step is not None  # without a cut nothing else was possible
        if what is What.PIECE:
            return self._of_thing(what, step.load, may_be_taken(state, step), text)
        if what in _LENGTHS:
            return self._of_length(what, step, text)
        words = self._words
        asked = words.confirm(what, self._session.plan.items[taken(step)])
        hint = words.yes_or_no()
        if self._voice.ask(f"{asked} {hint}", ("yes", "no"), hint) != "yes":
            return None
        return self._rescue(Mishap(what, step.load))

    def _of_thing(self, what: What, at: str, lots: Sequence[Lot], text: str) -> Rescue | None:
        rows = [(lot.item.id, *self._words.lot_row(lot)) for lot in lots]
        while (id := self._one_of(rows, text)) is not None:
            rescue = self._rescue(Mishap(what, at, thing=id))
            if rescue is not None:
                return rescue
            text = ""
        return None

    def _of_length(self, what: What, step: Step, text: str) -> Rescue | None:
        words, off = self._words, True
        unit = unit_typed(words.manner, what)
        while True:
            thing = sides_of(step)[0 if off else 1] if what is What.MEASURE else ""
            item = self._session.plan.items[thing or taken(step)]
            should = should_be(step, what, thing) or Fraction(0)
            if not text:
                heard = self._heard(words.length_line(what, item, off, should))
                if heard is None:
                    return None
                text = heard
            if words.heard_answer(text) == "other":
                off, text = not off, ""
                continue
            length = self._length(text, what)
            if length is None:
                self._object(f"{words.no_length(text[:_SHOWN])} {words.how_typed(unit)}")
            else:
                rescue = self._rescue(Mishap(what, step.id, length, thing))
                if rescue is not None:
                    return rescue
            text = ""

    def _meant_as_length(self, text: str) -> bool:
        """Whether a text is a length, or begins like one and is looked at as one."""
        begins = text[0].isnumeric() or text[0] == "-"
        return begins or self._length(text, What.MARK) is not None

    def _length(self, text: str, what: What) -> Fraction | None:
        try:
            return parse_length(
                self._voice.words.written(text), unit_typed(self._words.manner, what)
            )
        except LengthError:
            return None

    def _rescue(self, mishap: Mishap) -> Rescue | None:
        words = self._words
        try:
            return Rescue(self._session, mishap, words.new_names())
        except CannotBe as error:
            self._object(words.cannot_be(error, mishap))
            return None

    # What can be saved

    def _ways(self, rescue: Rescue) -> Told | None:
        words, voice, state = self._words, self._voice, self._session.state
        voice.say("mishap", f"{words.mishap_said(rescue.mishap)}.", what=rescue.mishap.what.value)
        for each in rescue.touched:
            plays = each.plays.id if each.plays else ""
            voice.say("touched", words.touched(each), item=each.item, place=each.place, plays=plays)
        lost = [item.id for item in rescue.lost]
        said = words.lost(rescue.lost) if lost else words.nothing_lost()
        voice.say("lost", said, items=lost)
        rescue.search()
        self._read_ways(rescue)
        while rescue.ways:
            heard = self._heard(words.ask_way())
            if heard is None:
                return None
            sort, number = words.heard_way(heard)
            if sort == "ways":
                self._read_ways(rescue)
            elif sort and 0 < number <= len(rescue.ways):
                way = rescue.ways[number - 1]
                if sort == "way":
                    self.first = words.first_do(way, rescue.touched, state)
                    return rescue.choose(way)
                self._show(way)
            elif sort and number:
                self._object(words.no_such_way(number, len(rescue.ways)))
            else:
                self._object(words.not_of_these(heard[:_SHOWN]))
        return None

    def _read_ways(self, rescue: Rescue) -> None:
        words, voice, lost = self._words, self._voice, len(rescue.lost)
        for number, way in enumerate(rescue.ways, 1):
            said = (
                words.way_does(way),
                words.way_saves(way, lost),
                words.way_costs(way, rescue.touched, self._session.state),
                words.way_proved(way),
            )
            voice.say(
                "way", words.way_line(number, said), number=number, way=way.saving.value,
                missing=[item.id for item in way.missing], cuts=way.cost.cuts,
                scraps=way.cost.scraps, sheets=list(way.cost.sheets), fetch=list(way.fetch),
                discard=list(way.discard), proved=way.proved,
            )  # fmt: skip
        if not rescue.ways:
            self._object(words.all_found(0))

    def _show(self, way: Way) -> None:
        """Read what one would cut."""
        words, state = self._words, self._session.state
        steps = steps_of(way, state)
        for number, step in enumerate(steps, 1):
            it = shown(way, step, state, words.manner)
            at = words.step_of(number, len(steps))
            self._voice.say("preview", f"{it.headline}, {at}: {it.sentence}", step=step.id)
