"""Things of a plan as something that is wanted, and its loads as far as they are cut."""

from __future__ import annotations

from fractions import Fraction

from model.alike import may_turn
from model.plan import Item, Plan
from model.rescue.loads_now import cuts_of, marks_of, paper_name, parts_of, share_of
from model.rescue.loose import LoadNow, Role
from model.state import State


def role_of(plan: Plan, id: str) -> Role:
    """A thing of the plan as something that is wanted."""
    item = plan.items[id]
    size = _size(item)
    kind = item.kind
    group = plan.groups.get(item.group)
    to = group.to[0] if group and group.to else None
    stuck = size is None or bool(item.stock and item.stock.torn)
    width, height = size or (Fraction(0), Fraction(0))
    return Role(
        id,
        width,
        height,
        paper_name(item),
        may_turn(kind, item.paper),
        kind.smaller_by if kind else Fraction(0),
        to.pocket if to else -1,
        to.page if to else None,
        item.name,
        stuck,
    )


def _size(item: Item) -> tuple[Fraction, Fraction] | None:
    if item.stock is None or not item.stock.measured:
        return None
    return item.stock.width.value, item.stock.height.value


def load_now(plan: Plan, state: State, item: str) -> LoadNow:
    """A load as far as it is cut, by the plan.

    Args:
        plan: The plan.
        state: The session.
        item: What the load takes.
    """
    cuts = cuts_of(plan, item)
    made = sum(bool(state.done.get(cut.id)) for cut in cuts)
    work = cuts[0].work
    assert work is not None
    marks = marks_of(work)
    shares = tuple(share_of(plan, part) for part in parts_of(plan, item))
    if made == len(cuts):
        return LoadNow(item, marks, shares[:-1], shares[-1])
    return LoadNow(
        item, marks[:made], shares[:made], None, left=marks[made:], left_shares=shares[made:]
    )
