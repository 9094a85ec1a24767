"""Hears lines and says lines: no colour, no cursor, each line written at once."""

from __future__ import annotations

import json
import signal
from collections.abc import Callable, Sequence
from types import FrameType
from typing import TYPE_CHECKING, TextIO

from model.finding import clean
from tui.asciitext import ascii_text

if TYPE_CHECKING:
    from model.language.english.typed import TypedPhrases

_MOST = 1000
"""Characters of a line that are looked at."""


class Voice:
    """Reads commands and writes sentences, or one JSON object a line.

    Attributes:
        json: One JSON object a line, instead of sentences.
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
        self._ascii = ascii
        self._words = words
        self._listening = False
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
            return None
        finally:
            self._listening = False
        if not line:
            self.ended = True
            return None
        said = " ".join(clean(line[:_MOST]).split())
        return said if self._words is None else self._words.heard(said)

    def say(self, kind: str, text: str, **more: object) -> None:
        """Say one line, and write it at once.

        Args:
            kind: What sort of line it is, for programs.
            text: The sentence.
            more: What else a program is told.
        """
        if self.json:
            line = json.dumps({"kind": kind, "text": text, **more}, ensure_ascii=self._ascii)
        else:
            line = " ".join(text.split())
            if not line.isprintable():  # nothing that a kit says steers the terminal
                line = "".join(char if char.isprintable() else "\ufffd" for char in line)
            line = ascii_text(line) if self._ascii else line
        self._say.write(f"{line}\n")
        self._say.flush()

    def ask(self, text: str, answers: Sequence[str], hint: str) -> str | None:
        """Ask, until one of the answers is heard; its first letter will do where it is its own.

        Args:
            text: The question.
            answers: What can be answered.
            hint: Said again when something else is heard.

        Returns:
            The answer; None when it was left unanswered.
        """
        self.say("question", text, answers=list(answers))
        while (heard := self.hear()) is not None:
            word = heard.casefold()
            if word in answers:
                return word
            short = [answer for answer in answers if word and answer[0] == word]
            if len(short) == 1:
                return short[0]
            if word in ("stop", "back", "cancel"):
                return None
            if word == "quit":
                self.ended = True
                return None
            self.say("question", hint, answers=list(answers))
        return None


def void(_: object) -> None:
    """Takes anything, and gives nothing back."""
