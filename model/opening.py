"""The steps of opening a kit: setting aside, filling by count, building the stack."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from model.books import Books, stated_stock
from model.cutting import whole_sheet
from model.geometry import Sure
from model.kit import PieceKind, Sheet, Source, Verb, Wait, Work
from model.plan import Item, Phase, Role, Step, StepKind


def unpack_sheets(books: Books) -> None:
    """Put all sheets at hand."""
    numbers: dict[str, Fraction] = {}
    for work in books.kit.work:
        sheet = books.sheets.get(work.take)
        if sheet is not None and sheet.size is None:
            most = max((mark.at for mark in work.marks if mark.at), default=Fraction(0))
            numbers[sheet.name] = max(most, numbers.get(sheet.name, most))
    for sheet in books.kit.sheets:
        books.add(_unpacked(books, sheet, numbers.get(sheet.name, Fraction(0))))


def _unpacked(books: Books, sheet: Sheet, largest: Fraction) -> Item:
    if sheet.size is not None:
        stock = whole_sheet(*sheet.size)
    else:
        # A guess that serves the drawing alone, with room for every number named.
        room = largest + Fraction(254, 10) if largest else largest
        width, height = books.kit.page
        stock = whole_sheet(max(width, room), max(height, room), Sure.PRINTED)
    role = Role.SHEET if sheet.base is None else Role.BASE
    return Item(sheet.name, sheet.name, role, None, sheet.paper, sheet.name, stock, use=sheet.use)


def open_kit(books: Books, works: Sequence[Work]) -> tuple[list[str], list[str]]:
    """Add the steps of the opening.

    Args:
        books: The books.
        works: The author's steps in the order in which they will be done.

    Returns:
        The sheets in trimming order, and the stack in the order in which it is built.
    """
    kit = books.kit
    books.put(Step(*books.next("open"), StepKind.OPEN, Phase.OPENING))
    for name in [aside.name for aside in kit.set_asides] + [
        kind.name for kind in kit.kinds.values() if kind.companion_of
    ]:
        books.put(Step(*books.next(f"aside:{name}"), StepKind.ASIDE, Phase.OPENING))
    waiting = [s.name for s in kit.sheets if s.wait is not Wait.NO and s.base is None]
    for name in waiting:
        id, index = books.next(f"aside:{name}")
        books.put(Step(id, index, StepKind.ASIDE, Phase.OPENING, touches=(name,), sheet=name))
    for kind in kit.kinds.values():
        if kind.source is not Source.CUT and not kind.companion_of:
            _fill(books, kind)
    stacked = {s.name for s in kit.sheets if s.base is None}.difference(waiting)
    takes = dict.fromkeys(work.take for work in works if work.verb is not Verb.DO)
    order = [name for name in takes if name in stacked]
    return order, _build_stack(books, order)


def _build_stack(books: Books, order: Sequence[str]) -> list[str]:
    """The first sheet to trim ends on top, face up; bases lie beneath, by their pages."""
    kit = books.kit
    bases = sorted((s for s in kit.sheets if s.base is not None), key=lambda s: s.base or 0)
    downward = [*order, *(sheet.name for sheet in bases)]
    stack = downward if kit.face_down else downward[::-1]
    for name in stack:
        id, index = books.next(f"stack:{name}")
        books.put(Step(id, index, StepKind.STACK, Phase.OPENING, touches=(name,), sheet=name))
    if kit.face_down and stack:
        books.put(Step(*books.next("turn stack"), StepKind.TURN_STACK, Phase.OPENING))
    return stack


def _fill(books: Books, kind: PieceKind) -> None:
    """File what is packed ready made: one step for each pocket."""
    ribbon = kind.source is Source.RIBBON
    wanted: dict[int, list[Fraction | None]] = {}
    for number, to in enumerate(kind.to):
        length = kind.lengths[number][1] if ribbon else None
        wanted.setdefault(to.pocket, []).extend([length] * to.count)
    stock = stated_stock(kind)
    copy = 0
    lost, replaced = frozenset(books.kit.absent), frozenset(books.kit.replaced)
    for pocket, lengths in wanted.items():
        makes = []
        for length in lengths:
            copy += 1
            while f"{kind.name}#{copy}" in replaced:
                copy += 1
            if f"{kind.name}#{copy}" in lost:
                continue
            item = Item(
                f"{kind.name}#{copy}", kind.name, Role.PIECE, kind, kind.paper,
                stock=stock, group=kind.name, use=kind.use, length=length,
            )  # fmt: skip
            makes.append(books.add(item))
        if not makes:
            continue
        label = books.kit.pockets[pocket].label
        id, index = books.next(f"fill:{kind.name}:{label}")
        step = Step(id, index, StepKind.FILL, Phase.OPENING, makes=tuple(makes), pocket=pocket)
        books.put(step)
