"""Hand steps without a ruler: shapes cut out of a piece, slits and punches."""

from __future__ import annotations

from model.books import Books
from model.geometry import UPRIGHT, Orientation
from model.kit import SCRAP, Verb, Work
from model.plan import Item, Phase, Step, StepKind


def check_handwork(books: Books, work: Work, phase: Phase) -> None:
    """Note what is wrong with a hand step, whatever it takes.

    Args:
        books: The books.
        work: The step.
        phase: When it is done.
    """
    words = work.verb.replace("_", " ")
    lost = books.doubts.lost_of(work.where)
    if work.verb in (Verb.FUSSY_CUT, Verb.TRACE) and not work.gives and "gives" not in lost:
        books.findings.grave(
            "gives-count", work.where, f"this {words} makes nothing", 'write gives = ["..."]'
        )
    for give in work.parts:
        if give.scrap and not lost & {"gives", "rest"}:
            books.findings.grave(
                "hand-scrap",
                give.where,
                "hand work leaves trimmings, which are not counted as scraps",
                "leave the scrap out",
            )
    if work.around:
        _check_around(books, work, phase)
    elif work.verb is Verb.TRACE and "around" not in lost:
        books.findings.grave(
            "no-around", work.where, "this trace does not say around what", 'write around = "..."'
        )


def _check_around(books: Books, work: Work, phase: Phase) -> None:
    name = work.around
    where = (*work.where, "around" if work.verb is Verb.TRACE else "for")
    known = (books.sheets.keys(), books.later.keys(), books.kit.kinds.keys())
    if books.doubts.may_be(name):
        return
    if name.casefold() == SCRAP or _is_base(books, name):
        through = "traced around" if work.verb is Verb.TRACE else "threaded through a slit"
        books.findings.grave(
            "not-to-take",
            where,
            f"a scrap can't be {through}"
            if name.casefold() == SCRAP
            else f'"{name}" is a base, it can\'t be {through}',
            "name a piece or a strip",
        )
        return
    if books.doubts.may_be_made() and name not in known[0] and name not in books.ready:
        return
    if not any(name in names for names in known):
        books.findings.once(
            ("name", name),
            "unknown-name",
            where,
            f'there is no "{name}"',
            lambda: books.findings.did_you_mean(
                name, books.shapes if work.verb is Verb.TRACE else books.threads
            ),
        )
        return
    if books.doubts.order_unknown():
        return
    # A slit may be cut before its strip; a shape has to be there to trace around it.
    if work.verb is Verb.TRACE and name in books.later and name not in books.ready:
        waits = books.later[name] > phase
        books.findings.grave(
            "not-yet-made",
            where,
            f'"{name}" does not exist yet: the step that makes it waits longer than this one'
            if waits
            else f'"{name}" does not exist yet: a later step makes it',
            "let this step wait as long" if waits else "move this step after it",
        )
    elif work.verb is Verb.TRACE and name in books.taken and not books.ready.get(name):
        books.findings.grave(
            "taken-twice",
            where,
            f'"{name}" has been cut up already, there is none left to trace around',
            "move this step before it is cut up, or name another shape",
        )


def _is_base(books: Books, name: str) -> bool:
    sheet = books.sheets.get(name)
    return sheet is not None and sheet.base is not None


def cut_shapes(books: Books, work: Work, phase: Phase, item: Item) -> None:
    """Shapes out of a piece; the rest is trimmings, unless it has a name."""
    lying = _lying(work, item)
    makes: list[str] = []
    number = 0
    for give in work.parts:
        if give.scrap:
            continue
        number += 1
        id = f"{item.id}/{'r' if give is work.rest else number}"
        makes.append(books.add(books.part(item, give, id, None, lying)))
    step = Step(
        *books.next(f"{item.id}/{work.verb}"), StepKind.SHAPE, phase, takes=(item.id,),
        makes=tuple(makes), work=work, before=item.stock, sheet=item.sheet, lying=lying,
    )  # fmt: skip
    books.taken_by[item.id] = books.put(step).index


def mark_piece(books: Books, work: Work, phase: Phase, item: Item) -> None:
    """A slit or a punch: the piece stays what it is; what is punched out may be pieces."""
    lying = _lying(work, item)
    id, index = books.next(f"{item.id}/{work.verb}")
    makes = [
        books.add(books.part(item, give, f"{id}{number + 1}", None, UPRIGHT))
        for number, give in enumerate(work.gives)
        if not give.scrap
    ]
    step = Step(
        id, index, StepKind.MARK, phase, touches=(item.id,), makes=tuple(makes), work=work,
        before=item.stock, sheet=item.sheet, lying=lying,
    )  # fmt: skip
    books.put(step)
    books.marked[item.name] = work.verb


def _lying(work: Work, item: Item) -> Orientation:
    reverse = work.up == "reverse" if work.up_said else item.lying.reverse
    return item.lying.showing(reverse)
