"""Reading the tables of a kit file one by one; what has the wrong shape is told in words."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator, Mapping, Sequence
from difflib import get_close_matches
from typing import Any

from pydantic import ValidationError
from pydantic_core import ErrorDetails

from model import kitfile as f
from model.finding import Findings, Path, did_you_mean, nearest
from model.kitfields import SeveralErrors
from model.length import LengthError, NumberText, Unit
from model.limits import MOST_PAGES, MOST_TABLES
from model.meant import meant
from model.names import WORKABLE, Doubts
from model.remedies import elsewhere, example, lacks_verb, named_so, renamed, retyped, shown
from model.salvage import real_path, salvage

CODES = {
    "missing": "missing-key",
    "extra_forbidden": "unknown-key",
    "value_error": "bad-value",
    "literal_error": "unknown-word",
    "string_too_short": "empty",
    "string_too_long": "too-long",
    "too_short": "empty",
    "too_long": "too-many",
    "greater_than_equal": "out-of-bounds",
    "less_than_equal": "out-of-bounds",
}
_TYPES = {
    "string_type": "must be text in quotes",
    "int_type": "must be a whole number",
    "bool_type": "must be true or false",
    "list_type": "must be a list in [ ]",
    "dict_type": "must be a table in { }",
    "model_type": "must be a table in { }",
    "model_attributes_type": "must be a table in { }",
}
_EXPLAINED = {
    "turn": "quarter is a quarter turn clockwise, to the right; left is one the other way"
}
_NESTED: dict[str, type[f.Table]] = {
    "gives": f.GiveTable,
    "rest": f.GiveTable,
    "face": f.FaceTable,
    "reverse": f.FaceTable,
}
# Keys on which nothing else hangs, and those that tell a size.
_IDLE = frozenset({"note", "words", "picture", "tools", "small", "caution", "author", "edition"})
_SIZES = frozenset({"size", "turnable", "smaller_by"})
# Keys of which the value is no name of anything that a step takes or makes.
_NO_NAMES = frozenset(
    {
        *f.keys_of(f.StepTable), *f.keys_of(f.PieceTable), *f.keys_of(f.PackedTable),
        *f.keys_of(f.SheetTable), *f.keys_of(f.RibbonTable), *f.keys_of(f.PocketTable),
    }
) - {*f.VERBS, "name", "gives", "rest", "around", "for"} | {"do"}  # fmt: skip


def read_head(raw: Mapping[str, Any], findings: Findings, doubts: Doubts) -> f.Head:
    """Read the keys at the top; what can't be read is replaced, and noted as doubtful.

    Args:
        raw: The whole file.
        findings: Where errors go.
        doubts: Takes up the keys that could not be read.
    """
    known = [*f.keys_of(f.Head), *f.TABLES]
    top = {}
    unknown: list[str] = []
    for key, value in raw.items():
        if key in f.Head.model_fields:
            top[key] = value
        elif key not in f.TABLES:
            near = nearest(key, known)
            remedy = did_you_mean(key, known)
            doubts.head |= {near} - {*f.TABLES, *raw, ""}
            findings.grave("unknown-key", (key,), f'unknown key "{key}"', remedy)
            unknown.append(key)
            # What stands in it is left out of account, and not missed.
            array = next((each for each in f.TABLES if remedy == f'did you mean "{each}"?'), "")
            if array:
                _doubt(doubts, array, value if isinstance(value, list) else [value])
    unit = unit_of(raw)
    try:
        return f.Head.model_validate(top, context={"unit": unit})
    except ValidationError as error:
        _tell(error, top, (), f.Head, findings, unknown)
        broken = {str(detail["loc"][0]) for detail in error.errors(include_input=False)}
        doubts.head |= broken
    stand_in = {"dryfit": f.FORMAT, "title": "?", "page": "300 x 300 mm", "pages": MOST_PAGES}
    kept = {key: value for key, value in top.items() if key not in doubts.head}
    head = f.Head.model_validate({**stand_in, **kept}, context={"unit": unit})
    return head.model_copy(update={"order": _order(top["order"])}) if "order" in broken else head


def _order(raw: Any) -> list[str]:
    """The names in an order of which some are none; these are empty."""
    listed = raw if isinstance(raw, list) else []
    good = (isinstance(each, str) and not isinstance(each, NumberText) for each in listed)
    return [each.strip() if text else "" for each, text in zip(listed, good, strict=True)]


def unit_of(raw: Mapping[str, Any]) -> Unit:
    """The kit's unit; millimetres when it can't be read, which hold any number within bounds."""
    unit = raw.get("unit")
    if unit is None:  # also where its key is misspelt
        known = [*f.keys_of(f.Head), *f.TABLES]
        unit = next((raw[key] for key in raw.keys() - known if nearest(key, known) == "unit"), "in")
    return Unit(unit) if isinstance(unit, str) and unit in tuple(Unit) else Unit.MM


def read_tables(
    raw: Mapping[str, Any], array: str, findings: Findings, doubts: Doubts
) -> list[tuple[int, f.Table]]:
    """Read one array of tables.

    Args:
        raw: The whole file.
        array: The array's name, such as ``piece``.
        findings: Where errors go.
        doubts: Takes up what could not be read.

    Returns:
        The tables that could be read, with their indexes; of some of them not all keys.
    """
    entries = raw.get(array, [])
    if not isinstance(entries, list) or not all(isinstance(each, dict) for each in entries):
        findings.grave(
            "not-tables", (array,), f'"{array}" must be tables', f"write [[{array}]] above each"
        )
        _doubt(doubts, array, [entries])
        return []
    if len(entries) > MOST_TABLES:
        findings.grave(
            "too-many",
            (array, MOST_TABLES),
            f"there are more than {MOST_TABLES} [[{array}]] tables",
            "make several kits of it",
        )
        _doubt(doubts, array, entries)
        return []
    model, context = f.TABLES[array], {"unit": unit_of(raw)}
    read: list[tuple[int, f.Table]] = []
    for index, entry in enumerate(entries):
        try:
            read.append((index, model.model_validate(entry, context=context)))
        except ValidationError as error:
            _tell(error, entry, (array, index), model, findings)
            table, lost = salvage(entry, model, context, error)
            if table is None:
                _doubt(doubts, array, [entry])
            else:
                doubts.lost[array, index] = lost
                _doubt_in_part(doubts, array, entry, lost)
                read.append((index, table))
    return read


def _doubt_in_part(
    doubts: Doubts, array: str, entry: Mapping[str, Any], lost: frozenset[str]
) -> None:
    """Note what is not known where only some keys of a table are lost."""
    name = entry.get("name")
    named = isinstance(name, str) and "name" not in lost
    doubts.excused |= bool(lost - _IDLE)
    if array == "pocket":
        doubts.arrays.add(array)
    elif array == "step":
        said = [verb for verb in f.VERBS if verb in entry.keys() - lost]
        known = {key for key in ("around", "for", *said[:1]) if key not in lost and key != "do"}
        doubts.unphased |= "wait" in lost
        if not said or lost - WORKABLE:
            takes = doubts.takes
            _doubt(doubts, array, [entry], known)
            doubts.takes = takes or not said
            doubts.taking |= not said
            vague = any(key in entry and not _tells(entry[key]) for key in lost & {"gives", "rest"})
            doubts.making |= vague
            doubts.unnamed |= vague
    elif not named or lost & {"base", "bases"}:
        before = doubts.cuts, doubts.takes
        _doubt(doubts, array, [entry])
        if entry.keys() & {"base", "bases"} and not lost & {"base", "bases"}:
            doubts.cuts, doubts.takes = before  # a base is not cut, whatever it is called
    elif array == "sheet":
        doubts.unphased |= "wait" in lost
    elif array != "paper":
        name = " ".join(str(name).split())
        if lost & {"to", "with"}:
            doubts.placeless.add(name)
            if array in ("precut", "embellishment"):
                doubts.names.add(name)  # how many there are is not known
        if lost & _SIZES:
            doubts.unsized.add(name)


def _tells(value: Any) -> bool:
    """Whether parts of a cut tell their names, in whatever way."""
    if isinstance(value, list):
        return bool(value) and all(_tells(each) for each in value)
    parts = {"gives": value}
    return any((*_names_in(parts), *_keys_of_parts("step", parts)))


def _doubt(doubts: Doubts, array: str, entries: list[Any], known: Collection[str] = ()) -> None:
    """Note that nothing is known of some tables but the names in them.

    Args:
        doubts: Takes it up.
        array: The array's name.
        entries: The tables.
        known: Keys of which the value is known, and not to be doubted.
    """
    doubts.arrays.add(array)
    doubts.excused = True  # a table that can't be read is looked at no further itself
    doubts.cuts |= array in ("sheet", "step")
    doubts.takes |= array in ("sheet", "step")
    for entry in entries:
        names = [name for name in (*_names_in(entry), *_keys_of_parts(array, entry)) if name]
        if array == "step":
            doubts.wordless |= not names
        else:
            doubts.nameless |= not names and array != "pocket"
        if known:
            rest = {key: value for key, value in entry.items() if key not in known}
            names = [name for name in (*_names_in(rest), *_keys_of_parts(array, rest)) if name]
        for name in names:  # a sheet's name may be wrong for what it holds
            doubts.names.update((name, *re.split("[/#]", name)))
        if not isinstance(entry, dict):
            continue
        if isinstance(entry.get("bases"), list):
            doubts.names.update(f"{entry.get('name')} {page}" for page in entry["bases"][:400])
        keys = ("gives", "rest") if array == "step" else ("name",)
        own = [name for key in keys for name in _names_in(entry.get(key), key)]
        based = array == "sheet" and entry.keys() & {"base", "bases"}
        doubts.note_broken("base" if based else array, own)


def _keys_of_parts(array: str, entry: Any) -> Iterator[str]:
    """Names that were written as keys: ``gives = { band = 3 }``."""
    if array == "step" and isinstance(entry, dict):
        for key in ("gives", "rest"):
            if isinstance(entry.get(key), dict):
                yield from entry[key].keys() - {*f.keys_of(f.GiveTable)}


def _names_in(value: Any, key: str = "name") -> Iterator[str]:
    """Names that a broken table may claim, take or make; unknown keys may be misspelt ones."""
    if isinstance(value, str):
        yield " ".join(value.split())
    elif isinstance(value, list):
        for each in value:
            yield from _names_in(each, key)
    elif isinstance(value, dict):
        for inner, each in value.items():
            if inner not in _NO_NAMES:
                yield from _names_in(each, inner)


def _tell(
    error: ValidationError,
    raw: Mapping[str, Any],
    where: Path,
    model: type[f.Table],
    findings: Findings,
    misspelt: Sequence[str] = (),
) -> None:
    details = error.errors(include_url=False, include_input=False)
    unknown = [str(d["loc"][-1]) for d in details if d["type"] == "extra_forbidden"]
    written = [key.casefold() for key in (*unknown, *misspelt)]
    empty: set[Path] = set()
    for detail in details:
        path, value, missing = real_path(raw, detail["loc"])
        if path in empty:
            continue  # a face is a name and a colour at once
        if value == "":
            empty.add(path)
        if detail["type"] == "missing" and (
            get_close_matches(str(detail["loc"][-1]), written) or _named_by_key(path, value)
        ):
            continue  # it is there, misspelt, and told as an unknown key
        several = detail.get("ctx", {}).get("error")
        if isinstance(several, SeveralErrors):
            for part, error_of in several.parts:
                told = _said(_entry((*path, *part)), error_of)
                findings.grave("bad-value", (*where, *path, *part), *told)
            continue
        what, remedy = in_words(detail, path, value, missing, model)
        if detail["type"] == "extra_forbidden" and model is f.StepTable and len(path) == 1:
            remedy = lacks_verb(raw, unknown) or remedy
        if detail["type"] == "extra_forbidden" and len(path) == 1:
            remedy = elsewhere(str(path[0]), model) or remedy
        code = CODES.get(detail["type"], "wrong-type")
        findings.grave(code, (*where, *path), what, remedy)


def _named_by_key(path: Path, value: Any) -> bool:
    """Whether a part that lacks its name has a key that stands for it, which is told."""
    keys = set(value) - {*f.keys_of(f.GiveTable)} if isinstance(value, dict) else set()
    return bool(keys) and bool({"gives", "rest"} & set(path))


def in_words(
    detail: ErrorDetails, path: Path, value: Any, missing: str, model: type[f.Table]
) -> tuple[str, str]:
    """What is wrong with one value, and what would be right.

    Args:
        detail: What pydantic says of it.
        path: Its place in the table.
        value: The value.
        missing: The key that is missing, where the place is that of what misses it.
        model: The table's model.
    """
    kind, context = detail["type"], detail.get("ctx", {})
    key = _entry(path)
    if kind == "missing":
        name = missing or str(detail["loc"][-1])
        return f'"{name}" is missing', f"add {example(name, model)}"
    if kind == "extra_forbidden":
        nested = [_NESTED[part] for part in path[:-1] if part in _NESTED]
        known = f.keys_of(nested[-1] if nested else model)
        as_part = named_so(str(path[-1]), value) if nested[-1:] == [f.GiveTable] else ""
        return f"unknown key {key}", as_part or did_you_mean(str(path[-1]), known)
    if kind == "value_error":
        return _said(key, context.get("error", detail["msg"]))
    if kind == "literal_error":
        words = re.findall(r"'([^']*)'", str(context.get("expected", "")))
        remedy = _nearest_word(value, words) or f"write one of {', '.join(words)}"
        explained = _EXPLAINED.get(str(path[-1]) if path else "")
        remedy += f" ({explained})" if explained else ""
        return f"{key} can't be {shown(value)}", remedy
    if kind in _TYPES:
        if path and path[-1] in ("gives", "rest") and kind != "list_type":
            return f"{key} must be a name in quotes, or a table in {{ }}", renamed(path[-1], value)
        return f"{key} {_TYPES[kind]}", retyped(kind, path, value)
    if kind in ("string_too_short", "too_short"):
        return f"{key} must not be empty", ""
    if kind == "string_too_long":
        return f"{key} is longer than {context.get('max_length')} characters", "shorten it"
    if kind == "too_long":
        return f"{key} holds more than {context.get('max_length')}", "make several of it"
    if kind == "greater_than_equal":
        return f"{key} must be at least {context.get('ge')}", ""
    if kind == "less_than_equal":
        return f"{key} must be at most {context.get('le')}", ""
    return f"{key}: {detail['msg']}", ""


def _said(key: str, error: object) -> tuple[str, str]:
    """What a value that can't be read is told as, and the remedy."""
    if isinstance(error, LengthError):
        return f"{key}: {error.what}", error.remedy
    what, _, remedy = str(error).partition("; ")
    return (f"{key} {what}" if what.startswith("must") else f"{key}: {what}"), remedy


def _nearest_word(value: Any, words: list[str]) -> str:
    """The word that was probably meant, as a remedy; empty when none clearly was."""
    if isinstance(value, int) and not isinstance(value, bool):
        near = meant(shown(value), words)
        return f'did you mean "{near}"?' if near else ""
    if isinstance(value, str) and not isinstance(value, NumberText):
        return did_you_mean(value, words)
    return ""


def _entry(path: Path) -> str:
    """A key, or an entry of a list, as one speaks of it."""
    if not path:
        return "the table"
    number = path[-1]
    if isinstance(number, str):
        return f'"{number}"'
    named = next((part for part in reversed(path) if isinstance(part, str)), "")
    return f'entry {number + 1} of "{named}"'
