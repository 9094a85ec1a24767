"""From a kit to its plan: the cuts are replayed, and everything is accounted for.

All errors of meaning are collected in one go. What hangs on a broken part is excused,
so that one mistake is told once.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction

from model.cutting import CutError, Stock, tear, trim, whole_sheet
from model.finding import Findings, Path, did_you_mean
from model.geometry import Measure, Orientation, Sure, orientation_for
from model.kit import Destination, Give, Kit, PieceKind, Sheet, Source, Verb, Wait, Work
from model.lengthtext import LengthStyle, write_length, write_size
from model.plan import Group, Item, Phase, Plan, Role, Step, StepKind, pocket_keys

_PHASES = {
    Wait.NO: Phase.TRIMMING,
    Wait.TRIMMER_AWAY: Phase.TRIMMER_AWAY,
    Wait.AFTER_FILING: Phase.AFTER_FILING,
}
_LOADED = (Verb.TRIM, Verb.KNIFE, Verb.TEAR)


def compile_kit(kit: Kit, findings: Findings, excused: Iterable[str] = ()) -> Plan:
    """Work out all steps and things of a kit.

    Args:
        kit: The kit.
        findings: Where errors go; the plan is of use only when none is grave.
        excused: Names whose own tables are broken.

    Returns:
        The plan.
    """
    compiler = _Compiler(kit, findings, set(excused))
    return compiler.plan()


def phases_of(kit: Kit) -> list[Phase]:
    """The phase of each of the author's steps: its own, or what its paper waits for."""
    waits = {sheet.name: sheet.wait for sheet in kit.sheets}
    phases: list[Phase] = []
    for work in kit.work:
        wait = max(work.wait, waits.get(work.take, Wait.NO) if work.verb is not Verb.DO else 0)
        for give in (*work.gives, *((work.rest,) if work.rest else ())):
            if not give.scrap:
                waits[give.name] = Wait(max(wait, waits.get(give.name, Wait.NO)))
        phases.append(_PHASES[Wait(wait)])
    return phases


@dataclass(slots=True)
class _Compiler:
    kit: Kit
    findings: Findings
    excused: set[str]
    items: dict[str, Item] = field(default_factory=dict)
    steps: list[Step] = field(default_factory=list)
    made_by: dict[str, int] = field(default_factory=dict)
    taken_by: dict[str, int] = field(default_factory=dict)
    at_hand: dict[str, list[str]] = field(default_factory=lambda: defaultdict(list))
    loads: dict[str, list[int]] = field(default_factory=lambda: defaultdict(list))
    made: dict[str, list[str]] = field(default_factory=lambda: defaultdict(list))
    first_made: dict[str, tuple[Stock | None, Path]] = field(default_factory=dict)
    strips: dict[str, Path] = field(default_factory=dict)
    pinned: dict[str, list[Destination]] = field(default_factory=lambda: defaultdict(list))
    taken_where: dict[str, Path] = field(default_factory=dict)
    order: list[str] = field(default_factory=list)
    stack: list[str] = field(default_factory=list)
    by_sheet: dict[str, list[str]] = field(default_factory=lambda: defaultdict(list))
    by_name: dict[str, Sheet] = field(default_factory=dict)
    groups: dict[str, Group] = field(default_factory=dict)
    later_names: dict[str, Path] = field(default_factory=dict)
    style: LengthStyle = LengthStyle()

    def plan(self) -> Plan:
        kit = self.kit
        self.style = LengthStyle(kit.unit)
        whole = not self.excused
        self.by_name = {sheet.name: sheet for sheet in kit.sheets}
        for sheet in kit.sheets:
            self._add_sheet(sheet)
        phased = sorted(
            zip(phases_of(kit), kit.work, strict=True), key=lambda pair: pair[0].value
        )
        for _, work in phased:
            for give in _parts(work):
                self.later_names.setdefault(give.name, work.where)
        self._opening([work for _, work in phased])
        away = False
        for phase, work in phased:
            if phase >= Phase.TRIMMER_AWAY and not away:
                away = True
                if any(step.blade for step in self.steps):
                    self._step("away", StepKind.AWAY, phase)
            self._work(work, phase)
        self._make_groups(whole)
        if whole:
            self._check_ends()
        return self._finish()

    def _finish(self) -> Plan:
        keys, keys_of = pocket_keys(self.kit)
        companions: dict[str, list[str]] = defaultdict(list)
        for item in self.items.values():
            if item.partner:
                companions[item.partner].append(item.id)
        return Plan(
            kit=self.kit,
            items=self.items,
            steps=tuple(self.steps),
            step_at={step.id: step.index for step in self.steps},
            made_by=self.made_by,
            taken_by=self.taken_by,
            groups=self.groups,
            companions={key: tuple(value) for key, value in companions.items()},
            scraps=tuple(i.id for i in self.items.values() if i.role is Role.SCRAP),
            wanted=self._wanted(companions),
            stack=tuple(self.stack),
            order=tuple(self.order),
            loads={key: tuple(value) for key, value in self.loads.items()},
            keys=keys,
            keys_of=keys_of,
            by_sheet={key: tuple(value) for key, value in self.by_sheet.items()},
        )

    def _wanted(self, companions: dict[str, list[str]]) -> tuple[int, ...]:
        wanted = [0] * len(self.kit.pockets)
        for group in self.groups.values():
            copies = [i for i in self.made[group.kind.name] if self.items[i].group == group.key]
            gone = sum(i in self.taken_by for i in copies)
            beside = len(companions.get(copies[0], ())) if copies else 0
            for pocket, count in group.wanted.items():
                less = min(gone, count)
                gone -= less
                wanted[pocket] += (count - less) * (1 + beside)
        return tuple(wanted)

    # Things and steps

    def _step(self, id: str, kind: StepKind, phase: Phase, **rest: object) -> Step:
        base = id
        twin = 2
        while id in self._ids:
            id = f"{base}#{twin}"
            twin += 1
        self._ids.add(id)
        step = Step(id, len(self.steps), kind, phase, **rest)  # type: ignore[arg-type]
        self.steps.append(step)
        for item in step.makes:
            self.made_by[item] = step.index
        return step

    _ids: set[str] = field(default_factory=set)

    def _add(self, item: Item) -> str:
        self.items[item.id] = item
        self.at_hand[item.name].append(item.id)
        if item.sheet and item.id != item.sheet:
            self.by_sheet[item.sheet].append(item.id)
        return item.id

    def _add_sheet(self, sheet: Sheet) -> None:
        if sheet.size is not None:
            stock = whole_sheet(*sheet.size)
        else:
            numbers = [
                mark.at for work in self.kit.work if work.take == sheet.name
                for mark in work.marks if mark.at is not None
            ]
            # A guess that serves the drawing alone, with room for every number named.
            room = max(numbers, default=Fraction(0)) + Fraction(254, 10)
            width, height = self.kit.page
            stock = whole_sheet(max(width, room), max(height, room), Sure.PRINTED)
        role = Role.SHEET if sheet.base is None else Role.BASE
        self._add(Item(sheet.name, sheet.name, role, None, sheet.paper, sheet.name, stock))

    # The opening

    def _opening(self, works: Sequence[Work]) -> None:
        kit = self.kit
        self._step("open", StepKind.OPEN, Phase.OPENING)
        for aside in kit.set_asides:
            self._step(f"aside:{aside.name}", StepKind.ASIDE, Phase.OPENING)
        for kind in kit.kinds.values():
            if kind.source is not Source.CUT and kind.companion_of:
                self._step(f"aside:{kind.name}", StepKind.ASIDE, Phase.OPENING)
        waiting = [s for s in kit.sheets if s.wait is not Wait.NO and s.base is None]
        for sheet in waiting:
            self._step(
                f"aside:{sheet.name}", StepKind.ASIDE, Phase.OPENING,
                touches=(sheet.name,), sheet=sheet.name,
            )
        for kind in kit.kinds.values():
            if kind.source is not Source.CUT and not kind.companion_of:
                self._fill(kind)
        taken = [w.take for w in works if w.verb is not Verb.DO and w.take in self.by_name]
        stacked = {sheet.name for sheet in kit.sheets if sheet.base is None} - {
            sheet.name for sheet in waiting
        }
        self.order = [name for name in dict.fromkeys(taken) if name in stacked]
        bases = sorted((s for s in kit.sheets if s.base is not None), key=lambda s: s.base or 0)
        downward = [*self.order, *(sheet.name for sheet in bases)]
        self.stack = downward if kit.face_down else downward[::-1]
        for name in self.stack:
            self._step(
                f"stack:{name}", StepKind.STACK, Phase.OPENING, touches=(name,), sheet=name
            )
        if kit.face_down and self.stack:
            self._step("turn stack", StepKind.TURN_STACK, Phase.OPENING)

    def _fill(self, kind: PieceKind) -> None:
        lengths = dict(kind.lengths)
        stock = whole_sheet(*kind.size) if kind.size else None
        number = 0
        per_pocket: dict[int, int] = {}
        for to in kind.to:
            per_pocket[to.pocket] = per_pocket.get(to.pocket, 0) + to.count
        for pocket, count in per_pocket.items():
            makes = []
            for _ in range(count):
                number += 1
                item = Item(
                    f"{kind.name}#{number}", kind.name, Role.PIECE, kind, kind.paper,
                    stock=stock, group=kind.name, use=kind.use, length=lengths.get(pocket),
                )
                makes.append(self._add(item))
                self.made[kind.name].append(item.id)
                self._add_companions(item)
            label = self.kit.pockets[pocket].label
            self._step(
                f"fill:{kind.name}:{label}", StepKind.FILL, Phase.OPENING,
                makes=tuple(makes), pocket=pocket,
            )

    def _add_companions(self, piece: Item) -> None:
        for kind in self.companion_kinds.get(piece.name, ()):
            number = len(self.made[kind.name]) + 1
            item = Item(
                f"{kind.name}#{number}", kind.name, Role.PIECE, kind, kind.paper,
                stock=whole_sheet(*kind.size) if kind.size else None,
                use=kind.use, partner=piece.id,
            )
            self.items[item.id] = item
            self.made[kind.name].append(item.id)

    @property
    def companion_kinds(self) -> dict[str, list[PieceKind]]:
        """Companions by the kind they are filed together with."""
        if self._companion_kinds is None:
            self._companion_kinds = defaultdict(list)
            for kind in self.kit.kinds.values():
                if kind.companion_of:
                    self._companion_kinds[kind.companion_of].append(kind)
        return self._companion_kinds

    _companion_kinds: dict[str, list[PieceKind]] | None = None

    # The author's steps

    def _work(self, work: Work, phase: Phase) -> None:
        if work.verb is Verb.DO:
            self._step(f"do:{work.take}", StepKind.DO, phase, work=work)
            return
        if work.take in self.excused:
            self._excuse(work)
            return
        self._check_parts(work)
        for _ in range(work.times):
            item = self._take(work)
            if item is None:
                self._excuse(work)
                return
            if work.verb in _LOADED:
                self._load(work, phase, item)
            elif work.verb in (Verb.FUSSY_CUT, Verb.TRACE):
                self._shape(work, phase, item)
            else:
                self._mark(work, phase, item)

    def _excuse(self, work: Work) -> None:
        self.excused.update(give.name for give in _parts(work))

    def _take(self, work: Work) -> Item | None:
        """The copy that a step takes: the one made last, which lies on top."""
        where = (*work.where, work.verb.value)
        sheet = self.by_name.get(work.take)
        if sheet is not None and sheet.base is not None:
            self.findings.grave(
                "base-cut", where,
                f'sheet "{work.take}" is kept whole as the base of page {sheet.base}, '
                "it can't be cut",
                "drop its `base`, or take another sheet",
            )
            return None
        ready = self.at_hand.get(work.take, [])
        if not ready:
            self._nothing_to_take(work, where)
            return None
        if work.verb in (Verb.SLIT, Verb.PUNCH):
            return self.items[ready[-1]]
        ready.sort(key=lambda id: self.items[id].group == self.items[id].name)
        item = self.items[ready.pop()]
        self.taken_where[work.take] = work.where
        return item

    def _nothing_to_take(self, work: Work, where: Path) -> None:
        name = work.take
        if name in self.taken_where:
            self.findings.grave(
                "taken-twice", where,
                f'"{name}" has been cut already, there is none left to {work.verb}',
                "name another piece, or give the parts names of their own",
            )
        elif name in self.later_names:
            self.findings.grave(
                "not-yet-made", where,
                f'"{name}" does not exist yet: a later step makes it',
                "move this step after it",
            )
        else:
            known = [*self.by_name, *self.later_names, *self.kit.kinds]
            self.findings.grave(
                "unknown-name", where, f'there is no "{name}" to {work.verb}',
                did_you_mean(name, known),
            )

    def _check_parts(self, work: Work) -> None:
        cuts = len(work.marks) or len(work.widths)
        where = work.where
        if work.verb in _LOADED:
            key = "widths" if work.verb is Verb.TEAR else "marks"
            if not cuts:
                self.findings.grave("no-marks", where, f"this {work.verb} has no {key}",
                                    f"write {key} = [...]")
                return
            gives = len(work.gives)
            if gives != cuts and not (gives == cuts + 1 and work.rest is None):
                self.findings.grave(
                    "gives-count", (*where, "gives"),
                    f"{cuts} {key} make {cuts} offcut{'s' * (cuts != 1)}, but gives names {gives}",
                    "name each offcut in order, and what stays on the bed in rest",
                )
            elif gives == cuts and work.rest is None:
                self.findings.grave(
                    "no-rest", where, "what stays on the bed after the last cut has no name",
                    'write rest = "..." (a piece, a strip, or "scrap")',
                )
        elif work.verb in (Verb.FUSSY_CUT, Verb.TRACE):
            if not work.gives:
                self.findings.grave(
                    "gives-count", where, f"this {work.verb} makes nothing",
                    'write gives = ["..."]',
                )
            for give in _parts(work):
                if give.scrap:
                    self.findings.grave(
                        "hand-scrap", give.where, "hand work leaves trimmings, not scraps",
                        "leave it out",
                    )
        if work.around and work.around not in self._known_names():
            key = "around" if work.verb is Verb.TRACE else "for"
            self.findings.grave(
                "unknown-name", (*where, key), f'there is no "{work.around}"',
                did_you_mean(work.around, sorted(self._known_names())),
            )

    def _known_names(self) -> set[str]:
        return {*self.by_name, *self.later_names, *self.kit.kinds, *self.excused}

    def _lying(self, work: Work, item: Item) -> Orientation:
        lying = item.lying.showing(work.up == "reverse").turned(work.turn)
        if work.lay is None or item.paper is None:
            return lying
        what, at = work.lay
        edge = what.casefold().removesuffix(" edge")
        seen = edge if edge in ("top", "bottom", "left", "right") else item.paper.landmarks.get(what)
        if seen is None:
            if item.paper.landmarks:
                self.findings.remark(
                    "unknown-landmark", (*work.where, "lay"),
                    f'"{what}" is no landmark of "{item.paper.name}"; how it lies is not computed',
                    did_you_mean(what, list(item.paper.landmarks)),
                )
            return lying
        wanted = orientation_for(seen, at, reverse=work.up == "reverse")
        if wanted is None:
            self.findings.grave(
                "lay-impossible", (*work.where, "lay"),
                f'"{what}" is at the {seen} of the sheet, it can\'t be seen at the {at}',
                "give a side for a side, a corner for a corner",
            )
            return lying
        return wanted

    def _load(self, work: Work, phase: Phase, item: Item) -> None:
        stock = item.stock
        if stock is None:
            self.findings.grave(
                "no-size", work.where,
                f'"{item.name}" was cut by hand, it has no measured edge to {work.verb} from',
            )
            self._excuse(work)
            return
        lying = self._lying(work, item)
        try:
            if work.verb is Verb.TEAR:
                parts = tear(stock, lying, work.edge, work.widths)
            else:
                parts = trim(stock, lying, work.marks)
        except CutError as error:
            self._cut_error(work, error, item, stock, lying)
            self._excuse(work)
            return
        gives = _parts(work)
        if len(gives) != len(parts):
            self._excuse(work)
            return
        load = f"{item.id}/load"
        turned = (lying.quarter - item.lying.quarter) % 4
        common = {"work": work, "lying": lying, "load": load, "sheet": item.sheet}
        self._step(
            load, StepKind.LOAD, phase, takes=(item.id,), before=stock, of=len(parts) - 1,
            turned=turned, **common,
        )
        kind = StepKind.TEAR if work.verb is Verb.TEAR else StepKind.CUT
        last = len(parts) - 1
        made = [
            self._part(work, item, part, give, f"{item.id}/{n + 1 if n < last else 'r'}", lying)
            for n, (part, give) in enumerate(zip(parts, gives, strict=True))
        ]
        for number in range(1, last + 1):
            ends = number == last
            step = self._step(
                f"{item.id}/{number}", kind, phase,
                takes=(item.id,) if ends else (),
                touches=() if ends else (item.id,),
                makes=(made[number - 1], made[last]) if ends else (made[number - 1],),
                number=number, of=last, before=_in_hand(parts, number - 1, lying, stock),
                mark=self._said(work, parts, number, lying), **common,
            )
            self.loads[load].append(step.index)
        self.taken_by[item.id] = len(self.steps) - 1

    def _said(
        self, work: Work, parts: Sequence[Stock], number: int, lying: Orientation
    ) -> Measure:
        if work.verb is Verb.TEAR:
            return Measure(work.widths[number - 1])
        return _sum(parts[number:], lying, work.marks[number - 1].at is None,
                    work.marks[number - 1].about)

    def _cut_error(
        self, work: Work, error: CutError, item: Item, stock: Stock, lying: Orientation
    ) -> None:
        key = "widths" if error.code == "tear-outside" else "marks"
        where = (*work.where, key, error.number)
        at = write_length(error.at, self.style, with_unit=True)
        limit = write_length(error.limit, self.style, with_unit=True)
        if error.code == "mark-order":
            what = f"mark {at} comes after {limit}; marks go down in one load"
            remedy = "put the marks in falling order, or start a new load"
        elif error.code == "tear-outside":
            what = f'tearing {at} off leaves nothing of "{item.name}": only {limit} is there'
            remedy = "widths run from the loose edge"
        else:
            what = f'mark {at} is not inside "{item.name}", which measures {limit} along the ruler'
            along, across = stock.along(lying), stock.across(lying)
            fits = along.value <= error.at < across.value
            remedy = 'it would fit with turn = "quarter"' if fits else "check the mark"
        self.findings.grave(error.code, where, what, remedy)

    def _part(
        self, work: Work, parent: Item, stock: Stock, give: Give, id: str, lying: Orientation
    ) -> str:
        item = Item(
            id, give.name, Role.STRIP, None, parent.paper, parent.sheet, stock, lying,
        )
        if give.scrap:
            item = replace(item, role=Role.SCRAP)
            self.items[id] = item
            if item.sheet:
                self.by_sheet[item.sheet].append(id)
            return id
        item = self._as_piece(item, give)
        self._check_alike(item, give)
        return self._add(item)

    def _as_piece(self, item: Item, give: Give) -> Item:
        """The thing as a piece of its kind, when its name is a kind's."""
        kind = self.kit.kinds.get(give.name)
        if give.name in self.by_name or (kind and kind.source is not Source.CUT):
            self.findings.grave(
                "name-twice", give.where, f'the name "{give.name}" is used for two kinds',
                "give this one another name",
            )
            return item
        if kind is None:
            self.strips.setdefault(give.name, give.where)
            return item
        group = kind.name
        if give.to is not None:
            self.pinned[kind.name].append(give.to)
            page = f" page {give.to.page}" if give.to.page else ""
            group = f"{kind.name} in {self.kit.pockets[give.to.pocket].label}{page}"
        item = replace(
            item, role=Role.PIECE, kind=kind, group=group, use=give.use or kind.use,
            note=give.note,
        )
        self.made[kind.name].append(item.id)
        self._add_companions(item)
        return item

    def _check_alike(self, item: Item, give: Give) -> None:
        """Copies under one name are of one size, and of the size that is stated."""
        stock, kind = item.stock, item.kind
        if stock is None:
            return
        loose = item.paper is not None and not item.paper.directional
        if kind and kind.turnable is not None:
            loose = kind.turnable
        slack = kind.smaller_by if kind else Fraction(0)
        if stock.measured:
            size = (stock.width.value, stock.height.value)
            if kind and kind.size and not _fits(size, kind.size, slack, loose):
                self.findings.grave(
                    "size-differs", give.where,
                    f'"{item.name}" comes out {self._size(size)}, but its size is stated as '
                    f"{self._size(kind.size)}",
                    "correct the marks, or the stated size",
                )
            first, _ = self.first_made.setdefault(item.name, (stock, give.where))
            if first is not None and first.measured:
                other = (first.width.value, first.height.value)
                if not _fits(size, other, slack, loose) and not _fits(other, size, slack, loose):
                    self.findings.grave(
                        "name-two-sizes", give.where,
                        f'"{item.name}" is {self._size(size)} here and {self._size(other)} '
                        "elsewhere; one name is one kind",
                        "give one of them another name",
                    )

    def _size(self, size: tuple[Fraction, Fraction]) -> str:
        return write_size(*size, self.style)

    def _shape(self, work: Work, phase: Phase, item: Item) -> None:
        makes: list[str] = []
        for number, give in enumerate(_parts(work)):
            if give.scrap:
                continue
            kind = self.kit.kinds.get(give.name)
            rest = give is work.rest
            stock = whole_sheet(*kind.size) if kind and kind.size else None
            shape = Item(
                f"{item.id}/{'r' if rest else number + 1}", give.name, Role.STRIP, None,
                item.paper, item.sheet, stock, item.lying,
            )
            makes.append(self._add(self._as_piece(shape, give)))
        step = self._step(
            f"{item.id}/{work.verb}", StepKind.SHAPE, phase, takes=(item.id,),
            makes=tuple(makes), work=work, before=item.stock, sheet=item.sheet, lying=item.lying,
        )
        self.taken_by[item.id] = step.index

    def _mark(self, work: Work, phase: Phase, item: Item) -> None:
        makes: list[str] = []
        for number, give in enumerate(work.gives):
            shape = Item(
                f"{item.id}/{work.verb}{number + 1}", give.name, Role.STRIP, None,
                item.paper, item.sheet, None, item.lying,
            )
            makes.append(self._add(self._as_piece(shape, give)))
        ready = self.at_hand[item.name]
        ready.insert(0, ready.pop())  # the next of several alike takes the next copy
        self._step(
            f"{item.id}/{work.verb}", StepKind.MARK, phase, touches=(item.id,),
            makes=tuple(makes), work=work, before=item.stock, sheet=item.sheet, lying=item.lying,
        )

    # What belongs where, and whether it all adds up

    def _make_groups(self, whole: bool) -> None:
        for kind in self.kit.kinds.values():
            if kind.companion_of:
                continue
            left = {(to.pocket, to.page): to.count for to in kind.to}
            for to in self.pinned.get(kind.name, ()):
                key = (to.pocket, to.page)
                if key not in left and (to.pocket, None) in left:
                    key = (to.pocket, None)
                if not kind.to:
                    pass
                elif left.get(key, 0) < 1:
                    self.findings.grave(
                        "copy-to", kind.where,
                        f'a copy of "{kind.name}" is sent to '
                        f'"{self.kit.pockets[to.pocket].label}", which its own `to` does not want',
                    )
                else:
                    left[key] -= 1
                page = f" page {to.page}" if to.page else ""
                self._group(f"{kind.name} in {self.kit.pockets[to.pocket].label}{page}", kind, to)
            rest = tuple(
                Destination(pocket, page, count) for (pocket, page), count in left.items() if count
            )
            self.groups[kind.name] = Group(kind.name, kind, rest, _wanted_by_pocket(rest))
            copies = sum(self.items[i].group == kind.name for i in self.made[kind.name])
            self._check_count(kind, copies, sum(to.count for to in rest), whole)

    def _group(self, key: str, kind: PieceKind, to: Destination) -> None:
        before = self.groups[key].to if key in self.groups else ()
        count = sum(t.count for t in before) + 1
        merged = (Destination(to.pocket, to.page, count),)
        self.groups[key] = Group(key, kind, merged, _wanted_by_pocket(merged))

    def _check_count(self, kind: PieceKind, copies: int, wanted: int, whole: bool) -> None:
        if not whole or copies == wanted or kind.name in self.excused:
            return
        if not self.made[kind.name]:
            self.findings.grave(
                "never-made", kind.where, f'no step makes "{kind.name}"',
                did_you_mean(kind.name, list(self.strips)) or "name it in the gives of a step",
            )
        elif kind.to or not all(i in self.taken_by for i in self.made[kind.name]):
            self.findings.grave(
                "count-differs", (*kind.where, "to"),
                f'"{kind.name}" is made {_times(copies)}, but its pockets want {wanted}',
                "correct the counts in `to`, or the steps that make it",
            )
        gone = sum(i in self.taken_by for i in self.made[kind.name])
        if 0 < gone < copies and len(kind.to) > 1:
            self.findings.grave(
                "which-copy", kind.where,
                f'some copies of "{kind.name}" are cut again and they go to several pockets',
                "give those that are cut again a name of their own",
            )

    def _check_ends(self) -> None:
        kit, findings = self.kit, self.findings
        for name, where in self.strips.items():
            left = [i for i in self.at_hand[name] if self.items[i].role is Role.STRIP]
            if not left:
                continue
            takes = sorted({work.take for work in kit.work if work.verb is not Verb.DO})
            if name in self.taken_where:
                findings.grave(
                    "loose-end", where,
                    f'{len(left)} more "{name}" {"is" if len(left) == 1 else "are"} made than '
                    "later steps take",
                    "add times = to the step that takes them, or call the rest a piece or a scrap",
                )
            else:
                findings.grave(
                    "loose-end", where,
                    f'"{name}" is no [[piece]] and no later step takes it',
                    did_you_mean(name, [*kit.kinds, *takes]),
                )
        for sheet in kit.sheets:
            if sheet.base is None and sheet.name not in self.taken_where:
                findings.grave(
                    "unused-sheet", sheet.where, f'no step cuts sheet "{sheet.name}"',
                    "add a step, or say of which page it is the base",
                )
        if kit.order and list(kit.order) != self.order:
            findings.grave(
                "order-differs", ("order",),
                f"the steps trim the sheets in the order {', '.join(self.order)}",
                "correct `order`, or the order of the steps",
            )
        self._check_scraps()

    def _check_scraps(self) -> None:
        kit = self.kit
        scraps = [i for i in self.items.values() if i.role is Role.SCRAP]
        if kit.scraps is None:
            return
        if kit.scraps != len(scraps):
            listed = ", ".join(_where_from(item) for item in scraps) or "none"
            self.findings.grave(
                "scraps-differ", ("scraps",),
                f"the kit expects {kit.scraps} scraps, its cuts make {len(scraps)} ({listed})",
                "correct `scraps`, or the steps",
            )
            return
        made = sorted(
            tuple(sorted((s.stock.width.value, s.stock.height.value)))
            for s in scraps if s.stock and s.stock.measured
        )
        said = sorted(tuple(sorted(size)) for size in kit.scrap_sizes)
        if said and len(made) == len(scraps) and made != said:
            listed = ", ".join(self._size((a, b)) for a, b in made)
            self.findings.grave(
                "scraps-differ", ("scraps",), f"the cuts make scraps of {listed}",
                "correct the sizes in `scraps`",
            )


def _parts(work: Work) -> tuple[Give, ...]:
    return (*work.gives, work.rest) if work.rest else work.gives


def _wanted_by_pocket(to: Iterable[Destination]) -> dict[int, int]:
    wanted: dict[int, int] = {}
    for each in to:
        wanted[each.pocket] = wanted.get(each.pocket, 0) + each.count
    return wanted


def _fits(
    size: tuple[Fraction, Fraction], stated: tuple[Fraction, Fraction], slack: Fraction,
    loose: bool,
) -> bool:
    ways = (size, size[::-1]) if loose else (size,)
    return any(
        all(want - slack <= have <= want for have, want in zip(way, stated, strict=True))
        for way in ways
    )


def _in_hand(parts: Sequence[Stock], cut: int, lying: Orientation, whole: Stock) -> Stock:
    """The paper in hand before a cut: everything that has not come off yet."""
    if cut == 0:
        return whole
    left = parts[cut:]
    boxes = [part.box for part in left]
    x, y = min(b.x for b in boxes), min(b.y for b in boxes)
    w = max(b.x + b.w for b in boxes) - x
    h = max(b.y + b.h for b in boxes) - y
    box = replace(whole.box, x=x, y=y, w=w, h=h)
    sure = left[0].along(lying).sure if len(left) == 1 else _widest(left, lying)
    along = Measure(h if lying.sideways else w, sure)
    across = whole.across(lying)
    width, height = (across, along) if lying.sideways else (along, across)
    return Stock(box, width, height, whole.torn)


def _widest(parts: Sequence[Stock], lying: Orientation) -> Sure:
    sures = [part.along(lying).sure for part in parts]
    return Sure.EXACT if all(s is Sure.EXACT for s in sures) else Sure.ABOUT


def _sum(parts: Sequence[Stock], lying: Orientation, line: bool, about: bool) -> Measure:
    value = sum((part.along(lying).value for part in parts), Fraction(0))
    return Measure(value, Sure.PRINTED if line else Sure.ABOUT if about else Sure.EXACT)


def _times(count: int) -> str:
    return {1: "once", 2: "twice"}.get(count, f"{count} times")


def _where_from(item: Item) -> str:
    return f"one from {item.sheet}" if item.sheet else item.id
