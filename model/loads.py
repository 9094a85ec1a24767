"""Loads: what is cut on the trimmer, cut along a ruler, or torn."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from model.alike import check_alike
from model.books import Books
from model.cutting import (
    CutError,
    Stock,
    check_marks,
    check_widths,
    in_hand,
    settle_marks,
    tear,
    to_loose_edge,
    trim,
)
from model.geometry import Measure, Orientation, Sure
from model.kit import Give, Mark, Source, Verb, Work
from model.length import Unit
from model.lengthtext import write_length
from model.lying import lying_for
from model.names import BLINDING
from model.plan import Item, Phase, Role, Step, StepKind

_ARRAYS = {Source.PRECUT: "precut", Source.EMBELLISHMENT: "embellishment"}


def check_load(books: Books, work: Work) -> bool:
    """Whether a load names as many parts as its cuts make; errors are noted.

    Args:
        books: The books.
        work: The step.
    """
    tearing = work.verb is Verb.TEAR
    key = "widths" if tearing else "marks"
    cuts = len(work.widths) if tearing else len(work.marks)
    gives = len(work.gives)
    if not cuts:
        other = work.marks if tearing else work.widths
        if not other:
            books.findings.grave(
                "no-marks", work.where, f"this {work.verb} has no {key}", f"write {key} = [...]"
            )
        return False
    if gives == cuts + 1 and work.rest is None:
        return True
    books.doubts.unnamed |= len(work.parts) <= cuts
    if not gives:
        nor = "" if work.rest else ", nor what is left"
        books.findings.grave(
            "gives-count",
            work.where,
            f"this {work.verb} does not say what comes off{nor}",
            f'write gives = "..." where all {cuts} are alike, else gives = ["...", "..."]'
            if cuts > 1
            else 'write gives = "..." (a piece, a strip, or "scrap")',
        )
        return False
    if gives != cuts:
        books.findings.grave(
            "gives-count",
            (*work.where, "gives"),
            f"{_counted(cuts, key)} make {_counted(cuts, 'offcuts')}, but gives names {gives}",
            _counted_in_name(work)
            or "name each offcut in order, and what stays on the bed in rest",
        )
        return False
    if work.rest is None:
        books.findings.grave(
            "no-rest",
            work.where,
            f"what is left of this {work.verb} has no name",
            'write rest = "..." (a piece, a strip, or "scrap")',
        )
        return False
    return True


def _counted_in_name(work: Work) -> str:
    """How a count is written that stands in a name, such as ``3 border``; else empty."""
    for give in work.gives:
        found = re.fullmatch(r"([1-9][0-9]{0,2})\s*(?:[x×]\s*)?\s(\S.*)", give.name)
        if found:
            return f'write {{ name = "{found[2]}", count = {found[1]} }}'
    return ""


def check_cuts(books: Books, work: Work) -> None:
    """Check the cuts of a load that can't be made for another reason, as far as can be told.

    Args:
        books: The books.
        work: The step.
    """
    lost = books.doubts.lost_of(work.where)
    ready = books.ready.get(work.take)
    item = books.items[ready.top] if ready else None
    unsure = lost & {"up", "lay", "turn", "edge", "widths"} or work.take in books.doubts.names
    if unsure or item is None or item.stock is None or item.role is Role.BASE:
        check_falling(books, work)
    else:
        _check_inside(books, work, item, item.stock, lying_for(books, work, item))


def _check_inside(
    books: Books, work: Work, item: Item, stock: Stock, lying: Orientation
) -> Sequence[CutError]:
    """Tell the cuts that can't be made."""
    if work.verb is Verb.TEAR:
        wrong = check_widths(stock.along(to_loose_edge(lying, work.edge)), work.widths)
    else:
        wrong = check_marks(stock.along(lying), work.marks)
    _tell_wrong(books, work, wrong, item, stock, lying)
    return wrong


def check_falling(books: Books, work: Work) -> None:
    """Check the marks among themselves, where the paper they are for is not known."""
    for error in check_marks(None, work.marks):
        _not_falling(books, work, error)


def _not_falling(books: Books, work: Work, error: CutError) -> None:
    at = write_length(error.at, books.style, with_unit=True)
    limit = write_length(error.limit, books.style, with_unit=True)
    books.findings.grave(
        error.code,
        (*work.where, "marks", error.number),
        f"mark {at} comes after {limit}; marks go down in one load",
        "put the marks in falling order, or start a new load",
    )


def run_load(books: Books, work: Work, phase: Phase, item: Item, whole: bool) -> None:
    """Work out one load and add its steps.

    Args:
        books: The books.
        work: The step.
        phase: When it is done.
        item: What it takes.
        whole: Whether it names as many parts as its cuts make.
    """
    stock = item.stock
    if stock is None and books.doubts.size_unknown(item.name):
        check_falling(books, work)
        books.excuse(work)
        return
    if stock is None:
        books.findings.grave(
            "no-size",
            work.where,
            f'"{item.name}" was cut by hand, it has no measured edge to {work.verb} from'
            if item.sheet
            else f'how large "{item.name}" is is not known, so it has no edge to {work.verb} from',
            "state its size in its [[piece]]"
            if item.kind is None or item.kind.source is Source.CUT
            else f"state its size in its [[{_ARRAYS[item.kind.source]}]]",
        )
        check_falling(books, work)
        books.excuse(work)
        return
    lying = lying_for(books, work, item)
    cut_as = to_loose_edge(lying, work.edge) if work.verb is Verb.TEAR else lying
    lost = books.doubts.lost_of(work.where)
    blind = work.where in books.doubts.blind or bool(lost & BLINDING)
    wrong = not blind and _check_inside(books, work, item, stock, lying)
    if blind:
        check_falling(books, work)
    if not whole:
        books.excuse(work)
        return
    if wrong or blind:
        # How large the parts are is not known, but they can be counted.
        books.doubts.excused = True
        stock = _unmeasured(stock)
        count = len(work.gives) + bool(work.rest) - 1
        work = replace(work, marks=(Mark(None),) * count if work.marks else ())
        parts = trim(stock, cut_as, (Mark(None),) * count)
    elif work.verb is Verb.TEAR:
        parts = tear(stock, lying, work.edge, work.widths)
    else:
        parts = trim(stock, lying, work.marks)
    _check_narrowest(books, work, item, parts, cut_as)
    _add_steps(books, work, phase, item, stock, cut_as, parts)


def _unmeasured(stock: Stock) -> Stock:
    width, height = stock.width.value, stock.height.value
    return replace(stock, width=Measure(width, Sure.PRINTED), height=Measure(height, Sure.PRINTED))


def _add_steps(
    books: Books, work: Work, phase: Phase, item: Item, stock: Stock, lying: Orientation,
    parts: Sequence[Stock],
) -> None:  # fmt: skip
    """Add the steps of a load, whose paper lies so that its loose edge is at the right."""
    last = len(parts) - 1
    load = f"{item.id}/load"
    before = item.lying.showing(lying.reverse)
    step = Step(
        *books.next(load), StepKind.LOAD, phase, takes=(item.id,), work=work, of=last,
        lying=lying, before=stock, load=load, sheet=item.sheet,
        turned=(lying.quarter - before.quarter) % 4,
    )  # fmt: skip
    books.put(step)
    kind = StepKind.TEAR if work.verb is Verb.TEAR else StepKind.CUT
    made = [
        _add_part(books, item, part, give, f"{item.id}/{n + 1 if n < last else 'r'}", lying)
        for n, (part, give) in enumerate(zip(parts, work.parts, strict=True))
    ]
    sures = _sures(work, stock, lying)
    for number in range(1, last + 1):
        ends = number == last
        step = Step(
            *books.next(f"{item.id}/{number}"), kind, phase,
            takes=(item.id,) if ends else (),
            makes=(made[number - 1], made[last]) if ends else (made[number - 1],),
            touches=() if ends else (item.id,),
            work=work, number=number, of=last, lying=lying,
            before=in_hand(stock, lying, parts, number - 1, sures[number - 1]),
            mark=_said(work, parts, number, lying), load=load, sheet=item.sheet,
        )  # fmt: skip
        books.loads[load].append(books.put(step).index)
    books.taken_by[item.id] = len(books.steps) - 1


def _sures(work: Work, stock: Stock, lying: Orientation) -> list[Sure]:
    """How surely the size of what is in hand is known, before each cut and after the last."""
    along = stock.along(lying)
    if work.verb is Verb.TEAR:
        return [along.sure] * (len(work.widths) + 1)
    return [along.sure, *(mark.sure for mark in settle_marks(along, work.marks))]


def _add_part(
    books: Books, parent: Item, stock: Stock, give: Give, id: str, lying: Orientation
) -> str:
    part = books.part(parent, give, id, stock, lying)
    if part.role is not Role.SCRAP:
        check_alike(books, part, give)
    return books.add(part)


def _said(work: Work, parts: Sequence[Stock], number: int, lying: Orientation) -> Measure:
    """What the crafter reads off: the mark, or the width to tear."""
    if work.verb is Verb.TEAR:
        return Measure(work.widths[number - 1])
    mark = work.marks[number - 1]
    if mark.at is not None:
        return Measure(mark.at, Sure.ABOUT if mark.about else Sure.EXACT)
    left = (part.along(lying).value for part in parts[number:])
    return Measure(sum(left, Fraction(0)), Sure.PRINTED)


def _tell_wrong(
    books: Books, work: Work, wrong: Sequence[CutError], item: Item, stock: Stock,
    lying: Orientation,
) -> None:  # fmt: skip
    """Tell all cuts of a load that can't be made; marks outside the paper in one sentence."""
    outside = [error for error in wrong if error.code == "mark-outside"]
    if outside:
        _outside(books, work, outside, item, stock, lying)
    for error in wrong:
        if error.code == "mark-order":
            _not_falling(books, work, error)
        elif error.code == "tear-outside":
            at = write_length(error.at, books.style, with_unit=True)
            limit = write_length(error.limit, books.style, with_unit=True)
            books.findings.grave(
                error.code,
                (*work.where, "widths", error.number),
                f'tearing {at} off leaves nothing of "{item.name}": only {limit} is there',
                "widths run from the loose edge",
            )


def _outside(
    books: Books, work: Work, outside: Sequence[CutError], item: Item, stock: Stock,
    lying: Orientation,
) -> None:  # fmt: skip
    along, across = stock.along(lying).value, stock.across(lying).value
    limit = write_length(along, books.style, with_unit=True)
    said = [write_length(error.at, books.style, with_unit=True) for error in outside]
    several = len(said) > 1
    listed = f"{', '.join(said[:-1])} and {said[-1]}" if several else said[0]
    largest = max(error.at for error in outside)
    fits = largest < across
    remedy = 'it would fit with turn = "quarter"' if fits else "check the mark"
    if several:
        remedy = 'they would fit with turn = "quarter"' if fits else "check the marks"
    centimetres = largest / Fraction(254, 100)
    if books.kit.unit is Unit.IN and centimetres < along < largest / 2:
        remedy = "check the size: a number without a unit is in inches"
    books.findings.grave(
        "mark-outside",
        (*work.where, "marks", outside[0].number),
        f"{'marks' if several else 'mark'} {listed} {'are' if several else 'is'} not inside "
        f'"{item.name}", which measures {limit} along the ruler',
        remedy,
    )


def _check_narrowest(
    books: Books, work: Work, item: Item, parts: Sequence[Stock], lying: Orientation
) -> None:
    """On a cut-apart the narrowest piece comes off first (common practice, no source)."""
    sheet = books.sheets.get(item.sheet)
    if sheet is None or not sheet.cut_apart or work.verb is Verb.TEAR:
        return
    first = parts[0].along(lying)
    for part in parts[1:]:
        width = part.along(lying)
        if Sure.PRINTED not in (first.sure, width.sure) and width.value < first.value:
            narrow = write_length(width.value, books.style, with_unit=True)
            wide = write_length(first.value, books.style, with_unit=True)
            books.findings.remark(
                "narrowest-first",
                (*work.where, "marks"),
                f"the first offcut is {wide} wide, a later one {narrow}",
                "on a cut-apart, take the narrowest off first",
            )
            return


def _counted(count: int, word: str) -> str:
    return f"{count} {word if count != 1 else word[:-1]}"
