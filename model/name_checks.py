"""Whether the names that a kit speaks of are there: what goes with what, and the order."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial

from model.finding import Findings, Path
from model.kit import PieceKind, Sheet, Source, Tie
from model.names import KINDS, Doubts, Names

_TIE_WORDS = {
    Tie.GOES_WITH: "goes with",
    Tie.BACKS: "backs",
    Tie.COMPLETES: "completes",
    Tie.TRACED_FROM: "is traced from",
}


def check_relations(names: Names, made: set[str], taken: set[str]) -> None:
    """Check that what a kind goes with, backs, completes or is filed with is there.

    Args:
        names: The kit's names.
        made: All names that steps make, strips too.
        taken: All names that steps take; one that nothing bears is told where it is taken.
    """
    findings = names.findings
    known = {*names.used, *made, *taken}
    for kind in names.kinds.values():
        for relation in kind.relations:
            other = relation.other
            if other in known or names.doubts.may_be(other):
                continue
            findings.once(
                ("name", other),
                "unknown-name",
                kind.where,
                f'"{kind.name}" {_TIE_WORDS[relation.tie]} "{other}", which the kit does not have',
                partial(
                    findings.did_you_mean,
                    other,
                    [name for name in (*names.used, *made) if name != kind.name],
                    names.doubts.broken_names("sheet", "base", "set_aside", "step", *KINDS),
                ),
            )
        if kind.companion_of:
            _check_companion(names, kind, made, taken)


def _check_companion(names: Names, kind: PieceKind, made: set[str], taken: set[str]) -> None:
    piece = names.kinds.get(kind.companion_of)
    where = (*kind.where, "with")
    if piece is None:
        _no_such_piece(names, kind, made, taken)
    elif piece.companion_of:
        names.findings.grave(
            "companion-chain",
            where,
            f'"{kind.name}" is filed with "{piece.name}", which waits for a piece itself',
            "name the piece that both are filed with",
        )


def _no_such_piece(names: Names, kind: PieceKind, made: set[str], taken: set[str]) -> None:
    other = kind.companion_of
    if names.doubts.may_be(other):
        return
    pieces = [piece.name for piece in names.kinds.values() if not piece.companion_of]
    near = names.findings.near(other, [name for name in pieces if name not in made])
    if other in made and near and names.kinds[near].source is Source.CUT:
        # The steps make what it is filed with, so it is the piece itself that is called wrongly.
        if other not in taken:
            return  # which is told where it is made
        names.doubts.forgiven.add(near)
    names.findings.once(
        ("piece", other),
        "unknown-name",
        (*kind.where, "with"),
        f'"{kind.name}" is filed with "{other}", which is no piece here',
        partial(
            names.findings.did_you_mean,
            other,
            pieces,
            names.doubts.broken_names("piece", "precut", "embellishment"),
        ),
    )


def check_order(
    order: Sequence[str],
    sheets: Sequence[Sheet],
    lacking: set[str],
    findings: Findings,
    doubts: Doubts,
) -> None:
    """Check that the stated order names sheets, each once.

    Args:
        order: The order as stated.
        sheets: All sheets.
        lacking: Names that steps take and none makes; what nothing bears is told there.
        findings: Where errors go.
        doubts: What is broken.
    """
    known = dict.fromkeys(sheet.name for sheet in sheets)
    bases = {sheet.name for sheet in sheets if sheet.base is not None}
    seen: set[str] = set()
    for index, name in enumerate(order):
        if not name:  # it could not be read
            continue
        where: Path = ("order", index)
        if name in seen:
            findings.grave("order-twice", where, f'"{name}" stands twice in order', "name it once")
        elif name not in known and name in lacking:
            continue
        elif name not in known and not (doubts.may_be(name) or doubts.may_be_made()):
            findings.grave(
                "unknown-sheet",
                where,
                f'no sheet is called "{name}"',
                findings.did_you_mean(
                    name,
                    [each for each in known if each not in bases],
                    doubts.broken_names("sheet"),
                ),
            )
        elif name in bases:
            findings.grave(
                "base-in-order",
                where,
                f'sheet "{name}" is a base: it is kept whole, and not trimmed',
                "leave it out of order",
            )
        seen.add(name)
