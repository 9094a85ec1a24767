"""The pictures of a run: what is in the trimmer at a step, or the piece to be filed."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from model.cutting import Stock
from model.geometry import Orientation, Side, Sure
from model.kit import Paper, Verb
from model.manner import Manner
from model.plan import Item, Plan, Role, Step, StepKind
from model.scene import Block, Scene
from model.scene import Role as BlockRole

_NONE = Fraction(0)
_QUARTERS: dict[Side, int] = {"right": 0, "top": 1, "left": 2, "bottom": 3}
_BLANK = (255, 255, 255)


def scene_of_step(plan: Plan, step: Step, manner: Manner) -> Scene | None:
    """What lies in the trimmer, on the mat, or in the hand at a step.

    Args:
        plan: The plan.
        step: One of its steps.
        manner: How the crafter is told things.

    Returns:
        The picture; None where there is nothing to see.
    """
    if step.kind in (StepKind.CUT, StepKind.TEAR):
        return _cut(plan, step, manner)
    ids = (*step.takes, *step.touches) or step.makes
    if not ids or step.kind is StepKind.DO:
        return None
    item = plan.items[ids[0]]
    if step.kind is StepKind.LOAD:
        return _load(plan, step, item, manner)
    return scene_of_item(item, manner)


def scene_of_item(item: Item, manner: Manner) -> Scene | None:
    """One thing by itself, upright, the side that is used in sight."""
    stock = item.stock
    if stock is None:
        return None
    reverse = item.use == "reverse"
    lying = Orientation(0, reverse)
    width, height = stock.width.value, stock.height.value
    directional = bool(item.paper and item.paper.directional)
    if not directional and height > width:
        # Nothing says which way is up: the long side lies along the eye's line.
        lying = lying.turned(1)
        width, height = height, width
    role: BlockRole = "scrap" if item.role is Role.SCRAP else "piece"
    if item.role in (Role.SHEET, Role.BASE):
        role = "whole"
    block = _block(stock, item.paper, lying, item.name, manner.size(item), role)
    block = replace(block, x=_NONE, y=_NONE, w=width, h=height)
    return Scene(
        width, height, (block,), None, (), None, not stock.measured, manner.left_handed, "left"
    )


def tear_lying(step: Step) -> Orientation:
    """How paper lies to be torn: its loose edge at the right."""
    edge: Side = step.work.edge if step.work else "right"
    return step.lying.turned(_QUARTERS[edge])


def _lying(step: Step) -> Orientation:
    return tear_lying(step) if step.work and step.work.verb is Verb.TEAR else step.lying


def _load(plan: Plan, step: Step, item: Item, manner: Manner) -> Scene | None:
    stock = step.before
    if stock is None:
        return None
    lying = _lying(step)
    width, height = stock.along(lying).value, stock.across(lying).value
    marks = tuple(
        mark.value
        for index in plan.loads.get(step.load, ())
        if (mark := plan.steps[index].mark) is not None
    )
    tearing = bool(step.work and step.work.verb is Verb.TEAR)
    block = replace(
        _block(stock, item.paper, lying, item.name, manner.stock_size(stock, _up(item)), "whole"),
        x=_NONE,
        y=_NONE,
        w=width,
        h=height,
    )
    return Scene(
        width,
        height,
        (block,),
        None,
        () if tearing else marks,
        None if tearing else manner.ruler,
        not stock.measured,
        manner.left_handed,
        "left",
    )


def _cut(plan: Plan, step: Step, manner: Manner) -> Scene | None:
    stock, mark = step.before, step.mark
    if stock is None or mark is None:
        return None
    lying = _lying(step)
    width, height = stock.along(lying).value, stock.across(lying).value
    tearing = step.kind is StepKind.TEAR
    cut = width - mark.value if tearing else mark.value
    off = plan.items[step.makes[0]]
    last = plan.items[step.makes[1]] if len(step.makes) > 1 else None
    paper = off.paper
    came = off.stock or stock
    offcut = replace(
        _block(came, paper, lying, off.name, manner.size(off), _role(off)),
        x=cut,
        y=_NONE,
        w=width - cut,
        h=height,
        apart=True,
    )
    if last is not None and last.stock is not None:
        bed = _block(last.stock, paper, lying, last.name, manner.size(last), _role(last))
    else:
        bed = _block(stock, paper, lying, "", "", "rest")
        bed = replace(bed, torn=bed.torn - {"right"})
    bed = replace(bed, x=_NONE, y=_NONE, w=cut, h=height)
    later = () if tearing else _later(plan, step)
    unsure = mark.sure is Sure.PRINTED or not stock.measured
    return Scene(
        width,
        height,
        (bed, offcut),
        cut,
        later,
        None if tearing else manner.ruler,
        unsure,
        manner.left_handed,
        "left",
    )


def _later(plan: Plan, step: Step) -> tuple[Fraction, ...]:
    return tuple(
        mark.value
        for index in plan.loads[step.load]
        if index > step.index and (mark := plan.steps[index].mark) is not None
    )


def _role(item: Item) -> BlockRole:
    if item.role is Role.SCRAP:
        return "scrap"
    return "piece" if item.role is Role.PIECE else "strip"


def _up(item: Item) -> bool:
    return bool(item.paper and item.paper.directional)


def _block(
    stock: Stock, paper: Paper | None, lying: Orientation, name: str, size: str, role: BlockRole
) -> Block:
    face = paper.side("reverse" if lying.reverse else "face") if paper else None
    seen_print = bool(paper and paper.printed and not lying.reverse)
    up = lying.up if paper and paper.directional and not lying.reverse else None
    return Block(
        _NONE,
        _NONE,
        stock.width.value,
        stock.height.value,
        name,
        size,
        role,
        face.rgb if face else _BLANK,
        seen_print,
        up,
        frozenset(lying.side_on_bed(side) for side in stock.torn),
        False,
    )
