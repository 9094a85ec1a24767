"""What plain lines read out and look for on request: it changes nothing by itself but a count."""

from __future__ import annotations

from model.alerts import Alert
from model.looking import look_for
from model.pockets import pocket_said
from model.session import Session
from tui import lines_lists as lists
from tui.lines_choices import Choices
from tui.lines_count import Counting
from tui.lines_teller import Teller
from tui.lines_voice import Voice


class Reader(Teller):
    """Reads out lists, finds, counts, tells the settings; the desk is one of these."""

    def __init__(
        self, session: Session, choices: Choices, voice: Voice, teach: bool = False
    ) -> None:
        """Prepare.

        Args:
            session: The session.
            choices: The crafter's settings.
            voice: Hears and says.
            teach: Teach what can be typed, by doing.
        """
        super().__init__(session, choices, voice, teach)
        self._listed: list[str] = []  # what the numbers mean that were read last
        self._alerts: list[Alert] = []
        self._account_read = False

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

    def _pocket(self, text: str) -> None:
        pocket = self._pocket_named(text)
        if pocket is None:
            self._object(self.words.no_pocket(text[:40]), text[:40])
        else:
            self._listed = lists.read_pocket(
                self._voice, self.words, self.session, self.look(), pocket
            )

    def _warnings(self, _: str) -> None:
        self._alerts = lists.read_warnings(self._voice, self.words, self.session)

    def _account(self, _: str) -> None:
        self._account_read = self.look().over
        lists.read_account(self._voice, self.words, self.session, self.words.manner)

    def _save(self, _: str) -> None:
        lists.save_account(self._voice, self.words, self.session, self.words.manner)

    def _find(self, text: str) -> None:
        self._learn("find")
        asked = text or self._voice.ask_freely(self.words.brief("ask find"))
        if asked is None:
            self._say(self.words.brief("cancelled"))
        else:
            self._look_for(asked)

    def _not_it(self, text: str) -> None:
        """What is in hand is not what is asked for: find out what it is."""
        self._learn("find")
        words, due = self.words, self.look().due
        wanted = due.item
        if wanted is None and due.step is not None:
            wanted = next(iter((*due.step.takes, *due.step.touches, *due.step.makes)), None)
        start = f"{words.not_it(wanted).partition('?')[0]}? " if wanted else ""
        asked = text or self._voice.ask_freely(f"{start}{words.brief('ask hand')}")
        if asked is None:
            self._say(words.brief("cancelled"))
        else:
            self._look_for(asked)

    def _look_for(self, text: str) -> None:
        words, state = self.words, self.session.state
        finder = self.session.known.finder
        found = look_for(finder, self._voice.words.written(text), words, state)
        self._listed = lists.read_found(self._voice, words, found, state)
        if found.matches:
            self._say(words.found_ending())

    def _count(self, text: str) -> None:
        pocket = self._pocket_named(text)
        if pocket is None:
            self._object(self.words.no_pocket(text[:40]), text[:40])
        elif self.session.watching:
            self._object_to("watching")
        else:
            Counting(self._voice, self.session).count([pocket], self.words)

    def _count_all(self, _: str) -> None:
        if self.session.watching:
            self._object_to("watching")
        else:
            pockets = [pocket.index for pocket in self.session.plan.kit.pockets]
            Counting(self._voice, self.session).count(pockets, self.words)

    # Settings and help

    def _settings(self, _: str) -> None:
        for line in self.words.settings_lines(self.choices.values()):
            self._voice.say("setting", line)

    def _set(self, text: str) -> None:
        key, value = self.words.setting_named(text)
        if not key or not value:
            self._object(self.words.set_how())
            return
        why = self.choices.typed(key, value)
        if why:
            self._object(self.words.not_set(key, why))
            return
        chosen = self.choices.settings
        self._voice.ascii, self._voice.words = chosen.ascii, chosen.phrases.typed
        self._say(self.words.setting_line(key, self.choices.values()[key]))
        if self.choices.trouble:
            self._object(self.words.not_kept(self.choices.trouble), self.choices.trouble)

    def _help(self, _: str) -> None:
        self._learn("help")
        for line in self.words.lines_help():
            self._voice.say("help", line)

    def _help_all(self, _: str) -> None:
        self._learn("help")
        for line in self.words.lines_help(all=True):
            self._voice.say("help", line)
