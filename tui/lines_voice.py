"""Hears lines and says lines: no colour, no cursor, each line written at once."""

from __future__ import annotations

import json
import signal
from collections.abc import Callable, Sequence
from types import FrameType
from typing import TYPE_CHECKING, TextIO

from model.finding import clean
from model.language import USUAL, phrases_for
from tui.asciitext import ascii_text

if TYPE_CHECKING:
    from model.language.english.typed import TypedPhrases

_MOST = 1000
"""Characters of a line that are looked at."""


class Voice:
    """Reads commands and writes sentences, or one JSON object a line.

    Attributes:
        json: One JSON object a line, instead of sentences.
        ascii: Only ASCII characters.
        words: What is typed and how it sounds, in the crafter's language.
        typed: The line that was heard last, as it was typed.
        ended: Nothing more will be heard: the input is at its end, or Ctrl+C was pressed.
        interrupted: It was Ctrl+C.
    """

    def __init__(
        self,
        hear: TextIO,
        say: TextIO,
        as_json: bool,
        ascii: bool,
        words: TypedPhrases | None = None,
    ) -> None:
        """Prepare.

        Args:
            hear: Where commands come from.
            say: Where sentences go.
            as_json: One JSON object a line, with at least ``kind`` and ``text``.
            ascii: Only ASCII characters.
            words: What is typed, in the crafter's language; in English without.
        """
        self._hear = hear
        self._say = say
        self.json = as_json
        self.ascii = ascii
        self.words = words or phrases_for(USUAL).typed
        self._listening = False
        self._owes_line = False
        self.typed = ""
        self.ended = False
        self.interrupted = False

    def catch_interrupts(self) -> Callable[[], None]:
        """Let Ctrl+C end the program only between two commands, never within a saving.

        Returns:
            What puts the old handling back.
        """

        def interrupt(number: int, frame: FrameType | None) -> None:
            self.interrupted = self.ended = True
            if self._listening:
                raise KeyboardInterrupt
            self._owes_line = True  # the key stands at the end of what was said

        before = signal.signal(signal.SIGINT, interrupt)
        return lambda: void(signal.signal(signal.SIGINT, before))

    def hear(self) -> str | None:
        """The next line, without what is around it; None when there is none any more."""
        if self.ended:
            return None
        try:
            self._listening = True
            line = self._hear.readline()
        except KeyboardInterrupt:
            self.interrupted = self.ended = True
            self._after_the_key()
            return None
        finally:
            self._listening = False
        if not line:
            self.ended = True
            self._after_the_key()
            return None
        self.typed = " ".join(clean(line[:_MOST]).split())
        return self.words.heard(self.typed)

    def _after_the_key(self) -> None:
        """A terminal shows Ctrl+C or Ctrl+D and stays on its line; the last sentence begins one."""
        if self._hear.isatty():
            self._say.write("\n")

    def say(self, kind: str, text: str, exact: str = "", **more: object) -> None:
        """Say one line, in words that can be heard, and write it at once.

        Args:
            kind: What sort of line it is, for programs.
            text: The sentence.
            exact: A part of it that is written as it stands, such as a path.
            more: What else a program is told.
        """
        if self._owes_line:
            self._owes_line = False
            self._after_the_key()
        text = self.words.spoken(text, exact)
        if self.json:
            line = json.dumps({"kind": kind, "text": text, **more}, ensure_ascii=self.ascii)
        else:
            line = text
            if not line.isprintable():  # nothing that a kit says steers the terminal
                line = "".join(char if char.isprintable() else "\ufffd" for char in line)
            line = ascii_text(line) if self.ascii else line
        self._say.write(f"{line}\n")
        self._say.flush()

    def ask(self, text: str, answers: Sequence[str], hint: str, exact: str = "") -> str | None:
        """Ask, until one of the answers is heard; its first letter will do where it is its own.

        Args:
            text: The question.
            answers: What can be answered.
            hint: Said again when something else is heard.
            exact: A part of the question that is written as it stands.

        Returns:
            The answer; None when it was left unanswered.
        """
        self.say("question", text, exact, answers=list(answers))
        while (heard := self.hear()) is not None:
            word = heard.casefold()
            if word in answers:
                return word
            short = [answer for answer in answers if word and answer[0] == word]
            if len(short) == 1:
                return short[0]
            if self.left(word):
                return None
            self.say("question", hint, answers=list(answers))
        return None

    def ask_freely(self, text: str) -> str | None:
        """Ask for anything; None when it was left, or was answered with no or nothing."""
        self.say("question", text, answers=["no"])
        heard = self.hear()
        if heard is None or heard.casefold() in ("", "no", "n") or self.left(heard.casefold()):
            return None
        return heard

    def left(self, word: str) -> bool:
        """Whether a word leaves a question unanswered; quit ends all."""
        if word == "quit":
            self.ended = True
        return word in ("stop", "back", "cancel", "quit")


def void(_: object) -> None:
    """Takes anything, and gives nothing back."""
