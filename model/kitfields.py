"""The values of a kit file, each read from what a person wrote, with its JSON Schema.

Lengths are read here, in the kit's unit, which comes in the validation context as
``{"unit": Unit}``. What a name refers to is looked at later, in `model.building`.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Callable, Iterable, Sequence
from fractions import Fraction
from typing import Annotated, Any, Literal, TypeVar, get_args

from pydantic import BeforeValidator, Field, PlainValidator, ValidationInfo, WithJsonSchema

from model import limits
from model.colour import parse_colour
from model.finding import Path
from model.geometry import CORNERS, SIDES
from model.kit import Mark, Size
from model.length import NumberText, Unit, parse_cord, parse_length, parse_size
from model.meant import meant_lay, meant_place

_LINE_WORDS = ("line", "next line", "printed line", "next printed line", "the next printed line")
_ABOUT = re.compile(r"\s*(?:at\s+)?about\s+(.+)", re.IGNORECASE | re.DOTALL)
_LAY = re.compile(r"\s*(?:the )?(.+?) at (?:the )?([a-z ]+?)\s*")
_COUNTED = re.compile(r"([0-9]{1,6})\s+to\s+(.+)")
_JOINERS = "\u200c\u200d"  # some scripts are not written without them
_POCKET = 'must be a pocket, such as "3·4", or a page number'

T = TypeVar("T")
U = TypeVar("U")

ToEntry = tuple[str | int, int]
"""A destination as written (a pocket's label, ``page N``, or a page number), and a count."""


class SeveralErrors(ValueError):
    """Several things that are wrong in one value.

    Attributes:
        parts: Each with its place in the value.
    """

    def __init__(self, parts: Sequence[tuple[Path, ValueError]]) -> None:
        """Keep them apart, so that each is told with its line."""
        super().__init__("; ".join(str(error) for _, error in parts))
        self.parts = tuple(parts)


def _each(entries: Iterable[tuple[str | int, T]], read: Callable[[T], U]) -> list[U]:
    """Read all entries of a value.

    Raises:
        SeveralErrors: Some can't be read; with the places of all of these.
    """
    found: list[U] = []
    wrong: list[tuple[Path, ValueError]] = []
    for at, entry in entries:
        try:
            found.append(read(entry))
        except ValueError as error:
            wrong.append(((at,), error))
    if wrong:
        raise SeveralErrors(wrong)
    return found


def _unit(info: ValidationInfo) -> Unit:
    return info.context["unit"] if info.context else Unit.IN


def _shows(char: str) -> bool:
    """Whether a character can be shown without upsetting what stands around it."""
    kind = unicodedata.category(char)
    return kind not in ("Cc", "Cf", "Cs", "Cn", "Zl", "Zp") or char in _JOINERS


def _text(raw: object) -> object:
    if isinstance(raw, NumberText):
        raise ValueError("must be text in quotes")
    if isinstance(raw, str) and not all(_shows(c) or c in "\n\t" for c in raw):
        raise ValueError("must not hold control characters")
    return raw


def _one_line(raw: object) -> object:
    text = _text(raw)
    if isinstance(text, str):
        if "\n" in text or "\t" in text:
            raise ValueError("must be one line")
        return " ".join(text.split(" ")).strip()
    return text


def _sheet_name(raw: object) -> object:
    name = _one_line(raw)
    if isinstance(name, str) and ("/" in name or "#" in name):
        raise ValueError("must not hold / or #, which tell the parts of a sheet apart")
    return name


def _label(raw: object) -> object:
    label = _one_line(raw)
    if isinstance(label, str):
        if not any(c.isalnum() for c in label):
            raise ValueError("must hold a letter or a digit")
        if "," in label or _COUNTED.fullmatch(label):
            raise ValueError(
                'must not hold a comma or be like "2 to 5", which count copies; write "2·5"'
            )
    return label


def _mark(raw: Any, info: ValidationInfo) -> Mark:
    if isinstance(raw, str) and not isinstance(raw, NumberText):
        if " ".join(raw.casefold().split()) in _LINE_WORDS:
            return Mark(None)
        about = _ABOUT.fullmatch(raw)
        if about:
            return Mark(parse_length(about[1].strip(), _unit(info)), about=True)
    return Mark(parse_length(raw, _unit(info)))


def _lay(raw: Any) -> tuple[str, str]:
    shape = 'written as "top edge at left", or "lighthouse at bottom left"'
    if not isinstance(raw, str) or isinstance(raw, NumberText):
        raise ValueError(f"must be {shape}")
    found = _LAY.fullmatch(raw[: limits.LONGEST_LINE])
    right = meant_lay(raw)
    if not found:
        raise ValueError(f'must be written as "{right}"' if right else f"must be {shape}")
    place = " ".join(found[2].split())
    if place not in SIDES and place not in CORNERS:
        known = f"known: {', '.join((*SIDES, *CORNERS))}"
        remedy = f'did you mean "{right}"?' if right else known
        raise ValueError(f'"{place}" is no place on the trimmer; {remedy}')
    return found[1].strip(), place


def _place(raw: Any) -> str:
    if raw not in SIDES and raw not in CORNERS:
        right = meant_place(raw) if isinstance(raw, str) else ""
        remedy = f'; did you mean "{right}"?' if right else ""
        raise ValueError(f"must be a side or a corner, such as left or top left{remedy}")
    return str(raw)


def _to(raw: Any) -> tuple[ToEntry, ...]:
    if isinstance(raw, dict):
        entries = _each(((key, (key, count)) for key, count in raw.items()), _counted)
    elif isinstance(raw, list):
        entries = [place for places in _each(enumerate(raw), _places) for place in places]
    else:
        entries = _places(raw)
    if not entries:
        raise ValueError("must name a pocket or a page")
    if len(entries) > limits.MOST_PAGES:
        raise ValueError(f"must name at most {limits.MOST_PAGES} places")
    return tuple(entries)


def _places(raw: object) -> list[ToEntry]:
    if isinstance(raw, int) and not isinstance(raw, bool):
        if not 1 <= raw <= limits.MOST_PAGES:
            raise ValueError(f"a page must be a number from 1 to {limits.MOST_PAGES}")
        return [(raw, 1)]
    if isinstance(raw, str) and not isinstance(raw, NumberText):
        return _parted(raw)
    raise ValueError(_POCKET)


def _parted(text: str) -> list[ToEntry]:
    entries: list[ToEntry] = []
    wrong: list[str] = []
    for part in text.split(","):
        plain = part.strip()
        found = _COUNTED.fullmatch(plain)
        try:
            if not plain:
                raise ValueError(_POCKET)
            entries.append(_counted((found[2], int(found[1]))) if found else (plain, 1))
        except ValueError as error:
            wrong.append(str(error))
    if len(wrong) > 1:
        raise SeveralErrors([((), ValueError(each)) for each in dict.fromkeys(wrong)])
    if wrong:
        raise ValueError(wrong[0])
    return entries


def _counted(entry: tuple[str, object]) -> ToEntry:
    (key, count), most = entry, limits.MOST_COPIES
    if isinstance(count, bool) or not isinstance(count, int) or not 1 <= count <= most:
        shown = key if len(key) <= limits.LONGEST_NAME else key[: limits.LONGEST_NAME] + "..."
        raise ValueError(f'the count for "{shown}" must be a whole number from 1 to {most}')
    return key, count


def _ribbon_to(raw: Any, info: ValidationInfo) -> tuple[tuple[str, Fraction], ...]:
    if not isinstance(raw, dict) or not raw:
        raise ValueError('must give a length for each pocket, such as { "1·2" = "18 in" }')
    if len(raw) > limits.MOST_PAGES:
        raise ValueError(f"must name at most {limits.MOST_PAGES} places")
    unit = _unit(info)
    lengths = _each(raw.items(), lambda value: parse_cord(value, unit))
    return tuple(zip(raw, lengths, strict=True))


def _scraps(raw: Any, info: ValidationInfo) -> int | tuple[Size, ...]:
    if isinstance(raw, list):
        if len(raw) > limits.MOST_PIECES:
            raise ValueError(f"must hold at most {limits.MOST_PIECES} sizes")
        return tuple(_each(enumerate(raw), lambda each: _size(each, info)))
    if isinstance(raw, int) and not isinstance(raw, bool) and 0 <= raw <= limits.MOST_PIECES:
        return raw
    listed = _listed_scraps(raw)
    right = f"; write scraps = {listed}" if listed else ' such as ["3/4 x 3 3/4"]'
    raise ValueError(f"must be a whole number, or a list of sizes{right}")


def _listed_scraps(raw: object) -> str:
    """Sizes, or a number, that stand in one text, as they should be written; else empty."""
    if not isinstance(raw, str) or len(raw) > limits.LONGEST_NAME:
        return ""
    whole = re.fullmatch(r"\s*([0-9]{1,5})(?:\.0*)?\s*", raw)
    if whole:
        return str(int(whole[1]))
    sizes = [size.strip() for size in re.split(r"[,;]|\band\b", raw)]
    try:
        for size in sizes:
            parse_size(size, Unit.MM)
    except ValueError:
        return ""
    return "[" + ", ".join(f"'{size}'" if '"' in size else f'"{size}"' for size in sizes) + "]"


def _listed(raw: object) -> object:
    return [raw] if isinstance(raw, str) and not isinstance(raw, NumberText) else raw


def _length(raw: Any, info: ValidationInfo) -> Fraction:
    return parse_length(raw, _unit(info))


def _cord(raw: Any, info: ValidationInfo) -> Fraction:
    return parse_cord(raw, _unit(info))


def _size(raw: Any, info: ValidationInfo) -> Size:
    if not isinstance(raw, str) or isinstance(raw, NumberText):
        raise ValueError('must be a size in quotes, such as "4 x 6"')
    return parse_size(raw, _unit(info))


def _colour(raw: Any) -> tuple[int, int, int]:
    if not isinstance(raw, str) or isinstance(raw, NumberText):
        raise ValueError("must be a colour word or #rrggbb in quotes")
    return parse_colour(raw)


def _schema(note: str, **form: object) -> WithJsonSchema:
    return WithJsonSchema({**form, "description": note})


_LENGTH_FORM: dict[str, object] = {
    "anyOf": [
        {"type": "string", "pattern": "[0-9½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅐⅛⅜⅝⅞⅑⅒]"},
        {"type": "number", "exclusiveMinimum": 0},
    ]
}
_SIZE_FORM: dict[str, object] = {"type": "string", "pattern": "[0-9½¼¾⅛⅜⅝⅞].*([xX×]|[bB][yY])"}
_PLACE_FORM: dict[str, object] = {"type": "integer", "minimum": 1, "maximum": limits.MOST_PAGES}
_COUNT_FORM: dict[str, object] = {"type": "integer", "minimum": 1, "maximum": limits.MOST_COPIES}
_NAME_FORM: dict[str, object] = {
    "type": "string",
    "minLength": 1,
    "maxLength": limits.LONGEST_NAME,
}

_Short = Annotated[str, Field(min_length=1, max_length=limits.LONGEST_NAME)]
Name = Annotated[_Short, BeforeValidator(_one_line)]
SheetName = Annotated[
    _Short, BeforeValidator(_sheet_name), Field(json_schema_extra={"pattern": "^[^/#]*$"})
]
Label = Annotated[_Short, BeforeValidator(_label)]
Title = Annotated[
    str, Field(min_length=1, max_length=limits.LONGEST_LINE), BeforeValidator(_one_line)
]
Line = Annotated[str, Field(max_length=limits.LONGEST_LINE), BeforeValidator(_one_line)]
Note = Annotated[str, Field(max_length=limits.LONGEST_NOTE), BeforeValidator(_text)]
Length = Annotated[
    Fraction,
    PlainValidator(_length),
    _schema("A length: 9 1/2, 9½, 9.5, 241 mm, 24.1 cm", **_LENGTH_FORM),
]
Cord = Annotated[
    Fraction,
    PlainValidator(_cord),
    _schema("A length of ribbon or thread: 18 in, 1 yd, 2 m", **_LENGTH_FORM),
]
SizeText = Annotated[
    Size, PlainValidator(_size), _schema("Width x height: 3 1/2 x 5 1/2", **_SIZE_FORM)
]
Colour = Annotated[
    tuple[int, int, int],
    PlainValidator(_colour),
    _schema("A CSS colour word, or #rrggbb", type="string", minLength=1),
]
To = Annotated[
    tuple[ToEntry, ...],
    PlainValidator(_to),
    _schema(
        "Where copies belong: a pocket (3·4), a page (3, or page 3), counted (1 to 3·4, 2 to "
        "5·6), a list of these, or a table of counts",
        anyOf=[
            _PLACE_FORM,
            {"type": "string", "minLength": 1},
            {
                "type": "array",
                "minItems": 1,
                "items": {"anyOf": [_PLACE_FORM, {"type": "string", "minLength": 1}]},
            },
            {"type": "object", "minProperties": 1, "additionalProperties": _COUNT_FORM},
        ],
    ),
]
RibbonTo = Annotated[
    tuple[tuple[str, Fraction], ...],
    PlainValidator(_ribbon_to),
    _schema(
        "A length for each pocket",
        type="object",
        minProperties=1,
        additionalProperties=_LENGTH_FORM,
    ),
]
MarkText = Annotated[
    Mark,
    PlainValidator(_mark),
    _schema(
        "A ruler number, 'about 11', or 'line' (the next printed line)",
        anyOf=[
            {"type": "string", "minLength": 1},
            {"type": "number", "exclusiveMinimum": 0},
        ],
    ),
]
Lay = Annotated[
    tuple[str, str],
    PlainValidator(_lay),
    _schema(
        "'top edge at left', or a landmark: 'lighthouse at bottom left'",
        type="string",
        pattern=" at ",
    ),
]
Place = Annotated[
    str, PlainValidator(_place), WithJsonSchema({"type": "string", "enum": [*SIDES, *CORNERS]})
]
ScrapsText = Annotated[
    int | tuple[Size, ...],
    PlainValidator(_scraps),
    _schema(
        "How many scraps the cuts make, or their sizes",
        anyOf=[
            {"type": "integer", "minimum": 0, "maximum": limits.MOST_PIECES},
            {"type": "array", "items": _SIZE_FORM},
        ],
    ),
]
Names = Annotated[
    list[Name],
    BeforeValidator(_listed),
    WithJsonSchema({"anyOf": [_NAME_FORM, {"type": "array", "items": _NAME_FORM}]}),
]
Hazard = Literal["knife", "solvent", "heat", "small"]
Hazards = Annotated[
    list[Hazard],
    BeforeValidator(_listed),
    WithJsonSchema(
        {
            "anyOf": [
                {"type": "string", "enum": [*get_args(Hazard)]},
                {"type": "array", "items": {"type": "string", "enum": [*get_args(Hazard)]}},
            ]
        }
    ),
]
PageNumber = Annotated[int, Field(ge=1, le=limits.MOST_PAGES)]
Count = Annotated[int, Field(ge=1, le=limits.MOST_COPIES)]
WaitWord = Literal["trimmer away", "after filing"]
SideWord = Literal["face", "reverse"]
