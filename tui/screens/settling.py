"""Asks, one by one, for what a count did not find, and puts right what proves true."""

from __future__ import annotations

from collections.abc import Callable

from model.recount import Proposal, Recount
from model.session import Session
from tui.screens.base import AppScreen, Result
from tui.screens.dialog import Choice, Dialog


class Settling:
    """What is missing is proposed at its likeliest place, until it is found or given up."""

    def __init__(
        self,
        screen: AppScreen[Result],
        session: Session,
        recount: Recount,
        done: Callable[[], None],
    ) -> None:
        """Prepare to ask.

        Args:
            screen: The screen that asks.
            session: The session.
            recount: What was counted.
            done: Called when nothing is left to ask.
        """
        self._screen = screen
        self._session = session
        self._recount = recount
        self._done = done

    def ask(self) -> None:
        """Ask for the next thing; mark the pockets that are right when none is left."""
        proposal = self._next()
        if proposal is not None:
            self._propose(proposal)
            return
        for pocket in self._recount.right():
            if pocket not in self._session.state.checked:
                self._session.checked(pocket)
        self._done()

    def _next(self) -> Proposal | None:
        for item, _ in self._recount.missing():
            found = self._recount.proposals(item)
            if found:
                return found[0]
        return next(iter(self._recount.returns()), None)

    def _propose(self, proposal: Proposal) -> None:
        words = self._screen.words_of(self._session)
        recount = self._recount

        def answer(choice: str | None) -> None:
            if choice == "yes":
                if self._session.accept(proposal).taken:
                    recount.accept(proposal)
                else:
                    recount.deny(proposal)
            elif choice == "no" and not self._last(proposal):
                recount.deny(proposal)
            else:
                self._give_up(proposal, missed=choice == "no")
            self.ask()

        self._screen.app.push_screen(
            Dialog(
                words.proposal(proposal),
                (
                    Choice("yes", "y", words.proposal_yes(proposal)),
                    Choice("no", "n", words.proposal_no(self._last(proposal))),
                    Choice("later", "l", words.proposal_later()),
                ),
            ),
            answer,
        )

    def _last(self, proposal: Proposal) -> bool:
        """Whether there is no other place to look at."""
        return len(self._recount.proposals(proposal.item)) <= 1

    def _give_up(self, proposal: Proposal, missed: bool) -> None:
        self._recount.give_up(proposal.item, proposal.home)
        self._recount.give_up(proposal.item, proposal.place)
        if missed and self._session.state.where(proposal.item) == proposal.home:
            self._session.missed(proposal.item)
