"""Asks, one by one, for what a count did not find, and puts right what proves true."""

from __future__ import annotations

from collections.abc import Callable

from model.recount import Proposal, Recount
from model.session import Session
from model.settlement import Settlement
from tui.screens.base import AppScreen, Result
from tui.screens.dialog import Choice, Dialog


class Settling:
    """What is missing is proposed at its likeliest place, until it is found or given up."""

    def __init__(
        self,
        screen: AppScreen[Result],
        session: Session,
        recount: Recount,
        done: Callable[[Settlement], None],
    ) -> None:
        """Prepare to ask.

        Args:
            screen: The screen that asks.
            session: The session.
            recount: What was counted.
            done: Called with what came of it when nothing is left to ask.
        """
        self._screen = screen
        self._session = session
        self._settlement = Settlement(session, recount)
        self._done = done

    def ask(self) -> None:
        """Ask for the next thing; mark the pockets that are right when none is left."""
        proposal = self._settlement.next()
        if proposal is not None:
            self._propose(proposal)
            return
        self._settlement.end()
        self._done(self._settlement)

    def _propose(self, proposal: Proposal) -> None:
        words = self._screen.words_of(self._session)
        settlement = self._settlement

        def answer(choice: str | None) -> None:
            if choice == "yes":
                settlement.yes(proposal)
            elif choice == "no":
                settlement.no(proposal)
            else:
                settlement.later(proposal)
            self.ask()

        last = settlement.last(proposal)
        self._screen.app.push_screen(
            Dialog(
                words.proposal(proposal),
                (
                    Choice("yes", "yes", words.proposal_yes(proposal)),
                    Choice("no", "no", words.proposal_no(last)),
                    Choice("later", "leave", words.proposal_later()),
                ),
            ),
            answer,
        )
