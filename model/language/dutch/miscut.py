"""Sentences on what went wrong at the trimmer, and on what can be saved, in Dutch."""

from __future__ import annotations

from datetime import datetime, timedelta
from fractions import Fraction
from typing import TYPE_CHECKING

from model.language.dutch.grammar import counted
from model.language.dutch.steps import StepWords
from model.language.english import miscut as english
from model.length import Unit
from model.lengthtext import LengthStyle, write_length
from model.plan import Item, Role, Step, StepKind
from model.spot import Spot

if TYPE_CHECKING:
    from model.rescue.choices import Lot, Made
    from model.rescue.mishap import CannotBe, Mishap, What
    from model.state import State

_WHAT = {
    "mark": "Ik sneed op een andere maat",
    "measure": "Mijn liniaal geeft iets anders aan",
    "piece": "Ik nam een ander stuk dan gevraagd",
    "turned": "Het papier lag verkeerd gedraaid",
    "face": "De verkeerde kant lag boven",
    "ruined": "Er is iets bedorven: gescheurd, bevlekt of weg",
    "missing": "Er ontbreekt een vel in het pakket",
}
_WHY = {
    "no cut": "er is nog niets gesneden",
    "no numbers": "deze snede volgt een gedrukte lijn, geen maat. Is het stuk bedorven? Kies dat",
    "nothing else": "er lag niets anders om te nemen",
    "nothing there": "er is nog niets",
    "all begun": "elk vel is begonnen",
    "not to turn": "dit is niet in de snijder gesneden",
    "not cut": "er is nog niets van gesneden: neem terug, en leg het opnieuw",
    "by hand": "dit is met de hand gemaakt",
    "outside": "zo gedraaid is het papier te kort voor deze maten",
    "not falling": "zo gedraaid kloppen deze maten niet",
}
_CANNOT = {
    "no such step": "Die snede is niet meer te bekijken. Kies een andere.",
    "not done": "Die snede is nog niet gemaakt. Kies er een die gemaakt is.",
    "no numbers": "Van deze snede of dit papier is geen maat bekend. Is het stuk bedorven, zeg dan "
    "dat.",
    "as it should be": "Dat is precies zoals het hoort, dus daar is niets mis mee. Lees de maat "
    "nog eens af.",
    "no such thing": "Dat kan hier niet gekozen worden. Kies iets anders.",
    "not there": "Dat lag daar niet. Kies wat je echt nam.",
    "cut before": "Dat was eerder al in stukken gesneden. Kies iets anders.",
    "not cut": "Het lag er wel, maar er is niets van gesneden. Neem dat terug, en leg het goede.",
    "not of the stack": "Dat wordt hier nooit gesneden. Kies een vel, een strook of een stuk.",
    "by hand": "Dat is met de hand gemaakt, dus daar valt geen snede voor te bedenken. Maak er met "
    "de hand nog een, uit papier dat over is.",
    "not to turn": "Dit is niet in de snijder gesneden, dus het kan daar niet verkeerd liggen.",
    "turned": "Zo gedraaid is het papier te kort voor deze maten. Kies de snede waar het gebeurde.",
}


class MiscutWords(StepWords, english.MiscutWords):
    """Words on what went wrong."""

    # What is meant

    def cut_named(self, step: Step) -> str:
        """A cut by what it cut, and where: ``snede 2 van 4 van vel B, op 8½``."""
        item = self.plan.items[(*step.takes, *step.touches)[0]]
        of = f"vel {item.name}" if item.role is Role.SHEET else item.name
        if item.role is not Role.SHEET and item.sheet:
            of = f"{of} (vel {item.sheet})"
        if step.kind is StepKind.TEAR:
            wide = self.manner.length(step.mark.value) if step.mark else ""
            return f"scheur {step.number} van {step.of} van {of}, {wide} breed"
        reading = self.manner.reading(self.plan, step)
        at = "langs een gedrukte lijn" if reading is None else f"op {self.mark(step)}"
        return f"snede {step.number} van {step.of} van {of}, {at}"

    def cut_meant(self, step: Step | None, newest: bool) -> str:
        """Which cut is meant; see the English one."""
        if step is None:
            return "Er is nog niets gesneden."
        return f"{'Laatste' if newest else 'Eerdere'} snede: {self.cut_named(step)}."

    def cut_came(self, step: Step, state: State) -> str:
        """What came off at a cut, and where it is."""
        item = self.plan.items[step.makes[0]]
        return f"{self.named(item)}, {self.at_place(state.where(item.id))}"

    def cut_row(self, made: Made, state: State, now: datetime) -> tuple[str, str]:
        """A cut in a list; see the English one."""
        return super().cut_row(made, state, now)  # its parts are in Dutch

    def _ago(self, ago: timedelta) -> str:
        minutes = int(ago.total_seconds() // 60)
        if ago.days:
            return f"{counted(ago.days, 'dag', 'dagen')} geleden"
        if minutes < 1:
            return "zojuist"
        return f"{minutes} min geleden" if minutes < 60 else f"{minutes // 60} u geleden"

    def lot_row(self, lot: Lot) -> tuple[str, str]:
        """A thing in a list: what it is, then where."""
        item = lot.item
        whole = item.role in (Role.SHEET, Role.BASE)
        name = self._thing(item)
        where = "in het pakket" if lot.place == Spot.NOWHERE else self.at_place(lot.place)
        if item.sheet and not whole:
            where = f"{where}; van vel {item.sheet}"
        return name, f"{where}; {lot.count} gelijk" if lot.count > 1 else where

    def miscut_narrow(self) -> str:
        """What stands in the line that narrows a list, while it is empty."""
        return "typ om de lijst korter te maken: naam, vel, maat"

    def miscut_none(self) -> str:
        """That nothing in a list fits what was typed."""
        return "Niets hier heeft dat in de naam. Haal er iets van weg."

    # What happened

    def miscut_title(self) -> str:
        """Stands above the list of what can go wrong."""
        return "Missnede: wat gebeurde er?"

    def miscut_free(self) -> str:
        """That looking changes nothing."""
        return "Kijken kost niets: alles blijft zoals het is tot je een manier kiest."

    def miscut_other(self, key: str) -> str:
        """How another cut is chosen."""
        return f"Was het een andere snede? {key} toont ze alle."

    def what_happened(self, what: What) -> str:
        """One of the things that can go wrong, as a crafter says it."""
        return _WHAT[what]

    def why_not_said(self, code: str) -> str:
        """Why it can't be said now, by its code."""
        return f"nu niet: {_WHY.get(code, _WHY['outside'])}"

    def which_one(self, what: What | None, meant: Item | None = None) -> str:
        """Asks for a thing of a list; see the English one."""
        if what == "piece" and meant is not None:
            return f"Wat nam je in plaats van {self._thing(meant)}?"
        if what == "ruined":
            return "Wat is er bedorven?"
        return "Welk vel ontbreekt?" if what == "missing" else "Bij welke snede was het?"

    def _thing(self, item: Item) -> str:
        if item.role not in (Role.SHEET, Role.BASE):
            return self.named(item)
        paper = item.paper.face.name if item.paper else item.name
        return f"vel {item.name}" if paper in ("", item.name) else f"vel {item.name} ({paper})"

    def ask_length(self, what: What, item: Item, off: bool) -> str:
        """Asks what a length really was; see the English one."""
        if what == "mark":
            return "Op welke maat sneed je echt?"
        which = "dat eraf kwam" if off else "dat bleef liggen"
        return f"Hoe lang is {item.name}, {which}, langs de liniaal?"

    def should_have_been(self) -> str:
        """What the large figures are: what a length should have been."""
        return "Het had moeten zijn"

    def or_the_other(self, key: str, name: str, off: bool) -> str:
        """Which other thing of the cut can be measured, and the key for it."""
        return f"{key}: meet liever {name}, dat {'eraf kwam' if off else 'bleef liggen'}."

    def how_typed(self, unit: Unit) -> str:
        """How a length is typed."""
        if unit is Unit.IN:
            return "Typ 9 1/4 of 9.25, of met een eenheid: 235 mm. Dan Enter."
        number = "241" if unit is Unit.MM else "24.1"
        return f"Typ {number}, of met een eenheid: 9 1/4 in. Dan Enter."

    def no_length(self, text: str) -> str:
        """That what was typed is no length."""
        return f"{text} is geen maat."

    def confirm(self, what: What, item: Item) -> str:
        """Asks whether paper lay wrong."""
        thing = self._thing(item)
        if what == "turned":
            return f"Lag {thing} een kwartslag verkeerd, en is het zo gesneden?"
        return f"Lag van {thing} de verkeerde kant boven, en is het zo gesneden?"

    def as_drawn(self) -> str:
        """What the picture beside that question shows."""
        return "Getekend is hoe het had moeten liggen."

    def yes_it_did(self, key: str) -> str:
        """How that is said."""
        return f"{key}: ja, laat zien wat er te redden is. Esc: nee."

    def cannot_be(self, error: CannotBe, mishap: Mishap) -> str:
        """Why what was said can't have been so, and what to do; see the English one."""
        turned = mishap.what in ("turned", "face")
        later = error.step and error.step not in (mishap.step, "")
        if error.code in ("outside", "not falling", "later cut") and not turned:
            if later and error.step in self.plan.step_at:
                return self._later(error)
            if error.code == "not falling":
                return "In één lading is elke maat kleiner dan die ervoor. Lees nog eens af."
            limit = self.manner.length(error.length) if error.length else "dat"
            return (
                f"Er lag maar {limit} papier langs de liniaal, dus het moet minder zijn. Zo niet, "
                "dan was een eerdere snede fout: kies die."
            )
        code = "turned" if turned and error.code not in _CANNOT else error.code
        return _CANNOT.get(code, _CANNOT["no such thing"])

    def _later(self, error: CannotBe) -> str:
        step = self.plan.steps[self.plan.step_at[error.step]]
        left = f": er was maar {self.manner.length(error.length)} over" if error.length else ""
        return f"Dan had {self.cut_named(step)} niet gekund{left}. Kies de snede waar het gebeurde."

    def differs(self, by: Fraction, unit: Unit) -> str:
        """By how much a length is not what it should have been, in mm."""
        far = write_length(abs(by), LengthStyle(unit, self.manner.ascii), with_unit=True)
        return f"Dat is {far} {'meer' if by > 0 else 'minder'} dan het moet zijn. Enter gaat door."
