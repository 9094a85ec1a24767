"""From the tables of a kit file to the kit: what each name refers to.

All errors of meaning are collected, none stops the others. Names of tables that could
not be read are excused, so that one mistake is told once.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from typing import cast

from model import kitfile as f
from model.finding import Findings, Path, did_you_mean
from model.geometry import PaperSide, Side
from model.kit import (
    SCRAP,
    Destination,
    Face,
    Give,
    Kit,
    Paper,
    PieceKind,
    Pocket,
    Relation,
    SetAside,
    Sheet,
    Source,
    Tie,
    Verb,
    Wait,
    Work,
)
from model.length import Unit

_WAITS = {None: Wait.NO, "trimmer away": Wait.TRIMMER_AWAY, "after filing": Wait.AFTER_FILING}
_TURNS = {None: 0, "quarter": 1, "right": 1, "half": 2, "left": 3}
_WHITE = Face("white", (255, 255, 255))
_OWN_KEYS: dict[str, tuple[str, ...]] = {
    "trim": ("up", "lay", "advised", "turn", "marks", "gives", "rest", "times"),
    "knife": ("up", "lay", "advised", "turn", "marks", "gives", "rest", "times"),
    "tear": ("up", "lay", "advised", "turn", "widths", "edge", "gives", "rest", "times"),
    "fussy_cut": ("up", "gives", "rest", "times"),
    "trace": ("up", "around", "gives", "rest", "times"),
    "slit": ("up", "for", "length", "times"),
    "punch": ("up", "gives", "times"),
    "do": (),
}
_ANY_KEYS = ("optional", "wait", "tools", "needs", "note")


def label_key(label: str) -> str:
    """A pocket's label without the way its pages are set apart: ``3·4`` is ``3-4``."""
    return re.sub(r"[\s·.\-–/&+,]+", "·", label.strip().casefold()).strip("·")


@dataclass(slots=True)
class Builder:
    """Builds a kit from validated tables.

    Attributes:
        head: The keys at the top.
        tables: For each array, the tables that could be read, with their indexes.
        findings: Where errors go.
        excused: Names whose own tables are broken; no complaint about them.
    """

    head: f.Head
    tables: Mapping[str, list[tuple[int, f.Table]]]
    findings: Findings
    excused: set[str]
    pockets: list[Pocket] = field(default_factory=list)
    labels: dict[str, int] = field(default_factory=dict)
    page_pocket: dict[int, int] = field(default_factory=dict)
    papers: dict[str, Paper] = field(default_factory=dict)
    sheets: list[Sheet] = field(default_factory=list)
    kinds: dict[str, PieceKind] = field(default_factory=dict)
    used: dict[str, Path] = field(default_factory=dict)

    def build(self) -> Kit:
        """The kit; of use only when the findings hold nothing grave."""
        self._pockets()
        self._papers()
        self._sheets()
        self._packed("precut", Source.PRECUT)
        self._packed("embellishment", Source.EMBELLISHMENT)
        self._ribbons()
        asides = tuple(self._set_asides())
        self._pieces()
        work = tuple(self._work(asides))
        self._check_relations()
        head = self.head
        sizes = tuple(head.scraps) if isinstance(head.scraps, list) else ()
        for index, name in enumerate(head.order):
            if name not in {sheet.name for sheet in self.sheets} | self.excused:
                known = [sheet.name for sheet in self.sheets]
                self.findings.grave(
                    "unknown-sheet", ("order", index), f'no sheet is called "{name}"',
                    did_you_mean(name, known),
                )
        return Kit(
            title=head.title,
            edition=head.edition,
            author=head.author,
            note=head.note.strip(),
            unit=Unit(head.unit),
            page=head.page,
            pages=head.pages,
            pockets=tuple(self.pockets),
            sheets=tuple(self.sheets),
            kinds=self.kinds,
            set_asides=asides,
            work=work,
            face_down=head.stack == "face down",
            order=tuple(head.order),
            scraps=len(sizes) if isinstance(head.scraps, list) else head.scraps,
            scrap_sizes=sizes,
            ruler=head.ruler,
        )

    # Pockets and destinations

    def _pockets(self) -> None:
        tables = self.tables["pocket"]
        if not tables and "pocket" not in self.excused:
            for first in range(1, self.head.pages + 1, 2):
                pages = tuple(range(first, min(first + 2, self.head.pages + 1)))
                self._pocket("·".join(map(str, pages)), pages, ("pages",))
        for index, table in tables:
            assert isinstance(table, f.PocketTable)
            self._pocket(table.label, tuple(table.pages), ("pocket", index))

    def _pocket(self, label: str, pages: tuple[int, ...], where: Path) -> None:
        key = label_key(label)
        if key in self.labels:
            self.findings.grave("pocket-twice", where, f'two pockets are labelled "{label}"')
            return
        pocket = Pocket(len(self.pockets), label, pages)
        for page in pages:
            if page > self.head.pages:
                self.findings.grave(
                    "no-such-page", where,
                    f'pocket "{label}" names page {page}, but the kit has {self.head.pages} pages',
                )
            elif page in self.page_pocket:
                other = self.pockets[self.page_pocket[page]].label
                self.findings.grave(
                    "page-twice", where, f'page {page} is in pocket "{other}" already'
                )
            else:
                self.page_pocket[page] = pocket.index
        self.labels[key] = pocket.index
        self.pockets.append(pocket)

    def _page(self, page: int, where: Path) -> bool:
        if 1 <= page <= self.head.pages:
            return True
        self.findings.grave(
            "no-such-page", where,
            f"there is no page {page}", f"the kit has pages 1 to {self.head.pages}",
        )
        return False

    def _destination(self, raw: str | int, count: int, where: Path) -> Destination | None:
        page: int | None = raw if isinstance(raw, int) else None
        if isinstance(raw, str):
            found = self.labels.get(label_key(raw))
            if found is not None:
                return Destination(found, None, count)
            numbered = re.fullmatch(r"(?:page\s*)?(\d{1,4})", raw.strip().casefold())
            if not numbered:
                if "pocket" not in self.excused:
                    self.findings.grave(
                        "unknown-pocket", where, f'no pocket is labelled "{raw}"',
                        did_you_mean(raw, [p.label for p in self.pockets]),
                    )
                return None
            page = int(numbered[1])
        assert page is not None
        if not self._page(page, where):
            return None
        pocket = self.page_pocket.get(page)
        if pocket is None:
            if "pocket" not in self.excused:
                self.findings.grave(
                    "page-without-pocket", where, f"page {page} has no pocket",
                    "add it to a [[pocket]]",
                )
            return None
        return Destination(pocket, page, count)

    def _to(
        self, entries: Iterable[tuple[str | int, int]] | None, where: Path
    ) -> tuple[Destination, ...]:
        merged: dict[tuple[int, int | None], int] = {}
        for raw, count in entries or ():
            found = self._destination(raw, count, where)
            if found:
                key = (found.pocket, found.page)
                merged[key] = merged.get(key, 0) + count
        return tuple(Destination(pocket, page, n) for (pocket, page), n in merged.items())

    # Papers, sheets, and what is packed ready made

    def _papers(self) -> None:
        for index, table in self.tables["paper"]:
            assert isinstance(table, f.PaperTable)
            if table.name in self.papers:
                self.findings.grave(
                    "name-twice", ("paper", index), f'two papers are called "{table.name}"'
                )
            face = _face(table.face)
            printed = table.kind == "print"
            reverse = _face(table.reverse) if table.reverse else (_WHITE if printed else face)
            self.papers[table.name] = Paper(
                table.name, printed, face, reverse, table.directional, table.landmarks
            )

    def _made_of(self, table: f.MadeOf, name: str, where: Path) -> Paper | None:
        """The paper that a table names, or describes on the spot."""
        base: Paper | None = None
        if table.paper is not None:
            base = self.papers.get(table.paper)
            if base is None:
                if table.paper not in self.excused:
                    self.findings.grave(
                        "unknown-paper", (*where, "paper"), f'no paper is called "{table.paper}"',
                        did_you_mean(table.paper, list(self.papers)),
                    )
                return None
        if table.face is not None:
            face = _face(table.face)
        elif base is not None:
            face = base.face
        else:
            return None
        printed = table.kind == "print" if table.kind else bool(base and base.printed)
        if table.reverse is not None:
            reverse = _face(table.reverse)
        elif base is not None:
            reverse = base.reverse
        else:
            reverse = _WHITE if printed else face
        directional = (
            table.directional if table.directional is not None else bool(base and base.directional)
        )
        landmarks = {**(base.landmarks if base else {}), **(table.landmarks or {})}
        paper_name = base.name if base else name
        return Paper(paper_name, printed, face, reverse, directional, landmarks)

    def _name(self, name: str, where: Path, what: str) -> bool:
        """Claim a name; sheets, pieces and what is packed share one set of names."""
        if name.casefold() == SCRAP:
            self.findings.grave(
                "name-reserved", where, f'{what} can\'t be called "scrap"', "choose another name"
            )
            return False
        if name in self.used:
            self.findings.grave(
                "name-twice", where, f'the name "{name}" is used for two kinds',
                "give one of them another name",
            )
            return False
        self.used[name] = where
        return True

    def _sheets(self) -> None:
        bases: dict[int, str] = {}
        for index, table in self.tables["sheet"]:
            assert isinstance(table, f.SheetTable)
            where: Path = ("sheet", index)
            self._name(table.name, where, "a sheet")
            paper = self._made_of(table, table.name, where)
            if paper is None:
                if table.paper is None:
                    self.findings.grave(
                        "no-paper", where, f'sheet "{table.name}" names no paper',
                        'write paper = "..." or face = "..."',
                    )
                self.excused.add(table.name)
                continue
            if table.base is not None and self._page(table.base, (*where, "base")):
                if table.base in bases:
                    self.findings.grave(
                        "base-twice", (*where, "base"),
                        f'page {table.base} has the base "{bases[table.base]}" already',
                    )
                bases[table.base] = table.name
            size = table.size
            if size is None and not table.cut_apart:
                size = self.head.page
            self.sheets.append(
                Sheet(
                    table.name, paper, size, table.base, table.cut_apart,
                    _WAITS[table.wait], table.note, where,
                )
            )

    def _packed(self, array: str, source: Source) -> None:
        for index, table in self.tables[array]:
            assert isinstance(table, f.PackedTable)
            where: Path = (array, index)
            if not self._name(table.name, where, f"a {source}"):
                continue
            paper = self._made_of(table, table.name, where)
            if paper is None and table.colour is not None:
                face = Face(table.name, table.colour)
                paper = Paper(table.name, False, face, face)
            if (table.to is None) == (table.with_ is None):
                self.findings.grave(
                    "no-destination", where,
                    f'"{table.name}" needs either `to` (its pockets) or `with` (the piece it is '
                    "filed together with)",
                )
            self.kinds[table.name] = PieceKind(
                table.name, source, self._to(table.to, (*where, "to")), paper, table.size,
                table.turnable, table.smaller_by or Fraction(0), _relations(table),
                table.words, table.picture, table.use, companion_of=table.with_ or "",
                small=table.small, note=table.note, where=where,
            )

    def _ribbons(self) -> None:
        for index, table in self.tables["ribbon"]:
            assert isinstance(table, f.RibbonTable)
            where: Path = ("ribbon", index)
            if not self._name(table.name, where, "a ribbon"):
                continue
            lengths: list[tuple[int, Fraction]] = []
            to: list[Destination] = []
            for label, length in table.to:
                found = self._destination(label, 1, (*where, "to"))
                if found:
                    lengths.append((found.pocket, length))
                    to.append(found)
            total = sum((length for _, length in lengths), Fraction(0))
            if total > table.length:
                self.findings.grave(
                    "ribbon-short", where,
                    f'ribbon "{table.name}" is shorter than the lengths cut from it',
                )
            face = Face(table.name, table.colour)
            self.kinds[table.name] = PieceKind(
                table.name, Source.RIBBON, tuple(to), Paper(table.name, False, face, face),
                relations=tuple(Relation(Tie.GOES_WITH, other) for other in table.goes_with),
                lengths=tuple(lengths), length=table.length, note=table.note, where=where,
            )

    def _set_asides(self) -> Iterator[SetAside]:
        for index, table in self.tables["set_aside"]:
            assert isinstance(table, f.SetAsideTable)
            where: Path = ("set_aside", index)
            self._name(table.name, where, "a set-aside")
            for page in table.pages:
                self._page(page, (*where, "pages"))
            yield SetAside(table.name, tuple(table.pages), table.note, where)

    def _pieces(self) -> None:
        for index, table in self.tables["piece"]:
            assert isinstance(table, f.PieceTable)
            where: Path = ("piece", index)
            if not self._name(table.name, where, "a piece"):
                continue
            self.kinds[table.name] = PieceKind(
                table.name, Source.CUT, self._to(table.to, (*where, "to")), None, table.size,
                table.turnable, table.smaller_by or Fraction(0), _relations(table),
                table.words, table.picture, table.use, note=table.note, where=where,
            )

    def _check_relations(self) -> None:
        known = set(self.used) | self.excused | {
            give.name for work in self._made for give in work
        }
        for kind in self.kinds.values():
            for relation in kind.relations:
                if relation.other not in known:
                    self.findings.grave(
                        "unknown-name", kind.where,
                        f'"{kind.name}" {relation.tie} "{relation.other}", which the kit does '
                        "not have",
                        did_you_mean(relation.other, sorted(known)),
                    )
            if kind.companion_of and kind.companion_of not in set(self.kinds) | self.excused:
                self.findings.grave(
                    "unknown-name", kind.where,
                    f'"{kind.name}" is filed with "{kind.companion_of}", which is no piece here',
                    did_you_mean(kind.companion_of, list(self.kinds)),
                )

    _made: list[tuple[Give, ...]] = field(default_factory=list)

    # Steps

    def _work(self, asides: tuple[SetAside, ...]) -> Iterator[Work]:
        known_asides = [aside.name for aside in asides]
        for index, table in self.tables["step"]:
            assert isinstance(table, f.StepTable)
            where: Path = ("step", index)
            verbs = [v for v in f.VERBS if getattr(table, v) is not None]
            if len(verbs) != 1:
                self.findings.grave(
                    "step-verb", where,
                    "a step needs one verb" if not verbs else
                    f"a step has one verb, this one has {' and '.join(verbs)}",
                    f"one of {', '.join(f.VERBS)}",
                )
                continue
            verb = verbs[0]
            self._check_keys(table, verb, where)
            for need in table.needs:
                if need not in [*known_asides, *self.kinds, *self.excused]:
                    self.findings.grave(
                        "unknown-name", (*where, "needs"), f'nothing set aside is called "{need}"',
                        did_you_mean(need, [*known_asides, *self.kinds]),
                    )
            gives = self._gives(table, where)
            rest = self._give(table.rest, (*where, "rest")) if table.rest else None
            self._made.append((*gives, rest) if rest else gives)
            yield Work(
                verb=Verb(verb),
                take=getattr(table, verb),
                up=cast(PaperSide, table.up),
                lay=table.lay,
                advised=table.advised,
                turn=_TURNS[table.turn],
                marks=tuple(table.marks),
                widths=tuple(table.widths),
                edge=cast(Side, table.edge),
                gives=gives,
                rest=rest,
                around=table.around or table.for_ or "",
                length=table.length,
                times=table.times,
                optional=table.optional,
                wait=_WAITS[table.wait],
                tools=tuple(table.tools),
                needs=tuple(table.needs),
                note=table.note,
                where=where,
            )

    def _check_keys(self, table: f.StepTable, verb: str, where: Path) -> None:
        allowed = {*_OWN_KEYS[verb], *_ANY_KEYS, verb}
        for name in table.model_fields_set:
            key = name.rstrip("_")
            if key not in allowed:
                self.findings.grave(
                    "key-without-sense", (*where, key),
                    f'"{key}" has no meaning in a {verb} step',
                    f"it takes {', '.join((*_OWN_KEYS[verb], *_ANY_KEYS))}",
                )

    def _gives(self, table: f.StepTable, where: Path) -> tuple[Give, ...]:
        cuts = len(table.marks) or len(table.widths) or 1
        if table.gives is None:
            return ()
        if isinstance(table.gives, f.GiveTable):
            give = self._give(table.gives, (*where, "gives"))
            return (give,) * cuts
        return tuple(
            self._give(each, (*where, "gives", number))
            for number, each in enumerate(table.gives)
        )

    def _give(self, table: f.GiveTable, where: Path) -> Give:
        to = self._to(table.to, (*where, "to"))
        name = SCRAP if table.name.casefold() == SCRAP else table.name
        if name == SCRAP:
            if table.to is not None:
                self.findings.grave("scrap-filed", where, "a scrap has no pocket", "drop its `to`")
            return Give(SCRAP, None, None, table.note, where)
        kind = self.kinds.get(name)
        if kind is None and table.to is not None:
            if self._name(name, where, "a piece"):
                self.kinds[name] = PieceKind(
                    name, Source.CUT, to, size=table.size, use=table.use or "face",
                    note=table.note, where=where,
                )
            return Give(name, None, None, "", where)
        if table.size is not None and kind is None:
            self.findings.grave(
                "size-of-strip", where, f'"{name}" states a size but is no piece',
                "give it a pocket with `to`, or declare it as a [[piece]]",
            )
        if len(to) > 1 or (to and to[0].count > 1):
            self.findings.grave(
                "copy-to", where, f'this one copy of "{name}" is sent to several places',
                "name one pocket here; counts belong in its [[piece]]",
            )
        return Give(name, to[0] if to else None, cast(PaperSide | None, table.use),
                    table.note, where)


def _face(table: f.FaceTable) -> Face:
    return Face(table.name, table.colour)


def _relations(table: f.TiedTable) -> tuple[Relation, ...]:
    return tuple(
        Relation(tie, other)
        for tie, names in (
            (Tie.BACKS, table.backs),
            (Tie.COMPLETES, table.completes),
            (Tie.TRACED_FROM, table.traced_from),
            (Tie.GOES_WITH, table.goes_with),
        )
        for other in names
    )
