"""Sentences on what is so after a mishap, and on what can be saved, in Dutch."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from typing import TYPE_CHECKING

from model.language.dutch.grammar import counted, of_it, some
from model.language.dutch.miscut import MiscutWords
from model.language.english import rescue as english
from model.plan import Item, Role
from model.rescue.differences import off_by, off_in_width

if TYPE_CHECKING:
    from model.rescue.mishap import Mishap
    from model.rescue.rescue import Touched, Way
    from model.state import State

_WAYS = {
    "nothing": "Ga door: elk stuk komt er nog uit",
    "shift": "Snijd verder op andere maten",
    "scrap": "Snijd het opnieuw uit een restje of afgesneden deel",
    "sheet": "Deel de rest van dit vel opnieuw in",
    "later": "Snijd het uit een later vel van hetzelfde papier",
    "small": "Neem het iets kleiner, zoals het pakket toestaat",
    "nest": "Leg het op een stuk van de volle maat",
    "none": "Ga door zonder wat verloren is",
    "part": "Red wat er te redden is, en ga door zonder de rest",
}
_REPORTED = {
    "mark": "op een andere maat gesneden",
    "measure": "kwam anders uit",
    "piece": "een ander stuk genomen",
    "turned": "lag verkeerd gedraaid",
    "face": "de verkeerde kant lag boven",
    "ruined": "bedorven",
    "missing": "ontbreekt in het pakket",
}
_RESCUED = {
    "nothing": "er ging niets verloren",
    "shift": "verder gesneden op andere maten",
    "scrap": "opnieuw gesneden uit een restje of afgesneden deel",
    "sheet": "de rest van het vel opnieuw ingedeeld",
    "later": "uit een later vel gesneden",
    "small": "iets kleiner genomen",
    "nest": "op een groter stuk gelegd",
    "part": "deels gered met andere maten",
    "none": "verder gegaan zonder wat verloren ging",
}
_MOST = 4
"""Things that are named before the rest is counted."""


class RescueWords(MiscutWords, english.RescueWords):
    """Words on what is so, and on what can be saved."""

    # What is so

    def mishap_said(self, mishap: Mishap) -> str:
        """What went wrong, in few words."""
        plan, what = self.plan, mishap.what
        step = plan.steps[plan.step_at[mishap.step]] if mishap.step in plan.step_at else None
        thing = plan.items.get(mishap.thing)
        named = self._thing(thing) if thing else ""
        if what == "mark" and step is not None:
            should = step.mark.value if step.mark else Fraction(0)
            return f"Gesneden op {self.ruled(mishap.length)} in plaats van {self.ruled(should)}"
        if what == "measure":
            return f"Gemeten: {thing.name if thing else ''}, {self.manner.length(mishap.length)}"
        if what == "ruined":
            return f"Bedorven: {named}"
        if what == "missing":
            return f"Ontbreekt: {named}"
        item = plan.items[step.takes[0]] if step and step.takes else None
        meant = self._thing(item) if item else ""
        if what == "piece":
            return f"Genomen: {named} in plaats van {meant}"
        return f"{'Verkeerd gedraaid' if what == 'turned' else 'Verkeerde kant boven'}: {meant}"

    def ruled(self, length: Fraction) -> str:
        """A length as the trimmer's ruler has it."""
        return super().ruled(length)  # figures and a unit

    def new_strip(self) -> str:
        """What a strip is called that the kit does not know; a number follows."""
        return "nieuwe strook"

    def new_spare(self) -> str:
        """What a piece is called that is cut again; ``{}`` is its name."""
        return "misgesneden {}"

    def new_scrap(self) -> str:
        """What a scrap is called that is cut again; a number follows."""
        return "bewaard restje"

    def new_backing(self) -> str:
        """What a backing is called that the kit does not know; ``{}`` is what it backs."""
        return "achter {}"

    def touched(self, touched: Touched) -> str:
        """A thing that is not what it should be, and what it is in truth."""
        meant = touched.meant
        if touched.width is None or touched.height is None:
            return f"Weg: {self._thing(meant)}." if meant else ""
        size = self.true_size(touched)
        if touched.begun:
            return f"Wat in de snijder ligt, is nu {size}."
        where = self.at_place(touched.place)
        start = f"{self._thing(meant)}, {where}" if meant else f"Wat {where} ligt"
        if touched.plays is not None and meant and touched.plays.name == meant.name:
            return f"{start}: is toch goed."
        if touched.plays is not None:
            return f"{start}: is in werkelijkheid {self._thing(touched.plays)}."
        return f"{start}: werd {size}{self._off(touched)}.{self._unfit(touched)}"

    def _off(self, touched: Touched) -> str:
        by = off_by(touched)
        if not by:
            return ""
        larger, smaller = ("breed", "smal") if off_in_width(touched) else ("lang", "kort")
        return f", {self.manner.length(abs(by))} te {larger if by > 0 else smaller}"

    def _unfit(self, touched: Touched) -> str:
        if touched.meant and touched.meant.role is Role.SCRAP:
            return ""  # nobody asks a scrap to fit
        return " Het past zo nergens."

    def true_size(self, touched: Touched) -> str:
        """The size that a thing has in truth, written as the size that it should have."""
        return super().true_size(touched)  # figures and a unit

    def touched_more(self, count: int) -> str:
        """How many more things are not what they should be."""
        return f"En nog {counted(count, 'ding', 'dingen')} die ervan kwamen."

    def nothing_lost(self) -> str:
        """That nothing is lost."""
        return "Er is niets verloren: elk stuk komt er nog uit."

    def lost(self, items: Sequence[Item]) -> str:
        """What is lost unless a way saves it."""
        return f"Verloren, tenzij je een manier kiest: {self._lost(items)}."

    def _lost(self, items: Sequence[Item]) -> str:
        names: dict[str, int] = {}
        for item in items:
            group = self.plan.groups.get(item.group)
            pages = sorted({to.page for to in group.to if to.page}) if group else []
            of = f" voor {self.pages(pages, 'or')}" if pages else ""
            if group and group.wanted and not pages:
                of = f" voor vak {self._one_of(list(group.wanted))}"
            name = f"{self._thing(item)}{of}"
            names[name] = names.get(name, 0) + 1
        return some([of_it(n, name) if n > 1 else name for name, n in names.items()], _MOST)

    # The ways

    def way_does(self, way: Way) -> str:
        """What a way does; see the English one."""
        return _WAYS[way.saving.value]

    def way_saves(self, way: Way, lost: int) -> str:
        """What a way saves; see the English one."""
        if not way.missing:
            return "Redt alles." if lost else ""
        saved = lost - len(way.missing)
        start = f"Redt {saved} van {lost}. " if saved > 0 else ""
        return f"{start}Verloren: {self._lost(way.missing)}."

    def way_costs(self, way: Way, touched: Sequence[Touched], state: State) -> str:
        """What a way costs; see the English one."""
        cost = way.cost
        said = [
            f"{counted(abs(number), one, many)} {'meer' if number > 0 else 'minder'}"
            for number, one, many in (
                (cost.cuts, "snede", "sneden"),
                (cost.scraps, "restje", "restjes"),
            )
            if number
        ]
        said += [f"{name} anders gesneden" for name in self._sheets(cost.sheets)]
        small = [self.named(way.plan.items[id]) for id in way.small]
        if small:
            said.append(f"kleiner dan opgegeven: {some(small, _MOST)}")
        fetch = [self._found_at(id, touched, state) for id in way.fetch]
        discard = [self._found_at(id, touched, state) for id in way.discard]
        if fetch:
            said.append(f"haalt er weer uit: {some(fetch, _MOST)}")
        if discard:
            said.append(f"gooit weg: {some(discard, _MOST)}")
        text = "; ".join(said)
        return f"{text[:1].upper()}{text[1:]}." if said else "Kost niets extra."

    def way_proved(self, way: Way) -> str:
        """Whether nothing at hand for it loses less."""
        if not way.missing or way.saving.value in ("part", "none"):
            return ""
        if way.proved:
            return "Bewezen: minder verlies kan hiermee niet."
        return "Misschien kan het beter."

    def looking(self) -> str:
        """That more ways may come."""
        return "Er wordt nog naar betere gezocht ..."

    def all_found(self, ways: int) -> str:
        """That no more ways will come."""
        if ways:
            return "Iets beters is niet gevonden."
        return "Geen manier gevonden. Esc: alles blijft zoals het is."

    def choose_hint(self, take: str, show: str, steps: int) -> str:
        """What to do with the ways; see the English one."""
        shows = f" {show} toont wat je zou snijden." if steps else ""
        return f"{take}: doe het zo.{shows} Tot dan verandert er niets."

    def step_of(self, number: int, of: int) -> str:
        """Which step of a way is shown."""
        return f"stap {number} van {of}"

    def first_do(self, way: Way, touched: Sequence[Touched], state: State) -> tuple[str, ...]:
        """What to do first after a way was chosen, thing by thing; see the English one."""
        said = [f"pak {self._fetched(id, touched, state)}" for id in way.fetch]
        said += [f"gooi {self._found_at(id, touched, state)} weg" for id in way.discard]
        return (f"Eerst: {said[0]}", *said[1:]) if said else ()

    def _fetched(self, id: str, touched: Sequence[Touched], state: State) -> str:
        place = state.where(id)
        out = f"uit vak {self.pocket(place)}" if place >= 0 else "van de restjes"
        return f"{self._true_name(id, touched)} {out}"

    def rescued(self, first: Sequence[str], undo: str) -> tuple[str, ...]:
        """That a way was chosen, what to do first, and the key that takes it back."""
        return (*(first or ("Gered: ga door zoals hier staat",)), f"{undo} neemt het terug")

    # In the account

    def mended_line(self, what: str, where: str, way: str) -> str:
        """What went wrong and how it was rescued; see the English one."""
        of = self._where_named(what, where)
        start = f"{of}: {_REPORTED.get(what, what)}" if of else _REPORTED.get(what, what)
        return f"{start}; {_RESCUED.get(way, way)}"

    def missed_line(self, name: str, pocket: int, count: int) -> str:
        """What a page misses in the end."""
        return f"in {self.pocket(pocket)} ontbreekt {of_it(count, name)}: verloren gegaan"
