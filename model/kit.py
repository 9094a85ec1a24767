"""A kit as the trade sees it: papers, sheets, pieces, pockets and the work in order.

These are plain frozen values with exact lengths in millimetres. They are built by
`model.reading` from a kit file, and turned into steps by `model.compiling`. Every value
that a person wrote keeps ``where`` it stands in the file.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import IntEnum, StrEnum
from fractions import Fraction

from model.finding import Path
from model.geometry import PaperSide, Side
from model.length import Unit

Size = tuple[Fraction, Fraction]
"""Width and height in mm, upright."""


@dataclass(frozen=True, slots=True)
class Face:
    """One side of a paper: what it is called, and its colour."""

    name: str
    rgb: tuple[int, int, int]


@dataclass(frozen=True, slots=True)
class Paper:
    """A paper that sheets, mats and pieces are made of.

    Attributes:
        name: Its name in the kit.
        printed: Patterned, not plain.
        face: The side that is called its face.
        reverse: The other side, which is often used on purpose.
        directional: Whether the print has an up.
        landmarks: Printed landmarks and where they are on the upright face
            (a side such as ``left``, or a corner such as ``top left``).
    """

    name: str
    printed: bool
    face: Face
    reverse: Face
    directional: bool = False
    # Left out of the hash, as a mapping has none; equal papers still have equal hashes.
    landmarks: Mapping[str, str] = field(default_factory=dict, hash=False)

    def side(self, side: PaperSide) -> Face:
        """The face or the reverse."""
        return self.face if side == "face" else self.reverse


@dataclass(frozen=True, slots=True)
class Pocket:
    """One compartment of the accordion file.

    Attributes:
        index: Its place in the file, from 0.
        label: What is written on its tab, such as ``3·4``.
        pages: The pages whose pieces it holds.
    """

    index: int
    label: str
    pages: tuple[int, ...]


class Wait(IntEnum):
    """How long a sheet or a step is postponed; also the order of the work's phases."""

    NO = 0
    TRIMMER_AWAY = 1
    AFTER_FILING = 2


@dataclass(frozen=True, slots=True)
class Sheet:
    """One sheet of paper as packed.

    Attributes:
        name: Its name in the kit.
        paper: What it is made of.
        size: Width and height in mm, or None for a cut-apart that nobody measured.
        base: The page it is the base of; None for a sheet that is cut.
        cut_apart: Taken apart along printed registration marks.
        wait: Until when it is put aside.
        note: The author's word on it.
        where: Its place in the kit file.
        use: For a base, which of its sides is seen on the page.
    """

    name: str
    paper: Paper
    size: Size | None
    base: int | None
    cut_apart: bool
    wait: Wait
    note: str
    where: Path
    use: PaperSide = "face"


@dataclass(frozen=True, slots=True)
class Destination:
    """Where copies of a kind belong.

    Attributes:
        pocket: The pocket's index.
        page: The page of the pocket they are for, when known.
        count: How many copies.
    """

    pocket: int
    page: int | None
    count: int


class Tie(StrEnum):
    """How one piece belongs with another."""

    GOES_WITH = "goes with"
    BACKS = "backs"
    COMPLETES = "completes"
    TRACED_FROM = "traced from"
    FILED_WITH = "filed with"
    """A companion and its piece."""
    SLIT_FOR = "has a slit for"


@dataclass(frozen=True, slots=True)
class Relation:
    """A piece's tie to another kind, by its name."""

    tie: Tie
    other: str


class Source(StrEnum):
    """Where a kind of piece comes from."""

    CUT = "cut"
    PRECUT = "pre-cut"
    EMBELLISHMENT = "embellishment"
    RIBBON = "ribbon"


@dataclass(frozen=True, slots=True)
class PieceKind:
    """A kind of piece: alike copies under one name.

    Attributes:
        name: Its name in the kit.
        source: Cut from a sheet, or packed ready made.
        to: Where its copies belong; empty when each copy says so itself, or when the
            kind is a companion.
        paper: What it is made of, for what is packed ready made; for what is cut, the paper
            that the author states, which is checked.
        size: The size the author states, upright, in mm.
        turnable: Whether it may be turned on the page; None leaves it to the paper.
        smaller_by: How much smaller than stated it may come out, in mm.
        relations: What it goes with, backs, completes or is traced from.
        words: Words printed on it.
        picture: A picture printed on it.
        use: Which of its sides is seen on the page.
        companion_of: The kind it is filed together with.
        lengths: For a ribbon, a pocket's index and the length in mm for each of `to`.
        length: For a ribbon, the length packed, in mm.
        small: Small parts: the caution about small children applies.
        note: The author's word on it.
        where: Its place in the kit file.
    """

    name: str
    source: Source
    to: tuple[Destination, ...] = ()
    paper: Paper | None = None
    size: Size | None = None
    turnable: bool | None = None
    smaller_by: Fraction = Fraction(0)
    relations: tuple[Relation, ...] = ()
    words: str = ""
    picture: str = ""
    use: PaperSide = "face"
    companion_of: str = ""
    lengths: tuple[tuple[int, Fraction], ...] = ()
    length: Fraction = Fraction(0)
    small: bool = False
    note: str = ""
    where: Path = ()

    @property
    def left_over(self) -> Fraction:
        """For a ribbon, the length in mm that stays when all its lengths are cut off."""
        return self.length - sum((length for _, length in self.lengths), Fraction(0))


@dataclass(frozen=True, slots=True)
class SetAside:
    """Something put aside at the start and called for later."""

    name: str
    pages: tuple[int, ...]
    note: str
    where: Path


class Verb(StrEnum):
    """What a step does to what it takes."""

    TRIM = "trim"
    KNIFE = "knife"
    TEAR = "tear"
    FUSSY_CUT = "fussy_cut"
    TRACE = "trace"
    SLIT = "slit"
    PUNCH = "punch"
    DO = "do"

    @property
    def cuts_with(self) -> str:
        """The code of the caution for what it cuts with: ``blade``, ``knife``, or empty."""
        if self is Verb.TRIM:
            return "blade"
        knives = (Verb.KNIFE, Verb.SLIT, Verb.FUSSY_CUT, Verb.TRACE)
        return "knife" if self in knives else ""


@dataclass(frozen=True, slots=True)
class Mark:
    """A ruler number, or a printed line, at which a cut runs.

    Attributes:
        at: The number in mm; None for 'at the next printed line'.
        about: Given as 'about', since a printed line rules.
    """

    at: Fraction | None
    about: bool = False


SCRAP = "scrap"
"""The name that makes a part a scrap."""


@dataclass(frozen=True, slots=True)
class Give:
    """What one part of a cut is: a piece, a strip, or a scrap.

    Attributes:
        name: The kind's or the strip's name; ``scrap`` for a scrap.
        to: A destination of this very copy, when the author says so.
        use: Which side of this very copy is used, when the author says so.
        note: The author's word on this very copy.
        where: Its place in the kit file.
    """

    name: str
    to: Destination | None
    use: PaperSide | None
    note: str
    where: Path

    @property
    def scrap(self) -> bool:
        """Whether it is called a scrap."""
        return self.name == SCRAP

    @property
    def own(self) -> bool:
        """Whether the author sets this copy apart from its like."""
        return self.to is not None or self.use is not None or bool(self.note)


@dataclass(frozen=True, slots=True)
class Work:
    """One step as the author wrote it: one load of the trimmer, or one hand step.

    Attributes:
        verb: What is done.
        take: The sheet, strip or piece it is done to; the sentence itself for `Verb.DO`.
        up: Which side is up.
        lay: A printed landmark or ``top edge``, and where it is seen; None when not said.
        advised: The lay is only advised.
        turn: Quarter turns clockwise against how it lay when it came off.
        marks: The marks in order, for trim and knife.
        widths: Tear widths from the loose edge, in mm.
        edge: The loose edge of a tear, as the piece lies.
        gives: What comes off, in order.
        rest: What is left.
        around: The kind traced around, or the strip that a slit is for.
        length: A slit's length in mm.
        times: How many alike pieces it is done to, one after another.
        optional: It may be left out.
        wait: Until when the step itself is postponed.
        tools: Tools needed.
        needs: Set-asides called for.
        hazards: What it asks to be careful of, beside what its verb does: ``knife``,
            ``solvent``, ``heat``, ``small``.
        note: The author's word on it.
        where: Its place in the kit file.
        up_said: Whether the author says which side is up; otherwise a sheet lies face up
            and everything else stays as it came off.
        of: The identity of the very thing that it takes, whatever else bears its name; empty
            where any copy will do. No kit file says so: only plans that were mended do.
        along: What it measures along the ruler, in mm, where it stands in for another thing that
            may have come off otherwise. This, too, only plans that were mended say.
    """

    verb: Verb
    take: str
    up: PaperSide = "face"
    lay: tuple[str, str] | None = None
    advised: bool = False
    turn: int = 0
    marks: tuple[Mark, ...] = ()
    widths: tuple[Fraction, ...] = ()
    edge: Side = "right"
    gives: tuple[Give, ...] = ()
    rest: Give | None = None
    around: str = ""
    length: Fraction | None = None
    times: int = 1
    optional: bool = False
    wait: Wait = Wait.NO
    tools: tuple[str, ...] = ()
    needs: tuple[str, ...] = ()
    hazards: tuple[str, ...] = ()
    note: str = ""
    where: Path = ()
    up_said: bool = False
    of: str = ""
    along: Fraction | None = None

    @property
    def parts(self) -> tuple[Give, ...]:
        """All that it makes: what comes off, in order, then what is left."""
        return (*self.gives, self.rest) if self.rest else self.gives


@dataclass(frozen=True, slots=True)
class Kit:
    """A whole kit, as read.

    Attributes:
        title: Its title.
        edition: Which edition of the instructions.
        author: Who wrote it.
        note: The author's note, shown first.
        unit: The unit of lengths written without one.
        page: The finished page's width and height in mm.
        pages: How many pages, numbered from 1.
        pockets: The compartments, in order.
        sheets: All sheets, bases included, in file order.
        kinds: All kinds of pieces by name, those cut and those packed ready made.
        set_asides: What is called for later.
        work: The steps in the author's order.
        face_down: The stack is built face down, first sheet first, then turned over
            whole; otherwise face up, last sheet first.
        order: The trimming order the author states; empty when only the steps tell.
        scraps: The number of scraps the author expects; None when not said.
        scrap_sizes: The sizes of the expected scraps, when said.
        ruler: The width of the tearing ruler in mm, when said.
        absent: Identities of ready-made copies that are lost, though their pockets want them. No
            kit file says so: only plans that were mended do.
        replaced: Those for which another piece is cut instead; `to` counts them no more.
    """

    title: str
    edition: str
    author: str
    note: str
    unit: Unit
    page: Size
    pages: int
    pockets: tuple[Pocket, ...]
    sheets: tuple[Sheet, ...]
    kinds: Mapping[str, PieceKind]
    set_asides: tuple[SetAside, ...]
    work: tuple[Work, ...]
    face_down: bool = True
    order: tuple[str, ...] = ()
    scraps: int | None = None
    scrap_sizes: tuple[Size, ...] = ()
    ruler: Fraction | None = None
    absent: tuple[str, ...] = ()
    replaced: tuple[str, ...] = ()

    def pocket_of_page(self, page: int) -> Pocket | None:
        """The pocket that holds a page's pieces; None when no pocket does."""
        return next((p for p in self.pockets if page in p.pages), None)
