"""What a crafter can choose from when something went wrong: cuts, things, sheets, and what can be.

Lists come newest first, as what went wrong is most often what was done last.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import datetime
from fractions import Fraction

from model.event import Done
from model.kit import Source
from model.length import Unit
from model.manner import Manner
from model.plan import Item, Role, Step, StepKind
from model.rescue.loads_now import load_of
from model.rescue.mishap import CannotBe, Mishap, What
from model.rescue.truth import truth_of
from model.spot import Spot
from model.state import State

NO_CUT = "no cut"
"""Why something can't be said: nothing was cut yet."""
NOTHING_ELSE = "nothing else"
"""Why no wrong piece can have been taken: nothing else lay there."""
NOTHING_THERE = "nothing there"
"""Why nothing can be ruined: nothing is there yet."""
ALL_BEGUN = "all begun"
"""Why no sheet can be missing: all of them were begun."""

Row = tuple[str, str, str]
"""Of something to choose its id, its name, and what tells it apart."""
_CUTS = (StepKind.CUT, StepKind.TEAR)
_OF_CUTS = (What.MARK, What.MEASURE, What.PIECE, What.TURNED, What.FACE)


@dataclass(frozen=True, slots=True)
class Made:
    """A cut that was made.

    Attributes:
        step: The cut, or the tear.
        at: When it was said; None when the session lost that.
    """

    step: Step
    at: datetime | None = None


@dataclass(frozen=True, slots=True)
class Lot:
    """A thing that can be meant, with others just like it at the same place.

    Attributes:
        item: The one that is meant.
        place: Where it is: a `Spot`, or a pocket's index.
        count: How many there are.
    """

    item: Item
    place: int
    count: int = 1


def narrowed(rows: Sequence[Row], text: str) -> tuple[Row, ...]:
    """The rows of a list that have all words of a text in them.

    Args:
        rows: The rows.
        text: What was typed. Where its words are whole words of names, only those fit:
            sheet B when ``b`` was typed.
    """
    asked = [word.replace("x", "×") if word[:1].isdigit() else word for word in _words(text)]
    asked = ["×" if word == "x" else word for word in asked]

    def has(row: Row, word: str) -> bool:
        said = f"{row[1]} {row[2]}".casefold()
        return word in said or word.replace("×", "x") in said

    whole = tuple(row for row in rows if set(asked) <= set(_words(row[1])))
    return whole or tuple(row for row in rows if all(has(row, word) for word in asked))


def _words(text: str) -> list[str]:
    """The words of a text, without the signs of a sentence: ``sheet B, at 8½`` names sheet B."""
    bare = text.casefold().replace("(", " ").replace(")", " ").split()
    return [word for word in (each.strip(",;:.") for each in bare) if word]


def cuts_made(state: State) -> tuple[Made, ...]:
    """Every cut and tear that was made, the newest first."""
    said = _said(state)
    plan = state.plan
    made = [
        (said.get(step.id, (0, None)), step)
        for step in plan.steps
        if step.kind in _CUTS and state.done.get(step.id)
    ]
    made.sort(key=lambda each: (each[0][0], each[1].index), reverse=True)
    return tuple(Made(step, at) for (_, at), step in made)


def _said(state: State) -> dict[str, tuple[int, datetime | None]]:
    """When each step that is done was said to be, by its id."""
    return {
        entry.event.step: (entry.n, entry.at)
        for entry in state.standing()
        if isinstance(entry.event, Done)
    }


def taken(step: Step) -> str:
    """What a cut works on, by its identity."""
    return (*step.takes, *step.touches)[0]


def sides_of(step: Step) -> tuple[str, str]:
    """The things of a cut that a ruler can be laid on: what came off, and what stayed."""
    return step.makes[0], step.makes[1] if len(step.makes) > 1 else taken(step)


def should_be(step: Step, what: What, thing: str = "") -> Fraction | None:
    """What a length should have been, in mm; None where no number says so.

    Args:
        step: The cut.
        what: A mark, or a measure.
        thing: For a measure, what is measured.
    """
    mark, before = step.mark, step.before
    if mark is None or before is None or step.work is None:
        return None
    along = before.along(step.lying)
    number = None if step.kind is StepKind.TEAR else step.work.marks[step.number - 1].at
    if not along.exact or (number is None and step.kind is not StepKind.TEAR):
        return None
    # A mark is what stays on the bed; a tear is what comes off.
    off = thing == step.makes[0] and what is What.MEASURE
    if what is What.MARK or off == (step.kind is StepKind.TEAR):
        return mark.value
    return along.value - mark.value


def unit_typed(manner: Manner, what: What) -> Unit:
    """The unit of a length that is typed without one: of a mark, the ruler's."""
    return manner.ruler_unit if what is What.MARK else manner.style.unit


def possible(state: State, step: Step | None) -> dict[What, str]:
    """Of all that can go wrong, why it can't be said now; empty where it can.

    Args:
        state: The session.
        step: The cut that is meant; None when none is made yet.
    """
    why = dict.fromkeys(What, "")
    for what in _OF_CUTS:
        why[what] = NO_CUT if step is None else _of_cut(state, step, what)
    if next(_ruinable(state), None) is None:
        why[What.RUINED] = NOTHING_THERE
    if not may_be_missing(state):
        why[What.MISSING] = ALL_BEGUN
    return why


def _of_cut(state: State, step: Step, what: What) -> str:
    if what in (What.MARK, What.MEASURE):
        return "" if should_be(step, what, step.makes[0]) is not None else "no numbers"
    if what is What.PIECE:
        return "" if may_be_taken(state, step) else NOTHING_ELSE
    try:
        truth_of(state, Mishap(what, step.load))
    except CannotBe as error:
        return error.code
    return ""


def may_be_taken(state: State, step: Step) -> tuple[Lot, ...]:
    """What may have been taken instead of what a load asked for, the likeliest first.

    Args:
        state: The session.
        step: A cut of the load.
    """
    plan, said = state.plan, _said(state)
    meant = plan.items[taken(step)]
    load = load_of(plan, meant.id)
    if load is None or load.kind is not StepKind.LOAD or meant.stock is None:
        return ()
    when = said.get(load.id, (0, None))[0]

    def there(item: Item) -> bool:
        """Whether it lay about when the load was begun."""
        of = plan.made_by.get(item.id)
        born = 0 if of is None else said.get(plan.steps[of].id, (when, None))[0]
        other = load_of(plan, item.id)
        gone = said.get(other.id, (0, None))[0] if other else 0
        return (of is None or born < when) and (not gone or gone > when)

    whole = meant.role is Role.SHEET  # nobody takes a strip for a sheet
    found = [
        item
        for item in plan.items.values()
        if item.id != meant.id
        and not item.partner
        and (item.kind is None or item.kind.source is Source.CUT)
        and item.stock is not None
        and item.stock.measured
        and state.where(item.id) not in (Spot.NOWHERE, Spot.MISSING)
        and item.role is not Role.BASE
        and (item.role is Role.SHEET) == whole
        and there(item)
    ]
    order = {name: n for n, name in enumerate(plan.order)}

    def likely(item: Item) -> tuple[bool, bool, int]:
        number = order.get(item.id, 0) if whole else -_born(state, item.id, said)
        filed = state.where(item.id) >= 0 or item.role is Role.SCRAP
        return item.paper != meant.paper, filed, number

    return _lots(state, sorted(found, key=likely))


def may_be_ruined(state: State) -> tuple[Lot, ...]:
    """What can be ruined: all that is there, the newest first, sheets last."""
    return _lots(state, list(_ruinable(state)))


def _ruinable(state: State) -> Iterator[Item]:
    said = _said(state)
    gone = (Spot.NOWHERE, Spot.TAKEN, Spot.MISSING)
    found = [
        item
        for item in state.plan.items.values()
        if state.where(item.id) not in gone
        and not item.partner
        and item.length is None
        and item.role is not Role.SCRAP
    ]
    stack = {name: -n for n, name in enumerate(state.plan.order)}

    def newest(item: Item) -> tuple[bool, int, int]:
        return state.where(item.id) == Spot.IN_HAND, _born(state, item.id, said), stack.get(
            item.id, -len(stack)
        )  # fmt: skip

    yield from sorted(found, key=newest, reverse=True)


def _born(state: State, id: str, said: dict[str, tuple[int, datetime | None]]) -> int:
    """The number of the entry that told of a thing's making; 0 for a sheet."""
    made = state.plan.made_by.get(id)
    if made is None or id in state.plan.sheets:
        return 0
    return said.get(state.plan.steps[made].id, (0, None))[0]


def _lots(state: State, items: list[Item]) -> tuple[Lot, ...]:
    """Things, those that are alike and lie together as one."""
    lots: dict[object, Lot] = {}
    for item in items:
        place = state.where(item.id)
        key: object = item.id
        if item.group and place >= 0:
            key = item.group, item.note, place
        first = lots.get(key)
        lots[key] = Lot(first.item, place, first.count + 1) if first else Lot(item, place)
    return tuple(lots.values())


def may_be_missing(state: State) -> tuple[Lot, ...]:
    """Sheets that may not be in the packet: those that nobody has begun, the next one first."""
    plan = state.plan
    names = dict.fromkeys((*plan.order, *plan.sheets))
    return tuple(
        Lot(plan.items[name], state.where(name))
        for name in names
        if name in plan.items and _not_begun(state, name)
    )


def _not_begun(state: State, name: str) -> bool:
    load = load_of(state.plan, name)
    if load is not None:
        return load.id not in state.done
    return state.where(name) != Spot.TAKEN
