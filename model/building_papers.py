"""The papers of a kit: those with a table of their own, and those described on the spot."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from model import kitfile as f
from model.finding import Findings, Path
from model.kit import Face, Paper, Sheet
from model.names import Doubts

# The keys that tell one paper from another.
_LOOKS = frozenset({"paper", "kind", "face", "reverse", "directional", "colour"})
_WHITE = Face("white", (255, 255, 255))
NO_FACE = Face("paper", (255, 255, 255))
"""What stands for a face that is not known."""


@dataclass(slots=True)
class Papers:
    """The papers by name.

    Attributes:
        findings: Where errors go.
        doubts: What is broken.
        all: The papers that have a table.
    """

    findings: Findings
    doubts: Doubts
    all: dict[str, Paper] = field(default_factory=dict)

    def read(self, tables: Sequence[tuple[int, f.Table]]) -> None:
        """Read the [[paper]] tables.

        Args:
            tables: The tables that could be read, with their indexes.
        """
        for index, table in tables:
            assert isinstance(table, f.PaperTable)
            if not table.name:  # it could not be read
                continue
            self._note_looks(table.name, ("paper", index))
            if table.name in self.all:
                self.findings.grave(
                    "name-twice",
                    ("paper", index),
                    f'two papers are called "{table.name}"',
                    "give one of them another name",
                )
            face = _face(table.face)
            printed = table.kind == "print"
            reverse = _face(table.reverse) if table.reverse else (_WHITE if printed else face)
            self.all[table.name] = Paper(
                table.name, printed, face, reverse, table.directional, table.landmarks
            )

    def made_of(self, table: f.MadeOf, name: str, where: Path) -> Paper | None:
        """The paper that a table names, or describes on the spot; None when it does neither.

        Args:
            table: The table.
            name: What it is the table of.
            where: Its place.
        """
        base: Paper | None = None
        if table.paper is not None:
            base = self.all.get(table.paper)
            if base is None:
                self._unknown_paper(table.paper, (*where, "paper"))
                # How it lies and what is printed on it is not judged.
                self.doubts.unseen.add(table.paper)
                self.doubts.unlike.add(table.paper)
                return Paper(table.paper, False, NO_FACE, NO_FACE)
        self._note_looks(base.name if base else name, where)
        lost = self.doubts.lost_of(where)
        if table.face is None and base is None and "face" not in lost:
            return None
        printed = table.kind == "print" if table.kind else bool(base and base.printed)
        face = _face(table.face) if table.face else base.face if base else NO_FACE
        if table.reverse is not None:
            reverse = _face(table.reverse)
        elif base is not None and table.face is None:
            reverse = base.reverse
        else:
            reverse = _WHITE if printed else face
        directional = bool(base and base.directional)
        if table.directional is not None:
            directional = table.directional
        landmarks = {**(base.landmarks if base else {}), **(table.landmarks or {})}
        return Paper(base.name if base else name, printed, face, reverse, directional, landmarks)

    def of_a_piece(self, name: str, where: Path, sheets: Sequence[Sheet]) -> Paper | None:
        """The paper that a piece is cut from; None when there is none of that name.

        Args:
            name: What the piece names: a paper, or a sheet whose paper is described on the spot.
            where: Where it does.
            sheets: The sheets.
        """
        if name in self.all:
            return self.all[name]
        sheet = next((sheet for sheet in sheets if sheet.name == name), None)
        if sheet is None:
            self._unknown_paper(name, where, [sheet.name for sheet in sheets])
        return sheet.paper if sheet else None

    def _note_looks(self, paper: str, where: Path) -> None:
        """Note what of a paper could not be read."""
        lost = self.doubts.lost_of(where)
        if lost & {"paper", "landmarks"}:
            self.doubts.unseen.add(paper)
        if lost & _LOOKS:
            self.doubts.unlike.add(paper)

    def _unknown_paper(self, name: str, where: Path, sheets: Sequence[str] = ()) -> None:
        if not self.doubts.may_be_paper(name):
            self.findings.once(
                ("paper", name),
                "unknown-paper",
                where,
                f'no paper is called "{name}"',
                lambda: self.findings.did_you_mean(
                    name, self.all.keys(), sheets, self.doubts.broken_names("paper")
                ),
            )


def _face(table: f.FaceTable) -> Face:
    return Face(table.name, table.colour)
