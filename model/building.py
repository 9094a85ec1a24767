"""From the tables of a kit file to the kit: what each name refers to.

All errors of meaning are collected, none stops the others. Names of tables that could
not be read are excused, so that one mistake is told once.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from fractions import Fraction

from model import kitfile as f
from model.building_papers import NO_FACE, Papers
from model.building_steps import WAITS, StepBuilder
from model.finding import Findings, Path
from model.kit import (
    Destination,
    Face,
    Kit,
    Paper,
    PieceKind,
    Relation,
    SetAside,
    Sheet,
    Source,
    Tie,
    Verb,
)
from model.kitfields import ToEntry
from model.length import Unit
from model.lengthtext import LengthStyle, write_length, write_size
from model.name_checks import check_order, check_relations
from model.names import Doubts, Names
from model.pockets import Pockets

Tables = Mapping[str, list[tuple[int, f.Table]]]
"""For each array, the tables that could be read, with their indexes in the file."""

_LEAST_PAGE = Fraction(254, 10)


@dataclass(slots=True)
class Builder:
    """Builds a kit from tables of the right shape.

    Attributes:
        head: The keys at the top.
        tables: The tables that could be read.
        findings: Where errors go.
        doubts: What is broken.
        pockets: The pockets.
        names: The names.
        papers: The papers.
        sheets: The sheets, in file order.
    """

    head: f.Head
    tables: Tables
    findings: Findings
    doubts: Doubts
    pockets: Pockets = field(init=False)
    names: Names = field(init=False)
    papers: Papers = field(init=False)
    sheets: list[Sheet] = field(default_factory=list)
    _bases: dict[int, str] = field(default_factory=dict)

    def __post_init__(self) -> None:
        """Prepare the lists that all tables share."""
        self.pockets = Pockets(
            self.head.pages,
            self.findings,
            unsure="pocket" in self.doubts.arrays,
            pageless="pages" in self.doubts.head,
        )
        self.names = Names(self.findings, self.doubts)
        self.papers = Papers(self.findings, self.doubts)

    def build(self) -> Kit:
        """The kit; of use only when the findings hold nothing grave."""
        self._check_page()
        self._pockets()
        self.papers.read(self.tables["paper"])
        self._sheets()
        self._packed("precut", Source.PRECUT)
        self._packed("embellishment", Source.EMBELLISHMENT)
        self._ribbons()
        asides = tuple(self._set_asides())
        self._pieces()
        steps = StepBuilder(self.names, self.pockets)
        work = steps.works(self.tables["step"])
        self.pockets.tell_missing()
        taken = {each.take for each in work if each.verb is not Verb.DO}
        check_relations(self.names, steps.made, taken)
        check_order(self.head.order, self.sheets, taken - steps.made, self.findings, self.doubts)
        self.doubts.excused |= self.pockets.excused
        head = self.head
        sizes = head.scraps if isinstance(head.scraps, tuple) else ()
        return Kit(
            title=head.title,
            edition=head.edition,
            author=head.author,
            note=head.note.strip(),
            unit=Unit(head.unit),
            page=head.page,
            pages=head.pages,
            pockets=tuple(self.pockets.all),
            sheets=tuple(self.sheets),
            kinds=self.names.kinds,
            set_asides=asides,
            work=work,
            face_down=head.stack == "face down",
            order=tuple(head.order),
            scraps=len(head.scraps) if isinstance(head.scraps, tuple) else head.scraps,
            scrap_sizes=sizes,
            ruler=head.ruler,
        )

    def _check_page(self) -> None:
        """A page that is smaller than a stamp is one of which the unit is wrong."""
        if not self.doubts.head & {"page", "unit"} and max(self.head.page) < _LEAST_PAGE:
            style = LengthStyle(Unit(self.head.unit), ascii=True)
            said = write_size(*self.head.page, style)
            self.findings.remark(
                "page-small",
                ("page",),
                f"the page measures {said}, less than an inch each way",
                "check the numbers and unit",
            )

    def _pockets(self) -> None:
        if not self.tables["pocket"] and "pocket" not in self.doubts.arrays:
            self.pockets.pair_up()
        for index, table in self.tables["pocket"]:
            assert isinstance(table, f.PocketTable)
            self.pockets.add(table.label, table.pages, ("pocket", index))

    # Sheets

    def _sheets(self) -> None:
        for index, table in self.tables["sheet"]:
            assert isinstance(table, f.SheetTable)
            where: Path = ("sheet", index)
            lost = self.doubts.lost_of(where)
            paper = self.papers.made_of(table, table.name, where)
            if paper is None:
                if not lost & {"paper", "face"}:
                    self.findings.grave(
                        "no-paper",
                        where,
                        f'sheet "{table.name}" names no paper' if table.name else "it has no paper",
                        'write paper = "..." or face = "..."',
                    )
                self.doubts.unseen.add(table.name)
                self.doubts.unlike.add(table.name)
                paper = Paper(table.name, False, NO_FACE, NO_FACE)
            self._check_sheet(table, where)
            size = table.size
            if size is None and not table.cut_apart and not lost & {"size", "cut_apart"}:
                size = self.head.page
                if "page" in self.doubts.head:  # nobody measured it, so to say
                    size = None
            self.doubts.excused |= size is None and not table.cut_apart
            wait = WAITS[table.wait]
            if lost & {"base", "bases"}:  # whether it is cut at all is not known
                continue
            for name, base in self._physical(table):
                if self.names.claim(name, where, "a sheet"):
                    sheet = Sheet(
                        name, paper, size, base, table.cut_apart, wait, table.note, where,
                        table.use or "face",
                    )  # fmt: skip
                    self.sheets.append(sheet)

    def _physical(self, table: f.SheetTable) -> Iterator[tuple[str, int | None]]:
        """The sheets that one table stands for, and the page of which each is the base."""
        if not table.bases:
            yield table.name, table.base
            return
        for page in dict.fromkeys(table.bases):
            yield f"{table.name} {page}", page

    def _check_sheet(self, table: f.SheetTable, where: Path) -> None:
        lost = self.doubts.lost_of(where)
        if table.base is not None and table.bases is not None:
            self.findings.grave(
                "base-and-bases",
                (*where, "bases"),
                f'sheet "{table.name}" has both base and bases',
                "write bases alone",
            )
        key = "bases" if table.bases else "base"
        for page in table.bases or ([table.base] if table.base else []):
            if not self.pockets.page(page, (*where, key)):
                continue
            if page in self._bases:
                self.findings.grave(
                    "base-twice",
                    (*where, key),
                    f'page {page} has the base "{self._bases[page]}" already',
                    "a page has one base",
                )
                break
            self._bases[page] = table.name
        based = table.base is not None or table.bases is not None
        senseless = (
            {}
            if lost & {"base", "bases"}
            else {
                "use": table.use is not None and not based,
                "wait": table.wait is not None and based,
                "cut_apart": table.cut_apart and based,
            }
        )
        this = f'sheet "{table.name}"' if table.name else "a sheet"
        for name, wrong in senseless.items():
            if wrong:
                whole = "which is kept whole as a base" if based else "which is no base"
                self.findings.grave(
                    "key-without-sense",
                    (*where, name),
                    f'"{name}" has no meaning for {this}, {whole}',
                    f"leave {name} out",
                )

    # What is packed ready made, and the pieces

    def _packed(self, array: str, source: Source) -> None:
        what = "a pre-cut piece" if source is Source.PRECUT else "an embellishment"
        for index, table in self.tables[array]:
            assert isinstance(table, f.PackedTable)
            where: Path = (array, index)
            lost = self.doubts.lost_of(where)
            claimed = self.names.claim(table.name, where, what)
            paper = self.papers.made_of(table, table.name, where)
            if paper is None and table.colour is not None:
                face = Face(table.name, table.colour)
                paper = Paper(table.name, False, face, face)
            if (table.to is None) == (table.with_ is None) and not lost & {"to", "with"}:
                self.doubts.forgiven.add(table.name)
                self.findings.grave(
                    "no-destination" if table.to is None else "to-and-with",
                    where,
                    f'"{table.name or "it"}" has '
                    f"{'no place' if table.to is None else 'two places'}",
                    "write either to (its pockets) or with (the piece it is filed together with)",
                )
            places = self._to(table.name, table.to, where)
            if not claimed:
                continue
            self.names.kinds[table.name] = PieceKind(
                table.name, source, places, paper, table.size,
                table.turnable, table.smaller_by or Fraction(0), _relations(table),
                table.words, table.picture, table.use, companion_of=table.with_ or "",
                small=table.small, note=table.note, where=where,
            )  # fmt: skip

    def _to(
        self, name: str, entries: tuple[ToEntry, ...] | None, where: Path
    ) -> tuple[Destination, ...]:
        places, sure = self.pockets.to(entries, (*where, "to"))
        if not sure:
            self.doubts.placeless.add(name)
        return places

    def _ribbons(self) -> None:
        for index, table in self.tables["ribbon"]:
            assert isinstance(table, f.RibbonTable)
            where: Path = ("ribbon", index)
            lost = self.doubts.lost_of(where)
            claimed = self.names.claim(table.name, where, "a ribbon")
            to: list[Destination] = []
            lengths: list[tuple[int, Fraction]] = []
            for label, length in table.to:
                found = self.pockets.destination(label, 1, (*where, "to"))
                if found is None:
                    self.doubts.placeless.add(table.name)
                else:
                    lengths.append((found.pocket, length))
                    to.append(found)
            face = Face(table.name, table.colour)
            kind = PieceKind(
                table.name, Source.RIBBON, tuple(to), Paper(table.name, False, face, face),
                relations=tuple(Relation(Tie.GOES_WITH, other) for other in table.goes_with),
                lengths=tuple(lengths), length=table.length, note=table.note, where=where,
            )  # fmt: skip
            used = sum((length for _, length in table.to), Fraction(0))
            sure = "length" not in lost and "unit" not in self.doubts.head
            if used > table.length and sure:
                self.findings.grave(
                    "ribbon-short",
                    (*where, "length"),
                    f'ribbon "{table.name}" is {self._cord(table.length)} long, but '
                    f"{self._cord(used)} are cut from it",
                    "correct its length, or the lengths in to",
                )
            if claimed:
                self.names.kinds[table.name] = kind

    def _cord(self, length: Fraction) -> str:
        return write_length(length, LengthStyle(Unit(self.head.unit), ascii=True), with_unit=True)

    def _set_asides(self) -> Iterator[SetAside]:
        for index, table in self.tables["set_aside"]:
            assert isinstance(table, f.SetAsideTable)
            where: Path = ("set_aside", index)
            for page in table.pages:
                self.pockets.page(page, (*where, "pages"))
            if self.names.claim(table.name, where, "a set-aside"):
                yield SetAside(table.name, tuple(table.pages), table.note, where)

    def _pieces(self) -> None:
        for index, table in self.tables["piece"]:
            assert isinstance(table, f.PieceTable)
            where: Path = ("piece", index)
            claimed = self.names.claim(table.name, where, "a piece")
            places = self._to(table.name, table.to, where)
            if not claimed:
                continue
            paper = None
            if table.paper is not None:
                paper = self.papers.of_a_piece(table.paper, (*where, "paper"), self.sheets)
            self.names.kinds[table.name] = PieceKind(
                table.name, Source.CUT, places, paper, table.size,
                table.turnable, table.smaller_by or Fraction(0), _relations(table),
                table.words, table.picture, table.use, note=table.note, where=where,
            )  # fmt: skip


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
