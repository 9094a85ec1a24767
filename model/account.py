"""The closing account: every sheet's area, every piece, every scrap, every warning.

It can be drawn up at any time; at the end everything in it is settled, or listed.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from fractions import Fraction

from model.kit import SetAside, Source
from model.plan import Item, Plan, Role, StepKind
from model.session import Session
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
        uncut: Area that is still to be cut, or was left uncut.
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
    piece_count: int
    scrap_count: int
    measured: bool

    @property
    def closes(self) -> bool:
        """Whether all paper is accounted for, with nothing left to cut."""
        whole = self.pieces + self.scraps + self.by_hand + self.uncut
        return not self.measured or (whole == self.area and not self.uncut)


@dataclass(frozen=True, slots=True)
class PocketAccount:
    """One pocket in the account."""

    pocket: int
    held: int
    wanted: int


@dataclass(frozen=True, slots=True)
class Account:
    """The whole account.

    Attributes:
        sheets: Each sheet that is cut.
        bases: Sheets kept whole, with the page of each and where it is.
        pockets: Each pocket.
        scraps: The scraps, known ones by id.
        scraps_expected: How many the kit expects.
        extra: How many scraps turned up that it does not know.
        warnings: Warnings that still stand.
        mistakes: How often each sort of mistake happened, put right or not.
        set_asides: What the pages will call for.
        ribbons: Each ribbon's name and what is left over of it, in mm.
        left_out: Optional steps that were left out, by id.
        finished: Whether every step was done.
        cuts: Straight cuts made so far.
    """

    sheets: tuple[SheetAccount, ...]
    bases: tuple[tuple[str, int, int], ...]
    pockets: tuple[PocketAccount, ...]
    scraps: tuple[str, ...]
    scraps_expected: int
    extra: int
    warnings: tuple[Warning, ...]
    mistakes: tuple[tuple[WarningKind, int], ...]
    set_asides: tuple[SetAside, ...]
    ribbons: tuple[tuple[str, Fraction], ...]
    left_out: tuple[str, ...]
    finished: bool
    cuts: int

    @property
    def closes(self) -> bool:
        """Whether everything is in its place and accounted for."""
        return (
            self.finished
            and not self.warnings
            and not self.extra
            and len(self.scraps) == self.scraps_expected
            and all(pocket.held == pocket.wanted for pocket in self.pockets)
            and all(sheet.closes for sheet in self.sheets)
        )


def account_of(session: Session) -> Account:
    """Draw up the account of a session as it stands."""
    plan, state = session.plan, session.state
    kit = plan.kit
    counted = Counter(mistake.kind for mistake in state.mistakes)
    return Account(
        sheets=tuple(_sheet(plan, state, s.name) for s in kit.sheets if s.base is None),
        bases=tuple(
            (s.name, s.base, state.where(s.name)) for s in kit.sheets if s.base is not None
        ),
        pockets=tuple(
            PocketAccount(p.index, state.held(p.index), state.wanted(p.index))
            for p in kit.pockets
        ),
        scraps=tuple(id for id, place in state.place.items() if place == Spot.SCRAPS),
        scraps_expected=state.scraps_expected,
        extra=state.extra,
        warnings=tuple(sorted(state.warnings.values(), key=lambda w: w.since)),
        mistakes=tuple(sorted(counted.items())),
        set_asides=kit.set_asides,
        ribbons=tuple(
            (kind.name, kind.length - sum((length for _, length in kind.lengths), Fraction(0)))
            for kind in kit.kinds.values() if kind.source is Source.RIBBON
        ),
        left_out=tuple(id for id, really in state.done.items() if not really),
        finished=state.due().over,
        cuts=sum(
            plan.steps[plan.step_at[id]].kind in (StepKind.CUT, StepKind.TEAR)
            for id, really in state.done.items() if really
        ),
    )


def _sheet(plan: Plan, state: State, name: str) -> SheetAccount:
    sheet = plan.items[name]
    things = (sheet, *(plan.items[id] for id in plan.by_sheet.get(name, ())))
    pieces = scraps = by_hand = uncut = Fraction(0)
    piece_count = scrap_count = 0
    made: dict[str, Fraction] = {}
    measured = True
    for item in things:
        if item.stock is not None and not _by_hand(plan, item):
            measured = measured and item.stock.measured
    for item in reversed(things):
        place = state.where(item.id)
        if item is not sheet and place == Spot.NOWHERE:
            continue
        if item.role is Role.PIECE and place != Spot.TAKEN:
            piece_count += 1
        if item.role is Role.SCRAP:
            scrap_count += 1
        if item.stock is None or _by_hand(plan, item):
            continue
        area = item.stock.area
        if item.id != name:
            parent = item.id.rpartition("/")[0]
            made[parent] = made.get(parent, Fraction(0)) + area
        if place == Spot.TAKEN:
            step = plan.steps[plan.taken_by[item.id]]
            if step.kind is StepKind.SHAPE:
                by_hand += area
        elif item.role is Role.SCRAP:
            scraps += area
        elif place == Spot.IN_HAND or item.role is not Role.PIECE:
            uncut += area - made.get(item.id, Fraction(0))
        else:
            pieces += area
    area = sheet.stock.area if sheet.stock else Fraction(0)
    return SheetAccount(
        name, area, pieces, scraps, by_hand, uncut, piece_count, scrap_count, measured
    )


def _by_hand(plan: Plan, item: Item) -> bool:
    """Whether a thing was cut by hand, so that its area is its parent's affair."""
    made = plan.made_by.get(item.id)
    return made is not None and plan.steps[made].kind in (StepKind.SHAPE, StepKind.MARK)
