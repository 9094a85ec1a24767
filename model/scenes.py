"""The pictures of a run: what is in the trimmer at a step, or the piece to be filed."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from model.cutting import Stock
from model.geometry import Orientation, Side, Sure
from model.manner import Manner
from model.plan import Item, Plan, Role, Step, StepKind
from model.scene import Block, Scene
from model.scene import Role as BlockRole
from model.signs import has_top, landmarks_on, on_bed

_NONE = Fraction(0)
_BLANK = (255, 255, 255)
_OVER: dict[Side, Side] = {"top": "bottom", "bottom": "top", "left": "left", "right": "right"}


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
        return _for_hand(_cut(plan, step, manner), manner)
    ids = (*step.takes, *step.touches) or step.makes
    if not ids or step.kind is StepKind.DO:
        return None
    item = plan.items[ids[0]]
    if step.kind is StepKind.LOAD:
        return _for_hand(_load(plan, step, item, manner), manner)
    if step.kind is StepKind.STACK:
        return scene_of_item(plan, item, manner, reverse=plan.kit.face_down)
    return scene_of_item(plan, item, manner)


def scene_of_item(
    plan: Plan, item: Item, manner: Manner, reverse: bool | None = None
) -> Scene | None:
    """One thing by itself, upright, by default the side that is used in sight.

    Args:
        plan: The plan.
        item: One of its things.
        manner: How the crafter is told things.
        reverse: Whether the other side of the paper is in sight.

    Returns:
        The picture; None when nobody knows the thing's shape.
    """
    stock = item.stock
    if stock is None:
        return None
    lying = Orientation(0, item.use == "reverse" if reverse is None else reverse)
    whole = item.role in (Role.SHEET, Role.BASE)
    if not (whole or has_top(plan, item)) and stock.height.value > stock.width.value:
        # Nothing says which way is up: the long side lies along the eye's line.
        lying = lying.turned(1)
    width, height = stock.along(lying).value, stock.across(lying).value
    role: BlockRole = "whole" if whole else "scrap" if item.role is Role.SCRAP else "piece"
    block = _block(plan, item, stock, lying, role, manner, manner.size(item))
    block = replace(block, w=width, h=height)
    return Scene(
        width,
        height,
        (block,),
        None,
        (),
        None,
        not stock.measured,
        False,
        "left",
        manner.phrases.drawing,
    )


def _for_hand(scene: Scene | None, manner: Manner) -> Scene | None:
    """The picture for the hand that works the trimmer.

    With the blade at the left the same pieces come off when the paper lies turned by half.
    """
    if scene is None or not manner.left_handed:
        return scene
    blocks = tuple(_over(block, scene.height) for block in scene.blocks)
    return replace(scene, blocks=blocks, mirrored=True)


def _over(block: Block, height: Fraction) -> Block:
    """A block with top and bottom changed."""
    over = {"top": "bottom", "bottom": "top"}
    return replace(
        block,
        y=height - block.y - block.h,
        up=_OVER[block.up] if block.up else None,
        torn=frozenset(_OVER[side] for side in block.torn),
        signs=tuple(
            (" ".join(over.get(word, word) for word in at.split()), name)
            for at, name in block.signs
        ),
    )


def _load(plan: Plan, step: Step, item: Item, manner: Manner) -> Scene | None:
    stock = step.before
    if stock is None:
        return None
    width, height = stock.along(step.lying).value, stock.across(step.lying).value
    marks = tuple(
        mark.value
        for index in plan.loads.get(step.load, ())
        if (mark := plan.steps[index].mark) is not None
    )
    tearing = step.tears
    size = manner.stock_size(stock, _directional(item))
    block = replace(_block(plan, item, stock, step.lying, "whole", manner, size), w=width, h=height)
    return Scene(
        width,
        height,
        (block,),
        None,
        () if tearing else marks,
        None if tearing else manner.ruler,
        not stock.measured,
        False,
        "left",
        manner.phrases.drawing,
    )


def _cut(plan: Plan, step: Step, manner: Manner) -> Scene | None:
    stock, mark, lying = step.before, step.mark, step.lying
    if stock is None or mark is None:
        return None
    width, height = stock.along(lying).value, stock.across(lying).value
    tearing = step.kind is StepKind.TEAR
    cut = width - mark.value if tearing else mark.value
    off = plan.items[step.makes[0]]
    last = plan.items[step.makes[1]] if len(step.makes) > 1 else None
    offcut = _block(plan, off, off.stock or stock, lying, _role(off), manner, manner.size(off))
    offcut = replace(offcut, x=cut, w=width - cut, h=height, apart=True)
    if last is not None and last.stock is not None:
        bed = _block(plan, last, last.stock, lying, _role(last), manner, manner.size(last))
    else:
        whole = plan.items[step.touches[0] if step.touches else step.takes[0]]
        bed = _block(plan, whole, _left_of(stock, off.stock), lying, "rest", manner, "")
        bed = replace(bed, name="", torn=bed.torn - {"right"})
    bed = replace(bed, w=cut, h=height)
    # What the ruler can't show is measured by hand, and no number of it is held at anything.
    unfit = manner.must_measure(plan, step)
    return Scene(
        width,
        height,
        (bed, offcut),
        cut,
        () if tearing else _later(plan, step),
        None if tearing or unfit else manner.ruler,
        mark.sure is Sure.PRINTED or not stock.measured,
        False,
        "left",
        manner.phrases.drawing,
    )


def _left_of(stock: Stock, off: Stock | None) -> Stock:
    """What is left on the bed, as far as its place on the sheet goes."""
    if off is None:
        return stock
    box, gone = stock.box, off.box
    if gone.w == box.w:  # it comes off at the sheet's top or bottom
        y = box.y if gone.y > box.y else box.y + gone.h
        return replace(stock, box=replace(box, y=y, h=box.h - gone.h))
    x = box.x if gone.x > box.x else box.x + gone.w
    return replace(stock, box=replace(box, x=x, w=box.w - gone.w))


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


def _directional(item: Item) -> bool:
    return bool(item.paper and item.paper.directional)


def _block(
    plan: Plan,
    item: Item,
    stock: Stock,
    lying: Orientation,
    role: BlockRole,
    manner: Manner,
    size: str,
) -> Block:
    """A thing as it lies, at the origin and with its size in its own frame."""
    paper = item.paper
    face = paper.side("reverse" if lying.reverse else "face") if paper else None
    seen = () if lying.reverse else landmarks_on(plan, item, stock)
    return Block(
        _NONE,
        _NONE,
        stock.width.value,
        stock.height.value,
        manner.phrases.drawing.role("scrap") if item.role is Role.SCRAP else item.name,
        size,
        role,
        face.rgb if face else _BLANK,
        bool(paper and paper.printed and not lying.reverse),
        lying.up if has_top(plan, item) else None,
        frozenset(lying.side_on_bed(side) for side in stock.torn),
        False,
        tuple((on_bed(lying, at), name) for name, at in seen),
    )
