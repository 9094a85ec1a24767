"""Counting pockets in plain lines: row by row, then what is missing is looked for."""

from __future__ import annotations

from collections.abc import Sequence

from model.language.english.words import English
from model.looking import look_for
from model.recount import Count, Line, Recount
from model.session import Session
from model.settlement import Settlement
from tui.lines_lists import read_found
from tui.lines_voice import Voice


class Counting:
    """Counts one pocket, or several before anything is looked for."""

    def __init__(self, voice: Voice, session: Session) -> None:
        """Prepare.

        Args:
            voice: Asks and says.
            session: The session.
        """
        self._voice = voice
        self._session = session
        self._recount = Recount(session.plan, session.state, session.known.looks)

    def count(self, pockets: Sequence[int], words: English) -> None:
        """Ask what is in some pockets, then for what is missing.

        Args:
            pockets: Their indexes.
            words: The sentences for this crafter.
        """
        for pocket in pockets:
            if not self._count(pocket, words):
                self._voice.say("said", words.brief("cancelled"))
                return
        self._settle(words)

    def _count(self, pocket: int, words: English) -> bool:
        """Count one pocket; False when the count was left."""
        voice, lines = self._voice, self._recount.lines(pocket)
        begins = words.count_begins(pocket, len(lines))
        voice.say("said", begins if lines else words.count_empty(pocket))
        seen = [len(line.copies) for line in lines]
        at = 0
        while at < len(lines):
            got = self._seen(lines[at], words)
            if got is None:
                return False
            if got == "all":
                break
            many = len(lines[at].copies)
            if got != "back":
                seen[at] = many if got == "yes" else 0 if got == "no" else int(got)
            at = max(0, at - 1) if got == "back" else at + 1
        seen[at:] = [len(line.copies) for line in lines[at:]]
        pairs = zip(lines, seen, strict=True)
        missing = [copy for line, there in pairs for copy in line.copies[there:]]
        others = self._others(pocket, words)
        if others is None:
            return False
        self._recount.counts[pocket] = Count(pocket, tuple(missing), tuple(others))
        return True

    def _seen(self, line: Line, words: English) -> str | None:
        """How much of a row is there; None when the count is left."""
        many = len(line.copies)
        asked = words.is_it_there(words.count_line(line), many, line.stray)
        numbers = [str(number) for number in range(many + 1)]
        return self._voice.ask(asked, ("yes", "no", "back", "all", *numbers), asked)

    def _others(self, pocket: int, words: English) -> list[str] | None:
        """What else is in it; None when the count is left."""
        others: list[str] = []
        voice = self._voice
        voice.say("question", words.brief("ask other"), answers=["no"])
        while (heard := voice.hear()) is not None:
            if heard.casefold() in ("no", "n", ""):
                return others
            if voice.left(heard.casefold()):
                return None
            self._other(pocket, heard, others, words)
            voice.say("question", words.brief("ask other"), answers=["no"])
        return None

    def _other(self, pocket: int, text: str, others: list[str], words: English) -> None:
        state, finder = self._session.state, self._session.known.finder
        found = look_for(finder, self._voice.words.written(text), words, state)
        listed = read_found(self._voice, words, found, state)
        if listed:
            hint = words.brief("ask which")
            numbers = [str(number) for number in range(1, len(listed) + 1)]
            got = self._voice.ask(hint, (*numbers, "no"), hint)
            if got is not None and got != "no":
                item = listed[int(got) - 1]
                others.append(self._recount.seen_in(pocket, item, others))

    def _settle(self, words: English) -> None:
        voice, settlement = self._voice, Settlement(self._session, self._recount)
        while not voice.ended and (proposal := settlement.next()) is not None:
            answers = (
                ("yes", words.proposal_yes(proposal)),
                ("no", words.proposal_no(settlement.last(proposal))),
                ("later", words.proposal_later()),
            )
            hint = words.answer_means(answers)
            got = voice.ask(f"{words.proposal(proposal)} {hint}", ("yes", "no", "later"), hint)
            if got == "yes":
                settlement.yes(proposal)
            elif got == "no":
                settlement.no(proposal)
            else:
                settlement.later(proposal)
        if voice.ended:
            return
        settlement.end()
        if settlement.tells_of_pockets():
            right, counted, warned = settlement.right(), settlement.counted, settlement.warned()
            voice.say("said", words.counted(right, counted, warned))
        if settlement.put_off():
            voice.say("said", words.brief("count off"))
