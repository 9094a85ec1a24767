"""Reading a kit file: its text becomes a plan, or everything that is wrong with it.

A syntax error is told alone, with its place. After that all errors of meaning are
collected in one go: each table is read by itself, and what could be read is looked
through as far as it makes sense.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Mapping
from typing import Any

from model import kitfile as f
from model import limits
from model.astyped import put_back
from model.building import Builder
from model.compiling import compile_kit
from model.finding import Finding, Findings, Path, clean
from model.garbage import kept
from model.kit import Kit
from model.length import NumberText
from model.names import Doubts
from model.plan import Plan
from model.read import Read, too_large
from model.shapes import read_head, read_tables
from model.syntax import mend, shorten
from model.toml_lines import TomlLines

# tomllib takes time that grows with the square of a dotted key's parts: told before it is asked.
_MANY_PARTS = re.compile(r"""(?<![\w-])(?:(?:[\w-]++|"[^"\n]*+"|'[^'\n]*+')[ \t]*+\.[ \t]*+){64}""")


# What is found by comparing lengths.
_BY_LENGTH = frozenset({
    "mark-order", "mark-outside", "tear-outside", "size-differs", "name-two-sizes",
    "larger-than-page", "narrowest-first", "scraps-differ", "page-small",
})  # fmt: skip
# Last of all, and without a line: it speaks of all that stands before it.
_MORE = Finding(
    "more-may-follow",
    (),
    "what hangs on these is not checked yet",
    "more may follow when they are mended",
    grave=False,
)


@kept()
def read_text(text: str) -> Read:
    """Read the text of a kit file.

    Args:
        text: The whole text.

    Returns:
        The plan, or all that is wrong with it, with lines.
    """
    text = text.replace("\r\n", "\n")
    raw = toml_of(text)
    if isinstance(raw, Finding):
        return Read(None, (raw,), text)
    findings, doubts = Findings(), Doubts()
    lines = TomlLines(text)
    wrong = _other_format(raw, lines)
    if wrong is not None:
        return Read(None, (wrong,), text)
    put_back(raw, text, lines)
    plan = _look_through(raw, findings, doubts)
    found = in_file_order(lines, findings)
    if findings.stop and doubts.excused:
        found = (*found, _MORE)
    return Read(None if findings.stop else plan, found, text)


def read_draft(text: str) -> tuple[Kit | None, tuple[Finding, ...]]:
    """Read a kit that has no steps yet: its papers, sheets and pieces.

    Args:
        text: The whole text, of which `read_text` has found that steps are missing.

    Returns:
        The kit without any work, or all that is wrong with it, with lines.
    """
    text = text.replace("\r\n", "\n")
    raw = toml_of(text)
    if isinstance(raw, Finding):
        return None, (raw,)
    lines, findings = TomlLines(text), Findings()
    put_back(raw, text, lines)
    # What steps will make may be spoken of already.
    doubts = Doubts(wordless=True, arrays={"step"}, cuts=True, takes=True)
    kit = _built(raw, findings, doubts)
    return None if findings.stop else kit, in_file_order(lines, findings)


def toml_of(text: str) -> dict[str, Any] | Finding:
    """The tables of a TOML text, its fractional numbers as typed; or why there are none.

    Args:
        text: The whole text, its lines ended by newlines alone.
    """
    if len(text) > limits.MOST_BYTES:
        return too_large()
    dotted = _MANY_PARTS.search(text)
    if dotted:
        return _too_deep(text.count("\n", 0, dotted.start()) + 1)
    try:
        raw = tomllib.loads(text, parse_float=NumberText)
    except RecursionError:
        return _too_deep(1)
    except ValueError as error:  # its own error is one, and so is that of a number of 5000 digits
        return _syntax_error(text, error)
    deep = _deepest(raw)
    return _too_deep(TomlLines(text).line_of(deep)) if deep else raw


def _other_format(raw: Mapping[str, Any], lines: TomlLines) -> Finding | None:
    version = raw.get("dryfit")
    if not isinstance(version, int) or isinstance(version, bool) or version == f.FORMAT:
        return None
    said = version if abs(version) < 10**6 else "another"
    return Finding(
        "format",
        ("dryfit",),
        f"this dryfit reads kits of format {f.FORMAT}, the file says {said}",
        f"write dryfit = {f.FORMAT}, or use a newer dryfit",
        lines.line_of(("dryfit",)),
    )


def in_file_order(lines: TomlLines, findings: Findings) -> tuple[Finding, ...]:
    """The findings with their lines, each once."""
    located = [
        finding.at(*(lines.line_of(where) for where in (finding.where, *finding.also)))
        for finding in findings.all
    ]
    return tuple(dict.fromkeys(sorted(located, key=lambda finding: finding.line)))


def _too_deep(line: int) -> Finding:
    return Finding(
        "too-deep",
        (),
        f"tables or lists lie more than {limits.MOST_DEPTH} deep in one another",
        "a kit needs no more than six",
        line,
    )


def _deepest(raw: Mapping[str, Any]) -> Path:
    """The place where tables and lists lie too deep in one another; empty when they don't."""
    # A loop, since what comes from a file may be deeper than Python can call itself.
    waiting: list[tuple[Any, Path]] = [(raw, ())]
    while waiting:
        value, path = waiting.pop()
        if len(path) > limits.MOST_DEPTH:
            return path
        if isinstance(value, dict):
            waiting += [(v, (*path, k)) for k, v in value.items() if isinstance(v, (dict, list))]
        else:
            waiting += [(v, (*path, n)) for n, v in enumerate(value) if isinstance(v, (dict, list))]
    return ()


def _syntax_error(text: str, error: ValueError) -> Finding:
    said = str(error)
    place = re.search(r"\(at line ([0-9]+), column ([0-9]+)\)", said)
    told = int(place[1]) if place else text.count("\n") + 1
    column = int(place[2]) if place else 0
    what = re.sub(r"\s*\(at .*\)$", "", said)
    if not isinstance(error, tomllib.TOMLDecodeError):
        return _not_toml(1, "a number in it is too long", "")
    line, remedy = mend(text, told, column, what)
    if line != told:
        column = 0
    if column:
        what = f"column {column}: {what}"
    shown = shorten(text.split("\n", line)[line - 1], column or 1)
    return _not_toml(line, f"{what}, in: {shown}" if shown else what, remedy)


def _not_toml(line: int, what: str, remedy: str) -> Finding:
    return Finding(
        "syntax",
        (),
        clean(f"this is not TOML, {what}"),
        clean(f"{remedy or 'mend this first'}; the rest is read after that"),
        line,
    )


def _look_through(raw: Mapping[str, Any], findings: Findings, doubts: Doubts) -> Plan | None:
    kit = _built(raw, findings, doubts)
    if not kit.work and not raw.get("step") and "step" not in doubts.arrays:
        findings.grave("no-steps", (), "the kit has no steps", "add a [[step]]")
        return None
    if "unit" not in doubts.head:
        return compile_kit(kit, findings, doubts)
    # No length can be told, but what is taken and made can.
    doubts.excused = True
    blind = Findings()
    compile_kit(kit, blind, doubts)
    findings.all += [each for each in blind.all if each.code not in _BY_LENGTH]
    return None


def _built(raw: Mapping[str, Any], findings: Findings, doubts: Doubts) -> Kit:
    head = read_head(raw, findings, doubts)
    tables = {array: read_tables(raw, array, findings, doubts) for array in f.TABLES}
    return Builder(head, tables, findings, doubts).build()
