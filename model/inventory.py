"""The pocket inventory: every pocket with every piece, filed, on the pile, or to come."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass

from model.kit import Face, PieceKind, Sheet
from model.plan import Group, Item, Plan, Role
from model.state import Spot, State
from model.warning import WarningKind


@dataclass(frozen=True, slots=True)
class Row:
    """Alike pieces of one pocket.

    Attributes:
        item: One of the copies, to name and size the row by.
        kind: What they are.
        face: The side that is seen on the page, when known.
        pages: The pages of the pocket that they are for, when known.
        wanted: How many the pocket takes; always the sum of the six numbers that follow.
        filed: How many of them are in it.
        on_pile: How many more are cut and lie on the pile.
        to_come: How many more are not made yet.
        scrapped: How many more lie among the scraps.
        elsewhere: How many more are in pockets that have no room for them.
        lost: How many more will never be made: what they were to be cut from is lost.
        sources: The sheets they come from; empty for what is packed ready made.
        again: They, or some of them, are taken up and cut again after filing.
        copies: The copies that are in the pocket.
    """

    item: Item
    kind: PieceKind
    face: Face | None
    pages: tuple[int, ...]
    wanted: int
    filed: int
    on_pile: int
    to_come: int
    scrapped: int
    elsewhere: int
    lost: int
    sources: tuple[str, ...]
    again: bool
    copies: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Holding:
    """What one pocket holds and waits for.

    Attributes:
        pocket: Its index.
        rows: Its pieces, in the kit's order.
        strays: Things in it that do not belong there, companions after their pieces.
        bases: The bases of its pages, which lie under the stack, and where each is now.
    """

    pocket: int
    rows: tuple[Row, ...]
    strays: tuple[str, ...]
    bases: tuple[tuple[Sheet, int], ...]


class Inventory:
    """Knows which groups each pocket wants; made once for a plan."""

    def __init__(self, plan: Plan) -> None:
        """Sort the plan's groups by pocket.

        Args:
            plan: The plan.
        """
        self._groups: list[list[Group]] = [[] for _ in plan.kit.pockets]
        self._copies: dict[str, list[Item]] = {}
        self._companions: dict[str, list[Item]] = {}
        for item in plan.items.values():
            if item.partner:
                beside = plan.items[item.partner].group
                self._companions.setdefault(beside, []).append(item)
            elif item.group:
                self._copies.setdefault(item.group, []).append(item)
        for group in plan.groups.values():
            for pocket in group.wanted:
                self._groups[pocket].append(group)
        self._short = {
            key: sum(group.wanted.values()) - len(self._copies.get(key, ()))
            for key, group in plan.groups.items()
        }
        self._bases: dict[int, list[Sheet]] = {}
        for sheet in plan.kit.sheets:
            if sheet.base is not None:
                found = plan.kit.pocket_of_page(sheet.base)
                if found is not None:
                    self._bases.setdefault(found.index, []).append(sheet)

    def holding(self, state: State, pocket: int) -> Holding:
        """What a pocket holds and waits for now.

        Args:
            state: The state; of the plan that this was made for.
            pocket: The pocket's index.
        """
        rows: list[Row] = []
        for group in self._groups[pocket]:
            copies = self._copies.get(group.key, [])
            if not state.room(group.key, pocket):
                continue  # its copies were cut up, or left out
            if not copies:
                rows += self._lost_row(state, group, pocket)
                continue
            row = self._row(state, group, pocket, copies)
            rows.append(row)
            for name in dict.fromkeys(c.name for c in self._companions.get(group.key, ())):
                rows.append(self._companion_row(group, name, row))
        strays = tuple(
            id
            for warning in state.warnings.values()
            if warning.pocket == pocket and warning.kind is not WarningKind.TWICE
            for item in warning.items
            if state.where(item) == pocket
            for id in (item, *state.plan.companions.get(item, ()))
        )
        bases = tuple(
            (sheet, state.where(sheet.name))
            for sheet in sorted(self._bases.get(pocket, ()), key=lambda s: s.base or 0)
        )
        return Holding(pocket, tuple(rows), strays, bases)

    def _row(self, state: State, group: Group, pocket: int, copies: list[Item]) -> Row:
        inside = tuple(
            c.id for c in copies if state.where(c.id) == pocket and not state.is_stray(c.id)
        )
        share = _shares(state, group, pocket, copies)
        lost, to_come = self._lost(state, group, pocket, copies)
        first = copies[0]
        return Row(
            item=first,
            kind=group.kind,
            face=first.paper.side(first.use) if first.paper else None,
            pages=tuple(sorted({t.page for t in group.to if t.pocket == pocket and t.page})),
            wanted=state.room(group.key, pocket),
            filed=len(inside),
            on_pile=share["pile"],
            to_come=to_come,
            scrapped=share["scrapped"],
            elsewhere=share["elsewhere"],
            lost=lost,
            sources=tuple(dict.fromkeys(c.sheet for c in copies if c.sheet)),
            again=any(state.cut_again(c.id) for c in copies),
            copies=inside,
        )

    def _lost(self, state: State, group: Group, pocket: int, copies: list[Item]) -> tuple[int, int]:
        """How many of a pocket's copies are lost, and how many are still to come.

        Copies are filed in the author's order of pockets, so the last pockets go without.
        """
        short = self._short[group.key]
        for other in reversed(list(group.wanted)):
            missing = state.room(group.key, other) - state.right(group.key, other)
            open_ = missing - sum(_shares(state, group, other, copies).values())
            lost = min(max(0, short), max(0, open_))
            if other == pocket:
                return lost, open_ - lost
            short -= lost
        return 0, 0

    def _lost_row(self, state: State, group: Group, pocket: int) -> list[Row]:
        """A row for pieces of which every copy is lost."""
        lost, _ = self._lost(state, group, pocket, [])
        if not lost:
            return []
        kind = group.kind
        item = Item(group.key, kind.name, Role.PIECE, kind, kind.paper, group=group.key)
        pages = tuple(sorted({t.page for t in group.to if t.pocket == pocket and t.page}))
        return [Row(item, kind, None, pages, lost, 0, 0, 0, 0, 0, lost, (), again=False, copies=())]

    def _companion_row(self, group: Group, name: str, beside: Row) -> Row:
        all_copies = [c for c in self._companions[group.key] if c.name == name]
        inside = tuple(c.id for c in all_copies if c.partner in beside.copies)
        first = all_copies[0]
        return Row(
            item=first,
            kind=first.kind or group.kind,
            face=first.paper.side(first.use) if first.paper else None,
            pages=beside.pages,
            wanted=beside.wanted,
            filed=len(inside),
            on_pile=0,
            to_come=beside.wanted - beside.lost - len(inside),
            scrapped=0,
            elsewhere=0,
            lost=beside.lost,
            sources=(),
            again=False,
            copies=inside,
        )


def _shares(state: State, group: Group, pocket: int, copies: list[Item]) -> Counter[str]:
    """How many copies that lie about are promised to a pocket, by where they lie.

    The room is given away as `State.belongs` does: first to what warnings name, then to the pile.
    """
    # Ribbons first, each of which was cut to the length of its pocket.
    homing = (_sort(state, copy.id) for copy in copies if state.home(copy.id) == pocket)
    share = Counter(sort for sort in homing if sort)
    sorts = [_sort(state, item) for item in state.warned(group.key)]
    sorts += ["pile"] * sum(
        state.where(copy.id) == Spot.PILE and state.home(copy.id) is None for copy in copies
    )
    start = 0
    for other in group.wanted:
        free = max(0, state.free(group.key, other))
        if other == pocket:
            share.update(sorts[start : start + free])
            break
        start += free
    return share


def _sort(state: State, item: str) -> str:
    """Where a copy is that lies in no pocket rightly; empty when it does, or is not made."""
    place = state.where(item)
    if place >= 0:
        return "elsewhere" if state.is_stray(item) else ""
    return {Spot.PILE: "pile", Spot.SCRAPS: "scrapped"}.get(Spot(place), "")
