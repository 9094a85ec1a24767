"""What is wanted, from a file: a wanted list, a kit, or the draft of one."""

from __future__ import annotations

from pathlib import Path

from model.finding import Finding, Findings
from model.kitreader import in_file_order, read_draft, toml_of
from model.length import Unit
from model.planning.wanted import Choices, Wanted
from model.planning.wanted_file import is_list, read_list
from model.planning.wanted_kit import wanted_of_draft, wanted_of_plan
from model.read import Read
from model.reading import load_kit, read_kit
from model.toml_lines import TomlLines


def load_wanted(
    path: Path, choices: Choices
) -> tuple[Wanted | None, tuple[Finding, ...], str]:  # fmt: skip
    """Read what is wanted from a file.

    Args:
        path: The file.
        choices: What is chosen over what it says.

    Returns:
        What is wanted, None where that can't be told; all findings, with lines; the text.

    Raises:
        KitError: The file can't be opened or is too large, or is no text.
    """
    texts: list[str] = []

    def keep(text: str) -> Read:
        texts.append(text.replace("\r\n", "\n"))
        return Read(None, (), text)

    load_kit(path, keep)
    (text,) = texts
    return (*read_wanted(text, path.stem, choices), text)


def read_wanted(
    text: str, name: str, choices: Choices
) -> tuple[Wanted | None, tuple[Finding, ...]]:  # fmt: skip
    """Read what is wanted from the text of a file.

    Args:
        text: The whole text.
        name: What it is called, where it has no title.
        choices: What is chosen over what it says.
    """
    raw = toml_of(text)
    if isinstance(raw, Finding):
        return None, (raw,)
    if "session" in raw:
        what = "this is a session"
        return None, (Finding("session", ("session",), what, "name the kit that it began with"),)
    if is_list(raw):
        return read_list(text, name, choices)
    read = read_kit(text)
    findings = Findings()
    remarks: tuple[Finding, ...] = ()
    if read.plan is not None:
        wanted = wanted_of_plan(read.plan, choices, findings)
    else:
        grave = [each for each in read.findings if each.grave]
        if [each.code for each in grave] != ["no-steps"] and raw.get("step"):
            return None, read.findings
        kit, remarks = read_draft(text)
        if kit is None:
            return None, remarks
        wanted = wanted_of_draft(kit, choices, findings)
    found = in_file_order(TomlLines(text), findings)
    return None if findings.stop else wanted, (*remarks, *found)


def unit_of_file(path: Path) -> Unit:
    """The unit of lengths that are written without one in a file; inches where nobody knows.

    Args:
        path: The file.
    """
    try:
        raw = toml_of(path.read_text(encoding="utf-8-sig"))
    except (OSError, ValueError):
        return Unit.IN
    unit = raw.get("unit") if isinstance(raw, dict) else None
    return Unit(unit) if isinstance(unit, str) and unit in tuple(Unit) else Unit.IN
