"""What a step takes: the copy made last, or why there is none."""

from __future__ import annotations

from model.books import Books
from model.kit import SCRAP, Source, Verb, Work
from model.plan import Item

KEPT = (Verb.SLIT, Verb.PUNCH)
"""Verbs that leave a piece what it is."""

_MOST_GUESSED = 1000


def take(books: Books, work: Work, number: int) -> Item | None:
    """The copy that a step takes: the one made last, which lies on top.

    Args:
        books: The books.
        work: The step.
        number: How many it has taken already.

    Returns:
        The copy; None, with what is wrong noted, when there is none.
    """
    ready = books.ready.get(work.take)
    sheet = books.sheets.get(work.take)
    if sheet is not None and sheet.base is not None:
        what = f'sheet "{work.take}" is kept whole, as the base of page {sheet.base},'
        _base_cut(books, work, what, "take its base away, or take another sheet")
        return None
    if work.of:
        return _take_very(books, work)
    if not ready or (work.verb in KEPT and number >= len(ready)):
        _nothing_to_take(books, work, number)
        return None
    if work.verb in KEPT:
        return books.items[ready.touch()]
    books.taken.add(work.take)
    return books.items[ready.take()]


def _take_very(books: Books, work: Work) -> Item | None:
    """The very thing that a step of a mended plan is done to; None when it is not there."""
    ready = books.ready.get(work.take)
    if work.verb in KEPT:
        # It may be a scrap by now: what was punched out of it is there all the same.
        there = work.of in books.items and work.of not in books.taken_by
    else:
        there = ready is not None and ready.take_out(work.of)
        books.taken.add(work.take)
    if not there:
        _nothing_to_take(books, work, 0)
        return None
    return books.items[work.of]


def check_named(books: Books, work: Work) -> None:
    """What can be told of what a step takes when the step itself could not be read whole.

    Args:
        books: The books.
        work: The step.
    """
    name = work.take
    sheet, kind = books.sheets.get(name), books.kit.kinds.get(name)
    if books.doubts.may_be(name):
        return
    if sheet is not None:
        if sheet.base is not None:
            take(books, work, 0)
    elif name.casefold() == SCRAP or (kind is None and name not in books.later):
        _nothing_to_take(books, work, 0)
    elif kind and (kind.companion_of or kind.source is Source.RIBBON):
        _no_copy(books, work)


def _nothing_to_take(books: Books, work: Work, number: int) -> None:
    name = work.take
    books.doubts.forgiven.add(name)
    if books.doubts.wordless or (name in books.later and books.doubts.making):
        books.doubts.excused = True
        return
    if number:
        _too_few(books, work, number)
    elif name.casefold() == SCRAP:
        _grave(
            books, work, "scrap-cut", "a scrap is not cut again",
            _idle(books) or "call it by a name of its own where it comes off",
        )  # fmt: skip
    elif name in books.taken:
        _grave(
            books, work, "taken-twice",
            f'"{name}" has been cut already, there is none left to {_words(work)}',
            _idle(books) or "name another piece, or give the parts names of their own",
        )  # fmt: skip
    elif name in books.later and name not in _made_elsewhere(books, work):
        _grave(
            books, work, "not-yet-made",
            f'there is no "{name}" to {_words(work)} yet: only this very step makes it',
            _idle(books) or "name what it is cut from",
        )  # fmt: skip
    elif name in books.later and books.doubts.order_unknown():
        return
    elif name in books.later:
        _grave(
            books, work, "not-yet-made", f'"{name}" does not exist yet: a later step makes it',
            "move this step after it",
        )  # fmt: skip
    elif name in books.kit.kinds:
        _no_copy(books, work)
    else:
        _unknown(books, work)


def _too_few(books: Books, work: Work, number: int) -> None:
    # Where another strip is nearly called so, it is this one that is missing.
    strips = books.strips if len(books.strips) <= _MOST_GUESSED else ()
    loose = [strip for strip in strips if strip != work.take and strip not in books.taken]
    books.doubts.forgiven.add(books.findings.near(work.take, loose))
    books.findings.grave(
        "too-few",
        (*work.where, "times"),
        f'{number} of "{work.take}" {"is" if number == 1 else "are"} there to {_words(work)}, '
        f"times says {work.times}",
        f"write times = {number}, or make more of them",
    )


def _no_copy(books: Books, work: Work) -> None:
    """A kind of piece of which no copy is there."""
    kind = books.kit.kinds[work.take]
    if kind.companion_of:
        what = f'"{kind.name}" is put aside, and filed with "{kind.companion_of}": no step takes it'
        _grave(books, work, "not-to-take", what, _idle(books) or "name another piece")
    elif kind.source is Source.RIBBON:
        what = f'"{kind.name}" is a ribbon: the lengths cut off it stand in its to'
        _grave(books, work, "not-to-take", what, _idle(books) or "name a sheet, a strip or a piece")
    elif not books.doubts.may_be_made():
        what = f'there is no "{kind.name}" to {_words(work)}: no step makes it'
        remedy = "name it in the gives or the rest of an earlier step"
        _grave(books, work, "not-yet-made", what, remedy)


def _unknown(books: Books, work: Work) -> None:
    """A name that nothing has."""
    name = work.take
    bases = [each for each in books.sheets.values() if each.name == f"{name} {each.base}"]
    if bases:
        which = f'"{bases[0].name}" and so on' if len(bases) > 1 else f'"{bases[0].name}"'
        what = f'"{name}" stands for bases ({which}), which are kept whole,'
        _base_cut(books, work, what, "take another sheet")
        return
    if books.doubts.may_be_made() or books.doubts.may_be(name):
        return
    near = books.findings.near(name, books.takeable)
    # That what was meant is not taken is told by this.
    books.doubts.forgiven.add(near)
    remedy = f'did you mean "{near}"?' if near else _idle(books)
    if not remedy:
        remedy = books.findings.did_you_mean(name, books.takeable)
    books.findings.once(
        ("name", name),
        "unknown-name",
        (*work.where, work.verb.value),
        f'there is no "{name}" to {_words(work)}',
        lambda: remedy,
    )


def _base_cut(books: Books, work: Work, what: str, remedy: str) -> None:
    _grave(books, work, "base-cut", f"{what} and not cut", _idle(books) or remedy)


def _grave(books: Books, work: Work, code: str, what: str, remedy: str) -> None:
    books.findings.grave(code, (*work.where, work.verb.value), what, remedy)


def _idle(books: Books) -> str:
    """A remedy that names the one sheet or strip that no step takes; empty for none or many.

    That nothing takes it is told by this.
    """
    idle = books.idle
    if len(idle) != 1 or books.doubts.silent(idle[0]):
        return ""
    books.doubts.forgiven.add(idle[0])
    return f'did you mean "{idle[0]}", which no step takes?'


def _made_elsewhere(books: Books, work: Work) -> set[str]:
    if len(books.kit.work) > _MOST_GUESSED:
        return {work.take}
    others = (other for other in books.kit.work if other is not work)
    return {give.name for other in others for give in other.parts}


def _words(work: Work) -> str:
    return work.verb.replace("_", " ")
