"""The few words of a drawing; where there are several for one thing, the longest comes first."""

from __future__ import annotations


class DrawingPhrases:
    """Words of a drawing."""

    def role(self, role: str) -> str:
        """What becomes of a block, by its role; empty for what needs no word."""
        return {"scrap": "scrap", "strip": "trim again"}.get(role, "")

    def top(self) -> str:
        """Beside the arrow to the top of a print."""
        return "top"

    def torn(self) -> str:
        """Along a torn edge: one short word."""
        return "torn"

    def held(self) -> str:
        """Along the edge that is held against the trimmer."""
        return "held"

    def stays(self) -> tuple[str, ...]:
        """Under what stays on the bed."""
        return "stays on the bed", "stays here", "stays"

    def comes_off(self) -> tuple[str, ...]:
        """Under what comes off."""
        return "comes off", "off"

    def cut(self, torn: bool) -> str:
        """Over the line to cut or to tear along."""
        return "tear" if torn else "cut"

    def schematic(self) -> tuple[str, ...]:
        """That the sizes of a drawing are not measured."""
        return "not to scale: schematic", "schematic", "sketch", "~"
