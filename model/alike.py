"""Whether the copies under one name are of one kind: of one size and one paper."""

from __future__ import annotations

from fractions import Fraction

from model.books import Books
from model.kit import Give, Paper, PieceKind, Size
from model.lengthtext import write_size
from model.plan import Item


def check_alike(books: Books, item: Item, give: Give) -> None:
    """Compare a part with the size that is stated, and with the first of its name.

    Args:
        books: The books.
        item: The part, a piece or a strip.
        give: What the author calls it.
    """
    first = books.first.setdefault(item.name, item)
    if books.doubts.silent(item.name):
        return
    papers = [each.paper.name for each in (first, item) if each.paper]
    unseen = books.doubts.looks_unknown(*papers)
    if first is item:
        _check_page(books, item, give)
        _check_paper(books, item, give, unseen)
    elif (
        not unseen
        and not _same_paper(first.paper, item.paper)
        and not (books.doubts.silent(first.sheet) or books.doubts.silent(item.sheet))
    ):
        books.findings.grave(
            "name-two-papers",
            give.where,
            f'"{item.name}" is cut from two papers, that of "{first.sheet}" and that of '
            f'"{item.sheet}"; one name is one kind',
            "give one of them another name",
        )
        books.doubts.forgiven.add(item.name)
        return
    size, kind = _size(item), item.kind
    if size is None or books.doubts.size_unknown(item.name):
        return
    loose = unseen or may_turn(kind, item.paper)
    if kind and kind.size:
        if not _fits(size, kind.size, kind.smaller_by, loose) and _first_told(books, item, size):
            books.findings.grave(
                "size-differs",
                give.where,
                f'"{item.name}" comes out {_said(books, size)}, but its size is stated as '
                f"{_said(books, kind.size)}",
                "its print has an up: state width x height as it is looked at, or turnable = true"
                if _fits(size, kind.size, kind.smaller_by, True)
                else "correct the marks, or the stated size",
            )
        return
    other = _size(first)
    slack = kind.smaller_by if kind else Fraction(0)
    if other is None or _fits(size, other, slack, loose) or _fits(other, size, slack, loose):
        return
    if _first_told(books, item, size):
        books.findings.grave(
            "name-two-sizes",
            give.where,
            f'"{item.name}" is {_said(books, size)} here and {_said(books, other)} elsewhere; '
            "one name is one kind",
            "give one of them another name",
        )


def _first_told(books: Books, item: Item, size: Size) -> bool:
    """Whether this size of a name, or any in a sheet, is complained of for the first time."""
    told: set[tuple[str, Size | str]] = {(item.name, size), (item.name, item.sheet)}
    first = not told & books.told
    books.told |= told
    return first


def may_turn(kind: PieceKind | None, paper: Paper | None) -> bool:
    """Whether a piece may be turned on the page: as the author says, else as its print does."""
    if kind and kind.turnable is not None:
        return kind.turnable
    return not (paper and paper.directional)


def _check_paper(books: Books, item: Item, give: Give, unseen: bool) -> None:
    stated = item.kind.paper if item.kind else None
    if stated is None or unseen or _same_paper(stated, item.paper):
        return
    if books.doubts.silent(item.sheet):
        return
    books.findings.grave(
        "paper-differs",
        give.where,
        f'"{item.name}" is cut from "{item.sheet}", but its paper is stated as "{stated.name}"',
        "cut it from a sheet of that paper, or correct its paper",
    )


def _check_page(books: Books, item: Item, give: Give) -> None:
    size, page = _size(item), books.kit.page
    if item.kind is None or size is None or "page" in books.doubts.head:
        return
    ways = (size, size[::-1]) if may_turn(item.kind, item.paper) else (size,)
    if not any(w <= page[0] and h <= page[1] for w, h in ways):
        books.findings.remark(
            "larger-than-page",
            give.where,
            f'"{item.name}" comes out {_said(books, size)}, larger than the page '
            f"({_said(books, page)})",
            "a cut may be missing",
        )


def _size(item: Item) -> Size | None:
    """Its width and height, upright, when a cut has measured both."""
    stock = item.stock
    return (stock.width.value, stock.height.value) if stock and stock.measured else None


def _same_paper(one: Paper | None, two: Paper | None) -> bool:
    if one is two or one is None or two is None:
        return True
    return (one.printed, one.face, one.reverse, one.directional) == (
        two.printed, two.face, two.reverse, two.directional,
    )  # fmt: skip


def _fits(size: Size, stated: Size, slack: Fraction, loose: bool) -> bool:
    ways = (size, size[::-1]) if loose else (size,)
    return any(
        all(want - slack <= have <= want for have, want in zip(way, stated, strict=True))
        for way in ways
    )


def _said(books: Books, size: Size) -> str:
    return write_size(*size, books.style)
