"""The plan of a kit: every step of the work, and every thing that it makes.

A plan is fixed by the kit alone. Each thing has an identity that outlives filing, made
of where it comes from: sheet ``A`` gives ``A/1``, ``A/2``, ... in the order in which they
come off, and ``A/r``, what stays on the bed; copies packed ready made are ``mat#1``,
``mat#2``. Steps are named after what they take, so a step keeps its name when others are
added to the kit.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import IntEnum, StrEnum
from fractions import Fraction

from model.cutting import Stock
from model.geometry import UPRIGHT, Measure, Orientation, PaperSide
from model.kit import Destination, Kit, Paper, PieceKind, Sheet, Verb, Work
from model.relations import Related


class Role(StrEnum):
    """What a thing is, in the end."""

    SHEET = "sheet"
    BASE = "base"
    STRIP = "strip"
    """To be trimmed again."""
    PIECE = "piece"
    SCRAP = "scrap"


class StepKind(StrEnum):
    """What a step asks for."""

    OPEN = "open"
    ASIDE = "aside"
    FILL = "fill"
    STACK = "stack"
    TURN_STACK = "turn stack"
    LOAD = "load"
    CUT = "cut"
    TEAR = "tear"
    SHAPE = "shape"
    """Fussy cutting and tracing: shapes out of a piece, the rest is trimmings."""
    MARK = "mark"
    """Slits and punches: the piece stays what it is."""
    DO = "do"
    AWAY = "away"


class Phase(IntEnum):
    """The phases of the work, in order."""

    OPENING = 0
    TRIMMING = 1
    TRIMMER_AWAY = 2
    AFTER_FILING = 3


@dataclass(frozen=True, slots=True)
class Item:
    """One physical thing.

    Attributes:
        id: Its identity, see the module's word on it.
        name: Its name in the kit; the sheet's name for a sheet, ``scrap`` for a scrap.
        role: What it is.
        kind: The kind of a piece; None for anything else.
        paper: What it is made of, when known.
        sheet: The name of the sheet it was cut from; empty for what is packed ready made.
        stock: Its rectangle and torn edges; None for shapes and what has no stated size.
        lying: How it lay when it came off.
        group: Copies of one group may stand for one another when they are filed.
        use: Which side is seen on the page.
        note: The author's word on this very copy.
        length: A ribbon's length in mm.
        partner: The piece that a companion is filed together with.
    """

    id: str
    name: str
    role: Role
    kind: PieceKind | None = None
    paper: Paper | None = None
    sheet: str = ""
    stock: Stock | None = None
    lying: Orientation = UPRIGHT
    group: str = ""
    use: PaperSide = "face"
    note: str = ""
    length: Fraction | None = None
    partner: str = ""


@dataclass(frozen=True, slots=True)
class Step:
    """One thing to do.

    Attributes:
        id: Its name, which other steps do not change.
        index: Its place in the plan, from 0.
        kind: What it asks for.
        phase: When it comes.
        takes: What is used up or moved by it.
        makes: What comes into being, in the order in which it comes off.
        touches: What is worked on and stays what it is.
        work: The author's step it comes from; None for the steps of the opening.
        number: Which cut of its load it is, from 1.
        of: How many cuts its load has.
        lying: How the paper in hand lies.
        before: The paper in hand before this step.
        mark: The mark on the ruler, or the width of a tear.
        pocket: The pocket that a filling step fills; -1 for none.
        load: The id of the load it belongs to; empty when it belongs to none.
        sheet: The sheet that is worked on.
        turned: Quarter turns clockwise against how the paper lay before, after it was
            turned over where it was.
    """

    id: str
    index: int
    kind: StepKind
    phase: Phase
    takes: tuple[str, ...] = ()
    makes: tuple[str, ...] = ()
    touches: tuple[str, ...] = ()
    work: Work | None = None
    number: int = 1
    of: int = 1
    lying: Orientation = UPRIGHT
    before: Stock | None = None
    mark: Measure | None = None
    pocket: int = -1
    load: str = ""
    sheet: str = ""
    turned: int = 0

    @property
    def verb(self) -> Verb | None:
        """What the author's step does; None for the steps that the plan adds."""
        return self.work.verb if self.work else None

    @property
    def blade(self) -> bool:
        """Whether the trimmer's blade is used."""
        return self.kind is StepKind.CUT and self.verb is Verb.TRIM

    @property
    def knife(self) -> bool:
        """Whether a craft knife is used: for cuts along a ruler, and for slits."""
        return (self.kind is StepKind.CUT and self.verb is Verb.KNIFE) or self.verb is Verb.SLIT

    @property
    def tears(self) -> bool:
        """Whether it belongs to a tear: the loose edge lies at the right, and no ruler reads."""
        return self.verb is Verb.TEAR

    @property
    def optional(self) -> bool:
        """Whether it may be left out."""
        return bool(self.work and self.work.optional)


@dataclass(frozen=True, slots=True)
class Group:
    """Copies that may stand for one another, and where they belong.

    Attributes:
        key: The group's name.
        kind: What the copies are.
        to: Where they belong, in the author's order.
        wanted: How many each pocket wants, by pocket index.
    """

    key: str
    kind: PieceKind
    to: tuple[Destination, ...]
    wanted: Mapping[int, int]


@dataclass(frozen=True, slots=True)
class Plan:
    """All steps and things of a kit.

    Attributes:
        kit: The kit.
        items: Every thing by its identity, in the order in which they come into being.
        steps: Every step, in order.
        step_at: A step's index by its id.
        made_by: The index of the step that makes a thing; sheets have none.
        taken_by: The index of the step that uses a thing up, where one does.
        groups: What belongs where.
        companions: What is filed together with a piece.
        scraps: The scraps that the cuts make.
        wanted: How many pieces each pocket holds in the end, by pocket index.
        stack: Sheets in the order in which the stack is built.
        order: Sheets in the order in which they are trimmed.
        loads: The indexes of a load's cuts, by the load's id.
        keys: The keys that file into a pocket, by what is typed; see `pocket_keys`.
        keys_of: The shortest keys of each pocket, by pocket index.
        by_sheet: What is cut from each sheet, strips included, by the sheet's name.
        touched_by: The indexes of the steps that work on a thing and leave it what it is
            (slits, punches), by its identity.
        ties: How things belong together, by name; see `related`.
        sheets: The kit's sheets by name.
        copies: The copies of each kind of piece, by its name, in the order of the plan.
        later: Sheets of which something is done after trimming: no other sheet ever waits.
    """

    kit: Kit
    items: Mapping[str, Item]
    steps: tuple[Step, ...]
    step_at: Mapping[str, int]
    made_by: Mapping[str, int]
    taken_by: Mapping[str, int]
    groups: Mapping[str, Group]
    companions: Mapping[str, tuple[str, ...]]
    scraps: tuple[str, ...]
    wanted: tuple[int, ...]
    stack: tuple[str, ...]
    order: tuple[str, ...]
    loads: Mapping[str, tuple[int, ...]]
    keys: Mapping[str, int]
    keys_of: tuple[tuple[str, ...], ...]
    by_sheet: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    touched_by: Mapping[str, tuple[int, ...]] = field(default_factory=dict)
    ties: Mapping[str, tuple[Related, ...]] = field(default_factory=dict)
    sheets: Mapping[str, Sheet] = field(default_factory=dict)
    copies: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    later: tuple[str, ...] = ()

    def related(self, name: str) -> tuple[Related, ...]:
        """What a kind, a strip, a sheet or a set-aside goes with, backs, is backed by, ...

        Args:
            name: Its name in the kit, not the identity of a copy.

        Returns:
            Its ties, those that it states itself first; every tie is found from both ends.
        """
        return self.ties.get(name, ())

    def transient(self, item: str) -> bool:
        """Whether a piece is taken up again after it was filed."""
        return item in self.taken_by


def pocket_keys(kit: Kit) -> tuple[dict[str, int], tuple[tuple[str, ...], ...]]:
    """What is pressed to file into each pocket: a page number of its own.

    With up to ten pages it is one press, and 0 stands for page 10. With more, a page
    number is typed; it counts as soon as it can mean one pocket only, and a number that
    others begin with takes leading zeros (page 1 of 12 is ``01``).

    Args:
        kit: The kit.

    Returns:
        All that can be typed, with the pocket's index; and for each pocket its keys,
        one for each page, shortest first.
    """
    pages = {page: pocket.index for pocket in kit.pockets for page in pocket.pages}
    typed: dict[str, int] = {}
    if kit.pages <= 10:
        typed = {str(page % 10): index for page, index in pages.items()}
    else:
        digits = len(str(kit.pages))
        codes = {str(page).zfill(digits): index for page, index in pages.items()}
        bare = {str(page): index for page, index in pages.items()}
        for code, index in {**codes, **bare}.items():
            others = {i for other, i in (*codes.items(), *bare.items()) if other.startswith(code)}
            if others == {index}:
                typed[code] = index
        # What is reached by a shorter press already needs no longer one.
        typed = {
            code: index
            for code, index in typed.items()
            if not any(code[:cut] in typed for cut in range(1, len(code)))
        }
    shortest: list[list[str]] = [[] for _ in kit.pockets]
    for code, index in typed.items():
        shortest[index].append(code)
    return typed, tuple(
        tuple(sorted(codes, key=lambda c: (len(c), int(c) or 10))) for codes in shortest
    )
