"""The books that are kept while a kit is worked through: things, steps and what lies ready."""

from __future__ import annotations

from collections import defaultdict, deque
from collections.abc import Sequence
from dataclasses import dataclass, field, replace

from model.cutting import Stock, whole_sheet
from model.finding import Findings, Path
from model.geometry import Orientation
from model.kit import SCRAP, Destination, Give, Kit, PieceKind, Sheet, Size, Source, Work
from model.lengthtext import LengthStyle
from model.limits import MOST_PIECES
from model.names import Doubts
from model.plan import Item, Phase, Role, Step


class TooManyPieces(Exception):
    """The steps make more things than a kit may have."""


@dataclass(slots=True)
class Ready:
    """Things under one name that a step can take; those with a place of their own come last.

    Attributes:
        alike: Copies that may stand for one another; the newest lies on top, at the right.
        own: Copies that the author sets apart by where they go.
    """

    alike: deque[str] = field(default_factory=deque)
    own: deque[str] = field(default_factory=deque)

    def __len__(self) -> int:
        """How many there are."""
        return len(self.alike) + len(self.own)

    @property
    def top(self) -> str:
        """The one on top."""
        return (self.alike or self.own)[-1]

    def take(self) -> str:
        """Take the one on top."""
        return (self.alike or self.own).pop()

    def take_out(self, id: str) -> bool:
        """Take a very copy, wherever it lies; False when it is not there."""
        for pile in (self.alike, self.own):
            if pile and pile[-1] == id:
                pile.pop()
                return True
            if id in pile:
                pile.remove(id)
                return True
        return False

    def touch(self) -> str:
        """The one on top, which then goes beneath, so that the next one is another."""
        pile = self.alike or self.own
        pile.rotate(1)
        return pile[0]


@dataclass(slots=True)
class Books:
    """The books.

    Attributes:
        kit: The kit.
        findings: Where errors go.
        doubts: What is broken.
        items: Every thing by its identity.
        steps: Every step so far.
        made_by: The index of the step that makes a thing.
        taken_by: The index of the step that uses a thing up.
        touched_by: The indexes of the steps that work on a thing.
        ready: What a step can take, by name.
        loads: The indexes of a load's cuts, by the load's id.
        made: The copies of each kind, by its name.
        made_in: The copies of each group, by its key.
        by_sheet: What is cut from each sheet.
        sheets: The sheets by name.
        strips: Where a strip's name first stands in the file.
        first: The first copy of a name.
        pinned: Destinations that single copies have, by kind.
        taken: Names that a step has taken.
        loose: Strips that no step takes, of which that was said.
        marked: Names that were slit or punched, with the verb.
        later: For each name that steps make, the phase of the first that does.
        companions: Kinds that are filed together with a kind, by its name.
        told: Names that have been complained of, with the sizes and with the sheets.
        style: How lengths are written in findings.
    """

    kit: Kit
    findings: Findings
    doubts: Doubts
    items: dict[str, Item] = field(default_factory=dict)
    steps: list[Step] = field(default_factory=list)
    made_by: dict[str, int] = field(default_factory=dict)
    taken_by: dict[str, int] = field(default_factory=dict)
    touched_by: dict[str, list[int]] = field(default_factory=lambda: defaultdict(list))
    ready: dict[str, Ready] = field(default_factory=lambda: defaultdict(Ready))
    loads: dict[str, list[int]] = field(default_factory=lambda: defaultdict(list))
    made: dict[str, list[str]] = field(default_factory=lambda: defaultdict(list))
    made_in: dict[str, list[str]] = field(default_factory=lambda: defaultdict(list))
    by_sheet: dict[str, list[str]] = field(default_factory=lambda: defaultdict(list))
    sheets: dict[str, Sheet] = field(default_factory=dict)
    strips: dict[str, Path] = field(default_factory=dict)
    first: dict[str, Item] = field(default_factory=dict)
    pinned: dict[str, list[Destination]] = field(default_factory=lambda: defaultdict(list))
    taken: set[str] = field(default_factory=set)
    loose: set[str] = field(default_factory=set)
    marked: dict[str, str] = field(default_factory=dict)
    later: dict[str, Phase] = field(default_factory=dict)
    companions: dict[str, list[PieceKind]] = field(default_factory=lambda: defaultdict(list))
    told: set[tuple[str, Size | str]] = field(default_factory=set)
    style: LengthStyle = field(init=False)
    _twins: dict[str, int] = field(default_factory=dict)
    _named: dict[str, list[str]] = field(default_factory=dict)

    def __post_init__(self) -> None:
        """Open the books."""
        self.style = LengthStyle(self.kit.unit, ascii=True)
        self.sheets = {sheet.name: sheet for sheet in self.kit.sheets}
        for kind in self.kit.kinds.values():
            if kind.companion_of:
                self.companions[kind.companion_of].append(kind)

    def next(self, id: str) -> tuple[str, int]:
        """The id and the index of the next step.

        Args:
            id: What it would like to be called; steps of one name are numbered from 2 on.
        """
        twin = self._twins[id] = self._twins.get(id, 0) + 1
        return (id if twin == 1 else f"{id}#{twin}"), len(self.steps)

    def put(self, step: Step) -> Step:
        """Add a step."""
        self.steps.append(step)
        for item in step.makes:
            self.made_by[item] = step.index
        if step.work and not step.load:
            for item in step.touches:
                self.touched_by[item].append(step.index)
        return step

    def add(self, item: Item) -> str:
        """Add a thing that a step can take or that is filed; returns its identity."""
        if len(self.items) >= MOST_PIECES + len(self.sheets):
            raise TooManyPieces
        self.items[item.id] = item
        # Ribbon is cut off its spool, and a companion waits for its piece: no step takes them.
        if item.role is not Role.SCRAP and not item.partner and item.length is None:
            ready = self.ready[item.name]
            (ready.own if item.group not in ("", item.name) else ready.alike).append(item.id)
        if item.sheet and item.id != item.sheet:
            self.by_sheet[item.sheet].append(item.id)
        if item.role is Role.PIECE:
            self.made[item.name].append(item.id)
            if item.group:
                self.made_in[item.group].append(item.id)
            if not item.partner:
                self._add_companions(item)
        return item.id

    def _add_companions(self, piece: Item) -> None:
        for kind in self.companions.get(piece.name, ()):
            number = len(self.made[kind.name]) + 1
            companion = Item(
                f"{kind.name}#{number}", kind.name, Role.PIECE, kind, kind.paper,
                stock=stated_stock(kind), use=kind.use, partner=piece.id,
            )  # fmt: skip
            self.add(companion)

    def part(
        self, parent: Item, give: Give, id: str, stock: Stock | None, lying: Orientation
    ) -> Item:
        """A part of a thing: a piece when its name is a kind's, else a strip or a scrap.

        Args:
            parent: What it is cut from.
            give: What the author calls it.
            id: Its identity.
            stock: Its rectangle; None for a shape, for which the kind's stated size serves.
            lying: How it lies when it comes off.

        Returns:
            The part, not yet added.
        """
        name = give.name
        strip = Item(id, name, Role.STRIP, None, parent.paper, parent.sheet, stock, lying)
        if give.scrap:
            return replace(strip, role=Role.SCRAP)
        kind = self.kit.kinds.get(name)
        if name in self.sheets or (kind and kind.source is not Source.CUT):
            if name not in self.doubts.names:
                what = "a sheet" if name in self.sheets else "something packed ready made"
                self.findings.grave(
                    "name-twice",
                    give.where,
                    f'the name "{name}" is used for two kinds: {what}, and a part of '
                    f'"{parent.name}"',
                    "give this one another name",
                )
                self.doubts.names.add(name)
                self.doubts.unnamed = True
            return strip
        if kind is None:
            self.strips.setdefault(name, give.where)
            return strip
        group = kind.name
        if give.to is not None:
            self.pinned[name].append(give.to)
            group = self.group_key(kind, give.to)
        return replace(
            strip, role=Role.PIECE, kind=kind, stock=stock or stated_stock(kind), group=group,
            use=give.use or kind.use, note=give.note,
        )  # fmt: skip

    def group_key(self, kind: PieceKind, to: Destination) -> str:
        """The name of the copies of a kind that the author sends to one place."""
        page = f" page {to.page}" if to.page else ""
        key = f"{kind.name} in {self.kit.pockets[to.pocket].label}{page}"
        while key in self.kit.kinds:  # a kind that happens to be called so
            key += "'"
        return key

    @property
    def takeable(self) -> list[str]:
        """Names of what a step can take: sheets that are no bases, strips, pieces."""
        return self._names_of(
            "takeable", [s.name for s in self.kit.sheets if s.base is None], "sheet"
        )

    @property
    def shapes(self) -> list[str]:
        """Names of what can be traced around: strips and pieces."""
        return self._names_of("shapes", [])

    @property
    def threads(self) -> list[str]:
        """Names of what can go through a slit: strips, pieces, ribbons."""
        ribbons = [k.name for k in self.kit.kinds.values() if k.source is Source.RIBBON]
        return self._names_of("threads", ribbons, "ribbon")

    @property
    def idle(self) -> list[str]:
        """Names of sheets that are no bases, and of strips, that no step takes."""
        if "idle" not in self._named:
            used = {SCRAP, *(work.take for work in self.kit.work), *self.kit.kinds}
            used |= self.doubts.names
            sheets = [sheet.name for sheet in self.kit.sheets if sheet.base is None]
            self._named["idle"] = [
                *(name for name in sheets if name not in used),
                *(name for name in self.later if name not in used and name not in self.sheets),
            ]
        return self._named["idle"]

    def _names_of(self, what: str, more: Sequence[str], *broken: str) -> list[str]:
        """Strips and pieces, whether they could be read or not, after some other names."""
        if what not in self._named:  # they are asked for again with each name that is wrong
            pieces = [
                kind.name
                for kind in self.kit.kinds.values()
                if kind.source is not Source.RIBBON and not kind.companion_of
            ]
            made = [name for name in self.later if name != SCRAP and name not in self.sheets]
            arrays = (*broken, "step", "piece", "precut", "embellishment")
            unread = self.doubts.broken_names(*arrays)
            self._named[what] = [*dict.fromkeys((*more, *made, *pieces, *unread))]
        return self._named[what]

    def excuse(self, work: Work) -> None:
        """A step can't be made: nothing is said of what it would have made."""
        self.doubts.cuts = True
        self.doubts.names.update(give.name for give in work.parts)


def stated_stock(kind: PieceKind) -> Stock | None:
    """A thing of the size that the author states, which no cut has measured."""
    return whole_sheet(*kind.size) if kind.size else None
