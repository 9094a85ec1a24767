"""Whether what is wanted can be planned at all: all that is wrong, each with its place."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from fractions import Fraction
from math import floor

from model.finding import Findings, Path
from model.length import Unit
from model.planning.task import Board, Task, Want
from model.planning.units import MOST_KINDS, MOST_PIECES, MOST_UNITS
from model.planning.wanted_text import exact

_FINER = {
    Unit.IN: [Fraction(127, 5) / n for n in (8, 16, 32, 64)],
    Unit.CM: [Fraction(1), Fraction(1, 2), Fraction(1, 10)],
    Unit.MM: [Fraction(1), Fraction(1, 2), Fraction(1, 10)],
}
_MOST_TOLD = 20  # of one sort: a list of a thousand pieces in the wrong unit is told of early


def merged(boards: Sequence[Board]) -> tuple[list[Board], dict[str, tuple[str, ...]]]:
    """Boards that are alike taken together, since it does not matter which is cut first.

    Args:
        boards: All boards, each with a name of its own.

    Returns:
        The boards, each called after the first of its like; and the names of those.
    """
    first: dict[tuple[object, ...], Board] = {}
    names: dict[str, list[str]] = {}
    for board in boards:
        key = (board.width, board.height, board.paper, board.left_over)
        name = first[key].name if key in first else board.name
        names.setdefault(name, []).extend([board.name] * board.count)
        known = first.get(key)
        first[key] = replace(known, count=known.count + board.count) if known else board
    return list(first.values()), {name: tuple(all_) for name, all_ in names.items()}


class Checker:
    """Looks through a task, and tells all that can't be planned."""

    def __init__(
        self, task: Task, unit: Unit, places: Mapping[str, Path], findings: Findings,
        unsure: bool = False, vague: bool = False,
    ) -> None:  # fmt: skip
        """Prepare.

        Args:
            task: What is asked.
            unit: The unit of the file.
            places: Where each wanted piece and each board stands in it, by name; pieces first
                where one of each has the same name: a board's is led by ``/``.
            findings: Where errors go.
            unsure: A sheet could not be read, so nothing is said of what no sheet is there for.
            vague: A piece could not be read, so it may be that something is wanted.
        """
        self.task, self.unit, self.places, self.findings = task, unit, places, findings
        self.unsure, self.vague = unsure, vague
        self.papers: dict[str, list[Board]] = {}
        for board in task.boards:
            self.papers.setdefault(board.paper, []).append(board)

    def run(self) -> None:
        """Tell everything."""
        task = self.task
        if not task.wants and not self.vague:
            self.findings.grave(
                "no-wants", (), "nothing is wanted", "add a [[want]] for each piece"
            )
        if not task.boards and not self.unsure:
            self.findings.grave(
                "no-sheets", (), "there is no sheet to cut from", "add a [[sheet]] with its size"
            )
        self._counts()
        self._graduation()
        if task.boards:
            for want in self._told(want for want in task.wants if self._homeless(want)):
                self._tell_homeless(want)
            for want in self._told(want for want in task.wants if self._too_large(want)):
                self._tell_too_large(want)

    def _told(self, wrong: Iterator[Want]) -> Iterator[Want]:
        for number, want in enumerate(wrong):
            if number == _MOST_TOLD:
                self.findings.grave(
                    "and-more", self.places[want.name], "the same is so of more pieces"
                )
                return
            yield want

    def _size(self, of: Want | Board) -> str:
        return f"{exact(of.width, self.unit)} x {exact(of.height, self.unit)} {self.unit}"

    def _counts(self) -> None:
        wants = self.task.wants
        if len(wants) > MOST_KINDS:
            self.findings.grave(
                "too-many", self.places[wants[MOST_KINDS].name],
                f"{len(wants)} different pieces are wanted, and at most {MOST_KINDS} can be "
                f'planned at once; "{wants[MOST_KINDS].name}" is one too many',
                "make several lists of it, such as one for each paper",
            )  # fmt: skip
        count = sum(want.count for want in wants)
        if count > MOST_PIECES:
            most = max(wants, key=lambda want: want.count)
            self.findings.grave(
                "too-many", self.places[most.name],
                f"{count} pieces are wanted in all, {most.count} of them "
                f'"{most.name}"; at most {MOST_PIECES} can be planned at once',
                "make several lists of it",
            )  # fmt: skip

    def _graduation(self) -> None:
        task = self.task
        step = task.graduation
        said = f"the graduation of {exact(step, self.unit)} {self.unit}"
        for board in task.boards:
            where = self.places[f"/{board.name}"]
            if any((side / step).denominator != 1 for side in (board.width, board.height)):
                self.findings.grave(
                    "off-graduation", where,
                    f'"{board.name}" measures {self._size(board)}, which is not on {said}',
                    self._finer(board),
                )  # fmt: skip
            elif max(board.width, board.height) / step > MOST_UNITS:
                self.findings.grave(
                    "graduation-fine", where,
                    f"{said} is too fine for a sheet as large as {self._size(board)}",
                    "choose a coarser graduation",
                )  # fmt: skip
        if task.boards and all(max(b.width, b.height) < task.narrowest for b in task.boards):
            self.findings.grave(
                "narrowest-wide", (),
                f"the narrowest strip worth holding, {exact(task.narrowest, self.unit)} "
                f"{self.unit}, is wider than any sheet",
                "choose a smaller one",
            )  # fmt: skip
        for want in self._told(want for want in task.wants if self._off(want)):
            self.findings.grave(
                "off-graduation", self.places[want.name],
                f'"{want.name}" measures {self._size(want)}, which is not on {said}',
                f"{self._finer(want)}, or say with smaller_by how much smaller it may be",
            )  # fmt: skip

    def _off(self, want: Want) -> bool:
        step = self.task.graduation
        return any(
            not 0 < floor(side / step) * step >= side - want.smaller_by
            for side in (want.width, want.height)
        )

    def _finer(self, of: Want | Board) -> str:
        for step in _FINER[self.unit]:
            if all((side / step).denominator == 1 for side in (of.width, of.height)):
                said = exact(step, self.unit)
                return f"correct its size, or plan with --graduation {said.replace(' ', '-')}"
        return "correct its size, or choose a finer graduation"

    def _homeless(self, want: Want) -> bool:
        return want.paper not in self.papers and not self.unsure

    def _tell_homeless(self, want: Want) -> None:
        papers = [paper for paper in self.papers if paper]
        where = self.places[want.name]
        if want.paper:
            guess = self.findings.did_you_mean(want.paper, papers)
            self.findings.grave(
                "no-sheet-of-paper", where,
                f'"{want.name}" is wanted of "{want.paper}", and no sheet at hand is of that paper',
                guess or "say with paper = what each sheet is made of",
            )  # fmt: skip
            return
        self.findings.grave(
            "paper-unknown", where,
            f'it is not said from which paper "{want.name}" is cut',
            f'write paper = "{papers[0]}", or what else it is cut from',
        )  # fmt: skip

    def _fits(self, want: Want, turnable: bool) -> bool:
        step = self.task.graduation
        wide, high = (floor(side / step) * step for side in (want.width, want.height))
        ways = ((wide, high), (high, wide)) if turnable else ((wide, high),)
        return any(
            wide <= board.width and high <= board.height
            for wide, high in ways
            for board in self.papers[want.paper]
        )

    def _too_large(self, want: Want) -> bool:
        if want.paper not in self.papers or self.unsure:
            return False
        return not self._fits(want, want.turnable)

    def _tell_too_large(self, want: Want) -> None:
        largest = max(self.papers[want.paper], key=lambda board: board.width * board.height)
        of_it = f" of {want.paper}" if want.paper else ""
        remedy = "correct its size, or give it a larger sheet"
        if self._fits(want, True):
            remedy = "it would fit if it were turnable"
        self.findings.grave(
            "too-large", self.places[want.name],
            f'"{want.name}" measures {self._size(want)}, more than any sheet{of_it} has room for; '
            f'the largest, "{largest.name}", measures {self._size(largest)}',
            remedy,
        )  # fmt: skip


def tell_twice(names: Sequence[tuple[str, Path]], what: str, findings: Findings) -> None:
    """Tell of names that several things have.

    Args:
        names: Each name with its place.
        what: What has them, such as ``wanted pieces``.
        findings: Where errors go.
    """
    count = Counter(name.casefold() for name, _ in names)
    seen: set[str] = set()
    for name, where in names:
        if count[name.casefold()] > 1 and name.casefold() in seen:
            findings.grave(
                "name-twice", where, f'two {what} are called "{name}"',
                "give one of them another name, or say it once with count",
            )  # fmt: skip
        seen.add(name.casefold())
