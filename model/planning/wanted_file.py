"""A wanted list on its own: a small TOML file of sheets, offcuts and wanted pieces.

Read with the same care as a kit: pydantic at this border only, and all that is wrong in one go.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Annotated, Any, Literal

from pydantic import Field, ValidationError

from model.astyped import put_back
from model.finding import Finding, Findings, Path, did_you_mean
from model.kitfields import Length, Line, Name, SheetName, SizeText
from model.kitfile import Table
from model.kitreader import in_file_order, toml_of
from model.length import Unit
from model.planning.task import Board, Task, Want
from model.planning.wanted import Choices, Wanted, usual_graduation
from model.planning.wanted_checks import Checker, merged, tell_twice
from model.salvage import real_path
from model.shapes import CODES, in_words
from model.toml_lines import TomlLines

FORMAT = 1
Count = Annotated[int, Field(ge=1, le=2_000)]
_MOST = 5_000  # tables of one sort: far more than can be planned, and soon looked through


class ListHead(Table):
    """The keys at the top of a wanted list."""

    wanted: int = FORMAT
    title: Line = ""
    unit: Literal["in", "cm", "mm"] = "in"
    graduation: Length | None = None
    narrowest: Length | None = None


class SheetTable(Table):
    """[[sheet]] and [[offcut]]: paper at hand, so many alike."""

    name: SheetName
    size: SizeText
    count: Count = 1
    paper: Name | None = None


class WantTable(Table):
    """[[want]]: pieces that are wanted, all alike."""

    name: Name
    size: SizeText
    count: Count = 1
    paper: Name | None = None
    turnable: bool = True
    value: Annotated[int, Field(ge=1, le=1_000_000)] | None = None
    smaller_by: Length | None = None


TABLES: dict[str, type[Table]] = {"sheet": SheetTable, "offcut": SheetTable, "want": WantTable}
"""The arrays of tables of a wanted list."""
_KNOWN = [*ListHead.model_fields, *TABLES]


def is_list(raw: Mapping[str, Any]) -> bool:
    """Whether the tables of a file are those of a wanted list, and not of a kit."""
    if "dryfit" in raw:
        return False
    return bool(raw.keys() & {"want", "wanted"}) or not raw.keys() & {"piece", "step", "page"}


def read_list(
    text: str, name: str, choices: Choices
) -> tuple[Wanted | None, tuple[Finding, ...]]:  # fmt: skip
    """Read a wanted list.

    Args:
        text: The whole text.
        name: What the file is called, where it has no title.
        choices: What is chosen over what it says.

    Returns:
        What is wanted, or all that is wrong with it, with lines.
    """
    text = text.replace("\r\n", "\n")
    raw = toml_of(text)
    if isinstance(raw, Finding):
        return None, (raw,)
    lines, findings = TomlLines(text), Findings()
    put_back(raw, text, lines)
    wanted = _Reader(raw, findings).read(name, choices)
    return None if findings.stop else wanted, in_file_order(lines, findings)


class _Reader:
    """Reads the tables, and keeps what is wrong."""

    def __init__(self, raw: Mapping[str, Any], findings: Findings) -> None:
        self.raw, self.findings = raw, findings
        unit = raw.get("unit", "in")
        # Millimetres hold any number within bounds where the unit is not known.
        self.unit = Unit(unit) if isinstance(unit, str) and unit in tuple(Unit) else Unit.MM
        self.context = {"unit": self.unit}
        self.broken: set[str] = set()

    def read(self, name: str, choices: Choices) -> Wanted | None:
        head = self._head()
        wants = [(t, at) for t, at in self._tables("want") if isinstance(t, WantTable)]
        papers = [
            (t, at) for array in ("sheet", "offcut") for t, at in self._tables(array)
            if isinstance(t, SheetTable)
        ]  # fmt: skip
        tell_twice([(want.name, at) for want, at in wants], "wanted pieces", self.findings)
        tell_twice([(sheet.name, at) for sheet, at in papers], "sheets", self.findings)
        if any(finding.code == "name-twice" for finding in self.findings.all):
            return None
        boards = [
            Board(
                sheet.name, *sheet.size, sheet.count, sheet.paper or "", left_over=at[0] == "offcut"
            )
            for sheet, at in papers
        ]
        # Where all paper is of one sort, nobody need name it.
        known = {board.paper for board in boards}
        only = next(iter(known)) if len(known) == 1 else ""
        together, names = merged(boards)
        task = Task(
            tuple(
                Want(
                    want.name, *want.size, want.count, want.paper or only,
                    want.turnable or choices.turnable, want.value, want.smaller_by or 0 * self._mm,
                )
                for want, _ in wants
            ),
            tuple(together),
            choices.graduation or head.graduation or usual_graduation(self.unit),
            choices.narrowest or head.narrowest or 0 * self._mm,
        )  # fmt: skip
        places: dict[str, Path] = {f"/{sheet.name}": at for sheet, at in papers}
        places |= {want.name: at for want, at in wants}
        broken = self.raw.get("unit", "in") not in tuple(Unit)
        if not broken:
            unsure = bool(self.broken & {"sheet", "offcut"})
            Checker(task, self.unit, places, self.findings, unsure, "want" in self.broken).run()
        called = {want.name: want.name for want, _ in wants}
        return Wanted(task, self.unit, head.title or name, names, called)

    @property
    def _mm(self) -> Any:
        return usual_graduation(Unit.MM)

    def _head(self) -> ListHead:
        top = {key: value for key, value in self.raw.items() if key not in TABLES}
        good = dict(top)
        try:
            head = ListHead.model_validate(good, context=self.context)
        except ValidationError as error:
            self._tell(error, top, (), ListHead)
            lost = {str(detail["loc"][0]) for detail in error.errors(include_input=False)}
            good = {key: value for key, value in top.items() if key not in lost}
            head = ListHead.model_validate(good, context=self.context)
        if head.wanted != FORMAT:
            self.findings.grave(
                "format", ("wanted",), f"this dryfit reads wanted lists of format {FORMAT}",
                f"write wanted = {FORMAT}, or use a newer dryfit",
            )  # fmt: skip
        return head

    def _tables(self, array: str) -> list[tuple[Table, Path]]:
        entries = self.raw.get(array, [])
        if not isinstance(entries, list) or not all(isinstance(each, dict) for each in entries):
            self.broken.add(array)
            self.findings.grave(
                "not-tables", (array,), f'"{array}" must be tables', f"write [[{array}]] above each"
            )
            return []
        if len(entries) > _MOST:
            self.broken.add(array)
            self.findings.grave(
                "too-many", (array, _MOST), f"there are more than {_MOST} [[{array}]] tables",
                "make several lists of it",
            )  # fmt: skip
            return []
        read: list[tuple[Table, Path]] = []
        for index, entry in enumerate(entries):
            where: Path = (array, index)
            try:
                read.append((TABLES[array].model_validate(entry, context=self.context), where))
            except ValidationError as error:
                self.broken.add(array)
                self._tell(error, entry, where, TABLES[array])
        return read

    def _tell(
        self, error: ValidationError, raw: Mapping[str, Any], where: Path, model: type[Table]
    ) -> None:
        details = error.errors(include_url=False, include_input=False)
        known = list(model.model_fields) if where else _KNOWN
        meant = {
            did_you_mean(str(detail["loc"][-1]), known)
            for detail in details
            if detail["type"] == "extra_forbidden"
        }
        name = raw.get("name")
        who = f'"{name}": ' if where and isinstance(name, str) and name.strip() else ""
        for detail in details:
            path, value, missing = real_path(raw, detail["loc"])
            if detail["type"] == "missing":
                lacks = missing or str(detail["loc"][-1])
                if f'did you mean "{lacks}"?' in meant:
                    continue  # it is there, misspelt
                what = f'"{lacks}" is missing'
                remedy = _EXAMPLES.get(lacks, "add it")
            elif detail["type"] == "extra_forbidden":
                key = str(path[-1])
                what, remedy = f'unknown key "{key}"', did_you_mean(key, known)
                if where and key in ListHead.model_fields:
                    remedy = "it belongs at the top of the file, above the first table"
            else:
                what, remedy = in_words(detail, path, value, missing, model)
            code = CODES.get(detail["type"], "wrong-type")
            self.findings.grave(code, (*where, *path), who + what, remedy)


_EXAMPLES = {"name": 'add name = "..."', "size": 'add size = "4 x 6"'}
