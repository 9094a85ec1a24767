"""Who gets the rows of the Table: pure functions of a height and of what there is to show.

In the order of weight: the mark; the sentence; where the piece goes; the drawing; warnings when
there are any; pockets; pile; scraps; progress. What must shrink shrinks from the end.
"""

from __future__ import annotations

from dataclasses import dataclass

from model.settings import FIGURES

ROOMY = 34
"""Rows from which on there is room for everything."""
_HUGE = 46
_STEADY = 22
"""Rows from which on what follows a short sentence stays where it is after a longer one."""
_SIDE = 74
"""Columns from which on pockets, pile and scraps have a column of their own."""
_BROAD = 110
_SIZE = 5
"""Rows by which large figures grow."""
_BESIDE = 9
"""Rows that larger figures leave: head, sentence, goes, keys, and three or more of a drawing."""
_AIR = 1
"""Blank rows above and beneath large figures where there is room for everything."""


@dataclass(frozen=True, slots=True)
class Need:
    """What there is to show, in rows.

    Attributes:
        sentence: What to do, or the warning.
        mark: Rows of the large figures; 0 for none.
        picture: Whether something is drawn.
        cautions: Cautions, whole.
        notes: Notes, whole.
        brief: Pockets, pile and scraps, where they have no column of their own.
        said: Whether there is something to answer, such as that nothing is saved.
    """

    sentence: int
    mark: int = 0
    picture: bool = True
    cautions: int = 0
    notes: int = 0
    brief: int = 0
    said: bool = False


@dataclass(slots=True)
class Room:
    """How many rows each region gets, from top to bottom.

    Attributes:
        bar: How far the run is, and the kit.
        head: What kind of step it is.
        mark: The large figures, with the air around them.
        sentence: What to do.
        goes: Where the piece goes, and the keys.
        more: Cautions, then notes.
        picture: The drawing, or nothing.
        brief: Pockets, pile and scraps.
        said: What was answered; without a row of its own it takes that of the keys.
        keys: The keys that apply.
    """

    bar: int = 0
    head: int = 0
    mark: int = 0
    sentence: int = 0
    goes: int = 0
    more: int = 0
    picture: int = 0
    brief: int = 0
    said: int = 0
    keys: int = 0


def side_width(width: int) -> int:
    """Columns that pockets, pile and scraps get at the side; 0 for none."""
    return 0 if width < _SIDE else 29 if width < _BROAD else 40


def mark_height(height: int, figures: str = "usual") -> int:
    """Rows that large figures may have.

    Args:
        height: Rows of the terminal.
        figures: How large a crafter wants them, one of `model.settings.FIGURES`. Each is one
            size larger than the one before it, as far as the texts keep their rows and the
            drawing some of its own.
    """
    size = 1 if height < ROOMY else 2 if height < _HUGE else 3
    most = max(size, (height - _BESIDE) // _SIZE)
    return _SIZE * min(size + FIGURES.index(figures), most)


def share(height: int, need: Need) -> Room:
    """Share the rows of the terminal.

    Args:
        height: Rows of the terminal.
        need: What there is to show.

    Returns:
        Rows that together are as many as there are.
    """
    room = Room()
    left = max(0, height)
    high = height >= ROOMY

    def give(name: str, upto: int) -> None:
        nonlocal left
        got: int = getattr(room, name)
        more = max(0, min(upto - got, left))
        setattr(room, name, got + more)
        left -= more

    give("head", 1)
    give("sentence", need.sentence)
    give("goes", 1)
    if need.said:
        give("keys", 1)
    # Where the figures would take the room of the sentence, the head says them.
    mark = need.mark + (2 * _AIR if high and need.mark else 0)
    if left >= mark:
        give("mark", mark)
    give("keys", 1)
    if need.picture:
        give("picture", 3)
    give("more", need.cautions)
    if need.picture:
        give("picture", 5)
    give("brief", need.brief)
    give("bar", 1)
    give("said", 1)
    text = need.cautions + need.notes
    if not need.picture:
        give("more", left + room.more)
        return room
    give("more", min(text, need.cautions + 1))
    give("picture", 6)
    most = 5 if high else 3
    if need.mark and height >= _STEADY:
        give("sentence", 3 if high else 2)
    give("more", min(text, max(most, need.cautions)))
    if need.mark or high:
        # Between cuts and pockets the drawing stays where it is, however long the sentence.
        usual = 3 + most if high else 2 + most
        give("more", usual - room.sentence)
    else:
        give("picture", 8)
        give("more", text)
    give("picture", left + room.picture)
    return room
