"""Counting a pocket in plain lines: row by row, then what is missing is looked for."""

from __future__ import annotations

from model.find import Finder
from model.language.english.words import English
from model.recount import Count, Recount
from model.session import Session
from model.settlement import Settlement
from tui.lines_voice import Voice


class Counting:
    """Counts one pocket after another; knows what was counted before."""

    def __init__(self, voice: Voice, session: Session, recount: Recount, finder: Finder) -> None:
        """Prepare.

        Args:
            voice: Asks and says.
            session: The session.
            recount: What was counted so far.
            finder: Finds things of the plan.
        """
        self._voice = voice
        self._session = session
        self._recount = recount
        self._finder = finder

    def count(self, pocket: int, words: English) -> None:
        """Ask what is in a pocket, then for what is missing."""
        voice, lines = self._voice, self._recount.lines(pocket)
        said = words.count_begins(pocket, len(lines)) if lines else words.brief("count empty")
        voice.say("said", said)
        missing: list[str] = []
        for line in lines:
            many = len(line.copies)
            asked = words.is_it_there(words.count_line(line), many, line.stray)
            numbers = [str(number) for number in range(many + 1)]
            got = voice.ask(asked, ("yes", "no", *numbers), asked)
            if got is None:
                voice.say("said", words.brief("cancelled"))
                return
            seen = many if got == "yes" else 0 if got == "no" else int(got)
            missing += line.copies[seen:]
        others = self._others(pocket, words)
        if others is None:
            voice.say("said", words.brief("cancelled"))
            return
        self._recount.counts[pocket] = Count(pocket, tuple(missing), tuple(others))
        self._settle(words)

    def _others(self, pocket: int, words: English) -> list[str] | None:
        """What else is in it; None when the count is left."""
        others: list[str] = []
        voice = self._voice
        voice.say("question", words.brief("ask other"), answers=["no"])
        while (heard := voice.hear()) is not None:
            if heard.casefold() in ("no", "n", ""):
                return others
            if heard.casefold() in ("stop", "back", "cancel"):
                return None
            if heard.casefold() == "quit":
                voice.ended = True
                return None
            self._other(pocket, heard, others, words)
            voice.say("question", words.brief("ask other"), answers=["no"])
        return None

    def _other(self, pocket: int, text: str, others: list[str], words: English) -> None:
        state, voice = self._session.state, self._voice
        found = self._finder.find(text, words.manner.style.unit, state)
        voice.say("said", words.found(found))
        for number, match in enumerate(found.matches, 1):
            line = words.match_line(number, words.match(match, state))
            voice.say("match", line, number=number, item=match.copy)
        if found.matches:
            hint = words.brief("ask which")
            numbers = [str(number) for number in range(1, len(found.matches) + 1)]
            got = voice.ask(hint, (*numbers, "no"), hint)
            if got is not None and got != "no":
                item = found.matches[int(got) - 1].copy
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
        for pocket in settlement.end():
            voice.say("said", words.pocket_counted(pocket))
