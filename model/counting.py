"""How many pieces each pocket holds and wants.

Alike copies of a kind stand for one another, so they are counted by group and pocket:

- ``room``: how many copies the pocket takes in all, less those that no longer come;
- ``right``: how many it rightly holds;
- ``coming``: how many a filling step is still to bring;
- ``lent``: how many of its copies will be taken up and cut again.

A copy filed where ``right + coming < room`` is right; any other is a stray and is warned
of. When room comes free where strays lie, the one that has been there longest becomes
right. What a pocket holds in the end is ``room - lent``, of which it holds
``min(right, room - lent)``; so it never holds more than it wants. The rooms of a group
together are just as many as its copies that are not cut up, so that a stray always finds
room somewhere.
"""

from __future__ import annotations

from collections import Counter

from model.ledger import Ledger
from model.plan import Group, Plan, Role, StepKind

_Bin = tuple[str, int]
"""A group's key and a pocket's index."""


def group_of(plan: Plan, item: str) -> Group | None:
    """The group of a piece that goes into a pocket by itself; None for other things.

    A piece without a pocket is only cut again, and a companion goes with its piece.
    """
    thing = plan.items[item]
    if thing.role is not Role.PIECE or thing.partner:
        return None
    group = plan.groups[thing.group]
    return group if group.wanted else None


def to_be_filed(plan: Plan, item: str) -> bool:
    """Whether a thing goes into a pocket, or to the scraps, once it is made."""
    return plan.items[item].role is Role.SCRAP or group_of(plan, item) is not None


class Counts:
    """The counts of the pockets; it does not know which copy lies where.

    Attributes:
        plan: The plan that they are about.
    """

    def __init__(self, plan: Plan) -> None:
        """Nothing is in any pocket.

        Args:
            plan: The plan.
        """
        self.plan = plan
        self._ledger = Ledger()
        self._room: dict[_Bin, int] = {}  # where it is not what the group wants
        self._right: dict[_Bin, int] = {}
        self._held: dict[int, int] = {}
        self._wanted: dict[int, int] = dict(enumerate(plan.wanted))
        self._beside: dict[str, int] = {}  # companions of each copy of a group
        for partner, companions in plan.companions.items():
            self._beside[plan.items[partner].group] = len(companions)
        self._coming: dict[_Bin, int] = Counter(
            (plan.items[item].group, step.pocket)
            for step in plan.steps
            if step.kind is StepKind.FILL
            for item in step.makes
        )
        self._lent: dict[_Bin, int] = {}
        self._lend()

    def _lend(self) -> None:
        """Count the copies that are cut again.

        Either all of a group are, or all are of one pocket (`model.closing_checks`, which
        copies), so that nobody has to ask which of them it is.
        """
        things = (self.plan.items[item] for item in self.plan.taken_by)
        cut_again = Counter(thing.group for thing in things if thing.role is Role.PIECE)
        for key, count in cut_again.items():
            for pocket, wanted in self.plan.groups[key].wanted.items():
                self._lent[key, pocket] = min(count, wanted)

    # What a view asks for

    def wanted(self, pocket: int) -> int:
        """How many pieces a pocket holds in the end."""
        return self._wanted[pocket]

    def held(self, pocket: int) -> int:
        """How many of them are in it."""
        return self._held.get(pocket, 0)

    def room(self, group: str, pocket: int) -> int:
        """How many copies of a group a pocket takes, those that are cut again included."""
        room = self._room.get((group, pocket))
        return self.plan.groups[group].wanted.get(pocket, 0) if room is None else room

    def right(self, group: str, pocket: int) -> int:
        """How many copies of a group a pocket rightly holds."""
        return self._right.get((group, pocket), 0)

    # Counting

    def free(self, group: str, pocket: int) -> int:
        """How many more copies of a group a pocket takes, by the group's key."""
        key = group, pocket
        return self.room(group, pocket) - self._right.get(key, 0) - self._coming.get(key, 0)

    def _spare(self, group: str, pocket: int) -> int:
        """How many of a pocket's copies are in it for good."""
        return self.room(group, pocket) - self._lent.get((group, pocket), 0)

    def _count(self, group: str, pocket: int, right: int = 0, room: int = 0, lent: int = 0) -> None:
        """Change the counts of a group in a pocket by so many."""
        key = group, pocket
        spare = self._spare(group, pocket)
        held = min(self._right.get(key, 0), spare)
        put = self._ledger.set
        if right:
            put(self._right, key, self._right.get(key, 0) + right)
        if room:
            put(self._room, key, self.room(group, pocket) + room)
        if lent:
            put(self._lent, key, self._lent.get(key, 0) + lent)
        each = 1 + self._beside.get(group, 0)
        more = self._spare(group, pocket) - spare
        if more:
            put(self._wanted, pocket, self._wanted[pocket] + more * each)
        more = min(self._right.get(key, 0), self._spare(group, pocket)) - held
        if more:
            put(self._held, pocket, self.held(pocket) + more * each)
