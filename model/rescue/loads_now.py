"""The loads of a plan as far as they are cut: which parts there are, and what is to come."""

from __future__ import annotations

from collections.abc import Container, Iterator, Mapping, Sequence

from model.cutting import CutError, Stock, tear, trim
from model.geometry import Orientation
from model.kit import Mark, Verb, Work
from model.plan import Item, Plan, Role, Step
from model.rescue.loose import SCRAPPED, played
from model.rescue.mending import Share
from model.rescue.mishap import CannotBe


def load_of(plan: Plan, item: str) -> Step | None:
    """The step that loads a thing into the trimmer, or has it torn; None where none does."""
    index = plan.step_at.get(f"{item}/load")
    return None if index is None else plan.steps[index]


def cuts_of(plan: Plan, item: str) -> tuple[Step, ...]:
    """The cuts of a thing's load, in order."""
    return tuple(plan.steps[index] for index in plan.loads.get(f"{item}/load", ()))


def parts_of(plan: Plan, item: str) -> tuple[str, ...]:
    """What a thing's load makes by the plan, what stays on the bed last."""
    return tuple(part for step in cuts_of(plan, item) for part in step.makes)


def share_of(plan: Plan, part: str) -> Share:
    """What becomes of a part by the plan."""
    return SCRAPPED if plan.items[part].role is Role.SCRAP else played(part)


def marks_of(work: Work) -> tuple[Mark, ...]:
    """The marks of a load; for a tear its widths."""
    return tuple(Mark(width) for width in work.widths) if work.verb is Verb.TEAR else work.marks


def cut_so(
    work: Work, stock: Stock, lying: Orientation, marks: Sequence[Mark], steps: Sequence[Step]
) -> tuple[Stock, ...]:
    """What cuts make of a thing.

    Args:
        work: The author's step.
        stock: The thing.
        lying: How it lies, for a tear with its loose edge at the right.
        marks: The marks, or the widths of a tear.
        steps: The steps of these cuts.

    Returns:
        What comes off, in order, then what stays in hand.

    Raises:
        CannotBe: A cut would be beside the paper.
    """
    try:
        if work.verb is Verb.TEAR:
            return tear(
                stock, lying, "right", [mark.at or stock.along(lying).value for mark in marks]
            )
        return trim(stock, lying, marks)
    except CutError as error:
        code = "not falling" if error.code == "mark-order" else "outside"
        raise CannotBe(code, steps[error.number].id, error.limit) from None


def pieces_beneath(plan: Plan, item: str, done: Container[str] = ()) -> Iterator[str]:
    """What is wanted of a thing by the plan: pieces, and strips that only its author can cut.

    Args:
        plan: The plan.
        item: The thing; when it is a piece, it is wanted itself.
        done: Identities whose making is over: they and what comes of them are passed over.

    Yields:
        Identities, in the order in which they come off.
    """
    thing = plan.items[item]
    if item in done or thing.role is Role.SCRAP:
        return
    load = load_of(plan, item)
    whole = thing.role is Role.STRIP and (load is None or not plain(plan, item))
    if whole or thing.role is Role.PIECE:
        yield item
    else:
        for part in parts_of(plan, item):
            yield from pieces_beneath(plan, part, done)


def ends_of(plan: Plan, item: str, done: Mapping[str, bool]) -> Iterator[str]:
    """The pieces that come of a thing in the end, itself if nothing is cut of it.

    Args:
        plan: The plan.
        item: The thing.
        done: Steps that were done, by id: what they punched out is there.
    """
    for index in plan.touched_by.get(item, ()):
        step = plan.steps[index]
        for part in () if done.get(step.id) else step.makes:
            yield from ends_of(plan, part, done)
    taker = plan.taken_by.get(item)
    if taker is None:
        if plan.items[item].role is Role.PIECE:
            yield item
        return
    step = plan.steps[taker]
    for part in parts_of(plan, item) if step.load else step.makes:
        yield from ends_of(plan, part, done)


def plain(plan: Plan, item: str) -> bool:
    """Whether a thing is cut with the trimmer at numbers alone, down to its pieces.

    Then its cuts may be planned anew. What the author wants torn, laid by its print, left out
    or put off is not planned anew.
    """
    load = load_of(plan, item)
    if load is None or load.work is None or item in plan.touched_by:
        return False
    work, taken = load.work, plan.items[item]
    special = work.verb is not Verb.TRIM or work.optional or work.lay is not None
    if special or taken.stock is None or not taken.stock.measured:
        return False
    if any(mark.at is None or mark.about for mark in work.marks):
        return False
    return all(
        plain(plan, part) for part in parts_of(plan, item) if plan.items[part].role is Role.STRIP
    )


def same_size(stock: Stock | None, other: Stock | None) -> bool:
    """Whether two things are alike in size and torn edges, wherever on the sheet they were."""
    if stock is None or other is None:
        return stock is other
    one = (stock.width, stock.height, stock.torn)
    return one == (other.width, other.height, other.torn)


def paper_name(item: Item) -> str:
    """What the paper of a thing is called; each unnamed one by its sheet."""
    return item.paper.name if item.paper and item.paper.name else f"paper of {item.sheet}"
