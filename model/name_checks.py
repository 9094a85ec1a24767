"""Whether the names that a kit speaks of are there: what goes with what, and the order."""

from __future__ import annotations

from collections.abc import Sequence

from model.finding import Findings, Path
from model.kit import PieceKind, Sheet, Tie
from model.names import KINDS, Doubts, Names

_TIE_WORDS = {
    Tie.GOES_WITH: "goes with",
    Tie.BACKS: "backs",
    Tie.COMPLETES: "completes",
    Tie.TRACED_FROM: "is traced from",
}


def check_relations(names: Names, made: set[str]) -> None:
    """Check that what a kind goes with, backs, completes or is filed with is there.

    Args:
        names: The kit's names.
        made: All names that steps make, strips too.
    """
    findings = names.findings
    for kind in names.kinds.values():
        for relation in kind.relations:
            other = relation.other
            if other in names.used or other in made or names.doubts.may_be(other):
                continue
            findings.grave(
                "unknown-name",
                kind.where,
                f'"{kind.name}" {_TIE_WORDS[relation.tie]} "{other}", which the kit does not have',
                findings.did_you_mean(
                    other,
                    [name for name in (*names.used, *made) if name != kind.name],
                    names.doubts.broken_names("sheet", "base", "set_aside", "step", *KINDS),
                ),
            )
        if kind.companion_of:
            _check_companion(names, kind)


def _check_companion(names: Names, kind: PieceKind) -> None:
    piece = names.kinds.get(kind.companion_of)
    where = (*kind.where, "with")
    if piece is None:
        if not names.doubts.may_be(kind.companion_of):
            names.findings.grave(
                "unknown-name",
                where,
                f'"{kind.name}" is filed with "{kind.companion_of}", which is no piece here',
                names.findings.did_you_mean(
                    kind.companion_of,
                    [other.name for other in names.kinds.values() if not other.companion_of],
                    names.doubts.broken_names("piece", "precut", "embellishment"),
                ),
            )
    elif piece.companion_of:
        names.findings.grave(
            "companion-chain",
            where,
            f'"{kind.name}" is filed with "{piece.name}", which waits for a piece itself',
            "name the piece that both are filed with",
        )


def check_order(
    order: Sequence[str], sheets: Sequence[Sheet], findings: Findings, doubts: Doubts
) -> None:
    """Check that the stated order names sheets, each once.

    Args:
        order: The order as stated.
        sheets: All sheets.
        findings: Where errors go.
        doubts: What is broken.
    """
    known = {sheet.name for sheet in sheets}
    bases = {sheet.name for sheet in sheets if sheet.base is not None}
    seen: set[str] = set()
    for index, name in enumerate(order):
        where: Path = ("order", index)
        if name in seen:
            findings.grave("order-twice", where, f'"{name}" stands twice in order', "name it once")
        elif name not in known and not (doubts.may_be(name) or doubts.may_be_made()):
            findings.grave(
                "unknown-sheet",
                where,
                f'no sheet is called "{name}"',
                findings.did_you_mean(name, known - bases, doubts.broken_names("sheet")),
            )
        elif name in bases:
            findings.grave(
                "base-in-order",
                where,
                f'sheet "{name}" is a base: it is kept whole, and not trimmed',
                "leave it out of order",
            )
        seen.add(name)
