"""Reading a kit file: its text becomes a plan, or everything that is wrong with it.

A syntax error is told alone, with its place. After that all errors of meaning are
collected in one go: each table is read by itself, and what could be read is looked
through as far as it makes sense.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path as FilePath
from typing import Any

from pydantic import ValidationError
from pydantic_core import ErrorDetails

from model import kitfile as f
from model.building import Builder
from model.compiling import compile_kit
from model.finding import Finding, Findings, KitError, Path, did_you_mean
from model.length import NumberText, Unit
from model.plan import Plan
from model.toml_lines import TomlLines


@dataclass(frozen=True, slots=True)
class Read:
    """What came of reading a kit file.

    Attributes:
        plan: The plan; None when something grave was found.
        findings: Everything found, in file order; remarks too.
        text: The text that was read.
    """

    plan: Plan | None
    findings: tuple[Finding, ...]
    text: str


def load_kit(path: FilePath) -> Read:
    """Read a kit file.

    Args:
        path: The file.

    Returns:
        What came of it.

    Raises:
        KitError: The file can't be opened or is too large, or is no text.
    """
    try:
        with path.open("rb") as file:
            raw = file.read(f.MOST_BYTES + 1)
    except OSError as error:
        what = f"can't be read ({error.strerror or error})"
        raise KitError([Finding("unreadable", (), what, "check the path")], str(path)) from None
    if len(raw) > f.MOST_BYTES:
        what = f"is larger than {f.MOST_BYTES // 1024 // 1024} MiB, the most for a kit file"
        raise KitError([Finding("too-large", (), what)], str(path))
    try:
        text = raw.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = raw[: error.start].count(b"\n") + 1
        finding = Finding("not-utf8", (), "is not UTF-8 text", "save it as UTF-8", line)
        raise KitError([finding], str(path)) from None
    return read_kit(text)


def read_kit(text: str) -> Read:
    """Read the text of a kit file.

    Args:
        text: The whole text.

    Returns:
        The plan, or all that is wrong with it, with lines.
    """
    text = text.replace("\r\n", "\n")
    try:
        raw = tomllib.loads(text, parse_float=NumberText)
    except tomllib.TOMLDecodeError as error:
        return Read(None, (_syntax_error(text, error),), text)
    except RecursionError:
        finding = Finding("too-deep", (), "arrays or tables are nested too deeply", line=1)
        return Read(None, (finding,), text)
    findings = Findings()
    plan = _look_through(raw, findings)
    lines = TomlLines(text)
    located = sorted(
        (finding.at(lines.line_of(finding.where)) for finding in findings.all),
        key=lambda finding: finding.line,
    )
    unique = tuple(dict.fromkeys(located))
    return Read(None if findings.stop else plan, unique, text)


def _syntax_error(text: str, error: tomllib.TOMLDecodeError) -> Finding:
    said = str(error)
    place = re.search(r"\(at line (\d+), column (\d+)\)", said)
    line = int(place[1]) if place else text.count("\n") + 1
    what = re.sub(r"\s*\(at .*\)$", "", said)
    column = f", column {place[2]}" if place else ""
    return Finding(
        "syntax", (), f"this is not TOML{column}: {what}",
        "mend this first; the rest is read after that", line,
    )


def _look_through(raw: Mapping[str, Any], findings: Findings) -> Plan | None:
    excused: set[str] = set()
    head = _head(raw, findings)
    if head is None:
        excused.add("pocket")
    unit = _unit(raw)
    tables = {
        array: _tables(raw, array, model, unit, findings, excused)
        for array, model in f.TABLES.items()
    }
    if head is None:
        return None
    builder = Builder(head, tables, findings, excused)
    kit = builder.build()
    if not kit.work and not excused:
        findings.grave("no-steps", (), "the kit has no steps", "add a [[step]]")
    # A broken kit is looked through too, as far as what hangs on broken parts is excused.
    if findings.stop:
        excused |= {"", *_broken_names(findings, kit.kinds, kit.sheets)}
    return compile_kit(kit, findings, excused)


def _broken_names(findings: Findings, kinds: Mapping[str, Any], sheets: Any) -> set[str]:
    """Names of the tables that something grave was said of."""
    broken = {finding.where[:2] for finding in findings.all if finding.grave}
    named = [(kind.where, kind.name) for kind in kinds.values()]
    named += [(sheet.where, sheet.name) for sheet in sheets]
    return {name for where, name in named if where[:2] in broken}


def _unit(raw: Mapping[str, Any]) -> Unit:
    try:
        return Unit(raw.get("unit", "in"))
    except ValueError:
        return Unit.IN


def _head(raw: Mapping[str, Any], findings: Findings) -> f.Head | None:
    version = raw.get("dryfit")
    if version is not None and version != f.FORMAT:
        findings.grave(
            "format", ("dryfit",), f"this dryfit reads format {f.FORMAT}, the file says {version}",
            f"write dryfit = {f.FORMAT}, or use a newer dryfit",
        )
    top = {}
    known = [*f.keys_of(f.Head), *f.TABLES]
    for key, value in raw.items():
        if key in f.TABLES:
            continue
        if key in f.Head.model_fields:
            top[key] = value
        else:
            findings.grave("unknown-key", (key,), f'unknown key "{key}"', did_you_mean(key, known))
    try:
        return f.Head.model_validate(top, context={"unit": _unit(raw)})
    except ValidationError as error:
        _shape_errors(error, top, (), f.Head, findings)
        return None


def _tables(
    raw: Mapping[str, Any],
    array: str,
    model: type[f.Table],
    unit: Unit,
    findings: Findings,
    excused: set[str],
) -> list[tuple[int, f.Table]]:
    """The readable tables of one array; names of the others are excused."""
    entries = raw.get(array, [])
    if not isinstance(entries, list) or not all(isinstance(e, dict) for e in entries):
        findings.grave(
            "not-tables", (array,), f'"{array}" must be tables', f"write [[{array}]] above each"
        )
        excused.add(array)
        return []
    if len(entries) > f.MOST_TABLES:
        findings.grave(
            "too-many", (array,), f"more than {f.MOST_TABLES} [[{array}]] tables"
        )
        return []
    read: list[tuple[int, f.Table]] = []
    for index, entry in enumerate(entries):
        try:
            read.append((index, model.model_validate(entry, context={"unit": unit})))
        except ValidationError as error:
            _shape_errors(error, entry, (array, index), model, findings)
            excused.add(array)
            excused.update(_names_in(entry))
    return read


def _names_in(entry: Mapping[str, Any]) -> set[str]:
    """Names that a broken table claims or makes."""
    names: set[str] = set()
    gives = entry.get("gives", [])
    for value in (entry.get("name"), entry.get("rest"), *(gives if isinstance(gives, list) else
                                                          [gives])):
        if isinstance(value, dict):
            value = value.get("name")
        if isinstance(value, str):
            names.add(value)
    return names


def _shape_errors(
    error: ValidationError,
    raw: Mapping[str, Any],
    where: Path,
    model: type[f.Table],
    findings: Findings,
) -> None:
    for detail in error.errors(include_url=False, include_input=False):
        path, missing = _real_path(raw, detail["loc"])
        what, remedy = _in_words(detail, path, missing, model)
        findings.grave(detail["type"].replace("_", "-"), (*where, *path), what, remedy)


def _real_path(raw: Any, loc: tuple[int | str, ...]) -> tuple[Path, str]:
    """Where an error stands in the file; pydantic's own labels in between are dropped.

    Returns:
        The path as far as it exists, and the missing key's name, if one is missing.
    """
    path: list[int | str] = []
    here = raw
    for part in loc:
        if isinstance(here, dict) and part in here:
            here = here[part]
            path.append(part)
        elif isinstance(here, list) and isinstance(part, int) and part < len(here):
            here = here[part]
            path.append(part)
        elif isinstance(here, dict) and part == loc[-1] and isinstance(part, str):
            return tuple(path), part
    return tuple(path), ""


def _in_words(
    detail: ErrorDetails, path: Path, missing: str, model: type[f.Table]
) -> tuple[str, str]:
    kind = detail["type"]
    key = f'"{path[-1]}"' if path and isinstance(path[-1], str) else _entry(path)
    context = detail.get("ctx", {})
    if kind == "missing":
        return f'"{missing or detail["loc"][-1]}" is missing', "add it"
    if kind == "extra_forbidden":
        if len(path) > 1:
            return f"unknown key {key}", ""
        return f"unknown key {key}", did_you_mean(str(path[-1]), f.keys_of(model))
    if kind in ("value_error", "assertion_error"):
        said = str(context.get("error", detail["msg"]))
        return f"{key}: {said}", ""
    if kind == "literal_error":
        return f"{key} is none of the words known here", f"write {context.get('expected', '')}"
    words = {
        "string_type": "must be text in quotes",
        "int_type": "must be a whole number",
        "bool_type": "must be true or false",
        "list_type": "must be a list in [ ]",
        "dict_type": "must be a table",
        "model_type": "must be a table",
        "string_too_short": "must not be empty",
    }
    if kind in words:
        return f"{key} {words[kind]}", ""
    if kind == "string_too_long":
        return f"{key} is longer than {context.get('max_length')} characters", ""
    if kind in ("greater_than_equal", "less_than_equal"):
        bound = context.get("ge", context.get("le"))
        side = "at least" if kind == "greater_than_equal" else "at most"
        return f"{key} must be {side} {bound}", ""
    if kind in ("too_short", "too_long"):
        bound = context.get("min_length", context.get("max_length"))
        return f"{key} must hold {'at least' if kind == 'too_short' else 'at most'} {bound}", ""
    return f"{key}: {detail['msg']}", ""


def _entry(path: Path) -> str:
    if not path:
        return "the table"
    number = path[-1]
    named = next((p for p in reversed(path) if isinstance(p, str)), "")
    return f'entry {int(number) + 1} of "{named}"' if isinstance(number, int) else f'"{number}"'
