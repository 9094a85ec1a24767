"""Sentences on where a run stands, in Dutch: on coming back, on a changed kit, in the account."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import timedelta
from fractions import Fraction
from typing import TYPE_CHECKING

from model.kit import SetAside
from model.kittexts import changed_texts
from model.language.dutch.grammar import counted, some
from model.language.dutch.steps import StepWords
from model.language.dutch.warnings import WarningWords
from model.language.english.report import SQUARE_INCH, decimal, step_name, whole_minutes
from model.language.english.report import ReportWords as EnglishWords
from model.length import Unit
from model.pace import Left
from model.plan import Step, StepKind
from model.state import Due, Spot, State

if TYPE_CHECKING:
    from model.account import Account, PocketAccount, SheetAccount
    from model.inventory import Row
    from model.kitchange import Change

_MOST = 6


class ReportWords(WarningWords, StepWords, EnglishWords):
    """Words on a run as a whole."""

    def duration(self, spent: timedelta) -> str:
        """A time span: ``minder dan een minuut``, ``12 min``, ``1 u 05 min``."""
        minutes = int(spent.total_seconds() // 60)
        if minutes < 1:
            return "minder dan een minuut"
        if minutes < 60:
            return f"{minutes} min"
        return f"{minutes // 60} u {minutes % 60:02} min"

    def left(self, left: Left | None) -> str:
        """The estimate of what is left, or that none can be made yet."""
        if left is None:
            return "nog te gaan: onbekend"
        if left.high is None:
            return (
                f"nog minstens {self.duration(timedelta(minutes=whole_minutes(left.low, False)))}"
            )
        if not left.high:
            return "niets meer te doen"
        if left.high <= 60:
            return "nog ongeveer een minuut"
        # Rounded outwards, so that what is said is no narrower than what is known.
        low, high = whole_minutes(left.low, False), whole_minutes(left.high, True)
        span = self.duration(timedelta(minutes=high))
        if low == high:
            return f"nog ongeveer {span}"
        if low < 1:
            return f"nog hoogstens {span}"
        start = str(low) if high < 60 else self.duration(timedelta(minutes=low))
        return f"nog {start} tot {span}"

    # Where a run stands

    def how_far(self, done: int, steps: int, to_file: int) -> str:
        """How far a run is, for those who are not at its table; see the shelf's phrases."""
        return self.manner.phrases.shelf.how_far(done, steps, to_file)

    def sheet_waits(self, sheet: str) -> str:
        """A sheet that waits."""
        return f"vel {sheet}"

    def sheet_put_off(self, sheet: str) -> str:
        """A sheet that was put off."""
        return f"vel {sheet} (uitgesteld)"

    def more_wait(self, count: int) -> str:
        """How many more things wait than are named."""
        return f"nog {count}"

    def at_step(self, number: int, steps: int, due: Due) -> str:
        """Which step is worked on, in few words: ``stap 8/19``, ``stap 8/19, opbergen``."""
        if due.over:
            return self.how_far(steps, steps, 0)
        return f"stap {number}/{steps}{', opbergen' * (due.item is not None)}"

    def at_sheet(self, number: int, sheets: int) -> str:
        """Which sheet is worked on, in few words: ``vel 2/14``."""
        return f"vel {number}/{sheets}"

    # Coming back

    def welcome_back(self, state: State, waits: Sequence[str]) -> str:
        """Where a crafter stands who comes back after an hour or a week."""
        return "\n".join((f"Welkom terug bij {self.plan.kit.title}.", *self.standing(state, waits)))

    def welcome_briefly(self, state: State, waits: Sequence[str]) -> tuple[str, ...]:
        """The same in a few words, what matters most first, for as many as there is room."""
        steps = len(self.plan.steps)
        over = state.step() is None and state.due().item is None
        done = f"alle {steps} stappen gedaan" if over else f"{state.steps_done}/{steps} gedaan"
        said = [f"Welkom terug: {done}"]
        if state.warnings:
            said.append(f"{counted(len(state.warnings), 'waarschuwing', 'waarschuwingen')} open")
        if waits:
            said.append(f"wacht nog: {', '.join(waits)}")
        if state.pile:
            said.append(f"{len(state.pile)} op het hoopje")
        return tuple(said)

    def standing(self, state: State, waits: Sequence[str]) -> tuple[str, ...]:
        """How far a run is, what lies on the pile, what waits, and what is wrong: by lines."""
        said: list[str] = []
        due, step = state.due(), state.step()
        steps = len(self.plan.steps)
        done = f"{state.steps_done} van {counted(steps, 'stap', 'stappen')} gedaan"
        if due.item is not None:
            item = self.plan.items[due.item]
            said.append(f"{done}. Eerst: {self.file(item, state.belongs(due.item))}")
        elif step is None:
            said.append(f"Alle {steps} stappen zijn gedaan.")
        elif step.load and step.kind is not StepKind.LOAD:
            said.append(f"{done}; je bent bij vel {step.sheet}, {self.headline(step).lower()}.")
        else:
            said.append(f"{done}; hierna: {self.headline(step).lower()}.")
        if step is not None and step.kind in (StepKind.CUT, StepKind.TEAR):
            where = "In de snijder" if step.blade else "In je hand"
            said.append(f"{where}: {self.in_hand(step)}.")
        pile = [self.named(self.plan.items[id]) for id in reversed(state.pile)]
        if pile:
            said.append(f"Op het hoopje, van boven af: {some(pile, _MOST)}.")
        if waits:
            said.append(f"Apart gelegd, wacht nog: {', '.join(waits)}.")
        if state.warnings:
            count = len(state.warnings)
            stand = "waarschuwing staat" if count == 1 else "waarschuwingen staan"
            said.append(f"{count} {stand} nog open: {self._still_open(state)}.")
        return tuple(said)

    def _still_open(self, state: State) -> str:
        """What the warnings that stand are about, the newest first."""
        warnings = sorted(state.warnings.values(), key=lambda warning: -warning.since)
        said: list[str] = []
        for warning in warnings:
            name = self.warning_name(warning.kind)
            name = f"{name[:1].lower()}{name[1:]}"
            items = [self.named(self.plan.items[id]) for id in warning.items[-1:]]
            said.append(": ".join([name, *items]))
        return some(said, _MOST, "; ")

    def in_hand(self, step: Step) -> str:
        """What is left of the paper in hand before a cut: ``A, nu 7½ × 12``."""
        item = self.plan.items[(*step.takes, *step.touches)[0]]
        if step.number == 1 or step.before is None:
            return self.named(item)
        directional = bool(item.paper and item.paper.directional)
        size = self.manner.stock_size(step.before, directional)
        return f"{item.name}, nu {size}" if size else f"wat er over is van {item.name}"

    # A changed kit

    def kit_changed(self, change: Change) -> str:
        """How the kit's file changed since the session began, and what can be done."""
        said = ["Het bestand van het pakket is veranderd sinds deze sessie begon."]
        if change.plan is None:
            said += ["Zoals het nu is, kan het niet gebruikt worden:", *change.findings[:_MOST]]
            more = len(change.findings) - _MOST
            if more > 0:
                said.append(f"en nog {more}; dryfit check noemt ze allemaal")
            return "\n".join(said)
        new = change.plan
        for plan, ids, what in (
            (new, change.added, "nieuw"),
            (self.plan, change.dropped, "vervallen"),
            (self.plan, change.altered, "veranderd"),
        ):
            if ids:
                at = some(list(dict.fromkeys(step_name(plan, id) for id in ids)), _MOST)
                steps = counted(len(ids), "stap is", "stappen zijn")
                said.append(f"{steps} {what}, bij: {at}.")
        if change.blockers:
            names = list(dict.fromkeys(self._touched(id) for id in change.blockers))
            touched = some(names, _MOST)
            said.append(f"Overnemen kan niet; het raakt wat al gedaan is: {touched}.")
        elif len(said) == 1:
            texts = changed_texts(self.plan.kit, new.kit)
            about = f", bij: {some(texts, _MOST)}" if texts else ""
            said.append(f"Geen stap verandert daardoor; alleen de woorden zijn anders{about}.")
        return "\n".join(said)

    # The account

    def account_head(self, part: str) -> str:
        """The heading of a part of the account, by its code."""
        return {
            "pockets": "Vakken",
            "sheets": "Vellen: oppervlakte = stukken + restjes",
            "scraps": "Restjes",
            "warnings": "Waarschuwingen",
            "mended": "Wat er misging bij de snijder",
            "later": "Apart gelegd, overgebleven, weggelaten",
            "time": "Tijd",
        }[part]

    def account_title(self) -> str:
        """The first line of a saved report."""
        return f"dryfit eindstaat: {self.plan.kit.title}"

    def verdict(self, account: Account) -> str:
        """Whether everything is accounted for."""
        if account.closes:
            return "Alles is verantwoord."
        if account.lost_only:
            return "Alles is verantwoord, behalve wat verloren ging."
        if account.finished:
            return "Nog niet alles is verantwoord."
        return "De sessie is nog niet af."

    def pocket_held(self, pocket: PocketAccount) -> str:
        """How much of a pocket is there."""
        pieces = counted(pocket.wanted, "stuk", "stukken")
        lost = f", {pocket.lost} verloren" if pocket.lost else ""
        return f"{self.pocket(pocket.pocket)}: {pocket.held} van {pieces}{lost}"

    def pieces_held(self, row: Row) -> str:
        """How many of a kind are in a pocket, and where the others are."""
        where = ", ".join(self.elsewhere(row))
        said = f"{row.filed}/{row.wanted} {self.named(row.item)}"
        return f"{said}: {where}" if where else said

    def elsewhere(self, row: Row) -> tuple[str, ...]:
        """Where the copies are that a pocket still wants."""
        return tuple(
            f"{count} {what}"
            for count, what in (
                (row.on_pile, "op het hoopje"),
                (row.to_come, "komt nog" if row.to_come == 1 else "komen nog"),
                (row.elsewhere, "in een ander vak"),
                (row.scrapped, "bij de restjes"),
                (row.lost, "verloren"),
            )
            if count
        )

    def stray_in_list(self, goes: str) -> str:
        """That something in a pocket does not belong there, and where it goes."""
        return f"hoort hier niet: {goes}"

    def base_in_list(self, name: str, page: int, place: int) -> str:
        """A base among the things of its pocket, and where it lies."""
        return f"basisvel {name}, pagina {page}: {self.at_place(place)}"

    def about_row(self, row: Row) -> str:
        """What stands beside a row of a pocket: paper, pages, sheets, ties."""
        about = []
        reverse = row.item.use == "reverse"
        if row.face is not None and (reverse or row.face.name != row.item.name):
            # What is packed ready made has its own name for its paper's, and needs it once.
            about.append(row.face.name + (", achterkant" if reverse else ""))
        if row.pages:
            about.append(self.pages(row.pages))
        if row.sources:
            about.append("uit " + ", ".join(row.sources))
        if row.again:
            about.append("later verder gesneden")
        about += [f"{text[:1].lower()}{text[1:]}".rstrip(".") for text in self.ties(row.kind)]
        return "; ".join(about)

    def area(self, area: Fraction) -> str:
        """An area: square inches with two decimals, or square centimetres with one."""
        if self.manner.style.unit is Unit.IN:
            return f"{decimal(area / SQUARE_INCH, 2)} in²"
        return f"{decimal(area / 100, 1)} cm²"

    def sheet_line(self, sheet: SheetAccount) -> str:
        """Where a sheet's paper is."""
        if not sheet.measured:
            pieces = counted(sheet.piece_count, "stuk", "stukken")
            scraps = counted(sheet.scrap_count, "restje", "restjes")
            return f"{sheet.name}: niet gemeten; {pieces} en {scraps} geteld"
        parts = [f"stukken {self.area(sheet.pieces)}"]
        for what, area in (
            ("restjes", sheet.scraps),
            ("met de hand gesneden, met snippers,", sheet.by_hand),
            ("weggelaten", sheet.left_out),
            ("niet gesneden", sheet.uncut - sheet.left_out),
        ):
            if area:
                parts.append(f"{what} {self.area(area)}")
        return f"{sheet.name}: {self.area(sheet.area)} = {' + '.join(parts)}"

    def base_line(self, name: str, page: int, place: int) -> str:
        """Where a base is."""
        return f"{name}: heel, basisvel van pagina {page}, {self.at_place(place)}"

    def scraps_of(self, have: int, expected: int) -> str:
        """How many scraps there are."""
        return f"{have} van {expected} verwacht"

    def scrap_line(self, id: str, to_come: bool = False) -> str:
        """One thing among the scraps, or a scrap that is still to come."""
        item = self.plan.items[id]
        line = f"{self.named(item)} uit {item.sheet or 'het zakje'}"
        return f"{line}: komt nog" if to_come else line

    def extra_line(self, count: int) -> str:
        """Scraps that the kit does not know."""
        known = "dat het pakket niet kent" if count == 1 else "die het pakket niet kent"
        return f"nog {count} {known}"

    def no_warning(self) -> str:
        """Says that all is where it belongs."""
        return "geen open"

    def adrift_line(self, entries: Sequence[int]) -> str:
        """What a damaged session has lost the sense of."""
        numbers = [f"regel {number}" for number in entries]
        return f"niet te begrijpen: {some(numbers, _MOST)}"

    def moved_line(self, item: str, was: str, now: str) -> str:
        """What was moved to another pocket after it was filed; both by their labels."""
        name = self.named(self.plan.items[item])
        return f"verplaatst: {name} van {self.dot(was)} naar {self.dot(now)}"

    def aside_line(self, aside: SetAside) -> str:
        """Which pages will call for a set-aside."""
        pages = self.pages(aside.pages) if aside.pages else "elke pagina"
        return f"{aside.name}: voor {pages}"

    def ribbon_line(self, name: str, left: Fraction) -> str:
        """What is left over of a ribbon."""
        return f"{name}: {self.manner.length(left)} over"

    def left_out_line(self, id: str) -> str:
        """A step that was left out, by what it would have asked."""
        step = self.plan.steps[self.plan.step_at[id]]
        return f"weggelaten: {self.sentence(step, Spot.NOWHERE)}"

    def time_line(self, spent: timedelta, sittings: int, cuts: int) -> str:
        """Time at the table."""
        times = f"in {sittings} keer, {counted(cuts, 'snede', 'sneden')}"
        return f"{self.duration(spent)} aan tafel, {times}"

    def kit_line(self) -> str:
        """Which kit it was."""
        kit = self.plan.kit
        return f"pakket: {kit.title}{', ' + kit.edition if kit.edition else ''}"
