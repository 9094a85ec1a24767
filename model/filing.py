"""Pockets, pile and scraps: where each thing lies, and whether it lies there rightly.

Alike copies stand for one another: they are counted, see `model.counting`. A copy filed
where there is room is right; any other is a stray and is warned of. When room comes free
where strays lie, the one that has been there longest becomes right.
"""

from __future__ import annotations

from collections.abc import Sequence

from model.counting import Counts, group_of, to_be_filed
from model.ledger import GONE, Chains
from model.plan import Group, Plan, Role, Step, StepKind
from model.spot import Spot
from model.warning import Mistake, Warning, WarningKind


class Filing(Counts):
    """Where everything lies, the counts of the pockets, and the warnings that stand.

    Attributes:
        place: Where each thing is: a `Spot`, or a pocket's index. Things not named here
            are nowhere yet.
        warnings: Warnings that stand, by id.
        left: Ids of warnings that were read and left for later.
        kept: Pieces that will not be cut again after all, since that step was left out.
        checked: Pockets that were counted and held just what they should, with the number of
            the event; what goes in or out since takes that away.
        mistakes: Every mistake as it happened, also when it was put right or undone.
        raised: The warnings that the last event raised.
    """

    def __init__(self, plan: Plan) -> None:
        """Nothing made, nothing filed.

        Args:
            plan: The plan.
        """
        super().__init__(plan)
        self.place: dict[str, int] = {}
        self.warnings: dict[str, Warning] = {}
        self.left: dict[str, bool] = {}
        self.kept: dict[str, bool] = {}
        self.checked: dict[int, int] = {}
        self.mistakes: list[Mistake] = []
        self.raised: list[Warning] = []
        self._noted: set[int] = set()  # the events that were mistakes
        self._on_pile = Chains(self._ledger)
        self._to_file = Chains(self._ledger)
        self._strays = Chains(self._ledger)
        self._stray: dict[str, str] = {}  # the warning that a stray is named by
        self._tally: dict[str, int] = {"thrown": 0, "extra": 0, "waived": 0, "waiting": 0}
        self._n = 0
        self._pockets = {pocket.label: pocket.index for pocket in plan.kit.pockets}

    # What a view asks for

    @property
    def pile(self) -> tuple[str, ...]:
        """What is cut but not yet filed, newest last."""
        return tuple(self._on_pile.names("pile"))

    @property
    def top(self) -> str | None:
        """The newest thing on the pile."""
        return self._on_pile.last("pile")

    @property
    def top_to_file(self) -> str | None:
        """The newest thing on the pile that goes into a pocket or to the scraps."""
        return self._to_file.last("pile")

    @property
    def waiting(self) -> int:
        """How many things on the pile go into a pocket or to the scraps."""
        return self._tally["waiting"]

    @property
    def scraps(self) -> int:
        """How many things are among the scraps, unexpected ones included."""
        return self._tally["thrown"] + self.extra

    @property
    def extra(self) -> int:
        """How many scraps turned up that the kit knows nothing of."""
        return self._tally["extra"]

    @property
    def scraps_expected(self) -> int:
        """How many scraps the cuts make, less those of steps left out."""
        return len(self.plan.scraps) - self._tally["waived"]

    def where(self, item: str) -> int:
        """Where a thing is: a `Spot`, or a pocket's index."""
        return self.place.get(item, Spot.NOWHERE)

    def lying_in(self, pocket: int) -> tuple[str, ...]:
        """Everything that lies in a pocket, rightly or not, in the order in which it came."""
        return tuple(item for item, place in self.place.items() if place == pocket)

    def is_stray(self, item: str) -> bool:
        """Whether a copy lies in a pocket that has no room for it."""
        return item in self._stray

    def cut_again(self, item: str) -> bool:
        """Whether a thing will be, or was, taken up and cut again."""
        return item in self.plan.taken_by and item not in self.kept

    def belongs(self, item: str) -> int:
        """Where a thing belongs now: a pocket's index, the scraps, or the pile.

        What lies rightly belongs where it is. Other alike copies fill the room that is left in
        the author's order of pockets: what a warning names comes first, the oldest warning
        before all, so that what it says stays true while others are filed. Ribbons of one kind
        are not alike: each was cut to the length of its pocket.
        """
        thing = self.plan.items[item]
        if thing.role is Role.SCRAP:
            return Spot.SCRAPS
        if thing.role is not Role.PIECE:
            return Spot.PILE
        if thing.partner:
            return self.belongs(thing.partner)
        group = self.plan.groups[thing.group]
        if not group.wanted:
            return Spot.PILE
        here = self.where(item)
        if here >= 0 and item not in self._stray:
            return here
        home = self.home(item)
        if home is not None:
            return home
        warned = self.warned(group.key)
        return self.promised(group, warned.index(item) if item in warned else len(warned))

    def warned(self, group: str) -> list[str]:
        """The copies of a group that a warning wants back, in the order of the promises."""
        if not self.warnings:
            return []
        named = (
            item
            for warning in sorted(self.warnings.values(), key=lambda w: (w.since, w.id))
            for item in warning.items
            if self.plan.items[item].group == group and group_of(self.plan, item) is not None
        )
        return [
            item
            for item in dict.fromkeys(named)
            if (self.is_stray(item) or self.where(item) == Spot.SCRAPS) and self.home(item) is None
        ]

    def promised(self, group: Group, number: int) -> int:
        """The pocket for a copy before which so many of its like come."""
        first = None
        for pocket in group.wanted:
            free = max(0, self.free(group.key, pocket))
            if number < free:
                return pocket
            number -= free
            if free and first is None:
                first = pocket
        return next(iter(group.wanted)) if first is None else first

    # Judging

    def _promote(self, group: str, pocket: int) -> None:
        """Strays become right where room came free."""
        while self.free(group, pocket) > 0:
            item = self._strays.first((group, pocket))
            if item is None or self.home(item) not in (None, pocket):
                return
            self._clear_stray(item, pocket)
            self._count(group, pocket, right=1)

    def _clear_stray(self, item: str, pocket: int) -> None:
        self._strays.remove((self.plan.items[item].group, pocket), item)
        warning = self.warnings[self._stray[item]]
        self._ledger.set(self._stray, item, GONE)
        rest = tuple(other for other in warning.items if other != item)
        if rest:
            changed = Warning(warning.id, warning.kind, rest, warning.pocket, warning.since)
            self._ledger.set(self.warnings, warning.id, changed)
        else:
            self._unwarn(warning.id)

    # Moving things

    def _lay(self, item: str) -> None:
        """Lay a thing on top of the pile."""
        self._ledger.set(self.place, item, int(Spot.PILE))
        self._on_pile.add("pile", item)
        if to_be_filed(self.plan, item):
            self._to_file.add("pile", item)
            self._add("waiting", 1)

    def _lift(self, item: str, promote: bool = True) -> None:
        """Take a thing from where it is; the caller says where it goes.

        Args:
            item: The thing.
            promote: Whether a stray may become right in its place.
        """
        here = self.where(item)
        thing = self.plan.items[item]
        if here >= 0:
            self._ledger.set(self.checked, here, GONE)
            for companion in self.plan.companions.get(item, ()):
                self._ledger.set(self.place, companion, int(Spot.ASIDE))
            if item in self._stray:
                self._clear_stray(item, here)
            elif group_of(self.plan, item) is not None:
                self._count(thing.group, here, right=-1)
                if promote:
                    self._promote(thing.group, here)
            self._unwarn(f"scrap filed:{item}")
            self._unwarn(f"strip filed:{item}")
            self._unwarn(f"twice:{item}")
        elif here == Spot.PILE:
            self._on_pile.remove("pile", item)
            if to_be_filed(self.plan, item):
                self._to_file.remove("pile", item)
                self._add("waiting", -1)
        elif here == Spot.SCRAPS:
            self._add("thrown", -1)
            self._unwarn(f"scrapped:{item}")
        elif here == Spot.MISSING:
            self._unwarn(f"missing:{item}")
        elif here == Spot.NOWHERE:
            self._came(item)

    def _came(self, item: str) -> None:
        """A thing turns up that nobody is known to have made: a damaged journal lost that."""
        step = self.plan.steps[self.plan.made_by[item]] if item in self.plan.made_by else None
        if step is not None and step.kind is StepKind.FILL:
            key = self.plan.items[item].group, step.pocket
            self._ledger.set(self._coming, key, self._coming[key] - 1)
            self._promote(*key)

    def _add(self, tally: str, more: int) -> None:
        self._ledger.set(self._tally, tally, self._tally[tally] + more)

    def home(self, item: str) -> int | None:
        """The one pocket that a ribbon was cut to length for; None for all else."""
        if self.plan.items[item].length is None:
            return None
        return self.plan.steps[self.plan.made_by[item]].pocket

    def _put(self, items: Sequence[str], pocket: int) -> None:
        """Put things into a pocket, all with one event, and judge it."""
        strays: list[str] = []
        self._ledger.set(self.checked, pocket, GONE)
        for item in items:
            self._ledger.set(self.place, item, pocket)
            for companion in self.plan.companions.get(item, ()):
                self._ledger.set(self.place, companion, pocket)
            group = group_of(self.plan, item)
            if group is None:
                scrap = self.plan.items[item].role is Role.SCRAP
                kind = WarningKind.SCRAP_FILED if scrap else WarningKind.STRIP_FILED
                self._warn(f"{kind}:{item}", kind, (item,), pocket)
            elif self.free(group.key, pocket) > 0 and self.home(item) in (None, pocket):
                self._count(group.key, pocket, right=1)
            else:
                self._strays.add((group.key, pocket), item)
                self._ledger.set(self._stray, item, f"pocket:{self._n}")
                strays.append(item)
        if strays:
            group_key = self.plan.items[strays[-1]].group
            holds = self.right(group_key, pocket)
            full = 0 < holds == self.plan.groups[group_key].wanted.get(pocket, 0)
            kind = WarningKind.TOO_MANY if full else WarningKind.WRONG_POCKET
            self._warn(f"pocket:{self._n}", kind, tuple(strays), pocket)

    def _fill(self, step: Step, pocket: int) -> None:
        """Do a filling step: its whole count goes into a pocket, by rights its own."""
        items = [item for item in step.makes if self.where(item) == Spot.NOWHERE]
        key = self.plan.items[step.makes[0]].group, step.pocket
        self._ledger.set(self._coming, key, self._coming[key] - len(items))
        self._put(items, pocket)
        self._promote(*key)

    def _throw(self, item: str) -> None:
        """Throw a thing to the scraps."""
        self._lift(item)
        self._ledger.set(self.place, item, int(Spot.SCRAPS))
        self._add("thrown", 1)
        if self.plan.items[item].role is not Role.SCRAP:
            self._warn(f"scrapped:{item}", WarningKind.WANTED_SCRAPPED, (item,), -1)
        elif self.scraps > self.scraps_expected:
            # Now there is in truth one too many: what was left for later is asked again.
            for id in list(self.left):
                warning = self.warnings[id]
                if warning.kind in (WarningKind.EXTRA_SCRAP, WarningKind.WANTED_SCRAPPED):
                    self._ledger.set(self.left, id, GONE)
                    self.raised.append(warning)

    def _miss(self, item: str) -> None:
        """A thing is not in the pocket that it was filed in."""
        pocket = self.where(item)
        self._lift(item)
        self._ledger.set(self.place, item, int(Spot.MISSING))
        self._warn(f"missing:{item}", WarningKind.MISSING, (item,), pocket)

    def _use(self, item: str, spot: Spot) -> None:
        """Take a thing up to be cut, or note that it is cut up."""
        here = self.where(item)
        begun = here in (Spot.IN_HAND, Spot.TAKEN)
        group = None if begun else group_of(self.plan, item)
        rightly = here >= 0 and item not in self._stray
        self._lift(item, promote=False)
        self._ledger.set(self.place, item, int(spot))
        if group is None:
            return
        # The pockets take one copy less, and one less is lent to later cuts.
        if rightly:
            gives = here
        else:
            free = [pocket for pocket in group.wanted if self.free(group.key, pocket) > 0]
            lending = [pocket for pocket in free if self._lent.get((group.key, pocket), 0) > 0]
            gives = (lending or free or [-1])[0]
        if gives >= 0:
            self._count(group.key, gives, room=-1)
        self._return(group, gives)

    def _return(self, group: Group, rather: int) -> None:
        """One copy less is lent to later cuts; rather of this pocket, if it lends any."""
        lending = [p for p in (rather, *group.wanted) if self._lent.get((group.key, p), 0) > 0]
        if lending:
            self._count(group.key, lending[0], lent=-1)

    def _keep(self, item: str) -> None:
        """A piece will not be cut again: it stays where it is filed."""
        group = group_of(self.plan, item)
        if group is not None and item not in self.kept:
            self._ledger.set(self.kept, item, True)
            self._return(group, self.where(item))

    def _waive(self, item: str) -> None:
        """A thing won't come: its pocket, or the scraps, no longer wait for it."""
        if self.plan.items[item].role is Role.SCRAP:
            self._add("waived", 1)
            return
        group = group_of(self.plan, item)
        if group is None:
            return
        key = group.key
        lent = self.plan.transient(item)
        # The pocket that comes last in the author's order goes without.
        free = [p for p in group.wanted if self.free(key, p) > 0]
        fit = [p for p in free if not lent or self._lent.get((key, p), 0)]
        if not free:
            return
        gives = (fit or free)[-1]
        self._count(key, gives, room=-1)
        if lent:
            self._return(group, gives)

    # Warnings

    def _warn(self, id: str, kind: WarningKind, items: tuple[str, ...], pocket: int) -> None:
        warning = Warning(id, kind, items, pocket, self._n)
        self._ledger.set(self.warnings, id, warning)
        self._ledger.set(self.left, id, GONE)
        self.raised.append(warning)
        self._note(warning)

    def _note(self, warning: Warning) -> None:
        """Remember a mistake, once for each event: saying it again by redo adds none."""
        if warning.since in self._noted:
            return
        self._noted.add(warning.since)
        label = self.plan.kit.pockets[warning.pocket].label if warning.pocket >= 0 else ""
        belonged = ""
        if warning.items:
            place = self.belongs(warning.items[-1])
            belonged = (
                self.plan.kit.pockets[place].label if place >= 0 else Spot(place).name.lower()
            )
        self.mistakes.append(Mistake(warning.since, warning.kind, warning.items, label, belonged))

    def _unwarn(self, id: str) -> None:
        if id in self.warnings:
            self._ledger.set(self.warnings, id, GONE)
            self._ledger.set(self.left, id, GONE)
