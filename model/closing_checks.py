"""What only the end of a kit can tell: where copies belong, and whether all adds up."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from fractions import Fraction

from model.books import Books
from model.kit import SCRAP, Destination, PieceKind, Size, Source, Wait
from model.lengthtext import write_size
from model.meant import meant
from model.plan import Group, Item, Role


def check_ends(books: Books, order: Sequence[str]) -> None:
    """Check that nothing is left over, and that what the author states is so.

    Args:
        books: The books, after all steps.
        order: The sheets in trimming order.
    """
    _check_strips(books)
    _check_sheets(books, order)
    _check_companions(books)
    if books.doubts.cuts or books.doubts.head & {"pages", "scraps", "order"}:
        books.doubts.excused = True
    if not books.doubts.cuts and "scraps" not in books.doubts.head:
        _check_scraps(books)


def _check_strips(books: Books) -> None:
    """Every strip is taken by a later step."""
    made_of: dict[str, list[str]] = {}
    for work in books.kit.work:
        made_of.setdefault(work.take, []).extend(give.name for give in work.parts)
    for name, where in books.strips.items():
        left = len(books.ready[name])
        if not left or books.doubts.silent(name) or books.doubts.may_be_taken():
            continue
        if name in books.taken:
            _forgive_all_of(books, name, made_of)
            books.findings.grave(
                "loose-end",
                where,
                f'{left} more "{name}" {"is" if left == 1 else "are"} made than later steps take',
                "add times to the step that takes them, or call the rest a piece or a scrap",
            )
        elif name in books.marked and not books.doubts.may_be(name):
            books.findings.grave(
                "loose-end",
                where,
                f'"{name}" is kept after the {books.marked[name]}, but it is no piece',
                "make it a [[piece]] with its pocket",
            )
        elif not books.doubts.may_be(name):
            pieces = [kind.name for kind in books.kit.kinds.values() if kind.source is Source.CUT]
            near = meant(name, (SCRAP,)) or books.findings.near(
                name, pieces, books.doubts.broken_names("piece")
            )
            books.loose.add(name)
            books.doubts.forgiven.add(near)
            books.findings.grave(
                "loose-end",
                where,
                f'"{name}" is no [[piece]], and no later step takes it',
                f'did you mean "{near}"?'
                if near
                else 'make it a [[piece]], take it in a step, or call it "scrap"',
            )


def _forgive_all_of(books: Books, name: str, made_of: dict[str, list[str]]) -> None:
    """Too few are taken of a strip: so what is made of it is too few, which needs no telling."""
    waiting = [name]
    while waiting:
        for part in made_of.pop(waiting.pop(), ()):
            books.doubts.forgiven.add(part)
            waiting.append(part)


def _check_sheets(books: Books, order: Sequence[str]) -> None:
    """Every sheet is cut, in the order that is stated."""
    kit = books.kit
    for sheet in kit.sheets:
        if sheet.base is not None or sheet.name in books.taken:
            continue
        if not books.doubts.silent(sheet.name) and not books.doubts.may_be_taken():
            books.findings.grave(
                "unused-sheet",
                sheet.where,
                f'no step cuts sheet "{sheet.name}"',
                "add a step, or say of which page it is the base",
            )
    told = {finding.code for finding in books.findings.all}
    wrong = {"unknown-sheet", "order-twice", "base-in-order"}
    unsure = books.doubts.takes or "order" in books.doubts.head or books.doubts.order_unknown()
    if kit.order and not unsure and not told & wrong:
        waiting = {sheet.name for sheet in kit.sheets if sheet.wait is not Wait.NO}
        stated = [n for n in kit.order if n not in waiting and not books.doubts.silent(n)]
        if stated != [name for name in order if not books.doubts.silent(name)]:
            books.findings.grave(
                "order-differs",
                ("order",),
                f"the steps trim the sheets in the order {', '.join(order)}",
                "correct order, or the steps",
            )


def _check_companions(books: Books) -> None:
    """What is filed with a piece has a home only if the piece stays what it is."""
    for name, companions in books.companions.items():
        copies = books.made[name]
        gone = [item for item in copies if item in books.taken_by]
        if not gone or books.doubts.may_be(name):
            continue
        home = _piece_of(books, gone)
        every = f'"{name}" is' if len(gone) == len(copies) else f'some copies of "{name}" are'
        for kind in companions:
            books.findings.grave(
                "companion-homeless",
                (*kind.where, "with"),
                f'"{kind.name}" is filed with "{name}", but {every} cut again, so '
                f"{'it' if len(gone) == 1 else 'they'} would lie aside for good",
                "say where it goes with to"
                + (f', or file it with what comes of it: with = "{home}"' if home else ""),
            )


def _piece_of(books: Books, gone: Sequence[str]) -> str:
    """A piece that is cut from some things and stays in its pocket; empty when none does."""
    for item in gone:
        work = books.steps[books.taken_by[item]].work
        for give in work.parts if work else ():
            kind = books.kit.kinds.get(give.name)
            if kind and kind.to and give.name not in books.taken:
                return give.name
    return ""


def _check_scraps(books: Books) -> None:
    kit = books.kit
    if kit.scraps is None:
        return
    scraps = [item for item in books.items.values() if item.role is Role.SCRAP]
    if kit.scraps - len(scraps) == len(books.loose) > 0:
        # What has a name and no use is told, and may be what is missing here.
        books.doubts.excused = True
        return
    if kit.scraps != len(scraps):
        listed = ", ".join(_scrap(books, item) for item in scraps[:12]) or "none"
        if len(scraps) > 12:
            listed += ", ..."
        books.findings.grave(
            "scraps-differ",
            ("scraps",),
            f"the kit expects {kit.scraps} scrap{'s' * (kit.scraps != 1)}, its cuts make "
            f"{len(scraps)} ({listed})",
            "correct scraps, or the steps",
        )
        return
    made = sorted(_short_first(_size(item)) for item in scraps if _size(item))
    said = sorted(_short_first(size) for size in kit.scrap_sizes)
    if said and len(made) == len(scraps) and made != said:
        extra, missing = _apart(made, said), _apart(said, made)
        listed = ", ".join(write_size(*size, books.style) for size in missing)
        instead = ", ".join(write_size(*size, books.style) for size in extra)
        books.findings.grave(
            "scraps-differ",
            ("scraps",),
            f"the kit expects a scrap of {listed}, the cuts make {instead} instead"
            if len(missing) == 1
            else f"the kit expects scraps of {listed}, the cuts make {instead} instead",
            "correct the sizes in scraps",
        )


def _apart(some: Sequence[Size], others: Sequence[Size]) -> list[Size]:
    """What of some sizes is not among others, in rising order."""
    return sorted((Counter(some) - Counter(others)).elements())


def _size(item: Item) -> Size | None:
    stock = item.stock
    return (stock.width.value, stock.height.value) if stock and stock.measured else None


def _short_first(size: Size | None) -> Size:
    short, long = sorted(size or (Fraction(0), Fraction(0)))
    return short, long


def _scrap(books: Books, item: Item) -> str:
    size = _size(item)
    said = write_size(*_short_first(size), books.style) if size else "one"
    return f"{said} from {item.sheet}"


# Groups: copies that may stand for one another, and where they belong


def make_groups(books: Books) -> dict[str, Group]:
    """Sort the copies of each kind by where they belong, and check their counts.

    Args:
        books: The books, after all steps.

    Returns:
        The groups by their keys, in the order of the kinds.
    """
    groups: dict[str, Group] = {}
    for kind in books.kit.kinds.values():
        if kind.companion_of:
            continue
        left = {(to.pocket, to.page): to.count for to in kind.to}
        pins: dict[str, list[Destination]] = {}
        for to in books.pinned.get(kind.name, ()):
            _use_place(books, kind, left, to)
            pins.setdefault(books.group_key(kind, to), []).append(to)
        for key, places in pins.items():
            groups[key] = _group(
                key, kind, (Destination(places[0].pocket, places[0].page, len(places)),)
            )
        rest = tuple(Destination(pocket, page, n) for (pocket, page), n in left.items() if n > 0)
        groups[kind.name] = _group(kind.name, kind, rest)
        if not books.doubts.silent(kind.name):
            _check_count(books, kind, sum(to.count for to in rest))
    return groups


def _group(key: str, kind: PieceKind, to: tuple[Destination, ...]) -> Group:
    wanted: dict[int, int] = {}
    for each in to:
        wanted[each.pocket] = wanted.get(each.pocket, 0) + each.count
    return Group(key, kind, to, wanted)


def _use_place(
    books: Books, kind: PieceKind, left: dict[tuple[int, int | None], int], to: Destination
) -> None:
    """A copy that the author sends somewhere takes one of the places that its kind has."""
    key = (to.pocket, to.page)
    if left.get(key, 0) < 1:
        key = (to.pocket, None)
    if left.get(key, 0) < 1 and to.page is None:
        key = next((k for k, n in left.items() if k[0] == to.pocket and n > 0), key)
    if left.get(key, 0) >= 1:
        left[key] -= 1
    elif not books.doubts.silent(kind.name) and not books.doubts.places_unknown(kind.name):
        books.doubts.forgiven.add(kind.name)
        books.findings.grave(
            "copy-to",
            kind.where,
            f'a copy of "{kind.name}" is sent to "{books.kit.pockets[to.pocket].label}", which '
            "its own to has no place for",
            "correct the to of the copy, or that of the kind",
        )


def _check_count(books: Books, kind: PieceKind, wanted: int) -> None:
    """The copies that are made are as many as the places."""
    made = books.made[kind.name]
    copies = len(books.made_in[kind.name])
    gone = sum(item in books.taken_by for item in made)
    if (not made and books.doubts.may_be_made()) or books.doubts.may_be_more():
        return
    if (made or kind.source is not Source.CUT) and books.doubts.places_unknown(kind.name):
        return
    if not made:
        books.findings.grave(
            "never-made",
            kind.where,
            f'no step makes "{kind.name}"',
            "name it in the gives or the rest of a step",
        )
    elif not kind.to and gone < len(made):
        books.findings.grave(
            "no-pocket",
            kind.where,
            f'"{kind.name}" has no pocket',
            'write to = "..." in its [[piece]], or take it in a later step',
        )
    elif kind.to and copies != wanted:
        pinned = len(made) - copies
        cut = f", and {gone} of them cut again" if gone else ""
        places = f"its pockets have places for {wanted + pinned}"
        books.findings.grave(
            "count-differs",
            kind.where,
            f'"{kind.name}" is made {_times(len(made))}{cut}, but {places}',
            "give what is cut again a name of its own"
            if gone
            else "correct the counts in to, or the steps that make it",
        )
    elif 0 < gone < copies and len(kind.to) > 1:
        books.findings.grave(
            "which-copy",
            kind.where,
            f'some copies of "{kind.name}" are cut again, and they go to several places',
            "give those that are cut again a name of their own",
        )


def wanted_in_the_end(
    books: Books, groups: Iterable[Group], companions: dict[str, list[str]]
) -> tuple[int, ...]:
    """How many pieces each pocket holds in the end, without those that are taken up again."""
    wanted = [0] * len(books.kit.pockets)
    for group in groups:
        copies = books.made_in[group.key]
        gone = sum(item in books.taken_by for item in copies)
        beside = len(companions.get(copies[0], ())) if copies else 0
        for pocket, count in group.wanted.items():
            less = min(gone, count)
            gone -= less
            wanted[pocket] += (count - less) * (1 + beside)
    return tuple(wanted)


def _times(count: int) -> str:
    return {1: "once", 2: "twice"}.get(count, f"{count} times")
