"""The names of a plan's parts: sheets, strips, pieces, and which loads are alike.

A table, a drawing and the tables of a kit call a part by the same name.
"""

from __future__ import annotations

import unicodedata
from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field

from model import limits
from model.kit import SCRAP
from model.planning.task import CutPlan, Part, PlannedLoad, Task


@dataclass(slots=True)
class Names:
    """Names of which each is used for one thing."""

    used: set[str] = field(default_factory=lambda: {SCRAP})

    def claim(self, wish: str) -> str:
        """A name as near to the wish as can be had."""
        name = base = clean_name(wish, limits.LONGEST_NAME - 8) or "piece"
        number = 2
        while name.casefold() in self.used:
            name, number = f"{base} {number}", number + 1
        self.used.add(name.casefold())
        return name


class PartNames:
    """The name of each part of a plan.

    Attributes:
        names: All names that are used.
        cut: The numbers of parts that are cut.
        wanted: The name of each wanted piece, by its name in the task.
        called: The name of each part, by its number; ``scrap`` for a scrap.
        runs: The loads in order; those that one step with `times` can say, together.
        strips: The numbers of parts that are cut again and no sheets.
        paper: The paper of each part.
    """

    def __init__(
        self,
        task: Task,
        plan: CutPlan,
        sheets: Mapping[str, Sequence[str]] | None = None,
        wanted: Mapping[str, str] | None = None,
        used: Iterable[str] = (),
    ) -> None:
        """Name everything.

        Args:
            task: What was asked.
            plan: What was answered.
            sheets: What the sheets of each board are called, in order; numbered if left out.
            wanted: What the wanted pieces are called; nearly as in the task if left out.
            used: Names that something else has.
        """
        self.task, self.plan = task, plan
        self.boards = {board.name: board for board in task.boards}
        self.cut = {load.takes for load in plan.loads}
        self.paper = self._papers_of_parts()
        self.names = Names()
        self.names.used.update(name.casefold() for name in used)
        if wanted is None:
            self.wanted = {want.name: self.names.claim(want.name) for want in task.wants}
        else:
            self.wanted = dict(wanted)
            self.names.used.update(name.casefold() for name in wanted.values())
        self.called = self._sheet_names() if sheets is None else self._given_names(sheets)
        self.runs = self._runs()
        self.strips: list[int] = []
        self._name_strips()

    def _given_names(self, sheets: Mapping[str, Sequence[str]]) -> dict[int, str]:
        """Sheets by their own names, the first of their like first."""
        self.names.used.update(name.casefold() for names in sheets.values() for name in names)
        waiting = {board: iter(names) for board, names in sheets.items()}
        return {number: next(waiting[name]) for number, name in self.plan.sheets}

    def _sheet_names(self) -> dict[int, str]:
        """Boards by their names, numbered where several are begun."""
        begun = [(number, name) for number, name in self.plan.sheets if number in self.cut]
        count = Counter(name for _, name in begun)
        seen: Counter[str] = Counter()
        called: dict[int, str] = {}
        for number, name in begun:
            seen[name] += 1
            wish = f"{clean_name(name, 40)} {seen[name]}" if count[name] > 1 else name
            called[number] = self.names.claim(wish)
        return called

    def _runs(self) -> list[list[PlannedLoad]]:
        """Loads in order; those that one step with `times` can say, together.

        From the last to the first, since strips are alike only if what becomes of them is.
        """
        becomes: dict[int, object] = {}
        for number, part in self.plan.parts.items():
            if number not in self.cut:
                becomes[number] = ("want", part.want) if part.want else SCRAP
        runs: list[list[PlannedLoad]] = []
        last: object = None
        for load in reversed(self.plan.loads):
            part = self.plan.parts[load.takes]
            kind = None if load.takes in self.called else self._kind(load, part, becomes)
            if runs and kind is not None and kind == last and len(runs[0]) < limits.MOST_TIMES:
                runs[0].insert(0, load)
            else:
                runs.insert(0, [load])
            becomes[load.takes] = ("run", len(runs))
            last = kind
        return runs

    def _kind(self, load: PlannedLoad, part: Part, becomes: Mapping[int, object]) -> object:
        """What must be alike in loads that are said in one."""
        ends = tuple(becomes[number] for number in (*load.gives, load.rest))
        return part.width, part.height, part.upright, self.paper[load.takes], load.turned, \
            load.marks, ends  # fmt: skip

    def _papers_of_parts(self) -> dict[int, str]:
        """The paper of each part."""
        paper = {number: self.boards[name].paper for number, name in self.plan.sheets}
        for load in self.plan.loads:
            paper |= dict.fromkeys((*load.gives, load.rest), paper[load.takes])
        return paper

    def _name_strips(self) -> None:
        """Strips are numbered as they come off; those of one run have one name."""
        run_of = {load.takes: at for at, run in enumerate(self.runs) for load in run}
        name_of: dict[int, str] = {}
        number = 0
        for load in self.plan.loads:
            for part in (*load.gives, load.rest):
                said = self.plan.parts[part]
                if part not in self.cut:
                    self.called[part] = self.wanted[said.want] if said.want else SCRAP
                    continue
                self.strips.append(part)
                run = run_of[part]
                if run not in name_of:
                    number += 1
                    name_of[run] = self.names.claim(f"strip {number}")
                self.called[part] = name_of[run]


def clean_name(name: str, longest: int) -> str:
    """A name that a kit takes: one line, no signs that tell the parts of a sheet apart.

    Args:
        name: Any text.
        longest: How many characters it may have.
    """
    shown = "".join(
        " " if c.isspace() or unicodedata.category(c)[0] in "CZ" else "-" if c in "/#" else c
        for c in name
    )
    return " ".join(shown.split())[:longest].strip()
