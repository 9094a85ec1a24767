"""Sentences on what is so after a mishap, and on what can be saved."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from typing import TYPE_CHECKING

from model.language.english.grammar import counted, some
from model.language.english.miscut import MiscutWords
from model.lengthtext import LengthStyle, write_length, write_size
from model.plan import Item, Role, StepKind
from model.rescue.differences import off_by, off_in_width

if TYPE_CHECKING:
    from model.rescue.mishap import Mishap, Names
    from model.rescue.rescue import Touched, Way
    from model.state import State

_WAYS = {
    "nothing": "Go on: every piece still comes out",
    "shift": "Cut on at other marks",
    "scrap": "Cut it anew from a scrap or an offcut",
    "sheet": "Plan the rest of the sheet anew",
    "later": "Cut it from a later sheet of the same paper",
    "small": "Take it a little smaller, as the kit allows",
    "nest": "Lay it on a backing of the full size",
    "none": "Go on without what is lost",
    "part": "Save what can be saved of it, and go on without the rest",
}
_REPORTED = {
    "mark": "cut at another mark",
    "measure": "came out another size",
    "piece": "another piece was taken",
    "turned": "it lay turned the wrong way",
    "face": "the wrong side was up",
    "ruined": "ruined",
    "missing": "missing from the packet",
}
_RESCUED = {
    "nothing": "nothing was lost",
    "shift": "cut on at other marks",
    "scrap": "cut anew from a scrap or an offcut",
    "sheet": "the rest of the sheet planned anew",
    "later": "cut from a later sheet",
    "small": "taken a little smaller",
    "nest": "laid on a backing",
    "part": "partly saved with other marks",
    "none": "gone on without what was lost",
}
_MOST = 4
"""Things that are named before the rest is counted."""


class RescueWords(MiscutWords):
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
            return f"Cut at {self.ruled(mishap.length)} instead of {self.ruled(should)}"
        if what == "measure":
            return f"Measured: {thing.name if thing else ''}, {self.manner.length(mishap.length)}"
        if what == "ruined":
            return f"Ruined: {named}"
        if what == "missing":
            return f"Missing: {named}"
        item = plan.items[step.takes[0]] if step and step.takes else None
        meant = self._thing(item) if item else ""
        if what == "piece":
            return f"Taken: {named} for {meant}"
        turned = what == "turned"
        return f"{'Turned wrong' if turned else 'Wrong side up'}: {meant}"

    def ruled(self, length: Fraction) -> str:
        """A length as the trimmer's ruler has it."""
        return write_length(length, LengthStyle(self.manner.ruler_unit, self.manner.ascii))

    def new_names(self) -> Names:
        """What things are called that the kit does not know."""
        from model.rescue.mishap import Names  # no start needs it

        return Names(self.new_strip(), self.new_spare(), self.new_scrap(), self.new_backing())

    def new_strip(self) -> str:
        """What a strip is called that the kit does not know; a number follows."""
        return "new strip"

    def new_spare(self) -> str:
        """What a piece is called that is cut again; ``{}`` is its name."""
        return "miscut {}"

    def new_scrap(self) -> str:
        """What a scrap is called that is cut again; a number follows."""
        return "saved scrap"

    def new_backing(self) -> str:
        """What a backing is called that the kit does not know; ``{}`` is what it backs."""
        return "back of {}"

    def touched(self, touched: Touched) -> str:
        """A thing that is not what it should be, and what it is in truth."""
        meant = touched.meant
        if touched.width is None or touched.height is None:
            return f"Gone: {self._thing(meant)}." if meant else ""
        size = self.true_size(touched)
        if touched.begun:
            return f"What is in the trimmer is {size} now."
        start = f"{self._thing(meant)}, {self.at_place(touched.place)}" if meant else (
            f"What lies {self.at_place(touched.place)}"
        )  # fmt: skip
        if touched.plays is not None and meant and touched.plays.name == meant.name:
            return f"{start}: is right all the same."
        if touched.plays is not None:
            return f"{start}: is in truth {self._thing(touched.plays)}."
        return f"{start}: came out {size}{self._off(touched)}.{self._unfit(touched)}"

    def _off(self, touched: Touched) -> str:
        by = off_by(touched)
        if not by:
            return ""
        larger, smaller = ("wide", "narrow") if off_in_width(touched) else ("long", "short")
        return f", {self.manner.length(abs(by))} too {larger if by > 0 else smaller}"

    def _unfit(self, touched: Touched) -> str:
        if touched.meant and touched.meant.role is Role.SCRAP:
            return ""  # nobody asks a scrap to fit
        return " It fits nothing as it is."

    def true_size(self, touched: Touched) -> str:
        """The size that a thing has in truth, written as the size that it should have."""
        width, height = touched.width or Fraction(0), touched.height or Fraction(0)
        meant = touched.meant
        upright = bool(meant and meant.paper and meant.paper.directional)
        if not upright and height < width:
            width, height = height, width
        return write_size(width, height, self.manner.style)

    def touched_more(self, count: int) -> str:
        """How many more things are not what they should be."""
        return f"And {counted(count, 'thing')} more that came of it."

    def nothing_lost(self) -> str:
        """That nothing is lost."""
        return "Nothing is lost: every piece still comes out."

    def lost(self, items: Sequence[Item]) -> str:
        """What is lost unless a way saves it."""
        return f"Lost, unless you choose a way: {self._lost(items)}."

    def _lost(self, items: Sequence[Item]) -> str:
        names: dict[str, int] = {}
        for item in items:
            group = self.plan.groups.get(item.group)
            pages = sorted({to.page for to in group.to if to.page}) if group else []
            of = f" for {self.pages(pages, 'or')}" if pages else ""
            if group and group.wanted and not pages:
                of = f" for pocket {self._one_of(list(group.wanted))}"
            name = f"{self._thing(item)}{of}"
            names[name] = names.get(name, 0) + 1
        said = [f"{count} of {name}" if count > 1 else name for name, count in names.items()]
        return some(said, _MOST)

    # The ways

    def way_does(self, way: Way) -> str:
        """What a way does."""
        return _WAYS[way.saving.value]

    def way_saves(self, way: Way, lost: int) -> str:
        """What a way saves.

        Args:
            way: The way.
            lost: How many things are lost without any.
        """
        if not way.missing:
            return "Saves all." if lost else ""
        saved = lost - len(way.missing)
        start = f"Saves {saved} of {lost}. " if saved > 0 else ""
        return f"{start}Lost: {self._lost(way.missing)}."

    def way_costs(self, way: Way, touched: Sequence[Touched], state: State) -> str:
        """What a way costs.

        Args:
            way: The way.
            touched: What is not as it should be.
            state: The session.
        """
        cost = way.cost
        said = [
            f"{counted(abs(number), one)} {'more' if number > 0 else 'fewer'}"
            for number, one in ((cost.cuts, "cut"), (cost.scraps, "scrap"))
            if number
        ]
        said += [f"{name} cut otherwise" for name in self._sheets(cost.sheets)]
        small = [self.named(way.plan.items[id]) for id in way.small]
        if small:
            said.append(f"{some(small, _MOST)} smaller than stated")
        fetch = [self._found_at(id, touched, state) for id in way.fetch]
        discard = [self._found_at(id, touched, state) for id in way.discard]
        if fetch:
            said.append(f"takes out again: {some(fetch, _MOST)}")
        if discard:
            said.append(f"throws away: {some(discard, _MOST)}")
        text = "; ".join(said)
        return f"{text[:1].upper()}{text[1:]}." if said else "Costs nothing more."

    def _sheets(self, names: Sequence[str]) -> list[str]:
        return [self._thing(self.plan.items[name]) for name in names if name in self.plan.items]

    def _found_at(self, id: str, touched: Sequence[Touched], state: State) -> str:
        """A thing by what it is in truth, since several may bear its name; and where it is."""
        place = f" {self.at_place(state.where(id))}" if id in self.plan.items else ""
        return f"{self._true_name(id, touched)}{place}"

    def _true_name(self, id: str, touched: Sequence[Touched]) -> str:
        item = self.plan.items.get(id)
        if item is None:
            return id
        true = next((each for each in touched if each.item == id and each.width), None)
        return f"{item.name} ({self.true_size(true)})" if true else self.named(item)

    def way_proved(self, way: Way) -> str:
        """Whether nothing at hand for it loses less."""
        if not way.missing or way.saving.value in ("part", "none"):
            return ""
        return "Proved: no less can be lost with this." if way.proved else "There may be better."

    def looking(self) -> str:
        """That more ways may come."""
        return "Still looking for better ways ..."

    def all_found(self, ways: int) -> str:
        """That no more ways will come."""
        return "Nothing better was found." if ways else "No way was found. Esc: all stays as it is."

    def choose_hint(self, take: str, show: str, steps: int) -> str:
        """What to do with the ways.

        Args:
            take: The key that takes one.
            show: The key that shows what is cut.
            steps: How many steps there are to show.
        """
        shows = f" {show} shows what you would cut." if steps else ""
        return f"{take}: go this way.{shows} Nothing is changed until then."

    def step_of(self, number: int, of: int) -> str:
        """Which step of a way is shown."""
        return f"step {number} of {of}"

    def first_do(self, way: Way, touched: Sequence[Touched], state: State) -> tuple[str, ...]:
        """What to do first after a way was chosen, thing by thing.

        Args:
            way: The way.
            touched: What is not as it should be.
            state: The session, before it was chosen.
        """
        said = [f"take {self._fetched(id, touched, state)}" for id in way.fetch]
        said += [f"throw away {self._found_at(id, touched, state)}" for id in way.discard]
        return (f"First {said[0]}", *said[1:]) if said else ()

    def _fetched(self, id: str, touched: Sequence[Touched], state: State) -> str:
        """A thing that is taken out again, and what out of: said while it is to be done."""
        place = state.where(id)
        out = f"out of pocket {self.pocket(place)}" if place >= 0 else "from the scraps"
        return f"{self._true_name(id, touched)} {out}"

    def rescued(self, first: Sequence[str], undo: str) -> tuple[str, ...]:
        """That a way was chosen, what to do first, and the key that takes it back.

        Args:
            first: What to do first, see `first_do`.
            undo: The key.
        """
        return (*(first or ("Rescued: go on as is said here",)), f"{undo} takes it back")

    # In the account

    def mended_line(self, what: str, where: str, way: str) -> str:
        """What went wrong and how it was rescued, by the codes that the session keeps.

        Args:
            what: What went wrong.
            where: The step or the thing, by its identity.
            way: What was done.
        """
        of = self._where_named(what, where)
        start = f"{of}: {_REPORTED.get(what, what)}" if of else _REPORTED.get(what, what)
        return f"{start}; {_RESCUED.get(way, way)}"

    def _where_named(self, what: str, where: str) -> str:
        if what in ("ruined", "missing"):
            return self._thing(self.plan.items[where]) if where in self.plan.items else ""
        if where not in self.plan.step_at:
            return ""
        step = self.plan.steps[self.plan.step_at[where]]
        if step.kind in (StepKind.CUT, StepKind.TEAR):
            return self.cut_named(step)
        return self._thing(self.plan.items[step.takes[0]]) if step.takes else ""

    def missed_line(self, name: str, pocket: int, count: int) -> str:
        """What a page misses in the end."""
        many = f"{count} of {name}" if count > 1 else name
        return f"{self.pocket(pocket)} misses {many}, which was lost"
