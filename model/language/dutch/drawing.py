"""The few words of a drawing, in Dutch; of several for one thing, the longest comes first."""

from __future__ import annotations

from model.language.english import drawing as english


class DrawingPhrases(english.DrawingPhrases):
    """Words of a drawing, in Dutch."""

    def role(self, role: str) -> str:
        """What becomes of a block, by its role; empty for what needs no word."""
        return {"scrap": "restje", "strip": "nog snijden"}.get(role, "")

    def top(self) -> str:
        """Beside the arrow to the top of a print."""
        return "boven"

    def torn(self) -> str:
        """Along a torn edge: one short word."""
        return "scheur"

    def held(self) -> str:
        """Along the edge that is held against the trimmer."""
        return "vast"

    def stays(self) -> tuple[str, ...]:
        """Under what stays on the bed."""
        return "blijft liggen", "blijft", "ligt"

    def comes_off(self) -> tuple[str, ...]:
        """Under what comes off."""
        return "komt eraf", "eraf"

    def cut(self, torn: bool) -> str:
        """Over the line to cut or to tear along."""
        return "scheur" if torn else "snijd"

    def schematic(self) -> tuple[str, ...]:
        """That the sizes of a drawing are not measured."""
        return "niet op schaal: schets", "schets", "~"
