"""What a kit wants: the pieces that its cuts make, or those that a draft of it lists."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from fractions import Fraction

from model.alike import may_turn
from model.finding import Findings, Path
from model.kit import Destination, Kit, Paper, PieceKind, Sheet, Size, Source, Verb
from model.plan import Item, Phase, Plan, Role, Step
from model.planning.checking import count_figures
from model.planning.task import Board, CutPlan, Figure, Figures, Part, PlannedLoad, Task, Want
from model.planning.wanted import Alone, Choices, Place, Wanted, usual_graduation
from model.planning.wanted_checks import Checker, merged

_NONE = Fraction(0)


@dataclass(slots=True)
class _Kind:
    """Copies of one name and size."""

    name: str
    size: Size
    paper: str
    turnable: bool
    smaller_by: Fraction
    where: Path
    kind: PieceKind | None
    items: list[Item] = field(default_factory=list)


class _Trimmed:
    """The loads of the trimmer that make a sheet into pieces, and what they leave."""

    def __init__(self, plan: Plan) -> None:
        self.plan = plan
        self.loads: dict[str, list[Step]] = {}
        for indexes in plan.loads.values():
            cuts = [plan.steps[index] for index in indexes]
            if cuts[0].verb is Verb.TRIM:
                self.loads[cuts[-1].takes[0]] = cuts

    def of(self, sheet: str) -> list[str]:
        """What is trimmed of a sheet, itself first, in order of work."""
        ids = [sheet, *(i for i in self.plan.by_sheet.get(sheet, ()) if i != sheet)]
        found = [each for each in ids if each in self.loads]
        return sorted(found, key=lambda each: self.loads[each][0].index)

    def ends(self, sheet: str) -> list[Item]:
        """What is left of a sheet when all of it is trimmed."""
        return [
            self.plan.items[made]
            for taken in self.of(sheet)
            for cut in self.loads[taken]
            for made in cut.makes
            if made not in self.loads
        ]

    def why_not(self, sheet: Sheet) -> str:
        """Why a sheet can't be planned; empty when it can."""
        if sheet.cut_apart:
            return "printed lines"
        trimmed = self.of(sheet.name)
        if sheet.name not in trimmed or sheet.size is None:
            return "by hand" if sheet.size is not None else "no size"
        if any(self.loads[each][0].phase is not Phase.TRIMMING for each in trimmed):
            return "by hand"
        made = {sheet.name} | {m for each in trimmed for c in self.loads[each] for m in c.makes}
        if not made.issuperset(trimmed):
            return "by hand"  # something is torn or cut by hand first, and trimmed after
        ends = self.ends(sheet.name)
        if any(end.stock is None or not end.stock.measured for end in ends):
            return "printed lines"
        if any(end.kind and (end.kind.words or end.kind.picture) for end in ends):
            return "pictures"
        return ""


def wanted_of_plan(
    plan: Plan, choices: Choices, findings: Findings
) -> Wanted | None:  # fmt: skip
    """What a kit's own cuts make, wanted anew.

    Args:
        plan: The plan of a kit that is right.
        choices: What is chosen for the plan.
        findings: Where it goes what can't be planned.
    """
    trimmed = _Trimmed(plan)
    kinds: dict[tuple[object, ...], _Kind] = {}
    boards: list[Board] = []
    alone: list[Alone] = []
    sheets: list[str] = []
    for sheet in plan.kit.sheets:
        if sheet.base is not None:
            continue
        why = trimmed.why_not(sheet)
        if why or sheet.size is None:
            alone.append(Alone(sheet.name, why))
            continue
        sheets.append(sheet.name)
        boards.append(Board(sheet.name, *sheet.size, 1, _paper(sheet.paper)))
        for end in trimmed.ends(sheet.name):
            if end.role is not Role.SCRAP:
                kind = _kind_of(plan, end)
                kinds.setdefault((kind.name, kind.size), kind).items.append(end)
    wants, called, of = _wants(kinds.values(), choices)
    task, names = _task(wants, boards, plan.kit, choices)
    loads = [each for sheet in sheets for each in trimmed.of(sheet)]
    _check(task, plan.kit, {n: k.where for n, k in of.items()}, findings, boards)
    yours = _your_plan(task, trimmed, sorted(loads, key=lambda e: trimmed.loads[e][0].index),
                       {item.id: n for n, k in of.items() for item in k.items}, names)  # fmt: skip
    replaced = {sheet: tuple(_steps_of(trimmed, sheet)) for sheet in sheets}
    beside = len(plan.scraps) - (yours.figures.scraps.value if yours.figures else 0)
    return Wanted(
        task,
        plan.kit.unit,
        plan.kit.title,
        names,
        called,
        places={name: tuple(_places_of(plan, kind.items)) for name, kind in of.items()},
        alone=tuple(alone),
        kit=True,
        freed=_freed(of, choices),
        used=frozenset(_used(plan.kit) | {item.name for item in plan.items.values()}),
        yours=yours,
        replaced=replaced,
        on_the_spot={
            name: to
            for name, kind in of.items()
            if kind.kind and (not kind.kind.where or kind.kind.where[0] != "piece")
            and (to := _to_text(plan.kit, _group_places(plan, kind.items)))
        },
        own_copies=tuple(
            name for name, kind in of.items() if any(_is_own(plan, item) for item in kind.items)
        ),
        scraps_beside=None if plan.kit.scraps is None else beside,
    )  # fmt: skip


def wanted_of_draft(kit: Kit, choices: Choices, findings: Findings) -> Wanted | None:
    """What the pieces of a kit without steps want of its sheets.

    Args:
        kit: The kit, without any work.
        choices: What is chosen for the plan.
        findings: Where it goes what can't be planned.
    """
    boards: list[Board] = []
    alone: list[Alone] = []
    by_name: dict[str, Paper] = {}
    for sheet in kit.sheets:
        if sheet.base is not None:
            continue
        if sheet.cut_apart or sheet.size is None:
            alone.append(Alone(sheet.name, "printed lines" if sheet.cut_apart else "no size"))
        else:
            boards.append(Board(sheet.name, *sheet.size, 1, _paper(sheet.paper)))
            by_name[sheet.paper.name] = sheet.paper
    only = next(iter(by_name.values())) if len(by_name) == 1 else None
    cut_apart = {s.paper.name for s in kit.sheets if s.cut_apart} - by_name.keys()
    kinds: list[_Kind] = []
    count: dict[str, int] = {}
    for kind in kit.kinds.values():
        if kind.source is not Source.CUT or (kind.paper and kind.paper.name in cut_apart):
            continue
        paper = kind.paper or only
        if kind.size is None:
            findings.grave(
                "no-size", kind.where, f'nothing says how large "{kind.name}" is', "add its size"
            )
        elif not kind.to:
            findings.grave(
                "no-count", kind.where, f'nothing says how many of "{kind.name}" there are',
                'say with to where they go, such as to = "2 to page 1"',
            )  # fmt: skip
        else:
            count[kind.name] = sum(place.count for place in kind.to)
            kinds.append(
                _Kind(
                    kind.name, kind.size, _paper(paper) if paper else "", may_turn(kind, paper),
                    kind.smaller_by, kind.where, kind,
                )
            )  # fmt: skip
    wants, called, of = _wants(kinds, choices, count)
    task, names = _task(wants, boards, kit, choices)
    _check(task, kit, {n: k.where for n, k in of.items()}, findings, boards)
    return Wanted(
        task, kit.unit, kit.title, names, called,
        places={
            name: tuple(_said(kit, place) for place in kind.kind.to for _ in range(place.count))
            for name, kind in of.items() if kind.kind
        },
        alone=tuple(alone), kit=True, freed=_freed(of, choices), used=frozenset(_used(kit)),
        scraps_beside=None if kit.scraps is None else 0,
    )  # fmt: skip


def _steps_of(trimmed: _Trimmed, sheet: str) -> Iterator[Path]:
    """The places of the steps that trim a sheet and its strips, each once."""
    works = (trimmed.loads[each][0].work for each in trimmed.of(sheet))
    yield from dict.fromkeys(work.where for work in works if work is not None)


def _paper(paper: Paper) -> str:
    return paper.name


def _used(kit: Kit) -> set[str]:
    names = {sheet.name for sheet in kit.sheets} | set(kit.kinds)
    return names | {aside.name for aside in kit.set_asides}


def _kind_of(plan: Plan, end: Item) -> _Kind:
    stock = end.stock
    assert stock is not None  # else its sheet is left alone
    kind = end.kind
    size = (stock.width.value, stock.height.value)
    turnable = may_turn(kind, end.paper)
    slack = kind.smaller_by if kind else _NONE
    if (kind and kind.size and turnable) or (kind and kind.size and slack):
        size = kind.size
    where = kind.where if kind else _where_made(plan, end)
    sheet = plan.sheets[end.sheet]
    return _Kind(end.name, size, _paper(sheet.paper), turnable, slack, where, kind)


def _where_made(plan: Plan, item: Item) -> Path:
    work = plan.steps[plan.made_by[item.id]].work
    return work.where if work else ()


def _wants(
    kinds: Iterable[_Kind], choices: Choices, count: dict[str, int] | None = None
) -> tuple[list[Want], dict[str, str], dict[str, _Kind]]:
    """Each kind with a name of its own; of one name there may be two sizes."""
    wants: list[Want] = []
    called: dict[str, str] = {}
    of: dict[str, _Kind] = {}
    seen: Counter[str] = Counter()
    for kind in kinds:
        seen[kind.name] += 1
        name = kind.name if seen[kind.name] == 1 else f"{kind.name} ({seen[kind.name]})"
        many = count[kind.name] if count else len(kind.items)
        wants.append(
            Want(name, *kind.size, many, kind.paper, kind.turnable or choices.turnable,
                 None, kind.smaller_by)
        )  # fmt: skip
        called[name], of[name] = kind.name, kind
    return wants, called, of


def _freed(of: dict[str, _Kind], choices: Choices) -> tuple[str, ...]:
    if not choices.turnable:
        return ()
    return tuple(dict.fromkeys(kind.name for kind in of.values() if not kind.turnable))


def _task(
    wants: list[Want], boards: list[Board], kit: Kit, choices: Choices
) -> tuple[Task, dict[str, tuple[str, ...]]]:
    together, names = merged(boards)
    task = Task(
        tuple(wants),
        tuple(together),
        choices.graduation or usual_graduation(kit.unit),
        choices.narrowest or _NONE,
    )
    return task, names


def _check(
    task: Task, kit: Kit, wheres: dict[str, Path], findings: Findings, boards: list[Board]
) -> None:
    places = {f"/{sheet.name}": sheet.where for sheet in kit.sheets} | wheres
    if not task.wants and not findings.stop:
        findings.grave(
            "no-wants", (), "there is nothing to plan: no piece is cut from a measured sheet",
            "add a [[piece]] with size and to",
        )  # fmt: skip
        return
    Checker(task, kit.unit, places, findings, findings.stop and not boards, findings.stop).run()


def _places_of(plan: Plan, items: list[Item]) -> Iterator[Place]:
    for place in _group_places(plan, items):
        for _ in range(place.count):
            yield _said(plan.kit, place)


def _group_places(plan: Plan, items: list[Item]) -> list[Destination]:
    """Where copies belong: those of each group once, whichever copy is meant."""
    groups = dict.fromkeys(item.group for item in items if item.group in plan.groups)
    return [place for key in groups for place in plan.groups[key].to]


def _said(kit: Kit, place: Destination) -> Place:
    return Place(kit.pockets[place.pocket].label, place.page)


def _to_text(kit: Kit, places: list[Destination]) -> str:
    """Places as a kit says them."""
    return ", ".join(
        f"{place.count} to page {place.page}"
        if place.page is not None
        else f"{place.count} to {kit.pockets[place.pocket].label}"
        for place in places
    )


def _is_own(plan: Plan, item: Item) -> bool:
    """Whether a step says something of this very copy."""
    usual = item.kind.use if item.kind else "face"
    return bool(item.note) or item.use != usual


def _your_plan(
    task: Task, trimmed: _Trimmed, loads: list[str], wants: dict[str, str],
    names: dict[str, tuple[str, ...]],
) -> CutPlan:  # fmt: skip
    """The author's own loads, so that they are counted as any others."""
    board_of = {sheet: board for board, sheets in names.items() for sheet in sheets}
    numbers: dict[str, int] = {}
    parts: dict[int, Part] = {}

    def number(item: Item) -> int:
        if item.id not in numbers:
            stock = item.stock
            assert stock is not None  # else its sheet is left alone
            upright = not item.lying.sideways
            size = (stock.width.value, stock.height.value)
            numbers[item.id] = len(numbers) + 1
            parts[numbers[item.id]] = Part(
                *(size if upright else size[::-1]), upright, wants.get(item.id, ""),
                item.role is Role.SCRAP,
            )  # fmt: skip
        return numbers[item.id]

    items = trimmed.plan.items
    sheets: list[tuple[int, str]] = []
    planned: list[PlannedLoad] = []
    for taken in loads:
        cuts = trimmed.loads[taken]
        number(items[taken])
        if taken in board_of:
            sheets.append((numbers[taken], board_of[taken]))
        made = [number(items[each]) for cut in cuts for each in cut.makes]
        turned = cuts[0].lying.sideways != items[taken].lying.sideways
        marks = tuple(cut.mark.value for cut in cuts if cut.mark is not None)
        planned.append(PlannedLoad(numbers[taken], turned, marks, tuple(made[:-1]), made[-1]))
    bare = CutPlan(parts, tuple(sheets), tuple(planned))
    figures = {name: Figure(value, 0) for name, value in count_figures(task, bare).items()}
    return CutPlan(parts, tuple(sheets), tuple(planned), {}, Figures(**figures))
