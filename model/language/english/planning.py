"""What `dryfit plan` says of a plan of cuts."""

from __future__ import annotations

from collections.abc import Sequence

from model.language.english.grammar import counted, listed

_FIGURES = {
    "missing": "missing",
    "sheets": "sheets",
    "scraps": "scraps",
    "cuts": "cuts",
    "reloads": "from the pile",
    "turns": "quarter turns",
    "settings": "marks to set",
}
_ALONE = {
    "printed lines": "it is taken apart along printed lines",
    "by hand": "it is torn or cut by hand, or waits",
    "pictures": "its pieces have words or pictures printed on them",
    "no size": "nobody measured it",
}


class PlanningPhrases:
    """A plan of cuts: its table, its drawing, its figures."""

    def heading(self, title: str, pieces: int, sheets: int, offcuts: int) -> str:
        """What is planned."""
        papers = [counted(sheets, "sheet")] if sheets or not offcuts else []
        papers += [counted(offcuts, "offcut")] if offcuts else []
        return f"{title}: {counted(pieces, 'piece')} from {listed(papers)}"

    def lengths(self, unit: str) -> str:
        """The unit of all lengths."""
        return f"lengths in {'inches' if unit == 'in' else unit}"

    def columns(self) -> tuple[str, str, str, str, str]:
        """The headings of the table: load, what is taken, marks, what comes off, what stays."""
        return ("load", "take", "marks", "comes off", "stays")

    def sheet(self, name: str, size: str) -> str:
        """A fresh sheet, as it is taken."""
        return f"sheet {name}, {size}"

    def offcut(self, name: str, size: str) -> str:
        """An offcut or a scrap at hand, as it is taken."""
        return f"offcut {name}, {size}"

    def turned(self) -> str:
        """That it is turned before it is laid in."""
        return "turn it a quarter"

    def turned_sheet(self) -> str:
        """That a fresh sheet does not lie upright."""
        return "top to the right"

    def along(self, side: str) -> str:
        """Which side of a fresh sheet lies along the ruler, when it does not lie upright."""
        return f"its {side} side along the ruler"

    def in_hand(self) -> str:
        """That it is what stayed of the load before."""
        return "in your hand"

    def times(self, count: int) -> str:
        """That it is done to so many alike, one after another."""
        return f"{count} times"

    def scrap(self) -> str:
        """What no page uses."""
        return "scrap"

    def counted_name(self, count: int, name: str) -> str:
        """So many alike things of a name."""
        return f"{count} {name}" if count > 1 else name

    def whole(self, sheet: str, name: str) -> str:
        """A sheet that is a wanted piece as it is."""
        return f"Sheet {sheet} is {name} as it is: no cut."

    def figure(self, name: str) -> str:
        """The name of a figure."""
        return _FIGURES[name]

    def planned(self) -> str:
        """Over the figures of the plan."""
        return "planned"

    def yours(self) -> str:
        """Over the figures of the author's own steps."""
        return "your steps"

    def proved(self) -> str:
        """That a figure is proved least."""
        return "proved least"

    def most_value(self) -> str:
        """That what is missing is proved to be worth least, not to be the fewest pieces."""
        return "proved most value"

    def at_least(self, least: int) -> str:
        """What is known of a figure that is not proved least."""
        return f"at least {least}"

    def differs(self, figure: str, yours: int, planned: int) -> str:
        """The first figure that differs, by its name."""
        return f"{figure}: {planned}, not {yours}"

    def compared(
        self, better: int, yours: Sequence[int], planned: Sequence[int], differs: str
    ) -> str:
        """The author's steps beside the plan: sheets, cuts and scraps of each.

        Args:
            better: 1 when the plan is better, -1 when it is worse, 0 when they are the same.
            yours: Sheets, cuts and scraps of the author's steps.
            planned: Those of the plan.
            differs: The first figure that differs.
        """
        own, new = self._three(yours), self._three(planned)
        end = {
            1: f"The plan is better ({differs}).",
            0: "They come to the same: keep yours.",
            -1: f"Yours are better ({differs}): keep them.",
        }[better]
        return f"Your steps: {own}; planned: {new}. {end}"

    def _three(self, figures: Sequence[int]) -> str:
        sheets, cuts, scraps = figures
        return ", ".join([counted(sheets, "sheet"), counted(cuts, "cut"), counted(scraps, "scrap")])

    def missing(self, name: str, count: int, wanted: int, places: Sequence[str]) -> str:
        """A piece that could not be had.

        Args:
            name: What it is called.
            count: How many are missing.
            wanted: How many are wanted.
            places: Where its copies are for.
        """
        said = f"MISSING: {count} of {counted(wanted, name, name)}"
        if not places:
            return said
        return f"{said}, for {listed(places, 'and' if count == wanted else 'or')}"

    def page(self, page: int, pocket: str) -> str:
        """A page, and its pocket."""
        return f"page {page} ({pocket})"

    def pocket(self, pocket: str) -> str:
        """A pocket."""
        return f"pocket {pocket}"

    def idle(self, names: Sequence[str]) -> str:
        """Sheets that need not be begun."""
        return f"Not needed: {listed(names)}."

    def alone(self, names: Sequence[str], why: str) -> str:
        """Sheets that were left as they are.

        Args:
            names: Their names.
            why: As in `model.planning.wanted.Alone`.
        """
        return f"Left as it is: {listed(names)} ({_ALONE[why]})."

    def time_up(self, seconds: str) -> str:
        """That the search ended with its time."""
        return (
            f"The {seconds} s were up before more could be proved; "
            "a longer --time may find a better plan."
        )

    def stopped(self) -> str:
        """That the search was stopped."""
        return "Stopped: this is the best plan so far."

    def progress(self, seconds: int, sheets: int, scraps: int) -> str:
        """How far the search is."""
        found = f"{counted(sheets, 'sheet')}, {counted(scraps, 'scrap')}"
        return f"planning, {seconds} s: {found} so far; Ctrl+C takes that"

    def begins(self, seconds: int) -> str:
        """That nothing was found yet."""
        return f"planning, {seconds} s"

    def drawn(self, names: Sequence[str], size: str, offcut: bool) -> str:
        """Over the drawing of a sheet or an offcut, or of several that are cut alike."""
        if offcut:
            return f"Offcut {listed(names)}, {size}{', alike' if len(names) > 1 else ''}"
        if len(names) == 1:
            return f"Sheet {names[0]}, {size}"
        return f"Sheets {listed(names)}, {size}, alike"
