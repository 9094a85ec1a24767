"""What `dryfit plan` says of a plan of cuts, in Dutch."""

from __future__ import annotations

from collections.abc import Sequence

from model.language.dutch.grammar import counted, listed, of_it
from model.language.english import planning as english

_FIGURES = {
    "missing": "ontbreekt",
    "sheets": "vellen",
    "scraps": "restjes",
    "cuts": "sneden",
    "reloads": "van het hoopje",
    "turns": "kwartslagen",
    "settings": "in te stellen maten",
}
_ALONE = {
    "printed lines": "wordt langs gedrukte lijnen uit elkaar gehaald",
    "by hand": "wordt gescheurd of met de hand gesneden, of wacht",
    "pictures": "op de stukken staan gedrukte woorden of plaatjes",
    "no size": "is door niemand opgemeten",
}


class PlanningPhrases(english.PlanningPhrases):
    """A plan of cuts in Dutch."""

    def heading(self, title: str, pieces: int, sheets: int, offcuts: int) -> str:
        """What is planned."""
        papers = [counted(sheets, "vel", "vellen")] if sheets or not offcuts else []
        papers += [counted(offcuts, "afgesneden deel", "afgesneden delen")] if offcuts else []
        return f"{title}: {counted(pieces, 'stuk', 'stukken')} uit {listed(papers)}"

    def lengths(self, unit: str) -> str:
        """The unit of all lengths."""
        return f"lengtes in {'inch' if unit == 'in' else unit}"

    def columns(self) -> tuple[str, str, str, str, str]:
        """The headings of the table; see the English ones."""
        return ("lading", "neem", "maten", "gaat eraf", "blijft")

    def sheet(self, name: str, size: str) -> str:
        """A fresh sheet, as it is taken."""
        return f"vel {name}, {size}"

    def offcut(self, name: str, size: str) -> str:
        """An offcut or a scrap at hand, as it is taken."""
        return f"afgesneden deel {name}, {size}"

    def turned(self) -> str:
        """That it is turned before it is laid in."""
        return "draai een kwartslag"

    def turned_sheet(self) -> str:
        """That a fresh sheet does not lie upright."""
        return "bovenrand rechts"

    def along(self, side: str) -> str:
        """Which side of a fresh sheet lies along the ruler, when it does not lie upright."""
        return f"de kant van {side} langs de liniaal"

    def in_hand(self) -> str:
        """That it is what stayed of the load before."""
        return "in je hand"

    def times(self, count: int) -> str:
        """That it is done to so many alike, one after another."""
        return f"{count} keer"

    def scrap(self) -> str:
        """What no page uses."""
        return "restje"

    def counted_name(self, count: int, name: str) -> str:
        """So many alike things of a name."""
        return f"{count} {name}" if count > 1 else name

    def whole(self, sheet: str, name: str) -> str:
        """A sheet that is a wanted piece as it is."""
        return f"Vel {sheet} is zo al {name}: geen snede."

    def figure(self, name: str) -> str:
        """The name of a figure."""
        return _FIGURES[name]

    def planned(self) -> str:
        """Over the figures of the plan."""
        return "plan"

    def yours(self) -> str:
        """Over the figures of the author's own steps."""
        return "jouw stappen"

    def proved(self) -> str:
        """That a figure is proved least."""
        return "bewezen minimum"

    def most_value(self) -> str:
        """That what is missing is proved to be worth least, not to be the fewest pieces."""
        return "bewezen hoogste waarde"

    def at_least(self, least: int) -> str:
        """What is known of a figure that is not proved least."""
        return f"minstens {least}"

    def differs(self, figure: str, yours: int, planned: int) -> str:
        """The first figure that differs, by its name."""
        return f"{figure}: {planned}, niet {yours}"

    def compared(
        self, better: int, yours: Sequence[int], planned: Sequence[int], differs: str
    ) -> str:
        """The author's steps beside the plan; see the English one."""
        own, new = self._three(yours), self._three(planned)
        end = {
            1: f"Het plan is beter ({differs}).",
            0: "Het komt op hetzelfde neer: houd die van jou.",
            -1: f"Die van jou zijn beter ({differs}): houd ze.",
        }[better]
        return f"Jouw stappen: {own}; plan: {new}. {end}"

    def _three(self, figures: Sequence[int]) -> str:
        sheets, cuts, scraps = figures
        return ", ".join([
            counted(sheets, "vel", "vellen"),
            counted(cuts, "snede", "sneden"),
            counted(scraps, "restje", "restjes"),
        ])  # fmt: skip

    def missing(self, name: str, count: int, wanted: int, places: Sequence[str]) -> str:
        """A piece that could not be had; see the English one."""
        said = f"ONTBREEKT: {count} van {of_it(wanted, name)}"
        if not places:
            return said
        return f"{said}, voor {listed(places, 'en' if count == wanted else 'of')}"

    def page(self, page: int, pocket: str) -> str:
        """A page, and its pocket."""
        return f"pagina {page} ({pocket})"

    def pocket(self, pocket: str) -> str:
        """A pocket."""
        return f"vak {pocket}"

    def idle(self, names: Sequence[str]) -> str:
        """Sheets that need not be begun."""
        return f"Niet nodig: {listed(names)}."

    def alone(self, names: Sequence[str], why: str) -> str:
        """Sheets that were left as they are; see the English one."""
        return f"Blijft zoals het is: {listed(names)} ({_ALONE[why]})."

    def time_up(self, seconds: str) -> str:
        """That the search ended with its time."""
        return (
            f"De {seconds} s waren om voor er meer bewezen was; "
            "met een langere --time komt er misschien een beter plan."
        )

    def stopped(self) -> str:
        """That the search was stopped."""
        return "Gestopt: dit is het beste plan tot nu toe."

    def progress(self, seconds: int, sheets: int, scraps: int) -> str:
        """How far the search is."""
        found = f"{counted(sheets, 'vel', 'vellen')}, {counted(scraps, 'restje', 'restjes')}"
        return f"plannen, {seconds} s: tot nu toe {found}; Ctrl+C neemt dat"

    def begins(self, seconds: int) -> str:
        """That nothing was found yet."""
        return f"plannen, {seconds} s"

    def drawn(self, names: Sequence[str], size: str, offcut: bool) -> str:
        """Over the drawing of a sheet or an offcut, or of several that are cut alike."""
        if offcut:
            return f"Afgesneden deel {listed(names)}, {size}{', gelijk' if len(names) > 1 else ''}"
        if len(names) == 1:
            return f"Vel {names[0]}, {size}"
        return f"Vellen {listed(names)}, {size}, gelijk"
