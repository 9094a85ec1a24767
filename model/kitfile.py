"""The tables of a kit file, as pydantic models: shapes, limits and words, no meaning yet.

What a name refers to, and whether the cuts can be made, is looked at later, in
`model.building` and `model.compiling`. The descriptions are what an editor shows; the
JSON Schema is made of these models by `model.kitschema`.
"""

from __future__ import annotations

from typing import Annotated, Any, Literal

from pydantic import BaseModel, BeforeValidator, ConfigDict, Discriminator, Field, Tag

from model.kitfields import (
    Colour,
    Cord,
    Count,
    Hazards,
    Label,
    Lay,
    Length,
    Line,
    MarkText,
    Name,
    Names,
    Note,
    PageNumber,
    Place,
    RibbonTo,
    ScrapsText,
    SheetName,
    SideWord,
    SizeText,
    Title,
    To,
    WaitWord,
)
from model.length import NumberText
from model.limits import MOST_MARKS, MOST_PAGES, MOST_TIMES

FORMAT = 1
VERBS = ("trim", "knife", "tear", "fussy_cut", "trace", "slit", "punch", "do")


def _key(about: str, default: Any = None, alias: str | None = None) -> Any:
    """A key that may be left out."""
    return Field(default=default, alias=alias, description=about)


def _keys(about: str) -> Any:
    """A list or table that may be left out."""
    return Field(default_factory=list, description=about)


def _must(about: str) -> Any:
    """A key that must be there."""
    return Field(description=about)


def _bare_word(raw: object) -> bool:
    return isinstance(raw, str) and not isinstance(raw, NumberText)


def _face(raw: object) -> object:
    return {"name": raw, "colour": raw} if _bare_word(raw) else raw


def _give(raw: object) -> object:
    return {"name": raw} if _bare_word(raw) else raw


def _gives_tag(raw: object) -> str:
    return "each" if isinstance(raw, list) else "alike"


class Table(BaseModel):
    """A table of the kit file: unknown keys are errors, kinds are not guessed."""

    model_config = ConfigDict(extra="forbid", frozen=True, strict=True)


class FaceTable(Table):
    """One side of a paper: what it is called, and its colour."""

    name: Name = _must("What this side is called")
    colour: Colour = _must("Its colour")


FaceText = Annotated[FaceTable, BeforeValidator(_face)]


class PocketTable(Table):
    """[[pocket]]: one compartment, labelled with its pages."""

    label: Label = _must("What is written on its tab, such as 3·4")
    pages: Annotated[list[PageNumber], Field(min_length=1, max_length=40)] = _must(
        "The pages whose pieces it holds"
    )


class MadeOf(Table):
    """What paper a thing is made of: by name, or said on the spot."""

    paper: Name | None = _key("The name of a [[paper]]")
    kind: Literal["plain", "print"] | None = _key("Of one colour (plain), or patterned (print)")
    face: FaceText | None = _key("Its face: a colour, or a name and a colour")
    reverse: FaceText | None = _key("Its other side: a colour, or a name and a colour")
    directional: bool | None = _key("Whether the print has an up")
    landmarks: dict[Name, Place] | None = _key("Printed landmarks and where they are, upright")


class PaperTable(Table):
    """[[paper]]: a paper that several sheets or pieces share."""

    name: Name = _must("Its name")
    kind: Literal["plain", "print"] = _key("Of one colour, or patterned", "plain")
    face: FaceText = _must("Its face: a colour, or a name and a colour")
    reverse: FaceText | None = _key("Its other side; as the face if plain, white if a print")
    directional: bool = _key("Whether the print has an up", False)
    landmarks: dict[Name, Place] = Field(
        default_factory=dict, description="Printed landmarks and where they are, upright"
    )


class SheetTable(MadeOf):
    """[[sheet]]: one sheet as packed, or several alike that are bases."""

    name: SheetName = _must("Its name; no / or #")
    size: SizeText | None = _key("Width x height; the page's size if left out")
    base: PageNumber | None = _key("Kept whole as the base of this page")
    bases: Annotated[list[PageNumber], Field(min_length=1, max_length=MOST_PAGES)] | None = _key(
        "Several alike sheets, each the base of one of these pages"
    )
    use: SideWord | None = _key("For a base: the side that is seen on the page (face)")
    cut_apart: bool = _key("Taken apart along printed lines; its size may be left out", False)
    wait: WaitWord | None = _key("Postponed, with all that is cut from it")
    note: Note = _key("The author's word on it", "")


class TiedTable(Table):
    """What all kinds of pieces may say."""

    goes_with: Names = _keys("What it goes with")
    backs: Names = _keys("What it lies behind")
    completes: Names = _keys("What it completes")
    traced_from: Names = _keys("What it is traced from")
    turnable: bool | None = _key("May it be turned on the page? Yes unless its print has an up")
    smaller_by: Length | None = _key("How much smaller than stated it may be")
    words: Line = _key("Words printed on it", "")
    picture: Line = _key("A picture printed on it", "")
    use: SideWord = _key("The side that is seen on the page", "face")
    note: Note = _key("The author's word on it", "")


class PieceTable(TiedTable):
    """[[piece]]: a kind of piece cut from the sheets."""

    name: Name = _must("Its name, used in gives and rest")
    paper: Name | None = _key("The paper or sheet that it is cut from; checked against the cuts")
    to: To | None = _key("Where its copies belong")
    size: SizeText | None = _key("Its size, upright; checked against the cuts")


class PackedTable(TiedTable, MadeOf):
    """[[precut]] and [[embellishment]]: packed ready made."""

    name: Name = _must("Its name")
    to: To | None = _key("Where its copies belong, filed at the start")
    with_: Name | None = _key("A piece that it is filed together with, one a copy", alias="with")
    size: SizeText | None = _key("Its size, upright")
    colour: Colour | None = _key("Its colour, where no paper is named")
    small: bool = _key("Small parts: keep from small children", False)


class RibbonTable(Table):
    """[[ribbon]]: ribbon or thread, by length."""

    name: Name = _must("Its name")
    colour: Colour = _must("Its colour")
    length: Cord = _must("The length packed")
    to: RibbonTo = _must("The length that each pocket gets")
    goes_with: Names = _keys("What it goes with")
    note: Note = _key("The author's word on it", "")


class SetAsideTable(Table):
    """[[set_aside]]: put aside at the start, called for later."""

    name: Name = _must("Its name")
    pages: Annotated[list[PageNumber], Field(max_length=MOST_PAGES)] = _keys(
        "The pages that will call for it"
    )
    note: Note = _key("The author's word on it", "")


class GiveTable(Table):
    """One part of a cut; with a destination it declares a piece on the spot."""

    name: Name = _must('The name of a piece or a strip, or "scrap"')
    count: Count | None = _key("So many alike, one after another")
    to: To | None = _key("Where this copy belongs")
    size: SizeText | None = _key("Its size, upright; checked against the cuts")
    use: SideWord | None = _key("The side of this copy that is seen on the page")
    note: Note = _key("The author's word on this copy", "")


GiveText = Annotated[GiveTable, BeforeValidator(_give)]
Gives = Annotated[
    Annotated[GiveText, Tag("alike")]
    | Annotated[list[GiveText], Field(min_length=1, max_length=MOST_MARKS), Tag("each")],
    Discriminator(_gives_tag),
]


class StepTable(Table):
    """[[step]]: one load of the trimmer, or one hand step; exactly one verb."""

    trim: Name | None = _key("Cut this on the trimmer, at marks")
    knife: Name | None = _key("Cut this with ruler and craft knife, at marks")
    tear: Name | None = _key("Tear this against a ruler, in widths from its loose edge")
    fussy_cut: Name | None = _key("Cut shapes out of this along their outlines")
    trace: Name | None = _key("Trace shapes on this and cut them out")
    slit: Name | None = _key("Cut a slit into this")
    punch: Name | None = _key("Punch this")
    do: Annotated[Line, Field(min_length=1)] | None = _key("Anything else, in words")
    up: SideWord | None = _key("The side that lies up: face for a sheet, else as it came off")
    lay: Lay | None = _key("How it lies: 'top edge at left', 'lighthouse at bottom left'")
    advised: bool = _key("The lay is only advised", False)
    turn: Literal["quarter", "left", "right", "half"] | None = _key(
        "Turned against how it came off; a quarter turn is clockwise"
    )
    marks: Annotated[list[MarkText], Field(min_length=1, max_length=MOST_MARKS)] = _keys(
        "Ruler numbers in falling order; each is what stays on the bed"
    )
    widths: Annotated[list[Length], Field(min_length=1, max_length=MOST_MARKS)] = _keys(
        "Widths to tear, from the loose edge"
    )
    edge: Literal["top", "right", "bottom", "left"] = _key(
        "The loose edge of a tear, as the paper lies", "right"
    )
    gives: Gives | None = _key("What comes off, in order; a bare name: all alike")
    rest: GiveText | None = _key("What is left")
    around: Name | None = _key("The shape that is traced around")
    for_: Name | None = _key("What goes through the slit", alias="for")
    length: Length | None = _key("How long the slit is")
    times: Annotated[int, Field(ge=1, le=MOST_TIMES)] = _key("The same for so many alike", 1)
    optional: bool = _key("It may be left out", False)
    wait: WaitWord | None = _key("Postponed")
    tools: Names = _keys("Tools needed")
    needs: Names = _keys("What was set aside and is needed now")
    caution: Hazards = _keys("What it asks to be careful of, beside what its verb does")
    note: Note = _key("The author's word on it", "")


class Head(Table):
    """The keys at the top of a kit file."""

    dryfit: int = _must("The format's number: 1")
    title: Title = _must("The kit's title")
    edition: Line = _key("Which edition of the instructions", "")
    author: Line = _key("Who wrote it", "")
    note: Note = _key("The author's note, shown first", "")
    unit: Literal["in", "cm", "mm"] = _key("The unit of lengths written without one", "in")
    page: SizeText = _must("The finished page's size")
    pages: PageNumber = _must("How many pages")
    scraps: ScrapsText | None = _key("How many scraps the cuts make, or their sizes")
    stack: Literal["face down", "face up"] = _key(
        "Face down, first sheet first, then turned over; or face up, last sheet first", "face down"
    )
    order: Names = _keys("The sheets in trimming order; checked against the steps")
    ruler: Length | None = _key("The width of the tearing ruler")


class KitFile(Head):
    """A whole kit file; read table by table, so this stands for the schema alone."""

    pocket: list[PocketTable] = _keys("One compartment; pairs of pages if left out")
    paper: list[PaperTable] = _keys("A paper that several sheets or pieces share")
    sheet: list[SheetTable] = _keys("A sheet as packed")
    precut: list[PackedTable] = _keys("Pre-cut pieces")
    embellishment: list[PackedTable] = _keys("Charms, buttons, die-cut shapes")
    ribbon: list[RibbonTable] = _keys("Ribbon or thread, by length")
    set_aside: list[SetAsideTable] = _keys("Put aside at the start, called for later")
    piece: list[PieceTable] = _keys("A kind of piece cut from the sheets")
    step: list[StepTable] = _keys("One load of the trimmer, or one hand step, in order of work")


TABLES: dict[str, type[Table]] = {
    "pocket": PocketTable,
    "paper": PaperTable,
    "sheet": SheetTable,
    "precut": PackedTable,
    "embellishment": PackedTable,
    "ribbon": RibbonTable,
    "set_aside": SetAsideTable,
    "piece": PieceTable,
    "step": StepTable,
}
"""The arrays of tables of a kit file, in the order in which they are read."""


def keys_of(table: type[Table]) -> list[str]:
    """The keys that a table knows, as they are written in the file."""
    return [field.alias or name for name, field in table.model_fields.items()]
