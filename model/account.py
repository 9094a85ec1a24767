"""The closing account: every sheet's area, every piece, every scrap, every warning.

It can be drawn up at any time; at the end everything in it is settled, or listed.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from fractions import Fraction

from model.event import Mended
from model.filings import filing_of
from model.inventory import Inventory
from model.kit import SetAside, Source
from model.plan import Plan, Role, StepKind
from model.run import Run
from model.state import Spot, State
from model.warning import Warning, WarningKind


@dataclass(frozen=True, slots=True)
class SheetAccount:
    """Where one sheet's paper is; areas in square millimetres, exact.

    Attributes:
        name: The sheet.
        area: Its whole area.
        pieces: Area of the pieces cut from it, wherever they are.
        scraps: Area of its scraps.
        by_hand: Area of what was cut by hand: shapes and their trimmings together.
        uncut: Area that is still to be cut, or lies about uncut.
        left_out: Area of that which stays uncut since an optional step was left out.
        piece_count: How many pieces came of it.
        scrap_count: How many scraps.
        measured: Whether all its cuts are at numbers; otherwise the areas mean nothing
            and the pieces are counted by name alone.
    """

    name: str
    area: Fraction
    pieces: Fraction
    scraps: Fraction
    by_hand: Fraction
    uncut: Fraction
    left_out: Fraction
    piece_count: int
    scrap_count: int
    measured: bool

    @property
    def closes(self) -> bool:
        """Whether all paper is accounted for, with nothing left to cut."""
        whole = self.pieces + self.scraps + self.by_hand + self.uncut
        return not self.measured or (whole == self.area and self.uncut == self.left_out)


@dataclass(frozen=True, slots=True)
class PocketAccount:
    """One pocket in the account.

    Attributes:
        pocket: Its index.
        held: How many pieces it rightly holds.
        wanted: How many it is to hold in the end.
        lost: How many of them are lost.
    """

    pocket: int
    held: int
    wanted: int
    lost: int = 0

    @property
    def right(self) -> bool:
        """Whether it holds all that it can."""
        return self.held + self.lost == self.wanted


@dataclass(frozen=True, slots=True)
class Account:
    """The whole account.

    Attributes:
        sheets: Each sheet that is cut.
        bases: Sheets kept whole, with the page of each and where it is.
        pockets: Each pocket.
        scraps: What lies among the scraps, by id, in the order of the plan; things that are
            no scraps too.
        scraps_expected: How many the kit expects.
        extra: How many scraps turned up that it does not know.
        warnings: Warnings that still stand, the oldest first.
        mistakes: How often each sort of mistake happened, put right or not.
        moved: What was filed in one pocket and lies in another one now, by id, with the labels
            of both; in the order in which it was filed.
        set_asides: What the pages will call for.
        ribbons: Each ribbon's name and what is left over of it, in mm.
        left_out: Steps that were left out, by id, in the order of the plan.
        finished: Whether every step was done.
        cuts: Straight cuts made so far, tears among them.
        mended: What went wrong at the trimmer, where, and the way that was gone, as the codes
            and identities that the session keeps, in the order in which it was said.
        lost: What pockets go without since it is lost: its name, the pocket, and how many.
        adrift: Entries of the session that could not be made sense of, by number; only
            a damaged session has any.
    """

    sheets: tuple[SheetAccount, ...]
    bases: tuple[tuple[str, int, int], ...]
    pockets: tuple[PocketAccount, ...]
    scraps: tuple[str, ...]
    scraps_expected: int
    extra: int
    warnings: tuple[Warning, ...]
    mistakes: tuple[tuple[WarningKind, int], ...]
    moved: tuple[tuple[str, str, str], ...]
    set_asides: tuple[SetAside, ...]
    ribbons: tuple[tuple[str, Fraction], ...]
    left_out: tuple[str, ...]
    finished: bool
    cuts: int
    adrift: tuple[int, ...] = ()
    mended: tuple[tuple[str, str, str], ...] = ()
    lost: tuple[tuple[str, int, int], ...] = ()

    @property
    def closes(self) -> bool:
        """Whether everything is in its place and accounted for."""
        return self._right and all(pocket.held == pocket.wanted for pocket in self.pockets)

    @property
    def lost_only(self) -> bool:
        """Whether everything is in its place but for what is lost."""
        return self._right and bool(self.lost) and all(each.right for each in self.pockets)

    @property
    def _right(self) -> bool:
        """Whether all is done, and right with scraps, sheets and warnings."""
        return (
            self.finished
            and not self.warnings
            and not self.extra
            and len(self.scraps) == self.scraps_expected
            and all(sheet.closes for sheet in self.sheets)
        )


def account_of(session: Run) -> Account:
    """Draw up the account of a session as it stands.

    Args:
        session: The session.
    """
    plan, state = session.plan, session.state
    kit = plan.kit
    counted = Counter(mistake.kind for mistake in state.mistakes)
    lost = _lost(plan, state) if state.mendings else ()
    gone = Counter[int]()
    for _, pocket, count in lost:
        gone[pocket] += count
    done = [step for step in plan.steps if step.id in state.done]
    return Account(
        sheets=tuple(_sheet(plan, state, s.name) for s in kit.sheets if s.base is None),
        bases=tuple(
            (s.name, s.base, state.where(s.name)) for s in kit.sheets if s.base is not None
        ),
        pockets=tuple(
            PocketAccount(p.index, state.held(p.index), state.wanted(p.index), gone[p.index])
            for p in kit.pockets
        ),
        scraps=tuple(id for id in plan.items if state.where(id) == Spot.SCRAPS),
        scraps_expected=state.scraps_expected,
        extra=state.extra,
        warnings=tuple(sorted(state.warnings.values(), key=lambda w: (w.since, w.id))),
        mistakes=tuple(sorted(counted.items())),
        moved=_moved(state),
        set_asides=kit.set_asides,
        ribbons=tuple(
            (kind.name, kind.length - sum((length for _, length in kind.lengths), Fraction(0)))
            for kind in kit.kinds.values()
            if kind.source is Source.RIBBON
        ),
        left_out=tuple(step.id for step in done if not state.done[step.id]),
        finished=state.due().over,
        cuts=sum(
            step.kind in (StepKind.CUT, StepKind.TEAR) for step in done if state.done[step.id]
        ),
        adrift=tuple(state.ignored),
        mended=tuple(
            (entry.event.what, entry.event.step, entry.event.way)
            for entry in state.standing()
            if isinstance(entry.event, Mended)
        ),
        lost=lost,
    )


def _lost(plan: Plan, state: State) -> tuple[tuple[str, int, int], ...]:
    """What pockets go without since it is lost, by name and pocket, in the kit's order."""
    inventory = Inventory(plan)
    found: Counter[tuple[str, int]] = Counter()
    for pocket in plan.kit.pockets:
        for row in inventory.holding(state, pocket.index).rows:
            if row.lost:
                found[row.item.name, pocket.index] += row.lost
    return tuple((name, pocket, count) for (name, pocket), count in found.items())


def _moved(state: State) -> tuple[tuple[str, str, str], ...]:
    """What was filed and then moved to another pocket, however often it went between them."""
    first: dict[str, str] = {}
    last: dict[str, str] = {}
    for entry in state.standing():
        items, pocket = filing_of(state.plan, entry.event)
        for item in items:
            first.setdefault(item, pocket)
            last[item] = pocket
    return tuple((id, label, last[id]) for id, label in first.items() if last[id] != label)


def _sheet(plan: Plan, state: State, name: str) -> SheetAccount:
    """Where one sheet's paper is; what was cut off a thing is no longer part of it."""
    left: dict[str, Fraction] = {}  # of each thing that exists, its area less what came off
    by_hand_ids: set[str] = set()
    measured = True
    for id in (name, *plan.by_sheet.get(name, ())):
        stock = plan.items[id].stock
        parent = _parent(plan, id)
        if parent in by_hand_ids or _made_by_hand(plan, id):
            by_hand_ids.add(id)  # its area is its parent's affair
        elif stock is not None:
            measured = measured and stock.measured
            if parent is None or state.where(id) != Spot.NOWHERE:
                left[id] = stock.area
                if parent in left:
                    left[parent] -= stock.area
    pieces = scraps = by_hand = uncut = left_out = Fraction(0)
    for id, area in left.items():
        item = plan.items[id]
        taker = plan.steps[plan.taken_by[id]] if id in plan.taken_by else None
        place = state.where(id)
        if place == Spot.TAKEN and taker is not None and taker.kind is StepKind.SHAPE:
            by_hand += area
        elif item.role is Role.SCRAP:
            scraps += area
        elif item.role is Role.PIECE and place not in (Spot.TAKEN, Spot.IN_HAND):
            pieces += area
        else:
            uncut += area
            if taker is not None and state.done.get(taker.id) is False:
                left_out += area
    things = [
        plan.items[id] for id in plan.by_sheet.get(name, ()) if state.where(id) != Spot.NOWHERE
    ]
    return SheetAccount(
        name,
        _whole(plan, name),
        pieces,
        scraps,
        by_hand,
        uncut,
        left_out,
        piece_count=sum(
            thing.role is Role.PIECE and state.where(thing.id) != Spot.TAKEN for thing in things
        ),
        scrap_count=sum(thing.role is Role.SCRAP for thing in things),
        measured=measured,
    )


def _whole(plan: Plan, name: str) -> Fraction:
    stock = plan.items[name].stock
    return stock.area if stock else Fraction(0)


def _parent(plan: Plan, id: str) -> str | None:
    """What a thing was cut from; None for a sheet."""
    made = plan.made_by.get(id)
    if made is None:
        return None
    step = plan.steps[made]
    return (step.takes or step.touches)[0]


def _made_by_hand(plan: Plan, id: str) -> bool:
    made = plan.made_by.get(id)
    return made is not None and plan.steps[made].kind in (StepKind.SHAPE, StepKind.MARK)
