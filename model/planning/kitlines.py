"""A plan of cuts as the tables of a kit, so that the table can run it.

What is wanted becomes `[[piece]]`s, what is begun `[[sheet]]`s, each load a `[[step]]`. A board
that is wanted as it is needs no cut, and is packed ready made. Strips get names of their own; those
that are alike and cut alike, one straight after another, share one, and one step with `times`.
"""

from __future__ import annotations

import json
from collections import Counter
from collections.abc import Mapping, Sequence
from fractions import Fraction
from itertools import groupby

from model import limits
from model.length import LIMIT, Unit
from model.planning.task import Board, CutPlan, PlannedLoad, Task, Want
from model.planning.wanted_names import Names, PartNames, clean_name
from model.planning.wanted_text import FINEST, MM, exact


def kit_lines(
    task: Task,
    plan: CutPlan,
    *,
    unit: Unit = Unit.IN,
    to: Mapping[str, str] | None = None,
    papers: Mapping[str, str] | None = None,
) -> str:
    """The tables of a plan, for a kit that has a head and its papers.

    Args:
        task: What was asked.
        plan: What was answered; one that the checker finds right.
        unit: The kit's unit.
        to: Where the copies of a wanted piece go, as a kit says it, by the piece's name: of
            those that are cut, if some are there ready made. Left out: all for page 1.
        papers: The kit's name of each of the task's papers, where it is another; a paper without
            a name is called ``paper``.

    Returns:
        Sheets, pieces and steps as TOML.

    Raises:
        ValueError: A length can't be written exactly in a kit.
    """
    return _Writer(task, plan, unit, to or {}, papers or {}).tables()


def kit_text(
    task: Task,
    plan: CutPlan,
    *,
    title: str = "Planned cuts",
    unit: Unit = Unit.IN,
    to: Mapping[str, str] | None = None,
    pages: int = 1,
) -> str:
    """A plan as a whole kit of its own.

    Args:
        task: What was asked.
        plan: What was answered; one that the checker finds right.
        title: The kit's title.
        unit: The kit's unit.
        to: As for `kit_lines`.
        pages: How many pages the kit has.

    Returns:
        The text of a kit file.

    Raises:
        ValueError: A length can't be written exactly in a kit.
    """
    longest = max((max(w.width, w.height) for w in task.wants), default=Fraction(0))
    page = _written(min(max(longest, 12 * MM[Unit.IN]), LIMIT), unit)
    names = Names()
    papers = {board.paper: "" for board in task.boards}
    for paper in papers:
        papers[paper] = names.claim(paper or "paper")
    head = [
        "dryfit = 1",
        f"title = {_quoted(clean_name(title, limits.LONGEST_LINE) or 'Planned cuts')}",
        f"unit = {_quoted(unit.value)}",
        f"page = {_quoted(f'{page} x {page}')}",
        f"pages = {pages}",
        f"scraps = {sum(part.scrap for part in plan.parts.values())}",
    ]
    tables = [
        f'[[paper]]\nname = {_quoted(name)}\nface = {{ name = {_quoted(name)}, colour = "white" }}'
        for name in papers.values()
    ]
    lines = kit_lines(task, plan, unit=unit, to=to, papers=papers)
    if not plan.loads:
        lines += '\n[[step]]\ndo = "Nothing needs to be cut."\n'
    return "\n\n".join(["\n".join(head), *tables, lines])


def step_tables(task: Task, plan: CutPlan, parts: PartNames, unit: Unit) -> list[str]:
    """The steps alone, for a kit that has its sheets and pieces: one for each run of the names.

    Args:
        task: What was asked.
        plan: What was answered.
        parts: What everything is called.
        unit: The kit's unit.

    Raises:
        ValueError: A length can't be written exactly in a kit.
    """
    return _Writer(task, plan, unit, {}, {}, parts).steps()


def piece_table(want: Want, name: str, to: str, unit: Unit) -> str:
    """The table of a piece.

    Args:
        want: What is wanted.
        name: What the kit calls it.
        to: Where its copies go.
        unit: The kit's unit.

    Raises:
        ValueError: A length can't be written exactly in a kit.
    """
    lines = [
        "[[piece]]",
        f"name = {_quoted(name)}",
        f"to = {_quoted(to)}",
        f"size = {_quoted(_size(want.width, want.height, unit))}",
        f"turnable = {str(want.turnable).lower()}",
    ]
    if want.smaller_by:
        lines.append(f"smaller_by = {_quoted(_written(want.smaller_by, unit))}")
    return "\n".join(lines)


class _Writer:
    """Names everything, and writes it down."""

    def __init__(
        self, task: Task, plan: CutPlan, unit: Unit, to: Mapping[str, str],
        papers: Mapping[str, str], parts: PartNames | None = None,
    ) -> None:  # fmt: skip
        self.task, self.plan, self.unit, self.to, self.papers = task, plan, unit, to, papers
        self.boards = {board.name: board for board in task.boards}
        self.parts = parts or PartNames(task, plan)
        self.names, self.cut = self.parts.names, self.parts.cut
        self.wanted, self.called = self.parts.wanted, self.parts.called

    def tables(self) -> str:
        sheets = [
            self._sheet(number, self.boards[name])
            for number, name in self.plan.sheets
            if number in self.cut
        ]
        begun = {number for number, _ in self.plan.sheets}
        ends = [(n, part) for n, part in self.plan.parts.items() if part.want]
        cut = Counter(part.want for number, part in ends if number not in begun)
        whole = Counter(
            (part.want, part.width, part.height) for number, part in ends if number in begun
        )
        pieces = [self._piece(w, cut[w.name]) for w in self.task.wants if cut[w.name]]
        wants = {want.name: want for want in self.task.wants}
        ready = [
            self._precut(wants[name], (width, height), count, alone=not cut[name])
            for (name, width, height), count in whole.items()
        ]
        return "\n\n".join([*sheets, *ready, *pieces, *self.steps()]) + "\n"

    def steps(self) -> list[str]:
        return [self._step(run) for run in self.parts.runs]

    # Tables

    def _sheet(self, number: int, board: Board) -> str:
        return "\n".join([
            "[[sheet]]",
            f"name = {_quoted(self.called[number])}",
            f"paper = {_quoted(self._paper(board))}",
            f"size = {_quoted(_size(board.width, board.height, self.unit))}",
        ])  # fmt: skip

    def _paper(self, of: Board | Want) -> str:
        return self.papers.get(of.paper, of.paper or "paper")

    def _piece(self, want: Want, count: int) -> str:
        to = self.to.get(want.name) or f"{count} to page 1"
        return piece_table(want, self.wanted[want.name], to, self.unit)

    def _precut(self, want: Want, size: tuple[Fraction, Fraction], count: int, alone: bool) -> str:
        """Boards that are wanted as they are; a piece that is cut too has the name already."""
        name = self.wanted.pop(want.name, "") if alone else ""
        to = self.to.get(want.name) if name else None
        return "\n".join([
            "[[precut]]",
            f"name = {_quoted(name or self.names.claim(want.name))}",
            f"paper = {_quoted(self._paper(want))}",
            f"size = {_quoted(_size(*size, self.unit))}",
            f"to = {_quoted(to or f'{count} to page 1')}",
        ])  # fmt: skip

    def _step(self, run: Sequence[PlannedLoad]) -> str:
        load = run[0]
        marks = ", ".join(_quoted(_written(mark, self.unit)) for mark in load.marks)
        lines = ["[[step]]", f"trim = {_quoted(self.called[load.takes])}"]
        if len(run) > 1:
            lines.append(f"times = {len(run)}")
        if load.turned:
            lines.append('turn = "quarter"')
        lines += [
            f"marks = [{marks}]",
            f"gives = {_gives([self.called[part] for part in load.gives])}",
            f"rest = {_quoted(self.called[load.rest])}",
        ]
        return "\n".join(lines)


def _gives(names: Sequence[str]) -> str:
    """What comes off, alike things said once."""
    runs = [(name, len(list(alike))) for name, alike in groupby(names)]
    if len(runs) == 1:
        return _quoted(names[0])
    said = [
        f"{{ name = {_quoted(name)}, count = {count} }}" if count > 1 else _quoted(name)
        for name, count in runs
    ]
    return f"[{', '.join(said)}]"


def _size(width: Fraction, height: Fraction, unit: Unit) -> str:
    return f"{_written(width, unit)} x {_written(height, unit)}"


def _written(length: Fraction, unit: Unit) -> str:
    """A length as a kit has it: exact, in the kit's unit where that can be.

    Raises:
        ValueError: It can't be written exactly.
    """
    for way in (unit, Unit.MM, Unit.IN):
        if (length / MM[way]).denominator <= FINEST:
            said = exact(length, way)
            return said if way is unit else f"{said} {way}"
    raise ValueError(f"{length} mm can't be written exactly in a kit")


def _quoted(text: str) -> str:
    # A basic string of TOML is a string of JSON as long as nothing outside of ASCII is escaped.
    return json.dumps(text, ensure_ascii=False)
