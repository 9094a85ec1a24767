"""Sentences on what to do at a step, and the few words that stand around it."""

from __future__ import annotations

import re
from collections.abc import Sequence

from model.cutting import second_ruler
from model.event import Entry, Event, Skipped
from model.geometry import Sure
from model.kit import Sheet, Source, Verb, Wait
from model.language.dutch.grammar import counted, listed, of_it
from model.language.dutch.lying import LayWords
from model.language.english import steps as english
from model.plan import Item, Role, Step, StepKind
from model.ruler import say_reading
from model.state import Spot

_BY_HAND = {
    Verb.FUSSY_CUT: "Met de hand uitknippen",
    Verb.TRACE: "Omtrekken en uitknippen",
    Verb.SLIT: "Gleuf snijden",
    Verb.PUNCH: "Ponsen",
}
_HEADLINES = {
    StepKind.OPEN: "Open het pakket",
    StepKind.ASIDE: "Apart leggen",
    StepKind.FILL: "Opbergen wat al klaar is",
    StepKind.STACK: "De stapel maken",
    StepKind.TURN_STACK: "De stapel omkeren",
    StepKind.AWAY: "Papiersnijder weg",
    StepKind.DO: "Verder",
}
_PAPER = {Verb.TEAR: "gescheurd", Verb.PUNCH: "geponst"}
_SIDED = re.compile(r"\b(left|right|links\w*|rechts\w*|linker\w*|rechter\w*)\b", re.IGNORECASE)
"""A kit's notes may be in any language; these are the two that this reader is likely to have."""
_LARGE = {
    StepKind.ASIDE: "apart", StepKind.STACK: "stapel", StepKind.TURN_STACK: "keer om",
    StepKind.AWAY: "weg",
}  # fmt: skip
_LARGE_BY_HAND = {
    Verb.FUSSY_CUT: "knip uit", Verb.TRACE: "trek om", Verb.SLIT: "gleuf", Verb.PUNCH: "pons",
}  # fmt: skip
_FROM = {
    Spot.SCRAPS: " uit de restjes",
    Spot.PILE: " van het hoopje",
    Spot.STACK: " uit de stapel",
    Spot.IN_HAND: ": dat heb je in je hand",
    Spot.ASIDE: ": dat ligt apart",
}


class StepWords(LayWords, english.StepWords):
    """Words on steps."""

    def headline(self, step: Step) -> str:
        """A word or two on what kind of step it is."""
        if step.kind is StepKind.CUT:
            word = "Snede met hobbymes" if step.verb is Verb.KNIFE else "Snede"
            return f"{word} {step.number} van {step.of}"
        if step.kind is StepKind.TEAR:
            return f"Scheur {step.number} van {step.of}"
        if step.kind is StepKind.LOAD:
            if step.verb is Verb.TEAR:
                return "Klaarleggen om te scheuren"
            return "Op de snijmat" if step.verb is Verb.KNIFE else "In de papiersnijder"
        if step.kind in (StepKind.SHAPE, StepKind.MARK):
            return _BY_HAND[step.verb or Verb.PUNCH]
        return _HEADLINES[step.kind]

    def large(self, step: Step) -> str:
        """One short word for the large figures, where a step has no number of its own."""
        whole = bool(step.takes or step.touches) and step.sheet in (*step.takes, *step.touches)
        if step.kind in (StepKind.STACK, StepKind.LOAD) and whole and len(step.sheet) <= 3:
            return step.sheet
        if step.kind is StepKind.LOAD:
            return "leg in" if step.verb is Verb.TRIM else "leg"
        if step.kind in (StepKind.SHAPE, StepKind.MARK):
            return _LARGE_BY_HAND.get(step.verb or Verb.PUNCH, "")
        return _LARGE.get(step.kind, "")

    def call_it(self, step: Step) -> str:
        """What the space key does at a step, in a word or two."""
        return {
            StepKind.CUT: "gesneden",
            StepKind.TEAR: "gescheurd",
            StepKind.LOAD: "ligt zo",
            StepKind.FILL: "opgeborgen",
        }.get(step.kind, "klaar")

    def was_it_cut(self, step: Step) -> str:
        """Asks, before a cut is taken back, whether it was made."""
        done = _done_to_paper(step)
        return f"Is het echt {done}? Papier dat {done} is, blijft {done}."

    def it_is_cut(self, step: Step) -> str:
        """Answers that the cut was made, and nothing is taken back."""
        return f"Ja, het is {_done_to_paper(step)}: laat het zo"

    def it_is_not_cut(self, step: Step) -> str:
        """Answers that the cut was not made."""
        return f"Nee, nog niet {_done_to_paper(step)}: neem alles terug"

    def cut_but_take_back(self, step: Step, word: Event, same: bool) -> str:
        """Answers that the cut was made, but something said of where things are is taken back.

        Args:
            step: The step that stays done.
            word: What is taken back.
            same: Whether it was said together with the step, not before it.
        """
        of = "waar het heen ging" if same else "wat ervoor kwam"
        return f"Het is {_done_to_paper(step)}: neem alleen terug {of}, {self.said(word)}"

    def left_out(self, answer: Sequence[Entry]) -> str:
        """Says that a step was left out, and how many went with it.

        Args:
            answer: The entries of the answer that left it out.
        """
        events = [entry.event for entry in answer]
        more = sum(event.steps - 1 for event in events if isinstance(event, Skipped))
        if not more:
            return "Overgeslagen."
        steps = counted(more, "stap die eraan vastzit", "stappen die eraan vastzitten")
        return f"Overgeslagen, met nog {steps}."

    # What to do

    def sentence(self, step: Step, place_of: int, may_skip: bool = False) -> str:
        """What to do at a step.

        Args:
            step: The step.
            place_of: Where the thing that it takes up lies now.
            may_skip: Whether the step may be left out now.
        """
        said = self._sentence(step, place_of)
        return f"{said} Je mag dit overslaan." if may_skip else said

    def _sentence(self, step: Step, place_of: int) -> str:
        kit = self.plan.kit
        if step.kind is StepKind.OPEN:
            note = "Lees de notitie van de maker en leg alles klaar."
            return f"Open het pakket: {kit.title}. {note}"
        if step.kind is StepKind.ASIDE:
            return self._aside(step)
        if step.kind is StepKind.FILL:
            return self._fill(step)
        if step.kind is StepKind.STACK:
            return self._stack(step)
        if step.kind is StepKind.TURN_STACK:
            first = self.plan.order[0] if self.plan.order else self.plan.stack[0]
            return f"Keer de hele stapel om: vel {first} ligt nu bovenop, voorkant boven."
        if step.kind is StepKind.LOAD:
            return f"{self._take(step, place_of)} {self.lay(step)}"
        if step.kind is StepKind.CUT:
            return self._cut(step)
        if step.kind is StepKind.TEAR:
            return self._tear(step)
        if step.kind is StepKind.AWAY:
            return "Vergrendel het mes en ruim de papiersnijder op. De rest gaat met de hand."
        if step.work is not None and step.kind is StepKind.DO:
            return step.work.take.rstrip(".") + "."
        return self._by_hand(step, place_of).rstrip()

    def _aside(self, step: Step) -> str:
        name = step.id.removeprefix("aside:")
        sheet = self.plan.sheets.get(name)
        if sheet is not None:
            away = sheet.wait is Wait.TRIMMER_AWAY
            until = "de papiersnijder weg is" if away else "alles is opgeborgen"
            return f"Leg vel {_known_by(sheet)} apart: het wacht tot {until}."
        kind = self.plan.kit.kinds.get(name)
        if kind is not None:
            return f"Leg {name} apart, om op te bergen samen met {kind.companion_of}."
        aside = next(a for a in self.plan.kit.set_asides if a.name == name)
        return f"Leg {name} apart voor {self.pages(aside.pages) if aside.pages else 'later'}."

    def _fill(self, step: Step) -> str:
        item = self.plan.items[step.makes[0]]
        pocket = f"vak {self.pocket(step.pocket)}"
        count = len(step.makes)
        if item.kind and item.kind.source is Source.RIBBON:
            size = self.manner.size(item)
            return f"Knip {size} van {item.name} af en leg dat stuk in {pocket}."
        if count == 1:
            return f"Leg 1 {self.named(item)} in {pocket}."
        return f"Tel {of_it(count, self.named(item))} af en leg ze in {pocket}."

    def _stack(self, step: Step) -> str:
        sheet = self.plan.sheets[step.sheet]
        what = f"{'vel ' * (sheet.base is None)}{_known_by(sheet)}"
        how = "voorkant onder" if self.plan.kit.face_down else "voorkant boven"
        base = "" if sheet.base is None else f" Basisvel van pagina {sheet.base}."
        if sheet.name == self.plan.stack[0]:
            return f"Begin de stapel: leg {what} op tafel, {how}.{base}"
        return f"Leg {what} erop, {how}.{base}"

    def _take(self, step: Step, place_of: int) -> str:
        item = self.plan.items[step.takes[0]]
        what = f"vel {item.name}" if item.role is Role.SHEET else self.named(item)
        if place_of == Spot.STACK:
            return f"Neem {what} boven van de stapel."
        return f"Neem {what}." if place_of == Spot.NOWHERE else self._fetch(what, place_of)

    def _fetch(self, what: str, place_of: int) -> str:
        if place_of >= 0:
            return f"Neem {what} uit vak {self.pocket(place_of)}."
        start = _FROM.get(Spot(place_of), f": dat is {self.at_place(place_of)}")
        return f"Neem {what}{start}."

    def mark(self, step: Step) -> str:
        """The mark as read on this crafter's ruler: ``9⅜, een haartje meer``."""
        reading = self.manner.reading(self.plan, step)
        if reading is None:
            return "de volgende gedrukte lijn"
        measures = self.manner.phrases.measures
        said = say_reading(reading, self.manner.style, measures)
        return measures.about(said) if step.mark and step.mark.sure is Sure.ABOUT else said

    def mark_error(self, step: Step) -> str:
        """How far the true mark is from the one read: ``een haartje meer``; else empty."""
        return super().mark_error(step)  # of what `mark` says

    def _cut(self, step: Step) -> str:
        assert step.mark is not None
        mark = self.mark(step)
        knife = step.verb is Verb.KNIFE
        if self.manner.must_measure(self.plan, step):
            how = " met liniaal en hobbymes" if knife else ""
            exact = self.manner.length(step.mark.value)
            start = (
                f"Meet {exact} vanaf de aangelegde rand, zet daar met de hand een streepje "
                f"en snijd er{how}"
            )
        elif knife:
            comma = "," if "," in mark else ""
            start = f"Leg de liniaal op {mark}{comma} en snijd met het hobbymes"
        elif step.mark.sure is Sure.PRINTED:
            start = "Leg de volgende gedrukte lijn bij het mes en snijd"
        elif step.mark.sure is Sure.ABOUT:
            start = f"Leg aan op {mark}; de gedrukte lijn beslist. Snijd"
        else:
            start = f"Leg aan op {mark}{',' if ',' in mark else ''} en snijd"
        return self._comes_off(start, step)

    def _comes_off(self, start: str, step: Step) -> str:
        """What to do, and what comes of it; no name begins a sentence, so it stays as written."""
        off = self.plan.items[step.makes[0]]
        named = self.named(off)
        what = f"er komt een {named} af" if off.role is Role.SCRAP else f"{named} komt eraf"
        return f"{start}: {what}."

    def _tear(self, step: Step) -> str:
        assert step.mark is not None
        width = self.manner.length(step.mark.value)
        return self._comes_off(f"Scheur van de losse rand {width} af, langs de liniaal", step)

    def _by_hand(self, step: Step, place_of: int) -> str:
        work = step.work
        assert work is not None
        item = self.plan.items[(*step.takes, *step.touches)[0]]
        start = "" if place_of == Spot.PILE else f"{self._fetch(item.name, place_of)} "
        named = self.named(item)
        if work.verb is Verb.FUSSY_CUT:
            return f"{start}Knip {self._shapes(step)} uit {named}, langs de gedrukte omtrek."
        if work.verb is Verb.TRACE:
            return (
                f"{start}Trek {work.around or 'de vorm'} om op de achterkant van {named} en "
                f"knip {self._shapes(step)} uit, net binnen de lijn."
            )
        if work.verb is Verb.SLIT:
            wide = ", een haartje breder dan de strook"
            thread = f" voor {work.around}{wide}" if work.around else ""
            length = f" van {self.manner.length(work.length)} lang" if work.length else ""
            return f"{start}Snijd in {named} een gleuf{length}{thread}. {self._back(place_of)}"
        if work.gives:
            return f"{start}Pons {self._shapes(step)} uit {named}. {self._back(place_of)}"
        return f"{start}Pons {named}. {self._back(place_of)}"

    def _back(self, place_of: int) -> str:
        return f"Leg het stuk dan terug in {self.pocket(place_of)}." if place_of >= 0 else ""

    def _shapes(self, step: Step) -> str:
        counts: dict[str, int] = {}
        for id in step.makes:
            name = self.plan.items[id].name
            counts[name] = counts.get(name, 0) + 1
        return listed([of_it(count, name) for name, count in counts.items()]) or "de vormen"

    # What else

    def pattern(self, item: Item, place: int) -> str:
        """Where the piece is that is traced around, and where it goes back to."""
        if place >= 0:
            return f"Neem 1 {item.name} uit {self.pocket(place)} als mal, en leg die daar terug."
        return f"Als mal dient {item.name} {self.at_place(place)}."

    def more(self, step: Step) -> tuple[str, ...]:
        """What else a step wants known: notes, tools, what is called for."""
        work = step.work
        if step.kind is StepKind.OPEN:
            return self.overview()
        if step.kind is StepKind.FILL:
            return self.about_piece(self.plan.items[step.makes[0]], step.pocket)
        if step.kind is StepKind.ASIDE:
            name = step.id.removeprefix("aside:")
            asides = self.plan.kit.set_asides
            return tuple(each.note for each in asides if each.name == name and each.note)
        said: list[str] = []
        if step.kind is StepKind.TEAR and step.mark is not None:
            more = second_ruler(step.mark.value, self.tearing_ruler)
            if more:
                said.append(
                    f"De liniaal is {self.manner.length(self.tearing_ruler)} breed: leg er een "
                    f"tweede naast, met {self.manner.length(more)} zichtbaar."
                )
        if work is not None and step.number == 1:
            if work.note:
                said.append(self._note(work.note, bool(step.load)))
            if work.tools:
                said.append(f"Gereedschap: {', '.join(work.tools)}.")
            if work.needs:
                said.append(f"Pak nu: {', '.join(work.needs)}.")
        return tuple(said)

    def _note(self, note: str, laid: bool) -> str:
        """An author's note on paper that is laid: it tells left from right for one hand only."""
        if self.manner.left_handed and laid and _SIDED.search(note):
            return f"(Voor rechtshandigen:) {note}"
        return note

    def overview(self) -> tuple[str, ...]:
        """What is in the kit, and what is needed to cut it."""
        kit, said = self.plan.kit, []
        if kit.note:
            said.append(kit.note)
        bases = sum(sheet.base is not None for sheet in kit.sheets)
        cut, whole = len(kit.sheets) - bases, sum(self.plan.wanted)
        parts = [f"{counted(cut, 'vel', 'vellen')} om te snijden"]
        if bases:
            parts.append(counted(bases, "vel dat heel blijft", "vellen die heel blijven"))
        parts.append(f"{counted(whole, 'stuk', 'stukken')} om op te bergen")
        scraps = counted(len(self.plan.scraps), "restje", "restjes")
        said.append(f"{', '.join(parts)}, {scraps} te verwachten.")
        tools = dict.fromkeys(tool for work in kit.work for tool in work.tools)
        if tools:
            said.append(f"Gereedschap: papiersnijder, {', '.join(tools)}.")
        by = ", ".join(text for text in (kit.edition, kit.author) if text)
        if by:
            said.append(f"{by}.")
        return tuple(said)

    # Around the step

    def figure(self, of: str) -> str:
        """One short word in large figures where there is no number: ``lijn``, ``restjes``."""
        return {"line": "lijn", "scrap": "restjes"}[of]

    def caption(self, of: str) -> str:
        """What a large figure is of, in a word or two, by its code."""
        return {
            "mark": "maat", "by hand": "meet", "about": "ongeveer", "line": "volgende gedrukte",
            "width": "breed", "sheet": "vel", "pocket": "vak", "scrap": "gaat naar de",
            "look again": "kijk nog eens", "belongs": "hoort in",
            "belongs scrap": "hoort bij de restjes",
        }[of]  # fmt: skip

    def into_pocket(self, count: int) -> str:
        """What a large figure is of, when so many go into a pocket at once."""
        return f"{count} in vak"

    def heading(self, of: str) -> tuple[str, str]:
        """Headline, and what the one key does, where no step is due; by a code."""
        return {
            "file": ("Opbergen", "ligt erin"),
            "scrap": ("Restje", "ligt bij de restjes"),
            "keep": ("Op het hoopje", "niets te doen"),
            "warning": ("Waarschuwing", ""),
            "over": ("Alles is klaar", "de eindstaat"),
        }[of]

    def over(self) -> str:
        """Says that nothing is left to do."""
        return "Elke stap is klaar. Kijk de eindstaat door."


def _done_to_paper(step: Step) -> str:
    """What paper is once a step is done: cut, torn, punched."""
    return _PAPER.get(step.verb or Verb.TRIM, "gesneden")


def _known_by(sheet: Sheet) -> str:
    """A sheet by its name, and by its face where that says more."""
    face = sheet.paper.face.name
    return sheet.name if face == sheet.name else f"{sheet.name} ({face})"
