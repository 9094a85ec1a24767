"""Settling a count: what is missing is proposed place by place, until it is found or given up."""

from __future__ import annotations

from model.recount import Proposal, Recount
from model.session import Session


class Settlement:
    """What is still to be asked after a count, and what each answer does; it asks nobody itself."""

    def __init__(self, session: Session, recount: Recount) -> None:
        """Prepare to settle.

        Args:
            session: The session.
            recount: What was counted.
        """
        self._session = session
        self._recount = recount
        self._put_off: set[int] = set()  # pockets in which something is still to be looked for

    def next(self) -> Proposal | None:
        """What is to be asked next; None when nothing is left to ask."""
        for item, _ in self._recount.missing():
            found = self._recount.proposals(item)
            if found:
                return found[0]
        return next(iter(self._recount.returns()), None)

    def last(self, proposal: Proposal) -> bool:
        """Whether there is no other place to look at."""
        return len(self._recount.proposals(proposal.item)) <= 1

    def yes(self, proposal: Proposal) -> None:
        """It was looked at, is true, and was put right."""
        if self._session.accept(proposal).taken:
            self._recount.accept(proposal)
        else:
            self._recount.deny(proposal)

    def no(self, proposal: Proposal) -> None:
        """It was looked at and is not there; at the last place, it is missing."""
        if self.last(proposal):
            self._give_up(proposal)
            if self._session.state.where(proposal.item) == proposal.home:
                self._session.missed(proposal.item)
        else:
            self._recount.deny(proposal)

    def later(self, proposal: Proposal) -> None:
        """Nobody looks now: neither pocket is known to be right."""
        self._put_off |= {proposal.home, proposal.place}
        self._give_up(proposal)

    def _give_up(self, proposal: Proposal) -> None:
        self._recount.give_up(proposal.item, proposal.home)
        self._recount.give_up(proposal.item, proposal.place)

    def end(self) -> tuple[int, ...]:
        """Mark the pockets that are right; those that were not marked before."""
        known = {*self._session.state.checked, *self._put_off}
        found = [pocket for pocket in self._recount.right() if pocket not in known]
        return tuple(pocket for pocket in found if self._session.checked(pocket).taken)

    def put_off(self) -> bool:
        """Whether something was missed and nobody looked for it: only a new count tells."""
        return bool(self._put_off)

    @property
    def counted(self) -> int:
        """How many pockets were counted."""
        return len(self._recount.counts)

    def tells_of_pockets(self) -> bool:
        """Whether there is more to say than that something is still to be looked for."""
        return bool(self.right()) or self.warned() or not self.put_off()

    def warned(self) -> bool:
        """Whether a warning about a pocket that was counted stands: the warnings list it."""
        warnings = self._session.state.warnings.values()
        return any(warning.pocket in self._recount.counts for warning in warnings)

    def right(self) -> list[int]:
        """The pockets that were counted and are known to be right."""
        checked = self._session.state.checked
        return [p for p in self._recount.counts if p in checked and p not in self._put_off]
