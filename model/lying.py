"""How the paper lies for a step: which side up, turned how, by which landmark."""

from __future__ import annotations

from model.books import Books
from model.geometry import Orientation, orientation_for
from model.kit import Work
from model.plan import Item
from model.signs import holds, place_named, reaches


def lying_for(books: Books, work: Work, item: Item) -> Orientation:
    """How a thing lies in a step.

    Args:
        books: The books.
        work: The step.
        item: What it takes.

    Returns:
        Its orientation: by the author's `lay` where there is one, else turned against how
        it came off.
    """
    lying = _lying_by_words(books, work, item)
    stock = item.stock
    if work.along is None or stock is None or stock.along(lying).value == work.along:
        return lying
    # What stands in for another thing lies as that would have lain, however it came off.
    return lying.turned(1) if stock.across(lying).value == work.along else lying


def _lying_by_words(books: Books, work: Work, item: Item) -> Orientation:
    reverse = work.up == "reverse" if work.up_said else item.lying.reverse
    turned = item.lying.showing(reverse).turned(work.turn)
    if work.lay is None or item.paper is None:
        if "lay" in books.doubts.lost_of(work.where):
            _unsure(books, work)
        return turned
    what, at = work.lay
    where = (*work.where, "lay")
    seen = _seen(books, work, item, reverse)
    if seen is None:
        _unsure(books, work)
        return turned
    lying = orientation_for(seen, at, reverse=reverse)
    if lying is None:
        books.findings.grave(
            "lay-impossible",
            where,
            f'"{what}" is at the {seen} of the paper, it can\'t be seen at the {at}',
            "name a side for a side, a corner for a corner",
        )
        _unsure(books, work)
        return turned
    if work.turn and lying != turned:
        books.findings.grave(
            "lay-differs",
            (*work.where, "turn"),
            f'after this turn "{what}" does not lie at the {at}',
            "leave turn out, or correct the lay",
        )
    return lying


def _unsure(books: Books, work: Work) -> None:
    """How it lies is not known: so the size of what comes of it is not judged."""
    books.doubts.excused = True
    books.doubts.blind.add(work.where)


def _seen(books: Books, work: Work, item: Item, reverse: bool) -> str | None:
    """The side or corner of the paper that a lay speaks of; None when it is not known."""
    assert work.lay and item.paper
    what = work.lay[0]
    where = (*work.where, "lay")
    marks = item.paper.landmarks
    named = place_named(item.paper, what)
    if named is None:
        if not books.doubts.silent(item.sheet) and not books.doubts.landmarks_unknown(
            item.paper.name
        ):
            books.findings.grave(
                "unknown-landmark",
                where,
                f'"{what}" is no landmark of the paper "{item.paper.name}"',
                books.findings.did_you_mean(what, marks.keys())
                or 'add it to the paper\'s landmarks, or write "top edge at ..."',
            )
        return None
    place, landmark = named
    if not landmark:
        return place
    if reverse:
        books.findings.remark(
            "landmark-hidden",
            where,
            f'"{what}" is printed on the face, and the reverse lies up',
            'write "top edge at ..." instead',
        )
    elif not _holds(books, item, place):
        books.findings.remark(
            "landmark-gone",
            where,
            f'"{what}" is at the {place} of the sheet, "{item.name}" does not reach there',
            'write "top edge at ..." instead',
        )
    return place


def _holds(books: Books, item: Item, place: str) -> bool:
    """Whether a part of a sheet reaches to the side or corner where a landmark is."""
    sheet = books.items.get(item.sheet)
    if not (sheet and sheet.stock and item.stock and sheet.stock.measured):
        return True
    box, whole = item.stock.box, sheet.stock.box
    return reaches(box, whole, place) or holds(box, whole, place)
