"""The kit of a plan that is mended: what is lost, and kinds that are added."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import replace

from model.kit import Destination, Kit, PieceKind, Relation, Source, Tie
from model.plan import Plan, StepKind
from model.rescue.mending import AddedKind, CannotMend, Mending


def without(plan: Plan, mending: Mending) -> Kit:
    """The kit without what a mending says is lost.

    Args:
        plan: The plan that is mended.
        mending: The mending.

    Raises:
        CannotMend: Something of it is not there anyway.
    """
    kit = plan.kit
    for name in mending.gone:
        if name not in plan.sheets:
            raise CannotMend("no such thing", name)
    kit = replace(
        kit,
        sheets=tuple(sheet for sheet in kit.sheets if sheet.name not in mending.gone),
        order=tuple(name for name in kit.order if name not in mending.gone),
    )
    instead = Counter((each.like, each.pocket) for each in mending.kinds if not each.backs)
    for name, pocket in mending.spent:
        kit = _spend(plan, kit, name, pocket, instead[name, pocket] > 0)
        instead[name, pocket] -= 1
    return kit


def _spend(plan: Plan, kit: Kit, name: str, pocket: int, replaced: bool) -> Kit:
    """A ready-made copy less; the others keep their identities.

    The pocket wants it all the same, so that the account tells what the page misses, unless
    another piece is cut instead.
    """
    lost = {*kit.absent, *kit.replaced}
    copies = [
        item
        for step in plan.steps
        if step.kind is StepKind.FILL and step.pocket == pocket
        for item in step.makes
        if plan.items[item].name == name and item not in lost
    ]
    if not copies:
        raise CannotMend("no such thing", name)
    if not replaced:
        return replace(kit, absent=(*kit.absent, copies[-1]))
    kind = kit.kinds[name]
    at = max(n for n, to in enumerate(kind.to) if to.pocket == pocket)
    if kind.to[at].count > 1:
        fewer = replace(kind.to[at], count=kind.to[at].count - 1)
        kind = replace(kind, to=(*kind.to[:at], fewer, *kind.to[at + 1 :]))
    else:
        lengths = (*kind.lengths[:at], *kind.lengths[at + 1 :])
        kind = replace(kind, to=(*kind.to[:at], *kind.to[at + 1 :]), lengths=lengths)
    return replace(kit, kinds={**kit.kinds, name: kind}, replaced=(*kit.replaced, copies[-1]))


def with_kinds(kit: Kit, added: Sequence[AddedKind]) -> Kit:
    """The kit with further kinds of pieces.

    Args:
        kit: The kit.
        added: The kinds; each that is named again goes to a further place.

    Raises:
        CannotMend: A name is taken, or something they speak of is not there.
    """
    kinds = dict(kit.kinds)
    names = {*kinds, *(sheet.name for sheet in kit.sheets)}
    names |= {give.name for work in kit.work for give in work.parts}
    for each in added:
        if not each.name or each.name in names:
            raise CannotMend("name taken", each.name)
        missing = [name for name in (each.like, each.backs) if name and name not in kit.kinds]
        if missing or not 0 <= each.pocket < len(kit.pockets):
            raise CannotMend("no such thing", *missing)
        if min(each.size) <= 0:
            raise CannotMend("impossible", each.name)
        to = Destination(each.pocket, each.page, 1)
        known = kinds.get(each.name)
        if known is not None:
            kinds[each.name] = replace(known, to=_joined(known.to, to))
        else:
            kinds[each.name] = _kind(each, kit.kinds.get(each.like), to)
    return replace(kit, kinds=kinds)


def _joined(places: tuple[Destination, ...], to: Destination) -> tuple[Destination, ...]:
    for at, each in enumerate(places):
        if (each.pocket, each.page) == (to.pocket, to.page):
            more = replace(each, count=each.count + to.count)
            return (*places[:at], more, *places[at + 1 :])
    return (*places, to)


def _kind(each: AddedKind, like: PieceKind | None, to: Destination) -> PieceKind:
    backs = (Relation(Tie.BACKS, each.backs),) if each.backs else ()
    kind = PieceKind(each.name, Source.CUT, (to,), size=each.size, relations=backs)
    if like is None:
        return kind
    return replace(
        kind, turnable=like.turnable, smaller_by=like.smaller_by, use=like.use, small=like.small,
        note=like.note,
    )  # fmt: skip


def fresh(name: str, used: set[str]) -> str:
    """A name that nothing has, as near as can be; it is used from then on."""
    while name in used:
        name += "'"
    used.add(name)
    return name
