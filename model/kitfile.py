"""The tables of a kit file, as pydantic models: shapes, limits and words, no meaning yet.

What a name refers to, and whether the cuts can be made, is looked at later, in
`model.building` and `model.plan`. Lengths are read here, in the kit's unit, which
comes in the validation context as ``{"unit": Unit}``.

The JSON Schema for editors is made of these models by `kit_schema`.
"""

from __future__ import annotations

import re
from fractions import Fraction
from typing import Annotated, Any, Literal

from pydantic import (
    BaseModel,
    BeforeValidator,
    ConfigDict,
    Discriminator,
    Field,
    PlainValidator,
    Tag,
    ValidationInfo,
    WithJsonSchema,
)

from model.colour import parse_colour
from model.geometry import CORNERS, SIDES
from model.kit import Mark, Size
from model.length import NumberText, Unit, parse_cord, parse_length, parse_size

FORMAT = 1
MOST_BYTES = 4 * 1024 * 1024
MOST_PAGES = 400
MOST_TABLES = 20_000
MOST_MARKS = 100
MOST_TIMES = 100
MOST_COPIES = 1_000


def _unit(info: ValidationInfo) -> Unit:
    return info.context["unit"] if info.context else Unit.IN


def _text(raw: object) -> object:
    if isinstance(raw, NumberText):
        raise ValueError("must be text in quotes")
    if isinstance(raw, str) and any(ord(c) < 32 and c not in "\n\t" for c in raw):
        raise ValueError("must not hold control characters")
    return raw


def _one_line(raw: object) -> object:
    text = _text(raw)
    if isinstance(text, str):
        if "\n" in text or "\t" in text:
            raise ValueError("must be one line")
        return text.strip()
    return text


def _mark(raw: Any, info: ValidationInfo) -> Mark:
    if isinstance(raw, str) and not isinstance(raw, NumberText):
        words = raw.strip().casefold()
        if words in ("line", "next line", "printed line", "next printed line"):
            return Mark(None)
        if words.startswith("about "):
            return Mark(parse_length(raw.strip()[6:], _unit(info)), about=True)
    return Mark(parse_length(raw, _unit(info)))


def _lay(raw: Any) -> tuple[str, str]:
    shape = 'written as "top edge at left", or "lighthouse at bottom left"'
    if not isinstance(raw, str):
        raise ValueError(f"must be {shape}")
    found = re.fullmatch(r"\s*(?:the )?(.+?) at (?:the )?([a-z ]+?)\s*", raw)
    if not found:
        raise ValueError(f"must be {shape}")
    place = re.sub(r"\s+", " ", found[2])
    if place not in SIDES and place not in CORNERS:
        known = ", ".join((*SIDES, *CORNERS))
        raise ValueError(f"{place!r} is no place on the trimmer; known: {known}")
    return found[1].strip(), place


def _place(raw: Any) -> str:
    if raw not in SIDES and raw not in CORNERS:
        raise ValueError("must be a side or a corner, such as left or top left")
    return str(raw)


def _to(raw: Any) -> tuple[tuple[str | int, int], ...]:
    """Destinations as written: (pocket label, ``page N`` or page number, count)."""
    if isinstance(raw, bool) or isinstance(raw, NumberText):
        raise ValueError('must be a pocket, such as "3·4", or a page number')
    if isinstance(raw, int):
        return ((raw, 1),)
    if isinstance(raw, str):
        parts = [part.strip() for part in raw.split(",")]
        counted = [re.fullmatch(r"(\d{1,4}) to (.+)", part) for part in parts]
        if all(counted):
            return tuple(_counted(m[2], int(m[1])) for m in counted if m)
        return tuple((part, 1) for part in parts)
    if isinstance(raw, list):
        return tuple(entry for part in raw for entry in _to(part))
    if isinstance(raw, dict):
        return tuple(_counted(key, count) for key, count in raw.items())
    raise ValueError('must be a pocket, such as "3·4", or a page number')


def _counted(key: str, count: object) -> tuple[str | int, int]:
    if isinstance(count, bool) or not isinstance(count, int) or not 1 <= count <= MOST_COPIES:
        raise ValueError(f'the count for "{key}" must be a whole number from 1 to {MOST_COPIES}')
    return key, count


def _ribbon_to(raw: Any, info: ValidationInfo) -> tuple[tuple[str, Fraction], ...]:
    if not isinstance(raw, dict):
        raise ValueError('must give a length for each pocket, such as { "1·2" = "18 in" }')
    return tuple((key, parse_cord(value, _unit(info))) for key, value in raw.items())


def _names(raw: object) -> object:
    return [raw] if isinstance(raw, str) else raw


def _face(raw: object) -> object:
    return {"name": raw, "colour": raw} if isinstance(raw, str) else raw


def _give(raw: object) -> object:
    return {"name": raw} if isinstance(raw, str) else raw


def _schema(*kinds: str, note: str = "") -> WithJsonSchema:
    forms: list[dict[str, object]] = [{"type": kind} for kind in kinds]
    out: dict[str, object] = forms[0] if len(forms) == 1 else {"anyOf": forms}
    return WithJsonSchema({**out, "description": note} if note else out)


def _length(raw: Any, info: ValidationInfo) -> Fraction:
    return parse_length(raw, _unit(info))


def _cord(raw: Any, info: ValidationInfo) -> Fraction:
    return parse_cord(raw, _unit(info))


def _size(raw: Any, info: ValidationInfo) -> Size:
    if not isinstance(raw, str):
        raise ValueError('must be a size in quotes, such as "4 x 6"')
    return parse_size(raw, _unit(info))


def _colour(raw: Any) -> tuple[int, int, int]:
    if not isinstance(raw, str):
        raise ValueError("must be a colour word or #rrggbb in quotes")
    return parse_colour(raw)


Name = Annotated[str, BeforeValidator(_one_line), Field(min_length=1, max_length=60)]
Line = Annotated[str, BeforeValidator(_one_line), Field(max_length=300)]
Note = Annotated[str, BeforeValidator(_text), Field(max_length=4000)]
Length = Annotated[
    Fraction,
    PlainValidator(_length),
    _schema("string", "number", note="A length: 9 1/2, 9½, 9.5, 241 mm, 24.1 cm"),
]
Cord = Annotated[
    Fraction,
    PlainValidator(_cord),
    _schema("string", "number", note="A length of ribbon or thread: 18 in, 1 yd, 2 m"),
]
SizeText = Annotated[
    Size, PlainValidator(_size), _schema("string", note="Width x height: 3 1/2 x 5 1/2")
]
Colour = Annotated[
    tuple[int, int, int],
    PlainValidator(_colour),
    _schema("string", note="A CSS colour word, or #rrggbb"),
]
To = Annotated[
    tuple[tuple[str | int, int], ...],
    PlainValidator(_to),
    WithJsonSchema(
        {
            "description": "Pocket or page: 3, '3·4', 'page 3', '1 to 3·4, 2 to 5·6', a table "
            "of counts",
            "anyOf": [
                {"type": "integer"},
                {"type": "string"},
                {"type": "array", "items": {"type": ["integer", "string"]}},
                {"type": "object", "additionalProperties": {"type": "integer", "minimum": 1}},
            ],
        }
    ),
]
RibbonTo = Annotated[
    tuple[tuple[str, Fraction], ...],
    PlainValidator(_ribbon_to),
    WithJsonSchema(
        {
            "type": "object",
            "description": "A length for each pocket",
            "additionalProperties": {"type": ["string", "number"]},
        }
    ),
]
MarkText = Annotated[
    Mark,
    PlainValidator(_mark),
    _schema("string", "number", note="A ruler number, 'about 11', or 'line' (next printed line)"),
]
Lay = Annotated[
    tuple[str, str],
    PlainValidator(_lay),
    _schema("string", note="'top edge at left', or a landmark: 'lighthouse at bottom left'"),
]
Place = Annotated[
    str,
    PlainValidator(_place),
    WithJsonSchema({"type": "string", "enum": [*SIDES, *CORNERS]}),
]
Names = Annotated[
    list[Name],
    BeforeValidator(_names),
    WithJsonSchema(
        {"anyOf": [{"type": "string"}, {"type": "array", "items": {"type": "string"}}]}
    ),
]
PageNumber = Annotated[int, Field(ge=1, le=MOST_PAGES)]
WaitWord = Literal["trimmer away", "after filing"]
SideWord = Literal["face", "reverse"]


class Table(BaseModel):
    """A table of the kit file: unknown keys are errors, kinds are not guessed."""

    model_config = ConfigDict(extra="forbid", frozen=True, strict=True)


class FaceTable(Table):
    """One side of a paper."""

    name: Name
    colour: Colour


def _face_schema(_: object = None) -> WithJsonSchema:
    return WithJsonSchema(
        {
            "description": "A colour word or #rrggbb, or a table with name and colour",
            "anyOf": [
                {"type": "string"},
                {
                    "type": "object",
                    "properties": {"name": {"type": "string"}, "colour": {"type": "string"}},
                    "required": ["name", "colour"],
                    "additionalProperties": False,
                },
            ],
        }
    )


FaceText = Annotated[FaceTable, BeforeValidator(_face), _face_schema()]


class PocketTable(Table):
    """[[pocket]]: one compartment, labelled with its pages."""

    label: Name
    pages: Annotated[list[PageNumber], Field(min_length=1, max_length=40)]


class MadeOf(Table):
    """What paper a thing is made of: by name, or said on the spot."""

    paper: Name | None = None
    kind: Literal["plain", "print"] | None = None
    face: FaceText | None = None
    reverse: FaceText | None = None
    directional: bool | None = None
    landmarks: dict[Name, Place] | None = None


class PaperTable(Table):
    """[[paper]]: a paper that several sheets or pieces share."""

    name: Name
    kind: Literal["plain", "print"] = "plain"
    face: FaceText
    reverse: FaceText | None = None
    directional: bool = False
    landmarks: dict[Name, Place] = Field(default_factory=dict)


class SheetTable(MadeOf):
    """[[sheet]]: one sheet as packed."""

    name: Name
    size: SizeText | None = None
    base: PageNumber | None = None
    cut_apart: bool = False
    wait: WaitWord | None = None
    note: Note = ""


class TiedTable(Table):
    """What all kinds of pieces may say."""

    goes_with: Names = Field(default_factory=list)
    backs: Names = Field(default_factory=list)
    completes: Names = Field(default_factory=list)
    traced_from: Names = Field(default_factory=list)
    turnable: bool | None = None
    smaller_by: Length | None = None
    words: Line = ""
    picture: Line = ""
    use: SideWord = "face"
    note: Note = ""


class PieceTable(TiedTable):
    """[[piece]]: a kind of piece cut from the sheets."""

    name: Name
    to: To | None = None
    size: SizeText | None = None


class PackedTable(TiedTable, MadeOf):
    """[[precut]] and [[embellishment]]: packed ready made."""

    name: Name
    to: To | None = None
    with_: Name | None = Field(default=None, alias="with")
    size: SizeText | None = None
    colour: Colour | None = None
    small: bool = False


class RibbonTable(Table):
    """[[ribbon]]: by length."""

    name: Name
    colour: Colour
    length: Cord
    to: RibbonTo
    goes_with: Names = Field(default_factory=list)
    note: Note = ""


class SetAsideTable(Table):
    """[[set_aside]]: put aside at the start, called for later."""

    name: Name
    pages: Annotated[list[PageNumber], Field(max_length=MOST_PAGES)] = Field(default_factory=list)
    note: Note = ""


class GiveTable(Table):
    """One part of a cut; with a destination it declares a piece on the spot."""

    name: Name
    to: To | None = None
    size: SizeText | None = None
    use: SideWord | None = None
    note: Note = ""


GiveText = Annotated[
    GiveTable,
    BeforeValidator(_give),
    WithJsonSchema(
        {
            "anyOf": [
                {"type": "string"},
                {
                    "type": "object",
                    "properties": {
                        key: {} for key in ("name", "to", "size", "use", "note")
                    },
                    "required": ["name"],
                    "additionalProperties": False,
                },
            ]
        }
    ),
]


def _gives_tag(raw: object) -> str:
    return "each" if isinstance(raw, list) else "alike"


Gives = Annotated[
    Annotated[GiveText, Tag("alike")]
    | Annotated[list[GiveText], Field(max_length=MOST_MARKS), Tag("each")],
    Discriminator(_gives_tag),
]


class StepTable(Table):
    """[[step]]: one load of the trimmer, or one hand step; exactly one verb."""

    trim: Name | None = None
    knife: Name | None = None
    tear: Name | None = None
    fussy_cut: Name | None = None
    trace: Name | None = None
    slit: Name | None = None
    punch: Name | None = None
    do: Line | None = None
    up: SideWord = "face"
    lay: Lay | None = None
    advised: bool = False
    turn: Literal["quarter", "left", "right", "half"] | None = None
    marks: Annotated[list[MarkText], Field(max_length=MOST_MARKS)] = Field(default_factory=list)
    widths: Annotated[list[Length], Field(max_length=MOST_MARKS)] = Field(default_factory=list)
    edge: Literal["top", "right", "bottom", "left"] = "right"
    gives: Gives | None = None
    rest: GiveText | None = None
    around: Name | None = None
    for_: Name | None = Field(default=None, alias="for")
    length: Length | None = None
    times: Annotated[int, Field(ge=1, le=MOST_TIMES)] = 1
    optional: bool = False
    wait: WaitWord | None = None
    tools: Names = Field(default_factory=list)
    needs: Names = Field(default_factory=list)
    note: Note = ""


class Head(Table):
    """The keys at the top of a kit file."""

    dryfit: Annotated[int, Field(description="The format's number: 1")]
    title: Line
    edition: Line = ""
    author: Line = ""
    note: Note = ""
    unit: Literal["in", "cm", "mm"] = "in"
    page: SizeText
    pages: PageNumber
    scraps: (
        Annotated[int, Field(ge=0, le=MOST_TABLES)] | Annotated[list[SizeText], Field()] | None
    ) = None
    stack: Literal["face down", "face up"] = "face down"
    order: Names = Field(default_factory=list)
    ruler: Length | None = None


class KitFile(Head):
    """A whole kit file; read table by table, so this stands for the schema alone."""

    pocket: list[PocketTable] = Field(default_factory=list)
    paper: list[PaperTable] = Field(default_factory=list)
    sheet: list[SheetTable] = Field(default_factory=list)
    precut: list[PackedTable] = Field(default_factory=list)
    embellishment: list[PackedTable] = Field(default_factory=list)
    ribbon: list[RibbonTable] = Field(default_factory=list)
    set_aside: list[SetAsideTable] = Field(default_factory=list)
    piece: list[PieceTable] = Field(default_factory=list)
    step: list[StepTable] = Field(default_factory=list)


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

VERBS = ("trim", "knife", "tear", "fussy_cut", "trace", "slit", "punch", "do")


def keys_of(table: type[Table]) -> list[str]:
    """The keys that a table knows, as they are written in the file."""
    return [field.alias or name for name, field in table.model_fields.items()]


def kit_schema() -> dict[str, Any]:
    """The JSON Schema (draft 2020-12) of a kit file, for editors."""
    schema = KitFile.model_json_schema(by_alias=True)
    schema["$schema"] = "https://json-schema.org/draft/2020-12/schema"
    schema["title"] = "dryfit kit"
    return schema


