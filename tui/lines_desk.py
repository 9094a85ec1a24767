"""The run in plain lines: each command is one word of the session, each step one line."""

from __future__ import annotations

from collections.abc import Callable

from model.alerts import Alert
from model.cautions import MAY_BE_PUT_AWAY
from model.event import Filed, Mended
from model.session import Session, Told
from model.state import Spot
from tui.lines_choices import Choices
from tui.lines_reader import Reader
from tui.lines_voice import Voice


class Desk(Reader):
    """One session, worked on by lines."""

    def __init__(
        self, session: Session, choices: Choices, voice: Voice, teach: bool = False
    ) -> None:
        """Sit down.

        Args:
            session: The session; it is closed by whoever opened it.
            choices: The crafter's settings.
            voice: Hears and says.
            teach: Teach what can be typed, by doing.
        """
        super().__init__(session, choices, voice, teach)
        self.quit = False
        self._commands: dict[str, Callable[[str], None]] = {
            "": self._done, "done": self._done, "next": self._done,
            "scrap": self._scrap, "right": self._right, "leave": self._leave,
            "undo": self._undo, "redo": self._redo, "again": self._again, "notes": self._notes,
            "where": self._where, "pile": self._pile, "pockets": self._pockets,
            "warnings": self._warnings, "account": self._account, "save report": self._save,
            "skip": self._skip, "pace": self._pace, "later": self._later,
            "put off": self._later, "take up": self._take_up, "help": self._help,
            "help all": self._help_all, "quit": self._quit, "watch": self._again,
            "file all": self._file_all, "not it": self._not_it, "count all": self._count_all,
            "no cautions": self._no_cautions,
            "settings": self._settings, "lessons": self._teach, "no lessons": self._teach_no_more,
            "find": self._find, "set": self._set, "take": self._take, "pocket": self._pockets,
            "miscut": self._miscut,
        }  # fmt: skip
        self._with_words: dict[str, Callable[[str], None]] = {
            "take up": self._take_up, "put off": self._later, "later": self._later,
            "take": self._take, "pocket": self._pocket, "find": self._find,
            "count": self._count, "right": self._right, "leave": self._leave,
            "page": self._page, "not it": self._not_it, "set": self._set,
            "miscut": self._miscut,
        }  # fmt: skip

    def run(self) -> None:
        """Say the step, hear a command, until nothing more is heard."""
        self.tell()
        while not self.quit and (line := self._voice.hear()) is not None:
            self.do(line)

    def do(self, line: str) -> None:
        """Do what a line says, then say the step if it is another one now.

        Args:
            line: The line, with no space around it.
        """
        if self.session.watching:
            self._look_on(line)
        low = line.casefold()
        command = self._commands.get(low)
        if command is not None:
            command("")
        else:
            self._do_with_words(line)
        if not self.quit:
            self.tell()

    def _do_with_words(self, line: str) -> None:
        low = line.casefold()
        for start, command in self._with_words.items():
            if low.startswith(f"{start} "):
                command(line[len(start) :].strip())
                return
        pocket = self._pocket_named(line)
        if pocket is not None:
            self._into(pocket)
        elif line[:1].isdigit():
            self._object(self.words.no_pocket(line[:40]), line[:40])
        else:
            typed = self._voice.typed[:40]
            self._object(self.words.unknown(typed), typed)

    def _look_on(self, line: str) -> None:
        """Take in what the other program has said, and say so when it was asked for."""
        news = self.session.poll()
        if self.session.unsaved:
            self._say(self.words.looking_on(self.session.unsaved))
        elif not news and line.casefold() in ("", "done", "next"):
            self._say(self.words.brief("nothing new"))

    def _after(self, told: Told, said: str = "") -> None:
        """Say what came of a word."""
        if not told.taken:
            self._object_to(told.objection)
        elif not told.raised:
            self._say(said)
        self._in_hand = ""

    def _blocked(self) -> bool:
        pressing = self.look().pressing
        if pressing is None:
            return False
        self._object(self.words.answer_first(pressing))
        return True

    # Doing

    def _done(self, _: str) -> None:
        if self.session.watching or self._blocked():
            return
        moment, session = self.look(), self.session
        self._learn("did")
        if moment.over:
            if self._account_read:
                self._say(self.words.brief("all done"))
            else:
                self._account("")
        elif moment.due.item is None or not self._in_hand:
            self._after(session.next())  # the step that follows says enough
        else:
            self._put(moment.due.item, session.state.belongs(moment.due.item))

    def _put(self, item: str, place: int) -> None:
        """A thing went to a place: filed from the pile, or moved from where it was."""
        session, words = self.session, self.words
        here = session.state.where(item)
        if place >= 0 and here == place:
            self._after(Told(), words.filed(item, place))
        elif place >= 0 and (here >= 0 or here == Spot.SCRAPS):
            self._after(session.move(item, place), words.filed(item, place))
        elif place >= 0:
            self._after(session.file_into(place, item), words.filed(item, place))
        else:
            self._after(session.file_where_it_belongs(item), words.filed(item, place))

    def _into(self, pocket: int) -> None:
        """What is in hand, or what a warning names, went into a pocket."""
        session, words, moment = self.session, self.words, self.look()
        self._learn("pocket")
        pressing = moment.pressing
        if pressing is not None and pressing.warning.items:
            told = session.answer(pressing.warning, pocket)
            self._after(told, words.filed(pressing.warning.items[-1], pocket))
        elif not self._blocked():
            item = moment.due.item
            if item is None:
                self._after(session.file_into(pocket), words.filed_into(pocket))
            else:
                self._put(item, pocket)

    def _page(self, text: str) -> None:
        pocket = self._pocket_named(text)
        if pocket is None:
            self._object(self.words.no_pocket(text[:40]), text[:40])
        else:
            self._into(pocket)

    def _scrap(self, _: str) -> None:
        moment = self.look()
        pressing = moment.pressing
        if pressing is not None and not pressing.warning.items and self._blocked():
            return
        item = moment.due.item
        self._after(self.session.scrap(item), self.words.scrapped(item) if item else "")

    def _alert(self, which: str) -> Alert | None:
        """The warning that is meant: by its number, or the one that wants an answer."""
        words = self.words
        alerts = list(self.look().alerts)
        if which:
            number = _number(which)
            if not 1 <= number <= len(self._alerts):
                self._object(words.brief("no warning number"))
                return None
            return self._alerts[number - 1]
        if not alerts:
            self._object(words.brief("no warning"))
            return None
        return alerts[0]

    def _right(self, which: str) -> None:
        alert = self._alert(which)
        if alert is not None:
            self._learn("right")
            said = self.words.put_right(alert)
            self._after(self.session.put_right(alert.warning), said)

    def _leave(self, which: str) -> None:
        alert = self._alert(which)
        if alert is not None:
            self._after(self.session.leave(alert.warning), self.words.brief("left"))

    def _undo(self, _: str) -> None:
        session, words = self.session, self.words
        self._learn("undo")
        step = session.undo_unmakes()
        if session.watching or step is None:
            event = session.undo_names()
            rescue = isinstance(event, Mended)
            self._after(session.undo(), words.brief("rescue undone" if rescue else "undone"))
            return
        word = session.state.last_word()
        answers = [("yes", words.it_is_cut(step)), ("no", words.it_is_not_cut(step))]
        if word is not None:
            same = word in session.state.last_said()
            answers.insert(1, ("back", words.cut_but_take_back(step, word.event, same)))
        hint = words.answer_means(answers)
        asked = f"{words.was_it_cut(step)} {hint}"
        got = self._voice.ask(asked, [answer for answer, _ in answers], hint)
        if got == "no":
            self._after(session.undo(), words.brief("undone cut"))
        elif got == "back":
            self._after(session.undo_word(), words.brief("word undone"))
        else:
            self._say(words.brief("not undone"))

    def _redo(self, _: str) -> None:
        self._after(self.session.redo(), self.words.brief("redone"))

    def _skip(self, _: str) -> None:
        if self._blocked():
            return
        told = self.session.skip()
        self._after(told, self.words.left_out(self.session.state.last_said()))

    def _pace(self, _: str) -> None:
        by_load = not self.session.state.by_load
        said = self.words.brief("by load" if by_load else "by cut")
        self._after(self.session.pace_by(by_load), said)

    def _later(self, name: str) -> None:
        step = self.session.state.step()
        sheet = self._sheet_named(name) or (step.sheet if step and not name else "")
        if not sheet:
            self._object(self.words.brief("which sheet"))
            return
        self._after(self.session.defer(sheet), self.words.put_off(sheet))

    def _take_up(self, name: str) -> None:
        deferred = list(self.session.state.deferred)
        sheet = self._sheet_named(name) or ("" if name or len(deferred) != 1 else deferred[0])
        if not sheet and not deferred:
            self._object_to("not put off")
        elif not sheet:
            self._object(self.words.which_put_off(deferred))
        else:
            self._after(self.session.take_up(sheet), self.words.taken_up(sheet))

    def _sheet_named(self, name: str) -> str:
        name = name.casefold().removeprefix("sheet ").strip()
        return next((s for s in self.session.plan.sheets if s.casefold() == name), "")

    def _take(self, which: str) -> None:
        if self._blocked():
            return
        number = _number(which)
        listed = self._listed or [line.id for line in self.look().pile]
        if not 1 <= number <= len(listed):
            self._object(self.words.brief("no number" if listed else "find first"))
            return
        item = listed[number - 1]
        words, here = self.words, self.session.state.where(item)
        if here == Spot.MISSING:
            self._after(self.session.file_where_it_belongs(item), words.found_again(item))
        elif here >= 0 or here in (Spot.PILE, Spot.SCRAPS):
            self._in_hand = item
            if here == Spot.PILE:
                self.tell(again=True)
            else:
                self._say(words.taken_from(item, here))
                self._told = self.look()  # what is in hand was said
        else:
            self._object_to(self.session.state.objection(Filed(item, self.session.label(0))))

    def _miscut(self, text: str) -> None:
        """Something went wrong: say what, and go a way that saves it."""
        if self.session.watching:
            self._object_to("watching")
            return
        from tui.lines_miscut import Rescuing

        rescuing = Rescuing(self._voice, self.session, self.words)
        told = rescuing.run(text)
        if told is None:
            self._say(self.words.brief("cancelled"))
        else:
            self._after(told, self.words.rescued_line(rescuing.first))

    def _no_cautions(self, _: str) -> None:
        """Cautions are not read again in this sitting."""
        self.session.cautioned.update(MAY_BE_PUT_AWAY)
        self._say(self.words.brief("no cautions"))

    def _file_all(self, _: str) -> None:
        """All on the pile that is to be filed goes where it belongs, each thing told."""
        if self.session.watching or self._blocked():
            return
        filed = 0
        while (item := self.session.state.due().item) is not None:
            place = self.session.state.belongs(item)
            told = self.session.next()
            self._after(told, self.words.filed(item, place))
            if not told.taken or told.raised:
                return
            filed += 1
        if not filed:
            self._object(self.words.brief("nothing all"))

    def _quit(self, _: str) -> None:
        self.quit = True


def _number(text: str) -> int:
    """A small number; 0 for anything else."""
    return int(text) if text.isascii() and text.isdigit() and len(text) < 7 else 0
