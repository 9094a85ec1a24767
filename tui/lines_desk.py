"""The run in plain lines: each command is one word of the session, each step one line."""

from __future__ import annotations

from collections.abc import Callable

from model.alerts import Alert
from model.event import Filed
from model.pockets import pocket_said
from model.recount import Recount
from model.session import Session, Told
from model.settings import Settings
from model.state import Spot, State
from tui import lines_lists as lists
from tui.lines_count import Counting
from tui.lines_teller import Teller
from tui.lines_voice import Voice


class Desk(Teller):
    """One session, worked on by lines."""

    def __init__(self, session: Session, settings: Settings, voice: Voice) -> None:
        """Sit down.

        Args:
            session: The session; it is closed by whoever opened it.
            settings: The crafter's settings.
            voice: Hears and says.
        """
        super().__init__(session, settings, voice)
        self._listed: list[str] = []
        self._alerts: list[Alert] = []
        self._account_read = False
        self._counting: tuple[State, Counting] | None = None
        self.quit = False
        self._commands: dict[str, Callable[[str], None]] = {
            "": self._done, "done": self._done, "next": self._done,
            "scrap": self._scrap, "right": self._right, "leave": self._leave,
            "undo": self._undo, "redo": self._redo, "again": self._again, "notes": self._notes,
            "where": self._where, "pile": self._pile, "pockets": self._pockets,
            "warnings": self._warnings, "account": self._account, "save report": self._save,
            "skip": self._skip, "pace": self._pace, "later": self._later,
            "put off": self._later, "help": self._help, "quit": self._quit,
            "watch": self._again,
        }  # fmt: skip
        self._with_words: dict[str, Callable[[str], None]] = {
            "take up": self._take_up, "put off": self._later, "later": self._later,
            "take": self._take, "pocket": self._pocket, "find": self._find,
            "count": self._count, "right": self._right, "leave": self._leave,
            "page": self._page,
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
            self._object(self.words.no_pocket(line[:40]))
        else:
            self._object(self.words.unknown(line[:40]))

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
            self._object(self.words.objection(told.objection))
        elif not told.raised:
            self._say(said)
        self._in_hand = ""

    def _blocked(self) -> bool:
        if self.look().pressing is None:
            return False
        self._object(self.words.brief("answer first"))
        return True

    # Doing

    def _done(self, _: str) -> None:
        if self.session.watching or self._blocked():
            return
        moment, session = self.look(), self.session
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
                self._object(words.brief("no number"))
                return None
            return self._alerts[number - 1]
        if not alerts:
            self._object(words.brief("no warning"))
            return None
        return alerts[0]

    def _right(self, which: str) -> None:
        alert = self._alert(which)
        if alert is not None:
            said = self.words.put_right(alert.remedy)
            self._after(self.session.put_right(alert.warning), said)

    def _leave(self, which: str) -> None:
        alert = self._alert(which)
        if alert is not None:
            self._after(self.session.leave(alert.warning), self.words.brief("left"))

    def _undo(self, _: str) -> None:
        session, words = self.session, self.words
        step = session.undo_unmakes()
        if session.watching or step is None:
            self._after(session.undo(), words.brief("undone"))
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
        sheet = self._sheet_named(name)
        if not sheet:
            self._object(self.words.brief("which sheet"))
            return
        self._after(self.session.take_up(sheet), self.words.taken_up(sheet))

    def _sheet_named(self, name: str) -> str:
        name = name.casefold().removeprefix("sheet ").strip()
        return next((s for s in self.session.plan.sheets if s.casefold() == name), "")

    def _take(self, which: str) -> None:
        number = _number(which)
        listed = self._listed or [line.id for line in self.look().pile]
        if not 1 <= number <= len(listed):
            self._object(self.words.brief("no number"))
            return
        item = listed[number - 1]
        here = self.session.state.where(item)
        if here < 0 and here not in (Spot.PILE, Spot.SCRAPS):
            why = self.session.state.objection(Filed(item, self.session.label(0)))
            self._object(self.words.objection(why))
            return
        self._in_hand = item
        self.tell(again=True)

    # Reading out

    def _again(self, _: str) -> None:
        self.tell(again=True)

    def _notes(self, _: str) -> None:
        moment, words = self.look(), self.words
        if not (moment.cautions or moment.more):
            self._say(words.brief("no notes"))
        for caution in moment.cautions:
            self._voice.say("caution", words.caution_line(caution))
        if moment.more:
            self._voice.say("note", words.notes_line(moment.more))

    def _where(self, _: str) -> None:
        lists.read_where(self._voice, self.words, self.session, self.look())

    def _pile(self, _: str) -> None:
        self._listed = lists.read_pile(self._voice, self.words, self.look())

    def _pockets(self, _: str) -> None:
        lists.read_pockets(self._voice, self.words, self.look())

    def _pocket_named(self, text: str) -> int | None:
        return pocket_said(self.session.plan.kit, text)

    def _page(self, text: str) -> None:
        pocket = self._pocket_named(text)
        if pocket is None:
            self._object(self.words.no_pocket(text[:40]))
        else:
            self._into(pocket)

    def _pocket(self, text: str) -> None:
        pocket = self._pocket_named(text)
        if pocket is None:
            self._object(self.words.no_pocket(text[:40]))
        else:
            lists.read_pocket(self._voice, self.words, self.session, self.look(), pocket)

    def _warnings(self, _: str) -> None:
        self._alerts = lists.read_warnings(self._voice, self.words, self.session)

    def _account(self, _: str) -> None:
        self._account_read = self.look().over
        lists.read_account(self._voice, self.words, self.session, self.words.manner)

    def _save(self, _: str) -> None:
        lists.save_account(self._voice, self.words, self.session, self.words.manner)

    def _find(self, text: str) -> None:
        words, state = self.words, self.session.state
        found = self._finding()[1].find(text, words.manner.style.unit, state)
        self._say(words.found(found))
        for number, match in enumerate(found.matches, 1):
            line = words.match_line(number, words.match(match, state))
            self._voice.say("match", line, number=number, item=match.copy)
        self._listed = [match.copy for match in found.matches]
        if found.matches:
            self._say(words.found_ending())

    def _count(self, text: str) -> None:
        pocket = self._pocket_named(text)
        if pocket is None:
            self._object(self.words.no_pocket(text[:40]))
            return
        if self.session.watching:
            self._object(self.words.objection("watching"))
            return
        session = self.session
        if self._counting is None or self._counting[0] is not session.state:
            plan, finder, looks = self._finding()
            recount = Recount(plan, session.state, looks)
            self._counting = session.state, Counting(self._voice, session, recount, finder)
        self._counting[1].count(pocket, self.words)

    def _help(self, _: str) -> None:
        for line in self.words.lines_help():
            self._voice.say("help", line)

    def _quit(self, _: str) -> None:
        self.quit = True


def _number(text: str) -> int:
    """A small number; 0 for anything else."""
    return int(text) if text.isascii() and text.isdigit() and len(text) < 7 else 0
